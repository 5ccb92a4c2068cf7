"""Growth with temperature against published coefficients and sums."""

from __future__ import annotations

import pytest

from gudgeon.handbook import material
from gudgeon.mechanics.rings import hot_gap
from gudgeon.mechanics.thermal import clearance_change, growth, rise_for_growth

IN = 0.0254
PER_F = 1.8
"""kelvin coefficients from Fahrenheit ones, and Fahrenheit differences to kelvin by division"""


# Callister, Fundamentals of Materials Science and Engineering, App. B Table B.6 [1e-6/K]
@pytest.mark.parametrize(
    ("name", "expansion"),
    [
        ("grey cast iron", 11.4),
        ("steel 1020", 11.7),
        ("steel 1040", 11.3),
        ("4140", 12.3),
        ("ductile iron", 11.2),
        ("6061", 23.6),
        ("356", 21.5),
        ("C93200", 18.0),
        ("C36000", 20.5),
        ("tin", 23.8),
        ("lead", 29.3),
        ("babbitt", 21.0),  # makeitfrom.com, grade 2 tin-base babbitt
    ],
)
def test_coefficients(name, expansion):
    assert material(name).expansion * 1e6 == pytest.approx(expansion)


def test_the_spread_of_cast_iron_covers_the_other_tables():
    # other tables print 10.8e-6/K for grey cast iron
    iron = material("cast iron")
    assert abs(iron.expansion - 10.8e-6) <= 2 * iron.expansion_uncertainty


# First principles with Callister's Fahrenheit values: 4 in, 300 F: iron .00756, cast aluminium 356 .01428, apart .0067 in
def test_piston_and_bore():
    rise = 300 / PER_F
    iron = growth(length=4 * IN, expansion=6.3e-6 * PER_F, rise=rise)
    aluminium = growth(length=4 * IN, expansion=11.9e-6 * PER_F, rise=rise)
    assert iron / IN == pytest.approx(0.00756, abs=5e-6)
    assert aluminium / IN == pytest.approx(0.01428, abs=5e-6)
    closed = clearance_change(
        diameter=4 * IN, expansion_hole=6.3e-6 * PER_F, rise_hole=rise, expansion_shaft=11.9e-6 * PER_F, rise_shaft=rise
    )
    assert closed / IN == pytest.approx(-0.0067, abs=5e-5)


# Shrink fits: 50 mm H7/s6, .059 + .050 mm: 186.3 K for steel, 191.2 K for cast iron; 2 in FN2 .0027 + .002: 361.5 F
def test_heat_for_a_shrink_fit():
    assert rise_for_growth(growth=0.109e-3, length=0.050, expansion=11.7e-6) == pytest.approx(186.3, abs=0.05)
    assert rise_for_growth(growth=0.109e-3, length=0.050, expansion=11.4e-6) == pytest.approx(191.2, abs=0.05)
    inch = rise_for_growth(growth=0.0047 * IN, length=2 * IN, expansion=6.5e-6 * PER_F)
    assert inch * PER_F == pytest.approx(361.5, abs=0.05)


# Ring 200 F hotter than a 3.875 in bore, 6.3e-6/F: the gap closes .0153 in, .0040 per inch: why the rule is .003 to .004
def test_gap_closes_when_the_ring_is_hot():
    left = hot_gap(
        cold_gap=0.0,
        bore=3.875 * IN,
        expansion_ring=6.3e-6 * PER_F,
        rise_ring=200 / PER_F,
        expansion_bore=6.3e-6 * PER_F,
        rise_bore=0.0,
    )
    assert left / IN == pytest.approx(-0.0153, abs=5e-5)
    assert left / (3.875 * IN) == pytest.approx(-0.0040, abs=5e-5)
