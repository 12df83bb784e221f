"""Faults of space and light in the set, and slips of writing."""

from __future__ import annotations

from collections.abc import Iterator

from hotset.facts import views
from hotset.plan.spots import Point
from hotset.source.tree import Mapping, Scalar

from .plant import Bed, Fault, entries


def faults(bed: Bed) -> Iterator[Fault]:
    """All of them, family by family."""
    yield from _windows(bed)
    yield from _in_the_picture(bed)
    yield from _cameras(bed)
    yield from _sizes(bed)
    yield from _links(bed)
    yield from _slips(bed)


def _windows(bed: Bed) -> Iterator[Fault]:
    """Each window treatment of a night scene taken down."""
    for setup in bed.plan.setups.values():
        for window, how in setup.windows.items():
            path = f"{setup.path}.windows.{window.rsplit('/', 1)[-1]}"
            if bed.written(path) and not how.open:
                yield Fault("windows", f"'{window}' bare in '{setup.id}'", bed.without(path),
                            ("night-scene-in-daylight",), (setup.path,))  # fmt: skip
    for room in bed.plan.sets.values():
        usual = f"{room.path}.usual.windows"
        for window in room.windows:
            path = f"{usual}.{window.rsplit('/', 1)[-1]}"
            mine = tuple(s.path for s in bed.plan.setups.values() if s.set == room.id)
            if bed.written(path) and mine:
                yield Fault("windows", f"'{window}' bare in '{room.id}'", bed.without(path),
                            ("night-scene-in-daylight",), mine)  # fmt: skip
                yield Fault("windows", f"'{window}' open in '{room.id}'", bed.put(path, "open"),
                            ("night-scene-in-daylight",), mine)  # fmt: skip


def _in_the_picture(bed: Bed) -> Iterator[Fault]:
    """Each lamp that stands in the room moved into the middle of its picture, 1.2 m before the camera."""
    for setup in bed.plan.setups.values():
        if setup.camera is None or views.missing_for_view(bed.plan, setup):
            continue
        camera = views.ends(bed.plan, setup)[0]
        level = (camera.forward[0] ** 2 + camera.forward[1] ** 2) ** 0.5
        for light in setup.lights.values():
            if light.outside or light.in_ or level < 0.5 or not bed.written(f"{light.path}.at"):
                continue
            x, y = (camera.position[k] + camera.forward[k] / level * 1.2 for k in (0, 1))
            source = bed.put(f"{light.path}.at", f"[{x:.2f} m, {y:.2f} m]")
            yield Fault("space", f"'{light.id}' stands in the picture of '{setup.id}'", source, ("light-in-frame",),
                        (light.path,))  # fmt: skip
            if light.height is not None and bed.plan.sets[setup.set or ""].size is not None:
                tall = bed.put(f"{light.path}.height", "7 m")
                if not bed.plan.sets[setup.set or ""].outdoors:
                    yield Fault("space", f"'{light.id}' of '{setup.id}' above the ceiling", tall, ("does-not-fit",),
                                (light.path,))  # fmt: skip


def _cameras(bed: Bed) -> Iterator[Fault]:
    for setup in bed.plan.setups.values():
        room = bed.plan.sets.get(setup.set or "")
        camera = setup.camera
        if camera is None or room is None or not bed.written(f"{camera.path}.at") or not isinstance(camera.at, Point):
            continue
        if not room.outdoors:
            yield Fault("space", f"the camera of '{setup.id}' behind a wall",
                        bed.put(f"{camera.path}.at", "[90 m, 90 m]"), ("camera-outside-set",),
                        (camera.path,))  # fmt: skip
        if bed.plan.shots_of(setup.id) and not views.missing_for_view(bed.plan, setup):
            shots = tuple(s.path for s in bed.plan.shots_of(setup.id))
            near = bed.put(f"{camera.path}.lens", "tele-x")
            yield Fault("reading", f"an unknown lens in '{setup.id}'", near, ("unknown-name",), (camera.path, *shots))


def _sizes(bed: Bed) -> Iterator[Fault]:
    """Each shot asked for in a size that its lens does not give."""
    for shot in bed.plan.shots.values():
        setup = bed.plan.setups.get(shot.setup or "")
        if setup is None or shot.size in (None, "insert", "OTS", "POV", "two-shot"):
            continue
        if not views.missing_for_view(bed.plan, setup):
            other = "ECU" if shot.size in ("EWS", "WS", "FS", "MWS") else "EWS"
            yield Fault("space", f"'{shot.id}' asks for {other}", bed.put(f"{shot.path}.size", other),
                        ("framing-differs",), (shot.path,))  # fmt: skip


def _links(bed: Bed) -> Iterator[Fault]:
    """Setups, marks, scenes that are gone while others speak of them."""
    for setup in bed.plan.setups.values():
        shots = tuple(s.path for s in bed.plan.shots_of(setup.id))
        others = tuple(s.path for s in bed.plan.setups.values() if setup.id in (s.like, s.held_until, *s.after))
        if shots or others:
            yield Fault("links", f"setup '{setup.id}' is gone", bed.without(setup.path), ("unknown-name",),
                        (*shots, *others, "days"))  # fmt: skip
    for shot in bed.plan.shots.values():
        if bed.written(f"{shot.path}.setup"):
            yield Fault("links", f"shot '{shot.id}' without its setup", bed.without(f"{shot.path}.setup"),
                        ("shot-without-setup",), (shot.path,))  # fmt: skip
    for scene in bed.plan.scenes.values():
        if scene.shots:
            yield Fault("links", f"scene '{scene.id}' without its shots", bed.without(f"{scene.path}.shots"),
                        ("scene-without-shots", "setup-without-shots"), (scene.path,))  # fmt: skip
    for room in bed.plan.sets.values():
        for mark in room.marks:
            if any(_speaks(bed, setup.path, mark) for setup in bed.plan.setups.values() if setup.set == room.id):
                users = tuple(s.path for s in bed.plan.setups.values() if s.set == room.id)
                shots = tuple(s.path for s in bed.plan.shots.values())
                yield Fault("links", f"mark '{mark}' of '{room.id}' is gone", bed.without(f"{room.path}.marks.{mark}"),
                            ("unknown-name",), (*users, *shots, room.path))  # fmt: skip


def _speaks(bed: Bed, path: str, mark: str) -> bool:
    """Whether a setup names a mark of its set: as an aim, or in a place told from it."""
    nodes = [(p.rsplit(".", 1)[-1], n.text) for p, n in entries(bed.plan.value_at(path)) if isinstance(n, Scalar)]
    return any(key in ("aim", "at", "aim-to", "key-at") and mark in text.split() for key, text in nodes)


_FREE = {"note", "defaults", "contacts", "wears", "skyline", "hands", "gives", "timings", "codecs"}


def _slips(bed: Bed) -> Iterator[Fault]:
    """Every key of the language misspelt once, every measured value once without its unit."""
    seen: set[str] = set()
    bare: set[str] = set()
    for path, node in entries(bed.source.root):
        steps = path.split(".")
        key = steps[-1]
        named = len(steps) > 1 and isinstance(bed.source.root, Mapping) and not _is_id(steps)
        if named and len(key) > 3 and key not in seen and not _FREE & set(steps[:-1]):
            seen.add(key)
            yield Fault("slips", f"'{path}' misspelt", bed.renamed(path, key[0] + key[2:]),
                        ("unknown-key", "missing-key", "unknown-name"), (path,))  # fmt: skip
        text = node.text if isinstance(node, Scalar) and not node.quoted else ""
        number, _, unit = text.partition(" ")
        if named and unit in _UNITS and number.replace(".", "").isdigit() and key not in bare:
            bare.add(key)
            yield Fault("slips", f"'{path}' without its unit", bed.put(path, number), ("missing-unit", "bad-quantity"),
                        (path,))  # fmt: skip


_UNITS = {"m", "mm", "cm", "kg", "W", "A", "K", "min", "h", "Wh", "GB", "TB", "MB/s", "Mbit/s", "deg", "Hz", "stops",
          "%", "fps"}  # fmt: skip


def _is_id(steps: list[str]) -> bool:
    """Whether the last step is a name that the plan gives, not a key of the language."""
    families = {"gear", "stock", "people", "setups", "scenes", "days", "locations", "sets", "shots", "marks", "windows",
                "doors", "furniture", "mirrors", "outlets", "lights", "practicals", "grip", "circuits", "noise",
                "walkways", "rights", "mounts", "meals"}  # fmt: skip
    return steps[-2] in families
