"""It is not written whom to call when somebody is hurt.

On set: the ambulance has left, and nobody knows the number of the one at home.

How it is decided: a minor without 'emergency:' and without a guardian always counts. Anybody else counts where the plan
says 'emergency:' for another; where it says it for nobody, that is reported as not checked once the plan names people
and a dated day. Source: common practice, no source.

Fix: ask everybody, and write name and number under 'emergency:'. It is printed only on the sheet of those who need it.

When to accept it: somebody does not want to say; write 'emergency: not given' instead.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from . import papers
from .words import finding, written

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "no-emergency-contact"
SEVERITY: Final = "warning"
TITLE = "it is not written whom to call for somebody"

TRIGGERS = """
hotset: 1
people:
  mara: {plays: CLERK, emergency: Ute 0555 010 111}
  ines: {works: sound}  # <- here
"""
PASSES = TRIGGERS.replace("sound}  # <- here", "sound, emergency: Jo 0555 010 222}")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    people = list(plan.people.values())
    begun = any(p.emergency or written(plan, f"{p.path}.emergency") for p in people)
    if people and not begun and papers.is_due(plan):
        yield NotChecked(RULE, "whom to call", "'emergency:' of the people")
    for person in people:
        minor = bool(person.minor) and person.guardian is None
        if person.emergency or written(plan, f"{person.path}.emergency") or not (begun or minor):
            continue
        yield finding(
            plan,
            (RULE, SEVERITY),
            person.path,
            f"it is not written whom to call for '{person.id}'{', a minor' if person.minor else ''}",
            ("write a name and a number under 'emergency:'",),
            (("person", person.id), ("minor", int(bool(person.minor)))),
        )
