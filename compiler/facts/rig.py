"""What each setup needs to stand where, in which state: lamps, camera, cloth on windows, grip, practicals, dressing.

Interchangeable pieces (a quantity, or `lamp: [panel, tube]`) stay open: which piece serves which need is decided by
whoever orders the day. "Nothing here" is a need too: what would stand in the picture has to go, and a window that a
setup does not treat has to be untreated.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record
from ..source.quantities import Around, Towards, show
from . import places
from .clear import in_view

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..plan import Plan
    from ..plan.light import Grip, Light, Practical, Treatment
    from ..plan.setup import Setup
    from ..plan.spots import Spot

XY = tuple[float, float]


@record
class State:
    """Where a piece stands and how: the set, the place in the crew's words, metres in that set where they are known,
    and the settings (key, words) that make a difference to the rigging."""

    room: str
    place: str
    at: XY | None
    setting: tuple[tuple[str, str], ...]

    def get(self, key: str) -> str:
        """The words of one setting, "" where it is not said."""
        return next((words for name, words in self.setting if name == key), "")


@record
class Piece:
    """A thing of gear or stock, a window, a dressing: `kind` tells how it is changed over, `count` how many alike
    there are, `people` how many it takes to change one over."""

    id: str
    kind: str
    count: int
    people: int = 1


@record
class Need:
    """One need of a setup: what asks for it (the plan's path), and the options (piece, state), best liked first."""

    path: str
    options: tuple[tuple[str, State], ...]


@record
class SetupRig:
    """The rig of one setup. `clear` are (piece, state) that would be in the way; `bare` windows must be untreated;
    without `detailed` the plan says nothing of the rigging."""

    setup: str
    room: str
    needs: tuple[Need, ...]
    clear: tuple[tuple[str, State], ...]
    bare: tuple[str, ...]
    detailed: bool


@record
class Rig:
    """The pieces of a day by id, and the rig of each of its setups in the order of the text."""

    pieces: dict[str, Piece]
    setups: tuple[SetupRig, ...]


def rig(plan: Plan, setup_ids: tuple[str, ...]) -> Rig:
    """The rig of these setups."""
    pieces: dict[str, Piece] = {}
    raw: list[tuple[Setup, tuple[Need, ...]]] = []
    for name in setup_ids:
        setup = plan.setups[name]
        needs = tuple(_needs(plan, setup))
        raw.append((setup, needs))
        _count(plan, pieces, needs)
    found = []
    for setup, needs in raw:
        room = setup.set or ""
        others = [(p, s) for _, them in raw for n in them for p, s in n.options if s.room == room and s.at]
        mine = [o for n in needs for o in n.options]
        clear = tuple(
            o for o in in_view(plan, setup, others) if o not in mine and pieces[o[0]].kind in ("lamp", "grip")
        )
        treated = {p for n in needs for p, _ in n.options if pieces[p].kind == "window"}
        detailed = bool(needs)
        open_ = {f"window {t.id if '/' in t.id else f'{room}/{t.id}'}" for t in setup.windows.values() if t.open}
        wanted = [*(_windows(plan, room) if detailed else ()), *sorted(open_)]
        bare = tuple(w for w in dict.fromkeys(wanted) if w in pieces and w not in treated)
        found.append(SetupRig(setup.id, room, needs, tuple(dict.fromkeys(clear)), bare, detailed))
    return Rig(pieces, tuple(found))


def _count(plan: Plan, pieces: dict[str, Piece], needs: tuple[Need, ...]) -> None:
    """Take note of the pieces; never fewer than one setup takes at once (that there are too few is said elsewhere)."""
    at_once: dict[str, int] = {}
    for need in needs:
        for k, (name, state) in enumerate(need.options):
            at_once[name] = at_once.get(name, 0) + (k == 0)
            if name not in pieces:
                gear = plan.gear.get(name)
                kind = _kind(state)
                count = gear.quantity if gear is not None and gear.quantity else 1
                pieces[name] = Piece(name, kind, count, 2 if kind == "window" else 1)
    for name, count in at_once.items():
        if count > pieces[name].count:
            pieces[name] = Piece(name, pieces[name].kind, count, pieces[name].people)


def _kind(state: State) -> str:
    return state.get("is") or "lamp"


def _windows(plan: Plan, room: str) -> list[str]:
    place = plan.sets.get(room)
    return [f"window {w.id}" for w in place.windows.values()] if place else []


def _needs(plan: Plan, setup: Setup) -> Iterator[Need]:
    room = setup.set or ""
    if setup.camera is not None and (setup.camera.at or setup.camera.lens or setup.camera.on):
        yield Need(setup.camera.path, ((setup.camera.body or "camera", _camera(plan, setup)),))
    for light in setup.lights.values():
        state = _lamp(plan, setup, light)
        yield Need(light.path, tuple((name, state) for name in light.lamp or (f"lamp '{light.id}'",)))
        if light.bounce is not None and light.bounce.use:
            at = light.bounce.at
            words = _words(plan, setup, at, room) if at else f"beyond the aim of '{light.id}'"
            spot = places.spot(plan, setup, at, room) if at else None
            yield Need(light.path, ((light.bounce.use, State(room, words, _xy(spot), (("is", "grip"),))),))
    for treatment in setup.windows.values():
        state_ = _treated(treatment, room)
        if state_ is not None:
            yield Need(treatment.path, ((f"window {state_.place}", state_),))
    for item in setup.grip.values():
        yield Need(item.path, ((item.use or f"'{item.id}'", _grip(plan, setup, item)),))
    for practical in setup.practicals.values():
        name = practical.prop or f"practical {room}/{practical.id}"
        yield Need(practical.path, ((name, _practical(plan, setup, practical)),))
    if setup.dressing:
        words = ", ".join(setup.dressing)
        state = State(room, "the set", None, (("is", "dressing"), ("dressing", words)))
        yield Need(f"{setup.path}.dressing", ((f"dressing of {room}" if room else "dressing", state),))


def _camera(plan: Plan, setup: Setup) -> State:
    camera = setup.camera
    assert camera is not None
    room = setup.set or ""
    on = camera.on or ("hand" if camera.held_by else "")
    gear = plan.gear.get(on)
    balanced = "gimbal" in on or (gear is not None and "gimbal" in (gear.of or ""))
    setting = (
        ("is", "camera"),
        ("on", on),
        ("gimbal", "gimbal" if balanced else ""),
        ("lens", " ".join(w for w in (camera.lens, *camera.adapters) if w)),
        ("filters", ", ".join(camera.filters)),
        ("height", _length(plan, camera.height)),
        ("aim", _aim_words(plan, setup, camera.aim.at if camera.aim else None) if camera.aim else ""),
    )
    at = places.spot(plan, setup, camera.at)
    return State(room, _words(plan, setup, camera.at, room) or f"for '{setup.id}'", _xy(at), setting)


def _lamp(plan: Plan, setup: Setup, light: Light) -> State:
    gels = [w for w in light.with_ if w in plan.stock]
    support = plan.gear.get(light.on or "")
    boom = support is not None and (bool(support.counterweight) or "boom" in (light.on or ""))
    effect = light.effect
    room = light.in_ or (light.outside.rsplit("/", 1)[0] if light.outside else setup.set) or ""
    at = None if light.outside else places.spot(plan, setup, light.at, room or None)
    setting = (
        ("on", light.on or ""),
        ("boom-arm", "boom" if boom else ""),
        ("held-by", light.held_by or ""),
        ("with", ", ".join(w for w in light.with_ if w not in plan.stock)),
        ("gel", ", ".join(gels)),
        ("height", _length(plan, light.height)),
        ("aim", _aim_words(plan, setup, light.aim.at if light.aim else None)),
        ("colour", f"{light.colour:g} K" if light.colour is not None else ""),
        ("level", f"{light.level * 100:g} %" if light.level is not None else ""),
        ("circuit", light.circuit or ""),
        ("effect", "flashing" if effect and effect.flashes else "flickering" if effect and effect.flickers else ""),
    )
    if light.held_by and light.at is None:
        return State(room, "in hand", None, setting)
    if light.outside:
        away = f", {_length(plan, light.away)} away" if light.away is not None else ""
        along = f", {_length(plan, light.along)} along" if light.along else ""
        return State(room, f"outside {light.outside.rsplit('/', 1)[1]}{away}{along}", None, setting)
    return State(room, _words(plan, setup, light.at, room) or f"as '{light.id}'", _xy(at), setting)


def _treated(treatment: Treatment, room: str) -> State | None:
    name = treatment.id if "/" in treatment.id else f"{room}/{treatment.id}"
    if treatment.black_out:
        kind, of = "black-out", treatment.black_out
    elif treatment.tent:
        kind, of = "tent", treatment.tent
    elif treatment.layers:
        kind, of = "layers", ", ".join(treatment.layers)
    else:
        return None
    depth = f"{treatment.depth:g} m deep" if treatment.depth is not None else ""
    how = " ".join(w for w in (of, depth, treatment.side or "", str(treatment.layers_of or "")) if w)
    return State(name.rsplit("/", 1)[0], name, None, (("is", "window"), ("kind", kind), ("of", how)))


def _grip(plan: Plan, setup: Setup, item: Grip) -> State:
    room = setup.set or ""
    at = places.spot(plan, setup, item.at)
    where = _words(plan, setup, item.at, room) or (f"on the {item.on}" if item.on else f"as '{item.id}'")
    size = f"{item.size[0]:g} m x {item.size[1]:g} m" if item.size else ""
    setting = (("is", "grip"), ("size", size), ("height", _length(plan, item.height)), ("on", item.on or ""))
    return State(room, where, None if item.held_by else _xy(at), setting)


def _practical(plan: Plan, setup: Setup, item: Practical) -> State:
    room = setup.set or ""
    setting = (
        ("is", "practical"),
        ("bulb", item.bulb or ""),
        ("circuit", item.circuit or ""),
        ("level", f"{item.level * 100:g} %" if item.level is not None else ""),
        ("colour", f"{item.colour:g} K" if item.colour is not None else ""),
    )
    return State(room, _words(plan, setup, item.at, room) or f"its place '{item.id}'", None, setting)


def _words(plan: Plan, setup: Setup, at: Spot | None, room: str) -> str:
    """A place as the crew says it, so that the same place has the same words whatever camera it is told from."""
    if at is None:
        return ""
    found = places.spot(plan, setup, at, room or None)
    if found is not None and isinstance(at, Around | Towards):
        return f"[{found[0]:.1f} m, {found[1]:.1f} m]"
    if hasattr(at, "mark") and not isinstance(at, Around):
        return f"{at.mark}"
    if isinstance(at, Around):
        return str(show("spot", at))
    if isinstance(at, Towards):
        return f"{at.metres:g} m from {at.start} towards {at.end}"
    return f"[{at.x:g} m, {at.y:g} m]" if hasattr(at, "x") else ""


def _aim_words(plan: Plan, setup: Setup, at: Spot | None) -> str:
    return _words(plan, setup, at, setup.set or "")


def _length(plan: Plan, metres: float | None) -> str:
    return "" if metres is None else show("length", float(metres), plan.film.lengths or "metric")


def _xy(at: XY | None) -> XY | None:
    return None if at is None else (round(at[0], 2), round(at[1], 2))
