"""The numbers behind findings of light and colour: physics by hand, and values others have published."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hotset.facts.exposure import Reading
from hotset.findings import Finding

from .plans import compiled

PLAN = """
hotset: 1
locations:
  landing:
    mains: 230 V 50 Hz
    sets: {stage: {size: 20 m x 20 m x 6 m, marks: {spot: {at: [10 m, 10 m], height: 1.5 m}}}}
gear:
  lamp: {kind: light, colour: 2700-10000 K, gives: {bare: 1000 lx at 1 m}, beam: 60 deg, quantity: 4}
  narrow: {kind: light, gives: {bare: 1000 lx at 1 m}, beam: 60 deg, field: 90 deg}
  bulb: {kind: light, gives: {bare: 1000 lm}, beam: 60 deg}
  square: {kind: light, gives: {bare: 1000 lx at 1 m}, beam: 120 deg, soft: 1.2 m x 1.2 m}
  loud: {kind: light, gives: {bare: 2000 lx at 1 m}, beam: 60 deg}
  board: {kind: grip, size: 1.2 m x 0.01 m x 1.2 m}
  nd: {kind: filter, loses: 6 stops}
stock: {frost: {of: frost, roll: 1.2 m x 8 m, loses: 1 stop}}
setups:
  one:
    set: stage
    key-at: spot
    camera: {stop: f/2.8, iso: 100, shutter: 1/50 s, white-balance: 4000 K}
    lights:
"""
KEY = "      key: {lamp: lamp, role: key, at: [12 m, 10 m], height: 1.5 m, aim: spot}\n"


def reading(lights: str, tmp_path: Path, plan: str = PLAN) -> Reading:
    done = compiled(plan + lights, tmp_path)
    assert done.facts is not None
    return done.facts.readings["one"]


def findings(text: str, rule: str, tmp_path: Path) -> list[Finding]:
    return [f for f in compiled(text, tmp_path).findings if f.rule == rule]


def one(text: str, rule: str, tmp_path: Path) -> dict[str, object]:
    found = findings(text, rule, tmp_path)
    assert len(found) == 1
    return dict(found[0].details)


def test_inverse_square(tmp_path: Path) -> None:
    # 1000 lx at 1 m are 250, 111.11, 62.5 and 40 lx at 2, 3, 4 and 5 m: physics
    for metres, lux in ((2, 250.0), (3, 111.11), (4, 62.5), (5, 40.0)):
        met = reading(KEY.replace("[12 m,", f"[{10 + metres} m,"), tmp_path)
        assert met.lux == pytest.approx(lux, abs=0.01)


def test_a_second_lamp_counts_by_the_cosine(tmp_path: Path) -> None:
    # Lambert: 60 degrees are one stop, so half of the light; what stands opposite gives nothing
    at = (10 + 2 * math.cos(math.radians(60)), 10 + 2 * math.sin(math.radians(60)))
    side = f"      side: {{lamp: lamp, at: [{at[0]:.4f} m, {at[1]:.4f} m], height: 1.5 m, aim: spot}}\n"
    back = "      back: {lamp: lamp, at: [8 m, 10 m], height: 1.5 m, aim: spot}\n"
    assert reading(KEY + side, tmp_path).lux == pytest.approx(250 + 125, abs=0.1)
    assert reading(KEY + back, tmp_path).lux == pytest.approx(250, abs=0.01)


def test_half_the_beam_is_half_the_light_and_half_the_field_a_tenth(tmp_path: Path) -> None:
    for degrees, part in ((30, 0.5), (45, 0.1)):
        away = 2 * math.tan(math.radians(degrees))
        aim = f"{{at: [10 m, {10 + away:.5f} m], height: 1.5 m}}"
        lights = KEY.replace("lamp: lamp", "lamp: narrow").replace("aim: spot", f"aim: {aim}")
        assert reading(lights, tmp_path).lux == pytest.approx(250 * part, rel=0.01)


def test_lumens_and_an_angle_are_an_estimate(tmp_path: Path) -> None:
    # 1000 lm in 60 degrees are 926.1 cd: lm (n + 1) / 2 pi with n = ln 0.5 / ln cos 30
    met = reading(KEY.replace("lamp: lamp", "lamp: bulb"), tmp_path)
    assert met.lux == pytest.approx(926.1 / 4, abs=0.3)
    assert met.estimate
    assert met.typical == ("lux from lumens",)


def test_a_soft_source_is_no_point(tmp_path: Path) -> None:
    # a disc of the square's area, E = M r2 / (r2 + d2): from 1 m to 2 m less is lost than two stops
    square = 1.2 * 1.2 / math.pi
    met = reading(KEY.replace("lamp: lamp", "lamp: square"), tmp_path)
    assert met.lux == pytest.approx(1000 * (square + 1) / (square + 4), abs=0.1)


def test_bounce_off_a_white_board(tmp_path: Path) -> None:
    # 2000 lx on a board of 1.2 m x 1.2 m, reflectance 0.85, at 2 m: 174.0 lx (closed form of the parallel rectangle)
    lights = (
        "      key: {lamp: loud, role: key, at: [13 m, 10 m], height: 1.5 m, aim: {at: [12 m, 10 m], height: 1.5 m}, "
        "bounce: {use: board, at: [12 m, 10 m], height: 1.5 m}}\n"
    )
    met = reading(lights, tmp_path)
    assert met.lux == pytest.approx(174.0, abs=0.1)
    assert "reflectance of the board" in met.typical


def test_level_and_what_is_before_a_lamp(tmp_path: Path) -> None:
    assert reading(KEY.replace("aim: spot", "aim: spot, level: 40 %"), tmp_path).lux == pytest.approx(100)
    assert reading(KEY.replace("aim: spot", "aim: spot, with: frost"), tmp_path).lux == pytest.approx(125)


def test_the_colour_a_lamp_is_set_to_costs_light(tmp_path: Path) -> None:
    """Told at 3200 K (312.5 mired) and 5600 K (178.6 mired); at 4074 K (245.5 mired) half of each, evenly in mired."""
    told = "gives: {bare: 1000 lx at 1 m, 3200 K: 600 lx at 1 m, 5600 K: 1000 lx at 1 m}, beam: 60 deg, q"
    plan = PLAN.replace("gives: {bare: 1000 lx at 1 m}, beam: 60 deg, q", told)
    for kelvin, lux in ((3200, 150.0), (5600, 250.0), (4073, 200.0), (2800, 150.0), (8000, 250.0)):
        met = reading(KEY.replace("aim: spot", f"aim: spot, colour: {kelvin} K"), tmp_path, plan)
        assert met.lux == pytest.approx(lux, abs=0.2)
    assert reading(KEY, tmp_path, plan).lux == pytest.approx(250)


def test_a_wall_stands_between(tmp_path: Path) -> None:
    lights = KEY.replace("[12 m, 10 m]", "[21 m, 10 m]")
    found = findings(PLAN + lights, "under-exposed", tmp_path)
    assert [f.sentence for f in found] == ["nothing of 'key' arrives at 'spot' in 'one': a wall stands between"]


def test_what_the_camera_asks_for(tmp_path: Path) -> None:
    # f/2.8 at 1/50 s and ISO 100 asks for 980 lx, T4 at 1/48 s and ISO 800 for 240 lx (ISO 2720, C = 250; both computed
    # with an open colour library for high dynamic range pictures)
    weak = PLAN + KEY.replace("aim: spot", "aim: spot, level: 20 %")
    assert one(weak, "under-exposed", tmp_path)["wanted_lux"] == 980.0
    other = weak.replace("f/2.8, iso: 100, shutter: 1/50 s", "T4, iso: 800, shutter: 180 deg, fps: 24 fps")
    assert one(other, "under-exposed", tmp_path)["wanted_lux"] == 240.0
    dense = weak.replace("white-balance", "filters: nd, white-balance").replace("iso: 100", "iso: 12800")
    assert one(dense, "under-exposed", tmp_path)["wanted_lux"] == pytest.approx(980 / 128 * 64)


def test_a_stop_under_is_a_night_and_more_is_said(tmp_path: Path) -> None:
    for level, said in ((200, False), (190, False), (155, True)):  # per cent of what is asked for, halved and halved
        text = PLAN.replace(
            "bare: 1000 lx at 1 m}, beam: 60 deg, q", f"bare: {980 * 4 * level / 400:.0f} lx at 1 m}}, beam: 60 deg, q"
        )
        assert bool(findings(text + KEY, "under-exposed", tmp_path)) is said


def test_every_way_out_does(tmp_path: Path) -> None:
    lights = KEY.replace("aim: spot", "aim: spot, level: 20 %")
    plan = PLAN.replace("f/2.8, iso: 100", "T2.8, iso: 800").replace(
        "beam: 60 deg, q", "beam: 60 deg, dims: 1-100 %, q"
    )
    ways = findings(plan + lights, "under-exposed", tmp_path)[0].ways_out
    assert ways == ("open to T1.8", "or set 2000 ISO", "or set 'key' to 49 %")
    assert findings(plan.replace("T2.8", "T1.8") + lights, "under-exposed", tmp_path) == []
    assert findings(plan.replace("iso: 800", "iso: 2000") + lights, "under-exposed", tmp_path) == []
    assert findings(plan + lights.replace("20 %", "49 %"), "under-exposed", tmp_path) == []
    far = KEY.replace("[12 m, 10 m]", "[15 m, 10 m]")
    ways = findings(plan + far, "under-exposed", tmp_path)[0].ways_out
    assert ways[-1] == "or put 'key' 2.86 m from the mark, not 5 m"  # the square root of 1000 / 122.5
    assert findings(plan + far.replace("[15 m,", "[12.86 m,"), "under-exposed", tmp_path) == []


def test_key_to_fill_in_stops(tmp_path: Path) -> None:
    # 2:1 is one stop, 4:1 two, 8:1 three
    fill = "      soft: {lamp: lamp, role: fill, at: [10 m, 12 m], height: 1.5 m, aim: spot, level: 50 %}\n"
    for wanted, stops in (("2:1", None), ("4:1", -1.0), ("8:1", -2.0), ("1:1", 1.0)):
        plan = PLAN.replace("key-at: spot", f"key-at: spot\n    key-to-fill: {wanted}")
        found = findings(plan + KEY + fill, "ratio-off", tmp_path)
        # the white of a stage of 20 x 20 m gives back next to nothing at its middle
        assert [dict(f.details)["stops"] for f in found] == pytest.approx([] if stops is None else [stops], abs=0.05)


def test_a_mired_is_a_mired(tmp_path: Path) -> None:
    # 10000 K and 2700 K under a camera at 4000 K: -150.0 and +120.4 mired
    plan = PLAN.replace("hotset: 1", "hotset: 1\nlook: {palette: [4000 K]}")
    for kelvin, mired in ((10000, -150.0), (2700, 120.4)):
        lights = KEY.replace("aim: spot", f"aim: spot, colour: {kelvin} K")
        assert one(plan + lights, "clashing-colours", tmp_path)["mired"] == mired
    assert findings(plan + KEY.replace("aim: spot", "aim: spot, colour: 4300 K"), "clashing-colours", tmp_path) == []


GEL = """
hotset: 1
gear: {{old: {{kind: light, colour: {lamp} K}}}}
stock: {{gel: {{of: gel, roll: 1.2 m x 8 m, shifts: {shift} mired, loses: 1 stop}}}}
setups: {{one: {{lights: {{key: {{lamp: old, with: gel, colour: {wanted} K}}}}}}}}
"""


def test_conversion_filters(tmp_path: Path) -> None:
    # 5600 K with +131 mired are 3230 K, 3200 K with -131 are 5510 K (85B and 80A in a colour meter's manual)
    for lamp, shift, wanted, said in (
        (5600, 131, 3230, 0),
        (3200, -131, 5510, 0),
        (3200, -131, 4300, 1),
        (5600, 131, 4000, 1),
    ):
        assert len(findings(GEL.format(lamp=lamp, shift=shift, wanted=wanted), "colour-fixed", tmp_path)) == said


TINT = """
hotset: 1
look: {palette: [4000 K]}
gear:
  good: {kind: light, colour: 4000 K}
  old: {kind: light, colour: 4000 K, tint: CAST}
stock: {minus: {of: half minus green gel, roll: 1.2 m x 8 m}}
setups:
  one: {camera: {white-balance: 4000 K}, lights: {key: {lamp: good}, tubes: {lamp: old, WITH}}}
"""


def test_a_green_lamp_among_clean_ones(tmp_path: Path) -> None:
    """Half plus green has 15 points, a half minus green gel takes them away; 5 points are just seen."""

    def said(cast: str, gel: str = "level: 100 %") -> list[Finding]:
        return findings(TINT.replace("CAST", cast).replace("WITH", gel), "clashing-colours", tmp_path)

    found = said("half plus green")
    assert "'tubes' in 'one' is green (15 points) beside sources that are not" in found[0].sentence
    assert found[0].ways_out[0] == "put a half minus green gel before it"
    assert said("half plus green", "with: minus") == []
    assert said("1/8 green") == []
    assert said("quarter plus green", "with: minus")[0].ways_out[0] == "put a quarter plus green gel before it"
    assert "as strong as the meter says" in said("green")[0].ways_out[0]


FLICKER = """
hotset: 1
locations: {{landing: {{mains: {mains}, sets: {{hall: {{size: 7 m x 5 m x 3 m}}}}}}}}
gear: {{old: {{kind: light, flicker: {hertz}}}}}
setups:
  one:
    set: hall
    camera: {{fps: {fps} fps, shutter: {shutter}}}
    lights: {{key: {{lamp: old, level: 50 %}}}}
"""


@pytest.mark.parametrize(
    ("mains", "hertz", "fps", "shutter", "left", "way"),
    [
        # residual ripple |sin(pi f t)| / (pi f t) and the clean angles 360 fps n / (2 mains)
        ("230 V 50 Hz", "100 Hz", "24", "1/48 s", 0.0395, "172.8 deg"),
        ("120 V 60 Hz", "120 Hz", "25", "1/50 s", 0.1261, "150.0 deg"),
        ("230 V 50 Hz", "100 Hz", "30", "1/60 s", 0.1654, "216.0 deg"),
        ("230 V 50 Hz", "100 Hz", "25", "1/50 s", None, ""),
        ("230 V 50 Hz", "100 Hz", "24", "172.8 deg", None, ""),
        ("120 V 60 Hz", "120 Hz", "24", "144 deg", None, ""),
        ("230 V 50 Hz", "none", "24", "1/48 s", None, ""),
        # narrow pulses: 2 / (pi f t); 3.2 kHz at 1/50 s leaves 1 %
        ("230 V 50 Hz", "610 Hz", "24", "1/50 s", 0.0522, ""),
        ("230 V 50 Hz", "3200 Hz", "24", "1/50 s", None, ""),
    ],
)  # fmt: skip
def test_shutters(tmp_path: Path, mains: str, hertz: str, fps: str, shutter: str, left: float | None, way: str) -> None:
    found = findings(FLICKER.format(mains=mains, hertz=hertz, fps=fps, shutter=shutter), "flicker-band", tmp_path)
    assert [dict(f.details)["variation"] for f in found] == ([] if left is None else [left])
    assert all(way in " ".join(f.ways_out) for f in found)


def test_a_flag_stops_spill(tmp_path: Path) -> None:
    from hotset.rules import spill

    bare = spill.TRIGGERS.replace("  # <- here", "")
    flag = "    grip: {flag: {use: wood, size: 0.6 m x 0.6 m, at: [4.5 m, 2.4 m], height: 1.75 m}}\n"
    wood = bare.replace("gear:\n", "gear:\n  wood: {kind: grip}\n")
    assert findings(wood, "spill", tmp_path)
    assert findings(wood + flag, "spill", tmp_path) == []


SCREEN = """
hotset: 1
locations: {{landing: {{mains: 230 V 50 Hz, sets: {{hall: {{size: 7 m x 5 m x 3 m}}}}}}}}
gear:
  {thing}
setups:
  wide:
    set: hall
    camera: {{fps: {fps} fps, shutter: {shutter}}}
    practicals: {{desk: {{prop: old-thing}}}}
"""


@pytest.mark.parametrize(
    ("hertz", "fps", "shutter", "left"),
    [
        (60, 25, "1/50 s", 1.2),  # 1.2 pulses: at most 2 / (pi x 1.2) = 53 % of the mean
        (60, 25, "1/60 s", None),  # one whole pulse
        (50, 25, "1/50 s", None),
        (60, 24, "144 deg", None),  # 1/60 s
        (72, 24, "180 deg", 1.5),
        (100, 24, "180 deg", -1.0),  # a fluorescent tube on 50 Hz: |sin x / x| with x = pi x 100 / 48, 3.95 %
        (100, 24, "172.8 deg", None),
    ],
)
def test_screens_and_tubes_in_the_picture(
    hertz: int, fps: int, shutter: str, left: float | None, tmp_path: Path
) -> None:
    thing = f"old-thing: {{kind: prop, of: office monitor, flicker: {hertz} Hz}}"
    found = findings(SCREEN.format(thing=thing, fps=fps, shutter=shutter), "flicker-band", tmp_path)
    if left is None:
        assert found == []
        return
    bound = 0.0395 if left < 0 else 2 / (math.pi * left)
    assert dict(found[0].details)["variation"] == pytest.approx(bound, abs=1e-4)
    if left > 0:
        assert f"is drawn anew at {hertz} Hz" in found[0].sentence
        assert f"set the screen to {2 * fps} Hz" in found[0].ways_out[-1]


def test_a_screen_that_says_nothing_is_asked_for(tmp_path: Path) -> None:
    for of, asked in (("old television", True), ("neon sign", True), ("brass lamp", False)):
        text = SCREEN.format(thing=f"old-thing: {{kind: prop, of: {of}}}", fps=25, shutter="180 deg")
        silent = compiled(text, tmp_path).coverage.not_checked
        wants = "'flicker:' of 'old-thing' (1200 Hz, or none)"
        assert (wants in [n.wants for n in silent if n.rule == "flicker-band"]) is asked


@pytest.mark.parametrize(
    ("effect", "said"),
    [
        # WCAG 2.2, success criterion 2.3.1: not more than three flashes in any one second
        ("flashes: 3 per s", None),
        ("flashes: 3.1 per s", "flashes 3.1 per s, above"),
        # general flash: a change of 10 % or more of the maximum, the darker state below 80 %
        ("flickers: 8 per s, between: 70-79 %", None),
        ("flickers: 8 per s, between: 70-80 %", "flickers 8 per s, above"),
        ("flickers: 8 per s, between: 80-100 %", None),
        # red flash: opposing changes with a saturated red, whatever their brightness
        ("flickers: 8 per s, between: 80-85 %, red: true", "flickers 8 per s in saturated red, above"),
        ("flashes: 3 per s, red: true", None),
    ],
)
def test_flashes_at_the_published_limit(effect: str, said: str | None, tmp_path: Path) -> None:
    lamp = f"{{lamp: tube, effect: {{{effect}}}}}"
    text = f"hotset: 1\ngear: {{tube: {{kind: light}}}}\nsetups: {{a: {{lights: {{b: {lamp}}}}}}}\n"
    found = findings(text, "flashing-light", tmp_path)
    assert bool(found) is (said is not None)
    if said:
        assert said in found[0].sentence
        assert any("ask and tell cast and crew" in way for way in found[0].ways_out)
