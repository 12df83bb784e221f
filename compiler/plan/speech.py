"""What decoding says when a value cannot be read: one sentence and a way out, for people who do not program."""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING

from ..source.tree import Mapping, Node, Scalar, Sequence

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..source.quantities import Kind, QuantityError
    from .names import Names
    from .schema import Key, Noun

Words = tuple[str, tuple[str, ...]]
_COMPARED = 200
_NAME = frozenset("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_")


def is_name(text: str) -> bool:
    """Whether a text can be an id: letters, digits, hyphens, and `/` between the parts of a place."""
    return bool(text) and all(part and _NAME.issuperset(part) for part in text.split("/"))


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word most like this one, or "" where none is near."""
    from difflib import get_close_matches

    by_lower = {k.lower(): k for k in known}
    names = sorted(by_lower)
    if len(names) > _COMPARED:
        names = _alike(word.lower(), names)
    found = get_close_matches(word.lower(), names, n=1, cutoff=0.6)
    return by_lower[found[0]] if found else ""


def _alike(word: str, names: list[str]) -> list[str]:
    """Of very many names in order, those that begin or end most like the word: comparing all would take minutes."""
    backwards = sorted(name[::-1] for name in names)
    at, behind = bisect_left(names, word), bisect_left(backwards, word[::-1])
    half = _COMPARED // 4
    near = names[max(0, at - half) : at + half]
    return sorted({*near, *(name[::-1] for name in backwards[max(0, behind - half) : behind + half])})


def shown(text: str) -> str:
    """A text of the plan in quotes, short enough for a sentence."""
    return f"'{text}'" if len(text) <= 60 else f"'{text[:57]}...'"


def what_is(node: Node) -> str:
    if isinstance(node, Mapping):
        return "a group of keys"
    if isinstance(node, Sequence):
        return "a list"
    return shown(node.text) if isinstance(node, Scalar) and (node.text or node.quoted) else "nothing"


def _last(path: str) -> str:
    return path.rsplit(".", 1)[-1]


def wants_map(node: Node, what: Noun, path: str) -> Words:
    keys = ", ".join(f"{k}:" for k in list(what.keys)[:4])
    here = f"'{_last(path)}'" if path else "the plan"
    return (
        f"{here} needs keys of its own, but {what_is(node)} stands here",
        (f"write what you know below it, one key a line and indented ({keys} ...)",),
    )


# What crews call it -> the key of the language, where the noun has that one.
_KEY_FOR = {"room": "set", "place": "set", "lamps": "lights", "actors": "cast", "people": "cast", "duration": "takes"}


def unknown_key(text: str, what: Noun, path: str) -> Words:
    here = f"'{_last(path)}' ({what.name})" if path else "the top of a plan"
    said_for = _KEY_FOR.get(text.lower(), "")
    guess = said_for if said_for in what.keys else nearest(text, what.keys)
    if guess:
        return f"{here} has no key '{text}'; did you mean '{guess}'?", (f"write '{guess}:'",)
    return (
        f"{here} has no key '{text}'",
        (f"use one of: {', '.join(what.keys)}", "write free text under 'note:'"),
    )


def unknown_word(text: str, known: tuple[str, ...]) -> Words:
    guess = nearest(text, known)
    ways = (f"write '{guess}:'",) if guess else (f"use one of: {', '.join(known)}",)
    return f"there is no key '{text}' here" + (f"; did you mean '{guess}'?" if guess else ""), ways


def key_of_other_kind(key: Key, kind: str) -> Words:
    owners = " or ".join(key.for_kinds)
    return (
        f"'{key.name}' is said of {owners}, but this thing is of kind '{kind}'",
        (f"take '{key.name}' out, or change the kind",),
    )


def missing_key(key: Key, what: Noun, path: str) -> Words:
    here = f"'{_last(path)}'" if path else "the plan"
    if key.name == "hotset":
        return "the plan does not say which version of the language it speaks", ("write 'hotset: 1' on top",)
    words = f" ({', '.join(key.words)})" if key.words else ""
    return (
        f"{here} does not say its '{key.name}'; every {what.name} needs it",
        (f"add '{key.name}:'{words}: {key.description[:1].lower()}{key.description[1:]}",),
    )


def wants_scalar(node: Node, key: str, kind: Kind) -> Words:
    return f"'{key}' is {kind.words}, but {what_is(node)} stands here", (f"write it like {kind.example}",)


def nothing_written(key: str, example: str) -> Words:
    return f"nothing is written after '{key}:'", (f"write a value like {example}, or take the line out",)


_WITHOUT_UNIT = frozenset(
    ("number", "whole", "yes-no", "eighths", "aspect", "ratio", "density", "clock", "clock-range", "date", "moment")
)


def quantity_rule(text: str, kind: str) -> str:
    """A bare number where a unit is due is a fault of its own."""
    bare = text.replace(".", "", 1).replace("-", "", 1).replace("+", "", 1).isdigit()
    unitless = kind in _WITHOUT_UNIT
    return "missing-unit" if bare and not unitless else "bad-quantity"


def bad_quantity(key: str, error: QuantityError) -> Words:
    return f"'{key}': {error.reason}", (f"write it like {error.example}",)


def nothing_at_all(key: Key, node: Node) -> Words:
    return (
        f"'{key.name}' is {what_is(node)}, and it must be more than nothing",
        (f"write its size, or take '{key.name}' out if you do not know it",),
    )


def wants_word(node: Node, key: Key) -> Words:
    if isinstance(node, Scalar):
        return (
            f"nothing is written after '{key.name}:'",
            (f"write {key.description[:1].lower()}{key.description[1:].rstrip('.')}, or take the line out",),
        )
    comma = (
        " (a comma ends the text inside { } and [ ]: put such a text in quotes)" if isinstance(node, Mapping) else ""
    )
    return f"'{key.name}' takes a word or a text, but {what_is(node)} stands here{comma}", ("write the text alone",)


# What crews say for it -> the word of the language, where that is one of the words allowed.
_SAID_FOR = {
    "lamp": "light", "tripod": "support", "stand": "support", "softbox": "modifier", "flag": "grip",
    "microphone": "sound", "lead": "power", "cable": "power", "disk": "drive", "costume": "wardrobe",
    "night": "dark", "day": "daylight", "sunset": "golden", "sunrise": "golden", "twilight": "dusk",
    "wide": "WS", "long shot": "WS", "full": "FS", "medium": "MS", "closeup": "CU", "close": "CU", "close up": "CU",
    "close-up": "CU", "detail": "insert", "two shot": "two-shot", "2-shot": "two-shot", "zoom": "push-in",
    "dolly": "push-in", "track": "follow", "required": "must", "optional": "if-time", "nice to have": "want",
}  # fmt: skip


def not_among(text: str, key: str, words: tuple[str, ...]) -> Words:
    said_for = _SAID_FOR.get(text.lower(), "")
    guess = said_for if said_for in words else nearest(text, words)
    hint = f"; did you mean '{guess}'?" if guess else ""
    return f"'{key}' cannot be {shown(text)}{hint}", (f"use one of: {', '.join(words)}",)


def unknown_wall(text: str, walls: tuple[str, ...]) -> Words:
    guess = nearest(text, walls)
    hint = f"; did you mean '{guess}'?" if guess else ""
    return f"this set has no wall called {shown(text)}{hint}", (f"use one of: {', '.join(walls)}",)


def bare_pair(text: str) -> str:
    """`[1 m, 2 m]` for a place written `1 m, 2 m`; "" for any other text."""
    parts = [p.strip() for p in text.split(",")]
    return f"[{parts[0]}, {parts[1]}]" if len(parts) == 2 and all(p[:1].isdigit() for p in parts) else ""


def wants_brackets(node: Scalar, key: Key, pair: str) -> Words:
    return f"'{key.name}' is a place in brackets, but {what_is(node)} stands without them", (f"write {pair}",)


def clock_not_length(key: str, text: str) -> Words | None:
    """For a time of day where a length of time is due."""
    hours, colon, minutes = text.partition(":")
    if not (colon and hours.isdigit() and minutes.isdigit()):
        return None
    long = "write how long it takes, such as 40 min"
    meal = (f"or, for a meal that begins then, 'at: {text}' below it",) if key == "takes" else ()
    return f"'{key}' is a length of time, but '{text}' is a time of day", (long, *meal)


_FAMILY = {
    "gear": "thing under 'gear:'",
    "stock": "stock under 'stock:'",
    "gear-or-stock": "thing under 'gear:' or 'stock:'",
    "people": "person under 'people:'",
    "sets": "set",
    "setups": "setup",
    "shots": "shot",
    "days": "day",
    "locations": "location",
    "compass": "compass word",
    "scenes": "scene",
    "marks": "mark or piece of furniture in this set",
    "mirrors": "mirror in this set",
    "windows": "window in this set",
    "openings": "door or window in this set",
    "circuits": "circuit in this place",
    "parts": "character under 'plays:' or 'characters:'",
    "cast": "person, or character that somebody plays,",
}


def unknown_name(text: str, key: Key, names: Names, family: str = "") -> Words:
    family = family or key.of
    known = names.known(family)
    label = _FAMILY[family]
    if alike := names.alike(family, text):
        return f"{shown(text)} may mean {' or '.join(alike)}", (f"write the whole name, such as '{alike[0]}'",)
    guess = nearest(text, known)
    if guess:
        return f"there is no {label} called {shown(text)}; did you mean '{guess}'?", (f"write '{guess}'",)
    if not known:
        return f"there is no {label} called {shown(text)}; the plan names none", (f"add '{text}' there",)
    listed = ", ".join(sorted(known)[:8]) + (" ..." if len(known) > 8 else "")
    if family == "compass":
        return f"there is no {label} {shown(text)}", (f"use one of: {listed}",)
    return f"there is no {label} called {shown(text)}", (f"use one of: {listed}", f"or add '{text}' to the plan")


def wants_list(key: Key) -> Words:
    return f"'{key.name}' is a list", ("write it like [[0 m, 0 m], [4 m, 0 m], [4 m, 3 m]]",)


def wants_spot(node: Node, key: Key) -> Words:
    return (
        f"'{key.name}' is a place, but {what_is(node)} stands here",
        ("write it like [2.0 m, 1.5 m], as '1.5 m at 10 o'clock of desk', or as the name of a mark",),
    )


def decimal_comma(node: Sequence) -> str:
    """`[2.4 m, 2.0 m]` for a place whose lengths are written with a comma, which parts them; "" for any other list."""
    texts = [item.text.strip() if isinstance(item, Scalar) else "" for item in node.items]
    joined: list[str] = []
    for text in texts:
        if joined and joined[-1].lstrip("-").isdigit() and text[:1].isdigit():
            joined[-1] = f"{joined[-1]}.{text}"
        else:
            joined.append(text)
    whole = len(joined) == 2 and len(texts) > 2 and all(not text[-1:].isdigit() for text in joined)
    return f"[{', '.join(joined)}]" if whole else ""


def with_points(key: Key, better: str) -> Words:
    return (
        f"'{key.name}' has a decimal comma, and a comma parts the two lengths of a place",
        (f"write a decimal point: {better}",),
    )


def wants_named(node: Node, key: Key) -> Words:
    return (
        f"'{key.name}' holds entries with a name each, but {what_is(node)} stands here",
        ("write one name a line, indented, with a colon behind it",),
    )


def bad_name(text: str, what: Noun) -> Words:
    made = "".join(c if c in _NAME else "-" for c in text.strip().lower()).strip("-") or "name"
    return (
        f"{shown(text)} cannot be the name of a {what.name}: names are made of letters, digits and hyphens",
        (f"write '{made}', and the words under 'of:', 'name:' or 'note:'",),
    )
