"""What is left to do costs at least this much: the lower bounds that steer the search and prove its answers.

Per group the distinct states still to be visited form a tree room > place > setting. Every state in which too few
pieces stand must be entered at its cheapest entry; every place and room in which too few pieces stand must be
entered from outside. A state that no piece stands in is entered for the first of the setups that want it, and so in
one changeover with all else that is wanted by the same setups.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from ..facts.numbers import FOREVER, ROOM_TOUCHES
from ..facts.pieces import CASE
from .firsts import Firsts
from .forced import Forced, order_of_windows
from .perroom import Again, PerRoom, again_touched, fewer
from .rest import NOTHING, GroupRest, Rests
from .workspace import Gear, Workspace

CLOSELY = 9


class Bounds:
    """Lower bounds over a workspace, cached."""

    def __init__(self, space: Workspace) -> None:
        self.space = space
        self._groups: dict[tuple[int, int, int, bool], GroupRest] = {}
        self._work: dict[tuple[int, Gear], tuple[int, int]] = {}
        self._closely: dict[tuple[int, Gear, int], tuple[int, int]] = {}
        self._rooms: dict[tuple[int, int], tuple[int, int]] = {}
        self._stay: dict[tuple[int, int], tuple[int, int]] = {}
        self._briefly: dict[tuple[int, int], int] = {}
        self._tail: dict[tuple[int, int], tuple[int, int]] = {}
        self._together: dict[int, int] = {}
        self._rests: dict[tuple[int, tuple[int, ...], int], GroupRest] = {}
        self._pressing: dict[int, tuple[tuple[int, int, frozenset[int], int], ...]] = {}
        self._takes: dict[int, int] = {}
        self._rooms_of: dict[int, frozenset[int]] = {}
        self._visits = self._part_visits()
        self._due: dict[tuple[int, int, Gear], int] = {}
        self._by_group: dict[tuple[int, int, int, int], GroupRest] = {}
        self.certain, self.possible = self._demands()
        self.rests = Rests(space, self.certain, self.possible)
        self._per_room = PerRoom(space, self.rests)
        self.opens, self.closes = self._limits()
        self.least = tuple(self._least_rig(i) for i in range(len(space.day.setups)))
        self.before = order_of_windows(space, self.opens, self.closes, self.least)
        self._firsts = Firsts(space, self.before)
        self._forced = Forced(space, self.before, self.rests)
        ways = [w for a, row in enumerate(space.day.travel) for b, w in enumerate(row) if a != b]
        self.nearest = min(ways, default=0)

    def _part_visits(self) -> dict[int, tuple[int, int]]:
        """The setups that are shot in visits: the visits as a mask, and what is to be done whatever stands where."""
        found: dict[int, tuple[int, int]] = {}
        for i in self.space.members:
            setup = self.space.day.setups[i]
            if setup.part_of >= 0 and setup.fixed:
                found[setup.part_of] = (found.get(setup.part_of, (0, 0))[0] | 1 << i, setup.fixed)
        return found

    def _demands(self) -> tuple[list[dict[int, Counter[int]]], list[dict[int, frozenset[int]]]]:
        """Per group and setup: states wanted whatever option is chosen, and states that may be wanted."""
        certain: list[dict[int, Counter[int]]] = [{} for _ in self.space.day.groups]
        possible: list[dict[int, frozenset[int]]] = [{} for _ in self.space.day.groups]
        for i in self.space.members:
            variants = self.space.variants[i]
            for g in self.space.touching[i]:
                wanted = [Counter(dict(zip(v.groups, v.wanted, strict=True)).get(g, ())) for v in variants]
                least = wanted[0]
                for other in wanted[1:]:
                    least = least & other
                certain[g][i] = least
                possible[g][i] = frozenset(s for w in wanted for s in w)
        return certain, possible

    def _limits(self) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """Earliest start and latest end of each setup's takes, passed along the precedences."""
        day, takes = self.space.day, self.space.takes
        opens = [max(day.call, spans[0][0]) if spans else FOREVER for spans in self.space.spans]
        last = day.latest_wrap - day.pack
        closes = [min(last, spans[-1][1]) if spans else -FOREVER for spans in self.space.spans]
        pairs = [(a, b) for b in self.space.members for a in self.space.members if self.space.pred[b] >> a & 1]
        for _ in self.space.members:
            for a, b in pairs:
                opens[b] = max(opens[b], opens[a] + takes[a])
                closes[a] = min(closes[a], closes[b] - takes[b])
        return tuple(opens), tuple(closes)

    def _least_rig(self, i: int) -> int:
        """Half-minutes of rigging that setup i costs wherever everything stands: what only it wants must be brought."""
        setup = self.space.day.setups[i]
        if setup.flat or self.space.afoot or not self.space.chosen >> i & 1:
            return setup.surely
        longest = 0
        for g in self.space.touching[i]:
            group = self.space.day.groups[g]
            others = {s for j, states in self.possible[g].items() if j != i for s in states}
            sources = {*group.start, *others, *self.possible[g][i]} | ({CASE} if self.space.clearers[g] else set())
            for t in self.certain[g][i]:
                if t not in others and t not in group.start:
                    longest = max(longest, _cheapest(group.cost, t, (s for s in sources if s != t)))
        return setup.surely + longest

    def tail(self, rem: int, meals: int) -> tuple[int, int]:
        """(no end of takes before this, no start of the next changeover after this) while rem is left."""
        got = self._tail.get((rem, meals))
        if got is None:
            left = [i for i in self.space.members if rem >> i & 1]
            got = self._tail[rem, meals] = (self._least_end(left, meals), self._last_start(left))
        return got

    def fed(self, meals: int, time: int) -> int:
        """Half-minutes of the meals still due, when so many were had, that can only fall after a time."""
        due = (m for m in self.space.day.meals[meals:] if m.must)
        return sum(max(0, min(m.length, m.earliest + m.length - time)) for m in due)

    def _least_end(self, left: list[int], meals: int) -> int:
        """Whatever opens from a time on comes after it: its takes, the changeovers between, room changes and tones.
        The rigging of the first of it may be done before."""
        end, total, widest, mask = -FOREVER, 0, 0, 0
        rooms: set[int] = set()
        toned: set[int] = set()
        by_opening = sorted(left, key=lambda i: -self.opens[i])
        for k, i in enumerate(by_opening):
            total += self.space.takes[i] + self.least[i]
            widest = max(widest, self.least[i])
            mask |= 1 << i
            rooms.add(self.space.rooms[i])
            if self.space.toned >> i & 1:
                toned.add(self.space.rooms[i])
            between = (len(rooms) - 1) * self.nearest + len(toned) * self.space.day.tone
            fed = self.fed(meals, self.opens[i])
            end = max(end, self.opens[i] + total - widest + between + fed)
            last = k + 1 == len(by_opening) or self.opens[by_opening[k + 1]] != self.opens[i]
            if last and k < CLOSELY and self.opens[i] > self.space.day.call:
                end = max(end, self.opens[i] + self.together(mask) + fed)
        return end

    def together(self, late: int) -> int:
        """Half-minutes from the first takes of these setups to the end of the last, whatever was rigged before."""
        got = self._together.get(late)
        if got is None:
            firsts = [i for i in self.space.members if late >> i & 1 and not self.space.pred[i] & late]
            got = self._together[late] = min((self._after_first(i, late) for i in firsts), default=0)
        return got

    def _after_first(self, first: int, late: int) -> int:
        rest = late & ~(1 << first)
        rests = [self._rest_after(g, first, rest) for g in range(len(self.space.day.groups))]
        least, _ = self._shared(rests, rest)
        return self.space.takes[first] + least + self.rooms(self.space.rooms[first], rest)[0] + self._tones(late)

    def _rest_after(self, g: int, first: int, rest: int) -> GroupRest:
        """Least work left for one group once `first` is shot, when nothing else is known of where its pieces stand."""
        users = rest & self.space.users[g]
        if not users or self.space.afoot:
            return NOTHING
        group = self.space.day.groups[g]
        sure = tuple(self.certain[g].get(first, ())) if len(group.start) == 1 else ()
        key = (g, sure, users)
        got = self._rests.get(key)
        if got is None:
            others = frozenset(s for j, states in self.possible[g].items() if not rest >> j & 1 for s in states)
            free = frozenset() if sure else others | set(group.start)
            got = self._rests[key] = self.rests.find(g, sure, users, True, free, others)
        return got

    def _last_start(self, left: list[int]) -> int:
        start, takes = FOREVER, 0
        for i in sorted(left, key=lambda i: self.closes[i]):
            takes += self.space.takes[i] + self.least[i]
            start = min(start, self.closes[i] - takes)
        return start

    def too_late(self, time: int, rem: int, room: int, gear: Gear, end: int) -> bool:
        """Whether something left closes too early to be rigged and shot from this time on, seen from where everything
        stands and whatever else is shot between. What closes after `end` is not looked at."""
        pressing = self._pressing.get(rem)
        if pressing is None:
            pressing = self._pressing[rem] = self._find_pressing(rem)
        if not pressing or pressing[0][0] >= end:
            return False
        rigging = self.work(rem, gear)[0] - self._shot(rem)
        for closing, mask, rooms, takes in pressing:
            if closing >= end:
                break
            left = closing - time - self.nearest * (len(rooms - {room}) - (room < 0))
            if left < takes + rigging and left < self._by_then(mask, rem, gear):
                return True
        return False

    def _find_pressing(self, rem: int) -> tuple[tuple[int, int, frozenset[int], int], ...]:
        """(closing, the setups that close no later, their rooms and takes) for each closing before the day's end."""
        left = [i for i in self.space.members if rem >> i & 1]
        last = self.space.day.latest_wrap - self.space.day.pack
        found = []
        for closing in sorted({self.closes[i] for i in left if self.closes[i] < last})[:CLOSELY]:
            due = [i for i in left if self.closes[i] <= closing]
            mask = sum(1 << i for i in due)
            found.append((closing, mask, frozenset(self.space.rooms[i] for i in due), self._shot(mask)))
        return tuple(found)

    def _shot(self, mask: int) -> int:
        """Half-minutes of takes, and of what is added to every changeover, of a set of setups."""
        got = self._takes.get(mask)
        if got is None:
            setups = self.space.day.setups
            got = self._takes[mask] = sum(
                setups[i].takes + setups[i].surely for i in self.space.members if mask >> i & 1
            )
            if self._visits:
                got = self._takes[mask] = got + self._once(mask)
        return got

    def _once(self, mask: int) -> int:
        """Half-minutes that visits to the same setup cost once at least, but for the one where the crew may stand."""
        left = [(fixed, visits & ~mask) for visits, fixed in self._visits.values() if visits & mask]
        return sum(fixed for fixed, _ in left) - max((fixed for fixed, out in left if out), default=0)

    def between(self, mask: int) -> int:
        """Half-minutes from the first takes of these setups to the end of the last of their takes."""
        return self.together(mask) - self._tones(mask)

    def by_then(self, mask: int, rem: int, room: int, gear: Gear) -> int:
        """Least half-minutes until these setups are shot, seen from a room, while others of rem may come between."""
        got = self._rooms_of.get(mask)
        if got is None:
            got = self._rooms_of[mask] = frozenset(self.space.rooms[i] for i in self.space.members if mask >> i & 1)
        return self._by_then(mask, rem, gear) + self.nearest * (len(got) - (room in got or room < 0))

    def _by_then(self, mask: int, rem: int, gear: Gear) -> int:
        """Least half-minutes of takes and rigging for the setups of a mask, while others of rem may come between."""
        key = (mask, rem, gear)
        got = self._due.get(key)
        if got is None:
            rests = [self._rest_by_then(g, sid, mask, rem) for g, sid in enumerate(gear)]
            got = self._due[key] = self._shared(rests, mask)[0]
        return got

    def _rest_by_then(self, g: int, sid: int, mask: int, rem: int) -> GroupRest:
        users = mask & self.space.users[g]
        if not users:
            return NOTHING
        others = rem & ~mask & (self.space.users[g] | self.space.clearers[g])
        key = (g, sid, users, others)
        got = self._by_group.get(key)
        if got is None:
            via = frozenset(s for j, states in self.possible[g].items() if others >> j & 1 for s in states)
            clears = bool(rem & self.space.clearers[g])
            standing = self.space.states[g][sid]
            got = self._by_group[key] = self.rests.find(g, standing, users, clears, frozenset(), via)
        return got

    def rooms(self, room: int, rem: int) -> tuple[int, int]:
        """(least half-minutes of room changes left, least touches by them)."""
        key = (room, rem)
        got = self._rooms.get(key)
        if got is None:
            left = sorted({self.space.rooms[i] for i in self.space.members if rem >> i & 1})
            origins = [*left, room] if room not in left else left
            ways = {r: min(self.space.travel(o, r) for o in origins if o != r) for r in left if r != room}
            least = sum(ways.values())
            if room < 0 and left:  # one of them is the first, and is only reached from nowhere
                others = {r: min((self.space.travel(o, r) for o in left if o != r), default=0) for r in left}
                least = sum(others.values()) + min(self.space.travel(room, r) - others[r] for r in left)
            entries = len([r for r in left if r != room]) - (room < 0 and bool(left))
            more = self._forced.rooms(room, rem)
            got = self._rooms[key] = (least + more * self.nearest, ROOM_TOUCHES * (entries + more))
        return got

    def entered_more(self, room: int, rem: int) -> int:
        """How many times more rooms must be entered than there are rooms left."""
        return self._forced.rooms(room, rem)

    def briefly(self, rem: int, room: int) -> int:
        """Half-minutes of takes and rigging left from this room on at least, wherever everything stands."""
        got = self._briefly.get((rem, room))
        if got is None:
            space = self.space
            got = sum(space.takes[i] + self.least[i] for i in space.members if rem >> i & 1)
            got = self._briefly[rem, room] = got + self.rooms(room, rem)[0] + self._tones(rem)
        return got

    def stay(self, room: int, rem: int) -> tuple[int, int]:
        """(when the first of what is left in this room opens, the least half-minutes to leave before and come back);
        nothing opens late where nothing is left in it."""
        key = (room, rem)
        got = self._stay.get(key)
        if got is None:
            here = rem & self.space.in_room[room] if room >= 0 else 0
            opens = min((self.opens[i] for i in self.space.members if here >> i & 1), default=-FOREVER)
            others = {self.space.rooms[i] for i in self.space.members if (rem & ~here) >> i & 1}
            back = min((self.space.travel(o, room) for o in others), default=FOREVER)
            got = self._stay[key] = (opens, back)
        return got

    def work(self, rem: int, gear: Gear) -> tuple[int, int]:
        """(least half-minutes of takes and rigging left, least touches left), room changes apart."""
        key = (rem, gear)
        got = self._work.get(key)
        if got is None:
            rests = [self.group_rest(g, sid, rem) for g, sid in enumerate(gear)]
            least, touches = self._shared(rests, rem)
            got = self._work[key] = (least + self._tones(rem), touches)
        return got

    def closely(self, rem: int, gear: Gear, room: int) -> tuple[int, int]:
        """As `work`, seen from a room, and looked at closely: it takes longer, and is never less."""
        key = (rem, gear, room)
        got = self._closely.get(key)
        if got is None:
            rests = [self.group_rest(g, sid, rem) for g, sid in enumerate(gear)]
            again = [f for g, r in enumerate(rests) if r.owed for f in self._per_room.find(g, gear[g], rem, room)]
            entered = fewer(again, self._forced.rooms(room, rem))
            entered += self._forced.groups(gear, rem, {again.groups[0] for again in entered})
            least = self._shared(rests, rem, entered)[0] + self._tones(rem)
            plain, touches = self.work(rem, gear)
            got = self._closely[key] = (max(least, plain), touches + again_touched(entered))
        return got

    def _tones(self, rem: int) -> int:
        here = self.space.toned & rem
        return self.space.day.tone * sum(1 for room in self.space.in_room if room & here) if here else 0

    def _shared(self, rests: list[GroupRest], rem: int, entered: Sequence[Again] | None = None) -> tuple[int, int]:
        """The takes of these setups and the rigging between, shared among the riggers; and the touches of what is
        entered for the first time. `entered`: what is entered again, where it is to be looked at closely."""
        pool = touches = alone = 0
        for rest in rests:
            if rest is not NOTHING:
                pool += rest.pool
                touches += rest.touches
                if rest.alone > alone:
                    alone = rest.alone
        least = self._firsts.least([rest.owed for rest in rests], pool, entered, self.nearest)
        return max(least, alone) + self._shot(rem), touches

    def left_of(self, rests: list[GroupRest], mask: int) -> tuple[int, int]:
        """(half-minutes of takes, rigging and tones, touches) of these setups, where this is the rest of each group."""
        least, touches = self._shared(rests, mask)
        return least + self._tones(mask), touches

    def group_rest(self, g: int, sid: int, rem: int) -> GroupRest:
        """Least work left for one group standing as numbered."""
        users = rem & self.space.users[g]
        if not users:
            return NOTHING
        key = (g, sid, users, bool(rem & self.space.clearers[g]))
        got = self._groups.get(key)
        if got is None:
            got = self._groups[key] = self.rests.find(g, self.space.states[g][sid], users, key[3])
        return got


def _cheapest(cost: tuple[tuple[int, ...], ...], target: int, sources: Iterable[int]) -> int:
    return min((cost[s][target] for s in sources), default=0)
