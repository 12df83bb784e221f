"""Somebody in the picture has not released their image.

On set: the film is cut, and the one who played the clerk cannot be reached any more.

How it is decided: whoever plays a character and says 'release: asked' or 'missing', or whose release has run out before
the last dated day, always counts. One of whom nothing is said counts where the release of another is said; where the
plan speaks of no release at all, that is reported as not checked once it names people and a dated day. For a minor the
guardian signs. Source: common practice, no source; the law on images of persons differs by country.

Fix: have the release signed before the first shot, and write 'release: granted'.

When to accept it: the role is played by one of the makers.
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

RULE = "no-release"
SEVERITY: Final = "warning"
TITLE = "somebody in the picture has not released their image"

TRIGGERS = """
hotset: 1
people:
  mara: {plays: CLERK, release: granted}
  ines: {plays: PASSENGER}  # <- here
"""
PASSES = TRIGGERS.replace("PASSENGER}  # <- here", "PASSENGER, release: granted}")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cast = [p for p in plan.people.values() if p.plays]
    last = max((d.date for d in plan.days.values() if d.date is not None), default=None)
    if not any(p.release is not None or written(plan, f"{p.path}.release") for p in cast):
        if cast and papers.is_due(plan):
            yield NotChecked(RULE, "who is in the picture", "'release:' of those who play")
        return
    for person in cast:
        path = f"{person.path}.release"
        if person.release is not None:
            wrong = papers.fault(person.release, last)
            words = f"the release of '{person.id}', who plays {person.plays[0]}, {wrong}"
        else:
            wrong = "" if written(plan, path) else "unsaid"
            words = f"the plan says nothing of a release of '{person.id}', who plays {person.plays[0]}"
        if wrong:
            signs = f"; '{person.guardian}' signs for a minor" if person.minor and person.guardian else ""
            yield finding(
                plan,
                (RULE, SEVERITY),
                path,
                words,
                (f"have it signed before the first shot and write 'release: granted'{signs}",),
                (("person", person.id), ("state", person.release.state or "" if person.release else "")),
            )
