"""Reading nouns: values, short forms, names, and what is said when a value cannot be read."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hotset.findings import Finding
from hotset.plan import Plan
from hotset.plan.spots import Aim, Named, Point
from hotset.plan.units import Metres
from hotset.source.quantities import Around, Towards

Decoded = Callable[[str], tuple[Plan, tuple[Finding, ...]]]
Said = list[tuple[str, str]]

OFFICE = """
locations:
  landing:
    circuits: {ground-floor: {}, shed-ring: {}}
    sets:
      office:
        marks: {desk: {at: [2.0 m, 1.5 m], sits: true}, door: [0.5 m, 3.2 m]}
        furniture: {table: {at: [1 m, 1 m], size: 1 m x 1 m}}
        windows: {hatch: {wall: east, from: 1 m, width: 1 m, height: 1 m}}
        mirrors: {glass: {wall: north, from: 1 m, width: 1 m, height: 1 m}}
      hall:
        doors: {hall-door: {wall: west, from: 1 m, width: 1 m, leads-to: office, there: {wall: east, from: 1 m}}}
        marks: {bench: [3 m, 3 m]}
"""


def said(found: tuple[Finding, ...]) -> Said:
    return [(f.rule, f.sentence) for f in found]


def aim_of(plan: Plan) -> Aim | None:
    camera = plan.setups["wide"].camera
    return camera.aim if camera else None


def test_values_are_in_si_units(decoded: Decoded) -> None:
    plan, found = decoded(
        """
        aspect: 2.39:1
        days: {1: {date: 2026-11-14, call: 07:30, wrap: 25:30, meal: 35 min, load-in: 1 h 10 min}}
        gear:
          spot: {kind: light, draws: 1.2 kW, beam: 15-45 deg, colour: 3200 K, lead: 10 ft}
          lens: {kind: lens, focal: 24-70 mm, opens: T2.8, thread: 77 mm}
        stock: {cloth: {roll: 1.5 m x 12 m, loses: 1/3 stop, shifts: -90 mired}}
        """
    )
    assert found == ()
    day, spot, lens = plan.days["1"], plan.gear["spot"], plan.gear["lens"]
    assert round(plan.film.aspect or 0, 2) == 2.39
    assert [day.call, day.wrap, day.load_in] == [900, 3060, 4200.0]
    assert day.meal is not None
    assert day.meal.takes == 2100.0
    assert [spot.draws, spot.lead] == [1200.0, pytest.approx(3.048)]
    assert spot.beam is not None
    assert spot.colour is not None
    assert (spot.beam.lo, spot.beam.hi, spot.colour.lo, spot.colour.hi) == (15, 45, 3200, 3200)
    assert lens.focal is not None
    assert lens.opens is not None
    assert (lens.focal.lo, lens.focal.hi, lens.opens.number, lens.opens.transmission) == (0.024, 0.07, 2.8, True)
    assert plan.stock["cloth"].roll == (1.5, 12.0)
    assert plan.stock["cloth"].loses == pytest.approx(1 / 3)


def test_scalars_are_read_as_they_are_written(decoded: Decoded) -> None:
    plan, found = decoded(
        """
        title: 0x1
        contacts: {office: 01632 960110, on: off}
        scenes:
          010: {story-day: 1.10, shots: {12E1: {does: no}}}
        people: {mara: {phone: 07700 900101, minor: no}, jon: {minor: yes}}
        """
    )
    assert found == ()
    assert plan.film.title == "0x1"
    assert plan.film.contacts == {"office": "01632 960110", "on": "off"}
    assert plan.scenes["010"].story_day == "1.10"
    assert plan.shots["12E1"].does == "no"
    assert [p.minor for p in plan.people.values()] == [False, True]
    assert plan.people["mara"].phone == "07700 900101"


def test_short_forms(decoded: Decoded) -> None:
    plan, found = decoded(
        """
        days: {1: {hours: eu, meal: 40 min}}
        locations:
          landing:
            hospital: Saltmere General
            permission: granted
            noise: {bell: church bell}
            sets: {hall: {walls: cream, marks: {desk: [1 m, 2 m]}}}
        people: {mara: {release: asked, days: {1: 09:00-18:00}}}
        gear: {thing: {kind: tool, return: 40 min}}
        stock: {cloth: {pieces: [2 m x 3 m, {size: 1 m x 1 m, count: 4}]}}
        setups: {wide: {set: hall, move: pan, lights: {key: {lamp: [thing], bounce: cloth}}}}
        """
    )
    assert found == ()
    place, day = plan.locations["landing"], plan.days["1"]
    assert place.hospital is not None
    assert place.hospital.name == "Saltmere General"
    assert place.permission is not None
    assert place.permission.state == "granted"
    assert place.noise["bell"].what == "church bell"
    assert day.hours is not None
    assert day.hours.profile == "eu"
    walls, move = plan.sets["landing/hall"].walls, plan.setups["wide"].move
    assert walls is not None
    assert move is not None
    assert (walls.colour, move.kind) == ("cream", "pan")
    assert plan.sets["landing/hall"].marks["desk"].at == Point(Metres(1.0), Metres(2.0))
    assert [(p.size, p.count) for p in plan.stock["cloth"].pieces] == [((2.0, 3.0), None), ((1.0, 1.0), 4)]
    assert plan.people["mara"].days["1"].here is not None
    back, bounce = plan.gear["thing"].return_, plan.setups["wide"].lights["key"].bounce
    assert back is not None
    assert bounce is not None
    assert (back.takes, bounce.use) == (2400.0, "cloth")


@pytest.mark.parametrize(
    ("written", "aim"),
    [
        ("desk", Aim(at=Named("desk"))),
        ("hatch", Aim(at=Named("hatch"))),
        ("table", Aim(at=Named("table"))),
        ("[1 m, 2 m]", Aim(at=Point(Metres(1.0), Metres(2.0)))),
        ("1.5 m at 10 o'clock of desk", Aim(at=Around(1.5, 10.0, "desk"))),
        ("2 m from desk towards door", Aim(at=Towards(2.0, "desk", "door"))),
        ("{at: desk, height: 0.95 m}", Aim(at=Named("desk"), height=Metres(0.95))),
        ("down", Aim(down=True)),
        ("{in: glass, see: door}", Aim(mirror="glass", sees="door")),
    ],
)
def test_spots_and_aims(decoded: Decoded, written: str, aim: Aim) -> None:
    plan, found = decoded(OFFICE + f"setups: {{wide: {{set: office, camera: {{aim: {written}}}}}}}\n")
    assert said(found) == []
    assert aim_of(plan) == aim


@pytest.mark.parametrize(
    ("written", "sentence"),
    [
        ("dask", "there is no mark or piece of furniture in this set called 'dask'; did you mean 'desk'?"),
        ("bench", "there is no mark or piece of furniture in this set called 'bench'"),
        ("[1 m]", "'aim' is a place, but a list stands here"),
        ("[1, 2 m]", "'aim': '1' has no unit"),
        ("2 m from desk", "'aim': '2 m from desk' does not say from which mark towards which"),
        ("1 m at 13 o'clock of desk", "names an hour that is on no clock face"),
        ("1 m at 3 o'clock of dask", "called 'dask'; did you mean 'desk'?"),
        ("{at: desk, hight: 1 m}", "there is no key 'hight' here; did you mean 'height'?"),
        ("{in: glas, see: door}", "there is no mirror in this set called 'glas'; did you mean 'glass'?"),
        (
            "{in: glass, see: dor}",
            "piece of furniture in this set called 'dor'; did you mean 'door'?",
        ),
    ],
)
def test_spots_and_aims_that_are_none(decoded: Decoded, written: str, sentence: str) -> None:
    _, found = decoded(OFFICE + f"setups: {{wide: {{set: office, camera: {{aim: {written}}}}}}}\n")
    assert len(found) == 1
    assert sentence in found[0].sentence
    assert found[0].ways_out != ()


def test_a_name_that_is_unique_may_drop_its_front(decoded: Decoded) -> None:
    plan, found = decoded(
        OFFICE
        + """
gear: {spot: {kind: light}}
setups:
  wide: {set: office, lights: {key: {lamp: spot, circuit: ground-floor, in: hall, through: hall-door, at: bench}}}
  whole: {set: landing/hall, windows: {office/hatch: open}, lights: {key: {lamp: spot, circuit: landing/shed-ring}}}
"""
    )
    assert said(found) == []
    wide, whole = plan.setups["wide"].lights["key"], plan.setups["whole"].lights["key"]
    assert plan.setups["wide"].set == "landing/office"
    assert (wide.circuit, wide.in_, wide.through) == ("landing/ground-floor", "landing/hall", "landing/hall/hall-door")
    assert whole.circuit == "landing/shed-ring"
    assert list(plan.windows) == ["landing/office/hatch"]
    assert [t.id for t in plan.setups["whole"].windows.values()] == ["landing/office/hatch"]


def test_a_set_name_that_two_places_have_needs_its_front(decoded: Decoded) -> None:
    text = """
        locations: {one: {sets: {hall: {}}}, two: {sets: {hall: {}}}}
        setups: {wide: {set: hall}, whole: {set: two/hall}}
        """
    plan, found = decoded(text)
    assert [f.rule for f in found] == ["unknown-name"]
    assert found[0].sentence == "'hall' may mean one/hall or two/hall"
    assert found[0].ways_out == ("write the whole name, such as 'one/hall'",)
    assert plan.setups["whole"].set == "two/hall"


def test_a_door_is_known_from_both_sides(decoded: Decoded) -> None:
    plan, found = decoded(
        OFFICE
        + """
gear: {spot: {kind: light}}
setups:
  here: {set: hall, lights: {key: {lamp: spot, in: office, through: hall-door}}}
  there: {set: office, lights: {key: {lamp: spot, in: hall, through: hall-door}}}
"""
    )
    assert said(found) == []
    assert {s.lights["key"].through for s in plan.setups.values()} == {"landing/hall/hall-door"}


@pytest.mark.parametrize(
    ("written", "cast"),
    [
        ("[]", ()),
        ("[CLERK]", (("CLERK", "mara"),)),
        ("[mara, jon]", (("CLERK", "mara"), ("jon", "jon"))),
        ("CLERK", (("CLERK", "mara"),)),
        ("{CLERK: ines}", (("CLERK", "ines"),)),
    ],
)
def test_cast(decoded: Decoded, written: str, cast: tuple[tuple[str, str], ...]) -> None:
    plan, found = decoded(
        "people: {mara: {plays: CLERK}, ines: {}, jon: {}}\n"
        f"scenes: {{1: {{shots: {{1A: {{cast: {written}}}}}}}}}\n"
    )
    assert said(found) == []
    assert plan.shots["1A"].cast == cast


def test_a_shot_without_cast_says_nothing_of_it(decoded: Decoded) -> None:
    plan, _ = decoded("scenes: {1: {shots: {1A: {}}}}\n")
    assert plan.shots["1A"].cast is None


def test_nobody_plays_that(decoded: Decoded) -> None:
    _, found = decoded("people: {mara: {plays: CLERK}}\nscenes: {1: {shots: {1A: {cast: [CLERC]}}}}\n")
    assert said(found) == [
        ("unknown-name", "there is no person, or character that somebody plays, called 'CLERC'; did you mean 'CLERK'?")
    ]


@pytest.mark.parametrize(
    ("line", "rule", "sentence", "way_out"),
    [
        ("titel: x", "unknown-key", "the top of a plan has no key 'titel'; did you mean 'title'?", "write 'title:'"),
        ("days: {1: {cal: 07:30}}", "unknown-key", "'1' (day) has no key 'cal'; did you mean 'call'?", "write 'call:'"),
        ("days: {1: {call: 7.30}}", "bad-quantity", "'call': '7.30' has no colon", "write it like 07:30"),
        ("days: {1: {load-in: 30}}", "missing-unit", "'load-in': '30' has no unit", "write it like 30 "),
        ("days: {1: {unit: mian}}", "wrong-kind", "'unit' cannot be 'mian'; did you mean 'main'?", "main, second"),
        ("days: {1: {call: [07:30]}}", "wrong-kind", "'call' is a time of day", "write it like 07:30"),
        ("days: {1: {call: }}", "wrong-kind", "nothing is written after 'call:'", "take the line out"),
        (
            "days: [1, 2]",
            "wrong-kind",
            "'days' holds entries with a name each, but a list stands here",
            "one name a line",
        ),
        ("days: {1: soon}", "wrong-kind", "'1' needs keys of its own, but 'soon' stands here", "date:"),
        ("gear: {lamp: {of: a lamp}}", "missing-key", "'lamp' does not say its 'kind'; every gear needs it", "camera"),
        ("gear: {lamp: {kind: lite}}", "wrong-kind", "'kind' cannot be 'lite'", "light"),
        (
            "gear: {lens: {kind: lens, draws: 5 W}}",
            "wrong-kind",
            "'draws' is said of light",
            "take 'draws' out, or change the kind",
        ),
        ("gear: {big lamp: {kind: light}}", "bad-name", "'big lamp' cannot be the name of a gear", "write 'big-lamp'"),
        ("setups: {wide: {set: hal}}", "unknown-name", "there is no set called 'hal'", "add 'hal' there"),
        ("scenes: {1: {pages: 1.3}}", "bad-quantity", "'1.3' is no whole number of eighths", "2 3/8"),
        ("days: {1: {meal: 12:30}}", "bad-quantity", "'takes' is a length of time, but '12:30' is", "'at: 12:30'"),
        ("days: {1: {include: x.yaml}}", "unknown-key", "'1' (day) has no key 'include'", "date"),
        ("gear: {spot: {kind: lamp, draws: 5 W}}", "wrong-kind", "cannot be 'lamp'; did you mean 'light'?", "light"),
        ("setups: {a: {needs: night}}", "wrong-kind", "cannot be 'night'; did you mean 'dark'?", "dark"),
        ("scenes: {1: {shots: {1A: {size: close up}}}}", "wrong-kind", "did you mean 'CU'?", "CU"),
        (
            "locations: {a: {skyline: {southeast: 4 deg}}}",
            "unknown-name",
            "there is no compass word called 'southeast'; did you mean 'south-east'?",
            "write 'south-east'",
        ),
        ("locations: {a: {skyline: {uphill: 4 deg}}}", "unknown-name", "no compass word 'uphill'", "east, north,"),
        ("locations: {one: {travel: {too: 4 min}}}", "unknown-name", "no location called 'too'", "one"),
        ("days: {1: {pinned: {wide: 07:30}}}", "unknown-name", "no setup called 'wide'", "add 'wide'"),
        ("hotset: 2", "wrong-kind", "but this hotset knows language 1 alone", "write 'hotset: 1'"),
    ],
)
def test_what_cannot_be_read_is_told(decoded: Decoded, line: str, rule: str, sentence: str, way_out: str) -> None:
    _, found = decoded(line + "\n")
    assert [f.rule for f in found] == [rule]
    assert sentence in found[0].sentence
    assert way_out in " / ".join(found[0].ways_out)


@pytest.mark.parametrize(
    ("room", "rule", "sentence", "way_out"),
    [
        ("mirrors: {one: {wall: North, from: 1 m, width: 1 m, height: 1 m}}", "unknown-name", "mean 'north'?", "south"),
        (
            "outline: [[0 m, 0 m], [1 m, 0 m], [1 m, 1 m]], outlets: {a: {wall: wall-4}}",
            "unknown-name",
            "'wall-4'",
            "1",
        ),
        ("marks: {sink: '1 m, 2 m'}", "wrong-kind", "'at' is a place in brackets", "write [1 m, 2 m]"),
    ],
)
def test_what_cannot_be_in_a_room(decoded: Decoded, room: str, rule: str, sentence: str, way_out: str) -> None:
    _, found = decoded(f"locations: {{home: {{sets: {{kitchen: {{{room}}}}}}}}}\n")
    assert [f.rule for f in found] == [rule]
    assert sentence in found[0].sentence
    assert way_out in " / ".join(found[0].ways_out)


def test_every_fault_is_told_in_one_run_in_the_order_of_the_text(decoded: Decoded) -> None:
    plan, found = decoded(
        """
        hotset: 1
        titel: Last Boat
        days:
          1: {call: soon, wrap: 19:30}
        gear:
          lamp:
            kind: light
            draws: 360
        setups:
          wide:
            set: offce
            camera: {at: [1 m, 2], hieght: 2 m}
        scenes:
          4:
            shots:
              4A: {setup: wyde}
        """
    )
    assert [(f.rule, f.place.line, f.place.column, f.place.path) for f in found] == [
        ("unknown-key", 2, 1, "titel"),
        ("bad-quantity", 4, 13, "days.1.call"),
        ("missing-unit", 8, 12, "gear.lamp.draws"),
        ("unknown-name", 11, 10, "setups.wide.set"),
        ("missing-unit", 12, 24, "setups.wide.camera.at.1"),
        ("unknown-key", 12, 28, "setups.wide.camera.hieght"),
        ("unknown-name", 16, 19, "scenes.4.shots.4A.setup"),
    ]
    assert plan.days["1"].wrap == 2340  # what can be read is read


def test_a_shot_number_stands_once_in_a_film(decoded: Decoded) -> None:
    _, found = decoded("scenes:\n  1: {shots: {A: {}}}\n  2: {shots: {A: {}}}\n")
    assert said(found) == [("duplicate-key", "shot 'A' stands in scene '1' and in scene '2'")]
    assert (found[0].place.line, found[0].place.column) == (4, 15)


def test_accepted_risks(decoded: Decoded) -> None:
    plan, found = decoded(
        """
        people: {tomas: {}}
        setups: {wide: {}}
        accepted:
          - {rule: light-in-frame, at: setups.wide, because: painted out in post, agreed-by: tomas}
          - {rule: no-hospital, at: setups.wide, because: x, agreed-by: thomas}
        """
    )
    assert said(found) == [
        ("unknown-name", "there is no person under 'people:' called 'thomas'; did you mean 'tomas'?")
    ]
    first = plan.film.accepted[0]
    assert (first.rule, first.at, first.because) == ("light-in-frame", "setups.wide", "painted out in post")
    assert first.agreed_by == ("tomas",)


def test_a_mark_of_a_shot_is_looked_for_in_its_setups_set(decoded: Decoded) -> None:
    plan, found = decoded(
        OFFICE
        + """
setups: {wide: {set: office}, hall: {set: hall}}
scenes: {1: {shots: {1A: {of: desk, setup: wide}, 1B: {of: desk, setup: hall}}}}
"""
    )
    assert [(f.rule, f.place.path) for f in found] == [("unknown-name", "scenes.1.shots.1B.of")]
    assert plan.shots["1A"].of == "desk"


def test_an_empty_plan_and_empty_families(decoded: Decoded) -> None:
    plan, found = decoded("hotset: 1\ndays:\ngear: {}\nsetups: ~\n")
    assert found == ()
    assert (plan.days, plan.gear, plan.setups) == ({}, {}, {})


def test_a_plan_needs_its_version(decoded: Decoded) -> None:
    _, found = decoded("# hotset: here only in a comment\ntitle: x\n")
    assert [f.rule for f in found] == ["missing-key"]
    assert found[0].sentence == "the plan does not say which version of the language it speaks"
    assert found[0].ways_out == ("write 'hotset: 1' on top",)
