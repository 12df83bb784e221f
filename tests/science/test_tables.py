"""Every table of values says where its values come from."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any

import pytest

TABLES = ["filters.json", "framing.json", "light.json", "mains.json", "substitutes.json"]


def without_source(node: Any, path: str, sourced: bool) -> list[str]:
    """Paths of numbers with no `source` beside them or above them."""
    if isinstance(node, dict):
        sourced = sourced or bool(node.get("source"))
        return [p for key, value in node.items() for p in without_source(value, f"{path}.{key}", sourced)]
    if isinstance(node, list):
        return [p for i, value in enumerate(node) for p in without_source(value, f"{path}[{i}]", sourced)]
    return [path] if isinstance(node, int | float) and not isinstance(node, bool) and not sourced else []


@pytest.mark.parametrize("name", TABLES)
def test_every_value_has_a_source(name: str) -> None:
    table = json.loads((files("hotset.schemas") / "tables" / name).read_text("utf-8"))
    table.pop("source", None)
    found = without_source(table, name, sourced=False)
    allowed = [p for p in found if p.endswith((".volt", ".hertz"))]
    assert found == allowed
