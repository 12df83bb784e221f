"""Music or another work is used, and its rights are not cleared.

On set: the song is sung on camera; later nobody may show the film.

How it is decided: an entry under a scene's 'rights:' whose state is 'asked' or 'missing', that says none, or whose
'until:' lies before the last dated day. Source: common practice, no source; the law decides what needs a permission.

Fix: have it in writing before the day, or take something that is free.

When to accept it: it can be taken out in the cut.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from . import papers
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "rights-open"
SEVERITY: Final = "warning"
TITLE = "the rights of a work are open"

TRIGGERS = """
hotset: 1
setups: {wide: {}}
scenes:
  4:
    rights:
      ferry-song: asked  # <- here
    shots: {4A: {setup: wide}}
"""
PASSES = TRIGGERS.replace("asked  # <- here", "granted")


def check(facts: Facts) -> Iterator[Finding]:
    plan = facts.plan
    last = max((d.date for d in plan.days.values() if d.date is not None), default=None)
    for scene in plan.scenes.values():
        for name, paper in scene.rights.items():
            wrong = papers.fault(paper, last) or ("" if paper.state else "is not said to be cleared")
            if wrong:
                yield finding(
                    plan,
                    (RULE, SEVERITY),
                    f"{scene.path}.rights.{name}",
                    f"the right to use '{name}' in scene '{scene.id}' {wrong}",
                    ("have it in writing before the day and write 'granted'", "or take something that is free"),
                    (("scene", scene.id), ("work", name), ("state", paper.state or "")),
                )
