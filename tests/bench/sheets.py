"""How long all sheets take, and how much memory: the bundled example and an invented film of ten days and 60 setups.

    python tests/bench/sheets.py [--setups N] [--runs N]

The aim for the film is 10 s and 300 MB on two cores. Nothing is asserted: numbers differ from machine to machine.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from bench import HOTSET, once
from film import film

EXAMPLE = Path(__file__).parents[2] / "examples" / "last-boat" / "plan.yaml"


def number(name: str, usual: int) -> int:
    """A number from the command line."""
    return int(sys.argv[sys.argv.index(name) + 1]) if name in sys.argv else usual


def main() -> None:
    setups, runs = number("--setups", 60), number("--runs", 3)
    with tempfile.TemporaryDirectory() as folder:
        plan = Path(folder) / "plan.yaml"
        plan.write_text(film(setups), "utf-8")
        print(f"{'':<26} {'best wall':>10} {'most memory':>12} {'files':>6}")
        for name, path, more in (
            ("example", EXAMPLE, []), ("example, no PDF", EXAMPLE, ["--no-pdf"]),
            (f"film of {setups} setups", plan, []), (f"film of {setups}, no PDF", plan, ["--no-pdf"]),
        ):  # fmt: skip
            out = Path(folder) / f"out-{path.stem}-{len(more)}-{name[:4]}"
            found = [once([*HOTSET, "build", str(path), "--out", str(out / str(n)), *more]) for n in range(runs)]
            files = sum(1 for file in (out / "0").rglob("*.*") if file.suffix in (".html", ".pdf", ".csv", ".ics"))
            wall, memory = min(row[0] for row in found), max(row[1] for row in found)
            print(f"{name:<26} {wall / 1000:>8.2f} s {memory:>9.0f} MB {files:>6}", flush=True)


if __name__ == "__main__":
    main()
