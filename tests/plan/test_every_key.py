"""Schema and model held together: every key of every noun is a field, decodes, and is accepted by the JSON Schema."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from hotset.findings import Finding
from hotset.plan import Plan, decode
from hotset.plan.schema import Key, field_of, noun, noun_names, raw_schema
from hotset.record import fields_of
from hotset.report.language import bundle
from hotset.source import Mapping, Node, Scalar, Sequence, read
from hotset.source.quantities import KINDS
from jsonschema import Draft202012Validator

NOUNS = noun_names()
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
VALIDATOR = Draft202012Validator(bundle())

# One name for every family that a key can name; the plan below gives each of them.
NAMED = {
    "gear": "thing",
    "gear-or-stock": "cloth",
    "stock": "cloth",
    "people": "mara",
    "days": "9",
    "locations": "landing",
    "sets": "hall",
    "setups": "other",
    "scenes": "90",
    "shots": "90A",
    "marks": "desk",
    "windows": "hatch",
    "openings": "hatch",
    "circuits": "ring",
}
# Where a noun may be written: the steps from the top of a plan; "[]" is a list's only entry.
HALL = ("locations", "landing", "sets", "hall")
LAMP = ("setups", "one", "lights", "key")
HOMES: dict[str, tuple[str, ...]] = {
    "film": (),
    "look": ("look",),
    "defaults": ("defaults",),
    "timings": ("timings",),
    "post": ("post",),
    "accepted": ("accepted", "[]"),
    "mount": ("mounts", "one"),
    "day": ("days", "9"),
    "meal": ("days", "9", "meal"),
    "hours": ("days", "9", "hours"),
    "ahead": ("days", "9", "ahead", "[]"),
    "location": HALL[:2],
    "hospital": (*HALL[:2], "hospital"),
    "paper": (*HALL[:2], "permission"),
    "circuit": (*HALL[:2], "circuits", "ring"),
    "noise": (*HALL[:2], "noise", "one"),
    "set": HALL,
    "surface": (*HALL, "walls"),
    "door": (*HALL, "doors", "one"),
    "there": (*HALL, "doors", "one", "there"),
    "window": (*HALL, "windows", "hatch"),
    "mirror": (*HALL, "mirrors", "one"),
    "furniture": (*HALL, "furniture", "one"),
    "mark": (*HALL, "marks", "desk"),
    "outlet": (*HALL, "outlets", "one"),
    "walkway": (*HALL, "walkways", "one"),
    "usual": (*HALL, "usual"),
    "person": ("people", "mara"),
    "person-day": ("people", "mara", "days", "9"),
    "gear": ("gear", "thing"),
    "errand": ("gear", "thing", "fetch"),
    "stock": ("stock", "cloth"),
    "piece": ("stock", "cloth", "pieces", "[]"),
    "scene": ("scenes", "90"),
    "shot": ("scenes", "90", "shots", "90A"),
    "setup": ("setups", "one"),
    "camera": ("setups", "one", "camera"),
    "move": ("setups", "one", "move"),
    "sound": ("setups", "one", "sound"),
    "light": LAMP,
    "bounce": (*LAMP, "bounce"),
    "effect": (*LAMP, "effect"),
    "practical": ("setups", "one", "practicals", "lamp"),
    "treatment": ("setups", "one", "windows", "hatch"),
    "grip": ("setups", "one", "grip", "flag"),
}
Body = dict[str, Any]


def value_of(key: Key) -> Any:
    """What this key must read: maps, lists, and texts as a plan writes them."""
    if key.name == "hotset":
        return "1"
    kind = key.kind
    special: Body = {
        "coordinates": '"55.01 N, 1.44 W"',
        "spot": ["1 m", "2 m"],
        "aim": {"at": "desk", "height": "1 m"},
        "room-size": "4.2 m x 3.6 m x 2.4 m",
        "text": "words",
        "wall": "east",
        "texts": ["words", "more"],
        "cast": ["CLERK"],
        "map-names": {"boom": "mara"},
    }
    if kind in special or kind in KINDS:
        return special[kind] if kind in special else KINDS[kind].example
    if kind in ("enum", "word"):
        return key.words[0]
    if kind in ("name", "names", "name-or-word"):
        return NAMED[key.of]
    if kind == "list-of":
        return [["1 m", "2 m"], ["3 m", "4 m"], ["1 m", "5 m"]] if key.of == "spot" else [_item(key.of)]
    if kind == "map-of":
        return {{"setups": "other", "compass": "east", "locations": "landing"}.get(key.keys, "one"): _item(key.of)}
    inner = smallest(key.of)
    if kind == "map":
        return {{"treatment": "hatch", "person-day": "9"}.get(key.of, "thing"): inner}
    return [inner] if kind == "list" else inner


def _item(kind: str) -> str:
    return "words" if kind == "text" else KINDS[kind].example


def smallest(name: str) -> Body:
    """A noun with its required keys, or with its first key where none is required."""
    what = noun(name)
    keys = what.required or tuple(k for k in what.keys if k not in ("like", "remove"))[:1]
    return {k: value_of(what.keys[k]) for k in keys}


def plan_text(name: str, body: Body) -> str:
    """A whole plan in which the noun stands with this body, and everything it may name."""
    wall = "wall-1" if "outline" in body else "east"  # a set with an outline numbers its walls
    window = {"wall": wall, "from": "1 m", "width": "1 m", "height": "1 m"}
    plan: Body = {
        "hotset": "1",
        "days": {"9": {}},
        "people": {"mara": {"plays": "CLERK"}},
        "gear": {"thing": {"kind": "tool"}},
        "stock": {"cloth": {}},
        "scenes": {"90": {"shots": {"90A": {"setup": "other"}}}},
        "locations": {
            "landing": {
                "circuits": {"ring": {}},
                "sets": {"hall": {"windows": {"hatch": window}, "marks": {"desk": ["1 m", "1 m"]}}},
            }
        },
        "setups": {"other": {"set": "hall"}, "one": {"set": "hall"}},
    }
    if name == "there":
        plan["locations"]["landing"]["sets"]["hall"]["doors"] = {
            "one": {k: window[k] for k in ("wall", "from", "width")}
        }
    if name == "errand":
        body = {"kind": "tool", "fetch": body}
        name = "gear"
    _put(plan, HOMES[name], body)
    return "\n".join(f"{k}: {flow(v)}" for k, v in plan.items()) + "\n"


def _put(plan: Body, steps: tuple[str, ...], body: Body) -> None:
    """Lay a body over what stands at these steps; what others name stays."""
    if not steps:
        plan.update(_over(plan, body))
        return
    here: Any = plan
    for step, after in zip(steps, (*steps[1:], ""), strict=True):
        if step == "[]":
            here.append(body)
            return
        if after == "":
            keeps = step in ("landing", "hall", "mara", "one", "90", "90A")
            here[step] = _over(here.get(step, {}), body) if keeps else body
            return
        here = here.setdefault(step, [] if after == "[]" else {})


def _over(under: Any, body: Any) -> Any:
    if isinstance(under, dict) and isinstance(body, dict):
        return {**under, **{k: _over(under.get(k), v) for k, v in body.items()}}
    return body


def flow(value: Any) -> str:
    """A value in flow style, texts as they are."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{k}: {flow(v)}" for k, v in value.items()) + "}"
    return "[" + ", ".join(map(flow, value)) + "]" if isinstance(value, list) else str(value)


def compiled(text: str) -> tuple[Plan, list[Finding], Any]:
    source = read(["-"], stdin_text=text.encode(), stdin_name="plan.yaml")
    assert source.root is not None, source.findings
    plan, faults = decode(source)
    assert plan is not None
    return plan, [*source.findings, *faults], plain(source.root)


def plain(node: Node) -> Any:
    """The tree as plain data, by the core rules of YAML 1.2."""
    if isinstance(node, Mapping):
        return {name: plain(child) for name, _, child in node}
    if isinstance(node, Sequence):
        return [plain(child) for child in node.items]
    assert isinstance(node, Scalar)
    text = node.text
    if node.quoted:
        return text
    if text in ("", "~", "null"):
        return None
    if text in ("true", "false"):
        return text == "true"
    if re.fullmatch(r"[-+]?[0-9]+", text):
        return int(text)
    return float(text) if re.fullmatch(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", text) else text


def accepted(data: Any) -> list[str]:
    return [f"{'.'.join(map(str, e.absolute_path))}: {e.message}" for e in VALIDATOR.iter_errors(data)]


@pytest.mark.parametrize("name", NOUNS)
def test_fields_and_keys_are_the_same(name: str) -> None:
    what = noun(name)
    assert [f for f in fields_of(what.cls) if f not in ("id", "path")] == [field_of(k) for k in what.keys]
    assert raw_schema(name)["additionalProperties"] is False
    assert set(what.required) <= set(what.keys)


@pytest.mark.parametrize("name", NOUNS)
def test_every_key_says_what_it_is(name: str) -> None:
    what = noun(name)
    said = {k: key.description for k, key in what.keys.items()}
    assert {k: d for k, d in said.items() if len(d) < 4 or not d.endswith(".")} == {}
    assert what.description.endswith(".")


@pytest.mark.parametrize("name", NOUNS)
def test_every_key_decodes_and_the_json_schema_takes_it(name: str) -> None:
    what = noun(name)
    for key in what.keys.values():
        if key.name in ("hotset", "include", "remove", "like"):
            continue  # these four have tests of their own
        written = {k: value_of(what.keys[k]) for k in what.required}
        if name == "gear" and key.for_kinds:
            written["kind"] = key.for_kinds[0]
        written[key.name] = written["kind"] if key.name == "kind" and name == "gear" else value_of(key)
        text = plan_text(name, written)
        plan, faults, data = compiled(text)
        assert [(f.rule, f.sentence) for f in faults] == [], text
        assert accepted(data) == [], text
        found = [getattr(value, key.field) for value in nouns_of(plan.film, what.cls)]
        assert any(v not in (None, (), {}) for v in found), text


def nouns_of(value: Any, cls: type[Any]) -> list[Any]:
    """Every value of this class within a decoded value."""
    found = [value] if type(value) is cls else []
    if isinstance(value, dict):
        inner = list(value.values())
    elif isinstance(value, tuple):
        inner = list(value)
    elif type(value).__module__.startswith("hotset.plan.") and hasattr(type(value), "__match_args__"):
        inner = [getattr(value, f) for f in fields_of(type(value))]
    else:
        inner = []
    for each in inner:
        found += nouns_of(each, cls)
    return found


@pytest.mark.parametrize("name", NOUNS)
def test_the_json_schema_refuses_what_decoding_refuses(name: str) -> None:
    what = noun(name)
    required = {k: value_of(what.keys[k]) for k in what.required}
    _, faults, data = compiled(plan_text(name, {**required, "zzz": "1"}))
    assert [f.rule for f in faults] == ["unknown-key"]
    assert accepted(data) != []
    for left_out in what.required if name != "film" else ():
        kept = {k: v for k, v in required.items() if k != left_out}
        _, faults, data = compiled(plan_text(name, kept))
        assert [f.rule for f in faults] == ["missing-key"], (name, left_out)
        in_a_setup = left_out in raw_schema(name).get("x-required", ())  # there `like:` may bring it
        assert (accepted(data) == []) is in_a_setup, (name, left_out)


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*/*.yaml")), ids=lambda p: f"{p.parent.name}-{p.stem}")
def test_the_json_schema_takes_every_example(path: Path) -> None:
    source = read([str(path)])
    assert source.root is not None
    data = plain(source.root)
    if "hotset" not in data:  # an included file is part of a plan that has it
        data["hotset"] = 1
    assert accepted(data) == []


def test_the_bundle_is_a_sound_schema() -> None:
    Draft202012Validator.check_schema(bundle())
    json.dumps(bundle())
