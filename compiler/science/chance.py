"""Durations of which three points are known, low, likely and high, as PERT distributions.

A PERT distribution is a beta distribution stretched from low a to high b with its mode at likely m: shape numbers
1 + 4 (m - a) / (b - a) and 1 + 4 (b - m) / (b - a), mean (a + 4 m + b) / 6. Sources: D. G. Malcolm, J. H. Roseboom,
C. E. Clark, W. Fazar, "Application of a technique for research and development program evaluation", Operations Research
7 (5), 1959 (mean, and (b - a) / 6 for the standard deviation, which is an approximation); the manual of the R package
mc2d, "The (Modified) PERT Distribution" (the beta distribution, of which the variance here is the exact one).
"""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import pairwise

STEPS = 400
"""Steps of the tables of quantiles; between two the quantile is taken as a straight line."""
FINE = 8
"""Steps of the integration within one step of the table."""
ROUNDED = 9
"""Digits of the tables: beyond these, powers may differ from machine to machine."""


def mean(low: float, likely: float, high: float) -> float:
    """The mean, in the unit of the three points."""
    return (low + 4.0 * likely + high) / 6.0


def variance(low: float, likely: float, high: float) -> float:
    """The variance of the beta distribution, (mean - a) (b - mean) / 7, in the square of the unit."""
    middle = mean(low, likely, high)
    return (middle - low) * (high - middle) / 7.0


def quantile(table: tuple[float, ...], share: float) -> float:
    """The value on 0..1 that a share (0..1) of all draws stays below, by a table of `quantiles`."""
    at = share * STEPS
    k = min(int(at), STEPS - 1)
    return table[k] + (table[k + 1] - table[k]) * (at - k)


@lru_cache(maxsize=256)
def quantiles(mode: float) -> tuple[float, ...]:
    """Quantiles 0, 1/STEPS, ... 1 of the PERT distribution on 0..1 with a mode on 0..1.

    The density is summed up by the midpoint rule on steps that lie closer where the density may rise steeply.
    """
    one, two = 4.0 * mode, 4.0 * (1.0 - mode)
    count = STEPS * FINE
    edges = [0.5 - 0.5 * math.cos(math.pi * k / count) for k in range(count + 1)]
    sums = [0.0]
    for a, b in pairwise(edges):
        middle = 0.5 * (a + b)
        sums.append(sums[-1] + middle**one * (1.0 - middle) ** two * (b - a))
    found, k = [0.0], 1
    for step in range(1, STEPS):
        wanted = sums[-1] * step / STEPS
        while sums[k] < wanted:
            k += 1
        share = (wanted - sums[k - 1]) / (sums[k] - sums[k - 1])
        found.append(round(edges[k - 1] + (edges[k] - edges[k - 1]) * share, ROUNDED))
    return (*found, 1.0)


def normal_below(value: float, middle: float, deviation: float) -> float:
    """The share of a normal distribution below a value (0..1)."""
    return 0.5 * (1.0 + math.erf((value - middle) / (deviation * math.sqrt(2.0))))
