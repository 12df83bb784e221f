"""The day line: a day from left to right, with the light of the sky, the setups, and the windows they must keep to.

Times are half-minutes since the day's local midnight; past 24 h is the next day.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from ...facts.hours import times_words
from ...record import record
from ..words import Words, words_for
from .axis import SIZE, Axis
from .metrics import cut, width_of, wrap
from .svg import INK, Drawing, arrow_head, document, line, rect, tag, text

_GUTTER = 88.0
_TALL = 126.0
_ROW = 15.0

Kind = Literal["load-in", "rig", "shoot", "meal", "room-tone", "move", "wrap-out", "spare"]
Light = Literal["day", "golden", "dusk", "dark"]
HATCH: dict[Light, str] = {"day": "", "golden": "sparse", "dusk": "thin", "dark": "dense"}


@record
class Stretch:
    """A stretch of the day: what is done and its name; `number` counts the setups."""

    kind: Kind
    start: int
    end: int
    name: str = ""
    number: str = ""


@record
class Ribbon:
    """The sky from one time to another, as it is drawn; `told` are its own hours, which may reach under another's."""

    light: Light
    start: int
    end: int
    told: tuple[int, int] | None = None


@record
class Window:
    """A row of times something is there or may be done: a person on set, a loan, a wished-for light."""

    name: str
    spans: tuple[tuple[int, int], ...]


@record
class Day:
    """One day's line. `start` and `end` bound the drawing; `wrap` is the time by which everybody is out."""

    title: str
    start: int
    end: int
    stretches: tuple[Stretch, ...]
    sky: tuple[Ribbon, ...] = ()
    windows: tuple[Window, ...] = ()
    wrap: int | None = None


def clock(time: int) -> str:
    """Hours and minutes of the day, or of the night after it; begun minutes as on every sheet."""
    return times_words(time)


def draw(day: Day, prefix: str, words: Words | None = None, width: float = 510.0) -> Drawing:
    """The day as a drawing of the width given, in points."""
    _ = words or words_for()
    scale = Axis(day.start, max(day.end, day.wrap or 0), width, _GUTTER)
    hatches: list[str] = []
    top = 16.0
    parts: list[str] = []
    y = top
    kinds: list[str] = []
    if day.sky:
        parts.append(_row_name(_("sky"), y, 18.0))
        parts.extend(_sky(day.sky, scale, y, prefix, hatches, kinds, _))
        y += 24.0
    parts.append(_row_name(_("setups"), y, _TALL))
    small: list[str] = []
    for stretch in day.stretches:
        parts.extend(_stretch(stretch, scale, y, prefix, hatches, small, _))
    y += _TALL + 6.0
    for window in day.windows:
        parts.append(_row_name(window.name, y, _ROW - 3.0))
        parts.extend(_bars(window, scale, y))
        y += _ROW
    grid = scale.hours(top, y)
    if day.wrap is not None and scale.start <= day.wrap <= scale.end:
        x = scale.x(day.wrap)
        parts.append(line((x, top - 2.0), (x, y), 2.2))
    y += 4.0
    for row in _legend(day, kinds, small, width, _):
        parts.append(text(row, (2.0, y + SIZE), SIZE))
        y += 11.5
    desc = _told(day, _)
    svg = document(prefix, (width, y + 3.0), day.title, desc, [*grid, *parts], tuple(hatches))
    return Drawing(svg, day.title, desc, width, y + 3.0)


def _row_name(name: str, y: float, tall: float) -> str:
    return text(cut(name, SIZE, _GUTTER - 8.0, True), (2.0, y + tall / 2 + 3.2), SIZE, True)


def _sky(
    sky: Iterable[Ribbon], scale: Axis, y: float, prefix: str, hatches: list[str], kinds: list[str], _: Words
) -> list[str]:
    """The ribbon: the darker the sky, the denser the hatch; with its word where it fits."""
    named = light_words(_)
    drawn: list[str] = []
    for band in sky:
        x0, x1 = scale.x(band.start), scale.x(band.end)
        if x1 - x0 < 0.5:
            continue
        drawn.append(rect((x0, y, x1, y + 18.0), "#fff", INK, 0.7))
        name = HATCH[band.light]
        if name:
            if name not in hatches:
                hatches.append(name)
            drawn.append(rect((x0, y, x1, y + 18.0), f"url(#{prefix}-{name})", INK, 0.7))
        wide = width_of(named[band.light], SIZE)
        if wide + 6.0 <= x1 - x0:
            middle = (x0 + x1) / 2
            drawn.append(rect((middle - wide / 2 - 2.0, y + 3.0, middle + wide / 2 + 2.0, y + 15.0), "#fff"))
            drawn.append(text(named[band.light], (middle, y + 12.2), SIZE, False, "middle"))
        else:
            start, end = band.told or (band.start, band.end)
            kinds.append(f"{named[band.light]} {clock(start)}-{clock(end)}")
    return drawn


def light_words(_: Words) -> dict[Light, str]:
    """What the sky is called."""
    return {"day": _("day"), "golden": _("low sun"), "dusk": _("dusk"), "dark": _("dark")}


def kind_words(_: Words) -> dict[Kind, str]:
    """What a stretch is called when the plan has no name for it."""
    return {
        "load-in": _("load in"),
        "rig": _("rigging"),
        "shoot": _("shooting"),
        "meal": _("meal"),
        "room-tone": _("room tone"),
        "move": _("change of room"),
        "wrap-out": _("wrap"),
        "spare": _("spare"),
    }


def _stretch(
    item: Stretch, scale: Axis, y: float, prefix: str, hatches: list[str], small: list[str], _: Words
) -> list[str]:
    x0, x1 = scale.x(item.start), scale.x(item.end)
    wide = x1 - x0
    if wide < 0.3:
        return []
    box = (x0, y, x1, y + _TALL)
    name = item.name or kind_words(_)[item.kind]
    if item.kind == "rig":
        if "thin" not in hatches:
            hatches.append("thin")
        return [rect((x0, y + 18.0, x1, y + _TALL), f"url(#{prefix}-thin)", INK, 0.4)]
    if item.kind == "spare":
        frame = tag("rect", x=x0, y=y + 18.0, width=wide, height=_TALL - 18.0, fill="#fff", stroke=INK,
                    stroke_width=0.6, stroke_dasharray="2 2")  # fmt: skip
        return [frame, *_upright(name, item.start, x0, wide, y, small)]
    thick = 1.2 if item.kind == "shoot" else 0.6
    drawn = [rect(box, "#fff", INK, thick)]
    if item.kind == "meal":
        drawn.append(rect((x0 + 1.8, y + 1.8, x1 - 1.8, y + _TALL - 1.8), "none", INK, 0.6) if wide > 5.0 else "")
    if item.kind == "move" and wide > 9.0:
        drawn.append(line((x0 + 2.0, y + 9.0), (x1 - 5.0, y + 9.0), 1.0) + arrow_head((x1 - 2.0, y + 9.0), (1.0, 0.0)))
    number = item.number if width_of(item.number, 10.0, True) + 2.0 <= wide else ""
    if number:
        drawn.append(text(number, ((x0 + x1) / 2, y + 12.5), 10.0, True, "middle"))
    said = f"{item.number} {name}" if item.number and not number else name
    return drawn + _upright(said, item.start, x0, wide, y, small)


def _upright(name: str, start: int, x: float, wide: float, y: float, small: list[str]) -> list[str]:
    """Time and name: level where the box is wide, else read from below; in narrow boxes they go below the line."""
    said = f"{clock(start)} {name}"
    level = wrap(name, SIZE, wide - 6.0) if wide > 44.0 else ()
    if level and not any(row.endswith("…") for row in level) and len(level) <= 5:
        rows = (clock(start), *level)
        return [text(row, (x + 3.0, y + 26.0 + 11.0 * n), SIZE, n == 0) for n, row in enumerate(rows)]
    if wide < 12.0:
        small.append(said)
        return []
    room = _TALL - 20.0
    middle = x + wide / 2
    two = wide >= 24.0 and width_of(said, SIZE) > room
    rows = wrap(said, SIZE, room)[:2] if two else (cut(said, SIZE, room),)
    first = middle + 3.2 - 5.5 * (len(rows) - 1)
    return [
        text(row, (first + 11.0 * n, y + _TALL - 3.0), SIZE, False, "start", INK, -90.0) for n, row in enumerate(rows)
    ]


def _bars(window: Window, scale: Axis, y: float) -> list[str]:
    """The times of one row, from and to beside or in the bar where they fit."""
    drawn: list[str] = []
    for start, end in window.spans:
        x0, x1 = scale.x(start), scale.x(end)
        if x1 - x0 < 0.5:
            continue
        drawn.append(rect((x0, y + 1.0, x1, y + _ROW - 3.0), "#fff", INK, 0.9))
        said = f"{clock(start)}-{clock(end)}"
        if width_of(said, SIZE) + 4.0 <= x1 - x0:
            drawn.append(text(said, ((x0 + x1) / 2, y + 10.0), SIZE, False, "middle"))
    return drawn


def _legend(day: Day, kinds: list[str], small: list[str], width: float, _: Words) -> list[str]:
    """Below the line: what the boxes are, and what was too narrow to name in its place."""
    said: list[str] = []
    met = {s.kind for s in day.stretches}
    if "rig" in met:
        said.append(_("thin hatch: rigging"))
    if "meal" in met:
        said.append(_("double frame: meal"))
    if "spare" in met:
        said.append(_("dotted frame: spare"))
    if day.wrap is not None:
        said.append(_("thick line: everybody out at {time}", time=clock(day.wrap)))
    rows = list(wrap("; ".join(said), SIZE, width - 4.0)) if said else []
    if kinds:
        rows.extend(wrap(_("sky:") + " " + ", ".join(kinds), SIZE, width - 4.0))
    if small:
        rows.extend(wrap(_("too short to write in:") + " " + ", ".join(small), SIZE, width - 4.0))
    return rows


def _told(day: Day, _: Words) -> str:
    """The day in words."""
    said = [
        f"{clock(s.start)}-{clock(s.end)} {(s.number + ' ') if s.number else ''}{s.name or kind_words(_)[s.kind]}"
        for s in day.stretches
        if s.kind != "rig"
    ]
    named = light_words(_)
    sky = [f"{named[band.light]} {clock(band.start)}-{clock(band.end)}" for band in day.sky]
    rows = [f"{w.name} {', '.join(f'{clock(a)}-{clock(b)}' for a, b in w.spans)}" for w in day.windows]
    sentences = [_("Day from {start} to {end}", start=clock(day.start), end=clock(day.end)), *(
        "; ".join(group) for group in (said, sky, rows) if group
    )]  # fmt: skip
    return ". ".join(sentences) + "."
