"""A plan of the set in words, for those who hear the drawing instead of seeing it."""

from __future__ import annotations

from .legend import Say
from .scene import Label, Opening, Scene
from .shapes import around
from .svg import num


def _first(label: Label) -> str:
    return " ".join(label[0]) if label else ""


def in_words(scene: Scene, scale: int, say: Say) -> str:
    """One paragraph: the set's size, its openings, people, cameras, lamps, and what is not drawn."""
    x0, y0, x1, y1 = around(scene.outline)
    per, name = (0.3048, "ft") if scene.imperial else (1.0, "m")
    sentences = [f"{say('Plan from above')}, 1:{scale}, {num((x1 - x0) / per)} x {num((y1 - y0) / per)} {name}"]
    openings = [_opening(o, say) for o in scene.openings]
    groups: tuple[tuple[str, list[str]], ...] = (
        ("openings", openings),
        ("furniture", [_first(f.label) for f in scene.footprints]),
        ("marks", [_first(m.label) + (f" ({say(m.posture)})" if m.person else "") for m in scene.marks]),
        ("camera", [_first(c.label) for c in scene.cameras]),
        ("lamps", [f"{lamp.number} {_first(lamp.label)}".strip() for lamp in scene.lamps]),
        ("practicals", [_first(p.label) for p in scene.practicals]),
        ("grip", [_first(item.label) or say(item.kind) for item in scene.lines]),
        ("moves", [_first(m.label) for m in scene.moves]),
        ("not drawn", list(scene.missing)),
    )
    for heading, said in groups:
        listed = [s for s in said if s]
        if listed:
            sentences.append(f"{say(heading)}: {'; '.join(listed)}")
    return ". ".join(sentences) + "."


def _opening(opening: Opening, say: Say) -> str:
    name = _first(opening.label) or say(opening.kind)
    return f"{name} ({say(_treated(opening.treatment))})" if opening.kind == "window" else name


def _treated(treatment: str) -> str:
    return {"bare": "open", "black-out": "blacked out", "tent": "tented", "layers": "with layers"}[treatment]
