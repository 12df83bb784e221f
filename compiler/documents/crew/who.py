"""Whom a line of the crew's page is for: departments and people as short tokens, which the page's filter compares."""

from __future__ import annotations

from collections.abc import Iterable
from hashlib import sha256

from ...plan import Plan
from ...plan.person import Person
from ...record import record
from ..view import Pair
from ..words import Words

# The jobs that make up a department, as `works:` of a person may name them. Whoever has another job, such as
# directing, sees what everybody sees.
CRAFTS = {
    "light": ("light", "lights", "lighting", "gaffer", "electric", "electrics", "rigging"),
    "grip": ("grip", "grips", "key-grip", "rigging"),
    "camera": ("camera", "focus", "gimbal", "operator", "cinematography", "data"),
    "sound": ("sound", "boom", "recordist", "mixer"),
    "art": ("art", "props", "dressing", "set-dressing", "production-design"),
    "wardrobe": ("wardrobe", "costume", "make-up", "hair"),
}


@record
class Who:
    """The people of a day by token. `works` maps a department to the tokens of those who work in it."""

    plan: Plan
    here: tuple[str, ...]

    def crafts(self, *crafts: str, people: Iterable[str] = ()) -> str:
        """Tokens of these departments, of all who work in them, and of these people besides."""
        found = [*crafts]
        found += [token(name) for name in self.here if any(works_in(self.plan.people[name], c) for c in crafts)]
        return " ".join(dict.fromkeys([*found, *(token(name) for name in people)]))

    def crew(self, cast: Iterable[str] = ()) -> str:
        """Tokens of every department, of everybody who works, and of these of the cast."""
        wanted = set(cast)
        return self._all(name for name in self.here if self.works(name) or name in wanted)

    def one(self, person: str) -> str:
        """Tokens for a line about one person: every department sees it, and of the people only they."""
        return self._all((person,))

    def works(self, person: str) -> bool:
        """Whether somebody is there to work: whoever only plays is shown their own setups."""
        known = self.plan.people[person]
        return bool(known.works) or not known.plays

    def _all(self, people: Iterable[str]) -> str:
        return " ".join([*CRAFTS, *(token(name) for name in people)])


def names(words: Words) -> tuple[Pair, ...]:
    """Every department by token and name."""
    _ = words
    return (
        Pair("light", _("Light")), Pair("grip", _("Grip")), Pair("camera", _("Camera")), Pair("sound", _("Sound")),
        Pair("art", _("Art and props")), Pair("wardrobe", _("Wardrobe and make-up")),
    )  # fmt: skip


def works_in(person: Person, craft: str) -> bool:
    """Whether one of a person's jobs belongs to a department."""
    return any(job.lower().replace(" ", "-") in CRAFTS[craft] for job in person.works)


def token(person: str) -> str:
    """A person's token: the same in every version of the plan, and safe inside any attribute whatever the id holds."""
    return "p" + sha256(person.encode("utf-8")).hexdigest()[:10]
