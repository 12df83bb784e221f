"""Day line and load bars of a plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from ...facts import loads, sky
from ...record import replace
from ..say import Say
from ..window_words import reasons
from ..words import Words, words_for
from . import dayline, loadbars
from .dayline import Ribbon, Stretch, Window
from .setplan import slug
from .svg import Drawing

if TYPE_CHECKING:
    from ...facts.loads import Moment
    from ...plan import Plan
    from ..shoot import DayLine

_NEEDS: tuple[tuple[str, dayline.Light], ...] = (("dark", "dark"), ("dusk", "dusk"), ("golden", "golden"))


def day_line(plan: Plan, line: DayLine, words: Words | None = None, width: float = 510.0) -> Drawing:
    """The line of a day that has times: sky, setups in order, who is there when. `svg` is empty without times."""
    _ = words or words_for()
    say = Say(plan, _)
    title = _("Day {day} from left to right", day=line.day.id)
    if not line.slots:
        wanted = line.why or _("the order of the day: agree one with 'order:'")
        return Drawing("", title, "", 0.0, 0.0, (), (wanted,))
    numbers = {name: str(n) for n, name in enumerate(line.setups, 1)}
    stretches: list[Stretch] = []
    for slot in line.slots:
        name = say.setup(slot.setup) if slot.setup and slot.kind in ("rig", "shoot") else ""
        if slot.kind == "spare" and slot.words:
            name = _("wait for {reason}", reason=reasons(say, slot.setup, slot.words))
        number = numbers.get(slot.setup, "") if slot.kind == "shoot" else ""
        stretches.append(Stretch(slot.kind, slot.start, slot.end, name, number))
    start, end = min(s.start for s in stretches), max(s.end for s in stretches)
    day = dayline.Day(
        title, start, end, tuple(stretches), ribbons(plan, line), tuple(_people(plan, line, say)), line.day.wrap
    )
    return dayline.draw(day, f"day-{slug(line.day.id)}", _, width)


def ribbons(plan: Plan, line: DayLine) -> tuple[Ribbon, ...]:
    """The sky over the day's place, cut into stretches that follow one another; empty where it cannot be known."""
    place = line.day.location or ""
    if not line.day.id or sky.missing(plan, line.day.id, place):
        return ()
    found: dict[dayline.Light, tuple[tuple[int, int], ...]] = {}
    for need, light in _NEEDS:
        found[light] = sky.when(plan, line.day.id, place, need) or ()
    if not found["dusk"] and not found["golden"] and not found["dark"]:
        return (Ribbon("day", 0, 2 * sky.DAY),)
    edges = sorted({0, 2 * sky.DAY, *(t for spans in found.values() for span in spans for t in span)})
    made: list[Ribbon] = []
    for a, b in pairwise(edges):
        light = _light_at((a + b) / 2, found)
        if made and made[-1].light == light:
            made[-1] = Ribbon(light, made[-1].start, b)
        elif 0 <= a < 2 * sky.DAY:
            made.append(Ribbon(light, a, b))
    return tuple(replace(one, told=_own(one, found.get(one.light, ()))) for one in _joined(made))


def _own(band: Ribbon, spans: tuple[tuple[int, int], ...]) -> tuple[int, int] | None:
    """The hours that a light has by itself: the ribbon shows only what is not darker already."""
    return next(((a, b) for a, b in spans if a < band.end and b > band.start), None)


def _joined(made: list[Ribbon]) -> Iterator[Ribbon]:
    """No day beside the dark: times are rounded inwards, so the minute between dusk and dark is left over, and the
    grey before the first low sun has no name of its own. Either belongs to the light on its other side."""
    kept: list[Ribbon] = []
    for k, one in enumerate(made):
        before, after = kept[-1] if kept else None, made[k + 1] if k + 1 < len(made) else None
        if one.light == "day" and before is not None and after is not None:
            if after.light == "dark" and before.light != "day":
                kept[-1] = Ribbon(before.light, before.start, one.end)
                continue
            if before.light == "dark" and after.light != "day":
                made[k + 1] = Ribbon(after.light, one.start, after.end)
                continue
        kept.append(one)
    yield from kept


def _light_at(time: float, found: dict[dayline.Light, tuple[tuple[int, int], ...]]) -> dayline.Light:
    for light in ("dark", "dusk", "golden"):
        if any(a <= time <= b for a, b in found[light]):
            return light
    return "day"


def _people(plan: Plan, line: DayLine, say: Say) -> list[Window]:
    """Those whose hours are bounded by the plan."""
    rows: list[Window] = []
    for name, person in plan.people.items():
        own = person.days.get(line.day.id)
        hours = own.here if own is not None and own.here is not None else person.here
        if hours is not None:
            rows.append(Window(say.person(name), ((hours.start, hours.end),)))
    return rows


def load_bars(
    plan: Plan, moments: Sequence[Moment], setup_id: str, words: Words | None = None, width: float = 510.0
) -> Drawing:
    """What hangs on each circuit while a setup is shot, from `Facts.circuit_moments`; `svg` is empty where nothing
    known does."""
    _ = words or words_for()
    say = Say(plan, _)
    title = _("Loads in {setup}", setup=say.setup(setup_id))
    place = plan.location_of(setup_id)
    rule = loads.profile(place) if place else None
    circuits: list[loadbars.Circuit] = []
    for moment in moments:
        if moment.setup != setup_id:
            continue
        parts = [loadbars.Part(_("already on it"), moment.already)] if moment.already else []
        parts.extend(loadbars.Part(say.light_name(load.words), load.amperes) for load in moment.loads)
        limit = moment.breaker * rule.share if rule else None
        circuits.append(loadbars.Circuit(say.circuit(moment.circuit.id), tuple(parts), moment.breaker, limit))
    if not circuits:
        wanted = _("loads: say 'circuit:' of the lamps, 'draws:' of the gear and 'breaker:' of the circuit")
        return Drawing("", title, "", 0.0, 0.0, (), (wanted,))
    return loadbars.draw(circuits, f"load-{slug(setup_id)}", title, _, width)
