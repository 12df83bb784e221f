"""The camera's-eye view: true perspective, near hides far, what is in the picture is crossed and told."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from math import atan, degrees, radians, tan
from pathlib import Path

import pytest
from hotset.documents.drawings import eyeview
from hotset.documents.drawings.eyeview import Person, Surface, Thing, View
from hotset.documents.drawings.from_view import eye_view
from hotset.plan import decode
from hotset.science.camera import Camera, faces, looking_at
from hotset.science.geometry import box
from hotset.source import read

SVG = "{http://www.w3.org/2000/svg}"
HALF = (36.0 / 70.0, 20.25 / 70.0)  # 36 mm by 20.25 mm at 35 mm
WALL = Surface("wall", ((-3.0, 4.0, 0.0), (3.0, 4.0, 0.0), (3.0, 4.0, 2.5), (-3.0, 4.0, 2.5)))


def camera() -> Camera:
    """At the origin, 1.5 m up, looking level along +y."""
    return looking_at((0.0, 0.0, 1.5), (0.0, 4.0, 1.5), *HALF)


def frame(svg: str) -> tuple[float, float, float, float]:
    thick = next(e for e in ET.fromstring(svg).iter(f"{SVG}rect") if e.get("stroke-width") == "2.4")
    x, y, w, h = (float(thick.get(k, "0")) for k in ("x", "y", "width", "height"))
    return x, y, w, h


def shapes(svg: str) -> list[list[tuple[float, float]]]:
    found = []
    for path in ET.fromstring(svg).iter(f"{SVG}path"):
        points = re.findall(r"(-?[\d.]+) (-?[\d.]+)", path.get("d", ""))
        if path.get("d", "").endswith("Z"):
            found.append([(float(x), float(y)) for x, y in points])
    return found


def test_a_wall_stands_where_central_projection_puts_it() -> None:
    """A point x to the side at the distance z lies x / (z tan(half field)) of the half frame off the middle."""
    svg = eyeview.draw(View("v", camera(), (WALL,)), "e").svg
    _, y, w, h = frame(svg)
    assert w / h == pytest.approx(16 / 9, abs=0.01)
    wall = shapes(svg)[0]
    wide = max(p[0] for p in wall) - min(p[0] for p in wall)
    assert wide == pytest.approx(3.0 / (4.0 * HALF[0]) * w, abs=0.05)
    top = min(p[1] for p in wall)
    assert (y + h / 2 - top) == pytest.approx(1.0 / (4.0 * HALF[1]) * h / 2, abs=0.05)
    assert (max(p[1] for p in wall) - (y + h / 2)) == pytest.approx(1.5 / (4.0 * HALF[1]) * h / 2, abs=0.05)


def test_a_person_of_given_height_fills_that_height() -> None:
    """1.70 m at 4 m under a vertical field of 2 atan(20.25 / 70) = 32.3 degrees: 1.70 / 2.31 of the frame."""
    assert degrees(2 * atan(HALF[1])) == pytest.approx(32.3, abs=0.05)
    svg = eyeview.draw(View("v", camera(), (), (), (Person((0.0, 4.0), 1.70),)), "e").svg
    _, _, _, h = frame(svg)
    points = [p for shape in shapes(svg) for p in shape]
    tall = max(p[1] for p in points) - min(p[1] for p in points)
    assert tall / h == pytest.approx(1.70 / (2 * 4.0 * tan(radians(32.27) / 2)), abs=0.02)


def test_someone_who_sits_is_lower_and_someone_who_lies_lower_still() -> None:
    tops = []
    for posture in ("stands", "sits", "lies"):
        person = Person((0.0, 4.0), 1.70, "sits" if posture == "sits" else "lies" if posture == "lies" else "stands")
        svg = eyeview.draw(View("v", camera(), (), (), (person,)), "e").svg
        tops.append(min(p[1] for shape in shapes(svg) for p in shape))
    assert tops == sorted(tops)
    assert len(set(tops)) == 3


def test_the_near_is_painted_over_the_far() -> None:
    near = Thing("thing", tuple(faces(box((0.0, 2.0), 1.0, 0.5, 0.0, 1.0))), (("near",),))
    far = Thing("thing", tuple(faces(box((0.0, 5.0), 1.0, 0.5, 0.0, 1.0))), (("far",),))
    one = eyeview.draw(View("v", camera(), (WALL,), (near, far)), "e").svg
    two = eyeview.draw(View("v", camera(), (WALL,), (far, near)), "e").svg
    assert shapes(one) == shapes(two)
    assert max(p[0] for p in shapes(one)[-1]) - min(p[0] for p in shapes(one)[-1]) > 100.0


def test_what_is_behind_the_lens_is_not_drawn() -> None:
    behind = Thing("thing", tuple(faces(box((0.0, -2.0), 1.0, 0.5, 0.0, 1.0))), (("behind",),))
    drawing = eyeview.draw(View("v", camera(), (), (behind,)), "e")
    assert shapes(drawing.svg) == []
    assert "behind" not in drawing.desc


def test_a_lamp_in_the_picture_is_crossed_and_told() -> None:
    faces_of = tuple(faces(box((0.5, 3.0), 0.3, 0.3, 1.5, 1.8)))
    seen = eyeview.draw(View("v", camera(), (WALL,), (Thing("lamp", faces_of, (("lamp 2",),), "2", True),)), "e")
    assert "crossed, for it is in the picture: lamp 2" in seen.svg
    assert "should not be: lamp 2" in seen.desc
    hidden = eyeview.draw(View("v", camera(), (WALL,), (Thing("lamp", faces_of, (("lamp 2",),), "2"),)), "e")
    assert "crossed" not in hidden.svg


PLAN = """
hotset: 1
title: Last Boat
locations:
  landing:
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        windows: {hatch: {wall: east, from: 1.1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}}
        doors:
          hall-door: {wall: north, from: 0.1 m, width: 0.8 m, leads-to: hall, there: {wall: south, from: 0.5 m}}
        furniture: {counter: {at: [2.0 m, 2.4 m], size: 1.6 m x 0.7 m x 0.75 m}}
        marks: {desk: {at: [2.0 m, 1.5 m], sits: true}}
      hall: {size: 2.0 m x 3.0 m x 2.4 m}
gear:
  body-a: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9}
  panel: {kind: light, quantity: 4}
  lens-35: {kind: lens, focal: 35 mm}
stock: {black-cloth: {opaque: true, roll: 1.5 m x 12 m}}
setups:
  office-wide:
    set: landing/office
    camera: {body: body-a, lens: lens-35, at: [0.4 m, 0.4 m], height: 1.5 m, aim: desk}
    windows: {hatch: {black-out: black-cloth}}
    lights:
      seen: {lamp: panel, at: [3.0 m, 2.2 m], height: 1.5 m, aim: desk}
      behind: {lamp: panel, at: [0.2 m, 0.2 m], height: 1.5 m, aim: desk}
      next-room: {lamp: panel, in: hall, at: [1.8 m, 2.0 m], height: 1.5 m, aim: desk}
  bare: {set: landing/office}
"""


def test_a_setup_of_a_plan_through_its_lens(tmp_path: Path) -> None:
    file = tmp_path / "plan.yaml"
    file.write_text(PLAN, "utf-8")
    plan, _ = decode(read([str(file)]))
    assert plan is not None
    drawing = eye_view(plan, "office-wide")
    ET.fromstring(drawing.svg)
    assert drawing == eye_view(plan, "office-wide")
    assert "35 mm, picture 1.78:1, lens 1.5 m high" in drawing.desc.replace("\u00a0", " ")
    assert "Desk" in drawing.desc
    assert "perhaps in the picture: lamp 1." in drawing.desc, "the plan does not say how large the lamp is"
    assert "lamp 3" not in drawing.svg
    assert "url(#eye-office-wide-cross)" in drawing.svg
    assert eye_view(plan, "office-wide", end=True).svg == ""
    nothing = eye_view(plan, "bare")
    assert (nothing.svg, nothing.missing != ()) == ("", True)


SEEN_TOO = PLAN.replace(
    "    lights:\n      seen",
    "    grip: {flag: {size: 0.6 m x 0.9 m, at: [1.6 m, 1.2 m], height: 1.4 m, aim: desk}}\n"
    "    practicals: {small-lamp: {at: [2.2 m, 2.2 m], height: 0.9 m}}\n    lights:\n      seen",
).replace("desk: {at: [2.0 m, 1.5 m], sits: true}", "desk: {at: [2.0 m, 1.5 m], sits: true}, door: [2.9 m, 2.0 m]")
SHOTS = (
    "people: {mara: {plays: A}, ines: {plays: B}}\n"
    "scenes: {1: {shots: {1A: {setup: office-wide, cast: [A]}, 1B: {setup: office-wide, cast: [A, B]%s}}}}\n"
)


@pytest.mark.parametrize(
    ("more", "door", "without"),
    [("", True, ""), (", marks: [desk]", False, "1 of the cast"), (", marks: [desk, door]", True, "")],
)
def test_only_what_is_in_the_setup_is_drawn(tmp_path: Path, more: str, door: bool, without: str) -> None:
    """The only other mark is taken where two play; named marks go before that, and who has none is counted."""
    file = tmp_path / "plan.yaml"
    spare = ", spare: [3.2 m, 2.4 m]" if without else ""
    said = SEEN_TOO.replace("door: [2.9 m, 2.0 m]", f"door: [2.9 m, 2.0 m]{spare}")
    file.write_text(said + SHOTS % more, "utf-8")
    plan, _ = decode(read([str(file)]))
    assert plan is not None
    told = eye_view(plan, "office-wide").desc
    assert ("Door" in told) == door
    assert "Flag" in told
    assert "Small lamp" in told
    assert ("not drawn: 1 of the cast" in told) == bool(without)
