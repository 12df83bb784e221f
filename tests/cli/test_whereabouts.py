"""`hotset whereabouts`: the day of one thing, person, set or circuit, without gaps."""

from __future__ import annotations

import json
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hotset.cli import main
from hotset.facts.whereabouts import families
from hotset.pipeline import compile_plan

LAST_BOAT = Path(__file__).resolve().parents[2] / "examples" / "last-boat" / "plan.yaml"

PLAN = """\
hotset: 1
days: {1: {date: 2026-11-14, call: 08:00, load-in: 30 min, wrap-out: 30 min, order: [wide, close]}, 2: {call: 09:00}}
gear:
  spot: {kind: light, owner: borrowed, lent-by: the club, due: 2026-11-14 21:00, case: lamp box}
  lens-35: {kind: lens, case: camera bag}
people: {mara: {plays: CLERK, here: "08:15-18:00", before: 15 min}}
setups:
  wide: {day: 1, takes: 1 h, rig: 30 min, lights: {key: {lamp: spot}}, held-until: late}
  close: {day: 1, takes: 30 min, rig: 30 min, camera: {lens: lens-35}}
  late: {day: 2, lights: {key: {lamp: spot}}}
scenes: {4: {shots: {4A: {setup: wide, cast: [CLERK], takes: 1 h}, 4B: {setup: close, cast: [], takes: 30 min}}}}
"""


def found(capsys: pytest.CaptureFixture[str], *args: str) -> Any:
    assert main(["whereabouts", *args, "--format", "json"]) == 0
    return json.loads(capsys.readouterr().out)


def rows(said: Any) -> list[tuple[str, str, str]]:
    def clock(half: int) -> str:
        return f"{half // 120:02d}:{half % 120 // 2:02d}"

    return [(clock(s["start"]), clock(s["end"]), s["state"]) for s in said["stretches"]]


def test_a_lamp_that_is_held_hot_and_due(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(PLAN, "utf-8")
    said = found(capsys, str(plan), "spot")
    assert rows(said) == [
        ("08:00", "08:30", "in case"),
        ("08:30", "09:00", "rigged"),
        ("09:00", "10:00", "in use"),
        ("10:00", "11:30", "held hot"),
    ]
    assert "lent by the club, due back 2026-11-14 21:00" in said["known"]
    assert "day 2: taken by 'late'" in said["known"]


def test_a_lens_goes_back_into_its_bag(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(PLAN, "utf-8")
    assert rows(found(capsys, str(plan), "lens-35", "--day", "1")) == [
        ("08:00", "10:00", "in case"),
        ("10:00", "10:30", "rigged"),
        ("10:30", "11:00", "in use"),
        ("11:00", "11:30", "in case"),
    ]


def test_an_actor_is_called_for_the_first_setup_and_goes_after_the_last(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(PLAN, "utf-8")
    assert rows(found(capsys, str(plan), "CLERK", "--day", "1")) == [
        ("08:00", "08:45", "away"),
        ("08:45", "09:00", "called"),
        ("09:00", "10:00", "in use"),
        ("10:00", "11:30", "away"),
    ]
    plan.write_text(PLAN.replace("before: 15 min}", 'before: 15 min, call: "08:15"}'), "utf-8")
    assert rows(found(capsys, str(plan), "CLERK", "--day", "1")) == [
        ("08:00", "08:15", "away"),
        ("08:15", "08:30", "called"),
        ("08:30", "09:00", "free"),
        ("09:00", "10:00", "in use"),
        ("10:00", "11:30", "away"),
    ]


CREW = """\
hotset: 1
days:
  1:
    date: 2026-11-14
    call: "08:00"
    load-in: 30 min
    wrap-out: 30 min
    hours: {meal-within: 3 h}
    order: [wide, close, late]
    ahead: [{setup: late, by: olek, from: "10:20", to: "11:00"}]
locations: {landing: {sets: {office: {size: 4 m x 4 m x 2.4 m,
  windows: {hatch: {wall: east, from: 1 m, sill: 1 m, width: 1 m, height: 1 m}}}}}}
people:
  ada: {works: [direction, camera]}
  olek: {works: gaffer, skills: rig}
  jon: {works: sound}
gear: {panel: {kind: light, fetch: {by: jon, at: 2026-11-14 08:40, takes: 20 min}}}
stock: {cloth: {opaque: true, roll: 3 m x 9 m}}
setups:
  wide: {set: office, rig: 30 min, hands: {camera: ada}, cast: [kim],
    windows: {hatch: {black-out: cloth}}, lights: {lick: {lamp: panel, held-by: any}}}
  close: {set: office, rig: 10 min, hands: {camera: ada}, cast: [kim]}
  late: {set: office}
scenes: {4: {sound: mos, shots: {4A: {setup: wide, takes: 1 h}, 4B: {setup: close, takes: 1 h},
  4C: {setup: late, takes: 10 min}}}}
"""


def test_a_day_of_the_crew_holds_jobs_rigging_errands_and_what_clashes(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(CREW.replace("people:\n", "people:\n  kim: {plays: CLERK}\n"), "utf-8")

    def words(name: str) -> list[str]:
        return [one["words"] for one in found(capsys, str(plan), name)["stretches"]]

    olek, jon, ada = words("olek"), words("jon"), words("ada")
    assert "rigs for 'wide': 'panel', window 'hatch'" in olek
    assert "holding 'lick' in 4A ('wide')" in olek or "holding 'lick' in 4A ('wide')" in jon
    assert "rigs 'late' ahead" in olek
    assert "fetches 'panel'" in jon
    assert "the camera ('wide')" in ada
    # ada operates: of the two others one holds the lamp, and one watches
    assert "watches the acting in 4A ('wide')" in olek + jon
    said = found(capsys, str(plan), "ada")
    assert "day 1: no meal from 08:00 to 11:50, longer than 3 h" in said["known"]
    assert {f["rule"] for f in found(capsys, str(plan), "panel")["findings"]} >= {"not-in-hands-yet"}


def test_every_day_of_every_thing_is_without_gaps(capsys: pytest.CaptureFixture[str]) -> None:
    compiled = compile_plan([str(LAST_BOAT)])
    assert compiled.plan is not None
    assert compiled.facts is not None
    line = compiled.facts.timelines["1"]
    for family, names in families(compiled.plan).items():
        for name in names:
            pieces: dict[str, list[tuple[int, int]]] = {}
            for one in found(capsys, str(LAST_BOAT), f"{family}.{name}")["stretches"]:
                pieces.setdefault(one["piece"], []).append((one["start"], one["end"]))
            assert pieces, name
            for spans in pieces.values():
                assert spans[0][0] == line.call, name
                late = name in ("bea", "people.bea")  # who drives the lamp back when the day is done
                assert spans[-1][1] == (2520 if late else line.wrap), name
                assert all(a[1] == b[0] for a, b in pairwise(spans)), name


def test_cloth_that_stays_up_is_counted(capsys: pytest.CaptureFixture[str]) -> None:
    main(["whereabouts", str(LAST_BOAT), "black-cloth"])
    said = " ".join(capsys.readouterr().out.split())
    # tent of the hatch: 1.6 x 1.5 + 2 x 1.4 x 1.5 + 1.6 x 1.4 = 8.84 m2, of two rolls of 36 m2, each less what is cut
    assert "in use in landing/office: 8.8 m2 for 'office-wide', 63.2 m2 left" in said
    assert "free in landing/office: 8.8 m2 left hanging, 63.2 m2 left" in said


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (("spt",), "did you mean 'spot'?"),
        (("spot", "--day", "9"), "there is no day '9'"),
        (("4A",), "'4A' is a shot"),
    ],
)
def test_what_is_not_there(
    args: tuple[str, ...], says: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(PLAN, "utf-8")
    assert main(["whereabouts", str(plan), *args]) == 2
    assert says in " ".join(capsys.readouterr().err.split())
