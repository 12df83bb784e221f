"""Plans of several files: names, folders, includes, and who wrote what twice."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hotset.source import Mapping, Scalar, Source, read
from hotset.source.files import INCLUDES_DEEP


def put(folder: Path, files: dict[str, str]) -> None:
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def said(source: Source, folder: Path) -> list[tuple[str, str, int, int]]:
    return [
        (f.rule, os.path.relpath(f.place.file, folder), f.place.line, f.place.column)
        for f in source.findings
    ]


def text_at(source: Source, *path: str) -> str:
    node = source.root
    for name in path[:-1]:
        inner = node.get(name) if node else None
        assert isinstance(inner, Mapping)
        node = inner
    value = node.get(path[-1]) if node else None
    assert isinstance(value, Scalar)
    return value.text


def test_included_maps_join_under_the_same_keys(tmp_path: Path) -> None:
    put(tmp_path, {
        "plan.yaml": "hotset: 1\ninclude: [kit/own.yaml]\ngear:\n  a: {kind: lens}\n",
        "kit/own.yaml": "hotset: 1\ninclude: more.yaml\ngear:\n  b: {kind: light}\nlocations: {shop: {}}\n",
        "kit/more.yaml": "gear:\n  c: {kind: grip}\n",
    })  # fmt: skip
    source = read([str(tmp_path / "plan.yaml")])
    assert source.findings == ()
    assert text_at(source, "gear", "b", "kind") == "light"
    assert text_at(source, "gear", "c", "kind") == "grip"
    assert source.root is not None
    assert list(source.root.entries) == ["hotset", "include", "gear", "locations"]
    gear = source.root.get("gear")
    assert isinstance(gear, Mapping)
    place = source.place(gear.entries["c"][0], "gear.c")
    assert (os.path.relpath(place.file, tmp_path), place.line, place.column) == ("kit/more.yaml", 2, 3)
    assert source.excerpt(place) == ("  c: {kind: grip}", 3)


def test_a_name_in_two_files_names_both_places(tmp_path: Path) -> None:
    put(tmp_path, {
        "plan.yaml": "include: kit.yaml\ntitle: One\ngear:\n  a: {kind: lens}\n",
        "kit.yaml": "title: Two\ngear:\n  a: {kind: light}\n",
    })  # fmt: skip
    source = read([str(tmp_path / "plan.yaml")])
    assert said(source, tmp_path) == [("include-clash", "kit.yaml", 1, 1), ("include-clash", "kit.yaml", 3, 3)]
    clash = source.findings[1]
    assert "'gear.a'" in clash.sentence
    (first,) = clash.related
    assert (os.path.basename(first.place.file), first.place.line, first.place.column) == ("plan.yaml", 4, 3)
    assert text_at(source, "gear", "a", "kind") == "lens"
    assert not clash.unreadable


def test_versions_that_differ_clash(tmp_path: Path) -> None:
    put(tmp_path, {"a.yaml": "hotset: 1\n", "b.yaml": "hotset: 2\n"})
    assert [f.rule for f in read([str(tmp_path)]).findings] == ["include-clash"]


@pytest.mark.parametrize(
    ("include", "words"),
    [
        ("nope.yaml", "there is no file"),
        ("../out.yaml", "outside the folder"),
        ("link.yaml", "outside the folder"),
        ("/etc/hostname", "top of the disk"),
        ("https://example.org/kit.yaml", "address on the network"),
        ("sub", "is a folder"),
        ("plan.yaml", "includes itself"),
        ("round.yaml", "includes itself, by way of 2 files"),
        ("{a: b}", "wants the path"),
        ('"a\\0b"', "no path can hold"),
    ],
)
def test_includes_that_are_refused(tmp_path: Path, include: str, words: str) -> None:
    folder = tmp_path / "film"
    put(folder, {"plan.yaml": f"a: 1\ninclude: {include}\n"})
    put(folder, {"sub/x.yaml": "b: 1\n", "round.yaml": "include: plan.yaml\n"})
    put(tmp_path, {"out.yaml": "b: 1\n"})
    (folder / "link.yaml").symlink_to(tmp_path / "out.yaml")
    source = read([str(folder / "plan.yaml")])
    assert len(source.findings) == 1, source.findings
    (finding,) = source.findings
    assert words in finding.sentence
    assert finding.rule in ("bad-include", "no-file")
    assert finding.unreadable
    if "round" not in include:
        assert (finding.place.line, finding.place.column) == (2, 10)
    assert source.root is None


def test_includes_go_eight_deep(tmp_path: Path) -> None:
    put(tmp_path, {f"{i}.yaml": f"k{i}: 1\ninclude: {i + 1}.yaml\n" for i in range(INCLUDES_DEEP)})
    put(tmp_path, {f"{INCLUDES_DEEP}.yaml": "last: 1\n"})
    assert read([str(tmp_path / "0.yaml")]).findings == ()
    put(tmp_path, {f"{INCLUDES_DEEP}.yaml": "include: more.yaml\n", "more.yaml": "x: 1\n"})
    (finding,) = read([str(tmp_path / "0.yaml")]).findings
    assert f"more than {INCLUDES_DEEP} deep" in finding.sentence


def test_a_file_that_two_others_include_is_read_once(tmp_path: Path) -> None:
    put(tmp_path, {
        "plan.yaml": "include: [a.yaml, b.yaml]\n", "a.yaml": "include: kit.yaml\n", "b.yaml": "include: kit.yaml\n",
        "kit.yaml": "gear: {a: {kind: lens}}\n",
    })  # fmt: skip
    source = read([str(tmp_path / "plan.yaml")])
    assert source.findings == ()
    assert len(source.files) == 4


def test_a_link_to_a_file_within_the_folder_is_followed(tmp_path: Path) -> None:
    put(tmp_path, {"plan.yaml": "include: link.yaml\n", "kit.yaml": "gear: {a: {kind: lens}}\n"})
    (tmp_path / "link.yaml").symlink_to(tmp_path / "kit.yaml")
    assert text_at(read([str(tmp_path / "plan.yaml")]), "gear", "a", "kind") == "lens"


def test_a_folder_is_its_yaml_files_in_order(tmp_path: Path) -> None:
    put(tmp_path, {"b.yml": "b: 1\n", "a.yaml": "a: 1\n", "notes.txt": "c: 1", ".hidden.yaml": "d: 1\n"})
    source = read([str(tmp_path)])
    assert [os.path.basename(f.name) for f in source.files] == ["a.yaml", "b.yml"]
    assert source.root is not None
    assert list(source.root.entries) == ["a", "b"]


def test_names_that_lead_nowhere(tmp_path: Path) -> None:
    (missing,) = read([str(tmp_path / "plan.yaml")]).findings
    assert (missing.rule, missing.unreadable) == ("no-file", True)
    assert "there is no file" in missing.sentence
    (bare,) = read([str(tmp_path)]).findings
    assert (bare.rule, bare.unreadable) == ("no-file", True)
    assert "holds no plan" in bare.sentence


def test_every_broken_file_has_its_one_finding(tmp_path: Path) -> None:
    put(tmp_path, {"plan.yaml": "include: [a.yaml, b.yaml]\n", "a.yaml": "a: [\n", "b.yaml": "a: b: c: d\n"})
    source = read([str(tmp_path / "plan.yaml")])
    assert said(source, tmp_path) == [("not-yaml", "a.yaml", 1, 4), ("not-yaml", "b.yaml", 1, 5)]
    assert source.root is None


def test_standard_input_has_the_name_it_is_given(tmp_path: Path) -> None:
    put(tmp_path, {"kit.yaml": "gear: {a: {kind: lens}}\n"})
    name = str(tmp_path / "plan.yaml")
    source = read(["-"], stdin_text=b"include: kit.yaml\nx: 1\nx: 2\n", stdin_name=name)
    assert [f.place.file for f in source.findings] == [name]
    assert text_at(source, "gear", "a", "kind") == "lens"


def test_the_same_file_twice_is_one(tmp_path: Path) -> None:
    put(tmp_path, {"plan.yaml": "a: 1\n"})
    name = str(tmp_path / "plan.yaml")
    assert len(read([name, name]).files) == 1
