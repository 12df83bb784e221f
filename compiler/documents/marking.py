"""Which findings stand at which line of a sheet."""

from __future__ import annotations

from itertools import pairwise

from ..findings import Finding
from . import on_set
from .say import Say
from .shoot import Shoot
from .view import Mark
from .words import rule_titles


class Marking:
    """The findings of a shoot by the path of the plan that they are about."""

    def __init__(self, shoot: Shoot, say: Say) -> None:
        _ = say.words
        names = {"error": _("Cannot be as planned"), "warning": _("Look at this"), "note": _("Note")}
        titles = rule_titles(_.language)
        rows: list[tuple[set[str], Mark]] = []
        self._own: list[tuple[str, Mark]] = []
        for finding in shoot.findings:
            mark = Mark(finding.severity, names[finding.severity], said(on_set.sentence(finding)),
                        said(on_set.way_out(finding)), "", titles.get(finding.rule, ""), finding.rule)  # fmt: skip
            rows.append((_paths(finding), mark))
            self._own.append((finding.place.path, mark))
        for finding, taken in shoot.accepted:
            who = ", ".join(say.person(name) for name in taken.agreed_by)
            why = _("{reason} (agreed by {who})", reason=taken.because or "", who=who) if who else taken.because or ""
            mark = Mark(finding.severity, names[finding.severity], said(on_set.sentence(finding)), accepted=why,
                        title=titles.get(finding.rule, ""), rule=finding.rule)  # fmt: skip
            rows.append((_paths(finding), mark))
            self._own.append((finding.place.path, mark))
        self._rows = rows

    def at(self, *paths: str) -> tuple[Mark, ...]:
        """Findings at exactly one of these paths."""
        wanted = set(paths)
        return tuple(dict.fromkeys(mark for found, mark in self._rows if wanted & found))

    def about(self, *paths: str) -> tuple[Mark, ...]:
        """Findings that stand at exactly one of these paths, without those that only mention it."""
        return tuple(dict.fromkeys(mark for path, mark in self._own if path in paths))

    def under(self, *paths: str) -> tuple[Mark, ...]:
        """Findings at one of these paths or at anything below it."""
        return tuple(
            dict.fromkeys(
                mark
                for found, mark in self._rows
                if any(f == path or f.startswith(path + ".") for f in found for path in paths)
            )
        )

    def all(self) -> tuple[Mark, ...]:
        """Every finding once, in the order of the plan's text."""
        return tuple(dict.fromkeys(mark for _, mark in self._rows))


def once(marks: tuple[Mark, ...], seen: set[Mark]) -> tuple[Mark, ...]:
    """Those that the sheet has not said yet; they are noted as said."""
    fresh = tuple(mark for mark in marks if mark not in seen)
    seen.update(fresh)
    return fresh


def said(sentence: str) -> str:
    """A finding's sentence with no-break spaces between numbers and their units, so that no line ends on a number."""
    words = sentence.split(" ")
    out = words[0]
    for before, word in pairwise(words):
        number = before[:1].isdigit() and before[-1:].isdigit()
        out += ("\u00a0" if number and word[:1].isalpha() and len(word.rstrip(",.;:)")) <= 4 else " ") + word
    return out


def _paths(finding: Finding) -> set[str]:
    return {finding.place.path, *(related.place.path for related in finding.related)} - {""}
