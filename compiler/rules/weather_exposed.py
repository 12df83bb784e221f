"""A day shoots outdoors, and the plan does not say what is done when the weather turns.

On set: it rains, and everybody looks at the one who planned the day.

How it is decided: a dated day with a setup in a set that is 'outdoors: yes', without 'weather:'. Lamps on the mains
outdoors are named, since water and current do not go together. Source: common practice, no source.

Fix: write under the day's 'weather:' what is shot instead, or until when it is waited.

When to accept it: the forecast decides on the morning, and the day can be moved.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from .words import finding, quoted, written

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "weather-exposed"
SEVERITY: Final = "warning"
TITLE = "nothing is planned for bad weather"

TRIGGERS = """
hotset: 1
days:
  1: {date: 2026-11-14}  # <- here
locations: {landing: {sets: {quay: {outdoors: yes}}}}
setups: {quay-wide: {set: quay}}
"""
PASSES = TRIGGERS.replace("2026-11-14}  # <- here", "2026-11-14, weather: the office scenes first}")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    for day in plan.days.values():
        if day.date is None or day.weather or written(plan, f"{day.path}.weather"):
            continue
        outside = [
            s
            for s in plan.setups.values()
            if facts.day_of[s.id] == day.id and s.set and (room := plan.sets.get(s.set)) and room.outdoors
        ]
        mains = [x.id for s in outside for x in s.lights.values() if x.circuit is not None]
        if outside:
            wet = f", with {quoted(mains)} on the mains" if mains else ""
            ways = ["write under 'weather:' of the day what is shot instead, or until when it is waited"]
            if mains:
                ways.append("keep lamps and plugs dry and behind a residual-current device; local codes decide")
            yield finding(
                plan,
                (RULE, SEVERITY),
                day.path,
                f"day {day.id} shoots {quoted(s.id for s in outside)} outdoors{wet}, and the plan does not say what is "
                "done when the weather turns",
                tuple(ways),
                (("day", day.id), ("setups", len(outside)), ("on_mains", len(mains))),
                also=[(s.path, "outdoors") for s in outside[:6]],
            )
