"""Filters, hoods and matte boxes against rays built one by one, which know nothing of the formula."""

from __future__ import annotations

from math import cos, pi, sin
from pathlib import Path

import pytest
from hotset.science import lens
from hypothesis import given
from hypothesis import strategies as st

from .plans import compiled, conflicts

RINGS, SPOKES = 60, 72


def share_through(focal: float, pupil: float, depth: float, corner: tuple[float, float],
                  apertures: list[tuple[float, float]]) -> float:  # fmt: skip
    """The share of a distant point's light that reaches a point of the picture: rays from all over the pupil, in equal
    areas, towards `corner` (metres on the sensor), through round openings given as (metres before the glass, radius).
    """
    through = 0
    for i in range(RINGS):
        radius = pupil / 2 * ((i + 0.5) / RINGS) ** 0.5
        for k in range(SPOKES):
            x, y = radius * cos(2 * pi * k / SPOKES), radius * sin(2 * pi * k / SPOKES)
            ways = [(depth + t, r) for t, r in apertures]
            hits = ((x + z * corner[0] / focal) ** 2 + (y + z * corner[1] / focal) ** 2 <= r * r for z, r in ways)
            through += all(hits)
    return through / (RINGS * SPOKES)


def passes_all(focal: float, pupil: float, depth: float, circle: float, front: float) -> bool:
    """Whether the glass lets the whole bundle of the image circle's edge through."""
    return share_through(focal, pupil, depth, (circle / 2, 0.0), [(0.0, front / 2)]) == 1.0


@given(st.floats(0.014, 0.1), st.floats(1.4, 8.0), st.floats(0.02, 0.05), st.floats(0.001, 0.05))
def test_the_pupil_is_as_deep_as_the_glass_allows(focal: float, number: float, circle: float, more: float) -> None:
    pupil = focal / number
    depth = lens.pupil_depth(pupil + more, pupil, focal, circle)
    assert passes_all(focal, pupil, depth * 0.99, circle, pupil + more)
    assert not passes_all(focal, pupil, depth * 1.02 + pupil * 0.02 * focal / circle, circle, pupil + more)


@given(st.floats(0.014, 0.1), st.floats(1.4, 8.0), st.floats(0.001, 0.04), st.floats(0.002, 0.09))
def test_half_the_light_gets_past_an_edge_at_the_width_needed(
    focal: float, number: float, depth: float, ahead: float
) -> None:
    picture = (0.036, 0.024)
    pupil = focal / number
    diagonal = (picture[0] ** 2 + picture[1] ** 2) ** 0.5
    needed = lens.clear_needed(diagonal, focal, depth, ahead)
    corner = (picture[0] / 2, picture[1] / 2)
    if needed < 2 * pupil:
        return  # an opening hardly larger than the pupil cuts it with a curved edge: there is no half
    wider = share_through(focal, pupil, depth, corner, [(ahead, needed / 2 + 0.15 * pupil)])
    narrower = share_through(focal, pupil, depth, corner, [(ahead, needed / 2 - 0.1 * pupil)])
    assert narrower < 0.5 < wider


FRONT = """
hotset: 1
gear:
  body: {kind: camera, sensor: 36 mm x 24 mm}
  wide: {kind: lens, focal: FOCAL, opens: T2, circle: 43.3 mm, FRONTthread: 67 mm}
  glass: {kind: filter, thread: 67 mm, thick: 5 mm, clear: 63 mm}
  grey: {kind: filter, thread: 67 mm, thick: 8 mm, clear: 63 mm}
  mist: {kind: filter, thread: 67 mm}
  hood: {kind: filter, of: round hood, thick: 30 mm, clear: 80 mm}
  box: {kind: grip, of: matte box, thick: 60 mm, opening: 120 mm x 100 mm}
  pane: {kind: filter, fits: box, thick: 4 mm}
setups:
  one: {camera: {body: body, lens: wide, filters: [FILTERS]}}
"""


def plan(filters: str, focal: str = "20 mm", front: str = "front: 44 mm, ") -> str:
    return FRONT.replace("FILTERS", filters).replace("FOCAL", focal).replace("FRONT", front)


@pytest.mark.parametrize(
    ("filters", "focal", "who"),
    [
        ("glass", "20 mm", ""),
        ("glass, grey", "20 mm", ""),
        ("glass, grey, mist", "20 mm", "mist"),
        ("glass, grey, mist", "28 mm", ""),
        ("hood", "20 mm", "hood"),
        ("hood", "28 mm", ""),
        ("box, pane", "20 mm", "box"),
        ("box, pane", "35 mm", ""),
    ],
)
def test_who_stands_in_the_corners(filters: str, focal: str, who: str, tmp_path: Path) -> None:
    """By hand at 20 mm: p = (44 - 10) 20 / 43.3 = 15.7 mm; 13 mm before the glass 28.7 x 43.27 / 20 = 62.1 mm are
    needed, 18 mm before it 72.9 mm, 30 mm before it 98.9 mm; the box's sides want 136 mm x 91 mm."""
    found = conflicts(plan(filters, focal), tmp_path)
    assert [(f.rule, dict(f.details)["thing"]) for f in found] == ([("filter-in-frame", who)] if who else [])


def test_the_numbers_are_the_ones_by_hand(tmp_path: Path) -> None:
    found = conflicts(plan("glass, grey, mist"), tmp_path)[0]
    assert "reaches 18 mm before the glass of 'wide' and leaves 63 mm clear" in found.sentence
    assert "needs 72.9 mm there" in found.sentence
    assert found.ways_out[0] == "take off 'mist': with 'glass' and 'grey' alone the corners are clear"
    assert "take a 77 mm one" in found.ways_out[1]
    assert "'mist' 5 mm thick" in found.typical


def test_a_zoom_is_judged_where_it_is_widest(tmp_path: Path) -> None:
    zoom = plan("glass, grey, mist", "20-50 mm")
    assert [f.rule for f in conflicts(zoom, tmp_path)] == ["filter-in-frame"]
    long = zoom.replace("lens: wide,", "lens: wide, zoom: 40 mm,")
    assert conflicts(long, tmp_path) == []
    back = long.replace("{camera:", "{move: {kind: pull-out, zoom-to: 20 mm}, camera:")
    assert "filter-in-frame" in [f.rule for f in conflicts(back, tmp_path)]


def test_a_step_ring_carries_the_filter_further_out(tmp_path: Path) -> None:
    narrow = (
        plan("glass, grey")
        .replace("FRONT", "")
        .replace("T2, circle", "T2, circle")
        .replace("front: 44 mm, thread: 67 mm", "front: 44 mm, thread: 55 mm")
    )
    ring = narrow.replace("  hood:", "  ring: {kind: adapter, from: 55 mm, to: 67 mm, thick: 4 mm}\n  hood:")
    found = conflicts(ring, tmp_path)
    assert [f.rule for f in found] == ["filter-in-frame"]
    assert "reaches 17 mm" in found[0].sentence


def not_checked(text: str, folder: Path) -> list[str]:
    return [n.wants for n in compiled(text, folder).coverage.not_checked if n.rule == "filter-in-frame"]


def test_what_is_not_known_is_said_only_where_things_are_stacked(tmp_path: Path) -> None:
    assert not_checked(plan("", front=""), tmp_path) == []
    assert not_checked(plan("glass", front=""), tmp_path) == []
    assert not_checked(plan("glass, grey", front=""), tmp_path) == ["'front:' of 'wide'"]
    assert not_checked(plan("hood", front=""), tmp_path) == ["'front:' of 'wide'"]
    assert not_checked(plan("hood").replace("thick: 30 mm, ", ""), tmp_path) == ["'thick:' of 'hood'"]
    assert not_checked(plan("box").replace(", opening: 120 mm x 100 mm", ""), tmp_path) == [
        "'clear:' or 'opening:' of 'box'"
    ]
