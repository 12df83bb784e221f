"""Several days of a plan and the setups to be shared out among them: who may be shot when, and what binds them.

A setup that names its day, or that a day names or has in its agreed order, stays there. Every other goes to any day of
the main unit at its place: to a day whose `location:` is its own, where some day has it, else to one that names none.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..record import record, replace
from .hours import duration, riggers, times_words
from .numbers import FOREVER, meet
from .numbers import Day as Numbers
from .shootday import ShootDay, before, shoot_day

if TYPE_CHECKING:
    from ..plan import Plan
    from ..plan.day import Day

REST = 1320  # half-minutes; eleven hours (Directive 2003/88/EC), overridden by `hours:`
LONGEST = 1440  # twelve hours; common practice, no source; overridden by `hours:` or a latest wrap
NIGHT = 2880


@record
class Slate:
    """Days and setups by number. `days[d]` holds, in the order of `on[d]`, every setup that may be shot on day d, and
    wraps in time for the rest before the next day; `home[i]` are the days setup i may be shot on; `before` pairs, of
    which the first is shot no later than the second; `hot` pairs that are shot on one day; `lead[d]` the half-minutes
    from the call to the first rigging; `whole` all setups as if they were one day's, without hours."""

    days: tuple[Numbers, ...]
    on: tuple[tuple[int, ...], ...]
    home: tuple[tuple[int, ...], ...]
    before: tuple[tuple[int, int], ...] = ()
    hot: tuple[tuple[int, int], ...] = ()
    lead: tuple[int, ...] = ()
    names: tuple[str, ...] = ()
    whole: Numbers | None = None


def slate(plan: Plan, *, anew: bool = False) -> Slate:
    """The days of the main unit in the order of their dates, and all setups that are shot on them. `anew` forgets the
    agreed orders: only `day:` of a setup and `setups:` of a day bind."""
    days = in_turn(plan)
    asked = {name: found for name in plan.setups if (found := _home(plan, name, days, anew))}
    names = tuple(asked)
    shot = [shoot_day(plan, d, tuple(n for n in names if d in asked[n])) for d in days]
    whole = [in_time(plan, one) for one in shot]
    homes = {n: tuple(d.id for d in whole if n in d.setups and _fits(d.day, d.index(n))) for n in names}
    pairs = before(plan, names)
    held = [(i, plan.setups[n].held_until) for i, n in enumerate(names)]
    hot = tuple((i, names.index(u)) for i, u in held if u in names and names[i] != u)
    return Slate(
        days=tuple(one.day for one in whole),
        on=tuple(tuple(names.index(n) for n in one.setups) for one in whole),
        home=tuple(tuple(days.index(d) for d in homes[n]) for n in names),
        before=pairs,
        hot=tuple(p for p in hot if set(homes[names[p[0]]]) & set(homes[names[p[1]]])),
        lead=tuple(one.load_in for one in whole),
        names=names,
        whole=_whole(plan, days, names) if days and names else None,
    )


def in_turn(plan: Plan) -> tuple[str, ...]:
    """The days of the main unit by date; days without one stay where the text has them, after the dated."""
    main = [d for d in plan.days.values() if d.unit != "second"]
    dated = sorted((d for d in main if d.date is not None), key=lambda d: (d.date, d.call or 0))
    return tuple(d.id for d in [*dated, *(d for d in main if d.date is None)])


def free(plan: Plan, *, anew: bool = False) -> tuple[str, ...]:
    """The setups whose day is still to be decided; none where there are fewer than two days."""
    days = in_turn(plan)
    return tuple(n for n in plan.setups if len(days) > 1 and not _bound(plan, n, anew))


def in_time(plan: Plan, one: ShootDay, *, usual: bool = True) -> ShootDay:
    """The day with the latest wrap that `ends_by` leaves it, and why. Without `usual`, a day of which no length is said
    may be as long as it likes."""
    end, why = min(_ends(plan, one.id, usual), default=(None, ""))
    if end is None or end >= one.day.latest_wrap:
        return one
    return replace(one, day=replace(one.day, latest_wrap=end), ends=why)


def ends_by(plan: Plan, day_id: str) -> int | None:
    """When a day has to be over for other reasons than its latest wrap, in half-minutes since its midnight: the
    longest day that `hours:` allows (twelve hours where neither that nor a wrap is said), and the rest before the next
    day of the main unit. None where nothing binds."""
    return min((end for end, _ in _ends(plan, day_id, True)), default=None)


def _ends(plan: Plan, day_id: str, usual: bool) -> list[tuple[int, str]]:
    now = plan.days[day_id]
    found = []
    said = now.hours.longest if now.hours is not None else None
    if now.call is not None and (said is not None or (usual and now.wrap is None)):
        most = LONGEST if said is None else round(float(said) / 30)
        found.append((int(now.call) + most, f"so that the day is no longer than {duration(most)}"))
    days = in_turn(plan)
    then = next((plan.days[d] for d in days[days.index(day_id) + 1 :]), None) if day_id in days else None
    if then is not None and then.call is not None and now.date is not None and then.date not in (None, now.date):
        said = then.hours.rest if then.hours is not None else None
        rest = REST if said is None else round(float(said) / 30)
        call = (then.date - now.date).days * NIGHT + int(then.call)
        why = f"so that there are {duration(rest)} of rest before day {then.id} (call {times_words(call)})"
        found.append((call - rest, why))
    return found


def _fits(day: Numbers, i: int) -> bool:
    """Whether the takes of a setup fit into its windows on a day, whatever else is shot."""
    end, takes = day.latest_wrap - day.pack, day.setups[i].takes
    return any(max(lo, day.call) + takes <= min(hi, end) for lo, hi in meet(day.setups[i].windows))


def _whole(plan: Plan, days: tuple[str, ...], names: tuple[str, ...]) -> Numbers:
    """All setups as one day's, with the riggers of the day that has most; what some day has rigged ahead is free."""
    ahead = {a.setup for d in days for a in plan.days[d].ahead}
    day = shoot_day(plan, days[0], names).day
    setups = tuple(
        replace(s, windows=(), fixed=0 if s.name in ahead else s.fixed, flat=s.flat or s.name in ahead)
        for s in day.setups
    )
    hands = max(riggers(plan, d)[0] for d in days)
    return replace(
        day, setups=setups, latest_wrap=FOREVER, riggers=hands, absent=(), meals=(), gap=FOREVER, holds=(), before=()
    )


def _bound(plan: Plan, name: str, anew: bool) -> tuple[str, ...]:
    """The day that a setup, a day's list or an agreed order says."""
    if not anew:
        day = plan.day_of(name)
        return (day,) if day is not None else ()
    if plan.setups[name].day:
        return (str(plan.setups[name].day),)
    return tuple(d.id for d in plan.days.values() if name in d.setups)[:1]


def _home(plan: Plan, name: str, days: tuple[str, ...], anew: bool) -> tuple[str, ...]:
    bound = _bound(plan, name, anew)
    if bound:
        return tuple(d for d in bound if d in days)
    room = plan.setups[name].set
    place = room.split("/")[0] if room else ""
    there = tuple(d for d in days if place and plan.days[d].location == place)
    return there or tuple(d for d in days if not _elsewhere(plan.days[d], place)) or days


def _elsewhere(day: Day, place: str) -> bool:
    return bool(place and day.location and day.location != place)
