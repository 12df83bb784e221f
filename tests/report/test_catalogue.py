"""The catalogue as `hotset explain` shows it."""

from __future__ import annotations

from hotset.record import record
from hotset.report.catalogue import list_lines, nearest_rule, page, rule_lines
from hotset.report.look import Look


@record
class Page:
    id: str
    severity: str = "error"
    title: str = "a lamp hangs on nothing"
    doc: str = """A lamp hangs on nothing.

    On set: it falls.
    """
    triggers: str = "\nhotset: 1\nlights:\n  a: {}\n"
    passes: str = ""


RULES = (Page("no-support"), Page("cards-full", "warning", "the cards are full"))


def test_one_rule() -> None:
    assert list(rule_lines(RULES[0], Look())) == [
        "no-support (error): a lamp hangs on nothing",
        "",
        "A lamp hangs on nothing.",
        "",
        "On set: it falls.",
        "",
        "A plan that it speaks on:",
        "",
        "    hotset: 1",
        "    lights:",
        "      a: {}",
    ]


def test_all_rules_in_columns() -> None:
    assert list(list_lines(RULES, Look())) == [
        "no-support  error    a lamp hangs on nothing",
        "cards-full  warning  the cards are full",
    ]


def test_nearest() -> None:
    assert nearest_rule("card-full", RULES) == "cards-full"
    assert nearest_rule("zzzz", RULES) is None


def test_page() -> None:
    text = page(RULES)
    assert "| [cards-full](#cards-full) | warning | the cards are full |" in text
    assert "Speaks on:\n\n```yaml\nhotset: 1\nlights:\n  a: {}\n```" in text
    assert "Just passes" not in text
