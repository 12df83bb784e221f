"""The nouns of film: what a plan says, decoded. Keys and their meaning stand in schemas/nouns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import field, record

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Literal

    from .day import Day
    from .gear import Gear
    from .light import Light
    from .location import Location
    from .person import Person
    from .scene import Scene, Shot
    from .setup import Camera, Setup
    from .stock import Stock
    from .units import FramesPerSecond, Metres, Seconds


@record
class Film:
    """One shoot plan: the film, its days, places, people, things, scenes and setups."""

    id: str = ""
    path: str = ""
    hotset: int | None = None
    title: str | None = None
    company: str | None = None
    contacts: Mapping[str, str] = field(default_factory=dict)
    synopsis: str | None = None
    look: Look | None = None
    aspect: float | None = None
    paper: Literal["A4", "Letter"] | None = None
    language: str | None = None
    lengths: Literal["metric", "imperial"] | None = None
    currency: str | None = None
    slates: Literal["letters", "running"] | None = None
    include: tuple[str, ...] = ()
    defaults: Defaults | None = None
    days: Mapping[str, Day] = field(default_factory=dict)
    locations: Mapping[str, Location] = field(default_factory=dict)
    people: Mapping[str, Person] = field(default_factory=dict)
    mounts: Mapping[str, Mount] = field(default_factory=dict)
    gear: Mapping[str, Gear] = field(default_factory=dict)
    stock: Mapping[str, Stock] = field(default_factory=dict)
    scenes: Mapping[str, Scene] = field(default_factory=dict)
    setups: Mapping[str, Setup] = field(default_factory=dict)
    timings: Timings | None = None
    post: Post | None = None
    accepted: tuple[Accepted, ...] = ()
    note: tuple[str, ...] = ()


@record
class Look:
    """How the film should look."""

    id: str = ""
    path: str = ""
    palette: tuple[str, ...] = ()
    contrast: str | None = None
    references: tuple[str, ...] = ()
    note: tuple[str, ...] = ()


@record
class Defaults:
    """What holds where the plan says nothing. Each is printed as a default, never as a decision."""

    id: str = ""
    path: str = ""
    day: Day | None = None
    person: Person | None = None
    gear: Gear | None = None
    scene: Scene | None = None
    shot: Shot | None = None
    setup: Setup | None = None
    camera: Camera | None = None
    light: Light | None = None
    overlap: Metres | None = None


@record
class Mount:
    """A connection: a lens mount, spigot, plate or plug."""

    id: str = ""
    path: str = ""
    flange: Metres | None = None
    note: tuple[str, ...] = ()


@record
class Timings:
    """How long this crew takes for each action; what is left out is typical."""

    id: str = ""
    path: str = ""
    setup: Seconds | None = None
    lamp: Seconds | None = None
    move_lamp: Seconds | None = None
    modifier: Seconds | None = None
    aim: Seconds | None = None
    colour: Seconds | None = None
    gel: Seconds | None = None
    boom_arm: Seconds | None = None
    flag: Seconds | None = None
    cable: Seconds | None = None
    practical: Seconds | None = None
    sticks: Seconds | None = None
    gimbal: Seconds | None = None
    lens: Seconds | None = None
    camera_move: Seconds | None = None
    black_out: Seconds | None = None
    tent: Seconds | None = None
    layers: Seconds | None = None
    open_window: Seconds | None = None
    dressing: Seconds | None = None
    strike: Seconds | None = None
    room: Seconds | None = None
    company_move: Seconds | None = None
    load_in: Seconds | None = None
    wrap_out: Seconds | None = None
    meal: Seconds | None = None
    room_tone: Seconds | None = None


@record
class Post:
    """What happens to the pictures after the day."""

    id: str = ""
    path: str = ""
    capture: str | None = None
    working: str | None = None
    display: str | None = None
    fps: FramesPerSecond | None = None
    naming: str | None = None
    copies: int | None = None
    by: str | None = None
    delivery: str | None = None
    note: tuple[str, ...] = ()


@record
class Accepted:
    """A known risk, taken in public."""

    id: str = ""
    path: str = ""
    rule: str | None = None
    at: str | None = None
    because: str | None = None
    agreed_by: tuple[str, ...] = ()
    note: tuple[str, ...] = ()
