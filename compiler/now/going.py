"""What goes on at a time: what is rolling or being rigged, how much of it is left, and when the crew is free.

Where the log is silent since the last take, the crew is taken to be preparing what the agreed order says next: that is
said aloud, and one line (`rigging ...`) tells otherwise.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.numbers import FOREVER
from ..log import stand
from ..record import record, replace

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ..facts.shootday import ShootDay
    from ..log import Happened
    from .left import Part


@record
class Going:
    """`kind` is "", rolled, rigging or ready, of `setup` (and `shot`) since `since`, with `left` half-minutes to go;
    `implied` where the agreed order says so and not the log; `start` when the crew is free for what follows; `fed` the
    end of the last meal (None: since the call); `standing` where everything is; `pause` what `start` waits for;
    `toned` the rooms whose tone is recorded; `over` that what is rolling has taken longer than planned."""

    kind: str
    setup: str
    shot: str
    since: int
    left: int
    implied: bool
    start: int
    fed: int | None
    standing: stand.Standing
    pause: str
    toned: tuple[int, ...]
    over: bool = False


def going(
    day: ShootDay, happened: Happened, parts: Mapping[str, tuple[Part, ...]], agreed: tuple[str, ...], at: int
) -> Going:
    """What goes on in a day at a time; `agreed` is what is left of the agreed order."""
    call = happened.call if happened.call is not None else day.call
    free, pause = _free(day, happened, call, at)
    kind, setup, shot = happened.now.kind, happened.now.setup, happened.now.shot
    toned = tuple(day.day.setups[day.index(s)].room for s in happened.tones if s in day.setups)
    fed = _fed(day, happened, call, at)
    visits = happened.visits
    if kind == "rolled":
        mine = parts.get(setup, ())
        part = next((p for p in mine if p.id in (shot, setup)), mine[0] if mine and not shot else None)
        shot = part.id if part is not None and part.id != setup else shot
        left = part.left if part is not None else 0
        since = happened.now.since if happened.now.since is not None else at
        standing = stand.after(day, visits)
        over = part is not None and at - since >= part.planned
        return Going(kind, setup, shot, since, left, False, at + left, fed, standing, "", toned, over)
    if kind in ("rigging", "ready") and setup in parts:
        since = max(happened.now.since if happened.now.since is not None else free, call + day.load_in)
        return _rigging(day, (kind, setup, False), visits[:-1], (since, at, at), fed, toned)
    if not parts and not agreed:
        return Going("", "", "", free, 0, False, max(free, at - day.day.pack), fed, stand.after(day, visits), "", toned)
    begins = max(free, call + day.load_in) if happened.last is None else free
    following = agreed[0] if agreed else ""
    if kind in ("", "waiting", "tone", "meal") and visits and visits[-1] in parts:
        in_hand = _rigging(day, ("ready", visits[-1], True), visits[:-1], (begins, at, max(at, begins)), fed, toned)
        return replace(in_hand, pause=pause)
    if following in parts and begins < at and kind != "packing":
        return _rigging(day, ("rigging", following, True), visits, (begins, at, at), fed, toned)
    return Going("", "", "", begins, 0, False, max(at, begins), fed, stand.after(day, visits), pause, toned)


def _rigging(
    day: ShootDay, what: tuple[str, str, bool], visits: tuple[str, ...], clock: tuple[int, int, int],
    fed: int | None, toned: tuple[int, ...],
) -> Going:  # fmt: skip
    """A changeover that was begun: what is left of it by the plan's minutes; nothing where it is ready."""
    kind, setup, implied = what
    since, at, start = clock
    leg = stand.rigging(day, visits, setup, since)
    whole = leg.rig + (leg.travel if implied else 0)  # who writes that it is being rigged is there already
    left = 0 if kind == "ready" else max(0, whole - max(0, at - since))
    standing = stand.after(day, (*visits, setup))
    return Going(kind, setup, "", since, left, implied, max(start, since), fed, standing, "", toned)


def _free(day: ShootDay, happened: Happened, call: int, at: int) -> tuple[int, str]:
    """(since when, or from when, the crew is free for the next setup, what keeps it until then)."""
    now, last = happened.now, happened.last
    if last is None:
        return call + day.load_in, "load-in" if at < call + day.load_in else ""
    if now.kind == "meal":
        length = day.day.meals[min(len(happened.meals), len(day.day.meals)) - 1].length
        return last + length, "meal" if at < last + length else ""
    if now.kind == "tone":
        return last + day.day.tone, "room tone" if at < last + day.day.tone else ""
    if not happened.visits and not happened.meals:
        return max(last, call + day.load_in), "load-in" if at < call + day.load_in else ""
    return last, ""


def _fed(day: ShootDay, happened: Happened, call: int, at: int) -> int | None:
    """When everybody has last eaten; the call where nobody has yet."""
    if not happened.meals:
        return call if day.day.gap < FOREVER else None
    begun, ended = happened.meals[-1]
    length = day.day.meals[min(len(happened.meals), len(day.day.meals)) - 1].length
    return ended if ended is not None else max(begun + length, at if happened.now.kind == "meal" else 0)
