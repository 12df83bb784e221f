"""A name is used that nothing in the plan has.

On set: the sheet asks for a lamp that nobody packed, because it is called something else on the list.

How it is decided: every name is looked for in its family (gear, stock, people, sets, setups, marks of the set and so
on); a set may drop its front where it is unique. The nearest name is offered. An agreed order holds setups of its day,
'meal' or the name of a meal, 'room-tone' and 'move'. Source: none needed.

Fix: write the name that is offered, or add the thing to the plan.

When to accept it: add the thing instead, with its kind alone; it costs one line.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "unknown-name"
SEVERITY: Final = "error"
TITLE = "a name means nothing in this plan"

TRIGGERS = """
hotset: 1
gear: {panel: {kind: light}}
setups:
  wide:
    lights:
      key: {lamp: pannel}  # <- here
"""
PASSES = TRIGGERS.replace('pannel}  # <- here', 'panel}')
_WORDS = ("meal", "room-tone", "move")


def check(facts: Facts) -> Iterator[Finding]:
    """The entries of the agreed orders; all other names are looked up when they are read."""
    plan = facts.plan
    for day in plan.days.values():
        for i, name in enumerate(day.order):
            if name in _WORDS or name in day.meals or facts.day_of.get(name) == day.id:
                continue
            if name in plan.setups:
                words = f"the order of day {day.id} names '{name}', which is shot on day {facts.day_of[name]}"
                ways: tuple[str, ...] = (f"take it out of this order, or write 'day: {day.id}' under '{name}'",)
            else:
                from ..plan.parts import why_no_visit
                from ..plan.speech import nearest

                known = [s for s, on in facts.day_of.items() if on == day.id] + [*_WORDS, *day.meals]
                near = nearest(name, known)
                guess = f"; did you mean '{near}'?" if near else ""
                words = f"the order of day {day.id} names '{name}', and there is no such setup or meal{guess}"
                why = why_no_visit(plan, name) if " " in name or plan.parts else ""
                if why:
                    words = f"the order of day {day.id} names '{name}', which is no visit to a setup: {why}"
                ways = ("write the name of a setup, or 'meal' or 'room-tone'",)
                ways = (f"write '{near}'",) if near and not why else ways
            details = (("day", day.id), ("name", name))
            yield finding(plan, (RULE, SEVERITY), f"{day.path}.order.{i}", words, ways, details)
