"""Flicker and flashes: shutters that hold whole light pulses, ripple that is left, and the limit for flashing light.

Mains lamps pulse at twice the mains frequency; a shutter time of a whole number of pulses is clean. Seconds, hertz,
degrees.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import floor, pi, sin
from typing import NamedTuple

#: More flashes than this in any one second are above WCAG 2.x success criterion 2.3.1 (three flashes or below
#: threshold).
FLASHES_A_SECOND = 3

#: Shutter angles within this of a clean one pass, degrees.
TOLERANCE = 0.05


class Shutter(NamedTuple):
    """A clean shutter: whole pulses, time in seconds, angle in degrees at the frame rate."""

    pulses: int
    time: float
    angle: float


def shutter_time(angle: float, fps: float) -> float:
    """Seconds a shutter of an angle is open: angle / (360 fps)."""
    return angle / (360.0 * fps)


def shutter_angle(time: float, fps: float) -> float:
    """Degrees of a shutter time: 360 fps t."""
    return 360.0 * fps * time


def clean_shutters(fps: float, mains: float) -> list[Shutter]:
    """Every shutter up to 360 degrees that holds whole pulses of mains lamps: t = n / (2 mains)."""
    pulse = 2.0 * mains
    count = floor(pulse / fps + TOLERANCE / 360.0)
    return [Shutter(n, n / pulse, 360.0 * fps * n / pulse) for n in range(1, count + 1)]


def locked(fps: float, mains: float) -> bool:
    """Whether the frame rate divides the pulse rate: every frame then gets the same light under any shutter."""
    frames = 2.0 * mains / fps
    return abs(frames - round(frames)) < 1e-9 and frames >= 1.0


def is_clean(time: float, fps: float, mains: float) -> bool:
    """Whether a shutter time holds whole pulses to the tolerance, or the frame rate is locked to the mains."""
    return locked(fps, mains) or any(
        abs(shutter_angle(time, fps) - clean.angle) <= TOLERANCE for clean in clean_shutters(fps, mains)
    )


def nearest_clean(time: float, fps: float, mains: float) -> Shutter | None:
    """The clean shutter nearest to a time; None where the frame rate allows none (above the pulse rate)."""
    return min(clean_shutters(fps, mains), key=lambda clean: abs(clean.time - time), default=None)


def ripple(time: float, pulse_rate: float, depth: float = 1.0) -> float:
    """Variation of exposure (part of the mean) left by a lamp whose light swings as a sine of a depth (0 to 1).

    depth |sin(pi f t) / (pi f t)|; 0 for whole pulses.
    """
    phase = pi * pulse_rate * time
    return depth if phase == 0.0 else depth * abs(sin(phase) / phase)


def narrow_pulse_bound(time: float, pulse_rate: float) -> float:
    """Bound of the variation left by narrow pulses (dimming by switching): 2 / (pi f t), at most 2."""
    return min(2.0, 2.0 / (pi * pulse_rate * time))


def pulse_rate_for(time: float, variation: float = 0.01) -> float:
    """Pulse rate (Hz) from which narrow pulses stay under a variation at a shutter time."""
    return 2.0 / (pi * variation * time)


def too_many_flashes(rate: float) -> bool:
    """Whether a steady rate of flashes a second is above the limit for people with photosensitive epilepsy."""
    return rate > FLASHES_A_SECOND


def most_in_a_second(times: Sequence[float]) -> int:
    """The most flashes that begin within any one second (its end not counted)."""
    ordered = sorted(times)
    best = start = 0
    for end, time in enumerate(ordered):
        while time - ordered[start] >= 1.0:
            start += 1
        best = max(best, end - start + 1)
    return best
