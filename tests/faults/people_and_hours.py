"""Faults of people, hours, papers and power at the place."""

from __future__ import annotations

from collections.abc import Iterator

from hotset.facts import hands
from hotset.source.quantities import show
from hotset.trials.edits import Edit, edited

from .plant import Bed, Fault

HOURS = ("day-too-long", "no-buffer", "window-missed", "cast-window", "meal-late", "access-hours", "due-back")


def faults(bed: Bed) -> Iterator[Fault]:
    """All of them, family by family."""
    yield from _people(bed)
    yield from _hands(bed)
    yield from _hours(bed)
    yield from _orders(bed)
    yield from _papers(bed)
    yield from _circuits(bed)


def _jobs(bed: Bed, person: str) -> tuple[str, ...]:
    """Where a person is needed: jobs and parts."""
    paths: dict[str, None] = {}
    for setup, shot in bed.facts.takes:
        paths.update((job.path, None) for job in hands.jobs(bed.plan, setup, shot) if job.who == person)
        if any(who == person for _, who in hands.cast(bed.plan, setup, shot, bed.facts.players)):
            paths[hands.cast_path(bed.plan, setup, shot)] = None
            paths[f"setups.{setup.id}"] = None
    return tuple(paths)


def _people(bed: Bed) -> Iterator[Fault]:
    for person in bed.plan.people.values():
        at = _jobs(bed, person.id)
        scenes = tuple(s.path for s in bed.plan.scenes.values() if set(s.characters) & set(person.plays))
        if at:
            yield Fault("people", f"'{person.id}' has left the film", bed.without(person.path),
                        ("unknown-name", "cast-missing"), (*at, *scenes))  # fmt: skip
            away = bed.put(f"{person.path}.here", "02:00-03:00") if not person.days else None
            days = {f"{person.path}.days.{d}": d for d in person.days}
            sources = [("is there at night only", away)] if away is not None else []
            sources += [(f"is away on day {d}", bed.without(path)) for path, d in days.items() if len(days) > 1]
            for words, source in sources:
                yield Fault("people", f"'{person.id}' {words}", source, ("cast-window", "outside-availability"),
                            (*at, person.path))  # fmt: skip
        if person.plays:
            yield Fault("people", f"nobody plays what '{person.id}' plays", bed.without(f"{person.path}.plays"),
                        ("cast-missing", "unknown-name"), (*at, *scenes))  # fmt: skip
            yield Fault("papers", f"'{person.id}' has not released", bed.put(f"{person.path}.release.state", "missing"),
                        ("no-release",), (person.path, *at))  # fmt: skip
            yield Fault("papers", f"no release of '{person.id}'", bed.without(f"{person.path}.release"),
                        ("no-release",), (person.path, *at))  # fmt: skip
            if person.before is not None and person.here is not None:
                yield Fault("people", f"'{person.id}' sits in the chair all day",
                            bed.put(f"{person.path}.before", "9 h"), ("cast-window",), (person.path, *at))  # fmt: skip
        if person.emergency:
            yield Fault("papers", f"nobody to call for '{person.id}'", bed.without(f"{person.path}.emergency"),
                        ("no-emergency-contact",), (person.path,))  # fmt: skip


def _hands(bed: Bed) -> Iterator[Fault]:
    for setup in bed.plan.setups.values():
        camera = setup.hands.get("camera")
        for job in ("boom", "focus"):
            path = f"{setup.path}.hands.{job}"
            if camera and bed.written(path) and job == "boom":
                yield Fault("hands", f"the operator booms in '{setup.id}'", bed.put(path, camera),
                            ("person-in-two-places",), (path, f"{setup.path}.hands"))  # fmt: skip
        cast = setup.cast or next((s.cast for s in bed.plan.shots_of(setup.id) if s.cast), ())
        if cast and bed.written(f"{setup.path}.hands.camera"):
            yield Fault("hands", f"an actor operates '{setup.id}'", bed.put(f"{setup.path}.hands.camera", cast[0][1]),
                        ("person-in-two-places",), (f"{setup.path}.hands",))  # fmt: skip
        for light in setup.lights.values():
            if light.held_by and camera and bed.written(f"{light.path}.held-by"):
                yield Fault("hands", f"the operator holds '{light.id}' in '{setup.id}'",
                            bed.put(f"{light.path}.held-by", camera), ("person-in-two-places",),
                            (light.path, f"{setup.path}.hands"))  # fmt: skip
            elif light.on and bed.written(f"{light.path}.on") and setup.hands:
                jobs = "{" + ", ".join(f"{job}: {who}" for job, who in setup.hands.items()) + "}"
                source = edited(bed.source, (
                    Edit((*light.path.split("."), "on"), setup.hands["camera"], key="held-by"),
                    Edit((*setup.path.split("."), "hands"), jobs),
                ))  # fmt: skip
                yield Fault("hands", f"the operator has to hold '{light.id}' in '{setup.id}'", source,
                            ("person-in-two-places",), (light.path, f"{setup.path}.hands"))  # fmt: skip


def _hours(bed: Bed) -> Iterator[Fault]:
    for day in bed.plan.days.values():
        setups = [name for name, on in bed.facts.day_of.items() if on == day.id]
        places = (day.path, *(f"setups.{name}" for name in setups), "scenes")
        if day.wrap is not None and day.order:
            early = show("clock", int(day.call or 0) + 120)
            yield Fault("hours", f"day {day.id} must end after an hour", bed.put(f"{day.path}.wrap", f'"{early}"'),
                        ("day-too-long",), (day.path,))  # fmt: skip
        if day.order and day.meal is not None:
            source = bed.put(f"{day.path}.hours", "{meal-within: 20 min}")
            yield Fault("hours", f"hungry on day {day.id}", source, ("meal-late",), (day.path,))
        if day.order and day.buffer is not None:
            yield Fault("hours", f"a large buffer on day {day.id}", bed.put(f"{day.path}.buffer", "8 h"),
                        ("no-buffer",), (day.path,))  # fmt: skip
        if day.order:
            yield Fault("hours", f"the vans of day {day.id} are late", bed.put(f"{day.path}.load-in", "9 h"), HOURS,
                        places)  # fmt: skip
    for shot in bed.plan.shots.values():
        if shot.takes is not None and any(day.order for day in bed.plan.days.values()):
            yield Fault("hours", f"'{shot.id}' takes nine hours", bed.put(f"{shot.path}.takes", "9 h"), HOURS,
                        ("days", "setups", "people", "locations"))  # fmt: skip
    for setup in bed.plan.setups.values():
        if bed.written(f"{setup.path}.between"):
            yield Fault("hours", f"'{setup.id}' only before dawn", bed.put(f"{setup.path}.between", "03:00-04:00"),
                        ("window-missed",), (f"{setup.path}.between",))  # fmt: skip
        if bed.written(f"{setup.path}.needs") and setup.needs != "any":
            other = "dark" if setup.needs in ("sun", "daylight", "golden") else "sun"
            yield Fault("hours", f"'{setup.id}' needs {other}", bed.put(f"{setup.path}.needs", other),
                        ("window-missed", "needs-dark", "needs-sun"),
                        tuple(f"{s.path}.needs" for s in bed.plan.setups.values()))  # fmt: skip
    for place in bed.plan.locations.values():
        if place.access is not None:
            yield Fault("hours", f"'{place.id}' opens at noon", bed.put(f"{place.path}.access", "12:00-12:30"),
                        ("access-hours",), (place.path, "days"))  # fmt: skip


def _orders(bed: Bed) -> Iterator[Fault]:
    for day in bed.plan.days.values():
        for i, entry in enumerate(day.order):
            kept = [name for k, name in enumerate(day.order) if k != i]
            source = bed.put(f"{day.path}.order", "[" + ", ".join(kept) + "]")
            where = (day.path, *((f"setups.{entry}",) if entry in bed.plan.setups else ()))
            rules = ("left-out-of-order",) if entry in bed.plan.setups else ("left-out-of-order", "no-room-tone")
            yield Fault("orders", f"'{entry}' not in the order of day {day.id}", source, rules,
                        (*where, "setups", "locations") if entry not in bed.plan.setups else where)  # fmt: skip
    for setup in bed.plan.setups.values():
        if setup.day and bed.written(f"{setup.path}.day") and len(bed.plan.days) > 1:
            other = next(day for day in bed.plan.days if day != setup.day)
            yield Fault("orders", f"'{setup.id}' on the wrong day", bed.put(f"{setup.path}.day", other),
                        ("left-out-of-order", "order-names-another-day"), (setup.path, "days"))  # fmt: skip


def _papers(bed: Bed) -> Iterator[Fault]:
    for place in bed.plan.locations.values():
        for key, rule in (("permission", "no-permission"), ("insurance", "no-insurance"), ("hospital", "no-hospital")):
            if bed.written(f"{place.path}.{key}"):
                yield Fault("papers", f"no {key} at '{place.id}'", bed.without(f"{place.path}.{key}"), (rule,),
                            (place.path,))  # fmt: skip
        for key in ("permission", "insurance"):
            if bed.written(f"{place.path}.{key}.state"):
                yield Fault("papers", f"{key} at '{place.id}' is asked for",
                            bed.put(f"{place.path}.{key}.state", "asked"), (f"no-{key}",), (place.path,))  # fmt: skip
    for day in bed.plan.days.values():
        for key, rule in (("first-aid", "no-first-aid"), ("weather", "weather-exposed")):
            if bed.written(f"{day.path}.{key}"):
                others = any(getattr(d, key.replace("-", "_")) for d in bed.plan.days.values() if d is not day)
                yield Fault("papers" if others else "details", f"no {key} on day {day.id}",
                            bed.without(f"{day.path}.{key}"), (rule,), (day.path, "setups"),
                            "" if others or key == "weather" else f"'{key}:'")  # fmt: skip
    for scene in bed.plan.scenes.values():
        for name in scene.rights:
            path = f"{scene.path}.rights.{name}.state"
            if bed.written(path):
                yield Fault("papers", f"rights of '{name}' are open", bed.put(path, "asked"), ("rights-open",),
                            (scene.path,))  # fmt: skip


def _circuits(bed: Bed) -> Iterator[Fault]:
    for place in bed.plan.locations.values():
        for name, circuit in place.circuits.items():
            users = tuple(
                load.path for m in bed.facts.circuit_moments if m.circuit.id == circuit.id for load in m.loads
            )
            if users and circuit.breaker is not None:
                path = f"{place.path}.circuits.{name}"
                yield Fault("power", f"circuit '{name}' is dead", bed.without(path), ("unknown-name",), users)
                yield Fault("power", f"circuit '{name}' is weak", bed.put(f"{path}.breaker", "1 A"),
                            ("circuit-overloaded",), users)  # fmt: skip
                yield Fault("power", f"the house takes circuit '{name}'", bed.put(f"{path}.already", "3600 W"),
                            ("circuit-overloaded", "circuit-near-limit"), users)  # fmt: skip
    for setup in bed.plan.setups.values():
        for light in setup.lights.values():
            if light.circuit and bed.written(f"{light.path}.circuit"):
                yield Fault("details", f"'{light.id}' in '{setup.id}' has no circuit",
                            bed.without(f"{light.path}.circuit"), (), (), "'circuit:'")  # fmt: skip
