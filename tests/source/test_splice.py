"""Writing into a plan: one value changes, nothing else does, or nothing is written and somebody is told why."""

from __future__ import annotations

import difflib
import os
import stat
from pathlib import Path
from typing import Any

import pytest
from hotset.source.compose import compose
from hotset.source.splice import (
    CannotSplice,
    flow_list,
    permute_items,
    plain,
    replace_value,
    set_in_map,
)
from hotset.source.text import SourceFile
from hotset.source.tree import Mapping, Node, Sequence
from hotset.source.writing import encoded, write_safely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

PLAN = """\
# invented plan
hotset: 1
days:
  1: {date: 2026-11-14, call: 07:30, order: [a, b, c]}   # day one
  2:
    date: 2026-11-15
    order:
      # the wide first
      - a   # easy
      - b
      # c waits for dark
      - c
    call: 08:00
  3: {}
  4:
    call: 09:00   # early
  5: {call: 08:00,
      wrap: 19:00}
gear: {x: 1}
"""


def tree(text: str) -> Mapping:
    root = compose(text).root
    assert isinstance(root, Mapping)
    return root


def at(root: Node, *path: str) -> Node:
    for name in path:
        assert isinstance(root, Mapping)
        found = root.get(name)
        assert found is not None
        root = found
    return root


def changes(old: str, new: str) -> list[str]:
    return [line for line in list(difflib.unified_diff(old.split("\n"), new.split("\n"), n=0))[2:] if line[0] in "+-"]


def test_a_list_on_one_line_changes_one_line() -> None:
    new = set_in_map(PLAN, ["days", "1"], "order", "[c, a, meal, b]")
    assert changes(PLAN, new) == [
        "-  1: {date: 2026-11-14, call: 07:30, order: [a, b, c]}   # day one",
        "+  1: {date: 2026-11-14, call: 07:30, order: [c, a, meal, b]}   # day one",
    ]


def test_the_items_of_a_block_list_move_with_their_comments() -> None:
    new = set_in_map(PLAN, ["days", "2"], "order", "[c, a, b]")
    assert "      # c waits for dark\n      - c\n      # the wide first\n      - a   # easy\n      - b\n    call" in new
    assert sorted(new.split("\n")) == sorted(PLAN.split("\n"))


@pytest.mark.parametrize(
    ("path", "added"),
    [
        (["days", "3"], ["-  3: {}", "+  3: {order: [b, a]}"]),
        (["days", "4"], ["+    order: [b, a]"]),
        (["days", "5"], ["-      wrap: 19:00}", "+      wrap: 19:00, order: [b, a]}"]),
        (["gear"], ["-gear: {x: 1}", "+gear: {x: 1, order: [b, a]}"]),
        ([], ["+order: [b, a]"]),
    ],
)
def test_a_new_key_is_added_where_the_map_ends(path: list[str], added: list[str]) -> None:
    new = set_in_map(PLAN, path, "order", "[b, a]")
    assert changes(PLAN, new) == added


def test_a_new_key_in_a_file_without_a_last_line_end() -> None:
    assert set_in_map("a:\n  b: 1", ["a"], "c", "2") == "a:\n  b: 1\n  c: 2"


def test_line_ends_of_windows_stay() -> None:
    new = set_in_map(PLAN.replace("\n", "\r\n"), ["days", "4"], "order", "[a]")
    assert new == PLAN.replace("   # early\n", "   # early\n    order: [a]\n").replace("\n", "\r\n")


@pytest.mark.parametrize(
    ("text", "path", "new", "after"),
    [
        ("a: {b: , c: 1}\n", ("a", "b"), "2 m", "a: {b: 2 m, c: 1}\n"),
        ("a:\nb: 1\n", ("a",), "[1]", "a: [1]\nb: 1\n"),
        ("a: 'x y' # z\n", ("a",), '"q: r"', 'a: "q: r" # z\n'),
        ("a:\n  - 1\n  - 2\nb: 1\n", ("a",), "[2]", "a: [2]\nb: 1\n"),
        ("a: one\n  two\nb: 1\n", ("a",), "three", "a: three\nb: 1\n"),
        ("a: {b: {c: 07:30}}\n", ("a", "b", "c"), "08:00", "a: {b: {c: 08:00}}\n"),
    ],
)
def test_values_of_every_form_are_replaced(text: str, path: tuple[str, ...], new: str, after: str) -> None:
    assert replace_value(text, at(tree(text), *path), new) == after


@pytest.mark.parametrize(
    ("text", "new", "line", "words"),
    [
        ("a: &x [1, 2]\nb: *x\n", "[2, 1]", 1, "several places"),
        ("b: &x [1]\na: *x\n", "[2, 1]", 1, "several places"),
        ("a: &x [1, 2]\n", "[2, 1]", 1, "given with &"),
        ("a: [1, # why\n  2]\n", "[2, 1]", 1, "comment inside"),
        ("a:\n  # why\n  - 1\n", "[2, 1]", 3, "comments among"),
        ("a: 1\n", "x: y", 1, "alter more"),
        ("a: 1\n", "[1", 1, "alter more"),
        ("a: 1\n", "1 # two", 1, ""),
        ("a: 1\na: 2\n", "3", 2, "first mend this"),
        ("a: [1\n", "3", 1, "cannot be read"),
    ],
)
def test_refused_with_the_place_and_what_to_write(text: str, new: str, line: int, words: str) -> None:
    root = compose(text).root or compose("a: 1\n").root
    assert isinstance(root, Mapping)
    node = at(root, "a")
    if new == "1 # two":
        assert plain(tree(replace_value(text, node, new))) == {"a": "1"}
        return
    with pytest.raises(CannotSplice) as caught:
        replace_value(text, node, new)
    assert caught.value.line == line
    assert words in caught.value.reason
    assert new in caught.value.by_hand


def test_a_place_that_is_not_there() -> None:
    with pytest.raises(CannotSplice, match=r"there is no map 'days\.9'.*order: \[a\] under days\.9"):
        set_in_map(PLAN, ["days", "9"], "order", "[a]")


def test_items_that_share_a_line_are_not_moved() -> None:
    text = "a:\n  - - x\n    - y\n"
    outer = at(tree(text), "a")
    assert isinstance(outer, Sequence)
    inner = outer.items[0]
    assert isinstance(inner, Sequence)
    with pytest.raises(CannotSplice):
        permute_items(text, inner, [1, 0])


@pytest.mark.parametrize(
    "items", [["a", "b-2"], ["a: b", "c, d"], ["#4", "*x", '"q"'], ["no", "- x", "back\\slash"], [" a "], []]
)
def test_a_list_in_brackets_reads_back(items: list[str]) -> None:
    assert plain(tree(f"a: {flow_list(items)}\n")) == {"a": items}


NAME = st.from_regex(r"[a-z][a-z0-9-]{0,6}", fullmatch=True)
LEAF = st.one_of(NAME, st.sampled_from(["1.8 m", "07:30", "f/2.8", '"x, y: z"', "'it''s'", ""]))
COMMENT = st.sampled_from(["", "  # why", "   #"])


@st.composite
def plans(draw: st.DrawFn) -> tuple[str, list[list[str]]]:
    """A plan of days in mixed forms, and the paths of its scalar values."""
    lines, paths = ["# invented"], []
    for day in draw(st.lists(NAME, min_size=1, max_size=4, unique=True)):
        keys = draw(st.lists(NAME, min_size=1, max_size=4, unique=True))
        values = [draw(LEAF) for _ in keys]
        paths += [[day, key] for key in keys]
        if draw(st.booleans()):
            inside = ", ".join(f"{key}: {value}" for key, value in zip(keys, values, strict=True))
            lines.append(f"{day}: {{{inside}}}{draw(COMMENT)}")
        else:
            lines.append(f"{day}:{draw(COMMENT)}")
            for key, value in zip(keys, values, strict=True):
                lines.append(f"  {key}: {value}{draw(COMMENT)}")
    end = draw(st.sampled_from(["\n", "\r\n"]))
    return end.join(lines) + draw(st.sampled_from([end, ""])), paths


def with_value(data: Any, path: list[str], value: Any) -> Any:
    return {**data, path[0]: with_value(data.get(path[0], {}), path[1:], value)} if path else value


@settings(max_examples=150, deadline=None)
@given(plans(), st.data())
def test_only_the_value_meant_changes(plan: tuple[str, list[list[str]]], data: st.DataObject) -> None:
    text, paths = plan
    path = data.draw(st.sampled_from(paths))
    items = data.draw(st.lists(NAME, max_size=4))
    before = plain(tree(text))
    new = replace_value(text, at(tree(text), *path), flow_list(items))
    assert plain(tree(new)) == with_value(before, path, items)
    assert len(new.splitlines()) == len(text.splitlines())
    assert sum(a != b for a, b in zip(text.splitlines(), new.splitlines(), strict=True)) <= 1


@settings(max_examples=150, deadline=None)
@given(plans(), st.data())
def test_only_the_key_meant_is_added(plan: tuple[str, list[list[str]]], data: st.DataObject) -> None:
    text, paths = plan
    day = data.draw(st.sampled_from(paths))[0]
    items = data.draw(st.lists(NAME, max_size=4))
    before = plain(tree(text))
    assume("order" not in before[day])
    new = set_in_map(text, [day], "order", flow_list(items))
    assert plain(tree(new)) == with_value(before, [day, "order"], items)
    assert len(changes(text, new)) <= 3
    again = set_in_map(new, [day], "order", flow_list(items))
    assert again == new


@settings(max_examples=100, deadline=None)
@given(st.lists(st.tuples(NAME, st.booleans(), COMMENT), min_size=1, max_size=6, unique_by=lambda t: t[0]), st.data())
def test_items_move_whole(items: list[tuple[str, bool, str]], data: st.DataObject) -> None:
    lines = ["a:"]
    for name, above, behind in items:
        lines += [f"  # about {name}"] if above else []
        lines.append(f"  - {name}{behind}")
    text = "\n".join([*lines, "b: 1", ""])
    order = data.draw(st.permutations(range(len(items))))
    node = at(tree(text), "a")
    assert isinstance(node, Sequence)
    new = permute_items(text, node, order)
    assert plain(tree(new)) == {"a": [items[i][0] for i in order], "b": "1"}
    assert sorted(new.split("\n")) == sorted(text.split("\n"))
    for name, above, _ in items:
        if above:
            assert f"  # about {name}\n  - {name}" in new


def test_a_file_is_replaced_in_one_step_and_stays_the_same_file(tmp_path: Path) -> None:
    real, link = tmp_path / "plan.yaml", tmp_path / "link.yaml"
    real.write_bytes(b"\xef\xbb\xbfa: 1\r\n")
    real.chmod(0o640)
    link.symlink_to(real)
    file = SourceFile(str(link), str(link), "a: 1\r\n", "\r\n", True)
    write_safely(str(link), encoded(file, "a: 2\r\n"))
    assert real.read_bytes() == b"\xef\xbb\xbfa: 2\r\n"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640
    assert link.is_symlink()
    assert sorted(os.listdir(tmp_path)) == ["link.yaml", "plan.yaml"]


def test_a_write_that_fails_leaves_the_old_file(tmp_path: Path) -> None:
    folder = tmp_path / "plan.yaml"
    (folder / "in").mkdir(parents=True)
    with pytest.raises(OSError, match=r"directory|exists|denied|Is a"):
        write_safely(str(folder), b"a: 2\n")
    assert sorted(os.listdir(tmp_path)) == ["plan.yaml"]
    assert (folder / "in").is_dir()
