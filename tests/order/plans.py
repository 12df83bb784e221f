"""Small invented plans as text, and the way from text to a day in order."""

from __future__ import annotations

from hotset.order import DayOrder, plan_day
from hotset.plan import Plan, decode
from hotset.source import read

HEAD = """
hotset: 1
title: Invented
days: {1: {date: 2026-11-14, call: "08:00", wrap: "20:00", load-in: 30 min, wrap-out: 30 min}}
locations:
  house:
    at: "55.01 N, 1.44 W"
    zone: Europe/London
    sets:
      hall: {size: 5 m x 4 m x 2.5 m, windows: {bay: {wall: east, from: 1 m, sill: 1 m, width: 1 m, height: 1 m}}}
      loft: {size: 5 m x 4 m x 2.5 m}
people:
  olek: {skills: [rig]}
  mara: {plays: CLERK}
gear:
  lamp: {kind: light, draws: 100 W}
  pair: {kind: light, quantity: 2}
stock: {cloth: {opaque: true, roll: 3 m x 12 m}}
scenes: {}
"""


def plan_of(text: str) -> Plan:
    """The plan of a text."""
    plan, faults = decode(read(["-"], stdin_text=text.encode()))
    assert plan is not None
    assert [f.sentence for f in faults if f.severity == "error"] == []
    return plan


def ordered(text: str, day: str = "1", limit: int = 60_000) -> DayOrder:
    """A day of a text put in order."""
    return plan_day(plan_of(text), day, limit)


def setups(*lines: str) -> str:
    """The common head with these setups, one a line."""
    return HEAD + "setups:\n" + "".join(f"  {line}\n" for line in lines)
