"""Known risks: findings that the plan takes in public stop failing the check; stale acceptances are findings."""

from __future__ import annotations

from .findings import Finding, in_order
from .plan import Plan

# Faults of reading cannot be accepted: what cannot be read cannot be judged.
NEVER = frozenset({"not-yaml", "too-large", "duplicate-key", "include-clash", "accepted-nothing", "broken-rule"})


def accept(plan: Plan, findings: tuple[Finding, ...]) -> tuple[tuple[Finding, ...], tuple[tuple[Finding, int], ...]]:
    """Findings that stand, and those accepted with the index of their acceptance.

    An acceptance names a rule and a path; it covers findings of that rule at the path or below it.
    """
    left: list[Finding] = []
    taken: list[tuple[Finding, int]] = []
    used: set[int] = set()
    for finding in findings:
        index = _covering(plan, finding)
        if index is None:
            left.append(finding)
        else:
            used.add(index)
            taken.append((finding, index))
    for i, risk in enumerate(plan.film.accepted):
        near = _meant(left, risk.rule, risk.at) if i not in used and risk.rule and risk.at is not None else ""
        if near:
            left.append(
                Finding(
                    "accepted-nothing",
                    "warning",
                    f"at '{risk.at}' no finding is called '{risk.rule}'; did you mean '{near}'?",
                    plan.where(f"{risk.path}.rule"),
                    ways_out=(f"write 'rule: {near}'",),
                    details=(("rule", risk.rule or ""), ("at", risk.at or "")),
                )
            )
        elif i not in used and risk.rule and risk.at is not None:
            left.append(
                Finding(
                    "accepted-nothing",
                    "warning",
                    f"the accepted risk '{risk.rule}' at '{risk.at}' no longer matches any finding",
                    plan.where(risk.path),
                    ways_out=("take it out of 'accepted:'", "or mend its 'rule:' or 'at:' if it was meant for another"),
                    details=(("rule", risk.rule), ("at", risk.at)),
                )
            )
    return in_order(left), tuple(taken)


def _meant(left: list[Finding], rule: str, at: str) -> str:
    """The rule of a finding at or below a path that is spelt nearly like this one."""
    from .plan.speech import nearest

    here = {f.rule for f in left if f.place.path == at or f.place.path.startswith(f"{at}.")}
    return nearest(rule, here - NEVER) if rule not in here else ""


def _covering(plan: Plan, finding: Finding) -> int | None:
    if finding.rule in NEVER:
        return None
    path = finding.place.path
    for i, risk in enumerate(plan.film.accepted):
        if risk.rule == finding.rule and risk.at and (path == risk.at or path.startswith(risk.at + ".")):
            return i
    return None
