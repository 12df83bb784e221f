"""Day line and load bars: legible, to scale, in words."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from itertools import combinations

import pytest
from hotset.documents.drawings import dayline, loadbars
from hotset.documents.drawings.dayline import Day, Ribbon, Stretch, Window
from hotset.documents.drawings.loadbars import Circuit, Part
from hotset.documents.drawings.metrics import ASCENT, DESCENT, cut, width_of, wrap
from hotset.documents.words import words_for

SVG = "{http://www.w3.org/2000/svg}"
H = 120
Box = tuple[float, float, float, float]


def boxes(svg: str) -> list[tuple[str, Box]]:
    """Each text with the box it needs, also when it is read from below."""
    found: list[tuple[str, Box]] = []
    for element in ET.fromstring(svg).iter(f"{SVG}text"):
        said, size = element.text or "", float(element.get("font-size", "0"))
        assert size >= 9.0
        wide = width_of(said, size, element.get("font-weight") == "bold")
        x, y = float(element.get("x", "0")), float(element.get("y", "0"))
        back = {"start": 0.0, "middle": wide / 2, "end": wide}[element.get("text-anchor", "start")]
        if "rotate(-90" in element.get("transform", ""):
            found.append((said, (x - size * ASCENT, y - wide, x + size * DESCENT, y)))
        else:
            found.append((said, (x - back, y - size * ASCENT, x - back + wide, y + size * DESCENT)))
    return found


def assert_apart(svg: str, width: float, height: float) -> None:
    found = boxes(svg)
    for (a, p), (b, q) in combinations(found, 2):
        over = min(p[2], q[2]) - max(p[0], q[0]), min(p[3], q[3]) - max(p[1], q[1])
        assert not (over[0] > 0.6 and over[1] > 0.6), (a, b, over)
    for said, box in found:
        assert box[0] >= -0.1, said
        assert box[2] <= width + 0.1, said
        assert box[3] <= height + 0.1, said


def day(shoots: int, minutes: int) -> Day:
    """A made-up day: so many setups of so many minutes with rigging between them and a meal in the middle."""
    time, made = 15 * 60, [Stretch("load-in", 14 * 60, 15 * 60)]
    for n in range(shoots):
        if n == shoots // 2:
            made.append(Stretch("meal", time, time + 60))
            time += 60
        made.append(Stretch("rig", time, time + minutes))
        made.append(Stretch("shoot", time + minutes, time + 3 * minutes, f"room {n} with the <lamp>", str(n + 1)))
        time += 3 * minutes
    made += [
        Stretch("room-tone", time, time + 2),
        Stretch("spare", time + 2, time + 80),
        Stretch("wrap-out", time + 80, time + 170),
    ]
    sky = (
        Ribbon("dark", 0, 13 * 60),
        Ribbon("dusk", 13 * 60, 14 * 60),
        Ribbon("day", 14 * 60, 31 * 60),
        Ribbon("golden", 31 * 60, 32 * 60),
        Ribbon("dusk", 32 * 60, 33 * 60),
        Ribbon("dark", 33 * 60, 96 * 60),
    )
    return Day(
        "Day 1",
        14 * 60,
        time + 170,
        tuple(made),
        sky,
        (Window("Ines, the clerk of the office", ((16 * 60, 33 * 60),)),),
        39 * 60,
    )


@pytest.mark.parametrize(("shoots", "minutes"), [(1, 60), (4, 40), (8, 25), (14, 16), (20, 10), (30, 5)])
def test_a_day_of_any_length_is_legible(shoots: int, minutes: int) -> None:
    drawing = dayline.draw(day(shoots, minutes), "d")
    assert_apart(drawing.svg, drawing.width, drawing.height)
    said = " ".join(words for words, _ in boxes(drawing.svg))
    assert "everybody out at 19:30" in said
    for n in range(shoots):
        assert re.search(rf"\b{n + 1}\b", said)
    assert drawing == dayline.draw(day(shoots, minutes), "d")


def test_the_sky_is_told_by_hatch_and_word() -> None:
    drawing = dayline.draw(day(4, 40), "d")
    said = [words for words, _ in boxes(drawing.svg)]
    assert "day" in said
    assert "dark" in said
    assert any(words.startswith("sky:") and "dusk 16:00-16:30" in words for words in said)
    assert set(re.findall(r"url\(#d-(\w+)\)", drawing.svg)) == {"thin", "sparse", "dense"}


def test_stretches_are_to_the_scale_of_the_hours() -> None:
    drawing = dayline.draw(
        Day(
            "One", 8 * H, 10 * H, (Stretch("shoot", 8 * H, 9 * H, "a", "1"), Stretch("shoot", 9 * H, 10 * H, "b", "2"))
        ),
        "d",
    )
    wide = [
        float(e.get("width", "0"))
        for e in ET.fromstring(drawing.svg).iter(f"{SVG}rect")
        if e.get("stroke-width") == "1.2"
    ]
    assert len(wide) == 2
    assert wide[0] == pytest.approx(wide[1], abs=0.02)


def test_a_time_after_midnight_is_of_the_next_day() -> None:
    assert dayline.clock(25 * H) == "01:00"
    assert dayline.clock(7 * H + 60) == "07:30"


CIRCUITS = (
    Circuit("Ground floor", (Part("already on it", 1.3), Part("Key", 1.64), Part("Desk lamp", 0.04)), 16.0, 12.8),
    Circuit("Upper floor", (Part("heater", 9.0), Part("Key", 4.2)), 16.0, 12.8),
    Circuit("Kitchen", (Part("kettle", 8.7), Part("Key & <co>", 4.2)), 10.0, 8.0),
    Circuit("Shed", (Part("Key", 3.0),), 10.0),
)


def test_loads_are_judged_in_words() -> None:
    """80 % of 16 A is 12.8 A (NEC 210.20(A))."""
    _ = words_for()
    said = [loadbars.verdict(circuit, _) for circuit in CIRCUITS]
    assert said == [
        "3.0 A of 12.8 A for hours, 9.8 A free, breaker 16 A",
        "13.2 A: over the 12.8 A it should carry for hours, breaker 16 A",
        "12.9 A: over its breaker of 10 A, it will trip",
        "3.0 A of 10 A",
    ]


def test_load_bars_are_legible_and_to_one_scale() -> None:
    drawing = loadbars.draw(CIRCUITS, "l", "Loads")
    assert_apart(drawing.svg, drawing.width, drawing.height)
    frames = [
        float(e.get("width", "0"))
        for e in ET.fromstring(drawing.svg).iter(f"{SVG}rect")
        if e.get("stroke-width") == "0.6"
    ]
    assert [round(wide / frames[0] * 16.0, 2) for wide in frames] == [16.0, 16.0, 10.0, 10.0]
    assert "&lt;co&gt;" in drawing.svg
    assert any("Desk lamp 0.04 A" in words for words, _ in boxes(drawing.svg))


def test_no_circuit_gives_an_empty_but_valid_drawing() -> None:
    ET.fromstring(loadbars.draw((), "l", "Loads").svg)


@pytest.mark.parametrize("words", ["", "a", "Wide words WWWW", "ünïcödé — “quotes”", "日本語の名前", "x" * 300])
def test_cut_and_wrapped_words_keep_to_their_width(words: str) -> None:
    assert width_of(cut(words, 9.0, 60.0), 9.0) <= 60.0
    assert all(width_of(row, 9.0) <= 60.0 for row in wrap(words, 9.0, 60.0))
    assert width_of(words, 9.0, True) >= width_of(words, 9.0)


def test_a_number_stays_with_its_unit() -> None:
    assert wrap("stands 4.5\u00a0m off", 9.0, 45.0) == ("stands", "4.5\u00a0m off")
    assert wrap("  ", 9.0, 45.0) == ()
