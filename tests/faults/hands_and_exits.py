"""Faults of hands in changeovers, of those who watch, of meals of one, of booms and ways out."""

from __future__ import annotations

from collections.abc import Iterator

from hotset.facts import hands, space
from hotset.source.quantities import show
from hotset.trials.edits import Edit, edited

from .plant import Bed, Fault


def faults(bed: Bed) -> Iterator[Fault]:
    """All of them, family by family."""
    yield from _changeovers(bed)
    yield from _eyes(bed)
    yield from _errands(bed)
    yield from _booms(bed)
    yield from _exits(bed)


def _changeovers(bed: Bed) -> Iterator[Fault]:
    """Whoever rigs comes when a changeover is over: all of them, and all but one where two are wanted."""
    for day, changeovers in bed.facts.changeovers.items():
        crew = [p for p in bed.plan.people.values() if hands.is_crew(p)]
        for one in changeovers:
            tasks = next(
                s.tasks for s in bed.facts.timelines[day].steps if s.kind == "prepare" and s.setup == one.setup
            )
            late = f"{show('clock', one.end)}-23:00"
            where = (f"setups.{one.setup}", "locations", "setups", f"days.{day}.order")
            if any(task.people > 1 for task in tasks):
                edits = tuple(Edit(("people", p.id, "here"), late) for p in crew[1:])
                yield Fault("changeovers", f"'{crew[0].id}' is alone for '{one.setup}'", edited(bed.source, edits),
                            ("nobody-to-rig",), where)  # fmt: skip
            edits = tuple(Edit(("people", p.id, "here"), late) for p in crew if not p.days)
            yield Fault("changeovers", f"nobody is there for '{one.setup}'", edited(bed.source, edits),
                        ("nobody-to-rig",), where)  # fmt: skip


def _eyes(bed: Bed) -> Iterator[Fault]:
    """Whoever watches the acting is not there any more, and all others but the director have left with them."""
    lead = hands.directors(bed.plan)
    for setup in bed.plan.setups.values():
        named = hands.watchers(setup, None)
        cast = any(hands.cast(bed.plan, s, shot, bed.facts.players) for s, shot in bed.facts.takes if s.id == setup.id)
        inserts = all(shot.size == "insert" for shot in bed.plan.shots_of(setup.id))
        if not (named and lead and cast and not inserts and bed.written(f"{setup.path}.hands")):
            continue
        day = bed.facts.day_of[setup.id]
        jobs = ", ".join(f"{job}: {who}" for job, who in setup.hands.items() if who not in named)
        busy = {who for who in setup.hands.values() if who not in named}
        gone = [p for p in bed.plan.people.values() if hands.is_crew(p) and p.id not in busy]
        edits = [Edit((*setup.path.split("."), "hands"), f"{{{jobs}}}")]
        edits += [Edit(("people", p.id, "days"), "{none: 08:00-09:00}") for p in gone]
        if day is not None:
            yield Fault("hands", f"nobody watches in '{setup.id}'", edited(bed.source, tuple(edits)),
                        ("nobody-watches", "nobody-free"), (setup.path, f"{setup.path}.hands"))  # fmt: skip


def _errands(bed: Bed) -> Iterator[Fault]:
    """Somebody with a job drives off in the middle of a take."""
    things = [g for g in bed.plan.gear.values() if g.kind == "monitor" or g.kind == "tool" or g.kind == "prop"]
    for day, line in bed.facts.timelines.items():
        date = bed.plan.days[day].date
        for step in line.steps:
            who = bed.plan.setups[step.setup].hands.get("camera") if step.kind == "setup" else None
            used = {name for use in bed.facts.uses.get(step.setup, ()) for name in use.among}
            thing = next((g for g in things if g.id not in used and g.fetch is None), None)
            if who is None or thing is None or date is None:
                continue
            at = f"{{by: {who}, at: {date} {show('clock', step.start)}, takes: 10 min}}"
            yield Fault("people", f"'{who}' fetches '{thing.id}' during '{step.setup}'",
                        bed.put(f"{thing.path}.fetch", at), ("person-in-two-places",), (thing.path,))  # fmt: skip


def _booms(bed: Bed) -> Iterator[Fault]:
    """Each boom hung at the height of a nose."""
    sync = {s.id for s, shot in bed.facts.takes if shot is not None and hands.is_sync(bed.plan, shot)}
    for setup in bed.plan.setups.values():
        sound = setup.sound
        if sound is not None and sound.boom and not sound.wireless and setup.id in sync and bed.written(sound.path):
            yield Fault("sound", f"the boom of '{setup.id}' hangs low", bed.put(f"{sound.path}.height", "1.2 m"),
                        ("boom-in-frame-risk",), (sound.path,))  # fmt: skip


def _exits(bed: Bed) -> Iterator[Fault]:
    """Each piece of furniture pushed before each exit of its room."""
    for room in bed.plan.sets.values():
        if not any(setup.set == room.id for setup in bed.plan.setups.values()):
            continue
        for name, _, door in space.exits(bed.plan, room):
            x, y = (door.middle[k] - 0.3 * door.out[k] for k in (0, 1))
            for piece in room.furniture.values():
                source = bed.put(f"{piece.path}.at", f"[{x:.2f} m, {y:.2f} m]")
                yield Fault("space", f"'{piece.id}' stands before '{name}'", source, ("exit-blocked",),
                            (piece.path,))  # fmt: skip
