"""A filter does not screw onto the lens, and no step ring that the plan owns joins them.

On set: the filter is held by hand in front of the lens, or the shot is made without it.

How it is decided: 'thread:' of the filter against 'thread:' of the lens, to 0.1 mm; an adapter 'from:' the lens's
thread 'to:' the filter's is a step ring. Filters on one another are taken to have the same thread on both sides.
A filter that has 'fits:' and no thread goes into a holder and is left out. Source: the thread engraved on both.

Fix: get the step ring that is named, or another filter.

When to accept it: the filter is taped or held in a matte box the plan does not name.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from ..facts.fits import Thread, thread
from ..findings import NotChecked
from .words import Once, finding, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator

    from ..facts import Facts
    from ..findings import Finding

RULE = "filter-thread"
SEVERITY: Final = "error"
TITLE = "a filter does not fit the lens's thread"

TRIGGERS = """
hotset: 1
gear:
  lens-35: {kind: lens, thread: 55 mm}
  soft-glass: {kind: filter, thread: 77 mm}
setups:
  wide:
    camera:
      lens: lens-35
      filters: soft-glass  # <- here
"""
PASSES = TRIGGERS.replace("77 mm}", "77 mm}\n  ring: {kind: adapter, from: 55 mm, to: 77 mm}").replace(
    "  # <- here", ""
)


def check(facts: Facts) -> Iterator[Finding | NotChecked]:
    fresh = Once(facts.plan)
    for setup, lens, filter_, path in _pairs(facts):
        found = thread(facts.plan, facts.plan.gear[lens], facts.plan.gear[filter_])
        if found.state == "unknown" and found.wants:
            yield NotChecked(RULE, f"'{filter_}' on '{lens}'", found.wants)
        elif found.state == "none" and fresh(path, lens):
            yield _finding(facts, setup, lens, filter_, path, found)


def _pairs(facts: Facts) -> Iterator[tuple[str, str, str, str]]:
    """Setup, lens, filter and where the filter is written: as in the setup, and as a shot has it otherwise."""
    plan = facts.plan
    for setup in plan.setups.values():
        if setup.camera is None:
            continue
        mine, base = setup.camera.filters, setup.camera.lens
        wanted = [(base, mine, f"{setup.camera.path}.filters")]
        for shot in facts.shots_of.get(setup.id, ()):
            if shot.filters or shot.lens:
                path = f"{shot.path}.filters" if shot.filters else f"{shot.path}.lens"
                wanted.append((shot.lens or base, shot.filters or mine, path))
        for lens, filters, path in wanted:
            if lens in plan.gear and lens is not None:
                for i, name in enumerate(filters):
                    if name in plan.gear and plan.gear[name].kind == "filter":
                        yield setup.id, lens, name, f"{path}.{i}"


def _millimetres(metres: float) -> str:
    return f"{metres * 1000:.1f}".removesuffix(".0") + " mm"


def _finding(facts: Facts, setup: str, lens: str, name: str, path: str, found: Thread) -> Finding:
    near, far = _millimetres(found.lens), _millimetres(found.filter)
    ways = [f"a step ring from {near} to {far} would do (an adapter with 'from: {near}' and 'to: {far}')"]
    if found.filter < found.lens:
        ways.append("look at the corners of the picture: the smaller filter may be seen in it")
    same = [
        g.id
        for g in facts.plan.gear.values()
        if g.kind == "lens" and g.thread is not None and abs(float(g.thread) - found.filter) < 0.0001
    ]
    if same:
        ways.append(f"or take {quoted(same, 'or')}, which it fits")
    return finding(
        facts.plan,
        (RULE, SEVERITY),
        path,
        f"'{name}' has a {far} thread and '{lens}' one of {near}, and no step ring in the plan joins them",
        tuple(ways),
        (
            ("setup", setup),
            ("lens", lens),
            ("filter", name),
            ("lens_thread_m", found.lens),
            ("filter_thread_m", found.filter),
        ),
    )
