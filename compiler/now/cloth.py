"""What a part of a roll that is lost does to the setups to come: whether what remains can still be cut for them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import cloth as facts_cloth
from ..facts.cloth import Lack
from ..facts.shortfall import cloth_moments
from ..record import record, replace

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from ..facts import Facts
    from ..plan.stock import Stock


@record
class Reach:
    """`falls`: setup -> why its cloth does not reach any more; `remarks` for the crew: what still reaches, and what is
    for them to judge."""

    falls: Mapping[str, str]
    remarks: tuple[str, ...]


def reach(facts: Facts, cut: Iterable[tuple[str, float]], left: Iterable[str]) -> Reach:
    """What is left of cloth, diffusion and gel of which so many metres are lost, against the setups that are left."""
    falls: dict[str, str] = {}
    remarks: list[str] = []
    names = tuple(left)
    for thing, metres in cut:
        stock = facts.plan.stock[thing]
        if stock.roll is None:
            remarks.append(
                f"{round(metres, 1):g} m of '{thing}' are lost, and the plan does not say how long its roll is"
            )
            continue
        shorter = shortened(stock, metres)
        have = f"{_metres(stock):g} m"
        unsure = list(_judge(facts, stock, shorter, names, falls))
        rest = f"{round(metres, 1):g} m of the {have} of '{thing}' are lost"
        if unsure:
            remarks.append(f"{rest}: lay out what is left before {', '.join(f'{name!r}' for name in unsure)}")
        elif not any(f"'{thing}'" in why for why in falls.values()):
            remarks.append(f"{rest}; what is left reaches for every setup that comes")
    return Reach(falls, tuple(remarks))


def _judge(
    facts: Facts, stock: Stock, shorter: tuple[Stock, ...], left: tuple[str, ...], falls: dict[str, str]
) -> Iterator[str]:
    """Note the setups for which a stock does not reach any more; give those of which nothing can be said."""
    for moment in cloth_moments(facts, facts_cloth.kind(stock)):
        if isinstance(moment, Lack) or moment.stock != stock.id or moment.setup not in left:
            continue
        if facts_cloth.reaches(stock, moment.panels) is False:
            continue  # it never did: that is for 'hotset check' to say
        able = facts_cloth.joined_reach(shorter, moment.panels)
        area = sum(p.width * p.height for p in moment.panels)
        if able is False:
            beside = f" beside {', '.join(f'{name!r}' for name in moment.held)}" if moment.held else ""
            there = sum(s.width * s.length for part in shorter for s in facts_cloth.sheets(part))
            cut = ", whichever way it is cut" if area <= there else ""
            why = f"what is left of '{stock.id}' ({there:.1f} m2) does not reach for {area:.1f} m2{beside}{cut}"
            falls.setdefault(moment.setup, why)
        elif able is None and moment.setup not in falls:
            yield moment.setup


def _metres(stock: Stock) -> float:
    """The length of all rolls of a stock, in metres."""
    assert stock.roll is not None
    return round(float(stock.roll[1]) * (1 if stock.quantity is None else stock.quantity), 2)


def shortened(stock: Stock, metres: float) -> tuple[Stock, ...]:
    """What is left of a stock: its whole rolls, and one that is shorter (rolls are used up one after the other)."""
    assert stock.roll is not None
    width, length = float(stock.roll[0]), float(stock.roll[1])
    rolls = 1 if stock.quantity is None else stock.quantity
    gone, over = divmod(metres, length)
    whole = max(0, rolls - int(gone) - (over > 1e-9))
    found = [replace(stock, quantity=whole)]
    if over > 1e-9 and rolls > int(gone):
        found.append(replace(stock, quantity=1, roll=(width, length - over), pieces=()))
    return tuple(found)
