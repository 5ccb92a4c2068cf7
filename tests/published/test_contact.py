"""Hertz contacts against published formulas, worked and computed apart from the project."""

from __future__ import annotations

import math

import numpy as np
import pytest

from gudgeon.mechanics import contact

PSI = 6894.757293168361
STEEL = {"modulus_1": 207e9, "poisson_1": 0.292, "modulus_2": 207e9, "poisson_2": 0.292}


# Formula of issuhub.com 4432 p. 315 (two cylinders), worked apart: roller 25 mm on a flat, 1000 N, 10 mm, E 207 GPa, v .292:
# b .11860 mm, pmax 536.8 MPa, shear 161 MPa at .0932 mm. Mechanical Engineer's Data Handbook p. 52 gives the same by
# w = sqrt(32 F (1 - v2) r / (pi L E)) = .2372 mm and 4F / (pi w L).
def test_roller_on_a_flat() -> None:
    given = {"force": 1000.0, "length": 0.010, "radius_1": 0.0125, "radius_2": np.inf, **STEEL}
    half = contact.line_half_width(**given)
    pressure = contact.line_pressure(**given)
    assert half * 1e3 == pytest.approx(0.11860, abs=5e-6)
    assert pressure / 1e6 == pytest.approx(536.8, abs=0.05)
    assert contact.line_shear(pressure=pressure) / 1e6 == pytest.approx(161, abs=0.5)
    assert contact.line_shear_depth(half_width=half) * 1e3 == pytest.approx(0.0932, abs=5e-5)
    handbook = math.sqrt(32 * 1000 * (1 - 0.292**2) * 0.0125 / (math.pi * 0.010 * 207e9))
    assert 2 * half == pytest.approx(handbook, rel=1e-12)


# The same sources: cam nose of 10 mm radius under a roller of 20 mm diameter, 1500 N, 10 mm: b .0919 mm, pmax 1039 MPa
def test_cam_nose_under_a_roller() -> None:
    given = {"force": 1500.0, "length": 0.010, "radius_1": 0.010, "radius_2": 0.010, **STEEL}
    assert contact.line_half_width(**given) * 1e3 == pytest.approx(0.0919, abs=5e-5)
    assert contact.line_pressure(**given) / 1e6 == pytest.approx(1039, abs=0.5)


# K. L. Johnson, Contact Mechanics, eq. 4.24: p0 = (6 P E*^2 / pi^3 R^2)^(1/3) — a form the project does not use
def test_ball_on_a_flat_by_johnsons_form() -> None:
    given = {"force": 50.0, "radius_1": 0.006, "radius_2": np.inf, **STEEL}
    effective = 207e9 / (2 * (1 - 0.292**2))
    johnson = (6 * 50.0 * effective**2 / (math.pi**3 * 0.006**2)) ** (1 / 3)
    assert contact.point_pressure(**given) == pytest.approx(johnson, rel=1e-12)
    assert contact.point_radius(**given) == pytest.approx((3 * 50.0 * 0.006 / (4 * effective)) ** (1 / 3), rel=1e-12)


# Hertz's law of powers (NPTEL, contact mechanics, lectures 8.5, 8.6): line as the square root of load, point as the cube
def test_pressure_goes_as_the_root_of_the_load() -> None:
    line = contact.line_pressure(force=np.array([100.0, 400.0]), length=0.01, radius_1=0.01, radius_2=0.02, **STEEL)
    point = contact.point_pressure(force=np.array([100.0, 800.0]), radius_1=0.01, radius_2=0.02, **STEEL)
    assert line[1] / line[0] == pytest.approx(2.0)
    assert point[1] / point[0] == pytest.approx(2.0)


def test_the_pressure_carries_the_load() -> None:
    # The half ellipse of pressure over the strip must add up to the force: equilibrium.
    given = {"length": 0.015, "radius_1": 0.009, "radius_2": 0.02, **STEEL}
    half = contact.line_half_width(force=700.0, **given)
    pressure = contact.line_pressure(force=700.0, **given)
    x = np.linspace(-half, half, 20001)
    carried = np.trapezoid(pressure * np.sqrt(np.maximum(1 - (x / half) ** 2, 0)), x) * 0.015
    assert carried == pytest.approx(700.0, rel=1e-4)
    assert contact.line_force(pressure=pressure, **given) == pytest.approx(700.0, rel=1e-12)


def test_bodies_that_do_not_meet_in_a_line_have_no_answer() -> None:
    assert math.isnan(contact.line_pressure(force=10.0, length=0.01, radius_1=0.02, radius_2=-0.01, **STEEL))
    hollow = contact.line_pressure(force=10.0, length=0.01, radius_1=0.01, radius_2=-0.02, **STEEL)
    flat = contact.line_pressure(force=10.0, length=0.01, radius_1=0.01, radius_2=np.inf, **STEEL)
    assert hollow < flat


# Shigley 6-16: 0.4 HB - 10 kpsi, the same rule in inch units (from memory); 200 HB gives 70 kpsi
def test_contact_strength_of_steel_by_its_hardness() -> None:
    assert contact.steel_contact_strength(hardness=200.0) / (1000 * PSI) == pytest.approx(0.4 * 200 - 10, abs=0.5)
