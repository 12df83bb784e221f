"""The pictures of the README: drawings and pages of the example's sheets. `python tests/gallery.py` makes them anew,
with `--check` says which of them no longer show what the example's plan gives.

Drawings are kept as the SVG that stands on the sheet and compared letter by letter. A page is kept as a picture in
sixteen greys; what it is compared by is the sheet it was printed from, for a picture's bytes depend on the machine.
"""

from __future__ import annotations

import re
import struct
import sys
import tempfile
import zlib
from hashlib import sha256
from html import unescape
from pathlib import Path

from hotset.documents import build
from hotset.pipeline import compile_plan

ROOT = Path(__file__).resolve().parents[1]
PLAN = ROOT / "examples" / "last-boat" / "plan.yaml"
FOLDER = ROOT / "examples" / "gallery"
LARGEST = 150_000
DPI = 110
# File -> the sheet and which of its drawings: by the beginning of their names for screen readers.
DRAWINGS = {
    "plan-of-the-set.svg": ("day-1/setup-office-wide", "Plan of the set"),
    "camera-s-eye.svg": ("day-1/setup-shed-wide", "What the lens sees"),
    "day.svg": ("day-1/running-order", "Day 1"),
    "loads.svg": ("day-1/lighting", "Loads"),
    "windows.svg": ("day-1/lighting", "Windows"),
    "batteries.svg": ("day-1/camera", "Batteries"),
}
PAGES = {
    "call-sheet.png": "day-1/call-sheet",
    "running-order.png": "day-1/running-order",
    "setup-card.png": "day-1/setup-hall-night-wide",
    "lighting.png": "day-1/lighting",
    "cast.png": "day-1/cast-mara",
    "director.png": "director",
}
NOTE = "pages.txt"
FACE = 'font-family="DejaVu Sans, Liberation Sans, Arial, sans-serif"'


def made(folder: Path, pdf: bool) -> dict[str, str]:
    """The example's sheets as HTML, by name without an ending."""
    build(compile_plan([str(PLAN)]), folder, pdf=pdf)
    names = {name for name, _title in DRAWINGS.values()} | set(PAGES.values())
    return {name: (folder / f"{name}.html").read_text("utf-8") for name in sorted(names)}


def drawing(page: str, title: str) -> str:
    """A drawing of a page as a file of its own."""
    for found in re.findall(r"<svg\b.*?</svg>", page, re.DOTALL):
        named = re.search(r"<title[^>]*>(.*?)</title>", found)
        if named and unescape(named[1]).startswith(title):
            return f"{found.replace('<svg ', f'<svg {FACE} ', 1)}\n"
    raise LookupError(f"no drawing called '{title}...'")


def texts(sheets: dict[str, str]) -> dict[str, str]:
    """The files that are compared letter by letter: the drawings, and the list of pages with what they came from."""
    found = {file: drawing(sheets[name], title) for file, (name, title) in DRAWINGS.items()}
    rows = [f"{file} {sha256(sheets[name].encode()).hexdigest()} {name}.html\n" for file, name in PAGES.items()]
    return found | {NOTE: "".join(rows)}


def grey_png(pdf: Path) -> bytes:
    """The first page of a PDF in sixteen greys."""
    import pypdfium2 as pdfium  # type: ignore[import-untyped]

    with pdfium.PdfDocument(pdf) as document:
        bitmap = document[0].render(scale=DPI / 72, grayscale=True)
        wide, high, stride, dots = bitmap.width, bitmap.height, bitmap.stride, bytes(bitmap.buffer)
    rows = bytearray()
    for y in range(high):
        row = [value >> 4 for value in dots[y * stride : y * stride + wide]]
        row += [15] * (wide % 2)
        rows.append(0)
        rows.extend(a << 4 | b for a, b in zip(row[::2], row[1::2], strict=True))
    head = struct.pack(">IIBBBBB", wide, high, 4, 0, 0, 0, 0)
    parts = ((b"IHDR", head), (b"IDAT", zlib.compress(bytes(rows), 9)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body)) for kind, body in parts
    )


def wrong() -> list[str]:
    """What is not as it should be in the folder, in words."""
    with tempfile.TemporaryDirectory() as folder:
        wanted = texts(made(Path(folder), False))
    found = []
    for file, said in wanted.items():
        there = FOLDER / file
        if not there.is_file() or there.read_text("utf-8") != said:
            found.append(f"{file} no longer shows what the example gives")
    found += [f"{file} is missing" for file in PAGES if not (FOLDER / file).is_file()]
    files = sorted(FOLDER.iterdir()) if FOLDER.is_dir() else []
    found += [f"{f.name} belongs to no picture" for f in files if f.name not in {*wanted, *PAGES}]
    found += [f"{f.name} has {f.stat().st_size} bytes" for f in files if f.stat().st_size > LARGEST]
    return found


def write() -> None:
    """Make all pictures anew."""
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        for file, said in texts(made(Path(folder), True)).items():
            (FOLDER / file).write_text(said, "utf-8", newline="\n")
        for file, name in PAGES.items():
            (FOLDER / file).write_bytes(grey_png(Path(folder) / f"{name}.pdf"))


def main(arguments: list[str]) -> int:
    """Write the pictures (0), or with `--check` compare them (0 the same, 1 not)."""
    if arguments == ["--check"]:
        found = wrong()
        for said in found:
            print(f"{said}; run: python tests/gallery.py")
        return 1 if found else 0
    if arguments:
        print("usage: python tests/gallery.py [--check]", file=sys.stderr)
        return 2
    write()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
