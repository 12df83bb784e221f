"""Setup card: one page on set for one setup, with the plan of the set, the camera, the lamps and the shots."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from markupsafe import Markup

from ..facts.sun_at import sun_at
from ..record import record, replace
from . import camera, lighting
from .art import held_words
from .camera import Field, ShotRow
from .changes import before_in_set, lamp_numbers
from .desk import Desk
from .drawings.from_plan import plan_of_set
from .drawings.from_view import eye_view
from .drawings.setplan import Paper
from .drawings.svg import Drawing
from .lighting import LightState
from .say import join, plain, side_words
from .shoot import DayLine
from .view import Mark, Pair, Sheet

# Points of paper. What stands around the plan of the set is reckoned, so that a simple setup stays on one page.
EYE, PAIR, WIDE = 196.0, 150.0, 520.0  # a picture alone, each of two, the plan of the set
PAGE, SMALLEST, USUAL, LARGEST = 733.0, 206.0, 345.0, 400.0
LINE = 15.5
SQUEEZED, KEPT = 0.8, 25.0
OF_THE_DAY = ("long-hold",)  # findings on how the day is laid out, which nobody can mend at this camera


@record
class SetupCard:
    """The card of one setup."""

    first_when: str
    first_what: str
    first_where: str
    drawing: Markup
    no_drawing: str
    eyes: tuple[Markup, ...]
    no_eye: str
    held: str
    core: tuple[Field, ...]
    settings: tuple[Field, ...]
    light: LightState
    shots: tuple[ShotRow, ...]
    hands: tuple[Pair, ...]
    dressing: tuple[str, ...]
    sound: str
    next: str
    marks: tuple[Mark, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each setup of each day."""
    _ = desk.words
    for line in desk.shoot.days:
        for place, name in enumerate(line.setups, 1):
            head = desk.head(desk.say.setup(name), line, _("Setup card {n} of {all}", n=place, all=len(line.setups)))
            file = f"{desk.folder(line)}/setup-{name.lower().replace(' ', '-')}"
            yield Sheet("setup-card", file, head, partial(view, desk, line, name), line.day.id)


def view(desk: Desk, line: DayLine, name: str) -> SetupCard:
    """Everything that all on set need for one setup."""
    _ = desk.words
    plan, say = desk.shoot.plan, desk.say
    setup = plan.setups[name]
    place = line.setups.index(name)
    after = line.setups[place + 1 : place + 2]
    light = lighting.light_state(desk, line, name)
    shots = tuple(camera.shot_rows(desk, setup))
    marks = (*desk.marking.at(setup.path), *desk.marking.under(f"{setup.path}.camera", f"{setup.path}.move",
             f"{setup.path}.hands", f"{setup.path}.sound", f"{setup.path}.dressing"))  # fmt: skip
    at_a_row = _at_rows(light)  # said there, and only there
    marks = tuple(mark for mark in marks if mark.rule not in OF_THE_DAY and mark not in at_a_row)
    rolling = say.clock(line.rolling(name))
    fields = camera.fields(desk, setup)
    core = tuple(f for f in fields if f.core)
    seen = tuple(_eyes(desk, line, name))
    eyes = tuple(Markup(drawn.svg) for drawn in seen)
    card = SetupCard(
        first_when=rolling,
        first_what=join(" · ", (_("Rolling") if rolling else "", say.place_of(name))), first_where="",
        drawing=Markup(""), no_drawing="",
        eyes=eyes, no_eye="" if eyes else _no_eye(desk, name),
        held=held_words(desk, setup),
        core=core, settings=tuple(f for f in fields if not f.core),
        light=replace(light, marks=tuple(mark for mark in light.marks if mark not in marks)), shots=shots,
        hands=tuple(_hands(desk, name)), dressing=setup.dressing,
        sound=sound_words(desk, name), next=say.setup(after[0]) if after else "",
        marks=marks,
    )  # fmt: skip
    drawing, reason = picture(desk, line, name, paper_beside(card, max((drawn.height for drawn in seen), default=0.0)))
    return replace(card, drawing=drawing, no_drawing=reason)


def paper_beside(card: SetupCard, high: float = 0.0) -> Paper:
    """Room for the plan of the set: what the rest leaves of one page, or of the first page where two are needed.

    Rows are counted by their letters, in points of the style sheet; a little is kept for words that are wide. `high` is
    what the pictures of what the lens sees measure with their words.
    """
    above = 90.0 + (35.0 if card.held else 0.0) + sum(4.0 + _rows(m.sentence + m.way_out, 92) for m in card.marks)
    above += 20.0 + sum(_rows(s.words, 70) + _rows(s.aside, 80) + 3.0 for s in card.shots)
    above += sum(8.0 + _rows(m.sentence + m.way_out, 58) for s in card.shots for m in s.marks)
    wide = (92, 56, 37)[len(card.eyes)]  # letters to a row beside the pictures
    core = " · ".join(f.words if f.plain else f"{f.name} {f.words}" for f in card.core)
    hands = ", ".join(f"{row.name} {row.words}" for row in card.hands)
    chosen = " · ".join(f"{f.name} {f.words}" for f in card.settings if not f.typical)
    usual = " · ".join(f"{f.name} {f.words}" for f in card.settings if f.typical)
    rest = (chosen, ", ".join(card.dressing), card.sound)
    told = sum(_rows(words, wide - 4) + 3.0 for words in (core, hands) if words)
    low = 92 if len(card.eyes) > 1 else wide - 4  # beside two pictures there is only room for the camera itself
    more = sum(_rows(words, low) + 3.0 for words in rest if words) + 0.85 * _rows(usual, low + 12)
    seen = (0.0, EYE * 0.5 + 37.0, PAIR * 0.5 + 37.0)[len(card.eyes)]
    seen = max(seen, high + 4.0)
    below = (max(seen, told) + more if len(card.eyes) > 1 else max(seen, told + more)) + 14.0
    left = PAGE - above - below
    lit = _light(card.light)
    one_page = left - lit >= SMALLEST
    return Paper(WIDE, min(LARGEST, left - lit if one_page else max(left, USUAL)), not one_page)


def _at_rows(light: LightState) -> tuple[Mark, ...]:
    """What was found at single lamps, windows and cloth."""
    return (*(m for row in light.lamps for m in row.marks), *(m for row in light.others for m in row.marks))


def _light(light: LightState) -> float:
    """Points that the light of a card takes."""
    lit = 22.0 if light.lamps or light.others else 0.0
    lit += sum(4.5 + _rows(f"{r.name} · {r.lamp} · {r.place} ·     · {r.settings}", 80) + _rows(r.care, 80)
               + _rows(r.changed, 70) for r in light.lamps)  # fmt: skip
    lit += sum(4.5 + _rows(row.name + row.words, 80) for row in light.others) + (LINE + 4.0) * len(light.loads)
    lit += sum(8.0 + _rows(m.sentence + m.way_out, 72) for m in (*_at_rows(light), *light.marks))
    lit += 1.2 * _rows(light.meter, 104)  # more than it takes: no card ends with one row on a second page
    return lit + _rows(light.kept, 80) + 3.0 + sum(_rows(note, 92) for note in light.notes)


def _rows(words: str, each: int) -> float:
    """Points that words take in rows of so many letters; none for no words."""
    return LINE * -(-len(words) // each)


def picture(desk: Desk, line: DayLine, name: str, paper: Paper) -> tuple[Markup, str]:
    """The plan of the set as SVG, or why there is none."""
    _ = desk.words
    plan = desk.shoot.plan
    before = before_in_set(plan, line.setups, name)
    drawn_on = partial(
        plan_of_set, plan, name, _, before.id if before else None, numbers_of(desk, line, name),
        sun_words(desk, line, name),
    )  # fmt: skip
    drawn = drawn_on(paper)
    if not paper.grows and drawn.height < SQUEEZED * paper.height:
        # A long legend has left the plan little room: what is kept for wide words may be enough for it, else two pages.
        for larger in (Paper(paper.width, paper.height + KEPT, False), Paper(paper.width, USUAL, True)):
            other = drawn_on(larger)
            if other.height > drawn.height / SQUEEZED:
                drawn = other
                break
    if not drawn.svg:
        return Markup(""), _("No plan of the set. It wants {wanted}.", wanted="; ".join(drawn.missing))
    # The drawing escapes every word of the plan itself.
    return Markup(drawn.svg), ""


def _eyes(desk: Desk, line: DayLine, name: str) -> Iterator[Drawing]:
    """What the lens sees, at both ends of a move."""
    for end in (False, True):
        wide = PAIR if desk.shoot.plan.setups[name].move else EYE
        drawn = eye_view(desk.shoot.plan, name, desk.words, numbers_of(desk, line, name), end, wide)
        if drawn.svg:
            yield drawn


def _no_eye(desk: Desk, name: str) -> str:
    """Why there is no picture of what the lens sees."""
    _ = desk.words
    wanted = eye_view(desk.shoot.plan, name, _).missing
    return _("Not drawn what the lens sees: it wants {wanted}.", wanted="; ".join(wanted)) if wanted else ""


def sun_words(desk: Desk, line: DayLine, name: str) -> tuple[float, str] | None:
    """Bearing of the sun when a setup rolls, with the words beside its tick; None at night and where not known."""
    _ = desk.words
    place, rolling = desk.shoot.plan.location_of(name), line.rolling(name)
    if place is None or rolling is None:
        return None
    position = sun_at(desk.shoot.plan, line.day.id, place.id, rolling)
    if position is None or position.elevation <= 0.0:
        return None
    words = _("sun at {time}, {high}° high", time=desk.say.clock(rolling), high=round(position.elevation))
    return position.azimuth, words


def numbers_of(desk: Desk, line: DayLine, name: str) -> dict[str, str]:
    """The numbers of the lamps in a setup's set, the same on every sheet of the day."""
    room = desk.shoot.plan.setups[name].set or ""
    numbers = lamp_numbers(desk.shoot.plan, line.setups)
    return {lamp: str(number) for (there, lamp), number in numbers.items() if there == room}


def _hands(desk: Desk, name: str) -> Iterator[Pair]:
    """Who does what during the take, of the setup and where a shot says otherwise."""
    _ = desk.words
    plan = desk.shoot.plan
    for task, person in plan.setups[name].hands.items():
        yield Pair(plain(task), desk.say.person(person))
    for shot in plan.shots_of(name):
        for task, person in shot.hands.items():
            yield Pair(_("{task} in {shot}", task=plain(task), shot=shot.id), desk.say.person(person))


def sound_words(desk: Desk, name: str) -> str:
    _ = desk.words
    sound = desk.shoot.plan.setups[name].sound
    if sound is None:
        return ""
    say = desk.say
    return join(" · ", (
        say.thing(sound.boom) if sound.boom else "", _("by {who}", who=say.person(sound.by)) if sound.by else "",
        side_words(say, sound.side), _("{high} high", high=say.value("length", sound.height)) if sound.height else "",
        _("wireless: {on}", on=", ".join(sound.wireless)) if sound.wireless else "", *sound.note,
    ))  # fmt: skip
