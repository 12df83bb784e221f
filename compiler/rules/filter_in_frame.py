"""Filters on one another, a hood or a matte box stand in the corners of the picture.

On set: the corners are dark, it is taken for the lens, and on the big monitor it is the edge of a ring.

How it is decided: in each shot at its widest. The light of a corner of the picture runs through the middle of the
lens's entrance pupil; where a thing before the lens stands in that line, at least half of the corner's light is gone.
The pupil is taken to lie as deep behind the front glass ('front:' of the lens) as the edge of the image circle needs at
full opening. A filter leaves its thread less a rim of 2 mm and is 5 mm thick, a ring 3 mm (common practice, no source),
unless 'clear:' and 'thick:' say otherwise; a matte box leaves its 'opening:'. A single filter on a lens without
'front:' is left out.

Formula: clear diameter >= 2 (p + t) d / 2f, with p = (front - f/N) f / c, t how far the thing reaches before the glass,
d the picture's diagonal (its sides for an opening), f the focal length, N the widest stop, c the image circle. Source:
plane geometry of rays; 'front:' and the rest are the lens's own data.

Fix: take a wider filter with its ring, fewer or thinner ones, a shorter hood, or a longer lens.

When to accept it: you have seen the corners through this lens, at this stop; or dark corners are wanted.
"""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING, Final, NamedTuple

from ..facts import focus, front
from ..findings import NotChecked
from ..source.quantities import show
from .physics import Case, causes
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.front import Cut, Eye, Stack
    from ..findings import Finding
    from ..plan.gear import Gear
    from ..plan.scene import Shot
    from ..plan.setup import Setup

RULE = "filter-in-frame"
SEVERITY: Final = "warning"
TITLE = "what stands before the lens stands in the picture's corners"

TRIGGERS = """
hotset: 1
gear:
  body-a: {kind: camera, sensor: 36 mm x 24 mm}
  wide-20: {kind: lens, focal: 20 mm, opens: T2, circle: 43.3 mm, front: 44 mm, thread: 67 mm}
  soft-glass: {kind: filter, thread: 67 mm, thick: 5 mm, clear: 63 mm, quantity: 2}
  grey-glass: {kind: filter, thread: 67 mm, thick: 8 mm, clear: 63 mm}
setups:
  office-wide:
    camera:
      body: body-a
      lens: wide-20
      filters: [soft-glass, grey-glass, soft-glass]  # <- here
"""
PASSES = TRIGGERS.replace("grey-glass, soft-glass]  # <- here", "grey-glass]")

# Usual filter threads in metres; common practice, no source.
THREADS = (0.049, 0.052, 0.055, 0.058, 0.062, 0.067, 0.072, 0.077, 0.082, 0.086, 0.095, 0.105, 0.112, 0.127)
SEEN = 0.0005  # metres; what is less is within what rims are made to


class _Met(NamedTuple):
    """One shot whose corners are cut."""

    glass: Gear
    eye: Eye
    stack: Stack
    worst: Cut


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[_Met]] = []
    for setup, shot in facts.takes:
        camera, glass = setup.camera, focus.glass(plan, setup, shot)
        if camera is None or glass is None or glass.kind != "lens":
            continue
        names, path = _filters(setup, shot)
        stack = front.stack(plan, glass, names, path)
        if stack.wants:
            yield NotChecked(RULE, f"'{names[-1]}' on '{glass.id}'", stack.wants)
        seen = front.eye(plan, setup, shot, glass) if stack.parts else ""
        if isinstance(seen, str):
            if len(stack.parts) > 1 or any(part.ahead > 2 * front.FILTER_THICK for part in stack.parts):
                yield NotChecked(RULE, f"{quoted(p.thing for p in stack.parts)} on '{glass.id}'", seen)
            continue
        cut = max(front.cuts(seen, stack.parts), key=lambda c: c.short, default=None)
        if cut is not None and cut.short > SEEN:
            who = shot.id if shot is not None else setup.id
            cases.append(Case(cut.part.path, who, cut.short, _Met(glass, seen, stack, cut)))
    for cause in causes(plan, cases):
        yield _finding(facts, cause.worst, cause.also)


def _filters(setup: Setup, shot: Shot | None) -> tuple[tuple[str, ...], str]:
    if shot is not None and shot.filters:
        return shot.filters, f"{shot.path}.filters"
    assert setup.camera is not None
    return setup.camera.filters, f"{setup.camera.path}.filters"


def _mm(metres: float) -> str:
    return f"{metres * 1000:.1f}".removesuffix(".0") + " mm"


def _finding(facts: Facts, case: Case[_Met], also: str) -> Finding:
    glass, seen, stack, cut = case.what
    part = cut.part
    wants, has = _mm(cut.width), _mm(part.width)
    if not part.round_:
        wants = f"{wants} x {_mm(cut.height)}"
        has = f"{has} x {_mm(part.height)}"
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        part.path,
        f"'{part.thing}' reaches {_mm(part.ahead)} before the glass of '{glass.id}' and leaves {has} clear; in "
        f"'{case.who}', at {_mm(seen.focal)}, the picture needs {wants} there, and less than half the light gets into "
        f"its {'corners' if part.round_ else 'edges'}{also}",
        tuple(_ways(seen, stack, cut)),
        (
            ("shot", case.who),
            ("lens", glass.id),
            ("thing", part.thing),
            ("ahead_m", round(part.ahead, 5)),
            ("clear_m", round(min(part.width, part.height), 5)),
            ("needed_m", round(max(cut.width, cut.height), 5)),
            ("pupil_depth_m", round(seen.depth, 5)),
        ),
        typical=tuple(dict.fromkeys(words for p in stack.parts for words in p.typical)),
    )


def _ways(seen: Eye, stack: Stack, cut: Cut) -> Iterator[str]:
    first = True
    fewer = [p.thing for p in stack.parts if p.ahead < cut.part.ahead]
    if fewer and not any(c.part.ahead < cut.part.ahead for c in front.cuts(seen, stack.parts)):
        yield f"take off '{cut.part.thing}': with {quoted(fewer)} alone the corners are clear"
        first = False
    side = hypot(seen.width, seen.height)
    wider = next((t for t in THREADS if t - front.RIM >= cut.width), None) if cut.part.round_ else None
    if wider is not None:
        yield f"{'' if first else 'or '}take a {show('length', wider)} one, with its step ring"
        first = False
    if cut.part.round_:
        longest = cut.part.width * seen.focal / side - seen.depth
    else:
        longest = min(cut.part.width / seen.width, cut.part.height / seen.height) * seen.focal - seen.depth
    if longest > 0:
        words = f"let it reach no further than {_mm(int(longest * 2000) / 2000)} before the glass"
        yield f"{'' if first else 'or '}{words}"
        first = False
    yield f"{'' if first else 'or '}take a longer lens, or look at the corners and accept them"
