"""What many days tell: the chance to wrap in time and to keep each window, what drives it, what a buffer buys."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import hours
from ..facts.numbers import FOREVER
from ..facts.shootday import shoot_day
from ..facts.timeline import replay_day
from ..record import record
from .model import Model, model
from .simulate import Lived, simulate

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..plan import Plan

CHANCES = (50, 80, 90, 95)
"""Of 100 days; what buffer each of these takes is said."""
DRIVERS = 3
SURE = 90
"""Of 100 days, on which a window is to be kept."""


@record
class Driver:
    """A stretch of the day, and its share of the spread of the wrap (covariance with the wrap over its variance)."""

    name: str
    share: float


@record
class WindowRisk:
    """A window (in its words), the setups that have it, the share of days on which one of them misses it, the
    stretch that most often brings that about ("" where it is never missed), and by how many half-minutes it would have
    to be open longer to be kept on nine of ten days (None: longer does not help, or it is kept on as many);
    `opening` tells that it is missed although its opening was waited for: the takes outlast it."""

    words: str
    setups: tuple[str, ...]
    missed: float
    driver: str
    longer: float | None = None
    opening: bool = False


@record
class Risk:
    """What became of a day that was lived through `draws` times, clock times in half-minutes, chances from 0 to 1.

    `planned` is the wrap by likely minutes, `latest` the latest wrap (None: not said), `buffer` what the plan keeps
    free before it; `in_time` and `in_time_alike` the chance to wrap by then, each task with its own luck or all of a
    kind with the same; `without_buffer` the chance not to touch the buffer; `buffers` (of 100 days, half-minutes after
    the planned wrap); `kept` the chance that all of it comes true: wrap, windows and meals. `astray` is the share of
    days on which a setup is shot before its window opens (`strays` which): they do not count as wrapped in time, nor
    in the mean and the buffers, unless there are no others."""

    day: str
    agreed: bool
    order: tuple[str, ...]
    draws: int
    seed: int
    planned: int
    latest: int | None
    buffer: int
    mean: float
    in_time: float | None
    in_time_alike: float | None
    without_buffer: float | None
    error: float
    buffers: tuple[tuple[int, float], ...]
    buffers_alike: tuple[tuple[int, float], ...]
    drivers: tuple[Driver, ...]
    windows: tuple[WindowRisk, ...]
    meals_late: float
    typical: tuple[str, ...]
    missing: tuple[str, ...]
    kept: float = 0.0
    astray: float = 0.0
    strays: tuple[str, ...] = ()


def risk(plan: Plan, day_id: str, draws: int, seed: int) -> Risk | None:
    """The risk of a day in its agreed order, or in the one found where none is agreed; None where there is none,
    or no call from which time could be counted."""
    if plan.days[day_id].call is None:
        return None
    day = shoot_day(plan, day_id)
    agreed = tuple(plan.days[day_id].order)
    order = agreed or _found(plan, day_id)
    if not any(name in day.setups for name in order):
        return None
    line = replay_day(day, order)
    lived_in = model(plan, day, line.order)
    lived = simulate(lived_in, draws, seed)
    alike = simulate(lived_in, draws, seed + 1, alike=True)
    times = hours.hours(plan, day_id, day.minutes)
    latest = times.wrap
    share = _share(lived, latest) if latest is not None else None
    whole, whole_alike = _whole(lived), _whole(alike)
    strays = [lived_in.stretches[k].name for one in lived for (k, _), by in zip(one.missed, one.late, strict=True)
              if by == 0.0]  # fmt: skip
    return Risk(
        day=day_id,
        agreed=bool(agreed),
        order=line.order,
        draws=draws,
        seed=seed,
        planned=line.wrap,
        latest=latest,
        buffer=times.buffer,
        mean=sum(one.wrap for one in whole) / len(whole),
        in_time=share,
        in_time_alike=_share(alike, latest) if latest is not None else None,
        without_buffer=_share(lived, latest - times.buffer) if latest is not None and times.buffer else None,
        error=1.96 * ((share or 0.5) * (1.0 - (share or 0.5)) / draws) ** 0.5,
        buffers=_buffers(whole, line.wrap),
        buffers_alike=_buffers(whole_alike, line.wrap),
        drivers=_drivers(lived_in, whole),
        windows=_windows(lived_in, lived),
        meals_late=sum(one.hungry > 0 for one in lived) / draws,
        typical=line.typical,
        missing=day.missing,
        kept=_kept(lived, latest),
        astray=sum(one.astray for one in lived) / draws,
        strays=tuple(dict.fromkeys(strays)),
    )


def _kept(lived: Sequence[Lived], latest: int | None) -> float:
    """The share of days on which nothing is missed: windows, meals, and the latest wrap where one is said."""
    whole = sum(not one.missed and one.hungry <= 0 and (latest is None or one.wrap <= latest) for one in lived)
    return whole / len(lived)


def _found(plan: Plan, day_id: str) -> tuple[str, ...]:
    from ..order import plan_day

    return plan_day(plan, day_id).order


def _share(lived: Sequence[Lived], by: int) -> float:
    """The share of all days that are wrapped by then, every window waited for."""
    return sum(one.wrap <= by and not one.astray for one in lived) / len(lived)


def _whole(lived: Sequence[Lived]) -> Sequence[Lived]:
    """The days that nothing missed has made shorter; all of them where there are no such days."""
    return [one for one in lived if not one.astray] or lived


def _buffers(lived: Sequence[Lived], planned: int) -> tuple[tuple[int, float], ...]:
    """For each chance the half-minutes after the planned wrap by which so many of 100 days are wrapped."""
    wraps = sorted(one.wrap for one in lived)
    return tuple((c, max(0.0, wraps[min(len(wraps) - 1, -(-c * len(wraps) // 100) - 1)] - planned)) for c in CHANCES)


def _covariance(one: Sequence[float], two: Sequence[float]) -> float:
    a, b = sum(one) / len(one), sum(two) / len(two)
    return sum((x - a) * (y - b) for x, y in zip(one, two, strict=True)) / len(one)


def _drivers(lived_in: Model, lived: Sequence[Lived]) -> tuple[Driver, ...]:
    """The stretches whose luck decides the wrap, the most first."""
    wraps = [one.wrap for one in lived]
    whole = _covariance(wraps, wraps)
    if whole <= 0.0:
        return ()
    shares = [Driver(s.name, _covariance([one.spent[k] for one in lived], wraps) / whole)
              for k, s in enumerate(lived_in.stretches)]  # fmt: skip
    shares.sort(key=lambda d: -d.share)
    return tuple(d for d in shares[:DRIVERS] if d.share >= 0.01)


def _windows(lived_in: Model, lived: Sequence[Lived]) -> tuple[WindowRisk, ...]:
    """Every window of the day; one that several setups share is one."""
    groups: dict[tuple[object, ...], list[tuple[int, int]]] = {}
    for k, stretch in enumerate(lived_in.stretches):
        for w, window in enumerate(stretch.windows):
            if any(lo > -FOREVER and hi < FOREVER for lo, hi in window.spans) or not window.spans:
                mark = (window.why, window.spans) if window.shared else (window.why, window.spans, k)
                groups.setdefault(mark, []).append((k, w))
    found = []
    for places in groups.values():
        window = lived_in.stretches[places[0][0]].windows[places[0][1]]
        misses = [float(any(p in one.missed for p in places)) for one in lived]
        setups = tuple(lived_in.stretches[k].name for k, _ in places)
        end = max((k for one in lived for k, w in one.missed if (k, w) in places), default=-1)
        driver = _driver(lived_in, lived, misses, end) if 0.0 < sum(misses) < len(misses) else ""
        late = [max((by for p, by in zip(one.missed, one.late, strict=True) if p in places), default=-1.0)
                for one in lived]  # fmt: skip
        waited = sum(any(p in one.opened for p in places) for one in lived)
        opening = 2 * waited > sum(misses)
        found.append(WindowRisk(window.why, setups, sum(misses) / len(misses), driver, _longer(late), opening))
    return tuple(found)


def _longer(late: Sequence[float]) -> float | None:
    """What a window would have to be open longer, so that it is kept on nine of ten days. -1 is kept, 0 no matter of
    its end."""
    by = sorted(float("inf") if one == 0.0 else one for one in late)[-(-len(late) * SURE // 100) - 1]
    return by if 0.0 < by < float("inf") else None


def _driver(lived_in: Model, lived: Sequence[Lived], misses: list[float], end: int) -> str:
    """The stretch up to the last that misses whose length goes most with missing."""
    pulls = [(_covariance([one.spent[k] for one in lived], misses), -k) for k in range(end + 1)]
    return lived_in.stretches[-max(pulls)[1]].name
