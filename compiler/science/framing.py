"""Which shot size a person becomes at a frame height.

The table of sizes (landmarks, bands, poses) comes as an argument: its values are common practice and have no source.
A size is told by the height of the frame at the person, in metres, measured square to the floor at the distance along
the floor: the way a crew measures with a tape from mark to mark.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import hypot, inf, log
from typing import Any, NamedTuple

from . import lens


class Size(NamedTuple):
    """A shot size for one person: the frame's height in metres as it usually is, and the least and most that still
    pass.
    """

    name: str
    words: str
    likely: float
    low: float
    high: float


class Remedy(NamedTuple):
    """What would give the size asked for: another focal length from here (m), or another distance with this lens (m).

    `floor` is measured on the floor, `tape` from the lens to the eyes.
    """

    focal: float
    floor: float
    tape: float


def stature(table: Mapping[str, Any], tall: float | None) -> float:
    """A person's height in metres; the table's typical one when the plan does not say."""
    return float(table["tall"]["value"]) if tall is None else tall


def sizes_of(table: Mapping[str, Any], tall: float | None = None, pose: str = "standing") -> list[Size]:
    """Every size of the table, closest first, for a person of a height (m) standing, sitting or lying."""
    body = stature(table, tall)
    figure = float(table["poses"][pose]["figure"])
    result = []
    for row in table["sizes"]:
        span = float(table["landmarks"][row["top"]]) - float(table["landmarks"][row["bottom"]]) + float(row["extra"])
        scale = body * (figure if row["of"] == "figure" else 1.0)
        high = inf if row["high"] is None else row["high"] * scale
        result.append(Size(row["size"], row["words"], span * scale, row["low"] * scale, high))
    return result


def canonical(table: Mapping[str, Any], name: str) -> str | None:
    """The table's own name of a size written in any case or by another of its names; None when it is not in the
    table.
    """
    wanted = name.upper()
    for row in table["sizes"]:
        if wanted == row["size"] or wanted in row["also"]:
            return str(row["size"])
    return None


def eye_height(table: Mapping[str, Any], tall: float | None = None, pose: str = "standing") -> float:
    """Height of the eyes above the floor, m."""
    return stature(table, tall) * float(table["poses"][pose]["eyes"])


def nearest(sizes: Sequence[Size], frame: float) -> Size:
    """The size whose usual frame height is nearest, as a ratio, to a frame height in metres."""
    return min(sizes, key=lambda size: abs(log(frame / size.likely)))


def meets(size: Size, frame: float) -> bool:
    """Whether a frame height (m) passes as a size."""
    return size.low <= frame <= size.high


def remedy(size: Size, picture_height: float, focal: float, floor: float, rise: float) -> Remedy:
    """How to get the size's usual frame height.

    `picture_height` and `focal` in metres; `floor` the present distance on the floor; `rise` the height of the lens
    over the eyes (either sign).
    """
    distance = lens.distance_for(picture_height, size.likely, focal)
    return Remedy(lens.focal_for(picture_height, size.likely, floor), distance, hypot(distance, rise))
