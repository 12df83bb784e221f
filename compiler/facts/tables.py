"""The tables of typical values and rules, each read once when it is first asked for."""

from __future__ import annotations

import json
from functools import lru_cache
from typing import Any

from ..data import read_data


@lru_cache(maxsize=16)
def table(name: str) -> Any:
    """The table of this name in `schemas/tables`; every value in it names its source."""
    return json.loads(read_data("schemas", f"tables/{name}.json"))


def framing() -> Any:
    """Shot sizes as the height of the frame in body heights."""
    return table("framing")
