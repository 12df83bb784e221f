"""Faults of gear and stock: each thing taken away, too few of it, or one of its properties wrong."""

from __future__ import annotations

from collections.abc import Iterator

from hotset.facts import occupancy
from hotset.plan.setup import Setup

from .plant import Bed, Fault

SHORT = ("piece-in-two-places", "more-than-owned")


def faults(bed: Bed) -> Iterator[Fault]:
    """All of them, family by family."""
    yield from _gone(bed)
    yield from _too_few(bed)
    yield from _optics(bed)
    yield from _grip_and_power(bed)
    yield from _recording(bed)
    yield from _loans(bed)
    yield from _stock(bed)


def uses(bed: Bed, thing: str) -> tuple[str, ...]:
    """Where setups and shots name a thing."""
    paths = [u.path for mine in bed.facts.uses.values() for u in mine if thing in u.among]
    shots = bed.plan.shots.values()
    paths += [f"{shot.path}.lens" for shot in shots if shot.lens == thing]
    return tuple(paths)


def setups_with(bed: Bed, thing: str) -> list[Setup]:
    """The setups that take a thing."""
    return [bed.plan.setups[name] for name, mine in bed.facts.uses.items() if any(thing in u.among for u in mine)]


def _gone(bed: Bed) -> Iterator[Fault]:
    for gear in bed.plan.gear.values():
        named = uses(bed, gear.id)
        words = f"'{gear.id}' left at home"
        if named:
            yield Fault("a thing is gone", words, bed.without(gear.path), ("unknown-name",), named)
            continue
        if gear.kind == "adapter":
            cameras = [s.camera for s in bed.plan.setups.values() if s.camera and s.camera.filters]
            places = tuple(f"{camera.path}.filters" for camera in cameras)
            rules: tuple[str, ...] = ("filter-thread", "missing-adapter")
        elif gear.kind == "drive":
            yield Fault("details", words, bed.without(gear.path), (), (), "drives")
            continue
        elif gear.kind == "reader":
            rules, places = ("single-copy", "offload-too-slow"), ("post", *_cards(bed))
        elif gear.id in {need for g in bed.plan.gear.values() for need in g.needs}:
            rules, places = ("missing-modifier", "no-sandbag"), tuple(f"{g.path}.needs" for g in bed.plan.gear.values())
        else:
            continue
        yield Fault("a thing is gone", words, bed.without(gear.path), rules, places)


def _cards(bed: Bed) -> tuple[str, ...]:
    cards = [g.path for g in bed.plan.gear.values() if g.kind in ("media", "drive", "reader")]
    return (*cards, *(f"days.{day}" for day in bed.plan.days))


def _at_once(bed: Bed, thing: str) -> int:
    """The most pieces of a thing that are needed at one moment."""
    groups: list[tuple[str, ...]] = [(name,) for name in bed.plan.setups]
    groups += [(m.setup, *m.held) for m in bed.facts.moments]
    return max(sum(u.among == (thing,) for name in names for u in bed.facts.uses[name]) for names in groups)


def _too_few(bed: Bed) -> Iterator[Fault]:
    for gear in bed.plan.gear.values():
        wanted = _at_once(bed, gear.id) if bed.plan.setups else 0
        if wanted > 1 and occupancy.owned(bed.plan, gear.id) >= wanted and not _free(bed, gear.id):
            source = bed.put(f"{gear.path}.quantity", str(wanted - 1))
            yield Fault("too few of a thing", f"{wanted - 1} '{gear.id}'", source, SHORT, uses(bed, gear.id))
        bags = max((sum(bed.plan.gear[u.thing].bags or 0 for u in mine) for mine in bed.facts.uses.values()), default=0)
        if bags > 1 and any(gear.id in other.needs for other in bed.plan.gear.values()):
            source = bed.put(f"{gear.path}.quantity", "1")
            yield Fault("too few of a thing", f"one '{gear.id}'", source, ("no-sandbag",), _everything(bed))


def _free(bed: Bed, thing: str) -> bool:
    """Cards and batteries are changed within a setup: that they run out is another fault."""
    return bed.plan.gear[thing].kind in ("media", "battery")


def _everything(bed: Bed) -> tuple[str, ...]:
    return ("setups", *(g.path for g in bed.plan.gear.values()))


def _optics(bed: Bed) -> Iterator[Fault]:
    for gear in bed.plan.gear.values():
        named = uses(bed, gear.id)
        if not named:
            continue
        if gear.kind == "lens":
            cameras = tuple(s.camera.path for s in setups_with(bed, gear.id) if s.camera) or named
            shots = tuple(s.path for setup in setups_with(bed, gear.id) for s in bed.plan.shots_of(setup.id))
            yield Fault("optics", f"'{gear.id}' with another mount", bed.put(f"{gear.path}.mount", "bayonet-x"),
                        ("missing-adapter",), named)  # fmt: skip
            yield Fault("optics", f"'{gear.id}' cannot focus near", bed.put(f"{gear.path}.closest", "9 m"),
                        ("closer-than-minimum-focus",), (*shots, *named))  # fmt: skip
            yield Fault("optics", f"'{gear.id}' with a small image circle", bed.put(f"{gear.path}.circle", "15 mm"),
                        ("lens-does-not-cover-sensor",), (*cameras, *named))  # fmt: skip
            yield Fault("optics", f"'{gear.id}' is a longer lens", bed.put(f"{gear.path}.focal", "400 mm"),
                        ("framing-differs",), (*shots, *named))  # fmt: skip
            if any(s.camera and s.camera.filters for s in setups_with(bed, gear.id)):
                yield Fault("optics", f"'{gear.id}' with another thread", bed.put(f"{gear.path}.thread", "39 mm"),
                            ("filter-thread",), tuple(f"{path}.filters" for path in cameras))  # fmt: skip
        elif gear.kind == "filter":
            yield Fault("optics", f"'{gear.id}' with another thread", bed.put(f"{gear.path}.thread", "95 mm"),
                        ("filter-thread",), named)  # fmt: skip
            yield Fault("optics", f"'{gear.id}' is a hood", bed.put(f"{gear.path}.thick", "300 mm"),
                        ("filter-in-frame",), named)  # fmt: skip
        elif gear.kind == "adapter" and gear.thick is not None:
            yield Fault("details", f"'{gear.id}' without its thickness", bed.without(f"{gear.path}.thick"), (), (),
                        f"'thick:' of '{gear.id}'")  # fmt: skip
            yield Fault("optics", f"'{gear.id}' too thick", bed.put(f"{gear.path}.thick", "31 mm"),
                        ("missing-adapter",), tuple(f"{s.camera.path}.lens" for s in setups_with(bed, gear.id)
                                                    if s.camera))  # fmt: skip
        elif gear.kind == "camera":
            yield Fault("optics", f"'{gear.id}' with another mount", bed.put(f"{gear.path}.mount", "bayonet-x"),
                        ("missing-adapter",), ("setups", "defaults"))  # fmt: skip


def _grip_and_power(bed: Bed) -> Iterator[Fault]:
    for gear in bed.plan.gear.values():
        named = uses(bed, gear.id)
        if not named:
            continue
        if gear.kind == "support":
            holders = tuple(path.rsplit(".", 1)[0] for path in named)
            yield Fault("grip", f"'{gear.id}' is weak", bed.put(f"{gear.path}.carries", "0.1 kg"),
                        ("support-overloaded",), named)  # fmt: skip
            moving = [s for s in setups_with(bed, gear.id) if s.move and s.camera and s.camera.on == gear.id]
            if moving and gear.moves:
                shots = (s.path for s in bed.plan.shots.values())
                yield Fault("grip", f"'{gear.id}' moves otherwise", bed.put(f"{gear.path}.moves", "rise"),
                            ("no-support",), ("setups", "defaults", *shots))  # fmt: skip
            if gear.reaches is not None:
                cameras = [s.camera.path for s in setups_with(bed, gear.id) if s.camera and s.camera.on == gear.id]
                holders = (*holders, *(f"{path}.height" for path in cameras))
                yield Fault("grip", f"'{gear.id}' is short", bed.put(f"{gear.path}.reaches", "0.1-0.2 m"),
                            ("does-not-fit", "no-support", "support-too-short"), (*named, *holders))  # fmt: skip
        elif gear.kind == "modifier":
            yield Fault("grip", f"'{gear.id}' for another mount", bed.put(f"{gear.path}.fits", "bayonet-x"),
                        ("modifier-does-not-fit",), named)  # fmt: skip
        elif gear.kind == "battery":
            if gear.id not in {g.battery for g in bed.plan.gear.values()}:  # a battery named is taken by its name
                yield Fault("power", f"'{gear.id}' with another plate", bed.put(f"{gear.path}.plate", "plate-x"),
                            ("missing-battery",), ("setups", "defaults"))  # fmt: skip
            yield Fault("power", f"'{gear.id}' nearly empty", bed.put(f"{gear.path}.holds", "1 Wh"),
                        ("battery-flat",), _everything(bed))  # fmt: skip
        elif gear.kind == "light":
            at = tuple(path.rsplit(".", 1)[0] for path in named)
            if gear.draws is not None and any(s.lights for s in setups_with(bed, gear.id)) and _mains(bed, gear.id):
                yield Fault("power", f"'{gear.id}' draws 8 kW", bed.put(f"{gear.path}.draws", "8000 W"),
                            ("circuit-overloaded",), at)  # fmt: skip
            yield Fault("light", f"'{gear.id}' has one other colour", bed.put(f"{gear.path}.colour", "9000 K"),
                        ("colour-out-of-range", "colour-fixed"), at)  # fmt: skip
            keys = [i for s in setups_with(bed, gear.id) if s.key_at for i in s.lights.values() if i.role == "key"]
            if any(gear.id in light.lamp for light in keys):
                yield Fault("light", f"'{gear.id}' is dim", bed.put(f"{gear.path}.gives", "{bare: 0.5 lx at 1 m}"),
                            ("under-exposed",), (*at, "setups"))  # fmt: skip
            yield Fault("light", f"'{gear.id}' flickers", bed.put(f"{gear.path}.flicker", "97 Hz"),
                        ("flicker-band",), (*at, "setups"))  # fmt: skip


def _mains(bed: Bed, thing: str) -> bool:
    lights = [light for s in bed.plan.setups.values() for light in s.lights.values()]
    return any(light.circuit and thing in light.lamp for light in lights)


def _recording(bed: Bed) -> Iterator[Fault]:
    for gear in bed.plan.gear.values():
        places = ("setups", "defaults", "scenes", *_cards(bed))
        if gear.kind == "media":
            yield Fault("data", f"'{gear.id}' is tiny", bed.put(f"{gear.path}.holds", "0.4 GB"),
                        ("cards-full",), places)  # fmt: skip
            yield Fault("data", f"'{gear.id}' is slow", bed.put(f"{gear.path}.writes", "1 MB/s"),
                        ("codec-too-fast-for-card",), places)  # fmt: skip
        elif gear.kind == "drive":
            yield Fault("data", f"one '{gear.id}'", bed.put(f"{gear.path}.quantity", "1"), ("single-copy",), places)
            yield Fault("data", f"'{gear.id}' is slow", bed.put(f"{gear.path}.writes", "1 MB/s"),
                        ("offload-too-slow", "cards-full"), places)  # fmt: skip
        elif gear.kind == "camera" and gear.codecs:
            codec = next(iter(gear.codecs))
            yield Fault("data", f"'{gear.id}' records 9000 Mbit/s",
                        bed.put(f"{gear.path}.codecs.{codec}", "9000 Mbit/s"),
                        ("codec-too-fast-for-card", "cards-full"), places)  # fmt: skip


def _loans(bed: Bed) -> Iterator[Fault]:
    """Every thing that a setup takes alone, lent: due or taken back in the morning, in hands or fetched a day late."""
    for gear in bed.plan.gear.values():
        named = tuple(u.path for mine in bed.facts.uses.values() for u in mine if u.among == (gear.id,))
        dated = [day for day in bed.plan.days.values() if day.date is not None]
        if not named or not dated or gear.plan_b:
            continue
        first, last = dated[0].date, dated[-1].date
        places = (*named, gear.path)
        yield Fault("loans", f"'{gear.id}' due in the morning", bed.put(f"{gear.path}.due", f"{first} 04:00"),
                    ("due-back",), places)  # fmt: skip
        who = next(iter(bed.plan.people), "")
        if who:
            back = f"{{by: {who}, at: {first} 04:00, takes: 30 min}}"
            yield Fault("loans", f"'{gear.id}' taken back in the morning", bed.put(f"{gear.path}.return", back),
                        ("due-back",), places)  # fmt: skip
            here = f"{{by: {who}, at: {last} 22:30, takes: 30 min}}"
            yield Fault("loans", f"'{gear.id}' fetched too late", bed.put(f"{gear.path}.fetch", here),
                        ("not-in-hands-yet",), places)  # fmt: skip
        yield Fault("loans", f"'{gear.id}' in hands too late", bed.put(f"{gear.path}.in-hands", f"{last} 23:00"),
                    ("not-in-hands-yet",), places)  # fmt: skip


def _stock(bed: Bed) -> Iterator[Fault]:
    for stock in bed.plan.stock.values():
        windows = [t for s in bed.plan.setups.values() for t in s.windows.values()]
        treated = [(t.path, (t.black_out, t.tent, *t.layers)) for t in windows]
        named = tuple(path for path, things in treated if stock.id in things)
        named += tuple(g.path for s in bed.plan.setups.values() for g in s.grip.values() if g.use == stock.id)
        lamps = [light for s in bed.plan.setups.values() for light in s.lights.values()]
        gels = tuple(light.path for light in lamps if stock.id in light.with_)
        bulbs = tuple(p.path for s in bed.plan.setups.values() for p in s.practicals.values() if p.bulb == stock.id)
        if named or gels or bulbs:
            yield Fault("stock", f"'{stock.id}' left at home", bed.without(stock.path), ("unknown-name",),
                        (*named, *gels, *bulbs))  # fmt: skip
        if named and stock.roll is not None:
            source = bed.put(f"{stock.path}.roll", "0.3 m x 0.5 m")
            yield Fault("stock", f"'{stock.id}' is a scrap", source, ("cloth-short", "diffusion-short", "gel-short"),
                        (*named, stock.path))  # fmt: skip
        dated = [day.date for day in bed.plan.days.values() if day.date is not None]
        if named and dated:
            yield Fault("loans", f"'{stock.id}' due in the morning", bed.put(f"{stock.path}.due", f"{dated[0]} 04:00"),
                        ("due-back",), (*named, stock.path))  # fmt: skip
