"""The windows of a day: when direct sun falls on each, and what hangs in it from when to when.

Times are half-minutes since local midnight.
"""

from __future__ import annotations

from collections.abc import Sequence

from ...facts.hours import times_words
from ...record import record
from ..words import Words, words_for
from .axis import GUTTER, RIGHT, SIZE, Axis
from .metrics import width_of, wrap
from .scene import Treatment
from .svg import INK, Drawing, document, rect, tag, text

_TOP = 18.0
_SUN, _HUNG, _ROW = 12.0, 12.0, 31.0
_HATCH = {"black-out": "cross", "tent": "dense"}


@record
class Hung:
    """What is done to a window for a stretch of the day."""

    treatment: Treatment
    start: int
    end: int


@record
class Row:
    """One window: its name, its room, the spans of direct sun on its glass, and what hangs in it in order."""

    name: str
    room: str
    sun: tuple[tuple[int, int], ...]
    hung: tuple[Hung, ...] = ()


def names(_: Words) -> dict[Treatment, str]:
    """What a treatment is called."""
    return {"bare": _("as it is"), "black-out": _("blacked out"), "tent": _("tented"), "layers": _("layers")}


def draw(
    rows: Sequence[Row], start: int, end: int, prefix: str, title: str, words: Words | None = None,
    width: float = 510.0,
) -> Drawing:
    """Two ribbons a window over the hours from start to end: the sun above, what hangs there below; `svg` is empty
    without windows."""
    _ = words or words_for()
    if not rows:
        return Drawing("", title, "", 0.0, 0.0)
    axis = Axis(start, end, width, GUTTER, RIGHT)
    hatches: list[str] = []
    parts: list[str] = []
    y = _TOP
    for row in rows:
        parts.append(axis.name(row.name, y + 9.5))
        parts.append(axis.name(row.room, y + 21.5, False))
        parts.extend(_sun(row, axis, y, prefix, hatches, _))
        for hung in row.hung:
            parts.extend(_hung(hung, axis, y + _SUN + 1.5, prefix, hatches, _))
        y += _ROW
    told = wrap(_legend(rows, _), SIZE, width - 4.0)
    tail = [text(said, (2.0, y + SIZE + 11.5 * n), SIZE) for n, said in enumerate(told)]
    height = y + 11.5 * len(told) + 4.0
    desc = _told(rows, _)
    svg = document(
        prefix, (width, height), title, desc, [*axis.hours(_TOP, y - 4.0), *parts, *tail], tuple(hatches)
    )
    return Drawing(svg, title, desc, width, height)


def _sun(row: Row, axis: Axis, y: float, prefix: str, hatches: list[str], _: Words) -> list[str]:
    """The hours of sun, their times in or beside them."""
    drawn: list[str] = []
    shown = [(a, b) for a, b in row.sun if b > axis.start and a < axis.end]
    if not shown:
        said = _("no direct sun")
        wide = width_of(said, SIZE)
        box = (axis.left + 2.0, y + 1.0, axis.left + 6.0 + wide, y + 11.5)
        return [rect(box, "#fff"), text(said, (axis.left + 4.0, y + 9.5), SIZE)]
    for a, b in shown:
        x0, x1 = axis.x(a), axis.x(b)
        drawn.extend(_band((x0, y, x1, y + _SUN), "sparse", prefix, hatches))
        drawn.extend(_said(f"{times_words(a)}-{times_words(b)}", x0, x1, y, axis))
    return drawn


def _hung(hung: Hung, axis: Axis, y: float, prefix: str, hatches: list[str], _: Words) -> list[str]:
    """What hangs in the window: crossed, dense, dashed or empty, with its word where it fits."""
    x0, x1 = axis.x(hung.start), axis.x(hung.end)
    if x1 - x0 < 0.5:
        return []
    box = (x0, y, x1, y + _HUNG)
    if hung.treatment == "layers":
        drawn = [
            tag("rect", x=x0, y=y, width=x1 - x0, height=_HUNG, fill="#fff", stroke=INK, stroke_width=1.4,
                stroke_dasharray="5 3")
        ]  # fmt: skip
    else:
        drawn = _band(box, _HATCH.get(hung.treatment, ""), prefix, hatches)
    said = names(_)[hung.treatment]
    if width_of(said, SIZE) + 10.0 <= x1 - x0:
        drawn.extend(_said(said, x0, x1, y, axis))
    return drawn


def _band(box: tuple[float, float, float, float], hatch: str, prefix: str, hatches: list[str]) -> list[str]:
    drawn = [rect(box, "#fff", INK, 0.8)]
    if hatch:
        if hatch not in hatches:
            hatches.append(hatch)
        drawn.append(rect(box, f"url(#{prefix}-{hatch})", INK, 0.8))
    return drawn


def _said(said: str, x0: float, x1: float, y: float, axis: Axis) -> list[str]:
    """Words on white in the middle of a band, or beside a short one."""
    wide = width_of(said, SIZE)
    if wide + 8.0 <= x1 - x0:
        middle = (x0 + x1) / 2
        box = (middle - wide / 2 - 2.0, y + 1.2, middle + wide / 2 + 2.0, y + 10.8)
        return [rect(box, "#fff"), text(said, (middle, y + 9.3), SIZE, False, "middle")]
    beside = axis.beside(said, x0, x1)
    if beside is None:
        return []
    x, anchor = beside
    left = x if anchor == "start" else x - wide
    return [rect((left - 1.0, y + 1.2, left + wide + 1.0, y + 10.8), "#fff"), text(said, (x, y + 9.3), SIZE, False,
                                                                                  anchor)]  # fmt: skip


def _legend(rows: Sequence[Row], _: Words) -> str:
    """What the ribbons mean, as far as they occur."""
    met = {hung.treatment for row in rows for hung in row.hung}
    said = [_("slanted: direct sun, if no cloud is before it")]
    if "black-out" in met:
        said.append(_("crossed: blacked out"))
    if "tent" in met:
        said.append(_("dense: tented"))
    if "layers" in met:
        said.append(_("dashed: layers"))
    if "bare" in met:
        said.append(_("empty: as it is"))
    return "; ".join(said)


def _told(rows: Sequence[Row], _: Words) -> str:
    """Each window in words."""
    told = []
    named = names(_)
    for row in rows:
        hours = ", ".join(f"{times_words(a)}-{times_words(b)}" for a, b in row.sun)
        sun = _("direct sun {hours}", hours=hours) if hours else _("no direct sun")
        hung = [f"{named[h.treatment]} {times_words(h.start)}-{times_words(h.end)}" for h in row.hung]
        told.append(f"{row.name}, {row.room}: {'; '.join([sun, *hung])}")
    return ". ".join(told) + "."
