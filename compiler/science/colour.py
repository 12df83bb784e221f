"""Colour of light: mired arithmetic for crew words, filters, and the swatch a balanced camera makes of a source.

Colour temperatures in kelvin. Sources and balance are taken on the Planckian locus, by the closed form of Kang, Moon,
Hong, Lee, Cho and Kim (2002), valid 1667 to 25000 K; the swatch is adapted by the Bradford transform (Lam 1985) and
given in sRGB (IEC 61966-2-1). Light off that locus is given as points of colour compensation, as printers' and lighting
gels are counted: 30 points of green keep 10^-0.30 of red and blue. A swatch is a hue, not a measurement.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations_with_replacement
from typing import NamedTuple

Triple = tuple[float, float, float]

#: The closed form of the locus holds between these temperatures, K.
COLDEST, HOTTEST = 25000.0, 1667.0

#: Mired differences at which crew words change (common practice, no source): just seen, natural mix, strong.
SEEN, MIXED, STRONG = 20.0, 60.0, 110.0

_BRADFORD = ((0.8951, 0.2664, -0.1614), (-0.7502, 1.7135, 0.0367), (0.0389, -0.0685, 1.0296))
_BRADFORD_BACK = (
    (0.9869929, -0.1470543, 0.1599627),
    (0.4323053, 0.5183603, 0.0492912),
    (-0.0085287, 0.0400428, 0.9684867),
)
_TO_SRGB = ((3.2406, -1.5372, -0.4986), (-0.9689, 1.8758, 0.0415), (0.0557, -0.2040, 1.0570))
_D65 = (0.3127, 0.3290)


class Gel(NamedTuple):
    """A colour filter: a name, its mired shift (positive is warmer) and the stops it takes."""

    name: str
    shift: float
    stops: float = 0.0


def mired(kelvin: float) -> float:
    """Micro reciprocal degrees: 10^6 / K."""
    return 1e6 / kelvin


def kelvin(mired_: float) -> float:
    """Colour temperature of a mired value."""
    return 1e6 / mired_


def difference(source: float, balance: float) -> float:
    """Mired by which a source (K) is warmer (positive) or cooler (negative) than a white balance (K)."""
    return mired(source) - mired(balance)


def shifted(source: float, shift: float) -> float:
    """Colour temperature (K) of a source behind a filter of a mired shift."""
    return 1e6 / (mired(source) + shift)


def words(difference_: float) -> str:
    """What a crew says of a mired difference against the balance: strength and direction."""
    size = abs(difference_)
    if size < SEEN:
        return "neutral"
    warm = difference_ > 0
    if size < MIXED:
        return "slightly warm" if warm else "slightly cool"
    if size < STRONG:
        return "warm" if warm else "cool"
    return "strong orange" if warm else "strong blue"


def gels_for(source: float, wanted: float, gels: Sequence[Gel], layers: int = 2) -> tuple[tuple[Gel, ...], float]:
    """The gels (none up to `layers`) that bring a source (K) nearest to a wanted temperature, and the mired still
    missing.

    Fewer layers win where another layer gains less than 3 mired; then fewer stops, then the order given.
    """
    missing = mired(wanted) - mired(source)
    best: tuple[Gel, ...] = ()
    for count in range(1, layers + 1):
        choice = min(
            combinations_with_replacement(gels, count),
            key=lambda c: (round(abs(missing - _shift(c)), 6), sum(g.stops for g in c)),
            default=best,
        )
        if abs(missing - _shift(choice)) < abs(missing - _shift(best)) - 3.0:
            best = choice
    return best, missing - _shift(best)


def _shift(gels: Sequence[Gel]) -> float:
    return sum(gel.shift for gel in gels)


def locus(temperature: float) -> tuple[float, float]:
    """Chromaticity x, y (CIE 1931) of the Planckian locus; beyond the closed form's ends its ends are taken."""
    t = min(max(temperature, HOTTEST), COLDEST)
    if t <= 4000.0:
        x = ((-0.2661239e9 / t - 0.2343589e6) / t + 0.8776956e3) / t + 0.179910
    else:
        x = ((-3.0258469e9 / t + 2.1070379e6) / t + 0.2226347e3) / t + 0.24039
    if t <= 2222.0:
        y = ((-1.1063814 * x - 1.34811020) * x + 2.18555832) * x - 0.20219683
    elif t <= 4000.0:
        y = ((-0.9549476 * x - 1.37418593) * x + 2.09137015) * x - 0.16748867
    else:
        y = ((3.0817580 * x - 5.8733867) * x + 3.75112997) * x - 0.37001483
    return x, y


def _xyz(chromaticity: tuple[float, float]) -> Triple:
    x, y = chromaticity
    return x / y, 1.0, (1.0 - x - y) / y


def _times(matrix: tuple[Triple, Triple, Triple], v: Triple) -> Triple:
    a, b, c = matrix
    return (
        a[0] * v[0] + a[1] * v[1] + a[2] * v[2],
        b[0] * v[0] + b[1] * v[1] + b[2] * v[2],
        c[0] * v[0] + c[1] * v[1] + c[2] * v[2],
    )


def as_seen(source: float, balance: float) -> Triple:
    """Linear sRGB (luminance 1, not clipped) of a source by a camera balanced for another temperature."""
    here = _times(_BRADFORD, _xyz(locus(source)))
    white = _times(_BRADFORD, _xyz(locus(balance)))
    target = _times(_BRADFORD, _xyz(_D65))
    adapted = _times(
        _BRADFORD_BACK,
        (here[0] * target[0] / white[0], here[1] * target[1] / white[1], here[2] * target[2] / white[2]),
    )
    return _times(_TO_SRGB, adapted)


def tinted(linear: Triple, green: float) -> Triple:
    """Linear sRGB behind points of green (negative: of magenta): a filter of CC n has density n / 100 for the colours
    it holds back.
    """
    kept = float(10.0 ** (-abs(green) / 100.0))
    red, leaf, blue = linear
    return (red * kept, leaf, blue * kept) if green > 0 else (red, leaf * kept, blue)


def swatch(source: float, balance: float, green: float = 0.0) -> str:
    """`#rrggbb` of a source as seen, with points of green: negative parts cut, the greatest part scaled to full."""
    linear = [max(0.0, part) for part in tinted(as_seen(source, balance), green)]
    top = max(linear)
    return "#" + "".join(f"{round(255 * _encode(part / top)):02x}" for part in linear)


def _encode(linear: float) -> float:
    """The sRGB transfer function, 0 to 1."""
    return 12.92 * linear if linear <= 0.0031308 else float(1.055 * linear ** (1 / 2.4) - 0.055)
