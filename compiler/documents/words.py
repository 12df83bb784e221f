"""The catalogue of fixed words: everything a sheet says that is not from the plan goes through it.

English is written in the sheets themselves; another language is `templates/words/<language>/LC_MESSAGES/hotset.mo`.
"""

from __future__ import annotations

import gettext
import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import as_file, files

from ..record import record


@record
class Words:
    """Fixed words in one language. Call it with the English words: `_("call time")`, `_("{n} lamps", n=3)`."""

    language: str
    catalogue: gettext.NullTranslations

    def __call__(self, english: str, /, **values: object) -> str:
        said = self.catalogue.gettext(english)
        return said.format(**values) if values else said

    def count(self, one: str, many: str, n: int, /, **values: object) -> str:
        """The form for `n` things; `{n}` in the words is the number."""
        return self.catalogue.ngettext(one, many, n).format(n=n, **values)


@cache
def rule_titles(language: str) -> Mapping[str, str]:
    """What each rule is called in a language, by the rule; empty for English, which the findings speak anyway."""
    path = files("hotset.templates") / "words" / f"rules.{language}.json"
    if not path.is_file():
        return {}
    titles: dict[str, str] = json.loads(path.read_text("utf-8"))
    return titles


@cache
def words_for(language: str = "en", folder: str | None = None) -> Words:
    """The words of a language; English where `folder` (by default the package's own) has no catalogue for it."""
    with as_file(files("hotset.templates") / "words") as own:
        found = gettext.translation("hotset", folder or own, [language], fallback=True)
    return Words(language if isinstance(found, gettext.GNUTranslations) else "en", found)
