"""A minor is in the picture, and the plan says nothing of the hours the law allows, or of who looks after them.

On set: the child is tired, it is nine in the evening, and nobody knows whether this is still allowed.

How it is decided: whoever is 'minor: yes' (or whose 'age:' is below 18) and is in a setup needs 'here:' (the hours that
the licence or the law allows on that day) and a 'guardian:' of the plan. The hours themselves are held against the
order by the rule about the hours of the cast. Source: local law alone says how long minors may work; it differs by
country and age.

Fix: ask the authority, write the hours under 'here:' and who looks after them under 'guardian:'.

When to accept it: never; without both, a minor does not work.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import hands
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "minor-hours"
SEVERITY: Final = "warning"
TITLE = "a minor without hours or a guardian"

TRIGGERS = """
hotset: 1
people:
  ida: {plays: GIRL, minor: yes, guardian: ute}  # <- here
  ute: {works: care}
setups: {wide: {cast: [ida]}}
"""
PASSES = TRIGGERS.replace("guardian: ute}  # <- here", "guardian: ute, here: 10:00-14:00}")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    in_front = dict.fromkeys(
        who for setup, shot in facts.takes for _, who in hands.cast(plan, setup, shot, facts.players)
    )
    for who in in_front:
        person = plan.people.get(who)
        if person is None or not (person.minor or (person.age is not None and person.age < 18)):
            continue
        hours = person.here is not None or any(day.here is not None for day in person.days.values())
        lacks = [words for known, words in ((hours, "hours"), (person.guardian, "guardian")) if not known]
        if lacks:
            yield finding(
                plan,
                (RULE, SEVERITY),
                person.path,
                f"'{who}' is a minor and in the picture, and the plan names no {' and no '.join(lacks)}",
                (
                    *(("write the hours that local law allows on that day under 'here:'",) if not hours else ()),
                    *(("write who looks after them under 'guardian:'",) if not person.guardian else ()),
                ),
                (("person", who), ("lacks", ", ".join(lacks))),
            )
