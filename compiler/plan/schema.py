"""The language's schema, read once into a form that decoding can follow quickly.

Keys, kinds and descriptions are said in `schemas/nouns/*.json` alone; this module turns each noun into a `Noun`
with its dataclass, and each key into a `Key` with the name of its field.
"""

from __future__ import annotations

import json
from functools import lru_cache
from keyword import iskeyword
from typing import Any

from ..data import read_data
from ..record import record
from . import day, film, gear, light, location, person, scene, set, setup, stock

_MODULES = (film, day, location, set, person, gear, stock, scene, setup, light)


@record
class Key:
    """One key of a noun: the field it fills, its kind, and what the kind speaks of (a noun, a family of names, the
    allowed words, or the kind of each item).

    `example` is how a value of it is written ("" where the kind's own example does). `keys` is the family of the names
    on the left of a map of values; `measured` tells, by the kind of the thing that says it, which quantity a text is
    that begins with a number.
    """

    name: str
    field: str
    kind: str
    of: str
    words: tuple[str, ...]
    for_kinds: tuple[str, ...]
    description: str
    above_zero: bool
    keys: str
    measured: dict[str, str]
    example: str


@record
class Noun:
    """One noun of the language: its name, dataclass, keys in their order, key for the short form, required keys."""

    name: str
    cls: type[Any]
    description: str
    keys: dict[str, Key]
    short: str
    required: tuple[str, ...]


def field_of(key: str) -> str:
    """The dataclass field of a key: hyphens become underscores, a Python keyword gets one behind it."""
    name = key.replace("-", "_")
    return name + "_" if iskeyword(name) else name


def noun_names() -> tuple[str, ...]:
    """Every noun of the language, by its schema's name, the film first."""
    return tuple(_classes())


@lru_cache(maxsize=1)
def _classes() -> dict[str, type[Any]]:
    """Schema name -> dataclass: `PersonDay` is said in person-day.json."""
    found: dict[str, type[Any]] = {}
    for module in _MODULES:
        for name, value in vars(module).items():
            if isinstance(value, type) and value.__module__ == module.__name__:
                found["".join("-" + c.lower() if c.isupper() else c for c in name).lstrip("-")] = value
    return found


def raw_schema(name: str) -> dict[str, Any]:
    """The JSON Schema of one noun, as it stands in `schemas/nouns`."""
    data: dict[str, Any] = json.loads(read_data("schemas", f"nouns/{name}.json"))
    return data


@lru_cache(maxsize=128)
def noun(name: str) -> Noun:
    """The noun of this name.

    Raises KeyError for a name the language does not have.
    """
    cls = _classes()[name]
    raw = raw_schema(name)
    keys = {k: _key(k, v) for k, v in raw["properties"].items()}
    # A setup that is like another may write a part of these, so JSON Schema, which sees the text alone, asks for less.
    required = (*raw.get("required", ()), *raw.get("x-required", ()))
    return Noun(name, cls, raw["description"], keys, raw.get("x-short", ""), required)


def _key(name: str, raw: dict[str, Any]) -> Key:
    kind = raw["x-kind"]
    of = raw.get("x-of", "")
    words: tuple[str, ...] = ()
    above_zero = bool(raw.get("x-above-zero"))
    keys = str(raw.get("x-keys", ""))
    if kind == "enum":
        words = tuple(raw["enum"])
    elif kind == "word":
        words = (raw["const"],)
    elif kind == "noun":
        of = raw["$ref"].removesuffix(".json")
    elif kind == "part":
        of = raw["x-noun"]
    elif kind == "map":
        of = raw["additionalProperties"]["$ref"].removesuffix(".json")
    elif kind == "list":
        of = raw["items"]["$ref"].removesuffix(".json")
    kinds, measured = tuple(raw.get("x-for", ())), raw.get("x-measured", {})
    example = str(raw.get("x-example", ""))
    return Key(name, field_of(name), kind, of, words, kinds, raw["description"], above_zero, keys, measured, example)
