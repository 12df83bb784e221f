"""How long the order of a day takes: invented days, all rules on or plain, with the seconds to proof or the gap left.

    python tests/bench/orders.py [--seeds N]

Everything in the days is invented. Nothing is asserted: seconds differ from machine to machine.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1] / "order"))

import invented
from hotset.facts.numbers import FOREVER, Day, Window
from hotset.order.solve import solve
from hotset.record import replace

SIZES = (("all rules", 12, 0.3), ("all rules", 16, 2.0), ("all rules", 20, 5.0), ("plain", 30, 2.0))
"""What is measured, how many setups, and the seconds aimed at."""


def day(kind: str, setups: int, seed: int) -> Day:
    """A day with room enough for all setups and reason enough to think about their order."""
    if kind == "plain":
        mix = invented.Mix(setups, 3, windows=0.0, meals=False, twins=False, holds=False, optional=False, options=False,
                           before=0.1, late=2000)  # fmt: skip
        whole = invented.day(seed, mix)
        still = tuple(replace(s, cast=()) for s in whole.setups)
        return replace(whole, setups=still, meals=(), gap=FOREVER, agreed=(), absent=(), tone=0, cast=(), riggers=2)
    whole = invented.day(seed, invented.Mix(setups, 3, windows=0.0, optional=False, before=0.06, late=400))
    rng, length = Random(seed), round(1.3 * sum(s.takes for s in whole.setups))
    opens = [whole.call + rng.randint(0, 6 * length // 10) if rng.random() < 0.2 else 0 for _ in whole.setups]
    windows = [(Window("sun", ((a, a + 4 * length // 10),)),) if a else () for a in opens]
    timed = tuple(replace(s, windows=w) for s, w in zip(whole.setups, windows, strict=True))
    return replace(whole, setups=timed, riggers=2)


def main() -> None:
    seeds = int(sys.argv[sys.argv.index("--seeds") + 1]) if "--seeds" in sys.argv else 5
    print(f"{'':<10} {'setups':>6} {'aim':>6}   seconds to proof, or the gap in % of the bound after as many")
    for kind, setups, aim in SIZES:
        told = []
        for seed in range(seeds):
            one = day(kind, setups, seed)
            began = time.perf_counter()
            answer = solve(one)
            took = time.perf_counter() - began
            if not answer.found:
                told.append("none" + ("" if answer.proved else "?"))
                continue
            part = answer.parts[0]
            gap = 100 * (part.value - part.bound) / max(1, part.bound - one.call)
            told.append(f"{took:.2f}" + ("" if part.proven else f" ({gap:.1f} %)"))
        print(f"{kind:<10} {setups:>6} {aim:>5} s   {', '.join(told)}", flush=True)


if __name__ == "__main__":
    main()
