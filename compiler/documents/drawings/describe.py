"""A plan of the set in words, for those who hear the drawing instead of seeing it."""

from __future__ import annotations

from ..numbers import decimal
from ..words import Words
from .scene import Label, Mark, Opening, Scene
from .shapes import around
from .svg import num


def in_words(scene: Scene, scale: int, _: Words) -> str:
    """One paragraph: the set's size, its openings, people, cameras, lamps, and what is not drawn."""
    x0, y0, x1, y1 = around(scene.outline)
    per, unit = (0.3048, "ft") if scene.imperial else (1.0, "m")
    wide, deep = (decimal(num(side / per), _) for side in (x1 - x0, y1 - y0))
    sentences = [
        _("Plan from above, {scale}, {wide} by {deep} {unit}", scale=f"1:{scale}", wide=wide, deep=deep, unit=unit)
    ]
    groups: tuple[tuple[str, list[str]], ...] = (
        (_("doors and windows"), [_opening(o, _) for o in scene.openings]),
        (_("furniture"), [_first(f.label) for f in scene.footprints]),
        (_("marks"), [_mark(m, _) for m in scene.marks]),
        (_("camera"), [_first(c.label) for c in scene.cameras]),
        (_("lamps"), [f"{lamp.number} {_first(lamp.label)}".strip() for lamp in scene.lamps]),
        (_("practicals"), [_first(p.label) for p in scene.practicals]),
        (_("grip"), [_first(item.label) for item in scene.lines]),
        (_("moves"), [_first(m.label) for m in scene.moves]),
        (_("not drawn"), list(scene.missing)),
    )
    for heading, said in groups:
        listed = [s for s in said if s]
        if listed:
            sentences.append(f"{heading}: {'; '.join(listed)}")
    return ". ".join(sentences) + "."


def _first(label: Label) -> str:
    return ", ".join(label[0]) if label else ""


def _mark(mark: Mark, _: Words) -> str:
    if mark.idle:
        return f"{_first(mark.label)} ({_('not used here')})"
    how = {"stands": _("stands"), "sits": _("sits"), "lies": _("lies")}[mark.posture] if mark.person else _("a thing")
    return f"{_first(mark.label)} ({how})"


def _opening(opening: Opening, _: Words) -> str:
    if opening.kind != "window":
        return _first(opening.label) or {"door": _("door"), "gap": _("opening")}[opening.kind]
    how = {"bare": _("open"), "black-out": _("blacked out"), "tent": _("tented"), "layers": _("with layers")}
    return f"{_first(opening.label) or _('window')} ({how[opening.treatment]})"
