"""The crew's page of a day: every stretch in order, what to tick in it, and the sentence that says what comes next."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator
from functools import partial
from hashlib import sha256
from importlib.resources import files

from markupsafe import Markup

from ...record import record
from .. import camera
from ..call_sheet import help_rows
from ..desk import Desk
from ..drawings.setplan import Paper
from ..say import join, plain
from ..setup_card import picture
from ..shoot import DayLine, Slot
from ..view import Mark, Pair, Said, Sheet
from . import say_next
from .lines import Line, Part, key, parts
from .who import Who, names, token

# As wide as a phone held upright, so that the words in the drawing stay as large as they are drawn.
PHONE = Paper(264.0, 330.0)


@record
class Hand:
    """Who does what while the camera rolls."""

    task: str
    person: str
    tokens: str


@record
class Call:
    """Those who are called at one time, each with whom their name is for."""

    when: str
    people: tuple[Hand, ...]
    tokens: str


@record
class Roll:
    """The shots of a setup, who does what during them, and what their hour must be."""

    when: str
    lines: tuple[Line, ...]
    hands: tuple[Hand, ...]
    needs: tuple[str, ...]


@record
class Stretch:
    """A stretch of the day: a setup with its parts and shots, or one thing that all do.

    `before` and `after` are the sentence of what is left to get ready, cut where the names of what is left go.
    """

    id: str
    when: str
    title: str
    where: str
    tokens: str
    code: str = ""
    shots: str = ""
    held: str = ""
    before: str = ""
    after: str = ""
    ready: str = ""
    parts: tuple[Part, ...] = ()
    roll: Roll | None = None
    whole: Line | None = None
    lines: tuple[Line, ...] = ()
    drawing: Markup = Markup("")
    no_drawing: str = ""
    marks: tuple[Mark, ...] = ()


@record
class Choice:
    """A department or a person that the page can be shown for, with their first sentence: when they are called."""

    token: str
    name: str
    says: str = ""


@record
class CrewPage:
    """The page. `memory` is the name under which a device keeps the ticks; `seal` the hash of the script."""

    sentence: str
    why: str
    where: str
    calls: tuple[Call, ...]
    stretches: tuple[Stretch, ...]
    crafts: tuple[Choice, ...]
    people: tuple[Choice, ...]
    help: tuple[Pair, ...]
    contact: str
    memory: str
    style: Markup
    script: Markup
    seal: Markup
    marks: tuple[Mark, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each day that has setups."""
    _ = desk.words
    for line in desk.shoot.days:
        if line.setups:
            head = desk.head(_("Crew's page"), line)
            file = f"{desk.folder(line)}/crew"
            yield Sheet("crew", file, head, partial(view, desk, line), line.day.id, pdf=False)


def view(desk: Desk, line: DayLine) -> CrewPage:
    """The whole day for everybody; the page's own script narrows it to a department or a person."""
    _ = desk.words
    plan, say, day = desk.shoot.plan, desk.say, line.day
    who = Who(plan, tuple(name for name in plan.people if desk.here_on(line, name)))
    stretches = tuple(_stretches(desk, line, who))
    used = {token for s in stretches for part in s.parts for token in part.tokens.split()}
    script = _own("crew.js")
    place = plan.locations.get(day.location or "")
    return CrewPage(
        sentence=say_next.first(desk, stretches), why=line.why,
        where=join(", ", (say.location(day.location), place.address or "" if place else "")),
        calls=tuple(_calls(desk, line, who)), stretches=stretches,
        crafts=tuple(Choice(pair.name, pair.words) for pair in names(_) if pair.name in used),
        people=tuple(Choice(token(name), say.person(name), say_next.call(desk, line, name)) for name in who.here),
        help=tuple(help_rows(desk, line)), contact=_contact(desk),
        memory="hotset:" + key(plan.film.title or "", plan.film.company or "", day.id), style=_own("crew.css"),
        script=script, seal=_seal(script), marks=desk.marking.at(day.path, f"{day.path}.order"),
    )  # fmt: skip


def _own(name: str) -> Markup:
    """A file of ours that goes into the page as it is."""
    return Markup((files("hotset.templates") / "crew" / name).read_text("utf-8"))


def _seal(script: str) -> Markup:
    """The hash by which the page's own policy knows the page's own script, and runs no other."""
    return Markup(b64encode(sha256(script.encode("utf-8")).digest()).decode("ascii"))


def _contact(desk: Desk) -> str:
    """The production's contact, the only number of a person on this page."""
    _ = desk.words
    called = ("production", _("production").lower())
    contacts = desk.shoot.plan.film.contacts
    return next((words for role, words in contacts.items() if role.lower().startswith(called)), "")


def _stretches(desk: Desk, line: DayLine, who: Who) -> Iterator[Stretch]:
    """The day in order: with its times where they are known, else the setups as they stand."""
    told: set[str] = set()
    for place, slot in enumerate(line.slots):
        if slot.kind not in ("rig", "shoot", "spare"):
            yield _common(desk, line, slot, who, place)
        elif slot.setup and slot.setup not in told:
            told.add(slot.setup)
            yield _setup(desk, line, slot.setup, who)
        elif not slot.setup:
            yield _common(desk, line, slot, who, place)
    for name in line.setups:
        if name not in told:
            yield _setup(desk, line, name, who)


def _common(desk: Desk, line: DayLine, slot: Slot, who: Who, place: int) -> Stretch:
    """What everybody does together: call, move, meal, room tone, packing; a wait has nothing to tick."""
    _ = desk.words
    say = desk.say
    where = say.set(desk.shoot.plan.setups[slot.setup].set) if slot.kind == "move" and slot.setup else ""
    titles = {
        "load-in": _("Call and load-in"), "meal": _("Meal"), "room-tone": _("Room tone"), "spare": _("Wait"),
        "move": _("Move to {where}", where=where), "wrap-out": _("Pack and put the place back"),
    }  # fmt: skip
    title, tokens = titles[slot.kind], who.crew(_there(desk, line, slot, who))
    says = say_next.common(desk, slot, where)
    whole = Line(key(slot.kind, str(place), title), title, tokens=tokens, says=says) if says else None
    lines: tuple[Line, ...] = ()
    if whole and slot.kind == "wrap-out":
        lines, whole = (*_put_back(desk, line, slot, who), whole), None
    where = line.day.meal.where or "" if slot.kind == "meal" and line.day.meal else ""
    return Stretch(
        f"s{place}-{slot.kind}", say.clock(slot.start), title,
        join(", ", (_("until {time}", time=say.clock(slot.end)), where)), tokens, whole=whole, lines=lines,
        marks=desk.marking.under(f"{line.day.path}.meal", f"{line.day.path}.meals") if slot.kind == "meal" else (),
    )  # fmt: skip


def _put_back(desk: Desk, line: DayLine, slot: Slot, who: Who) -> Iterator[Line]:
    """What the owners want back as it was, each to be ticked."""
    _ = desk.words
    plan = desk.shoot.plan
    places = dict.fromkeys((plan.setups[name].set or "").split("/")[0] for name in line.setups)
    for text in (text for place in places if place in plan.locations for text in plan.locations[place].restore):
        says = _("Next: put back: {what}, done by {time}.", what=text, time=desk.say.clock(slot.end))
        yield Line(key("put-back", text), text, (), tokens=who.crew(), says=says)


def _calls(desk: Desk, line: DayLine, who: Who) -> Iterator[Call]:
    """When everybody is called, in order."""
    times: dict[int, list[str]] = {}
    for name in who.here:
        call = desk.call_of(line, name)
        if call is not None and (who.works(name) or _plays_until(desk, line, name)):
            times.setdefault(call, []).append(name)
    for call in sorted(times):
        people = tuple(Hand("", desk.say.person(name), who.one(name)) for name in times[call])
        yield Call(desk.say.clock(call), people, " ".join(dict.fromkeys(" ".join(p.tokens for p in people).split())))


def _plays_until(desk: Desk, line: DayLine, person: str) -> int:
    """When the last shots that somebody is in are over; 0 where they are in none, or nothing has a time."""
    return max((slot.end for slot in line.slots if person in desk.cast_of_slot(slot.shots)), default=0)


def _there(desk: Desk, line: DayLine, slot: Slot, who: Who) -> Iterator[str]:
    """Whom a stretch of everybody concerns: the crew, and of the cast those called by then and still needed."""
    for name in who.here:
        call = desk.call_of(line, name) or 0
        if who.works(name) or (call < slot.end and slot.start < _plays_until(desk, line, name)):
            yield name


def _setup(desk: Desk, line: DayLine, name: str, who: Who) -> Stretch:
    _ = desk.words
    shoot = line.of_setup(name, "shoot")
    plan, say = desk.shoot.plan, desk.say
    setup = plan.setups[name]
    shots = plan.shots_of(name)
    cast = tuple(dict.fromkeys(person for shot in shots for person in desk.cast_of(shot)))
    drawing, reason = picture(desk, line, name, PHONE)
    before, after = say_next.ready(desk, name, shoot)
    held = say.setup(setup.held_until) if setup.held_until else ""
    rolling = say.clock(shoot.start) if shoot else ""
    return Stretch(
        f"s-{key(name)}", say.clock(line.start_of(name)), say.setup(name),
        say.place_of(name), who.crew(cast), code=name, shots=", ".join(shot.id for shot in shots),
        held=_("HOT SET until {setup}: nobody takes anything from it", setup=held) if held else "",
        before=before, after=after, ready=_("by {time}", time=rolling) if rolling else "",
        parts=parts(desk, line, name, who), roll=_roll(desk, line, name, who, shoot), drawing=drawing,
        no_drawing=reason, marks=desk.marking.at(setup.path, f"{setup.path}.needs", f"{setup.path}.hands"),
    )  # fmt: skip


def _roll(desk: Desk, line: DayLine, name: str, who: Who, slot: Slot | None) -> Roll:
    """The shots, each with the minute by which it should be rolling if the ones before it take what they should."""
    plan = desk.shoot.plan
    lines = []
    at = slot.start if slot else None
    for place, row in enumerate(camera.shot_rows(desk, plan.setups[name])):
        shot = plan.shots[row.number]
        lines.append(Line(
            key(name, "shot", row.number, row.words), row.number, (Said(row.words),),
            aside=join(" · ", (desk.cast_words(shot), row.takes, row.aside)), marks=row.marks,
            tokens=who.crew(desk.cast_of(shot)), says=say_next.shot(desk, name, row.number, at, slot, place == 0),
        ))  # fmt: skip
        if at is not None:
            at += round((shot.takes or 0.0) / 30)
    return Roll(
        desk.say.clock(slot.start) if slot else "", tuple(lines), tuple(_hands(desk, name)),
        tuple(say_next.needs(desk, line, name, slot)),
    )  # fmt: skip


def _hands(desk: Desk, name: str) -> Iterator[Hand]:
    """Who does what during the take, of the setup and where a shot says otherwise; everybody sees all of it."""
    _ = desk.words
    plan = desk.shoot.plan
    for task, person in plan.setups[name].hands.items():
        yield Hand(plain(task), desk.say.person(person), token(person))
    for shot in plan.shots_of(name):
        for task, person in shot.hands.items():
            yield Hand(_("{task} in {shot}", task=plain(task), shot=shot.id), desk.say.person(person), token(person))
