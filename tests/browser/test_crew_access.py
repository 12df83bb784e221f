"""The crew's page for everybody: keyboard alone, screen readers, contrast, large targets, nothing that moves."""

from __future__ import annotations

import pytest

from .conftest import Opener
from .driver import SIZES, WCAG, faults

pytestmark = pytest.mark.browser

TARGET = 44.0  # CSS pixels: WCAG 2.2, success criterion 2.5.5 (AAA); AA asks for 24
CONTRAST = 7.0  # WCAG 2.2, success criterion 1.4.6 (AAA); AA asks for 4.5
BEST = ("landmark-one-main", "region", "heading-order", "page-has-heading-one", "label-title-only", "empty-heading")

# Relative luminance and contrast as WCAG 2.2 defines them, for every text that can be seen, drawings included; the
# ground is the nearest ancestor that has one, or black, the ground of the page, under a drawing.
LOW = """least => {
  const parts = c => c.match(/[\\d.]+/g).map(Number);
  const lum = c => { const [r, g, b] = parts(c).map(v => v / 255).map(v => v <= 0.04045 ? v / 12.92 :
    ((v + 0.055) / 1.055) ** 2.4); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
  const ground = e => { for (; e; e = e.parentElement) { const c = getComputedStyle(e).backgroundColor;
    if ((parts(c)[3] ?? 1) > 0) return c; } return 'rgb(0, 0, 0)'; };
  const low = [];
  for (const e of document.querySelectorAll('body *')) {
    const own = [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim());
    if (!own || !e.checkVisibility() || ['SCRIPT', 'STYLE', 'title', 'desc'].includes(e.tagName)) continue;
    if (e.tagName === 'text' && getComputedStyle(e).fill === 'rgb(0, 0, 0)') continue;
    const ink = lum(getComputedStyle(e)[e.tagName === 'text' ? 'fill' : 'color']), under = lum(ground(e));
    const ratio = (Math.max(ink, under) + 0.05) / (Math.min(ink, under) + 0.05);
    if (ratio < least) low.push([ratio.toFixed(2), e.tagName, e.textContent.trim().slice(0, 40)]);
  }
  return low;
}"""


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("state", ["fresh", "open", "ticked", "narrowed"])
def test_nothing_against_the_guidelines(crew: Opener, size: str, state: str) -> None:
    watched = crew(size)
    if state != "fresh":
        watched.open_all()
    if state == "ticked":
        watched.run("document.querySelectorAll('input').forEach((box, n) => { if (n % 2) box.click(); })")
    if state == "narrowed":
        watched.page.select_option("#show", label="Ines")
    assert faults(watched, rules=(*WCAG, "wcag2aaa"), also=BEST) == []


def test_contrast_of_every_text(crew: Opener) -> None:
    watched = crew()
    watched.open_all()
    watched.run("document.querySelectorAll('input').forEach((box, n) => { if (n % 2) box.click(); })")
    assert watched.run(LOW, CONTRAST) == []
    assert len(watched.run(LOW, 99.0)) > 500  # the measure does see the page


def test_drawings_take_the_ink_of_the_page(crew: Opener) -> None:
    """White on black inside every drawing: what was black is the page's ink, what was white its ground."""
    watched = crew()
    watched.open_all()
    inks = watched.run("""[...new Set([...document.querySelectorAll('svg [fill="#000"], svg [stroke="#000"]')]
        .map(e => getComputedStyle(e)[e.getAttribute('fill') === '#000' ? 'fill' : 'stroke']))]""")
    grounds = watched.run("""[...new Set([...document.querySelectorAll('svg [fill="#fff"]')]
        .map(e => getComputedStyle(e).fill))]""")
    assert inks == [watched.run("getComputedStyle(document.body).color")]
    assert grounds == ["rgb(0, 0, 0)"]


@pytest.mark.parametrize("size", SIZES)
def test_targets_are_large(crew: Opener, size: str) -> None:
    watched = crew(size)
    watched.open_all()
    watched.run("document.querySelectorAll('.roll input')[5].click()")  # so that both links are there
    small = watched.run("""least => [...document.querySelectorAll('button, select, .stretch label, .next a')]
        .filter(e => e.checkVisibility()).map(e => [e.getBoundingClientRect(), e.textContent.trim().slice(0, 30)])
        .filter(([r]) => r.height < least || r.width < least).map(([r, words]) => [r.width, r.height, words])""",
        TARGET)
    assert small == []


def test_text_is_large_enough_for_an_arms_length(crew: Opener) -> None:
    watched = crew()
    watched.open_all()
    sizes = watched.run("""[...document.querySelectorAll('body *')].filter(e => e.checkVisibility() &&
        !e.closest('svg') && [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim()))
        .map(e => parseFloat(getComputedStyle(e).fontSize))""")
    assert min(sizes) >= 15.0
    assert sum(size >= 17.0 for size in sizes) > 0.6 * len(sizes)
    drawn = watched.run("""[...document.querySelectorAll('svg')].map(s =>
        9 * s.getBoundingClientRect().width / s.viewBox.baseVal.width)""")  # nothing is drawn smaller than 9
    assert min(drawn) >= 12.0


def test_by_keyboard_alone(morning: Opener) -> None:
    watched = morning("desk")
    press = watched.page.keyboard.press
    at = "document.activeElement.id || document.activeElement.dataset.name || document.activeElement.textContent"

    press("Tab")
    assert watched.run("document.activeElement.className") == "skip"
    assert watched.run("document.activeElement.getBoundingClientRect().left") >= 0
    press("Tab")
    assert watched.run(at) == "show"
    press("Tab")
    assert watched.run(at) == "sentence"
    press("Enter")
    assert watched.run(at) == "Call and load-in"
    press("Space")
    assert watched.says().startswith("Next: Window, Stove and 4 more")
    press("Tab")
    assert "Kitchen wide" in watched.run(at)
    assert watched.run("document.activeElement.getAttribute('aria-expanded')") == "false"
    press("Enter")
    assert watched.run("document.activeElement.getAttribute('aria-expanded')") == "true"
    press("Tab")
    press("Space")
    assert watched.run(at) == "Window"
    assert watched.run("document.activeElement.checked")
    press("Shift+Tab")
    press("Space")
    press("Tab")
    assert "Kitchen close" in watched.run(at)  # a closed setup is passed over


def test_focus_can_be_seen_and_is_not_hidden(crew: Opener) -> None:
    watched = crew()
    watched.open_all()
    hidden = []
    for _ in range(60):
        watched.page.keyboard.press("Tab")
        width, top, bottom, bar, words = watched.run("""(e => { const r = e.getBoundingClientRect();
            return [parseFloat(getComputedStyle(e).outlineWidth), r.top, r.bottom,
              e.closest('.next, .top, .skip') ? 0 : document.querySelector('.next').getBoundingClientRect().bottom,
              e.dataset.name || e.textContent]; })(document.activeElement)""")
        if width < 2 or top < bar - 1 or bottom > SIZES["phone"][1]:
            hidden.append((words, width, top, bottom, bar))
    assert hidden == []


def test_landmarks_and_names(crew: Opener) -> None:
    watched = crew()
    marks = watched.run("['header', 'main', 'footer', '[role=status]'].map(s => document.querySelectorAll(s).length)")
    assert marks == [1, 1, 1, 1]
    nameless = watched.run("""[...document.querySelectorAll('section')].filter(s => !s.ariaLabel &&
        !document.getElementById(s.getAttribute('aria-labelledby'))?.textContent.trim()).length""")
    assert nameless == 0
    assert watched.run("[...document.querySelectorAll('input')].every(i => i.labels.length === 1)")
    assert watched.run("[...document.querySelectorAll('svg')].every(s => s.querySelector('title, desc').textContent)")


def test_nothing_moves(crew: Opener) -> None:
    for wish in ("reduce", "no-preference"):
        watched = crew(reduced_motion=wish)
        watched.page.click("h2 button")
        assert watched.run("document.getAnimations().length") == 0
        assert watched.run("""[...document.querySelectorAll('*')].every(e => { const s = getComputedStyle(e);
            return s.transitionDuration === '0s' && s.animationName === 'none' && s.scrollBehavior === 'auto'; })""")
