"""Which shutters are clean under lamps that pulse, and what is left of the pulses under one that is not."""

from __future__ import annotations

from ..science import flicker
from .answer import Answer, Ask, Given, Line, Refused

HELP = "Which shutters are clean under pulsing lamps and screens, and what is left."
ASKS = (
    Ask("fps", "fps", "frame rate", "24 fps", needed=True, above_zero=True),
    Ask("mains", "frequency", "frequency of the mains: the lamps pulse at twice it", "50 Hz", above_zero=True),
    Ask("pulses", "frequency", "pulses of a screen or a dimmer, as it says them", "60 Hz", above_zero=True),
    Ask("shutter", "shutter", "the shutter that is set", "180 deg"),
    Ask("flashes", "rate", "flashes of an effect", "4 per s"),
)
EXAMPLES = (
    'hotset ask flicker --fps "24 fps" --mains "50 Hz" --shutter "180 deg"',
    'hotset ask flicker --fps "25 fps" --pulses "60 Hz" --shutter "1/50 s"',
)
_SEEN = 0.02
_MOST = 4


def answer(given: Given) -> Answer:
    """Clean shutters; with a shutter whether it is one, and how much the light varies; flashes against the limit."""
    fps = float(given["fps"])
    if "mains" not in given and "pulses" not in given:
        raise Refused("what pulses? add '--mains', such as '50 Hz', or '--pulses' of the lamp, such as '60 Hz'")
    rate = float(given["pulses"]) if "pulses" in given else 2.0 * float(given["mains"])
    clean = flicker.clean_shutters(fps, rate / 2.0)
    shown = sorted(clean, key=lambda one: abs(one.angle - 180.0))[:_MOST]
    said = ", ".join(f"{one.angle:.1f} deg (1/{1.0 / one.time:.4g} s)" for one in sorted(shown))
    more = f", and {len(clean) - len(shown)} more" if len(clean) > len(shown) else ""
    found = [
        Line("pulses", f"{rate:g} a second", rate),
        Line("clean shutters", said + more if clean else "none: the frame is shorter than a pulse", len(clean)),
    ]
    if "pulses" not in given and flicker.locked(fps, rate / 2.0):
        found.append(Line("frame rate", "divides the pulses: every shutter gives even frames", "locked"))
    if "shutter" in given:
        found.append(_left(given, fps, rate, "pulses" in given))
    if "flashes" in given:
        flashes = float(given["flashes"])
        over = flicker.too_many_flashes(flashes)
        words = "more than 3 in a second: warn everybody, or slow it down" if over else "3 in a second or less"
        found.append(Line("flashes", words, "yes" if over else "no"))
    notes = [
        "a variation of 2 % is seen: common practice, no source",
        "a test with these lamps and this camera decides",
    ]
    notes += ["below the limit of flashes nobody is proven safe"] if "flashes" in given else []
    return Answer(
        given.echo(),
        tuple(found),
        "clean: t = n / f, f = 2 x mains; else |sin x / x|, x = pi f t; narrow pulses at most 2 / (pi f t)",
        "arithmetic of the integral over the shutter; flashes: WCAG 2.2, success criterion 2.3.1",
        tuple(notes),
    )


def _left(given: Given, fps: float, rate: float, narrow: bool) -> Line:
    shutter = given["shutter"]
    time = float(shutter.seconds) if shutter.seconds is not None else flicker.shutter_time(float(shutter.degrees), fps)
    if time > 1.0 / fps + 1e-9:
        raise Refused(f"the shutter is open longer than a frame of {fps:g} fps lasts, 1/{fps:g} s")
    pulses = rate * time
    whole = abs(pulses - round(pulses)) < 1e-3 and round(pulses) > 0
    even = whole or (not narrow and flicker.is_clean(time, fps, rate / 2.0))
    if even:
        return Line("this shutter", "clean", 0.0)
    left = min(1.0, flicker.narrow_pulse_bound(time, rate)) if narrow else flicker.ripple(time, rate)
    seen = "bands or flicker are likely" if left > _SEEN else "hardly seen"
    return Line("this shutter", f"varies by up to {left * 100:.2g} %: {seen}", round(left, 4))
