"""What both rules about too few pieces share: the shortages of a plan, each said once and in the crew's words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import occupancy
from ..source.quantities import show
from .words import Once, counted, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from ..facts import Facts
    from ..facts.occupancy import Moment, TooFew, Use
    from ..findings import Finding, Severity


def found(facts: Facts, rule: tuple[str, Severity], *, single: bool) -> Iterator[Finding]:
    """Shortages of single things, or of things there are several of: inside a setup first, then against what is
    held."""
    fresh = Once(facts.plan)
    short_inside: dict[str, set[str]] = {}
    for name, uses in facts.uses.items():
        for few in occupancy.short(facts.plan, _proper(facts, uses)):
            short_inside.setdefault(name, set()).update(few.things)
            if (few.pieces == 1 and len(few.things) == 1) == single and fresh(few.uses[few.pieces].path):
                yield _inside(facts, rule, few)
    for moment in (*facts.moments, *facts.ahead):
        if moment.held:
            known = short_inside.get(moment.setup, set()).union(*(short_inside.get(h, set()) for h in moment.held))
            for few in occupancy.short(facts.plan, _together(facts, moment)):
                mine = [u for u in few.uses if u.setup == moment.setup]
                one = few.pieces == 1 and len(few.things) == 1
                if mine and one == single and not known & set(few.things) and fresh(mine[-1].path):
                    yield _held(facts, rule, few, mine[-1])


def _together(facts: Facts, moment: Moment) -> list[Use]:
    hot = [u for name in moment.held for u in _proper(facts, facts.uses[name]) if occupancy.stays_hot(facts.plan, u)]
    return [*hot, *_proper(facts, facts.uses[moment.setup])]


def _proper(facts: Facts, uses: Iterable[Use]) -> list[Use]:
    return [use for use in uses if occupancy.is_proper(facts.plan, use)]


def _supply(few: TooFew) -> str:
    if len(few.things) == 1:
        return f"'{few.things[0]}' is there {'once' if few.pieces == 1 else f'{few.pieces} times'}"
    return f"of {quoted(few.things)} there {'is' if few.pieces == 1 else 'are'} {counted(few.pieces, 'piece')}"


def _inside(facts: Facts, rule: tuple[str, Severity], few: TooFew) -> Finding:
    over = few.uses[few.pieces]
    takers = [u.who for u in few.uses]
    names = ", ".join(takers[:4]) + (f" and {len(takers) - 4} more" if len(takers) > 4 else "")
    if len(takers) == 2:
        names = f"both {takers[0]} and {takers[1]}" if takers[0] != takers[1] else f"{takers[0]} twice"
    return finding(
        facts.plan,
        rule,
        over.path,
        f"{_supply(few)}, but '{over.setup}' needs {'it' if few.pieces == 1 else len(takers)} for {names}"
        f"{_only(few)}",
        (
            f"take another thing for {over.who}",
            f"or get {len(takers) - few.pieces} more{_price(facts, few)}, and say so under 'quantity:'",
        ),
        _details(few, over),
        also=[(u.path, "also taken here") for u in few.uses[: few.pieces][:8]],
    )


def _price(facts: Facts, few: TooFew) -> str:
    """What one costs, where the plan states it of the best liked."""
    cost = facts.plan.gear[few.things[0]].cost
    return f" ({show('money', cost)} each)" if cost is not None else ""


def _held(facts: Facts, rule: tuple[str, Severity], few: TooFew, over: Use) -> Finding:
    holders = list(dict.fromkeys(u.setup for u in few.uses if u.setup != over.setup))
    hold = facts.plan.setups[holders[0]].held_until if holders else ""
    until = f", hot until '{hold}'," if hold else ", rigged ahead,"
    kept = f"{quoted(holders)}{until} keeps {_wants(few, holders[0])}" if holders else ""
    if len(holders) > 1:
        parts = [f"'{name}' {_wants(few, name)}" for name in holders[:4]]
        parts += [f"{len(holders) - 4} more"] * (len(holders) > 4)
        kept = f"{', '.join(parts[:-1])} and {parts[-1]}, which stay {'hot' if hold else 'rigged'}"
    all_ = f"; the {len(holders) + 1} setups together want {len(few.uses)}" if len(holders) > 1 else ""
    return finding(
        facts.plan,
        rule,
        over.path,
        f"{_supply(few)}: {kept}, and '{over.setup}' is shot meanwhile and needs {_wants(few, over.setup)}{all_}"
        f"{_only(few)}",
        (
            f"shoot '{over.setup}' outside of the hold",
            f"or end the hold of {quoted(holders)} earlier" if hold else f"or rig {quoted(holders)} later",
            f"or take another thing for {over.who}",
        ),
        _details(few, over),
        also=[(u.path, f"held here, in '{u.setup}'") for u in few.uses if u.setup != over.setup][:8],
    )


def _wants(few: TooFew, setup: str) -> str:
    """How many one setup takes of what is short, and for what: it for 'key'; 2 for 'key' and 'fill'."""
    takers = [u.who for u in few.uses if u.setup == setup]
    what = "it" if few.pieces == 1 and len(few.things) == 1 and len(takers) == 1 else str(len(takers))
    names = list(dict.fromkeys(takers))[:4]
    return f"{what} for {names[0] if len(names) == 1 else ', '.join(names[:-1]) + ' and ' + names[-1]}"


def _only(few: TooFew) -> str:
    """Of several things: that those named take no other, which is why just they are named."""
    if len(few.things) == 1:
        return ""
    return "; none of these uses may take anything else" if len(few.uses) > 2 else "; neither may take anything else"


def _details(few: TooFew, over: Use) -> tuple[tuple[str, str | int | float], ...]:
    return (
        ("things", ", ".join(few.things)),
        ("pieces", few.pieces),
        ("needed", len(few.uses)),
        ("setup", over.setup),
    )
