"""The crew's page in a real browser: ticks, filter, memory, the sentence; without scripts, without memory, on paper."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from statistics import median

import pytest
from hotset.documents import build
from hotset.pipeline import compile_plan

from .conftest import MORNING, Opener
from .driver import SIZES, Context, Watched

pytestmark = pytest.mark.browser

OPEN_MS = 300
TICK = """name => [...document.querySelectorAll('input')].find(box => box.dataset.name === name &&
    !box.closest('[hidden]')).click()"""


def tick(watched: Watched, *names: str) -> None:
    """Ticks or unticks the first line of each name that the filter shows."""
    for name in names:
        watched.run(TICK, name)


def ticked(watched: Watched) -> list[str]:
    return [str(n) for n in watched.run("[...document.querySelectorAll('input:checked')].map(i => i.dataset.name)")]


def shown(watched: Watched, selector: str) -> list[str]:
    """The words of all elements that can be seen, blanks single."""
    script = """selector => [...document.querySelectorAll(selector)].filter(e => e.checkVisibility())
        .map(e => e.innerText.replace(/\\s+/g, ' ').trim())"""
    return [str(words) for words in watched.run(script, selector)]


@pytest.mark.parametrize("size", SIZES)
def test_it_opens_quietly_and_fits(crew: Opener, size: str) -> None:
    watched = crew(size)
    assert watched.run("document.documentElement.scrollWidth") == SIZES[size][0]
    watched.open_all()
    assert watched.run("document.documentElement.scrollWidth") == SIZES[size][0]
    watched.quiet()


def test_it_opens_at_once(crew: Opener) -> None:
    """Median of five openings from disk, until everything has run."""
    watched = crew()
    times = []
    for _ in range(5):
        watched.page.reload()
        times.append(float(watched.run("performance.getEntriesByType('navigation')[0].loadEventEnd")))
    assert 0 < median(times) < OPEN_MS, times


def test_the_sentence_follows_the_ticks(morning: Opener) -> None:
    watched = morning()
    assert watched.says() == "Next: call at 07:30, everything carried in by 08:10."
    tick(watched, "Call and load-in")
    assert watched.says() == "Next: Window, Stove and 4 more for Kitchen wide, ready by 08:30."
    tick(watched, "Window", "Camera", "Sound", "flour on the table")
    assert watched.says() == "Next: Stove and BAKER for Kitchen wide, ready by 08:30."
    tick(watched, "Stove")
    assert watched.says() == "Next: BAKER for Kitchen wide, ready by 08:30."
    tick(watched, "BAKER")
    assert watched.says() == "Next: 1A from Kitchen wide, rolling by 08:30, 08:43 at the latest."
    tick(watched, "1A", "1B")
    # 1B should take 8 minutes from 09:00 on; what was passed over is told apart.
    assert watched.says() == "Next: 1C from Kitchen close, rolling by 09:08."
    assert shown(watched, "#above") == ["still open above: 1"]
    tick(watched, "1C")
    assert watched.says() == "Next: meal at 09:22, back by 10:02."
    tick(watched, "1C", "1B")
    assert watched.says() == "Next: Camera for Kitchen close, ready by 09:00."
    assert shown(watched, "#above") == []
    tick(watched, "Meal", "Move to Shed", "2B")
    assert watched.says() == "Next: 2A from Shed wide, rolling by 10:47, 11:00 at the latest."
    tick(watched, "2A")
    assert watched.says() == "Next: put back: Table back to the wall, done by 11:47."
    tick(watched, "Table back to the wall")
    assert watched.says() == "Next: pack, and everybody out by 11:47."


def test_everything_done(morning: Opener) -> None:
    watched = morning()
    watched.run("document.querySelectorAll('input').forEach(i => i.click())")
    assert watched.says() == "Everything here is ticked."
    assert watched.run("[...document.querySelectorAll('.setup')].every(s => s.classList.contains('done'))")


def test_all_setups_open_and_close_at_once(morning: Opener) -> None:
    watched = morning()
    for words, visible in (("Close every setup", 3), ("Open every setup", 0)):
        watched.page.click("#all")
        assert shown(watched, "#all") == [words]
        assert len(shown(watched, ".setup > .body")) == visible


def test_the_sentence_leads_to_its_line(morning: Opener) -> None:
    watched = morning()
    tick(watched, "Call and load-in", "1B")
    watched.page.click("#sentence")
    assert watched.run("document.activeElement.dataset.name") == "1C"
    assert watched.run("document.activeElement.closest('.setup').querySelector('h2 button').ariaExpanded") == "true"
    box = watched.run("(r => [r.top, r.bottom])(document.activeElement.getBoundingClientRect())")
    bar = watched.run("document.querySelector('.next').getBoundingClientRect().bottom")
    assert bar <= box[0] < box[1] <= SIZES["phone"][1]
    watched.page.click("#above")
    assert watched.run("document.activeElement.dataset.name") == "Window"


def test_for_a_department(morning: Opener) -> None:
    watched = morning()
    watched.page.select_option("#show", label="Sound")
    watched.open_all()
    assert set(shown(watched, "h4")) == {"Sound", "During the take"}
    tick(watched, "Call and load-in")
    assert watched.says() == "Next: Sound for Kitchen wide, ready by 08:30."
    watched.quiet()


def test_for_a_person(morning: Opener) -> None:
    """An actor sees their call, their own setups and shots, and nothing that happens before they come."""
    watched = morning()
    watched.page.select_option("#show", label="Ben")
    assert watched.says() == "Next: Ben is called to The yard by 10:15."
    assert shown(watched, "h2 .what") == ["Move to Shed until 10:17", "Shed wide 2A, 2B"]
    assert shown(watched, "dl.calls dd") == ["Ben"]
    tick(watched, "Move to Shed")
    assert watched.says() == "Next: GUEST for Shed wide, ready by 10:47."
    tick(watched, "GUEST")
    assert watched.says() == "Next: 2A from Shed wide, rolling by 10:47, 11:00 at the latest."
    watched.page.select_option("#show", label="Mia")
    watched.open_all()
    assert "2B" not in shown(watched, "b.shot")
    watched.page.select_option("#show", label="Jo")
    assert set(shown(watched, ".hands .you")) == {"· you"}
    assert "Wardrobe and make-up" not in shown(watched, "h4")
    assert shown(watched, "dl.calls dd") == ["Jo"]


@pytest.mark.parametrize("size", SIZES)
def test_the_device_remembers(morning: Opener, size: str) -> None:
    watched = morning(size)
    tick(watched, "Call and load-in", "Stove", "1A")
    watched.page.select_option("#show", label="Ole")
    watched.page.reload()
    assert ticked(watched) == ["Call and load-in", "Stove", "1A"]
    assert watched.run("document.getElementById('show').selectedOptions[0].text") == "Ole"
    assert not shown(watched, "#forgets")
    again = Watched(watched.context, Path(watched.run("decodeURIComponent(location.pathname)")))
    tick(again, "1A")
    watched.page.wait_for_function("document.querySelectorAll('input:checked').length === 2")
    assert ticked(watched) == ["Call and load-in", "Stove"]
    watched.quiet()


def test_every_tick_goes_only_at_the_second_press(morning: Opener) -> None:
    watched = morning()
    tick(watched, "Call and load-in")
    watched.page.click("#clear")
    assert shown(watched, "#clear") == ["Press again and every tick is gone"]
    assert ticked(watched) == ["Call and load-in"]
    watched.page.click("#clear")
    assert ticked(watched) == []
    watched.page.reload()
    assert ticked(watched) == []
    watched.quiet()


def test_a_line_that_changes_is_open_again(device: Callable[..., Context], tmp_path: Path) -> None:
    """A new version of the plan: ticks stay where nothing changed, and go where something did."""
    plan, text = tmp_path / "plan.yaml", MORNING.read_text("utf-8")
    plan.write_text(text, "utf-8")
    page = tmp_path / "out" / "day-1" / "crew.html"
    build(compile_plan([str(plan)]), tmp_path / "out", only=["crew"])
    watched = Watched(device(), page)
    tick(watched, "Call and load-in", "Window", "Stove")
    old, new = "role: fill, level: 10 %", "role: fill, level: 15 %"
    assert text.count(old) == 1
    plan.write_text(text.replace(old, new), "utf-8")
    build(compile_plan([str(plan)]), tmp_path / "out", only=["crew"])
    watched.page.reload()
    assert ticked(watched) == ["Call and load-in", "Window"]


def test_without_a_memory_it_works_and_says_so(early: Path, device: Callable[..., Context]) -> None:
    context = device()
    denied = "throw new DOMException('denied', 'SecurityError')"
    context.add_init_script(script=f"Object.defineProperty(window, 'localStorage', {{get() {{ {denied} }}}})")
    watched = Watched(context, early)
    assert shown(watched, "#forgets") == ["This device does not remember: ticks are gone when the page is closed."]
    tick(watched, "Call and load-in")
    assert watched.says() == "Next: Window, Stove and 4 more for Kitchen wide, ready by 08:30."
    watched.quiet()


@pytest.mark.parametrize("kept", ["[]", "{", '{"ticks": "all"}', '{"ticks": [{}, null, 7], "show": "nobody"}'])
def test_a_broken_memory_harms_nothing(early: Path, device: Callable[..., Context], kept: str) -> None:
    context = device()
    watched = Watched(context, early)
    watched.run("kept => localStorage.setItem(document.body.dataset.memory, kept)", kept)
    watched.page.reload()
    assert ticked(watched) == []
    assert watched.says().startswith("Next: call at 07:30")
    watched.quiet()


def test_without_scripts_everything_can_be_read(morning: Opener) -> None:
    watched = morning(java_script_enabled=False)
    sections = watched.run("""[...document.querySelectorAll('.setup')].map(s =>
        [s.querySelector('.body').checkVisibility(), s.querySelectorAll('svg').length])""")
    assert sections == [[True, 1]] * 3
    assert len(shown(watched, "noscript")) == 1
    assert shown(watched, "button, select") == []
    assert shown(watched, "#sentence") == ["Next: call at 07:30, everything carried in by 08:10."]


def test_on_paper_it_is_black_on_white(morning: Opener) -> None:
    watched = morning("desk")
    watched.page.emulate_media(media="print")
    colours = watched.run("""[...new Set([...document.querySelectorAll(
        'body, h1, h2, h3, p, li, dt, b, .more, .count, text[fill="#000"]')]
        .filter(e => e.checkVisibility()).map(e => getComputedStyle(e)[e.tagName === 'text' ? 'fill' : 'color']))]""")
    assert colours == ["rgb(0, 0, 0)"]
    grounds = watched.run("""[...new Set(['html', 'body', '.next', 'input', 'h2 button'].map(s =>
        getComputedStyle(document.querySelector(s)).backgroundColor))].sort()""")
    assert grounds == ["rgb(255, 255, 255)", "rgba(0, 0, 0, 0)"]
    assert watched.run("[...document.querySelectorAll('.setup > .body')].every(e => e.checkVisibility())")
    assert shown(watched, "#pick, #tools, .skip") == []
    assert watched.run("getComputedStyle(document.querySelector('.next')).position") == "static"
    assert watched.page.pdf(prefer_css_page_size=True)[:5] == b"%PDF-"
    watched.quiet()


def test_in_another_language(device: Callable[..., Context], tmp_path: Path) -> None:
    """What the script says is in the language of the sheets too."""
    plan = tmp_path / "plan.yaml"
    text = MORNING.read_text("utf-8").replace("title: The Morning", "title: The Morning\nlanguage: de")
    plan.write_text(text, "utf-8")
    build(compile_plan([str(plan)]), tmp_path / "out", only=["crew"])
    watched = Watched(device(), tmp_path / "out" / "day-1" / "crew.html")
    assert watched.run("document.documentElement.lang") == "de"
    tick(watched, "Beginn und Hereintragen")
    assert watched.says() == "Als Nächstes: Window, Stove und 4 weitere für Kitchen wide, fertig bis 08:30."
    assert watched.run("document.querySelector('.count').textContent") == "0 von 7"
    watched.open_all()
    assert watched.run("document.documentElement.scrollWidth") == SIZES["phone"][0]
    watched.quiet()
