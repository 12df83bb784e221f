"""A source has a colour that the palette of the film does not have.

On set: the screen in the corner, or the day at the window, is blue in a scene that was meant to be amber from end to
end, and it is seen when everything is lit.

How it is decided: each source's mired against the camera's white balance (warm above 60, cool below -60, strong from
110; common practice, no source) and its kelvin against each colour temperature of 'look: palette:'. A source clashes
where it is at least 110 mired from every one of them and on a side (warm, cool) on which the palette has none. A
green or magenta cast clashes where another source of the setup has none and the palette does not name it: the lamp's
'tint:' in points (full plus green 30, half 15, a quarter 7.5) and what plus and minus green gels add; 5 points are
just seen (common practice, no source). Colours in words count for their side: warm, amber, orange; cool, cold, blue.
Source of the arithmetic: the definition of the mired; points of colour compensation add up.

Fix: set or gel the source nearer to the palette, move the white balance, or put the colour into the palette.

When to accept it: the clash is the point of the scene.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts import colours, tint
from ..findings import NotChecked
from ..science import colour
from .physics import Case, causes
from .words import finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..facts.colours import Tone
    from ..findings import Finding
    from ..plan.setup import Setup

    Met = tuple[Tone, float, float, float]

RULE = "clashing-colours"
SEVERITY: Final = "warning"
TITLE = "a source has a colour that the palette does not have"

TRIGGERS = """
hotset: 1
look: {palette: [2700 K, 3200 K]}
gear: {panel: {kind: light, colour: 2800-6500 K, quantity: 2}}
setups:
  office-wide:
    camera: {white-balance: 3200 K}
    lights:
      desk: {lamp: panel, colour: 2900 K}
      moon: {lamp: panel, colour: 6500 K}  # <- here
"""
PASSES = TRIGGERS.replace("[2700 K, 3200 K]", "[2700 K, 3200 K, 5600 K]").replace("  # <- here", "")

_WARM, _COOL = ("warm", "amber", "orange", "gold", "red", "candle"), ("cool", "cold", "blue", "cyan", "moon")
_TINTS = ("green", "magenta")
Side = tuple[set[str], list[float]]


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    palette = plan.film.look.palette if plan.film.look else ()
    kelvins = [k for k in map(_kelvin, palette) if k is not None]
    words = " ".join(palette).lower()
    cases: list[Case[Met]] = []
    tinted: list[Case[tuple[Tone, str]]] = []
    for setup in plan.setups.values():
        tones = colours.tones(plan, setup)
        balance = setup.camera.white_balance if setup.camera else None
        if len(tones) < 2 and not palette:
            continue
        if not palette:
            yield NotChecked(RULE, "colours of the sources", "'palette:' under 'look:', such as [3200 K, 5600 K]")
            return
        tinted += _tints(setup, tones, words)
        if balance is None:
            if tones:
                yield NotChecked(RULE, f"setup '{setup.id}'", "'white-balance:' of the camera")
            continue
        cases += _far(setup, tones, float(balance), kelvins, words)
    for cause in causes(plan, cases):
        yield _finding(facts, cause.worst, kelvins, cause.also)
    for clash in causes(plan, tinted, "tint"):
        tone, side = clash.worst.what
        yield finding(
            plan,
            (RULE, SEVERITY),
            tone.path,
            f"'{tone.words}' in '{clash.worst.who}' is {_cast(tone, side)} beside sources that are not{clash.also}",
            (_against(tone, side), "or give all sources the same tint and take it out in post"),
            (("setup", clash.worst.who), ("source", tone.words), ("tint", side), ("green_points", tone.green or "")),
            also=[(f"{tone.lamp.path}.tint", "the lamp")],
        )


def _kelvin(text: str) -> float | None:
    number = text.strip().removesuffix("K").strip()
    return float(number) if number.isdecimal() and 1000 <= int(number[:6]) <= 20000 else None


def _side(mired: float) -> str:
    return "warm" if mired > colour.MIXED else "cool" if mired < -colour.MIXED else "neutral"


def _far(setup: Setup, tones: tuple[Tone, ...], balance: float, kelvins: list[float], words: str) -> list[Case[Met]]:
    """Sources far from all of the palette, on a side on which it has nothing."""
    sides = {_side(colour.difference(k, balance)) for k in kelvins}
    sides |= {"warm"} if any(w in words for w in _WARM) else set()
    sides |= {"cool"} if any(w in words for w in _COOL) else set()
    found: list[Case[Met]] = []
    for tone in tones:
        seen = tone.seen()
        if seen is None:
            continue
        off = colour.difference(seen, balance)
        nearest = min((abs(colour.difference(seen, k)) for k in kelvins), default=colour.STRONG)
        if nearest >= colour.STRONG and _side(off) not in sides and (kelvins or sides):
            found.append(Case(tone.path, setup.id, nearest, (tone, seen, balance, off)))
    return found


def _finding(facts: Facts, case: Case[Met], kelvins: list[float], also: str) -> Finding:
    tone, seen, balance, off = case.what
    palette = [f"{k:.0f} K" for k in kelvins] or list(facts.plan.film.look.palette if facts.plan.film.look else ())
    nearest = min(kelvins, key=lambda k: abs(colour.difference(seen, k)), default=balance)
    own = colours.made(tone.lamp)
    ways = []
    if own is not None and own.lo < own.hi and own.lo <= nearest <= own.hi and not tone.shift:
        ways.append(f"set it to {nearest:.0f} K")
    else:
        gel = colours.offer(facts.plan, seen, nearest)
        ways += [f"put {gel[0]} before it, which makes {round(gel[1], -1):.0f} K"] if gel else []
    ways.append(f"{'or ' if ways else ''}write {round(seen, -1):.0f} K into the palette, if the clash is meant")
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        case.path,
        f"'{tone.words}' in '{case.who}' is {round(seen, -1):.0f} K, a {colour.words(off)} ({off:+.0f} mired) at the "
        f"balance of {balance:.0f} K, and the palette has only {quoted(palette)}{also}",
        tuple(ways),
        (
            ("setup", case.who),
            ("source", tone.words),
            ("kelvin", round(seen)),
            ("white_balance", balance),
            ("mired", round(off, 1)),
        ),
        also=[("look.palette", "the palette")],
    )


def _cast(tone: Tone, side: str) -> str:
    """The cast in words, with its strength where it is known."""
    return side if tone.green is None else f"{tint.words(tone.green)} ({abs(tone.green):g} points)"


def _against(tone: Tone, side: str) -> str:
    """The gel that takes the cast away."""
    gel = tint.gel_against(tone.green) if tone.green is not None else ""
    kind = "minus green" if side == "green" else "plus green"
    return f"put a {gel} gel before it" if gel else f"put a {kind} gel before it, as strong as the meter says"


def _tints(setup: Setup, tones: tuple[Tone, ...], words: str) -> list[Case[tuple[Tone, str]]]:
    """Sources with a cast beside sources without; what a gel takes away again is none."""
    named = [(t, _side_of(t)) for t in tones]
    plain = [t for t, side in named if not side]
    return [Case(t.path, setup.id, abs(t.green or 0.0), (t, side)) for t, side in named
            if side and plain and side not in words]  # fmt: skip


def _side_of(tone: Tone) -> str:
    """green, magenta, or "" for a source without a cast that is seen."""
    if tone.green is not None:
        return "" if abs(tone.green) < tint.seen() else "green" if tone.green > 0 else "magenta"
    return next((w for w in _TINTS if w in (tone.lamp.tint or "").lower()), "")
