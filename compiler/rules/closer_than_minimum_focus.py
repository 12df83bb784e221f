"""The subject is nearer to the camera than the lens can focus.

On set: the face stays soft whatever the focus ring does, and camera, marks and lamps move back.

How it is decided: the distance from the camera's place to the subject's eyes (to the thing, or to what 'focus:' names),
at both ends of a move, against the lens's 'closest:', which makers count from the image plane. Source: the lens's own
data; the camera's place counts as its image plane, so a few centimetres are within the error.

Fix: move the camera back to the distance named, or take a lens that focuses nearer.

When to accept it: a close-up lens or an extension ring is in the bag; say so in a note.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import focus
from ..findings import NotChecked
from .physics import Case, causes, length, up
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.gear import Gear
    from ..plan.setup import Setup

    Met = tuple[Setup, Gear, focus.Distance]

RULE = "closer-than-minimum-focus"
SEVERITY: Final = "warning"
TITLE = "the subject is nearer than the lens can focus"

TRIGGERS = """
hotset: 1
locations:
  landing: {sets: {office: {size: 4 m x 3 m x 2.4 m, marks: {till: {at: [2.0 m, 1.5 m], thing: true, height: 1 m}}}}}
gear:
  body-a: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9}
  portrait: {kind: lens, focal: 85 mm, closest: 0.85 m}
  normal: {kind: lens, focal: 50 mm, closest: 0.45 m}
setups:
  till-close:
    set: office
    camera: {body: body-a, lens: portrait, at: [1.4 m, 1.5 m], height: 1 m, aim: till}
scenes:
  4:
    shots:
      4A: {setup: till-close, of: till}  # <- here
      4B: {setup: till-close, of: till, lens: normal}
"""
PASSES = TRIGGERS.replace("[1.4 m, 1.5 m]", "[1.15 m, 1.5 m]").replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup, shot in facts.takes:
        glass = focus.glass(plan, setup, shot)
        if shot is None or glass is None or glass.kind != "lens":
            continue
        found = focus.distances(plan, setup, shot)
        if glass.closest is None:
            if found:
                yield NotChecked(RULE, f"lens '{glass.id}'", f"'closest:' of '{glass.id}'")
            continue
        for away in found:
            if away.metres < float(glass.closest) - 0.005:
                path = f"{shot.path}.lens" if shot.lens else shot.path
                cases.append(Case(path, shot.id, float(glass.closest) - away.metres, (setup, glass, away)))
    for cause in causes(plan, cases):
        yield _finding(facts, cause.worst)


def _finding(facts: Facts, case: Case[Met]) -> Finding:
    plan = facts.plan
    setup, glass, away = case.what
    least = float(glass.closest or 0.0)
    nearer = _others(facts, glass, away.metres)
    when = f" at the {away.end} of the move" if away.end else ""
    ways = [f"move the camera back by {length(plan, up(least - away.metres))}"]
    if nearer:
        ways.append(f"or take '{nearer[0].id}', which focuses from {length(plan, float(nearer[0].closest or 0))}")
    return finding(
        plan,
        (RULE, SEVERITY),
        case.path,
        f"'{case.who}' is {length(plan, away.metres)} from its subject{when}, and '{glass.id}' focuses only from "
        f"{length(plan, least)}",
        tuple(ways),
        (
            ("shot", case.who),
            ("setup", setup.id),
            ("lens", glass.id),
            ("distance_m", round(away.metres, 3)),
            ("closest_m", least),
        ),
        also=[(f"{glass.path}.closest", "the lens")],
    )


def _others(facts: Facts, lens: Gear, metres: float) -> list[Gear]:
    """Lenses of the same mount that focus so near, the one with the most similar focal length first."""
    focal = lens.focal.lo if lens.focal else 0.0
    found = [
        g
        for g in facts.plan.gear.values()
        if g.kind == "lens" and g.closest is not None and float(g.closest) <= metres and g.mount == lens.mount
    ]
    return sorted(found, key=lambda g: abs((g.focal.lo if g.focal else 0.0) - focal))
