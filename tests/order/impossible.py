"""Fifty days that cannot be shot, made so by construction: fourteen kinds of conflicts among setups that fit by
themselves. Every text says in its kind what is wrong with it."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from plans import HEAD, setups

COUNT = 50


def plan(number: int) -> tuple[str, str]:
    """(kind, text) of one of the fifty."""
    kinds = sorted(KINDS)
    kind = kinds[number % len(kinds)]
    return kind, KINDS[kind](Random(number))


def _clock(minutes: int) -> str:
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def _others(rng: Random, most: int = 2) -> list[str]:
    """Setups that are in nobody's way."""
    return [
        f"other-{k}: {{set: {rng.choice(('hall', 'loft'))}, takes: {rng.randrange(5, 20, 5)} min, rig: 5 min}}"
        for k in range(rng.randint(0, most))
    ]


def _day(text: str, more: str) -> str:
    return text.replace("wrap-out: 30 min", f"wrap-out: 30 min, {more}", 1)


def _windows(rng: Random) -> str:
    """Two or three setups inside hours that have room for all but one."""
    n, takes = rng.randint(2, 3), rng.randrange(20, 45, 5)
    start = rng.randrange(9 * 60, 15 * 60, 15)
    hours = f"between: {_clock(start)}-{_clock(start + takes * n - 10)}"
    return setups(*(f"in-{k}: {{takes: {takes} min, rig: 5 min, {hours}}}" for k in range(n)), *_others(rng))


def _cast_hours(rng: Random) -> str:
    """More takes with somebody than their hours have."""
    n, takes = rng.randint(2, 3), rng.randrange(20, 45, 5)
    start = rng.randrange(9 * 60, 15 * 60, 15)
    lines = [f"with-{k}: {{takes: {takes} min, rig: 5 min, cast: [CLERK]}}" for k in range(n)]
    here = f"mara: {{plays: CLERK, here: {_clock(start)}-{_clock(start + takes * n - 5)}}}"
    return setups(*lines, *_others(rng)).replace("mara: {plays: CLERK}", here)


def _dark(rng: Random) -> str:
    """Somebody who leaves before it is dark has a setup in the dark. (In November it is dark there after four.)"""
    here = f"mara: {{plays: CLERK, here: 08:00-{rng.randint(12, 15)}:00}}"
    line = f"night: {{set: hall, takes: {rng.randrange(10, 40, 5)} min, rig: 5 min, needs: dark, cast: [CLERK]}}"
    return setups(line, *_others(rng)).replace("mara: {plays: CLERK}", here)


def _cloth(rng: Random) -> str:
    """Black-out cloth that takes longer to hang than there is time between two pinned setups."""
    start = rng.randrange(9 * 60, 15 * 60, 15)
    text = setups(
        "open: {set: hall, takes: 10 min, lights: {a: {lamp: lamp, at: [1 m, 1 m]}}}",
        "shut: {set: hall, takes: 10 min, windows: {bay: {black-out: cloth}}}",
        *_others(rng),
    )
    return _day(text, f'pinned: {{open: "{_clock(start)}", shut: "{_clock(start + 20)}"}}')


def _too_short(rng: Random) -> str:
    """More takes than the day has hours."""
    n, takes = rng.randint(2, 4), rng.randrange(20, 60, 5)
    wrap = 9 * 60 + takes * n - rng.randrange(0, 25, 5)
    lines = [f"s{k}: {{set: {rng.choice(('hall', 'loft'))}, takes: {takes} min, rig: 5 min}}" for k in range(n)]
    return setups(*lines).replace('wrap: "20:00"', f'wrap: "{_clock(wrap)}"')


def _loan(rng: Random) -> str:
    """A lamp that is given back before those who are lit by it come."""
    hour = rng.randint(11, 15)
    text = setups(
        "lit: {set: hall, takes: 20 min, cast: [CLERK], lights: {a: {lamp: lamp, at: [1 m, 1 m]}}}", *_others(rng)
    )
    text = text.replace("lamp: {kind: light, draws: 100 W}", f"lamp: {{kind: light, due: 2026-11-14 {hour}:00}}")
    return text.replace("mara: {plays: CLERK}", f"mara: {{plays: CLERK, here: {hour}:00-18:00}}")


def _cycle(rng: Random) -> str:
    """An order that bites its tail, of two or three setups."""
    n = rng.randint(2, 3)
    return setups(*(f"c{k}: {{takes: 10 min, after: c{(k + 1) % n}}}" for k in range(n)), *_others(rng))


def _turned(rng: Random) -> str:
    """What has to come later has the earlier hours."""
    late = rng.randrange(13 * 60, 16 * 60, 15)
    early = late - rng.randrange(60, 180, 15)
    return setups(
        f"first: {{takes: 20 min, rig: 5 min, between: {_clock(late)}-{_clock(late + 40)}}}",
        f"then: {{takes: 20 min, rig: 5 min, after: first, between: {_clock(early)}-{_clock(early + 40)}}}",
        *_others(rng),
    )


def _pinned(rng: Random) -> str:
    """One lamp in two rooms at two times that are too near."""
    start, gap = rng.randrange(9 * 60, 16 * 60, 15), rng.randrange(5, 20, 5)
    text = setups(
        "one: {set: hall, takes: 10 min, lights: {a: {lamp: lamp, at: [1 m, 1 m]}}}",
        "two: {set: loft, takes: 10 min, lights: {a: {lamp: lamp, at: [1 m, 1 m]}}}",
        *_others(rng),
    )
    return _day(text, f'pinned: {{one: "{_clock(start)}", two: "{_clock(start + 10 + gap)}"}}')


def _rest(rng: Random) -> str:
    """The next day is called so early that the rest before it ends this one too soon."""
    call = rng.randint(3, 6)
    text = setups(*(f"s{k}: {{takes: {150 + 20 * k} min, rig: 10 min, day: 1}}" for k in range(3)))
    text = text.replace("takes: 150 min", f"takes: {150 + (call - 3) * 60} min")
    two = f'2: {{date: 2026-11-15, call: "{call:02d}:00", wrap: "18:00"}}'
    return text.replace("wrap-out: 30 min}}", f"wrap-out: 30 min}}, {two}}}", 1)


def _meal(rng: Random) -> str:
    """A meal at one time only, across takes that are pinned, or takes that are longer than anybody goes without."""
    if rng.random() < 0.4:
        return setups(f"long: {{takes: {rng.randrange(370, 430, 10)} min, rig: 5 min}}", *_others(rng))
    start = rng.randrange(11 * 60, 13 * 60, 15)
    text = setups("fixed: {takes: 40 min, rig: 5 min}", *_others(rng))
    more = f'pinned: {{fixed: "{_clock(start)}"}}, meal: {{takes: 30 min, at: "{_clock(start + 20)}"}}'
    return _day(text, more)


def _access(rng: Random) -> str:
    """The house is open for less than what is shot in it."""
    n, start = rng.randint(2, 3), rng.randrange(9 * 60, 14 * 60, 15)
    lines = [f"s{k}: {{set: {'hall' if k else 'loft'}, takes: 30 min, rig: 5 min}}" for k in range(n)]
    hours = f"access: {_clock(start)}-{_clock(start + 30 * n + 5)}"
    return setups(*lines).replace("zone: Europe/London", f"zone: Europe/London\n    {hours}")


def _hot(rng: Random) -> str:
    """A hot set holds a lamp that a setup pinned in between wants elsewhere."""
    start = rng.randrange(10 * 60, 15 * 60, 15)
    light = "lights: {a: {lamp: lamp, at: [%s m, 1 m]}}"
    text = setups(
        f"hot: {{set: hall, takes: 10 min, held-until: close, {light % 1}}}",
        f"between: {{set: loft, takes: 10 min, {light % 2}}}",
        f"close: {{set: hall, takes: 10 min, {light % 1}}}",
        *_others(rng, 1),
    )
    pins = f'hot: "{_clock(start)}", between: "{_clock(start + 60)}", close: "{_clock(start + 120)}"'
    return _day(text, f"pinned: {{{pins}}}")


def _twice(rng: Random) -> str:
    """A setup in the dark, and two causes against it: the wrap comes before the dark, and so does the end of the hours
    of whoever is in it. Neither is mended by mending the other."""
    wrap = rng.randint(14, 15)
    here = f"mara: {{plays: CLERK, here: 08:00-{rng.randint(12, 15)}:00}}"
    line = f"night: {{set: hall, takes: {rng.randrange(10, 40, 5)} min, rig: 5 min, needs: dark, cast: [CLERK]}}"
    text = setups(line, *_others(rng)).replace("mara: {plays: CLERK}", here)
    return text.replace('wrap: "20:00"', f'wrap: "{wrap}:00"')


KINDS: dict[str, Callable[[Random], str]] = {
    "access hours": _access, "cast hours": _cast_hours, "cloth": _cloth, "cycle": _cycle, "day too short": _too_short,
    "gone before dark": _dark, "hot set": _hot, "loan": _loan, "meal": _meal, "one lamp, two rooms": _pinned,
    "rest between days": _rest, "turned round": _turned, "two causes": _twice, "windows": _windows,
}  # fmt: skip
assert "wrap-out: 30 min}}" in HEAD
