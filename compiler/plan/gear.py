"""The nouns of gear: what a plan says, decoded. Keys and their meaning stand in schemas/nouns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import field as fresh
from ..record import record

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Literal

    from ..source.quantities import Moment, Money, Output, Range, Stop
    from .units import (
        Amperes,
        Degrees,
        Kilograms,
        MegabitsPerSecond,
        MegabytesPerSecond,
        Metres,
        Mired,
        Seconds,
        SquareMillimetres,
        Stops,
        Watts,
    )


@record
class Gear:
    """A thing that is carried to the set."""

    id: str = ""
    path: str = ""
    kind: (
        Literal[
            "camera",
            "lens",
            "filter",
            "adapter",
            "support",
            "light",
            "modifier",
            "grip",
            "power",
            "battery",
            "charger",
            "media",
            "reader",
            "drive",
            "sound",
            "monitor",
            "tool",
            "prop",
            "furniture",
            "wardrobe",
        ]
        | None
    ) = None
    of: str | None = None
    quantity: int | None = None
    department: str | None = None
    owner: Literal["own", "borrowed", "rented", "bought"] | None = None
    lent_by: str | None = None
    in_hands: Moment | None = None
    due: Moment | None = None
    fetch: Errand | None = None
    return_: Errand | None = None
    cost: Money | None = None
    value: Money | None = None
    weight: Kilograms | None = None
    case: str | None = None
    size: tuple[Metres, ...] | None = None
    mount: str | None = None
    needs: tuple[str, ...] = ()
    plan_b: tuple[str, ...] = ()
    draws: Watts | None = None
    factor: float | None = None
    inrush: Amperes | None = None
    plug: str | None = None
    outlet: str | None = None
    lead: Metres | None = None
    battery: str | None = None
    runs: Seconds | None = None
    colour: Range | None = None
    tint: str | None = None
    gives: Mapping[str, Output] = fresh(default_factory=dict)
    beam: Range | None = None
    field: Range | None = None
    dims: Range | None = None
    flicker: str | None = None
    hot_within: Metres | None = None
    fan: Literal["loud", "quiet", "none"] | None = None
    fits: tuple[str, ...] = ()
    loses: Stops | None = None
    shifts: Mired | None = None
    makes: Degrees | None = None
    soft: tuple[Metres, ...] | None = None
    focal: Range | None = None
    opens: Stop | None = None
    closest: Metres | None = None
    circle: Metres | None = None
    thread: Metres | None = None
    front: Metres | None = None
    clear: Metres | None = None
    opening: tuple[Metres, Metres] | None = None
    squeeze: float | None = None
    sensor: tuple[Metres, Metres] | None = None
    aspect: float | None = None
    iso: tuple[float, ...] = ()
    codecs: Mapping[str, MegabitsPerSecond] = fresh(default_factory=dict)
    from_: str | None = None
    to: str | None = None
    thick: Metres | None = None
    moves: tuple[str, ...] = ()
    carries: Kilograms | None = None
    reaches: Range | None = None
    base: Metres | None = None
    counterweight: bool | None = None
    bags: int | None = None
    long: Metres | None = None
    section: SquareMillimetres | None = None
    sockets: int | None = None
    rating: Amperes | None = None
    coiled: Amperes | None = None
    holds: str | None = None
    plate: str | None = None
    charges: tuple[str, ...] = ()
    slots: int | None = None
    fills: Seconds | None = None
    writes: MegabytesPerSecond | None = None
    reads: MegabytesPerSecond | None = None
    practical: bool | None = None
    bulb: str | None = None
    weapon: bool | None = None
    breaks: bool | None = None
    worn_by: str | None = None
    note: tuple[str, ...] = ()


@record
class Errand:
    """Fetching or bringing back."""

    id: str = ""
    path: str = ""
    by: str | None = None
    takes: Seconds | None = None
    at: Moment | None = None
    note: tuple[str, ...] = ()
