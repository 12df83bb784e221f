"""Loads of circuits and sizes of cloth, as the sheets print them."""

from __future__ import annotations

from ..facts import loads
from ..plan.light import Treatment
from ..plan.setup import Setup
from ..record import record
from .desk import Desk
from .view import Mark

# Where no profile of the mains is known: at most 80 % for longer use (NEC 210.20(A); elsewhere a caution).
CONTINUOUS = 0.8
OVERLAP = 0.15  # metres that a blackout overlaps its frame on each side; common practice, no source


@record
class LoadLine:
    """A circuit in one setup: how full, in words and as shares of the breaker for the bar."""

    name: str
    words: str
    share: int
    limit: int
    over: bool
    marks: tuple[Mark, ...]


def of_setup(desk: Desk, setup: Setup) -> tuple[LoadLine, ...]:
    """The circuits that are used while a setup is shot, sets held hot and what hangs there already included."""
    unknown = {
        circuit
        for _path, _name, circuit, gear in loads.plugged(desk.shoot.plan, setup)
        if circuit and (gear not in desk.shoot.plan.gear or desk.shoot.plan.gear[gear].draws is None)
    }
    return tuple(
        _line(desk, moment, moment.circuit.id in unknown)
        for moment in desk.shoot.facts.circuit_moments
        if moment.setup == setup.id
    )


def _line(desk: Desk, moment: loads.Moment, unknown: bool) -> LoadLine:
    _ = desk.words
    say, circuit = desk.say, moment.circuit
    place = desk.shoot.plan.location_of(moment.setup)
    rules = loads.profile(place) if place else None
    part = 1.0 if circuit.breaker is None else rules.share if rules else CONTINUOUS
    volts = loads.volts(place) if place else None
    watts = sum(load.watts for load in moment.loads) + moment.already * (volts or 0.0)
    drawn = say.value("power", watts)
    words = _(
        "{power}, {current} of {most} for longer use",
        power=_("at least {power}", power=drawn) if unknown else drawn,
        current=say.value("current", round(moment.amperes, 1)),
        most=say.value("current", round(moment.breaker * part, 1)),
    )
    over = moment.share > part
    if over:
        words = _("TOO MUCH: {words}", words=words)
    share = min(100, round(moment.share * 100))
    return LoadLine(say.circuit(circuit.id), words, share, round(part * 100), over, desk.marking.under(circuit.path))


def cloth_size(desk: Desk, window: str, treatment: Treatment) -> str:
    """The piece of cloth to cut for a window that is blacked out, overlap on every side included."""
    _ = desk.words
    plan, say = desk.shoot.plan, desk.say
    known = plan.windows.get(window) or next(
        (w for name, w in plan.windows.items() if name.rsplit("/", 1)[-1] == window), None
    )
    if not treatment.black_out or known is None or known.width is None or known.height is None:
        return ""
    stock = plan.stock.get(treatment.black_out)
    overlap = next(
        (v for v in (treatment.overlap, stock.overlap if stock else None,
                     plan.film.defaults.overlap if plan.film.defaults else None) if v is not None),
        OVERLAP,
    )  # fmt: skip
    size = say.value("size", (known.width + 2 * overlap, known.height + 2 * overlap))
    return _("cut {size}", size=size)
