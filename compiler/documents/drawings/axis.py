"""The hours of a day from left to right, as all drawings of times share them."""

from __future__ import annotations

from .metrics import cut, width_of
from .svg import line, text

SIZE = 9.0
HOUR = 120  # half-minutes
GUTTER, RIGHT = 128.0, 42.0  # points left and right of the hours where several drawings stand one below the other


class Axis:
    """Times in half-minutes since local midnight laid out between a gutter for names and the right edge, in points."""

    def __init__(self, start: int, end: int, width: float, gutter: float = 88.0, right: float = 8.0) -> None:
        self.gutter, self.left, self.right = gutter, gutter, width - right
        self.start = start // HOUR * HOUR
        self.end = max(-(-end // HOUR) * HOUR, self.start + HOUR)
        self.factor = (self.right - self.left) / (self.end - self.start)

    def x(self, time: float) -> float:
        """Where a time lies; times before and after the axis at its ends."""
        return self.left + (min(max(time, self.start), self.end) - self.start) * self.factor

    def hours(self, top: float, bottom: float, named: float | None = -1.0) -> list[str]:
        """A thin line each hour, named above where there is room; `named` is another height for the names, None for
        lines without them."""
        drawn: list[str] = []
        every = next(n for n in (1, 2, 3, 4, 6, 12, 24, 48) if n * HOUR * self.factor >= 24.0 or n == 48)
        for n, time in enumerate(range(self.start, self.end + 1, HOUR)):
            x = self.x(time)
            drawn.append(line((x, top - 3.0), (x, bottom), 0.3, "1 2"))
            if named is not None and n % every == 0 and x <= self.right + 2.0:
                at = top if named < 0.0 else named
                drawn.append(text(f"{time // HOUR % 24:02d}", (x, at - 5.0), SIZE, False, "middle"))
        return drawn

    def name(self, said: str, baseline: float, bold: bool = True) -> str:
        """A name in the gutter, cut where it is too long."""
        return text(cut(said, SIZE, self.gutter - 8.0, bold), (2.0, baseline), SIZE, bold)

    def beside(self, said: str, x0: float, x1: float, size: float = SIZE) -> tuple[float, str] | None:
        """Where words about a stretch go: after it or before it, with their anchor; None where there is no room."""
        wide = width_of(said, size)
        if x1 + 3.0 + wide <= self.right:
            return x1 + 3.0, "start"
        return (x0 - 3.0, "end") if x0 - 3.0 - wide >= self.left else None
