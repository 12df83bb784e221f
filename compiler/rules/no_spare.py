"""A must hangs on one thing that belongs to somebody else, and the plan knows nothing that would serve instead.

On set: the club rings at noon, the lamp is needed for their own show, and nobody has thought of another.

How it is decided: a thing that is borrowed or rented, of which no piece is to spare, without which the takes of a must
cannot be matched to pieces: no other of the quantity, none of 'any of', no 'plan-b:', and no free thing that does at
least the same by what the plan says (a lens of the focal length and mount, a lamp with the colours and the light, a
stand that carries and reaches as much). One finding a thing. Own things are left out here: `hotset check --weak-points`
lists everything that a must hangs on, people and circuits too. Source: counting.

Fix: say under 'plan-b:' of the thing what would serve, ask for a second one, or make the shot a 'want'.

When to accept it: the lender has promised it in writing, and the film waits if it does not come.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import spare
from ..source.quantities import show
from .words import counted, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.spare import Gap
    from ..findings import Finding

RULE = "no-spare"
SEVERITY: Final = "note"
TITLE = "a must hangs on one lent thing, and nothing would serve instead"

TRIGGERS = """
hotset: 1
gear:
  fresnel: {kind: light, owner: borrowed, lent-by: the drama club}  # <- here
  panel: {kind: light}
setups:
  wide:
    lights:
      key: {lamp: fresnel}
      fill: {lamp: panel}
scenes: {4: {shots: {4A: {setup: wide}}}}
"""
PASSES = TRIGGERS.replace("lent-by: the drama club}  # <- here", "lent-by: the drama club, plan-b: panel}").replace(
    "panel: {kind: light}", "panel: {kind: light, quantity: 2}"
)


def check(facts: Facts) -> Iterator[Finding]:
    lent = [g for g in facts.plan.gear.values() if g.owner in ("borrowed", "rented") and not g.plan_b]
    for gear in lent:
        gaps: dict[str, Gap] = {}
        for setup, shot in facts.takes:
            if shot is not None and (shot.priority or setup.priority or "must") == "must" and not shot.plan_b:
                for gap in spare.gaps(facts, setup, shot, {gear.id: 1}):
                    if not gap.serves:
                        gaps[shot.id] = gap
        if gaps:
            yield _finding(facts, gear.id, gaps)


def _finding(facts: Facts, thing: str, gaps: dict[str, Gap]) -> Finding:
    gear = facts.plan.gear[thing]
    lender = f" by {gear.lent_by}" if gear.lent_by else ""
    due = f", due {show('moment', gear.due)}" if gear.due is not None else ""
    taken = tuple(dict.fromkeys(name for gap in gaps.values() for name in gap.taken))
    busy = f" ({quoted(taken)} would do, but {'is' if len(taken) == 1 else 'are'} taken)" if taken else ""
    first = next(iter(gaps.values()))
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        f"gear.{thing}",
        f"{counted(len(gaps), 'must')} ({quoted(gaps)}) {'hangs' if len(gaps) == 1 else 'hang'} on '{thing}' alone, "
        f"lent{lender}{due}: nothing would serve instead{busy}",
        (
            f"say what would serve under 'plan-b:' of '{thing}'",
            "or ask for a second one, or make the shots a 'want'",
        ),
        (("thing", thing), ("musts", len(gaps)), ("lent_by", gear.lent_by or "")),
        also=[(first.path, f"needed by {first.who} here")],
    )
