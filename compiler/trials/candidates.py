"""Small changes that might mend a conflict, for each kind of conflict, the smallest first, then in plan order.

A change is written where the value stands: what a setup inherits is changed in the setup it comes from.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from ..facts import cloth, hands
from ..facts.alike import instead
from ..plan.spots import Point
from ..source.compose import compose
from ..source.splice import plain, scalar
from ..source.tree import Mapping, Node, Scalar, Sequence
from .edits import Edit, yaml_list

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan import Plan
    from ..plan.light import Light

Change = tuple[Edit, ...]
_MEANT = re.compile(r"did you mean '([^']+)'\?")


def changes(facts: Facts, finding: Finding) -> Iterator[Change]:
    """Every change worth trying for a finding; nothing for conflicts that no small change mends."""
    propose = _BY_RULE.get(finding.rule)
    if propose is not None:
        yield from propose(facts, finding)


def origin(plan: Plan, path: str) -> tuple[str, ...]:
    """The keys to where the value at a path of the plan is written: in the setup itself, or in one it is like. A path
    that no setup writes is that of the setup itself."""
    steps = tuple(path.split("."))
    if steps[0] != "setups" or len(steps) < 3:
        return steps
    name = steps[1]
    for _ in range(len(plan.setups)):
        if _written(plan, ("setups", name, *steps[2:])) is not None:
            return ("setups", name, *steps[2:])
        like = plan.setups[name].like if name in plan.setups else None
        if like is None or like not in plan.setups:
            break
        name = like
    return steps


def _written(plan: Plan, path: tuple[str, ...]) -> Node | None:
    node: Node | None = plan.source.root
    for step in path:
        if isinstance(node, Mapping):
            node = node.get(step)
        elif isinstance(node, Sequence) and step.isdigit() and int(step) < len(node.items):
            node = node.items[int(step)]
        else:
            return None
    return node


def _places(finding: Finding) -> tuple[str, ...]:
    """The finding's own place last: what comes second in the text is the better one to change, and stands there."""
    return tuple(dict.fromkeys((finding.place.path, *(r.place.path for r in finding.related))))


# ---- Names that are misspelt. ----------------------------------------------------------------------------------------


def _spelling(facts: Facts, finding: Finding) -> Iterator[Change]:
    meant = _MEANT.search(finding.sentence)
    if meant is None:
        return
    path = origin(facts.plan, finding.place.path)
    node = _written(facts.plan, path)
    if node is None:
        return
    named = f"called '{path[-1]}'; did" in finding.sentence and isinstance(node, Scalar) and node.text != path[-1]
    if finding.rule == "unknown-key" or named:  # the name on the left is the wrong one
        value = _as_written(facts.plan, node)
        if value:
            yield (Edit(path, value, key=meant.group(1)),)
    elif isinstance(node, Scalar):
        yield _set(facts.plan, path, meant.group(1))
    elif isinstance(node, Sequence):
        wrong = re.search(r"'([^']+)'; did you mean", finding.sentence)
        items = [n.text for n in node.items if isinstance(n, Scalar)]
        if wrong is not None and wrong.group(1) in items and len(items) == len(node.items):
            kept = tuple(meant.group(1) if item == wrong.group(1) else item for item in items)
            yield (Edit(path, yaml_list(kept)),)


def _as_written(plan: Plan, node: Node) -> str:
    """The text of a value, where it stands on one line and reads back as the same; else ""."""
    text = plan.source.files[node.file].text[node.start : node.end]
    if "\n" in text or not text:
        return ""
    read = compose(f"a: {text}\n")
    return text if read.root is not None and not read.faults and plain(read.root) == {"a": plain(node)} else ""


def _set(plan: Plan, path: tuple[str, ...], value: str) -> Change:
    """A value, or an item of a list, set to a word."""
    if path[-1].isdigit():
        holder = _written(plan, path[:-1])
        if isinstance(holder, Sequence):
            items = [n.text if isinstance(n, Scalar) else "" for n in holder.items]
            items[int(path[-1])] = value
            return (Edit(path[:-1], yaml_list(tuple(items))),)
        path = path[:-1]
    return (Edit(path, scalar(value)),)


# ---- Things: another of the group, one that fits. --------------------------------------------------------------------


def _other_thing(facts: Facts, finding: Finding) -> Iterator[Change]:
    """Another piece of the same kind for each use that the finding names; what is alike first, then in plan order."""
    plan = facts.plan
    later: list[Change] = []
    for path in (*_places(finding), *_support_of_shot(plan, finding)):
        front = path.rpartition(".")[0]
        for at in (path, *(f"{path}.{key}" for key in ("lamp", "use", "prop", "on")), f"{front}.lamp", f"{front}.on"):
            where = origin(plan, at)
            node = _written(plan, where)
            if not isinstance(node, Scalar) or node.text not in plan.gear or where[0] not in ("setups", "scenes"):
                continue
            first = [other for other in instead(plan, node.text) if _could(plan, at, other)]
            yield from (_set(plan, where, other) for other in first)
            same = [g.id for g in plan.gear.values() if g.kind == plan.gear[node.text].kind and g.id != node.text]
            later += [_set(plan, where, other) for other in same if other not in first and _could(plan, at, other)]
            later += _on_its_own(plan, at, where, same)
    yield from later


def _support_of_shot(plan: Plan, finding: Finding) -> tuple[str, ...]:
    """What the camera of a shot stands on, for a finding about the shot's move."""
    shot = next((s for s in plan.shots.values() if f"{finding.place.path}.".startswith(f"{s.path}.")), None)
    setup = plan.setups.get(shot.setup or "") if shot is not None else None
    return (f"{setup.path}.camera.on",) if setup is not None and setup.camera is not None else ()


def _light_at(plan: Plan, path: str) -> Light | None:
    steps = path.split(".")
    setup = plan.setups.get(steps[1]) if len(steps) > 4 and steps[0] == "setups" and steps[2] == "lights" else None
    return setup.lights.get(steps[3]) if setup is not None else None


def _could(plan: Plan, path: str, other: str) -> bool:
    """Whether a thing can stand in at a place at all: nobody hangs a flag on a slider, pushes in on a fixed arm, or
    runs a lamp from the mains on a battery."""
    thing, steps = plan.gear[other], path.split(".")
    if thing.kind == "support":
        if ".camera." not in path:
            return not thing.moves
        move = plan.setups[steps[1]].move if steps[1] in plan.setups else None
        return move is None or move.kind is None or move.kind in thing.moves
    light = _light_at(plan, path)
    if light is None or thing.kind != "light" or not path.endswith(".lamp"):
        return True
    if light.battery == "own":
        return thing.runs is not None or thing.battery is not None
    return thing.battery is not None if light.battery else thing.draws is not None or not light.circuit


def _on_its_own(plan: Plan, path: str, where: tuple[str, ...], others: list[str]) -> list[Change]:
    """A lamp with a battery of its own, where the one it stands in for had another's."""
    light = _light_at(plan, path)
    if light is None or not light.battery or light.battery == "own" or where[-1] != "lamp":
        return []
    own = [name for name in others if plan.gear[name].runs is not None and plan.gear[name].battery is None]
    return [(Edit(where, scalar(name)), Edit((*where[:-1], "battery"), "own")) for name in own]


def _other_lens(facts: Facts, finding: Finding) -> Iterator[Change]:
    """Another lens for the shot alone, the nearest focal length first; then for its setup."""
    plan = facts.plan
    shot = next((s for s in plan.shots.values() if f"{finding.place.path}.".startswith(f"{s.path}.")), None)
    setup = plan.setups.get((shot.setup if shot is not None else finding.place.path.split(".")[1]) or "")
    own = shot.lens if shot is not None else None
    now = plan.gear.get(own or (setup.camera.lens if setup is not None and setup.camera is not None else "") or "")
    if setup is None or now is None or now.focal is None:
        return
    middle = now.focal.lo
    lenses = [g for g in plan.gear_of("lens") if g.id != now.id and g.focal is not None]
    lenses.sort(key=lambda g: abs(g.focal.lo - middle) if g.focal is not None else 0.0)
    if shot is not None:
        yield from ((Edit((*shot.path.split("."), "lens"), scalar(lens.id)),) for lens in lenses)
    where = origin(plan, f"{setup.path}.camera.lens")
    yield from ((Edit(where, scalar(lens.id)),) for lens in lenses)


def _black_out(facts: Facts, finding: Finding) -> Iterator[Change]:
    """Black cloth on every window that lets daylight in."""
    plan = facts.plan
    windows = [r.place.path.rsplit(".", 1)[-1] for r in finding.related if ".windows." in r.place.path]
    path = finding.place.path.split(".")[:2]
    for stock in plan.stock.values():
        if stock.opaque and windows:
            yield tuple(Edit((*path, "windows", name), f"{{black-out: {scalar(stock.id)}}}") for name in windows)


def _adapters(facts: Facts, finding: Finding) -> Iterator[Change]:
    """The chain that joins lens and camera, where the plan owns it; then another lens."""
    from ..facts.fits import lens_chain

    plan = facts.plan
    steps = finding.place.path.split(".")
    setup = plan.setups.get(steps[1]) if steps[0] == "setups" else None
    camera = setup.camera if setup is not None else None
    if camera is not None and camera.body in plan.gear and camera.lens in plan.gear and camera.adapters:
        assert camera.body is not None
        assert camera.lens is not None
        chain = lens_chain(plan, plan.gear[camera.body], plan.gear[camera.lens])
        if chain.state == "fits" and chain.adapters:
            yield (Edit(origin(plan, f"{camera.path}.adapters"), yaml_list(chain.adapters)),)
    yield from _other_thing(facts, finding)


def _fewer_filters(facts: Facts, finding: Finding) -> Iterator[Change]:
    """The filters without the one that stands in the picture; then a longer lens."""
    plan = facts.plan
    where = origin(plan, finding.place.path)
    holder = where[:-1] if where[-1].isdigit() else where
    node = _written(plan, holder)
    wrong = str(dict(finding.details).get("thing", ""))
    if isinstance(node, Sequence):
        items = [n.text for n in node.items if isinstance(n, Scalar)]
        at = int(where[-1]) if where[-1].isdigit() else items.index(wrong) if wrong in items else len(items)
        yield (Edit(holder, yaml_list(tuple(items[:at] + items[at + 1 :]))),)
    yield from _other_lens(facts, finding)


def _another_driver(facts: Facts, finding: Finding) -> Iterator[Change]:
    """Somebody else for the errand: first those who say that they drive."""
    plan = facts.plan
    where = (*finding.place.path.split("."), "by")
    node = _written(plan, where)
    if isinstance(node, Scalar):
        crew = [p for p in plan.people.values() if hands.is_crew(p) and p.id != node.text]
        for person in sorted(crew, key=lambda p: "drive" not in p.skills):
            yield (Edit(where, scalar(person.id)),)


def _on_a_stand(facts: Facts, finding: Finding) -> Iterator[Change]:
    """What is held is put on a stand; then somebody else holds it."""
    for path in _places(finding):
        if path.endswith(".held-by"):
            where = origin(facts.plan, path)
            if _written(facts.plan, where) is not None:
                for gear in facts.plan.gear.values():
                    if gear.kind == "support" and not gear.moves:
                        yield (Edit(where, scalar(gear.id), key="on"),)
    yield from _other_person(facts, finding)


def _other_person(facts: Facts, finding: Finding) -> Iterator[Change]:
    """Somebody else with the skill for each job that the finding names."""
    plan = facts.plan
    for path in _places(finding):
        where = origin(plan, path)
        node = _written(plan, where)
        if not isinstance(node, Scalar) or node.text not in plan.people or where[0] not in ("setups", "scenes"):
            continue
        group = hands.group_of(where[-1] if where[-1] not in ("by", "held-by") else "sound")
        crew = [p for p in plan.people.values() if hands.is_crew(p) and p.id != node.text]
        able = [p.id for p in crew if where[-1] == "held-by" or hands.can(p, group)]
        yield from (_set(plan, where, name) for name in (*able, *(p.id for p in crew if p.id not in able)))


# ---- Power, cloth, places. -------------------------------------------------------------------------------------------


def _other_circuit(facts: Facts, finding: Finding) -> Iterator[Change]:
    """Each lamp that burns at the worst moment on another circuit of the place, the lamp with the least first."""
    plan = facts.plan
    said = dict(finding.details)
    moments = [m for m in facts.circuit_moments if (m.circuit.id, m.setup) == (said.get("circuit"), said.get("setup"))]
    for moment in moments:
        front = moment.circuit.id.split("/")[0]
        loads = sorted(moment.loads, key=lambda load: load.amperes)
        single = []
        for load in loads:
            where = (*origin(plan, f"{load.path}.circuit")[:-1], "circuit")
            for other in plan.locations[front].circuits:
                if f"{front}/{other}" != moment.circuit.id:
                    single.append(Edit(where, scalar(other)))
            lamp = plan.setups[load.setup].lights.get(load.path.rsplit(".", 1)[-1])
            plate = plan.gear[lamp.lamp[0]].battery if lamp is not None and lamp.lamp[0] in plan.gear else None
            for gear in plan.gear.values():
                if plate and gear.kind == "battery" and plate in (gear.plate, gear.id):
                    single.append(Edit(where, scalar(gear.id), key="battery"))
        yield from ((edit,) for edit in single)
        yield from ((a, b) for i, a in enumerate(single) for b in single[i + 1 :] if a.path != b.path)


def _other_cloth(facts: Facts, finding: Finding) -> Iterator[Change]:
    """Another stock of the same kind, then a smaller overlap."""
    plan = facts.plan
    for path in _places(finding):
        where = origin(plan, path)
        node = _written(plan, where)
        if isinstance(node, Scalar) and node.text in plan.stock:
            mine = plan.stock[node.text]
            for other in plan.stock.values():
                same = cloth.kind(other) == cloth.kind(mine) and other.opaque == mine.opaque
                if same and other.id != mine.id and (other.loses, other.shifts) == (mine.loses, mine.shifts):
                    yield _set(plan, where, other.id)
    for path in _places(finding):
        if path.rsplit(".", 1)[-1] in ("black-out", "tent"):
            where = (*origin(plan, path)[:-1], "overlap")
            yield (Edit(where, f"{cloth.LEAST_OVERLAP * 100:g} cm"),)


def _moved(facts: Facts, finding: Finding) -> Iterator[Change]:
    """The lamp of a finding moved, the shortest way first, in eight directions."""
    plan = facts.plan
    steps = finding.place.path.split(".")
    setup = plan.setups.get(steps[1])
    light = setup.lights.get(steps[3]) if setup is not None and len(steps) > 3 else None
    if light is None or not isinstance(light.at, Point):
        return
    where = origin(plan, f"{light.path}.at")
    directions = ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (1, -1), (-1, 1), (-1, -1))
    spots = [(round((dx * dx + dy * dy) ** 0.5 * n, 3), dx * n, dy * n) for n in _STEPS for dx, dy in directions]
    for _, dx, dy in sorted(spots, key=lambda spot: spot[0]):
        x, y = float(light.at.x) + dx / 10, float(light.at.y) + dy / 10
        if x > 0 and y > 0:
            yield (Edit(where, f"[{x:.2f} m, {y:.2f} m]"),)


_STEPS = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 18, 21, 25)
_THINGS = ("piece-in-two-places", "more-than-owned", "filter-thread", "modifier-does-not-fit", "missing-modifier",
           "no-support", "support-overloaded", "missing-battery", "missing-media", "boom-without-counterweight",
           "colour-fixed", "colour-out-of-range", "lead-too-long",
           "missing-lead", "lead-overloaded", "due-back", "not-in-hands-yet", "does-not-fit",
           "furniture-clash")  # fmt: skip
_GLASS = ("framing-differs", "closer-than-minimum-focus", "soft-plane", "lens-does-not-cover-sensor")
_BY_RULE: dict[str, Callable[[Facts, Finding], Iterator[Change]]] = {
    "unknown-key": _spelling,
    "unknown-name": _spelling,
    "wrong-kind": _spelling,
    "bad-name": _spelling,
    **dict.fromkeys(_THINGS, _other_thing),
    **dict.fromkeys(_GLASS, _other_lens),
    "night-scene-in-daylight": _black_out,
    "missing-adapter": _adapters,
    "filter-in-frame": _fewer_filters,
    "errand-clash": _another_driver,
    "nobody-free": _on_a_stand,
    "person-in-two-places": _on_a_stand,
    "outside-availability": _other_person,
    "role-uncovered": _other_person,
    "circuit-overloaded": _other_circuit,
    "circuit-near-limit": _other_circuit,
    "cloth-short": _other_cloth,
    "diffusion-short": _other_cloth,
    "gel-short": _other_cloth,
    "light-in-frame": _moved,
}
