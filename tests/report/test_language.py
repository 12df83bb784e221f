"""The language as editors and people get it, made from the nouns' schema files."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hotset.report.language import bundle, how_written, noun_names, page, raw
from jsonschema import Draft202012Validator

NOUNS = Path(__file__).resolve().parents[2] / "schemas" / "nouns"
PLAN: dict[str, Any] = {
    "hotset": 1,
    "setups": {"office-wide": {"camera": {"height": "1.5 m"}, "lights": {"quay": {"lamp": "fresnel"}}}},
}


def test_every_file_is_reached_from_the_film() -> None:
    assert set(noun_names()) == {file.stem for file in NOUNS.glob("*.json")}


def test_the_bundle_is_a_schema_that_needs_no_other_file() -> None:
    whole = bundle()
    Draft202012Validator.check_schema(whole)
    assert set(whole["$defs"]) >= {"film", "day", "setup", "light", "gear"}
    validator = Draft202012Validator(whole)
    assert list(validator.iter_errors(PLAN)) == []


@pytest.mark.parametrize(
    ("where", "key"),
    [((), "setup"), (("setups", "office-wide"), "lamps"), (("setups", "office-wide", "camera"), "hight")],
)
def test_the_bundle_refuses_an_unknown_key_at_any_depth(where: tuple[str, ...], key: str) -> None:
    import copy

    plan = copy.deepcopy(PLAN)
    inner = plan
    for step in where:
        inner = inner[step]
    inner[key] = "x"
    (error,) = Draft202012Validator(bundle()).iter_errors(plan)
    assert tuple(error.absolute_path) == where
    assert key in error.message


def test_one_noun_brings_only_what_it_speaks_of() -> None:
    assert set(bundle("light")["$defs"]) == {"light", "bounce", "effect"}


def test_a_noun_that_is_none() -> None:
    for name in ("lamp", "../tables/mains", ""):
        with pytest.raises(KeyError):
            bundle(name)


def test_every_key_of_every_noun_stands_on_the_page_with_how_it_is_written() -> None:
    text = page()
    for name in noun_names():
        section = text.split(f"\n## {name}\n", 1)[1].split("\n## ", 1)[0]
        for key, value in raw(name)["properties"].items():
            words, _example = how_written(value)
            assert words
            (row,) = [line for line in section.splitlines() if line.startswith(f"| `{key}` |")]
            assert row.replace("\\|", "").count("|") == 4
