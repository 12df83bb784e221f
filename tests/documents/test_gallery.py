"""The pictures of the README show what the example gives."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def test_the_pictures_are_current() -> None:
    run = subprocess.run([sys.executable, "tests/gallery.py", "--check"], cwd=ROOT, capture_output=True, text=True)
    assert (run.returncode, run.stdout, run.stderr) == (0, "", "")


def test_every_picture_of_the_readme_is_there_and_described() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    shown = re.findall(r'<img [^>]*src="(examples/gallery/[^"]+)"[^>]*>', readme)
    assert len(shown) > 5
    assert [name for name in shown if not (ROOT / name).is_file()] == []
    assert all(re.search(r'alt="[^"]{20,}"', tag) for tag in re.findall(r"<img [^>]*>", readme))
    there = {f.name for f in (ROOT / "examples" / "gallery").iterdir() if f.suffix in (".png", ".svg")}
    assert there == {Path(name).name for name in shown}
