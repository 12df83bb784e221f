"""What a film hangs on: the things whose loss alone takes a must away, found as dominators of a dependency graph.

From the lender to the thing, from the thing to every use that must be served, from what would serve instead to the same
use: a node that lies on every way from the start to a use dominates it. A lender is a point of its own where several
things that would do hang on the same one.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts import Facts, hands, spare
from ..facts.occupancy import owned
from ..record import record
from ..rules import RULES, run
from . import people, power
from .loss import Loss, without
from .what_if import shots_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    import networkx

    from ..facts.spare import Gap
    from ..findings import Place
    from ..plan import Plan
    from ..plan.scene import Shot
    from ..plan.setup import Setup

Node = tuple[str, ...]
START: Node = ("start",)
QUIET = ("missing-adapter", "filter-thread", "no-support", "missing-lead", "missing-battery", "missing-media",
         "modifier-does-not-fit", "cloth-short", "diffusion-short", "gel-short")  # fmt: skip
"""Rules that speak when something is gone that the plan counts on without naming it."""
ORDER = ("lender", "lent", "own", "person", "circuit", "cast")


@record
class WeakPoint:
    """A thing whose loss alone takes musts away: `kind` is lender, lent, own, person, circuit or cast; `musts` the
    numbers of the shots; `words` what is worth knowing of it."""

    name: str
    kind: str
    musts: tuple[str, ...]
    words: str
    place: Place


def weak_points(facts: Facts) -> tuple[WeakPoint, ...]:
    """All of them, the least replaceable first: lent before own, people, circuits; then the most musts, then as in the
    plan."""
    import networkx

    graph = _graph(facts)
    above: dict[Node, Node] = networkx.immediate_dominators(graph, START)
    hang: dict[Node, dict[str, None]] = {}
    for node in graph:
        if node[0] != "use":
            continue
        here = above.get(node, START)
        while here not in (START, above.get(here)):
            if here[0] != "spare":
                hang.setdefault(here, {})[node[1]] = None
            here = above[here]
    numbers = {name: i for i, name in enumerate(facts.plan.shots)}
    found = [_point(facts, node, tuple(sorted(shots, key=numbers.__getitem__))) for node, shots in hang.items()]
    kept = [point for point in found if point is not None]
    rank = {name: i for i, name in enumerate((*facts.plan.gear, *facts.plan.stock, *facts.plan.people))}
    kept.sort(key=lambda p: (ORDER.index(p.kind), -len(p.musts), rank.get(p.name, 0), p.name))
    return tuple(kept)


def _graph(facts: Facts) -> networkx.DiGraph[Node]:
    import networkx

    graph: networkx.DiGraph[Node] = networkx.DiGraph()
    graph.add_node(START)
    lenders = _lenders(facts.plan)
    for node, use in _edges(facts):
        if node[0] in ("thing", "spare") and (lender := lenders.get(node[1])):
            graph.add_edge(START, ("lender", lender))
            graph.add_edge(("lender", lender), node)
        else:
            graph.add_edge(START, node)
        graph.add_edge(node, use)
    return graph


def _lenders(plan: Plan) -> dict[str, str]:
    gear = {g.id: g.lent_by for g in plan.gear.values() if g.owner in ("borrowed", "rented") and g.lent_by}
    stock = {s.id: s.lent_by for s in plan.stock.values() if s.owner in ("borrowed", "rented") and s.lent_by}
    return gear | stock


def _edges(facts: Facts) -> Iterator[tuple[Node, Node]]:
    """What serves -> the use that is served, for every use of a must."""
    needed = list(musts(facts))
    for setup, shot in needed:
        for thing in dict.fromkeys(name for use in spare.take_uses(facts, setup, shot) for name in use.among):
            yield from _served(("thing", thing), shot, spare.gaps(facts, setup, shot, {thing: 1}))
        named = {job.who for job in hands.jobs(facts.plan, setup, shot) if job.who} | _cast(facts, setup, shot)
        for person in sorted(named):
            yield from _served(("person", person), shot, tuple(people.gaps(facts, setup, shot, (person,))))
        for circuit in sorted({load.circuit for m in facts.circuit_moments if m.setup == setup.id for load in m.loads}):
            yield from _served(("circuit", circuit), shot, tuple(power.gaps(facts, setup, (circuit,))))
    yield from _unnamed(facts, {shot.id for _, shot in needed})


def musts(facts: Facts) -> Iterator[tuple[Setup, Shot]]:
    """Every must that has no 'plan-b:' of its own, with its setup."""
    for setup, shot in facts.takes:
        if shot is not None and (shot.priority or setup.priority or "must") == "must" and not shot.plan_b:
            yield setup, shot


def _cast(facts: Facts, setup: Setup, shot: Shot) -> set[str]:
    return {p for _, p in hands.cast(facts.plan, setup, shot, facts.players) if p in facts.plan.people}


def _served(node: Node, shot: Shot, gaps: tuple[Gap, ...]) -> Iterator[tuple[Node, Node]]:
    for gap in gaps:
        use: Node = ("use", shot.id, gap.path, gap.lost)
        yield node, use
        if gap.serves:
            yield ("spare", gap.by), use


def _unnamed(facts: Facts, wanted: set[str]) -> Iterator[tuple[Node, Node]]:
    """What the plan counts on without naming it: rules that speak when the thing is gone."""
    plan = facts.plan
    rules = [rule for rule in RULES if rule.id in QUIET]
    known = {(f.rule, f.place.path) for f in run(rules, facts)[0]}
    gone = [Loss(gear={name: 1}) for name, g in plan.gear.items() if owned(plan, name) == 1 and g.kind in _COUNTED_ON]
    gone += [Loss(stock={name: 1}) for name in plan.stock]
    for loss in gone:
        (name,) = (*loss.gear, *loss.stock)
        for one in run(rules, Facts(without(plan, loss, gone=True)))[0]:
            if (one.rule, one.place.path) not in known and one.severity == "error":
                for shot in shots_of(plan, one):
                    if shot in wanted:
                        yield ("thing", name), ("use", shot, one.place.path, name)


_COUNTED_ON = frozenset({"adapter", "support", "battery", "media", "power"})


def _point(facts: Facts, node: Node, musts: tuple[str, ...]) -> WeakPoint | None:
    plan = facts.plan
    kind, name = node
    if kind == "lender":
        things = [thing for thing, lender in _lenders(plan).items() if lender == name]
        if len(things) < 2:
            return None
        family = "gear" if things[0] in plan.gear else "stock"
        words = "lends " + ", ".join(f"'{thing}'" for thing in things)
        return WeakPoint(name, "lender", musts, words, plan.where(f"{family}.{things[0]}"))
    if kind == "thing":
        gear = plan.gear.get(name) or plan.stock[name]
        lent = gear.owner in ("borrowed", "rented")
        words = f"lent by {gear.lent_by}" if gear.lent_by else gear.owner or "own"
        if name in plan.gear and (others := plan.gear[name].plan_b):
            words += ", and its plan-b is taken then: " + ", ".join(f"'{other}'" for other in others)
        family = "gear" if name in plan.gear else "stock"
        return WeakPoint(name, "lent" if lent else "own", musts, words, plan.where(f"{family}.{name}"))
    if kind == "person":
        plays = plan.people[name].plays
        words = f"plays {', '.join(plays)}" if plays else "nobody else can"
        return WeakPoint(name, "cast" if plays else "person", musts, words, plan.where(f"people.{name}"))
    place, _, short = name.rpartition("/")
    return WeakPoint(name, "circuit", musts, "no other", plan.where(f"locations.{place}.circuits.{short}"))
