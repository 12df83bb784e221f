"""The small values every sheet's view is made of: words ready to print, nothing to compute in a template."""

from __future__ import annotations

from collections.abc import Callable

from ..record import record


@record
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


@record
class Said:
    """Words from the plan; `typical` when nobody decided them and hotset took the usual value."""

    words: str
    typical: bool = False


@record
class Pair:
    """A name and what is said of it."""

    name: str
    words: str
    typical: bool = False


@record
class Mark:
    """An open or accepted finding at the line it is about; `kind` is error, warning or note, `word` says so.

    `title` is the short name of what was found, on sheets in another language than the sentence, which is quoted there;
    `own` words are the sheet's, in its language.
    """

    kind: str
    word: str
    sentence: str
    way_out: str = ""
    accepted: str = ""
    title: str = ""
    rule: str = ""
    own: bool = False


@record
class Sheet:
    """One sheet to be made. `document` names its kind and template folder, `file` its place without an ending.

    `make` gives the view, `csv` the same as a list for spreadsheets; `people` are the ids of those it is for, none
    for everybody; without `pdf` it is for the screen of a phone, and its HTML prints by itself. With `text` it is no
    page at all but a file of its own kind, which `ending` names.
    """

    document: str
    file: str
    head: Head
    make: Callable[[], object]
    day: str = ""
    people: tuple[str, ...] = ()
    csv: Callable[[], str] | None = None
    pdf: bool = True
    text: Callable[[], str] | None = None
    ending: str = "html"
