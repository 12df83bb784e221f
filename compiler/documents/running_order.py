"""Running order: the day from call to wrap for whoever runs it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from markupsafe import Markup

from ..record import record, replace
from .csvtext import csv_text
from .desk import Desk
from .drawings.from_day import day_line
from .marking import once
from .say import join
from .shoot import DayLine, Slot
from .view import Mark, Pair, Said, Sheet
from .window_words import reasons, sky_words

GRAINS = {
    "load-in": "move", "rig": "rig", "shoot": "shoot", "meal": "meal", "room-tone": "shoot", "move": "move",
    "wrap-out": "move", "spare": "spare",
}  # fmt: skip

CLOSE = 120  # half-minutes of slack under which the reason for the latest start stands at it


@record
class ShotLine:
    """A shot in a row of the day."""

    number: str
    words: str
    aside: str


@record
class Row:
    """A stretch of the day."""

    when: str
    grain: str
    what: str
    cast: str
    where: str
    id: str
    shots: tuple[ShotLine, ...]
    lines: tuple[Said, ...]
    marks: tuple[Mark, ...]
    estimate: Said
    latest: str


@record
class RunningOrder:
    """The sheet: what comes first, every row, what the textures mean, what a latest start counts with, and in `why` why
    there are no times."""

    first_when: str
    first_what: str
    first_where: str
    why: str
    latest: str
    drawing: Markup
    rows: tuple[Row, ...]
    legend: tuple[Pair, ...]
    drops: tuple[Pair, ...]
    marks: tuple[Mark, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each day."""
    _ = desk.words
    for line in desk.shoot.days:
        head = desk.head(_("Running order"), line)
        yield Sheet(
            "running-order", f"{desk.folder(line)}/running-order", head, partial(view, desk, line), line.day.id,
            csv=partial(table, desk, line),
        )  # fmt: skip


def view(desk: Desk, line: DayLine) -> RunningOrder:
    """The day in rows: with times where a timeline could be made, in the order of setups where not."""
    _ = desk.words
    rows = tuple(_row(desk, line, slot) for slot in line.slots)
    timed = {slot.setup for slot in line.slots}
    rows += tuple(_untimed(desk, setup, n) for n, setup in enumerate(line.setups, 1) if setup not in timed)
    own = desk.marking.at(line.day.path, f"{line.day.path}.order", f"{line.day.path}.wrap")
    seen: set[Mark] = set(own)
    rows = tuple(replace(row, marks=once(row.marks, seen)) for row in rows)
    first = rows[0] if rows else None
    used = {row.grain for row in rows}
    legend = (
        Pair("shoot", _("shooting")), Pair("rig", _("rigging and changing over")),
        Pair("move", _("moving, loading, packing")), Pair("meal", _("meal")), Pair("spare", _("waiting")),
    )  # fmt: skip
    return RunningOrder(
        first_when=first.when if first and line.slots else desk.say.clock(line.day.call),
        first_what=first.what if first else _("Nothing planned yet"),
        first_where=first.where if first and first.where else desk.say.location(line.day.location),
        why=line.why,
        latest=_latest_words(desk, line) if any(row.latest for row in rows) else "",
        drawing=Markup(day_line(desk.shoot.plan, line, _).svg),
        rows=rows,
        legend=tuple(pair for pair in legend if pair.name in used),
        drops=tuple(_drops(desk, line)),
        marks=own,
    )


def _latest_words(desk: Desk, line: DayLine) -> str:
    """What a latest start means, and that the buffer is spent by then."""
    _ = desk.words
    if line.day.buffer:
        buffer = desk.say.value("duration", line.day.buffer)
        return _("Roll by: the last minute with which all that follows still fits, with the {time} of buffer spent.",
                 time=buffer)  # fmt: skip
    return _("Roll by: the last minute with which all that follows still fits; no buffer is kept.")


def table(desk: Desk, line: DayLine) -> str:
    """The day as a table: one row a stretch, with an empty column for what it really took."""
    _ = desk.words
    head = [_("from"), _("until"), _("what"), _("where"), _("shots"), _("cast"), _("estimate"), _("roll by"),
            _("actual")]  # fmt: skip
    rows = []
    for slot in line.slots:
        row = _row(desk, line, slot)
        rows.append([row.when, desk.say.clock(slot.end), row.what, row.where, ", ".join(slot.shots), row.cast,
                     row.estimate.words, desk.say.clock(slot.latest), ""])  # fmt: skip
    if not rows:
        for n, setup in enumerate(line.setups, 1):
            row = _untimed(desk, setup, n)
            shots = ", ".join(shot.number for shot in row.shots)
            rows.append(["", "", row.what, row.where, shots, row.cast, row.estimate.words, "", ""])
    return csv_text(head, rows)


def _row(desk: Desk, line: DayLine, slot: Slot) -> Row:
    _ = desk.words
    say = desk.say
    needs = join(" · ", _windows(desk, slot))
    lines = [Said(text) for text in (needs, *_people(desk, line, slot)) if text]
    return Row(
        when=say.clock(slot.start),
        grain=GRAINS[slot.kind],
        what=_what(desk, line, slot),
        cast=_cast(desk, slot.shots),
        where=say.place_of(slot.setup) if slot.setup else say.location(line.day.location),
        latest=_("by {time}", time=say.clock(slot.latest)) if slot.latest is not None else "",
        id=slot.setup if slot.kind == "rig" or not line.of_setup(slot.setup, "rig") else "",
        shots=tuple(_shot(desk, shot) for shot in slot.shots),
        lines=tuple(lines),
        marks=_marks(desk, line, slot),
        estimate=Said(say.minutes(slot.end - slot.start), slot.typical),
    )


def _untimed(desk: Desk, setup: str, place: int) -> Row:
    """A setup without a time, by its place in the order."""
    plan = desk.shoot.plan
    shots = tuple(shot.id for shot in plan.shots_of(setup))
    slot = Slot("shoot", 0, 0, setup, shots)
    takes = plan.setups[setup].takes
    minutes = sum(shot.takes or 0.0 for shot in plan.shots_of(setup)) or takes
    return Row(
        when=str(place), grain="none", what=desk.say.setup(setup), cast=_cast(desk, shots),
        where=desk.say.place_of(setup), id=setup,
        shots=tuple(_shot(desk, shot) for shot in shots),
        lines=tuple(Said(text) for text in (join(" · ", _windows(desk, slot)),) if text),
        marks=desk.marking.at(plan.setups[setup].path, *(plan.shots[s].path for s in shots)),
        estimate=Said(desk.say.value("duration", minutes) if minutes else ""), latest="",
    )  # fmt: skip


def _what(desk: Desk, line: DayLine, slot: Slot) -> str:
    _ = desk.words
    name = desk.say.setup(slot.setup) if slot.setup else ""
    if slot.kind == "rig":
        first = slot.setup == next((s.setup for s in line.slots if s.kind == "rig"), "")
        return _("Rig: {setup}", setup=name) if first else _("Change to: {setup}", setup=name)
    if slot.kind == "shoot":
        return _("Shoot: {setup}", setup=name)
    plain_words = {
        "load-in": _("Call and load-in"), "meal": _("Meal"), "room-tone": _("Room tone, everybody quiet"),
        "move": _("Move"), "wrap-out": _("Pack and put the place back"), "spare": _("Wait"),
    }  # fmt: skip
    where = slot.words
    if slot.kind == "move" and slot.setup:
        where = desk.say.set(desk.shoot.plan.setups[slot.setup].set)
    elif slot.kind == "spare":
        where = _("for {reason}", reason=reasons(desk.say, slot.setup, slot.words)) if slot.words else ""
    return join(": ", (plain_words[slot.kind], where))


def _shot(desk: Desk, number: str) -> ShotLine:
    shot = desk.shoot.plan.shots[number]
    takes = desk.say.value("duration", shot.takes) if shot.takes else ""
    return ShotLine(number, desk.shot_words(shot), join(" · ", (takes, desk.priority(shot.priority))))


def _cast(desk: Desk, shots: tuple[str, ...]) -> str:
    """Who is needed in front of the camera."""
    roles = join(", ", dict.fromkeys(desk.cast_words(desk.shoot.plan.shots[shot]) for shot in shots))
    return ", ".join(dict.fromkeys(roles.split(", "))) if roles else ""


def _windows(desk: Desk, slot: Slot) -> Iterator[str]:
    """What the hour must be for: sky, sun, hours, and the latest time to begin."""
    _ = desk.words
    if slot.kind == "shoot" and slot.setup:
        setup = desk.shoot.plan.setups[slot.setup]
        if setup.needs and setup.needs != "any":
            yield _("needs {sky}", sky=sky_words(desk.say, setup.needs, slot.setup))
        if setup.between:
            yield _("only {hours}", hours=desk.say.value("clock-range", setup.between))
        if setup.held_until:
            yield _("HOT until {setup}: nobody takes anything from it", setup=desk.say.setup(setup.held_until))
        if slot.missed:
            yield _("NOT INSIDE ITS HOURS")
        if slot.own and slot.latest is not None and slot.latest - slot.start < CLOSE:
            spare = desk.say.minutes(slot.latest - slot.start)
            yield _("only {time} to spare: {why}", time=spare, why=reasons(desk.say, slot.setup, slot.words))


def _people(desk: Desk, line: DayLine, slot: Slot) -> Iterator[str]:
    """Who is free to go after this stretch."""
    if slot.kind != "shoot":
        return
    _ = desk.words
    later = {p for s in line.slots if s.start > slot.start and s.kind == "shoot" for p in desk.cast_of_slot(s.shots)}
    free = [desk.say.person(p) for p in desk.cast_of_slot(slot.shots) if p not in later]
    if free:
        yield _("released afterwards: {people}", people=", ".join(free))


def _marks(desk: Desk, line: DayLine, slot: Slot) -> tuple[Mark, ...]:
    """Findings stand once: at the rigging of their setup, or at its shooting where nothing is rigged."""
    plan = desk.shoot.plan
    if slot.kind == "meal":
        return desk.marking.under(f"{line.day.path}.meal", f"{line.day.path}.meals")
    if slot.kind == "rig":
        return desk.marking.under(plan.setups[slot.setup].path)
    if slot.kind == "shoot":
        own = () if line.of_setup(slot.setup, "rig") else desk.marking.under(plan.setups[slot.setup].path)
        return (*own, *desk.marking.under(*(plan.shots[s].path for s in slot.shots)))
    return ()


def _drops(desk: Desk, line: DayLine) -> Iterator[Pair]:
    """What to drop first when the day runs late: if-time shots, then wanted ones, the last of the day first."""
    plan = desk.shoot.plan
    shots = [shot for setup in line.setups for shot in plan.shots_of(setup)]
    for word in ("if-time", "want"):
        found = [f"{s.id} ({desk.say.setup(s.setup or '')})" for s in reversed(shots) if s.priority == word]
        if found:
            yield Pair(desk.priority(word), ", ".join(found))
