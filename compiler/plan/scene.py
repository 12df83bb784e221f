"""The nouns of scene: what a plan says, decoded. Keys and their meaning stand in schemas/nouns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import field, record

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Literal

    from .location import Paper
    from .units import FramesPerSecond, Metres, Seconds


@record
class Scene:
    """A scene of the script."""

    id: str = ""
    path: str = ""
    heading: str | None = None
    synopsis: str | None = None
    characters: tuple[str, ...] = ()
    story_day: str | None = None
    look: str | None = None
    sound: Literal["sync", "mos"] | None = None
    dressing: tuple[str, ...] = ()
    props: tuple[str, ...] = ()
    wardrobe: Mapping[str, str] = field(default_factory=dict)
    make_up: Mapping[str, str] = field(default_factory=dict)
    effects: tuple[str, ...] = ()
    rights: Mapping[str, Paper] = field(default_factory=dict)
    pages: int | None = None
    shots: Mapping[str, Shot] = field(default_factory=dict)
    note: tuple[str, ...] = ()


@record
class Shot:
    """One shot."""

    id: str = ""
    path: str = ""
    size: (
        Literal["EWS", "WS", "FS", "MWS", "MS", "MCU", "CU", "BCU", "ECU", "OTS", "two-shot", "POV", "insert"] | None
    ) = None
    angle: str | None = None
    move: str | None = None
    does: str | None = None
    setup: str | None = None
    of: str | None = None
    marks: tuple[str, ...] = ()
    lens: str | None = None
    zoom: Metres | None = None
    filters: tuple[str, ...] = ()
    fps: FramesPerSecond | None = None
    frame: Metres | None = None
    takes: Seconds | None = None
    rolls: Seconds | None = None
    count: int | None = None
    priority: Literal["must", "want", "if-time"] | None = None
    references: tuple[str, ...] = ()
    cast: tuple[tuple[str, str], ...] | None = None
    sound: Literal["sync", "mos", "wild"] | None = None
    vfx: str | None = None
    improvises: Seconds | None = None
    after: tuple[str, ...] = ()
    before: tuple[str, ...] = ()
    hands: Mapping[str, str] = field(default_factory=dict)
    plan_b: str | None = None
    note: tuple[str, ...] = ()
