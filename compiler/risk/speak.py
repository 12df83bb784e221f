"""The risk of a day in plain words, and as plain data for programs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ..facts.hours import times_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from .answer import Risk, WindowRisk

Line = tuple[int, str]
_SPREAD = "how far low and high lie from likely is typical, whatever minutes the plan says"


def lines(found: Risk) -> Iterator[Line]:
    """What is said of a day."""
    order = "in its agreed order" if found.agreed else "in the order found for it (none is agreed)"
    if found.latest is None:
        yield 0, f"day {found.day} {order}: no chance can be told, since 'wrap:' (the latest wrap) is not said"
    else:
        chance = f"{_days(found.in_time)} (give or take {max(1, round(100 * found.error))})"
        alike = f"on {_days(found.in_time_alike)} where a slow kind of task is slow all day"
        waited = ", every window waited for," if found.astray else ""
        yield 0, f"day {found.day} {order}: wrapped by {_clock(found.latest)}{waited} on {chance}; {alike}"
    yield from _astray(found)
    if found.windows or found.meals_late > 0:
        yield 0, f"all of it (wrap, windows, meals) comes true on {_days(found.kept)}"
    yield 0, f"by likely minutes it wraps at {_clock(found.planned)}, on the average at {_clock(found.mean)}"
    if found.without_buffer is not None:
        yield 0, f"the buffer of {_minutes(found.buffer)} is not touched on {_days(found.without_buffer)}"
    yield 0, f"what time after {_clock(found.planned)} buys (in brackets where a slow kind of task is slow all day):"
    for (of_100, need), (_, slow) in zip(found.buffers, found.buffers_alike, strict=True):
        yield 1, f"{_minutes(need)} are enough on {of_100} of 100 days ({_minutes(slow)})"
    if found.drivers:
        said = ", ".join(f"'{d.name}' {round(100 * d.share)} %" for d in found.drivers)
        yield 0, f"what decides the wrap most: {said} of its spread"
    yield from _windows(found)
    if found.meals_late > 0:
        words = "a meal is later than the plan's hours allow, or the wrap too long after it"
        yield 0, f"{words}, on {_days(found.meals_late)}: put it elsewhere, or have a second one ready"
    yield 0, "on every day drawn the order is kept and nothing is given up; 'hotset now' plans again on the day itself"
    yield 0, f"{found.draws} days drawn with seed {found.seed}; each duration is a PERT distribution (beta); {_SPREAD}"
    for detail in found.missing:
        yield 0, f"not counted with, for want of it: {detail}"


def _astray(found: Risk) -> Iterator[Line]:
    """Days that look shorter than they are."""
    if not found.astray:
        return
    names = ", ".join(f"'{name}'" for name in found.strays)
    what = f"{names} cannot wait for the hours and is" if len(found.strays) == 1 else f"{names} cannot wait and are"
    counted = "these days are in no number of wraps here" if found.astray < 1 else (
        "the wraps below are of days that miss it, and earlier for that alone")  # fmt: skip
    yield 0, f"on {_days(found.astray)} {what} shot before they come: {counted}"


def _windows(found: Risk) -> Iterator[Line]:
    missed = [w for w in found.windows if w.missed > 0]
    never = [w for w in found.windows if w.missed == 0]
    missed.sort(key=lambda w: -w.missed)
    if missed:
        yield 0, "windows that may be missed:"
        for window in missed:
            driver = f"; '{window.driver}' decides it most" if window.driver else ""
            yield 1, f"{_named(window)}: missed on {_days(window.missed)}{driver}{_longer(window)}"
    if never:
        yield 0, f"never missed: {', '.join(_named(w) for w in never)}"


def _longer(window: WindowRisk) -> str:
    """What to ask for, so that it is kept on nine of ten days; nobody can ask the sky."""
    if window.longer is None:
        return ""
    minutes = _minutes(10.0 * -(-window.longer // 10.0))
    if window.opening:
        return f"; its takes outlast it: {minutes} less of them would keep it on 90"
    if window.words.startswith(("needs", "sun ", "no sun")):
        return f"; {minutes} in hand before it would keep it on 90"
    return f"; {minutes} longer would keep it on 90"


def _named(window: WindowRisk) -> str:
    return f"{window.words} ({', '.join(window.setups)})" if len(window.setups) < 3 else window.words


def _days(share: float | None) -> str:
    """A chance as so many of 100 days; what is rare or nearly sure is not rounded away."""
    hundred = 100 * (share or 0.0)
    if 0 < hundred < 1:
        return "fewer than 1 of 100 days"
    if 99 < hundred < 100:
        return "more than 99 of 100 days"
    return f"{round(hundred)} of 100 days"


def _minutes(half_minutes: float) -> str:
    minutes = round(half_minutes / 2)
    return f"{minutes} min" if minutes < 120 else f"{minutes // 60} h {minutes % 60} min"


def _clock(half_minutes: float) -> str:
    return times_words(2 * round(half_minutes / 2))


def data(found: Risk) -> dict[str, Any]:
    """The same as plain data: clock times as words, lengths in minutes, chances from 0 to 1."""
    return {
        "day": found.day,
        "agreed": found.agreed,
        "order": list(found.order),
        "draws": found.draws,
        "seed": found.seed,
        "distribution": "PERT (beta)",
        "likely_wrap": _clock(found.planned),
        "average_wrap": _clock(found.mean),
        "latest_wrap": None if found.latest is None else _clock(found.latest),
        "in_time": found.in_time,
        "in_time_alike": found.in_time_alike,
        "give_or_take": round(found.error, 4),
        "buffer_minutes": found.buffer / 2,
        "without_buffer": found.without_buffer,
        "buffers": [{"of_100": c, "minutes": round(b / 2, 1), "minutes_alike": round(a / 2, 1)}
                    for (c, b), (_, a) in zip(found.buffers, found.buffers_alike, strict=True)],
        "drivers": [{"name": d.name, "share": round(d.share, 4)} for d in found.drivers],
        "all_kept": found.kept,
        "shot_before_a_window": found.astray,
        "windows": [{"window": w.words, "setups": list(w.setups), "missed": w.missed, "driver": w.driver or None,
                     "longer_minutes": None if w.longer is None else round(w.longer / 2, 1)}
                    for w in found.windows],
        "meal_late": found.meals_late,
        "missing": list(found.missing),
    }  # fmt: skip
