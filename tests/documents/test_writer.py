"""The output folder: all or nothing, and never a file that is not hotset's."""

from __future__ import annotations

import errno
import json
from pathlib import Path

import pytest
from hotset.documents.disk import Disk
from hotset.documents.writer import LIST, WORK, CannotWrite, recover, write_all

OLD = {"index.html": b"old index", "day-1/call.html": b"old call", "day-1/gone.html": b"gone", "same.csv": b"same"}
NEW = {"index.html": b"new index", "day-1/call.html": b"new call", "day-2/call.html": b"second", "same.csv": b"same"}


class Killed(BaseException):
    """What a pulled plug looks like from inside: nothing catches it."""


class Counting(Disk):
    """Stops or fails at the step with the given number."""

    def __init__(self, at: int, failure: BaseException) -> None:
        self.at, self.failure, self.count = at, failure, 0

    def step(self) -> None:
        self.count += 1
        if self.count == self.at:
            raise self.failure

    def make_folder(self, folder: Path) -> None:
        self.step()
        super().make_folder(folder)

    def write(self, path: Path, content: bytes) -> None:
        if self.count + 1 == self.at:
            path.write_bytes(content[: len(content) // 2])
        self.step()
        super().write(path, content)

    def keep(self, path: Path, copy: Path) -> None:
        self.step()
        super().keep(path, copy)

    def replace(self, source: Path, target: Path) -> None:
        self.step()
        super().replace(source, target)

    def remove(self, path: Path) -> None:
        self.step()
        super().remove(path)

    def remove_folder(self, folder: Path) -> None:
        self.step()
        super().remove_folder(folder)

    def remove_empty(self, folder: Path) -> None:
        self.step()
        super().remove_empty(folder)


def content(folder: Path) -> dict[str, bytes]:
    return {
        p.relative_to(folder).as_posix(): p.read_bytes()
        for p in sorted(folder.rglob("*"))
        if p.is_file() and p.name != LIST
    }


def steps_of_a_run(tmp_path: Path) -> int:
    counting = Counting(0, Killed())
    write_all(tmp_path / "count", OLD)
    write_all(tmp_path / "count", NEW, disk=counting)
    return counting.count


def test_replaces_removes_and_leaves_the_rest(tmp_path: Path) -> None:
    write_all(tmp_path, OLD)
    (tmp_path / "notes.txt").write_text("mine")
    result = write_all(tmp_path, NEW)
    assert content(tmp_path) == {**NEW, "notes.txt": b"mine"}
    assert result.removed == ("day-1/gone.html",)
    assert result.unchanged == ("same.csv",)
    assert (tmp_path / LIST).read_text().split() == sorted(NEW)
    assert not (tmp_path / WORK).exists()


def test_a_folder_of_ours_that_is_empty_goes(tmp_path: Path) -> None:
    write_all(tmp_path, {"day-1/a.html": b"a", "index.html": b"i"})
    write_all(tmp_path, {"index.html": b"i"})
    assert not (tmp_path / "day-1").exists()


def test_what_is_kept_stays_listed(tmp_path: Path) -> None:
    write_all(tmp_path, OLD)
    write_all(tmp_path, {"index.html": b"x"}, keep=frozenset(OLD))
    assert content(tmp_path) == {**OLD, "index.html": b"x"}
    assert (tmp_path / LIST).read_text().split() == sorted(OLD)


def test_killed_anywhere_the_next_run_finishes_or_undoes(tmp_path: Path) -> None:
    steps = steps_of_a_run(tmp_path)
    assert steps > 15
    seen = set()
    for at in range(1, steps + 1):
        folder = tmp_path / f"kill-{at}"
        write_all(folder, OLD)
        (folder / "notes.txt").write_text("mine")
        with pytest.raises(Killed):
            write_all(folder, NEW, disk=Counting(at, Killed()))
        recover(folder, Disk())
        left = content(folder)
        assert left.pop("notes.txt") == b"mine"
        assert left in (OLD, NEW), at
        listed = (folder / LIST).read_text().split()
        assert listed == sorted(left), at
        seen.add("new" if left == NEW else "old")
        write_all(folder, NEW)
        assert content(folder) == {**NEW, "notes.txt": b"mine"}
    assert seen == {"old", "new"}


def test_killed_while_recovering(tmp_path: Path) -> None:
    for at in range(1, 9):
        folder = tmp_path / f"twice-{at}"
        write_all(folder, OLD)
        with pytest.raises(Killed):
            write_all(folder, NEW, disk=Counting(18, Killed()))
        with pytest.raises(Killed):
            recover(folder, Counting(at, Killed()))
        recover(folder, Disk())
        assert content(folder) == NEW, at


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES, errno.EIO])
def test_failing_anywhere_says_so_once_and_changes_nothing(tmp_path: Path, number: int) -> None:
    for at in range(1, steps_of_a_run(tmp_path) + 1):
        folder = tmp_path / f"fail-{at}"
        write_all(folder, OLD)
        said = ""
        try:
            write_all(folder, NEW, disk=Counting(at, OSError(number, "refused")))
        except CannotWrite as problem:
            said = str(problem)
        left = {k: v for k, v in content(folder).items() if not k.startswith(WORK)}
        assert left == (OLD if said else NEW), at
        assert said.count("nothing was changed") == (1 if said else 0)
        recover(folder, Disk())
        assert content(folder) in (OLD, NEW), at


def test_undoing_fails_too(tmp_path: Path) -> None:
    class Dying(Counting):
        def step(self) -> None:
            self.count += 1
            if self.count >= self.at:
                raise OSError(errno.EIO, "refused")

    write_all(tmp_path, OLD)
    with pytest.raises(CannotWrite, match="run the same command again"):
        write_all(tmp_path, NEW, disk=Dying(18, OSError()))
    write_all(tmp_path, NEW)
    assert content(tmp_path) == NEW


def test_a_strangers_file_is_not_overwritten(tmp_path: Path) -> None:
    (tmp_path / "index.html").write_text("mine")
    with pytest.raises(CannotWrite, match="not one of hotset's files"):
        write_all(tmp_path, NEW)
    assert content(tmp_path) == {"index.html": b"mine"}


def test_a_folder_where_a_file_should_be(tmp_path: Path) -> None:
    (tmp_path / "index.html").mkdir()
    with pytest.raises(CannotWrite, match="move it away"):
        write_all(tmp_path, NEW)
    (tmp_path / "file").write_text("x")
    with pytest.raises(CannotWrite, match="a file where a folder is needed"):
        write_all(tmp_path / "file", NEW)


def test_a_list_that_points_outside_removes_nothing(tmp_path: Path) -> None:
    precious = tmp_path / "precious.txt"
    precious.write_text("keep me")
    out = tmp_path / "out"
    out.mkdir()
    (out / "way").symlink_to(tmp_path)
    (out / LIST).write_text(f"../precious.txt\n{precious}\nway/precious.txt\n")
    write_all(out, {"index.html": b"x"})
    assert precious.read_text() == "keep me"


def test_a_journal_that_points_outside_is_thrown_away(tmp_path: Path) -> None:
    precious = tmp_path / "precious.txt"
    precious.write_text("keep me")
    out = tmp_path / "out"
    (out / WORK).mkdir(parents=True)
    (out / WORK / "journal.json").write_text(json.dumps([["../precious.txt", None, None]]))
    write_all(out, {"index.html": b"x"})
    assert precious.read_text() == "keep me"
    assert not (out / WORK).exists()


def test_sheets_do_not_follow_a_link_out_of_the_folder(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    out = tmp_path / "out"
    out.mkdir()
    (out / "day-1").symlink_to(elsewhere)
    with pytest.raises(CannotWrite, match="outside the folder"):
        write_all(out, {"day-1/call.html": b"x"})
    assert list(elsewhere.iterdir()) == []
