"""What runs along the hours of a day: the charge of batteries, the sun on windows and what hangs in them."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from hotset.documents.drawings import batteries, circuits, windows
from hotset.documents.drawings.batteries import Cell, Kind, Leg
from hotset.documents.drawings.from_hours import battery_lines, circuit_hours, window_hours
from hotset.documents.gather import shoot_of
from hotset.documents.words import words_for
from hotset.pipeline import compile_plan

SVG = "{http://www.w3.org/2000/svg}"
EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "last-boat" / "plan.yaml"
NINE, TEN, ELEVEN, NOON = 1080, 1200, 1320, 1440  # half-minutes


def texts(svg: str) -> list[str]:
    return ["".join(e.itertext()) for e in ET.fromstring(svg).iter(f"{SVG}text")]


def hour_lines(svg: str) -> list[float]:
    return sorted({float(e.get("x1", "0")) for e in ET.fromstring(svg).iter(f"{SVG}line")
                   if e.get("stroke-dasharray") == "1 2"})  # fmt: skip


def test_the_line_of_a_battery_falls_as_it_gives() -> None:
    """From full at nine to flat at ten: its ends lie on the lines of those hours, 22 points one over the other."""
    legs = (Leg("use", NINE, TEN, 1.0, 0.0), Leg("charge", TEN, NOON, 0.0, 1.0))
    drawn = batteries.draw([Kind("Cell", (Cell("no. 1", ("camera",), legs),))], NINE, NOON, "b", "t")
    nine, ten, _eleven, noon = hour_lines(drawn.svg)
    thick = next(e for e in ET.fromstring(drawn.svg).iter(f"{SVG}line") if e.get("stroke-width") == "1.8")
    assert [float(thick.get(k, "0")) for k in ("x1", "x2")] == pytest.approx([nine, ten], abs=0.01)
    assert float(thick.get("y2", "0")) - float(thick.get("y1", "0")) == pytest.approx(22.0)
    dashed = next(e for e in ET.fromstring(drawn.svg).iter(f"{SVG}line") if e.get("stroke-dasharray") == "4 2.5")
    assert [float(dashed.get(k, "0")) for k in ("x1", "x2")] == pytest.approx([ten, noon], abs=0.01)
    assert "flat 10:00" in texts(drawn.svg)
    assert "09:00-10:00 in use 100-0 %" in drawn.desc


def test_where_no_charged_battery_is_left_is_said() -> None:
    legs = (Leg("use", NINE, ELEVEN, 1.0, 0.0),)
    drawn = batteries.draw([Kind("Brick", (Cell("no. 1", (), legs),), "", (ELEVEN, "panel"))], NINE, NOON, "b", "t")
    assert "11:00 none left for panel" in texts(drawn.svg)
    assert batteries.draw([], NINE, NOON, "b", "t").svg == ""


def test_sun_and_cloth_lie_at_their_hours() -> None:
    row = windows.Row("Hatch", "Office", ((NINE, ELEVEN),), (windows.Hung("black-out", TEN, NOON),))
    drawn = windows.draw([row], NINE, NOON, "w", "t")
    at = {}
    for e in ET.fromstring(drawn.svg).iter(f"{SVG}rect"):
        if (e.get("fill") or "").startswith("url("):
            left, wide = float(e.get("x", "0")), float(e.get("width", "0"))
            at[e.get("fill")] = (left, left + wide)
    nine, ten, eleven, noon = hour_lines(drawn.svg)
    assert at["url(#w-sparse)"] == pytest.approx((nine, eleven), abs=0.01)
    assert at["url(#w-cross)"] == pytest.approx((ten, noon), abs=0.01)
    assert "direct sun 09:00-11:00; blacked out 10:00-12:00" in drawn.desc
    bare = windows.draw([windows.Row("Hatch", "Office", ())], NINE, NOON, "w", "t")
    assert "no direct sun" in texts(bare.svg)
    assert windows.draw([], NINE, NOON, "w", "t").svg == ""


def test_a_circuit_rises_and_falls_to_the_scale_of_its_breaker() -> None:
    steps = (circuits.Step(NINE, TEN, 4.0), circuits.Step(TEN, NOON, 8.0))
    drawn = circuits.draw([circuits.Circuit("Ring", 16.0, 12.8, steps)], NINE, NOON, "c", "t")
    found = [e for e in ET.fromstring(drawn.svg).iter(f"{SVG}rect") if (e.get("fill") or "").startswith("url(")]
    nine, ten, _eleven, noon = hour_lines(drawn.svg)
    assert [float(e.get("x", "0")) for e in found] == pytest.approx([nine, ten], abs=0.01)
    assert float(found[1].get("x", "0")) + float(found[1].get("width", "0")) == pytest.approx(noon, abs=0.01)
    high = [float(e.get("height", "0")) for e in found]
    assert high == pytest.approx([30.0 / 4, 30.0 / 2])
    assert "up to 8.0 A of 16 A; 09:00-10:00 4.0 A, 10:00-12:00 8.0 A" in drawn.desc.replace("\u00a0", " ")
    assert circuits.draw([], NINE, NOON, "c", "t").svg == ""


def test_a_day_of_the_example() -> None:
    """The bricks of the panels are on the side of light, the cells of the body on that of the camera, and the window
    to the east loses the sun about noon: local noon at 1.4 degrees west in November is at 11:50 by the clock."""
    compiled = compile_plan([str(EXAMPLE)])
    words = words_for("en")
    shoot = shoot_of(compiled, words, "")
    line = shoot.days[0]
    light, camera = (battery_lines(shoot.facts, line, of) for of in (False, True))
    assert "Brick" in light.desc
    assert "Cell" not in light.desc
    assert "Cell: 5 of 6 used, 4 swaps" in camera.desc
    assert camera == battery_lines(shoot.facts, line, True)
    drawn = window_hours(shoot.plan, line)
    told = next(part for part in drawn.desc.split(". ") if part.startswith("Hatch, "))
    found = re.search(r"direct sun (\d\d):(\d\d)-(\d\d):(\d\d)", told)
    assert found is not None
    assert int(found[3]) in (12, 13)
    assert "tented" in told
    flows = circuit_hours(shoot.facts, line)
    most = max(m.amperes for m in shoot.facts.circuit_moments)
    assert f"up to {most:.1f} A of 16 A" in flows.desc.replace("\u00a0", " ")
    for made in (light, camera, drawn, flows):
        sizes = [float(e.get("font-size", "0")) for e in ET.fromstring(made.svg).iter(f"{SVG}text")]
        assert min(sizes) >= 9.0
