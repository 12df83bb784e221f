"""Durations from three points, against what others have published and computed."""

from __future__ import annotations

from itertools import pairwise
from random import Random
from statistics import fmean, pvariance

import pytest
from hotset.science import chance

# Four activities, (low, likely, high), with their means (a + 4 m + b) / 6 as D. G. Malcolm, J. H. Roseboom,
# C. E. Clark, W. Fazar, "Application of a technique for research and development program evaluation", Operations
# Research 7 (5), 1959, reckon them; worked by hand. The second, 5/8/14 with the mean 8.5, is a common example.
CHAIN = ((2.0, 3.0, 5.0), (5.0, 8.0, 14.0), (3.0, 4.0, 6.0), (1.0, 2.0, 3.0))
MEANS = (19.0 / 6.0, 8.5, 25.0 / 6.0, 2.0)


@pytest.mark.parametrize(("points", "mean"), list(zip(CHAIN, MEANS, strict=True)))
def test_the_mean_is_the_weighted_one(points: tuple[float, float, float], mean: float) -> None:
    assert chance.mean(*points) == pytest.approx(mean)


def test_the_variance_is_that_of_the_beta_distribution() -> None:
    # Beta(a, b) has the variance a b / ((a + b)^2 (a + b + 1)); N. L. Johnson, S. Kotz, N. Balakrishnan, "Continuous
    # univariate distributions", volume 2, chapter 25. With the mode in the middle that is 9 / 7 of ((b - a) / 6)^2.
    for low, likely, high in CHAIN:
        one = 1.0 + 4.0 * (likely - low) / (high - low)
        two = 1.0 + 4.0 * (high - likely) / (high - low)
        beta = one * two / ((one + two) ** 2 * (one + two + 1.0)) * (high - low) ** 2
        assert chance.variance(low, likely, high) == pytest.approx(beta)
    assert chance.variance(1.0, 2.0, 3.0) == pytest.approx((2.0 / 6.0) ** 2 * 9.0 / 7.0)


# Quantiles as SciPy 1.17 computes them: scipy.stats.beta.ppf(share, 1 + 4 mode, 1 + 4 (1 - mode)).
QUANTILES = (
    (0.5, 0.05, 0.18925538),
    (0.5, 0.5, 0.5),
    (0.5, 0.9, 0.75336355),
    (0.25, 0.1, 0.11223496),
    (0.25, 0.5, 0.31381017),
    (0.25, 0.95, 0.65740832),
    (0.0, 0.5, 0.12944944),
    (1.0, 0.5, 0.87055056),
)


@pytest.mark.parametrize(("mode", "share", "value"), QUANTILES)
def test_quantiles_are_those_of_the_beta_distribution(mode: float, share: float, value: float) -> None:
    assert chance.quantile(chance.quantiles(mode), share) == pytest.approx(value, abs=2e-4)


def test_extreme_quantiles_are_the_ends() -> None:
    table = chance.quantiles(0.3)
    assert (chance.quantile(table, 0.0), chance.quantile(table, 1.0)) == (0.0, 1.0)
    assert all(a < b for a, b in pairwise(table))


def test_a_mode_at_an_end_has_a_closed_form() -> None:
    # With the mode at 0 the distribution is beta(1, 5), whose quantiles are 1 - (1 - p)^(1/5).
    table = chance.quantiles(0.0)
    for share in (0.1, 0.3, 0.7, 0.99):
        assert chance.quantile(table, share) == pytest.approx(1.0 - (1.0 - share) ** 0.2, abs=2e-4)


def test_draws_have_the_mean_and_the_variance() -> None:
    luck = Random(3)
    low, likely, high = 5.0, 8.0, 14.0
    table = chance.quantiles((likely - low) / (high - low))
    drawn = [low + (high - low) * chance.quantile(table, luck.random()) for _ in range(20_000)]
    assert fmean(drawn) == pytest.approx(chance.mean(low, likely, high), rel=0.005)
    assert pvariance(drawn) == pytest.approx(chance.variance(low, likely, high), rel=0.03)


def test_the_normal_distribution_is_the_tabled_one() -> None:
    # Standard normal table: 0.8413 below 1, 0.9772 below 2, 0.95 below 1.6449 (NIST/SEMATECH e-handbook, 1.3.6.7.1).
    assert chance.normal_below(1.0, 0.0, 1.0) == pytest.approx(0.8413, abs=5e-5)
    assert chance.normal_below(2.0, 0.0, 1.0) == pytest.approx(0.9772, abs=5e-5)
    assert chance.normal_below(16.449, 0.0, 10.0) == pytest.approx(0.95, abs=5e-5)
