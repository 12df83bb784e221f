"""Records behave as the standard library's frozen dataclasses do, but for what they cost to define."""

from __future__ import annotations

import copy
import pickle
from collections.abc import Mapping
from dataclasses import dataclass
from dataclasses import field as standard_field
from functools import cached_property

import pytest
from hotset.record import field, fields_of, record, replace
from hypothesis import given
from hypothesis import strategies as st


@record
class Lamp:
    name: str
    watts: float = 0.0
    places: Mapping[str, int] = field(default_factory=dict)

    @property
    def kilowatts(self) -> float:
        return self.watts / 1000

    @cached_property
    def shouted(self) -> str:
        return self.name.upper()


@record(order=True)
class Spot:
    line: int
    column: int = 1


@dataclass(frozen=True, order=True)
class StandardSpot:
    line: int
    column: int = 1


@dataclass(frozen=True)
class StandardLamp:
    name: str
    watts: float = 0.0
    places: Mapping[str, int] = standard_field(default_factory=dict)


@record
class Practical(Lamp):
    bulb: str | None = None


def test_fields_and_defaults() -> None:
    lamp = Lamp("quay", watts=360)
    assert (lamp.name, lamp.watts, lamp.places, lamp.kilowatts) == ("quay", 360, {}, 0.36)
    assert Lamp("quay").places is not Lamp("quay").places
    assert fields_of(Practical) == ("name", "watts", "places", "bulb")
    assert Practical("desk", bulb="warm").bulb == "warm"
    assert repr(lamp) == repr(StandardLamp("quay", watts=360)).replace("StandardLamp", "Lamp")


@pytest.mark.parametrize(
    "arguments",
    [((), {}), (("a", 1, {}, 4), {}), (("a",), {"name": "b"}), (("a",), {"colour": 1})],
)
def test_what_the_standard_refuses_is_refused(arguments: tuple[tuple[object, ...], dict[str, object]]) -> None:
    values, named = arguments
    for kind in (Lamp, StandardLamp):
        with pytest.raises(TypeError):
            kind(*values, **named)  # type: ignore[arg-type]


def test_frozen() -> None:
    lamp = Lamp("quay")
    with pytest.raises(AttributeError):
        lamp.watts = 3  # type: ignore[misc]
    with pytest.raises(AttributeError):
        del lamp.name
    assert lamp == Lamp("quay")


@given(*[st.tuples(st.integers(-2, 2), st.integers(-2, 2))] * 2)
def test_order_equality_and_hash_are_the_standard_ones(a: tuple[int, int], b: tuple[int, int]) -> None:
    mine, standard = (Spot(*a), Spot(*b)), (StandardSpot(*a), StandardSpot(*b))
    assert (mine[0] == mine[1]) is (standard[0] == standard[1])
    assert (mine[0] < mine[1], mine[0] <= mine[1]) == (standard[0] < standard[1], standard[0] <= standard[1])
    assert (mine[0] > mine[1], mine[0] >= mine[1]) == (standard[0] > standard[1], standard[0] >= standard[1])
    assert len({*mine}) == len({*standard})


def test_kinds_are_not_mixed() -> None:
    assert Lamp("a") != Practical("a")
    with pytest.raises(TypeError):
        assert Spot(1) < (1, 1)  # type: ignore[operator]


def test_copies_and_changes() -> None:
    lamp = Lamp("quay", 360)
    assert lamp.shouted == "QUAY"
    assert replace(lamp, name="till") == Lamp("till", 360)
    assert replace(lamp, name="till").shouted == "TILL"
    assert copy.deepcopy(lamp) == lamp
    assert pickle.loads(pickle.dumps(lamp)) == lamp


def test_matches_by_position() -> None:
    match Spot(3, 7):
        case Spot(line, column):
            assert (line, column) == (3, 7)
