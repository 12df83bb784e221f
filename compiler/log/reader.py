"""Reading a log line by line. A line that is not understood is one message; those after it are read all the same."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.hours import times_words
from ..source.text import Fault, decode, line_and_column, lines_of, readable_part
from . import subjects
from .events import ANNOUNCED, DayLog, Event, Log, LogFault
from .lengths import without_length
from .names import LogNames
from .said import Bad, Said
from .subjects import Memory
from .tokens import NoTime, Token, number, without_fillers, without_times, words_of
from .words import ENDS, EXAMPLES, FAMILIES, FREE_TEXT, TWO_MEANINGS, VERBS

if TYPE_CHECKING:
    from ..plan import Plan

MOST_FAULTS = 40
HALF_DAY = 1440
EARLY = 360
"""Half-minutes before the call at which a day's log may begin."""
LONGEST = 1920
"""Half-minutes after the call by which it has begun; a time later than that is of another day."""


def read_log(plan: Plan | None, name: str, data: bytes, day: str = "") -> tuple[Log, tuple[LogFault, ...]]:
    """The events of a log and the faults of its lines. `day` is the day it begins with, where no line says it; without
    a plan no name is checked. Times run on: one that is before the line above is of the night after, or a fault."""
    read = decode(data)
    if isinstance(read, Fault):
        line, column = line_and_column(readable_part(data), read.at)
        return Log(name, ()), (LogFault(line, column, f"the log cannot be read: {read.sentence}", read.ways_out[0]),)
    reader = _Reader(plan, day)
    for at, text in enumerate(lines_of(read[0]), 1):
        reader.line(at, text)
        if len(reader.faults) >= MOST_FAULTS:
            reader.faults.append(LogFault(at, 1, f"{MOST_FAULTS} lines are not understood; the rest is not read",
                                          "make sure that this is the log"))  # fmt: skip
            break
    days = tuple(DayLog(d, tuple(events)) for d, events in reader.days.items() if events)
    return Log(name, days), tuple(reader.faults)


class _Reader:
    """The state of a reading: the day, the last time, and what is shot already."""

    def __init__(self, plan: Plan | None, day: str) -> None:
        self.plan = plan
        self.names = LogNames(plan)
        self.words = self.names.words()
        self.day = day or (next(iter(plan.days)) if plan is not None and len(plan.days) == 1 else "")
        self.days: dict[str, list[Event]] = {}
        self.faults: list[LogFault] = []
        self.memory = Memory(plan)
        self.since: tuple[int, int] | None = None

    def line(self, at: int, text: str) -> None:
        """Read one line."""
        tokens = words_of(text)
        if not tokens:
            return
        try:
            for event in self._events(at, tokens):
                self.days.setdefault(self.day, []).append(event)
        except Bad as bad:
            self.faults.append(LogFault(at, bad.column, bad.sentence, bad.way_out))
        except NoTime as bad:
            self.faults.append(LogFault(at, bad.token.column, bad.why, "write it like 09:05, with hours up to 23"))

    def _events(self, at: int, tokens: list[Token]) -> list[Event]:
        verb, kind = self._verb(tokens)
        if kind == "note":
            return []
        rest, length = [t for t in tokens if t is not verb], None
        if kind in ("lost", "back"):
            rest, length = without_length(rest, self.words)
        rest, times = without_times(rest, self.words)
        if kind == "day":
            self._new_day(verb, rest, times)
            return []
        if len(times) > 1 and kind not in FREE_TEXT:
            raise Bad(times[1][0], "there are two times in this line", "write one event a line, each with its own time")
        kind, rest = self._meal(kind, rest)
        takes, rest = _takes(kind, rest)
        rest = [] if kind in FREE_TEXT else self._named(kind, rest)
        if not self.day and self.plan is not None:
            raise Bad(verb, f"the plan has several days ({', '.join(self.plan.days)}), and nothing says which this is",
                      "write 'day' and its name on a line above, such as: day 1")  # fmt: skip
        said = Said(kind, verb, rest, takes, at, self.day)
        found = subjects.resolve(self.plan, self.names, said)
        if kind in ("call", "comes", "leaves") and not times:
            raise Bad(verb, f"'{verb.text}' needs its time", f"write it like: {EXAMPLES[kind]}")
        if length is not None and any(one.family != "stock" for one in found):
            raise Bad(length.token, f"'{found[0].id}' has no metres to lose", f"write it like: {EXAMPLES[kind]}")
        self.memory.check(said, found)
        clock = self._clock(kind, times, at)
        metres = length.metres if length is not None else 0.0
        return [Event(kind, at, verb.column, clock, one.id, one.family, one.count, metres) for one in found]

    def _verb(self, tokens: list[Token]) -> tuple[Token, str]:
        """The word that says what happened: the first that is one, names apart."""
        known = [t for t in tokens if t.low in VERBS]
        plain = [t for t in known if t is tokens[0] or t.low not in self.words]
        if not known:
            raise self._no_verb(tokens)
        verb = (plain or known)[0]
        return verb, VERBS[verb.low]

    def _named(self, kind: str, rest: list[Token]) -> list[Token]:
        """The words without those that say nothing, unless they make a name with the others ("4 A")."""
        families = FAMILIES.get(kind, ())
        if self.names.meanings(" ".join(t.text for t in rest), families):
            return rest
        left = without_fillers(rest, self.words)
        return left if left or self.names.known else rest

    def _no_verb(self, tokens: list[Token]) -> Bad:
        for token in tokens:
            if token.low in TWO_MEANINGS:
                return Bad(token, f"'{token.text}' can mean more than one thing in a log", TWO_MEANINGS[token.low])
        from ..plan.speech import nearest

        plain = [t for t in without_fillers(tokens, self.words) if t.low not in self.words]
        named = [t for t in plain if not t.text[0].isdigit()] or tokens
        for token in named:
            near = nearest(token.low, VERBS)
            if near:
                sentence = f"'{token.text}' is no word of the log; did you mean '{near}'?"
                return Bad(token, sentence, f"write it like: {EXAMPLES[VERBS[near]]}")
        ways = "use one of: rolled, done, dropped, lost, leaves, meal, room tone, wrap; a remark goes after #"
        return Bad(named[0], "this line does not say what happened", ways)

    def _meal(self, kind: str, rest: list[Token]) -> tuple[str, list[Token]]:
        """A meal that begins or is over, with the plan's own names of meals; and the word room before tone."""
        if kind == "done" and any(VERBS.get(t.low) == "meal" and t.low not in self.words for t in rest):
            return "meal-over", []
        if kind == "tone":
            return kind, [t for t in rest if t.low != "room"]
        if kind != "meal":
            return kind, rest
        own = {n for d in self.plan.days.values() for n in d.meals} if self.plan is not None else set()
        left = [t for t in rest if t.low not in ENDS and t.low not in own]
        return ("meal-over" if any(t.low in ENDS for t in rest) else "meal"), left

    def _new_day(self, verb: Token, rest: list[Token], times: list[tuple[Token, int]]) -> None:
        name = rest[0].text if rest else ""
        if not name or times:
            raise Bad(
                verb, "this line does not say which day begins", "write the day's name as in the plan, such as: day 1"
            )
        if self.plan is not None and name not in self.plan.days:
            there = ", ".join(self.plan.days)
            raise Bad(
                rest[0], f"the plan has no day '{name}'", f"use one of: {there}" if there else "write 'days:' first"
            )
        self.day, self.since = name, None
        self.memory = Memory(self.plan)

    def _clock(self, kind: str, times: list[tuple[Token, int]], at: int) -> int | None:
        """The time of an event on the day's own count of hours; those of the night after go on past 24."""
        if not times:
            return None
        token, clock = times[0]
        call = self._call()
        if kind in ANNOUNCED:
            floor = self.since[0] if self.since else call
            return clock + 2 * HALF_DAY if floor is not None and floor - clock > HALF_DAY else clock
        if self.since is None:
            late = call is not None and clock < call - EARLY
            clock += 2 * HALF_DAY * late
            if call is not None and clock - call > LONGEST:
                raise Bad(token, f"{token.text} is more than three hours before the call at {times_words(call)}",
                          "make sure that the time and the day are right")  # fmt: skip
        elif clock < self.since[0]:
            clock += 2 * HALF_DAY
            if clock - self.since[0] > HALF_DAY:
                before = f"{times_words(self.since[0])} of line {self.since[1]}"
                raise Bad(token, f"{token.text} comes before {before}, which stands above",
                          "put the lines in the order of the day, or mend the time")  # fmt: skip
        self.since = (clock, at)
        return clock

    def _call(self) -> int | None:
        day = self.plan.days.get(self.day) if self.plan is not None else None
        return int(day.call) if day is not None and day.call is not None else None


def _takes(kind: str, rest: list[Token]) -> tuple[int, list[Token]]:
    """How many takes (`3 takes`, `take 3`) or pieces (`2 panel`) a line says, and the words without."""
    for k, token in enumerate(rest):
        beside = [j for j in (k - 1, k + 1) if token.low in ("take", "takes") and 0 <= j < len(rest)]
        counted = [(j, n) for j in beside if (n := number(rest[j])) is not None]
        if counted:
            at, takes = counted[0]
            return takes, [t for j, t in enumerate(rest) if j not in (k, at)]
        if token.low in ("take", "takes"):
            raise Bad(token, "this line does not say how many takes", "write the number before it, such as: 3 takes")
    if kind in ("lost", "back") and len(rest) > 1 and (pieces := number(rest[0])):
        return pieces, rest[1:]
    return 0, rest
