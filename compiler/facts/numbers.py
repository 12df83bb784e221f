"""One shooting day as whole numbers: what an order is counted with. Times are half-minutes from local midnight."""

from __future__ import annotations

from functools import reduce

from ..record import record
from .pieces import Group, changeover

MUST, WANT, IF_TIME = 0, 1, 2
FOREVER = 1 << 40
MEAL_TOUCHES = 10
"""A meal that is no must counts as so many touched pieces: none is taken that no time without a meal asks for."""
ROOM_TOUCHES = 10
"""A change of room counts as so many touched pieces: everything in use has to be carried, and people with it."""

Spans = tuple[tuple[int, int], ...]


@record
class Window:
    """When the takes of a setup may run: from first rolling to last cut inside one span. `why` in the crew's words;
    a `shared` window is one fact for all setups that have it (somebody is here), not a wish of each."""

    why: str
    spans: Spans
    shared: bool = False


@record
class Setup:
    """A setup. Each need lists its options (group, state), one of which must be served; `away` states must be left
    by any piece that stands in them. `fixed` half-minutes of changeover are added whatever stands where; with `flat`
    they are the whole changeover. `tone`: its room's tone is recorded after the last such setup in that room. Setups
    of one `part_of` (-1: none) are visits to one and the same: from one to the next nothing `fixed` is to be done."""

    name: str
    takes: int
    room: int
    needs: tuple[tuple[tuple[int, int], ...], ...] = ()
    away: tuple[tuple[int, int], ...] = ()
    fixed: int = 0
    cast: tuple[int, ...] = ()
    windows: tuple[Window, ...] = ()
    priority: int = MUST
    flat: bool = False
    tone: bool = False
    part_of: int = -1

    @property
    def surely(self) -> int:
        """The half-minutes of `fixed` that it costs whatever is shot before."""
        return 0 if self.part_of >= 0 else self.fixed


@record
class Meal:
    """A meal before the rigging of some setup, or after the last. Starts from `earliest` to `latest`; one that is
    not a must is taken only where the longest time without a meal asks for it."""

    name: str
    length: int
    earliest: int = -FOREVER
    latest: int = FOREVER
    must: bool = True


@record
class Hold:
    """A hot set: what serves `first` stays as it is until `until` is rigged; setups `inside` may work in it, and the
    groups in `free` leave it when they are wanted elsewhere."""

    first: int
    until: int
    inside: tuple[int, ...] = ()
    free: tuple[int, ...] = ()


@record
class Day:
    """A day to be put in order. `travel[a][b]` half-minutes from room a to room b, `arrive[b]` into the first;
    `room` is where the crew stands now (-1: nowhere yet); `gap` the longest time from the call (or `fed`, the end
    of the last meal) to a meal and from a meal to the wrap; `pack` the time from last cut to wrap; `tone` that of
    one room tone; `agreed` an order to stay close to, empty where none binds; `absent` (from, to, how many) when
    riggers are away from the main crew."""

    name: str
    setups: tuple[Setup, ...]
    groups: tuple[Group, ...]
    travel: tuple[tuple[int, ...], ...]
    arrive: tuple[int, ...]
    riggers: int
    call: int
    latest_wrap: int = FOREVER
    pack: int = 0
    before: tuple[tuple[int, int], ...] = ()
    holds: tuple[Hold, ...] = ()
    meals: tuple[Meal, ...] = ()
    gap: int = FOREVER
    fed: int | None = None
    room: int = -1
    cast: tuple[str, ...] = ()
    agreed: tuple[int, ...] = ()
    tone: int = 0
    absent: tuple[tuple[int, int, int], ...] = ()

    def hands(self, time: int) -> int:
        """Riggers of the main crew at a time; never fewer than one."""
        return max(1, self.riggers - sum(n for lo, hi, n in self.absent if lo <= time < hi))

    def fewest_hands(self) -> int:
        """No fewer riggers than this at any time."""
        return max(1, self.riggers - sum(n for _, _, n in self.absent))

    def rigged(self, start: int, fixed: int, work: int, longest: int) -> int:
        """When the rigging that begins at `start` (or when more hands are back, if that is earlier done) is done."""
        done = start + fixed + changeover(work, longest, self.hands(start))
        for _, back, _ in self.absent:
            if start < back < done:
                done = min(done, back + fixed + changeover(work, longest, self.hands(back)))
        return done


def meet(windows: tuple[Window, ...]) -> Spans:
    """The times that lie in every window; without windows, always."""
    whole: Spans = ((-FOREVER, FOREVER),)
    return reduce(_cut, (w.spans for w in windows), whole)


def _cut(one: Spans, two: Spans) -> Spans:
    joined: list[tuple[int, int]] = []
    for lo, hi in sorted((max(a, c), min(b, d)) for a, b in one for c, d in two):
        if joined and lo <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(hi, joined[-1][1]))
        elif lo <= hi:
            joined.append((lo, hi))
    return tuple(joined)
