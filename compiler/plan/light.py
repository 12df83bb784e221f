"""The nouns of light: what a plan says, decoded. Keys and their meaning stand in schemas/nouns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record

if TYPE_CHECKING:
    from typing import Literal

    from ..source.quantities import Range
    from .spots import Aim, Spot
    from .units import Degrees, Kelvin, Metres, PerSecond, Share


@record
class Light:
    """A lamp in a setup."""

    id: str = ""
    path: str = ""
    lamp: tuple[str, ...] = ()
    with_: tuple[str, ...] = ()
    on: str | None = None
    held_by: str | None = None
    during: str | None = None
    at: Spot | None = None
    outside: str | None = None
    away: Metres | None = None
    along: Metres | None = None
    in_: str | None = None
    through: str | None = None
    height: Metres | None = None
    aim: Aim | None = None
    role: str | None = None
    colour: Kelvin | None = None
    level: Share | None = None
    circuit: str | None = None
    battery: str | None = None
    lead: tuple[str, ...] = ()
    bounce: Bounce | None = None
    effect: Effect | None = None
    motivated_by: str | None = None
    note: tuple[str, ...] = ()


@record
class Bounce:
    """What a lamp is bounced off."""

    id: str = ""
    path: str = ""
    use: str | None = None
    at: Spot | None = None
    height: Metres | None = None


@record
class Effect:
    """Flashing or flickering light."""

    id: str = ""
    path: str = ""
    flashes: PerSecond | None = None
    flickers: PerSecond | None = None
    between: Range | None = None
    red: bool | None = None
    note: tuple[str, ...] = ()


@record
class Practical:
    """A lamp that is in the picture."""

    id: str = ""
    path: str = ""
    prop: str | None = None
    bulb: str | None = None
    circuit: str | None = None
    battery: str | None = None
    at: Spot | None = None
    height: Metres | None = None
    level: Share | None = None
    colour: Kelvin | None = None
    effect: Effect | None = None
    note: tuple[str, ...] = ()


@record
class Treatment:
    """What is done to a window."""

    id: str = ""
    path: str = ""
    open: bool | None = None
    black_out: str | None = None
    tent: str | None = None
    depth: Metres | None = None
    layers: tuple[str, ...] = ()
    layers_of: int | None = None
    side: Literal["inside", "outside"] | None = None
    overlap: Metres | None = None
    note: tuple[str, ...] = ()


@record
class Grip:
    """A flag, cloth or frame."""

    id: str = ""
    path: str = ""
    use: str | None = None
    size: tuple[Metres, Metres] | None = None
    at: Spot | None = None
    height: Metres | None = None
    aim: Aim | None = None
    turned: Degrees | None = None
    on: str | None = None
    held_by: str | None = None
    note: tuple[str, ...] = ()
