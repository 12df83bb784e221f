"""Nothing in the plan carries the camera through its move, or a thing that carries nothing is named as the support.

On set: the push-in is rehearsed, and the camera stands on sticks.

How it is decided: the move is the shot's 'move:' in words (push-in, slide, follow, pan and the like) or the setup's
'move: {kind: ...}'. The support is the one under the camera's 'on:', and it must name the move under 'moves:' (one that
pushes in also pulls out and slides); where the camera names none, any support the plan owns will do. A camera that is
held ('held-by:' or 'on: hand') goes where it is carried. Only a support or grip thing may stand under 'on:'.
Source: common practice, no source.

Fix: name a support that makes the move, add what moves to the gear, or hold the camera.

When to accept it: the move is made in post.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import moves
from ..facts.occupancy import is_proper
from ..findings import NotChecked
from .words import Once, finding, quoted, written

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.scene import Shot
    from ..plan.setup import Setup

RULE = "no-support"
SEVERITY: Final = "error"
TITLE = "nothing carries the camera through its move"

TRIGGERS = """
hotset: 1
gear:
  body-a: {kind: camera}
  sticks: {kind: support, moves: [pan, tilt]}
setups:
  close: {camera: {body: body-a, on: sticks}}
scenes:
  4:
    shots:
      4B:
        setup: close
        move: slow push-in  # <- here
"""
PASSES = TRIGGERS.replace("tilt]}", "tilt]}\n  rails: {kind: support, moves: push-in}").replace(
    "on: sticks", "on: rails"
).replace("  # <- here", "")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    if not plan.gear:
        moving = [s for s in plan.shots.values() if moves.kind_of(s.move)]
        if moving:
            yield NotChecked(RULE, f"shot '{moving[0].id}'", "the supports under 'gear:', with 'moves:'")
        return
    yield from _carries_nothing(facts)
    fresh = Once(plan)
    said: set[tuple[str, str]] = set()
    for setup, shot in facts.takes:
        kind, path = moves.move_of(setup, shot)
        if kind and kind != "handheld" and (setup.id, kind) not in said and not moves.by_hand(setup):
            said.add((setup.id, kind))
            found = _move(facts, setup, shot, kind, path)
            if isinstance(found, NotChecked) or (found is not None and fresh(path)):
                yield found


def _move(facts: Facts, setup: Setup, shot: Shot | None, kind: str, path: str) -> Finding | NotChecked | None:
    plan = facts.plan
    subject = f"'{shot.id}'" if shot else f"'{setup.id}'"
    words = shot.move if shot and path.startswith(shot.path) else kind
    on = setup.camera.on if setup.camera else None
    can, silent = moves.who_can(plan, kind)
    if on is None:
        if can or (setup.camera and written(plan, f"{setup.camera.path}.on")):
            return None
        if silent:
            return NotChecked(RULE, f"{subject}: {words}", f"'moves:' of {quoted(silent, 'or')}")
        sentence = f"{subject} says '{words}', and no support in the plan makes a {kind}"
    elif on in plan.gear:
        answer = moves.makes(plan.gear[on], kind)
        if answer or plan.gear[on].kind not in ("support", "grip"):
            return None
        if answer is None:
            return NotChecked(RULE, f"{subject}: {words}", f"'moves:' of '{on}'")
        sentence = f"{subject} says '{words}', and '{on}' makes only {quoted(plan.gear[on].moves)}"
    else:
        sentence = f"{subject} says '{words}', and the camera stands on the {on}"
    ways = [f"put the camera on {quoted(can, 'or')}"] if can else [f"add a support with 'moves: {kind}' to the gear"]
    ways.append("or hold the camera: 'held-by:' under the camera")
    return finding(
        plan,
        (RULE, SEVERITY),
        path,
        sentence,
        tuple(ways),
        (("setup", setup.id), ("move", kind), ("on", on or "")),
    )


def _carries_nothing(facts: Facts) -> Iterator[Finding]:
    """Things under `on:` that carry nothing."""
    fresh = Once(facts.plan)
    for name, uses in facts.uses.items():
        for use in uses:
            kind = facts.plan.gear[use.thing].kind
            if use.path.endswith(".on") and kind and not is_proper(facts.plan, use) and fresh(use.path):
                yield finding(
                    facts.plan,
                    (RULE, SEVERITY),
                    use.path,
                    f"{use.who} is to stand on '{use.thing}', but that is a {kind} and carries nothing",
                    ("write the stand, sticks or other support that is meant",),
                    (("setup", name), ("on", use.thing), ("kind", kind)),
                )
