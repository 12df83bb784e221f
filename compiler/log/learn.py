"""A crew's own minutes from what was measured: the minutes of single actions that explain their changeovers best.

A changeover takes as long as the longest of its tasks, or all work divided by the riggers. Where one took a quarter
longer than that comes to, each action in it is lengthened by as much of a quarter as it weighs there; over and over,
until the changeovers come out as they were, as nearly as they can. (The multiplicative algebraic reconstruction of
R. Gordon, R. Bender, G. T. Herman, "Algebraic reconstruction techniques", Journal of Theoretical Biology 29, 1970, here
with the logarithm of the ratio averaged over all changeovers in every round.) So actions that always come together are
lengthened together; nothing is told of one that never came.
"""

from __future__ import annotations

import math
from statistics import median
from typing import TYPE_CHECKING

from ..record import record

if TYPE_CHECKING:
    from collections.abc import Mapping

    from .observe import Changeover, Measured

ENOUGH = 3
"""Observations below which nothing is said of an action."""
ROUNDS = 60
STRANGE = 4.0
"""A changeover that is longer or shorter by more than this counts as if by this: something else went on."""


@record
class Learned:
    """Half-minutes of an action as learned and as counted with so far, on how many observations that rests."""

    action: str
    half_minutes: int
    before: int
    observations: int


@record
class Lessons:
    """What was learned; `few` are actions with too few observations, and how many; `takes` the middle of how many times
    its planned minutes a shot took (None: none was measured), `shots` on how many that rests."""

    learned: tuple[Learned, ...]
    few: tuple[tuple[str, int], ...]
    takes: float | None
    shots: int
    per_take: float | None
    counted: int


def learn(measured: Measured, minutes: Mapping[str, int]) -> Lessons:
    """The minutes of actions, starting from `minutes` (half-minutes of every action as counted with so far)."""
    fitted = _fit(measured.changeovers, minutes)
    seen: dict[str, int] = {}
    for one in measured.changeovers:
        for action in _weights(one, minutes)[1]:
            seen[action] = seen.get(action, 0) + 1
    lengths: dict[str, list[int]] = {}
    for action, took in measured.lengths:
        lengths.setdefault(action, []).append(took)
    for action, took_all in lengths.items():
        seen[action] = len(took_all)
        fitted[action] = float(median(took_all))
    enough = [a for a in minutes if seen.get(a, 0) >= ENOUGH]
    learned = tuple(Learned(a, max(1, round(fitted[a])), minutes[a], seen[a]) for a in enough)
    few = tuple((a, seen[a]) for a in minutes if 0 < seen.get(a, 0) < ENOUGH)
    ratios = [took / planned for took, planned, _ in measured.shots if planned and took > 0]
    each = [took / takes for took, _, takes in measured.shots if takes and took > 0]
    return Lessons(
        learned, few, median(ratios) if ratios else None, len(ratios), median(each) / 2 if each else None, len(each)
    )


def _fit(changeovers: tuple[Changeover, ...], minutes: Mapping[str, int]) -> dict[str, float]:
    """Half-minutes of each action that explain the changeovers best."""
    found = {action: float(length) for action, length in minutes.items()}
    for _ in range(ROUNDS):
        pull: dict[str, float] = {}
        weight: dict[str, float] = {}
        for one in changeovers:
            expected, shares = _weights(one, found)
            took = one.took - one.fixed
            if expected <= 0.0 or took <= 0:
                continue
            ratio = min(max(took / expected, 1.0 / STRANGE), STRANGE)
            for action, share in shares.items():
                pull[action] = pull.get(action, 0.0) + share * math.log(ratio)
                weight[action] = weight.get(action, 0.0) + share
        for action, total in pull.items():
            found[action] *= math.exp(total / weight[action])
    return found


def _weights(one: Changeover, minutes: Mapping[str, float] | Mapping[str, int]) -> tuple[float, dict[str, float]]:
    """(half-minutes expected beside what is fixed, the share of each action in them): of the longest task alone where
    that decides, else of all the work."""
    lengths = [sum(minutes[a] for a in actions) for _, actions in one.tasks]
    work = sum(length * people for length, (people, _) in zip(lengths, one.tasks, strict=True)) / one.hands
    longest = max(lengths, default=0)
    parts: dict[str, float] = {}
    for length, (people, actions) in zip(lengths, one.tasks, strict=True):
        for action in actions:
            if work >= longest:
                parts[action] = parts.get(action, 0.0) + minutes[action] * people / one.hands
            elif length == longest:
                parts[action] = parts.get(action, 0.0) + minutes[action]
        if work < longest == length:
            break
    if one.move:
        parts[one.move] = parts.get(one.move, 0.0) + minutes[one.move]
    whole = sum(parts.values())
    return whole, {action: part / whole for action, part in parts.items()} if whole > 0.0 else {}
