"""Setup card: one page on set for one setup, with the plan of the set, the camera, the lamps and the shots."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from markupsafe import Markup

from ..record import record
from . import camera, lighting
from .camera import Field, ShotRow
from .changes import before_in_set, lamp_numbers
from .desk import Desk
from .drawings.from_plan import plan_of_set
from .drawings.from_view import eye_view
from .lighting import LightState
from .say import join, plain
from .shoot import DayLine
from .view import Mark, Pair, Sheet

EYE = 330.0  # points, the width of what the lens sees


@record
class SetupCard:
    """The card of one setup."""

    first_when: str
    first_what: str
    first_where: str
    drawing: Markup
    no_drawing: str
    eye: Markup
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
            file = f"{desk.folder(line)}/setup-{name.lower()}"
            yield Sheet("setup-card", file, head, partial(view, desk, line, name), line.day.id)


def view(desk: Desk, line: DayLine, name: str) -> SetupCard:
    """Everything that all on set need for one setup."""
    _ = desk.words
    plan, say = desk.shoot.plan, desk.say
    setup = plan.setups[name]
    place = line.setups.index(name)
    after = line.setups[place + 1 : place + 2]
    drawing, reason = picture(desk, line, name)
    until = say.setup(setup.held_until) if setup.held_until else ""
    rolling = say.clock(line.rolling(name))
    fields = camera.fields(desk, setup)
    return SetupCard(
        first_when=rolling,
        first_what=_("Rolling: {setup}", setup=say.setup(name)) if rolling else say.setup(name),
        first_where=say.place_of(name), drawing=drawing, no_drawing=reason,
        eye=Markup(eye_view(plan, name, _, numbers_of(desk, line, name), width=EYE).svg),
        held=_("HOT SET until {setup}: nobody takes anything from it", setup=until) if until else "",
        core=tuple(f for f in fields if f.core), settings=tuple(f for f in fields if not f.core),
        light=lighting.light_state(desk, line, name),
        shots=tuple(camera.shot_rows(desk, setup)), hands=tuple(_hands(desk, name)), dressing=setup.dressing,
        sound=sound_words(desk, name), next=say.setup(after[0]) if after else "",
        marks=(*desk.marking.at(setup.path), *desk.marking.under(f"{setup.path}.camera", f"{setup.path}.move",
               f"{setup.path}.hands", f"{setup.path}.sound", f"{setup.path}.dressing")),
    )  # fmt: skip


def picture(desk: Desk, line: DayLine, name: str) -> tuple[Markup, str]:
    """The plan of the set as SVG, or why there is none."""
    _ = desk.words
    plan = desk.shoot.plan
    before = before_in_set(plan, line.setups, name)
    drawn = plan_of_set(plan, name, _, before.id if before else None, numbers_of(desk, line, name))
    if not drawn.svg:
        return Markup(""), _("No plan of the set. It wants {wanted}.", wanted="; ".join(drawn.missing))
    # The drawing escapes every word of the plan itself.
    return Markup(drawn.svg), ""


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
        sound.side or "", _("{high} high", high=say.value("length", sound.height)) if sound.height else "",
        _("wireless: {on}", on=", ".join(sound.wireless)) if sound.wireless else "", *sound.note,
    ))  # fmt: skip
