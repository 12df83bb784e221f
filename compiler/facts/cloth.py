"""What is cut from cloth, diffusion and gel: the panels every setup needs at once, and whether the rolls reach."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..science import cloth

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from ..plan import Plan
    from ..plan.light import Treatment
    from ..plan.set import Window
    from ..plan.setup import Setup
    from ..plan.stock import Stock

# Common practice, no source; the plan's own words override both overlaps.
OVERLAP = 0.15  # of black cloth beyond the frame, on each side, in metres
LEAST_OVERLAP = 0.10
JOIN = 0.10  # seam of two strips of cloth, in metres; diffusion and gel are not joined


class Need(NamedTuple):
    """Panels of one stock, with overlap, for one part of a setup. `typical` tells that the overlap is a typical one."""

    stock: str
    panels: tuple[cloth.Panel, ...]
    path: str
    typical: bool = False


class Lack(NamedTuple):
    """Why a part of a setup cannot be counted: what on, and the detail that is wanting."""

    stock: str
    subject: str
    wants: str


def kind(stock: Stock) -> str:
    """cloth, gel or diffusion: what shifts colour is gel, what takes light and is not opaque is diffusion."""
    if stock.shifts is not None:
        return "gel"
    return "diffusion" if stock.loses is not None and not stock.opaque else "cloth"


def needs(plan: Plan, setup: Setup, least: bool = False) -> tuple[Need | Lack, ...]:
    """All that a setup cuts from stock. `least` takes the smallest overlap where a typical one is used."""
    found: list[Need | Lack] = []
    for treatment in setup.windows.values():
        window = plan.windows.get(treatment.id)
        if window is not None:
            found += _window(plan, setup, window, treatment, least)
    for grip in setup.grip.values():
        if grip.use in plan.stock and grip.use is not None:
            if grip.size is None:
                found.append(Lack(grip.use, f"'{grip.id}' in '{setup.id}'", f"'size:' of '{grip.id}'"))
            else:
                panel = cloth.Panel(grip.id, float(grip.size[0]), float(grip.size[1]))
                found.append(Need(grip.use, (panel,), grip.path))
    return tuple(found)


def _window(plan: Plan, setup: Setup, window: Window, how: Treatment, least: bool) -> Iterator[Need | Lack]:
    cover = how.black_out or how.tent
    names = [n for n in ([cover] if cover else how.layers) if n in plan.stock]
    short = window.id.rsplit("/", 1)[1]
    for stock in names:
        subject = f"window '{short}' in '{setup.id}'"
        if window.width is None or window.height is None:
            yield Lack(stock, subject, f"'width:' and 'height:' of window '{short}'")
            continue
        if how.tent and how.depth is None:
            yield Lack(stock, subject, "'depth:' of the tent")
            continue
        said = overlap(plan, plan.stock[stock], how) if cover else float(how.overlap or 0.0)
        over = (LEAST_OVERLAP if least else OVERLAP) if said is None else said
        wide, high = cloth.with_overlap(float(window.width), float(window.height), over)
        panels = [cloth.Panel(short, wide, high)]
        if how.tent:
            depth = float(how.depth or 0.0)
            panels += [cloth.Panel(f"{short}, a side", depth, high)] * 2 + [cloth.Panel(f"{short}, top", wide, depth)]
        key = "black-out" if how.black_out else "tent" if how.tent else "layers"
        yield Need(stock, tuple(panels) * (how.layers_of or 1), f"{how.path}.{key}", said is None)


def overlap(plan: Plan, stock: Stock, how: Treatment) -> float | None:
    """The overlap the plan asks for, in metres; None where it says none."""
    defaults = plan.film.defaults.overlap if plan.film.defaults else None
    for said in (how.overlap, stock.overlap, defaults):
        if said is not None:
            return float(said)
    return None


def sheets(stock: Stock) -> tuple[cloth.Sheet, ...]:
    """All that there is of a stock: rolls, then pieces."""
    found: list[cloth.Sheet] = []
    if stock.roll is not None:
        roll = cloth.Sheet("roll", float(stock.roll[0]), float(stock.roll[1]))
        found += [roll] * min(1 if stock.quantity is None else stock.quantity, 100)
    for piece in stock.pieces:
        if piece.size is not None:
            one = cloth.Sheet("piece", *sorted((float(piece.size[0]), float(piece.size[1]))))
            found += [one] * min(1 if piece.count is None else piece.count, 100)
    return tuple(found)


def reaches(stock: Stock, panels: Sequence[cloth.Panel]) -> bool | None:
    """Whether the panels can be cut from what there is; None where they are too many to try every layout."""
    return joined_reach((stock,), panels)


def joined_reach(stocks: tuple[Stock, ...], panels: Sequence[cloth.Panel]) -> bool | None:
    """The same of several lots of one stock, such as whole rolls and one that was begun."""
    have = tuple(sheet for stock in stocks for sheet in sheets(stock))
    join = JOIN if kind(stocks[0]) == "cloth" else None
    if sum(p.width * p.height for p in panels) > sum(s.width * s.length for s in have) + 1e-9:
        return False
    for sheet in have:
        length = cloth.length_that_would_do(panels, sheet.width)
        if length is not None and length <= sheet.length + 1e-9:
            return True
    cutting = cloth.cut(panels, have, join)
    return True if cutting.fits else False if cutting.proven else None
