"""The hands of every changeover: which tasks want whom, who is there at that hour, who does what, what is left over.

A lead is somebody who says that they can (rigging, camera, gimbal, dressing); where nobody in the plan says so,
anybody of the crew. The second pair of hands is anybody of the crew. Work is shared out as the greatest flow over the
time that people have (`science.sharing`): what it leaves over, no way of sharing can do.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record
from ..science import care
from ..science.sharing import Work, share
from . import hands
from .height import REACH, high
from .occupancy import follows_crew
from .rig import rig

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..plan import Plan
    from ..plan.person import Person
    from ..plan.setup import Setup
    from .facts import Facts
    from .rig import State
    from .timeline import Step, Task
    from .workday import WorkDay

FLOOR_TO_ELBOW = 25.0
"""Kilograms that one person lifts where nobody says theirs (the lifting filter of HSE L23, read second hand)."""

_CAMERA = ("sticks", "gimbal", "camera-move", "lens")
_WORDS = {"rig": "who rigs", "camera": "who works the camera", "gimbal": "who builds the gimbal",
          "dress": "who dresses the set"}  # fmt: skip


@record
class Wanted:
    """A task with its hands: the piece and action in words, half-minutes, `lead` and `second` the people who can (no
    `second`: one pair is enough), who the lead is in words, why a second pair is wanted, the piece in
    its new state, and its weight in kilograms where not everybody of the crew lifts it alone."""

    words: str
    length: int
    lead: tuple[str, ...]
    second: tuple[str, ...]
    kind: str
    why: str
    piece: str
    after: State | None
    weight: float = 0.0

    @property
    def pairs(self) -> tuple[tuple[str, ...], ...]:
        """For each pair of hands who can be it."""
        return (self.lead, self.second) if self.why else (self.lead,)

    @property
    def lead_words(self) -> str:
        """Who the lead is, in words."""
        return _WORDS[self.kind]


@record
class Rigging:
    """One changeover: when it is by the order, `there` at least for a part of it, each task that those who are there
    cannot do in its time (`undone`), how many half-minutes longer than ordered it takes at least (None: not to be
    done before the wrap), and what each person does."""

    day: str
    setup: str
    start: int
    end: int
    there: tuple[str, ...]
    undone: tuple[Wanted, ...]
    longer: int | None
    does: dict[str, tuple[str, ...]]


def rigging(facts: Facts) -> dict[str, tuple[Rigging, ...]]:
    """Every changeover with something to do, of every agreed day; none where the plan names no crew."""
    crew = [p for p in facts.plan.people.values() if hands.is_crew(p)]
    if not crew:
        return {}
    says = {kind: _who(crew, kind) for kind in _WORDS}
    found = {}
    for day_id, line in facts.timelines.items():
        there = facts.work_days[day_id]
        days = {p.id: there[p.id] for p in crew if p.id in there}
        steps = (s for s in line.steps if s.kind == "prepare" and s.tasks and s.setup in facts.plan.setups)
        found[day_id] = tuple(_step(facts, day_id, step, says, days, line.wrap) for step in steps)
    return found


def _who(crew: Iterable[Person], kind: str) -> tuple[str, ...]:
    """Who says that they can; where nobody does, all of the crew."""
    every = list(crew)
    able = tuple(p.id for p in every if any(_says(word.lower(), kind) for word in (*p.works, *p.skills)))
    if kind == "rig" and not any("rig" in p.skills for p in every):
        able = ()  # then the order counts with a typical number of hands, whoever they are
    if kind == "gimbal" and not able:
        return _who(every, "camera")
    return able or tuple(p.id for p in every)


def _says(word: str, kind: str) -> bool:
    if kind == "camera":
        return hands.group_of(word) == "camera"
    if kind == "dress":
        return word == "art" or word.startswith("art ") or any(part in word for part in ("prop", "set dress", "scenic"))
    parts = ("gimbal",) if kind == "gimbal" else ("rig", "grip", "gaffer", "electric", "spark")
    return any(word == part or (len(part) > 3 and part in word) for part in parts)


def _step(
    facts: Facts, day_id: str, step: Step, says: dict[str, tuple[str, ...]], days: dict[str, WorkDay], wrap: int
) -> Rigging:
    """One changeover against the people of its hour."""
    start, end, able = step.start, step.end, days
    ahead = [off for day in days.values() for off in day.away if off.setup == step.setup]
    if ahead:
        start, end = min(off.start for off in ahead), max(off.end for off in ahead)
        able = {name: day for name, day in days.items() if any(off.setup == step.setup for off in day.away)}
    work = tuple(t for t in step.tasks if not ahead or not follows_crew(facts.plan, t.piece))
    wanted = _wanted(facts.plan, facts.plan.setups[step.setup], work, says, alone=len(days) < 2)
    tasks = [w for w in wanted if w.length]
    time = {name: day.within(start, end, step.setup) for name, day in able.items()}
    there = tuple(name for name, much in time.items() if much or (start == end and _at(able[name], start, step.setup)))
    said = facts.plan.setups[step.setup].rig is not None or bool(ahead)
    if end == start or said:  # how long it takes is the crew's own word: only whether anybody is there is asked
        undone = tuple(w for w in tasks if not _possible(facts.plan, w, there))
        works = [Work(max(1, (end - start) // max(1, len(tasks))), w.pairs) for w in tasks]
        shared = share(works, dict.fromkeys(there, max(1, end - start)))
    else:
        shared = share([Work(min(w.length, end - start), w.pairs) for w in tasks], time)
        alone = {n: much for n, much in time.items() if much}
        stay = {w.words: [n for n, much in alone.items() if much >= min(w.length, end - start)] for w in tasks}
        undone = tuple(w for w in tasks if not _possible(facts.plan, w, stay[w.words]))
    longer: int | None = 0
    if undone or (shared.left and not said):
        longer = _longer(tasks, able, start, end, wrap, step.setup)
    does = {name: tuple(w.words for w, done in zip(tasks, shared.done, strict=True) if name in done) for name in there}
    return Rigging(day_id, step.setup, start, end, there, undone, longer, does)


def _at(day: WorkDay, clock: int, setup: str) -> bool:
    return any(a <= clock < b for a, b in day.spans(setup))


def _possible(plan: Plan, task: Wanted, there: Iterable[str]) -> bool:
    """Whether these people are enough for a task on its own: a lead, another one where two are wanted, and strong
    enough together."""
    names = list(there)
    lead = [n for n in names if n in task.lead]
    both = {n for n in names if n in task.second or n in lead} if task.why else set(lead)
    if not lead or (task.why and len(both) < 2):
        return False
    return not task.weight or lifted(plan, names, task.weight)


def lifted(plan: Plan, names: Iterable[str], weight: float) -> bool:
    """Whether one of these people lifts a weight, or two of them together (two thirds of their sum; from memory)."""
    strong = sorted((lifts(plan, name) for name in names), reverse=True)
    alone, two = strong[:1], strong[:2]
    return bool(alone and weight <= alone[0]) or (len(two) > 1 and weight <= sum(two) * care.team_factor(2) / 2 + 1e-9)


def lifts(plan: Plan, name: str) -> float:
    """What somebody lifts alone, in kilograms: as they say, else what the lifting filter names."""
    said = plan.people[name].lifts
    return FLOOR_TO_ELBOW if said is None else float(said)


def _longer(tasks: list[Wanted], days: dict[str, WorkDay], start: int, end: int, wrap: int, setup: str) -> int | None:
    """How much longer at least a changeover takes with people as they come and go; None where the day is too short."""
    works = [Work(w.length, w.pairs) for w in tasks]

    def left(until: int) -> int:
        return share(works, {n: day.within(start, until, setup) for n, day in days.items()}).left

    low, high = end, max(wrap, end)
    if left(high):
        return None
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if not left(middle) else (middle + 1, high)
    return low - end


def _wanted(
    plan: Plan, setup: Setup, tasks: Iterable[Task], says: dict[str, tuple[str, ...]], *, alone: bool
) -> list[Wanted]:
    """The tasks with who can do them. With `alone` nobody is there to hold a ladder all day: that is a rule's own."""
    crew = tuple(dict.fromkeys(name for names in says.values() for name in names))
    every = tuple(p.id for p in plan.people.values() if hands.is_crew(p)) or crew
    above = {h.path: h for h in high(plan, setup)}
    asking = _asking(plan, setup) if above else {}
    found = []
    for task in tasks:
        asks = asking.get((task.piece, task.after), "")
        actions = [action for action, _, _ in task.actions]
        kind = _kind(actions)
        why, weight = "", weighs(plan, task.piece)
        if task.people > 1:
            why = "two at a window"
        elif asks in above:
            why = "somebody foots the ladder"
        elif weight > max(lifts(plan, name) for name in every):
            why = "too heavy for one"
        elif "gimbal" in actions:
            why = "one holds what the other balances"
        if alone and asks in above:
            continue
        found.append(Wanted(_words(task), task.half_minutes, says[kind], every, kind, why, task.piece,
                            task.after, weight))  # fmt: skip
    return found


def _asking(plan: Plan, setup: Setup) -> dict[tuple[str, State | None], str]:
    """A piece in a state -> what of a setup asks for it."""
    found: dict[tuple[str, State | None], str] = {}
    for need in (need for one in rig(plan, (setup.id,)).setups for need in one.needs):
        for option in need.options:
            found.setdefault(option, need.path)
    return found


def asked_at(plan: Plan, setup_id: str, task: Wanted) -> str:
    """The plan's path of what asks for a task; of the setup where nothing of it does (a thing is taken away)."""
    setup = plan.setups[setup_id]
    return _asking(plan, setup).get((task.piece, task.after), setup.path)


def _kind(actions: list[str]) -> str:
    if "gimbal" in actions:
        return "gimbal"
    if any(action in _CAMERA for action in actions):
        return "camera"
    return "dress" if "dressing" in actions else "rig"


def weighs(plan: Plan, name: str) -> float:
    """The weight of a thing that not everybody of the crew lifts alone, in kilograms; 0 where all do, where the plan
    does not say, and where no two of the crew can, which is a matter of its own."""
    gear = plan.gear.get(name)
    crew = [p.id for p in plan.people.values() if hands.is_crew(p)]
    if gear is None or gear.weight is None or not crew:
        return 0.0
    weight = float(gear.weight)
    return weight if weight > min(lifts(plan, n) for n in crew) and lifted(plan, crew, weight) else 0.0


def _words(task: Task) -> str:
    """The piece and what is done to it, in the words of the crew."""
    piece = task.piece
    if piece.startswith(("window ", "lamp ", "practical ", "dressing")):
        name = piece.split(" ", 1)[0] + (f" '{piece.rsplit('/', 1)[-1]}'" if "/" in piece else "")
    else:
        name = f"'{task.name}'"
    return name


__all__ = ["REACH", "Rigging", "Wanted", "rigging"]
