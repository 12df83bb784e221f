"""The plan language as others need it: one bundled JSON Schema for editors, one page for people.

Both are made from `schemas/nouns/*.json`, where keys, kinds and descriptions are said.
"""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any

ROOT_NOUN = "film"

STRUCTURE = {
    "name": ("a name from `{of}`", ""),
    "names": ("a name from `{of}`, or a list of them", ""),
    "name-or-word": ("a name from `{of}`, or a word", ""),
    "texts": ("free text, or a list of texts", ""),
    "map-of": ("names, each with {of}", ""),
    "map-names": ("names, each with a name from `{of}`", ""),
    "list-of": ("a list, each {of}", ""),
    "cast": ("a list of people, or characters with people", "[mara, jon]"),
    "aim": ("a place, down, or a mirror", "desk"),
    "wall": ("a wall's name", "east"),
    "spot": ("a place: [x, y], a name, or said from a mark", "[2.0 m, 1.5 m]"),
    "room-size": ("width x depth, and height for a room", "4.2 m x 3.6 m x 2.4 m"),
    "angle-range": ("an angle or a range", "15-45 deg"),
    "length-range": ("a length or a range", "24-70 mm"),
    "kelvin-range": ("a colour or a range", "2800-6500 K"),
}
"""Kinds that are no single quantity: what is written, and an example; `{of}` is what the key speaks of."""

PLAIN = ("text", "whole", "number", "yes-no")
"""Kinds that need no example."""

Schema = dict[str, Any]


def noun_names() -> tuple[str, ...]:
    """Every noun of the language, the film first, then the others as they are first spoken of."""
    order = [ROOT_NOUN]
    for name in order:
        for key in raw(name)["properties"].values():
            if (of := spoken_of(key)) and of not in order:
                order.append(of)
    return tuple(order)


def raw(name: str) -> Schema:
    """The JSON Schema of one noun as it stands in the file.

    Raises KeyError for a noun the language does not have.
    """
    file = files("hotset.schemas").joinpath("nouns", f"{name}.json")
    if not name.replace("-", "").isalnum() or not file.is_file():
        raise KeyError(name)
    schema: Schema = json.loads(file.read_bytes())
    return schema


def spoken_of(key: Schema) -> str:
    """The noun that a key's value is, or whose map or list it holds; "" where it is a plain value."""
    for holder in (key, key.get("additionalProperties"), key.get("items")):
        if isinstance(holder, dict) and "$ref" in holder:
            return str(holder["$ref"]).removesuffix(".json")
    return str(key.get("x-noun", ""))


def bundle(name: str = ROOT_NOUN) -> Schema:
    """One JSON Schema document that says the noun `name` and everything it speaks of, with references inside it.

    Raises KeyError for a noun the language does not have.
    """
    needed = [name]
    for each in needed:
        for key in raw(each)["properties"].values():
            if (of := spoken_of(key)) and of not in needed:
                needed.append(of)
    root = raw(name)
    whole: Schema = {
        "$schema": root["$schema"],
        "$id": f"hotset:{name}",
        "title": "hotset plan" if name == ROOT_NOUN else f"hotset {name}",
        "$ref": f"#/$defs/{name}",
        "$defs": {each: _inside(raw(each)) for each in sorted(needed)},
    }
    return whole


def _inside(value: Any) -> Any:
    """The same schema with references to files turned into references within the bundle."""
    if isinstance(value, list):
        return [_inside(item) for item in value]
    if not isinstance(value, dict):
        return value
    turned = {}
    for key, inner in value.items():
        if key == "$ref":
            turned[key] = f"#/$defs/{str(inner).removesuffix('.json')}"
        elif key not in ("$schema", "$id"):
            turned[key] = _inside(inner)
    return turned


def how_written(key: Schema) -> tuple[str, str]:
    """What stands behind a key, in words, and an example ("" where the words say it).

    Raises KeyError for a kind that nobody has explained.
    """
    kind, of = key["x-kind"], spoken_of(key) or str(key.get("x-of", ""))
    if kind == "enum":
        return "one of " + ", ".join(f"`{word}`" for word in key["enum"]), ""
    if kind == "word":
        return f"the word `{key['const']}`", ""
    if kind in ("noun", "part"):
        return f"the keys of [{of}](#{of})", ""
    if kind == "map":
        return f"names, each with the keys of [{of}](#{of})", ""
    if kind == "list":
        return f"a list, each with the keys of [{of}](#{of})", ""
    if kind in STRUCTURE:
        words, example = STRUCTURE[kind]
        speaks = _kind_words(of) if kind in ("map-of", "list-of") else of.replace("-or-", "` or `")
        return words.format(of=speaks), example
    from ..source.quantities import KINDS

    return KINDS[kind].words, "" if kind in PLAIN else str(key.get("x-example", KINDS[kind].example))


def _kind_words(kind: str) -> str:
    if kind in STRUCTURE:
        words, example = STRUCTURE[kind]
        return f"{words}, such as {example}"
    from ..source.quantities import KINDS

    return KINDS[kind].words + ("" if kind in PLAIN else f", such as {KINDS[kind].example}")


def page() -> str:
    """The language reference, Markdown."""
    names = noun_names()
    parts = [
        "# The plan language\n",
        "Made from `schemas/nouns/*.json` by `python -m hotset.report.pages`; change those, not this page.\n",
        "A plan is one YAML file (or several, by `include`). Every value is written as the crew says it, with its\n"
        "unit. Anything may be left out but what is marked *needed*. An unknown key is an error that offers the\n"
        "nearest one.\n",
        "Nouns: " + ", ".join(f"[{name}](#{name})" for name in names) + "\n",
    ]
    parts += [_noun(name) for name in names]
    return "\n".join(parts)


def _noun(name: str) -> str:
    schema = raw(name)
    needed = (*schema.get("required", ()), *schema.get("x-required", ()))
    lines = [f"## {name}", "", schema["description"]]
    if short := schema.get("x-short"):
        lines += ["", f"Short form: a plain value stands for its `{short}`."]
    lines += ["", "| key | means | is written as |", "| --- | --- | --- |"]
    for key, value in schema["properties"].items():
        words, example = how_written(value)
        means = value["description"]
        if only := value.get("x-for"):
            means += f" *(only {', '.join(only)})*"
        if key in needed:
            means += " *(needed)*"
        written = words + (f": `{example}`" if example else "")
        lines.append(f"| `{key}` | {_cell(means)} | {_cell(written)} |")
    return "\n".join([*lines, ""])


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")
