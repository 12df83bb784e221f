"""The search against every permutation of small invented days, with all rules on; and with each rule broken in turn."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hotset.facts import pieces
from hotset.facts.numbers import FOREVER
from hotset.order import advance, workspace
from hotset.order.solve import Answer, solve
from hotset.record import replace

sys.path.insert(0, str(Path(__file__).parent))

import brute
import invented

TURNED = "pairs against the plan"


def parts(answer: Answer) -> tuple[tuple[int, ...], tuple[int, int, int, int, int]] | None:
    """The answer in the brute force's words."""
    if not answer.found:
        return None
    value = {p.name: p.value for p in answer.parts}
    close = value.get("changes to the agreed order", 0)
    return answer.dropped, (value["wrap"], close, value["pieces touched"], value["cast waiting"], value[TURNED])


def agrees(seed: int, setups: int) -> tuple[bool, bool]:
    """(engine and brute force agree on a day, it can be shot)."""
    day = invented.day(seed, invented.Mix(setups=setups))
    answer = solve(day)
    assert answer.proved
    assert all(p.proven for p in answer.parts)
    return parts(answer) == brute.best(day), answer.found


@pytest.mark.parametrize(
    ("seeds", "setups", "possible"),
    [(range(270), 3, 180), (range(300, 480), 4, 110), (range(500, 545), 5, 25), (range(7000, 7005), 6, 3)],
)
def test_every_permutation_agrees(seeds: range, setups: int, possible: int) -> None:
    results = {seed: agrees(seed, setups) for seed in seeds}
    assert [seed for seed, (same, _) in results.items() if not same] == []
    assert sum(found for _, found in results.values()) >= possible


def no_holds(_self: workspace.Workspace, _rem: int) -> tuple[int, ...]:
    return ()


def no_order(self: workspace.Workspace) -> tuple[int, ...]:
    return tuple(0 for _ in self.day.setups)


def no_tone(_self: workspace.Workspace, _i: int, _rem: int) -> int:
    return 0


def nothing_away(
    group: Any, before: Any, wanted: Any, _away: frozenset[int] = frozenset(), held: frozenset[int] = frozenset()
) -> tuple[pieces.Shift, ...]:
    return pieces.shifts(group, before, wanted, frozenset(), held)


def first_piece_only(*given: Any) -> tuple[pieces.Shift, ...]:
    return pieces.shifts(*given)[:1]


def work_alone(total: int, _longest: int, hands: int) -> int:
    return -(-total // hands)


def always(_windows: Any) -> tuple[tuple[int, int], ...]:
    return ((-FOREVER, FOREVER),)


def no_waiting(self: advance.Rules, _rem: int) -> int:
    return 0 if self else 1


BROKEN: dict[str, tuple[Any, str, Callable[..., Any]]] = {
    "a held set is taken from": (workspace.Workspace, "binding", no_holds),
    "what comes before is forgotten": (workspace.Workspace, "_predecessors", no_order),
    "room tone is forgotten": (workspace.Workspace, "tone", no_tone),
    "what is in the way stays": (workspace, "shifts", nothing_away),
    "only one choice of pieces": (workspace, "shifts", first_piece_only),
    "the longest task is forgotten": (workspace, "changeover", work_alone),
    "windows are forgotten": (workspace, "meet", always),
    "waiting is not counted": (advance.Rules, "_active", no_waiting),
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_rule_is_seen(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    where, attribute, wrong = BROKEN[name]
    days = [invented.day(seed, invented.Mix(setups=4)) for seed in range(300, 480)]
    truth = [parts(solve(day)) for day in days]
    monkeypatch.setattr(where, attribute, wrong)
    assert any(parts(solve(day)) != right for day, right in zip(days, truth, strict=True))


def test_meals_matter() -> None:
    days = [invented.day(seed, invented.Mix(setups=4)) for seed in range(300, 400)]
    fasting = [replace(day, meals=(), gap=FOREVER) for day in days]
    assert any(parts(solve(a)) != parts(solve(b)) for a, b in zip(days, fasting, strict=True))
