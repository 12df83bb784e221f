"""Lamps, practicals and grip of a setup as a plan of the set draws them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Literal

from ...facts import places
from ...facts.colours import Tone, tones
from ...record import replace
from ...source.quantities import Around
from ..say import Say, plain
from .scene import Footprint, Form, Ghost, Label, Lamp, Line, LineKind, Practical, State
from .shapes import Point, around, between, clip_to_box, contains, direction, distance, unit

if TYPE_CHECKING:
    from ...plan import Plan
    from ...plan.light import Grip, Light
    from ...plan.setup import Setup

Treated = Literal["bare", "black-out", "tent", "layers"]
FARTHEST = 1.8  # metres outside the walls up to which a lamp is drawn at its true place


def lamp_numbers(plan: Plan, room: str | None) -> dict[str, str]:
    """A number for each lamp of a set by the name setups call it, the same in all setups of that set."""
    numbers: dict[str, str] = {}
    for setup in plan.setups.values():
        if setup.set == room:
            for name in setup.lights:
                numbers.setdefault(name, str(len(numbers) + 1))
    return numbers


def lamps(
    plan: Plan, setup: Setup, say: Say, before: Setup | None, numbers: Mapping[str, str], missing: list[str]
) -> tuple[tuple[Lamp, ...], tuple[Line, ...]]:
    """The lamps with a place, those that go out since `before`, and the boards that lamps are bounced off."""
    _ = say.words
    found: list[Lamp] = []
    boards: list[Line] = []
    known = before if before is not None and before.set == setup.set else None
    seen = _tones(plan, setup)
    for name, light in setup.lights.items():
        at = places.light_xy(plan, setup, light)
        number = numbers.get(name, "?")
        if at is None:
            missing.append(_("lamp {number} {name}: say where it stands with 'at:'", number=number, name=plain(name)))
            continue
        aim = _aim(plan, setup, light, at, boards, say)
        state: State = "" if known is None else "keep" if name in known.lights else "new"
        changed = known is not None and name in known.lights and _differs(known.lights[name], light)
        form, width = _form(plan, light)
        label = lamp_label(name, light, say, colour_words(seen.get(light.path), light.colour, say), changed)
        held = light.held_by is not None
        found.append(Lamp(number, at, aim, _beam(plan, light), form, width, label, held, state))
    for name, light in known.lights.items() if known else ():
        at = places.light_xy(plan, known, light) if known else None
        if name not in setup.lights and at is not None:
            form, _width = _form(plan, light)
            out: Label = ((_("{name}: out", name=plain(name)),),)
            found.append(Lamp(numbers.get(name, "?"), at, None, None, form, 0.0, out, False, "remove"))
    return tuple(found), tuple(boards)


def ghosts(plan: Plan, setup: Setup, before: Setup | None, numbers: Mapping[str, str]) -> list[Ghost]:
    """Where the camera, the lamps, the grip and the practicals that are moved stood in the setup before, in the same
    set."""
    if before is None or before.set != setup.set:
        return []
    found: list[Ghost] = []
    old, new = (places.spot(plan, s, s.camera.at) if s.camera else None for s in (before, setup))
    if old is not None and new is not None:
        found.append(Ghost(old, new))
    for name, light in setup.lights.items():
        former = before.lights.get(name)
        at, to = places.light_xy(plan, before, former) if former else None, places.light_xy(plan, setup, light)
        if at is not None and to is not None:
            found.append(Ghost(at, to, numbers.get(name, "?")))
    for now, then in ((setup.grip, before.grip), (setup.practicals, before.practicals)):
        for name in now:
            there = places.thing(plan, before, then[name]) if name in then else None
            here = places.thing(plan, setup, now[name])
            if there is not None and here is not None:
                found.append(Ghost(there[:2], here[:2]))
    return found


def _differs(old: Light, new: Light) -> bool:
    """True when the plan says something else of the lamp than before; notes do not count."""
    return _said(old) != _said(new)


def _said(value: object) -> object:
    """What a noun says, without where in the plan it says it."""
    names: tuple[str, ...] | None = getattr(type(value), "__match_args__", None)
    if not names:
        return value
    return [(name, _said(getattr(value, name))) for name in names if name not in ("id", "path", "note")]


def _tones(plan: Plan, setup: Setup) -> dict[str, Tone]:
    """The colour of each lamp and practical by its path in the plan."""
    return {tone.path: tone for tone in tones(plan, setup)}


def colour_words(tone: Tone | None, said: float | None, say: Say) -> str:
    """The colour that leaves a lamp: as it is set or as the bulb has it, and what its gels make of it."""
    _ = say.words
    base = (tone.set_to() if tone is not None else None) or said
    own = say.value("kelvin", base)
    if tone is None or not own or not (tone.shift or tone.silent):
        return own
    seen = tone.seen()
    if seen is None:
        return _("{colour} before its gel", colour=own)
    behind = say.value("kelvin", round(seen, -1))
    return own if behind == own else _("{colour}, {seen} with its gel", colour=own, seen=behind)


def lamp_label(name: str, light: Light, say: Say, colour: str, changed: bool = False) -> Label:
    """Role and fixture, modifiers, level with colour and height, circuit; shorter forms after it."""
    _ = say.words
    fixture = _(" or ").join(say.thing(lamp) for lamp in light.lamp)
    role = plain(light.role) if light.role else plain(name)
    head = f"{role} · {_('changed')}" if changed else role
    height = _("{height} high", height=say.value("length", light.height)) if light.height is not None else ""
    numbers = _dots(say.value("percent", light.level), colour, height)
    effect = ""
    if light.effect and light.effect.flashes is not None:
        effect = _("flashes {rate}", rate=say.value("rate", light.effect.flashes))
    elif light.effect and light.effect.flickers is not None:
        effect = _("flickers {rate}", rate=say.value("rate", light.effect.flickers))
    held = _("held by {who}", who=say.person(light.held_by)) if light.held_by else ""
    if light.held_by == "any":
        held = _("held by any free hand")
    battery = _("battery") if light.battery else ""
    power = say.circuit(light.circuit) or battery
    full = _lines(head, _dots(fixture, say.things(light.with_)), numbers, _dots(effect, held), power)
    middle = _lines(head, numbers, _dots(effect, held))
    return full, middle, (head,)


def _dots(*parts: str) -> str:
    return " · ".join(part for part in parts if part)


def _lines(*lines: str) -> tuple[str, ...]:
    return tuple(line for line in lines if line)


def _aim(plan: Plan, setup: Setup, light: Light, at: Point, boards: list[Line], say: Say) -> Point | None:
    """What the lamp itself points at: its board where it is bounced, else its aim."""
    target = places.spot(plan, setup, light.aim.at) if light.aim else None
    if light.bounce is None:
        return target
    board = places.spot(plan, setup, light.bounce.at)
    if board is None and target is not None and distance(at, target) > 1e-6:
        board = between(at, target, 1.0 + 1.0 / distance(at, target))
    if board is None:
        return target
    thing = plan.gear.get(light.bounce.use or "")
    wide = float(thing.size[0]) if thing and thing.size else 1.0
    facing = direction(board, at)
    boards.append(Line("bounce", _across(board, facing, wide), ((say.thing(light.bounce.use or "bounce"),),)))
    return board


def _across(middle: Point, facing: float, wide: float) -> tuple[Point, Point]:
    """The ends of a line of a width that faces a direction."""
    u = unit(facing + 90.0)
    half = wide / 2
    return (middle[0] - u[0] * half, middle[1] - u[1] * half), (middle[0] + u[0] * half, middle[1] + u[1] * half)


def _form(plan: Plan, light: Light) -> tuple[Form, float]:
    """The shape a lamp is drawn in, and the width of its bright face in metres (0 when not said)."""
    for name in (*reversed(light.with_), *light.lamp[:1]):
        thing = plan.gear.get(name)
        if thing is not None and thing.soft:
            return "soft", max(float(side) for side in thing.soft)
    lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
    if lamp is not None and lamp.size:
        sides = sorted((float(side) for side in lamp.size), reverse=True)
        if len(sides) > 1 and sides[1] > 0 and sides[0] / sides[1] >= 4:
            return "tube", sides[0]
    return "hard", 0.0


def _beam(plan: Plan, light: Light) -> float | None:
    """The widest beam in degrees: the outermost modifier's that makes one, else the lamp's own."""
    for name in reversed(light.with_):
        thing = plan.gear.get(name)
        if thing is not None and thing.makes is not None:
            return float(thing.makes)
    lamp = plan.gear.get(light.lamp[0]) if light.lamp else None
    return float(lamp.beam.hi) if lamp is not None and lamp.beam is not None else None


def nearer(lamp: Lamp, outline: tuple[Point, ...], say: Say) -> Lamp:
    """The lamp, drawn nearer where it stands so far outside that the drawing would shrink; its label says so."""
    _ = say.words
    box = around(outline, FARTHEST)
    if contains(((box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3])), lamp.at):
        return lamp
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    cut = clip_to_box((lamp.at, middle), around(outline, FARTHEST * 0.8))
    if cut is None:
        return lamp
    far = say.value("length", round(distance(lamp.at, cut[0]), 1))
    return replace(lamp, at=cut[0], far=_("stands {far} farther off", far=far))


def practicals(plan: Plan, setup: Setup, say: Say, missing: list[str]) -> tuple[Practical, ...]:
    """Lamps in the picture that have a place."""
    _ = say.words
    found: list[Practical] = []
    seen = _tones(plan, setup)
    for name, item in setup.practicals.items():
        at = places.thing(plan, setup, item)
        if at is None:
            missing.append(_("practical {name}: say where it stands with 'at:'", name=plain(name)))
            continue
        said = plain(name)
        bulb = say.thing(item.bulb) if item.bulb else ""
        colour = colour_words(seen.get(item.path), item.colour, say)
        numbers = _dots(bulb, say.value("percent", item.level), colour)
        full = _lines(said, numbers, say.circuit(item.circuit))
        found.append(Practical((at[0], at[1]), (full, (said, numbers) if numbers else (said,), (said,))))
    return tuple(found)


def grip(plan: Plan, setup: Setup, say: Say, missing: list[str]) -> tuple[tuple[Line, ...], tuple[Footprint, ...]]:
    """Flags, cloth, frames and boards as lines; what lies on the ceiling as an area overhead."""
    _ = say.words
    lines: list[Line] = []
    cloths: list[Footprint] = []
    for name, item in setup.grip.items():
        at = places.thing(plan, setup, item)
        thing = plan.gear.get(item.use or "")
        size = item.size or (thing.size if thing else None) or ()
        if at is None or not size:
            missing.append(_("{thing}: say its 'at:' and 'size:'", thing=plain(name)))
            continue
        said = say.thing(item.use) if item.use else plain(name)
        label: Label = ((plain(name), _dots(said, _size(item.size or (), say))), (plain(name),))
        middle = (at[0], at[1])
        if item.on == "ceiling":
            deep = float(size[1]) if len(size) > 1 else float(size[0])
            cloths.append(Footprint(middle, float(size[0]), deep, float(item.turned or 0.0), label, True))
            continue
        facing = _facing(plan, setup, item, middle)
        if facing is None:
            label = ((*label[0], _("which way it faces is not said")), *label[1:])
        lines.append(Line(_grip_kind(plan, item), _across(middle, facing or 0.0, float(size[0])), label))
    return tuple(lines), tuple(cloths)


def _size(size: tuple[float, ...], say: Say) -> str:
    return " x ".join(say.value("length", side) for side in size[:2])


def _facing(plan: Plan, setup: Setup, item: Grip, at: Point) -> float | None:
    """The direction a cloth faces: as turned, towards its aim, or towards the mark it is told from."""
    if item.turned is not None:
        return float(item.turned)
    aim = places.spot(plan, setup, item.aim.at) if item.aim else None
    if aim is None and isinstance(item.at, Around):
        aim = places.named(plan, setup.set or "", item.at.mark)
    return direction(at, aim) if aim is not None and distance(at, aim) > 1e-6 else None


def _grip_kind(plan: Plan, item: Grip) -> LineKind:
    """How a piece of grip is drawn: by what the plan says it does to light, then by its name."""
    stock, thing = plan.stock.get(item.use or ""), plan.gear.get(item.use or "")
    said = f"{item.use or ''} {(thing.of if thing else '') or ''} {(stock.of if stock else '') or ''}".lower()
    if stock is not None and stock.opaque:
        return "negative"
    if (stock is not None and stock.reflects is not None) or any(w in said for w in ("bounce", "board", "reflector")):
        return "bounce"
    if (stock is not None and stock.loses is not None) or (thing is not None and thing.loses is not None):
        return "diffusion"
    return "negative" if "cloth" in said or "negative" in said else "flag"
