"""The example and an invented morning built once, and one browser for all tests of this folder."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from hotset.documents import build
from hotset.pipeline import compile_plan

from .driver import SIZES, Browser, Context, Watched, opened

ROOT = Path(__file__).resolve().parents[2]
MORNING = Path(__file__).parent / "morning.yaml"
EXAMPLE = ROOT / "examples" / "last-boat" / "plan.yaml"
Opener = Callable[..., Watched]


@pytest.fixture(scope="session")
def out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Every sheet of the example, as HTML."""
    folder = tmp_path_factory.mktemp("example")
    build(compile_plan([str(EXAMPLE)]), folder, pdf=False)
    return folder


@pytest.fixture(scope="session")
def early(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The crew's page of a plan that is made for these tests, whose times no one else changes."""
    folder = tmp_path_factory.mktemp("morning")
    build(compile_plan([str(MORNING)]), folder, only=["crew"])
    return folder / "day-1" / "crew.html"


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with opened() as found:
        yield found


@pytest.fixture
def device(browser: Browser) -> Iterator[Callable[..., Context]]:
    """Makes a device of a size, with a memory of its own; further settings as the browser knows them."""
    made: list[Context] = []

    def make(size: str = "phone", **settings: Any) -> Context:
        width, height = SIZES[size]
        context = browser.new_context(viewport={"width": width, "height": height}, offline=True, **settings)
        made.append(context)
        return context

    yield make
    for context in made:
        context.close()


@pytest.fixture
def crew(out: Path, device: Callable[..., Context]) -> Opener:
    """Opens the crew's page of the example on a device of a size."""

    def open_on(size: str = "phone", **settings: Any) -> Watched:
        return Watched(device(size, **settings), out / "day-1" / "crew.html")

    return open_on


@pytest.fixture
def morning(early: Path, device: Callable[..., Context]) -> Opener:
    """Opens the crew's page of the invented morning on a device of a size."""

    def open_on(size: str = "phone", **settings: Any) -> Watched:
        return Watched(device(size, **settings), early)

    return open_on
