"""Slips: found where neighbours and a usual slip agree, never where an engine is merely worn."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.metrology.slips import meanings
from gudgeon.metrology.weigh import weigh
from tests.metrology.rows import INCH, job, nothing_known, row

# Wrist pins of one worn four-cylinder engine, read at both boss ends and in the rod; one reading is a turn of the thimble off.
PINS = {
    "pin 1": ("0.9997", "0.9994", "0.9992", "0.9992", "0.9997", "0.9996"),
    "pin 2": ("0.9996", "0.9995", "0.9993", "0.9989", "0.9996", "0.9995"),
    "pin 3": ("0.9995", "0.9994", "0.9993", "0.9990", "0.9994", "0.9996"),
    "pin 4": ("0.9997", "0.9744", "0.9990", "0.9987", "0.9994", "0.9993"),
}
SPOTS = [(station, direction) for station in ("boss end", "rod", "other boss end") for direction in ("0", "90")]


def pins(**changed: str) -> list[dict[str, str]]:
    lines = []
    for item, readings in PINS.items():
        for (station, direction), reading in zip(SPOTS, readings, strict=True):
            reading = changed.get(f"{item} {station} {direction}".replace(" ", "_"), reading)
            lines.append(row("pin", item, "diameter", reading, station=station, direction_deg=direction))
    return lines


def test_a_turn_of_the_thimble_is_asked_about_and_nothing_else() -> None:
    doubts = weigh(job(pins()), nothing_known).doubts
    assert [doubt.reading.typed for doubt in doubts] == ["0.9744"]
    assert doubts[0].likely is not None
    assert doubts[0].likely / INCH == pytest.approx(0.9994, abs=1e-9)
    assert doubts[0].slip == "one turn of the thimble"
    for wanted in ("Row 20", "pin 4 diameter", "boss end", "90°", "0.9744 in", "0.9994 in"):
        assert wanted in doubts[0].sentence


@pytest.mark.parametrize(
    ("typed", "slip"),
    [
        ("0.9949", "two adjacent digits swapped"),
        ("0.8994", "a tenth of an inch wrong"),
        ("1.9994", "the wrong whole inch"),
        ("9.994", "the decimal point misplaced"),
        ("25.3848", "millimetres written as inches"),
    ],
)
def test_each_usual_slip_is_named(typed: str, slip: str) -> None:
    doubts = weigh(job(pins(pin_4_boss_end_90=typed)), nothing_known).doubts
    assert [(doubt.reading.typed, doubt.slip) for doubt in doubts] == [(typed, slip)]
    assert doubts[0].likely is not None
    assert doubts[0].likely / INCH == pytest.approx(0.9994, abs=0.0006)


def test_5_218_among_5_128s() -> None:
    lines = [
        row(
            "cylinder",
            "cyl 1",
            "bore diameter",
            reading,
            station=str(level),
            direction_deg=direction,
            instrument="telescoping_gauge",
        )
        for level, pair in enumerate((("5.128", "5.130"), ("5.128", "5.129"), ("5.218", "5.128"), ("5.127", "5.128")))
        for direction, reading in zip(("0", "90"), pair, strict=True)
    ]
    doubts = weigh(job(lines), nothing_known).doubts
    assert [(doubt.reading.typed, doubt.slip) for doubt in doubts] == [("5.218", "two adjacent digits swapped")]
    assert doubts[0].likely == pytest.approx(5.128 * INCH)


def test_a_probable_slip_is_not_averaged_in_and_the_budget_says_so() -> None:
    weighed = weigh(job(pins()), nothing_known)
    spot = next(
        each
        for key, spots in weighed.estimates.items()
        for each in spots
        if key.item == "pin 4" and each.place.station == "boss end" and each.place.direction == 90.0
    )
    assert spot.value / INCH == pytest.approx(0.9994, abs=0.00002)
    assert spot.readings == ("row-20",)
    assert "doubtful reading" in [name for name, _, _ in spot.budget]


def test_what_a_person_stood_by_is_used_as_it_is() -> None:
    lines = pins()
    lines[19]["confirmed"] = "yes"
    weighed = weigh(job(lines), nothing_known)
    assert weighed.doubts == ()
    values = [each.value / INCH for key, spots in weighed.estimates.items() if key.item == "pin 4" for each in spots]
    assert min(values) == pytest.approx(0.9744, abs=0.0001)


def test_a_reading_is_kept_as_typed() -> None:
    snapshot = job(pins())
    weigh(snapshot, nothing_known)
    assert snapshot.readings[19].typed == "0.9744"
    assert snapshot.readings[19].understood.value == pytest.approx(0.9744 * INCH)


def test_a_reground_pin_among_others_is_not_a_slip() -> None:
    """One crankpin ground .030 under reads so at every spot: that is a repair, not a slip of the hand."""
    lines = [
        row(
            "crankpin", f"crankpin {number}", "journal diameter", f"{size - wear:.4f}", station=station, direction_deg=direction
        )
        for number, size in enumerate((1.5, 1.5, 1.47, 1.5), start=1)
        for station in ("A", "B")
        for direction, wear in (("0", 0.0012), ("90", 0.0005))
    ]
    assert weigh(job(lines), nothing_known).doubts == ()


def test_a_badly_worn_bore_is_not_a_slip() -> None:
    """Wear of .020 in at the top of the travel, falling away below, across more than along: the usual shape."""
    lines = [
        row("cylinder", f"cyl {cylinder}", "bore diameter", f"{5 + worst * share * oval:.4f}", station=str(level),
            direction_deg=direction, instrument="dial_bore_gauge")
        for cylinder, worst in enumerate((0.020, 0.006, 0.012), start=1)
        for level, share in enumerate((1.0, 0.55, 0.3, 0.15, 0.0))
        for direction, oval in (("0", 0.6), ("45", 0.8), ("90", 1.0), ("135", 0.8))
    ]  # fmt: skip
    assert weigh(job(lines), nothing_known).doubts == ()


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(-3, 3), min_size=24, max_size=24))
def test_honest_scatter_of_a_gauge_is_never_doubted(tenths: list[int]) -> None:
    """A micrometer repeats to about .0002 in (Pagé, *Aviation Engines*, 1917, ch. XI): scatter of three tenths is honest."""
    lines = [
        row("pin", f"pin {number // 6}", "diameter", f"{1 + step * 1e-4:.4f}", station=SPOTS[number % 6][0],
            direction_deg=SPOTS[number % 6][1])
        for number, step in enumerate(tenths)
    ]  # fmt: skip
    assert weigh(job(lines), nothing_known).doubts == ()


def test_what_may_have_been_meant_holds_the_truth_of_each_slip() -> None:
    said = {
        (meant.slip, round(meant.size / INCH, 4))
        for meant in meanings(job([row("pin", "pin 1", "diameter", "1.6470")]).readings[0])
    }
    assert ("one turn of the thimble", 1.6220) in said
    assert ("two adjacent digits swapped", 1.6740) in said
    assert ("two adjacent digits swapped", 6.1470) in said
