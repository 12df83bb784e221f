"""Camera sheet: everything that is set on the camera, setup by setup, with what changes in bold."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from ..facts import fits
from ..plan.setup import Camera, Setup
from ..record import record
from .desk import Desk
from .say import join, move_word
from .shoot import DayLine
from .view import Mark, Sheet

# What is said of every setup; the rest only where it changes.
CORE = ("lens", "adapters", "filters", "on", "height", "at", "aim", "move", "focus")


@record
class Field:
    """One setting; `new` when it differs from the setup before, `typical` when a default filled it."""

    name: str
    words: str
    typical: bool
    new: bool
    core: bool


@record
class ShotRow:
    """A shot with what the assistant needs."""

    number: str
    words: str
    aside: str
    takes: str
    marks: tuple[Mark, ...]


@record
class CameraState:
    """The camera in one setup."""

    when: str
    title: str
    id: str
    where: str
    fields: tuple[Field, ...]
    shots: tuple[ShotRow, ...]
    notes: tuple[str, ...]
    marks: tuple[Mark, ...]


@record
class CameraSheet:
    """The sheet; `lenses` are the lens changes of the day in order."""

    first_when: str
    first_what: str
    first_where: str
    why: str
    states: tuple[CameraState, ...]
    lenses: tuple[str, ...]
    stores: tuple[str, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each day."""
    _ = desk.words
    people = desk.workers("camera", "focus", "gimbal", "data")
    for line in desk.shoot.days:
        if line.setups:
            head = desk.head(_("Camera"), line)
            yield Sheet("camera", f"{desk.folder(line)}/camera", head, partial(view, desk, line), line.day.id, people)


def view(desk: Desk, line: DayLine) -> CameraSheet:
    """All setups of the day in order."""
    plan = desk.shoot.plan
    before: Setup | None = None
    states = []
    for name in line.setups:
        setup = plan.setups[name]
        states.append(_state(desk, line, setup, before))
        before = setup
    first = states[0]
    what = join(" · ", (first.title, *(f.words for f in first.fields[:2])))
    return CameraSheet(
        first.when, what, first.where, line.why, tuple(states), tuple(_lenses(desk, line)), tuple(_stores(desk))
    )


def fields(desk: Desk, setup: Setup, before: Setup | None = None) -> tuple[Field, ...]:
    """Every setting that the plan says, in the order in which a camera is built up."""
    if setup.camera is None:
        return ()
    old = _texts(desk, before) if before else {}
    rows = []
    for key, (name, words) in _texts(desk, setup).items():
        path = f"{setup.camera.path}.{key}"
        new = before is not None and old.get(key, ("", ""))[1] != words
        rows.append(Field(name, words, path in desk.shoot.plan.defaulted, new, key in CORE))
    return tuple(rows)


def _texts(desk: Desk, setup: Setup) -> dict[str, tuple[str, str]]:
    _ = desk.words
    say, camera = desk.say, setup.camera
    if camera is None:
        return {}
    texts = {
        "body": (_("body"), say.thing(camera.body) if camera.body else ""),
        "lens": (_("lens"), join(" ", (say.thing(camera.lens) if camera.lens else "", _zoom(desk, camera)))),
        "adapters": (_("adapters"), say.things(joins(desk, camera))),
        "filters": (_("filters"), say.things(camera.filters)),
        "on": (_("on"), _support(desk, camera)),
        "height": (_("lens height"), say.value("length", camera.height)),
        "at": (_("stands"), say.spot(camera.at, setup.set)),
        "aim": (_("looks at"), say.aim(camera.aim, setup.set)),
        "move": (_("move"), move_words(desk, setup)),
        "focus": (_("focus on"), say.spot(camera.focus, setup.set)),
        "stop": (_("stop"), say.value("stop", camera.stop)),
        "shutter": (_("shutter"), say.value("shutter", camera.shutter)),
        "fps": (_("frames"), say.value("fps", camera.fps)),
        "iso": (_("ISO"), say.value("number", camera.iso) if camera.iso else ""),
        "white-balance": (_("white balance"), say.value("kelvin", camera.white_balance)),
        "profile": (_("profile"), join(", ", (camera.profile or "", camera.codec or ""))),
        "media": (_("cards"), say.things(camera.media)),
        "battery": (_("battery"), say.thing(camera.battery) if camera.battery else ""),
    }
    return {key: (name, words) for key, (name, words) in texts.items() if words}


def joins(desk: Desk, camera: Camera) -> tuple[str, ...]:
    """The adapters between body and lens and the rings before the lens: as the plan names them, else those found."""
    plan = desk.shoot.plan
    body, lens = plan.gear.get(camera.body or ""), plan.gear.get(camera.lens or "")
    if lens is None:
        return camera.adapters
    found = camera.adapters or (fits.lens_chain(plan, body, lens).adapters if body is not None else ())
    filters = (plan.gear[name] for name in camera.filters if name in plan.gear)
    rings = (fits.thread(plan, lens, one).ring for one in filters)
    return tuple(dict.fromkeys((*found, *(ring for ring in rings if ring))))


def move_words(desk: Desk, setup: Setup) -> str:
    """The move of the camera, from where it stands to where it ends."""
    _ = desk.words
    say, move = desk.say, setup.move
    if move is None:
        return ""
    return join(" ", (
        move_word(say, move.kind),
        _("to {where}", where=say.spot(move.to, setup.set)) if move.to else "",
        _("ends {high} high", high=say.value("length", move.height_to)) if move.height_to is not None else "",
        _("ends on {aim}", aim=say.aim(move.aim_to, setup.set)) if move.aim_to else "",
    ))  # fmt: skip


def _zoom(desk: Desk, camera: Camera) -> str:
    _ = desk.words
    return _("at {length}", length=desk.say.value("length", camera.zoom)) if camera.zoom is not None else ""


def _support(desk: Desk, camera: Camera) -> str:
    _ = desk.words
    held = _("held by {who}", who=desk.say.person(camera.held_by)) if camera.held_by else ""
    return join(", ", (desk.say.thing(camera.on) if camera.on else "", held))


def _state(desk: Desk, line: DayLine, setup: Setup, before: Setup | None) -> CameraState:
    camera = setup.camera
    paths = (camera.path, f"{setup.path}.move") if camera else (f"{setup.path}.move",)
    return CameraState(
        when=desk.say.clock(line.rolling(setup.id)), title=desk.say.setup(setup.id), id=setup.id,
        where=desk.say.place_of(setup.id),
        fields=tuple(f for f in fields(desk, setup, before) if before is None or f.core or f.new),
        shots=tuple(shot_rows(desk, setup)),
        notes=(*(camera.note if camera else ()), *(setup.move.note if setup.move else ())),
        marks=(*desk.marking.at(setup.path), *desk.marking.under(*paths)),
    )  # fmt: skip


def shot_rows(desk: Desk, setup: Setup) -> Iterator[ShotRow]:
    """The shots taken from a setup, with what differs from it."""
    _ = desk.words
    say = desk.say
    for shot in desk.shoot.plan.shots_of(setup.id):
        aside = join(" · ", (
            _("lens {lens}", lens=say.thing(shot.lens)) if shot.lens else "",
            _("at {length}", length=say.value("length", shot.zoom)) if shot.zoom is not None else "",
            _("filters {filters}", filters=say.things(shot.filters)) if shot.filters else "",
            say.value("fps", shot.fps),
            _("picture {high} high at the subject", high=say.value("length", shot.frame)) if shot.frame else "",
            _("rolls {time}", time=say.value("duration", shot.rolls)) if shot.rolls else "",
            desk.priority(shot.priority), shot.vfx or "", *shot.note,
        ))  # fmt: skip
        yield ShotRow(
            shot.id, desk.shot_words(shot), aside, say.value("duration", shot.takes), desk.marking.under(shot.path)
        )


def _lenses(desk: Desk, line: DayLine) -> Iterator[str]:
    """Lens changes in order, with where they happen."""
    _ = desk.words
    plan = desk.shoot.plan
    fitted = ""
    for name in line.setups:
        camera = plan.setups[name].camera
        own = camera.lens if camera and camera.lens else ""
        wanted = [(own, name)] + [(shot.lens, shot.id) for shot in plan.shots_of(name) if shot.lens]
        for lens, where in wanted:
            if lens and lens != fitted:
                place = desk.say.setup(where) if where == name else where
                yield _("{lens}, from {where}", lens=desk.say.thing(lens), where=place)
                fitted = lens


def _stores(desk: Desk) -> Iterator[str]:
    """Cards and camera batteries that the plan has."""
    for gear in desk.shoot.plan.gear.values():
        if gear.kind in ("media", "battery"):
            yield join(" · ", (f"{gear.quantity or 1} × {desk.say.thing(gear.id)}", gear.holds or ""))
