"""The nouns of stock: what a plan says, decoded. Keys and their meaning stand in schemas/nouns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record

if TYPE_CHECKING:
    from typing import Literal

    from ..source.quantities import Moment, Money
    from .gear import Errand
    from .units import Kilograms, Metres, Mired, Share, Stops


@record
class Stock:
    """Cloth, gel, tape, batteries: what is cut or used up."""

    id: str = ""
    path: str = ""
    of: str | None = None
    opaque: bool | None = None
    roll: tuple[Metres, Metres] | None = None
    pieces: tuple[Piece, ...] = ()
    quantity: int | None = None
    loses: Stops | None = None
    shifts: Mired | None = None
    reflects: Share | None = None
    colour: str | None = None
    overlap: Metres | None = None
    for_: tuple[str, ...] = ()
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
    note: tuple[str, ...] = ()


@record
class Piece:
    """Pieces of one size."""

    id: str = ""
    path: str = ""
    size: tuple[Metres, Metres] | None = None
    count: int | None = None
