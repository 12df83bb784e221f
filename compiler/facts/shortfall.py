"""What is short and has to be got: pieces of gear, cloth, diffusion and gel, adapters and step rings; what it costs as
far as the plan states prices, and what would do instead, with what is wrong with that.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..record import record, replace
from ..source.quantities import Money
from . import cloth, fits, focus, occupancy
from .tables import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..plan.scene import Shot
    from ..plan.setup import Setup
    from ..plan.stock import Stock
    from ..science.cloth import Panel
    from . import Facts
    from .cloth import Lack, Need
    from .occupancy import TooFew

MOST_MORE = 12  # rolls that are tried beyond those one has


class ClothMoment(NamedTuple):
    """All panels of one stock that are up at once: for a setup, and in what is held beside it."""

    setup: str
    held: tuple[str, ...]
    stock: str
    needs: tuple[Need, ...]

    @property
    def panels(self) -> list[Panel]:
        """Every panel, sorted, so that the same ones make the same list."""
        return sorted(panel for need in self.needs for panel in need.panels)


class Instead(NamedTuple):
    """What would do at a pinch, and what is wrong with it."""

    words: str
    but: str


@record
class Short:
    """One line of the list: `count` more of `thing` for which setups, where the plan says it, what one and all of them
    cost (None where the plan states no price), and what would do instead.

    What the plan has not at all has no `thing`, but a `kind` (adapter or step-ring) that joins `from_` and `to`
    (mounts, or threads in mm) and is `thick` metres thick. `piece` is the size (m) of the one piece that no more rolls
    would give: wider material is wanted, and `count` is 1.
    """

    thing: str
    count: int
    setups: tuple[str, ...]
    path: str
    each: Money | None = None
    cost: Money | None = None
    instead: tuple[Instead, ...] = ()
    kind: str = ""
    from_: str = ""
    to: str = ""
    thick: float | None = None
    piece: tuple[float, float] | None = None


def cloth_moments(facts: Facts, kind: str) -> Iterator[ClothMoment | Lack]:
    """Every setup alone, then with what is held or rigged ahead meanwhile; what cannot be counted on the way. `kind` is
    cloth, diffusion or gel."""
    plan = facts.plan
    wanted: dict[str, list[Need]] = {}
    for setup in plan.setups.values():
        for item in cloth.needs(plan, setup):
            if cloth.kind(plan.stock[item.stock]) != kind:
                continue
            if isinstance(item, cloth.Lack):
                yield item
            else:
                wanted.setdefault(setup.id, []).append(item)
    alone = [(name, ()) for name in plan.setups]
    beside = [(m.setup, m.held) for m in (*facts.moments, *facts.ahead) if m.held]
    for name, held in (*alone, *beside):
        mine = wanted.get(name, [])
        for stock in dict.fromkeys(n.stock for n in mine):
            together = [n for h in (*held, name) for n in wanted.get(h, []) if n.stock == stock]
            yield ClothMoment(name, held, stock, tuple(together))


def more_rolls(stock: Stock, panels: list[Panel]) -> int | None:
    """How many more rolls of a stock (or pieces of its first size) the panels need; None where a dozen do not do."""
    for more in range(1, MOST_MORE + 1):
        if stock.roll is not None:
            bigger = replace(stock, quantity=(1 if stock.quantity is None else stock.quantity) + more)
        elif stock.pieces:
            first = stock.pieces[0]
            count = (1 if first.count is None else first.count) + more
            bigger = replace(stock, pieces=(replace(first, count=count), *stock.pieces[1:]))
        else:
            return None
        if cloth.reaches(bigger, panels):
            return more
    return None


def times(price: Money | None, count: int) -> Money | None:
    """What so many cost at a price for one."""
    return Money(price.cents * count, price.currency) if price is not None else None


def instead_of(kind: str, path: str) -> tuple[Instead, ...]:
    """What would do instead of a cloth (or diffusion, gel) that is wanted at a path of the plan."""
    group = kind if kind != "cloth" else "window" if ".windows." in path else "frame"
    return tuple(Instead(row["words"], row["but"]) for row in table("substitutes")[group])


def shortfall(facts: Facts) -> tuple[Short, ...]:
    """All that is short, gear first, each thing once with the most that is missing of it at one moment."""
    return (*_gear(facts), *_stock(facts), *_joints(facts))


def _gear(facts: Facts) -> Iterator[Short]:
    plan = facts.plan
    worst: dict[tuple[str, ...], TooFew] = {}
    setups: dict[tuple[str, ...], dict[str, None]] = {}
    for moment in _together(facts):
        for few in occupancy.short(plan, moment):
            known = worst.get(few.things)
            if known is None or len(few.uses) - few.pieces > len(known.uses) - known.pieces:
                worst[few.things] = few
            setups.setdefault(few.things, {}).update(dict.fromkeys(u.setup for u in few.uses))
    for things, few in worst.items():
        gear = plan.gear[things[0]]
        count = len(few.uses) - few.pieces
        yield Short(gear.id, count, tuple(setups[things]), few.uses[-1].path, gear.cost, times(gear.cost, count))


def _together(facts: Facts) -> Iterator[list[occupancy.Use]]:
    plan = facts.plan
    for uses in facts.uses.values():
        yield [u for u in uses if occupancy.is_proper(plan, u)]
    for moment in (*facts.moments, *facts.ahead):
        if moment.held:
            hot = [u for name in moment.held for u in facts.uses[name] if occupancy.stays_hot(plan, u)]
            yield [u for u in (*hot, *facts.uses[moment.setup]) if occupancy.is_proper(plan, u)]


def _stock(facts: Facts) -> Iterator[Short]:
    plan = facts.plan
    found: dict[str, Short] = {}
    for kind in ("cloth", "diffusion", "gel"):
        for moment in cloth_moments(facts, kind):
            if isinstance(moment, cloth.Lack) or not cloth.sheets(plan.stock[moment.stock]):
                continue
            stock, panels = plan.stock[moment.stock], moment.panels
            if cloth.reaches(stock, panels) is not False:
                continue
            more = more_rolls(stock, panels)
            known = found.get(stock.id)
            setups = tuple(dict.fromkeys((*(known.setups if known else ()), moment.setup)))
            if known is not None and (known.piece or known.count >= (more or MOST_MORE)):
                found[stock.id] = replace(known, setups=setups)
                continue
            path = moment.needs[-1].path
            large = max(panels, key=lambda p: p.width * p.height)
            found[stock.id] = Short(
                stock.id,
                more or 1,
                setups,
                path,
                stock.cost if more else None,
                times(stock.cost, more) if more else None,
                instead_of(kind, path),
                piece=None if more else (large.width, large.height),
            )
    yield from found.values()


def _joints(facts: Facts) -> Iterator[Short]:
    """Adapters and step rings that the plan has not."""
    found: dict[tuple[str, str, str], Short] = {}
    for setup, shot in facts.takes:
        for one in _lacking(facts, setup, shot):
            mark = (one.kind, one.from_, one.to)
            known = found.get(mark)
            setups = tuple(dict.fromkeys((*(known.setups if known else ()), setup.id)))
            found[mark] = replace(one, setups=setups)
    yield from found.values()


def _lacking(facts: Facts, setup: Setup, shot: Shot | None) -> Iterator[Short]:
    plan, camera = facts.plan, setup.camera
    lens = focus.glass(plan, setup, shot)
    if camera is None or lens is None:
        return
    path = f"{camera.path}.lens"
    body = plan.gear.get(camera.body or "")
    if body is not None and not camera.adapters:
        chain = fits.lens_chain(plan, body, lens)
        if chain.state == "none" and (chain.thick is None or chain.thick > 0):
            yield Short("", 1, (), path, kind="adapter", from_=chain.from_, to=chain.to, thick=chain.thick)
    for name in shot.filters if shot is not None and shot.filters else camera.filters:
        thing = plan.gear.get(name)
        ring = fits.thread(plan, lens, thing) if thing is not None and thing.kind == "filter" else None
        if ring is not None and ring.state == "none":
            near, far = (f"{side * 1000:.1f}".removesuffix(".0") for side in (ring.lens, ring.filter))
            yield Short("", 1, (), path, kind="step-ring", from_=near, to=far)
