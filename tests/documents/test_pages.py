"""Every printed page of the examples, on both papers, one of them in German too, sign by sign, through a PDF reader:
nothing printed over another thing, nothing too near the edge of the paper, nothing too small to read."""

from __future__ import annotations

import math
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pypdfium2 as pdfium  # type: ignore[import-untyped]
import pypdfium2.raw as raw  # type: ignore[import-untyped]
import pytest
from hotset.documents import build
from hotset.documents.pdf import to_pdf
from hotset.pipeline import compile_plan

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
MM = 72 / 25.4
SMALLEST = 9.0  # points; a sign printed smaller is not read by the light of a set. Common practice, no source.
EDGE = 5.0 * MM  # what many printers leave white. Common practice, no source.
SIDE = 13.0 * MM  # the margin of the sheets' own @page, left and right
KEYS = re.compile(r"^(paper|language):", re.MULTILINE)
TOUCH = 0.3  # points that two boxes may share: curves and kerning reach over by less


class Sign(NamedTuple):
    """A printed character: its place in the text, its tight box in points from the left bottom, its size in points."""

    at: int
    text: str
    left: float
    bottom: float
    right: float
    top: float
    size: float


def signs(page: Any) -> Iterator[Sign]:
    """Every character that leaves ink; its size is the font's, through all enlargements."""
    text = page.get_textpage()
    matrix = raw.FS_MATRIX()
    for at in range(text.count_chars()):
        said = text.get_text_range(at, 1)
        if said.strip():
            raw.FPDFText_GetMatrix(text, at, matrix)
            size = raw.FPDFText_GetFontSize(text, at) * math.hypot(matrix.c, matrix.d)
            left, bottom, right, top = text.get_charbox(at)
            yield Sign(at, said, left, bottom, right, top, round(size, 2))


def over_each_other(found: list[Sign]) -> list[tuple[str, str]]:
    """Pairs whose boxes share ground, neighbours in a word left out."""
    cells: dict[tuple[int, int], list[Sign]] = {}
    pairs = set()
    for sign in found:
        for x in range(int(sign.left // 20), int(sign.right // 20) + 1):
            for y in range(int(sign.bottom // 20), int(sign.top // 20) + 1):
                for other in cells.setdefault((x, y), []):
                    across = min(sign.right, other.right) - max(sign.left, other.left)
                    up = min(sign.top, other.top) - max(sign.bottom, other.bottom)
                    if abs(sign.at - other.at) > 2 and across > TOUCH and up > TOUCH:
                        pairs.add((other.at, sign.at, other.text, sign.text))
                cells[x, y].append(sign)
    return [(one, other) for _a, _b, one, other in sorted(pairs)]


def outside(found: list[Sign], size: tuple[float, float]) -> list[str]:
    """Characters beyond the margins at the sides, or too near the upper or lower edge."""
    width, height = size
    return [
        s.text for s in found
        if s.left < SIDE - 1 or s.right > width - SIDE + 1 or s.bottom < EDGE or s.top > height - EDGE
    ]  # fmt: skip


PRINTED = [
    (plan.parent.name, paper, "en") for plan in sorted(EXAMPLES.glob("*/plan.yaml")) for paper in ("A4", "Letter")
]


@pytest.fixture(
    scope="module",
    params=[*PRINTED, ("last-boat", "Letter", "de")],
    ids=lambda param: "-".join(param),
)
def pages(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> dict[str, tuple[list[Sign], tuple[float, float]]]:
    """The characters and the size in points of every page, by sheet and number."""
    example, paper, language = request.param
    folder = tmp_path_factory.mktemp("printed")
    plan = folder / example / "plan.yaml"
    shutil.copytree(EXAMPLES / example, plan.parent)
    said = plan.read_text("utf-8")
    assert not KEYS.search(said)
    plan.write_text(f"{said}\npaper: {paper}\nlanguage: {language}\n", "utf-8")
    build(compile_plan([str(plan)]), folder / "out")
    made = {}
    for path in sorted((folder / "out").rglob("*.pdf")):
        with pdfium.PdfDocument(path) as document:
            for number, page in enumerate(document, 1):
                made[f"{path.relative_to(folder / 'out').as_posix()} {number}"] = (list(signs(page)), page.get_size())
    wide = {round(size[0]) for _found, size in made.values()}
    assert wide == {595 if paper == "A4" else 612}
    return made


Pages = dict[str, tuple[list[Sign], tuple[float, float]]]


def test_there_are_pages(pages: Pages) -> None:
    assert len(pages) > 6
    assert all(len(found) > 40 for found, _size in pages.values())


def test_nothing_is_printed_over_another_thing(pages: Pages) -> None:
    assert {name: bad for name, (found, _size) in pages.items() if (bad := over_each_other(found))} == {}


def test_nothing_reaches_into_the_margins(pages: Pages) -> None:
    assert {name: bad for name, (found, size) in pages.items() if (bad := outside(found, size))} == {}


def test_nothing_is_too_small(pages: Pages) -> None:
    small = {
        name: f"{min(found, key=lambda s: s.size).size} pt: {''.join(s.text for s in found if s.size < SMALLEST)[:60]}"
        for name, (found, _size) in pages.items() if any(s.size < SMALLEST - 0.01 for s in found)
    }  # fmt: skip
    assert small == {}


@pytest.mark.parametrize(
    ("body", "over", "beyond", "smallest"),
    [
        ("<p>One line</p><p>and another</p>", False, False, 11.0),
        ("<p>One line</p><p style='margin-top:-10pt'>and another</p>", True, False, 11.0),
        ("<p style='margin-left:-9mm'>far left</p>", False, True, 11.0),
        ("<p style='font-size:7pt'>small</p>", False, False, 7.0),
        ("<svg width='100pt' height='50pt' viewBox='0 0 200 100'><text y='20' font-size='12'>half</text></svg>",
         False, False, 6.0),
    ],
)  # fmt: skip
def test_the_measures_can_fail(body: str, over: bool, beyond: bool, smallest: float) -> None:
    style = "@page{size:A4;margin:15mm 13mm}html{font-size:11pt}body,p{margin:0}"
    made = to_pdf(f"<!doctype html><html><head><title>T</title><style>{style}</style></head><body>{body}</body></html>")
    with pdfium.PdfDocument(made) as document:
        found, size = list(signs(document[0])), document[0].get_size()
    assert bool(over_each_other(found)) == over
    assert bool(outside(found, size)) == beyond
    assert min(s.size for s in found) == pytest.approx(smallest, abs=0.05)
