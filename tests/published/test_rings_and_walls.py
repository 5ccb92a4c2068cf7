"""Rings, walls and lobes against published figures."""

from __future__ import annotations

import numpy as np
import pytest

from gudgeon.mechanics.circles import minimum_zone_circle
from gudgeon.mechanics.rings import gap_change, radial_pressure, stress_closed
from gudgeon.mechanics.threepoint import two_point_factor, vee_block_factor
from gudgeon.mechanics.walls import minimum_wall

PSI = 6894.757293168361
IN = 0.0254


def test_gap_by_the_army_and_by_the_circle():
    # TM 5-3805-261-34: the gap grows .003 for each .001 of bore diameter; the exact factor is pi
    grown = gap_change(bore_change=0.001 * IN) / IN
    assert round(grown, 3) == 0.003
    assert grown == pytest.approx(0.0031416, abs=5e-8)
    # a .010 larger spot opens the gap by .031 (plane geometry)
    assert gap_change(bore_change=0.010 * IN) / IN == pytest.approx(0.031, abs=5e-4)


# Thin curved beam, 0.1415 E G t^3 / (D - t)^4: D 4, t .16, G .5 in, E 14e6 psi: 18.66 psi
def test_wall_pressure_from_the_free_gap():
    pressure = radial_pressure(bore=4 * IN, thickness=0.16 * IN, free_gap=0.5 * IN, modulus=14e6 * PSI)
    assert pressure / PSI == pytest.approx(18.66, abs=0.01)


def test_stress_of_the_closed_ring():
    # textbook 0.4244 E G t / (D - t)^2 (from memory) with the same ring
    expected = 0.4244 * 14e6 * 0.5 * 0.16 / (4 - 0.16) ** 2
    stress = stress_closed(bore=4 * IN, thickness=0.16 * IN, free_gap=0.5 * IN, modulus=14e6 * PSI)
    assert stress / PSI == pytest.approx(expected, rel=1e-4)


# scribd.com 310238550, Design of IC engine cylinder: p 3 MPa, D 100 mm, sigma 40 MPa, C 2.4 mm: t 6.15 mm
def test_cylinder_wall():
    assert minimum_wall(pressure=3e6, bore=0.100, stress=40e6, allowance=2.4e-3) == pytest.approx(6.15e-3)


def test_three_lobes_are_invisible_to_two_points():
    # exact: r = 50 + .005 cos 3t has diameter 100.0000 in every direction, and a zone of .010
    angle = np.arange(12) * np.pi / 6
    radius = 50 + 0.005 * np.cos(3 * angle)
    assert radius[:6] + radius[6:] == pytest.approx(np.full(6, 100.0), abs=1e-12)
    zone = minimum_zone_circle(x=radius * np.cos(angle), y=radius * np.sin(angle))
    assert zone.out_of_roundness == pytest.approx(0.010, abs=1e-9)
    assert two_point_factor(lobes=3) == pytest.approx(0, abs=1e-12)


# Known V-block factors (from memory, BS 3730 and metrology texts): 60 degree: 3 lobes x3; 90 degree: 3 and 5 x2, 7 blind
@pytest.mark.parametrize(("angle", "lobes", "factor"), [(60, 3, 3), (90, 3, 2), (90, 5, 2), (90, 7, 0), (90, 2, 1), (60, 5, 0)])
def test_vee_block(angle, lobes, factor):
    assert vee_block_factor(lobes=lobes, angle=np.radians(angle)) == pytest.approx(factor, abs=1e-12)
