"""The catalogue as `hotset explain` shows it."""

from __future__ import annotations

from hotset.record import record
from hotset.report.catalogue import list_lines, nearest_rule, page, rule_lines
from hotset.report.exact import output
from hotset.report.look import Look
from hotset.rules import RULES as CATALOGUE


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


PLAN = """
hotset: 1
gear:
  lens-35: {kind: lens, thread: 55 mm}
  soft-glass: {kind: filter, thread: 77 mm}
setups:
  wide: {camera: {lens: lens-35, filters: soft-glass}}
"""


def test_the_finding_stands_after_the_plan_as_check_prints_it() -> None:
    said = output("filter-thread", PLAN, Look())
    assert said[0].startswith("plan.yaml:6:34: error: 'soft-glass' has a 77 mm thread")
    assert said[0].endswith("[filter-thread]")
    assert any(line.startswith("    do: ") for line in said)
    lines = list(rule_lines(RULES[0], Look(), said))
    assert lines[lines.index("What 'hotset check --numbers' says on it:") + 2] == "    " + said[0]
    text = page(RULES, {"no-support": said})
    assert f"`hotset check --numbers` says:\n\n```text\n{said[0]}\n" in text


def test_other_rules_and_empty_plans_say_nothing() -> None:
    assert output("no-support", PLAN, Look()) == ()
    assert output("no-file", "", Look()) == ()


def test_several_files_are_named_without_the_folder_they_stood_in() -> None:
    one = next(rule for rule in CATALOGUE if rule.id == "bad-include")
    said = output(one.id, one.triggers, Look())
    assert said[0].startswith("plan.yaml:")
    assert not any("/tmp" in line for line in said)


def test_every_rule_with_a_plan_shows_what_it_says() -> None:
    silent = [rule.id for rule in CATALOGUE if rule.triggers.strip() and not output(rule.id, rule.triggers, Look())]
    assert silent == []
