"""The legend: only the marks that occur on the drawing, each drawn as it is drawn there."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from ..words import Words
from . import marks
from .canvas import band
from .metrics import width_of
from .scene import Form, LineKind
from .shapes import Point
from .svg import GREY, arrow_head, circle, line, num, polygon, tag, text

Paint = Callable[[str], str]

SIZE = 9.0
ROW = 11.0
SWATCH = 26.0
INFO_ROWS = 4
INFO_WIDE = 134.0
EAST: Point = (1.0, 0.0)

_SMALLER = {
    "lamp-hard": 0.6,
    "lamp-soft": 0.55,
    "lamp-tube": 0.36,
    "swing": 0.66,
    "lamp-bulb": 0.6,
    "new": 0.6,
    "remove": 0.5,
    "held": 0.55,
    "sun": 0.7,
    "camera": 0.68,
    "camera-end": 0.68,
    "stands": 0.82,
    "lies": 0.62,
    "sits": 0.72,
    "facing": 0.82,
    "thing": 0.9,
    "practical": 0.8,
    "ghost": 0.75,
}

Entry = tuple[str, str]


def names(_: Words) -> dict[str, str]:
    """What each mark is called, in the order in which a legend shows them."""
    return {
        "wall": _("wall"),
        "edge": _("edge of the area"),
        "window": _("window"),
        "black-out": _("window blacked out"),
        "window-layers": _("layers on a window"),
        "tent": _("tent of cloth"),
        "door": _("door"),
        "swing": _("door and its swing"),
        "gap": _("opening"),
        "furniture": _("furniture"),
        "above": _("cloth overhead"),
        "stands": _("someone stands"),
        "sits": _("someone sits"),
        "lies": _("someone lies"),
        "facing": _("nose: where they look"),
        "thing": _("place of a thing"),
        "idle": _("mark not used here"),
        "camera": _("camera"),
        "camera-end": _("camera, end of move"),
        "view": _("edge of the view"),
        "view-end": _("edge of view, end"),
        "move": _("move, ring to arrow"),
        "lamp-hard": _("lamp, hard"),
        "lamp-soft": _("lamp, soft"),
        "lamp-tube": _("tube"),
        "lamp-bulb": _("bare bulb"),
        "new": _("new in this setup"),
        "remove": _("goes out"),
        "held": _("ring: held by a person"),
        "beside": _("dot: its true place"),
        "ghost": _("where it stood before"),
        "aim": _("aim of a lamp"),
        "beam": _("widest beam"),
        "practical": _("practical in picture"),
        "socket": _("socket"),
        "flag": _("flag"),
        "negative": _("dark cloth"),
        "diffusion": _("diffusion"),
        "bounce": _("bounce"),
        "mirror": _("mirror"),
        "boom": _("boom, foot to head"),
        "cable": _("cable, how it may lie"),
        "walkway": _("way kept clear"),
        "sun": _("sun at that hour"),
    }


def rows(met: Sequence[str], _: Words) -> list[Entry]:
    """The entries to show, in a fixed order: key and words."""
    return [(key, words) for key, words in names(_).items() if key in met]


def width(entries: Sequence[Entry]) -> float:
    """The width in points a column of these entries needs, with the gap to the next."""
    return SWATCH + 12.0 + max((width_of(words, SIZE) for _, words in entries), default=0.0)


def columns(entries: Sequence[Entry], room: float) -> list[list[Entry]]:
    """The entries in as many columns as `room` points hold side by side, in reading order.

    The first column is shorter by the block that holds scale and north.
    """
    for count in (5, 4, 3, 2, 1):
        made = split(entries, count)
        if sum(widths(made)) <= room:
            break
    return made


def split(entries: Sequence[Entry], count: int) -> list[list[Entry]]:
    """The entries in so many columns, the first shorter by the block of scale and north."""
    deep = -(-(len(entries) + INFO_ROWS) // count)
    first = max(deep - INFO_ROWS, 0)
    made = [list(entries[:first])]
    made.extend(list(entries[n : n + deep]) for n in range(first, len(entries), max(deep, 1)))
    return made


def deep(made: Sequence[Sequence[Entry]]) -> float:
    """The height in points of columns side by side."""
    return max(len(c) + (INFO_ROWS if n == 0 else 0) for n, c in enumerate(made)) * ROW + 8.0


def widths(made: Sequence[Sequence[Entry]]) -> list[float]:
    """The width of each column, the first one wide enough for scale and north."""
    return [max(width(column), INFO_WIDE if n == 0 else 0.0) for n, column in enumerate(made)]


def draw(column: Sequence[Entry], left: float, top: float, paint: Paint) -> list[str]:
    """One column of the legend; large marks are drawn smaller."""
    parts: list[str] = []
    for n, (key, words) in enumerate(column):
        x, y = left + SWATCH / 2, top + ROW * (n + 0.5)
        swatch = _swatch(key, (0.0, 0.0), paint)
        size = f" scale({_SMALLER[key]})" if key in _SMALLER else ""
        parts.append(tag("g", swatch, transform=f"translate({num(x)} {num(y)}){size}"))
        parts.append(text(words, (left + SWATCH + 3.0, y + SIZE * 0.36), SIZE))
    return parts


def _swatch(key: str, c: Point, paint: Paint) -> str:
    """One mark around a point."""
    x, y = c
    left, right = (x - 12.0, y), (x + 12.0, y)
    if key.startswith("lamp-"):
        form = key.removeprefix("lamp-")
        return marks.lamp(c, EAST, _form(form), "", "", False)
    if key in ("new", "remove"):
        return marks.lamp(c, EAST, "bulb", "", "new" if key == "new" else "remove", False)
    if key in ("stands", "sits", "lies"):
        return marks.person(c, 5.5, None, "stands" if key == "stands" else "sits" if key == "sits" else "lies")
    if key in ("flag", "negative", "diffusion", "bounce", "mirror", "boom", "cable", "walkway"):
        return marks.grip_line(_line(key), left, right)
    return _building(key, c, paint) or _rest(key, c)


def _form(name: str) -> Form:
    return "soft" if name == "soft" else "tube" if name == "tube" else "bulb" if name == "bulb" else "hard"


def _line(name: str) -> LineKind:
    for kind in ("flag", "negative", "diffusion", "bounce", "mirror", "boom", "cable"):
        if kind == name:
            return kind
    return "walkway"


def _building(key: str, c: Point, paint: Paint) -> str:
    x, y = c
    a, b = (x - 12.0, y), (x + 12.0, y)
    slab = band(a, b, 3.5)
    if key == "wall":
        return polygon(slab, GREY, 1.0)
    if key == "edge":
        return line(a, b, 0.9, "7 3 1.5 3")
    if key in ("window", "window-layers"):
        inner = line((x - 12.0, y + 4.4), (x + 12.0, y + 4.4), 1.6, "5 3") if key == "window-layers" else ""
        if inner:
            slab = band((x - 12.0, y - 1.2), (x + 12.0, y - 1.2), 3.0)
            a, b = (x - 12.0, y - 1.2), (x + 12.0, y - 1.2)
        return polygon(slab, "#fff", 0.9) + line(a, b, 0.8) + inner
    if key == "black-out":
        return polygon(slab, "#fff", 0.9) + polygon(slab, paint("cross"), 0.9)
    if key == "tent":
        thin = band(a, b, 1.8)
        return polygon(thin, "#fff", 0.6) + polygon(thin, paint("dense"), 0.6)
    if key in ("door", "gap"):
        ends = (line((x + s, y - 4.0), (x + s, y + 4.0), 0.9) for s in (-12.0, 12.0))
        return "".join(ends) + (line(a, b, 1.6) if key == "door" else "")
    if key == "swing":
        turns = ((0.0, 1.0), (0.38, 0.92), (0.71, 0.71), (0.92, 0.38), (1.0, 0.0))
        arc = [(x - 8.0 + 15.0 * s, y + 7.5 - 15.0 * t) for s, t in turns]
        return line((x - 8.0, y + 7.5), (x - 8.0, y - 7.5), 1.6) + polygon(arc, "none", 0.5, "", False)
    if key == "furniture":
        return polygon(band(a, b, 4.2), "#fff", 0.8)
    if key == "above":
        return polygon(band(a, b, 4.2), paint("sparse"), 1.2, "9 3 1.5 3")
    return ""


def _rest(key: str, c: Point) -> str:
    x, y = c
    a, b = (x - 12.0, y), (x + 12.0, y)
    if key == "facing":
        return marks.person((x - 2.0, y), 5.5, EAST, "stands")
    if key == "thing":
        return marks.thing(c)
    if key == "idle":
        return marks.idle(c)
    if key in ("camera", "camera-end"):
        return marks.opening((x - 7.0, y), EAST, 27.0, key == "camera-end")
    if key in ("view", "view-end"):
        return line(a, b, 0.7, "6 2.5" if key == "view-end" else "")
    if key == "move":
        return marks.move([a, b])
    if key == "held":
        return circle(c, 9.5, "none", 0.7)
    if key == "beside":
        return line((x - 9.0, y), (x + 7.0, y), 0.7) + circle((x + 7.0, y), 1.8, "#000", 0.3)
    if key == "aim":
        return line(a, (x + 8.0, y), 1.1) + arrow_head(b, EAST, 6.0)
    if key == "beam":
        return line(a, b, 0.8, "0.8 2.4")
    if key == "practical":
        return marks.practical(c)
    if key == "ghost":
        return marks.ghost(c, "")
    if key == "socket":
        return marks.socket(c)
    return marks.sun(c)
