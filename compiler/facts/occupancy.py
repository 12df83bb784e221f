"""What takes which piece of gear: every use a setup makes of a thing, and which setups stand hot at the same time."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from ..plan import Plan
    from ..plan.setup import Setup


class Use(NamedTuple):
    """One piece taken by a part of a setup: any of `among` (best liked first), said at `path`, by `who` in the
    words of the crew ("'quay'", "the camera")."""

    among: tuple[str, ...]
    path: str
    who: str
    setup: str

    @property
    def thing(self) -> str:
        """The best liked."""
        return self.among[0]


class Moment(NamedTuple):
    """A setup of an agreed order, with the setups that stay hot while it is rigged and shot."""

    day: str
    setup: str
    held: tuple[str, ...]


class TooFew(NamedTuple):
    """A shortage: the things that could serve, the uses that want them, and how many pieces there are in all."""

    things: tuple[str, ...]
    uses: tuple[Use, ...]
    pieces: int


def uses(plan: Plan, setup: Setup) -> tuple[Use, ...]:
    """Every piece of gear that a setup takes, in the order of the text. Stock is not gear: it is cut, not taken."""
    found = [*_camera(setup), *_lights(setup), *_around(setup)]
    kept = (Use(tuple(n for n in u.among if n in plan.gear), *u[1:]) for u in found)
    return tuple(u for u in kept if u.among)


def _camera(setup: Setup) -> Iterator[Use]:
    camera = setup.camera
    if camera is None:
        return
    p = camera.path
    singles = (("body", camera.body), ("lens", camera.lens), ("on", camera.on), ("battery", camera.battery))
    for key, name in singles:
        if name:
            yield Use((name,), f"{p}.{key}", "the camera", setup.id)
    for key, names in (("filters", camera.filters), ("adapters", camera.adapters), ("media", camera.media)):
        for i, name in enumerate(names):
            yield Use((name,), f"{p}.{key}.{i}", "the camera", setup.id)


def _lights(setup: Setup) -> Iterator[Use]:
    for light in setup.lights.values():
        who = f"'{light.id}'"
        if light.lamp:
            yield Use(light.lamp, f"{light.path}.lamp", who, setup.id)
        for i, name in enumerate(light.with_):
            yield Use((name,), f"{light.path}.with.{i}", who, setup.id)
        for key, one in (("on", light.on), ("battery", light.battery)):
            if one:
                yield Use((one,), f"{light.path}.{key}", who, setup.id)
        for i, name in enumerate(light.lead):
            yield Use((name,), f"{light.path}.lead.{i}", who, setup.id)
        if light.bounce and light.bounce.use:
            yield Use((light.bounce.use,), f"{light.path}.bounce", who, setup.id)


def _around(setup: Setup) -> Iterator[Use]:
    for practical in setup.practicals.values():
        for key, name in (("prop", practical.prop), ("bulb", practical.bulb), ("battery", practical.battery)):
            if name:
                yield Use((name,), f"{practical.path}.{key}", f"'{practical.id}'", setup.id)
    for grip in setup.grip.values():
        for key, name in (("use", grip.use), ("on", grip.on)):
            if name:
                yield Use((name,), f"{grip.path}.{key}", f"'{grip.id}'", setup.id)
    for name, window in setup.windows.items():
        for i, layer in enumerate(window.layers):
            yield Use((layer,), f"{window.path}.layers.{i}", f"window '{name}'", setup.id)
    sound = setup.sound
    if sound is not None:
        for key, one in (("boom", sound.boom), ("recorder", sound.recorder)):
            if one:
                yield Use((one,), f"{sound.path}.{key}", "the sound", setup.id)
        for i, one in enumerate(sound.wireless):
            yield Use((one,), f"{sound.path}.wireless.{i}", "the sound", setup.id)


_TAKES = {
    "on": ("support", "grip", "furniture"),
    "media": ("media", "drive"),
    "battery": ("battery", "power"),
    "with": ("modifier", "grip", "filter", "adapter"),
}  # what may be named under a key; anything else is reported by the rule about that key, and taken by nobody


def is_proper(plan: Plan, use: Use) -> bool:
    """Whether a thing can serve the use it is named for."""
    steps = use.path.split(".")
    key = steps[-2] if steps[-1].isdigit() else steps[-1]
    return key not in _TAKES or plan.gear[use.thing].kind in (None, *_TAKES[key])


def owned(plan: Plan, thing: str) -> int:
    """How many of a thing there are."""
    quantity = plan.gear[thing].quantity
    return 1 if quantity is None else quantity


def short(plan: Plan, wanted: Iterable[Use]) -> list[TooFew]:
    """What is taken more often than it is there, each shortage once.

    Uses are given pieces one after another, moving earlier ones to another thing they may take (augmenting paths over
    things, each with as many pieces as there are). Where that fails, the things reached and the uses that hold them
    are the shortage.
    """
    holders: dict[str, list[Use]] = {}
    found: list[tuple[dict[str, None], list[Use]]] = []
    for use in wanted:
        for things, uses_ in found:
            if all(t in things for t in use.among):
                uses_.append(use)
                break
        else:
            reached = _give(plan, use, holders)
            if reached is not None:
                found.append((reached, [*(u for t in reached for u in holders.get(t, ())), use]))
    return [TooFew(tuple(t), tuple(us), sum(owned(plan, thing) for thing in t)) for t, us in found]


def _give(plan: Plan, use: Use, holders: dict[str, list[Use]]) -> dict[str, None] | None:
    """Give a use a piece; None where that was possible, else every thing that was reached in vain."""
    came: dict[str, tuple[Use, str]] = dict.fromkeys(use.among, (use, ""))
    queue = list(use.among)
    for thing in queue:
        mine = holders.setdefault(thing, [])
        if len(mine) < owned(plan, thing):
            while True:
                taker, before = came[thing]
                holders[thing].append(taker)
                if not before:
                    return None
                holders[before].remove(taker)
                thing = before
        for other in mine:
            for t in other.among:
                if t not in came:
                    came[t] = (other, thing)
                    queue.append(t)
    return dict.fromkeys(queue)


def inside(plan: Plan, setup_id: str) -> frozenset[str]:
    """The setups that are like this one, over any number of steps, and itself."""
    below: dict[str, list[str]] = {}
    for name, setup in plan.setups.items():
        if setup.like:
            below.setdefault(setup.like, []).append(name)
    found = {setup_id: None}
    queue = [setup_id]
    for name in queue:
        for child in below.get(name, ()):
            if child not in found:
                found[child] = None
                queue.append(child)
    return frozenset(found)


def sequence(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Day and setup, over all days that have an agreed order and the main unit's; other entries are left out."""
    days = (day for day in plan.days.values() if day.unit != "second")
    return tuple((day.id, name) for day in days for name in day.order if name in plan.setups)


def follows_crew(plan: Plan, thing: str) -> bool:
    """Whether a thing goes where the crew shoots, and so is no part of what stays hot: the camera and what it shoots
    with, and the sound."""
    gear = plan.gear.get(thing)
    return gear is not None and gear.kind in ("camera", "lens", "filter", "adapter", "media", "sound", "monitor")


def stays_hot(plan: Plan, use: Use) -> bool:
    """Whether a use stays behind in a set that is held hot; the support and the battery of the camera do not."""
    return not use.path.startswith((f"setups.{use.setup}.camera", f"setups.{use.setup}.sound")) and not follows_crew(
        plan, use.thing
    )


def moments(plan: Plan) -> tuple[Moment, ...]:
    """Every setup of the agreed orders with what stays hot meanwhile. A setup that is like a held one works inside it
    and takes from it freely, so the held one does not stand beside it."""
    row = sequence(plan)
    holds: list[tuple[int, int, str, frozenset[str]]] = []
    for i, (_, name) in enumerate(row):
        hold = plan.setups[name].held_until
        if hold:
            end = next((k for k in range(i + 1, len(row)) if row[k][1] == hold), i)
            if end == i and plan.day_of(hold) != row[i][0]:
                end = len(row)  # held over to a day of which no order is agreed
            holds.append((i, end, name, inside(plan, name)))
    found = []
    for k, (day, name) in enumerate(row):
        held = dict.fromkeys(h for i, end, h, within in holds if i < k < end and name not in within)
        found.append(Moment(day, name, tuple(held)))
    return tuple(found)
