"""Gauges: pooled repeats, rounding, and offsets from setting standards."""

from __future__ import annotations

import math
import statistics

import pytest

from gudgeon.metrology.gauges import (
    PRIOR_FREEDOM,
    STANDARD_MAKE,
    certified_size,
    is_standard,
    kind_of,
    repeatability,
    rounding,
)
from gudgeon.metrology.weigh import weigh
from tests.metrology.rows import INCH, job, nothing_known, row, standard


def test_many_repeats_speak_for_themselves() -> None:
    """Pooled variance of groups with one variance: sum (n - 1) s^2 / sum (n - 1) (JCGM 100:2008, 4.2.4)."""
    groups = [[1.0, 3.0], [10.0, 12.0, 14.0]] * 200
    squares = math.fsum((len(group) - 1) * statistics.variance(group) for group in groups)
    freedom = sum(len(group) - 1 for group in groups)
    pooled, known = repeatability(squares, freedom, default=1.0)
    assert pooled == pytest.approx(math.sqrt(squares / freedom), rel=0.05)
    assert known == pytest.approx(freedom + PRIOR_FREEDOM, rel=0.05)


def test_without_repeats_the_kind_speaks() -> None:
    assert repeatability(0.0, 0.0, default=0.0002) == (0.0002, PRIOR_FREEDOM)


def test_rounding_leaves_a_step_over_root_twelve() -> None:
    """JCGM 100:2008, F.2.2.1: a digital step dx gives u = 0.29 dx."""
    assert rounding(resolution=1.0, repeat=0.0, count=10) == pytest.approx(0.29, abs=0.005)


def test_rounding_averages_away_only_where_readings_scatter() -> None:
    assert rounding(resolution=1.0, repeat=0.1, count=9) == rounding(resolution=1.0, repeat=0.1, count=1)
    assert rounding(resolution=1.0, repeat=2.0, count=9) == pytest.approx(rounding(resolution=1.0, repeat=2.0, count=1) / 3)


@pytest.mark.parametrize(
    ("line", "size"),
    [
        (standard("3.0000", ["2.9992"], instrument="dial_bore_gauge")[0], 3 * INCH),
        (row("setting_standard", "standard 2.0000 in", "size", "1.9998"), 2 * INCH),
        (row("setting_standard", "ring 76.200 mm", "size", "76.19", unit="mm"), 3 * INCH),
        (row("setting_standard", "the old ring", "size", "1.9998", note="certified 50.800 mm at 20 C"), 2 * INCH),
    ],
)
def test_the_size_of_a_standard_is_read_from_its_note_or_name(line: dict[str, str], size: float) -> None:
    reading = job([line]).readings[0]
    assert is_standard(reading)
    assert certified_size(reading) == pytest.approx(size, rel=1e-12)


def test_a_standard_whose_size_nobody_wrote_down_says_nothing() -> None:
    assert certified_size(job([row("setting_standard", "the old ring", "size", "1.9998")]).readings[0]) is None


def test_the_offset_is_what_the_gauge_shows_too_much() -> None:
    """2.9992, 2.9994, 2.9994 on a standard of 3.0000: mean deviation -.00067 (arithmetic)."""
    lines = standard("3.0000", ["2.9992", "2.9994", "2.9994"], instrument="dial_bore_gauge")
    offset = weigh(
        job([*lines, row("cylinder", "cyl 1", "bore diameter", "3.8750", instrument="dial_bore_gauge")]), nothing_known
    )
    gauge = offset.gauges["dial_bore_gauge"]
    assert gauge.value / INCH == pytest.approx(-0.002 / 3, abs=1e-9)
    assert gauge.standards == ("standard 3.0000 in",)
    assert STANDARD_MAKE < gauge.uncertainty < 0.0003 * INCH
    bore = next(iter(offset.estimates.values()))[0]
    assert bore.value / INCH == pytest.approx(3.8750 + 0.002 / 3, abs=5e-6)


def test_different_gauges_have_different_offsets() -> None:
    lines = [
        *standard("2.0000", ["2.0010", "2.0010"], instrument="outside_mic"),
        *standard("2.0000", ["1.9990", "1.9990"], instrument="vernier"),
    ]
    gauges = weigh(job(lines), nothing_known).gauges
    assert gauges["outside_mic"].value / INCH == pytest.approx(0.001, abs=1e-9)
    assert gauges["vernier"].value / INCH == pytest.approx(-0.001, abs=1e-9)


def test_an_unchecked_gauge_has_the_doubt_of_its_kind_and_says_so() -> None:
    weighed = weigh(job([row("pin", "pin 1", "diameter", "1.0000", instrument="vernier")]), nothing_known)
    gauge = weighed.gauges["vernier"]
    kind = kind_of("vernier", dimension="length", resolution=None)
    assert (gauge.value, gauge.uncertainty) == (0.0, kind.offset)
    assert "not checked on a setting standard" in gauge.sentence


def test_an_unknown_gauge_is_taken_wide_and_said() -> None:
    weighed = weigh(job([row("pin", "pin 1", "diameter", "1.000", instrument="uncle's calibre")]), nothing_known)
    gauge = weighed.gauges["uncle's calibre"]
    assert gauge.uncertainty >= 0.002 * INCH
    assert any("uncle's calibre" in remark and "wide allowance" in remark for remark in weighed.remarks)
