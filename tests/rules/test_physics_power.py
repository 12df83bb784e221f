"""The numbers behind findings of power, batteries, cards, weight and heat: tables, standards and arithmetic."""

from __future__ import annotations

from pathlib import Path

import pytest
from hotset.findings import Finding

from .plans import compiled


def findings(text: str, rule: str, tmp_path: Path) -> list[Finding]:
    return [f for f in compiled(text, tmp_path).findings if f.rule == rule]


def details(text: str, rule: str, tmp_path: Path) -> dict[str, object]:
    found = findings(text, rule, tmp_path)
    assert len(found) == 1
    return dict(found[0].details)


LEAD = """
hotset: 1
locations: {{yard: {{mains: {mains}, circuits: {{main: {{breaker: 32 A}}}}, sets: {{ground: {{size: 9 m x 9 m}}}}}}}}
gear:
  lamp: {{kind: light, draws: {watts} W, factor: 1, runs: 1 min}}
  cable: {{kind: power, long: {metres} m, section: {section} mm2, quantity: {count}}}
setups:
  one:
    set: ground
    lights:
      key: {{lamp: lamp, circuit: main, lead: cable}}
      {more}
"""


@pytest.mark.parametrize(
    ("section", "amperes", "metres", "volts"),
    [
        # BS 7671, flexible cable of 60 C: 19 mV/A/m at 2.5 mm2, 32 at 1.5; IEC 60228 class 5 at 60 C where it has none
        ("2.5", 16, 25, 7.60),
        ("1.5", 10, 25, 8.00),
        ("4", 20, 30, 7.20),
        ("6", 32, 35, 8.55),
    ],
)
def test_volts_lost(tmp_path: Path, section: str, amperes: int, metres: int, volts: float) -> None:
    text = LEAD.format(
        mains="230 V 50 Hz", watts=amperes * 230, metres=metres, section=section, count=1, more="note: alone"
    ).replace("      note: alone\n", "")
    met = details(text, "lead-too-long", tmp_path)
    assert met["volts_lost"] == pytest.approx(volts, abs=0.02)
    assert met["amperes"] == pytest.approx(amperes, abs=0.005)
    assert met["limit_volts"] == pytest.approx(6.9)  # 3 % of 230 V for lighting: BS 7671 Appendix 4


def test_a_shared_lead_carries_both(tmp_path: Path) -> None:
    for count, said in ((1, 1), (2, 0)):
        text = LEAD.format(
            mains="230 V 50 Hz", watts=1150, metres=25, section="1.5", count=count,
            more="side: {lamp: lamp, circuit: main, lead: cable}",
        )  # fmt: skip
        found = findings(text, "lead-too-long", tmp_path)
        assert [dict(f.details)["volts_lost"] for f in found] == [8.0] * said  # 10 A over 25 m


def test_a_thicker_lead_that_is_offered_holds(tmp_path: Path) -> None:
    values = {"mains": "230 V 50 Hz", "watts": 3680, "metres": 25, "count": 1, "more": ""}
    assert findings(LEAD.format(section="2.5", **values), "lead-too-long", tmp_path)[0].ways_out == (
        "take leads of 4 mm2",
        "or no more than 22 m of this lead, from a nearer socket",
    )
    assert findings(LEAD.format(section="4", **values), "lead-too-long", tmp_path) == []
    assert findings(LEAD.format(section="2.5", **{**values, "metres": 22}), "lead-too-long", tmp_path) == []


BATTERY = """
hotset: 1
days: {{1: {{call: "08:00", wrap: "20:00", load-in: 30 min, wrap-out: 30 min, order: [one, two]}}}}
gear:
  panel: {{kind: light, draws: {watts} W, battery: v}}
  brick: {{kind: battery, holds: {wh} Wh, plate: v, quantity: {count}}}
  {charger}
setups:
  one: {{takes: {takes} min, rig: 10 min, lights: {{key: {{lamp: panel, battery: brick}}}}}}
  two: {{like: one}}
scenes: {{4: {{shots: {{4A: {{setup: one}}, 4B: {{setup: two}}}}}}}}
"""


def test_when_a_battery_is_flat(tmp_path: Path) -> None:
    # 98 Wh x 0.8 / 45 W = 104.5 min; the lamp is on from 08:30, ten minutes before the takes at 08:40
    text = BATTERY.format(watts=45, wh=98, count=1, takes=120, charger="tape: {kind: grip}")
    met = details(text, "battery-flat", tmp_path)
    assert (met["at"], met["setup"], met["enough"]) == ("10:14", "one", 3)
    # 14.4 V x 10.2 Ah = 146.9 Wh: 156.7 min, 130 of them until 10:40
    met = details(BATTERY.format(watts=45, wh=146.9, count=1, takes=120, charger="tape: {kind: grip}"),
                  "battery-flat", tmp_path)  # fmt: skip
    assert (met["at"], met["setup"]) == ("11:06", "two")


def test_charging_and_the_number_offered(tmp_path: Path) -> None:
    values = {"watts": 45, "wh": 98, "takes": 120}
    charger = "charger: {kind: charger, plate: v, slots: 1, fills: 1 h}"
    assert findings(BATTERY.format(count=2, charger="tape: {kind: grip}", **values), "battery-flat", tmp_path)
    assert findings(BATTERY.format(count=2, charger=charger, **values), "battery-flat", tmp_path) == []
    assert findings(BATTERY.format(count=3, charger="tape: {kind: grip}", **values), "battery-flat", tmp_path) == []


def test_without_an_order_only_what_no_order_avoids(tmp_path: Path) -> None:
    text = BATTERY.format(watts=45, wh=98, count=1, takes=120, charger="tape: {kind: grip}")
    free = text.replace(", order: [one, two]", "")
    met = details(free, "battery-flat", tmp_path)
    assert (met["needs_wh"], met["have_wh"]) == (180, 78)  # 45 W x 4 h against 98 Wh x 0.8
    assert findings(free.replace("quantity: 1", "quantity: 3"), "battery-flat", tmp_path) == []


CARDS = """
hotset: 1
days: {{1: {{call: "08:00", wrap: "18:00", load-in: 30 min, wrap-out: 30 min, order: [one]}}}}
gear:
  body: {{kind: camera, codecs: {{fine: {rate} Mbit/s}}}}
  card: {{kind: media, holds: {gb} GB, reads: 300 MB/s, quantity: {count}}}
  {drive}
setups: {{one: {{takes: {takes} min, rig: 0 min, camera: {{body: body, codec: fine}}}}}}
scenes: {{4: {{shots: {{4A: {{setup: one, takes: {takes} min, rolls: {rolls} min, count: 12}}}}}}}}
"""


def test_gigabytes(tmp_path: Path) -> None:
    # 100 Mbit/s are 45 GB an hour; 64 GB hold 85.3 min of it, 90 % of that 76.8
    values = {"rate": 100, "gb": 64, "count": 1, "takes": 120, "drive": "tape: {kind: grip}"}
    met = details(CARDS.format(rolls=84, **values), "cards-full", tmp_path)
    assert met["gigabytes"] == 63.0
    assert met["usable_gigabytes"] == 57.6
    assert findings(CARDS.format(rolls=76, **values), "cards-full", tmp_path) == []
    # 400 Mbit/s are 180 GB an hour
    met = details(CARDS.format(rolls=60, **{**values, "rate": 400}), "cards-full", tmp_path)
    assert met["gigabytes"] == 180.0


def test_a_card_that_is_copied_is_free_again(tmp_path: Path) -> None:
    values = {"rate": 400, "gb": 64, "count": 2, "takes": 240, "rolls": 60}
    assert findings(CARDS.format(drive="tape: {kind: grip}", **values), "cards-full", tmp_path)
    assert findings(CARDS.format(drive="disk: {kind: drive, writes: 200 MB/s}", **values), "cards-full", tmp_path) == []
    slow = CARDS.format(drive="disk: {kind: drive, writes: 10 MB/s}", **values)
    assert "by" in findings(slow, "cards-full", tmp_path)[0].sentence


def test_copying_and_verifying(tmp_path: Path) -> None:
    # 128 GB copy in 23.7 min at 90 MB/s, and as long again to verify; here 115.2 GB: 42.7 min after the last cut
    values = {"rate": 256, "gb": 512, "count": 1, "takes": 540, "rolls": 60}
    text = CARDS.format(drive="disk: {kind: drive, writes: 90 MB/s}", **values).replace('"18:00"', '"17:40"')
    met = details(text, "offload-too-slow", tmp_path)
    assert met["gigabytes"] == 115.2
    assert met["minutes"] == 43
    assert met["done"] == "18:13"


def test_how_many_copies_the_drives_hold(tmp_path: Path) -> None:
    values = {"rate": 400, "gb": 512, "count": 1, "takes": 120, "rolls": 60}
    for drive, held in (("holds: 1 TB, quantity: 2", None), ("holds: 1 TB", 1), ("holds: 100 GB, quantity: 4", None),
                        ("holds: 100 GB, quantity: 3", 1)):  # fmt: skip
        slot = "\n  slot: {kind: reader}"
        text = CARDS.format(drive=f"disk: {{kind: drive, {drive}}}{slot}", **values) + "post: {copies: 2}\n"
        found = findings(text, "single-copy", tmp_path)
        assert [dict(f.details)["held"] for f in found] == ([] if held is None else [held])
        unread = findings(text.replace(slot, ""), "single-copy", tmp_path)
        assert "the plan has no card reader" in unread[0].sentence
        assert unread[0].place.path == "gear.card"


@pytest.mark.parametrize(("rule", "thing", "said"), [
    # carriers' guides: 100 Wh free, 160 Wh with approval
    ("battery-air-travel", "brick: {kind: battery, holds: 100 Wh}", ""),
    ("battery-air-travel", "brick: {kind: battery, holds: 101 Wh}", "approve"),
    ("battery-air-travel", "brick: {kind: battery, holds: 160 Wh}", "approve"),
    ("battery-air-travel", "brick: {kind: battery, holds: 161 Wh}", "at all"),
    # HSE L23: 25 kg at elbow height, 10 kg at head height
    ("heavy-lift", "lamp: {kind: light, weight: 25 kg}", ""),
    ("heavy-lift", "lamp: {kind: light, weight: 25.1 kg}", "25.1 kg"),
    ("heavy-lift", "a: {kind: grip, weight: 14 kg, case: box}\n  b: {kind: grip, weight: 11.5 kg, case: box}", "25.5"),
])  # fmt: skip
def test_thresholds(tmp_path: Path, rule: str, thing: str, said: str) -> None:
    text = f"hotset: 1\npeople: {{olek: {{works: gaffer, by-air: true}}}}\ngear:\n  {thing}\n"
    found = findings(text, rule, tmp_path)
    assert len(found) == (1 if said else 0)
    assert all(said in f.sentence for f in found)


def test_a_lamp_over_the_head(tmp_path: Path) -> None:
    for height, weight, said in ((1.8, 12, 0), (2.0, 10, 0), (2.0, 10.5, 1)):
        text = (
            f"hotset: 1\ngear: {{lamp: {{kind: light, weight: {weight} kg}}}}\n"
            f"setups: {{one: {{lights: {{key: {{lamp: lamp, height: {height} m}}}}}}}}\n"
        )
        assert len(findings(text, "heavy-lift", tmp_path)) == said


def test_heat_in_every_direction(tmp_path: Path) -> None:
    from hotset.rules import cloth_near_heat

    # depth 1.5 m less 0.9 m away and half of 0.3 m: 0.45 m behind; half of 1.3 m and 0.15 m overlap less half of 0.3 m
    # and 0.3 m along: 0.35 m to the side
    bare = cloth_near_heat.PASSES
    assert findings(bare, "cloth-near-heat", tmp_path) == []
    near = bare.replace("away: 0.9 m", "away: 0.9 m, along: 0.3 m")
    assert dict(findings(near, "cloth-near-heat", tmp_path)[0].details)["gap_m"] == pytest.approx(0.35)
    flag = bare + "    grip: {flag: {use: black-cloth, size: 1 m x 1 m, at: [4.6 m, 1.75 m], height: 1.5 m}}\n"
    assert dict(findings(flag, "cloth-near-heat", tmp_path)[0].details)["gap_m"] == pytest.approx(0.35)


def test_the_roof_of_a_tent_over_a_lamp(tmp_path: Path) -> None:
    from hotset.rules import cloth_near_heat

    # Roof at sill 0.9 m + window 1.2 m + overlap 0.15 m = 2.25 m; the lamp reaches 0.15 m above its place.
    for height, gap in (("1.70 m", None), ("1.71 m", 0.39), ("1.8 m", 0.3)):
        text = cloth_near_heat.PASSES.replace("height: 1.5 m}", f"height: {height}}}")
        found = findings(text, "cloth-near-heat", tmp_path)
        assert [dict(f.details)["gap_m"] for f in found] == ([] if gap is None else [pytest.approx(gap)])
        for one in found:
            assert "from the roof of the tent" in one.sentence
            assert one.ways_out[0].startswith("lower the lamp or raise the roof by")
    assert "Hot air gathers under a roof" in (cloth_near_heat.__doc__ or "")


def test_the_voltage_at_the_lamp_is_said_and_a_wire_gauge_is_counted_too(tmp_path: Path) -> None:
    values = {"mains": "230 V 50 Hz", "watts": 3680, "metres": 25, "count": 1, "more": ""}
    found = findings(LEAD.format(section="2.5", **values), "lead-too-long", tmp_path)
    assert "7.6 V of 230 V are lost, 3.3 %, above the 3 % held good, and 222 V arrive at the lamp" in found[0].sentence
    # 14 AWG are 2.08 mm2: 19.95 ohm mm2/km (1.5 mm2 of IEC 60228) at 60 C, 2 x 25 m x 16 A: 8.88 V
    odd = details(LEAD.format(section="2.08", **values), "lead-too-long", tmp_path)
    assert odd["volts_lost"] == pytest.approx(2 * 19.95 / 2080 * (1 + 0.00393 * 40) * 25 * 16, abs=0.01)


STATION = """
hotset: 1
days: {1: {call: "08:00", wrap: "18:00", load-in: 30 min, wrap-out: 30 min, order: [wide, close]}}
locations:
  quay:
    mains: 230 V 50 Hz
    circuits: {station: {gives: 1800 W, holds: 1000 Wh}, generator: {gives: 2000 W, runs: 3 h}}
    sets: {pier: {size: 12 m x 6 m, outdoors: true}}
gear: {lamp: {kind: light, draws: 300 W, factor: 1}}
setups:
  wide: {set: pier, takes: 120 min, lights: {moon: {lamp: lamp, circuit: station}}}
  close: {set: pier, takes: 120 min, lights: {moon: {lamp: lamp, circuit: station}}}
scenes: {4: {shots: {4A: {setup: wide}, 4B: {setup: close}}}}
"""


def test_a_station_along_the_day(tmp_path: Path) -> None:
    # 800 Wh come out of 1000: at 300 W 160 min. The first setup burns 120 min and 10 before, so 30 min are left of it,
    # which begin 10 min before the second setup's takes, or as soon as the first is cut.
    done = compiled(STATION, tmp_path)
    assert done.facts is not None
    line = done.facts.timelines["1"]
    wide, close = line.shooting("wide"), line.shooting("close")
    assert wide is not None
    assert close is not None
    dry = max(close.start - 20, wide.end) + 60
    found = findings(STATION, "station-runs-dry", tmp_path)
    assert [dict(f.details)["at"] for f in found] == [f"{dry // 120:02d}:{dry % 120 // 2:02d}"]
    assert "its 1000 Wh are used up by then, up to 300 W at a time" in found[0].sentence
    cut = f"{wide.end // 120:02d}:{wide.end % 120 // 2:02d}"
    assert found[0].ways_out[0] == f"bring 1 full one more, and change it after 'wide' at {cut}"
    assert not any("engine" in way for way in found[0].ways_out)
    dimmed = STATION.replace("circuit: station}", "circuit: station, level: 50 %}")
    assert findings(dimmed, "station-runs-dry", tmp_path) == []


def test_a_generator_says_how_to_refuel_and_what_it_lacks(tmp_path: Path) -> None:
    text = STATION.replace("circuit: station}", "circuit: generator}").replace("runs: 3 h", "runs: 1 h 30 min")
    found = findings(text, "station-runs-dry", tmp_path)
    # 300 W of 2000 W: 0.3 + 0.7 x 0.15 = 0.405 of full consumption, 222 min; the engine stays on between the setups
    assert len(found) == 1
    assert found[0].ways_out[0].startswith("refuel it after 'wide' at ")
    small = text.replace("runs: 1 h 30 min", "runs: 30 min")  # 74 min on a full one, and a setup burns 130
    assert findings(small, "station-runs-dry", tmp_path)[0].ways_out[0].startswith("bring a larger tank or a second")
    assert found[0].ways_out[-1].startswith("stop the engine and let it cool before you refuel, outdoors")
    silent = compiled(text.replace("gives: 2000 W, ", ""), tmp_path).coverage.not_checked
    assert "'gives:' of 'generator', such as 2000 W" in [n.wants for n in silent if n.rule == "station-runs-dry"]
    waiting = compiled(text.replace(", order: [wide, close]", ""), tmp_path).coverage.not_checked
    assert "circuit 'generator' on day 1" in [n.subject for n in waiting if n.rule == "station-runs-dry"]
