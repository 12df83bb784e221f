"""A language of the sheets: `python -m hotset.documents.po de` brings `de.po` up to date and compiles it.

Translators write into the `.po` file; the compiled `.mo` beside it is what runs. Both are checked in. The forms are
those of the gettext manual, chapters 'The Format of PO Files' and 'The Format of GNU MO Files'.
"""

from __future__ import annotations

import ast
import struct
import sys
from collections.abc import Iterator, Mapping
from importlib.resources import files
from pathlib import Path

from .pot import Message, messages, quoted

HEAD = "Content-Type: text/plain; charset=UTF-8\nContent-Transfer-Encoding: 8bit\nPlural-Forms: {plurals}\n"
# How the plurals of a language are counted; these two forms serve most languages of Europe's west.
PLURALS = "nplurals=2; plural=(n != 1);"
Said = tuple[str, ...]


def folder() -> Path:
    """Where the words of the package are."""
    return Path(str(files("hotset.templates"))) / "words"


def read(text: str) -> dict[Message, Said]:
    """The translations of a `.po` text: message to what is said for one, and for many where it counts."""
    found: dict[Message, Said] = {}
    for block in text.split("\n\n"):
        parts: list[tuple[str, str]] = []
        for line in block.splitlines():
            if line.startswith("#") or not line.strip():
                continue
            keyword, _, rest = line.partition(" ") if not line.startswith('"') else ("", "", line)
            words = str(ast.literal_eval(rest))
            if keyword:
                parts.append((keyword, words))
            else:
                parts[-1] = (parts[-1][0], parts[-1][1] + words)
        entry = dict(parts)
        if entry.get("msgid"):
            said = tuple(words for keyword, words in parts if keyword.startswith("msgstr"))
            found[entry["msgid"], entry.get("msgid_plural", "")] = said
    return found


def po_text(translated: Mapping[Message, Said]) -> str:
    """The `.po` text of all messages of the sheets in their order; what is not translated yet is empty."""
    head = HEAD.format(plurals=PLURALS).splitlines()
    blocks = ['msgid ""\nmsgstr ""\n' + "".join(f"{quoted(line + chr(10))}\n" for line in head)]
    for (one, many), places in messages().items():
        said = translated.get((one, many), ("", "") if many else ("",))
        lines = [f"#: {place}" for place in places]
        if "{" in one:
            lines.append("#, python-brace-format")
        lines.append(f"msgid {quoted(one)}")
        if many:
            lines.append(f"msgid_plural {quoted(many)}")
            lines += [f"msgstr[{n}] {quoted(words)}" for n, words in enumerate(said)]
        else:
            lines.append(f"msgstr {quoted(said[0])}")
        blocks.append("\n".join(lines) + "\n")
    return "\n".join(blocks)


def mo_bytes(translated: Mapping[Message, Said]) -> bytes:
    """The compiled catalogue, little-endian; messages without a translation are left out."""
    rows = {"": HEAD.format(plurals=PLURALS)}
    for (one, many), said in translated.items():
        if all(said):
            rows["\0".join((one, many)) if many else one] = "\0".join(said)
    return b"".join(_laid_out(sorted((key.encode(), words.encode()) for key, words in rows.items())))


def _laid_out(rows: list[tuple[bytes, bytes]]) -> Iterator[bytes]:
    """Header, the two tables of lengths and places, then all texts."""
    count, at = len(rows), 28 + 16 * len(rows)
    yield struct.pack("<7I", 0x950412DE, 0, count, 28, 28 + 8 * count, 0, 0)
    texts = []
    for side in (0, 1):
        for row in rows:
            yield struct.pack("<II", len(row[side]), at)
            texts.append(row[side] + b"\0")
            at += len(row[side]) + 1
    yield b"".join(texts)


def main(language: str) -> int:
    """Rewrites the two files of a language; the status is the number of messages that want a translation."""
    source = folder() / f"{language}.po"
    translated = read(source.read_text("utf-8")) if source.exists() else {}
    source.write_text(po_text(translated), "utf-8")
    current = {message: translated[message] for message in messages() if message in translated}
    target = folder() / language / "LC_MESSAGES" / "hotset.mo"
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_bytes(mo_bytes(current))
    wanting = [message for message in messages() if not all(translated.get(message, ("",)))]
    for one, _many in wanting:
        sys.stderr.write(f"not translated yet: {one}\n")
    return len(wanting)


if __name__ == "__main__":
    sys.exit(min(1, main(sys.argv[1])))
