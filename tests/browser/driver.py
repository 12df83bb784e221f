"""A real browser for the tests: found on the machine, driven headless, never downloaded.

The driving package is imported only when a browser is wanted, so that the other tests, and the type checker, need
neither it nor a browser. What is used of it is written down here as protocols.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from importlib import import_module
from importlib.resources import files
from pathlib import Path
from typing import Any, Protocol

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "microsoft-edge")
ASK = "HOTSET_BROWSER"
PHONE = (390, 844)
DESK = (1280, 900)
SIZES = {"phone": PHONE, "desk": DESK}


class Keyboard(Protocol):
    """Keys."""

    def press(self, key: str) -> None: ...


class Page(Protocol):
    """A tab."""

    @property
    def keyboard(self) -> Keyboard: ...

    def goto(self, url: str) -> object: ...
    def reload(self) -> object: ...
    def evaluate(self, expression: str, arg: object = None) -> Any: ...
    def click(self, selector: str) -> None: ...
    def select_option(self, selector: str, *, label: str) -> object: ...
    def wait_for_function(self, expression: str) -> object: ...
    def emulate_media(self, **features: str) -> None: ...
    def pdf(self, *, prefer_css_page_size: bool) -> bytes: ...
    def on(self, event: str, handler: Callable[[Any], object]) -> None: ...
    def close(self) -> None: ...


class Context(Protocol):
    """A device with its own memory."""

    def new_page(self) -> Page: ...
    def add_init_script(self, *, script: str) -> None: ...
    def close(self) -> None: ...


class Browser(Protocol):
    """The browser."""

    def new_context(self, **settings: Any) -> Context: ...


def place() -> str:
    """Where the browser is: the one named in HOTSET_BROWSER, or the first of the usual names on the path."""
    asked = os.environ.get(ASK)
    found = shutil.which(asked) if asked else next((p for name in NAMES if (p := shutil.which(name))), None)
    if found is None:
        raise RuntimeError(
            f"there is no browser {asked!r}: name another in {ASK}" if asked
            else f"there is no browser on this machine: install chromium, or name one in {ASK}"
        )
    return found


@contextmanager
def opened() -> Iterator[Browser]:
    """The browser, headless, closed again afterwards."""
    playwright: Any = import_module("playwright.sync_api")
    with playwright.sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=place(), headless=True)
        try:
            yield browser
        finally:
            browser.close()


class Watched:
    """A page with everything it said on the console and everything it asked for beyond its own file."""

    def __init__(self, context: Context, file: Path, fragment: str = "") -> None:
        self.context = context
        self.page = context.new_page()
        self.said: list[str] = []
        self.asked: list[str] = []
        self.page.on("console", lambda message: self.said.append(str(message.text)))
        self.page.on("pageerror", lambda error: self.said.append(str(error)))
        self.page.on("dialog", lambda dialog: self.said.append(f"dialog: {dialog.message}"))
        self.page.on("request", lambda request: self.asked.append(str(request.url)))
        self.address = file.as_uri() + fragment
        self.page.goto(self.address)

    def says(self) -> str:
        """The sentence of what comes next."""
        return str(self.page.evaluate("document.getElementById('sentence').textContent")).translate(UNSEEN)

    def run(self, script: str, arg: object = None) -> Any:
        """What a script gives in the page."""
        return self.page.evaluate(script, arg)

    def open_all(self) -> None:
        """Opens every setup of the crew's page."""
        self.run("document.querySelectorAll('.shut h2 button').forEach(b => b.click())")

    def quiet(self) -> None:
        """Nothing went wrong, and nothing but `data:` and the file itself was asked for."""
        outside = [url for url in self.asked if not url.startswith("data:") and url != self.address.split("#")[0]]
        assert (self.said, outside) == ([], [])


UNSEEN = {0x2068: None, 0x2069: None}  # the signs that keep a name's direction to itself


@cache
def axe() -> str:
    """The script of axe-core, out of the package that ships it."""
    return (files("axe_playwright_python") / "axe.min.js").read_text("utf-8")


WCAG = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa")


def faults(watched: Watched, *, rules: tuple[str, ...] = WCAG, also: tuple[str, ...] = ()) -> list[str]:
    """What axe-core finds against WCAG 2.2 AA, and against these rules besides: rule and first place of each."""
    watched.run(axe())
    found: list[str] = []
    for asked in ({"type": "tag", "values": list(rules)}, {"type": "rule", "values": list(also)}):
        if asked["values"]:
            result = watched.run("asked => axe.run({runOnly: asked})", asked)
            found += [f"{v['id']}: {v['nodes'][0]['html'][:160]} ({len(v['nodes'])})" for v in result["violations"]]
    return found
