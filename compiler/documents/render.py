"""Fills the templates: a view in, one self-contained HTML page out."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from .view import Sheet
from .words import Words

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup


def render_html(sheet: Sheet, words: Words) -> str:
    """The page of a sheet. Everything from the plan is escaped; only the project's own drawings go in as they are."""
    template = environment(words).get_template(f"{sheet.document}/sheet.html.j2")
    return template.render(head=sheet.head, sheet=sheet.make()).translate(UNSEEN) + "\n"


LONG, PIECE = 24, 12  # letters of a word that is broken, and of what stays together in it: a narrow column takes that
# Signs that turn the direction of what follows them, and control signs: on a sheet a name stays where it is written.
UNSEEN = dict.fromkeys([*range(9), 11, 12, *range(14, 32), *range(127, 160), *range(0x202A, 0x202F),
                        *range(0x2066, 0x206A)])  # fmt: skip


@cache
def environment(words: Words) -> Environment:
    """Templates of the package with autoescape always on and unknown names refused."""
    from jinja2 import Environment, FunctionLoader, StrictUndefined
    from markupsafe import Markup

    from .kept import Kept

    env = Environment(
        loader=FunctionLoader(_source), autoescape=True, undefined=StrictUndefined, trim_blocks=True,
        lstrip_blocks=True, auto_reload=False, finalize=_breakable, bytecode_cache=Kept(str(files("hotset.templates"))),
    )
    env.globals["_"] = words
    env.globals["style"] = Markup(_source("style.css"))
    env.filters["css"] = css_text
    env.filters["link"] = _link
    return env


def css_text(text: str) -> str:
    """Text safe inside a quoted string of a style sheet within HTML: all but plain letters and digits in hex."""
    return "".join(c if c.isascii() and c.isalnum() else f"\\{ord(c):x} " for c in text)


def _link(path: str) -> Markup:
    """A file of ours as a link; nothing is put into it to break lines."""
    from urllib.parse import quote

    from markupsafe import Markup

    return Markup(quote(path))


def _breakable(value: object) -> object:
    """Very long words get places where a line may end: what sticks out sideways would shrink the whole sheet."""
    if type(value) is not str or len(value) < LONG:
        return value
    return " ".join(
        "\u200b".join(word[i : i + PIECE] for i in range(0, len(word), PIECE)) if len(word) > LONG else word
        for word in value.split(" ")
    )


def _source(name: str) -> str:
    path = files("hotset.templates")
    for part in name.split("/"):
        path = path / part
    return path.read_text("utf-8")
