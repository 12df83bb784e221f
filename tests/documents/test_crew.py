"""The crew's page as text: what is on it, for whom, and that nothing of the plan gets out of its words.

How it behaves in a browser is tested in tests/browser.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections import Counter
from hashlib import sha256
from html.parser import HTMLParser
from importlib.resources import files
from pathlib import Path

import pytest
from hotset.documents import build
from hotset.pipeline import compile_plan

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "examples" / "last-boat" / "plan.yaml"
EVENING = Path(__file__).parent / "evening.yaml"
HOSTILE = (
    "</script><script>document.title='out'</script>", "<img src=x onerror=alert(1)>", "\"' onfocus=alert(1) x='",
    "&lt;b&gt;", "--><style>*{display:none}</style>", "{{ head }}{% raw %}", "\u202eevil\u2066 name\u0007",
)  # fmt: skip


class Elements(HTMLParser):
    """Every element with its attributes, and the text outside of scripts and style sheets."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str]]] = []
        self.words: list[str] = []
        self.inside = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, {name: value or "" for name, value in attrs}))
        self.inside = tag if tag in ("script", "style") else ""

    def handle_endtag(self, tag: str) -> None:
        self.inside = self.inside if tag != self.inside else ""

    def handle_data(self, data: str) -> None:
        if not self.inside:
            self.words.append(data)

    def all(self, tag: str) -> list[dict[str, str]]:
        return [attributes for name, attributes in self.found if name == tag]

    @property
    def text(self) -> str:
        return " ".join("".join(self.words).replace("\u200b", "").split())


def page_of(plan: Path, out: Path, day: str = "1") -> str:
    build(compile_plan([str(plan)]), out, only=["crew"])
    return (out / f"day-{day}" / "crew.html").read_text("utf-8")


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory) -> str:
    return page_of(EXAMPLE, tmp_path_factory.mktemp("crew"))


def test_one_page_a_day_that_the_index_links(tmp_path: Path) -> None:
    build(compile_plan([str(EVENING)]), tmp_path, only=["crew"])
    names = sorted(p.relative_to(tmp_path).as_posix() for p in tmp_path.rglob("*.*") if p.is_file())
    assert [n for n in names if not n.startswith(".")] == ["day-1/crew.html", "day-2/crew.html", "index.html"]
    assert 'href="day-1/crew.html"' in (tmp_path / "index.html").read_text("utf-8")


def test_it_is_light_and_alone(example: str) -> None:
    assert len(example.encode("utf-8")) < 1_000_000
    elements = Elements(example)
    assert not [t for t, _ in elements.found if t in ("link", "img", "iframe", "object", "embed", "base", "form")]
    assert not [a for _, a in elements.found if "src" in a or a.get("href", "#")[:1] != "#"]
    assert not [name for _, a in elements.found for name in a if name.startswith("on")]
    assert "@import" not in example
    assert not re.findall(r"url\((?!#)[^)]*\)", example)


def test_the_policy_lets_only_our_own_script_run(example: str) -> None:
    script = re.findall(r"<script>(.*?)</script>", example, flags=re.DOTALL)
    own = (files("hotset.templates") / "crew" / "crew.js").read_text("utf-8")
    assert script == [own]
    seal = b64encode(sha256(own.encode("utf-8")).digest()).decode("ascii")
    policy = next(a["content"] for a in Elements(example).all("meta") if a.get("http-equiv"))
    assert f"script-src 'sha256-{seal}';" in policy
    assert "default-src 'none'" in policy
    assert "connect-src" not in policy  # so that nothing may be reached


def test_the_script_is_plain_and_knows_no_network() -> None:
    own = (files("hotset.templates") / "crew" / "crew.js").read_text("utf-8")
    for word in ("innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(", "Function(", "fetch",
                 "XMLHttpRequest", "WebSocket", "sendBeacon", "import(", "import ", "setTimeout", "setInterval",
                 "Date"):  # fmt: skip
        assert word not in own, word  # no markup from words, no network, and no clock
    assert len(own) < 16_000


def test_no_word_stands_in_the_script() -> None:
    """What the script says comes from the page, so that it is in the catalogue of fixed words."""
    own = (files("hotset.templates") / "crew" / "crew.js").read_text("utf-8")
    code = re.sub(r"/\*.*?\*/", "", own, flags=re.DOTALL)
    quoted = [one or two for one, two in re.findall(r'"((?:[^"\\]|\\.)*)"|\'((?:[^\'\\]|\\.)*)\'', code)]
    assert [q for q in quoted if re.search(r"[A-Z][a-z]+ |[a-z]{2,} [a-z]{2,}", q)] == ["use strict"]


def test_what_is_private_stays_away(example: str) -> None:
    text = Elements(example).text
    assert "Bea, 07700 900101" in text  # the production's contact, named so in the plan
    found = set(re.findall(r"\b0\d{4} \d{6}\b", text))
    assert found == {"07700 900101", "01632 960199"}  # and the emergency department's, which is public
    for word in ("epilepsy", "nuts", "vegetarian", "sister", "husband", "shoes"):
        assert word not in re.sub(r"<script>.*?</script>|<style>.*?</style>", "", text), word


def test_every_line_can_be_ticked_once(example: str) -> None:
    elements = Elements(example)
    boxes = elements.all("input")
    assert len(boxes) > 100
    assert {box["type"] for box in boxes} == {"checkbox"}
    assert [key for key, n in Counter(box["data-key"] for box in boxes).items() if n > 1] == []
    ids = Counter(a["id"] for _, a in elements.found if "id" in a)
    assert [name for name, n in ids.items() if n > 1] == []


def test_every_setup_has_its_shots_lamps_hands_and_drawing(example: str) -> None:
    parts = re.findall(r'<section class="stretch setup".*?</section>', example, flags=re.DOTALL)
    plan = compile_plan([str(EXAMPLE)]).plan
    assert plan
    assert len(parts) == len(plan.setups)
    names = Counter(box["data-name"] for part in parts for box in Elements(part).all("input"))
    assert [shot for shot in plan.shots if names[shot] != 1] == []
    order = [name for name in plan.days["1"].order if name in plan.setups]
    for part, name in zip(parts, order, strict=True):
        assert part.count("<svg") == 1
        for person in plan.setups[name].hands.values():
            assert plan.people[person].name in part[part.index("During the take"):]
    night = Elements(next(p for p in parts if "hall-night-door" in p)).text
    for words in ("MOVE 4 Hatch light", "the lamp that was 'Moon'", "keep 2 Buoy",
                  "5E MWS · The clerk in the doorway", "circuit Ground floor"):  # fmt: skip
        assert words in night, words


def test_sentences_say_by_when(example: str) -> None:
    elements = Elements(example)
    said = [a["data-says"] for a in elements.all("input") if "data-says" in a]
    said += [a["data-before"] + "x" + a["data-after"] for a in elements.all("div") if "data-before" in a]
    assert len(said) > 40
    for sentence in said:
        assert re.fullmatch(r"Next: [^.]*\d\d:\d\d[^.]*\.", sentence), sentence


def test_without_times_it_says_so(tmp_path: Path) -> None:
    page = page_of(EVENING, tmp_path, "2")
    assert "No order is agreed for this day yet" in Elements(page).text
    assert "no times are agreed yet." in page
    assert "{time}" not in page


def test_findings_stand_at_their_line(tmp_path: Path) -> None:
    text = Elements(page_of(EVENING, tmp_path)).text
    found = text.index("'hall' is in the picture of 'office-door'")
    assert text.rindex("CHANGE 3 Hall", 0, found) < found < text.index("4 Buoy", found)
    assert "accepted: a ring was ordered (agreed by Olek)" in text


def test_for_whom(example: str) -> None:
    """A line about light is for the light department and for whoever works in it, not for others."""
    elements = Elements(example)
    tokens = dict(re.findall(r'<option value="(p\w+)"[^>]*>(\w+)</option>', example))
    people = {name: token for token, name in tokens.items()}
    assert set(people) == {"Tomas", "Olek", "Jon", "Bea", "Mara", "Ines"}
    lamp = re.search(r'<li data-for="([^"]*)">\s*<label><input[^>]*data-name="Quay lamp"', example)
    assert lamp
    assert set(lamp[1].split()) == {"light", people["Olek"]}
    assert all(a["data-for"] for _, a in elements.found if "data-for" in a)


@pytest.fixture(scope="module", params=HOSTILE)
def hostile(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[str, str]:
    """A page on which every word of the plan is a hostile one, and that word."""
    word = str(request.param)
    quoted = '"' + "".join(f"\\u{ord(c):04x}" for c in word) + '"'
    plan = f"""hotset: 1
title: {quoted}
company: {quoted}
contacts: {{production: {quoted}}}
days: {{1: {{call: 07:30, order: [a], note: {quoted}, first-aid: {quoted}, location: l}}}}
locations:
  l: {{name: {quoted}, address: {quoted}, restore: [{quoted}], sets: {{r: {{name: {quoted}, size: 4 m x 3 m x 2.5 m,
    marks: {{m: [2 m, 2 m]}}}}}}}}
people:
  p: {{name: {quoted}, works: [light, {quoted}]}}
  q: {{name: {quoted}, plays: {quoted}}}
gear: {{g: {{kind: light, of: {quoted}}}, c: {{kind: lens, of: {quoted}, focal: 35 mm}}}}
setups:
  a: {{set: l/r, camera: {{lens: c, at: [1 m, 1 m], aim: m, profile: {quoted}}}, dressing: [{quoted}], note: {quoted},
    lights: {{k: {{lamp: g, at: [3 m, 1 m], aim: m, note: {quoted}}}}}, hands: {{camera: p, boom: {quoted}}}}}
scenes: {{1: {{heading: {quoted}, characters: [{quoted}], wardrobe: {{{quoted}: {quoted}}}, shots:
  {{1A: {{setup: a, does: {quoted}, takes: 5 min}}}}}}}}
"""
    folder = tmp_path_factory.mktemp("hostile")
    (folder / "plan.yaml").write_text(plan, "utf-8")
    return page_of(folder / "plan.yaml", folder / "out"), word


def test_hostile_words_stay_words(hostile: tuple[str, str]) -> None:
    page, word = hostile
    elements = Elements(page)
    assert Counter(tag for tag, _ in elements.found)["script"] == 1
    assert not [a for t, a in elements.found if t == "img" or any(name.startswith("on") for name in a)]
    assert len(elements.all("style")) == 2
    plain = "".join(c for c in word if c not in "\u202e\u2066\u0007")
    assert elements.text.count(" ".join(plain.split())) > 8
    assert any(plain == a.get("data-name", "").replace("\u200b", "") for a in elements.all("input"))


def test_no_sign_that_turns_the_reading(hostile: tuple[str, str]) -> None:
    page, _word = hostile
    assert not re.findall("[\u202a-\u202e\u2066-\u2069\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]", page)


def luminance(colour: str) -> float:
    """Relative luminance of #rgb or #rrggbb: WCAG 2.2, definition of 'relative luminance'."""
    digits = colour[1:] if len(colour) == 7 else "".join(c * 2 for c in colour[1:])
    parts = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    red, green, blue = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_contrast_of_the_colours() -> None:
    """At least 7 to 1, success criterion 1.4.6; black on white is 21 to 1 by definition."""
    assert (luminance("#fff") + 0.05) / (luminance("#000") + 0.05) == pytest.approx(21.0)
    style = (files("hotset.templates") / "crew" / "crew.css").read_text("utf-8")
    for block in re.findall(r":root\{(.*?)\}", style):
        colours = dict(re.findall(r"--(\w+):(#[0-9a-f]+)", block))
        for name in ("ink", "quiet"):
            light, dark = sorted((luminance(colours[name]), luminance(colours["ground"])), reverse=True)
            assert (light + 0.05) / (dark + 0.05) >= 7.0, name
    assert len(re.findall(r":root\{", style)) == 2
