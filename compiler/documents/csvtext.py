"""Lists as CSV that a spreadsheet shows and never runs."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

# A cell that starts like this would be taken for a formula.
RISKY = ("=", "+", "-", "@", "\t", "\r")


def csv_text(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Rows under a head, comma separated, CRLF line ends as RFC 4180 has them, UTF-8 once encoded."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([safe_cell(cell) for cell in head])
    for row in rows:
        writer.writerow([safe_cell(cell) for cell in row])
    return out.getvalue()


def safe_cell(text: str) -> str:
    """The cell with a leading apostrophe where a spreadsheet would otherwise compute it."""
    return "'" + text if text.startswith(RISKY) else text
