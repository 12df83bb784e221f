"""A breaker will trip: more hangs on a circuit at one moment than it may carry.

On set: everything goes dark in the take, the fridge thaws, and somebody looks for the cupboard with the breakers.

How it is decided: for every moment of the day all lamps and practicals on the circuit count with their full draw,
those of sets held hot as well, and what the house already draws: amperes = watts / (volts x power factor). Above the
breaker's rating it is an error everywhere. Where a profile makes it law that a load of three hours or more takes at
most 80 % of the rating (NEC 210.20(A)), that is an error too. A power factor that is not said is a typical one,
marked as such.

The plugs that are offered are the fewest (up to three) after which every circuit of the place holds at every moment;
whether a lamp's lead reaches the other circuit's socket is worked out from their places (1.3 times the straight line).

Fix: hang a lamp on another circuit, run it on a battery, or take a lamp that draws less. One person owns the loads,
and only someone licensed touches the board; local codes decide.

When to accept it: never above the rating.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from ..facts import loads
from ..findings import Finding, NotChecked, Related
from ..source.quantities import show
from .physics import up
from .words import quoted

if TYPE_CHECKING:
    from ..facts import Facts, replug
    from ..facts.loads import Moment

RULE = "circuit-overloaded"
SEVERITY: Final = "error"
TITLE = "more hangs on a circuit than it may carry"

TRIGGERS = """
hotset: 1
locations:
  landing:
    mains: 230 V 50 Hz
    circuits: {ground-floor: {breaker: 10 A, already: 300 W}, first-floor: {breaker: 16 A}}
    sets: {office: {size: 4.2 m x 3.6 m x 2.4 m}}
gear: {big-lamp: {kind: light, draws: 1000 W, factor: 0.95, quantity: 2}}
setups:
  office-wide:
    set: office
    lights:
      quay: {lamp: big-lamp, circuit: ground-floor}  # <- here
      moon: {lamp: big-lamp, circuit: ground-floor}
"""
PASSES = TRIGGERS.replace(
    "moon: {lamp: big-lamp, circuit: ground-floor}", "moon: {lamp: big-lamp, circuit: first-floor}"
)


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    yield from _not_checked(facts)
    for moment, limit, why in worst(facts, above_rating=True):
        yield finding(facts, moment, limit, why, RULE, SEVERITY)


def worst(facts: Facts, *, above_rating: bool) -> list[tuple[Moment, float, str]]:
    """The worst moment of each circuit that is over what must hold (`above_rating`), or else only near it: one row
    a circuit, with the limit in amperes and the words for it."""
    by_circuit: dict[str, list[Moment]] = {}
    for moment in facts.circuit_moments:
        by_circuit.setdefault(moment.circuit.id, []).append(moment)
    found = []
    for name, moments in by_circuit.items():
        top = max(moments, key=lambda m: round(m.share, 9))
        rules = loads.profile(facts.plan.locations[name.split("/")[0]])
        law = rules is not None and rules.law
        share = rules.share if rules else 0.8
        hard = share if law else 1.0
        over_hard = top.share > hard + 1e-9
        if above_rating and over_hard:
            words = (
                f"the {share:.0%} of {top.breaker:g} A that {rules.source} allows for hours"
                if law and rules and (top.share <= 1.0)
                else made_for(top)
            )
            found.append((top, hard * top.breaker, words))
        elif not above_rating and not over_hard and top.share > share + 1e-9:
            found.append((top, share * top.breaker, f"{share:.0%} of {made_for(top)}"))
    return found


def made_for(moment: Moment) -> str:
    """What a circuit is made for: its breaker, or what a station or generator gives."""
    if moment.circuit.breaker is None and moment.circuit.gives is not None:
        return f"the {float(moment.circuit.gives):g} W it gives ({moment.breaker:.1f} A)"
    return f"its breaker of {moment.breaker:g} A"


def finding(facts: Facts, moment: Moment, limit: float, why: str, rule: str, severity: str) -> Finding:
    """The sentence for a circuit at its worst moment, with what hangs on it and one move that would do."""
    plan = facts.plan
    name = moment.circuit.id.rsplit("/", 1)[1]
    parts = [f"{load.words} {load.watts:g} W" for load in moment.loads]
    if moment.circuit.already:
        parts.append(f"the house {float(moment.circuit.already):g} W")
    ways = [w for w in (_move(facts, moment, limit),) if w]
    typical = ("power factor",) if any(load.typical for load in moment.loads) else ()
    return Finding(
        rule,
        "error" if severity == "error" else "warning",
        f"circuit '{name}' carries {moment.amperes:.1f} A in '{moment.setup}', above {why} ({', '.join(parts)})",
        plan.where(moment.loads[0].path),
        related=(
            Related(plan.where(moment.circuit.path), "the circuit"),
            *(Related(plan.where(load.path), f"'{load.words}' hangs on it too") for load in moment.loads[1:]),
        ),
        ways_out=(*ways, "run a lamp on a battery, or take one that draws less"),
        details=(
            ("circuit", moment.circuit.id),
            ("setup", moment.setup),
            ("amperes", round(moment.amperes, 2)),
            ("breaker", round(moment.breaker, 2)),
            ("limit", round(limit, 2)),
            ("share", round(moment.share, 3)),
        ),
        typical=typical,
    )


def _move(facts: Facts, moment: Moment, limit: float) -> str:
    """The fewest plugs to move so that all circuits of the place hold at every moment, and whether leads reach."""
    from ..facts import replug

    place = facts.plan.locations[moment.circuit.id.split("/")[0]]
    moves = replug.fewest(facts, place, limit / moment.breaker, moment.circuit.id)
    if len(moves) == 1:
        one = moves[0]
        return f"hang '{one.load.words}' on {_there(facts, one)}"
    if moves:
        each = [f"'{one.load.words}' to {_there(facts, one)}" for one in moves]
        return f"move {len(moves)} plugs, no fewer do: {', '.join(each[:-1])} and {each[-1]}"
    return ""


def _there(facts: Facts, move: replug.Move) -> str:
    """The other circuit, what is free on it then, and whether the lamp's lead comes there."""
    from ..facts import replug

    name = move.to.id.rsplit("/", 1)[1]
    said = f"'{name}', which keeps {move.free:.1f} A free"
    way = replug.reaching(facts, move.load, move.to)
    lengths = facts.plan.film.lengths or "metric"
    wanted, lacks = show("length", round(way.wanted, 1), lengths), show("length", up(way.wanted - way.there), lengths)
    if way.reaches is None:
        return f"{said} (the plan does not say whether its lead reaches: measure it)"
    if way.reaches:
        return f"{said} (its lead reaches: {wanted} of cable)"
    with_ = quoted(way.leads, "or") if way.leads else f"another lead of {lacks}"
    return f"{said} (with {with_}: {wanted} of cable are wanted, {show('length', way.there, lengths)} are there)"


def _not_checked(facts: Facts) -> Iterator[NotChecked]:
    plan = facts.plan
    for setup in plan.setups.values():
        place = plan.location_of(setup.id)
        for _, words, circuit, name in loads.plugged(plan, setup):
            gear = plan.gear.get(name)
            subject = f"'{words}' in setup '{setup.id}'"
            if gear is None or gear.kind not in ("light", "prop") or gear.runs or gear.battery:
                continue
            if place is not None and place.mains is None and circuit:
                yield NotChecked(RULE, f"location '{place.id}'", "'mains:' of the place, such as 230 V 50 Hz")
            elif circuit and gear.draws is None:
                yield NotChecked(RULE, subject, f"'draws:' of '{name}'")
            elif gear.draws is not None and not circuit and place is not None and place.circuits:
                yield NotChecked(RULE, subject, "'circuit:' of the lamp")
