"""The depth of field is thinner than what moves in it.

On set: every second take is soft, and it is seen only on the big screen.

How it is decided: near and far limit by the thin lens formula s f2 / (f2 +- N c (s - f)), with a blur c of a
fifteen-hundredth of the picture's diagonal. It is held against the marks a shot says its actors use ('marks:', all
sharp at once, but for the shoulder of an OTS), against the way of a push-in where nobody pulls focus, and against how
far somebody sways: 4 cm sitting or lying, 5 cm standing (blur and sway: common practice, no source). A T-number counts
as the f-number. Things at marks do not sway. Source of the formula: standard optics.

Fix: stop down to the stop named, step back, give somebody the focus, or bring the marks nearer together.

When to accept it: the softness is wanted, or focus is split on purpose.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import focus
from ..findings import NotChecked
from ..science import lens
from ..source.quantities import Stop, show
from .physics import Case, causes, fine, length, stops
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.scene import Shot
    from ..plan.setup import Setup

    Met = tuple[Setup, Shot, str, float, float, float]

RULE = "soft-plane"
SEVERITY: Final = "warning"
TITLE = "the depth of field is thinner than what moves in it"

TRIGGERS = """
hotset: 1
locations:
  landing: {sets: {office: {size: 4 m x 3 m x 2.4 m, marks: {desk: {at: [2.0 m, 1.5 m], sits: true}}}}}
gear:
  body-a: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9}
  portrait: {kind: lens, focal: 85 mm, closest: 0.8 m, circle: 44 mm}
setups:
  desk-close:
    set: office
    camera: {body: body-a, lens: portrait, at: [0.8 m, 1.5 m], height: 1.2 m, aim: desk, stop: T2}
scenes:
  4:
    shots:
      4C: {setup: desk-close, of: desk}  # <- here
"""
PASSES = TRIGGERS.replace("stop: T2}", "stop: T4}").replace("  # <- here", "")

SITS, STANDS = 0.04, 0.05
_THIRDS: tuple[float, ...] = tuple(2.0 ** (n / 6.0) for n in range(61))


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    cases: list[Case[Met]] = []
    for setup, shot in facts.takes:
        if shot is None or setup.camera is None or setup.camera.lens is None:
            continue
        lacks = focus.missing(facts.plan, setup, shot)
        if lacks:
            yield NotChecked(RULE, f"shot '{shot.id}'", lacks)
            continue
        met = _marks(facts, setup, shot) or _way(facts, setup, shot) or _sway(facts, setup, shot)
        if met is not None:
            cases.append(Case(shot.path, shot.id, met[3] / max(met[4], 1e-6), met))
    for cause in causes(facts.plan, cases):
        yield _finding(facts, cause.worst)


def _marks(facts: Facts, setup: Setup, shot: Shot) -> Met | None:
    """The marks of a shot all sharp at once: focused between them, near and far must hold them all."""
    if shot.size == "OTS":
        return None  # the shoulder in front is meant to be soft
    away = focus.depths(facts.plan, setup, shot.marks)
    if len(away) < 2 or min(away) <= 0 or max(away) - min(away) < 0.02:
        return None
    near, far = min(away), max(away)
    middle = 2.0 * near * far / (near + far)
    limits = focus.sharp(facts.plan, setup, shot, middle)
    if limits is None or (limits.near <= near + 1e-6 and limits.far >= far - 1e-6):
        return None
    return setup, shot, f"marks {quoted(shot.marks)} lie", far - near, lens.depth_over(limits), middle


def _way(facts: Facts, setup: Setup, shot: Shot) -> Met | None:
    """A move towards or away from the subject while nobody pulls focus."""
    away = focus.distances(facts.plan, setup, shot)
    if len(away) < 2 or not facts.plan.people or not (shot.hands or setup.hands) or _pulls(facts, setup, shot):
        return None
    first, last = away[0].metres, away[1].metres
    middle = (first + last) / 2.0
    limits = focus.sharp(facts.plan, setup, shot, middle)
    if limits is None or abs(first - last) <= lens.depth_over(limits):
        return None
    return setup, shot, "nobody pulls focus, and the move goes", abs(first - last), lens.depth_over(limits), middle


def _pulls(facts: Facts, setup: Setup, shot: Shot) -> bool:
    hands = {**setup.hands, **shot.hands}
    people = facts.plan.people
    operator = people.get(hands.get("camera", ""))
    return "focus" in hands or (operator is not None and "focus" in operator.skills)


def _sway(facts: Facts, setup: Setup, shot: Shot) -> Met | None:
    """Somebody at the mark, who sways."""
    plan = facts.plan
    room = plan.set_of(setup.id)
    mark = room.marks.get(focus.subject(setup, shot)) if room else None
    if mark is None or mark.thing or mark.height is not None or shot.cast == ():
        return None
    moves = SITS if mark.sits or mark.lies else STANDS
    thin: Met | None = None
    for away in focus.distances(plan, setup, shot):
        limits = focus.sharp(plan, setup, shot, away.metres)
        if limits is not None and lens.depth_over(limits) < moves - 1e-6:
            words = f"whoever {'sits' if mark.sits else 'lies' if mark.lies else 'stands'} at '{mark.id}' sways by"
            if thin is None or lens.depth_over(limits) < thin[4]:
                thin = (setup, shot, words, moves, lens.depth_over(limits), away.metres)
    return thin


def _finding(facts: Facts, case: Case[Met]) -> Finding:
    plan = facts.plan
    setup, shot, words, moves, depth, at = case.what
    limits = focus.sharp(plan, setup, shot, at)
    assert limits is not None
    assert setup.camera is not None
    assert setup.camera.stop is not None
    ways = []
    number = _enough(facts, setup, shot, at, moves)
    if number is not None:
        wanted = show("stop", Stop(round(number, 1), setup.camera.stop.transmission))
        darker = lens.stops_between(float(setup.camera.stop.number), number)
        ways.append(f"stop down to {wanted}, which asks for {stops(darker)} more light")
    ways.append("or go further away, and give somebody the focus" if "pulls" not in words else "or give it to somebody")
    return finding(
        plan,
        (RULE, SEVERITY),
        case.path,
        f"'{shot.id}' at {length(plan, at)} and {show('stop', setup.camera.stop)} is sharp over {fine(plan, depth)} "
        f"(from {length(plan, limits.near)} to {length(plan, limits.far)}), and {words} "
        f"{fine(plan, moves)}{' apart' if 'lie' in words else ''}",
        tuple(ways),
        (
            ("shot", shot.id),
            ("setup", setup.id),
            ("distance_m", round(at, 3)),
            ("near_m", round(limits.near, 4)),
            ("far_m", round(limits.far, 4)),
            ("moves_m", round(moves, 3)),
        ),
        typical=("blur of a fifteen-hundredth of the diagonal", *(["how far somebody sways"] * ("sways" in words))),
    )


def _enough(facts: Facts, setup: Setup, shot: Shot, at: float, moves: float) -> float | None:
    """The widest stop, in thirds up to f/32, at which the depth holds the movement."""
    now = focus.stop(setup) or 0.0
    for third in _THIRDS:
        limits = focus.sharp(facts.plan, setup, shot, at, third)
        if third > now and limits is not None and lens.depth_over(limits) >= moves:
            return third
    return None
