"""Gear: single things, quantities, choices, holds, adapter chains, threads, modifiers, loans."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from .plans import compiled, conflicts

HOLD = """
hotset: 1
days: {1: {call: 08:00, load-in: 30 min, order: [wide, ORDER, late]}}
gear: {panel: {kind: light, quantity: 2}, tube: {kind: light}}
setups:
  wide: {takes: 10 min, lights: {key: {lamp: panel}}, held-until: late}
  near: {like: wide, camera: {height: 1 m}}
  other: {takes: 10 min, lights: {key: {lamp: panel}, fill: {lamp: panel}}}
  late: {takes: 10 min, lights: {a: {lamp: panel}, b: {lamp: panel}}}
"""


def rules(text: str, folder: Path) -> list[str]:
    return [f.rule for f in conflicts(text, folder)]


def test_what_a_held_setup_keeps_is_not_free(tmp_path: Path) -> None:
    found = conflicts(HOLD.replace("ORDER", "near, other"), tmp_path)
    assert [f.rule for f in found] == ["more-than-owned"]
    assert "hot until 'late'" in found[0].sentence
    assert "setups.other" in found[0].place.path


def test_a_setup_like_the_held_one_works_inside_it_and_the_hold_ends(tmp_path: Path) -> None:
    text = HOLD.replace("ORDER", "near").replace(
        "  other: {takes: 10 min, lights: {key: {lamp: panel}, fill: {lamp: panel}}}\n", ""
    )
    assert rules(text, tmp_path) == []


def test_any_of_several_lamps_is_matched_to_pieces(tmp_path: Path) -> None:
    plan = """
hotset: 1
gear: {panel: {kind: light, quantity: QUANTITY}, tube: {kind: light}}
setups:
  wide:
    lights:
      a: {lamp: [panel, tube]}
      b: {lamp: [tube, panel]}
      c: {lamp: panel}
"""
    assert rules(plan.replace("QUANTITY", "2"), tmp_path) == []
    found = conflicts(plan.replace("QUANTITY", "1"), tmp_path)
    assert [f.rule for f in found] == ["more-than-owned"]
    assert "there are 2 pieces" in found[0].sentence


def test_inherited_clash_is_said_once(tmp_path: Path) -> None:
    plan = """
hotset: 1
gear: {panel: {kind: light}}
setups:
  wide: {lights: {a: {lamp: panel}, b: {lamp: panel}}}
  near: {like: wide}
  nearer: {like: near}
"""
    assert rules(plan, tmp_path) == ["piece-in-two-places"]


CHAIN = """
hotset: 1
mounts: {a: {flange: 18 mm}, c: {flange: 46 mm}}
gear:
  body: {kind: camera, mount: a}
  lens: {kind: lens, mount: c}
  ab: {kind: adapter, from: a, to: b, thick: 10 mm}
  bc: {kind: adapter, from: b, to: c, thick: THICK}
setups: {wide: {camera: {body: body, lens: lens}}}
"""


def test_a_chain_of_adapters_must_have_the_right_thickness(tmp_path: Path) -> None:
    assert rules(CHAIN.replace("THICK", "18 mm"), tmp_path) == []
    found = conflicts(CHAIN.replace("THICK", "17 mm"), tmp_path)
    assert [f.rule for f in found] == ["missing-adapter"]
    assert "27 mm thick" in found[0].sentence
    assert "28 mm are needed" in found[0].sentence


def test_named_adapters_are_taken_as_named_from_either_side(tmp_path: Path) -> None:
    named = CHAIN.replace("THICK", "18 mm").replace("lens: lens}", "lens: lens, adapters: [bc, ab]}")
    assert rules(named, tmp_path) == []
    assert rules(named.replace("[bc, ab]", "[ab]"), tmp_path) == ["missing-adapter"]


def test_a_lens_that_sits_inside_the_camera_needs_glass(tmp_path: Path) -> None:
    plan = (
        CHAIN.replace("THICK", "18 mm")
        .replace("c: {flange: 46 mm}", "c: {flange: 16 mm}")
        .replace("from: b", "from: d")
    )
    found = conflicts(plan, tmp_path)
    assert [f.rule for f in found] == ["missing-adapter"]
    assert "2 mm inside the camera" in found[0].sentence
    assert "glass" in found[0].ways_out[0]


@pytest.mark.parametrize(
    ("old", "new", "wants"),
    [
        ("", "", []),
        ("to: c, thick: 18 mm}", "to: c}", ["'thick:' of 'bc'"]),
        ("c: {flange: 46 mm}", "c: {note: old}", ["'flange:' of 'c' under 'mounts:'"]),
        ("mounts: {a: {flange: 18 mm}, c: {flange: 46 mm}}", "", ["'flange:' of 'a' and 'c' under 'mounts:'"]),
        ("thick: 18 mm}", "loses: 0.5 stops}", []),  # with glass in it the thickness says nothing
        ("{kind: lens, mount: c}", "{kind: lens, mount: a}", []),  # no adapter is needed
    ],
)
def test_a_thickness_that_is_not_known_is_said(old: str, new: str, wants: list[str], tmp_path: Path) -> None:
    text = CHAIN.replace("THICK", "18 mm").replace(old, new) if old else CHAIN.replace("THICK", "18 mm")
    done = compiled(text, tmp_path)
    assert [n.wants for n in done.coverage.not_checked if n.rule == "missing-adapter"] == wants
    assert [f.rule for f in done.findings if f.severity != "note"] == []


def test_of_two_chains_the_one_that_is_known_to_fit_is_taken(tmp_path: Path) -> None:
    both = "  ac: {kind: adapter, from: a, to: c}\n  ac-2: {kind: adapter, from: a, to: c, thick: 28 mm}\nsetups:"
    text = CHAIN.replace("THICK", "18 mm").replace("setups:", both)
    assert [n.rule for n in compiled(text, tmp_path).coverage.not_checked if n.rule == "missing-adapter"] == []


def test_a_mount_that_is_not_said_is_not_checked(tmp_path: Path) -> None:
    done = compiled(CHAIN.replace("THICK", "18 mm").replace("{kind: lens, mount: c}", "{kind: lens}"), tmp_path)
    assert ("missing-adapter", "'mount:' of 'lens'") in {(s.rule, s.wants) for s in done.coverage.not_checked}


def test_the_graph_library_is_loaded_for_chains_alone(tmp_path: Path) -> None:
    ask = (
        "import sys; from hotset.pipeline import compile_plan; compile_plan([sys.argv[1]]);"
        "print('networkx' in sys.modules)"
    )
    answers = []
    for name, text in (("one", CHAIN.replace("from: b", "from: a")), ("two", CHAIN)):
        path = tmp_path / f"{name}.yaml"
        path.write_text(text.replace("THICK", "28 mm"), "utf-8")
        done = subprocess.run([sys.executable, "-c", ask, str(path)], capture_output=True, text=True, check=True)
        answers.append(done.stdout.strip())
    assert answers == ["False", "True"]


@pytest.mark.parametrize(
    ("ring", "speaks"),
    [
        ("{kind: adapter, from: 55 mm, to: 77 mm}", False),
        ("{kind: adapter, from: 77 mm, to: 55 mm}", True),
        ("{kind: adapter, from: 52 mm, to: 77 mm}", True),
        ("{kind: adapter, from: 5.5 cm, to: 77 mm}", False),
    ],
)
def test_a_step_ring_has_a_direction(ring: str, speaks: bool, tmp_path: Path) -> None:
    plan = f"""
hotset: 1
gear:
  lens: {{kind: lens, thread: 55 mm}}
  glass: {{kind: filter, thread: 77 mm}}
  ring: {ring}
setups: {{wide: {{camera: {{lens: lens, filters: glass}}}}}}
"""
    assert rules(plan, tmp_path) == (["filter-thread"] if speaks else [])


def test_a_grid_fits_the_softbox_it_names(tmp_path: Path) -> None:
    plan = """
hotset: 1
gear:
  lamp: {kind: light, mount: bayonet-a}
  box: {kind: modifier, fits: bayonet-a}
  grid: {kind: modifier, fits: OUTER}
setups: {wide: {lights: {key: {lamp: lamp, with: [box, grid]}}}}
"""
    assert rules(plan.replace("OUTER", "box"), tmp_path) == []
    assert rules(plan.replace("OUTER", "other-box"), tmp_path) == []  # the box names no mount of its own: not checked
    assert rules(
        plan.replace("OUTER", "round").replace(
            "{kind: modifier, fits: bay", "{kind: modifier, mount: square, fits: bay"
        ),
        tmp_path,
    ) == ["modifier-does-not-fit"]


LOAN = """
hotset: 1
days: {1: {date: 2026-11-14, call: 08:00, wrap: 20:00, load-in: 30 min, ORDER}}
gear: {lamp: {kind: light, DUE}}
setups:
  first: {rig: 20 min, takes: 100 min, lights: {key: {lamp: lamp}}}
  second: {rig: 0 min, takes: 1 h}
"""


@pytest.mark.parametrize(
    ("due", "order", "speaks"),
    [
        ("due: 2026-11-14 11:00", "order: [first, second]", []),  # 08:30 to 10:30 with its rigging
        ("due: 2026-11-14 11:00", "order: [second, first]", ["due-back"]),  # 09:30 to 11:30
        ("due: 2026-11-14 11:00, return: {takes: 45 min}", "order: [first, second]", ["due-back"]),
        ("in-hands: 2026-11-14 09:00", "order: [first, second]", ["not-in-hands-yet"]),
        ("in-hands: 2026-11-14 09:00", "order: [second, first]", []),
        ("in-hands: 2026-11-14 09:00", "unit: main", []),  # some order can avoid it
        ("due: 2026-11-13 23:00", "unit: main", ["due-back"]),  # none can
    ],
)
def test_loans_follow_the_agreed_order(due: str, order: str, speaks: list[str], tmp_path: Path) -> None:
    assert rules(LOAN.replace("DUE", due).replace("ORDER", order), tmp_path) == speaks


def test_a_loan_without_an_order_is_not_checked_where_an_order_decides(tmp_path: Path) -> None:
    done = compiled(LOAN.replace("DUE", "due: 2026-11-14 11:00").replace("ORDER", "unit: main"), tmp_path)
    assert "due-back" in {s.rule for s in done.coverage.not_checked}
