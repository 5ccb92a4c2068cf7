"""Diameters of a bore: definitions on simple shapes, and the clean-up size against a drawn-out cut."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics.bores import clean_up_diameter, displacement, following_shift, out_of_round, ridge, taper


def test_a_true_bore_has_nothing_to_show():
    diameters = np.full((4, 2), 0.1)
    assert np.all(out_of_round(diameters=diameters) == 0)
    assert np.all(taper(diameters=diameters, axis=0) == 0)


def test_definitions_of_the_trade():
    # levels x directions; FAA handbook: out-of-round at one level, taper along one line
    diameters = np.array([[3.881, 3.884], [3.879, 3.880], [3.876, 3.876]])
    assert out_of_round(diameters=diameters) == pytest.approx([0.003, 0.001, 0.0])
    assert taper(diameters=diameters, axis=0) == pytest.approx([0.005, 0.008])


def test_a_direction_that_was_not_read():
    assert out_of_round(diameters=np.array([3.881, np.nan, 3.884])) == pytest.approx(0.003)
    assert np.isnan(out_of_round(diameters=np.array([3.881, np.nan])))


def test_ridge_is_on_the_radius():
    assert ridge(at_ring_reversal=3.884, above=3.876) == pytest.approx(0.004)


def test_displacement_of_a_known_engine():
    # Ford A: 3.875 x 4.250 in, four cylinders, 200.5 cubic inch (motormayhem.net)
    assert 4 * displacement(bore=3.875, stroke=4.250) == pytest.approx(200.5, abs=0.05)


def walls(worn: float, original: float, share: float, scratch: float) -> np.ndarray:
    """Everything the bar must reach, as distances right and left of the original centre."""
    wear = worn - original
    return np.array([original / 2 + share * wear + scratch, -(original / 2 + (1 - share) * wear), original / 2, -original / 2])


@given(st.floats(0.0, 0.002), st.floats(0.5, 1.0), st.floats(0.0, 5e-4), st.floats(-5e-4, 5e-4))
def test_the_cut_reaches_every_wall_and_no_smaller_one_does(wear, share, scratch, shift):
    original = 0.1
    worn = original + wear
    diameter = clean_up_diameter(worn=worn, original=original, one_sided=share, scratch_depth=scratch, shift=shift)
    reach = np.abs(walls(worn, original, share, scratch) - shift)
    assert diameter / 2 == pytest.approx(reach.max(), abs=1e-15)


def test_following_the_wear_takes_least():
    case = {"worn": 0.102, "original": 0.1, "one_sided": 0.8, "scratch_depth": 1e-4}
    shift = following_shift(**case)
    shifts = np.linspace(-1e-3, 2e-3, 3001)
    tried = clean_up_diameter(**case, shift=shifts)
    assert clean_up_diameter(**case, shift=shift) <= tried.min() + 1e-12
    assert clean_up_diameter(**case, shift=shift) < clean_up_diameter(**case)


def test_keeping_the_centre_of_one_sided_wear_costs_twice_the_wear():
    # all wear on one wall: the bar about the old centre must reach it, and takes as much from the other side (geometry)
    assert clean_up_diameter(worn=0.101, original=0.1, one_sided=1.0) == pytest.approx(0.102)
    assert clean_up_diameter(worn=0.101, original=0.1, one_sided=0.5, allowance=1e-4) == pytest.approx(0.1011)
