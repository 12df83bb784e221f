"""Open flames in the picture: where they burn, and who watches them."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..plan.light import Practical
from ..plan.setup import Setup
from .desk import Desk
from .say import join, plain

# What burns by its name. Common practice, no source; a plan that calls its candle otherwise says so in a note.
BURNS = frozenset(("candle", "candles", "flame", "flames", "tealight", "tealights"))
WATCHES = ("fire", "flame", "flames", "candle", "effects")


def burning(desk: Desk, setup: Setup) -> Iterator[tuple[str, Practical]]:
    """The practicals of a setup that are flames: a candle by name, with neither bulb nor circuit."""
    for name, lamp in setup.practicals.items():
        gear = desk.shoot.plan.gear.get(lamp.prop or "")
        words = set(re.split(r"[\W_]+", join(" ", (name, lamp.prop or "", gear.of or "" if gear else "")).lower()))
        if words & BURNS and "led" not in words and not lamp.bulb and not lamp.circuit:
            yield name, lamp


def flames(desk: Desk, setup: Setup) -> Iterator[str]:
    """Each open flame in words: where, how high, who watches it."""
    _ = desk.words
    say = desk.say
    watcher = next((setup.hands[task] for task in WATCHES if task in setup.hands), None)
    for name, lamp in burning(desk, setup):
        yield join(" · ", (
            _("OPEN FLAME: {what}", what=say.thing(lamp.prop) if lamp.prop else plain(name)),
            say.spot(lamp.at, setup.set),
            _("{high} high", high=say.value("length", lamp.height)) if lamp.height is not None else "",
            _("watched by {who}", who=say.person(watcher)) if watcher else _("nobody is named yet who watches it"),
        ))  # fmt: skip
