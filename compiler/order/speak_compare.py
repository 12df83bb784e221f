"""Two orders of a day side by side, in words on which a crew can agree."""

from __future__ import annotations

from itertools import zip_longest
from typing import TYPE_CHECKING

from ..facts.hours import duration, times_words
from .compare import oftener
from .fold import wrap

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts.shootday import ShootDay
    from ..facts.timeline import Step
    from .compare import Compared, Oftener

TOLD = 6
"""Things that are handled more often, at most."""
NAMES = 30
"""Columns of a terminal for the names of the figures."""


def side_by_side(day: ShootDay, one: Compared, two: Compared, width: int) -> Iterator[str]:
    """Figures, what breaks, where they part, and why; line by line."""
    yield from wrap(f"Day {day.id}: {one.name} against {two.name}", width)
    yield ""
    yield from _table(one, two, width)
    yield ""
    yield from _broken(one, two, width)
    yield ""
    yield from _parted(one, two, width)
    for mine, theirs in ((one, two), (two, one)):
        found = oftener(mine, theirs)
        if found:
            yield ""
            yield from wrap(f"Handled more often in {mine.name}:", width)
            for item in found[:TOLD]:
                yield from wrap(_oftener(item), width, initial_indent="  - ", subsequent_indent="    ")
            if len(found) > TOLD:
                yield f"  - and {len(found) - TOLD} more"


def _broken(one: Compared, two: Compared, width: int) -> Iterator[str]:
    if not one.breaks and not two.breaks:
        yield "Nothing breaks in either."
        return
    for order in (one, two):
        if not order.breaks:
            yield from wrap(f"In {order.name} nothing breaks.", width)
            continue
        yield from wrap(f"In {order.name} this breaks:", width)
        for text in order.breaks:
            yield from wrap(text, width, initial_indent="  - ", subsequent_indent="    ")


def _table(one: Compared, two: Compared, width: int) -> Iterator[str]:
    column = min(16, (width - NAMES) // 3)
    yield "".ljust(NAMES) + "".join(_cell(t, column) for t in (_short(one.name), _short(two.name), "difference"))
    a, b = one.costs, two.costs
    yield (
        "everybody is out at".ljust(NAMES)
        + _cell(times_words(a.wrap), column) + _cell(times_words(b.wrap), column) + _cell(_more(a.wrap, b.wrap), column)
    )  # fmt: skip
    waits = (sum(t for _, t in a.waiting), sum(t for _, t in b.waiting))
    lengths = [
        ("rigging, everybody waits", a.rigging, b.rigging),
        ("moving from room to room", a.moving, b.moving),
        ("waiting for light or people", a.idle, b.idle),
        ("cast waiting, all together", *waits),
    ]
    for name, mine, theirs in lengths:
        yield name.ljust(NAMES) + "".join(
            _cell(t, column) for t in (duration(mine), duration(theirs), _more(mine, theirs))
        )
    theirs_of = dict(b.waiting)
    for person, time in a.waiting:
        other = theirs_of.get(person, 0)
        if time != other:
            row = (duration(time), duration(other), _more(time, other))
            yield f"  {person}".ljust(NAMES) + "".join(_cell(t, column) for t in row)
    for name, mine, theirs in (
        ("moves of the whole crew", a.moves, b.moves),
        ("setups with a change of light", a.lights, b.lights),
        ("things handled", a.pieces, b.pieces),
    ):
        count = "" if mine == theirs else f"{theirs - mine:+d}"
        yield name.ljust(NAMES) + _cell(str(mine), column) + _cell(str(theirs), column) + _cell(count, column)


def _cell(text: str, wide: int) -> str:
    """Right in its column, with at least a blank before it; a long name keeps its end."""
    return f" {text[1 - wide :]}".rjust(wide)


def _short(name: str) -> str:
    """An order's name over its column: 'best order', 'agreed order'."""
    return name.removeprefix("the ").removesuffix(" found")


def _more(one: int, two: int) -> str:
    """How much more (+) or less (-) the second has."""
    return "" if one == two else f"{'+' if two > one else '-'}{duration(abs(two - one))}"


def _parted(one: Compared, two: Compared, width: int) -> Iterator[str]:
    """The two orders next to each other, as far as they differ."""
    rows = [[s for s in c.line.steps if s.kind in ("setup", "meal")] for c in (one, two)]
    names = [[_name(s) for s in mine] for mine in rows]
    if names[0] == names[1]:
        yield "Both have the same setups in the same order."
        return
    same = 0
    while same < min(map(len, names)) and names[0][same] == names[1][same]:
        same += 1
    end = 0
    while end < min(map(len, names)) - same and names[0][-1 - end] == names[1][-1 - end]:
        end += 1
    if same:
        yield from wrap(f"They are alike up to '{names[0][same - 1]}'. Then:", width)
    half = width // 2
    yield one.name.capitalize()[: half - 1].ljust(half) + two.name.capitalize()[: half - 1]
    parts = [mine[same : len(mine) - end] for mine in rows]
    for left, right in zip_longest(*parts):
        yield (_row(left, half).ljust(half) + _row(right, half)).rstrip()
    if end:
        yield from wrap(f"From '{names[0][-end]}' on they are alike again.", width)


def _name(step: Step) -> str:
    return step.setup if step.kind == "setup" else step.words or "meal"


def _row(step: Step | None, wide: int) -> str:
    return "" if step is None else f"{times_words(step.start)}  {_name(step)}"[: wide - 1]


def _oftener(item: Oftener) -> str:
    times = {1: "once", 2: "twice"}
    count, other = (times.get(n, f"{n} times" if n else "never") for n in (item.times, item.other))
    thing = item.thing.rsplit("/", 1)[-1] if item.thing.startswith(("window ", "dressing ")) else item.thing
    word = item.thing.split(" ")[0] + " " if thing != item.thing else ""
    return f"{word}{thing}: {count} instead of {other} (before {', '.join(item.setups)})"
