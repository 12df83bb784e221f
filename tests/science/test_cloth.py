"""Cutting cloth: it reaches only where it truly reaches."""

from __future__ import annotations

import pytest
from hotset.science import cloth
from hotset.science.cloth import Panel, Sheet
from hypothesis import given
from hypothesis import strategies as st

SIDE = st.floats(0.2, 2.5)
PANELS = st.lists(st.tuples(SIDE, SIDE), min_size=1, max_size=5)
SHEETS = st.lists(st.tuples(st.floats(0.3, 2.0), st.floats(0.3, 6.0)), min_size=1, max_size=3)
JOIN = st.sampled_from([None, 0.05, 0.1])


def named(panels: list[tuple[float, float]]) -> list[Panel]:
    return [Panel(f"w{i}", w, h) for i, (w, h) in enumerate(panels)]


def sheets_of(sheets: list[tuple[float, float]]) -> list[Sheet]:
    return [Sheet(f"s{i}", w, h) for i, (w, h) in enumerate(sheets)]


@given(PANELS, SHEETS, JOIN)
def test_cutting_never_makes_cloth(
    panels: list[tuple[float, float]], sheets: list[tuple[float, float]], join: float | None
) -> None:
    stock = {s.name: s for s in sheets_of(sheets)}
    found = cloth.cut(named(panels), list(stock.values()), join, limit=2000)
    assert found.owned == pytest.approx(sum(w * h for w, h in sheets))
    if not found.fits:
        assert found.cuts == ()
        return
    assert sum(c.across * c.along for c in found.cuts) <= found.owned + 1e-9
    assert sum(c.across * c.along for c in found.cuts) >= found.wanted - 1e-9
    for c in found.cuts:
        assert 0 <= c.from_side <= stock[c.sheet].width - c.across + 1e-9
        assert 0 <= c.from_end <= stock[c.sheet].length - c.along + 1e-9
    for i, a in enumerate(found.cuts):
        for b in found.cuts[i + 1 :]:
            apart = (
                a.from_side + a.across <= b.from_side + 1e-9
                or b.from_side + b.across <= a.from_side + 1e-9
                or a.from_end + a.along <= b.from_end + 1e-9
                or b.from_end + b.along <= a.from_end + 1e-9
            )
            assert apart or a.sheet != b.sheet
    for panel in named(panels):
        parts = [c for c in found.cuts if c.panel == panel.name]
        assert sorted(c.part for c in parts) == list(range(1, parts[0].parts + 1))
        seams = (len(parts) - 1) * (join or 0.0)
        covered = sum(c.across * c.along for c in parts)
        assert covered - seams * max(panel.width, panel.height) <= panel.width * panel.height + 0.01
    assert found.joins == sum(c.parts - 1 for c in found.cuts if c.part == 1)


@given(PANELS, SHEETS, JOIN)
def test_more_cloth_never_hurts(
    panels: list[tuple[float, float]], sheets: list[tuple[float, float]], join: float | None
) -> None:
    less = cloth.cut(named(panels), sheets_of(sheets), join, limit=500)
    more = cloth.cut(named(panels), [*sheets_of(sheets), Sheet("extra", 5.0, 50.0)], join)
    assert more.fits
    assert more.owned > less.owned


def lies_on_grid(pieces: list[tuple[int, int]], width: int, length: int, taken: frozenset[tuple[int, int]]) -> bool:
    """Brute force: lay whole-metre pieces on every cell of a grid of metres, either way round."""
    if not pieces:
        return True
    for x in range(width):
        for y in range(length):
            for w, h in (pieces[0], pieces[0][::-1]):
                cells = {(x + i, y + j) for i in range(w) for j in range(h)}
                fits = x + w <= width and y + h <= length and not cells & taken
                if fits and lies_on_grid(pieces[1:], width, length, taken | cells):
                    return True
    return False


@given(
    st.lists(st.tuples(st.integers(1, 3), st.integers(1, 3)), min_size=1, max_size=5),
    st.integers(1, 4),
    st.integers(1, 5),
)
def test_what_cannot_be_cut_truly_cannot(pieces: list[tuple[int, int]], width: int, length: int) -> None:
    panels = [Panel(f"p{i}", w, h) for i, (w, h) in enumerate(pieces)]
    found = cloth.cut(panels, [Sheet("piece", width, length)])
    if found.proven:
        assert found.fits is lies_on_grid(sorted(pieces, reverse=True), width, length, frozenset())
    else:
        assert not found.fits


def test_a_hatch_from_a_roll() -> None:
    size = cloth.with_overlap(1.3, 1.2, 0.15)
    assert size == pytest.approx((1.6, 1.5))
    found = cloth.cut([Panel("hatch", *size)], [Sheet("roll", 1.5, 12.0)])
    assert found.fits
    assert found.joins == 0
    assert [(c.across, c.along) for c in found.cuts] == [(1.5, 1.6)]
    assert found.wanted == pytest.approx(2.4)
    assert found.owned == pytest.approx(18.0)


def test_seven_hatches_use_up_the_roll_and_the_eighth_is_short() -> None:
    seven = [Panel(f"w{i}", 1.6, 1.5) for i in range(7)]
    assert cloth.cut(seven, [Sheet("roll", 1.5, 12.0)]).fits
    eight = cloth.cut([*seven, Panel("last", 1.6, 1.5)], [Sheet("roll", 1.5, 12.0)])
    assert not eight.fits
    assert eight.proven


def test_enough_area_may_still_be_too_little() -> None:
    """Two squares of 1 m have 2 square metres, as the piece 1.9 x 1.1 m has more; they cannot lie in it."""
    found = cloth.cut([Panel("a", 1.0, 1.0), Panel("b", 1.0, 1.0)], [Sheet("piece", 1.1, 1.9)])
    assert found.wanted < found.owned
    assert not found.fits
    assert found.proven


def test_a_layout_no_row_by_row_cutting_finds() -> None:
    """Five pieces around one another, like a pinwheel, fill a square of 3 m; no straight cut across parts them."""
    pieces = [Panel(n, w, h) for n, w, h in (("a", 2, 1), ("b", 1, 2), ("c", 2, 1), ("d", 1, 2), ("e", 1, 1))]
    found = cloth.cut(pieces, [Sheet("square", 3.0, 3.0)])
    assert found.fits
    assert found.wanted == found.owned == 9.0


def test_strips_are_joined_only_where_joining_is_allowed() -> None:
    tall = [Panel("door", 2.2, 2.3)]
    roll = [Sheet("roll", 1.5, 12.0)]
    assert cloth.cut(tall, roll).too_large == ("door",)
    joined = cloth.cut(tall, roll, join=0.1)
    assert joined.fits
    assert joined.joins == 1
    assert joined.too_large == ("door",)
    assert {c.parts for c in joined.cuts} == {2}


def test_the_limit_is_said() -> None:
    panels = [Panel(f"p{i}", 0.5 + 0.07 * i, 0.4 + 0.05 * i) for i in range(9)]
    area = sum(p.width * p.height for p in panels)
    found = cloth.cut(panels, [Sheet("tight", 1.3, area / 1.3 + 0.05)], limit=300)
    assert not found.fits
    assert not found.proven


def test_nothing_wanted_always_fits() -> None:
    assert cloth.cut([], []).fits
    assert not cloth.cut([Panel("a", 1, 1)], []).fits


@given(PANELS, st.floats(0.6, 2.0))
def test_the_length_named_for_shopping_does(panels: list[tuple[float, float]], width: float) -> None:
    length = cloth.length_that_would_do(named(panels), width, 0.1)
    assert length is not None
    if len(panels) <= 3:
        assert cloth.cut(named(panels), [Sheet("roll", width, length + 0.01)], 0.1).fits


def test_shopping_for_a_roll_too_narrow() -> None:
    assert cloth.length_that_would_do([Panel("a", 2.0, 2.0)], 1.5) is None
    assert cloth.length_that_would_do([Panel("a", 2.0, 2.0)], 0.0, 0.1) is None
    assert cloth.length_that_would_do([Panel("a", 1.6, 1.5), Panel("b", 0.5, 0.5)], 1.5) == pytest.approx(2.1)


def test_a_window_of_a_kilometre_is_answered_at_once() -> None:
    panel = [Panel("slip of the key", 1000.0, 1_000_000.0)]
    assert not cloth.cut(panel, [Sheet("roll", 3.0, 12.0)], 0.1).fits
    assert cloth.length_that_would_do(panel, 3.0, 0.1) is None
