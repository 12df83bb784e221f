"""What `hotset order` prints: the day from call to wrap, with the reasons, in plain text of a given width."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.changeover import IN_HAND
from ..facts.hours import duration, times_words
from .fold import wrap
from .handout import hand_out
from .latercall import longest_wait
from .search import TURNED, WAIT
from .solve import PART_NAMES
from .speak_clash import clash_lines
from .speak_tight import tight

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts.timeline import Step, Task
    from .dayorder import DayOrder, Swap
    from .solve import Part

WIDTH = 80
_ACTIONS = {
    "lamp": "place", "move-lamp": "move", "modifier": "modifier", "aim": "aim", "colour": "set", "gel": "gel",
    "boom-arm": "boom arm", "flag": "set", "cable": "cable", "practical": "set", "sticks": "on",
    "gimbal": "balance on", "lens": "lens", "camera-move": "move", "black-out": "black out:", "tent": "tent:",
    "layers": "layers:", "open-window": "open", "dressing": "dress:", "strike": "take away",
}  # fmt: skip


def speak(result: DayOrder, width: int = WIDTH) -> str:
    """The order of a day in words, or why there is none; lines end in a line feed."""
    return "".join(f"{line}\n" for line in lines(result, width))


def lines(result: DayOrder, width: int = WIDTH) -> Iterator[str]:
    """The same line by line."""
    if result.timeline is None:
        yield from clash_lines(result, width)
        return
    yield from _verdict(result, width)
    yield ""
    turns = {s.setup: s for s in result.swaps}
    for step in result.timeline.steps:
        yield from _step(step, result, width)
        if step.kind == "setup" and step.setup in turns:
            yield from _folded(_turn(turns[step.setup]), 11, width)
    yield f"{times_words(result.timeline.wrap)}  wrapped"
    notes = list(_notes(result, width))
    if notes:
        yield ""
        yield from notes


def _verdict(result: DayOrder, width: int) -> Iterator[str]:
    assert result.timeline is not None
    wrapped, call = result.timeline.wrap, result.day.call
    shot = len([s for s in result.answer.steps if s.setup >= 0])
    yield from _folded(
        f"Day {result.day.id}: {_setups(shot)}, call {times_words(call)}, wrap {times_words(wrapped)}, "
        f"{duration(wrapped - call)}",
        0,
        width,
    )
    parts = result.answer.parts
    yield from _folded(_proof(parts[0], result.answer.opened), 0, width)
    waiting = next((p.value for p in parts if p.name == PART_NAMES[WAIT]), 0)
    if waiting:
        yield from _folded(f"The cast wait {duration(waiting)} in all between their setups.", 0, width)
    weak = [p for p in parts[1:] if not p.proven and p.name != PART_NAMES[TURNED]]  # a mere tie-break is not told
    for part in weak if parts[0].proven else ():
        yield from _folded(_weak(part), 0, width)
    if result.dropped:
        names = ", ".join(f"'{d}'" for d in result.dropped)
        how = "no order has room for more" if result.answer.fewest_dropped else "room for more was not found"
        yield from _folded(f"Left out for want of time: {names} ({how}).", 0, width)
    yield from _against_agreed(result, width)


def _setups(count: int) -> str:
    return "1 setup" if count == 1 else f"{count} setups"


def _proof(part: Part, opened: int) -> str:
    if part.proven:
        return f"Proven best: no order of these setups wraps before {times_words(part.value)}."
    gap = duration(part.value - part.bound)
    return (
        f"Best found: at most {gap} from the best there can be, which is not before {times_words(part.bound)} "
        f"(looked at {opened} moments; '--limit' sets how many)."
    )


def _weak(part: Part) -> str:
    if part.name == PART_NAMES[WAIT]:
        return f"Cast waiting {duration(part.value)}: best found, at least {duration(part.bound)}; not proven."
    return f"{part.name.capitalize()} {part.value}: best found, at least {part.bound}; not proven."


def _against_agreed(result: DayOrder, width: int) -> Iterator[str]:
    agreed = result.agreed
    if agreed is None:
        return
    ends = times_words(agreed.timeline.wrap)
    missed = ", ".join(f"'{s}'" for s in agreed.missed)
    left = ", ".join(f"'{s}'" for s in agreed.timeline.left_out if s not in result.dropped)
    if agreed.timeline.order == (result.timeline.order if result.timeline else ()):
        text = "This is the agreed order."
    elif missed:
        text = f"The agreed order misses when {missed} can be shot; it wraps at {ends}."
    elif left:
        text = f"The agreed order leaves out {left}; it wraps at {ends}."
    elif agreed.later > 0:
        text = f"The agreed order wraps at {ends}, {duration(agreed.later)} later."
    elif agreed.later == 0:
        text = f"The agreed order wraps at {ends} too, with more carrying or waiting."
    else:
        text = f"The agreed order wraps at {ends}, {duration(-agreed.later)} earlier: it breaks a wish this one keeps."
    yield from _folded(text, 0, width)


def _step(step: Step, result: DayOrder, width: int) -> Iterator[str]:
    words = {
        "load-in": "load in",
        "prepare": f"rig {step.setup}",
        "setup": f"SHOOT {step.setup}",
        "move": f"move the crew {step.words}",
        "wait": f"wait: {step.words}" if step.words else "wait",
        "meal": step.words or "meal",
        "room-tone": "room tone, everybody quiet",
        "wrap": "pack and put the place back",
    }[step.kind]
    if step.missed:
        words += " (misses its window)"
    mark = "*" if step.typical else ""
    took = f"{duration(step.end - step.start)}{mark}"
    head = f"{times_words(step.start)}  "
    room = width - len(took) - 1
    texts = wrap(words, room - len(head)) or [""]
    yield f"{head}{texts[0]}".ljust(room) + " " + took
    for text in texts[1:]:
        yield " " * len(head) + text
    for task in step.tasks:
        yield from _folded(_task(task), 9, width)
    excess = _more(step, result)
    if excess > 1:
        yield from _folded(f"each task in one go: up to {duration(excess)} more", 9, width)


def _task(task: Task) -> str:
    done = ", ".join(words if words == IN_HAND else f"{_ACTIONS[a]} {words}".strip() for a, words, _ in task.actions)
    name = task.name
    for front in ("window ", "dressing of ", "practical "):
        if name.startswith(front):
            name = f"{front.split(' ')[0]} {name[len(front) :].rsplit('/', 1)[-1]}"
    people = f", {task.people} people" if task.people > 1 else ""
    return f"{name}: {done} ({duration(task.half_minutes)}{people})"


def _turn(swap: Swap) -> str:
    if swap.later is None or swap.touches is None:
        return f"it cannot come before '{swap.before}'"
    parts = []
    if swap.later:
        parts.append(f"wraps {duration(abs(swap.later))} {'later' if swap.later > 0 else 'earlier'}")
    if swap.touches:
        parts.append(f"touches {abs(swap.touches)} {'more' if swap.touches > 0 else 'fewer'}")
    return f"before '{swap.before}': {', '.join(parts) or 'no difference'}"


def _notes(result: DayOrder, width: int) -> Iterator[str]:
    assert result.timeline is not None
    day = result.day
    if day.out is not None or day.ends:
        yield from _folded(_spare(result), 0, width)
    yield from _folded(tight(result), 0, width)
    wait = longest_wait(result.timeline)
    if wait is not None and result.later is not None:
        yield from _folded(
            f"Everybody waits {duration(wait.end - wait.start)} from {times_words(wait.start)} on: a call at "
            f"{times_words(result.later)} loses nothing, all of this is shot and the wrap is no later.",
            0,
            width,
        )
    yield from _folded(_hands(result), 0, width)
    typical = "; ".join(result.timeline.typical)
    if typical:
        yield from _folded(f"* typical, the plan does not say: {typical}.", 0, width)
    if day.missing:
        yield from _folded(f"Not counted with, for want of: {'; '.join(day.missing)}.", 0, width)


def _spare(result: DayOrder) -> str:
    """What is left until everybody must be out, and how much of that is the buffer."""
    assert result.timeline is not None
    day, wrapped = result.day, result.timeline.wrap
    if day.ends or day.out is None:
        end = day.day.latest_wrap
        return f"{duration(end - wrapped)} before {times_words(end)}, when the day has to end {day.ends}."
    spare = day.out - wrapped
    said = f"{duration(spare)} before everybody must be out ({times_words(day.out)})"
    if not day.buffer:
        return f"{said}; no buffer is kept."
    more = f" and {duration(spare - day.buffer)} more" if spare > day.buffer else ""
    return f"{said}: the {duration(day.buffer)} of buffer{more}."


def _hands(result: DayOrder) -> str:
    """How rigging is shared, and what whole tasks add to it."""
    assert result.timeline is not None
    numbers = result.day.day
    hands = f"{numbers.riggers} rigger{'' if numbers.riggers == 1 else 's'}"
    more = sum(_more(step, result) for step in result.timeline.steps)
    text = f"Rigging is shared by {hands}: it takes as long as the longest task, or as all the work divided by them."
    if not more:
        return text
    where = "the buffer has to give them" if result.day.buffer else "no buffer is there to give them"
    return f"{text} With each task in one go it takes {duration(more)} more over the day; {where}."


def _more(step: Step, result: DayOrder) -> int:
    """Half-minutes by which a changeover takes longer than counted when every task is done in one go."""
    if not step.tasks or result.day.day.setups[result.day.index(step.setup)].flat:
        return 0
    return max(0, hand_out(step.tasks, result.day.day.riggers)[0] - (step.end - step.start))


def _folded(text: str, indent: int, width: int) -> list[str]:
    return wrap(text, width, initial_indent=" " * indent, subsequent_indent=" " * (indent + 2 if indent else 0))
