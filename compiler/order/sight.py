"""What of where the gear stands still matters to what is left: moments that look alike have one bound."""

from __future__ import annotations

from ..facts.pieces import CASE
from .rest import Rests
from .workspace import Gear, Workspace


class Sight:
    """Numbers for where the gear stands, seen by what is left. Every set of states that is still to be entered has a
    field of bits with how many pieces stand in it; every group a bit for a piece in its case."""

    def __init__(self, space: Workspace, rests: Rests) -> None:
        self.space = space
        groups = range(len(space.day.groups))
        self._fields: list[tuple[int, int]] = []
        self._cased: list[tuple[int, int]] = []
        self._codes: list[list[int]] = [[] for _ in groups]
        self._live: dict[int, int] = {}
        self._offsets: list[list[tuple[frozenset[int], int]]] = []
        at = 0
        for g in groups:
            width = len(space.day.groups[g].start).bit_length()
            self._cased.append((space.users[g], 1 << at))
            at += 1
            offsets = []
            for states, sure in {v.states: v.sure for case in (False, True) for v in rests.visits(g, case)}.items():
                offsets.append((states, at))
                self._fields.append((sure, (1 << width) - 1 << at))
                at += width
            self._offsets.append(offsets)

    def seen(self, gear: Gear, rem: int) -> int:
        """The number for this state of all gear while `rem` is left."""
        live = self._live.get(rem)
        if live is None:
            live = sum(field for sure, field in self._fields if sure & rem)
            live = self._live[rem] = live + sum(bit for users, bit in self._cased if users & rem)
        code = 0
        try:
            for codes, sid in zip(self._codes, gear, strict=True):
                code |= codes[sid]
        except IndexError:  # states are numbered as they are met
            for g, codes in enumerate(self._codes):
                codes += [self._code(g, k) for k in range(len(codes), len(self.space.states[g]))]
            return self.seen(gear, rem)
        return code & live

    def _code(self, g: int, sid: int) -> int:
        standing = self.space.states[g][sid]
        code = self._cased[g][1] if CASE in standing else 0
        for states, at in self._offsets[g]:
            code |= sum(1 for s in standing if s in states) << at
        return code
