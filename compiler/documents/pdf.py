"""HTML to PDF behind one function, so that the engine can be changed in one place.

The same HTML gives the same bytes on every machine and every day: no system fonts, no dates, no files, no network.
"""

from __future__ import annotations

import io
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from importlib.resources import files
from threading import Lock
from typing import Literal

Paper = Literal["A4", "Letter"]
FACES = ("HotsetSans-Regular.ttf", "HotsetSans-Bold.ttf")
FONT_BASE = "hotset:/fonts/"
# Added for the PDF alone: the HTML file uses the reader's own sans and stays small. A name that is not listed here
# would print nothing at all, so drawings are held to the bundled face as well.
PDF_STYLE = (
    "".join(
        f'@font-face{{font-family:"Hotset Sans";font-weight:{weight};src:url({FONT_BASE}{face})}}'
        for weight, face in zip((400, 700), FACES, strict=True)
    )
    + 'html,body,svg,svg *{font-family:"Hotset Sans"}'
)


# Two pages at once can wait for each other for ever: to forget a face the engine holds its own lock and asks for
# Python's, while the other page holds Python's and asks for the engine's.
_ONE = Lock()


class ReachedOut(RuntimeError):
    """A sheet tried to load something from outside; a fault of the templates, never of the plan."""

    def __init__(self, addresses: tuple[str, ...]) -> None:
        super().__init__("a sheet may load nothing from outside, yet it asked for " + ", ".join(addresses))
        self.addresses = addresses


def unavailable() -> str | None:
    """Why no PDF can be made here, in words, or None when it can."""
    try:
        import plutoprint  # noqa: F401
    except (ImportError, OSError) as error:
        return f"no PDF on this machine, the package 'plutoprint' cannot be loaded ({error}): print the HTML sheets"
    return None


def to_pdf(html: str, paper: Paper = "A4") -> bytes:
    """The PDF of one self-contained HTML page.

    `html` must carry a `</head>`; title and author of the PDF come from it. Raises ReachedOut when the page asks
    for anything but `data:` addresses and the bundled faces. Other threads may go on meanwhile; pages are printed one
    at a time.
    """
    with _ONE:
        return _printed(html, paper)


def _printed(html: str, paper: Paper) -> bytes:
    """The page goes to the printer and is forgotten there before this returns."""
    import plutoprint

    asked: list[str] = []

    class Deny(plutoprint.ResourceFetcher):
        """Serves the bundled faces and nothing else; raising inside the engine would only print a traceback."""

        def fetch_url(self, url: str) -> plutoprint.ResourceData:
            if url.startswith(FONT_BASE) and url.removeprefix(FONT_BASE) in FACES:
                return plutoprint.ResourceData(_face(url.removeprefix(FONT_BASE)), "font/ttf", "")
            asked.append(url)
            return plutoprint.ResourceData(b"", "text/plain", "utf-8")

    _no_system_fonts()
    size = plutoprint.PAGE_SIZE_LETTER if paper == "Letter" else plutoprint.PAGE_SIZE_A4
    book = plutoprint.Book(size, plutoprint.PAGE_MARGINS_NONE)
    book.custom_resource_fetcher = Deny()
    page = html.replace("</head>", f"<style>{PDF_STYLE}</style></head>", 1)
    # Without a base address links inside the page do not resolve.
    book.load_html(page, base_url="hotset:/sheet.html")
    for field in (plutoprint.PDF_METADATA_CREATION_DATE, plutoprint.PDF_METADATA_MODIFICATION_DATE):
        book.set_metadata(field, "")
    out = io.BytesIO()
    book.write_to_pdf_stream(out)
    if asked:
        raise ReachedOut(tuple(dict.fromkeys(asked)))
    return out.getvalue()


@contextmanager
def side_by_side() -> Iterator[None]:
    """While this lasts a page is printed beside the one that is being written.

    The engine needs Python for a moment many times a page; at the usual 5 ms of waiting it would get nowhere.
    """
    usual = sys.getswitchinterval()
    sys.setswitchinterval(min(usual, 0.0002))
    try:
        yield
    finally:
        sys.setswitchinterval(usual)


def not_in_face(text: str) -> str:
    """The characters of `text` that the bundled face cannot draw, each once, in order of appearance."""
    ranges = _coverage()
    return "".join(
        c for c in dict.fromkeys(text) if not c.isspace() and not any(low <= ord(c) <= high for low, high in ranges)
    )


@cache
def _no_system_fonts() -> None:
    """Points the engine at an empty list of fonts; it must happen before the first page and once is enough."""
    import plutoprint

    plutoprint.plutobook_set_fontconfig_path(str(files("hotset.templates") / "fonts"))


@cache
def _face(name: str) -> bytes:
    return (files("hotset.templates") / "fonts" / name).read_bytes()


@cache
def _coverage() -> tuple[tuple[int, int], ...]:
    return tuple(_ranges((files("hotset.templates") / "fonts" / "coverage.txt").read_text("ascii")))


def _ranges(text: str) -> Iterator[tuple[int, int]]:
    for line in text.split():
        low, _, high = line.partition("-")
        yield int(low, 16), int(high, 16)
