"""HTML to PDF: the same bytes always, nothing from outside, every character visible, no page shrunk in secret."""

from __future__ import annotations

import io
import subprocess
import sys

import pytest
from hotset.documents.pdf import Paper, ReachedOut, not_in_face, to_pdf
from hotset.documents.render import css_text
from pypdf import PdfReader

PAGE = "<!doctype html><html><head><title>T</title><style>{style}</style></head><body>{body}</body></html>"

PAPERS: tuple[tuple[Paper, int], ...] = (("A4", 595), ("Letter", 612))  # ISO 216 and ANSI A, widths in points


def page(body: str, style: str = "html{font-size:11pt}@page{margin:15mm}") -> str:
    return PAGE.format(style=style, body=body)


def text_of(pdf: bytes) -> str:
    return "\n".join(p.extract_text() for p in PdfReader(io.BytesIO(pdf)).pages)


def test_same_bytes() -> None:
    html = page("<p>07:30 Call</p><svg width='20' height='20'><text y='9'>N</text></svg>")
    assert to_pdf(html) == to_pdf(html)
    assert b"CreationDate" not in to_pdf(html)


@pytest.mark.parametrize(
    "body",
    [
        '<img src="http://example.com/x.png">',
        '<img src="file:///etc/hostname">',
        '<img src="x.png">',
        '<link rel="stylesheet" href="https://example.com/x.css">',
        '<img src="hotset:/fonts/../style.css">',
    ],
)
def test_nothing_is_loaded_from_outside(body: str) -> None:
    with pytest.raises(ReachedOut, match="nothing from outside"):
        to_pdf(page(body))


def test_every_sign_of_the_trade_prints() -> None:
    signs = "€ · – — ° × ½ ¼ ¾ ← ↑ → ↓ − ≈ ≤ ≥ ² ✓ ✗ □ ■ ▲ ▼ ● ○ é ñ ø ß ž ő Ł Ж"
    assert not_in_face(signs) == ""
    read = text_of(to_pdf(page(f"<p>{signs}</p><p><b>{signs}</b></p>")))
    assert [c for c in signs.split() if read.count(c) < 2] == []


def test_the_face_says_what_it_lacks() -> None:
    assert not_in_face("Ana 你好 好") == "你好"


def test_text_of_a_drawing_prints_whatever_face_it_asks_for() -> None:
    drawing = '<svg width="200" height="40"><text x="2" y="20" font-family="sans-serif">QUAY</text></svg>'
    assert "QUAY" in text_of(to_pdf(page(drawing)))


def test_paper() -> None:
    for paper, width in PAPERS:
        made = PdfReader(io.BytesIO(to_pdf(page("<p>x</p>", f"@page{{size:{paper}}}"), paper)))
        assert int(made.pages[0].mediabox.width) == width


def test_words_in_the_margin_are_escaped() -> None:
    words = 'Night \\ "one"; } </style><script>'
    html = page("<p>x</p>", f'@page{{font-family:"Hotset Sans";@top-left{{content:"{css_text(words)}"}}}}')
    assert "</style><script>" not in html
    assert words in text_of(to_pdf(html))


def test_many_at_once_come_to_an_end() -> None:
    """The engine's own lock and Python's once waited for each other for ever; many sizes of letters bring it out."""
    run = (
        "from concurrent.futures import ThreadPoolExecutor\n"
        "from hotset.documents.pdf import to_pdf\n"
        "def page(n):\n"
        "    sizes = [8 + (7 * n + k) % 23 for k in range(12)]\n"
        "    words = ''.join(f'<p style=\"font-size:{size}pt\"><b>Words</b></p>' for size in sizes)\n"
        "    return f'<!doctype html><html><head><title>T</title></head><body>{words}</body></html>'\n"
        "with ThreadPoolExecutor(6) as printers:\n"
        "    made = list(printers.map(lambda n: to_pdf(page(n)), range(200)))\n"
        "assert made[0] == made[23]\n"
    )
    subprocess.run([sys.executable, "-c", run], check=True, timeout=120)
