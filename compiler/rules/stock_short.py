"""What the three rules about stock share: every moment's panels against what there is, each cause said once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import cloth as facts_cloth
from ..facts import shortfall
from ..facts.cloth import Lack, Need
from ..findings import NotChecked
from ..science import cloth
from ..source.quantities import show
from .words import Once, counted, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.shortfall import ClothMoment
    from ..findings import Finding, Severity
    from ..plan.stock import Stock


def found(facts: Facts, rule: tuple[str, Severity], kind: str) -> Iterator[Finding | NotChecked]:
    """Findings for stock of one kind: cloth, diffusion or gel."""
    plan = facts.plan
    fresh = Once(plan)
    answers: dict[tuple[object, ...], bool | None] = {}
    for moment in shortfall.cloth_moments(facts, kind):
        if isinstance(moment, Lack):
            yield NotChecked(rule[0], moment.subject, moment.wants)
            continue
        stock = plan.stock[moment.stock]
        if stock.roll is None and not any(p.size for p in stock.pieces):
            yield NotChecked(rule[0], f"'{stock.id}'", f"'roll:' or 'pieces:' of '{stock.id}'")
            continue
        mark = (stock.id, *moment.panels)
        if mark not in answers:
            answers[mark] = facts_cloth.reaches(stock, moment.panels)
        if answers[mark] is None:
            subject = f"'{stock.id}' in '{moment.setup}'"
            yield NotChecked(rule[0], subject, "fewer panels at once: there are too many ways to cut them")
        elif not answers[mark]:
            last = [n for n in moment.needs if n.path.startswith(f"setups.{moment.setup}.")][-1]
            if fresh(last.path, stock.id):
                yield _finding(facts, rule, moment, last)


def _metres(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _area(panels: list[cloth.Panel]) -> float:
    return sum(p.width * p.height for p in panels)


def _sizes(panels: list[cloth.Panel]) -> str:
    counts: dict[cloth.Panel, int] = {}
    for panel in panels:
        counts[panel] = counts.get(panel, 0) + 1
    said = [
        f"{f'{n} times ' if n > 1 else ''}{_metres(p.width)} m x {_metres(p.height)} m for '{p.name}'"
        for p, n in counts.items()
    ]
    return "; ".join(said[:4]) + (f"; and {len(said) - 4} more" if len(said) > 4 else "")


def _finding(facts: Facts, rule: tuple[str, Severity], moment: ClothMoment, last: Need) -> Finding:
    plan = facts.plan
    stock = plan.stock[moment.stock]
    have, kind = facts_cloth.sheets(stock), facts_cloth.kind(stock)
    owned = sum(s.width * s.length for s in have)
    panels = moment.panels
    hot = any(plan.setups[name].held_until for name in moment.held)
    beside = f" beside {quoted(moment.held)}, {'held hot' if hot else 'rigged ahead'}," if moment.held else ""
    join = facts_cloth.JOIN if kind == "cloth" else None
    width = max((s.width for s in have), default=0.0)
    enough = cloth.length_that_would_do(panels, width, join)
    ways = []
    more = shortfall.more_rolls(stock, panels)
    if more is not None:
        ways.append(_get(stock, more))
    if enough is not None:
        ways.append(f"{'or ' if ways else ''}a roll of {show('length', width)} x {_metres(enough)} m would surely do")
    elif more is None:
        widest = max((min(p.width, p.height) for p in panels), default=0.0)
        ways.append(f"take wider material: one panel needs {_metres(widest)} m across")
    typical = any(n.typical for n in moment.needs)
    if typical and _reaches_with_least(facts, moment):
        ways.append(f"or write 'overlap: {facts_cloth.LEAST_OVERLAP * 100:.0f} cm': with that it reaches")
    if moment.held:
        ways.append(f"or {'end the hold of' if hot else 'rig'} {quoted(moment.held)} {'earlier' if hot else 'later'}")
    least = min(last.panels, key=lambda p: p.width * p.height).name
    ways += [f"or, for '{least}', {one.words}: {one.but}" for one in shortfall.instead_of(kind, last.path)[:2]]
    if ".windows." in last.path:
        ways.append("or treat one of the windows in another way")
    also = [(f"stock.{stock.id}", "what there is"), *((n.path, "also needed here") for n in moment.needs if n != last)]
    return finding(
        plan,
        rule,
        last.path,
        f"'{stock.id}' does not reach for '{moment.setup}'{beside}: {_sizes(panels)}, {_metres(_area(panels))} m2 in "
        f"all, from {_metres(owned)} m2" + (", whichever way it is cut" if _area(panels) <= owned else ""),
        tuple(ways),
        (
            ("setup", moment.setup),
            ("stock", stock.id),
            ("wanted_m2", round(_area(panels), 2)),
            ("owned_m2", round(owned, 2)),
            ("overlap_m", facts_cloth.OVERLAP if typical else ""),
        ),
        also=also,
        typical=(f"overlap of {facts_cloth.OVERLAP * 100:.0f} cm",) if typical else (),
    )


def _get(stock: Stock, more: int) -> str:
    """What to buy, with its price where the plan states one."""
    size = stock.roll or (stock.pieces[0].size if stock.pieces else None)
    what = counted(more, "more roll" if stock.roll is not None else "more piece")
    each = f", {show('size', size)}" if size is not None else ""
    price = shortfall.times(stock.cost, more)
    return f"get {what} of '{stock.id}'{each}" + (f": {show('money', price)} in all" if price is not None else "")


def _reaches_with_least(facts: Facts, moment: ClothMoment) -> bool:
    plan = facts.plan
    panels = [
        panel
        for name in (*moment.held, moment.setup)
        for need in facts_cloth.needs(plan, plan.setups[name], least=True)
        if isinstance(need, Need) and need.stock == moment.stock
        for panel in need.panels
    ]
    return bool(facts_cloth.reaches(plan.stock[moment.stock], panels))
