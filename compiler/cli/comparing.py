"""Two orders of a day held against each other: the one that is found, the agreed one, orders made by hand, a file's."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from ..report.glyphs import shown

if TYPE_CHECKING:
    from ..facts.shootday import ShootDay
    from ..plan import Plan

MOST_BYTES = 1_000_000
NAMED = {
    "best": "the best order found",
    "agreed": "the agreed order",
    "story": "story order",
    "rooms": "room by room",
}


def compare(plan: Plan, day_id: str, against: tuple[str, ...], limit: int, width: int) -> str:
    """The text of a comparison: the best order against one, or two against each other."""
    from ..facts.shootday import shoot_day
    from ..facts.slate import in_time
    from ..order.compare import compared
    from ..order.speak_compare import side_by_side

    if len(against) > 2:
        raise click.UsageError("'--against' compares two orders: name one (against the best found) or two")
    day = in_time(plan, shoot_day(plan, day_id), usual=False)
    pair = against if len(against) == 2 else ("best", *against)
    found = []
    for name in pair:
        order = _order(plan, day, name, limit)
        own = _with_visits(plan, day, order)
        found.append(compared(own, NAMED.get(name, f"'{shown(name)}'"), order))
    one, two = found
    return "".join(f"{line}\n" for line in side_by_side(day, one, two, width))


def _with_visits(plan: Plan, day: ShootDay, order: tuple[str, ...]) -> ShootDay:
    """The day with the visits that an order names, where it takes the shots of a setup at different times."""
    from ..facts.shootday import shoot_day
    from ..facts.slate import in_time
    from ..plan.parts import ordered

    if not any(" " in name for name in (*order, *day.setups)):
        return day
    changed = ordered(plan, {day.id: order})
    return in_time(changed, shoot_day(changed, day.id), usual=False)


def _order(plan: Plan, day: ShootDay, name: str, limit: int) -> tuple[str, ...]:
    from ..order import byhand, plan_day

    if name == "best":
        found = plan_day(plan, day.id, limit)
        if not found.order:
            raise click.ClickException(
                f"day {day.id} has no order in which everything fits ('hotset order' says why); "
                "name two orders that you want to compare: --against agreed --against rooms"
            )
        return found.order
    if name == "agreed":
        if not plan.days[day.id].order:
            raise click.ClickException(f"day {day.id} has no agreed order yet; '--write' makes one")
        return tuple(plan.days[day.id].order)
    if name in ("story", "rooms"):
        return byhand.story(plan, day) if name == "story" else byhand.rooms(plan, day)
    return _of_file(plan, day, name)


def _of_file(plan: Plan, day: ShootDay, name: str) -> tuple[str, ...]:
    """The order of another plan's day, or a plain list of setups, with commas or one a line."""
    from ..order import byhand

    try:
        with open(name, "rb") as file:
            text = file.read(MOST_BYTES).decode("utf-8", "replace")
    except OSError as refusal:
        known = ", ".join(f"'{word}'" for word in NAMED)
        raise click.BadParameter(
            f"'{shown(name)}' is none of {known}, and no file of that name can be read ({refusal.strerror})",
            param_hint="'--against'",
        ) from None
    words = _listed(text, day.id) or [w for line in text.splitlines() for w in line.split("#")[0].split(",")]
    words = [" ".join(word.strip(" \t[]'\"-").split()) for word in words]
    day = _with_visits(plan, day, tuple(words))
    order = tuple(w for word in words for w in ([word] if word in day.setups else word.split()))
    strange = [w for w in order if w not in (*day.setups, *day.meals, "meal", "room-tone", "move")]
    if strange:
        from difflib import get_close_matches

        near = get_close_matches(strange[0], day.setups, n=1, cutoff=0.4)
        offer = f"did you mean '{near[0]}'?" if near else f"the day has: {', '.join(day.setups)}"
        raise click.BadParameter(
            f"'{shown(name)}' names '{shown(strange[0])}', which is no setup of day {day.id}; {offer}",
            param_hint="'--against'",
        )
    if not any(w in day.meals for w in order):
        return byhand.finished(day, tuple(w for w in order if w in day.setups))
    return order


def _listed(text: str, day_id: str) -> list[str]:
    """The `order:` of the day where the text is a plan."""
    if "days:" not in text:
        return []
    from ..plan import decode
    from ..source import read

    plan, _ = decode(read(["-"], stdin_text=text.encode()))
    return list(plan.days[day_id].order) if plan is not None and day_id in plan.days else []
