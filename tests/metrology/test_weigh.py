"""Estimates of spots: pooling, offsets kept apart, budgets, stages, and taking over unchanged work."""

from __future__ import annotations

import math

import pytest

from gudgeon.engine.fold import Fold
from gudgeon.engine.place import FeatureKey
from gudgeon.metrology.weigh import Weighed, weigh
from tests.metrology.rows import INCH, THOU, job, nothing_known, row, standard

BORE = FeatureKey("cylinder", "cyl 1", "bore diameter")


def weighed(*lines: dict[str, str]) -> Weighed:
    return weigh(job(lines), nothing_known)


def bore(reading: str, **more: str) -> dict[str, str]:
    return row("cylinder", "cyl 1", "bore diameter", reading, **{"instrument": "dial_bore_gauge", **more})


def test_one_spot_one_estimate_from_all_its_repeats() -> None:
    spots = weighed(bore("3.8750"), bore("3.8754"), bore("3.8752"), bore("3.8790", direction_deg="90")).estimates[BORE]
    assert [each.value / INCH for each in spots] == pytest.approx([3.8752, 3.8790], abs=2e-5)
    assert spots[0].readings == ("row-1", "row-2", "row-3")
    assert spots[0].own < spots[1].own


def test_the_uncertainty_is_the_root_of_the_squares_of_its_budget() -> None:
    """JCGM 100:2008, 5.1.2, for a sum of independent parts."""
    spot = weighed(bore("3.8750"), bore("3.8754")).estimates[BORE][0]
    assert spot.uncertainty == pytest.approx(math.sqrt(math.fsum(part**2 for _, part, _ in spot.budget)), rel=1e-9)
    assert spot.uncertainty == pytest.approx(math.hypot(spot.own, spot.shared), rel=1e-9)


def test_the_interval_is_a_coverage_interval_of_90_in_100() -> None:
    """For many degrees of freedom the half width is 1.645 u (normal table)."""
    spot = weighed(bore("3.8750")).estimates[BORE][0]
    assert spot.freedom > 30
    assert (spot.high - spot.low) / 2 / spot.uncertainty == pytest.approx(1.645, abs=0.06)


def test_a_check_on_a_standard_narrows_the_shared_part_only() -> None:
    plain = weighed(bore("3.8750")).estimates[BORE][0]
    checked = weighed(*standard("4.0000", ["4.0001", "4.0000", "4.0001"], instrument="dial_bore_gauge"), bore("3.8750"))
    spot = checked.estimates[BORE][0]
    assert spot.shared < 0.5 * plain.shared
    assert spot.own == pytest.approx(plain.own, rel=0.2)
    assert (spot.gauge, plain.gauge) == ("dial_bore_gauge", "dial_bore_gauge")


def test_feelers_bracket_and_the_middle_is_taken() -> None:
    spots = weighed(row("ring", "cyl 1 top ring", "end gap", "go .010 no-go .012", instrument="feeler")).estimates
    spot = spots[FeatureKey("ring", "cyl 1 top ring", "end gap")][0]
    assert spot.interval
    assert spot.value == pytest.approx(0.011 * INCH)
    assert spot.own >= 2 * THOU / math.sqrt(12)


def test_what_was_not_taken_is_no_estimate() -> None:
    assert weighed(bore("not reached"), bore("3.8750", direction_deg="90")).estimates[BORE][0].readings == ("row-2",)


def test_a_job_without_readings_has_no_estimates() -> None:
    empty = weighed()
    assert dict(empty.estimates) == {}
    assert empty.doubts == ()


def test_two_gauges_at_one_spot_are_each_corrected_by_their_own_offset() -> None:
    lines = [
        *standard("4.0000", ["4.0010", "4.0010", "4.0010"], instrument="telescoping_gauge"),
        *standard("4.0000", ["3.9995", "3.9995", "3.9995"], instrument="dial_bore_gauge"),
        bore("3.8760", instrument="telescoping_gauge"),
        bore("3.8745"),
    ]
    spot = weighed(*lines).estimates[BORE][0]
    assert spot.value / INCH == pytest.approx(3.8750, abs=3e-5)
    assert spot.gauge == "dial_bore_gauge"


def test_inches_and_millimetres_of_one_size_agree() -> None:
    inch = weighed(bore("3.8750")).estimates[BORE][0]
    metric = weighed(bore("98.425", unit="mm")).estimates[BORE][0]
    assert inch.value == pytest.approx(metric.value, abs=1e-9)


def test_what_came_back_from_a_shop_is_kept_apart() -> None:
    both = weighed(bore("3.8800"), bore("3.9050", stage="returned"))
    assert both.estimates[BORE][0].value == pytest.approx(3.8800 * INCH, abs=1e-6)
    assert both.returned[BORE][0].value == pytest.approx(3.9050 * INCH, abs=1e-6)


def test_unchanged_sorts_are_taken_over() -> None:
    pins = [row("pin", f"pin {n}", "diameter", "1.0000") for n in range(1, 5)]
    before = weigh(job([bore("3.8750"), *pins]), nothing_known)
    fold = job([bore("3.8750"), *pins, bore("3.8790", direction_deg="90")])
    after = weigh(fold, nothing_known, before=before)
    pin = FeatureKey("pin", "pin 1", "diameter")
    assert after.estimates[pin] is before.estimates[pin]
    assert len(after.estimates[BORE]) == 2
    assert dict(after.estimates) == dict(weigh(fold, nothing_known).estimates)


def test_the_same_readings_weigh_the_same_every_time() -> None:
    lines = [bore("3.8750"), bore("3.8790", direction_deg="90")]
    assert dict(weighed(*lines).estimates) == dict(weighed(*lines).estimates)
    assert Fold().snapshot().readings == ()
