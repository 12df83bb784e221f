"""Reading a log: what a phone makes of a line is understood, what can mean two things is asked back, with its place."""

from __future__ import annotations

import pytest
from hotset.log import Event, LogFault, read_log
from hotset.log.words import EXAMPLES, FAMILIES, SUBJECTS, VERBS
from hotset.plan import Plan, decode
from hotset.source import read

PLAN = """
hotset: 1
title: Invented
days: {1: {call: "08:00", wrap: "18:00"}, 2: {call: "19:00", wrap: "05:00"}}
locations: {house: {sets: {hall: {}, loft: {}}, circuits: {ring: {breaker: 16 A}}}}
people: {mara: {name: Mara Lind, plays: CLERK}, olek: {skills: [rig]}}
gear: {fresnel: {kind: light}, panel: {kind: light, quantity: 2}, big-lamp: {kind: light}}
stock: {cloth: {opaque: true, roll: 3 m x 12 m}}
setups:
  hall-wide: {set: house/hall, day: 1}
  hall-close: {set: house/hall, day: 1}
  night: {set: house/loft, day: 2}
  lone: {set: house/loft, day: 1}
scenes:
  4:
    shots: {4A: {setup: hall-wide}, 4B: {setup: hall-wide}, 4C: {setup: hall-close}, 4N: {setup: night},
      "12": {setup: hall-close}}
"""


@pytest.fixture(scope="module")
def plan() -> Plan:
    found, faults = decode(read(["-"], stdin_text=PLAN.encode()))
    assert found is not None
    assert [f.sentence for f in faults if f.severity == "error"] == []
    return found


def events(plan: Plan | None, text: str, day: str = "1") -> list[Event]:
    log, faults = read_log(plan, "day.log", text.encode(), day)
    assert faults == ()
    return [event for part in log.days for event in part.events]


def faults(plan: Plan | None, text: str, day: str = "1") -> tuple[LogFault, ...]:
    return read_log(plan, "day.log", text.encode(), day)[1]


@pytest.mark.parametrize(
    ("line", "kind", "subject", "clock", "count"),
    [
        ("rolled 4A 09:40", "rolled", "4A", "09:40", 0),
        ("Rolled 4a at 9.40.", "rolled", "4A", "09:40", 0),
        ("09:40 rolling 4 A", "rolled", "4A", "09:40", 0),
        ("rolled 4A 0940", "rolled", "4A", "09:40", 0),
        ("rolled 4A 9:40am", "rolled", "4A", "09:40", 0),
        ("rolled 4A 1:40 pm", "rolled", "4A", "13:40", 0),
        ("rolled 4A 9h40", "rolled", "4A", "09:40", 0),
        ("rolled 4A", "rolled", "4A", "", 0),
        ("  rolled\u00a04A\t09:40   # a remark, 10:00", "rolled", "4A", "09:40", 0),
        ("done 4A 3 takes", "done", "4A", "", 3),
        ("done 4A, 10:05, three takes", "done", "4A", "10:05", 3),
        ("got 4A take 2", "done", "4A", "", 2),
        ("done shot 12 2 takes", "done", "12", "", 2),
        ("done hall wide 11:00", "done", "hall-wide", "11:00", 0),
        ("rigging Hall-Close 11:02", "rigging", "hall-close", "11:02", 0),
        ("rigging 4C 11:02", "rigging", "hall-close", "11:02", 0),
        ("ready lone", "ready", "lone", "", 0),
        ("lost the \u201cfresnel\u201d 13:10", "lost", "fresnel", "13:10", 0),
        ("lost 2 panel", "lost", "panel", "", 2),
        ("the big lamp is dead 12:00", "lost", "big-lamp", "12:00", 0),
        ("lost ring", "lost", "house/ring", "", 0),
        ("mara leaves 15:00", "leaves", "mara", "15:00", 0),
        ("Mara Lind left at 15.00", "leaves", "mara", "15:00", 0),
        ("CLERK comes 12:10", "comes", "mara", "12:10", 0),
        ("olek here", "here", "olek", "", 0),
        ("lunch 12:40", "meal", "", "12:40", 0),
        ("room tone 11:00", "tone", "", "11:00", 0),
        ("room tone hall", "tone", "house/hall", "", 0),
        ("wrap 17:20", "wrap", "", "17:20", 0),
        ("waiting 14:00 for the 4A bus at 14:30", "waiting", "", "14:00", 0),
        ("call 07:50", "call", "", "07:50", 0),
    ],
)  # fmt: skip
def test_a_line_is_read_however_it_is_typed(
    plan: Plan, line: str, kind: str, subject: str, clock: str, count: int
) -> None:
    (event,) = events(plan, line)
    at = int(clock[:2]) * 120 + int(clock[3:]) * 2 if clock else None
    assert (event.kind, event.subject, event.at, event.count) == (kind, subject, at, count)


@pytest.mark.parametrize(
    ("text", "line", "column", "words"),
    [
        ("roled 4A 09:40", 1, 1, "'roled' is no word of the log; did you mean 'rolled'?"),
        ("# start\n\nrolled 4AA 09:40", 3, 8, "the plan has no shot or setup '4AA'; did you mean '4A'?"),
        ("done 9Z", 1, 6, "the plan has no shot or setup '9Z'"),
        ("rolled 4A 25:70", 1, 11, "'25:70' is no time of day"),
        ("rolled 4A 9:4", 1, 11, "one digit for the minutes"),
        ("rolled 4A 14:10pm", 1, 11, "counts hours past twelve"),
        ("rolled 4A 09:40 10:00", 1, 17, "two times"),
        ("rolled 09:40", 1, 1, "'rolled' needs a shot or setup"),
        ("rolled 4A 4C 09:40", 1, 8, "the plan has no shot or setup '4A 4C'; did you mean '4A'?"),
        ("rolled 4A and 4C 09:40", 1, 8, "'rolled' names 2 things"),
        ("rolled 4A 10:00\ndone 4A 09:50", 2, 9, "09:50 comes before 10:00 of line 1, which stands above"),
        ("done 4A\ndone 4A", 2, 1, "'4A' was done in line 1"),
        ("dropped hall-wide\nrolled 4B", 2, 1, "'4B' was dropped in line 1"),
        ("again 4A", 1, 1, "neither done nor dropped"),
        ("wrap 17:00\nrolled 4A 17:10", 2, 1, "the day was wrapped in line 1"),
        ("meal over 13:00", 1, 1, "no meal has begun above"),
        ("mara leaves", 1, 6, "'leaves' needs its time"),
        ("mira leaves 15:00", 1, 1, "the plan has no person 'mira'; did you mean 'mara'?"),
        ("lost fresnell", 1, 6, "did you mean 'fresnel'?"),
        ("cut 4A", 1, 1, "'cut' can mean more than one thing"),
        ("rain 11:00", 1, 1, "'rain' can mean more than one thing"),
        ("4A was very good", 1, 8, "this line does not say what happened"),
        ("done 4A takes", 1, 9, "how many takes"),
        ("rolled 4N 20:00", 1, 8, "'4N' is shot on day 2, and this is the log of day 1"),
        ("wrap 18:00 hall", 1, 12, "'hall' says nothing in this line"),
        ("call 04:10", 1, 6, "more than three hours before the call at 08:00"),
        ("day 3", 1, 5, "the plan has no day '3'"),
        ("day", 1, 1, "does not say which day"),
    ],
)  # fmt: skip
def test_a_bad_line_is_one_message_at_its_place(plan: Plan, text: str, line: int, column: int, words: str) -> None:
    (fault,) = faults(plan, text)
    assert (fault.line, fault.column) == (line, column)
    assert words in fault.sentence
    assert fault.way_out


def test_a_bad_line_hides_no_other(plan: Plan) -> None:
    found = faults(plan, "roled 4A\ndone 4A 09:00\nlost fresnell\ndone 4B 26:99\n")
    assert [f.line for f in found] == [1, 3, 4]


def test_several_things_on_a_line_are_as_many_events(plan: Plan) -> None:
    found = events(plan, "done 4A, 4B and 4C 11:00\nlost fresnel, cloth\n")
    assert [(e.kind, e.subject) for e in found] == [
        ("done", "4A"), ("done", "4B"), ("done", "4C"), ("lost", "fresnel"), ("lost", "cloth"),
    ]  # fmt: skip


def test_times_past_midnight_go_on(plan: Plan) -> None:
    found = events(plan, "day 2\nrolled 4N 23:50\ndone 4N 00:20\nwrap 01:10\n")
    assert [e.at for e in found] == [23 * 120 + 100, 24 * 120 + 40, 25 * 120 + 20]


def test_what_is_announced_may_stand_before_its_time(plan: Plan) -> None:
    found = events(plan, "mara leaves 16:00\nrolled 4A 09:00\ndone 4A 09:20\n")
    assert [e.at for e in found] == [16 * 120, 9 * 120, 9 * 120 + 40]


def test_days_of_one_log_are_kept_apart(plan: Plan) -> None:
    log, found = read_log(plan, "all.log", b"day 1\ndone 4A 09:00\nwrap 17:00\nday 2\nrolled 4N 20:00\n", "")
    assert found == ()
    assert [(d.day, len(d.events)) for d in log.days] == [("1", 2), ("2", 1)]


def test_a_plan_of_several_days_asks_which(plan: Plan) -> None:
    (fault,) = faults(plan, "done 4A 09:00", day="")
    assert "the plan has several days (1, 2)" in fault.sentence
    assert "day 1" in fault.way_out


def test_a_shot_and_a_setup_of_one_name_are_told_apart() -> None:
    text = "hotset: 1\ntitle: t\ndays: {1: {}}\nsetups: {a: {}}\nscenes: {1: {shots: {a: {setup: a}, b: {setup: a}}}}\n"
    plan, _ = decode(read(["-"], stdin_text=text.encode()))
    (fault,) = faults(plan, "done a")
    assert fault.sentence == "'a' means more than one thing in this plan"
    assert fault.way_out == "write 'done shot a' or 'done setup a'"
    (event,) = events(plan, "done setup a")
    assert event.family == "setup"


def test_without_a_plan_every_word_is_a_shot() -> None:
    found = events(None, "rolled 4a 09:40\ndone 4A 10:00 2 takes\n", day="")
    assert [(e.subject, e.count) for e in found] == [("4A", 0), ("4A", 2)]


def test_bytes_that_are_no_text_are_one_message() -> None:
    (fault,) = faults(None, "")[:1] or read_log(None, "day.log", b"rolled 4A\nlost \xff\n")[1]
    assert (fault.line, fault.column) == (2, 6)
    assert "not UTF-8" in fault.sentence


def test_a_file_that_is_no_log_is_not_read_to_its_end(plan: Plan) -> None:
    found = faults(plan, "lorem ipsum\n" * 500)
    assert len(found) == 41
    assert "the rest is not read" in found[-1].sentence


def test_every_kind_has_an_example_that_reads_as_itself(plan: Plan) -> None:
    assert set(EXAMPLES) == {*VERBS.values(), "meal-over"}
    assert set(SUBJECTS) < set(FAMILIES)
    before = {"again": "done 4A\n", "meal-over": "meal 12:40\n", "back": "lost fresnel\n"}
    for kind, line in EXAMPLES.items():
        known = line.replace("office-wide", "hall-wide").replace("ines", "olek").replace("4F", "4B")
        found = events(plan, before.get(kind, "") + known)
        assert [e.kind for e in found][-1:] == ([] if kind in ("day", "note") else [kind])
