"""What a plan says of the details that go into a figure, for one setup: as it is written, and where."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..source.tree import Mapping, Scalar, Sequence

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..plan.light import Light, Practical
    from ..plan.setup import Setup
    from .figure import Figure

_PARTS = {"light": "lights", "treatment": "windows", "practical": "practicals", "grip": "grip"}
_OF_ROOM = {"window": "windows", "mirror": "mirrors", "door": "doors", "outlet": "outlets", "walkway": "walkways",
            "furniture": "furniture", "mark": "marks"}  # fmt: skip


class Input(NamedTuple):
    """A detail as it is written: of what, which key, its text, and the plan path."""

    of: str
    key: str
    text: str
    path: str


def inputs(facts: Facts, setup: Setup, figure: Figure) -> tuple[Input, ...]:
    """The details a figure wants that the plan says for a setup, each once."""
    plan = facts.plan
    found: list[Input] = []
    for want in figure.wants:
        noun, _, key = want.partition(".")
        for words, path in _things(facts, setup, noun):
            at = f"{path}.{key}" if path else key
            text = _text(plan.value_at(at))
            if text:
                found.append(Input(words, key, text, at))
    return tuple(dict.fromkeys(found))


def _things(facts: Facts, setup: Setup, noun: str) -> Iterator[tuple[str, str]]:
    """Name and plan path of everything of a kind that a setup has to do with."""
    plan = facts.plan
    place, room = plan.location_of(setup.id), plan.set_of(setup.id)
    if noun in _PARTS:
        yield from ((one.id, one.path) for one in getattr(setup, _PARTS[noun]).values())
    elif noun in _OF_ROOM:
        whole = getattr(room, _OF_ROOM[noun], {}) if room else {}
        yield from ((one.id.rpartition("/")[2], one.path) for one in whole.values())
    elif noun == "effect":
        sources: list[Light | Practical] = [*setup.lights.values(), *setup.practicals.values()]
        yield from ((one.id, one.effect.path) for one in sources if one.effect is not None)
    elif noun == "gear":
        taken = dict.fromkeys(name for use in facts.uses.get(setup.id, ()) for name in use.among)
        yield from ((name, plan.gear[name].path) for name in taken if name in plan.gear)
    elif noun == "stock":
        yield from ((one.id, one.path) for one in plan.stock.values())
    elif noun == "circuit" and place is not None:
        used = {light.circuit for light in setup.lights.values()} | {p.circuit for p in setup.practicals.values()}
        yield from ((c.id.rpartition("/")[2], c.path) for c in place.circuits.values() if c.id in used)
    elif noun == "shot":
        yield from ((shot.id, shot.path) for shot in facts.shots_of.get(setup.id, ()))
    elif noun == "person":
        yield from ((p, plan.people[p].path) for p in _cast(setup) if p in plan.people)
    else:
        yield from _one(facts, setup, noun)


def _one(facts: Facts, setup: Setup, noun: str) -> Iterator[tuple[str, str]]:
    """What there is one of."""
    plan, day = facts.plan, facts.day_of.get(setup.id)
    place = plan.location_of(setup.id)
    if noun == "setup":
        yield setup.id, setup.path
    elif noun == "camera" and setup.camera is not None:
        yield "camera", setup.camera.path
    elif noun == "move" and setup.move is not None:
        yield "move", setup.move.path
    elif noun == "location" and place is not None:
        yield place.id, place.path
    elif noun == "day" and day is not None:
        yield f"day {day}", f"days.{day}"
    elif noun == "post":
        yield "post", "post"
    elif noun == "film":
        yield "film", ""


def _cast(setup: Setup) -> tuple[str, ...]:
    return tuple(person for _, person in setup.cast or ())


def _text(node: object) -> str:
    """A value as written on one line; "" where it is not one."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Sequence):
        return ", ".join(filter(None, map(_text, node.items)))
    if isinstance(node, Mapping):
        return ", ".join(f"{key} {said}" for key, _, value in node if (said := _text(value)))
    return ""
