"""A window and the hours of whoever is in it: named where no order brings them together, told once, with a way out."""

from __future__ import annotations

from pathlib import Path

from hotset.findings import Finding, NotChecked
from hotset.pipeline import compile_plan

PLAN = """
hotset: 1
days:
  1: {date: 2027-03-06, call: 08:00, wrap: "WRAP", load-in: 0 min, wrap-out: 0 min, location: house}
locations:
  house:
    at: "52.40 N, 4.90 E"
    zone: Europe/Amsterdam
    sets: {garden: {size: 10 m x 10 m, outdoors: true, marks: {willow: [5 m, 5 m]}}}
people: {wil: {plays: FATHER, here: 08:00-LEAVES}}
setups:
  noon: {set: garden, rig: 0 min, takes: 20 min}
  late:
    set: garden
    needs: NEED
    rig: 0 min
    takes: 30 min
    cast: [wil]
    camera: {at: [5 m, 1 m], aim: willow, stop: T2, iso: 3200, shutter: 1/50 s}
"""


def checked(
    tmp_path: Path, wrap: str = "21:00", leaves: str = "17:00", need: str = "dusk", order: str = ""
) -> tuple[list[Finding], list[NotChecked]]:
    text = PLAN.replace("WRAP", wrap).replace("LEAVES", leaves).replace("NEED", need)
    text = text.replace("location: house}", f"location: house, order: [{order}]}}") if order else text
    path = tmp_path / "plan.yaml"
    path.write_text(text, encoding="utf-8")
    found = compile_plan([str(path)])
    return list(found.findings), list(found.coverage.not_checked)


def one(found: list[Finding], rule: str) -> Finding:
    (finding,) = [f for f in found if f.rule == rule]
    return finding


def test_without_an_order_whoever_is_not_there_then_is_named(tmp_path: Path) -> None:
    found = one(checked(tmp_path)[0], "window-missed")
    assert "'wil' is there only from 08:00 to 17:00: missed in any order" in found.sentence
    assert found.ways_out == ("have 'wil' stay until 19:00", "or change what it needs")
    assert [f.rule for f in checked(tmp_path, leaves="19:00")[0] if f.rule == "window-missed"] == []


def test_two_causes_are_both_named_and_no_order_is_offered(tmp_path: Path) -> None:
    found = one(checked(tmp_path, wrap="18:00")[0], "window-missed")
    assert "day 1 is from 08:00 to 18:00 and 'wil' is there only from 08:00 to 17:00" in found.sentence
    assert found.ways_out == (
        "let day 1 last until 19:00", "and have 'wil' stay until 19:00", "or change what it needs"
    )  # fmt: skip
    alone = one(checked(tmp_path, wrap="18:00", leaves="20:00")[0], "window-missed")
    assert alone.ways_out == ("let day 1 last until 19:00", "or change what it needs")
    assert not any("in the order" in way for way in (*found.ways_out, *alone.ways_out))


def test_an_order_is_offered_only_where_one_would_help(tmp_path: Path) -> None:
    # in the order the dusk comes first: nobody waits for it, since wil leaves long before
    barred = one(checked(tmp_path, order="late, noon")[0], "window-missed")
    assert ", and no other order mends it: 'wil' is there only from 08:00 to 17:00" in barred.sentence
    assert barred.ways_out[0] == "have 'wil' stay until 19:00"
    assert barred.related[0].words == "not there then"
    text = PLAN  # hours of its own that another order keeps
    text = text.replace("    needs: NEED\n", "    between: 08:00-08:40\n").replace("WRAP", "21:00")
    path = tmp_path / "plan.yaml"
    path.write_text(
        text.replace("LEAVES", "17:00").replace("house}", "house, order: [noon, late]}"), encoding="utf-8"
    )
    moved = one(list(compile_plan([str(path)]).findings), "window-missed")
    assert moved.ways_out[0] == "move 'late' in the order of day 1"


def test_the_light_of_the_wrong_hour_is_not_judged(tmp_path: Path) -> None:
    found, unchecked = checked(tmp_path, order="late, noon")
    assert not {"over-exposed", "under-exposed", "cast-window"} & {f.rule for f in found}
    assert {n.wants for n in unchecked if n.rule == "over-exposed"} == {"an order that shoots it when it is dusk"}
    kept, unchecked = checked(tmp_path, leaves="20:00", order="noon, late")
    assert "window-missed" not in {f.rule for f in kept}
    assert not [n for n in unchecked if n.rule == "over-exposed" and "an order" in n.wants]


def test_who_needs_the_dark_is_told_who_is_not_there_in_it(tmp_path: Path) -> None:
    found = one(checked(tmp_path, need="dark", order="late, noon")[0], "needs-dark")
    assert "and no order mends it: 'wil' is there only from 08:00 to 17:00" in found.sentence
    assert found.ways_out[0].startswith("shoot it after 19:0")
    assert found.ways_out[1].startswith("and have 'wil' stay until 19:3")
