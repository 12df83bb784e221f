"""The command line of `hotset check`, read without the command-line library where it is beyond doubt.

Anything else (help, an abbreviation, a wrong value, a missing plan) is left to the library: `options` answers None.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

FORMATS = ("text", "json")
SEVERITIES = ("error", "warning", "note")


class CheckOptions(NamedTuple):
    """What `hotset check` is asked: `plans` are files, folders or `-`; `why_not` is a rule, `all` or None."""

    plans: tuple[str, ...]
    format: str = "text"
    fail_on: str = "error"
    why_not: str | None = None
    quiet: bool = False
    stdin_name: str = "-"
    numbers: bool = False


_TAKES_VALUE = {
    "--format": ("format", FORMATS),
    "--fail-on": ("fail_on", SEVERITIES),
    "--why-not": ("why_not", None),
    "--stdin-name": ("stdin_name", None),
}


def options(args: Sequence[str]) -> CheckOptions | None:
    """The options that `args` (what follows the verb) stand for, or None where the library has to look."""
    plans: list[str] = []
    given: dict[str, str] = {}
    quiet = numbers = False
    rest = iter(args)
    for arg in rest:
        if arg == "-" or not arg.startswith("-"):
            plans.append(arg)
            continue
        if arg in ("-q", "--quiet"):
            quiet = True
            continue
        if arg == "--numbers":
            numbers = True
            continue
        name, equals, value = arg.partition("=")
        if name not in _TAKES_VALUE:
            return None
        if not equals:
            value = next(rest, "-")
            if value.startswith("-"):
                return None
        key, allowed = _TAKES_VALUE[name]
        if allowed is not None and value not in allowed:
            return None
        given[key] = value
    if not plans:
        return None
    return CheckOptions(
        tuple(plans),
        given.get("format", "text"),
        given.get("fail_on", "error"),
        given.get("why_not"),
        quiet,
        given.get("stdin_name", "-"),
        numbers,
    )
