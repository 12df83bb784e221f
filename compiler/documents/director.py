"""Director's sheet: every shot in the order of the story, with its frame, when it is taken, and what is missing."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from markupsafe import Markup

from ..plan.scene import Scene, Shot
from ..record import record
from .desk import Desk
from .drawings.from_view import eye_view
from .say import join
from .view import Mark, Pair, Sheet

FRAME = 104.0  # points, the width of a frame


@record
class StoryShot:
    """A shot: its frame, or the earlier shot that has the same one."""

    number: str
    frame: Markup
    same: str
    words: str
    when: str
    day: str
    aside: str
    priority: str
    notes: tuple[str, ...]
    marks: tuple[Mark, ...]


@record
class StoryScene:
    """A scene."""

    number: str
    heading: str
    about: str
    aside: str
    shots: tuple[StoryShot, ...]
    wants: tuple[str, ...]


@record
class Director:
    """The sheet."""

    first_when: str
    first_what: str
    first_where: str
    look: tuple[Pair, ...]
    scenes: tuple[StoryScene, ...]
    missing: tuple[str, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for the whole film, where it has scenes."""
    _ = desk.words
    if desk.shoot.plan.scenes:
        people = desk.workers("director", "direction", "script", "continuity")
        yield Sheet("director", "director", desk.head(_("Director")), partial(view, desk), people=people)


def view(desk: Desk) -> Director:
    """Scenes in the order of the plan, which is that of the story."""
    _ = desk.words
    plan, say = desk.shoot.plan, desk.say
    frames: dict[tuple[str, str, float | None], str] = {}
    scenes = tuple(_scene(desk, scene, frames) for scene in plan.scenes.values())
    missing = tuple(
        _("Scene {scene}: {want}", scene=scene.number, want=want) for scene in scenes for want in scene.wants
    )
    first = next(((line, name) for line in desk.shoot.days for name in line.setups), None)
    when, what, where = "", _("Nothing planned yet"), ""
    if first is not None:
        line, name = first
        when = say.clock(line.rolling(name))
        shots = ", ".join(shot.id for shot in plan.shots_of(name))
        what = join(" · ", (_("First: {shots}", shots=shots) if shots else "", say.setup(name)))
        where = join(", ", (say.place_of(name), desk.day_words(line), desk.date_words(line.day.date)))
    return Director(when, what, where, tuple(_look(desk)), scenes, missing)


def _look(desk: Desk) -> Iterator[Pair]:
    _ = desk.words
    film = desk.shoot.plan.film
    if film.synopsis:
        yield Pair(_("story"), film.synopsis)
    if film.look:
        look = film.look
        yield from (
            Pair(name, words)
            for name, words in (
                (_("palette"), ", ".join(look.palette)), (_("contrast"), look.contrast or ""),
                (_("references"), ", ".join(look.references)), (_("look"), " ".join(look.note)),
            )
            if words
        )  # fmt: skip


def _scene(desk: Desk, scene: Scene, frames: dict[tuple[str, str, float | None], str]) -> StoryScene:
    _ = desk.words
    eighths = scene.pages or 0
    said = desk.say.value("eighths", eighths)
    pages = _.count("{pages} page", "{pages} pages", 1 if eighths <= 8 else 2, pages=said) if eighths else ""
    return StoryScene(
        number=scene.id, heading=scene.heading or "", about=scene.synopsis or "",
        aside=join(" · ", (", ".join(scene.characters), pages, scene.look or "")),
        shots=tuple(_shot(desk, shot, frames) for shot in scene.shots.values()), wants=tuple(_wants(desk, scene)),
    )  # fmt: skip


def _shot(desk: Desk, shot: Shot, frames: dict[tuple[str, str, float | None], str]) -> StoryShot:
    _ = desk.words
    plan, say = desk.shoot.plan, desk.say
    frame, same, when, day = Markup(""), "", "", ""
    if shot.setup and shot.setup in plan.setups:
        key = (shot.setup, shot.lens or "", shot.zoom)
        if key in frames:
            same = frames[key]
        else:
            frame = Markup(eye_view(plan, shot.setup, _, width=FRAME, shot=shot).svg)
            frames[key] = shot.id if frame else ""
        line = next((line for line in desk.shoot.days if shot.setup in line.setups), None)
        if line is not None:
            day = desk.day_words(line) if len(desk.shoot.days) > 1 else ""
            when = say.clock(line.rolling(shot.setup))
    aside = join(" · ", (
        say.setup(shot.setup) if shot.setup else _("NO SETUP YET"), say.value("duration", shot.takes),
        _("lens {lens}", lens=say.thing(shot.lens)) if shot.lens else "",
        _("references: {what}", what=", ".join(shot.references)) if shot.references else "",
        _("else: {what}", what=shot.plan_b) if shot.plan_b else "", shot.vfx or "",
    ))  # fmt: skip
    return StoryShot(
        shot.id, frame, same, desk.shot_words(shot), when, day, aside, desk.priority(shot.priority), shot.note,
        desk.marking.at(shot.path, f"{shot.path}.size", f"{shot.path}.setup"),
    )  # fmt: skip


def _wants(desk: Desk, scene: Scene) -> Iterator[str]:
    """What of a scene nobody has planned to take."""
    _ = desk.words
    if not scene.shots:
        yield _("no shots yet")
        return
    loose = [shot.id for shot in scene.shots.values() if not shot.setup]
    if loose:
        yield _("no setup for {shots}", shots=", ".join(loose))
    seen = {c for shot in scene.shots.values() for c in _seen(scene, shot)}
    for character in scene.characters:
        if character not in seen:
            yield _("{character} is in no shot", character=character)
    planned = {name for line in desk.shoot.days if line.day.id for name in line.setups}
    unplanned = [shot.id for shot in scene.shots.values() if shot.setup and shot.setup not in planned]
    if unplanned:
        yield _("on no day: {shots}", shots=", ".join(unplanned))


def _seen(scene: Scene, shot: Shot) -> tuple[str, ...]:
    return scene.characters if shot.cast is None else tuple(character for character, _person in shot.cast)
