"""A lamp pulses, and the shutter cuts its pulses unevenly: bands or flicker in the picture.

On set: nobody sees it by eye, and dark bars crawl through every picture.

How it is decided: every lamp, practical and screen that says its 'flicker:' in hertz. At twice the mains frequency (100
or 120 Hz: fluorescent tubes, most bulbs of the house) a shutter time of whole half periods is clean, t = n / (2 mains),
and so is a frame rate that divides it; what is left otherwise is sin(x) / x with x = pi f t. A screen or monitor (any
other rate below 200 Hz) pulses always, a dimmer (a higher rate) while its lamp is below full: t = n / f is clean, and
what is left otherwise is at most 2 / (pi f t). More than 2 % is said (common practice, no source). A lamp that says
'none' is clean. Source: arithmetic of the integral over the shutter.

Fix: set the shutter named, change the frame rate or the screen's, or take the lamp to full and a grey filter before it.

When to accept it: a test with this lamp, this level and this shutter was clean.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..findings import NotChecked
from .physics import Case, causes
from .words import finding

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding
    from ..plan.gear import Gear
    from ..plan.light import Light, Practical
    from ..plan.setup import Setup

    Met = tuple[Gear, float, float, float, float, bool]

RULE = "flicker-band"
SEVERITY: Final = "warning"
TITLE = "a lamp's pulses make bands with this shutter"

TRIGGERS = """
hotset: 1
locations: {landing: {mains: 230 V 50 Hz, sets: {hall: {size: 7 m x 5 m x 3 m}}}}
gear: {old-tubes: {kind: light, flicker: 100 Hz}}
setups:
  hall-wide:
    set: hall
    camera: {fps: 24 fps, shutter: 180 deg}
    lights:
      ceiling: {lamp: old-tubes}  # <- here
"""
PASSES = TRIGGERS.replace("shutter: 180 deg", "shutter: 172.8 deg").replace("  # <- here", "")
_SEEN = 0.02
_SCREENS = 200.0  # Hz; below this it is a screen or a tube, above it a dimmer; common practice, no source
_PULSING = ("tube", "fluorescent", "neon", "monitor", "screen", "television", " tv", "tv-")


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    plan = facts.plan
    cases: list[Case[Met]] = []
    for setup in plan.setups.values():
        items: list[Light | Practical] = [*setup.lights.values(), *setup.practicals.values()]
        for item in items:
            lamp = _lamp(facts, item)
            if lamp is None or (lamp.flicker or "").strip().lower() == "none":
                continue
            if lamp.flicker is None:
                if lamp.kind == "light" or _may_pulse(lamp):
                    yield NotChecked(RULE, f"'{lamp.id}'", f"'flicker:' of '{lamp.id}' (1200 Hz, or none)")
                continue
            rate = _hertz(lamp.flicker)
            speeds = _speeds(facts, setup)
            if rate is None or not speeds:
                wants = "'fps:' and 'shutter:' of the camera" if rate else f"'flicker:' of '{lamp.id}' in Hz, or none"
                yield NotChecked(RULE, f"'{item.id}' in setup '{setup.id}'", wants)
                continue
            dimmed = item.level is not None and item.level < 1.0
            for fps, time in speeds:
                left = _left(rate, fps, time, dimmed, _mains(facts, setup))
                if left > _SEEN:
                    cases.append(Case(item.path, setup.id, left, (lamp, rate, fps, time, left, dimmed)))
    for cause in causes(plan, cases):
        yield _finding(facts, cause.worst, cause.also)


def _lamp(facts: Facts, item: Light | Practical) -> Gear | None:
    names = list(getattr(item, "lamp", ())) or [getattr(item, "bulb", None), getattr(item, "prop", None)]
    gear = [facts.plan.gear[n] for n in names if n in facts.plan.gear]
    return next((g for g in gear if g.flicker is not None), gear[0] if gear else None)


def _hertz(text: str) -> float | None:
    from ..source.quantities import QuantityError, parse

    try:
        return float(parse("frequency", text))
    except QuantityError:
        return None


def _mains(facts: Facts, setup: Setup) -> float | None:
    place = facts.plan.location_of(setup.id)
    return float(place.mains.hertz) if place is not None and place.mains is not None else None


def _speeds(facts: Facts, setup: Setup) -> list[tuple[float, float]]:
    """Frame rate and shutter time of the setup and of its shots that run at another rate."""
    camera = setup.camera
    if camera is None or camera.shutter is None:
        return []
    rates = {float(s.fps) if s.fps is not None else float(camera.fps or 0.0) for s in facts.shots_of.get(setup.id, ())}
    found = []
    for fps in sorted(rates or {float(camera.fps or 0.0)}):
        if fps > 0:
            shut = camera.shutter
            found.append(
                (fps, float(shut.seconds) if shut.seconds is not None else float(shut.degrees or 0) / 360 / fps)
            )
    return [(fps, time) for fps, time in found if time > 0]


def _left(rate: float, fps: float, time: float, dimmed: bool, mains: float | None) -> float:
    """Part of the mean by which the exposure varies."""
    from ..science import flicker

    half = rate / 2.0
    if _of_mains(rate, mains):
        return 0.0 if flicker.is_clean(time, fps, half) else flicker.ripple(time, rate)
    pulses = rate * time
    steady = rate >= _SCREENS and not dimmed
    if steady or (abs(pulses - round(pulses)) < 1e-3 and pulses > 0.5):
        return 0.0
    return min(1.0, flicker.narrow_pulse_bound(time, rate))


def _may_pulse(thing: Gear) -> bool:
    """Whether something that is no lamp is a tube or a screen by its name."""
    words = f"{thing.id} {thing.of or ''}".lower()
    return any(word in words for word in _PULSING)


def _of_mains(rate: float, mains: float | None) -> bool:
    """Whether a lamp pulses with the mains, dimmed or not."""
    return rate in (100.0, 120.0) if mains is None else abs(rate - 2.0 * mains) < 0.5


def _finding(facts: Facts, case: Case[Met], also: str) -> Finding:
    from ..science import flicker

    plan = facts.plan
    lamp, rate, fps, time, left, dimmed = case.what
    mains = _of_mains(rate, _mains(facts, plan.setups[case.who]))
    ways = []
    screen = not mains and rate < _SCREENS
    if mains:
        clean = flicker.nearest_clean(time, fps, rate / 2.0)
        if clean is not None:
            ways.append(f"set the shutter to {clean.angle:.1f} deg (1/{1 / clean.time:g} s)")
    else:
        ways += [] if screen else ["take it to full, and a grey filter or distance instead of the dimmer"]
        pulses = max(1, round(rate * time))
        angle = 360.0 * fps * pulses / rate
        if angle <= 360.0 + 1e-9:
            whole = "one whole pulse" if pulses == 1 else f"{pulses} whole pulses"
            ways.append(f"{'or ' if ways else ''}set the shutter to {angle:.1f} deg, which holds {whole}")
    if screen:
        ways.append(f"{'or ' if ways else ''}set the screen to {_beside(fps):g} Hz, or show it a still and light it")
    else:
        ways.append(f"{'or ' if ways else ''}take a lamp whose 'flicker:' is none")
    how = "pulses with the mains at" if mains else "is drawn anew at" if screen else "is dimmed by pulses at"
    return finding(
        plan,
        (RULE, SEVERITY),
        case.path,
        f"'{lamp.id}' {how} {rate:g} Hz, and {fps:g} fps with the shutter open {_time(time)} in '{case.who}' lets the "
        f"picture vary by up to {left * 100:.2g} %{also}",
        tuple(ways),
        (
            ("setup", case.who),
            ("lamp", lamp.id),
            ("hertz", rate),
            ("fps", fps),
            ("shutter_s", round(time, 6)),
            ("variation", round(left, 4)),
            ("dimmed", "yes" if dimmed else "no"),
        ),
        also=[(f"{lamp.path}.flicker", "the lamp")],
        typical=("a variation of 2 % is seen",),
    )


def _beside(fps: float) -> float:
    """A rate for a screen that goes with a frame rate: the least whole multiple a screen usually has."""
    return fps * max(1, round(48.0 / fps))


def _time(seconds: float) -> str:
    below = 1.0 / seconds
    return f"1/{below:.0f} s" if abs(below - round(below)) < 0.02 * below else f"{seconds:.4g} s"
