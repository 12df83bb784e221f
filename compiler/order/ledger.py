"""What a day costs with these setups: quick bounds, exact lengths that are looked up once, and the work counted."""

from __future__ import annotations

from dataclasses import dataclass

from ..facts.numbers import FOREVER
from ..facts.slate import Slate
from .advance import Rules
from .part import part
from .solve import earliest
from .workspace import Workspace


@dataclass(frozen=True, slots=True)
class Length:
    """Half-minutes from call to wrap, no less than `bound`; `value` None where no order was found."""

    value: int | None
    bound: int


class Ledger:
    """Lengths of days, each worked out once; `opened` counts moments and bounds as the work that was done."""

    def __init__(self, slate: Slate, each: int) -> None:
        self.slate = slate
        self.each = each
        self.opened = 0
        self._at = tuple({i: k for k, i in enumerate(on)} for on in slate.on)
        self._bound: dict[tuple[int, tuple[int, ...]], int] = {}
        self._length: dict[tuple[int, tuple[int, ...]], Length] = {}
        self._no_shorter: dict[tuple[int, tuple[int, ...]], int] = {}

    def rules(self, d: int, setups: tuple[int, ...]) -> Rules:
        """The moves of a day with these setups."""
        day = part(self.slate.days[d], tuple(self._at[d][i] for i in setups))
        return Rules(Workspace(day, (1 << len(setups)) - 1))

    def bound(self, d: int, setups: tuple[int, ...]) -> int:
        """No shorter than this is day d with these setups (in order); FOREVER where they cannot all be shot. A day
        without setups is not shot and costs nothing."""
        if not setups:
            return 0
        key = (d, setups)
        known = self._length.get(key)
        if known is not None:
            return FOREVER if known.value is None else known.bound
        got = self._bound.get(key)
        if got is None:
            self.opened += 1
            rules = self.rules(d, setups)
            end = rules.least_end(rules.opening())
            got = self._bound[key] = FOREVER if end is None else end + self._around(d)
        return got

    def length(self, d: int, setups: tuple[int, ...]) -> Length:
        """The length of day d with these setups, best order first."""
        if not setups:
            return Length(0, 0)
        key = (d, setups)
        got = self._length.get(key)
        if got is None:
            if self.bound(d, setups) >= FOREVER:
                got = Length(None, FOREVER)
            else:
                found = earliest(self.rules(d, setups), None, self.each)
                self.opened += found.opened
                value = None if found.best is None else found.best.time + self._around(d)
                got = Length(value, FOREVER if value is None else found.bound + self._around(d))
            self._length[key] = got
        return got

    def shorter(self, d: int, setups: tuple[int, ...], than: int) -> int | None:
        """The length of day d with these setups where one shorter `than` so many half-minutes was found; else None."""
        key = (d, setups)
        if key not in self._length and setups:
            if self.bound(d, setups) >= than or self._no_shorter.get(key, 0) >= than:
                return None
            found = earliest(self.rules(d, setups), None, self.each, than - self._around(d))
            self.opened += found.opened
            if found.best is None:
                self._no_shorter[key] = than
                return None
            self._length[key] = Length(found.best.time + self._around(d), found.bound + self._around(d))
        value = self.length(d, setups).value
        return None if value is None or value >= than else value

    def _around(self, d: int) -> int:
        day = self.slate.days[d]
        return day.pack - day.call + self.slate.lead[d]
