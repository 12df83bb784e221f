"""The nouns of set: what a plan says, decoded. Keys and their meaning stand in schemas/nouns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import field, record

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Literal

    from .light import Practical, Treatment
    from .spots import Spot
    from .units import Degrees, Kilograms, Metres, Share, Stops


@record
class Set:
    """A room or an outdoor area."""

    id: str = ""
    path: str = ""
    name: str | None = None
    size: tuple[Metres, ...] | None = None
    outline: tuple[Spot, ...] = ()
    height: Metres | None = None
    north: Degrees | None = None
    outdoors: bool | None = None
    walls: Surface | None = None
    ceiling: Surface | None = None
    floor: Surface | None = None
    ceiling_holds: Kilograms | None = None
    doors: Mapping[str, Door] = field(default_factory=dict)
    windows: Mapping[str, Window] = field(default_factory=dict)
    mirrors: Mapping[str, Mirror] = field(default_factory=dict)
    furniture: Mapping[str, Furniture] = field(default_factory=dict)
    marks: Mapping[str, Mark] = field(default_factory=dict)
    outlets: Mapping[str, Outlet] = field(default_factory=dict)
    walkways: Mapping[str, Walkway] = field(default_factory=dict)
    vents: tuple[str, ...] = ()
    usual: Usual | None = None
    note: tuple[str, ...] = ()


@record
class Surface:
    """A wall, ceiling or floor."""

    id: str = ""
    path: str = ""
    colour: str | None = None
    reflects: Share | None = None
    note: tuple[str, ...] = ()


@record
class Door:
    """A door; light and camera may come through."""

    id: str = ""
    path: str = ""
    wall: str | None = None
    from_: Metres | None = None
    width: Metres | None = None
    height: Metres | None = None
    leads_to: str | None = None
    there: There | None = None
    opens: Literal["in", "out"] | None = None
    hinge: Literal["left", "right"] | None = None
    exit: bool | None = None
    note: tuple[str, ...] = ()


@record
class There:
    """Where a door stands in the room behind it."""

    id: str = ""
    path: str = ""
    wall: str | None = None
    from_: Metres | None = None


@record
class Window:
    """A window."""

    id: str = ""
    path: str = ""
    wall: str | None = None
    from_: Metres | None = None
    sill: Metres | None = None
    width: Metres | None = None
    height: Metres | None = None
    glass: str | None = None
    loses: Stops | None = None
    looks_to: str | None = None
    note: tuple[str, ...] = ()


@record
class Mirror:
    """A reflecting surface."""

    id: str = ""
    path: str = ""
    wall: str | None = None
    from_: Metres | None = None
    sill: Metres | None = None
    width: Metres | None = None
    height: Metres | None = None
    reflects: Share | None = None
    note: tuple[str, ...] = ()


@record
class Furniture:
    """A piece of furniture as a footprint."""

    id: str = ""
    path: str = ""
    at: Spot | None = None
    size: tuple[Metres, ...] | None = None
    height: Metres | None = None
    turned: Degrees | None = None
    thing: str | None = None
    note: tuple[str, ...] = ()


@record
class Mark:
    """Where an actor stands, sits or lies, or where a thing lies."""

    id: str = ""
    path: str = ""
    at: Spot | None = None
    height: Metres | None = None
    sits: bool | None = None
    lies: bool | None = None
    thing: bool | None = None
    faces: Spot | None = None
    note: tuple[str, ...] = ()


@record
class Outlet:
    """A socket."""

    id: str = ""
    path: str = ""
    wall: str | None = None
    from_: Metres | None = None
    at: Spot | None = None
    circuit: str | None = None
    plug: str | None = None
    sockets: int | None = None
    note: tuple[str, ...] = ()


@record
class Walkway:
    """A way that stays free."""

    id: str = ""
    path: str = ""
    from_: Spot | None = None
    to: Spot | None = None
    width: Metres | None = None
    note: tuple[str, ...] = ()


@record
class Usual:
    """What all setups in a set share; they write only differences."""

    id: str = ""
    path: str = ""
    windows: Mapping[str, Treatment] = field(default_factory=dict)
    practicals: Mapping[str, Practical] = field(default_factory=dict)
    dressing: tuple[str, ...] = ()
