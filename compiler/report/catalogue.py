"""The catalogue of rules, for the terminal and as a page; what a rule means is written in the rule itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from inspect import cleandoc
from typing import Protocol

from .glyphs import columns
from .look import Look

INSIDE = "    "
"""What plans and findings on a page are moved in by."""


class RulePage(Protocol):
    """What the catalogue needs of a rule: `doc` is its page, `triggers` a plan it speaks on, `passes` the plan beside
    it on which it just does not (either may be empty)."""

    @property
    def id(self) -> str: ...
    @property
    def severity(self) -> str: ...
    @property
    def title(self) -> str: ...
    @property
    def doc(self) -> str: ...
    @property
    def triggers(self) -> str: ...
    @property
    def passes(self) -> str: ...


def nearest_rule(name: str, rules: Iterable[RulePage]) -> str | None:
    """The id most like `name`, or None where none is like it."""
    from difflib import get_close_matches

    near = get_close_matches(name.lower(), [rule.id for rule in rules], n=1, cutoff=0.5)
    return near[0] if near else None


def list_lines(rules: Sequence[RulePage], look: Look) -> Iterator[str]:
    """Every rule with its severity and title, one a line."""
    wide = max((columns(rule.id) for rule in rules), default=0)
    for rule in rules:
        severity = look.paint(rule.severity, f"{rule.severity:<7}")
        yield f"{rule.id:<{wide}}  {severity}  {rule.title}"


def rule_lines(rule: RulePage, look: Look, said: Sequence[str] = ()) -> Iterator[str]:
    """One rule's page for the terminal; `said` is what `check --numbers` prints on the plan that the rule speaks on."""
    yield f"{look.paint('bold', rule.id)} ({look.paint(rule.severity, rule.severity)}): {rule.title}"
    yield ""
    yield from cleandoc(rule.doc).splitlines()
    for words, lines in (
        ("A plan that it speaks on", cleandoc(rule.triggers).splitlines()),
        ("What 'hotset check --numbers' says on it", said),
        ("A plan that just passes", cleandoc(rule.passes).splitlines()),
    ):
        if lines:
            yield ""
            yield look.paint("bold", words + ":")
            yield ""
            yield from (INSIDE + line if line else "" for line in lines)


def page(rules: Sequence[RulePage], said: Mapping[str, Sequence[str]] | None = None) -> str:
    """The whole catalogue, Markdown; `said` gives for a rule's id what `check` prints on the plan it speaks on."""
    parts = [
        "# Rules\n",
        "Made from `compiler/rules` by `python -m hotset.report.pages`; change the rules, not this page.\n"
        "`hotset explain RULE` shows the same offline. An *error* cannot be shot as written, a *warning* will likely\n"
        "cost time, quality or comfort, a *note* is good to know. A known risk is accepted under `accepted:` in the\n"
        "plan, with its reason.\n",
        "| rule | severity | what it finds |\n| --- | --- | --- |",
        *(f"| [{rule.id}](#{rule.id}) | {rule.severity} | {rule.title.replace('|', '/')} |" for rule in rules),
        "",
    ]
    for rule in rules:
        parts += [f"## {rule.id}\n", f"*{rule.severity}*: {rule.title}\n", cleandoc(rule.doc), ""]
        found = "\n".join((said or {}).get(rule.id, ()))
        for words, kind, text in (
            ("Speaks on", "yaml", cleandoc(rule.triggers)),
            ("`hotset check --numbers` says", "text", found),
            ("Just passes", "yaml", cleandoc(rule.passes)),
        ):
            if text.strip():
                parts += [f"{words}:\n", f"```{kind}", text, "```", ""]
    return "\n".join(parts)
