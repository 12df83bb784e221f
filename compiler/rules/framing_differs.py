"""The lens at that distance gives another size than the shot asks for.

On set: the close-up is no close-up, the lens or the camera moves, and the marks, the focus and the light move with it.

How it is decided: the height of the picture at the subject is sensor height x distance on the floor / focal length
(thin lens geometry); the distances said are those from the lens to the eyes. A table of sizes says from which to which
body landmark each size reaches, for a person of the stated height who stands, sits or lies. At a move both ends are
looked at: it is enough that one of them has the size.
Source of the table: common practice, no source; stature fractions after Drillis and Contini (1966), from memory.

Fix: take the focal length or the distance that is named, or call the size what it will be.

When to accept it: the shot is meant to be found on the day.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from ..facts import tables, views
from ..findings import Finding, NotChecked
from ..plan.spots import Named
from ..science import framing, lens
from ..source.quantities import show

if TYPE_CHECKING:
    from ..facts import Facts
    from ..plan.scene import Shot
    from ..plan.setup import Setup

RULE = "framing-differs"
SEVERITY: Final = "warning"
TITLE = "the lens gives another size than the shot asks for"

TRIGGERS = """
hotset: 1
locations:
  landing: {sets: {office: {size: 4.2 m x 3.6 m x 2.4 m, marks: {desk: {at: [2.0 m, 1.5 m], sits: true}}}}}
gear:
  body-a: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9}
  lens-35: {kind: lens, focal: 35 mm}
setups:
  office-close:
    set: office
    camera: {body: body-a, lens: lens-35, at: [1.1 m, 1.4 m], height: 1.5 m, aim: desk}
scenes: {4: {shots: {4B: {size: CU, setup: office-close}}}}  # <- here
"""
PASSES = TRIGGERS.replace("size: CU", "size: MCU")
_INSERT_OFF = 1.25  # an insert may be a quarter wider or closer; common practice, no source


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    for shot in plan.shots.values():
        setup = plan.setups.get(shot.setup or "")
        if setup is None or (shot.size is None and shot.frame is None):
            continue
        lacks = views.missing_for_view(plan, setup)
        if lacks:
            yield NotChecked(RULE, f"shot '{shot.id}'", lacks)
            continue
        yield from _shot(facts, shot, setup)


def _frames(facts: Facts, shot: Shot, setup: Setup) -> list[tuple[float, float, float]]:
    """Height of the picture, distance on the floor, rise of the lens over the eyes: at the start and at the end."""
    found = []
    gate, focal = views.picture(facts.plan, setup, shot), views.focal(facts.plan, setup, shot)
    moves = shot.move is not None and shot.move != "static"
    for end in (False, True) if moves else (False,):
        away = views.subject_distance(facts.plan, setup, shot, end=end)
        if away is None or gate is None or focal is None:
            continue
        flat, tape = away
        zoom = setup.move.zoom_to if end and setup.move and setup.move.zoom_to is not None else focal
        found.append((lens.frame_at(gate.height, float(zoom), flat), flat, max(tape**2 - flat**2, 0.0) ** 0.5))
    return found


def _shot(facts: Facts, shot: Shot, setup: Setup) -> Iterator[Finding | NotChecked]:
    frames = _frames(facts, shot, setup)
    gate, focal = views.picture(facts.plan, setup, shot), views.focal(facts.plan, setup, shot)
    if not frames or gate is None or focal is None:
        wants = "'zoom:' of the camera" if focal is None else "the place of what it looks at"
        yield NotChecked(RULE, f"shot '{shot.id}'", wants)
        return
    if shot.frame is not None:
        yield from _insert(facts, shot, frames[0][0])
        return
    table = tables.framing()
    name = framing.canonical(table, shot.size or "")
    sizes = {s.name: s for s in framing.sizes_of(table, *_person(facts, shot, setup))}
    if name is None or name not in sizes or _looks_at_thing(facts, shot, setup):
        return
    wanted = sizes[name]
    if any(framing.meets(wanted, frame) for frame, _, _ in frames):
        return
    frame, flat, rise = min(frames, key=lambda f: abs(f[0] - wanted.likely))
    got = framing.nearest(list(sizes.values()), frame)
    cure = framing.remedy(wanted, gate.height, focal, flat, rise)
    lengths = facts.plan.film.lengths or "metric"
    at = f" at '{mark}'" if (mark := _mark(shot, setup)) else ""
    here = math.hypot(flat, rise)
    yield Finding(
        RULE,
        SEVERITY,
        f"'{shot.id}' is framed {_high(frame, lengths)} high{at} from {_far(here, lengths)}{_ends(frames, lengths)}: "
        f"{_a(got.words)}, not {_a(wanted.words)}",
        facts.plan.where(f"{shot.path}.size"),
        ways_out=(
            f"about {cure.focal * 1000:.0f} mm from here would do, or {_far(cure.tape, lengths)} from the eyes instead "
            f"of {_far(here, lengths)}",
            f"or call it {got.name}",
        ),
        details=(
            ("shot", shot.id),
            ("setup", setup.id),
            ("frame_m", round(frame, 3)),
            ("size_asked", wanted.name),
            ("size_got", got.name),
            ("frame_low_m", round(wanted.low, 3)),
            ("frame_high_m", round(wanted.high, 3)),
            ("focal_mm", round(cure.focal * 1000, 1)),
            ("distance_m", round(cure.tape, 2)),
            ("distance_now_m", round(here, 2)),
        ),
        typical=("shot sizes", *(() if _known_height(facts, shot, setup) else ("height of the person",))),
    )


def _high(metres: float, lengths: str) -> str:
    return show("length", metres, lengths) if metres >= 1 else f"{metres * 100:.0f} cm"


def _far(metres: float, lengths: str) -> str:
    """A distance to 5 cm, as a tape is held."""
    return show("length", round(round(metres / 0.05) * 0.05, 2), lengths)


def _ends(frames: list[tuple[float, float, float]], lengths: str) -> str:
    """Both ends of a move, where the shot has one."""
    if len(frames) < 2:
        return ""
    start, end = (f"{_high(f, lengths)} from {_far(math.hypot(flat, rise), lengths)}" for f, flat, rise in frames)
    return "" if start == end else f" (at the start {start}, at the end {end})"


def _insert(facts: Facts, shot: Shot, frame: float) -> Iterator[Finding]:
    wanted = float(shot.frame or 0.0)
    if wanted <= 0 or 1 / _INSERT_OFF <= frame / wanted <= _INSERT_OFF:
        return
    yield Finding(
        RULE,
        SEVERITY,
        f"'{shot.id}' is framed {frame * 100:.0f} cm high, but {wanted * 100:.0f} cm are asked for",
        facts.plan.where(f"{shot.path}.frame"),
        ways_out=("move the camera nearer or further in the same measure", "or take another focal length"),
        details=(("shot", shot.id), ("frame_m", round(frame, 3)), ("frame_asked_m", wanted)),
    )


def _mark(shot: Shot, setup: Setup) -> str:
    aim = setup.camera.aim.at if setup.camera and setup.camera.aim else None
    return shot.of or (aim.mark if isinstance(aim, Named) else "")


def _looks_at_thing(facts: Facts, shot: Shot, setup: Setup) -> bool:
    """A size speaks of a person: furniture, doors and marks for things have none."""
    room = facts.plan.sets.get(setup.set or "")
    mark = room.marks.get(_mark(shot, setup)) if room else None
    return mark is None or bool(mark.thing) or mark.height is not None


def _known_height(facts: Facts, shot: Shot, setup: Setup) -> bool:
    return _person(facts, shot, setup)[0] is not None


def _person(facts: Facts, shot: Shot, setup: Setup) -> tuple[float | None, str]:
    """Stature of who is in the shot, where it is one person or all are alike, and the pose at the mark."""
    plan = facts.plan
    cast = [p for _, p in (shot.cast if shot.cast is not None else setup.cast) or ()]
    heights = {float(t) for p in cast if p in plan.people and (t := plan.people[p].tall) is not None}
    room = plan.sets.get(setup.set or "")
    mark = room.marks.get(_mark(shot, setup)) if room else None
    pose = "lying" if mark and mark.lies else "sitting" if mark and mark.sits else "standing"
    return (heights.pop() if len(heights) == 1 else None), pose


def _a(words: str) -> str:
    return f"an {words}" if words[:1] in "aeio" else f"a {words}"
