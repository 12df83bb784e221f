"""The small values every sheet's view is made of: words ready to print, nothing to compute in a template."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Head:
    """What stands on every page: whose film, which sheet, which day, which version of the plan."""

    title: str
    film: str
    company: str
    version_words: str
    paper: str = "A4"
    language: str = "en"
    day: str = ""
    date: str = ""
    who: str = ""

    @property
    def day_and_date(self) -> str:
        """Day and date in one line for the top of the pages after the first."""
        return " · ".join(words for words in (self.day, self.date) if words)


@dataclass(frozen=True, slots=True)
class Said:
    """Words from the plan; `typical` when nobody decided them and hotset took the usual value."""

    words: str
    typical: bool = False


@dataclass(frozen=True, slots=True)
class Pair:
    """A name and what is said of it."""

    name: str
    words: str
    typical: bool = False


@dataclass(frozen=True, slots=True)
class Mark:
    """An open or accepted finding at the line it is about; `kind` is error, warning or note, `word` says so."""

    kind: str
    word: str
    sentence: str
    way_out: str = ""
    accepted: str = ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One document ready to render; `name` is the file without its ending, `csv` the same as a list where it is one."""

    name: str
    template: str
    head: Head
    view: object
    group: str
    csv: str = ""
