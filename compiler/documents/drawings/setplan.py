"""The plan of the set: an exact drawing from above, to a stated scale, with labels that never overlap."""

from __future__ import annotations

from ...record import record
from ..numbers import decimal
from ..words import Words, words_for
from . import action, building, legend, walls
from .canvas import Canvas, square
from .describe import in_words
from .labels import SIZE, Field, Placed, place
from .marks import off, turned
from .metrics import width_of, wrap
from .scene import Scene
from .shapes import Box, Point, around, box_corners, inside_box, unit
from .svg import INK, POINTS_PER_METRE, Drawing, arrow_head, document, line, lines_of, num, rect, tag, text

METRIC_SCALES = (10, 15, 20, 25, 30, 40, 50, 60, 75, 100, 125, 150, 200, 250, 300, 400, 500, 750, 1000, 2000, 5000)
IMPERIAL_SCALES = (12, 16, 24, 32, 48, 64, 96, 128, 192, 384, 768, 1536, 3072, 6144)
FOOT = 0.3048
_PAD = 13.0
_SUN_PAD = 20.0
_EDGE = 3.0
_STRIP = 50.0
_MORE = 24.0  # points by which a legend beside the plan may be longer than the paper
_AROUND = 1.5  # metres of an outdoor area shown around what is in use


@record
class Paper:
    """The printed room for a drawing, in points (1/72 inch): by default half a page of A4.

    Where it `grows` a long legend may add to the height.
    """

    width: float = 510.0
    height: float = 380.0
    grows: bool = True


HALF_A4 = Paper()


@record
class _Layout:
    """Where plan and legend go: `plan` is the plan's box, `legend_at` the left top of the legend's columns."""

    plan: Box
    legend_at: Point
    columns: list[list[legend.Entry]]
    height: float


def slug(name: str) -> str:
    """A plan's name as part of an id: letters and figures as they are, each other sign as its number, so that two
    names never give the same id."""
    return "".join(c if c.isascii() and c.isalnum() else "-" if c == "-" else f"_{ord(c):x}_" for c in name)


def draw(scene: Scene, prefix: str, paper: Paper = HALF_A4, words: Words | None = None) -> Drawing:
    """The plan of a set as a drawing.

    `prefix` makes the ids of this drawing differ from those of others on the page. `words` is the catalogue of fixed
    words, English when left out.
    The scale is the largest round one at which everything fits and every label finds a place.
    """
    _ = words or words_for()
    built = walls.build(scene)
    world = world_of(scene, built)
    scales = IMPERIAL_SCALES if scene.imperial else METRIC_SCALES
    best: tuple[Canvas, tuple[Placed, ...], tuple[str, ...], _Layout, int] | None = None
    tried = 0
    entries = legend.rows(_meet(scene, built, world), _)
    for scale in scales:
        factor = POINTS_PER_METRE / scale
        pad = 2 * (_PAD if scene.sun is None else _SUN_PAD)
        size = ((world[2] - world[0]) * factor + pad, (world[3] - world[1]) * factor + pad)
        layout = _layout(entries, size, paper)
        if layout is None and scale != scales[-1]:
            continue
        canvas = Canvas(prefix, scale, world, layout.plan if layout else (0.0, 0.0, paper.width, paper.height))
        fill(canvas, scene, built)
        placed, left_out = place(canvas.asks, Field(canvas.bounds, tuple(canvas.obstacles), tuple(canvas.thin)))
        chosen = layout or _spill(canvas.bounds, entries, paper)
        if best is None or len(left_out) < len(best[2]):
            best = (canvas, placed, left_out, chosen, scale)
        tried += 1
        if not left_out or tried >= 3:
            break
    assert best is not None
    return _finish(scene, prefix, paper, _, *best)


def _meet(scene: Scene, built: walls.Walls, world: Box) -> list[str]:
    """What occurs, found by drawing once without labels."""
    trial = Canvas("trial", 50.0, world, (0.0, 0.0, 2000.0, 2000.0))
    fill(trial, scene, built)
    return trial.met


def fill(canvas: Canvas, scene: Scene, built: walls.Walls) -> None:
    """Draw everything of a scene on the canvas and gather its labels."""
    building.draw(canvas, scene, built)
    building.furniture(canvas, scene.footprints)
    action.people(canvas, scene)
    action.cameras(canvas, scene, built)
    action.sockets(canvas, scene)
    action.practicals(canvas, scene)
    action.lamps(canvas, scene, built)
    action.ghosts(canvas, scene)
    action.grip(canvas, scene)
    action.moves(canvas, scene)
    action.sun_tick(canvas, scene)


def world_of(scene: Scene, built: walls.Walls) -> Box:
    """The box, in metres, to be drawn: all that has a place; of a wide area outdoors only the part in use."""
    points: list[Point] = []
    for hole in built.holes:
        points.extend(around_hole(hole.outer, hole.opening.depth if hole.opening.treatment == "tent" else 0.0))
    for piece in scene.footprints:
        points.extend(box_corners(piece.at, piece.width, piece.depth, piece.turned))
    points.extend(m.at for m in scene.marks)
    points.extend(c.at for c in scene.cameras)
    points.extend(lamp.at for lamp in scene.lamps)
    points.extend(p.at for p in scene.practicals)
    points.extend(g.at for g in scene.ghosts)
    for line_of in scene.lines:
        points.extend(line_of.points)
    for move in scene.moves:
        points.extend(move.points)
    whole = around([*built.outer, *points])
    if scene.indoors or not points:
        return whole
    used = around(points, _AROUND)
    part = max(used[0], whole[0]), max(used[1], whole[1]), min(used[2], whole[2]), min(used[3], whole[3])
    return (
        part
        if (part[2] - part[0]) * (part[3] - part[1]) < 0.5 * (whole[2] - whole[0]) * (whole[3] - whole[1])
        else whole
    )


def around_hole(ends: tuple[Point, Point], deep: float) -> tuple[Point, ...]:
    """The corners of a box reaching `deep` on both sides of an opening."""
    (x0, y0), (x1, y1) = ends
    far = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 or 1.0
    nx, ny = (y1 - y0) / far * deep, (x0 - x1) / far * deep
    return (x0 + nx, y0 + ny), (x1 + nx, y1 + ny), (x0 - nx, y0 - ny), (x1 - nx, y1 - ny)


def _layout(entries: list[legend.Entry], size: Point, paper: Paper) -> _Layout | None:
    """The legend beside the plan if that leaves room, else below it; None when this scale does not fit.

    A long legend below may lengthen the drawing a little, rather than make the plan small.
    """
    more = _MORE if paper.grows else 18.0
    for count in (1, 2):
        made = legend.split(entries, count)
        tall, wide = legend.deep(made), sum(legend.widths(made))
        if size[0] <= paper.width - wide - 8.0 and max(size[1], tall - more) <= paper.height:
            height = max(min(paper.height, size[1] + 40.0), tall)
            plan = (_EDGE, _EDGE, paper.width - wide - 5.0, height - _EDGE)
            return _Layout(plan, (paper.width - wide, _EDGE), made, height)
    made = legend.columns(entries, paper.width - 2 * _EDGE)
    strip = legend.deep(made)
    if size[0] <= paper.width - 2 * _EDGE and size[1] + (min(strip, _STRIP) if paper.grows else strip) <= paper.height:
        height = max(min(paper.height, size[1] + strip + 50.0), size[1] + strip)
        plan = (_EDGE, _EDGE, paper.width - _EDGE, height - strip - 2.0)
        return _Layout(plan, (_EDGE, height - strip + 3.0), made, height)
    return None


def _spill(plan: Box, entries: list[legend.Entry], paper: Paper) -> _Layout:
    """Where nothing fits: the plan at the smallest scale, the legend below the paper."""
    made = legend.columns(entries, paper.width - 2 * _EDGE)
    deep = (len(entries) + legend.INFO_ROWS) * legend.ROW
    return _Layout(plan, (_EDGE, paper.height + 3.0), made, paper.height + deep)


def _finish(
    scene: Scene,
    prefix: str,
    paper: Paper,
    _: Words,
    canvas: Canvas,
    placed: tuple[Placed, ...],
    left_out: tuple[str, ...],
    layout: _Layout,
    scale: int,
) -> Drawing:
    for label in placed:
        canvas.draw("labels", label_drawn(label))
    shown: list[str] = []
    x, y = layout.legend_at
    for n, (column, wide) in enumerate(zip(layout.columns, legend.widths(layout.columns), strict=True)):
        occurs = [entry for entry in column if entry[0] in canvas.met]
        shown.extend(legend.draw(occurs, x, y + (legend.INFO_ROWS * legend.ROW if n == 0 else 0.0), canvas.hatch))
        x += wide
    if layout.legend_at[0] > layout.plan[2]:
        rule = line((layout.legend_at[0] - 4.0, _EDGE), (layout.legend_at[0] - 4.0, layout.height - _EDGE), 0.5)
    else:
        rule = line((_EDGE, layout.plan[3] + 1.0), (paper.width - _EDGE, layout.plan[3] + 1.0), 0.5)
    room = tuple(_named(canvas, key) for key in left_out)
    height = layout.height
    notes = (*_part(scene, canvas, _), *_notes(room, scene.missing, paper.width - 2 * _EDGE, _))
    tail = lines_of(notes, (_EDGE, height + 2.0, paper.width, height), SIZE, False) if notes else ""
    height += len(notes) * SIZE * 1.2 + 6.0 if notes else 0.0
    layers = [tag("g", *parts) for parts in canvas.layers.values() if parts]
    body = [*layers, rule, tag("g", *shown) if shown else "", *_info(scene, prefix, layout.legend_at, scale, _), tail]
    desc = in_words(scene, scale, _)
    svg = document(prefix, (paper.width, height), scene.title, desc, body, tuple(canvas.hatches))
    return Drawing(svg, scene.title, desc, paper.width, height, room, scene.missing)


def _notes(room: tuple[str, ...], missing: tuple[str, ...], width: float, _: Words) -> tuple[str, ...]:
    """Below the drawing: what is not on it and why."""
    said: list[str] = []
    if room:
        said.extend(wrap(_("no room to write at its place:") + " " + ", ".join(room), SIZE, width))
    if missing:
        said.extend(wrap(_("not drawn:") + " " + "; ".join(missing), SIZE, width))
    return tuple(said)


def _part(scene: Scene, canvas: Canvas, _: Words) -> tuple[str, ...]:
    """That an area outdoors reaches beyond the drawing."""
    if all(inside_box(square(p, 0.0), canvas.bounds) for p in canvas.all_at(scene.outline)):
        return ()
    return (_("A part of the area: it goes on beyond the drawing."),)


def _named(canvas: Canvas, key: str) -> str:
    return next((" ".join(ask.forms[-1]) for ask in canvas.asks if ask.key == key), key)


def label_drawn(label: Placed) -> str:
    """A label on white, with its leader line where it stands off."""
    leader = line(label.leader[0], label.leader[1], 0.45) if label.leader else ""
    x0, y0, x1, y1 = label.box
    each = (y1 - y0) / max(len(label.lines), 1)
    wide = [width_of(said, SIZE, label.bold and n == 0) for n, said in enumerate(label.lines)]
    ground = [rect((x0, y0 + each * n, min(x0 + w, x1), y0 + each * (n + 1)), "#fff") for n, w in enumerate(wide)]
    return tag("g", leader, *ground, lines_of(label.lines, label.box, SIZE, label.bold))


def _info(scene: Scene, prefix: str, corner: Point, scale: int, _: Words) -> list[str]:
    """North arrow, scale bar and scale in words, about 110 by 50 points."""
    x, y = corner
    parts: list[str] = []
    if scene.north is not None:
        u = unit(-scene.north)
        along = (u[0], -u[1])
        centre = (x + 23.0, y + 21.0)
        tip = off(centre, along, 11.0)
        name = off(centre, along, 17.0)
        parts.append(line(off(centre, along, -12.0), off(centre, along, 7.0), 1.0))
        parts.append(line(off(centre, turned(along, 90.0), -4.0), off(centre, turned(along, 90.0), 4.0), 0.8))
        parts.append(arrow_head(tip, along, 8.0))
        parts.append(text(_("N"), (name[0], name[1] + 3.3), SIZE, True, "middle"))
    left = x + (48.0 if scene.north is not None else 2.0)
    parts.append(text(f"1:{scale}", (left, y + 12.0), 11.0, True))
    parts.extend(_bar(scene, prefix, (left, y + 24.0), scale, _))
    return parts


def _bar(scene: Scene, prefix: str, at: Point, scale: int, _: Words) -> list[str]:
    """The scale bar: two equal halves, its ends named in metres or feet."""
    unit_length, name = (FOOT, "ft") if scene.imperial else (1.0, "m")
    factor = POINTS_PER_METRE / scale
    steps = [m * 10.0**e for e in (-1, 0, 1, 2, 3) for m in (1.0, 2.0, 5.0)]
    said = max((s for s in steps if s * unit_length * factor <= 72.0), default=steps[0])
    long = said * unit_length * factor
    x, y = at
    outline = tag(
        "rect", id=f"{prefix}-bar", x=x, y=y, width=long, height=4.5, fill="#fff", stroke=INK, stroke_width=0.8
    )
    half = rect((x, y, x + long / 2, y + 4.5), INK)
    end = text(f"{decimal(num(said), _)} {name}", (x + long, y + 15.0), SIZE, False, "middle")
    return [outline, half, text("0", (x, y + 15.0), SIZE), end]
