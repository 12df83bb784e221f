"""Many upright boxes, asked which of them another box overlaps."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence

from .shapes import Box


class Boxes:
    """Boxes sorted by each of their four sides, so that four look-ups answer for all of them at once.

    A set of boxes is a whole number with one bit a box. `grown` widens each box, for lines that have no width.
    """

    def __init__(self, boxes: Sequence[Box], grown: float = 0.0) -> None:
        self._lefts, self._from_left = _started([box[0] - grown for box in boxes])
        self._tops, self._from_top = _started([box[1] - grown for box in boxes])
        self._rights, self._to_right = _lasting([box[2] + grown for box in boxes])
        self._bottoms, self._to_bottom = _lasting([box[3] + grown for box in boxes])

    def met(self, box: Box) -> int:
        """The boxes that share more than an edge with this one."""
        return (
            self._from_left[bisect_left(self._lefts, box[2])]
            & self._to_right[bisect_right(self._rights, box[0])]
            & self._from_top[bisect_left(self._tops, box[3])]
            & self._to_bottom[bisect_right(self._bottoms, box[1])]
        )


def met_on_a_grid(
    boxes: Sequence[Box], across: Sequence[tuple[float, float]], down: Sequence[tuple[float, float]]
) -> list[int]:
    """For every column of a grid the set of its rows whose box meets one of the boxes, by sharing more than an edge.

    `across` are left and right of the columns, `down` top and bottom of the rows, each in order.
    """
    lefts, rights = [a for a, _ in across], [b for _, b in across]
    tops, bottoms = [a for a, _ in down], [b for _, b in down]
    met = [0] * len(across)
    for left, top, right, bottom in boxes:
        rows = (1 << bisect_left(tops, bottom)) - (1 << bisect_right(bottoms, top))
        if rows > 0:
            for n in range(bisect_right(rights, left), bisect_left(lefts, right)):
                met[n] |= rows
    return met


def _started(values: list[float]) -> tuple[list[float], list[int]]:
    """The values in order, and for each number of them the set of those that come first."""
    order = sorted(range(len(values)), key=lambda n: values[n])
    sets = [0]
    for n in order:
        sets.append(sets[-1] | 1 << n)
    return [values[n] for n in order], sets


def _lasting(values: list[float]) -> tuple[list[float], list[int]]:
    """The values in order, and for each number of them the set of those that are left."""
    listed, first = _started(values)
    return listed, [first[-1] & ~part for part in first]
