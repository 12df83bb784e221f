"""Tasks and minutes between two states of a piece of gear.

Minutes stand in `schemas/tables/minutes.json` (low, likely, high) and are overridden by the plan's `timings:`; the
order counts with the likely value. Every time is in whole half-minutes, rounded up.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ..record import record
from .tables import table

if TYPE_CHECKING:
    from ..plan import Plan
    from .rig import Piece, State

IN_HAND = "in hand"
Action = tuple[str, str]
"""(action of the table, words that say more, such as "to 3200 K")."""


@record
class Minutes:
    """Half-minutes of each action, and which of them are typical because the plan says nothing."""

    likely: dict[str, int]
    typical: frozenset[str]

    def of(self, action: str) -> int:
        """Half-minutes of one action."""
        return self.likely[action]


def half_minutes(seconds: float) -> int:
    """Whole half-minutes, rounded up."""
    return math.ceil(round(seconds / 30.0, 6))


def minutes(plan: Plan) -> Minutes:
    """The minutes this plan counts with."""
    said = plan.film.timings
    likely: dict[str, int] = {}
    typical: set[str] = set()
    for action, row in table("minutes")["actions"].items():
        own = getattr(said, action.replace("-", "_"), None) if said else None
        likely[action] = half_minutes(row["likely"] * 60 if own is None else float(own))
        if own is None:
            typical.add(action)
    return Minutes(likely, frozenset(typical))


def spread(action: str) -> tuple[float, float, float]:
    """(low, likely, high) minutes of an action as they are typical."""
    row = table("minutes")["actions"][action]
    return float(row["low"]), float(row["likely"]), float(row["high"])


def tasks(piece: Piece, before: State | None, after: State | None) -> tuple[Action, ...]:
    """The actions that bring a piece from one state to another; None is its case (for a window: untreated)."""
    if before == after:
        return ()
    if after is None:
        return (("open-window" if piece.kind == "window" else "strike", ""),)
    return _BY_KIND[piece.kind](before, after)


def price(plan_minutes: Minutes, piece: Piece, before: State | None, after: State | None) -> int:
    """Half-minutes of the actions between two states, for as many people as the piece takes."""
    return sum(plan_minutes.of(action) for action, _ in tasks(piece, before, after))


def _changed(before: State | None, after: State, *keys: str) -> bool:
    return any(after.get(k) != (before.get(k) if before else "") for k in keys)


def _lamp(before: State | None, after: State) -> tuple[Action, ...]:
    done: list[Action] = []
    there = before is not None and before.room == after.room
    held = after.get("held-by") != ""
    if before is None or not there:
        done.append(("aim", IN_HAND) if held else ("lamp", after.place))
    elif before.place != after.place or before.get("on") != after.get("on"):
        done.append(("aim", IN_HAND) if held else ("move-lamp", f"to {after.place}"))
    elif _changed(before, after, "aim", "height", "held-by"):
        done.append(("aim", f"at {after.get('aim')}" if after.get("aim") else "anew"))
    if (before is not None and _changed(before, after, "with")) or (before is None and held and after.get("with")):
        done.append(("modifier", f"to {after.get('with')}" if after.get("with") else "off"))
    if _changed(before, after, "gel") and (before is not None or after.get("gel")):
        done.append(("gel", f"to {after.get('gel')}" if after.get("gel") else "off"))
    if after.get("boom-arm") and (not there or _changed(before, after, "boom-arm")):
        done.append(("boom-arm", after.get("on")))
    if after.get("circuit") and (not there or _changed(before, after, "circuit")):
        done.append(("cable", f"from {after.get('circuit').rsplit('/', 1)[-1]}"))
    if there and _changed(before, after, "colour", "level", "effect"):
        words = " ".join(w for w in (after.get("colour"), after.get("level"), after.get("effect")) if w)
        done.append(("colour", f"to {words}" if words else "as it was"))
    return tuple(done) or (("aim", "anew"),)


def _camera(before: State | None, after: State) -> tuple[Action, ...]:
    done: list[Action] = []
    support = "gimbal" if after.get("gimbal") else "sticks"
    on = after.get("on") or "its support"
    if before is None or before.room != after.room or _changed(before, after, "on", "gimbal"):
        done.append((support, f"{on}, {after.place}"))
    elif before.place != after.place or _changed(before, after, "height", "aim"):
        done.append(("camera-move", f"to {after.place}"))
    if _changed(before, after, "lens", "filters") and (before is not None or after.get("lens")):
        done.append(("lens", " with ".join(w for w in (after.get("lens"), after.get("filters")) if w) or "bare"))
    return tuple(done) or (("camera-move", "anew"),)


def _window(before: State | None, after: State) -> tuple[Action, ...]:
    done: list[Action] = [] if before is None else [("open-window", "")]
    return (*done, (after.get("kind"), after.get("of")))


def _grip(before: State | None, after: State) -> tuple[Action, ...]:
    return (("flag", after.place),) if before is None else (("flag", f"to {after.place}"),)


def _practical(before: State | None, after: State) -> tuple[Action, ...]:
    if before is not None and before.room == after.room and before.place == after.place:
        if not _changed(before, after, "bulb", "circuit"):
            return (("colour", f"to {after.get('level') or after.get('colour') or 'its level'}"),)
        return (("practical", "anew"),)
    return (("practical", after.place),)


def _dressing(_before: State | None, after: State) -> tuple[Action, ...]:
    return (("dressing", after.get("dressing")),)


_BY_KIND = {
    "lamp": _lamp,
    "camera": _camera,
    "window": _window,
    "grip": _grip,
    "practical": _practical,
    "dressing": _dressing,
}
