"""Lists as CSV that a spreadsheet shows and never runs."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence

# A cell that starts like this would be taken for a formula; the wide signs are those of East Asian spreadsheets.
RISKY = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
# A spreadsheet that parts cells at semicolons, as many do in Europe, would begin a cell here.
INSIDE = re.compile(r"(?<=[;\t\r\n])(?=[=+\-@＝＋－＠])")


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
    plain = INSIDE.sub("'", text)
    return "'" + plain if plain.lstrip(" \u00a0\ufeff").startswith(RISKY) else plain
