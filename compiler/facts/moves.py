"""What a move of the camera is, from the words a shot uses for it, and what carries it."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.scene import Shot
    from ..plan.setup import Setup

# Words of a shot's `move:` -> kind of move. The first that stands in the text decides; longer ones stand first.
_WORDS: tuple[tuple[str, str], ...] = (
    ("handheld", "handheld"),
    ("hand held", "handheld"),
    ("push", "push-in"),
    ("dolly in", "push-in"),
    ("track in", "push-in"),
    ("creep in", "push-in"),
    ("pull", "pull-out"),
    ("dolly out", "pull-out"),
    ("track out", "pull-out"),
    ("follow", "follow"),
    ("orbit", "orbit"),
    ("circle", "orbit"),
    ("arc", "orbit"),
    ("slide", "slide"),
    ("crab", "slide"),
    ("track", "slide"),
    ("dolly", "slide"),
    ("rise", "rise"),
    ("crane", "rise"),
    ("pan", "pan"),
    ("tilt", "tilt"),
)
# A support that makes the first makes the others: the way is the same, only its direction is not.
_ALSO = {"push-in": ("pull-out", "slide"), "pull-out": ("push-in", "slide"), "slide": ("push-in", "pull-out")}


def kind_of(text: str | None) -> str:
    """The kind of move that words speak of; "" for a camera that stands and for words not known."""
    spaced = f" {(text or '').lower().replace('-', ' ')} "
    return next((kind for word, kind in _WORDS if f" {word.replace('-', ' ')}" in spaced), "")


def move_of(setup: Setup, shot: Shot | None = None) -> tuple[str, str]:
    """Kind of the move and the path where it is said: the shot's own word, or the setup's."""
    if shot is not None and shot.move is not None:
        kind = kind_of(shot.move)
        if kind or setup.move is None or setup.move.kind is None:
            return kind, f"{shot.path}.move"
    if setup.move is not None and setup.move.kind:
        return setup.move.kind, f"{setup.move.path}.kind"
    return "", ""


def makes(support: Gear, kind: str) -> bool | None:
    """Whether a support makes a move; None where the plan does not say what moves it makes."""
    if not support.moves:
        return None
    said = {kind_of(m) or m for m in support.moves}
    return kind in said or any(other in said for other in _ALSO.get(kind, ()))


def by_hand(setup: Setup) -> bool:
    """Whether somebody carries the camera: then it goes where it is carried."""
    camera = setup.camera
    return camera is not None and (camera.held_by is not None or camera.on == "hand")


def who_can(plan: Plan, kind: str) -> tuple[list[str], list[str]]:
    """Supports that make the move, and those of which the plan does not say what they make."""
    supports = [g for g in plan.gear.values() if g.kind == "support"]
    return [g.id for g in supports if makes(g, kind)], [g.id for g in supports if makes(g, kind) is None]
