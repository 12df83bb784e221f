"""Living through a day many times: against closed forms where there are some, and the same everywhere."""

from __future__ import annotations

from pathlib import Path
from statistics import fmean, pvariance

import pytest
from hotset.facts.shootday import shoot_day
from hotset.facts.timeline import replay
from hotset.plan import Plan, decode
from hotset.risk import lines, risk
from hotset.risk.model import model
from hotset.risk.simulate import simulate
from hotset.science import chance
from hotset.source import read

EXAMPLES = Path(__file__).parents[2] / "examples"
SIMPLE = """
hotset: 1
title: Invented
days: {1: {call: "08:00", wrap: "13:10", load-in: 30 min, wrap-out: 30 min, order: [a, b, c]}}
setups:
  a: {takes: 40 min, rig: 20 min}
  b: {takes: 60 min, rig: 15 min}
  c: {takes: 30 min, rig: 40 min}
"""
# (low, likely, high) of everything in it, in minutes: the table has load-in 30/40/60, wrap-out 30/45/60, rigging of a
# setup 20/30/45 and takes 10/15/25, and what the plan says stands in their proportions.
PARTS = (
    [(30 * 30 / 40, 30, 30 * 60 / 40), (30 * 30 / 45, 30, 30 * 60 / 45)]
    + [(rig * 20 / 30, rig, rig * 45 / 30) for rig in (20, 15, 40)]
    + [(takes * 10 / 15, takes, takes * 25 / 15) for takes in (40, 60, 30)]
)
MEAN = 8 * 60 + sum(chance.mean(*part) for part in PARTS)
VARIANCE = sum(chance.variance(*part) for part in PARTS)


def plan_of(text: str) -> Plan:
    plan, faults = decode(read(["-"], stdin_text=text.encode()))
    assert plan is not None
    assert [f.sentence for f in faults if f.severity == "error"] == []
    return plan


def example(name: str) -> Plan:
    plan, _ = decode(read([str(EXAMPLES / name / "plan.yaml")]))
    assert plan is not None
    return plan


def test_a_day_without_windows_is_a_sum_with_the_mean_and_variance_of_one() -> None:
    plan = plan_of(SIMPLE)
    lived = simulate(model(plan, shoot_day(plan, "1"), ("a", "b", "c")), 20_000, 1)
    wraps = [one.wrap / 2 for one in lived]
    assert fmean(wraps) == pytest.approx(MEAN, abs=0.4)
    assert pvariance(wraps) == pytest.approx(VARIANCE, rel=0.04)


@pytest.mark.parametrize("latest", ["12:20", "12:40", "13:10"])
def test_the_chance_is_near_that_of_the_normal_distribution(latest: str) -> None:
    # A sum of many independent durations is nearly normal (the central limit theorem, as PERT has used it since 1959).
    found = risk(plan_of(SIMPLE.replace("13:10", latest)), "1", 8000, 1)
    assert found is not None
    assert found.in_time is not None
    by = int(latest[:2]) * 60 + int(latest[3:])
    assert found.in_time == pytest.approx(chance.normal_below(by, MEAN, VARIANCE**0.5), abs=0.02)


def test_drivers_of_a_sum_are_shares_of_its_variance() -> None:
    found = risk(plan_of(SIMPLE), "1", 20_000, 1)
    assert found is not None
    shares = {"a": (2, 5), "b": (3, 6), "c": (4, 7)}
    for driver in found.drivers:
        mine = sum(chance.variance(*PARTS[k]) for k in shares[driver.name])
        assert driver.share == pytest.approx(mine / VARIANCE, abs=0.02)
    assert found.drivers[0].name == "b"


def test_alike_luck_adds_deviations_instead_of_variances() -> None:
    plan = plan_of(SIMPLE)
    lived = simulate(model(plan, shoot_day(plan, "1"), ("a", "b", "c")), 20_000, 1, alike=True)
    kinds = (PARTS[:1], PARTS[1:2], PARTS[2:5], PARTS[5:])
    variance = sum(sum(chance.variance(*part) ** 0.5 for part in kind) ** 2 for kind in kinds)
    assert pvariance([one.wrap / 2 for one in lived]) == pytest.approx(variance, rel=0.04)


def test_the_chance_of_missing_a_window_is_that_of_what_comes_before_it() -> None:
    text = SIMPLE.replace("c: {", "c: {between: 09:00-12:20, ")
    found = risk(plan_of(text), "1", 20_000, 1)
    assert found is not None
    (window,) = found.windows
    before = [part for k, part in enumerate(PARTS) if k != 1]
    mean, variance = sum(chance.mean(*p) for p in before), sum(chance.variance(*p) for p in before)
    late = 1.0 - chance.normal_below(12 * 60 + 20, 8 * 60 + mean, variance**0.5)
    assert window.missed == pytest.approx(late, abs=0.02)
    assert window.setups == ("c",)
    assert window.driver in ("b", "c")


@pytest.mark.parametrize(("name", "day"), [("last-boat", "1"), ("two-days-outside", "1"), ("two-days-outside", "2")])
def test_with_likely_luck_the_day_is_the_timeline(name: str, day: str) -> None:
    from hotset.facts.numbers import meet
    from hotset.risk.simulate import _live

    plan = example(name)
    line = replay(plan, day, plan.days[day].order)
    lived_in = model(plan, shoot_day(plan, day), line.order)
    lived = _live(lived_in, [meet(s.windows) for s in lived_in.stretches], lambda draw: draw.likely)
    assert lived.missed == ()
    assert line.wrap - lived.wrap <= len(lived_in.stretches)  # the timeline counts in whole half-minutes, rounded up
    assert lived.wrap <= line.wrap


def test_more_buffer_buys_more_days() -> None:
    found = risk(example("last-boat"), "1", 500, 1)
    assert found is not None
    needs = [need for _, need in found.buffers]
    assert needs == sorted(needs)
    assert [need for _, need in found.buffers_alike] == sorted(need for _, need in found.buffers_alike)
    shares = [risk(plan_of(SIMPLE.replace("13:10", f"{12 + k // 4}:{k % 4 * 15:02d}")), "1", 500, 1) for k in range(6)]
    chances = [one.in_time for one in shares if one is not None and one.in_time is not None]
    assert len(chances) == 6
    assert chances == sorted(chances)
    assert chances[0] < chances[-1]


def test_the_same_seed_is_the_same_and_another_is_near() -> None:
    plan = plan_of(SIMPLE.replace("13:10", "12:30"))
    one, again, other = risk(plan, "1", 4000, 1), risk(plan, "1", 4000, 1), risk(plan, "1", 4000, 2)
    assert one == again
    assert one is not None
    assert other is not None
    assert one.in_time is not None
    assert other.in_time is not None
    assert one.mean != other.mean
    assert abs(one.in_time - other.in_time) < 2 * one.error


def test_numbers_of_the_generator_are_those_of_every_machine() -> None:
    plan = plan_of(SIMPLE)
    lived = simulate(model(plan, shoot_day(plan, "1"), ("a", "b", "c")), 3, 1)
    assert [round(one.wrap, 3) for one in lived] == FIRST


FIRST = [1522.753, 1496.36, 1506.904]
"""The first three days of seed 1, as they came out once; they may not come out otherwise anywhere."""


def test_a_day_of_which_nothing_is_agreed_is_ordered_first() -> None:
    found = risk(plan_of(SIMPLE.replace(", order: [a, b, c]", "")), "1", 200, 1)
    assert found is not None
    assert not found.agreed
    assert sorted(name for name in found.order if name in "abc") == ["a", "b", "c"]
    assert "in the order found for it (none is agreed)" in next(lines(found))[1]


def test_without_a_latest_wrap_no_chance_is_told() -> None:
    found = risk(plan_of(SIMPLE.replace(' wrap: "13:10",', "")), "1", 200, 1)
    assert found is not None
    assert found.in_time is None
    assert "'wrap:' (the latest wrap) is not said" in next(lines(found))[1]


def test_a_window_says_how_much_longer_it_would_have_to_be_open() -> None:
    """Somebody who leaves at 12:20; with what was said to be longer, rounded up, they are kept on nine of ten days."""
    people = "people: {mara: {plays: CLERK, here: 08:00-LEAVES}}\n"
    text = SIMPLE.replace("setups:", people + "setups:").replace("c: {", "c: {cast: [CLERK], ")
    found = risk(plan_of(text.replace("LEAVES", "12:20")), "1", 4000, 1)
    assert found is not None
    (window,) = found.windows
    assert window.missed > 0.1
    assert window.longer is not None
    assert found.kept <= 1.0 - window.missed
    assert f"{round(-(-window.longer // 10) * 5)} min longer would keep it on 90" in " ".join(
        w for _, w in lines(found)
    )
    minutes = 12 * 60 + 20 + round(-(-window.longer // 10) * 5)
    again = risk(plan_of(text.replace("LEAVES", f"{minutes // 60}:{minutes % 60:02d}")), "1", 4000, 1)
    assert again is not None
    assert again.windows[0].missed <= 0.1
    assert again.windows[0].longer is None


def test_all_of_it_comes_true_no_oftener_than_any_of_it() -> None:
    for name, day in (("last-boat", "1"), ("two-days-outside", "1"), ("two-days-outside", "2")):
        found = risk(example(name), day, 400, 3)
        assert found is not None
        assert found.in_time is not None
        assert found.kept <= min(found.in_time, 1.0 - found.meals_late, *(1.0 - w.missed for w in found.windows))


WAITED = """
hotset: 1
title: Invented
days: {1: {call: "08:00", wrap: "18:00", load-in: 30 min, wrap-out: 30 min, order: [a, b]}}
people: {mara: {plays: CLERK, here: 08:00-LEAVES}}
setups:
  a: {takes: 60 min, rig: 20 min}
  b: {takes: 30 min, rig: 20 min, cast: [CLERK], between: 15:00-15:33}
"""


def test_a_window_that_is_missed_shortens_no_day() -> None:
    """Takes that are likely to last 30 min, waited for until 15:00: on some days they outlast the 33, and none of these
    ends before them. The numbers fit together: no half of the days is wrapped before 15:00 and the packing."""
    plan = plan_of(WAITED.replace("LEAVES", "18:00"))
    lived = simulate(model(plan, shoot_day(plan, "1"), ("a", "b")), 2000, 1)
    assert min(one.wrap for one in lived) > 2 * (15 * 60 + 20 + 20)  # takes and packing at least 20 min each
    assert {one.astray for one in lived} == {False}
    found = risk(plan, "1", 2000, 1)
    assert found is not None
    window = next(w for w in found.windows if w.words == "between")
    assert 0.1 < window.missed < 0.9
    assert window.opening
    assert abs(found.mean - found.planned) < 20
    said = " ".join(words for _, words in lines(found))
    assert "its takes outlast it: " in said
    assert "every window waited for" not in said


def test_days_on_which_nothing_can_be_waited_for_do_not_count_as_wrapped_early() -> None:
    found = risk(plan_of(WAITED.replace("LEAVES", "12:00")), "1", 300, 1)
    assert found is not None
    assert (found.astray, found.strays, found.in_time, found.in_time_alike) == (1.0, ("b",), 0.0, 0.0)
    said = " ".join(words for _, words in lines(found))
    assert "wrapped by 18:00, every window waited for, on 0 of 100 days" in said
    assert "on 100 of 100 days 'b' cannot wait for the hours and is shot before they come" in said
