"""Where hotset stands: cold `hotset check` against a YAML style checker, and the time and memory of the other verbs.

    python tests/bench/bench.py [PLAN] [--runs N]

Runs are interleaved and medians are printed, so that a busy machine slows all alike. Nothing is asserted: numbers
differ from machine to machine, their ratios much less.
"""

from __future__ import annotations

import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
from big_plan import plan as big_plan

PYTHON = sys.executable
HOTSET = [PYTHON, "-m", "hotset"]
# An installed command has its compiled modules on disk; a shell that forbids writing them would time the compiler.
ENVIRONMENT = {k: v for k, v in os.environ.items() if k not in ("PYTHONDONTWRITEBYTECODE", "PYTHONUNBUFFERED")}


def once(command: list[str]) -> tuple[float, float, int]:
    """Wall milliseconds, peak memory in MB and exit status of one cold run."""
    began = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=ENVIRONMENT)
    _pid, status, usage = os.wait4(process.pid, 0)
    wall = (time.perf_counter() - began) * 1000
    process.returncode = os.waitstatus_to_exitcode(status)
    return wall, usage.ru_maxrss / 1024, process.returncode


def together(commands: dict[str, list[str]], runs: int) -> dict[str, tuple[float, float, int]]:
    """Median wall, greatest memory and last status of each, the runs of all interleaved."""
    seen: dict[str, list[tuple[float, float, int]]] = {name: [] for name in commands}
    for command in commands.values():
        once(command)  # compiles what has changed
    for _ in range(runs):
        for name, command in commands.items():
            seen[name].append(once(command))
    return {
        name: (statistics.median(s[0] for s in samples), max(s[1] for s in samples), samples[-1][2])
        for name, samples in seen.items()
    }


def show(title: str, figures: dict[str, tuple[float, float, int]], against: str = "") -> None:
    print(f"\n{title}")
    for name, (wall, memory, status) in figures.items():
        ratio = f"  x{wall / figures[against][0]:.2f}" if against else ""
        print(f"  {name:<24} {wall:8.0f} ms {memory:7.0f} MB  exit {status}{ratio}")


def style_checker(plan: Path) -> list[str]:
    return [PYTHON, "-m", "yamllint", "-d", "relaxed", str(plan)]


def main(arguments: list[str]) -> int:
    runs = int(arguments[arguments.index("--runs") + 1]) if "--runs" in arguments else 11
    named = [a for a in arguments if a.endswith((".yaml", ".yml"))]
    found = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*/plan.yaml"))
    folder = Path(tempfile.mkdtemp())
    ENVIRONMENT["PYTHONPYCACHEPREFIX"] = str(folder / "compiled")
    try:
        for plan in [Path(name) for name in named] or found:
            lines = len(plan.read_text("utf-8").splitlines())
            cold = {
                "bare Python": [PYTHON, "-c", "pass"],
                "style checker": style_checker(plan),
                "hotset check": [*HOTSET, "check", str(plan)],
            }
            show(f"{plan.parent.name}/{plan.name}, {lines} lines", together(cold, runs), "style checker")
            other = {
                "hotset order": [*HOTSET, "order", str(plan)],
                "hotset build": [*HOTSET, "build", str(plan), "--out", str(folder / "out")],
            }
            show("the other verbs", together(other, max(1, runs // 4)))
        long = folder / "long.yaml"
        long.write_text(big_plan(12_000), "utf-8")
        both = {"style checker": style_checker(long), "hotset check": [*HOTSET, "check", str(long)]}
        lines = len(long.read_text("utf-8").splitlines())
        show(f"a made plan, {lines} lines", together(both, max(3, runs // 3)), "style checker")
    finally:
        shutil.rmtree(folder)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
