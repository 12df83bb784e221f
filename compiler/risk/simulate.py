"""Living through a day many times. Chance comes from one generator with a fixed seed: the same plan, the same answer.

Only `random.Random(seed).random()` is used, whose numbers Python promises never to change; durations come from it by
tables of quantiles, so that no other part of the library takes a part in the answer.
"""

from __future__ import annotations

from random import Random
from typing import TYPE_CHECKING

from ..facts.numbers import FOREVER, meet
from ..record import record
from ..science.chance import quantile, quantiles

if TYPE_CHECKING:
    from collections.abc import Callable

    from .model import Draw, Model, Stretch


@record
class Lived:
    """One day as it came out, in half-minutes: the wrap; for each stretch its own duration (waiting apart); the
    windows that were missed (stretch, window), and by how much each was overrun (0 where it was not yet open, or never
    is), in `opened` those of them whose opening was waited for; by how much the worst meal was late; how long was
    waited."""

    wrap: float
    spent: tuple[float, ...]
    missed: tuple[tuple[int, int], ...]
    hungry: float
    waited: float
    late: tuple[float, ...] = ()
    opened: tuple[tuple[int, int], ...] = ()

    @property
    def astray(self) -> bool:
        """Whether something was shot at an hour when its window was not open yet, so that the day got shorter."""
        return 0.0 in self.late


def simulate(model: Model, draws: int, seed: int, *, alike: bool = False) -> tuple[Lived, ...]:
    """So many days. With `alike` all tasks of one kind have the same luck on a day; else each has its own."""
    chance = Random(seed)
    tables = {_shape(d): quantiles(_shape(d)) for d in _draws(model)}
    kinds = list(dict.fromkeys(d.kind for d in _draws(model)))
    spans = [meet(s.windows) for s in model.stretches]
    found = []
    for _ in range(draws):
        luck = {kind: chance.random() for kind in kinds} if alike else {}

        def length(draw: Draw, luck: dict[str, float] = luck) -> float:
            if draw.high <= draw.low:
                return draw.likely
            share = luck[draw.kind] if luck else chance.random()
            return draw.low + (draw.high - draw.low) * quantile(tables[_shape(draw)], share)

        found.append(_live(model, spans, length))
    return tuple(found)


def _draws(model: Model) -> list[Draw]:
    found = [model.load_in, model.pack]
    for stretch in model.stretches:
        found += [*stretch.before, *stretch.after, *(d for task in stretch.tasks for d in task.draws)]
    return found


def _shape(draw: Draw) -> float:
    """Where the likely value lies between low (0) and high (1)."""
    return round((draw.likely - draw.low) / (draw.high - draw.low), 6) if draw.high > draw.low else 0.5


def _live(model: Model, spans: list[tuple[tuple[int, int], ...]], length: Callable[[Draw], float]) -> Lived:
    numbers = model.day.day
    time = model.call + length(model.load_in)
    fed, hungry, waited = float(model.call), 0.0, 0.0
    spent: list[float] = []
    missed: list[tuple[int, int]] = []
    late: list[float] = []
    opened: list[tuple[int, int]] = []
    for k, stretch in enumerate(model.stretches):
        ready = time + sum(length(d) for d in stretch.before)
        ready += _rigging(stretch, numbers.hands(int(ready)), length)
        takes = sum(length(d) for d in stretch.after)
        start = max(ready, stretch.earliest)
        if stretch.windows:
            start = _start(spans[k], ready, takes, (sum(d.likely for d in stretch.after), model.patience))
        if stretch.windows:
            for w, window in enumerate(stretch.windows):
                if not any(lo <= start and start + takes <= hi for lo, hi in window.spans):
                    missed.append((k, w))
                    late.append(max((start + takes - hi for lo, hi in window.spans if lo <= start), default=0.0))
                    opened += [(k, w)] if start > ready else []
        if stretch.meal >= 0:
            hungry = max(hungry, start - fed - numbers.gap, start - stretch.latest)
            fed = start + takes
        spent.append(ready - time + takes)
        waited += start - ready
        time = start + takes
    wrap = time + length(model.pack)
    hungry = max(hungry, wrap - fed - numbers.gap, 0.0)
    return Lived(wrap, tuple(spent), tuple(missed), hungry, waited, tuple(late), tuple(opened))


def _rigging(stretch: Stretch, hands: int, length: Callable[[Draw], float]) -> float:
    """The tasks shared among the riggers: no shorter than the longest, nor than the work divided by the hands."""
    longest = work = 0.0
    for task in stretch.tasks:
        alone = sum(length(d) for d in task.draws)
        longest = max(longest, alone)
        work += alone * task.people
    return max(longest, work / hands)


def _start(
    spans: tuple[tuple[int, int], ...], ready: float, takes: float, limits: tuple[float, int]
) -> float:
    """The first start inside a window. Where the takes have no luck and last longer than what is left of it, they begin
    in it and run over, as on any set; only a window that could not hold the likely takes is not waited for, and nobody
    waits past the latest wrap. `limits`: the likely takes, and that wrap."""
    likely, patience = limits
    for lo, hi in spans:
        start = max(ready, lo)
        if start + takes <= hi and lo <= max(patience, ready):
            return start
    for lo, hi in spans:
        if hi - lo >= likely and ready < lo <= patience:
            return float(lo)
    return ready if not spans or ready > -FOREVER else float(spans[0][0])
