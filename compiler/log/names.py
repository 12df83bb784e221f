"""The names a log can use, found as they are typed: in any case, with blanks for hyphens, people by their own names."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..plan import Plan

Meaning = tuple[str, str]
"""(family, id of the plan)."""


class LogNames:
    """Every name of a plan by how it may be typed; without a plan every word is a shot."""

    def __init__(self, plan: Plan | None) -> None:
        self.known = plan is not None
        self.by_word: dict[str, dict[Meaning, str]] = {}
        if plan is None:
            return
        self._add("shot", plan.shots)
        self._add("setup", plan.setups)
        for visit, whole_setup in plan.parts.items():
            self._put(whole_setup, ("setup", visit))
        self._add("gear", plan.gear)
        self._add("stock", plan.stock)
        self._add("person", plan.people)
        for family, whole in (("set", plan.sets), ("circuit", _circuits(plan))):
            self._add(family, whole)
            for name in whole:
                self._put(name.rsplit("/", 1)[-1], (family, name))
        for person in plan.people.values():
            for word in (person.name or "", *person.plays):
                self._put(word, ("person", person.id))

    def _add(self, family: str, names: Iterable[str]) -> None:
        for name in names:
            self._put(name, (family, name))

    def _put(self, word: str, meaning: Meaning) -> None:
        if word:
            self.by_word.setdefault(key(word), {}).setdefault(meaning, word)

    def words(self) -> set[str]:
        """Every name that is one word, in lower case."""
        return {typed.lower() for found in self.by_word.values() for typed in found.values() if " " not in typed}

    def meanings(self, typed: str, families: Iterable[str]) -> list[Meaning]:
        """What a typed name can mean among these families. Of names that differ in upper and lower case alone, the
        one typed exactly is meant."""
        wanted = tuple(families)
        found = {m: word for m, word in self.by_word.get(key(typed), {}).items() if m[0] in wanted}
        exact = [m for m, word in found.items() if word == typed]
        return exact or list(found)

    def near(self, typed: str, families: Iterable[str]) -> str:
        """The nearest name of these families, or ""."""
        from ..plan.speech import nearest

        wanted = tuple(families)
        names = {word for found in self.by_word.values() for m, word in found.items() if m[0] in wanted}
        return nearest(typed, names)


def key(word: str) -> str:
    """What typed names are compared by: lower case, without blanks, hyphens and underscores."""
    return "".join(c for c in word.lower() if c not in " -_")


def _circuits(plan: Plan) -> tuple[str, ...]:
    return tuple(c.id for place in plan.locations.values() for c in place.circuits.values())
