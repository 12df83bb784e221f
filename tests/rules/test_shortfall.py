"""What is short: how many, what it costs, what would do instead and what is wrong with that."""

from __future__ import annotations

from pathlib import Path

from hotset.documents.to_get import makeshifts
from hotset.documents.words import words_for
from hotset.facts.shortfall import Short, shortfall
from hotset.facts.tables import table

from .plans import compiled, conflicts

PLAN = """
hotset: 1
locations:
  landing:
    sets:
      office:
        size: 5 m x 4 m x 2.5 m
        windows:
          hatch: {wall: east, from: 1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}
          quay: {wall: north, from: 1 m, sill: 0.9 m, width: 1.3 m, height: 1.2 m}
mounts: {near: {flange: 18 mm}, far: {flange: 44 mm}}
stock:
  cloth: {opaque: true, roll: 1.6 m x 1.5 m, cost: 38 GBP}
  frost: {loses: 0.5 stops, roll: 1.2 m x 1.3 m, cost: 9.50 GBP}
gear:
  panel: {kind: light, cost: 20 GBP}
  body: {kind: camera, mount: near}
  lens: {kind: lens, mount: far, thread: 55 mm}
  mist: {kind: filter, thread: 67 mm}
setups:
  wide:
    set: office
    camera: {body: body, lens: lens, filters: mist}
    lights: {a: {lamp: panel}, b: {lamp: panel}, c: {lamp: panel}}
    windows: {hatch: {black-out: cloth, layers-of: 2}, quay: {black-out: cloth}}
  near: {like: wide, windows: {hatch: {layers: [frost, frost]}, quay: {black-out: cloth}}, lights: {d: {lamp: panel}}}
"""


def short(text: str, folder: Path) -> dict[str, Short]:
    facts = compiled(text, folder).facts
    assert facts is not None
    return {one.thing or one.kind: one for one in shortfall(facts)}


def test_everything_that_is_short_with_what_it_costs(tmp_path: Path) -> None:
    """Three panels of 1.6 m x 1.5 m from rolls that give one each; two of 1.3 m x 1.2 m likewise; four lamps of one."""
    found = short(PLAN, tmp_path)
    assert list(found) == ["panel", "cloth", "frost", "adapter", "step-ring"]
    panel, cloth, frost = found["panel"], found["cloth"], found["frost"]
    assert (panel.count, panel.cost and panel.cost.cents, panel.setups) == (3, 6000, ("wide", "near"))
    assert (cloth.count, cloth.cost and cloth.cost.cents, cloth.setups) == (2, 7600, ("wide",))
    assert (frost.count, frost.cost and frost.cost.cents, frost.setups) == (1, 950, ("near",))
    ring, joint = found["step-ring"], found["adapter"]
    assert (ring.from_, ring.to, joint.from_, joint.to) == ("55", "67", "near", "far")
    assert joint.thick is not None
    assert abs(joint.thick - 0.026) < 1e-9


def test_nothing_is_short_where_there_is_enough(tmp_path: Path) -> None:
    enough = (
        PLAN.replace("cost: 38 GBP", "quantity: 3")
        .replace("cost: 9.50 GBP", "quantity: 2")
        .replace("light, cost: 20 GBP", "light, quantity: 4")
        .replace("mount: far", "mount: near")
        .replace("thread: 67 mm", "thread: 55 mm")
    )
    assert short(enough, tmp_path) == {}


def test_wider_material_is_wanted_where_no_roll_does(tmp_path: Path) -> None:
    one = short(PLAN.replace("1.2 m x 1.3 m", "0.6 m x 9 m"), tmp_path)["frost"]
    assert one.piece is not None
    assert (one.count, one.cost, one.piece) == (1, None, (1.3, 1.2))


def test_the_ways_out_say_the_price_and_the_makeshift_with_its_drawback(tmp_path: Path) -> None:
    found = {f.rule: f for f in conflicts(PLAN, tmp_path)}
    ways = found["cloth-short"].ways_out
    assert "get 2 more rolls of 'cloth', 1.6 m x 1.5 m: 76.00 GBP in all" in ways
    bags = [way for way in ways if "bin bags" in way]
    assert len(bags) == 1
    assert "rustle" in bags[0]
    assert "never near a hot lamp" in bags[0]
    assert any("bed sheet" in way and "meter it" in way for way in found["diffusion-short"].ways_out)
    assert any("get 2 more (20.00 GBP each)" in way for way in found["piece-in-two-places"].ways_out)


def test_every_makeshift_has_words_on_the_sheets() -> None:
    rows = [row for name, group in table("substitutes").items() if isinstance(group, list) for row in group if name]
    said = [row[key] for row in rows for key in ("words", "but")]
    assert makeshifts(words_for("en")) == {words: words for words in said}
