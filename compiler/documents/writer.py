"""Writes a finished set of files into a folder: all of them or none, and never a file that is not ours.

The folder holds `.hotset-files`, the list of what hotset wrote there. A run first puts everything new, and a copy of
everything it will replace, into `.hotset-work/`; then it writes a journal there; then it only renames. A run that
stops before the journal is undone by the next, one that stops after it is finished by the next.
"""

from __future__ import annotations

import errno
import json
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

from ..record import record
from .disk import Disk

LIST = ".hotset-files"
WORK = ".hotset-work"
JOURNAL = "journal.json"


class CannotWrite(Exception):
    """The folder was left as it was; the text says what stood in the way and what to do."""


@record
class Written:
    """What a run did, as names inside the folder, in alphabetical order."""

    written: tuple[str, ...]
    unchanged: tuple[str, ...]
    removed: tuple[str, ...]


@record
class _Step:
    """One target with its new content in the work folder; no `new` means the file goes; `old` is its former self."""

    target: str
    new: str | None
    old: str | None


def write_all(folder: Path, files: Mapping[str, bytes], keep: frozenset[str] = frozenset(),
              disk: Disk | None = None) -> Written:
    """Makes `folder` hold `files` (names with `/`), beside whatever else is there.

    Files of an earlier run that are neither in `files` nor in `keep` are removed. Raises CannotWrite, with the folder
    as it was before, when anything stands in the way.
    """
    disk = disk or Disk()
    try:
        disk.make_folder(folder)
        recover(folder, disk)
        ours = listed(folder)
        _refuse_strangers(folder, files, ours)
        steps, result = _plan(folder, files, keep, ours)
        if not steps:
            return result
        listing = "".join(f"{name}\n" for name in sorted(set(files) | (ours & keep)))
        _stage(folder, files, listing, steps, disk)
    except OSError as error:
        _give_up(folder, disk)
        raise CannotWrite(_in_words(folder, error)) from error
    try:
        _apply(folder, steps, disk)
    except OSError as error:
        _undo(folder, steps, disk)
        raise CannotWrite(_in_words(folder, error)) from error
    _tidy(folder, steps, disk)
    return result


def recover(folder: Path, disk: Disk) -> None:
    """Finishes or undoes what an interrupted run left in the folder."""
    work = folder / WORK
    if not work.is_dir() or work.is_symlink():
        return
    steps = _journal(work / JOURNAL)
    if steps:
        _apply(folder, steps, disk)
        _tidy(folder, steps, disk)
    else:
        disk.remove_folder(work)


def _plan(folder: Path, files: Mapping[str, bytes], keep: frozenset[str],
          ours: frozenset[str]) -> tuple[list[_Step], Written]:
    """What has to change, the list of files last so that it never speaks of files that are not there yet."""
    steps: list[_Step] = []
    written, unchanged = [], []
    for name in sorted(files):
        target = folder / name
        there = target.is_file()
        if there and target.read_bytes() == files[name]:
            unchanged.append(name)
            continue
        written.append(name)
        steps.append(_Step(name, f"new-{len(steps)}", f"old-{len(steps)}" if there else None))
    gone = sorted(name for name in ours - set(files) - keep if (folder / name).is_file())
    steps += [_Step(name, None, f"old-{len(steps) + i}") for i, name in enumerate(gone)]
    listed = set(files) | (ours & keep)
    if steps or listed != ours:
        had_list = (folder / LIST).is_file()
        steps.append(_Step(LIST, f"new-{len(steps)}", f"old-{len(steps)}" if had_list else None))
    return steps, Written(tuple(written), tuple(unchanged), tuple(gone))


def _stage(folder: Path, files: Mapping[str, bytes], listing: str, steps: list[_Step], disk: Disk) -> None:
    work = folder / WORK
    disk.make_folder(work)
    for step in steps:
        if step.new is not None:
            content = listing.encode("utf-8") if step.target == LIST else files[step.target]
            disk.write(work / step.new, content)
        if step.old is not None:
            disk.keep(folder / step.target, work / step.old)
    rows = [[step.target, step.new, step.old] for step in steps]
    disk.write(work / (JOURNAL + ".part"), json.dumps(rows).encode("utf-8"))
    disk.replace(work / (JOURNAL + ".part"), work / JOURNAL)


def _apply(folder: Path, steps: list[_Step], disk: Disk) -> None:
    """Renames; done again after an interruption it goes on where it stopped."""
    work = folder / WORK
    for step in steps:
        target = folder / step.target
        if step.new is None:
            disk.remove(target)
        elif (work / step.new).is_file():
            disk.make_folder(target.parent)
            disk.replace(work / step.new, target)


def _undo(folder: Path, steps: list[_Step], disk: Disk) -> None:
    """Puts every former file back; where even that fails the journal stays and the next run finishes the work."""
    work = folder / WORK
    try:
        for step in steps:
            if step.old is not None and (work / step.old).is_file():
                disk.replace(work / step.old, folder / step.target)
            elif step.new is not None and step.old is None and not (work / step.new).is_file():
                disk.remove(folder / step.target)
            _remove_empty_above(folder, step.target, disk)
        disk.remove(work / JOURNAL)
        disk.remove_folder(work)
    except OSError as error:
        text = f"{_in_words(folder, error)}; the folder is half changed: mend that and run the same command again"
        raise CannotWrite(text) from error


def _tidy(folder: Path, steps: list[_Step], disk: Disk) -> None:
    """Takes the journal away first: from then on the work folder is only waste."""
    try:
        disk.remove(folder / WORK / JOURNAL)
        disk.remove_folder(folder / WORK)
        for step in steps:
            if step.new is None:
                _remove_empty_above(folder, step.target, disk)
    except OSError:
        # The sheets are all in place; the next run takes the waste away.
        return


def _give_up(folder: Path, disk: Disk) -> None:
    work = folder / WORK
    try:
        if work.is_dir() and not (work / JOURNAL).is_file():
            disk.remove_folder(work)
    except OSError:
        return


def _remove_empty_above(folder: Path, name: str, disk: Disk) -> None:
    for parent in PurePosixPath(name).parents:
        if parent != PurePosixPath("."):
            disk.remove_empty(folder / parent)


def listed(folder: Path) -> frozenset[str]:
    """The files in the folder that are hotset's, as its list says; only names that stay inside."""
    listing = folder / LIST
    if not listing.is_file():
        return frozenset()
    names = listing.read_bytes().decode("utf-8", "replace").splitlines()
    return frozenset(name for name in names if _inside(folder, name))


def _journal(path: Path) -> list[_Step]:
    """The steps of an interrupted run; none when there is no journal or it is not one that this writer made."""
    try:
        rows = json.loads(path.read_bytes())
        steps = [_Step(str(t), None if n is None else str(n), None if o is None else str(o)) for t, n, o in rows]
    except (OSError, ValueError, TypeError):
        return []
    good = all(_inside(path.parent.parent, s.target) and _flat(s.new) and _flat(s.old) for s in steps)
    return steps if good else []


def _flat(name: str | None) -> bool:
    return name is None or ("/" not in name and "\\" not in name and name not in ("", ".", ".."))


def _inside(folder: Path, name: str) -> bool:
    """A name that stays inside the folder, links followed; lists and journals may be a stranger's."""
    path = PurePosixPath(name)
    if not name or path.is_absolute() or ".." in path.parts or "\\" in name or ":" in name or "\0" in name:
        return False
    try:
        return (folder / name).parent.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):
        return False


def _refuse_strangers(folder: Path, files: Mapping[str, bytes], ours: frozenset[str]) -> None:
    for name in sorted(files):
        if not _inside(folder, name):
            raise CannotWrite(f"'{name}' would land outside the folder '{folder}': remove the link that leads there")
        target = folder / name
        if target.is_dir() or (target.exists() and name not in ours):
            raise CannotWrite(
                f"'{target}' is there already and is not one of hotset's files: "
                "move it away, or choose another folder with --out"
            )


def _in_words(folder: Path, error: OSError) -> str:
    what = error.filename if isinstance(error.filename, str) else str(folder)
    if error.errno == errno.ENOSPC:
        return f"no space left on the disk of '{folder}'; nothing was changed: free some and run again"
    if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        return f"'{what}' may not be written; nothing was changed: allow writing there, or choose another --out"
    if error.errno in (errno.ENOTDIR, errno.EEXIST):
        return f"'{what}' is in the way, a file where a folder is needed; nothing was changed: move it away"
    reason = (error.strerror or str(error)).lower()
    return f"'{what}' could not be written ({reason}); nothing was changed: mend that and run again"
