"""The hours behind findings of daylight, against an almanac."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hotset.findings import Finding

from .plans import compiled

PLAN = """
hotset: 1
days: {{1: {{date: {date}, call: "{call}", wrap: "{wrap}", weather: we wait}}}}
locations:
  place:
    at: "{at}"
    zone: {zone}
    sets:
      open: {{size: 9 m x 9 m, outdoors: true}}
      room:
        size: 4 m x 4 m x 2.5 m
        windows: {{east: {{wall: east, from: 1 m, sill: 1 m, width: 1 m, height: 1 m}}}}
setups: {{one: {{{what}, takes: 10 min}}}}
"""


def findings(text: str, rule: str, tmp_path: Path) -> list[Finding]:
    return [f for f in compiled(text, tmp_path).findings if f.rule == rule]


def minutes(text: str) -> int:
    hours, rest = text.split(":")
    return int(hours) * 60 + int(rest)


@pytest.mark.parametrize(
    ("at", "zone", "date", "rise", "set_"),
    [
        # minutes of the US Naval Observatory for 2015, quoted in a solar library's tests; standard time of the zone
        ("39.0 N, 105.0 W", "Etc/GMT+7", "2015-01-02", "07:19", "16:49"),
        ("39.0 N, 105.0 W", "Etc/GMT+7", "2015-08-02", "05:01", "19:10"),
        ("39.917 N, 116.383 E", "Etc/GMT-8", "2015-04-02", "05:58", "18:39"),
        ("39.917 N, 116.383 E", "Etc/GMT-8", "2015-12-02", "07:17", "16:50"),
    ],
)
def test_when_the_sun_is_there(tmp_path: Path, at: str, zone: str, date: str, rise: str, set_: str) -> None:
    text = PLAN.format(at=at, zone=zone, date=date, call="21:00", wrap="23:00", what="set: open, needs: sun")
    found = findings(text, "needs-sun", tmp_path)
    words = dict(found[0].details)["there"]
    assert isinstance(words, str)
    said = words.replace("from ", "").split(" and ")[0].split(" to ")
    assert abs(minutes(said[0]) - minutes(rise)) <= 1
    assert abs(minutes(said[1]) - minutes(set_)) <= 1


def test_a_window_to_the_east_has_sun_until_noon(tmp_path: Path) -> None:
    # the almanac's day is longer than the window's: the sun leaves an east wall when it stands in the south
    text = PLAN.format(at="39.0 N, 105.0 W", zone="Etc/GMT+7", date="2015-01-02", call="21:00", wrap="23:00",
                       what="set: room, sun-on: east")  # fmt: skip
    words = dict(findings(text, "needs-sun", tmp_path)[0].details)["there"]
    assert isinstance(words, str)
    rise, noon = words.removeprefix("from ").split(" to ")
    assert 0 <= minutes(rise) - minutes("07:19") <= 3  # the middle of the sun, not its upper edge
    assert abs(minutes(noon) - (minutes("07:19") + minutes("16:49")) / 2) <= 1
    turned = text.replace("size: 4 m x 4 m x 2.5 m", "size: 4 m x 4 m x 2.5 m, north: 180 deg").replace(
        "size: 4 m x 4 m x 2.5 m, north: 180 deg", "size: 4 m x 4 m x 2.5 m\n        north: 180 deg"
    )
    words = dict(findings(turned, "needs-sun", tmp_path)[0].details)["there"]
    assert isinstance(words, str)
    assert abs(minutes(words.removeprefix("from ").split(" to ")[1]) - minutes("16:49")) <= 3


def test_dark_ends_and_begins_with_civil_twilight(tmp_path: Path) -> None:
    # civil twilight of 2015-01-02 lasts 29 minutes at 39 N: the sun's centre from -0.83 to -6 deg
    text = PLAN.format(at="39.0 N, 105.0 W", zone="Etc/GMT+7", date="2015-01-02", call="10:00", wrap="15:00",
                       what="set: open, needs: dark")  # fmt: skip
    found = findings(text, "needs-dark", tmp_path)
    after = found[0].ways_out[0].removeprefix("shoot it after ")
    assert 26 <= minutes(after) - minutes("16:49") <= 32
    said = text.replace("weather: we wait", 'dark-at: "15:30", weather: we wait')
    assert findings(said, "needs-dark", tmp_path)[0].ways_out[0] == "shoot it after 15:30"


def test_direct_sun_while_the_takes_run(tmp_path: Path) -> None:
    text = PLAN.format(at="39.0 N, 105.0 W", zone="Etc/GMT+7", date="2015-01-02", call="09:00", wrap="15:00",
                       what="set: room, rig: 0 min")  # fmt: skip
    agreed = text.replace("weather: we wait", "weather: we wait, load-in: 30 min, order: [one]")
    met = dict(findings(agreed, "direct-sun-on-window", tmp_path)[0].details)
    assert (met["from"], met["to"]) == ("09:30", "09:40")
    # at 09:35 NREL's solar position algorithm has the sun 18.97 deg high in 143.9 deg: 2 m / tan x cos of the bearing
    # would be 3.43 m, but the patch runs 53.9 deg aside and meets the wall 3 m away first: 3 m / tan 53.9 deg
    assert met["reach_m"] == pytest.approx(2.19, abs=0.01)
    wide = agreed.replace("size: 4 m x 4 m x 2.5 m", "size: 4 m x 14 m x 2.5 m")
    assert dict(findings(wide, "direct-sun-on-window", tmp_path)[0].details)["reach_m"] == pytest.approx(3.43, abs=0.01)
    for change in ("set: room, needs: sun", "set: room, sun-on: east"):
        assert findings(agreed.replace("set: room", change), "direct-sun-on-window", tmp_path) == []
    covered = (
        agreed.replace("set: room", "set: room, windows: {east: {layers: [frost]}}")
        + "stock: {frost: {loses: 1 stop}}\n"
    )
    assert findings(covered, "direct-sun-on-window", tmp_path) == []


def test_which_mark_the_sun_reaches_and_when(tmp_path: Path) -> None:
    """The straight line from the middle of the pane (4, 1.5, 1.5) away from the sun of 09:35, 18.97 deg high in
    143.9 deg (NREL's algorithm), is 1.2 m high at (3.49, 2.2); a metre higher, or across the room, there is no sun."""
    text = PLAN.format(at="39.0 N, 105.0 W", zone="Etc/GMT+7", date="2015-01-02", call="09:00", wrap="15:00",
                       what="set: room, rig: 0 min")  # fmt: skip
    marks = "marks: {seat: {at: [3.49 m, 2.2 m], height: 1.2 m}, tall: {at: [3.49 m, 2.2 m], height: 2.2 m}, far: "
    marks += "{at: [0.5 m, 0.5 m], height: 1.2 m}}\n        windows: {east"
    agreed = text.replace("weather: we wait", "weather: we wait, load-in: 30 min, order: [one]")
    found = findings(agreed.replace("windows: {east", marks), "direct-sun-on-window", tmp_path)
    assert dict(found[0].details)["marks"] == "seat"
    assert "it reaches mark 'seat' from 09:30 to 09:40, at the height of the eyes" in found[0].sentence
    assert found[0].ways_out[0].startswith("cover 'east' from 09:30 to 09:40")
    bare = findings(agreed, "direct-sun-on-window", tmp_path)[0].sentence
    assert "no mark of the set is in it; at 09:35 its patch lies on the floor" in bare


def test_an_order_waits_for_the_sun_to_come_and_to_go(tmp_path: Path) -> None:
    text = PLAN.format(at="39.0 N, 105.0 W", zone="Etc/GMT+7", date="2015-01-02", call="06:00", wrap="15:00",
                       what="set: room, rig: 0 min, WISH").replace(
        "weather: we wait", "weather: we wait, load-in: 30 min, order: [one]"
    )  # fmt: skip
    for wish, start in (("note: any", 390), ("sun-on: east", 439), ("needs: sun", 439)):
        facts = compiled(text.replace("WISH", wish), tmp_path).facts
        assert facts is not None
        rolling = facts.rolling("one")
        assert rolling is not None
        assert 0 <= rolling[0] / 2 - start <= 3, wish
    # before it comes there is time for ten minutes; called at nine, it is waited for until it leaves the east
    off = text.replace("WISH", "sun-off: east").replace('"06:00"', '"09:00"')
    facts = compiled(off, tmp_path).facts
    assert facts is not None
    rolling = facts.rolling("one")
    assert rolling is not None
    assert abs(rolling[0] / 2 - (439 + 1009) / 2) <= 1


@pytest.mark.parametrize("hour", [8, 9, 10, 11])
@pytest.mark.parametrize("north", [0.0, 30.0, -8.0])
def test_the_patch_against_rays_one_by_one(tmp_path: Path, hour: int, north: float) -> None:
    """A thousand points of the pane, each followed along the sun's rays to the first surface of the room."""
    from hotset.facts import sunpatch

    text = PLAN.format(at="39.0 N, 105.0 W", zone="Etc/GMT+7", date="2015-01-02", call="09:00", wrap="15:00",
                       what="set: room, rig: 0 min").replace(
        "size: 4 m x 4 m x 2.5 m", f"size: 4 m x 4 m x 2.5 m\n        north: {north:g} deg"
    )  # fmt: skip
    plan = compiled(text, tmp_path).plan
    assert plan is not None
    met = sunpatch.patch(plan, plan.sets["place/room"], "place/room/east", "1", hour * 120)
    assert met is not None
    turn, up = math.radians(met.bearing - north), math.radians(met.height)
    way = (-math.sin(turn) * math.cos(up), -math.cos(turn) * math.cos(up), -math.sin(up))
    deep, walls = 0.0, {name: [9.0, 0.0] for name in ("south", "north", "west")}
    for i in range(32):
        for j in range(32):
            start = (4.0, 1.0 + (i + 0.5) / 32, 1.0 + (j + 0.5) / 32)
            steps = [(-start[2] / way[2], "floor"), (-start[0] / way[0], "west")]
            if abs(way[1]) > 1e-9:
                steps.append(
                    ((0.0 - start[1]) / way[1], "south") if way[1] < 0 else ((4.0 - start[1]) / way[1], "north")
                )
            far, what = min(x for x in steps if x[0] > 0)
            if what == "floor":
                deep = max(deep, -far * way[0])
            else:
                high = start[2] + far * way[2]
                walls[what] = [min(walls[what][0], high), max(walls[what][1], high)]
    lit = {name: span for name, span in walls.items() if span[1] > 0.0}
    assert (met.deep or 0.0) == pytest.approx(deep, abs=0.15)
    assert {name for name, _, _ in met.walls} >= set(lit)
    for name, low, high in met.walls:
        if name in lit:
            assert low == pytest.approx(lit[name][0], abs=0.1)
            assert high == pytest.approx(lit[name][1], abs=0.1)
