"""Where a continuous function of time crosses zero, turns, and stays above zero.

Times are seconds unless the caller means something else by them; the search is deterministic and bounded.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable
from math import ceil


def bisect(function: Callable[[float], float], low: float, high: float) -> float:
    """Zero of a continuous function between two times of different sign, to 0.05 s."""
    below = function(low) < 0.0
    while high - low > 0.05:
        middle = (low + high) / 2
        if (function(middle) < 0.0) == below:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def peak(function: Callable[[float], float], low: float, high: float, sign: float) -> float:
    """Time of the greatest (sign 1) or least (sign -1) value between two times that enclose one, to 1 s."""
    while high - low > 1.0:
        a, b = low + (high - low) / 3, high - (high - low) / 3
        if sign * function(a) < sign * function(b):
            low = a
        else:
            high = b
    return (low + high) / 2


def sign_changes(
    function: Callable[[float], float], start: float, end: float, step: float = 1200.0
) -> list[tuple[float, bool]]:
    """Times at which a continuous function changes sign in [start, end], each with True where it becomes >= 0.

    The function is sampled every `step` seconds and wherever it turns, so that a dip shorter than a step is found too.
    """
    if end <= start:
        return []
    count = max(2, ceil((end - start) / step))
    times = [start + (end - start) * i / count for i in range(count + 1)]
    values = [function(t) for t in times]
    points = [(times[0], values[0])]
    for i in range(1, len(times)):
        before, here = values[i - 1], values[i]
        after = values[i + 1] if i + 1 < len(times) else here
        points.append((times[i], here))
        sign = 1.0 if before < here > after else -1.0 if before > here < after else 0.0
        if sign and sign * here < 0.0:
            turn = peak(function, times[i - 1], times[i + 1], sign)
            points.append((turn, function(turn)))
    points.sort()
    return [
        (bisect(function, a, b), value_b >= 0.0)
        for (a, value_a), (b, value_b) in itertools.pairwise(points)
        if (value_a < 0.0) != (value_b < 0.0)
    ]


def spans(
    function: Callable[[float], float], start: float, end: float, step: float = 1200.0
) -> list[tuple[float, float]]:
    """Spans of [start, end] in which a continuous function is >= 0, in order."""
    if end <= start:
        return []
    result: list[tuple[float, float]] = []
    opened = start if function(start) >= 0.0 else None
    for time, becomes_true in sign_changes(function, start, end, step):
        if becomes_true:
            opened = time
        elif opened is not None:
            result.append((opened, time))
            opened = None
    if opened is not None:
        result.append((opened, end))
    return result
