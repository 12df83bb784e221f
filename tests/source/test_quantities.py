"""Quantities: what the crew writes, what it means, and what is said of what cannot be read."""

from __future__ import annotations

import datetime
import math
from typing import Any

import pytest
from hotset.source.quantities import (
    KINDS,
    Around,
    ClockRange,
    Coordinates,
    Mains,
    Moment,
    Money,
    Output,
    QuantityError,
    Range,
    Shutter,
    Stop,
    Towards,
    parse,
    show,
)
from hypothesis import given, settings
from hypothesis import strategies as st

DAY = datetime.date(2026, 11, 14)

# International yard and pound agreement of 1959: 1 in = 25.4 mm, 1 lb = 0.45359237 kg.
READ: list[tuple[str, str, Any]] = [
    ("length", "1.8 m", 1.8), ("length", "30 cm", 0.3), ("length", "57 cm", 0.57), ("length", "35 mm", 0.035),
    ("length", "0.5 km", 500.0), ("length", "6 ft", 1.8288), ("length", "6 ft 2 in", 1.8796),
    ("length", "8 in", 0.2032), ("length", "2 1/2 in", 0.0635), ("length", "½ m", 0.5), ("length", "1.8m", 1.8),
    ("length", "1.8\u00a0m", 1.8), ("length", "3 metres", 3.0), ("length", "0 m", 0.0), ("offset", "-0.3 m", -0.3),
    ("offset", "−6 ft 2 in", -1.8796), ("angle", "-10 deg", -10.0), ("angle", "20°", 20.0),
    ("kelvin", "2700 K", 2700.0), ("kelvin-range", "2800-6500 K", Range(2800, 6500)),
    ("kelvin-range", "3200 K", Range(3200, 3200)), ("kelvin-range", "2800 K – 6500 K", Range(2800, 6500)),
    ("angle-range", "15-45 deg", Range(15, 45)), ("length-range", "24-70 mm", Range(0.024, 0.07)),
    ("power", "1.2 kW", 1200.0), ("energy", "98 Wh", 98.0), ("current", "16 A", 16.0), ("voltage", "14.4 V", 14.4),
    ("duration", "35 min", 2100.0), ("duration", "90 s", 90.0), ("duration", "1 h 30 min", 5400.0),
    ("duration", "1.5 h", 5400.0), ("duration", "1 h 5 min 30 s", 3930.0),
    ("duration-range", "30-40 min", Range(1800, 2400)), ("clock", "07:30", 900), ("clock", "7:30", 900),
    ("clock", "25:30", 3060), ("clock", "00:00:30", 1), ("clock-range", "09:00-18:00", ClockRange(1080, 2160)),
    ("clock-range", "18:00-02:00", ClockRange(2160, 3120)), ("date", "2026-11-14", DAY),
    ("moment", "2026-11-14 21:00", Moment(DAY, 2520)), ("percent", "60 %", 0.6), ("percent", "60%", 0.6),
    ("percent-range", "20-70 %", Range(0.2, 0.7)), ("stops", "1.5 stops", 1.5), ("stops", "1/4 stop", 0.25),
    ("stops", "-1 stop", -1.0), ("stops", "1 1/3 stops", 4 / 3), ("data-rate", "100 Mbit/s", 100.0),
    ("data-rate", "1.2 Gbit/s", 1200.0), ("data-volume", "2 TB", 2000.0), ("data-volume", "500 MB", 0.5),
    ("data-speed", "300 MB/s", 300.0), ("money", "12.50 EUR", Money(1250, "EUR")),
    ("money", "3 GBP", Money(300, "GBP")), ("weight", "2.4 kg", 2.4), ("weight", "450 g", 0.45),
    ("weight", "1 lb", 0.45359237), ("frequency", "1.2 kHz", 1200.0), ("rate", "1.5 per s", 1.5),
    ("rate", "6 per min", 0.1), ("mains", "230 V 50 Hz", Mains(230, 50)), ("stop", "f/2.8", Stop(2.8, False)),
    ("stop", "T2", Stop(2, True)), ("stop", "T2.8", Stop(2.8, True)), ("shutter", "1/50 s", Shutter(0.02, None)),
    ("shutter", "180 deg", Shutter(None, 180)), ("shutter", "172.8°", Shutter(None, 172.8)),
    ("fps", "23.976 fps", 23.976), ("fps", "24000/1001 fps", 24000 / 1001),
    ("output", "6000 lx at 1 m", Output(6000, "lx", 1)), ("output", "8000 cd", Output(8000, "cd", None)),
    ("output", "900 lm", Output(900, "lm", None)), ("lux", "300 lx", 300.0), ("size", "36 mm x 24 mm", (0.036, 0.024)),
    ("size", "36 × 24 mm", (0.036, 0.024)), ("size", "1.5 m x 12 m", (1.5, 12.0)),
    ("box", "4.2 m x 3.6 m x 2.4 m", (4.2, 3.6, 2.4)), ("coordinates", "55.01 N, 1.44 W", Coordinates(55.01, -1.44)),
    ("coordinates", "33.9° S, 18.4° E", Coordinates(-33.9, 18.4)),
    ("coordinates", "55.01, -1.44", Coordinates(55.01, -1.44)), ("aspect", "16:9", 16 / 9), ("aspect", "2.39:1", 2.39),
    ("ratio", "4:1", 4.0), ("eighths", "2 3/8", 19), ("eighths", "5/8", 5), ("eighths", "1", 8), ("eighths", "1/2", 4),
    ("mired", "+120 mired", 120.0), ("mired", "-35 mired", -35.0), ("section", "1.5 mm2", 1.5),
    ("section", "1.5 mm²", 1.5), ("density", "0.6", 0.6), ("number", "-1.4", -1.4), ("whole", "12", 12),
    ("yes-no", "yes", True), ("yes-no", "False", False), ("zone", "Europe/London", "Europe/London"),
    ("text", " as it is ", " as it is "),
    ("spot", "1.5 m at 10 o'clock of desk", Around(1.5, 10, "desk")),
    ("spot", "5 ft at 10:30 o’clock of shop/desk", Around(1.524, 10.5, "shop/desk")),
    ("spot", "2 m from desk towards door", Towards(2, "desk", "door")),
]  # fmt: skip

REFUSED: list[tuple[str, str, str, str]] = [
    ("kelvin", "2700", "'2700' has no unit", "2700 K"), ("kelvin", "2700 k", "it is written 'K'", "2700 K"),
    ("kelvin", "300 W", "is a power where a colour temperature is due", "2700 K"),
    ("kelvin", "0 K", "is nought", "2700 K"), ("length", "1,8 m", "decimal comma", "1.8 m"),
    ("power", "1,000 W", "comma inside the number", "1000 W"), ("length", "-1 m", "below zero", "1.8 m"),
    ("length", "6 ft 2", "no unit", "6 ft 2 in"), ("length", "2 in 6 ft", "the larger unit first", "1.8 m"),
    ("length", "2 m 3 m", "two amounts", "1.8 m"), ("power", "1 kW 200 W", "two amounts", "360 W"),
    ("length", "12 parsec", "no unit of a length; known are m, cm", "1.8 m"), ("length", "far", "no number", "1.8 m"),
    ("length", "nan m", "no number", "1.8 m"), ("length", "inf m", "no number", "1.8 m"),
    ("length", "1e9 m", "'e9 m'", "1.8 m"), ("length", "1234567890123456789 m", "more than 18 digits", "1.8 m"),
    ("length", "١ m", "no number", "1.8 m"), ("length", "", "nothing is written", "1.8 m"),
    ("length", "x" * 10_000, "too long", "1.8 m"), ("duration", "35 m", "is a length where", "35 min"),
    ("duration", "1/0 h", "divides by nought", "35 min"), ("angle", "400 deg", "more than a full turn", "20 deg"),
    ("weight", "2 5 kg", "two numbers side by side", "2.4 kg"), ("percent", "60", "no unit", "60 %"),
    ("stops", "1/4", "no unit", "1/4 stop"), ("stops", "2", "no unit", "2 stops"), ("fps", "25", "no unit", "25 fps"),
    ("rate", "4", "no unit", "4 per s"), ("clock", "7.30", "no colon", "07:30"),
    ("clock", "7am", "to twelve", "07:00"), ("clock", "7:30 pm", "to twelve", "19:30"),
    ("clock", "12:15 am", "to twelve", "00:15"), ("clock", "07:60", "60 minutes", "07:30"),
    ("clock", "48:00", "past 47:59", "07:30"), ("clock", "soon", "no time of day", "07:30"),
    ("clock-range", "09:00", "from when to when", "09:00-18:00"), ("length", "1.85", "no unit", "1.85 m"),
    ("length", "185", "no unit", "185 cm"), ("length", "5ft 5", "after its last number", "5 ft 5 in"),
    ("length", "5'5\"", "no unit of a length", "5 ft 5 in"), ("length", "6'", "no unit of a length", "6 ft"),
    ("length", "14\"", "no unit of a length", "14 in"), ("length-range", "35", "no unit", "35 mm"),
    ("clock-range", "12:30 to 18:00", "joins its two times by 'to'", "12:30-18:00"),
    ("clock-range", "7.30 to 6 pm", "where a dash is due", "07:30-18:00"),
    ("energy", "6800 mAh", "volts x ampere-hours", "98 Wh"), ("section", "14 AWG", "use mm2", "2.08 mm2"),
    ("clock-range", "09:00-09:00", "at once", "09:00-18:00"),
    ("date", "14.11.2026", "year first", "2026-11-14"), ("date", "2026-02-30", "no day of the calendar", "2026-11-14"),
    ("moment", "2026-11-14", "a date and a time", "21:00"),
    ("kelvin-range", "6500-2800 K", "runs backwards", "2800-6500 K"),
    ("kelvin-range", "2800- K", "no number", "2800-6500 K"), ("kelvin-range", "2800-", "lacks one end", "2800-6500 K"),
    ("stop", "2.8", "f-stop or a T-stop", "f/2.8"), ("stop", "f/0", "nought", "f/2.8"),
    ("stop", "fast", "no f-stop", "f/2.8"), ("shutter", "1/50", "no unit", "1/50 s"),
    ("shutter", "180", "no unit", "180 deg"), ("shutter", "400 deg", "full turn", "1/50 s"),
    ("output", "6000 lx", "at which distance", "6000 lx at 1 m"), ("output", "8000 cd at 1 m", "only lx", "6000 lx"),
    ("money", "12.50", "which money", "12.50 EUR"), ("money", "€12", "by a sign", "12 EUR"),
    ("money", "12 euros", "three capital letters", "12.50 EUR"),
    ("money", "1.234 EUR", "finer than a cent", "12.50 EUR"), ("mains", "230 V", "volts and hertz", "230 V 50 Hz"),
    ("size", "1.5 x 12", "no unit", "1.5 m x 12 m"), ("size", "1.5 m", "one side where 2", "1.5 m x 12 m"),
    ("box", "1 m x 2 m", "2 sides where 3", "4.2 m x"), ("size", "0 m x 2 m", "nought", "1.5 m x 12 m"),
    ("coordinates", "55.01 N", "no latitude and longitude", "55.01 N,"),
    ("coordinates", "1.44 W, 55.01 N", "latitude (N or S) first", "55.01 N,"),
    ("coordinates", "95 N, 1 W", "beyond 90", "55.01 N,"), ("coordinates", "-5 N, 1 W", "one is enough", "55.01 N,"),
    ("coordinates", "55 N, 1", "one letter of two", "55.01 N,"), ("aspect", "2.39", "no second side", "2.39:1"),
    ("aspect", "16:0", "nought", "16:9"), ("eighths", "1/3", "eighths", "2 3/8"),
    ("whole", "2.5", "no whole number", "2"), ("whole", "-1", "below zero", "2"),
    ("density", "0.6 ND", "not a number alone", "0.6"), ("yes-no", "maybe", "neither yes nor no", "yes"),
    ("spot", "desk", "no place said from a mark", "1.5 m at"),
    ("spot", "1 m at 14 o'clock of desk", "from 1 to 12", "1.5 m at"),
    ("spot", "1 m at noon of desk", "no hour", "1.5 m at"), ("spot", "2 m from desk", "towards which", "1.5 m at"),
    ("spot", "2 from desk towards door", "no unit", "1.8 m"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "text", "value"), READ)
def test_read(kind: str, text: str, value: Any) -> None:
    got = parse(kind, text)
    assert got == (pytest.approx(value, rel=1e-12) if isinstance(value, float | tuple) else value)
    assert type(got) is type(value)


@pytest.mark.parametrize(("kind", "text", "reason", "example"), REFUSED)
def test_refused_with_a_reason_and_an_example(kind: str, text: str, reason: str, example: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse(kind, text)
    assert reason in caught.value.reason
    assert example in caught.value.example or kind == "spot"
    assert len(caught.value.reason) < 200


@pytest.mark.parametrize("kind", KINDS)
def test_every_example_reads_and_shows_as_itself(kind: str) -> None:
    example = KINDS[kind].example
    value = parse(kind, example)
    if kind != "offset":
        assert show(kind, value) == example
    assert KINDS[kind].words


def test_examples_in_refusals_read() -> None:
    for kind, text, _, _ in REFUSED:
        with pytest.raises(QuantityError) as caught:
            parse(kind, text)
        if kind != "spot":
            parse(kind, caught.value.example)


@pytest.mark.parametrize(
    ("kind", "text", "metric", "imperial"),
    [
        ("length", "6 ft 2 in", "1.88 m", "6 ft 2 in"),
        ("length", "30 cm", "30 cm", "1 ft"),
        ("length", "35 mm", "35 mm", "35 mm"),
        ("size", "36 mm x 24 mm", "36 mm x 24 mm", "36 mm x 24 mm"),
        ("size", "4 x 8 ft", "1.22 m x 2.44 m", "4 ft x 8 ft"),
        ("length-range", "24-70 mm", "24-70 mm", "24-70 mm"),
        ("spot", "10 ft at 3 o'clock of desk", "3.05 m at 3 o'clock of desk", "10 ft at 3 o'clock of desk"),
        ("output", "560 fc at 3 ft", "6027.8 lx at 0.91 m", "6027.8 lx at 3 ft"),
        ("duration", "5400 s", "1 h 30 min", "1 h 30 min"),
        ("rate", "6 per min", "6 per min", "6 per min"),
        ("stops", "2/3 stop", "2/3 stop", "2/3 stop"),
        ("aspect", "1.85:1", "1.85:1", "1.85:1"),
        ("aspect", "4:3", "4:3", "4:3"),
    ],
)
def test_shown(kind: str, text: str, metric: str, imperial: str) -> None:
    value = parse(kind, text)
    assert show(kind, value) == metric
    assert show(kind, value, "imperial") == imperial


AMOUNT = st.floats(0.001, 1e6, allow_nan=False)
NAME = st.from_regex(r"[a-z][a-z0-9-]{0,8}(/[a-z]{1,5})?", fullmatch=True)
DATES = st.dates(datetime.date(1900, 1, 1), datetime.date(2200, 1, 1))
RANGES = st.tuples(AMOUNT, AMOUNT).map(lambda pair: Range(min(pair), max(pair)))
FRACTIONS = RANGES.map(lambda r: Range(r.lo / 1e6, r.hi / 1e6))
VALUES: dict[str, st.SearchStrategy[Any]] = {
    "offset": st.floats(-1000, 1000), "kelvin": st.floats(500, 50_000),
    "angle": st.floats(-360, 360), "clock": st.integers(0, 5759),
    "clock-range": st.tuples(st.integers(0, 2879), st.integers(1, 2880)).map(lambda t: ClockRange(t[0], t[0] + t[1])),
    "date": DATES, "moment": st.builds(Moment, DATES, st.integers(0, 5759)), "stops": st.floats(-20, 20),
    "money": st.builds(Money, st.integers(0, 10**12), st.just("EUR")), "mains": st.builds(Mains, AMOUNT, AMOUNT),
    "stop": st.builds(Stop, st.floats(0.5, 64), st.booleans()),
    "shutter": st.one_of(
        st.floats(1e-5, 10).map(lambda s: Shutter(s, None)), st.integers(1, 8000).map(lambda n: Shutter(1 / n, None)),
        st.floats(1, 360).map(lambda d: Shutter(None, d)),
    ),
    "output": st.one_of(
        st.builds(Output, AMOUNT, st.just("lx"), st.floats(0.1, 100)),
        st.builds(Output, AMOUNT, st.sampled_from(["cd", "lm"]), st.none()),
    ),
    "size": st.tuples(AMOUNT, AMOUNT), "box": st.tuples(AMOUNT, AMOUNT, AMOUNT),
    "coordinates": st.builds(Coordinates, st.floats(-90, 90), st.floats(-180, 180)),
    "eighths": st.integers(0, 2000), "mired": st.floats(-500, 500), "number": st.floats(-1e6, 1e6),
    "whole": st.integers(0, 10**12), "yes-no": st.booleans(), "text": st.text(max_size=30),
    "percent": st.floats(0, 2), "percent-range": FRACTIONS, "aspect": st.floats(0.2, 5), "ratio": st.floats(0.01, 1000),
    "zone": st.sampled_from(["Europe/London", "UTC", "Etc/GMT+7"]),
    "spot": st.one_of(
        st.builds(Around, st.floats(0, 100), st.floats(1, 12.99), NAME),
        st.builds(Towards, st.floats(0, 100), NAME, NAME),
    ),
}  # fmt: skip


@settings(max_examples=40, deadline=None)
@given(st.data())
@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("lengths", ["metric", "imperial"])
def test_what_is_shown_reads_back(kind: str, lengths: str, data: st.DataObject) -> None:
    value = data.draw(VALUES.get(kind, RANGES if kind.endswith("range") else AMOUNT))
    shown = show(kind, value, lengths)
    again = parse(kind, shown)
    assert type(again) is type(value) or isinstance(value, float)
    assert show(kind, again, lengths) == shown
    if isinstance(value, float) and kind not in ("length", "offset"):
        assert math.isclose(again, value, rel_tol=0.02, abs_tol=0.06)


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(sorted(KINDS)), st.text(alphabet="0123456789 .,:/-+xmftinKWsdegh%NEo'clk", max_size=25))
def test_any_text_is_read_or_refused(kind: str, text: str) -> None:
    try:
        parse(kind, text)
    except QuantityError as error:
        refusal = error
    else:
        return
    assert refusal.reason
    assert refusal.example


def test_text_of_a_thousand_numbers_takes_no_time() -> None:
    with pytest.raises(QuantityError):
        parse("length", "1 " * 199)
