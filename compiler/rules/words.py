"""What rules share: a finding in one line, names and numbers in the words of the crew, one cause said once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..facts.hours import full_minute
from ..findings import Finding, Place, Related

if TYPE_CHECKING:
    from collections.abc import Iterable

    from ..findings import Severity
    from ..plan import Plan

Details = tuple[tuple[str, str | int | float], ...]
AGREED = "an agreed order (`hotset order --write` makes one)"


def finding(
    plan: Plan,
    rule: tuple[str, Severity],
    path: str,
    sentence: str,
    ways_out: tuple[str, ...],
    details: Details = (),
    *,
    also: Iterable[tuple[str, str]] = (),
    typical: tuple[str, ...] = (),
) -> Finding:
    """A finding at a path of the plan; `also` are further paths with their words."""
    related = tuple(Related(plan.where(p), words) for p, words in also)
    kept = tuple((name, value) for name, value in details if value != "")
    return Finding(rule[0], rule[1], sentence, plan.where(_without_index(plan, path)), related, ways_out, kept, typical)


def _without_index(plan: Plan, path: str) -> str:
    """The path without its last step where that counts the items of a list and one value stands there alone."""
    front, _, last = path.rpartition(".")
    return front if last.isdigit() and plan.value_at(path) is None and plan.value_at(front) is not None else path


class Once:
    """Lets every place of the text speak once: what setups inherit stands in one place and is one cause."""

    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self._seen: set[Place] = set()

    def __call__(self, path: str, words: str = "") -> bool:
        """Whether nothing was said yet at this place (with these words)."""
        at = self._plan.where(path)
        mark = Place(at.file, at.line, at.column, words)
        if mark in self._seen:
            return False
        self._seen.add(mark)
        return True


def quoted(names: Iterable[str], last: str = "and", most: int = 4) -> str:
    """'a', 'b' and 'c'; more than `most` end in "3 more"."""
    said = [f"'{n}'" for n in dict.fromkeys(names)]
    if len(said) > most:
        said = [*said[: most - 1], f"{len(said) - most + 1} more"]
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} {last} {said[-1]}" if said else ""


def counted(number: int, word: str, many: str = "") -> str:
    """1 lamp, 2 lamps."""
    return f"{number} {word if number == 1 else many or word + 's'}"


def clock(half_minutes: float) -> str:
    """07:30; past midnight it goes on as the clock shows it, with the word that says so."""
    whole = full_minute(round(half_minutes))
    day, rest = divmod(whole, 2880)
    text = f"{rest // 120:02d}:{rest % 120 // 2:02d}"
    return f"{text} the day after" if day == 1 else text


def span(half_minutes: float) -> str:
    """40 min, 1 h 30 min."""
    minutes = round(half_minutes / 2)
    hours, rest = divmod(minutes, 60)
    return " ".join([f"{hours} h"] * (hours > 0) + [f"{rest} min"] * (rest > 0 or not hours))


def written(plan: Plan, path: str) -> bool:
    """Whether anything stands at this path: what is written but could not be read has been reported already."""
    return plan.value_at(path) is not None
