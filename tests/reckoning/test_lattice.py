"""The sizes a drawing may have called for: nothing is impossible, coarse fractions are likelier, oddities have room."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.handbook.sizes import sizes
from gudgeon.reckoning.lattice import INCH, lattice


def weight(family: str, inch: float) -> float:
    found = lattice(family, int(inch * 1000) - 20, int(inch * 1000) + 20)
    near = np.abs(found.sizes / INCH - inch) < 1e-6
    return float(found.weights[near].sum())


@given(st.integers(200, 9000))
def test_every_half_thousandth_is_possible(half_thou: int) -> None:
    assert weight("bore", half_thou / 2000) > 0


def test_weights_add_up_to_one() -> None:
    found = lattice("journal", 1400, 1600)
    assert found.weights.sum() == pytest.approx(1.0)
    assert np.all(np.diff(found.sizes) > 0)


def test_coarse_fractions_are_likelier() -> None:
    whole, quarter, eighth, thirty_second = (weight("bore", size) for size in (4.0, 4.25, 4.125, 4.15625))
    assert whole > quarter > eighth > thirty_second


@pytest.mark.parametrize(("family", "inch"), [("bore", 3.876), ("journal", 1.499), ("journal", 1.624), ("stem", 0.311)])
def test_the_prior_leaves_room_for_a_few_thousandths_off_the_fraction(family: str, inch: float) -> None:
    """Ford Service Bulletin, clearances of Model A engines: bore 3.876, main 1.624, crankpin 1.499, stem .311."""
    assert weight(family, inch) > 3 * weight(family, inch + 0.0275)


def test_sizes_of_the_handbook_are_all_there() -> None:
    found = lattice("bore", 3800, 3900)
    for size in sizes("bore", low=3.81 * INCH, high=3.89 * INCH):
        assert np.min(np.abs(found.sizes - size.nominal)) < 1e-9
