"""What to give up when the day is late: each way with the minutes it saves, what breaks, and whom to ask.

The least dear first, as `schemas/tables/late.json` has them. Every way is tried on what is left of the day; one that
saves nothing (because something waits for the dark anyway) is not offered. Meal, rest, safety, verified copies, room
tone and putting the house back are never among them.
"""

from __future__ import annotations

from itertools import combinations, islice
from typing import TYPE_CHECKING

from ..facts.tables import table
from ..facts.timeline import TONE
from ..record import field, record, replace
from ..rules.words import counted
from . import cuts
from .judge import Verdict, judge, verdict
from .onward import Way, searched
from .retime import retimed

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from ..facts.follow import Leg
    from ..facts.shootday import ShootDay
    from .left import Part
    from .rest import Rest

OFFERED = 3
SETS_TRIED = 60
"""Sets of shots to drop that are tried at most, the smallest first."""


@record
class Change:
    """What a way changes: shots that are not shot, half-minutes saved on others, needs left out (setup and index), or
    another order."""

    shots: frozenset[str] = frozenset()
    saved: Mapping[str, int] = field(default_factory=dict)
    needs: frozenset[tuple[str, int]] = frozenset()
    order: tuple[str, ...] = ()


@record
class Option:
    """One way: `kind` of the table, what to do, half-minutes saved at the wrap, whether that is enough, setups that can
    be had again by it, what breaks, whom to ask."""

    kind: str
    words: str
    saved: int
    enough: bool
    regains: tuple[str, ...]
    breaks: str
    ask: str
    change: Change

    @property
    def price(self) -> int:
        """How dear it is, by the table's order."""
        return next(k for k, row in enumerate(table("late")["ways"]) if row["kind"] == self.kind)


@record
class Choice:
    """The best options, and where several are needed what they save together."""

    need: int
    options: tuple[Option, ...]
    together: int
    together_enough: bool


def choose(rest: Rest, way: Way, behind: int) -> Choice | None:
    """What to give up; None where the day is not late to speak of."""
    lost = tuple(name for name, _ in way.lost)
    need = way.over or max(behind, 0)
    if rest.happened.now.kind == "packing":
        return None
    if not way.over and not lost and need < 2 * int(table("late")["noticed"]["likely"]):
        return None
    trial = _Trial(rest, way, need, lost)
    found = list(trial.options())
    found.sort(key=lambda o: (not o.enough, not o.regains, o.price, -o.saved, o.words))
    picked: list[Option] = []
    for option in found:
        if len(picked) < OFFERED and option.kind not in [p.kind for p in picked]:
            picked.append(option)
    picked += [o for o in found if o not in picked][: OFFERED - len(picked)]
    saved, enough = trial.together(picked)
    return Choice(need, tuple(picked), saved, enough)


class _Trial:
    """Tries changes on what is left, against the way on as it stands."""

    def __init__(self, rest: Rest, way: Way, need: int, lost: tuple[str, ...]) -> None:
        self.rest, self.way, self.need, self.lost = rest, way, need, lost
        self.gone = {name for name in lost if judge(rest.day, (*rest.held, name)).missed}  # no change brings it back
        back = set(lost) - self.gone
        order = way.order if not back else rest.agreed or way.order
        self.order = tuple(name for name in order if name not in self.gone)
        self.legs: dict[tuple[tuple[str, ...], frozenset[tuple[str, int]]], tuple[Leg, ...]] = {}
        self.base = self._judged(Change())

    def options(self) -> Iterator[Option]:
        """Every way that saves time or brings back a setup that is lost as it stands."""
        rest = self.rest
        found = searched(rest, self.order, rest.limit, earliest=True)
        if found is not None and self._worth(found[0]):
            turned = f"{counted(found[1], 'pair')} of setups turned round; tell cast and crew their new times"
            names = ", ".join(name for name in found[0] if name in rest.parts)
            words, who = f"take another order: {names}", cuts.ask(rest, "first assistant")
            yield from self._option("reorder", words, Change(order=found[0]), turned, who)
        for cut in (*cuts.merges(rest), *cuts.reverses(rest), *cuts.lamps(rest)):
            if any(p.id in cut.shots for name in self.gone for p in rest.parts.get(name, ())):
                continue
            change = Change(frozenset(cut.shots), cut.saved, frozenset(cut.needs))
            yield from self._option(cut.kind, cut.words, change, cut.breaks, cut.ask)
        yield from self._drops("if-time", ())
        yield from self._drops("want", tuple(p.id for p in self._parts("if-time")))

    def _parts(self, kind: str) -> list[Part]:
        """The shots of a kind that are still to be had."""
        return [p for p in cuts.parts(self.rest, kind) if p.setup not in self.gone]

    def _worth(self, order: tuple[str, ...]) -> bool:
        """Whether another order brings a setup back, or is enough, or saves enough to turn a day round."""
        found = self._judged(Change(order=order))
        least = 2 * int(table("late")["noticed"]["likely"])
        back = any(name not in found.missed for name in self.base.missed)
        return back or self._enough(found) or self.base.wrap - found.wrap >= least

    def _drops(self, kind: str, lesser: tuple[str, ...]) -> Iterator[Option]:
        """The fewest shots of a kind that are enough; where even all are not, and for a dearer kind, those of the
        lesser kind go first."""
        mine = [p for p in self._parts(kind) if p.id not in lesser]
        if not mine:
            return
        shots = self._fewest([p.id for p in reversed(mine)], lesser)
        order = [p.id for name in self.rest.agreed or self.rest.parts for p in self.rest.parts.get(name, ())]
        first, then = ([n for n in order if n in shots and (n in lesser) is less] for less in (True, False))
        if not then and first:
            return
        also = f", after the if-times {', '.join(first)}" if first else ""
        yield from self._option(kind, f"drop {', '.join(then)}{also}", Change(frozenset(shots)),
                                f"the film goes without {', '.join([*first, *then])}",
                                cuts.ask(self.rest, "direction"))  # fmt: skip

    def _fewest(self, names: list[str], lesser: tuple[str, ...]) -> set[str]:
        """Shots whose loss is enough, as few as can be: small sets are tried one by one; else the longest go until it
        is enough, and come back where it is without them. All of them, where nothing is enough."""
        small = (c for n in range(1, len(names) + 1) for c in combinations(names, n))
        for drop in islice(small, SETS_TRIED):
            if self._will_do({*lesser, *drop}):
                names = list(drop)
                break
        length = {p.id: p.left for parts in self.rest.parts.values() for p in parts}
        gone = set(lesser)
        for name in sorted(names, key=lambda n: -length[n]):
            if self._will_do(gone):
                break
            gone.add(name)
        if self._will_do(gone):
            for name in sorted(gone, key=lambda n: (n in lesser, length[n])):
                if len(gone) > 1 and not gone - {name} <= set(lesser) and self._will_do(gone - {name}):
                    gone.discard(name)
        return gone

    def _will_do(self, shots: set[str]) -> bool:
        return self._enough(self._judged(Change(frozenset(shots))))

    def _option(self, kind: str, words: str, change: Change, breaks: str, ask: str) -> Iterator[Option]:
        found = self._judged(change)
        regains = tuple(n for n in self.base.missed if n not in found.missed and self._left(change, n))
        saved = self.base.wrap - found.wrap
        if saved > 0 or regains:
            yield Option(kind, words, saved, self._enough(found), regains, breaks, ask, change)

    def _enough(self, found: Verdict) -> bool:
        return self.base.wrap - found.wrap >= self.need and found.fits(self.rest.limit, self.rest.flaws)

    def together(self, options: list[Option]) -> tuple[int, bool]:
        """What several ways save at once."""
        shots = frozenset(s for o in options for s in o.change.shots)
        saved: dict[str, int] = {}
        for option in options:
            saved.update(option.change.saved)
        needs = frozenset(n for o in options for n in o.change.needs)
        order = next((o.change.order for o in options if o.change.order), ())
        found = self._judged(Change(shots, saved, needs, order))
        return self.base.wrap - found.wrap, self._enough(found)

    def _left(self, change: Change, setup: str) -> bool:
        return any(p.id not in change.shots for p in self.rest.parts.get(setup, ()))

    def _judged(self, change: Change) -> Verdict:
        day = changed(self.rest, change)
        order = (*self.rest.held, *self._order(change.order or self.order, change))
        if (order, change.needs) not in self.legs:
            self.legs[order, change.needs] = judge(day, order).legs
        return verdict(day, retimed(day.day, self.legs[order, change.needs]))

    def _order(self, order: tuple[str, ...], change: Change) -> tuple[str, ...]:
        """The order without the setups of which nothing is left; a room tone stays where its room is still used."""
        kept: list[str] = []
        used = False
        for name in order:
            if name in self.rest.parts:
                used = used or self._left(change, name)
                if self._left(change, name):
                    kept.append(name)
            elif name != TONE or used or not kept:
                kept.append(name)
            used = used and name != TONE
        return tuple(kept)


def changed(rest: Rest, change: Change) -> ShootDay:
    """What is left of the day after a change; the order is another matter."""
    setups = []
    for name, setup in zip(rest.day.setups, rest.day.day.setups, strict=True):
        parts = rest.parts.get(name, ())
        less = sum(p.left if p.id in change.shots else min(change.saved.get(p.id, 0), p.left) for p in parts)
        needs = tuple(n for k, n in enumerate(setup.needs) if (name, k) not in change.needs)
        setups.append(replace(setup, takes=setup.takes - less, needs=needs) if less or change.needs else setup)
    return replace(rest.day, day=replace(rest.day.day, setups=tuple(setups)))
