"""Finding and loading the files of a plan: names, folders, standard input, includes; each file once."""

from __future__ import annotations

import os
from collections.abc import Sequence as Names

from ..findings import Finding, Place, Related
from .compose import Composed, compose
from .text import MOST_BYTES, Fault, SourceFile, decode, line_and_column, line_end, readable_part
from .tree import Mapping, Node, Scalar, Sequence

INCLUDES_DEEP = 8
MOST_FILES = 500


class Loaded:
    """The files read so far with the maps they hold, in the order they are merged, and what was found."""

    __slots__ = ("files", "findings", "roots", "seen")

    def __init__(self) -> None:
        self.files: list[SourceFile] = []
        self.roots: list[Mapping] = []
        self.findings: list[Finding] = []
        self.seen: set[str] = set()


class _Want:
    """A file to be read: its name, where it lies, the folder it must not leave, where it is asked for, and the files it
    is included in."""

    __slots__ = ("asked", "folder", "name", "path", "within")

    def __init__(
        self, name: str, path: str, folder: str, asked: Place | None = None, within: tuple[str, ...] = ()
    ) -> None:
        self.name = name
        self.path = path
        self.folder = folder
        self.asked = asked
        self.within = within


def load(names: Names[str], stdin_text: bytes | None, stdin_name: str) -> Loaded:
    """Every file that the names mean, each followed by what it includes."""
    done = Loaded()
    for name in names:
        if name == "-":
            folder = os.path.dirname(stdin_name) or "."
            _take(done, _Want(stdin_name, "-", folder), stdin_text or b"")
        elif os.path.isdir(name):
            _take_folder(done, name)
        else:
            _read(done, _Want(name, name, os.path.dirname(name) or "."))
    return done


def _take_folder(done: Loaded, folder: str) -> None:
    try:
        members = sorted(m for m in os.listdir(folder) if m.endswith((".yaml", ".yml")) and not m.startswith("."))
    except OSError as error:
        done.findings.append(_cannot_open(Place(folder, 1, 1), folder, error))
        return
    if not members:
        done.findings.append(
            Finding(
                "no-file", "error", f"the folder '{folder}' holds no plan, that is, no file ending in .yaml or .yml",
                Place(folder, 1, 1), ways_out=("name the file of the plan", "start one with 'hotset new'"),
                unreadable=True,
            )
        )  # fmt: skip
    for member in members:
        path = os.path.join(folder, member)
        _read(done, _Want(path, path, folder))


def _read(done: Loaded, want: _Want) -> None:
    """One file from disk, unless it has been read already."""
    real = os.path.realpath(want.path)
    if real in done.seen:
        return
    place = want.asked or Place(want.name, 1, 1)
    try:
        with open(want.path, "rb") as stream:
            data = stream.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        done.findings.append(_cannot_open(place, want.name, error))
        return
    done.seen.add(real)
    _take(done, want, data)


def _take(done: Loaded, want: _Want, data: bytes) -> None:
    """The bytes of one file: decoded, composed, and followed by what they include."""
    index = len(done.files)
    decoded = decode(data)
    if isinstance(decoded, Fault):
        text = readable_part(data[:65536] if decoded.rule == "too-large" or decoded.at == 0 else data)
        done.files.append(SourceFile(want.name, want.path, text))
        done.findings.append(finding_of(decoded, done.files[index], stops=True))
        return
    text, bom = decoded
    file = SourceFile(want.name, want.path, text, line_end(text), bom)
    done.files.append(file)
    composed = compose(text, index)
    for fault, path in composed.faults:
        done.findings.append(finding_of(fault, file, path))
    stopped = composed.stopped or _no_map(composed, text)
    if stopped is not None:
        done.findings.append(finding_of(stopped, file, stops=True))
        return
    if isinstance(composed.root, Mapping):
        done.roots.append(composed.root)
        _follow(done, want, file, composed.root)


def _no_map(composed: Composed, text: str) -> Fault | None:
    """A text that holds no map on top is no plan."""
    root = composed.root
    if isinstance(root, Mapping):
        return None
    if root is None or (isinstance(root, Scalar) and not root.text):
        words = "the file is empty" if not text.strip() else "the file holds nothing but comments"
        return Fault(0, words, ("write 'hotset: 1' and 'title:' on top, or start a plan with 'hotset new'",))
    if isinstance(root, Sequence):
        return Fault(
            root.start,
            "the file is a list; a plan starts with names, each followed by a colon",
            ("write the name these items belong to above them, with a colon, and indent them",),
        )
    return Fault(
        root.start,
        "the file is plain text; a plan starts with names, each followed by a colon and a blank",
        ("write 'hotset: 1' on top", "check that a blank follows the colon in every line"),
    )


def _follow(done: Loaded, want: _Want, file: SourceFile, root: Mapping) -> None:
    """Read what `include:` of a map names."""
    entry = root.entries.get("include")
    if entry is None:
        return
    value = entry[1]
    items: list[Node] = value.items if isinstance(value, Sequence) else [value]
    within = (*want.within, os.path.realpath(want.path))
    for item in items:
        place = Place(file.name, item.line, item.column, "include")
        if not isinstance(item, Scalar) or not item.text:
            done.findings.append(_bad(place, "'include:' wants the path of a file", "write it like include: kit.yaml"))
            continue
        refused = _refused(item.text, want, within)
        if refused is not None:
            done.findings.append(_bad(place, *refused))
            continue
        if len(done.files) >= MOST_FILES:
            done.findings.append(_bad(place, f"the plan has more than {MOST_FILES} files", "join some of them"))
            return
        path = os.path.normpath(os.path.join(_base(want), item.text))
        name = os.path.normpath(os.path.join(os.path.dirname(want.name), item.text))
        _read(done, _Want(name, path, want.folder, place, within))


def _base(want: _Want) -> str:
    """The folder that the includes of a file are looked for in."""
    return os.path.dirname(want.path) if want.path != "-" else want.folder


def _refused(text: str, want: _Want, within: tuple[str, ...]) -> tuple[str, str] | None:
    """Why an include is not followed, with the way out; None where it is."""
    if "\0" in text:
        return "the path holds a sign no path can hold", "write the path with letters, digits and /"
    if "://" in text:
        return f"'{text}' is an address on the network; only files beside the plan are included", "save it as a file"
    if os.path.isabs(text) or text[1:3] == ":\\":
        return f"'{text}' starts at the top of the disk, which is elsewhere on every machine", "write it from this file"
    real = os.path.realpath(os.path.join(_base(want), text))
    folder = os.path.realpath(want.folder)
    if real in within:
        return f"'{text}' includes itself, by way of {len(within)} file{'s' * (len(within) > 1)}", "delete this include"
    if os.path.commonpath([folder, real]) != folder:
        return f"'{text}' lies outside the folder of the plan", "copy the file into the folder of the plan"
    if os.path.isdir(real):
        return f"'{text}' is a folder; an include names a file", "name the files in it one by one"
    if len(within) > INCLUDES_DEEP:
        return f"includes are more than {INCLUDES_DEEP} deep", "include the file from the plan itself"
    return None


def _bad(place: Place, sentence: str, way: str) -> Finding:
    return Finding("bad-include", "error", sentence, place, ways_out=(way,), unreadable=True)


def _cannot_open(place: Place, name: str, error: Exception) -> Finding:
    if isinstance(error, FileNotFoundError):
        words, way = f"there is no file '{name}'", "check the spelling and the folder"
    elif isinstance(error, PermissionError):
        words, way = f"the file '{name}' may not be read", "change its permissions"
    else:
        words, way = f"the file '{name}' cannot be read", "check that it is a file of text"
    return Finding("no-file", "error", words, place, ways_out=(way,), unreadable=True)


def finding_of(fault: Fault, file: SourceFile, path: str = "", *, stops: bool = False) -> Finding:
    """A fault at an offset as a finding at a line and column."""
    line, column = line_and_column(file.text, fault.at)
    also = tuple(Related(Place(file.name, *line_and_column(file.text, at), path), words) for at, words in fault.also)
    return Finding(
        fault.rule, fault.severity, fault.sentence, Place(file.name, line, column, path), also, fault.ways_out,
        unreadable=stops,
    )  # fmt: skip
