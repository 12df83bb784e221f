"""What there is to do for one setup: lines to tick by department, each with what is found in the plan about it."""

from __future__ import annotations

from collections.abc import Iterator
from hashlib import sha256

from ...plan.scene import Scene
from ...record import record
from .. import camera, lighting
from ..changes import before_in_set
from ..desk import Desk
from ..load import LoadLine
from ..say import join, plain
from ..setup_card import sound_words
from ..shoot import DayLine
from ..standing import leaving
from ..view import Mark, Said
from .who import Who


@record
class Line:
    """Something to tick. `key` changes when its words do, so that a tick never stands at what nobody has done; without
    a key there is nothing to tick.

    `name` is what the sentence calls it; `says` is a sentence of its own where it has one; `tokens` whom it is for;
    with `flow` the words run on in one paragraph.
    """

    key: str
    name: str
    words: tuple[Said, ...] = ()
    step: str = ""
    number: str = ""
    aside: str = ""
    care: str = ""
    marks: tuple[Mark, ...] = ()
    tokens: str = ""
    says: str = ""
    flow: bool = False


@record
class Part:
    """What one department does for a setup: lines to tick, what stays as it is, and what is good to know."""

    name: str
    tokens: str
    lines: tuple[Line, ...] = ()
    kept: str = ""
    loads: tuple[LoadLine, ...] = ()
    notes: tuple[Said, ...] = ()
    marks: tuple[Mark, ...] = ()


def key(*parts: str) -> str:
    """Twelve characters that stand for these words."""
    return sha256("\0".join(parts).encode("utf-8", "surrogatepass")).hexdigest()[:12]


def parts(desk: Desk, line: DayLine, setup: str, who: Who) -> tuple[Part, ...]:
    """All departments that have something to do or to know."""
    made = (
        _leaving(desk, line, setup, who), _light(desk, line, setup, who), _camera(desk, line, setup, who),
        _sound(desk, line, setup, who), _art(desk, line, setup, who), _wardrobe(desk, line, setup, who),
    )  # fmt: skip
    return tuple(p for p in made if p.lines or p.kept or p.marks or p.notes)


def _leaving(desk: Desk, line: DayLine, name: str, who: Who) -> Part:
    """What is still to be taken out of the room that was left before this setup."""
    _ = desk.words
    place = line.setups.index(name)
    left = leaving(desk, line, line.setups[place - 1]) if place else None
    if left is None:
        return Part("", "")
    lines = [
        Line(key(name, "leave", words), _("{thing} (out of {room})", thing=words, room=left.room), (), "remove",
             tokens=who.crafts(*crafts))
        for crafts, things in ((("light",), left.lamps), (("light", "grip"), left.cloth), (("art",), left.art))
        for words in things
    ]  # fmt: skip
    return Part(left.title, _tokens(lines, ""), tuple(lines))


def _light(desk: Desk, line: DayLine, name: str, who: Who) -> Part:
    """Lamps, windows, cloth and practicals against what stands there from before."""
    _ = desk.words
    state = lighting.light_state(desk, line, name)
    setup = desk.shoot.plan.setups[name]
    lines = []
    for lamp in state.lamps:
        called, _comma, what = lamp.name.partition(", ")
        words = tuple(Said(text) for text in (join(" · ", (what, lamp.lamp)), lamp.place, lamp.settings) if text)
        # What stays is listed only for what is found about it: there is nothing to tick.
        stays = lamp.step == "keep"
        lines.append(Line(
            "" if stays else key(name, "lamp", lamp.step, called, *(w.words for w in words)),
            called, words, lamp.step, str(lamp.number),
            care=lamp.care, marks=lamp.marks, tokens=who.crafts("light"),
        ))  # fmt: skip
    for other in state.others:
        of = ("light", "grip", "art") if other.name in {plain(p) for p in setup.practicals} else ("light", "grip")
        lines.append(Line(
            "" if other.step == "keep" else key(name, "rig", other.step, other.name, other.words), other.name,
            (Said(other.words),) if other.words else (), other.step, marks=other.marks, tokens=who.crafts(*of),
        ))  # fmt: skip
    return Part(
        _("Light and cloth"), _tokens(lines, who.crafts("light", "grip")), tuple(lines), state.kept, state.loads,
        tuple(Said(note) for note in (*state.notes, state.meter) if note), state.marks,
    )  # fmt: skip


def _camera(desk: Desk, line: DayLine, name: str, who: Who) -> Part:
    """The camera as one thing to build: what it stands on and looks at, with what differs from the setup before."""
    _ = desk.words
    setup = desk.shoot.plan.setups[name]
    if setup.camera is None:
        return Part(_("Camera"), "")
    place = line.setups.index(name)
    before = desk.shoot.plan.setups[line.setups[place - 1]] if place else None
    fields = camera.fields(desk, setup, before)
    main = tuple(f for f in fields if f.core or f.new)
    words = tuple(Said(f"{f.name} {f.words}", f.typical) for f in main)
    changes = ", ".join(f.name for f in main if f.new)
    tokens = who.crafts("camera", people=(setup.camera.held_by,) if setup.camera.held_by in who.here else ())
    built = Line(
        key(name, "camera", *(w.words for w in words)), _("Camera"), words, "change" if changes else "new",
        aside=_("changes: {what}", what=changes) if changes else "", tokens=tokens, flow=True,
    )  # fmt: skip
    rest = tuple(Said(f"{f.name} {f.words}", f.typical) for f in fields if f not in main)
    notes = (*rest, *(Said(note) for note in setup.camera.note))
    marks = desk.marking.under(f"{setup.path}.camera", f"{setup.path}.move")
    if before and not changes:
        return Part(_("Camera"), tokens, kept=" · ".join(w.words for w in words), notes=notes, marks=marks)
    return Part(_("Camera"), tokens, (built,), notes=notes, marks=marks)


def _sound(desk: Desk, line: DayLine, name: str, who: Who) -> Part:
    _ = desk.words
    setup = desk.shoot.plan.setups[name]
    words = sound_words(desk, name)
    if not words:
        return Part(_("Sound"), "")
    place = line.setups.index(name)
    same = place > 0 and sound_words(desk, line.setups[place - 1]) == words
    by = setup.sound.by if setup.sound and setup.sound.by in who.here else None
    tokens = who.crafts("sound", people=(by,) if by else ())
    marks = desk.marking.under(f"{setup.path}.sound")
    if same:
        return Part(_("Sound"), tokens, kept=words, marks=marks)
    placed = Line(key(name, "sound", words), _("Sound"), (Said(words),), "change" if place else "new", tokens=tokens)
    return Part(_("Sound"), tokens, (placed,), marks=marks)


def _art(desk: Desk, line: DayLine, name: str, who: Who) -> Part:
    """Dressing and props: what comes and goes against the setup before in the same set."""
    _ = desk.words
    plan = desk.shoot.plan
    setup = plan.setups[name]
    before = before_in_set(plan, line.setups, name)
    old = before.dressing if before else ()
    tokens = who.crafts("art")
    steps = [("new", text) for text in setup.dressing if text not in old]
    steps += [("remove", text) for text in old if text not in setup.dressing]
    earlier = _props(desk, before.id) if before else ()
    steps += [("new", text) for text in _props(desk, name) if text not in earlier]
    steps += [("remove", text) for text in earlier if text not in _props(desk, name)]
    lines = tuple(Line(key(name, "art", step, text), text, (), step, tokens=tokens) for step, text in steps)
    kept = ", ".join(text for text in setup.dressing if text in old)
    return Part(_("Set and props"), tokens, lines, kept, marks=desk.marking.under(f"{setup.path}.dressing"))


def _props(desk: Desk, name: str) -> tuple[str, ...]:
    found = dict.fromkeys(prop for scene in _scenes(desk, name) for prop in scene.props)
    return tuple(desk.say.thing(prop) for prop in found)


def _wardrobe(desk: Desk, line: DayLine, name: str, who: Who) -> Part:
    """What each character in the setup wears and how they are made up, where that changes."""
    _ = desk.words
    tokens = who.crafts("wardrobe")
    place = line.setups.index(name)
    worn: dict[str, str] = {}
    for setup in line.setups[:place]:
        worn.update({role: words for role, _person, words in _looks(desk, setup)})
    lines = tuple(
        Line(key(name, "wardrobe", role, words), role, (Said(words),), "change" if role in worn else "new",
             tokens=who.crafts("wardrobe", people=(person,) if person in who.here else ()))
        for role, person, words in _looks(desk, name) if worn.get(role) != words
    )  # fmt: skip
    return Part(_("Wardrobe and make-up"), _tokens(lines, tokens), lines)


def _looks(desk: Desk, name: str) -> Iterator[tuple[str, str, str]]:
    """Character, who plays it, and what the scene says of clothes and face; each character once."""
    plan = desk.shoot.plan
    seen: set[str] = set()
    for shot in plan.shots_of(name):
        scene = plan.scenes[plan.scene_of[shot.id]]
        roles = [role for role, _person in shot.cast] if shot.cast is not None else scene.characters
        for role in roles:
            words = join(" · ", (scene.wardrobe.get(role, ""), scene.make_up.get(role, "")))
            if words and role not in seen:
                seen.add(role)
                yield role, next((n for n, p in plan.people.items() if role in p.plays), ""), words


def _scenes(desk: Desk, name: str) -> tuple[Scene, ...]:
    plan = desk.shoot.plan
    return tuple(plan.scenes[s] for s in dict.fromkeys(plan.scene_of[shot.id] for shot in plan.shots_of(name)))


def _tokens(lines: tuple[Line, ...] | list[Line], own: str) -> str:
    """Tokens of a part: its own department's and those of its lines."""
    return " ".join(dict.fromkeys(" ".join((own, *(line.tokens for line in lines))).split()))
