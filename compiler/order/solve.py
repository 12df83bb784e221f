"""The best order of a day: which wishes fit, then the earliest wrap, then the least of everything that follows."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from ..facts.numbers import FOREVER, IF_TIME, MUST, WANT, Day
from .advance import Moment, Rules
from .byroom import ByRoom
from .improve import improve, opening_guess, run_order
from .search import CLOSE, TIME, TOUCH, TURNED, WAIT, Found, Search
from .steps import Step
from .waiting import least_waiting, only_waiting
from .workspace import Workspace

LIMIT = 60_000
FIRST_LOOK = 4_000
WIDTHS = (8, 32, 128, 512)
NEARLY = 50
"""An answer is near to its bound where no more than this part of it lies between."""
PART_NAMES = {
    TIME: "wrap",
    CLOSE: "changes to the agreed order",
    TOUCH: "pieces touched",
    WAIT: "cast waiting",
    TURNED: "pairs against the plan",
}


@dataclass(frozen=True, slots=True)
class Part:
    """One step of the objective: its value, the least it could be, and whether it (and all before it) is proven.
    The wrap is a clock time and waiting a sum, both in half-minutes; touches and changes are counts."""

    name: str
    value: int
    bound: int
    proven: bool


@dataclass(frozen=True, slots=True)
class Answer:
    """The order found. `steps` is empty where there is none; then `proved` says that none exists.
    `dropped` are the wants and if-times left out, `fewest_dropped` whether it is proven that no fewer would do."""

    steps: tuple[Step, ...]
    dropped: tuple[int, ...]
    parts: tuple[Part, ...]
    proved: bool
    fewest_dropped: bool
    opened: int

    @property
    def found(self) -> bool:
        return bool(self.parts)


def solve(day: Day, limit: int = LIMIT) -> Answer:
    """The best order, one part of the objective after another. `limit` counts opened moments in all."""
    opened, sure = 0, True
    for level in _levels(day):
        best: tuple[Rules, Found] | None = None
        for dropped in level:
            rules = _rules(day, dropped)
            ceiling = best[1].best if best else None
            found = earliest(rules, ceiling, max(limit - opened, 0))
            opened += found.opened
            sure = sure and (found.proved or found.best is not None)
            if found.best is not None and found.best is not ceiling:
                best = (rules, found)
        if best is not None:
            return _finish(best[0], best[1], sure, limit, opened)
        if opened >= limit:
            break
    return Answer((), (), (), sure, False, opened)


def earliest_wrap(day: Day, limit: int) -> int | None:
    """The earliest wrap with every must, as far as `limit` moments tell; None where none was found."""
    dropped = tuple(i for i, s in enumerate(day.setups) if s.priority != MUST)
    found = earliest(_rules(day, dropped), None, limit)
    return found.best.time + day.pack if found.best is not None else None


def feasible(day: Day, limit: int = LIMIT) -> tuple[bool | None, int]:
    """(whether every must can be shot, moments opened); None where the limit came first."""
    dropped = tuple(i for i, s in enumerate(day.setups) if s.priority != MUST)
    found = Search(_rules(day, dropped), TIME).any(limit)
    return (found.best is not None if found.best is not None or found.proved else None), found.opened


def _levels(day: Day) -> Iterator[Iterator[tuple[int, ...]]]:
    """What to leave out, least first: no want before every if-time."""
    wants = [i for i, s in enumerate(day.setups) if s.priority == WANT]
    extras = [i for i, s in enumerate(day.setups) if s.priority == IF_TIME]
    for w in range(len(wants) + 1):
        for e in range(len(extras) + 1):
            yield (
                (*some, *more)
                for some in combinations(reversed(wants), w)
                for more in combinations(reversed(extras), e)
            )


def _rules(day: Day, dropped: tuple[int, ...]) -> Rules:
    chosen = (1 << len(day.setups)) - 1
    for i in dropped:
        chosen &= ~(1 << i)
    rules = Rules(Workspace(day, chosen))
    rules.apart = ByRoom(rules.bounds)
    return rules


def earliest(rules: Rules, ceiling: Moment | None, limit: int, before: int = FOREVER) -> Found:
    """The earliest last cut; none where it is not `before` a time."""
    search = Search(rules, TIME, (), ceiling)
    search.ceiling = min(search.ceiling, before)
    if search.estimate(rules.opening()) is None:
        return Found(ceiling, search.ceiling, 0, True)
    search.take(opening_guess(rules))
    return _settle(search, limit)


def _settle(search: Search, limit: int) -> Found:
    """A narrow beam for a good answer and a look at everything, a longer one where the answer is nearly as good as can
    be; then wider beams and another look, blocks moved (they take long, and are seldom needed), and the rest of the
    limit."""
    search.beam(WIDTHS[0], limit // 4)
    found = search.run(min(FIRST_LOOK + search.spent(), limit))
    if not found.proved and _nearly(search, found.bound):
        found = search.run(max(limit // 3, min(FIRST_LOOK + search.spent(), limit)))
    if found.proved or search.spent() >= limit:
        return found
    for width in WIDTHS[1:3]:
        search.beam(width, limit // 2)
    found = search.run(min(FIRST_LOOK + search.spent(), limit - limit // 4))
    if found.proved:
        return found
    if search.stage == TIME:
        if search.ceiling >= FOREVER:  # a day so tight that neither look met an end: go deep instead of wide
            deep = Search(search.rules, TIME).any(limit // 4)
            search.opened += deep.opened
            search.take(deep.best)
        if not _nearly(search, found.bound):
            search.take(improve(search.rules, search.best))
    found = search.run(limit - limit // 4)
    if found.proved:
        return found
    for width in WIDTHS[3:]:
        search.beam(width, limit)
    proved = search.best is not None and search.ceiling <= found.bound
    return Found(search.best, found.bound, search.spent(), proved)


def _nearly(search: Search, bound: int) -> bool:
    """Whether the answer so far is so near to the bound that to look on proves it sooner than to mend it."""
    return search.stage > TIME or search.ceiling - bound <= (bound - search.rules.day.call) // NEARLY


def _finish(rules: Rules, wrap: Found, sure: bool, limit: int, opened: int) -> Answer:
    """Improve the later parts of the objective while the earlier ones keep their value."""
    assert wrap.best is not None
    best, proven = wrap.best, wrap.proved and sure
    pack = rules.day.pack
    parts = [Part(PART_NAMES[TIME], best.time + pack, wrap.bound + pack, proven)]
    for stage in (CLOSE, TOUCH, WAIT, TURNED):
        if (stage == CLOSE and not rules.day.agreed) or (stage == WAIT and not rules.day.cast):
            continue
        value = best.value()[stage]
        bound, proved = 0, value == 0
        if value and stage == WAIT and only_waiting(rules):
            waited = least_waiting(rules, max(limit - opened, FIRST_LOOK))
            opened += waited.opened
            best, bound, proved = run_order(rules, waited.order) or best, waited.bound, waited.value == waited.bound
        elif value and not (stage == TURNED and only_waiting(rules)):
            found = _settle(Search(rules, stage, best.value(), best, proven), max(limit - opened, FIRST_LOOK))
            opened += found.opened
            best, bound, proved = found.best or best, found.bound, found.proved
        proven = proven and proved
        parts.append(Part(PART_NAMES[stage], best.value()[stage], bound, proven))
    dropped = tuple(i for i in range(len(rules.day.setups)) if not rules.space.chosen >> i & 1)
    return Answer(best.steps(), dropped, tuple(parts), True, sure, opened)
