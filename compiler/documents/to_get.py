"""What is short by the plan: how many, for which setups, what it costs, what would do instead."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from ..facts.shortfall import Short, shortfall
from ..facts.tables import table
from ..record import record
from .desk import Desk
from .say import join

if TYPE_CHECKING:
    from .words import Words


@record
class Get:
    """One thing that is short; `instead` are makeshifts with what is wrong with each."""

    count: str
    name: str
    id: str
    setups: str
    cost: str
    instead: tuple[str, ...]


def short(desk: Desk) -> Iterator[Get]:
    """Everything that is short, gear first."""
    _ = desk.words
    known = makeshifts(_)
    for one in shortfall(desk.shoot.facts):
        instead = tuple(_("{thing}: {drawback}", thing=known.get(i.words, i.words), drawback=known.get(i.but, i.but))
                        for i in one.instead)  # fmt: skip
        setups = ", ".join(desk.say.setup(setup) for setup in one.setups)
        yield Get(str(one.count), _name(desk, one), one.thing, setups, _cost(desk, one), instead)


def _name(desk: Desk, one: Short) -> str:
    _ = desk.words
    if one.kind == "step-ring":
        return _("step ring from {near} mm to {far} mm", near=one.from_, far=one.to)
    if one.kind == "adapter":
        thick = f"{one.thick * 1000:.1f}".removesuffix(".0") if one.thick is not None else ""
        return join(", ", (_("adapter from {near} to {far}", near=one.from_, far=one.to),
                           _("{thick} mm thick", thick=thick) if thick else ""))  # fmt: skip
    name = desk.say.thing(one.thing)
    if one.piece is None:
        return name
    size = desk.say.value("size", one.piece)
    return _("{thing}, wider: one piece is {size}", thing=name, size=size)


def _cost(desk: Desk, one: Short) -> str:
    """The price of one, and of all where there are several."""
    _ = desk.words
    each, whole = desk.say.value("money", one.each), desk.say.value("money", one.cost)
    if one.count < 2 or not whole:
        return each
    return join(", ", (_("{one} each", one=each), _("{sum} in all", sum=whole)))


def makeshifts(_: Words) -> dict[str, str]:
    """The fixed words of the table of substitutes, in its order, in the language of the sheets."""
    said = (
        _("black bin bags, two layers"),
        _("they rustle and shine, and let no air in: away from sound, out of the picture, never near a hot lamp"),
        _("board or card cut to the panes"),
        _("the edges leak unless they are taped, and it takes longer to put up and to open again"),
        _("kitchen foil on the glass"),
        _("it crackles, throws light back and tears: matt side in, out of the picture"),
        _("black card or board"),
        _("it is stiff and catches the wind, and has to be held or clamped"),
        _("black bin bags over a frame"),
        _("they shine and rustle: not where a lamp hits them, not during sound"),
        _("a white bed sheet"),
        _("what it takes and how it shifts colour is not known: meter it, and look at the white balance"),
        _("a frosted shower curtain"),
        _("it softens little, shines and must not come near a hot lamp; meter it"),
        _("a lamp of that colour, or the white balance moved towards it"),
        _("the other lamps move with the white balance"),
    )
    groups = table("substitutes")
    rows = [row for name in ("window", "frame", "diffusion", "gel") for row in groups[name]]
    return dict(zip((row[key] for row in rows for key in ("words", "but")), said, strict=True))
