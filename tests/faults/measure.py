"""How many planted faults are found by the right rule at the right line: `python -m tests.faults.measure`.

Faults are planted mechanically, one at a time, in the three examples, and each is held against the rules that should
say it and the lines on which they should point. Prints a table by group and every miss.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from typing import NamedTuple

from . import hands_and_exits, people_and_hours, space_and_text, things
from .plant import NAMES, Bed, Fault, found


class Tally(NamedTuple):
    """What was planted in one group: how many, how many of them found, and the words of those missed."""

    planted: int
    found: int
    missed: tuple[str, ...]


def planted(bed: Bed) -> Iterator[Fault]:
    """Every fault of an example."""
    for family in (things, people_and_hours, hands_and_exits, space_and_text):
        yield from family.faults(bed)


def measured() -> dict[str, Tally]:
    """Group -> its tally, over all examples."""
    tallies: dict[str, Tally] = {}
    for name in NAMES:
        bed = Bed(name)
        for fault in planted(bed):
            before = tallies.get(fault.group, Tally(0, 0, ()))
            good = found(bed, fault)
            missed = () if good else (f"{name}: {fault.words} (wants {' or '.join(fault.rules)})",)
            tallies[fault.group] = Tally(before.planted + 1, before.found + good, before.missed + missed)
    return tallies


def main() -> int:
    tallies = measured()
    for group, tally in sorted(tallies.items()):
        print(f"{group:<20} {tally.found:4d} of {tally.planted:4d}  {tally.found / tally.planted:6.1%}")
    planted_, found_ = sum(t.planted for t in tallies.values()), sum(t.found for t in tallies.values())
    print(f"{'all':<20} {found_:4d} of {planted_:4d}  {found_ / planted_:6.1%}\n")
    for tally in tallies.values():
        for words in tally.missed:
            print(f"missed: {words}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
