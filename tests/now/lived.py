"""Logs as perfect crews would write them: every event of an agreed day, at its minute."""

from __future__ import annotations

from pathlib import Path

from hotset.facts.changeover import minutes
from hotset.facts.timeline import Timeline, timeline
from hotset.log import DayLog, read_log
from hotset.now import Answer, answer
from hotset.now.left import parts
from hotset.plan import Plan, decode
from hotset.source import read

EXAMPLES = Path(__file__).parents[2] / "examples"


def example(name: str) -> Plan:
    """The plan of an example."""
    plan, _ = decode(read([str(EXAMPLES / name / "plan.yaml")]))
    assert plan is not None
    return plan


def plan_of(text: str) -> Plan:
    """The plan of a text without faults."""
    plan, faults = decode(read(["-"], stdin_text=text.encode()))
    assert plan is not None
    assert [f.sentence for f in faults if f.severity == "error"] == []
    return plan


def log_of(plan: Plan, text: str, day: str = "1") -> DayLog:
    """The log of a text without faults."""
    log, faults = read_log(plan, "day.log", text.encode(), day)
    assert faults == ()
    return log.of(day)


def ask(plan: Plan, text: str, at: str, day: str = "1") -> Answer:
    """What is said at a time ("14:10") after the lines of a log."""
    hours, minutes = at.split(":")
    return answer(plan, log_of(plan, text, day), int(hours) * 120 + int(minutes) * 2)


def agreed(plan: Plan, day: str = "1") -> Timeline:
    """The agreed day minute by minute."""
    line = timeline(plan, day)
    assert line is not None
    return line


def perfect(plan: Plan, at: int, day: str = "1", late: int = 0) -> str:
    """The log of an agreed day up to a time, everything at its minute or `late` half-minutes after it."""
    lines = [f"day {day}"]
    for step in agreed(plan, day).steps:
        start, end = step.start + late, step.end + late
        if step.kind == "setup":
            for shot, takes in parts(plan, step.setup, minutes(plan)).items():
                lines += [f"rolled {shot} {clock(start)}"] if start <= at else []
                start += takes
                lines += [f"done {shot} {clock(start)}"] if start <= at else []
        elif step.kind == "meal" and start <= at:
            lines.append(f"meal {clock(start)}")
            lines += [f"meal over {clock(end)}"] if end <= at else []
        elif step.kind == "room-tone" and start <= at:
            lines.append(f"room tone {clock(start)}")
        elif step.kind == "prepare" and start <= at:
            lines.append(f"rigging {step.setup} {clock(start)}")
    return "\n".join(lines) + "\n"


def clock(half_minutes: int) -> str:
    """As a log writes it, in full minutes."""
    half_minutes = (half_minutes + half_minutes % 2) % 2880
    return f"{half_minutes // 120:02d}:{half_minutes % 120 // 2:02d}"
