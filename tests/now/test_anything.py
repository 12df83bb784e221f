"""Whatever a crew types, nothing breaks: every line is an event or one message, and every answer keeps the rules."""

from __future__ import annotations

from hotset.facts.numbers import FOREVER
from hotset.log import read_log
from hotset.now import answer, lines
from hotset.now.data import data
from hypothesis import given, settings
from hypothesis import strategies as some

from .lived import clock, example

PLAN = example("last-boat")
NAMES = [*PLAN.shots, *PLAN.setups, *PLAN.gear, *PLAN.people, *PLAN.sets, "hall", "office", "ground-floor"]
WORDS = ["rolled", "done", "dropped", "again", "rigging", "ready", "lost", "back", "leaves", "comes", "here", "meal",
         "meal over", "room tone", "waiting", "packing", "wrap", "day 1", "note", "and", "3 takes", "#"]  # fmt: skip


@given(some.lists(some.one_of(some.sampled_from([*WORDS, *NAMES]), some.text(max_size=6)), max_size=8))
@settings(max_examples=300)
def test_every_line_is_events_or_one_message(words: list[str]) -> None:
    text = " ".join(words)
    log, faults = read_log(PLAN, "day.log", text.encode("utf-8", "replace"), "1")
    rows = len(text.replace("\r\n", "\n").replace("\r", "\n").split("\n"))
    assert len(faults) <= rows
    assert all(1 <= fault.line <= rows and fault.column >= 1 and fault.way_out for fault in faults)
    assert all(event.line <= rows for part in log.days for event in part.events)


EVENTS = some.one_of(
    some.tuples(some.sampled_from(["rolled", "done", "done", "dropped"]), some.sampled_from([*PLAN.shots])),
    some.tuples(some.sampled_from(["rigging", "ready", "rolled", "done"]), some.sampled_from([*PLAN.setups])),
    some.tuples(some.just("lost"), some.sampled_from(["fresnel", "cob", "panel", "tube", "sticks", "hall", "mara"])),
    some.tuples(some.sampled_from(["meal", "meal over", "room tone", "waiting", "packing"]), some.just("")),
    some.tuples(some.sampled_from(["mara leaves 17:00", "ines comes 14:00", "olek leaves 15:30"]), some.just("")),
)


@given(some.lists(some.tuples(EVENTS, some.integers(2, 70)), min_size=1, max_size=14))
@settings(max_examples=40)
def test_every_answer_keeps_the_rules(events: list[tuple[tuple[str, str], int]]) -> None:
    at, rows = 8 * 120, []
    for (kind, name), later in events:
        at += later
        announced = any(word in kind for word in ("leaves", "comes"))
        rows.append(f"{kind} {name}" if announced else f"{kind} {name} {clock(at)}")
    log, faults = read_log(PLAN, "day.log", "\n".join(rows).encode(), "1")
    wrong = {fault.line for fault in faults}
    kept = "\n".join(row for number, row in enumerate(rows, 1) if number not in wrong)
    log, faults = read_log(PLAN, "day.log", kept.encode(), "1")
    if faults:  # a line that only made sense after one that was wrong
        return
    found = answer(PLAN, log.of("1"), at)
    gone = {*found.rest.happened.done, *found.rest.happened.dropped, *found.rest.losses.fallen, *found.rest.unshot}
    coming = [shot for item in found.coming for shot, _ in item.shots]
    assert len(coming) == len(set(coming))
    assert not gone & set(coming)
    assert all(a.end <= b.begin for a, b in zip(found.coming, found.coming[1:], strict=False))
    assert all(item.start >= at for item in found.coming)
    assert all(item.latest is None or item.start <= item.latest < FOREVER for item in found.coming)
    if found.choice is not None:
        for option in found.choice.options:
            assert option.saved > 0 or option.regains
            assert not option.change.shots & gone
    assert list(lines(found))
    assert data(found)["day"] == "1"
