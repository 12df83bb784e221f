"""The tables of typical values and rules, each read once when it is first asked for."""

from __future__ import annotations

import json
from functools import lru_cache
from importlib.resources import files
from typing import Any


@lru_cache(maxsize=16)
def table(name: str) -> Any:
    """The table of this name in `schemas/tables`; every value in it names its source."""
    return json.loads(files("hotset.schemas").joinpath(f"tables/{name}.json").read_bytes())


def framing() -> Any:
    """Shot sizes as the height of the frame in body heights."""
    return table("framing")
