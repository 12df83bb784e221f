"""Whatever is late: meals, room tones and everybody's safety are in every way that is offered, and musts stay."""

from __future__ import annotations

import pytest
from hotset.facts.tables import table
from hotset.facts.timeline import TONE
from hotset.now import Answer, answer, lines
from hotset.now.judge import judge

from .lived import agreed, ask, clock, example, log_of, perfect

TEN = """
call 07:30
rigging hall-sun-wide 08:20
rolled 1A 08:45
done 1A 09:20 6 takes
done 1B 09:31
done 1C 09:50
lost fresnel 10:05
rolled 4A 10:40
done 4A 11:10
mara leaves 18:00
done 4B 11:30
lost 4 m of black-cloth 11:40
dropped 4G
done 4C 12:10
meal 12:30
meal over 13:20
"""


def judged(found: Answer) -> list[str]:
    """What is wrong with the ways that are offered."""
    rest, wrong = found.rest, []
    if found.choice is None:
        return []
    spared = set(table("late")["spared-roles"])
    hungry = max(found.way.hungry, rest.flaws.hungry if rest.flaws is not None else 0)
    for option in found.choice.options:
        change = option.change
        # A second meal may go where the wrap comes sooner; nobody goes longer without one for it.
        if change.order and judge(rest.day, (*rest.held, *change.order)).hungry > hungry:
            wrong.append(f"{option.words}: somebody goes too long without a meal")
        if change.order and change.order.count(TONE) < found.way.order.count(TONE):
            wrong.append(f"{option.words}: a room tone is missing")
        musts = [p.id for parts in rest.parts.values() for p in parts if p.priority == "must" and p.id in change.shots]
        if musts and option.kind != "reverse-must":
            wrong.append(f"{option.words}: {musts} must be shot")
        for setup, k in change.needs:
            path = next(r for r in rest.day.rig.setups if r.setup == setup).needs[k].path
            role = next((li.role for li in rest.plan.setups[setup].lights.values() if li.path == path), None)
            if role not in spared:
                wrong.append(f"{option.words}: leaves out {path}")
        if not option.words.strip() or ", ," in option.words or "drop ," in option.words:
            wrong.append(f"'{option.words}' says nothing")
        if option.kind != "reorder" and any(word in option.words for word in ("meal", "tone", "copies", "rest day")):
            wrong.append(option.words)
    said = " ".join(words for _, words in lines(found))
    if "never to be cut: meal, rest, safety, two verified copies of every card, room tone" not in said:
        wrong.append("it is not said what is never cut")
    return wrong


@pytest.mark.parametrize("late", [30, 90, 180, 300])
@pytest.mark.parametrize(("name", "day"), [("last-boat", "1"), ("two-days-outside", "1"), ("two-days-outside", "2")])
def test_no_way_cuts_what_is_never_cut(name: str, day: str, late: int) -> None:
    plan = example(name)
    line = agreed(plan, day)
    for at in [s.end for s in line.steps if s.kind == "setup"][::3]:
        found = answer(plan, log_of(plan, perfect(plan, at + late, day, late), day), at + late)
        assert judged(found) == [], clock(at + late)


def test_a_day_with_ten_events_goes_on_to_the_end() -> None:
    plan = example("last-boat")
    events = TEN.strip().splitlines()
    offered = 0
    for n in range(2, len(events) + 1):
        times = [w for line in events[:n] for w in line.split() if w.count(":") == 1 and "leaves" not in line]
        found = ask(plan, "\n".join(events[:n]) + "\n", times[-1])
        assert judged(found) == [], events[n - 1]
        gone = {f.shot for f in found.rest.losses.fates if f.falls}
        left = {p.id for parts in found.rest.parts.values() for p in parts}
        coming = {shot for item in found.coming for shot, _ in item.shots}
        lost = {p.id for name, _ in found.way.lost for p in found.rest.parts.get(name, ())}
        assert coming == left - lost - gone, events[n - 1]
        meals = [c for c in found.coming if c.kind == "meal"]
        assert meals or "meal" in events[n - 1] or n > 15
        offered = max(offered, len(found.choice.options) if found.choice else 0)
    assert offered == 3
