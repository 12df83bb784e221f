"""A setup stands twice in the agreed order, and nobody can tell which of its shots are meant when.

On set: the second time it comes up, half the crew think it is shot, and the other half start to rig.

How it is decided: a setup, or a visit to one, is named once in an agreed order. Where the shots of a setup are taken at
different times ('splits: yes'), each time is named by the setup and its shots: 'hall-wide 1A'. Source: counting.

Fix: take one of the two out; or say 'splits: yes' under the setup and name the shots of each time.

When to accept it: never; only the first of the two counts.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "twice-in-order"
SEVERITY: Final = "error"
TITLE = "a setup stands twice in an agreed order"

TRIGGERS = """
hotset: 1
days:
  1:
    call: 08:00
    order: [wide, close, wide]  # <- here
setups: {wide: {splits: yes}, close: {takes: 10 min}}
scenes:
  1:
    shots:
      1A: {setup: wide, takes: 10 min}
      1B: {setup: close, after: 1A}
      1C: {setup: wide, takes: 10 min, after: 1B}
"""
PASSES = TRIGGERS.replace("[wide, close, wide]  # <- here", "[wide 1A, close, wide 1C]")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    for day in plan.days.values():
        for i, name in enumerate(day.order):
            if name not in plan.setups or name not in day.order[:i]:
                continue
            shots = plan.shots_of(name)
            ways: tuple[str, ...] = ("take one of the two out",)
            if len(shots) > 1 and name not in plan.parts:
                said = "" if plan.setups[name].splits else f"write 'splits: yes' under '{name}' and "
                way = f"name the shots of each time, as in '{name} {shots[0].id}' (`hotset order --write` does it)"
                ways = (f"{said}{way}", *ways)
            yield finding(
                plan,
                (RULE, SEVERITY),
                f"{day.path}.order.{i}",
                f"the order of day {day.id} has '{name}' twice, and only the first counts",
                ways,
                (("day", day.id), ("setup", name)),
            )
