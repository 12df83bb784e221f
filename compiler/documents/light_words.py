"""A lamp, a flag, a practical in one line of the crew's words."""

from __future__ import annotations

import math

from ..facts import places, reach
from ..facts.colours import tones
from ..plan.light import Grip, Light, Practical
from ..plan.setup import Setup
from .desk import Desk
from .say import join


def settings(desk: Desk, setup: Setup, light: Light) -> str:
    """Colour against white balance, level, supply, bounce and effect of a lamp."""
    _ = desk.words
    say = desk.say
    seen = seen_of(desk, setup, light)
    white = setup.camera.white_balance if setup.camera else None
    shift = say.against_white(seen, white)
    colour = say.value("kelvin", colour_of(desk, light))
    if colour and seen and round(seen, -1) != colour_of(desk, light):
        colour = _("{colour}, {seen} with its gel", colour=colour, seen=say.value("kelvin", round(seen, -1)))
    parts = [f"{colour} ({shift})" if colour and shift else colour]
    if light.level is not None:
        parts.append(_("level {level}", level=say.value("percent", light.level)))
    parts.append(supply(desk, setup, light))
    if light.bounce:
        where = say.spot(light.bounce.at, setup.set)
        what = say.thing(light.bounce.use or "")
        parts.append(_("off {board}, {where}", board=what, where=where) if where else _("off {board}", board=what))
    if light.effect:
        parts.append(effect_words(desk, light.effect.flashes, light.effect.flickers))
    return join(" · ", parts)


def supply(desk: Desk, setup: Setup, thing: Light | Practical) -> str:
    """What feeds a lamp: the circuit with the socket that is nearest on it, the leads, or the battery."""
    _ = desk.words
    say = desk.say
    return join(" · ", (
        join(", ", (_("circuit {circuit}", circuit=say.circuit(thing.circuit)), _socket(desk, setup, thing)))
        if thing.circuit else "",
        _("over {lead}", lead=say.things(thing.lead)) if isinstance(thing, Light) and thing.lead else "",
        "" if not thing.battery else _("on its own battery") if thing.battery == "own"
        else _("battery {battery}", battery=say.thing(thing.battery)),
    ))  # fmt: skip


def _socket(desk: Desk, setup: Setup, thing: Light | Practical) -> str:
    """The name of the socket that a lamp is plugged into: the only one of its circuit in the room, or the nearest."""
    _ = desk.words
    plan = desk.shoot.plan
    there = reach.sockets(plan, setup, thing.circuit or "")
    if len(there) > 1:
        room = plan.sets[setup.set or ""]
        at = places.light_xy(plan, setup, thing) if isinstance(thing, Light) else places.spot(plan, setup, thing.at)
        known = [(math.dist(at, spot), o) for o in there if at and (spot := reach.outlet_spot(plan, room, setup, o))]
        there = [min(known, key=lambda row: row[0])[1]] if known else []
    return _("socket {name}", name=desk.say.opening(there[0].id)) if there else ""


def effect_words(desk: Desk, flashes: float | None, flickers: float | None) -> str:
    """A flashing or flickering lamp, said so that nobody misses it."""
    _ = desk.words
    if flashes:
        return _("FLASHES {rate}", rate=desk.say.value("rate", flashes))
    return _("FLICKERS {rate}", rate=desk.say.value("rate", flickers)) if flickers else _("changes during the take")


def colour_of(desk: Desk, light: Light) -> float | None:
    """The colour a lamp is set to, or the only one it has."""
    if light.colour is not None:
        return light.colour
    gear = desk.shoot.plan.gear.get(light.lamp[0]) if light.lamp else None
    span = gear.colour if gear else None
    return span.lo if span and span.lo == span.hi else None


def seen_of(desk: Desk, setup: Setup, light: Light) -> float | None:
    """The colour that leaves its gels; None where a gel's shift is not said."""
    tone = next((t for t in tones(desk.shoot.plan, setup) if t.path == light.path), None)
    return tone.seen() if tone is not None and (tone.shift or tone.silent) else colour_of(desk, light)


def care(desk: Desk, light: Light) -> str:
    """What burns at this lamp, and what else is to be known of it."""
    _ = desk.words
    gear = desk.shoot.plan.gear.get(light.lamp[0]) if light.lamp else None
    hot = gear.hot_within if gear else None
    effect = light.effect.note if light.effect else ()
    return join(" · ", (
        _("HOT: cloth no nearer than {far}", far=desk.say.value("length", hot)) if hot else "", *light.note, *effect,
    ))  # fmt: skip


def grip_words(desk: Desk, grip: Grip, room: str | None) -> str:
    """A flag, cloth or frame: what, how large, where."""
    _ = desk.words
    say = desk.say
    return join(" · ", (
        join(", ", (say.thing(grip.use or ""), say.value("size", grip.size))), say.spot(grip.at, room),
        _("{high} high", high=say.value("length", grip.height)) if grip.height is not None else "",
        _("on {support}", support=say.thing(grip.on)) if grip.on else "",
        _("held by {who}", who=say.person(grip.held_by)) if grip.held_by else "", *grip.note,
    ))  # fmt: skip


def practical_words(desk: Desk, setup: Setup, lamp: Practical, measured: bool = True) -> str:
    """A lamp in the picture: prop, bulb, supply, level; its colour in a word alone where it is not `measured`."""
    _ = desk.words
    say = desk.say
    return join(" · ", (
        _("in the picture: {prop}", prop=say.thing(lamp.prop)) if lamp.prop else _("in the picture"),
        _("bulb {bulb}", bulb=say.thing(lamp.bulb)) if lamp.bulb else "",
        _practical_colour(desk, setup, lamp) if measured else say.tint(bulb_seen(desk, setup, lamp), _white(setup)),
        _("level {level}", level=say.value("percent", lamp.level)) if lamp.level is not None else "",
        supply(desk, setup, lamp) if lamp.circuit else "",
        effect_words(desk, lamp.effect.flashes, lamp.effect.flickers) if lamp.effect else "", *lamp.note,
        *(lamp.effect.note if lamp.effect else ()),
    ))  # fmt: skip


def bulb_seen(desk: Desk, setup: Setup, lamp: Practical) -> float | None:
    """The colour a lamp in the picture has: as it is set, else its bulb's or its own."""
    tone = next((t for t in tones(desk.shoot.plan, setup) if t.path == lamp.path), None)
    return (tone.seen() if tone is not None else None) or lamp.colour


def _practical_colour(desk: Desk, setup: Setup, lamp: Practical) -> str:
    kelvin = bulb_seen(desk, setup, lamp)
    shift = desk.say.against_white(kelvin, _white(setup))
    colour = desk.say.value("kelvin", kelvin)
    return f"{colour} ({shift})" if colour and shift else colour


def _white(setup: Setup) -> float | None:
    return setup.camera.white_balance if setup.camera else None


def changed_words(desk: Desk, keys: tuple[str, ...]) -> str:
    """What is set anew on a lamp that stays where it is."""
    _ = desk.words
    names = {
        "with_": _("what is on it"), "during": _("when it is held"), "aim": _("aim"), "colour": _("colour"),
        "level": _("level"), "circuit": _("supply"), "battery": _("supply"), "bounce": _("bounce"),
        "effect": _("effect"),
    }  # fmt: skip
    return ", ".join(dict.fromkeys(names[key] for key in keys if key in names))
