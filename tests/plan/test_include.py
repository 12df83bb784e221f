"""Plans in several files: what is merged, what clashes, and that every finding points into the right file."""

from __future__ import annotations

from pathlib import Path

from hotset.findings import Finding, in_order
from hotset.plan import Plan, decode
from hotset.source import read


def compiled(folder: Path, **files: str) -> tuple[Plan, tuple[Finding, ...]]:
    for name, text in files.items():
        (folder / f"{name}.yaml").write_text(text, "utf-8")
    source = read([str(folder / "plan.yaml")])
    plan, faults = decode(source)
    assert plan is not None, source.findings
    return plan, in_order([*source.findings, *faults])


def test_what_is_included_counts_as_if_it_stood_here(tmp_path: Path) -> None:
    plan, found = compiled(
        tmp_path,
        plan="hotset: 1\ninclude: kit.yaml\ngear: {lamp: {kind: light}}\nsetups: {a: {camera: {body: body}}}\n",
        kit="gear: {body: {kind: camera}}\nstock: {cloth: {}}\n",
    )
    assert found == ()
    assert set(plan.gear) == {"lamp", "body"}
    assert list(plan.stock) == ["cloth"]
    assert plan.where("gear.body").file.endswith("kit.yaml")
    assert plan.where("gear.lamp").file.endswith("plan.yaml")


def test_a_name_in_two_files_is_told_with_both_places(tmp_path: Path) -> None:
    _, found = compiled(
        tmp_path,
        plan="hotset: 1\ninclude: [kit.yaml]\ngear:\n  lamp: {kind: light}\n",
        kit="gear:\n  body: {kind: camera}\n  lamp: {kind: light}\n",
    )
    assert [f.rule for f in found] == ["include-clash"]
    places = {(Path(p.file).name, p.line, p.column) for p in (found[0].place, *(r.place for r in found[0].related))}
    assert places == {("plan.yaml", 4, 3), ("kit.yaml", 3, 3)}
    assert "'gear.lamp' is written in two files" in found[0].sentence


def test_a_fault_in_an_included_file_points_there(tmp_path: Path) -> None:
    _, found = compiled(
        tmp_path, plan="hotset: 1\ninclude: kit.yaml\n", kit="gear:\n  lamp:\n    kind: light\n    draws: 360\n"
    )
    assert [(f.rule, Path(f.place.file).name, f.place.line, f.place.column) for f in found] == [
        ("missing-unit", "kit.yaml", 4, 12)
    ]
