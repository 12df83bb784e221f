"""What rigging ahead would save, in the crew's words."""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING

from ..facts.hours import duration, times_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from .rig_ahead import Proposal

NONE = (
    "Day {day}: no room can be rigged ahead with a gain: either those who rig have a job in what is shot meanwhile, or "
    "the room or its things are in use until the crew comes, or it saves less than five minutes."
)


def ahead_lines(day: str, found: Iterable[Proposal], width: int) -> Iterator[str]:
    """One proposal after another, each with what to write under the day."""
    proposals = tuple(found)
    if not proposals:
        yield from wrap(NONE.format(day=day), width)
        return
    yield from wrap(
        f"Day {day}: rigged ahead, these save time. Each is by itself, checked by every rule, and the day put in order "
        "again with it. Write it under the day to have it so.",
        width,
    )
    for one in proposals:
        while_ = ", ".join(f"'{name}'" for name in one.meanwhile)
        text = (
            f"'{one.setup}' by {' and '.join(one.by)}, {times_words(one.start)} to {times_words(one.end)}"
            f"{f', while {while_} is shot' if while_ else ''}: wraps {times_words(one.wrap)}, "
            f"{duration(one.saves)} earlier"
        )
        yield from wrap(text, width, initial_indent="  - ", subsequent_indent="    ")
        yield f"      {one.text}"
