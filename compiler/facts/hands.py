"""Who does what during a take, who is in it, and who is there on the day."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..source.tree import Mapping

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from collections.abc import Mapping as Map

    from ..plan import Plan
    from ..plan.person import Person
    from ..plan.scene import Shot
    from ..plan.setup import Setup
    from ..source.quantities import ClockRange

# Parts of words by which a job or a skill is known; common practice, no source.
_CAMERA = ("camera", "operat", "focus", "cinemato", "photograph", "gimbal", "dop", "dp")
_SOUND = ("sound", "boom", "record", "mix")
_WATCH = ("perform", "watch", "acting", "direct", "monitor")
_EYES = ("direct", "watch", "script", "continuity", "monitor", "slate", "clap", "call", "time", "cue")


class Job(NamedTuple):
    """Something that takes a pair of hands for the length of a take. `group` tells what one person does together
    (camera and focus; boom and recorder); `who` is a person, or None where anybody with the skill may; `during` the
    part of the take."""

    group: str
    words: str
    path: str
    who: str | None
    during: str | None = None


def group_of(job: str) -> str:
    """camera, sound, eyes (needs no hands) or the job itself."""
    words = job.lower()
    for group, parts in (("camera", _CAMERA), ("sound", _SOUND), ("eyes", _EYES)):
        if any(words == part or (len(part) > 3 and part in words) for part in parts):
            return group
    return words


def can(person: Person, group: str) -> bool:
    """Whether a person says that they can do a job of this group."""
    return any(group_of(word) == group for word in (*person.works, *person.skills))


def is_sync(plan: Plan, shot: Shot) -> bool:
    """Whether sound is recorded with the picture: only where the shot or its scene says so."""
    scene = plan.scenes[plan.scene_of[shot.id]]
    return (shot.sound or scene.sound) == "sync"


def sync_path(plan: Plan, shot: Shot) -> str:
    """Where that is said."""
    return f"{shot.path}.sound" if shot.sound else f"{plan.scenes[plan.scene_of[shot.id]].path}.sound"


def cast(plan: Plan, setup: Setup, shot: Shot | None, players: Map[str, str]) -> tuple[tuple[str, str], ...]:
    """Character and person of a take: as the shot says, else the setup, else whoever plays the scene's characters
    (`players`: character to person)."""
    if shot is not None and shot.cast is not None:
        return shot.cast
    if setup.cast is not None:
        return setup.cast
    if shot is None:
        return ()
    wanted = plan.scenes[plan.scene_of[shot.id]].characters
    return tuple((c, players[c]) for c in wanted if c in players)


def cast_path(plan: Plan, setup: Setup, shot: Shot | None) -> str:
    """Where that is said."""
    if shot is not None and shot.cast is not None:
        return f"{shot.path}.cast"
    if setup.cast is not None or shot is None:
        return f"{setup.path}.cast"
    return f"{plan.scenes[plan.scene_of[shot.id]].path}.characters"


def jobs(plan: Plan, setup: Setup, shot: Shot | None) -> tuple[Job, ...]:
    """Every job of a take, named people first within each group."""
    named = list(_named(plan, setup, shot))
    groups = {job.group for job in named} | _written(plan, setup, shot)
    found = [job for job in named if job.group != "eyes"]
    if setup.camera is not None and "camera" not in groups:
        found.append(Job("camera", "the camera", setup.camera.path, None))
    if shot is not None and is_sync(plan, shot) and "sound" not in groups:
        found.append(Job("sound", "the sound", sync_path(plan, shot), None))
    return tuple(found)


def _written(plan: Plan, setup: Setup, shot: Shot | None) -> set[str]:
    """The groups of jobs for which the plan writes a name, even one that nobody has."""
    found = {"sound"} if setup.sound is not None and plan.value_at(f"{setup.sound.path}.by") is not None else set()
    for noun in (setup, shot):
        node = plan.value_at(f"{noun.path}.hands") if noun is not None else None
        found |= {group_of(job) for job in (node.entries if isinstance(node, Mapping) else ())}
    return found


def _named(plan: Plan, setup: Setup, shot: Shot | None) -> Iterator[Job]:
    own = shot.hands if shot is not None else {}
    for job, person in {**setup.hands, **own}.items():
        path = f"{shot.path}.hands.{job}" if shot is not None and job in own else f"{setup.path}.hands.{job}"
        yield Job(group_of(job), f"the {job}", path, None if person == "any" else person)
    camera = setup.camera
    if camera is not None and camera.held_by in plan.people:
        yield Job("camera", "the camera", f"{camera.path}.held-by", camera.held_by)
    if setup.sound is not None and setup.sound.by:
        yield Job("sound", "the sound", f"{setup.sound.path}.by", setup.sound.by)
    for light in setup.lights.values():
        if light.held_by:
            who = None if light.held_by == "any" else light.held_by
            yield Job(f"hold {light.id}", f"holding '{light.id}'", f"{light.path}.held-by", who, light.during)
    for grip in setup.grip.values():
        if grip.held_by:
            who = None if grip.held_by == "any" else grip.held_by
            yield Job(f"hold {grip.id}", f"holding '{grip.id}'", f"{grip.path}.held-by", who)


def wanted(plan: Plan, jobs: Iterable[Job], free: Iterable[Person]) -> dict[str, list[str]]:
    """For each job that nobody is named for, by its number among them, who of the free could do it. Camera and sound
    want somebody who says that they can; a sound that nobody in the plan can do is left out."""
    able = list(free)
    said = {group: any(can(p, group) for p in plan.people.values()) for group in ("camera", "sound")}
    found = {}
    for i, job in enumerate(j for j in jobs if j.who is None):
        if job.group != "sound" or said["sound"]:
            skilled = said.get(job.group, False)
            found[str(i)] = [p.id for p in able if not skilled or can(p, job.group)]
    return found


def watchers(setup: Setup, shot: Shot | None) -> tuple[str, ...]:
    """Who is named to watch the acting: under 'hands:', as performance, watch, direct or monitor."""
    named = {**setup.hands, **(shot.hands if shot is not None else {})}
    return tuple(who for job, who in named.items() if any(part in job.lower() for part in _WATCH))


def directors(plan: Plan) -> tuple[str, ...]:
    """Who directs: says direction or director, and is not an assistant's or the art department's."""
    return tuple(
        p.id
        for p in plan.people.values()
        if any(
            "direct" in (word := said.lower())
            and group_of(word) == "eyes"
            and "assist" not in word
            and "art " not in word
            for said in p.works
        )
    )


def taken(
    plan: Plan, setup: Setup, shot: Shot | None, free: Iterable[Person], players: Map[str, str]
) -> dict[str, Job]:
    """Who of those free takes which of the jobs that nobody is named for, as many as can be; and, where somebody
    directs and nobody is named to watch, who watches the acting."""
    from ..science.matching import match

    every = jobs(plan, setup, shot)
    playing = [who for _, who in cast(plan, setup, shot, players)]
    fixed = {job.who for job in every if job.who} | {*playing, *watchers(setup, shot)}
    free = [p for p in free if p.id not in fixed]
    open_jobs = [job for job in every if job.who is None]
    lead = directors(plan)
    asked = wanted(plan, every, free)
    if playing and lead and not watchers(setup, shot):
        open_jobs.append(Job("eyes", "watches the acting", setup.path, None))
        asked[str(len(open_jobs) - 1)] = [
            *(p.id for p in free if p.id in lead),
            *(p.id for p in free if p.id not in lead),
        ]
    return {who: open_jobs[int(number)] for number, who in match(asked).given.items()}


def is_crew(person: Person) -> bool:
    """Whether somebody works behind the camera: says so, or plays nobody. Minors do no work here."""
    return not person.minor and bool(person.works or person.skills or not person.plays)


def present(plan: Plan, person: Person, day_id: str | None) -> bool:
    """Whether a person is there on a day at all: in the day's list where it has one, and not away."""
    day = plan.days.get(day_id or "")
    if day is None:
        return True
    if day.people and person.id not in day.people:
        return False
    return not person.days or day.id in person.days


def hours(person: Person, day_id: str | None) -> ClockRange | None:
    """From when to when a person can be there on a day, where the plan says it."""
    own = person.days.get(day_id or "")
    return own.here if own is not None and own.here is not None else person.here


def free_crew(plan: Plan, day_id: str | None, busy: Iterable[str]) -> list[Person]:
    """The crew of a day without those who are busy otherwise."""
    taken = set(busy)
    return [p for p in plan.people.values() if p.id not in taken and is_crew(p) and present(plan, p, day_id)]
