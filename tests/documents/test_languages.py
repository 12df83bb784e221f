"""Sheets in another language: the catalogue is whole and current, numbers and dates follow, nothing breaks."""

from __future__ import annotations

import gettext
import html
import math
import re
from pathlib import Path

import pytest
from hotset.documents import build, po, pot
from hotset.documents.numbers import localised
from hotset.documents.pdf import not_in_face
from hotset.documents.words import rule_titles, words_for
from hotset.pipeline import compile_plan
from hotset.rules import RULES
from pypdf import PdfReader

EVENING = Path(__file__).parent / "evening.yaml"
FIELDS = re.compile(r"{\w*}")


def languages() -> list[str]:
    return sorted(path.stem for path in po.folder().glob("*.po"))


def test_there_is_german() -> None:
    assert "de" in languages()


@pytest.mark.parametrize("language", languages())
def test_every_word_is_translated_and_keeps_its_gaps(language: str) -> None:
    translated = po.read((po.folder() / f"{language}.po").read_text("utf-8"))
    for one, many in pot.messages():
        said = translated.get((one, many), ())
        assert said, f"run: python -m hotset.documents.po {language}; no entry for {one!r}"
        assert all(said), f"not translated: {one!r}"
        assert len(said) == (2 if many else 1), one
        for words, english in zip(said, (one, many or one), strict=False):
            assert sorted(FIELDS.findall(words)) == sorted(FIELDS.findall(english)), (english, words)
            assert not_in_face(words) == "", words


@pytest.mark.parametrize("language", languages())
def test_what_runs_is_what_was_translated(language: str) -> None:
    text = (po.folder() / f"{language}.po").read_text("utf-8")
    translated = po.read(text)
    assert text == po.po_text(translated), f"run: python -m hotset.documents.po {language}"
    current = {message: translated[message] for message in pot.messages()}
    compiled = (po.folder() / language / "LC_MESSAGES" / "hotset.mo").read_bytes()
    assert compiled == po.mo_bytes(current), f"run: python -m hotset.documents.po {language}"
    with (po.folder() / language / "LC_MESSAGES" / "hotset.mo").open("rb") as stream:
        catalogue = gettext.GNUTranslations(stream)
    assert catalogue.gettext("page") == translated["page", ""][0]
    one, many = translated["{n} person", "{n} people"]
    assert [catalogue.ngettext("{n} person", "{n} people", n) for n in (1, 2, 0)] == [one, many, many]


def test_a_catalogue_reads_back() -> None:
    message = ('say "at:"\nand \\', "")
    text = f'msgid ""\nmsgstr ""\n"x: y\\n"\n\nmsgid {pot.quoted(message[0])}\nmsgstr {pot.quoted("ja")}\n'
    assert po.read(text) == {message: ("ja",)}


@pytest.mark.parametrize(
    ("kind", "english", "german"),
    [("length", "1.8 m", "1,8 m"), ("stop", "T2.8", "T2.8"), ("shutter", "180 deg", "180 °"),
     ("rate", "1.5 per s", "1,5 pro s"), ("clock", "07:30", "07:30"), ("money", "3.50 GBP", "3,50 GBP"),
     ("fps", "25 fps", "25 B/s"),
     ("stops", "1/2 stop", "1/2 Blende"), ("size", "1.5 m x 2 m", "1,5 m x 2 m")],
)  # fmt: skip
def test_numbers_in_german(kind: str, english: str, german: str) -> None:
    assert localised(kind, english, words_for("en")) == english
    assert localised(kind, english, words_for("de")) == german


@pytest.fixture(scope="module")
def german(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("german")
    plan = out / "plan.yaml"
    plan.write_text(EVENING.read_text("utf-8").replace("hotset: 1\n", "hotset: 1\nlanguage: de\n", 1), "utf-8")
    result = build(compile_plan([str(plan)]), out / "sheets")
    assert result.remarks == ()
    return out / "sheets"


def test_a_german_sheet(german: Path) -> None:
    text = (german / "day-1" / "call-sheet.html").read_text("utf-8").replace("\u00a0", " ")
    assert '<html lang="de">' in text
    for words in ("Tagesdispo", "Samstag, 14. November 2026", "Sonnenuntergang", "nächste Notaufnahme"):
        assert words in text, words
    light = (german / "day-1" / "lighting.html").read_text("utf-8").replace("\u00a0", " ")
    for words in ("BLITZT 1,5 pro s", "2,2 m hoch", "NEU", "verdunkeln mit black molton"):
        assert words in light, words


def test_no_english_word_is_left(german: Path) -> None:
    """Fixed English words that no German sheet may show; the plan's own words are English here and stay."""
    fixed = ("Call sheet", "Running order", "estimate", "actual", "Scene", "first aid", "parking", "released", "NEW",
             "MOVE", "keep", " high", "level", "circuit", "Lighting", "page ", " of 2", "min away")  # fmt: skip
    for path in sorted(german.rglob("*.html")):
        text = re.sub(r"<style>.*?</style>|<script>.*?</script>", "", path.read_text("utf-8"), flags=re.DOTALL)
        shown = re.sub(r"<[^>]*>", "|", text)
        # Findings speak English: they are those of the check, word for word.
        found = ("Geht so nicht", "Bitte ansehen", "Hinweis")
        shown = "\n".join(line for line in shown.splitlines() if not any(word in line for word in found))
        for words in fixed:
            assert f"|{words}" not in shown, (path, words)


LONG = "Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichenverleihungsurkundenordner"


def sizes(page: object) -> dict[float, int]:
    found: dict[float, int] = {}

    def visit(text: str, cm: list[float], tm: list[float], _font: object, size: float) -> None:
        if text.strip():
            points = round(size * math.hypot(tm[2], tm[3]) * math.hypot(cm[2], cm[3]), 1)
            found[points] = found.get(points, 0) + len(text)

    page.extract_text(visitor_text=visit)  # type: ignore[attr-defined]
    return found


@pytest.mark.parametrize(("language", "paper"), [("de", "A4"), ("en", "Letter")])
def test_long_words_break_no_sheet(language: str, paper: str, tmp_path: Path) -> None:
    """A word wider than a column anywhere: nothing sticks out, so nothing is shrunk, and the word is all there."""
    head = f"hotset: 1\nlanguage: {language}\npaper: {paper}\n"
    text = EVENING.read_text("utf-8").replace("hotset: 1\n", head, 1)
    for said in ("Mara Example", "Ticket office", "LED fresnel 300 W", "grey uniform", "black molton", "The net loft",
                 "old cash till", "till open", "Northhaven Infirmary", "She counts the till.", "Bring boots.",
                 "35 mm prime", "Counter back to the east wall"):  # fmt: skip
        assert said in text, said
        text = text.replace(said, f"{LONG} {said.split()[0]}")
    text = text.replace("office-wide", f"office-{'x' * 70}").replace("ground-floor", f"ground-{'y' * 60}")
    plan = tmp_path / "plan.yaml"
    plan.write_text(text, "utf-8")
    out = tmp_path / "sheets"
    build(compile_plan([str(plan)]), out)
    seen = 0
    for path in sorted(out.rglob("*.pdf")):
        for page in PdfReader(path).pages:
            found = sizes(page)
            assert {11.0, 9.0} & set(found), (path, found)
            assert min(found) >= 8.0, (path, found)
            seen += LONG[:40] in page.extract_text().replace("\n", "").replace("\u200b", "")
    assert seen >= 5


def test_imperial_lengths(tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(EVENING.read_text("utf-8").replace("hotset: 1\n", "hotset: 1\nlengths: imperial\n", 1), "utf-8")
    build(compile_plan([str(plan)]), tmp_path / "out", pdf=False)
    text = (tmp_path / "out" / "day-1" / "lighting.html").read_text("utf-8").replace("\u00a0", " ")
    assert "7 ft 2.5 in high" in text  # 2.2 m = 7.218 ft, to the half inch
    card = (tmp_path / "out" / "day-1" / "setup-office-wide.html").read_text("utf-8")
    assert " ft</text>" in card  # the scale bar
    assert "35 mm prime" in card  # lenses stay in mm
    camera = (tmp_path / "out" / "day-1" / "camera.html").read_text("utf-8").replace("\u00a0", " ")
    assert re.search(r"focus \d+ ft [\d.]+ in \(sharp \d+ ft", camera)
    grip = (tmp_path / "out" / "day-1" / "grip.html").read_text("utf-8").replace("\u00a0", " ")
    assert re.search(r"cut \d+ ft [\d.]+ in x \d+ ft", grip)
    assert not re.search(r"\d (?:m|cm) (?:from|high|away)", camera + grip)


def test_a_finding_on_a_german_sheet_is_named_in_german_and_quoted(tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(EVENING.read_text("utf-8").replace("hotset: 1\n", "hotset: 1\nlanguage: de\n"), "utf-8")
    compiled = compile_plan([str(plan)])
    build(compiled, tmp_path / "out", only=["index"], pdf=False)
    page = html.unescape((tmp_path / "out" / "index.html").read_text("utf-8"))
    shown = [finding for finding in compiled.findings if finding.rule in rule_titles("de")]
    assert shown
    for finding in shown:
        assert f"{rule_titles('de')[finding.rule]} · <q" in page, finding.rule
    loose = re.sub(r"<q lang=\"en\">.*?</q>", "", page, flags=re.DOTALL)
    for finding in shown:
        assert finding.sentence.replace(" ", "\u00a0")[:60] not in loose.replace(" ", "\u00a0")


def test_the_names_of_rules_are_those_of_rules() -> None:
    known = {rule.id for rule in RULES}
    assert set(rule_titles("de")) <= known
    assert len(rule_titles("de")) >= 0.9 * len(known), sorted(known - set(rule_titles("de")))
    assert rule_titles("en") == {}
