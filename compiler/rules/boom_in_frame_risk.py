"""The boom cannot hang over the picture without being in it.

On set: the microphone dips into the upper edge in the best take, or stays so far up that only the room is heard.

How it is decided: in a setup with a boom and a shot that says 'sync' (or whose scene does), the upper edge of the
picture over the subject, at both ends of the move, with the microphone 10 cm above it. It is a risk where that is
higher than the 'height:' that the sound plan says, or than the ceiling of the set. With 'wireless:' beside the boom
nothing is said. Formula: central projection; the subject is the camera's aim. 10 cm: common practice, no source.

Fix: a clip-on microphone ('wireless:'), a longer lens, the boom from below, or the lines as a wild track.

When to accept it: the boom comes from below, or from the side of a picture in which nobody speaks there.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands, places, views, walls
from ..science import camera as cameras
from .physics import Case, causes, length
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.setup import Setup

    Met = tuple[Setup, float, float, str]

RULE = "boom-in-frame-risk"
SEVERITY: Final = "warning"
TITLE = "the boom has no place over the picture"

TRIGGERS = """
hotset: 1
people: {jon: {works: sound}, olek: {works: camera}}
locations:
  landing: {sets: {office: {size: 4.2 m x 3.6 m x 2.4 m, marks: {desk: {at: [2.0 m, 3.0 m]}}}}}
gear:
  body-a: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9}
  wide: {kind: lens, focal: 20 mm}
  pole: {kind: sound}
setups:
  office-wide:
    set: office
    camera: {body: body-a, lens: wide, at: [2.0 m, 0.4 m], height: 1.5 m, aim: desk}
    sound:
      boom: pole  # <- here
scenes: {4: {sound: sync, shots: {4A: {setup: office-wide}}}}
"""
PASSES = TRIGGERS.replace("focal: 20 mm", "focal: 50 mm").replace("  # <- here", "")
OVER = 0.1


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    sync = {s.id: s for s, shot in facts.takes if shot is not None and hands.is_sync(plan, shot)}
    cases: list[Case[Met]] = []
    for setup in sync.values():
        sound = setup.sound
        if sound is None or not sound.boom or sound.wireless:
            continue
        edge = upper_edge(facts, setup)
        room = plan.set_of(setup.id)
        if edge is None:
            continue
        roof = walls.ceiling(room) if room is not None and not room.outdoors else None
        if sound.height is not None and float(sound.height) - OVER < edge - 1e-9:
            cases.append(Case(f"{sound.path}.height", setup.id, edge, (setup, edge, float(sound.height), "said")))
        elif sound.height is None and roof is not None and edge + OVER > roof + 1e-9:
            cases.append(Case(f"{sound.path}.boom", setup.id, edge + OVER - roof, (setup, edge, roof, "roof")))
    for cause in causes(plan, cases):
        setup, edge, limit, kind = cause.worst.what
        way = f"hang it at {length(plan, edge + OVER)} or higher" if kind == "said" else "take the boom from below"
        against = (
            f"the boom is to hang at {length(plan, limit)}: it is in the picture, or {length(plan, OVER)} from it"
            if kind == "said"
            else f"the ceiling is at {length(plan, limit)}: the boom has no place over it"
        )
        yield finding(
            plan,
            (RULE, SEVERITY),
            cause.worst.path,
            f"the picture of '{setup.id}' reaches up to {length(plan, edge)} over its subject, and {against}"
            f"{cause.also}",
            (way, "or take a clip-on microphone: 'wireless:' under 'sound:'", "or a longer lens, or a wild track"),
            (("setup", setup.id), ("edge_m", round(edge, 2)), ("limit_m", round(limit, 2)), ("over_m", OVER)),
            also=[(f"{setup.path}.camera", "the camera")],
        )  # fmt: skip


def upper_edge(facts: Facts, setup: Setup) -> float | None:
    """How high the picture reaches in metres, straight over the camera's subject, at the end of the move where it
    reaches highest; None where the plan says too little or the camera looks down."""
    plan = facts.plan
    ends = views.ends(plan, setup)
    start = places.camera(plan, setup)
    last = places.camera_end(plan, setup) or start
    if not ends or start is None or start.down or last is None or last.down:
        return None
    found = [_edge(end, stand.aim) for end, stand in zip(ends, (start, last), strict=False)]
    return None if None in found else max(f for f in found if f is not None)


def _edge(camera: cameras.Camera, aim: tuple[float, float, float]) -> float | None:
    """The height at which a vertical over the aim leaves the frame by its upper edge."""
    low, high = aim[2], aim[2] + 20.0
    inside = cameras.project(camera, aim)
    if inside is None or inside[1] > 1.0:
        return None
    for _ in range(40):
        middle = (low + high) / 2
        at = cameras.project(camera, (aim[0], aim[1], middle))
        low, high = (middle, high) if at is not None and at[1] <= 1.0 else (low, middle)
    return low
