"""The numbers behind findings of space and lens: geometry by hand, and values others have published."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.findings import Finding
from hotset.rules import camera_outside_set, furniture_clash, seen_in_mirror, stand_blocks_exit

from .plans import compiled


def findings(text: str, rule: str, tmp_path: Path) -> list[Finding]:
    return [f for f in compiled(text, tmp_path).findings if f.rule == rule]


LENS = """
hotset: 1
locations:
  landing:
    sets:
      hall: {{size: 20 m x 20 m x 4 m, marks: {{a: {{at: [10 m, 10 m]}}, b: {{at: [10 m, {behind} m]}}}}}}
gear:
  body: {{kind: camera, sensor: {sensor}}}
  glass: {{kind: lens, focal: {focal} mm, closest: 0.5 m, circle: 50 mm}}
setups:
  one:
    set: hall
    camera: {{body: body, lens: glass, at: [10 m, {y} m], height: 1.58 m, aim: {{at: a, height: 1.58 m}}, stop: {stop}}}
scenes: {{4: {{shots: {{4A: {{setup: one, of: a{marks}}}}}}}}}
"""


def lens(sensor: str, focal: float, stop: str, metres: float, behind: float = 10.0, marks: str = "") -> str:
    return LENS.format(sensor=sensor, focal=focal, stop=stop, y=10 - metres, behind=behind, marks=marks)


def test_depth_of_field(tmp_path: Path) -> None:
    # 35 mm f/2.8 at 2 m, blur 0.025 mm (a diagonal of 37.5 mm): 1.7981 to 2.2530 m, traced by the blur circle
    text = lens("30 mm x 22.5 mm", 35, "f/2.8", 2.0, behind=10.6, marks=", marks: [a, b]")
    found = findings(text, "soft-plane", tmp_path)
    assert len(found) == 1
    met = dict(found[0].details)
    middle = 2 * 2.0 * 2.6 / 4.6  # between the two marks the nearest and the farthest are equally soft here
    near = middle * 0.035**2 / (0.035**2 + 2.8 * 0.000025 * (middle - 0.035))
    assert met["near_m"] == pytest.approx(near, abs=0.0005)
    assert met["moves_m"] == pytest.approx(0.6)
    assert findings(lens("30 mm x 22.5 mm", 35, "f/2.8", 2.0, behind=10.4, marks=", marks: [a, b]"),
                    "soft-plane", tmp_path) == []  # fmt: skip
    # the shoulder in front of an over-the-shoulder is meant to be soft (common practice, no source)
    assert findings(text.replace("marks: [a, b]", "size: OTS, marks: [a, b]"), "soft-plane", tmp_path) == []


def test_the_stop_that_is_offered_is_deep_enough(tmp_path: Path) -> None:
    found = findings(lens("36 mm x 24 mm", 85, "f/1.4", 1.0), "soft-plane", tmp_path)
    assert "stop down to f/" in found[0].ways_out[0]
    stop = found[0].ways_out[0].split(" ")[3].rstrip(",")
    assert findings(lens("36 mm x 24 mm", 85, stop, 1.0), "soft-plane", tmp_path) == []


def test_nearer_than_the_lens_focuses(tmp_path: Path) -> None:
    assert findings(lens("36 mm x 24 mm", 24, "f/8", 0.5), "closer-than-minimum-focus", tmp_path) == []
    found = findings(lens("36 mm x 24 mm", 24, "f/8", 0.4), "closer-than-minimum-focus", tmp_path)
    assert found[0].ways_out[0] == "move the camera back by 10 cm"


@pytest.mark.parametrize(("sensor", "diagonal"), [
    # diagonals of a published sensor table
    ("36 mm x 24 mm", 43.27), ("22.3 mm x 14.9 mm", 26.82), ("17.3 mm x 13 mm", 21.64), ("8.8 mm x 6.6 mm", 11.0),
])  # fmt: skip
def test_image_circle(tmp_path: Path, sensor: str, diagonal: float) -> None:
    for circle, said in ((diagonal + 0.1, 0), (diagonal - 0.3, 1)):
        text = (
            f"hotset: 1\ngear:\n  body: {{kind: camera, sensor: {sensor}}}\n"
            f"  glass: {{kind: lens, focal: 25 mm, circle: {circle:.2f} mm}}\n"
            "setups: {one: {camera: {body: body, lens: glass}}}\n"
        )
        found = findings(text, "lens-does-not-cover-sensor", tmp_path)
        assert len(found) == said
        assert all(dict(f.details)["diagonal_mm"] == pytest.approx(diagonal, abs=0.01) for f in found)


def test_a_stand_beside_a_wall(tmp_path: Path) -> None:
    # three legs of 0.4 m, one side of their triangle along the wall: 0.2 m from the middle
    for x, said in ((0.2, 0), (0.19, 1), (0.1, 1)):
        text = (
            "hotset: 1\nlocations: {l: {sets: {room: {size: 4 m x 4 m x 2.5 m}}}}\n"
            "gear: {lamp: {kind: light}, stand: {kind: support, base: 0.8 m}}\n"
            "setups: {one: {set: room, lights: {key: "
            f"{{lamp: lamp, on: stand, at: [{x} m, 2 m], height: 2 m}}}}}}}}\n"
        )
        assert len(findings(text, "does-not-fit", tmp_path)) == said


def test_under_the_ceiling_and_within_reach(tmp_path: Path) -> None:
    text = (
        "hotset: 1\nlocations: {{l: {{sets: {{room: {{size: 4 m x 4 m x {high} m}}}}}}}}\n"
        "gear: {{lamp: {{kind: light, size: 0.3 m x 0.3 m x 0.4 m}}, stand: {{kind: support, reaches: 1-2.7 m}},"
        " tall: {{kind: support, reaches: 1.5-4 m}}}}\n"
        "setups: {{one: {{set: room, lights: {{key: {{lamp: lamp, on: stand, at: [2 m, 2 m], height: {lamp} m}}}}}}}}\n"
    )
    assert findings(text.format(high=2.4, lamp=2.2), "does-not-fit", tmp_path) == []
    found = findings(text.format(high=2.4, lamp=2.3), "does-not-fit", tmp_path)
    assert found[0].ways_out[0] == "lower it to 2.2 m or less"
    found = findings(text.format(high=5, lamp=3), "does-not-fit", tmp_path)
    assert "reaches only 2.7 m" in found[0].sentence
    assert found[0].ways_out == ("take 'tall'", "or lower it to 2.7 m")


def test_a_camera_may_look_in_through_a_door(tmp_path: Path) -> None:
    bare = camera_outside_set.TRIGGERS.replace("  # <- here", "")
    assert len(findings(bare, "camera-outside-set", tmp_path)) == 1
    door = bare.replace("marks:", "doors: {yard: {wall: east, from: 0.2 m, width: 0.9 m}}, marks:")
    assert findings(door, "camera-outside-set", tmp_path) == []
    other = bare.replace("marks:", "doors: {yard: {wall: east, from: 2.2 m, width: 0.9 m}}, marks:")
    assert len(findings(other, "camera-outside-set", tmp_path)) == 1
    offered = bare.replace(
        "[4.6 m, 0.4 m]", findings(bare, "camera-outside-set", tmp_path)[0].ways_out[0].split("at ")[1][:14]
    )
    assert findings(offered, "camera-outside-set", tmp_path) == []


def test_the_gap_before_an_exit(tmp_path: Path) -> None:
    bare = stand_blocks_exit.TRIGGERS.replace("  # <- here", "")
    # a door of 0.9 m, feet of 0.8 m around [0.4, 2.2]: 0.3 m are left
    assert dict(findings(bare, "stand-blocks-exit", tmp_path)[0].details)["free_m"] == pytest.approx(0.3)
    far = bare.replace("[0.4 m, 2.2 m]", "[1.0 m, 2.45 m]")  # its feet end 0.6 m before the door
    assert findings(far, "stand-blocks-exit", tmp_path) == []


def test_legs_beside_a_table(tmp_path: Path) -> None:
    bare = furniture_clash.TRIGGERS.replace("  # <- here", "")
    for x, said in ((1.6, 0), (1.59, 0), (1.7, 1)):  # the table begins at 1.8 m, the legs need 0.2 m
        assert len(findings(bare.replace("[1.9 m,", f"[{x} m,"), "furniture-clash", tmp_path)) == said


def test_a_mirror_shows_what_stands_at_the_same_angle(tmp_path: Path) -> None:
    bare = seen_in_mirror.TRIGGERS.replace("  # <- here", "")
    found = findings(bare, "seen-in-mirror", tmp_path)
    assert found[0].ways_out[0] == "move the camera 60 cm to the right, aimed as before"
    moved = bare.replace("at: [2.0 m, 0.6 m]", "at: [2.6 m, 0.6 m]")
    assert findings(moved, "seen-in-mirror", tmp_path) == []
    dull = bare.replace("height: 1.6 m}", "height: 1.6 m, reflects: 8 %}")
    assert findings(dull, "seen-in-mirror", tmp_path) == []


def test_a_mirror_is_watched_along_the_move(tmp_path: Path) -> None:
    bare = seen_in_mirror.TRIGGERS.replace("  # <- here", "").replace("at: [2.0 m, 0.6 m]", "at: [0.2 m, 0.6 m]")
    assert findings(bare, "seen-in-mirror", tmp_path) == []
    there = bare.replace("at: [0.2 m, 0.6 m]", "at: [3.8 m, 0.6 m]")
    assert findings(there, "seen-in-mirror", tmp_path) == []
    # From one of these places to the other: about half-way it stands before the mirror and looks straight into it.
    slide = bare + "    move: {kind: slide, to: [3.8 m, 0.6 m]}\n"
    found = findings(slide, "seen-in-mirror", tmp_path)
    assert len(found) == 1
    assert "56% of the way along the move, over" in found[0].sentence  # the mirror reaches a little further right
    ended = bare + "    move: {kind: slide, to: [1.7 m, 0.6 m]}\n"
    assert "at the end of the move, over" in findings(ended, "seen-in-mirror", tmp_path)[0].sentence
    begun = there.replace("[3.8 m,", "[2.3 m,") + "    move: {kind: slide, to: [3.8 m, 0.6 m]}\n"
    assert "at the start of the move, over" in findings(begun, "seen-in-mirror", tmp_path)[0].sentence


IN_FRAME = """
hotset: 1
locations:
  landing:
    sets:
      office:
        size: 6 m x 6 m x 2.6 m
        windows: {hatch: {wall: east, from: 3 m, sill: 0.9 m, width: 1.2 m, height: 1.2 m}}
        marks: {desk: {at: [3 m, 4.5 m]}}
gear:
  body-a: {kind: camera, sensor: 36 mm x 24 mm, aspect: 16:9}
  lens-50: {kind: lens, focal: 50 mm}
  panel: {kind: light, size: 30 cm x 30 cm, runs: 90 min}
setups:
  wide:
    set: office
    camera: {body: body-a, lens: lens-50, at: [3 m, 0.5 m], height: 1.5 m, aim: desk}
    lights: {edge: {lamp: panel, at: AT, height: 1.5 m, aim: desk, on: table}}
scenes: {4: {shots: {4A: {setup: wide}}}}
"""


def test_the_way_out_of_the_frame_in_plain_directions(tmp_path: Path) -> None:
    # 36 mm on 50 mm: the frame's edge runs 0.36 m aside a metre ahead. A round lamp of 0.15 m whose middle is 1 m aside
    # and 3.2 m ahead is clear of it when (1 + s - 1.152) / sqrt(1 + 0.36^2) is 0.15 m: s = 0.311 m, so 35 cm.
    found = findings(IN_FRAME.replace("AT", "[4 m, 3.7 m]"), "light-in-frame", tmp_path)
    assert found[0].ways_out[0] == "move it 35 cm to the right, towards the window 'hatch', seen from the camera"
    clear = IN_FRAME.replace("AT", "[4.35 m, 3.7 m]")
    assert findings(clear, "light-in-frame", tmp_path) == []
    assert findings(IN_FRAME.replace("AT", "[4.3 m, 3.7 m]"), "light-in-frame", tmp_path) != []
    left = findings(IN_FRAME.replace("AT", "[2 m, 3.7 m]"), "light-in-frame", tmp_path)
    assert left[0].ways_out[0] == "move it 35 cm to the left, towards the wall 'west', seen from the camera"


def test_how_far_a_lamp_is_in_or_out_at_both_ends_of_a_move(tmp_path: Path) -> None:
    push = IN_FRAME.replace("AT", "[4 m, 3.7 m]").replace(
        "    lights:", "    move: {kind: push-in, to: [3 m, 2 m]}\n    lights:"
    )
    found = findings(push, "light-in-frame", tmp_path)
    assert "(5 deg inside at the start of the move, 6 deg outside at its end)" in found[0].sentence
    met = dict(found[0].details)
    # The edge at atan 0.36 = 19.80 deg; the lamp's near side at atan(1 / 3.2) - asin(0.15 / 3.353) = 14.79 deg, and
    # from the end of the move at atan(1 / 1.7) - asin(0.15 / 1.972) = 26.10 deg.
    assert met["degrees_start"] == pytest.approx(19.80 - 14.79, abs=0.3)  # the round is a polygon of twelve
    assert met["degrees_end"] == pytest.approx(19.80 - 26.10, abs=0.3)  # the round is a polygon of twelve


def test_a_lamp_without_room_at_its_side_is_raised(tmp_path: Path) -> None:
    from hotset.rules import light_in_frame

    found = findings(light_in_frame.TRIGGERS.replace("  # <- here", ""), "light-in-frame", tmp_path)
    assert found[0].ways_out[0].startswith("raise it by ")
    by = float(found[0].ways_out[0].removeprefix("raise it by ").removesuffix(" cm")) / 100
    higher = light_in_frame.TRIGGERS.replace("1.9 m], height: 1.5 m", f"1.9 m], height: {1.5 + by:.2f} m")
    assert findings(higher, "light-in-frame", tmp_path) == []


def test_a_size_says_where_the_camera_stands_and_where_it_would_have_to(tmp_path: Path) -> None:
    from hotset.rules import framing_differs

    bare = framing_differs.TRIGGERS.replace("  # <- here", "")
    found = findings(bare, "framing-differs", tmp_path)
    met = dict(found[0].details)
    # From [1.1, 1.4] m at 1.5 m to the desk at [2.0, 1.5] m: 0.9055 m on the floor, and up or down to seated eyes.
    assert isinstance(met["distance_now_m"], float)
    assert met["distance_now_m"] >= 0.9
    assert " from 95 cm: " in found[0].sentence
    assert "60 cm from the eyes instead of 95 cm" in found[0].ways_out[0]
    moving = bare.replace("aim: desk}", "aim: desk}\n    move: {kind: pull-out, to: [0.6 m, 1.4 m]}").replace(
        "setup: office-close", "setup: office-close, move: pull-out"
    )
    both = findings(moving, "framing-differs", tmp_path)[0].sentence
    assert "(at the start 52 cm from 95 cm, at the end 81 cm from 1.45 m)" in both  # 0.0203 m x 1.404 m / 0.035 m
