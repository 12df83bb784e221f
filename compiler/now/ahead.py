"""What was rolled ahead of what the plan has first: said while the earlier one is still to be shot."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from ..facts.shootday import turns

if TYPE_CHECKING:
    from ..log import Happened
    from ..plan import Plan


def ahead(plan: Plan, happened: Happened) -> Iterator[str]:
    """One line for each shot or setup that rolled although something still to be shot on this day comes before it."""
    rolled = {s.id: s for s in happened.shootings}
    here = plan.setups_on(happened.day)
    said: dict[tuple[str, str], None] = {}
    for first, then in turns(plan, here):
        if first[0] in here and then[0] in here:
            owed = [name for name in _parts(plan, *first) if name not in rolled and name not in happened.dropped]
            begun = [name for name in _parts(plan, *then) if name in rolled]
            said.update(((a, b), None) for a in owed[:1] for b in begun[:1])
    for owing, early in said:
        again = f", or write 'again {early}' and shoot it after" if rolled[early].done else ""
        fits = f"see that '{owing}' can still be shot as it was meant"
        yield f"'{early}' was rolled before '{owing}', which comes first in the plan: {fits}{again}"


def _parts(plan: Plan, setup: str, shot: str) -> tuple[str, ...]:
    """The shots that are meant; a setup without shots is one."""
    return (shot,) if shot else tuple(s.id for s in plan.shots_of(setup)) or (setup,)
