"""The plan of a set: to scale, legible, labels apart on fifty made-up rooms, the same bytes each time."""

from __future__ import annotations

import random
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from math import hypot

import pytest
from hotset.documents.drawings import action, setplan, walls
from hotset.documents.drawings.canvas import Canvas
from hotset.documents.drawings.labels import Ask, Field, Obstacle, place
from hotset.documents.drawings.metrics import ASCENT, DESCENT, width_of
from hotset.documents.drawings.scene import (
    Camera,
    Footprint,
    Lamp,
    Line,
    LineKind,
    Mark,
    Move,
    Opening,
    Practical,
    Scene,
    Treatment,
)
from hotset.documents.drawings.shapes import contains, convex_meets_box
from hotset.documents.drawings.svg import Drawing, standalone

SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True)
class Said:
    words: str
    box: tuple[float, float, float, float]
    size: float
    turned: bool


def texts(svg: str) -> list[Said]:
    """Every text of a drawing with the box it needs in the widest of the faces."""
    return list(_walk(ET.fromstring(svg), 0.0, 0.0, 1.0))


def _walk(element: ET.Element, dx: float, dy: float, scale: float) -> Iterator[Said]:
    moved = re.fullmatch(r"translate\(([-\d.]+) ([-\d.]+)\)(?: scale\(([\d.]+)\))?", element.get("transform", ""))
    if moved:
        dx, dy, scale = dx + scale * float(moved[1]), dy + scale * float(moved[2]), scale * float(moved[3] or 1)
    if element.tag == f"{SVG}text":
        said = element.text or ""
        size = float(element.get("font-size", "0"))
        wide = width_of(said, size, element.get("font-weight") == "bold")
        x = (
            float(element.get("x", "0"))
            - {"start": 0.0, "middle": wide / 2, "end": wide}[element.get("text-anchor", "start")]
        )
        y = float(element.get("y", "0"))
        box = (
            dx + scale * x,
            dy + scale * (y - size * ASCENT),
            dx + scale * (x + wide),
            dy + scale * (y + size * DESCENT),
        )
        yield Said(said, box, size * scale, "rotate" in element.get("transform", ""))
    for child in element:
        yield from _walk(child, dx, dy, scale)


def clash(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    """True when two boxes share more than a hair."""
    return min(a[2], b[2]) - max(a[0], b[0]) > 0.05 and min(a[3], b[3]) - max(a[1], b[1]) > 0.05


Point = tuple[float, float]
TREATMENTS: tuple[Treatment, ...] = ("bare", "black-out", "tent", "layers")
GRIP: tuple[LineKind, ...] = ("flag", "negative", "diffusion", "bounce", "mirror", "boom", "cable", "walkway")


def _outline(dice: random.Random, w: float, d: float) -> tuple[Point, ...]:
    if dice.random() < 0.3:  # an L
        x, y = round(w * 0.6, 2), round(d * 0.6, 2)
        return ((0.0, 0.0), (w, 0.0), (w, y), (x, y), (x, d), (0.0, d))
    if dice.random() < 0.2:
        return ((0.0, 0.0), (w, 0.3), (w - 0.4, d), (0.3, d - 0.5))
    return ((0.0, 0.0), (w, 0.0), (w, d), (0.0, d))


def _opening(dice: random.Random, wall: int, n: int) -> Opening:
    width = round(dice.uniform(0.7, 1.4), 2)
    start = round(dice.uniform(0.1, 1.0), 2)
    if dice.random() < 0.4:
        return Opening("door", wall, start, width, ((f"door {n}",),), hinge=dice.choice(("", "start", "end")))
    treatment = dice.choice(TREATMENTS)
    label = ((f"window {n} by the yard", "with words of its own"), (f"window {n}",))
    return Opening("window", wall, start, width, label, treatment, 0.5, "inside" if dice.random() < 0.5 else "outside")


def _lamp(dice: random.Random, n: int, at: Point, aim: Point) -> Lamp:
    label = (
        (f"role {n} · fixture of a kind", "softbox 60 cm", "60 % · 3200 K · 2.0 m high", "ground floor"),
        (f"role {n} · 3200 K",),
        (f"role {n}",),
    )
    return Lamp(
        str(n),
        at,
        aim if dice.random() < 0.8 else None,
        dice.choice((None, 25.0, 60.0, 110.0)),
        dice.choice(("hard", "soft", "tube", "bulb")),
        dice.choice((0.0, 0.6, 1.2)),
        label,
        dice.random() < 0.2,
        dice.choice(("", "keep", "new", "remove")),
    )


def room(seed: int, lamps: int = 5) -> Scene:
    """A made-up room; the same seed gives the same room."""
    dice = random.Random(seed)
    w, d = round(dice.uniform(2.4, 9.0), 2), round(dice.uniform(2.2, 7.0), 2)

    def spot(margin: float = 0.3) -> Point:
        return round(dice.uniform(margin, w - margin), 2), round(dice.uniform(margin, d - margin), 2)

    outline = _outline(dice, w, d)
    desk = spot()
    marks = (
        Mark(desk, (("desk", "sits"), ("desk",)), dice.uniform(0, 360), "sits"),
        Mark(spot(), (("door", "stands"), ("door",)), None),
        Mark(spot(), (("bed",),), 40.0, "lies"),
        Mark(spot(), (("tin on the floor",),), person=False),
    )[: dice.randint(1, 4)]
    grip = tuple(
        Line(kind, (a := spot(), (a[0] + dice.uniform(-0.8, 0.8), a[1] + dice.uniform(0.2, 0.8))), ((f"the {kind}",),))
        for kind in GRIP
        if dice.random() < 0.3
    )
    here = spot()
    return Scene(
        f"Room {seed}",
        outline,
        indoors=dice.random() < 0.9,
        north=dice.choice((None, 0.0, 20.0, 210.0)),
        openings=tuple(_opening(dice, wall, wall) for wall in range(len(outline)) if dice.random() < 0.5),
        footprints=tuple(
            Footprint(
                spot(),
                dice.uniform(0.3, 1.8),
                dice.uniform(0.3, 0.9),
                dice.choice((0.0, 30.0, 90.0)),
                ((f"table {n}",),),
            )
            for n in range(dice.randint(0, 3))
        ),
        marks=marks,
        cameras=(
            Camera(
                here, dice.uniform(0, 360), dice.choice((None, 20.0, 54.0, 90.0)), (("35 mm", "1.5 m high"), ("35 mm",))
            ),
        ),
        lamps=tuple(
            _lamp(dice, n + 1, spot() if dice.random() < 0.8 else (-0.9, d / 2), desk)
            for n in range(dice.randint(1, lamps))
        ),
        practicals=tuple(
            Practical(spot(), (("brass lamp", "40 %"), ("brass lamp",))) for _ in range(dice.randint(0, 2))
        ),
        lines=grip,
        moves=(Move((here, spot()), (("she walks",),)),) if dice.random() < 0.4 else (),
        sun=dice.choice((None, 140.0, 250.0)),
        sun_words="sun at 14:00",
        imperial=dice.random() < 0.2,
    )


DRAWN: dict[int, Drawing] = {}
BOX = ((0.0, 0.0), (4.2, 0.0), (4.2, 3.6), (0.0, 3.6))


def drawn(seed: int) -> Drawing:
    """The drawing of a made-up room, made once."""
    if seed not in DRAWN:
        DRAWN[seed] = setplan.draw(room(seed), f"r{seed}")
    return DRAWN[seed]


@pytest.mark.parametrize("seed", range(50))
def test_no_words_over_words_and_all_of_them_on_the_paper(seed: int) -> None:
    drawing = drawn(seed)
    said = texts(drawing.svg)
    assert len(said) > 8
    for a, b in combinations(said, 2):
        assert not clash(a.box, b.box), (a, b)
    for one in said:
        assert one.box[0] >= -0.05, one
        assert one.box[1] >= -0.05, one
        assert one.box[2] <= drawing.width + 0.05, one
        assert one.box[3] <= drawing.height + 0.05, one


@pytest.mark.parametrize("seed", range(50))
def test_labels_keep_off_symbols_walls_and_each_others_leaders(seed: int) -> None:
    scene = room(seed)
    built = walls.build(scene)
    canvas = Canvas("t", 40.0, setplan.world_of(scene, built), (0.0, 0.0, 900.0, 700.0))
    setplan.fill(canvas, scene, built)
    placed, left_out = place(canvas.asks, Field(canvas.bounds, tuple(canvas.obstacles), tuple(canvas.thin)))
    assert left_out == ()
    for label in placed:
        for obstacle in canvas.obstacles:
            assert not convex_meets_box(obstacle.shape, label.box), (label, obstacle)
    for a, b in combinations(placed, 2):
        assert not clash(a.box, b.box)


def test_rooms_so_crowded_that_words_are_missing_say_so() -> None:
    scene = room(3, 40)
    crowd = tuple(
        Lamp(
            str(n),
            (0.2 + 0.1 * (n % 20), 0.2 + 0.3 * (n // 20)),
            None,
            None,
            "hard",
            0.0,
            ((f"a long name for lamp {n}",),),
        )
        for n in range(1, 61)
    )
    drawing = setplan.draw(Scene("Crowd", scene.outline, lamps=crowd), "crowd", setplan.Paper(300.0, 200.0))
    assert drawing.left_out
    assert all(name.startswith("a long name for lamp") for name in drawing.left_out)
    assert "no room to write at its place" in drawing.svg


@pytest.mark.parametrize("seed", range(0, 50, 7))
def test_the_same_scene_gives_the_same_bytes_and_valid_xml(seed: int) -> None:
    again = setplan.draw(room(seed), f"r{seed}")
    assert again == drawn(seed)
    ET.fromstring(standalone(again).encode("utf-8"))


@pytest.mark.parametrize("seed", range(0, 50, 3))
def test_no_text_under_nine_points_and_no_filter_or_style(seed: int) -> None:
    svg = drawn(seed).svg
    assert min(one.size for one in texts(svg) if one.words) >= 9.0
    assert "filter" not in svg
    assert "<style" not in svg


def test_ids_carry_the_prefix_so_that_drawings_share_a_page() -> None:
    for prefix in ("one", "two"):
        svg = setplan.draw(room(4), prefix).svg
        ids = re.findall(r' id="([^"]+)"', svg)
        assert len(ids) == len(set(ids)) > 2
        assert all(name.startswith(f"{prefix}-") for name in ids)
        assert set(re.findall(r"url\(#([^)]+)\)", svg)) <= set(ids)


def _bar(svg: str) -> tuple[float, str]:
    bar = next(e for e in ET.fromstring(svg).iter(f"{SVG}rect") if (e.get("id") or "").endswith("-bar"))
    words = [t.words for t in texts(svg)]
    return float(bar.get("width", "0")), words[words.index("0") + 1]


@pytest.mark.parametrize(("imperial", "unit"), [(False, 1.0), (True, 0.3048)])
def test_scale_bar_and_walls_are_to_the_scale_that_is_written(imperial: bool, unit: float) -> None:
    """Paper: one point is 1/72 inch, an inch 25.4 mm exactly (international yard and pound agreement, 1959)."""
    drawing = setplan.draw(Scene("Office", BOX, imperial=imperial), "p")
    scale = next(int(t.words[2:]) for t in texts(drawing.svg) if t.words.startswith("1:"))
    long, name = _bar(drawing.svg)
    said = float(name.split()[0]) * unit
    assert long / 72 * 25.4 * scale / 1000 == pytest.approx(said, abs=0.0005)
    ring = next(
        e.get("d", "") for e in ET.fromstring(drawing.svg).iter(f"{SVG}path") if e.get("fill-rule") == "evenodd"
    )
    inner = [tuple(map(float, p.split())) for p in ring.split("M")[2].rstrip("Z").split("L")]
    wide, deep = (
        max(p[0] for p in inner) - min(p[0] for p in inner),
        max(p[1] for p in inner) - min(p[1] for p in inner),
    )
    assert wide / 72 * 0.0254 * scale == pytest.approx(4.2, abs=0.001)
    assert deep / 72 * 0.0254 * scale == pytest.approx(3.6, abs=0.001)


@pytest.mark.parametrize("seed", range(50))
def test_view_lines_stop_at_the_walls(seed: int) -> None:
    scene = room(seed)
    built = walls.build(scene)
    for camera in scene.cameras:
        for start, end in action.view_lines(camera, built):
            long = hypot(end[0] - start[0], end[1] - start[1])
            if not scene.indoors or not contains(built.inner, start):
                continue
            assert 0.0 < long < 60.0
            for share in (0.25, 0.5, 0.75, 0.999):
                p = (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
                assert contains(built.inner, p)
            past = (end[0] + (end[0] - start[0]) / long * 0.02, end[1] + (end[1] - start[1]) / long * 0.02)
            assert not contains(built.inner, past)


def test_a_camera_behind_a_door_sees_through_it_up_to_the_far_wall() -> None:
    door = Opening("door", 0, 1.6, 1.0)
    built = walls.build(Scene("Office", BOX, openings=(door,)))
    assert walls.sight(built, (2.1, -1.0), (0.0, 1.0), 60.0) == pytest.approx(4.6)
    assert walls.sight(built, (0.5, -1.0), (0.0, 1.0), 60.0) == pytest.approx(1.0 - 0.12)
    assert walls.sight(built, (2.1, 2.0), (0.0, -1.0), 60.0) == pytest.approx(2.0)


def test_no_light_passes_a_window_that_is_blacked_out() -> None:
    shut = walls.build(Scene("Office", BOX, openings=(Opening("window", 1, 1.0, 1.0, treatment="black-out"),)))
    open_ = walls.build(Scene("Office", BOX, openings=(Opening("window", 1, 1.0, 1.0),)))
    assert walls.sight(shut, (5.2, 1.5), (-1.0, 0.0), 60.0) == pytest.approx(1.0)
    assert walls.sight(open_, (5.2, 1.5), (-1.0, 0.0), 60.0) == pytest.approx(5.2)


def middle(said: Said) -> Point:
    return (said.box[0] + said.box[2]) / 2, (said.box[1] + said.box[3]) / 2


def test_north_arrow_points_north() -> None:
    """+y of the set looks to bearing 90, east: north is then to the left of the paper."""
    svg = setplan.draw(Scene("Office", BOX, north=90.0), "p").svg
    letter = next(t for t in texts(svg) if t.words == "N")
    level = setplan.draw(Scene("Office", BOX, north=0.0), "p").svg
    above = next(t for t in texts(level) if t.words == "N")
    (x, y), (up_x, up_y) = middle(letter), middle(above)
    assert up_x - x == pytest.approx(17.0, abs=0.1)
    assert y - up_y == pytest.approx(17.0, abs=0.1)


@pytest.mark.parametrize("bearing", range(0, 360, 15))
def test_north_is_whole_wherever_it_lies(bearing: int) -> None:
    svg = setplan.draw(Scene("Office", BOX, north=float(bearing)), "p").svg
    letter = next(t for t in texts(svg) if t.words == "N")
    assert letter.box[0] >= 0.0
    assert letter.box[1] >= 0.0


def test_the_legend_explains_what_occurs_and_nothing_else() -> None:
    bare = {t.words for t in texts(setplan.draw(Scene("Office", BOX, cameras=(Camera((1, 1), 20.0, 50.0),)), "p").svg)}
    assert {"wall", "camera", "edge of the view"} <= bare
    assert not bare & {"flag", "practical in picture", "window", "someone sits", "tube"}
    full = {t.words for t in texts(setplan.draw(Scene("Office", BOX, marks=(Mark((1, 1), posture="sits"),)), "p").svg)}
    assert "someone sits" in full
    assert "camera" not in full


def test_words_from_a_plan_cannot_break_the_drawing() -> None:
    nasty = "</text><script>alert('x')</script>&\x00\ud800 \"q\""
    scene = Scene(
        nasty, BOX, marks=(Mark((2.0, 2.0), ((nasty,),)),), missing=(nasty,), sun=100.0, north=0.0, sun_words=nasty
    )
    drawing = setplan.draw(scene, "p")
    root = ET.fromstring(drawing.svg.encode("utf-8"))
    assert not [e for e in root.iter() if e.tag.endswith("script")]
    assert any("alert('x')" in (t.words) for t in texts(drawing.svg))


def test_title_and_description_are_for_screen_readers() -> None:
    drawing = drawn(8)
    root = ET.fromstring(drawing.svg)
    assert root.get("role") == "img"
    names = (root.get("aria-labelledby") or "").split()
    found = {e.get("id"): e.text for e in root if e.get("id") in names}
    assert list(found.values()) == [drawing.title, drawing.desc]
    assert "Plan from above" in drawing.desc


def test_a_label_without_any_room_is_told_and_the_others_stand() -> None:
    wall = Obstacle(((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)))
    asks = (Ask("a", (40.0, 40.0, 60.0, 60.0), (("words",),)), Ask("b", (110.0, 10.0, 115.0, 15.0), (("more",),)))
    placed, left_out = place(asks, Field((0.0, 0.0, 160.0, 30.0), (wall,), ()))
    assert [p.key for p in placed] in (["b"], ["a"], ["a", "b"])
    assert set(left_out) == {"a", "b"} - {p.key for p in placed}
    placed, left_out = place(asks[:1], Field((0.0, 0.0, 100.0, 100.0), (wall,), ()))
    assert (placed, left_out) == ((), ("a",))
