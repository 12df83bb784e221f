"""Findings as text: the form, the caret, the folding, what a terminal may be sent."""

from __future__ import annotations

import pytest
from hotset.findings import Finding, NotChecked, Place, Related
from hotset.report.look import Look, wants_colour
from hotset.report.text import coverage_lines, excerpt, finding_lines, tally, why_not_lines
from hypothesis import given
from hypothesis import strategies as st

PLAN = [
    "gear:",
    "  soft-60: {kind: modifier, fits: bayonet-b}",
    "  fresnel: {kind: light, mount: bayonet-a}",
    "    quay: {lamp: fresnel, with: soft-60}",
]


def line_of(file: str, line: int) -> str | None:
    return PLAN[line - 1] if file == "plan.yaml" and line <= len(PLAN) else None


def test_a_whole_finding() -> None:
    finding = Finding(
        rule="modifier-does-not-fit",
        severity="error",
        sentence="softbox 'soft-60' fits 'bayonet-b', lamp 'fresnel' has 'bayonet-a'",
        place=Place("plan.yaml", 4, 33, "setups.office-wide.lights.quay"),
        related=(Related(Place("plan.yaml", 2, 36), "the softbox fits this mount"),),
        ways_out=("use a softbox that fits 'bayonet-a'", "write an adapter into 'gear:'"),
        details=(("loss_stops", 1.5), ("lamp", "fresnel")),
        typical=("softbox loss 1.5 stops",),
    )
    said = list(finding_lines(finding, line_of, Look(numbers=True)))
    assert said == [
        "plan.yaml:4:33: error: softbox 'soft-60' fits 'bayonet-b', lamp 'fresnel' has 'bayonet-a' "
        "[modifier-does-not-fit]",
        "    4 |     quay: {lamp: fresnel, with: soft-60}",
        "      |                                 ^",
        "    in setups.office-wide.lights.quay",
        "    plan.yaml:2:36: the softbox fits this mount",
        "    2 |   soft-60: {kind: modifier, fits: bayonet-b}",
        "      |                                    ^",
        "    numbers: loss stops 1.5, lamp fresnel",
        "    rests on typical values: softbox loss 1.5 stops",
        "    do: use a softbox that fits 'bayonet-a'",
        "    do: write an adapter into 'gear:'",
    ]
    assert list(finding_lines(finding, line_of, Look())) == [line for line in said if "numbers: " not in line]


LONG = Finding(
    rule="cloth-short",
    severity="warning",
    sentence=" ".join(["forty metres of cloth are wanted and twelve are owned"] * 4),
    place=Place("a.yaml", 7, 1),
    ways_out=("rent cloth from the house that rents cloth to everybody in this town of cloth and of houses",),
)


def test_headline_is_one_line_where_a_program_reads_it_and_folds_for_a_person() -> None:
    piped = list(finding_lines(LONG, line_of, Look(80)))
    assert piped[0].startswith("a.yaml:7:1: warning: ")
    assert piped[0].endswith("[cloth-short]")
    folded = list(finding_lines(LONG, line_of, Look(80, fold=True)))
    assert all(len(line) <= 80 for line in folded)
    assert folded[0].startswith("a.yaml:7:1: warning: ")
    assert folded[1].startswith("    ")


def test_colour_changes_nothing_but_colour() -> None:
    import re

    for fold in (True, False):
        plain = list(finding_lines(LONG, line_of, Look(80, False, fold)))
        painted = list(finding_lines(LONG, line_of, Look(80, True, fold)))
        assert any("\x1b[" in line for line in painted)
        assert [re.sub(r"\x1b\[[0-9;]*m", "", line) for line in painted] == plain


@pytest.mark.parametrize(
    ("terminal", "environ", "expected"),
    [
        (True, {}, True),
        (False, {}, False),
        (True, {"NO_COLOR": "1"}, False),
        (True, {"NO_COLOR": ""}, True),
        (False, {"FORCE_COLOR": "1"}, True),
        (False, {"FORCE_COLOR": "0"}, False),
        (True, {"FORCE_COLOR": "0"}, False),
        (True, {"NO_COLOR": "1", "FORCE_COLOR": "1"}, False),
        (True, {"TERM": "dumb"}, False),
    ],
)
def test_when_colour_is_used(terminal: bool, environ: dict[str, str], expected: bool) -> None:
    assert wants_colour(terminal, environ) is expected


def test_a_long_line_is_cut_between_words() -> None:
    line = "  quay: {lamp: fresnel, at: [3.9 m, 0.3 m], height: 2.0 m, aim: desk, role: key, with: soft-60}"
    text, caret = excerpt(Place("f", 1, line.index("soft-60") + 1), lambda _f, _n: line, Look())
    assert text == "    1 | ... 2.0 m, aim: desk, role: key, with: soft-60}"
    assert text[caret.index("^") :] == "soft-60}"


def test_text_of_uncertain_width_never_stands_before_the_caret() -> None:
    line = "  does: Das Mädchen 窓 sees {lamp: fresnell}"
    column = line.index("fresnell") + 1
    text, caret = excerpt(Place("f", 1, column), lambda _f, _n: line, Look())
    assert text == "    1 | ... sees {lamp: fresnell}"
    assert text[caret.index("^")] == "f"


def test_a_line_of_three_million_characters_is_cut_around_the_caret() -> None:
    line = "x: [" + "lamp, " * 500_000 + "]"
    text, caret = excerpt(Place("f", 1, 1_500_005), lambda _f, _n: line, Look(80))
    assert len(text) <= 80
    assert text.startswith("    1 | ...")
    assert text.endswith("...")
    assert text[caret.index("^") :].startswith(line[1_500_004:1_500_010])


@given(st.text(max_size=200), st.integers(min_value=-3, max_value=220), st.integers(min_value=40, max_value=100))
def test_no_line_of_a_plan_can_send_the_terminal_anything(line: str, column: int, width: int) -> None:
    for out in excerpt(Place("f", 1, column), lambda _f, _n: line, Look(width)):
        assert len(out) <= width
        for char in out:
            assert char.isprintable() or char in "\u200c\u200d\u3000" or char.isspace()
            assert char not in "\n\r\t\x1b\u202e\u2028"


def test_control_and_bidirectional_characters_are_written_out() -> None:
    finding = Finding("unknown-name", "error", "no lamp '\x1b[2Jfr\u202eesnel\n'", Place("a\x07.yaml", 1, 1))
    (headline,) = finding_lines(finding, lambda _f, _n: None, Look())
    assert headline == "a\\x07.yaml:1:1: error: no lamp '\\x1b[2Jfr\\u202eesnel\\n' [unknown-name]"


SILENT = (
    NotChecked("piece-in-two-places", "day 1", "an agreed order for day 1"),
    NotChecked("cards-full", "day 1", "an agreed order for day 1"),
    NotChecked("nobody-free", "4A", "people in the plan"),
    NotChecked("nobody-free", "4B", "people in the plan"),
)


def test_coverage_groups_by_what_would_unlock() -> None:
    assert coverage_lines((LONG,), 42, 12, SILENT, 0, Look()) == [
        "42 checks on 12 setups: 1 warning",
        "3 not checked: piece-in-two-places, cards-full (wants an agreed order for day",
        "    1); nobody-free (wants people in the plan)",
        "    'hotset check --why-not all' lists where",
    ]
    one = coverage_lines((), 42, 12, SILENT[-2:], 0, Look())
    assert one[-1] == "    'hotset check --why-not nobody-free' lists where"
    assert coverage_lines((), 1, 1, (), 2, Look()) == ["1 check on 1 setup: no findings; 2 known risks accepted"]


def test_a_rule_is_named_once_with_how_much_else_it_wants() -> None:
    many = (
        NotChecked("light-in-frame", "quay", "'height:' of the lamp"),
        NotChecked("light-in-frame", "till", "'size:' of the lamp"),
        NotChecked("cards-full", "day 1", "an agreed order"),
        NotChecked("battery-flat", "day 1", "an agreed order"),
        NotChecked("light-in-frame", "day 1", "a base"),
    )
    text = " ".join(" ".join(coverage_lines((), 5, 5, many, 0, Look(200))).split())
    assert (
        "3 not checked: cards-full, battery-flat (wants an agreed order); "
        "light-in-frame (wants 'height:' of the lamp, and 2 other details)"
    ) in text


def test_a_hundred_silent_rules_stay_a_few_lines() -> None:
    many = tuple(NotChecked(f"rule-{n}", "", f"detail {n % 30}") for n in range(100))
    lines = coverage_lines((), 5, 5, many, 0, Look())
    assert len(lines) < 12
    assert "25 reasons more" in " ".join(" ".join(lines).split())


def test_why_not() -> None:
    assert why_not_lines("nobody-free", SILENT, Look()) == [
        "'nobody-free' was not checked 2 times:",
        "    4A: wants people in the plan",
        "    4B: wants people in the plan",
    ]
    assert why_not_lines("cloth-short", SILENT, Look()) == ["'cloth-short' was checked everywhere it applies"]
    every = why_not_lines("all", SILENT, Look())
    assert [line for line in every if line.endswith(":")] == [
        f"'{rule}' was not checked {times}:"
        for rule, times in (("piece-in-two-places", "once"), ("cards-full", "once"), ("nobody-free", "2 times"))
    ]
    assert why_not_lines("all", (), Look()) == ["every rule was checked everywhere it applies"]


def test_tally() -> None:
    error = Finding("r", "error", "s", Place("f", 1, 1))
    note = Finding("r", "note", "s", Place("f", 1, 1))
    assert tally([note, error, error]) == "2 errors, 1 note"
    assert tally([]) == "no findings"
