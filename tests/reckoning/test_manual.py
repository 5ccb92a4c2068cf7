"""The reconstructed manual, and bad input: wide or empty answers that say why, never a confident wrong one."""

from __future__ import annotations

import numpy as np
import pytest

from gudgeon.engine.outline import Outline
from tests.metrology.rows import standard
from tests.reckoning.manuals import INCH, bore_rows, line_of, manual, row


def width(specification: object) -> float:
    return (specification.high - specification.low) / INCH  # type: ignore[attr-defined]


GOOD = [line for number in (1, 2, 3) for line in bore_rows(number, "5.1252", "5.1310", "5.1280", "5.1262")]


def test_three_good_bores_tell_their_nominal() -> None:
    line = line_of(manual(GOOD), "cylinder", "cyl 1", "bore diameter")
    assert line.nominal == pytest.approx(5.125 * INCH)
    assert line.written == "5 1/8"
    assert line.rework == ""
    assert line.probability > 0.7
    assert line.origin.grade == "B"
    assert line.low is not None
    assert line.high is not None
    assert line.low < 5.1250 * INCH < line.high


def test_no_readings_no_lines() -> None:
    assert dict(manual([]).specifications) == {}
    assert dict(manual([row("cylinder", "cyl 1", "bore diameter", "not reached")]).specifications) == {}


def test_one_reading_is_wide_and_says_what_would_settle_it() -> None:
    line = line_of(
        manual([row("cylinder", "cyl 1", "bore diameter", "5.131", instrument="vernier")]),
        *("cylinder", "cyl 1", "bore diameter"),
    )
    assert line.probability < 0.75
    assert width(line) > 0.004
    assert "No unworn place was read" in " ".join(line.evidence)
    assert line.settle.startswith("Read it")


def test_all_from_worn_places_is_wider_and_says_so() -> None:
    worn = [line for number in (1, 2, 3) for line in bore_rows(number, "", "5.1310", "5.1280", "5.1262")]
    found = line_of(manual(worn), "cylinder", "cyl 1", "bore diameter")
    good = line_of(manual(GOOD), "cylinder", "cyl 1", "bore diameter")
    assert width(found) > 1.5 * width(good)
    assert found.probability < good.probability
    assert "No unworn place was read" in " ".join(found.evidence)
    assert found.origin.grade != "B"


def test_contradictory_readings_are_wide() -> None:
    """Two spots where nothing ran that stand .012 in apart cannot both be right, and neither is believed alone."""
    lines = [
        row("pin", "pin 1", "diameter", "1.0000", station="boss end"),
        row("pin", "pin 1", "diameter", "0.9880", station="other boss end"),
    ]
    line = line_of(manual(lines), "pin", "pin 1", "diameter")
    assert line.probability < 0.9
    assert "spots stand 0.0120 in apart: one is misread, or has worn" in line.conflict
    agreeing = line_of(manual([lines[0], {**lines[1], "reading": "0.9999"}]), "pin", "pin 1", "diameter")
    assert width(line) > 2 * width(agreeing)
    assert agreeing.conflict == ""


def test_a_plate_is_evidence_and_is_overruled_by_readings_saying_so() -> None:
    outline = Outline(name="engine", cylinders=3, bore=5 * INCH, bore_typed="5 in")
    line = line_of(manual(GOOD, outline=outline), "cylinder", "cyl 1", "bore diameter")
    assert line.nominal == pytest.approx(5.125 * INCH)
    assert "The plate or advertisement leads to 5, the readings to 5 1/8" in line.conflict


def test_a_plate_that_agrees_makes_surer() -> None:
    worn = [line for number in (1, 2) for line in bore_rows(number, "", "5.1310", "5.1280")]
    outline = Outline(name="engine", bore=5.125 * INCH, bore_typed="5 1/8")
    without, with_it = (line_of(manual(worn, outline=each), "cylinder", "cyl 1", "bore diameter") for each in (None, outline))
    assert with_it.written == "5 1/8"
    assert with_it.conflict == ""
    assert with_it.probability > without.probability


def test_bored_over_is_told_with_the_nominal_kept() -> None:
    over = [line for number in (1, 2, 3) for line in bore_rows(number, "5.1451", "5.1500")]
    line = line_of(manual(over), "cylinder", "cyl 2", "bore diameter")
    assert (line.written, line.rework) == ("5 1/8", "bored over +.020")
    assert line.low is not None
    assert line.high is not None
    assert line.low < 5.1451 * INCH < line.high


def test_a_bore_that_stands_far_from_its_like_is_taken_for_re_sized() -> None:
    lines = [*bore_rows(1, "5.1251", "5.1300"), *bore_rows(2, "5.1249", "5.1290"), *bore_rows(3, "5.1551", "5.1600")]
    line = line_of(manual(lines), "cylinder", "cyl 3", "bore diameter")
    assert line.nominal == pytest.approx(5.125 * INCH)
    assert line.rework == "bored over +.030"


def test_mates_narrow_each_other() -> None:
    """A guide read only where it is worn is told better once its stem, unworn at the keeper end, is known."""
    guide = [row("valve", f"intake {n}", "guide bore", "0.3190", station="top", instrument="telescoping_gauge") for n in (1, 2)]
    stem = [row("valve", f"intake {n}", "stem diameter", "0.3110", station="keeper end") for n in (1, 2)]
    alone = line_of(manual(guide), "valve", "intake 1", "guide bore")
    together = line_of(manual([*guide, *stem]), "valve", "intake 1", "guide bore")
    assert together.high is not None
    assert alone.high is not None
    assert together.high < alone.high - 0.0005 * INCH
    assert any("stem diameter" in sentence for sentence in together.evidence)


def test_a_checked_gauge_narrows() -> None:
    checks = standard("5.0000", ["5.0001", "5.0000", "5.0001"], instrument="dial_bore_gauge")
    plain, checked = (line_of(manual(lines), "cylinder", "cyl 1", "bore diameter") for lines in (GOOD, [*checks, *GOOD]))
    assert width(checked) < width(plain)


def test_counts_are_exact_and_two_counts_are_both_shown() -> None:
    once = line_of(manual([row("gear", "cam gear", "tooth count", "44", unit="count")]), "gear", "cam gear", "tooth count")
    assert (once.nominal, once.dimension, once.written) == (44.0, "count", "44")
    lines = [row("gear", "cam gear", "tooth count", each, unit="count") for each in ("44", "43")]
    twice = line_of(manual(lines), "gear", "cam gear", "tooth count")
    assert twice.probability < 0.5
    assert [each.written for each in twice.runners_up] == ["43"]
    assert twice.settle


def test_a_clearance_has_an_interval_and_no_nominal() -> None:
    lines = [
        row("bearing", f"rod {n}", "rod side play", reading, instrument="feeler") for n, reading in ((1, "0.015"), (2, "0.010"))
    ]
    line = line_of(manual(lines), "bearing", "rod 1", "rod side play")
    assert line.nominal is None
    assert line.low is not None
    assert line.high is not None
    assert 0 < line.low < line.high <= 0.0165 * INCH
    assert "no size on a drawing" in line.settle
    # Ford Service Bulletin, Model A: rod side play .008 to .012 in
    assert line.low < 0.010 * INCH < line.high


def test_features_that_no_system_describes_are_estimated_and_listed() -> None:
    found = manual([row("latch", "latch 1", "spindle diameter", "0.3748")])
    assert [key.feature for key in found.unknown] == ["spindle diameter"]
    line = line_of(found, "latch", "latch 1", "spindle diameter")
    assert line.nominal == pytest.approx(0.375 * INCH)
    assert any("guessed from its words" in sentence for sentence in line.evidence)


def test_probabilities_are_probabilities() -> None:
    for line in manual(GOOD).specifications.values():
        assert 0 <= line.probability <= 1
        assert all(0 <= each.probability <= 1 for each in line.runners_up)
        assert np.isfinite([line.low, line.high]).all()
