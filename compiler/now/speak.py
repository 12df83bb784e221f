"""The answer on the day in plain words: lines with an indent each, to be wrapped by whoever prints them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.numbers import FOREVER
from ..facts.tables import table
from ..rules.words import clock, counted, quoted, span
from .ahead import ahead

if TYPE_CHECKING:
    from collections.abc import Iterator

    from .answer import Answer, Coming
    from .losses import Fate
    from .ways import Option

Line = tuple[int, str]


def lines(found: Answer) -> Iterator[Line]:
    """Everything that is said of a day at a time."""
    if found.rest.happened.wrapped is not None:
        yield 0, f"day {found.day} was wrapped at {clock(found.rest.happened.wrapped)}{_against(found)}"
        yield from _done(found)
        return
    yield 0, f"day {found.day} at {clock(found.at)}: {_how_late(found)}"
    yield from _done(found)
    yield from _going(found)
    yield from _fates(found)
    yield from _coming(found)
    yield from _late(found)
    yield from _notes(found)


def _against(found: Answer) -> str:
    if not found.behind:
        return ", as agreed" if found.behind == 0 else ""
    return f", {span(abs(found.behind))} {'later' if found.behind > 0 else 'earlier'} than agreed"


def _how_late(found: Answer) -> str:
    wrap, limit = found.way.timeline.wrap, found.rest.limit
    falls = _falling(found)
    said = [f"{falls}everybody is out at {clock(wrap)}"]
    if found.behind is not None and not (falls and found.behind <= 0):  # with less to shoot nobody is ahead
        how = "as agreed" if not found.behind else (
            f"{span(abs(found.behind))} {'behind' if found.behind > 0 else 'ahead of'} the agreed day")  # fmt: skip
        said.insert(0, how)
    if found.way.over:
        said.append(f"{span(found.way.over)} after the latest wrap ({clock(limit)})")
    elif limit < FOREVER:
        said.append(f"{span(limit - wrap)} before the latest wrap ({clock(limit)}){_buffer(found)}")
    return ", ".join(said)


def _falling(found: Answer) -> str:
    """What cannot be had any more, before anything else is said: "5 shots fall, 4 of them musts; without them "."""
    priorities = [f.priority for f in found.rest.losses.fates if f.falls]
    priorities += [p.priority for name, _ in found.way.lost for p in found.rest.parts.get(name, ())]
    if not priorities:
        return ""
    musts = priorities.count("must")
    one = len(priorities) == 1
    whole = ", a must" if one else f", {'both' if musts == 2 else 'all'} of them musts"
    of_them = whole if musts == len(priorities) else f", {counted(musts, 'must')} among them" if musts else ""
    return f"{counted(len(priorities), 'shot falls', 'shots fall')}{of_them}; without {'it' if one else 'them'} "


def _buffer(found: Answer) -> str:
    """The buffer is there to be used on the day; latest starts count with it."""
    buffer = found.rest.day.buffer
    return f", the {span(buffer)} of buffer among them" if buffer else ""


def _done(found: Answer) -> Iterator[Line]:
    state = found.rest.happened
    whole = len(state.done) + sum(len(p) for p in found.rest.parts.values()) + len(state.dropped)
    whole += len(found.rest.unshot) + len(
        found.rest.losses.fallen - {p.id for shots in found.rest.parts.values() for p in shots}
    )
    going = found.rest.going
    rolling = going.kind == "rolled" and (going.shot or going.setup) not in found.rest.losses.fallen
    said = f"done: {len(state.done)} of {counted(whole + rolling, 'shot')}"
    yield 0, said + (f"; dropped: {', '.join(state.dropped)}" if state.dropped else "")
    if found.rest.unshot:
        yield 0, f"not shot: {', '.join(found.rest.unshot)}"


def _going(found: Answer) -> Iterator[Line]:
    going = found.rest.going
    nothing = "one more take" if going.kind == "rolled" else "ready by the plan's minutes"
    left = f"{span(going.left)} to go" if going.left else nothing
    since = f"since {clock(going.since)}"
    if going.kind == "rolled":
        what = f"{going.shot} from '{going.setup}'" if going.shot else f"'{going.setup}'"
        if (going.shot or going.setup) in found.rest.losses.fallen:
            yield 0, f"now: {what} was rolling {since}, until it lost what it needs"
        else:
            yield 0, f"now: {what} is rolling {since}, {left}"
    elif going.kind == "ready":
        yield 0, f"now: '{going.setup}' stands ready"
    elif going.kind == "rigging":
        said = " (the log is silent; by the agreed order)" if going.implied else ""
        yield 0, f"now: '{going.setup}' is being prepared {since}{said}, {left}"
    elif going.pause:
        yield 0, f"now: {going.pause}, until {clock(going.start)}"


def _fates(found: Answer) -> Iterator[Line]:
    fates = found.rest.losses.fates
    fallen = [f for f in fates if f.falls]
    served = [f for f in fates if not f.falls]
    if fallen:
        yield 0, f"{counted(len(fallen), 'shot falls', 'shots fall')}:"
        yield from _grouped(fallen, "falls")
    if served:
        yield 0, f"{counted(len(served), 'shot survives', 'shots survive')}:"
        yield from _grouped(served, "served")
    for name, why in found.way.lost:
        shots = ", ".join(p.id for p in found.rest.parts.get(name, ()))
        yield 0, f"'{name}' ({shots}) cannot be had any more: {why}"


def _grouped(fates: list[Fate], what: str) -> Iterator[Line]:
    groups: dict[str, list[str]] = {}
    for fate in fates:
        words = "; ".join(getattr(fate, what)) + (f"; plan B: {fate.plan_b}" if fate.plan_b and fate.falls else "")
        groups.setdefault(words, []).append(fate.shot)
    for words, shots in groups.items():
        yield 1, f"{', '.join(shots)}: {words}"


def _coming(found: Answer) -> Iterator[Line]:
    if not found.coming:
        packing = found.rest.happened.now.kind == "packing"
        yield 0, "now: packing" if packing else "nothing is left to shoot: pack, and put the place back"
        return
    yield 0, f"next: {_next(found)}"
    if found.way.turned > 0:
        yield 0, f"the agreed order does not fit any more; this one turns {counted(found.way.turned, 'pair')} round:"
    elif found.way.turned < 0:
        yield 0, "no order is agreed; this one wraps earliest:"
    for item in found.coming:
        yield 1, _item(item)


def _next(found: Answer) -> str:
    first = found.coming[0]
    if first.kind != "setup":
        return f"{_name(first)} at {clock(first.start)}"
    shot = first.shots[0][0] if first.shots else first.name
    what = f"{shot} from '{first.name}'" if shot != first.name else f"'{shot}'"
    wait = f" (ready before; it waits for {clock(first.start)})" if first.start > first.begin + 120 else ""
    return f"{what}, rolling by {clock(first.start)}{_latest(first)}{wait}"


def _latest(item: Coming) -> str:
    if item.latest is None:
        return ""
    return f", {clock(item.latest)} at the latest" if item.latest > item.start else ", and no later"


def _name(item: Coming) -> str:
    return "room tone" if item.kind == "room-tone" else item.name


def _item(item: Coming) -> str:
    misses = f"misses {item.misses}" if item.misses else ""
    said = [words for words in (_latest(item)[2:], _planned(item), misses) if words]
    shots = ", ".join(f"{shot} {clock(at)}" for shot, at in item.shots if shot != item.name)
    head = f"{clock(item.start)}-{clock(item.end)} {_name(item)}" + (f" ({'; '.join(said)})" if said else "")
    return head + (f": {shots}" if shots else "")


def _planned(item: Coming) -> str:
    return f"agreed {clock(item.planned)}" if item.planned is not None and item.planned != item.start else ""


def _late(found: Answer) -> Iterator[Line]:
    choice = found.choice
    if choice is None:
        return
    never = ", ".join(table("late")["never"])
    if not choice.options:
        yield 0, "late, and nothing that is left to give up wins time; speak with the director and the owner now"
        yield 0, f"never to be cut: {never}"
        return
    if choice.need and not found.way.over and found.rest.day.buffer:
        yield 0, f"late, and the buffer has room for it; what wins {span(choice.need)} back, the least dear first:"
    elif choice.need:
        yield 0, f"late: what wins {span(choice.need)} back, the least dear first (each tried):"
    else:
        yield 0, "what brings back what is lost, the least dear first (each tried):"
    for number, option in enumerate(choice.options, 1):
        yield 1, _option(number, option)
    if len(choice.options) > 1 and not any(o.enough for o in choice.options):
        enough = "still not enough: speak with the director and the owner now" if found.way.over else (
            "the rest comes out of the buffer" if found.rest.day.buffer else "the rest stays late")  # fmt: skip
        enough = "enough" if choice.together_enough else enough
        yield 1, f"together they save {span(choice.together)}: {enough}"
    yield 0, f"never to be cut: {never}"


def _option(number: int, option: Option) -> str:
    saves = f"saves {span(option.saved)}" if option.saved > 0 else "saves nothing at the wrap"
    back = f", brings back {quoted(option.regains)}" if option.regains else ""
    enough = ", which is enough" if option.enough else ""
    return f"{number}. {option.words}: {saves}{back}{enough}; {option.breaks}; ask {option.ask}"


def _notes(found: Answer) -> Iterator[Line]:
    if found.way.hungry and (found.rest.flaws is None or found.way.hungry > found.rest.flaws.hungry):
        yield 0, f"the meal comes {span(found.way.hungry)} too late in this order; put it earlier"
    for room in found.rest.untoned:
        yield 0, f"no room tone of '{room}' is in the log, and its sound is all shot: record it, {_tone(found)}"
    if found.rest.going.over:
        yield 0, "what is rolling has taken longer than planned; one more take is counted"
    for remark in (*found.rest.losses.remarks, *ahead(found.rest.plan, found.rest.happened)):
        yield 0, remark
    for detail in found.rest.day.missing:
        yield 0, f"not counted with, for want of it: {detail}"


def _tone(found: Answer) -> str:
    return f"{span(found.rest.day.day.tone)}, before the room is broken"
