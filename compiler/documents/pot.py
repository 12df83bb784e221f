"""The fixed words as a file for translators: `python -m hotset.documents.pot > templates/words/hotset.pot`.

Also finds fixed words that bypass the catalogue, which a test refuses.
"""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

from .render import environment
from .words import words_for

Message = tuple[str, str]  # the words, and the words for many where they count


def messages() -> dict[Message, tuple[str, ...]]:
    """Every fixed word with the files that say it, in alphabetical order."""
    found: dict[Message, set[str]] = {}
    for name, text in sheet_templates():
        for message in in_template(text):
            found.setdefault(message, set()).add(f"templates/{name}")
    for name, text in document_modules():
        for message in in_module(ast.parse(text)):
            found.setdefault(message, set()).add(f"compiler/documents/{name}")
    return {message: tuple(sorted(found[message])) for message in sorted(found)}


def pot_text() -> str:
    """The template catalogue in gettext's own form, without dates, so that it changes only when words do."""
    head = 'msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=UTF-8\\n"\n"Content-Transfer-Encoding: 8bit\\n"\n'
    blocks = [head]
    for (one, many), places in messages().items():
        lines = [f"#: {place}" for place in places]
        if "{" in one:
            lines.append("#, python-brace-format")
        lines.append(f"msgid {quoted(one)}")
        lines += [f"msgid_plural {quoted(many)}", 'msgstr[0] ""', 'msgstr[1] ""'] if many else ['msgstr ""']
        blocks.append("\n".join(lines) + "\n")
    return "\n".join(blocks)


def sheet_templates() -> Iterator[tuple[str, str]]:
    """Name and text of every template."""
    root = Path(str(files("hotset.templates")))
    for path in sorted(root.rglob("*.j2")):
        yield path.relative_to(root).as_posix(), path.read_text("utf-8")


def document_modules() -> Iterator[tuple[str, str]]:
    """Name and text of every module that arranges a sheet."""
    here = Path(__file__).parent
    for path in sorted([*here.glob("*.py"), *here.glob("*/*.py")]):
        if path.name != Path(__file__).name:
            yield path.relative_to(here).as_posix(), path.read_text("utf-8")


def in_template(text: str) -> Iterator[Message]:
    """The words a template sends through the catalogue."""
    from jinja2 import nodes

    for call in environment(words_for()).parse(text).find_all(nodes.Call):
        said = [arg.value for arg in call.args if isinstance(arg, nodes.Const)]
        if isinstance(call.node, nodes.Name) and call.node.name == "_":
            yield said[0], ""
        elif isinstance(call.node, nodes.Getattr) and call.node.attr == "count":
            yield said[0], said[1]


def in_module(tree: ast.Module) -> Iterator[Message]:
    """The words a module sends through the catalogue: `_("…")` and `_.count("…", "…", n)`."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        said = [arg.value for arg in node.args if isinstance(arg, ast.Constant) and isinstance(arg.value, str)]
        if isinstance(node.func, ast.Name) and node.func.id == "_":
            yield said[0], ""
        elif isinstance(node.func, ast.Attribute) and node.func.attr == "count" and len(said) == 2:
            yield said[0], said[1]


def loose_words_in_template(text: str) -> list[str]:
    """Words a reader would see that a template writes by itself."""
    shown = "".join(
        value if kind == "data" else "\0" if kind == "variable_begin" else ""
        for _, kind, value in environment(words_for()).lex(text)
    )
    loose = re.findall(r'(?:alt|title|aria-label|placeholder)="([^"\0]*[A-Za-z][^"\0]*)"', shown)
    visible = re.sub(r"<style>.*?</style>|<[^>]*>|&\w+;", " ", shown, flags=re.DOTALL)
    return loose + re.findall(r"[^\W\d_]+", visible)


def loose_words_in_module(tree: ast.Module) -> list[str]:
    """Strings with a blank and a word, or a capital, that neither pass the catalogue nor are a docstring or a message.

    Messages of exceptions speak to whoever runs the command, not to the crew, and stay English.
    """
    skip: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef) and ast.get_docstring(node) is not None:
            skip.add(id(node.body[0].value))  # type: ignore[attr-defined]
        elif isinstance(node, ast.Raise | ast.AnnAssign) or _through_catalogue(node):
            parts = [node.annotation] if isinstance(node, ast.AnnAssign) else [node]
            skip.update(id(inner) for part in parts for inner in ast.walk(part))
    return [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in skip
        and re.search(r"[^\W\d_]{2,} |\b[A-Z][a-z]", node.value)
    ]


def _through_catalogue(node: ast.AST) -> bool:
    if not isinstance(node, ast.Call):
        return False
    return (isinstance(node.func, ast.Name) and node.func.id == "_") or (
        isinstance(node.func, ast.Attribute) and node.func.attr == "count"
    )


def quoted(text: str) -> str:
    """Words as a string of a catalogue file."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'


if __name__ == "__main__":
    sys.stdout.write(pot_text())
