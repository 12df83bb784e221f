"""What a text may hold that no plan can mean, each said in the words of somebody who never heard of YAML."""

from __future__ import annotations

import re

from .text import Fault, shown
from .tree import Mapping, Scalar

_GLUED_HASH = re.compile(r"(?<=\S)[ \t]+#(?=[^\s#!])")
_GLUED_COLON = r"[A-Za-z][\w-]*:[^/\s]"
_NUMBER_COMMA = r"(\d+),(\d+)(?!,)"


def short(text: str, most: int = 50) -> str:
    """A text in single quotes on one line, not longer than one can take in."""
    text = shown(" ".join(text.split()))
    return f"'{text}'" if len(text) <= most else f"'{text[: most - 3].rstrip()}...'"


def glued_hashes(text: str) -> dict[int, int]:
    """Where text ends before a blank and a # with a word right behind it: end of the text -> place of the #."""
    return {found.start(): found.end() - 1 for found in _GLUED_HASH.finditer(text)} if "#" in text else {}


def after_hash(text: str, node: Scalar, at: int) -> Fault | None:
    """What follows a # is a comment: the whole value may be lost, or the rest of it where a number follows."""
    rest = text[at:].split("\n", 1)[0].rstrip()
    if node.start == node.end:
        return Fault(
            at,
            f"the # makes a comment of {short(rest)}, so nothing is left as the value",
            (f'put the value in quotes: "{shown(rest)}"',),
            rule="lost-text",
        )
    if not text[at + 1].isdigit():
        return None
    return Fault(
        at,
        f"the # makes a comment of {short(rest)}, so the value is only {short(node.text)}",
        ("put the whole value in quotes if the rest belongs to it", "write a blank after the # if it is a comment"),
        rule="lost-text",
        severity="warning",
    )


def no_value(text: str, into: Mapping, key: Scalar) -> Fault:
    """A word in braces without a value: text that a comma cut in two, or braces that were meant as text.

    The value before the comma gets its text back, so that nothing else is said of it.
    """
    before = list(into.entries.values())[-1][1] if into.entries else None
    if not key.quoted and re.match(_GLUED_COLON, key.text):
        name, _, value = key.text.partition(":")
        return Fault(
            key.start,
            f"there is no blank after the colon in {short(key.text)}",
            (f"write '{shown(name)}: {shown(value)}'",),
        )
    if isinstance(before, Scalar) and not before.quoted and before.start != before.end and not key.quoted:
        whole = text[before.start : key.end]
        ended = before.text
        before.text, before.end = " ".join(whole.split()), key.end
        number = re.search(_NUMBER_COMMA, before.text, re.ASCII)
        if number is not None:
            thousands = len(number[2]) == 3 and number[1] != "0"
            joined = number[1] + ("" if thousands else ".") + number[2]
            before.text = before.text[: number.start()] + joined + before.text[number.end() :]
            if number[0] in whole and "," not in before.text:
                return Fault(
                    key.start,
                    f"the comma in {short(whole)} ended the value",
                    (f"write {shown(before.text)}",),
                    rule="lost-text",
                )
        return Fault(
            key.start,
            f"a comma ended the text {short(ended)}, so {short(key.text)} after it is lost",
            (
                f'put the text in quotes: "{shown(" ".join(whole.split()))}"',
                f"or, if '{shown(key.text)}' is a name of its own, write '{shown(key.text)}: ' and its value",
            ),
            rule="lost-text",
        )
    if not into.entries:
        inside = shown(key.text)
        return Fault(
            key.start,
            f"{short('{' + key.text + '}')} in braces is read as a map, but '{inside}' has no value",
            (f'put it in quotes if it is text: "{{{inside}}}"', f"or give it a value: {{{inside}: ...}}"),
            rule="lost-text",
        )
    return Fault(
        key.start,
        f"{short(key.text)} stands in braces without a value",
        (f"write '{shown(key.text)}: ' and its value", "or put text that holds a comma in quotes"),
        rule="lost-text",
    )


def bad_key(key: Scalar, text: str) -> Fault | None:
    """Names that mean something else to YAML, or that cannot be typed."""
    name = key.text
    if name == "<<":
        return Fault(
            key.start,
            "'<<' takes over another map in YAML, but a plan does not use it",
            ("write 'like:' with the name of the setup to take over", "or write the lines out"),
        )
    if not name:
        return Fault(key.start, "there is no name before this colon", ("write the name, a colon and then its value",))
    if name[0] > "\x7f" and text[key.start].isspace():
        return Fault(
            key.start,
            "this line is indented with blanks that are not ordinary ones (they come with text copied from a web page)",
            ("delete them and type ordinary blanks",),
        )
    return None


def written_twice(key: Scalar, first: Scalar, whole: bool) -> Fault:
    """`whole` tells that the second is a map: a setup or a thing with a name, of which both may be meant."""
    ways = (
        ("give one of the two another name, if both are meant", "or put both into one, and delete the other")
        if whole
        else ("delete one of the two",)
    )
    return Fault(
        key.start,
        f"{short(key.text)} is written twice here; only the first counts",
        ways,
        ((first.start, "first written here"),),
        rule="duplicate-key",
    )


def name_is_no_word(text: str, at: int) -> Fault:
    if text.startswith("{{", at - 1) or text.startswith("{{", at):
        return Fault(
            at if text.startswith("{{", at) else at - 1,
            "two braces in a row are read as a map inside a map",
            ("put the text in quotes, or use one pair of braces",),
        )
    return Fault(
        at,
        "a list or a map stands where a name is due",
        ("write a name, a colon and then the list or map", "or put it in quotes if it is text"),
    )


def second_document(at: int) -> Fault:
    return Fault(
        at,
        "a line of three dashes starts a second plan in the same file",
        ("delete the line, or put what follows into a file of its own and name it under 'include:'",),
    )


def tagged(text: str, at: int) -> Fault:
    word = text[at:].split(None, 1)[0] if text[at:].split() else "!"
    return Fault(
        at,
        f"{short(word)} starts with an exclamation mark, which gives a value a type in YAML; no plan needs that",
        ("put the whole value in quotes if it is text, else delete the mark",),
    )


def starred(text: str, at: int, word: str) -> Fault:
    rest = text[at:].split("\n", 1)[0].strip()
    return Fault(
        at,
        f"a value that starts with * points to a name given with & elsewhere, and there is no &{shown(word)}",
        (f'put the value in quotes if it is text: "{shown(rest)}"',),
    )


def alias_of_itself(at: int, word: str) -> Fault:
    return Fault(at, f"'*{shown(word)}' stands inside what it points to, which would never end", ("delete it",))


def too_deep(at: int, most: int) -> Fault:
    return Fault(
        at,
        f"lists and maps stand inside each other more than {most} deep here",
        ("a plan needs fewer than ten; look for brackets or indentation that went wrong",),
        rule="too-large",
    )


def too_many(at: int, most: int) -> Fault:
    return Fault(
        at,
        f"the text holds more than {most} values, counting what is pointed to with * again each time",
        ("split the plan, or write less with & and *",),
        rule="too-large",
    )


def scalar_too_long(at: int, length: int, most: int) -> Fault:
    return Fault(
        at,
        f"this value is {length} characters long; {most} are the most that is read",
        ("shorten it; a missing closing quote also makes a value run on",),
        rule="too-large",
    )
