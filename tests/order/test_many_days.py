"""Setups shared out among days: the least in all on small plans, bounds that hold, what binds a setup to a day."""

from __future__ import annotations

import os
import subprocess
import sys
from itertools import product
from pathlib import Path

import pytest
from hotset.cli import main
from hotset.facts.slate import Slate, ends_by, free, slate
from hotset.order import plan_day, plan_days, speak, speak_days
from hotset.order.floor import blocks, fewest, floor
from hotset.order.part import part
from hotset.order.share import share
from hotset.plan import decode
from hotset.source import read

sys.path.insert(0, str(Path(__file__).parent))

import brute
import weeks
from plans import HEAD, plan_of

DAY = "load-in: 30 min, wrap-out: 30 min"
TWO = f'1: {{date: 2026-11-14, call: "08:00", wrap: "20:00", {DAY}}}, 2: {{date: 2026-11-15, call: "08:00", {DAY}}}'


def two_days(*setups: str, days: str = TWO, people: str = "") -> str:
    head = HEAD.split("days:")[0] + f"days: {{{days}}}\nlocations:" + HEAD.split("locations:")[1]
    return head.replace("people:\n", f"people:\n{people}") + "setups:\n" + "".join(f"  {s}\n" for s in setups)


def least(table: Slate) -> int | None:
    """The least half-minutes in all, every sharing out and every order of every day tried."""
    best = None
    for days in product(*table.home):
        if any(days[a] > days[b] for a, b in table.before):
            continue
        total = 0
        for d, day in enumerate(table.days):
            mine = tuple(table.on[d].index(i) for i in range(len(days)) if days[i] == d)
            if mine:
                found = brute.best(part(day, mine))
                if found is None:
                    break
                total += found[1][0] - day.call + table.lead[d]
        else:
            best = total if best is None else min(best, total)
    return best


@pytest.mark.parametrize("seed", range(5))
def test_small_plans_have_the_least_of_all_sharings(seed: int) -> None:
    table = slate(plan_of(weeks.plan(seed, 4, 2, takes=(60, 150), wrap="15:00")))
    found = share(table, 20_000, 3_000)
    assert found.left == ()
    assert found.value == found.bound == least(table)
    assert floor(table) <= found.value


def test_a_week_is_within_its_bound_and_keeps_every_must() -> None:
    plan = plan_of(weeks.plan(4, 14, 4, takes=(60, 110)))
    result = plan_days(plan, 2_000, 3_000)
    assert result.whole
    assert result.bound <= result.value <= 1.15 * result.bound
    shot = [name for o in result.orders for name in o.order if name in plan.setups]
    assert sorted([*shot, *(h.setup for h in result.homeless)]) == sorted(plan.setups)
    assert all(o.timeline is not None and not any(s.missed for s in o.timeline.steps) for o in result.orders)


def test_no_more_days_than_the_work_asks_for() -> None:
    """Three of the four days would hold it too, and no exchange between two of them leads to two."""
    table = slate(plan_of(weeks.plan(7, 16, 4, takes=(30, 70))))
    found = share(table, 8_000, 2_000)
    kept = [i for on in found.days for i in on]
    least = sum(fewest(table, tuple(block)) for block in blocks(table, kept))
    assert len(kept) == 16
    assert sum(1 for on in found.days if on) == least == 2


def test_who_is_away_is_shot_another_day() -> None:
    text = two_days("one: {takes: 20 min, cast: [CLERK]}", "two: {takes: 20 min}").replace(
        "mara: {plays: CLERK}", "mara: {plays: CLERK, days: {2: {}}}"
    )
    result = plan_days(plan_of(text))
    assert [(o.day.id, o.order) for o in result.orders] == [("2", ("one", "two"))]
    assert result.idle == ("1",)
    assert result.value == result.bound


def test_a_setup_goes_to_a_day_at_its_place() -> None:
    mill = HEAD.replace("gear:", "  bea: {skills: [rig]}\ngear:").split("days:")[1].split("\n", 1)[1]
    text = (
        "hotset: 1\ntitle: Invented\n"
        f'days: {{1: {{call: "08:00", location: house, {DAY}}}, 2: {{call: "08:00", location: mill, {DAY}}}}}\n'
        + mill.replace("locations:", "locations:\n  mill: {sets: {loft: {}}}")
        + "setups:\n  one: {set: mill/loft, takes: 9 min}\n  two: {set: house/hall, takes: 9 min}\n"
    )
    result = plan_days(plan_of(text))
    assert [(o.day.id, o.order) for o in result.orders] == [("1", ("two",)), ("2", ("one",))]


def test_what_comes_before_is_on_no_later_day_and_a_hot_set_stays_within_one() -> None:
    long = [f"s{k}: {{takes: 150 min, rig: 10 min{more}}}" for k, more in enumerate(("", "", "", ", held-until: s0"))]
    table = slate(plan_of(two_days(*long, "last: {takes: 10 min, rig: 1 min, before: s1}")))
    found = share(table, 20_000, 3_000)
    where = {table.names[i]: d for d, on in enumerate(found.days) for i in on}
    assert where["s3"] == where["s0"]
    assert where["last"] <= where["s1"]


def test_the_rest_before_the_next_day_ends_the_day_before() -> None:
    plan = plan_of(two_days("one: {takes: 20 min}", days=TWO.replace('2: {date: 2026-11-15, call: "08:00"',
                   '2: {date: 2026-11-15, call: "05:00"')))  # fmt: skip
    assert ends_by(plan, "1") == 18 * 120  # eleven hours before 05:00
    assert slate(plan).days[0].latest_wrap == 18 * 120
    assert ends_by(plan, "2") == 17 * 120  # no wrap is said: twelve hours


def test_what_names_its_day_stays_there() -> None:
    plan = plan_of(two_days("one: {takes: 20 min, day: 2}", "two: {takes: 20 min}"))
    assert free(plan) == ("two",)
    assert [o.day.id for o in plan_days(plan).orders] == ["2"]


def test_a_must_without_a_day_is_told_with_its_reasons() -> None:
    text = two_days("one: {takes: 20 min, between: 21:00-21:10}", "two: {takes: 20 min}")
    result = plan_days(plan_of(text))
    assert not result.whole
    said = speak_days(result)
    assert "'one' must be shot, and no day is open to it." in said
    assert "'one' only between its hours, 21:00-21:10" in said
    full = two_days(*(f"s{k}: {{takes: 170 min, rig: 30 min}}" for k in range(6)), days=TWO.split(", 2:")[0])
    crowded = plan_days(
        plan_of(full.replace("days: {", 'days: {2: {date: 2026-11-15, call: "08:00", wrap: "12:30"}, '))
    )
    assert not crowded.whole
    assert "and no room was found on day" in speak_days(crowded)


def test_days_are_written_and_then_settled(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(two_days(*(f"s{k}: {{takes: 120 min, rig: 20 min}}" for k in range(6))))
    assert main(["order", str(path), "--write"]) == 0
    said = capsys.readouterr().out
    assert "6 setups on 2 days" in said
    plan, _ = decode(read([str(path)]))
    assert plan is not None
    assert free(plan) == ()
    assert len(free(plan, anew=True)) == 6
    assert sorted(n for d in plan.days.values() for n in d.order if n in plan.setups) == sorted(plan.setups)
    text = path.read_text()
    assert main(["order", str(path), "--anew", "--write"]) == 0
    assert path.read_text() == text


def test_every_process_shares_alike() -> None:
    text = weeks.plan(7, 10, 3, takes=(60, 110))
    said = {
        subprocess.run(
            [sys.executable, "-m", "hotset", "order", "-"],
            input=text.encode(),
            capture_output=True,
            check=False,
            env={**os.environ, "PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("1", "2")
    }
    assert len(said) == 1
    assert said.pop().startswith(b"10 setups on ")


def test_a_day_less_for_the_cast_is_bought_with_the_crew_s_minutes() -> None:
    plan = plan_of(weeks.plan(3, 12, 4, takes=(60, 110)))
    shortest, sparing = plan_days(plan, 2_000, 6_000), plan_days(plan, 2_000, 6_000, cast_day=240)
    assert shortest.longer == 0
    called = [{c for i in (o.day.index(n) for n in o.order if n in plan.setups) for c in o.day.day.setups[i].cast}
              for o in sparing.orders]  # fmt: skip
    assert (
        sum(len({o.day.day.cast[c] for c in who}) for who, o in zip(called, sparing.orders, strict=True))
        == sparing.cast
    )
    assert sparing.spared > 0
    assert sparing.longer <= 240 * sparing.spared
    assert sparing.cast < shortest.cast
    assert sparing.value >= shortest.value
    said = " ".join(speak_days(sparing).split())
    assert f"The cast come for {sparing.cast} days, all of them together: {sparing.spared} fewer than in the" in said
    assert "place-0: room-" in said


def test_night_and_day_blocks_keep_the_rest_between() -> None:
    days = (
        f'1: {{date: 2026-11-14, call: "08:00", wrap: "19:30", {DAY}}}, '
        f'2: {{date: 2026-11-15, call: "15:00", wrap: "27:00", {DAY}}}, '
        f'3: {{date: 2026-11-16, call: "11:30", wrap: "22:00", {DAY}}}'
    )
    setups = [f"day-{k}: {{set: hall, takes: 90 min, rig: 20 min, needs: daylight}}" for k in range(3)]
    setups += [f"night-{k}: {{set: hall, takes: 80 min, rig: 20 min, needs: dark}}" for k in range(4)]
    text = two_days(*setups, days=days).replace("date: 2026-11-14,", "date: 2026-11-14, location: house,")
    plan = plan_of(text.replace("date: 2026-11-15,", "date: 2026-11-15, location: house,"))
    result = plan_days(plan)
    assert result.whole
    where = {name: o.day.id for o in result.orders for name in o.order if name in plan.setups}
    assert {where[f"day-{k}"] for k in range(3)} == {"1"}
    assert {where[f"night-{k}"] for k in range(4)} == {"2"}
    night = next(o for o in result.orders if o.day.id == "2")
    assert night.timeline is not None
    assert 2880 + 23 * 60 - night.timeline.wrap >= 11 * 120  # eleven hours before the call of day 3 at 11:30


def test_a_single_day_keeps_the_rest_before_the_next() -> None:
    later = TWO.replace('2: {date: 2026-11-15, call: "08:00"', '2: {date: 2026-11-15, call: "05:00"')
    plan = plan_of(two_days(*(f"s{k}: {{takes: 150 min, rig: 10 min, day: 1}}" for k in range(4)), days=later))
    day = plan_day(plan, "1")
    assert day.order == ()
    said = " ".join(speak(day).split())
    assert "wrap by 18:00, so that there are 11 h of rest before day 2 (call 05:00)" in said
    assert "end at 20:10, and call the next day 2 h 10 min later" in said
