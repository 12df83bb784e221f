"""The nouns of setup: what a plan says, decoded. Keys and their meaning stand in schemas/nouns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import field, record

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Literal

    from ..source.quantities import ClockRange, Shutter, Stop
    from .light import Grip, Light, Practical, Treatment
    from .spots import Aim, Spot
    from .units import FramesPerSecond, Kelvin, Metres, Seconds


@record
class Setup:
    """One place of the camera with its light."""

    id: str = ""
    path: str = ""
    like: str | None = None
    remove: tuple[str, ...] = ()
    set: str | None = None
    day: str | None = None
    camera: Camera | None = None
    move: Move | None = None
    lights: Mapping[str, Light] = field(default_factory=dict)
    windows: Mapping[str, Treatment] = field(default_factory=dict)
    practicals: Mapping[str, Practical] = field(default_factory=dict)
    grip: Mapping[str, Grip] = field(default_factory=dict)
    dressing: tuple[str, ...] = ()
    sound: Sound | None = None
    hands: Mapping[str, str] = field(default_factory=dict)
    cast: tuple[tuple[str, str], ...] | None = None
    needs: Literal["dark", "dusk", "golden", "daylight", "sun", "any"] | None = None
    sun_on: tuple[str, ...] = ()
    sun_off: tuple[str, ...] = ()
    between: ClockRange | None = None
    held_until: str | None = None
    key_at: str | None = None
    key_to_fill: float | None = None
    takes: Seconds | None = None
    rig: Seconds | None = None
    after: tuple[str, ...] = ()
    before: tuple[str, ...] = ()
    priority: Literal["must", "want", "if-time"] | None = None
    splits: bool | None = None
    note: tuple[str, ...] = ()


@record
class Camera:
    """The camera of a setup."""

    id: str = ""
    path: str = ""
    body: str | None = None
    lens: str | None = None
    zoom: Metres | None = None
    filters: tuple[str, ...] = ()
    adapters: tuple[str, ...] = ()
    on: str | None = None
    held_by: str | None = None
    at: Spot | None = None
    height: Metres | None = None
    aim: Aim | None = None
    top: Literal["north", "east", "south", "west"] | None = None
    focus: Spot | None = None
    white_balance: Kelvin | None = None
    iso: float | None = None
    stop: Stop | None = None
    shutter: Shutter | None = None
    fps: FramesPerSecond | None = None
    codec: str | None = None
    profile: str | None = None
    media: tuple[str, ...] = ()
    battery: str | None = None
    note: tuple[str, ...] = ()


@record
class Move:
    """A move of the camera; both ends are checked."""

    id: str = ""
    path: str = ""
    kind: Literal["pan", "tilt", "push-in", "pull-out", "slide", "follow", "handheld", "rise", "orbit"] | None = None
    to: Spot | None = None
    height_to: Metres | None = None
    aim_to: Aim | None = None
    zoom_to: Metres | None = None
    note: tuple[str, ...] = ()


@record
class Sound:
    """Sound plan of a setup."""

    id: str = ""
    path: str = ""
    boom: str | None = None
    recorder: str | None = None
    by: str | None = None
    side: str | None = None
    wireless: tuple[str, ...] = ()
    height: Metres | None = None
    note: tuple[str, ...] = ()
