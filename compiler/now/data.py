"""The answer as plain data for programs: clock times as words, lengths in minutes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ..facts.hours import times_words
from ..facts.numbers import FOREVER
from .ahead import ahead

if TYPE_CHECKING:
    from .answer import Answer, Coming
    from .ways import Choice


def data(found: Answer) -> dict[str, Any]:
    """What `hotset now --format json` writes; nothing that is not known is left out, it is null."""
    going, way, state = found.rest.going, found.way, found.rest.happened
    return {
        "day": found.day,
        "at": times_words(found.at),
        "behind_minutes": None if found.behind is None else found.behind / 2,
        "wrap": times_words(way.timeline.wrap),
        "agreed_wrap": _clock(found.planned_wrap),
        "latest_wrap": _clock(found.rest.limit),
        "over_minutes": way.over / 2,
        "wrapped": _clock(state.wrapped),
        "done": list(state.done),
        "dropped": list(state.dropped),
        "unshot": list(found.rest.unshot),
        "going": {
            "kind": going.kind or going.pause,
            "setup": going.setup,
            "shot": going.shot,
            "since": times_words(going.since),
            "left_minutes": going.left / 2,
            "from_the_log": not going.implied,
        },
        "order": list(way.order),
        "pairs_turned": way.turned if way.turned >= 0 else None,
        "coming": [_coming(item) for item in found.coming],
        "falls": [
            {"shot": f.shot, "setup": f.setup, "priority": f.priority, "because": list(f.falls), "plan_b": f.plan_b}
            for f in found.rest.losses.fates if f.falls
        ],
        "survives": [
            {"shot": f.shot, "setup": f.setup, "with": list(f.served)}
            for f in found.rest.losses.fates if not f.falls
        ],
        "lost": [{"setup": name, "because": why} for name, why in way.lost],
        "late": _late(found.choice),
        "no_room_tone": list(found.rest.untoned),
        "remarks": [*found.rest.losses.remarks, *ahead(found.rest.plan, found.rest.happened)],
    }  # fmt: skip


def _clock(value: int | None) -> str | None:
    return None if value is None or value >= FOREVER else times_words(value)


def _coming(item: Coming) -> dict[str, Any]:
    return {
        "kind": item.kind,
        "name": item.name,
        "begin": times_words(item.begin),
        "start": times_words(item.start),
        "latest": _clock(item.latest),
        "end": times_words(item.end),
        "agreed": _clock(item.planned),
        "misses": item.misses or None,
        "shots": [{"shot": shot, "start": times_words(at)} for shot, at in item.shots],
    }


def _late(choice: Choice | None) -> dict[str, Any] | None:
    if choice is None:
        return None
    return {
        "need_minutes": choice.need / 2,
        "ways": [
            {"kind": o.kind, "what": o.words, "saves_minutes": o.saved / 2, "enough": o.enough,
             "brings_back": list(o.regains), "breaks": o.breaks, "ask": o.ask}
            for o in choice.options
        ],
        "together_minutes": choice.together / 2,
        "together_enough": choice.together_enough,
    }  # fmt: skip
