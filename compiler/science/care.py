"""Care for people: lifting, ladders, hours of rest.

Kilograms, degrees, hours. Figures are filters that call for a closer look, not limits that make a thing safe; the sheet
names the source and defers to local rules.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

#: Daily rest, h: Directive 2003/88/EC, article 3.
DAILY_REST = 11.0
#: A break is due in a day longer than this, h: article 4.
BREAK_AFTER = 6.0
#: Weekly rest, h, on top of the daily rest: article 5.
WEEKLY_REST = 24.0
#: Work in a week, h, on average: article 6.
WEEK = 48.0
#: Night work in 24 h, h, on average: article 8.
NIGHT_WORK = 8.0

#: Lifting filter, kg, by height of the hands, close to the body and at arm's length: HSE L23 and INDG143 as printed
#: on two stored pages (read second hand). The smallest zone the load passes through counts.
LIFTING: Mapping[str, Mapping[str, tuple[float, float]]] = {
    "men": {"head": (10, 5), "shoulder": (20, 10), "elbow": (25, 15), "knuckle": (20, 10), "lower leg": (10, 5)},
    "women": {"head": (7, 3), "shoulder": (13, 7), "elbow": (16, 10), "knuckle": (13, 7), "lower leg": (7, 3)},
}

#: Metres a load is carried without rest: the same.
CARRY = 10.0
#: Ladders, HSE INDG402 and guidance pages: degrees, height over foot distance, minutes at a time.
LADDER_ANGLE, LADDER_RATIO, LADDER_MINUTES = 75.0, 4.0, 30.0


class Lift(NamedTuple):
    """A lift against the filter: the kilograms it passes, and whether the load is within."""

    filter: float
    within: bool


def lifting_filter(who: str, zones: tuple[str, ...], arms_length: bool = False) -> float:
    """Kilograms one person lifts without a closer look, through zones of height; `who` is men or women."""
    return min(LIFTING[who][zone][arms_length] for zone in zones)


def twist_factor(degrees: float) -> float:
    """Part of the filter left when the back twists: 10 % less past 45 degrees, 20 % less past 90."""
    if degrees > 90.0:
        return 0.8
    return 0.9 if degrees > 45.0 else 1.0


def frequency_factor(a_minute: float) -> float:
    """Part of the filter left by lifts a minute: 30 % less from 1, 50 % less from 5, 80 % less above 12."""
    if a_minute > 12.0:
        return 0.2
    if a_minute >= 5.0:
        return 0.5
    return 0.7 if a_minute >= 1.0 else 1.0


def team_factor(people: int) -> float:
    """Lifters a team counts as: two lift two thirds of their sum, three half (from memory)."""
    return people * {1: 1.0, 2: 2.0 / 3.0}.get(people, 0.5)


def lift(
    kilograms: float, who: str, zones: tuple[str, ...], people: int = 1, arms_length: bool = False, twist: float = 0.0
) -> Lift:
    """A load lifted by people of the weaker filter named in `who`; equality is within."""
    limit = lifting_filter(who, zones, arms_length) * twist_factor(twist) * team_factor(people)
    return Lift(limit, kilograms <= limit + 1e-9)


def rest_short_by(rest_hours: float, least: float = DAILY_REST) -> float:
    """Hours missing to the least rest; 0 when it is kept."""
    return max(0.0, least - rest_hours)


def break_due(day_hours: float, after: float = BREAK_AFTER) -> bool:
    """Whether a day is long enough that a break is due."""
    return day_hours > after


def ladder_foot(height: float) -> float:
    """Metres the foot of a leaning ladder stands out: one for every four up."""
    return height / LADDER_RATIO
