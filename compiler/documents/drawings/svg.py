"""Elements of a drawing as text: escaping, numbers with fixed decimals, patterns, and the finished drawing."""

from __future__ import annotations

from ...record import record
from .metrics import ASCENT, LEADING

INK = "#000"
GREY = "#c9c9c9"
POINTS_PER_METRE = 72.0 / 0.0254

Point = tuple[float, float]


@record
class Drawing:
    """A finished drawing: an `svg` element as text, its title and its description in words.

    `width` and `height` are the printed size in points (1/72 inch) at which scale and text sizes hold. `left_out`
    names what there was no room to write; `missing` says what could not be drawn and which detail would allow it.
    """

    svg: str
    title: str
    desc: str
    width: float
    height: float
    left_out: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()


def num(value: float) -> str:
    """A number with at most two decimals, the same text on every machine."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def escape(text: str) -> str:
    """Text made safe for XML; characters that XML forbids are dropped."""
    kept = text if text.isascii() and text.isprintable() else "".join(
        c for c in text if c in "\t\n" or "\x20" <= c <= "\ud7ff" or (c >= "\ue000" and c not in "\ufffe\uffff")
    )
    return kept.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


def tag(name: str, *inside: str, **attributes: str | float) -> str:
    """One element; `_` in an attribute's name becomes `-`; numbers are formatted with `num`."""
    parts = [name]
    for key, value in attributes.items():
        said = escape(value) if isinstance(value, str) else num(value)
        parts.append(f'{key.rstrip("_").replace("_", "-")}="{said}"')
    opened = " ".join(parts)
    return f"<{opened}>{''.join(inside)}</{name}>" if inside else f"<{opened}/>"


def line(a: Point, b: Point, width: float = 0.6, dash: str = "", colour: str = INK) -> str:
    """A straight line between two points of the paper."""
    extra: dict[str, str | float] = {"stroke_dasharray": dash} if dash else {}
    return tag("line", x1=a[0], y1=a[1], x2=b[0], y2=b[1], stroke=colour, stroke_width=width, **extra)


def path_data(points: list[Point] | tuple[Point, ...], closed: bool = True) -> str:
    """The `d` of a path through points."""
    steps = "L".join(f"{num(x)} {num(y)}" for x, y in points)
    return f"M{steps}{'Z' if closed else ''}"


def polygon(
    points: list[Point] | tuple[Point, ...],
    fill: str = "none",
    width: float = 0.6,
    dash: str = "",
    closed: bool = True,
    stroke: str = INK,
) -> str:
    """A closed shape, or with `closed=False` a line through several points."""
    extra: dict[str, str | float] = {"stroke_dasharray": dash} if dash else {}
    return tag("path", d=path_data(points, closed), fill=fill, stroke=stroke, stroke_width=width, **extra)


def circle(centre: Point, radius: float, fill: str = "none", width: float = 0.6, dash: str = "") -> str:
    """A circle on the paper."""
    extra: dict[str, str | float] = {"stroke_dasharray": dash} if dash else {}
    return tag("circle", cx=centre[0], cy=centre[1], r=radius, fill=fill, stroke=INK, stroke_width=width, **extra)


def rect(box: tuple[float, float, float, float], fill: str = "none", stroke: str = "none", width: float = 0.6) -> str:
    """An upright rectangle from its corners (left, top, right, bottom)."""
    x0, y0, x1, y1 = box
    edge: dict[str, str | float] = {} if stroke == "none" else {"stroke": stroke, "stroke_width": width}
    return tag("rect", x=x0, y=y0, width=x1 - x0, height=y1 - y0, fill=fill, **edge)


def text(
    said: str, at: Point, size: float, bold: bool = False, anchor: str = "start", fill: str = INK, turned: float = 0.0
) -> str:
    """One line of text with its baseline at a point; the face is the page's own, so that no font is missing."""
    extra: dict[str, str | float] = {}
    if bold:
        extra["font_weight"] = "bold"
    if anchor != "start":
        extra["text_anchor"] = anchor
    if turned:
        extra["transform"] = f"rotate({num(turned)} {num(at[0])} {num(at[1])})"
    return tag("text", escape(said), x=at[0], y=at[1], font_size=size, fill=fill, **extra)


def lines_of(lines: tuple[str, ...], box: tuple[float, float, float, float], size: float, bold_first: bool) -> str:
    """A block of lines set from the left top of a box."""
    return "".join(
        text(said, (box[0], box[1] + size * (ASCENT + LEADING * n)), size, bold_first and n == 0)
        for n, said in enumerate(lines)
    )


def arrow_head(tip: Point, towards: Point, size: float = 5.0, fill: str = INK) -> str:
    """A filled arrow head at `tip`; `towards` is the unit vector it points along."""
    ux, uy = towards
    back = (tip[0] - ux * size, tip[1] - uy * size)
    half = size * 0.38
    return polygon(
        (tip, (back[0] - uy * half, back[1] + ux * half), (back[0] + uy * half, back[1] - ux * half)), fill, 0.3
    )


_PATTERNS = {
    "hatch": (3.2, "M-1 1L1 -1M0 3.2L3.2 0M2.2 4.2L4.2 2.2", 0.9),
    "dense": (2.0, "M-1 1L1 -1M0 2L2 0M1 3L3 1", 0.9),
    "cross": (3.4, "M0 3.4L3.4 0M0 0L3.4 3.4", 0.7),
    "thin": (5.0, "M-1 1L1 -1M0 5L5 0M4 6L6 4", 0.45),
    "sparse": (8.0, "M-1 1L1 -1M0 8L8 0M7 9L9 7", 0.5),
    "upright": (3.0, "M1.5 0L1.5 3", 0.6),
}


def pattern(prefix: str, name: str) -> str:
    """The definition of one hatch, its id made unique by the drawing's prefix."""
    step, marks, width = _PATTERNS[name]
    return tag(
        "pattern",
        tag("path", d=marks, stroke=INK, stroke_width=width, fill="none"),
        id=f"{prefix}-{name}",
        width=step,
        height=step,
        patternUnits="userSpaceOnUse",
    )


def document(
    prefix: str, size: tuple[float, float], title: str, desc: str, body: list[str], hatches: tuple[str, ...] = ()
) -> str:
    """The whole `svg` element: printed at `size` points, with words for screen readers, on white."""
    width, height = size
    used = tuple(name for name in _PATTERNS if name in hatches)
    head = tag("title", escape(title), id=f"{prefix}-title") + tag("desc", escape(desc), id=f"{prefix}-desc")
    defs = tag("defs", *(pattern(prefix, name) for name in used)) if used else ""
    inside = "\n".join([head, defs, rect((0, 0, width, height), "#fff"), *body])
    named = f"{escape(prefix)}-title {escape(prefix)}-desc"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="{named}" '
        f'width="{num(width)}pt" height="{num(height)}pt" viewBox="0 0 {num(width)} {num(height)}">\n{inside}\n</svg>'
    )


def standalone(drawing: Drawing) -> str:
    """A drawing as a file of its own: the same element with a face named and an XML heading."""
    named = drawing.svg.replace("<svg ", '<svg font-family="DejaVu Sans, Liberation Sans, Arial, sans-serif" ', 1)
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{named}\n'
