"""Setups whose shots are taken at different times: against every permutation, and from the plan's text and back."""

from __future__ import annotations

import sys
from pathlib import Path
from random import Random

import pytest
from hotset.cli import main
from hotset.facts.numbers import Day
from hotset.facts.timeline import replay, timeline
from hotset.order import advance, plan_day, plan_days, speak
from hotset.order.solve import solve
from hotset.plan.parts import by_shots, ordered
from hotset.record import replace

sys.path.insert(0, str(Path(__file__).parent))

import brute
import invented
from plans import HEAD, plan_of
from test_exact import parts


def visited(seed: int, setups: int) -> Day:
    """An invented day of which one setup is shot in two or three visits, with hours and cast of their own."""
    day = invented.day(seed, invented.Mix(setups=setups))
    rng = Random(seed)
    held = {i for h in day.holds for i in (h.first, h.until, *h.inside)}
    free = [i for i in range(len(day.setups)) if i not in held]
    if not free:
        return day
    chosen = day.setups[rng.choice(free)]
    first = replace(chosen, part_of=0, fixed=rng.choice((0, 4, 9)))
    if rng.random() < 0.5:  # nothing is said of its rig, so that nothing tells where everything stands
        first = replace(first, needs=(), away=(), fixed=12, flat=False)
    more = [
        replace(
            first,
            name=f"{chosen.name}-{k}",
            takes=rng.randint(4, 12),
            windows=rng.choice((chosen.windows, (), *(s.windows for s in day.setups))),
            cast=tuple(sorted(rng.sample(range(3), rng.randint(0, 2)))),
        )
        for k in range(rng.choice((1, 1, 2)))
    ]
    new = tuple(first if s is chosen else s for s in day.setups) + tuple(more)
    pairs = [(rng.randrange(setups), setups)] if rng.random() < 0.4 else []
    pairs = [(a, b) for a, b in pairs if (b, a) not in day.before]
    return replace(
        day,
        setups=new,
        before=(*day.before, *pairs),
        latest_wrap=day.latest_wrap + 40,
        agreed=tuple(range(len(new))) if day.agreed else (),
    )


@pytest.mark.parametrize(("seeds", "setups", "possible"), [(range(160), 2, 110), (range(900, 1000), 3, 60)])
def test_every_permutation_of_visits_agrees(seeds: range, setups: int, possible: int) -> None:
    found = {seed: (parts(solve(visited(seed, setups))), brute.best(visited(seed, setups))) for seed in seeds}
    assert [seed for seed, (mine, truth) in found.items() if mine != truth] == []
    assert sum(mine is not None for mine, _ in found.values()) >= possible


@pytest.mark.parametrize("name", ["going on costs the rigging again", "what stands is forgotten"])
def test_a_broken_rule_of_visits_is_seen(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    days = [visited(seed, 4) for seed in range(900, 1000)]
    truth = [parts(solve(day)) for day in days]
    if name == "what stands is forgotten":
        monkeypatch.setattr(advance.Rules, "stands", lambda _, at: at.room)
    else:
        monkeypatch.setattr(advance.Rules, "_fixed", lambda self, _, i: self.day.setups[i].fixed)
    assert any(parts(solve(day)) != right for day, right in zip(days, truth, strict=True))


BROKEN_VASE = HEAD.replace("  mara:", "  jon: {plays: GUARD}\n  mara:").replace(
    "scenes: {}",
    """scenes:
  1:
    shots:
      1A: {setup: wide, takes: 20 min, cast: [CLERK]}
      1B: {setup: close, takes: 20 min, after: 1A}
      1C: {setup: wide, takes: 20 min, cast: [GUARD], after: 1B}
      1D: {setup: wide, takes: 10 min}
setups:
  wide: {set: house/hall, lights: {key: {lamp: lamp}}, splits: yes}
  close: {set: house/loft, lights: {key: {lamp: lamp}}}""",
)


def test_shots_that_a_third_comes_between_are_taken_at_two_times() -> None:
    plan = plan_of(BROKEN_VASE)
    found = plan_day(plan, "1")
    assert [name for name in found.order if name not in found.day.meals] == ["wide 1A 1D", "close", "wide 1C"]
    assert "Proven best" in speak(found)
    together = plan_of(BROKEN_VASE.replace(", splits: yes", ""))
    assert plan_day(together, "1").order == ()


def test_shots_stay_together_where_nothing_has_to_come_between() -> None:
    text = BROKEN_VASE.replace(", after: 1B", "")
    found, whole = plan_day(plan_of(text), "1"), plan_day(plan_of(text.replace(", splits: yes", "")), "1")
    assert found.order == whole.order
    assert found.timeline == whole.timeline


def test_a_shot_that_may_be_left_out_is_left_out_alone() -> None:
    text = BROKEN_VASE.replace("takes: 10 min}", "takes: 10 h, priority: want}")
    found = plan_day(plan_of(text), "1")
    assert found.dropped == ("wide 1D",)
    assert [name for name in found.order if name not in found.day.meals] == ["wide 1A", "close", "wide 1C"]


def test_an_order_with_visits_is_written_and_read_again(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(BROKEN_VASE)
    assert main(["order", str(path), "--write"]) == 0
    first = capsys.readouterr().out
    assert "order: [wide 1A 1D, close, wide 1C" in path.read_text()
    assert main(["order", str(path)]) == 0
    assert "This is the agreed order." in capsys.readouterr().out
    assert "wide 1A 1D" in first
    assert main(["order", str(path), "--against", "agreed"]) == 0
    assert "Both have the same setups in the same order." in capsys.readouterr().out
    assert main(["check", str(path), "--format", "json"]) == 0
    capsys.readouterr()
    assert main(["build", str(path), "--out", str(tmp_path / "out"), "--no-pdf"]) == 0
    cards = {p.name for p in (tmp_path / "out").rglob("setup-*.html")}
    assert cards == {"setup-wide-1a-1d.html", "setup-close.html", "setup-wide-1c.html"}


def test_an_agreed_order_that_takes_them_at_one_time_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(BROKEN_VASE.replace('wrap: "20:00"', 'wrap: "20:00", order: [wide, close]'))
    assert main(["check", str(path)]) == 1
    said = " ".join(capsys.readouterr().out.split())
    assert "has 'wide' before 'close', which must come first [order-cycle]" in said
    assert "take the shots of 'wide' at different times, each named as in 'wide 1A'" in said


@pytest.mark.parametrize(
    ("entry", "why"),
    [
        ("wide 1Z", "'wide' has no shot '1Z'"),
        ("close 1B", "it does not say 'splits: yes'"),
        ("wide 1A", "a shot of 'wide 1A' is named in another place already"),
        ("wide", "its shots are taken at different times in this order, as 'wide 1A 1D', 'wide 1C'"),
    ],
)
def test_an_entry_that_is_no_visit_says_why(
    entry: str, why: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "plan.yaml"
    order = f"[wide 1A 1D, close, wide 1C, {entry}]"
    path.write_text(BROKEN_VASE.replace('wrap: "20:00"', f'wrap: "20:00", order: {order}'))
    assert main(["check", str(path)]) == 1
    assert why in " ".join(capsys.readouterr().out.split())


def test_a_circle_of_shots_is_told_the_way_out(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(BROKEN_VASE.replace(", splits: yes", ""))
    assert main(["check", str(path)]) == 1
    said = " ".join(capsys.readouterr().out.split())
    assert "let the shots of 'wide' be taken at different times: write 'splits: yes' under it" in said


def test_shots_of_a_setup_on_two_days(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    days = '1: {date: 2026-11-14, call: "08:00", wrap: "20:00"}, 2: {date: 2026-11-15, call: "08:00", wrap: "20:00"}'
    head, rest = BROKEN_VASE.split("days:")[0], BROKEN_VASE.split("\nlocations:")[1]
    text = f"{head}days: {{{days}}}\nlocations:{rest}"
    text = text.replace("{plays: CLERK}", "{plays: CLERK, days: {1: {here: 08:00-20:00}}}").replace(
        "{plays: GUARD}", "{plays: GUARD, days: {2: {here: 08:00-20:00}}}"
    )
    found = plan_days(plan_of(text))
    assert found.whole
    shot = [[n for n in one.order if n not in one.day.meals] for one in found.orders]
    assert "wide 1A" in " ".join(shot[0])
    assert "1C" in " ".join(shot[1])
    assert not plan_days(plan_of(text.replace(", splits: yes", ""))).whole
    path = tmp_path / "plan.yaml"
    path.write_text(text)
    assert main(["order", str(path), "--write"]) == 0
    capsys.readouterr()
    assert main(["order", str(path)]) == 0
    assert capsys.readouterr().out.count("This is the agreed order.") == 2


@pytest.mark.parametrize("seed", range(30))
def test_visits_never_lengthen_a_day_and_replay_to_the_same_wrap(seed: int) -> None:
    rng = Random(seed)
    rooms, lamps = ("hall", "loft"), ("lamp", "pair")
    lines, shots = [], []
    for k in range(4):
        splits = ", splits: yes" if k < 2 else ""
        rig = rng.choice(("", ", rig: 12 min", f", lights: {{key: {{lamp: {rng.choice(lamps)}}}}}"))
        lines.append(f"  s{k}: {{set: house/{rng.choice(rooms)}{rig}{splits}}}")
        taken = "AB"[: rng.randint(1, 2)]
        shots += [f"{k}{letter}: {{setup: s{k}, takes: {rng.randint(5, 30)} min" for letter in taken]
    names = [shot.split(":")[0] for shot in shots]
    for k in range(1, len(shots)):
        if rng.random() < 0.3:
            shots[k] += f", after: {rng.choice(names[:k])}"
    text = HEAD.replace("scenes: {}", "scenes:\n  1:\n    shots:\n" + "".join(f"      {s}}}\n" for s in shots))
    text += "setups:\n" + "\n".join(lines) + "\n"
    plan, whole = plan_of(text), plan_of(text.replace(", splits: yes", ""))
    free, bound = plan_day(plan, "1"), plan_day(whole, "1")
    assert free.timeline is not None
    assert bound.timeline is None or free.timeline.wrap <= bound.timeline.wrap
    agreed = ordered(plan, {"1": free.order})
    line = timeline(agreed, "1")
    assert line is not None
    assert line.wrap == free.timeline.wrap == replay(agreed, "1", free.order).wrap
    assert not line.unknown
    assert not any(step.missed for step in line.steps)
    assert sorted(s.id for n in agreed.setups for s in agreed.shots_of(n)) == sorted(plan.shots)
    assert ordered(by_shots(agreed, agreed.setups), {"1": free.order}).setups.keys() == agreed.setups.keys()


def test_a_log_that_names_the_whole_setup_is_offered_its_visits(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path, log = tmp_path / "plan.yaml", tmp_path / "day.log"
    path.write_text(BROKEN_VASE.replace('wrap: "20:00"', 'wrap: "20:00", order: [wide 1A 1D, close, wide 1C]'))
    log.write_text("day 1\n08:40 rigging wide\n")
    assert main(["now", str(path), "--log", str(log), "--at", "08:42"]) == 2
    said = capsys.readouterr()
    assert "write 'rigging setup wide 1A 1D' or 'rigging setup wide 1C'" in " ".join((said.out + said.err).split())
    log.write_text("day 1\n08:40 rigging wide 1A 1D\n09:00 rolled 1A\n")
    assert main(["now", str(path), "--log", str(log), "--at", "09:05"]) == 0
    assert "'wide 1A 1D'" in capsys.readouterr().out
