"""By when each setup must roll so that all that follows still fits: the agreed day reckoned backwards from its end."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record
from .numbers import FOREVER, meet
from .sky import DAY

if TYPE_CHECKING:
    from collections.abc import Sequence

    from .shootday import ShootDay
    from .timeline import Step


@record
class RollBy:
    """The latest start of a setup's takes, in half-minutes of its day, and what binds it: its own windows in the
    words of the facts (`own`), `for 'setup'` for the windows of a later one, `for meal`, or `out by 19:30`."""

    latest: int
    why: str
    own: bool = False


def roll_by(numbers: ShootDay, steps: Sequence[Step], wrap: int | None) -> dict[str, RollBy]:
    """For every setup of the steps whose takes anything binds. Work keeps its length, waits give way, and nothing is
    brought forward; the buffer counts as time there is. `wrap` is when everybody must be out, None where nobody says.
    """
    day = numbers.day
    meals = sum(1 for step in steps if step.kind == "meal")
    due, why = (FOREVER, "") if wrap is None else (wrap, f"out by {wrap % DAY // 120:02d}:{wrap % 120 // 2:02d}")
    found: dict[str, RollBy] = {}
    for step in reversed(steps):
        if step.kind == "wait":
            continue
        latest = due - (step.end - step.start) if due < FOREVER else FOREVER
        if step.kind == "meal":
            meals -= 1
            closes = day.meals[meals].latest if meals < len(day.meals) else FOREVER
            if meals == 0 and day.gap < FOREVER and day.fed is not None:
                closes = min(closes, day.fed + day.gap)
            if step.start <= closes < latest:
                latest, why = closes, "for meal"
        elif step.kind == "setup" and step.setup:
            own, words = _own(numbers, step)
            if own is not None and own <= latest:
                latest, why = own, f"for '{step.setup}'"
                found[step.setup] = RollBy(latest, words, own=True)
            elif step.start <= latest < FOREVER:
                found[step.setup] = RollBy(latest, why)
        due = latest
    return found


def _own(numbers: ShootDay, step: Step) -> tuple[int | None, str]:
    """The last minute at which the takes can begin and still end inside their windows, and which those are."""
    windows = numbers.day.setups[numbers.index(step.setup)].windows
    open_until = [hi for lo, hi in meet(windows) if lo <= step.start and step.end <= hi < FOREVER]
    if not open_until:
        return None, ""
    binding = [w.why for w in windows if any(hi == max(open_until) for _lo, hi in w.spans)]
    return max(open_until) - (step.end - step.start), "; ".join(dict.fromkeys(binding))
