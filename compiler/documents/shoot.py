"""What all sheets draw on: the plan, what was found in it, and the day's line of times where there is one."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from ..facts import Facts
from ..facts.timeline import Timeline
from ..findings import Finding
from ..plan import Plan
from ..plan.day import Day
from ..plan.film import Accepted
from ..record import field, record

SlotKind = Literal["load-in", "rig", "shoot", "meal", "room-tone", "move", "wrap-out", "spare"]


@record
class Slot:
    """A stretch of a day, in half-minutes since its midnight.

    `shots` are those taken in it; `typical` tells that its length rests on built-in usual minutes; `latest` is the
    time by which it must have begun, where something in `words` forces it: hours of its
    `own`, or what follows; `missed` that it begins too late or too
    early for that. Of a wait, `words` say what for.
    """

    kind: SlotKind
    start: int
    end: int
    setup: str = ""
    shots: tuple[str, ...] = ()
    typical: bool = False
    latest: int | None = None
    words: str = ""
    missed: bool = False
    own: bool = False


@record
class DayLine:
    """One day: its setups in order, its slots in time, or in `why` the reason why there are none or what they lack."""

    day: Day
    setups: tuple[str, ...]
    slots: tuple[Slot, ...] = ()
    why: str = ""
    replayed: Timeline | None = None

    def of_setup(self, setup: str, kind: SlotKind) -> Slot | None:
        """The first slot of this kind for a setup."""
        return next((slot for slot in self.slots if slot.setup == setup and slot.kind == kind), None)

    def start_of(self, setup: str) -> int | None:
        """When work on a setup begins: its rigging, or its first take where nothing is rigged."""
        slot = self.of_setup(setup, "rig") or self.of_setup(setup, "shoot")
        return slot.start if slot else None

    def rolling(self, setup: str) -> int | None:
        """When the first take of a setup begins."""
        slot = self.of_setup(setup, "shoot")
        return slot.start if slot else None


@record
class Sun:
    """The sky of a day at its place, in half-minutes since local midnight; None where it does not happen."""

    rise: int | None
    set: int | None
    dark_until: int | None
    dark_from: int | None


@record
class Shoot:
    """Everything the sheets are made of. `accepted` are findings that the plan takes in public, with its words."""

    facts: Facts
    plan: Plan
    days: tuple[DayLine, ...]
    version: str
    findings: tuple[Finding, ...] = ()
    accepted: tuple[tuple[Finding, Accepted], ...] = ()
    suns: Mapping[str, Sun] = field(default_factory=dict)
    label: str = ""

    def day(self, day_id: str) -> DayLine:
        """The line of a day; the id is one of the plan's."""
        return next(line for line in self.days if line.day.id == day_id)
