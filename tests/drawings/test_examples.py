"""Every drawing of every setup of the examples: no words over words, all of them on the paper and large enough."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from itertools import pairwise
from pathlib import Path

import pytest
from hotset.documents.drawings.from_plan import plan_of_set
from hotset.documents.drawings.from_power import boom
from hotset.documents.drawings.from_view import eye_view
from hotset.documents.drawings.metrics import ASCENT, DESCENT, width_of
from hotset.documents.drawings.shapes import contains
from hotset.documents.drawings.svg import Drawing
from hotset.documents.say import Say
from hotset.documents.words import words_for
from hotset.facts.walls import corners
from hotset.pipeline import compile_plan
from hotset.plan import Plan

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SVG = "{http://www.w3.org/2000/svg}"
Box = tuple[float, float, float, float]


def plans() -> list[Plan]:
    made = [compile_plan([str(path)]).plan for path in sorted(EXAMPLES.glob("*/plan.yaml"))]
    return [plan for plan in made if plan is not None]


def words(drawing: Drawing) -> list[tuple[str, Box, float]]:
    """What is written, the box it takes as reckoned from its letters, and its size."""
    found = []
    for e in ET.fromstring(drawing.svg).iter(f"{SVG}text"):
        said, size = "".join(e.itertext()), float(e.get("font-size", "0"))
        if not said:
            continue
        wide = width_of(said, size, e.get("font-weight") == "bold")
        x, y = float(e.get("x", "0")), float(e.get("y", "0"))
        left = x - (wide / 2 if e.get("text-anchor") == "middle" else wide if e.get("text-anchor") == "end" else 0.0)
        found.append((said, (left, y - size * 0.72, left + wide, y + size * 0.2), size))
    return found


def over(a: Box, b: Box) -> bool:
    return min(a[2], b[2]) - max(a[0], b[0]) > 0.5 and min(a[3], b[3]) - max(a[1], b[1]) > 0.5


@pytest.mark.parametrize("plan", plans(), ids=lambda plan: plan.film.title or "")
def test_every_drawing_can_be_read(plan: Plan) -> None:
    assert ASCENT > 0.72
    assert DESCENT > 0.2
    drawn = 0
    before: list[str | None] = [None, *plan.setups]
    for old, name in pairwise(before):
        assert name is not None
        for drawing in (plan_of_set(plan, name, before=old), eye_view(plan, name), eye_view(plan, name, end=True)):
            if not drawing.svg:
                continue
            drawn += 1
            assert drawing.left_out == (), (name, drawing.title)
            said = words(drawing)
            assert min(size for _words, _box, size in said) >= 9.0
            for n, (one, box, _size) in enumerate(said):
                assert box[0] > -0.5, (name, one)
                assert box[2] < drawing.width + 0.5, (name, one)
                assert box[1] > -0.5, (name, one)
                assert box[3] < drawing.height + 0.5, (name, one)
                assert [other for other, at, _s in said[:n] if over(box, at)] == [], (name, one)
    placed = [s for s in plan.setups.values() if s.set and s.camera is not None and s.camera.at is not None]
    assert drawn >= 2 * len(placed)


@pytest.mark.parametrize("plan", plans(), ids=lambda plan: plan.film.title or "")
def test_nobody_holds_a_boom_through_a_wall(plan: Plan) -> None:
    say = Say(plan, words_for())
    for setup in plan.setups.values():
        room = plan.sets.get(setup.set or "")
        for line in boom(plan, setup, say):
            assert len(line.points) == 2
            if room is not None and not room.outdoors:
                assert all(contains(corners(room), p) for p in line.points), setup.id
