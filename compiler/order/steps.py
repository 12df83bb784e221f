"""What an order is made of."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Step:
    """One step of an answer: a setup, or a meal where `setup` is -1 (then `meal` is its index).

    `moves` are (group, from, to); `rig` is when rigging starts, `start` and `end` bound the takes (or the meal).
    """

    setup: int
    meal: int
    moves: tuple[tuple[int, int, int], ...]
    span: int
    rig: int
    start: int
    end: int
