"""Values of a plan in the crew's words: names, times, lengths, places in a room."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from ..facts.hours import full_minute
from ..plan import Plan
from ..plan.light import Light, Treatment
from ..plan.spots import Aim, Named, Point, Spot
from ..source.quantities import Around, Towards, show
from .numbers import localised
from .view import Said
from .words import Words

NO_BREAK = "\u00a0"  # between a number and its unit, so that no line ends on the number
MIRED = 1_000_000.0
# Steps of mired: common practice, no source (just seen 20 to 30, natural mix 60 to 100, strong contrast 130).
SEEN, MIXED, STRONG = 20, 60, 130


class Say:
    """How one plan is spoken of, in one language."""

    def __init__(self, plan: Plan, words: Words) -> None:
        self.plan = plan
        self.words = words
        self.lengths = plan.film.lengths or "metric"

    def value(self, kind: str, value: Any) -> str:
        """A quantity as the crew reads it, or nothing for nothing."""
        if value is None:
            return ""
        return _bound(localised(kind, show(kind, value, self.lengths), self.words))

    def said(self, text: str, path: str) -> Said:
        """Words with the mark of a default where `defaults:` of the plan filled them in."""
        return Said(text, path in self.plan.defaulted)

    def setup(self, name: str) -> str:
        """A setup's name as a heading: its id without hyphens."""
        return plain(name)

    def set(self, name: str | None) -> str:
        """A room or area by its own name."""
        if not name:
            return ""
        known = self.plan.sets.get(name)
        return known.name if known and known.name else plain(name.rsplit("/", 1)[-1])

    def location(self, name: str | None) -> str:
        """A place by its own name."""
        known = self.plan.locations.get(name or "")
        return known.name if known and known.name else plain(name or "")

    def place_of(self, setup: str) -> str:
        """Room and place of a setup in one line."""
        room = self.plan.setups[setup].set
        there = self.location(room.split("/")[0]) if room else ""
        return join(", ", (self.set(room), there))

    def thing(self, name: str) -> str:
        """A piece of gear or stock: what it is in words, or its id."""
        if name in self.plan.gear:
            return self.plan.gear[name].of or plain(name)
        if name in self.plan.stock:
            return self.plan.stock[name].of or plain(name)
        return plain(name)

    def things(self, names: Iterable[str]) -> str:
        """Several things in one line."""
        return ", ".join(self.thing(name) for name in names)

    def person(self, name: str) -> str:
        """A person by name; `any` is whoever has a hand free."""
        _ = self.words
        if name == "any":
            return _("any free hand")
        known = self.plan.people.get(name)
        return known.name if known and known.name else plain(name)

    def circuit(self, name: str | None) -> str:
        """A circuit by its own name, without the place."""
        return plain(name.rsplit("/", 1)[-1]) if name else ""

    def opening(self, name: str) -> str:
        """A door or window by what the plan calls it in its room, within a sentence."""
        return name.rsplit("/", 1)[-1].replace("-", " ")

    def light_name(self, name: str) -> str:
        """A lamp of a setup by what the plan calls it there."""
        return plain(name)

    def clock(self, half_minutes: int | None) -> str:
        """A time of day; after midnight it counts on from 00:00, with a word that it is the next day."""
        _ = self.words
        if half_minutes is None:
            return ""
        days, rest = divmod(full_minute(half_minutes) // 2, 24 * 60)
        text = f"{rest // 60:02d}:{rest % 60:02d}"
        return _("{time} next day", time=text) if days else text

    def minutes(self, half_minutes: int) -> str:
        """A stretch of the day in whole minutes or hours and minutes."""
        whole = round(half_minutes / 2)
        return _bound(show("duration", float(whole * 60))) if whole else f"0{NO_BREAK}min"

    def spot(self, spot: Spot | None, room: str | None = None) -> str:
        """A place in a set, from its walls, from the edges of an area, or from a mark."""
        _ = self.words
        if spot is None:
            return ""
        if isinstance(spot, Point):
            x, y = self.value("length", spot.x), self.value("length", spot.y)
            known = self.plan.sets.get(room or "")
            if known and known.outline:
                return _("{x} east, {y} north of the set's own corner", x=x, y=y)
            if known and known.outdoors:
                return _("{x} from the west edge, {y} from the south edge", x=x, y=y)
            return _("{x} from the west wall, {y} from the south wall", x=x, y=y)
        if isinstance(spot, Named):
            return plain(spot.mark)
        if isinstance(spot, Around):
            return _(
                "{far} from {mark}, at {hour} o'clock", far=self.value("length", spot.metres),
                mark=plain(spot.mark), hour=hour_words(spot.hour),
            )
        if isinstance(spot, Towards):
            return _(
                "{far} from {start} towards {end}", far=self.value("length", spot.metres),
                start=plain(spot.start), end=plain(spot.end),
            )
        return ""

    def aim(self, aim: Aim | None, room: str | None = None) -> str:
        """What something points at."""
        _ = self.words
        if aim is None:
            return ""
        if aim.down:
            return _("straight down")
        if aim.mirror:
            return _("into {mirror}, to see {seen}", mirror=plain(aim.mirror), seen=plain(aim.sees or ""))
        where = self.spot(aim.at, room)
        return _("{where}, {high} high", where=where, high=self.value("length", aim.height)) if aim.height else where

    def light_place(self, light: Light, room: str | None = None) -> str:
        """Where a lamp stands, hangs or is held."""
        _ = self.words
        parts: list[str] = []
        if light.outside:
            window = plain(light.outside.rsplit("/", 1)[-1])
            away = self.value("length", light.away)
            parts.append(
                _("outside {window}, {away} away", window=window, away=away) if away
                else _("outside {window}", window=window)
            )
            if light.along:
                parts.append(self._along(light.outside, float(light.along)))
        if light.in_:
            parts.append(_("in {room}", room=self.set(light.in_)))
        if light.at is not None:
            parts.append(self.spot(light.at, light.in_ or room))
        if light.through:
            parts.append(_("through {opening}", opening=plain(light.through.rsplit("/", 1)[-1])))
        if light.held_by:
            parts.append(_("held by {who}", who=self.person(light.held_by)))
        if light.on:
            parts.append(_("on {support}", support=self.thing(light.on)))
        return ", ".join(parts)

    def _along(self, window: str, metres: float) -> str:
        """How far along the wall from a window's middle, and to which side."""
        _ = self.words
        wall = self.plan.windows[window].wall if window in self.plan.windows else None
        far, ahead = self.value("length", abs(metres)), metres > 0
        if wall in ("south", "north"):
            return _("{far} east of its middle", far=far) if ahead else _("{far} west of its middle", far=far)
        if wall in ("east", "west"):
            return _("{far} north of its middle", far=far) if ahead else _("{far} south of its middle", far=far)
        return _("{far} past its middle", far=far) if ahead else _("{far} before its middle", far=far)

    def treatment(self, treatment: Treatment | None) -> str:
        """What is done to a window."""
        _ = self.words
        if treatment is None or treatment.open:
            return _("as it is")
        side = {"inside": _("inside"), "outside": _("outside")}.get(treatment.side or "", "")
        layers = _.count("{n} layer", "{n} layers", treatment.layers_of) if treatment.layers_of else ""
        if treatment.black_out:
            what = _("black out with {cloth}", cloth=self.thing(treatment.black_out))
        elif treatment.tent:
            depth = self.value("length", treatment.depth)
            what = _("tent of {cloth}", cloth=self.thing(treatment.tent))
            what = _("{tent}, {depth} deep", tent=what, depth=depth) if depth else what
        elif treatment.layers:
            what = _("layers on the glass: {layers}", layers=self.things(treatment.layers))
        else:
            what = _("as it is")
        return join(", ", (what, layers, side))

    def against_white(self, kelvin: float | None, white: float | None) -> str:
        """A lamp's colour as the camera sees it at that white balance: mired and a word; more mired is warmer."""
        _ = self.words
        if not kelvin or not white:
            return ""
        shift = MIRED / kelvin - MIRED / white
        return _("{shift} mired, {word}", shift=signed(shift), word=self.tint(kelvin, white))

    def tint(self, kelvin: float | None, white: float | None) -> str:
        """A lamp's colour as the camera sees it at that white balance, in a word."""
        _ = self.words
        if not kelvin or not white:
            return ""
        shift = MIRED / kelvin - MIRED / white
        size = abs(shift)
        if size < SEEN:
            return _("white")
        if shift > 0:
            return _("a little warm") if size < MIXED else _("warm") if size < STRONG else _("deep orange")
        return _("a little cool") if size < MIXED else _("blue") if size < STRONG else _("deep blue")


def _bound(text: str) -> str:
    """Numbers held to their units; between hours and minutes a line may end."""
    words = text.split(" ")
    out = words[0]
    for n, word in enumerate(words[1:], 1):
        out += (" " if words[n - 1][-1:].isalpha() and word[:1].isdigit() and n == 2 else NO_BREAK) + word
    return out


def side_words(say: Say, side: str | None) -> str:
    """The side of the picture that the boom comes from."""
    _ = say.words
    return {"left": _("left of the picture"), "right": _("right of the picture")}.get(side or "", side or "")


def move_word(say: Say, kind: str | None) -> str:
    """What the camera does, in a word."""
    _ = say.words
    words = {
        "pan": _("pan"), "tilt": _("tilt"), "push-in": _("push in"), "pull-out": _("pull out"), "slide": _("slide"),
        "follow": _("follow"), "handheld": _("by hand"), "rise": _("rise"), "orbit": _("orbit"),
    }  # fmt: skip
    return words.get(kind or "", kind or "")


def plain(name: str) -> str:
    """An id as words: hyphens become blanks, the first letter a capital."""
    text = name.replace("-", " ")
    return text[:1].upper() + text[1:]


def hour_words(hour: float) -> str:
    """An hour of the clock face: 9, or 10:30."""
    whole = int(hour)
    rest = round((hour - whole) * 60)
    return f"{whole}:{rest:02d}" if rest else str(whole)


def signed(value: float) -> str:
    """A whole number with its sign, a true minus."""
    rounded = round(value)
    return f"+{rounded}" if rounded > 0 else f"−{-rounded}" if rounded < 0 else "0"


def join(between: str, parts: Iterable[str]) -> str:
    """The parts that say something, joined."""
    return between.join(part for part in parts if part)
