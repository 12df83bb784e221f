"""Places in a set and what a camera or a lamp points at, as a plan says them."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from ..record import record
from ..source.quantities import Around, Towards

if TYPE_CHECKING:
    from .units import Metres


@record
class Point:
    """A point of the floor in metres from the set's south-west corner: x along the south wall, y away from it."""

    x: Metres
    y: Metres


@record
class Named:
    """A mark or a piece of furniture, by its name."""

    mark: str


Spot: TypeAlias = Point | Named | Around | Towards


@record
class Aim:
    """What something points at: a spot at a height (the eyes of a person's mark when none is said), straight down,
    or a mirror in which something is seen."""

    at: Spot | None = None
    height: Metres | None = None
    down: bool = False
    mirror: str | None = None
    sees: str | None = None
