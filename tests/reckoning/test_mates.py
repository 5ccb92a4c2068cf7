"""What a hole says of its shaft, siblings of other names, the maker's habits and the plate."""

from __future__ import annotations

import numpy as np
import pytest

from gudgeon.reckoning.lattice import INCH, lattice
from gudgeon.reckoning.mates import FITS, allowances, clearance_curve, for_plate

THOU = 1e-3 * INCH


@pytest.mark.parametrize(
    ("pair", "size", "usual", "odd"),
    [
        # TRADE practice: stems .002 to .003 loose (McQuay-Norris tables); a stem .015 loose or larger than its guide is none
        (("guide", "stem"), 0.3125, 0.0025, 0.015),
        (("guide", "stem"), 0.3125, 0.0025, -0.001),
        # skirt about .001 per inch (Pagé, Aviation Engines, 1917, ch. XI)
        (("bore", "piston"), 5.0, 0.005, 0.05),
        (("bore", "piston"), 5.0, 0.005, -0.002),
    ],
)
def test_usual_clearances_are_likelier_than_odd_ones(pair: tuple[str, str], size: float, usual: float, odd: float) -> None:
    curve = clearance_curve(np.array([usual, odd]) * INCH, size=size * INCH, habit=FITS[pair])
    assert curve[0] > 4 * curve[1]
    assert curve[1] > 0


def test_the_published_fits_of_a_known_engine_are_usual_ones() -> None:
    """Ford Service Bulletin, Model A: piston 3.8745 in bore 3.876, exhaust stem .002 in its guide, pin .0003 in its bush."""
    for pair, size, clearance in (
        (("bore", "piston"), 3.876, 0.0015),
        (("guide", "stem"), 0.313, 0.002),
        (("bush", "pin"), 1.0, 0.0003),
    ):
        habit = FITS[pair]
        found = clearance_curve(np.array([clearance, 0.02]) * INCH, size=size * INCH, habit=habit)
        assert found[0] > 3 * found[1], pair


def test_allowances_are_counted_from_the_coarsest_fraction_near() -> None:
    found = allowances(np.array([1.5, 1.499, 1.6235, 1.46875, 1.4550]) * INCH)
    assert found[:4].tolist() == [0.0, -2.0, -3.0, 0.0]  # half thousandths
    assert np.isnan(found[4])


def test_a_plate_pulls_but_does_not_decide() -> None:
    sizes = lattice("bore", 4900, 5300)
    factor = for_plate(sizes, 5 * INCH)
    at = {inch: float(factor[np.argmin(np.abs(sizes.sizes - inch * INCH))]) for inch in (5.0, 5.001, 5.25)}
    assert at[5.0] > at[5.001] > at[5.25] > 0
    assert at[5.0] / at[5.25] < 30
