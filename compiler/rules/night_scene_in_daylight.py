"""A night scene is shot while daylight comes in through a window, or outside before dark.

On set: the window glows blue in the back of the picture, and black cloth is looked for that nobody brought.

How it is decided: a scene whose heading says NIGHT, in a setup outdoors or with a window that is left open, needs the
sun's centre below -6 deg (civil limit, Almanac for Computers 1990, US Naval Observatory), or the plan's own
'dark-at:'. The sky is then still blue, and black from -12 deg on (nautical limit): that hour is said too. With an
agreed order each setup is held against its hour; without one, only a day that ends before dark is an error. Layers on
a window count as treatment here.

Fix: black the window out, tent it, or shoot the setup after the hour named.

When to accept it: the window is out of the picture and its light is wanted, or day is made night in post.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from ..facts import exposure, sky
from ..findings import Finding, NotChecked, Related
from ..record import replace
from . import sunny
from .physics import Case, causes, stops
from .words import clock

if TYPE_CHECKING:
    from ..facts import Facts
    from ..plan.setup import Setup

RULE = "night-scene-in-daylight"
SEVERITY: Final = "error"
TITLE = "a night scene is shot before dark past an untreated window"

TRIGGERS = """
hotset: 1
days: {1: {date: 2026-11-14, call: 08:00, wrap: 16:30, location: landing}}
locations:
  landing:
    at: '55.01 N, 1.44 W'
    zone: Europe/London
    sets:
      office:
        size: 4.2 m x 3.6 m x 2.4 m
        windows: {hatch: {wall: east, from: 1.1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}}
stock: {black-cloth: {opaque: true, roll: 3 m x 12 m}}
setups: {office-wide: {set: office}}  # <- here
scenes: {4: {heading: INT. TICKET OFFICE - NIGHT, shots: {4A: {setup: office-wide}}}}
"""
PASSES = TRIGGERS.replace("{set: office}", "{set: office, windows: {hatch: {black-out: black-cloth}}}")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    cases: list[Case[Finding]] = []
    for item in _each(facts):
        if isinstance(item, NotChecked):
            yield item
        else:
            cases.append(item)
    for cause in causes(facts.plan, cases):
        found = cause.worst.what
        yield replace(found, sentence=found.sentence + cause.also)


def _each(facts: Facts) -> Iterator[Case[Finding] | NotChecked]:
    """Every setup by itself; the first of those that have it from one place speaks for the others."""
    plan = facts.plan
    for rank, setup in enumerate(plan.setups.values()):
        scene = night_scene(facts, setup)
        bare = _bare(facts, setup)
        if scene is None or not bare or setup.needs == "dark":
            continue
        day_id, place = plan.day_of(setup.id), plan.location_of(setup.id)
        if day_id is None or place is None:
            yield NotChecked(RULE, f"setup '{setup.id}'", "the day of the setup")
            continue
        lacks = sky.missing(plan, day_id, place.id)
        if lacks:
            yield NotChecked(RULE, f"setup '{setup.id}'", lacks)
            continue
        for item in _when(facts, setup, scene, bare, day_id, place.id):
            said = _said(facts, setup, bare)
            yield item if isinstance(item, NotChecked) else Case(said, setup.id, -rank, item)


def _said(facts: Facts, setup: Setup, bare: list[str]) -> str:
    """The path of what leaves the window bare: its treatment where one is written, else the setup, or the one of this
    set that it is like and that is as bare."""
    for key, treatment in setup.windows.items():
        if treatment.id.rsplit("/", 1)[-1] in bare:
            return f"{setup.path}.windows.{key}"
    plan, seen = facts.plan, {setup.id}
    while setup.like in plan.setups and setup.like not in seen:
        parent = plan.setups[setup.like or ""]
        if parent.set != setup.set or _bare(facts, parent) != bare:
            break
        seen.add(parent.id)
        setup = parent
    return setup.path


def _when(
    facts: Facts, setup: Setup, scene: str, bare: list[str], day_id: str, place_id: str
) -> Iterator[Finding | NotChecked]:
    plan, day = facts.plan, facts.plan.days[day_id]
    over = sky.sky(plan, day_id, place_id)
    dark = sky.when(plan, day_id, place_id, "dark") or ()
    rolling = facts.rolling(setup.id)
    if rolling is None:
        call, wrap = day.call, day.wrap
        if call is None or wrap is None or any(a < wrap and b > call for a, b in dark):
            if not facts.agreed(day_id):
                yield NotChecked(RULE, f"setup '{setup.id}'", f"an agreed order of day {day_id}")
            return
        start, end = int(call), int(wrap)
        when = f"day {day_id} ends at {clock(end)}"
    else:
        start, end = rolling
        if any(a <= start and end <= b for a, b in dark):
            return
        when = f"it rolls from {clock(start)} to {clock(end)}"
    at = over.dark_from if over else None
    hour = f"dark from {clock(at)}{sunny.blue(facts, setup)}" if at is not None else "it does not get dark that day"
    subject = " and ".join(f"'{w}'" for w in bare) if bare != [""] else ""
    what = f"past {subject}, which nothing covers" if subject else "under the open sky"
    ways = [f"black out or tent {subject}"] if subject else []
    if at is not None:
        ways.append(f"shoot it after {clock(at)}")
    ways += _measured(facts, setup, bare, day_id, place_id)
    yield Finding(
        RULE,
        SEVERITY,
        f"'{setup.id}' shoots night scene '{scene}' {what}: {when}, {hour}",
        plan.where(setup.path),
        related=tuple(Related(plan.where(plan.windows[f"{setup.set}/{w}"].path), "this window") for w in bare if w),
        ways_out=tuple(ways) or ("shoot it as a day scene",),
        details=(
            ("setup", setup.id),
            ("scene", scene),
            ("dark_from", "" if at is None else clock(at)),
            ("rolls_from", clock(start)),
            ("rolls_to", clock(end)),
        ),
    )


def _measured(facts: Facts, setup: Setup, bare: list[str], day_id: str, place_id: str) -> list[str]:
    """What the exposure says beside the civil hour, where the camera's is known: what a window must lose, and from
    when it is dark enough as it is."""
    from ..facts import daylight, night

    plan, key = facts.plan, exposure.wanted(facts.plan, setup)
    if key is None or bare == [""]:
        return []
    found: list[str] = []
    for name in bare:
        window = plan.windows[f"{setup.set}/{name}"]
        spans, _ = daylight.times(facts, setup)
        looks = [
            night.over_grey(plan, setup, window, h, key) for h in daylight.hours(plan, setup, day_id, place_id, spans)
        ]
        bright = max((x for x in looks if x is not None), default=None)
        if bright is None:
            continue
        late = night.dark_enough(plan, setup, window, day_id, place_id, key)
        hour = f", which it does by itself from {clock(late)} on" if late else ""
        found.append(
            f"or take {stops(night.to_lose(bright))} off '{name}' with layers: it then looks {night.UNDER:g} stops "
            f"under the key's grey{hour}"
        )
    return found


def night_scene(facts: Facts, setup: Setup) -> str | None:
    """The first night scene that this setup serves."""
    for shot in facts.plan.shots_of(setup.id):
        scene = facts.plan.scenes[facts.plan.scene_of[shot.id]]
        if "NIGHT" in (scene.heading or "").upper():
            return scene.id
    return None


def _bare(facts: Facts, setup: Setup) -> list[str]:
    """Windows of the setup's set that nothing covers, by their short names; [""] for the open sky."""
    room = facts.plan.set_of(setup.id)
    if room is None:
        return []
    if room.outdoors:
        return [""]
    covered = {t.id for t in setup.windows.values() if not t.open}
    return [w.id.rsplit("/", 1)[-1] for w in room.windows.values() if w.id not in covered]
