"""The plugs that are offered to be moved: the fewest that do, in the words of the crew, and whether leads reach."""

from __future__ import annotations

import itertools
import random
from pathlib import Path

import pytest
from hotset.facts import loads, replug

from .plans import compiled

WALLS = """
        size: 6 m x 4 m x 2.4 m
        outlets:
          by-door: {wall: west, from: 1 m, circuit: ground}
          by-window: {wall: east, from: 1 m, circuit: first}
"""


def plan(lights: dict[str, tuple[int, str]], circuits: dict[str, int], room: str = "size: 6 m x 4 m x 2.4 m") -> str:
    """A room of circuits (amperes) with lamps (watts, circuit) of power factor 1 at 230 V."""
    gear = "\n".join(f"  lamp-{name}: {{kind: light, draws: {watts} W, factor: 1, lead: 2 m}}"
                     for name, (watts, _) in lights.items())  # fmt: skip
    lit = "\n".join(f"      {name}: {{lamp: lamp-{name}, circuit: {circuit}, at: [1 m, 1 m], height: 1 m}}"
                    for name, (_, circuit) in lights.items())  # fmt: skip
    fed = ", ".join(f"{name}: {{breaker: {amperes} A}}" for name, amperes in circuits.items())
    return (
        f"hotset: 1\nlocations:\n  house:\n    mains: 230 V 50 Hz\n    circuits: {{{fed}}}\n"
        f"    sets:\n      hall:\n        {room.strip()}\n"
        f"gear:\n{gear}\n  extension: {{kind: power, long: 10 m}}\n"
        f"setups:\n  wide:\n    set: hall\n    lights:\n{lit}\n"
    )


def way(text: str, tmp_path: Path) -> str:
    found = [f for f in compiled(text, tmp_path).findings if f.rule == "circuit-overloaded"]
    assert len(found) == 1
    return found[0].ways_out[0]


def test_two_plugs_where_one_is_not_enough(tmp_path: Path) -> None:
    # 4 x 1150 W are 20 A on 10 A: two have to go, and one goes to each of the others, of 6 A.
    lit = dict.fromkeys("abcd", (1150, "ground"))
    said = way(plan(lit, {"ground": 10, "first": 6, "attic": 6}), tmp_path)
    assert said.startswith("move 2 plugs, no fewer do: 'a' to 'first', which keeps 1.0 A free (")
    assert " and 'b' to 'attic', which keeps 1.0 A free (" in said


def test_a_plug_makes_room_for_another(tmp_path: Path) -> None:
    # 'a' (9 A) fits on no circuit as they are: 'c' has to leave 'first' for 'attic' before.
    lit = {"a": (2070, "ground"), "b": (2070, "ground"), "c": (1150, "first")}
    said = way(plan(lit, {"ground": 10, "first": 10, "attic": 6}), tmp_path)
    assert said.startswith("move 2 plugs, no fewer do: 'a' to 'first', ")
    assert "'c' to 'attic'" in said


def test_nothing_is_offered_that_does_not_do(tmp_path: Path) -> None:
    lit = {"a": (2070, "ground"), "b": (2070, "ground")}
    assert way(plan(lit, {"ground": 10, "first": 6}), tmp_path).startswith("run a lamp on a battery")


def test_whether_the_lead_reaches(tmp_path: Path) -> None:
    lit = {"a": (1150, "ground"), "b": (1610, "ground")}
    here = {"ground": 10, "first": 16}
    said = way(plan(lit, here, WALLS), tmp_path)
    # From [1, 1] m to the socket in the east wall 5 m away, 1 m from its south end: 1.3 x 5 m = 6.5 m of cable.
    assert "'first', which keeps 11.0 A free (with 'extension': 6.5 m of cable are wanted, 2 m are there)" in said
    alone = plan(lit, here, WALLS).replace("\n  extension: {kind: power, long: 10 m}", "")
    assert "(with another lead of 4.5 m: 6.5 m of cable are wanted, 2 m are there)" in way(alone, tmp_path)
    near = plan(lit, here, WALLS).replace("at: [1 m, 1 m]", "at: [5 m, 1 m], lead: extension")
    assert "(its lead reaches: 1.3 m of cable)" in way(near, tmp_path)
    assert "does not say whether its lead reaches: measure it" in way(plan(lit, here), tmp_path)


@pytest.mark.parametrize("seed", range(40))
def test_it_is_the_fewest(seed: int, tmp_path: Path) -> None:
    """Against all ways to hang the lamps: none with fewer moves holds, and what is offered does."""
    draw = random.Random(seed)
    names = list("abcde")[: draw.randint(2, 5)]
    circuits = {"ground": 10, "first": draw.choice([6, 10]), "attic": draw.choice([6, 16])}
    lit = {name: (draw.choice([460, 920, 1380, 1840]), draw.choice(list(circuits))) for name in names}
    done = compiled(plan(lit, circuits), tmp_path)
    assert done.facts is not None
    amperes = {name: watts / 230 for name, (watts, _) in lit.items()}

    def holds(hung: dict[str, str]) -> bool:
        return all(sum(amperes[n] for n in names if hung[n] == c) <= most + 1e-9 for c, most in circuits.items())

    start = {name: circuit for name, (_, circuit) in lit.items()}
    ways = [dict(zip(names, one, strict=True)) for one in itertools.product(circuits, repeat=len(names))]
    best = min((sum(hung[n] != start[n] for n in names) for hung in ways if holds(hung)), default=None)
    assert loads.rating(done.facts.plan.locations["house"].circuits["ground"], 230.0) == 10.0
    found = replug.fewest(done.facts, done.facts.plan.locations["house"], 1.0)
    if best is None or best > replug.MOST_MOVES or best == 0:
        assert found == ()
        return
    assert len(found) == best
    moved = start | {one.load.words: one.to.id.rpartition("/")[2] for one in found}
    assert holds(moved)


def test_a_station_that_is_beyond_help_does_not_hide_what_helps_a_breaker(tmp_path: Path) -> None:
    lit = {"a": (1150, "ground"), "b": (1380, "ground"), "c": (3680, "station"), "d": (3680, "station")}
    text = plan(lit, {"ground": 10, "first": 6}).replace(
        "first: {breaker: 6 A}", "first: {breaker: 6 A}, station: {gives: 300 W}"
    )
    found = {f.sentence.split("'")[1]: f for f in compiled(text, tmp_path).findings if f.rule == "circuit-overloaded"}
    assert found["ground"].ways_out[0].startswith("hang 'a' on 'first', which keeps 1.0 A free")
    assert "above the 300 W it gives (1.3 A)" in found["station"].sentence
    assert found["station"].ways_out == ("run a lamp on a battery, or take one that draws less",)
