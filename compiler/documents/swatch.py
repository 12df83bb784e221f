"""The colour of a lamp as the camera sees it, as a small patch that also tells it without colour."""

from __future__ import annotations

from ..science.colour import difference, swatch
from .say import MIXED, SEEN, STRONG

WIDE, HIGH = 26.0, 11.0


def patch(kelvin: float | None, white: float | None) -> str:
    """An `svg` element, or nothing where one of the two is not known.

    Strokes that rise mean warm, strokes that fall mean cool; one, three or six of them for a little, clearly and
    strongly so.
    """
    if not kelvin or not white:
        return ""
    shift = difference(kelvin, white)
    count = 0 if abs(shift) < SEEN else 1 if abs(shift) < MIXED else 3 if abs(shift) < STRONG else 6
    strokes = []
    for n in range(count):
        x = 5.0 + (WIDE - 10.0) * (n + 0.5) / count
        low, high = (x - 4.0, x + 4.0) if shift > 0 else (x + 4.0, x - 4.0)
        strokes.append(f"M{low:.1f} {HIGH - 1.5:.1f}L{high:.1f} 1.5")
    drawn = f'<path d="{"".join(strokes)}" stroke="#000" stroke-width="1.1"/>' if strokes else ""
    size = f'width="{WIDE:g}pt" height="{HIGH:g}pt" viewBox="0 0 {WIDE:g} {HIGH:g}"'
    return (
        f'<svg class="swatch" aria-hidden="true" {size}>'
        f'<rect x=".5" y=".5" width="{WIDE - 1:g}" height="{HIGH - 1:g}" fill="{swatch(kelvin, white)}" stroke="#000"/>'
        f"{drawn}</svg>"
    )
