"""Camera sheet: everything that is set on the camera, setup by setup, with what changes in bold."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from markupsafe import Markup

from ..facts import fits, focus
from ..plan.scene import Shot
from ..plan.setup import Camera, Setup
from ..record import record, replace
from .camera_hours import begins, lens_words, low_cells
from .desk import Desk
from .drawings.from_hours import battery_lines
from .marking import once
from .say import join, move_word
from .shoot import DayLine
from .view import Mark, Pair, Sheet

# What is said of every setup, in the order of building up; the rest only where it changes.
GLASS = ("lens", "adapters", "filters")
STAND = ("on", "height", "at", "aim", "move", "focus")
EXPOSURE = ("stop", "iso", "white-balance")
PLAIN = ("body", *GLASS, "at", "stop", "white-balance", "shutter", "fps")
WIDE = 520.0  # points, the width of the battery lines
ENDLESS = 50.0  # metres from which on a far limit is as good as none
CORE = (*GLASS, *STAND)
ROWS = {"glass": ("body", *GLASS, *EXPOSURE), "stand": STAND}


@record
class Field:
    """One setting; `new` when it differs from the setup before, `typical` when a default filled it; `row` is the line
    of the camera sheet that it stands in; `plain` words say by themselves what they are."""

    name: str
    words: str
    typical: bool
    new: bool
    core: bool
    row: str
    plain: bool


@record
class ShotRow:
    """A shot with what the assistant needs."""

    number: str
    words: str
    aside: str
    takes: str
    marks: tuple[Mark, ...]
    focus: str = ""


@record
class CameraState:
    """The camera in one setup."""

    when: str
    title: str
    id: str
    where: str
    rows: tuple[tuple[Field, ...], ...]
    shots: tuple[ShotRow, ...]
    pressing: tuple[str, ...]
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
    lenses: tuple[Pair, ...]
    stores: tuple[str, ...]
    cells: Markup


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
    seen: set[Mark] = set()
    for name in line.setups:
        setup = plan.setups[name]
        state = _state(desk, line, setup, before)
        states.append(replace(state, marks=once(state.marks, seen)))
        before = setup
    first = states[0]
    what = join(" · ", (first.title, *(f.words for f in first.rows[0][:2])) if first.rows else (first.title,))
    where, lenses = desk.say.place_of(first.id), tuple(_lenses(desk, line))
    cells = Markup(battery_lines(desk.shoot.facts, line, True, desk.words, WIDE).svg)
    return CameraSheet(first.when, what, where, line.why, tuple(states), lenses, tuple(_stores(desk)), cells)


def fields(desk: Desk, setup: Setup, before: Setup | None = None) -> tuple[Field, ...]:
    """Every setting that the plan says, in the order in which a camera is built up, and what comes off."""
    _ = desk.words
    if setup.camera is None:
        return ()
    old = _texts(desk, before) if before else {}
    off = _off(desk, setup.camera, before.camera) if before and before.camera else {}
    texts = _texts(desk, setup)
    rows = []
    for key, (name, words) in texts.items():
        open_ = not words and key in EXPOSURE
        if not words and key not in off and not open_:
            continue
        path = f"{setup.camera.path}.{key}"
        new = before is not None and (old.get(key, ("", ""))[1] != words or key in off)
        row = next((row for row, keys in ROWS.items() if key in keys), "rest")
        said = join(", ", (words or (_("not said") if open_ else ""), off.get(key, "")))
        typical, plain = path in desk.shoot.plan.defaulted, key in PLAIN and not open_
        rows.append(Field(name, said, typical, new, key in CORE, row, plain))
    return tuple(rows)


def _off(desk: Desk, now: Camera, before: Camera) -> dict[str, str]:
    """Adapters, rings and filters that the setup before had and this one has not."""
    _ = desk.words
    pairs = (("adapters", joins(desk, before), joins(desk, now)), ("filters", before.filters, now.filters))
    gone = {key: [name for name in old if name not in new] for key, old, new in pairs}
    return {key: _("{things} OFF", things=desk.say.things(names)) for key, names in gone.items() if names}


def _texts(desk: Desk, setup: Setup) -> dict[str, tuple[str, str]]:
    _ = desk.words
    say, camera = desk.say, setup.camera
    if camera is None:
        return {}
    return {
        "body": (_("body"), say.thing(camera.body) if camera.body else ""),
        "lens": (_("lens"), join(" ", (say.thing(camera.lens) if camera.lens else "", _zoom(desk, camera)))),
        "adapters": (_("adapters"), say.things(joins(desk, camera))),
        "filters": (_("filters"), say.things(camera.filters)),
        "on": (_("on"), _support(desk, camera)),
        "height": (_("lens at"), say.value("length", camera.height)),
        "at": (_("stands"), say.spot(camera.at, setup.set)),
        "aim": (_("looks at"), say.aim(camera.aim, setup.set)),
        "move": (_("move"), move_words(desk, setup)),
        "focus": (_("focus on"), say.spot(camera.focus, setup.set)),
        "stop": (_("stop"), say.value("stop", camera.stop)),
        "shutter": (_("shutter"), say.value("shutter", camera.shutter)),
        "fps": (_("frames"), say.value("fps", camera.fps)),
        "iso": (_("ISO"), say.value("number", camera.iso) if camera.iso else ""),
        "white-balance": (_("white balance"), say.value("kelvin", camera.white_balance)),
        "profile": (_("profile"), camera.profile or ""),
        "codec": (_("codec"), camera.codec or ""),
        "media": (_("cards"), say.things(camera.media)),
        "battery": (_("battery"), say.thing(camera.battery) if camera.battery else ""),
    }


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
    said = [
        f for f in fields(desk, setup, before)
        if before is None or f.core or f.new or f.name in _exposure(desk)
    ]  # fmt: skip
    rows = (tuple(f for f in said if f.row == row) for row in (*ROWS, "rest"))
    return CameraState(
        when=desk.say.clock(line.rolling(setup.id)), title=desk.say.setup(setup.id), id=setup.id,
        where=desk.room_of(line, setup.id),
        rows=tuple(row for row in rows if row),
        shots=tuple(_with_focus(desk, setup)),
        pressing=tuple(w for w in (lens_words(desk, line, setup), *low_cells(desk, line, setup)) if w),
        notes=(*(camera.note if camera else ()), *(setup.move.note if setup.move else ())),
        marks=(*desk.marking.about(setup.path), *desk.marking.under(*paths)),
    )  # fmt: skip


def _exposure(desk: Desk) -> tuple[str, ...]:
    """The names of the settings that are read off before every take."""
    _ = desk.words
    return (_("stop"), _("ISO"), _("white balance"))


def _with_focus(desk: Desk, setup: Setup) -> Iterator[ShotRow]:
    """The shots with what they are focused at."""
    for row, shot in zip(shot_rows(desk, setup), desk.shoot.plan.shots_of(setup.id), strict=True):
        yield replace(row, focus=focus_words(desk, setup, shot))


def focus_words(desk: Desk, setup: Setup, shot: Shot) -> str:
    """How far what is sharp is, at both ends of a move, and from where to where it may be; nothing where unknown."""
    _ = desk.words
    plan, say = desk.shoot.plan, desk.say
    told = []
    for distance in focus.distances(plan, setup, shot):
        depth = focus.sharp(plan, setup, shot, distance.metres)
        far = say.value("length", _read(distance.metres))
        near = say.value("length", _read(depth.near)) if depth else ""
        if depth is None:
            told.append(far)
        elif depth.far < ENDLESS:
            told.append(_("{far} (sharp {near} to {end})", far=far, near=near,
                          end=say.value("length", _read(depth.far))))  # fmt: skip
        else:
            told.append(_("{far} (sharp from {near} on)", far=far, near=near))
    return _("focus {far}", far=join(" → ", dict.fromkeys(told))) if told else ""


def _read(metres: float) -> float:
    """As fine as a scale on a lens is read."""
    return round(metres, 2 if metres < 10 else 0)


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
            _("picture {high} high", high=say.value("length", shot.frame)) if shot.frame else "",
            _("rolls {time}", time=say.value("duration", shot.rolls))
            if shot.rolls and f"{shot.path}.rolls" not in desk.shoot.plan.defaulted else "",
            desk.priority(shot.priority), shot.vfx or "", *shot.note,
        ))  # fmt: skip
        yield ShotRow(
            shot.id, desk.shot_words(shot), aside, say.value("duration", shot.takes), desk.marking.under(shot.path)
        )


def _lenses(desk: Desk, line: DayLine) -> Iterator[Pair]:
    """Lens changes in order, with the time, where they happen and what the first shot is focused at."""
    _ = desk.words
    plan = desk.shoot.plan
    fitted = ""
    for name in line.setups:
        setup = plan.setups[name]
        shots = plan.shots_of(name)
        own = setup.camera.lens if setup.camera and setup.camera.lens else ""
        wanted = [(own, desk.say.setup(name), next((s for s in shots if not s.lens), None))]
        wanted += [(shot.lens, shot.id, shot) for shot in shots if shot.lens]
        for lens, where, shot in wanted:
            if lens and lens != fitted:
                words = _("{lens}, {where}", lens=desk.say.thing(lens), where=where)
                far = focus.distances(plan, setup, shot)[:1] if shot else ()
                told = (desk.say.value("length", _read(d.metres)) for d in far)
                began = begins(desk, line, setup).get(shot.id) if shot else None
                yield Pair(desk.say.clock(line.rolling(name) if began is None else began), join(" · ", (words, *told)))
                fitted = lens


def _stores(desk: Desk) -> Iterator[str]:
    """Cards and camera batteries that the plan has."""
    for gear in desk.shoot.plan.gear.values():
        if gear.kind in ("media", "battery"):
            yield join(" · ", (f"{gear.quantity or 1} × {desk.say.thing(gear.id)}", gear.holds or ""))
