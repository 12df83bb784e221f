"""Boxes asked one by one and all over a grid answer alike."""

from __future__ import annotations

from hotset.documents.drawings import boxes
from hypothesis import given
from hypothesis import strategies as st


@given(st.lists(st.tuples(*[st.integers(0, 40)] * 4), max_size=12))
def test_a_grid_is_met_where_its_boxes_are(sides: list[tuple[int, int, int, int]]) -> None:
    found = [(float(min(a, c)), float(min(b, d)), float(max(a, c)), float(max(b, d))) for a, b, c, d in sides]
    columns, rows = [(5.0 * n, 5.0 * n + 7.0) for n in range(7)], [(4.0 * n, 4.0 * n + 5.0) for n in range(9)]
    met = boxes.met_on_a_grid(found, columns, rows)
    known = boxes.Boxes(found)
    for mask, (left, right) in zip(met, columns, strict=True):
        for n, (top, bottom) in enumerate(rows):
            assert bool(mask >> n & 1) == bool(known.met((left, top, right, bottom)))
