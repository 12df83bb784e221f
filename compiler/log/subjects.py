"""What the words of a line mean: shots, setups, people and things of the plan, and what is shot already."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .said import Bad, Said, Subject
from .tokens import Token
from .words import EXAMPLES, FAMILIES, JOINERS, SUBJECTS

if TYPE_CHECKING:
    from ..plan import Plan
    from .names import LogNames, Meaning

_SEVERAL = ("done", "dropped", "again", "lost")
_WORDS = {"shot": "shot", "setup": "setup", "person": "person", "gear": "gear", "stock": "stock", "set": "set",
          "circuit": "circuit"}  # fmt: skip


def resolve(plan: Plan | None, names: LogNames, said: Said) -> list[Subject]:
    """The subjects of a line: one for each event it makes."""
    families = FAMILIES.get(said.kind, ())
    if families and said.rest and said.rest[0].low in _WORDS and len(said.rest) > 1:
        word = _WORDS[said.rest[0].low]
        if word in families:
            families, said = (word,), Said(said.kind, said.verb, said.rest[1:], said.count, said.line, said.day)
    if not said.rest:
        if said.kind in SUBJECTS:
            raise Bad(
                said.verb, f"'{said.verb.text}' needs {SUBJECTS[said.kind]}", f"write it like: {EXAMPLES[said.kind]}"
            )
        return [Subject(count=said.count)]
    if not families:
        raise Bad(said.rest[0], f"'{said.rest[0].text}' says nothing in this line",
                  f"write it like: {EXAMPLES[said.kind]}; a remark goes after #")  # fmt: skip
    found: list[Subject] = []
    for group in _groups(said.rest):
        found += [_subject(plan, said, one, families, names) for one in _split(names, group, families, said.kind)]
    if len(found) > 1 and said.kind not in _SEVERAL:
        raise Bad(said.rest[0], f"'{said.verb.text}' names {len(found)} things", "write one event a line")
    return found


def _groups(tokens: list[Token]) -> list[list[Token]]:
    """The words between `and` and commas."""
    groups: list[list[Token]] = [[]]
    for token in tokens:
        if token.low in JOINERS:
            groups.append([])
        else:
            groups[-1].append(token)
    return [g for g in groups if g]


def _split(names: LogNames, group: list[Token], families: tuple[str, ...], kind: str) -> list[list[Token]]:
    """The group as one name, where it is one; else each word by itself, where each is a name."""
    if len(group) == 1 or not names.known or names.meanings(" ".join(t.text for t in group), families):
        return [group]
    if kind in _SEVERAL and all(names.meanings(t.text, families) for t in group):
        return [[t] for t in group]
    return [group]


def _subject(plan: Plan | None, said: Said, group: list[Token], families: tuple[str, ...], names: LogNames) -> Subject:
    typed = " ".join(t.text for t in group)
    if plan is None:
        return Subject(families[0], "-".join(t.text for t in group).upper(), said.count)
    meant = names.meanings(typed, families)
    if not meant:
        raise _unknown(group, families, names)
    family, name = meant[0] if len(meant) == 1 else _one_of(plan, said, group[0], meant)
    if said.kind in ("rigging", "ready") and family == "shot":
        setup = plan.shots[name].setup
        if setup is None:
            raise Bad(group[0], f"the plan does not say from which setup '{name}' is shot", "name the setup")
        family, name = "setup", setup
    if family in ("shot", "setup"):
        _on_this_day(plan, said, group[0], family, name)
    return Subject(family, name, said.count)


def _unknown(group: list[Token], families: tuple[str, ...], names: LogNames) -> Bad:
    typed = " ".join(t.text for t in group)
    what = {"shot": "shot or setup", "person": "person", "gear": "thing or person", "set": "set"}[families[0]]
    if families == ("setup",):
        what = "setup"
    near = names.near(typed, families) or next((n for t in group if (n := names.near(t.text, families))), "")
    if near:
        return Bad(group[0], f"the plan has no {what} '{typed}'; did you mean '{near}'?", f"write '{near}'")
    return Bad(group[0], f"the plan has no {what} '{typed}'", "use its name in the plan; a remark goes after #")


def _one_of(plan: Plan, said: Said, at: Token, meant: list[Meaning]) -> Meaning:
    """A setup and its only shot of the same name are one; anything else has two meanings."""
    by_family = dict(meant)
    if len(meant) == 2 and set(by_family) == {"shot", "setup"}:
        shots = [s.id for s in plan.shots_of(by_family["setup"])]
        if shots == [by_family["shot"]]:
            return "shot", shots[0]
    words = " or ".join(f"'{said.verb.text} {family} {name}'" for family, name in meant)
    raise Bad(at, f"'{at.text}' means more than one thing in this plan", f"write {words}")


def _on_this_day(plan: Plan, said: Said, at: Token, family: str, name: str) -> None:
    setup = plan.shots[name].setup if family == "shot" else name
    if setup is None or setup not in plan.setups:
        raise Bad(at, f"the plan does not say from which setup '{name}' is shot", "say it in the plan: 'setup:'")
    day = plan.day_of(setup)
    if day != said.day:
        where = f"is shot on day {day}" if day is not None else "is on no day of the plan"
        raise Bad(at, f"'{name}' {where}, and this is the log of day {said.day}",
                  "write 'day' and its name above the first line of each day")  # fmt: skip


class Memory:
    """What is shot and dropped so far, so that a line that cannot be true is met where it stands."""

    def __init__(self, plan: Plan | None) -> None:
        self.plan = plan
        self.done: dict[str, tuple[str, int]] = {}
        self.wrapped = 0
        self.meals = 0

    def check(self, said: Said, found: list[Subject]) -> None:
        """Raises `Bad` where the line cannot be true after those above; else takes note of it."""
        if self.wrapped:
            raise Bad(
                said.verb, f"the day was wrapped in line {self.wrapped}", "take that line out, or begin the next day"
            )
        if said.kind == "wrap":
            self.wrapped = said.line
        if said.kind == "meal-over" and not self.meals:
            raise Bad(said.verb, "no meal has begun above", "write when it began: meal 12:40")
        self.meals = max(0, self.meals + (said.kind == "meal") - (said.kind == "meal-over"))
        for one in found:
            self._shot(said, one)

    def _shot(self, said: Said, one: Subject) -> None:
        takes = self._takes(one)
        ended = [self.done[t] for t in takes if t in self.done]
        whole = len(ended) == len(takes)
        if said.kind in ("rolled", "done", "dropped", "rigging", "ready") and whole:
            how, line = ended[0]
            raise Bad(said.verb, f"'{one.id}' was {how} in line {line}",
                      f"write 'again {one.id}' above, if it is to be shot after all")  # fmt: skip
        if said.kind == "again":
            if not ended:
                raise Bad(said.verb, f"'{one.id}' was neither done nor dropped above", "take the line out")
            for take in takes:
                self.done.pop(take, None)
        if said.kind in ("done", "dropped"):
            for take in takes:
                self.done.setdefault(take, (said.kind, said.line))

    def _takes(self, one: Subject) -> tuple[str, ...]:
        """The shots that a subject stands for; a setup without shots stands for itself."""
        if one.family == "setup" and self.plan is not None:
            return tuple(s.id for s in self.plan.shots_of(one.id)) or (f"setup {one.id}",)
        return (one.id,) if one.family in ("shot", "setup") else ("",)
