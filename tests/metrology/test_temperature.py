"""Sizes brought to 20 degree C."""

from __future__ import annotations

import pytest

from gudgeon.metrology.temperature import expansion, to_reference
from tests.metrology.rows import INCH


def test_steel_read_with_steel_needs_no_correction() -> None:
    assert to_reference(2 * INCH, made_of="steel", celsius=4.4).value == 0.0


def test_aluminium_read_warm_is_corrected_by_the_difference_of_expansions() -> None:
    """Callister, *Materials Science and Engineering*, appendix B: aluminium 356 21.5e-6, steel 1020 11.7e-6 per K. A 4 in
    piston at 30 degree C then reads 4 x 9.8e-6 x 10 = .00039 in too large for a steel gauge as warm as it is."""
    correction = to_reference(4 * INCH, made_of="aluminium", celsius=30.0)
    assert correction.value / INCH == pytest.approx(-0.00039, abs=0.00005)


def test_the_correction_changes_sign_with_the_temperature() -> None:
    warm, cold = (to_reference(0.1, made_of="bronze", celsius=celsius).value for celsius in (30.0, 10.0))
    assert warm == pytest.approx(-cold)
    assert warm < 0 < cold


def test_at_20_degree_nothing_is_corrected_and_the_doubt_is_whether_part_and_gauge_were_alike() -> None:
    correction = to_reference(0.1, made_of="grey cast iron", celsius=20.0)
    assert correction.value == 0.0
    assert correction.uncertainty == pytest.approx(0.1 * expansion("grey cast iron")[0] * 1.0, rel=1e-3)


def test_an_unstated_temperature_widens() -> None:
    known, unknown = (to_reference(0.1, made_of="aluminium", celsius=celsius) for celsius in (20.0, None))
    assert unknown.uncertainty > 1.5 * known.uncertainty
    assert known.stated
    assert not unknown.stated


def test_an_unknown_material_is_taken_as_iron_or_steel_with_a_wide_doubt() -> None:
    assert expansion("unobtainium")[0] == pytest.approx(11.5e-6)
    assert expansion("unobtainium")[1] > 2 * expansion("steel")[1]
