"""A plan whose every word tries to get out: in a real browser nothing of it runs, loads or turns the reading."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from hotset.documents import build
from hotset.pipeline import compile_plan

from .driver import Context, Watched

pytestmark = pytest.mark.browser

WORDS = (
    "</script><script>window.out=1</script>", "<img src=x onerror=window.out=1>",
    "'\\\" autofocus onfocus=window.out=1 x=", "javascript:window.out=1", "$& $1 {names} {n} \\ufffc", "\\u202egnp.exe",
    "</title><svg onload=window.out=1>",
)  # fmt: skip

PLAN = """hotset: 1
title: "W"
days: {1: {call: 07:30, order: [a], location: l}}
locations:
  l: {name: "W", restore: ["W"], sets: {r: {name: "W", size: 4 m x 3 m x 2.5 m, marks: {m: [2 m, 2 m]}}}}
people: {p: {name: "W", works: [light]}, q: {name: "W", plays: "W"}}
gear: {g: {kind: light, of: "W"}, c: {kind: lens, of: "W", focal: 35 mm}}
setups:
  a: {set: l/r, camera: {lens: c, at: [1 m, 1 m], aim: m}, dressing: ["W", "W 2", "W 3"], note: "W",
    lights: {k: {lamp: g, at: [3 m, 1 m], aim: m}}, hands: {camera: p, boom: "W"}}
scenes: {1: {characters: ["W"], wardrobe: {"W": "W"}, shots: {1A: {setup: a, does: "W", takes: 5 min}}}}
"""


@pytest.mark.parametrize("word", WORDS)
def test_nothing_gets_out(device: Callable[..., Context], tmp_path: Path, word: str) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(PLAN.replace("W", word), "utf-8")
    build(compile_plan([str(plan)]), tmp_path / "out", only=["crew"])
    watched = Watched(device(), tmp_path / "out" / "day-1" / "crew.html")
    watched.open_all()
    script = "[...document.querySelectorAll('input')].forEach(i => i.click())"
    for _ in range(2):
        watched.run(script)
    boxes = "[...document.querySelectorAll('#show option')].forEach(o => { show.value = o.value; " \
            "show.dispatchEvent(new Event('change')); })"
    watched.run(boxes)
    assert watched.run("window.out ?? 'nothing'") == "nothing"
    assert watched.run("document.querySelectorAll('img, script:not(body > script), [onload], [onfocus]').length") == 0
    assert watched.run("[...document.querySelectorAll('section')].every(s => s.parentElement.closest('main, footer'))")
    watched.quiet()


def test_names_of_any_direction_leave_the_sentence_in_order(device: Callable[..., Context], tmp_path: Path) -> None:
    """A name that turns the reading, and one written from right to left: the time still stands at the end."""
    for name in ("\\u202eabc", "\\u05d0\\u05d1\\u05d2"):
        plan = tmp_path / "plan.yaml"
        plan.write_text(PLAN.replace("W", name), "utf-8")
        build(compile_plan([str(plan)]), tmp_path / "out", only=["crew"])
        watched = Watched(device(), tmp_path / "out" / "day-1" / "crew.html")
        watched.run("[...document.querySelectorAll('input')].slice(0, 2).forEach(i => i.click())")
        ends = watched.run("""(() => { const text = document.getElementById('sentence').firstChild;
            const at = (from, to) => { const range = document.createRange(); range.setStart(text, from);
              range.setEnd(text, to); return range.getBoundingClientRect(); };
            const all = text.data.length, first = at(0, 1), last = at(all - 1, all), time = at(all - 6, all - 1);
            return [first.left < time.left || first.top < time.top, time.right <= last.left + 1]; })()""")
        assert ends == [True, True], name
