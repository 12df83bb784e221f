"""The facts of one plan, each worked out once, when it is first asked for."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from . import loads, occupancy

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.scene import Shot
    from ..plan.setup import Setup
    from .daylight import Daylight
    from .exposure import Reading
    from .occupancy import Moment, Use
    from .rigging import Rigging
    from .room import RoomLight
    from .timeline import Timeline
    from .workday import WorkDay


class Facts:
    """All that follows from a plan. Pure: the same plan gives the same facts; nothing here changes the plan."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan

    @cached_property
    def locations_used(self) -> tuple[str, ...]:
        """The places where setups are shot or a day is called, in the order of the plan."""
        used = {room.split("/")[0] for s in self.plan.setups.values() if (room := s.set)}
        used |= {d.location for d in self.plan.days.values() if d.location}
        return tuple(name for name in self.plan.locations if name in used)

    @cached_property
    def uses(self) -> dict[str, tuple[Use, ...]]:
        """Setup -> every piece of gear it takes, in the order of the text."""
        return {name: occupancy.uses(self.plan, s) for name, s in self.plan.setups.items()}

    @cached_property
    def moments(self) -> tuple[Moment, ...]:
        """Every setup of the agreed orders, in order, with the setups that stay hot meanwhile."""
        return occupancy.moments(self.plan)

    @cached_property
    def ahead(self) -> tuple[Moment, ...]:
        """Every setup of the agreed orders that is rigged or shot while others are rigged ahead, with these: what is
        rigged ahead needs its things from then until it is shot."""
        found: list[Moment] = []
        for name, line in self.timelines.items():
            for early in self.plan.days[name].ahead:
                own = line.shooting(early.setup or "")
                since = line.call if early.from_ is None else int(early.from_)
                for step in line.steps if own is not None and early.setup in self.plan.setups else ():
                    if step.kind == "setup" and step.setup != early.setup and own and since < step.end <= own.start:
                        found.append(occupancy.Moment(name, step.setup, (early.setup or "",)))
        return tuple(found)

    @cached_property
    def shots_of(self) -> dict[str, tuple[Shot, ...]]:
        """Setup -> the shots taken from it, in story order; a setup without shots is left out."""
        found: dict[str, list[Shot]] = {}
        for shot in self.plan.shots.values():
            if shot.setup:
                found.setdefault(shot.setup, []).append(shot)
        return {name: tuple(shots) for name, shots in found.items()}

    @cached_property
    def takes(self) -> tuple[tuple[Setup, Shot | None], ...]:
        """Every setup with each of its shots, in the order of the setups; with None where it has no shots."""
        return tuple((s, shot) for s in self.plan.setups.values() for shot in self.shots_of.get(s.id) or (None,))

    @cached_property
    def players(self) -> dict[str, str]:
        """Character -> who plays it; the first in the plan where two do."""
        found: dict[str, str] = {}
        for person in self.plan.people.values():
            for character in person.plays:
                found.setdefault(character, person.id)
        return found

    @cached_property
    def day_of(self) -> dict[str, str | None]:
        """Setup -> the day it is shot on, or None where the plan does not tell."""
        return {name: self.plan.day_of(name) for name in self.plan.setups}

    @cached_property
    def circuit_moments(self) -> tuple[loads.Moment, ...]:
        """Every circuit while every setup is shot, sets held hot included."""
        return tuple(loads.moments(self.plan, {m.setup: m.held for m in self.moments}))

    def agreed(self, day_id: str) -> bool:
        """Whether the day has an agreed order."""
        return bool(self.plan.days[day_id].order)

    @cached_property
    def timelines(self) -> dict[str, Timeline]:
        """Day -> its agreed order minute by minute, for every day that has one and a call."""
        if not any(day.order for day in self.plan.days.values()):
            return {}
        from .timeline import timeline

        found = ((name, timeline(self.plan, name)) for name in self.plan.days)
        return {name: line for name, line in found if line is not None}

    @cached_property
    def work_days(self) -> dict[str, dict[str, WorkDay]]:
        """Day with an agreed order -> everybody who is there, with their hours and what takes them away."""
        from .workday import work_days

        return {name: work_days(self, name) for name in self.timelines}

    @cached_property
    def changeovers(self) -> dict[str, tuple[Rigging, ...]]:
        """Day with an agreed order -> the hands of each of its changeovers; empty where the plan names no crew."""
        from .rigging import rigging

        return rigging(self)

    @cached_property
    def readings(self) -> dict[str, Reading]:
        """Setup -> the light at its `key-at`, where it has lamps or practicals and the mark's place is known."""
        lit = [s for s in self.plan.setups.values() if (s.lights or s.practicals) and s.key_at]
        if not lit:
            return {}
        from .exposure import reading

        found = ((s.id, reading(self, s)) for s in lit)
        return {name: one for name, one in found if one is not None}

    @cached_property
    def daylights(self) -> dict[str, Daylight | str]:
        """Setup -> its daylight, or the detail that is wanting for it, where the sky comes in at all."""
        bright = [s for s in self.plan.setups.values() if s.set and s.camera is not None and self._by_day(s)]
        if not bright:
            return {}
        from .daylight import of

        found = ((s.id, of(self, s)) for s in bright)
        return {name: one for name, one in found if one is not None}

    def _by_day(self, setup: Setup) -> bool:
        """Whether daylight may count in a setup at all."""
        reading, room = self.readings.get(setup.id), self.plan.set_of(setup.id)
        if reading is not None:
            return bool(reading.daylight)
        return room is not None and not setup.lights and setup.needs != "dark" and bool(room.outdoors or setup.key_at)

    def room_light(self, setup_id: str) -> RoomLight | None:
        """What the room itself gives back at a setup's reading, an estimate; None outdoors or where it is not known."""
        reading = self.readings.get(setup_id)
        if reading is None or reading.key is None:
            return None
        if setup_id not in self._rooms:
            from .exposure import fill_way
            from .room import of

            self._rooms[setup_id] = of(self.plan, self.plan.setups[setup_id], reading, fill_way(reading))
        return self._rooms[setup_id]

    @cached_property
    def _rooms(self) -> dict[str, RoomLight | None]:
        """What `room_light` has worked out so far."""
        return {}

    def rolling(self, setup_id: str) -> tuple[int, int] | None:
        """From when to when the takes of a setup run, in half-minutes of its day; None without an agreed order."""
        line = self.timelines.get(self.day_of[setup_id] or "")
        step = line.shooting(setup_id) if line is not None else None
        return (step.start, step.end) if step is not None else None
