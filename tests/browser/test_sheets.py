"""Every HTML sheet of the example in a real browser: nothing against WCAG 2.2 AA, no sideways scrolling on a phone,
nothing asked for, nothing complained of."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from .driver import SIZES, Context, Watched, faults

pytestmark = pytest.mark.browser

BEST = ("landmark-one-main", "region", "heading-order", "page-has-heading-one", "empty-table-header", "empty-heading")


def pages(out: Path) -> list[Path]:
    """Every sheet, and of the setup cards, which are many alike, every third."""
    cards = sorted(out.rglob("setup-*.html"))
    return [path for path in sorted(out.rglob("*.html")) if path not in cards or cards.index(path) % 3 == 0]


@pytest.mark.parametrize("size", SIZES)
def test_nothing_against_the_guidelines(out: Path, device: Callable[..., Context], size: str) -> None:
    found: dict[str, list[str]] = {}
    context = device(size)
    assert len(pages(out)) > 10
    for path in pages(out):
        watched = Watched(context, path)
        said = faults(watched, also=BEST)
        watched.quiet()
        watched.page.close()
        if said:
            found[path.relative_to(out).as_posix()] = said
    assert found == {}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_phone_scrolls_only_down(out: Path, device: Callable[..., Context], scheme: str) -> None:
    context = device("phone", color_scheme=scheme)
    wide = {}
    for path in pages(out):
        watched = Watched(context, path)
        width = watched.run("document.documentElement.scrollWidth")
        if width > SIZES["phone"][0]:
            wide[path.relative_to(out).as_posix()] = width
        watched.page.close()
    assert wide == {}


def test_the_index_leads_everywhere(out: Path, device: Callable[..., Context]) -> None:
    watched = Watched(device("desk"), out / "index.html")
    links = [str(link) for link in watched.run("[...document.links].map(a => decodeURIComponent(a.pathname))")]
    assert {Path(link) for link in links} >= set(out.rglob("*.html")) - {out / "index.html"}
    watched.quiet()
