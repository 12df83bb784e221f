"""What is taken down before the day ends: as the sheets have it, a thing goes when the next setup of its set does not
want it as it stands, and what is left goes after the last setup of the set.

The day in numbers leaves such things standing, since striking them takes nobody's time there; whoever looks for one has
to know that it is back in its case.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from .rig import rig
from .whereabouts import hot

if TYPE_CHECKING:
    from .facts import Facts
    from .rig import State
    from .timeline import Standing


class Struck:
    """A day with an agreed order, asked for each step by its number."""

    def __init__(self, facts: Facts, day_id: str) -> None:
        self.steps = facts.timelines[day_id].steps
        self.hot = hot(facts, day_id)
        self.rooms: dict[str, str] = {}
        self.wanted: dict[str, set[tuple[str, State]]] = {}
        for one in rig(facts.plan, facts.plan.setups_on(day_id)).setups:
            self.rooms[one.setup] = one.room
            self.wanted[one.setup] = {option for need in one.needs for option in need.options}

    def standing(self, i: int) -> tuple[Standing, ...]:
        """What still stands at a step."""
        return tuple(s for s in self.steps[i].standing if not self.since(i, s.piece, s.state))

    def since(self, i: int, piece: str, state: State) -> str:
        """Why a thing that stands there by the numbers is taken down at a step, in words; "" where it is not."""
        users = [k for k, s in enumerate(self.steps) if s.kind == "setup" and k <= i and self._wants(k, piece, state)]
        if not users or state.get("is") == "camera":
            return ""
        last = users[-1]
        name = self.steps[last].setup
        if last == i or self._held(i, piece, state):
            return ""
        after = self._next(last)
        if after is None:
            still = all(s.kind in ("room-tone", "wrap") for s in self.steps[last + 1 : i + 1])
            return "" if still else f"taken down after '{name}'"
        if self._wants(after, piece, state) or i < self._begin(after):
            return ""
        return f"taken down for '{self.steps[after].setup}'"

    def _wants(self, k: int, piece: str, state: State) -> bool:
        return (piece, state) in self.wanted.get(self.steps[k].setup, ())

    def _held(self, i: int, piece: str, state: State) -> bool:
        step = self.steps[i]
        return any(
            a <= step.start and step.end <= b and (piece, state) in self.wanted.get(name, ())
            for name, (a, b) in self.hot.items()
        )

    def _next(self, last: int) -> int | None:
        """The next setup of the set, by its number among the steps."""
        room = self.rooms.get(self.steps[last].setup)
        later = range(last + 1, len(self.steps))
        return next((k for k in later if self.steps[k].kind == "setup" and self.rooms.get(self.steps[k].setup) == room),
                    None)  # fmt: skip

    def _begin(self, k: int) -> int:
        """The step in which a setup is made ready, or the setup itself."""
        name = self.steps[k].setup
        return next((j for j, s in enumerate(self.steps[:k]) if s.kind == "prepare" and s.setup == name), k)
