"""The README's two commands, which people copy and CI runs."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text("utf-8")
INSTALL = r"python3 -m venv \.venv && \.venv/bin/pip install -e "


def test_the_command_that_builds_an_example() -> None:
    (plan,) = re.findall(
        rf"^{INSTALL}\. && \.venv/bin/hotset build (examples/\S+/plan\.yaml) --out out$", README, re.MULTILINE
    )
    assert (ROOT / plan).is_file()


def test_the_command_that_runs_the_tests() -> None:
    assert len(re.findall(rf"^{INSTALL}'\.\[test\]' && \.venv/bin/pytest$", README, re.MULTILINE)) == 1


def test_links_within_the_repository_lead_somewhere() -> None:
    for page in ("README.md", "DEVELOPERS.md"):
        text = (ROOT / page).read_text("utf-8")
        links = [link for link in re.findall(r"\]\(([^)#\s]+)", text) if "://" not in link]
        assert [link for link in links if not (ROOT / link).exists()] == []
