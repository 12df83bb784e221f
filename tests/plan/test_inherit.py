"""`like:`, what a set's setups share, and `defaults:`."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hotset.findings import Finding
from hotset.plan import Plan
from hotset.plan.spots import Point
from hotset.plan.units import Metres

Decoded = Callable[[str], tuple[Plan, tuple[Finding, ...]]]

HALL = """
locations:
  landing:
    circuits: {ring: {}}
    sets:
      hall:
        windows:
          hatch: {wall: east, from: 1 m, width: 1 m, height: 1 m}
          bay: {wall: west, from: 1 m, width: 1 m, height: 1 m}
        doors: {gate: {wall: south, from: 1 m, width: 1 m}}
      yard: {outdoors: true}
people: {mara: {}, jon: {}}
gear:
  spot: {kind: light}
  panel: {kind: light}
  brick: {kind: battery}
  long-lead: {kind: power}
  stand: {kind: support}
  sticks: {kind: support}
stock: {cloth: {}, gel: {}}
"""


def rules(found: tuple[Finding, ...]) -> list[str]:
    return [f.rule for f in found]


def test_like_adds_changes_and_removes(decoded: Decoded) -> None:
    plan, found = decoded(
        HALL
        + """
setups:
  wide:
    set: hall
    camera: {on: sticks, at: [1 m, 1 m], height: 1.5 m}
    lights:
      key: {lamp: spot, at: [2 m, 2 m], level: 60 %}
      fill: {lamp: panel}
      edge: {lamp: panel}
  close:
    like: wide
    remove: [lights.edge, camera.height]
    camera: {at: [2 m, 1 m]}
    lights:
      key: {level: 30 %}
      door: {lamp: panel}
"""
    )
    assert found == ()
    close = plan.setups["close"]
    assert close.set == "landing/hall"
    assert list(close.lights) == ["key", "fill", "door"]
    assert (close.lights["key"].lamp, close.lights["key"].level) == (("spot",), 0.3)
    assert close.camera is not None
    assert (close.camera.on, close.camera.height) == ("sticks", None)
    assert close.camera.at == Point(Metres(2.0), Metres(1.0))
    assert plan.setups["wide"].lights["key"].level == 0.6


def test_remove_acts_before_the_changes(decoded: Decoded) -> None:
    plan, found = decoded(
        HALL
        + """
setups:
  wide: {set: hall, lights: {key: {lamp: spot, level: 60 %, role: key}}}
  close: {like: wide, remove: [lights.key], lights: {key: {lamp: panel}}}
"""
    )
    assert found == ()
    key = plan.setups["close"].lights["key"]
    assert (key.lamp, key.level, key.role) == (("panel",), None, None)


def test_remove_of_what_is_not_there_offers_what_is(decoded: Decoded) -> None:
    _, found = decoded(
        HALL
        + """
setups:
  wide: {set: hall, lights: {key: {lamp: spot}}}
  close: {like: wide, remove: [lights.fill]}
"""
    )
    assert rules(found) == ["unknown-name"]
    assert found[0].sentence == "there is nothing at 'lights.fill' that could be removed"
    assert "lights.key" in found[0].ways_out[0]
    assert (found[0].place.line, found[0].place.column) == (24, 32)


def test_what_a_setup_inherits_need_not_be_written_again(decoded: Decoded) -> None:
    plan, found = decoded(
        HALL
        + """
setups:
  wide: {set: hall, grip: {flag: {use: cloth}}, move: {kind: pan, aim-to: gate}}
  close: {like: wide, grip: {flag: {height: 1 m}}, move: {aim-to: hatch}}
"""
    )
    assert found == ()
    close = plan.setups["close"]
    assert close.move is not None
    assert (close.grip["flag"].use, close.grip["flag"].height, close.move.kind) == ("cloth", 1.0, "pan")


def test_a_chain_inherits_from_its_far_end_whatever_the_order_of_the_text(decoded: Decoded) -> None:
    plan, found = decoded(
        HALL
        + """
setups:
  third: {like: second, lights: {c: {lamp: spot}}}
  second: {like: first, lights: {b: {lamp: spot}}}
  first: {set: hall, lights: {a: {lamp: spot}}}
"""
    )
    assert found == ()
    assert list(plan.setups["third"].lights) == ["a", "b", "c"]
    assert list(plan.setups) == ["third", "second", "first"]


def test_held_until_and_note_are_not_inherited(decoded: Decoded) -> None:
    plan, found = decoded(
        HALL
        + """
setups:
  wide: {set: hall, held-until: close, note: mind the step, needs: dark}
  close: {like: wide}
"""
    )
    assert found == ()
    close = plan.setups["close"]
    assert (close.held_until, close.note, close.needs) == (None, (), "dark")


@pytest.mark.parametrize(
    ("inherited", "written", "left"),
    [
        ("tent: cloth, depth: 1 m, side: outside, layers-of: 2", "open", {"open": True}),
        ("tent: cloth, depth: 1 m, side: outside", "{black-out: cloth}", {"black_out": "cloth"}),
        ("layers: [gel], side: outside", "{tent: cloth, depth: 1 m}", {"tent": "cloth", "depth": 1.0}),
        ("black-out: cloth, layers-of: 2, overlap: 10 cm", "{layers: [gel]}", {"layers": ("gel",)}),
        ("black-out: cloth, layers-of: 2", "{overlap: 10 cm}", {"black_out": "cloth", "layers_of": 2, "overlap": 0.1}),
    ],
)
def test_a_window_is_treated_in_one_way(
    decoded: Decoded, inherited: str, written: str, left: dict[str, object]
) -> None:
    plan, found = decoded(
        HALL
        + f"""
setups:
  wide: {{set: hall, windows: {{hatch: {{{inherited}}}}}}}
  close: {{like: wide, windows: {{hatch: {written}}}}}
"""
    )
    assert found == ()
    hatch = plan.setups["close"].windows["hatch"]
    keys = ("open", "black_out", "tent", "depth", "layers", "layers_of", "side", "overlap")
    assert {k: v for k in keys if (v := getattr(hatch, k)) not in (None, ())} == left


@pytest.mark.parametrize(
    ("inherited", "written", "gone"),
    [
        ("outside: hatch, away: 0.9 m, along: -0.3 m", "at: [1 m, 1 m]", ("outside", "away", "along")),
        ("in: yard, through: gate, at: [1 m, 1 m]", "outside: hatch", ("in_", "through", "at")),
        ("circuit: ring, lead: long-lead", "battery: brick", ("circuit", "lead")),
        ("battery: brick", "circuit: ring", ("battery",)),
        ("on: stand", "held-by: any", ("on",)),
        ("held-by: mara, during: pan", "on: stand", ("held_by", "during")),
    ],
)
def test_a_lamp_drops_the_other_way_with_its_companions(
    decoded: Decoded, inherited: str, written: str, gone: tuple[str, ...]
) -> None:
    plan, found = decoded(
        HALL
        + f"""
setups:
  wide: {{set: hall, lights: {{key: {{lamp: spot, level: 50 %, {inherited}}}}}}}
  close: {{like: wide, lights: {{key: {{{written}}}}}}}
"""
    )
    assert found == ()
    before, key = plan.setups["wide"].lights["key"], plan.setups["close"].lights["key"]
    assert all(getattr(before, field) not in (None, ()) for field in gone)
    assert all(getattr(key, field) in (None, ()) for field in gone)
    assert (key.lamp, key.level) == (("spot",), 0.5)


@pytest.mark.parametrize(
    ("part", "first", "second"),
    [
        ("lights: {key: {lamp: spot, circuit: ring, battery: brick}}", "circuit", "battery"),
        ("lights: {key: {lamp: spot, at: [1 m, 1 m], outside: hatch}}", "at", "outside"),
        ("lights: {key: {lamp: spot, on: stand, held-by: any}}", "on", "held-by"),
        ("windows: {hatch: {black-out: cloth, tent: cloth}}", "black-out", "tent"),
        ("camera: {on: sticks, held-by: mara}", "on", "held-by"),
    ],
)
def test_two_ways_in_one_map_are_told_with_both_places(decoded: Decoded, part: str, first: str, second: str) -> None:
    text = HALL + f"setups:\n  wide: {{set: hall, {part}}}\n"
    _, found = decoded(text)
    assert rules(found) == ["two-ways"]
    assert f"'{first}' and '{second}' cannot both be said" in found[0].sentence
    line = f"  wide: {{set: hall, {part}}}"
    columns = (line.index(f"{second}:") + 1, line.rindex(f" {first}:") + 2 if f" {first}:" in line else 0)
    assert found[0].place.column == columns[0]
    (related,) = found[0].related
    assert related.place.line == found[0].place.line
    assert related.place.column == (columns[1] or line.index(f"{{{first}:") + 2)


def test_setups_like_each_other_in_a_circle(decoded: Decoded) -> None:
    plan, found = decoded(
        "setups:\n  a: {like: c}\n  b: {like: a}\n  c: {like: b}\n  own: {like: own}\n  d: {like: a}\n"
    )
    assert rules(found) == ["like-cycle", "like-cycle"]
    assert found[0].sentence == "setups that are like one another in a circle: a -> c -> b -> a"
    assert [r.place.line for r in found[0].related] == [5, 4]
    assert found[1].sentence == "setups that are like one another in a circle: own -> own"
    assert (found[1].place.line, found[1].place.column) == (6, 3)
    assert list(plan.setups) == ["a", "b", "c", "own", "d"]


def test_a_thousand_setups_like_the_one_before(decoded: Decoded) -> None:
    lines = ["setups:", "  s0: {needs: dark}", *(f"  s{i}: {{like: s{i - 1}}}" for i in range(1, 1000))]
    plan, found = decoded("\n".join(lines))
    assert found == ()
    assert plan.setups["s999"].needs == "dark"


def test_like_somebody_unknown_offers_the_nearest(decoded: Decoded) -> None:
    _, found = decoded("setups:\n  office-wide: {}\n  office-close: {like: ofice-wide}\n")
    assert found[0].sentence == "there is no setup called 'ofice-wide'; did you mean 'office-wide'?"
    assert (found[0].place.line, found[0].place.column) == (4, 24)


USUAL = HALL.replace(
    "        doors:",
    """        usual:
          windows: {hatch: {tent: cloth, depth: 1 m}, bay: {black-out: cloth}}
          dressing: [till open]
        doors:""",
)


def test_what_a_set_shares_lies_under_its_setups(decoded: Decoded) -> None:
    plan, found = decoded(
        USUAL
        + """
setups:
  wide: {set: hall, windows: {hatch: open}}
  close: {like: wide, dressing: [till shut]}
  outside: {set: yard}
"""
    )
    assert found == ()
    wide, close = plan.setups["wide"], plan.setups["close"]
    assert (wide.windows["hatch"].open, wide.windows["hatch"].tent, wide.windows["hatch"].depth) == (True, None, None)
    assert wide.windows["bay"].black_out == close.windows["bay"].black_out == "cloth"
    assert (wide.dressing, close.dressing) == (("till open",), ("till shut",))
    assert close.windows["hatch"].open is True  # said by the setup it is like, so the set's habit does not come back
    assert plan.setups["outside"].windows == {}


def test_what_is_removed_does_not_come_back_from_the_set(decoded: Decoded) -> None:
    plan, found = decoded(
        USUAL
        + """
setups:
  wide: {set: hall}
  close: {like: wide, remove: [windows.bay]}
  plain: {set: hall, remove: windows}
"""
    )
    assert found == ()
    assert list(plan.setups["close"].windows) == ["hatch"]
    assert plan.setups["plain"].windows == {}


def test_a_fault_in_what_is_shared_is_told_once(decoded: Decoded) -> None:
    _, found = decoded(
        USUAL.replace("dressing: [till open]", "dresing: [till open]") + "setups: {a: {set: hall}, b: {set: hall}}\n"
    )
    assert [f.sentence for f in found] == ["'usual' (usual) has no key 'dresing'; did you mean 'dressing'?"]


def test_a_fault_that_is_inherited_is_told_once(decoded: Decoded) -> None:
    _, found = decoded("setups:\n  a: {camera: {iso: many}}\n  b: {like: a}\n  c: {like: b}\n")
    assert [(f.rule, f.place.line, f.place.column, f.place.path) for f in found] == [
        ("bad-quantity", 3, 21, "setups.a.camera.iso")
    ]


def test_defaults_are_laid_under_and_marked(decoded: Decoded) -> None:
    plan, found = decoded(
        """
        defaults:
          camera: {iso: 800, fps: 25 fps}
          light: {level: 50 %}
          shot: {count: 3}
          gear: {owner: borrowed}
          day: {hours: eu}
          person: {tall: 1.75 m}
          scene: {sound: mos}
          setup: {rig: 10 min}
        days: {1: {}}
        people: {mara: {tall: 1.6 m}, jon: {}}
        gear: {spot: {kind: light, owner: own}, panel: {kind: light}}
        setups:
          wide: {camera: {iso: 1600}, lights: {key: {lamp: spot, level: 100 %}, fill: {lamp: panel}}}
        scenes: {1: {shots: {1A: {count: 5, setup: wide}, 1B: {setup: wide}}}}
        """
    )
    assert found == ()
    camera = plan.setups["wide"].camera
    assert camera is not None
    assert [camera.iso, camera.fps] == [1600.0, 25.0]
    assert [light.level for light in plan.setups["wide"].lights.values()] == [1.0, 0.5]
    assert [plan.gear[g].owner for g in ("spot", "panel")] == ["own", "borrowed"]
    assert [shot.count for shot in plan.shots.values()] == [5, 3]
    assert [p.tall for p in plan.people.values()] == [1.6, 1.75]
    assert plan.defaulted == {
        "setups.wide.camera.fps",
        "setups.wide.lights.fill.level",
        "setups.wide.rig",
        "gear.panel.owner",
        "scenes.1.shots.1B.count",
        "scenes.1.sound",
        "people.jon.tall",
        "days.1.hours",
    }


def test_a_default_gives_way_to_the_other_way_of_saying_it(decoded: Decoded) -> None:
    plan, found = decoded(
        HALL
        + """
defaults: {light: {on: stand}}
setups:
  wide: {set: hall, lights: {key: {lamp: spot, held-by: any}, fill: {lamp: panel}}}
"""
    )
    assert found == ()
    key, fill = plan.setups["wide"].lights.values()
    assert (key.on, key.held_by, fill.on) == (None, "any", "stand")
    assert plan.defaulted == {"setups.wide.lights.fill.on"}


def test_the_place_of_what_is_inherited_is_where_it_was_written(decoded: Decoded) -> None:
    plan, _ = decoded("setups:\n  a:\n    camera:\n      iso: 800\n  b:\n    like: a\n    camera:\n      fps: 25 fps\n")
    place = plan.where("setups.b.camera.iso")
    assert (place.line, place.column) == (5, 7)
    assert plan.where("setups.b.camera.fps").line == 9
    assert plan.where("setups.b").line == 6
