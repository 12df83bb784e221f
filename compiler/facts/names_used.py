"""Which things, cloths, setups and scenes of a plan are spoken of anywhere, and which names were meant for them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..source.tree import Mapping, Scalar, Sequence
from . import occupancy

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from ..plan import Plan
    from ..plan.setup import Setup
    from ..source.tree import Node

_NAMING = frozenset(
    (
        "lamp", "with", "on", "lens", "body", "filters", "adapters", "battery", "media", "lead", "bounce", "use",
        "prop", "bulb", "boom", "recorder", "wireless", "black-out", "tent", "layers", "thing", "setup", "like",
        "after", "before", "order", "setups", "held-until", "plan-b", "charges", "props", "dressing",
    )
)  # fmt: skip


def things(plan: Plan) -> set[str]:
    """Gear and stock that setups, shots, scenes, rooms or other things name."""
    used: set[str] = set()
    for setup in plan.setups.values():
        used.update(name for use in occupancy.uses(plan, setup) for name in use.among)
        for light in setup.lights.values():
            used.update(light.with_)
            if light.bounce and light.bounce.use:
                used.add(light.bounce.use)
        for window in setup.windows.values():
            used.update(n for n in (window.black_out, window.tent, *window.layers) if n)
        used.update(g.use for g in setup.grip.values() if g.use)
        used.update(p.bulb for p in setup.practicals.values() if p.bulb)
        used.update(setup.dressing)
    for shot in plan.shots.values():
        used.update(n for n in (shot.lens, *shot.filters) if n)
    for scene in plan.scenes.values():
        used.update((*scene.props, *scene.dressing, *scene.effects, *scene.wardrobe.values()))
    for room in plan.sets.values():
        used.update(f.thing for f in room.furniture.values() if f.thing)
    for person in plan.people.values():
        used.update(person.wears.values())
    for gear in plan.gear.values():
        used.update((*gear.needs, *gear.plan_b, *gear.charges, gear.battery or "", gear.bulb or ""))
    return used


def meant(plan: Plan, candidates: Iterable[str]) -> set[str]:
    """Of these names those that a misspelt name of the plan was most likely meant for: their fault is reported at the
    misspelling."""
    wanted = set(candidates)
    if not wanted or plan.source.root is None:
        return set()
    known = {*plan.gear, *plan.stock, *plan.setups, *plan.shots, *plan.sets, *(n.split("/")[-1] for n in plan.sets)}
    stray = dict.fromkeys(text for text in _named(plan.source.root) if text not in known)
    if not stray:
        return set()
    from ..plan.speech import nearest

    return {near for text in list(stray)[:40] if (near := nearest(text, wanted))}


def _named(root: Node) -> Iterator[str]:
    """Every single word that stands under a key which takes a name."""
    queue: list[tuple[Node, bool]] = [(root, False)]
    while queue:
        node, naming = queue.pop()
        if isinstance(node, Scalar):
            if naming and node.text and " " not in node.text:
                yield node.text
        elif isinstance(node, Sequence):
            queue += [(item, naming) for item in reversed(node.items)]
        elif isinstance(node, Mapping):
            queue += [(child, name in _NAMING) for name, _, child in reversed(list(node))]


def cut(setup: Setup) -> Iterator[tuple[str, str]]:
    """Every name that may be of stock: on windows, in frames, before lamps, in practicals; with where it is named."""
    for window in setup.windows.values():
        yield window.black_out or "", f"{window.path}.black-out"
        yield window.tent or "", f"{window.path}.tent"
        yield from ((name, f"{window.path}.layers.{i}") for i, name in enumerate(window.layers))
    for grip in setup.grip.values():
        yield grip.use or "", f"{grip.path}.use"
    for light in setup.lights.values():
        yield from ((name, f"{light.path}.with.{i}") for i, name in enumerate(light.with_))
    for practical in setup.practicals.values():
        yield practical.bulb or "", f"{practical.path}.bulb"
