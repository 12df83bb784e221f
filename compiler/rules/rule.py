"""What a rule is: one conflict, what it means on set, how it is decided, and its plans."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from types import ModuleType
from typing import TYPE_CHECKING, Any

from ..record import record

if TYPE_CHECKING:
    from ..facts import Facts
    from ..findings import Finding, NotChecked, Severity

Check = Callable[["Facts"], "Iterator[Finding | NotChecked]"]


@record
class Rule:
    """One rule. `doc` is its page of the catalogue; `triggers` a whole plan on which it speaks and `passes` one on
    which it just does not. `check` is None for the faults of reading, which the earlier stages report themselves."""

    id: str
    severity: Severity
    title: str
    doc: str
    triggers: str
    passes: str
    check: Check | None


def rule(module: ModuleType) -> Rule:
    """The rule of a module: its docstring is the page, its constants the rest.

    A module has RULE, SEVERITY, TITLE, TRIGGERS, PASSES and, unless it is a fault of reading, `check`.
    """
    said: dict[str, Any] = vars(module)
    return Rule(
        said["RULE"],
        said["SEVERITY"],
        said["TITLE"],
        module.__doc__ or "",
        said["TRIGGERS"],
        said["PASSES"],
        said.get("check"),
    )
