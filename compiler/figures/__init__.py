"""Every number that hotset prints, with the way it is found: its formula, what goes in, its source, its function.

A sheet or a finding names a figure; `named` finds it, `footnote` says it in one line, `worked` gives what one setup of
a plan puts in and what comes out.
"""

from __future__ import annotations

from .figure import STANDINGS, Figure
from .floor import FIGURES as _FLOOR
from .light import FIGURES as _LIGHT
from .picture import FIGURES as _PICTURE
from .power import FIGURES as _POWER

FIGURES: tuple[Figure, ...] = (*_POWER, *_LIGHT, *_PICTURE, *_FLOOR)
"""The figures, in the order of the list that people read."""


def named(name: str, rule: str = "") -> tuple[Figure, ...]:
    """The figures of a name: its own, or the one it has among the numbers of findings (`volts lost` as they print it
    is `volts_lost`); with a rule only what that rule means by it. Empty where there is none."""
    word = name.strip().lower()
    slug, detail = word.replace(" ", "-").replace("_", "-"), word.replace(" ", "_").replace("-", "_")
    exact = tuple(f for f in FIGURES if f"{rule}/{detail}" in f.details) if rule else ()
    if exact:
        return exact
    found = [f for f in FIGURES if f.name == slug or detail in f.details]
    if not rule:
        found += [f for f in FIGURES if any(d.endswith(f"/{detail}") for d in f.details)]
    return tuple(dict.fromkeys(found))


def of_unit(text: str) -> tuple[Figure, ...]:
    """The figures printed in a unit, named alone (`A`) or behind a number as it stands on a sheet (`8.2 A`)."""
    unit = text.strip().lstrip("+-0123456789.,/x \u00a0\u202f")
    same = {"stop": "stops", "°": "deg"}.get(unit, unit)
    return tuple(f for f in FIGURES if unit and f.unit in (unit, same))


def nearest(name: str) -> str | None:
    """The name most like this one, or None."""
    from difflib import get_close_matches

    known = [f.name for f in FIGURES] + [d.rpartition("/")[2] for f in FIGURES for d in f.details]
    near = get_close_matches(name.lower(), known, n=1, cutoff=0.5)
    return near[0] if near else None


def footnote(name: str) -> str:
    """One line for the foot of a sheet: what the figure is, how it is found and what that rests on.

    Raises KeyError for a name that no figure has.
    """
    found = named(name)
    if not found:
        raise KeyError(name)
    one = found[0]
    return f"{one.name}: {one.formula} ({one.standing})"


__all__ = ["FIGURES", "STANDINGS", "Figure", "footnote", "named", "nearest", "of_unit"]
