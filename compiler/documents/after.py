"""After-the-day sheet: estimates beside empty columns for what it really took, by kind of task.

Written up once, the next plan's `timings:` are this crew's own.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from ..record import record
from .desk import Desk
from .say import join
from .shoot import DayLine
from .view import Sheet


@record
class KindRow:
    """A kind of task: how often, minutes each and in all, whether the minutes are the usual ones; its key."""

    words: str
    key: str
    count: str
    each: str
    total: str
    typical: bool


@record
class TimeRow:
    """A stretch of the day with its estimate."""

    when: str
    what: str
    rig: str
    takes: str


@record
class After:
    """The sheet."""

    first_when: str
    first_what: str
    first_where: str
    why: str
    kinds: tuple[KindRow, ...]
    rows: tuple[TimeRow, ...]


def sheets(desk: Desk) -> Iterator[Sheet]:
    """One for each day that has times."""
    _ = desk.words
    people = desk.workers("production", "producer", "first-assistant", "first-ad", "director", "direction")
    for line in desk.shoot.days:
        if line.slots:
            head = desk.head(_("After the day"), line)
            file = f"{desk.folder(line)}/after-the-day"
            yield Sheet("after-the-day", file, head, partial(view, desk, line), line.day.id, people)


def view(desk: Desk, line: DayLine) -> After:
    """Kinds of task, then the setups."""
    _ = desk.words
    end = line.slots[-1].end
    return After(
        first_when=desk.say.clock(end), first_what=_("After the wrap: write down what it really took"),
        first_where=_("from the actual column of the running order, while it is fresh"), why=line.why,
        kinds=tuple(_kinds(desk, line)), rows=tuple(_rows(desk, line)),
    )  # fmt: skip


def _kinds(desk: Desk, line: DayLine) -> Iterator[KindRow]:
    """Every kind of task of the day, in the order in which they first come."""
    if line.replayed is None:
        return
    from ..facts.changeover import minutes

    counted = minutes(desk.shoot.plan)
    spent: dict[str, list[int]] = {}
    for step in line.replayed.steps:
        for task in step.tasks:
            for action, _words, half_minutes in task.actions:
                spent.setdefault(action, []).append(half_minutes)
    names = kind_words(desk)
    for action, times in spent.items():
        each, all_ = _minutes(desk, max(times)), _minutes(desk, sum(times))
        yield KindRow(names.get(action, action), action, str(len(times)), each, all_, action in counted.typical)


def _minutes(desk: Desk, half_minutes: int) -> str:
    return desk.say.value("duration", half_minutes * 30.0)


def kind_words(desk: Desk) -> dict[str, str]:
    """Each kind of task as the crew calls it."""
    _ = desk.words
    return {
        "setup": _("rig a whole setup"), "lamp": _("place a lamp"), "move-lamp": _("move a lamp"),
        "modifier": _("swap a modifier"), "aim": _("point a lamp anew"), "colour": _("change colour or level"),
        "gel": _("change a gel"), "boom-arm": _("rig a boom arm"), "flag": _("set a flag or cloth"),
        "cable": _("run a cable"), "practical": _("set a practical"), "sticks": _("camera onto its support"),
        "gimbal": _("camera onto the gimbal"), "lens": _("change the lens"), "camera-move": _("move the camera"),
        "black-out": _("black out a window"), "tent": _("build a tent"), "layers": _("layers on a window"),
        "open-window": _("open a window again"), "dressing": _("change the dressing"), "strike": _("put away"),
        "room": _("change of room"), "company-move": _("company move"), "load-in": _("load in"),
        "wrap-out": _("wrap"), "meal": _("meal"), "room-tone": _("room tone"),
    }  # fmt: skip


def _rows(desk: Desk, line: DayLine) -> Iterator[TimeRow]:
    """The day in the order of its times: setups with rigging and takes apart, and what lies between them."""
    _ = desk.words
    say = desk.say
    names = {"load-in": _("load in"), "move": _("change of room"), "meal": _("meal"), "room-tone": _("room tone"),
             "wrap-out": _("wrap"), "spare": _("waiting")}  # fmt: skip
    rows: list[tuple[int, TimeRow]] = []
    for slot in line.slots:
        if slot.kind == "shoot":
            rig = line.of_setup(slot.setup, "rig")
            first = rig.start if rig else slot.start
            what = join(" · ", (say.setup(slot.setup), ", ".join(slot.shots)))
            rows.append((first, TimeRow(say.clock(first), what, say.minutes(rig.end - rig.start) if rig else "–",
                                        say.minutes(slot.end - slot.start))))  # fmt: skip
        elif slot.kind != "rig":
            row = TimeRow(say.clock(slot.start), names[slot.kind], "", say.minutes(slot.end - slot.start))
            rows.append((slot.start, row))
    yield from (row for _start, row in sorted(rows, key=lambda r: r[0]))
