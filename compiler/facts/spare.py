"""Whether a take can do without a piece of gear, and with what instead.

Losing a thing means losing one piece of it. A take survives when the uses it makes, beside those of the sets held hot
meanwhile, can still be matched to pieces: with another of the quantity, another of 'any of', the thing's 'plan-b:', or
a free thing that does at least the same.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from ..record import replace
from . import occupancy
from .alike import instead

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ..plan import Plan
    from ..plan.scene import Shot
    from ..plan.setup import Setup
    from .facts import Facts
    from .occupancy import Use


class Gap(NamedTuple):
    """A use of a lost thing in a take: what is lost, where the plan says so, by what part of the setup, what serves
    instead (`by` its name, `serves` in the crew's words; both "" where nothing does), and the things that were thought
    of but are taken."""

    lost: str
    path: str
    who: str
    serves: str = ""
    by: str = ""
    taken: tuple[str, ...] = ()


def take_uses(facts: Facts, setup: Setup, shot: Shot | None) -> tuple[Use, ...]:
    """The pieces of gear of one take: the setup's, with the lens and the filters the shot has otherwise."""
    uses = facts.uses[setup.id]
    if shot is None or not (shot.lens or shot.filters) or setup.camera is None:
        return uses
    front = f"{setup.camera.path}."
    gear = facts.plan.gear
    own = [u for u in uses if not (shot.lens and u.path == f"{front}lens")]
    if shot.filters:
        own = [u for u in own if not u.path.startswith(f"{front}filters.")]
    if shot.lens in gear and shot.lens is not None:
        own.append(occupancy.Use((shot.lens,), f"{shot.path}.lens", "the camera", setup.id))
    for i, name in enumerate(shot.filters):
        if name in gear:
            own.append(occupancy.Use((name,), f"{shot.path}.filters.{i}", "the camera", setup.id))
    return tuple(own)


def fewer(plan: Plan, lost: Mapping[str, int]) -> Plan:
    """The plan with so many pieces fewer of some gear."""
    gear = dict(plan.gear)
    for name, count in lost.items():
        gear[name] = replace(gear[name], quantity=max(occupancy.owned(plan, name) - count, 0))
    return replace(plan, gear=gear)


def gaps(facts: Facts, setup: Setup, shot: Shot | None, lost: Mapping[str, int]) -> tuple[Gap, ...]:
    """Every use of a lost thing in a take, with what serves instead."""
    mine = take_uses(facts, setup, shot)
    hit = [u for u in mine if any(name in lost for name in u.among)]
    if not hit:
        return ()
    left = fewer(facts.plan, lost)
    held = dict.fromkeys(name for m in (*facts.moments, *facts.ahead) if m.setup == setup.id for name in m.held)
    beside = [u for name in held for u in facts.uses[name]]
    found: list[Gap] = []
    for name in dict.fromkeys(n for u in hit for n in u.among if n in lost):
        takers = [u for u in hit if name in u.among]
        short = _short(left, [*beside, *mine], name)
        if not short:
            found.append(Gap(name, takers[0].path, takers[0].who, *_others(facts, takers[0], name)))
            continue
        found.append(_substitute(left, name, takers, [*beside, *mine]))
    return tuple(found)


def _short(plan: Plan, uses: list[Use], name: str) -> bool:
    return any(name in few.things or any(name in u.among for u in few.uses) for few in occupancy.short(plan, uses))


def _others(facts: Facts, use: Use, name: str) -> tuple[str, str]:
    """What serves without any change of the plan, in words and by name."""
    rest = [n for n in use.among if n != name]
    if rest:
        return f"'{rest[0]}', which the plan names too", rest[0]
    return f"another of the {occupancy.owned(facts.plan, name)}", name


def _substitute(plan: Plan, name: str, takers: list[Use], uses: list[Use]) -> Gap:
    """The first thing that is free to serve; `plan` has the lost pieces taken out already."""
    at = takers[-1]
    named = plan.gear[name].plan_b
    wanted = [other for other in instead(plan, name) if other in named or _carries(plan, at, name, other)]
    for other in wanted:
        widened = [u._replace(among=(*u.among, other)) if u in takers else u for u in uses]
        if not _short(plan, widened, name):
            how = "its plan-b" if other in named else "free and alike"
            return Gap(name, at.path, at.who, f"'{other}', {how}", other)
    return Gap(name, at.path, at.who, taken=tuple(wanted))


def _carries(plan: Plan, use: Use, name: str, other: str) -> bool:
    """A lamp with modifiers is replaced by one with the same mount alone, one on a battery by one that takes one."""
    light = plan.setups[use.setup].lights.get(use.path.split(".")[-2]) if use.path.endswith(".lamp") else None
    if light is None:
        return True
    gear = plan.gear[other]
    if light.battery and not (gear.battery or gear.runs):
        return False
    return not light.with_ or plan.gear[name].mount == gear.mount
