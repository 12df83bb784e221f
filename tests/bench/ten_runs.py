"""Ten runs of `hotset order` on each example: other hash seeds, one core and all, and the answers compared.

python tests/bench/ten_runs.py [PLAN...]
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from hashlib import sha256
from pathlib import Path

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
RUNS = 10


def run(plan: str, number: int, text: bytes | None = None, *options: str) -> bytes:
    """What is printed by one run: even numbers on one core, odd ones on all; every run has its own hash seed."""
    cores = {min(os.sched_getaffinity(0))} if number % 2 == 0 else os.sched_getaffinity(0)
    done = subprocess.run(
        [sys.executable, "-m", "hotset", "order", plan, *options],
        input=text, capture_output=True, check=False, env={**os.environ, "PYTHONHASHSEED": str(number)},
        preexec_fn=lambda: os.sched_setaffinity(0, cores),
    )  # fmt: skip
    return done.stdout + done.stderr


def main() -> int:
    plans = sys.argv[1:] or [str(p) for p in sorted(EXAMPLES.glob("*/plan.yaml"))]
    different = 0
    for plan in plans:
        began = time.perf_counter()
        answers = {sha256(run(plan, n)).hexdigest()[:12] for n in range(RUNS)}
        different += len(answers) - 1
        print(f"{plan}: {RUNS} runs, {len(answers)} answer{'s' if len(answers) > 1 else ''}, "
              f"{(time.perf_counter() - began) / RUNS:.1f} s each")  # fmt: skip
    return int(different > 0)


if __name__ == "__main__":
    sys.exit(main())
