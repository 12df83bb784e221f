"""Plans that are large in one way only. Each takes a second or two; the limit here leaves room for a busy machine."""

from __future__ import annotations

import io
import sys
import time

import pytest
from hotset.cli import main

SECONDS = 15.0
ROOM = (
    "locations: {a: {circuits: {c: {breaker: 10 A}}, "
    "sets: {r: {size: 50 m x 40 m x 3 m, marks: {m: {at: [2 m, 2 m]}}"
)


def chained(key: str, count: int = 5000) -> str:
    steps = "".join(f"  s{n}: {{{key}: s{n - 1}}}\n" for n in range(1, count))
    return f"hotset: 1\nsetups:\n  s0: {{takes: 5 min}}\n{steps}"


def ring(key: str, count: int = 5000) -> str:
    return chained(key, count).replace("{takes: 5 min}", f"{{{key}: s{count - 1}}}")


def clash(count: int = 500) -> str:
    """Setups that all stay hot to the end, each with the same lamp on the same circuit."""
    order = ", ".join(f"s{n}" for n in range(count))
    lamp = "lights: {k: {lamp: lamp, circuit: c, at: [3 m, 3 m]}}"
    rows = "".join(f"  s{n}: {{set: r, takes: 5 min, held-until: s{count - 1}, {lamp}}}\n" for n in range(count))
    gear = "gear: {lamp: {kind: light, draws: 300 W}}\n"
    return f"hotset: 1\ndays: {{1: {{order: [{order}]}}}}\n{gear}{ROOM}}}}}}}}}\nsetups:\n{rows}"


def alike(count: int = 10_000) -> str:
    gear = "".join(f"  lamp-{n:05}: {{kind: light}}\n" for n in range(count))
    return f"hotset: 1\ngear:\n{gear}setups:\n" + "".join(
        f"  s{n}: {{lights: {{a: {{lamp: lamp-x{n:04}}}}}}}\n" for n in range(100)
    )


def crowded() -> str:
    """A hundred lamps among 300 pieces of furniture, seen by a moving camera."""
    things = ", ".join(
        f"w{n}: {{at: [{5 + n % 30} m, {5 + n // 30} m], size: 0.5 m x 0.5 m x 1 m}}" for n in range(300)
    )
    lamp = "lamp: p, height: 2 m, aim: m, on: floor"
    lamps = ", ".join(f"k{n}: {{{lamp}, at: [{10 + n % 10} m, {10 + n // 10} m]}}" for n in range(100))
    gear = "c: {kind: camera, sensor: 36 mm x 24 mm}, l: {kind: lens, focal: 35 mm}, p: {kind: light, quantity: 100}"
    camera = "{body: c, lens: l, at: [1 m, 1 m], height: 1.5 m, aim: m}, move: {kind: push-in, to: [1.5 m, 1.5 m]}"
    return (
        f"hotset: 1\ngear: {{{gear}}}\n{ROOM}, furniture: {{{things}}}}}}}}}}}\n"
        f"setups: {{s: {{set: r, camera: {camera}, lights: {{{lamps}}}}}}}\n"
    )


PLANS = {
    "a chain of 5,000": (chained("like"), 0),
    "a chain of 5,000, last first": (chained("after"), 0),
    "a ring of 5,000": (ring("like"), 1),
    "a clash of 500": (clash(), 1),
    "10,000 names alike": (alike(), 1),
    "a hundred lamps": (crowded(), 1),
    "5,000 unknown keys": ("hotset: 1\n" + "".join(f"setups{n}: 3\n" for n in range(5000)), 1),
    "a text of 3 MB in one line": ("hotset: 1\nnote: " + "word " * 600_000 + "\n", 2),
    "a list of 40,000 in one line": ("hotset: 1\nnote: [" + "word, " * 40_000 + "x]\n", 0),
    "30,000 brackets": ("hotset: 1\nsetups: " + "[" * 30_000 + "\n", 2),
}


@pytest.mark.parametrize("name", PLANS)
def test_no_plan_is_a_cliff(name: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    text, expected = PLANS[name]
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(text.encode()), "utf-8"))
    began = time.monotonic()
    assert main(["check", "-"]) == expected
    took = time.monotonic() - began
    assert took < SECONDS
    said = capsys.readouterr()
    assert said.err == ""
    assert all(len(line) < 1000 for line in said.out.splitlines())
