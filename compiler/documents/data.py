"""Data sheet: the cards in order, what is on each, how long the copies take, and what post is to do with it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from ..facts import cards
from ..record import record
from ..science import data as volumes
from .desk import Desk
from .say import join
from .shoot import DayLine
from .view import Mark, Pair, Sheet


@record
class CardRow:
    """A card as it leaves the camera."""

    when: str
    number: str
    shots: str
    volume: str
    copy: str
    done: str


@record
class DataSheet:
    """The sheet; `lacks` says which detail is wanting where volumes or times are not known."""

    first_when: str
    first_what: str
    first_where: str
    why: str
    rows: tuple[CardRow, ...]
    full: str
    lacks: tuple[str, ...]
    facts: tuple[Pair, ...]
    pipeline: tuple[Pair, ...]
    notes: tuple[str, ...]
    marks: tuple[Mark, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each day on which something is recorded on cards that the plan names."""
    _ = desk.words
    post = desk.shoot.plan.film.post
    people = tuple(dict.fromkeys((*desk.workers("data", "dit", "loader"), *((post.by,) if post and post.by else ()))))
    for line in desk.shoot.days:
        if any(cards.of_setup(desk.shoot.facts, desk.shoot.plan.setups[name]) for name in line.setups):
            head = desk.head(_("Data"), line)
            yield Sheet("data", f"{desk.folder(line)}/data", head, partial(view, desk, line), line.day.id, people)


def view(desk: Desk, line: DayLine) -> DataSheet:
    """Cards by the agreed order, or what they would be by the order of the plan."""
    _ = desk.words
    plan, say, post = desk.shoot.plan, desk.say, desk.shoot.plan.film.post
    names = tuple(dict.fromkeys(m for s in line.setups for m in cards.media(plan, plan.setups[s])))
    sizes = cards.cards(plan, names)
    speed, slow = cards.copying(plan, names)
    rows: tuple[CardRow, ...] = ()
    full = ""
    lacks = [w for s in line.setups if (w := cards.missing(desk.shoot.facts, plan.setups[s]))]
    if not sizes:
        lacks.append(_("what each card holds, such as 'holds: 128 GB'"))
    else:
        rows, full = _rows(desk, line, sizes, speed)
    if slow:
        lacks.append(slow)
    total = sum(r.gigabytes for s in line.setups for r in cards.of_setup(desk.shoot.facts, plan.setups[s]))
    who = say.person(post.by) if post and post.by else _("NOBODY NAMED to copy")
    copies = post.copies if post and post.copies is not None else 0
    facts = (
        Pair(_("in all"), _gigabytes(desk, total)), Pair(_("copied by"), who),
        Pair(_("copies"), str(copies) if copies else _("not said: make two")),
        Pair(_("copying at"), say.value("data-speed", speed)),
        Pair(_("cards"), _cards(desk, names)), Pair(_("copied to"), _drives(desk)),
    )  # fmt: skip
    first = rows[0] if rows else None
    shots = _.count("{n} shot on it", "{n} shots on it", first.shots.count(",") + 1) if first else ""
    return DataSheet(
        first_when=first.when if first else "",
        first_what=_("Card {n} comes out: two copies, both checked", n=first.number) if first else _("Cards"),
        first_where=join(" · ", (shots, who)), why=line.why, rows=rows, full=full,
        lacks=tuple(dict.fromkeys(lacks)), facts=tuple(f for f in facts if f.words),
        pipeline=tuple(_pipeline(desk)), notes=post.note if post else (),
        marks=desk.marking.under("post"),
    )  # fmt: skip


def _rows(
    desk: Desk, line: DayLine, sizes: tuple[float, ...], speed: float | None
) -> tuple[tuple[CardRow, ...], str]:
    """One row a card as it fills along the day, and where no card is free any more."""
    _ = desk.words
    plan, say, facts = desk.shoot.plan, desk.say, desk.shoot.facts
    row = []
    for name in line.setups:
        slot = line.of_setup(name, "shoot")
        start, end = (slot.start, slot.end) if slot else (0, 0)
        row.append((name, float(start), float(end), cards.of_setup(facts, plan.setups[name])))
    filled = cards.fill(row, sizes, speed if line.slots else None)
    made = []
    for number, shots, gigabytes, last in _spans(row, sizes):
        copy = next((c for c in filled.copies if c.card == number and abs(c.gigabytes - gigabytes) < 1e-6), None)
        minutes = volumes.copy_minutes(gigabytes, speed) if speed else 0.0
        made.append(CardRow(
            say.clock(round(last)) if line.slots else "", str(number), ", ".join(shots), _gigabytes(desk, gigabytes),
            say.minutes(round(minutes * 2)) if minutes else "", say.clock(round(copy.end)) if copy else "",
        ))  # fmt: skip
    full = ""
    if filled.full:
        full = _("NO EMPTY CARD from shot {shot} on: copy earlier or bring more cards", shot=filled.full[1])
    return tuple(made), full


def _spans(
    row: list[tuple[str, float, float, tuple[cards.Recording, ...]]], sizes: tuple[float, ...]
) -> Iterator[tuple[int, list[str], float, float]]:
    """Card number, its shots, gigabytes, and when it comes out; cards are taken in turn, a take is never split."""
    card, used, last = 0, 0.0, 0.0
    shots: list[str] = []
    for _setup, start, end, recorded in row:
        takes = [(r.shot, r.gigabytes / r.takes) for r in recorded for _ in range(r.takes)]
        for n, (shot, gigabytes) in enumerate(takes):
            if shots and used + gigabytes > sizes[card % len(sizes)] + 1e-9:
                yield card % len(sizes) + 1, shots, used, start + (end - start) * n / len(takes)
                card, used, shots = card + 1, 0.0, []
            used += gigabytes
            if shot not in shots:
                shots.append(shot)
            last = end
    if shots:
        yield card % len(sizes) + 1, shots, used, last


def _gigabytes(desk: Desk, volume: float) -> str:
    return desk.say.value("data-volume", round(volume, 1)) if volume else ""


def _cards(desk: Desk, names: tuple[str, ...]) -> str:
    found = [desk.shoot.plan.gear[n] for n in names if n in desk.shoot.plan.gear]
    return ", ".join(join(" ", (f"{g.quantity or 1} × {desk.say.thing(g.id)}", g.holds or "")) for g in found)


def _drives(desk: Desk) -> str:
    return ", ".join(f"{n} × {desk.say.thing(g.id)}" for g, n in cards.drives(desk.shoot.plan))


def _pipeline(desk: Desk) -> Iterator[Pair]:
    """What post has to know: profile, colour spaces, frame rate, names, delivery."""
    _ = desk.words
    post = desk.shoot.plan.film.post
    if post is None:
        return
    rows = (
        (_("recorded as"), post.capture), (_("worked in"), post.working), (_("shown on"), post.display),
        (_("frames"), desk.say.value("fps", post.fps)), (_("file names"), post.naming), (_("delivery"), post.delivery),
    )  # fmt: skip
    yield from (Pair(name, words) for name, words in rows if words)
