"""Open flames in the picture: where they burn, and who watches them."""

from __future__ import annotations

from collections.abc import Iterator

from ..facts import flames as facts
from ..plan.setup import Setup
from .desk import Desk
from .say import join, plain

# Tasks during the take that are the watch over a flame; common practice, no source.
WATCHES = ("fire", "flame", "flames", "candle", "effects")


def flames(desk: Desk, setup: Setup) -> Iterator[str]:
    """Each open flame in words: where, how high, who watches it."""
    _ = desk.words
    say = desk.say
    watcher = next((setup.hands[task] for task in WATCHES if task in setup.hands), None)
    for lamp in facts.burning(desk.shoot.plan, setup):
        yield join(" · ", (
            _("OPEN FLAME: {what}", what=say.thing(lamp.prop) if lamp.prop else plain(lamp.id)),
            say.spot(lamp.at, setup.set),
            _("{high} high", high=say.value("length", lamp.height)) if lamp.height is not None else "",
            _("watched by {who}", who=say.person(watcher)) if watcher else _("nobody is named yet who watches it"),
        ))  # fmt: skip
