"""What is recorded and where it goes: gigabytes of each setup, cards filling along the day, copies.

A card is in the camera, then shot, then in the reader until it is copied and verified, then free again. All copies of
a card are written at once; reading them back to verify takes as long again. Volumes are GB of 10^9 byte.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..science import data

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..plan import Plan
    from ..plan.gear import Gear
    from ..plan.setup import Setup
    from . import Facts

MOST_TAKES = 200  # takes of one shot that are counted one by one
USABLE = 0.9  # part of a card's printed volume that is filled; common practice, no source


class Recording(NamedTuple):
    """What a shot records: gigabytes in all, in how many takes, at which rate, on which media."""

    shot: str
    path: str
    gigabytes: float
    takes: int
    megabits: float
    media: tuple[str, ...]


class Copy(NamedTuple):
    """A card in the reader: its number from 1, from when to when (half-minutes), gigabytes."""

    card: int
    start: float
    end: float
    gigabytes: float


class Filling(NamedTuple):
    """A day's recordings on a set of cards: where and when no card was free (setup, shot, half-minutes), the copies
    made, and when the last of them is verified (None where nothing is copied)."""

    full: tuple[str, str, float] | None
    copies: tuple[Copy, ...]
    done: float | None
    gigabytes: float


def volume(thing: Gear) -> float | None:
    """What a card or drive holds, in GB."""
    from ..source.quantities import QuantityError, parse

    if not thing.holds:
        return None
    try:
        return float(parse("data-volume", thing.holds))
    except QuantityError:
        return None


def rate(plan: Plan, setup: Setup) -> float | None:
    """Mbit/s of the setup's codec."""
    camera = setup.camera
    body = plan.gear.get(camera.body) if camera and camera.body else None
    found = body.codecs.get(camera.codec) if camera and camera.codec and body else None
    return float(found) if found is not None else None


def media(plan: Plan, setup: Setup) -> tuple[str, ...]:
    """What a setup records on: what it names, else every card of the plan."""
    named = setup.camera.media if setup.camera else ()
    return named or tuple(g.id for g in plan.gear.values() if g.kind == "media")


def of_setup(facts: Facts, setup: Setup) -> tuple[Recording, ...]:
    """What a setup's shots record, as far as the plan says it."""
    megabits = rate(facts.plan, setup)
    if megabits is None:
        return ()
    return tuple(
        Recording(
            shot.id,
            shot.path,
            data.gigabytes(megabits, float(shot.rolls) / 60.0),
            min(max(shot.count or 1, 1), MOST_TAKES),
            megabits,
            media(facts.plan, setup),
        )
        for shot in facts.shots_of.get(setup.id, ())
        if shot.rolls is not None
    )


def missing(facts: Facts, setup: Setup) -> str:
    """The detail without which a setup's volume is not known; "" where nothing lacks or nothing is shot."""
    shots = facts.shots_of.get(setup.id, ())
    if not shots or setup.camera is None or setup.camera.body is None:
        return ""
    if rate(facts.plan, setup) is None:
        return f"'codec:' of the camera, with its rate under 'codecs:' of '{setup.camera.body}'"
    lacks = [shot.id for shot in shots if shot.rolls is None]
    return f"'rolls:' of shot '{lacks[0]}'" if lacks else ""


def cards(plan: Plan, names: Iterable[str]) -> tuple[float, ...] | None:
    """Usable GB of every card of these media; None where one does not say what it holds."""
    found: list[float] = []
    for name in names:
        thing = plan.gear.get(name)
        holds = volume(thing) if thing is not None else None
        if thing is None or holds is None:
            return None
        found += [holds * USABLE] * min(1 if thing.quantity is None else thing.quantity, 1000)
    return tuple(found)


def copies_wanted(plan: Plan) -> int | None:
    """How many copies the plan asks for."""
    return plan.film.post.copies if plan.film.post else None


def drives(plan: Plan) -> list[tuple[Gear, int]]:
    """What copies are written on, with how many of each."""
    return [(g, 1 if g.quantity is None else g.quantity) for g in plan.gear.values() if g.kind == "drive"]


def copying(plan: Plan, names: Iterable[str]) -> tuple[float | None, str]:
    """(MB/s of the slowest of card, reader and drive, or the detail that is wanting). (None, "") without drives."""
    on = drives(plan)
    if not on:
        return None, ""
    speeds: list[float] = []
    slow = min((float(g.writes) for g, _ in on if g.writes is not None), default=None)
    if slow is None:
        return None, f"'writes:' of '{on[0][0].id}'"
    read: list[float] = []
    for name in names:
        thing = plan.gear.get(name)
        if thing is not None and thing.reads is not None:
            read.append(float(thing.reads))
    readers = [float(g.reads) for g in plan.gear.values() if g.kind == "reader" and g.reads is not None]
    if not read and not readers:
        return None, "'reads:' of the card or the reader"
    speeds = [slow, *read, *([max(readers)] if readers else [])]
    if min(speeds) <= 0:
        return None, "a speed of card, reader and drive above nought"
    return min(speeds), ""


def fill(
    row: Iterable[tuple[str, float, float, tuple[Recording, ...]]], sizes: tuple[float, ...], speed: float | None
) -> Filling:
    """Fill cards along a day. `row` holds setup, from and to in half-minutes, and what it records; `speed` the MB/s of
    copying, or None where cards stay as they are.

    Shots of a setup are spread evenly over its time; a take is never split; a card is changed when the next take does
    not fit; it goes to the reader as soon as the reader is free, and the last one after the last cut.
    """
    free = [-1.0] * len(sizes)  # from when each card is empty
    card, used, total, last = -1, 0.0, 0.0, 0.0
    reader = 0.0
    made: list[Copy] = []

    def copy(number: int, volume_: float, now: float) -> None:
        nonlocal reader
        if speed is None:
            free[number] = float("inf")
            return
        start = max(now, reader)
        reader = start + data.copy_minutes(volume_, speed) * 2.0
        free[number] = reader
        made.append(Copy(number + 1, start, reader, volume_))

    for setup, start, end, recorded in row:
        takes = [(r.shot, r.gigabytes / r.takes) for r in recorded for _ in range(r.takes)]
        for i, (shot, gigabytes) in enumerate(takes):
            now = start + (end - start) * i / len(takes)
            if card < 0 or used + gigabytes > sizes[card] + 1e-9:
                if card >= 0:
                    copy(card, used, now)
                card = next((n for n, since in enumerate(free) if since <= now and sizes[n] >= gigabytes - 1e-9), -1)
                if card < 0:
                    return Filling((setup, shot, now), tuple(made), reader if made else None, total)
                used = 0.0
            used += gigabytes
            total += gigabytes
            last = end
    if card >= 0 and used > 0:
        copy(card, used, last)
    return Filling(None, tuple(made), reader if made else None, total)
