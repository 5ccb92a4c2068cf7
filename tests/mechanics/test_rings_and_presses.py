"""Rings, presses, walls, temperature: there and back, limits, and independent integrations."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad, solve_bvp

from gudgeon.mechanics.press_fit import (
    bore_closing,
    contact_pressure,
    inner_bore_stress,
    inner_hoop_stress,
    least_wall_stress_bound,
    outer_hoop_stress,
    outside_growth,
    temperature_difference,
    uneven_wall_stress,
)
from gudgeon.mechanics.rings import (
    gap_in,
    gap_over_piston,
    hot_gap,
    joint_leak_area,
    radial_pressure,
    stress_closed,
    stress_opened,
    tension,
)
from gudgeon.mechanics.thermal import at_temperature, reading_at_20, to_20
from gudgeon.mechanics.threepoint import three_leg_factor, two_point_factor, vee_block_factor
from gudgeon.mechanics.walls import hoop_stress, least_wall_elsewhere, minimum_wall, wall_left

RING = {"bore": 0.1, "thickness": 0.004, "free_gap": 0.0125, "modulus": 100e9}


def test_ring_gap_by_integrating_the_bent_arc():
    # Castigliano on the half ring under its even load: M = w R^2 (1 + cos), unit pull at the end gives R (1 + cos)
    mean = (RING["bore"] - RING["thickness"]) / 2
    section = RING["thickness"] ** 3 / 12
    pressure = radial_pressure(**RING)
    bent, _ = quad(lambda a: pressure * mean**2 * (1 + np.cos(a)) * mean * (1 + np.cos(a)) * mean, 0, np.pi)
    assert 2 * bent / (RING["modulus"] * section) == pytest.approx(RING["free_gap"], rel=1e-9)


def test_curved_bar_correction_is_small_for_a_thin_ring():
    thin, curved = radial_pressure(**RING), radial_pressure(**RING, curved=True)
    assert curved / thin == pytest.approx(1 - 0.004 / 0.1, abs=0.002)


def test_tension_balances_the_pressure_on_half_the_ring():
    pressure = 1e5
    push, _ = quad(lambda a: pressure * 0.004 * 0.05 * np.sin(a), 0, np.pi)
    assert 2 * tension(pressure=pressure, bore=0.1, width=0.004) == pytest.approx(push)


def test_stress_from_the_moment_opposite_the_joint():
    mean = (RING["bore"] - RING["thickness"]) / 2
    moment = 2 * radial_pressure(**RING) * mean**2
    assert stress_closed(**RING) == pytest.approx(6 * moment / RING["thickness"] ** 2)
    # opening by as much as it was closed bends it as much
    opened = {"bore": 0.1, "thickness": 0.004, "free_gap": 0.0125, "modulus": 100e9, "opened_gap": 0.025}
    assert stress_opened(**opened) == pytest.approx(stress_closed(**RING))


def test_opening_over_the_piston():
    # inside circle as large as the piston: mean circumference grows from pi (D - t) to pi (D + t)
    assert gap_over_piston(thickness=0.004, fitted_gap=0.0003) == pytest.approx(np.pi * (0.104 - 0.096) + 0.0003)


def test_gap_there_and_back():
    assert gap_in(gap=gap_in(gap=3e-4, tried_in=0.1, bore=0.1002), tried_in=0.1002, bore=0.1) == pytest.approx(3e-4)


def test_ring_and_bore_of_one_iron_at_one_heat_keep_the_gap_angle():
    grown = {"expansion_ring": 1.1e-5, "rise_ring": 100.0, "expansion_bore": 1.1e-5, "rise_bore": 100.0}
    assert hot_gap(cold_gap=3e-4, bore=0.1, **grown) == pytest.approx(3e-4)


def test_joint_areas():
    case = {"gap": 4e-4, "land_clearance": 2e-4}
    butt = joint_leak_area(joint="butt", **case)
    assert butt == pytest.approx(8e-8)
    assert joint_leak_area(joint="mitre", **case) == pytest.approx(butt / np.sqrt(2))
    assert joint_leak_area(joint="mitre", angle=np.pi / 2, **case) == pytest.approx(butt)
    assert joint_leak_area(joint="step", step_clearance=0.0, thickness=4e-3, **case) == 0
    assert joint_leak_area(joint="step", step_clearance=1.0, thickness=4e-3, **case) == pytest.approx(butt)


FIT = {
    "interference": 60e-6, "diameter": 0.11, "outer_diameter": 0.13, "inner_diameter": 0.1,
    "modulus_outer": 100e9, "poisson_outer": 0.26, "modulus_inner": 110e9, "poisson_inner": 0.27,
}  # fmt: skip


def ring_displacement(
    inner: float, outer: float, p_in: float, p_out: float, modulus: float, poisson: float
) -> dict[float, float]:
    """Radial displacement of a thick ring in plane stress by solving its differential equation, not by Lame's formula."""

    def equation(r, u):
        return np.vstack([u[1], u[0] / r**2 - u[1] / r])

    stiff = modulus / (1 - poisson**2)

    def ends(a, b):
        return np.array([
            stiff * (a[1] + poisson * a[0] / inner) / 1e6 + p_in / 1e6,
            stiff * (b[1] + poisson * b[0] / outer) / 1e6 + p_out / 1e6,
        ])  # fmt: skip

    r = np.linspace(inner, outer, 40)
    found = solve_bvp(equation, ends, r, np.zeros((2, 40)), tol=1e-10, max_nodes=20000)
    assert found.success
    return {inner: float(found.y[0, 0]), outer: float(found.y[0, -1])}


def test_press_fit_against_the_differential_equation():
    pressure = contact_pressure(**FIT)
    ring = ring_displacement(0.055, 0.065, pressure, 0.0, 100e9, 0.26)
    sleeve = ring_displacement(0.050, 0.055, 0.0, pressure, 110e9, 0.27)
    assert 2 * (ring[0.055] - sleeve[0.055]) == pytest.approx(60e-6, rel=1e-5)
    closing = bore_closing(pressure=pressure, diameter=0.11, inner_diameter=0.1, modulus_inner=110e9)
    assert closing == pytest.approx(-2 * sleeve[0.050], rel=1e-5)
    grown = outside_growth(pressure=pressure, diameter=0.11, outer_diameter=0.13, modulus_outer=100e9)
    assert grown == pytest.approx(2 * ring[0.065], rel=1e-5)


def test_hoop_stresses_balance_the_pressure():
    # mean hoop stress over a wall carries the pressure on the projected diameter; the thin sleeve is near it
    assert inner_bore_stress(pressure=10e6, diameter=0.11, inner_diameter=0.1) < inner_hoop_stress(
        pressure=10e6, diameter=0.11, inner_diameter=0.1
    )
    mean = (inner_bore_stress(pressure=10e6, diameter=0.11, inner_diameter=0.1)
            + inner_hoop_stress(pressure=10e6, diameter=0.11, inner_diameter=0.1)) / 2  # fmt: skip
    assert mean == pytest.approx(-10e6 * 0.11 / (0.11 - 0.1), rel=5e-3)


def test_no_interference_no_pressure():
    assert contact_pressure(**{**FIT, "interference": np.array([-1e-5, 0.0, 1e-5])})[:2] == pytest.approx([0, 0])


def test_uneven_wall():
    case = {"pressure": 5e6, "diameter": 0.11, "outer_diameter": 0.13}
    assert uneven_wall_stress(**case, offset=0.0) == pytest.approx(outer_hoop_stress(**case))
    offsets = np.linspace(0, 0.009, 10)
    estimate = uneven_wall_stress(**case, offset=offsets)
    bound = least_wall_stress_bound(pressure=5e6, diameter=0.11, least_wall=0.01 - offsets)
    assert np.all(np.diff(estimate) > 0)
    assert np.all(bound >= estimate * (1 - 1e-12))
    assert np.isnan(uneven_wall_stress(**case, offset=0.0101))


def test_walls():
    wall = minimum_wall(pressure=3e6, bore=0.1, stress=40e6)
    assert hoop_stress(pressure=3e6, bore=0.1, wall=wall) == pytest.approx(40e6)
    assert wall_left(wall=8e-3, original=0.1, finished=0.102, shift=5e-4) == pytest.approx(6.5e-3)
    assert least_wall_elsewhere(wall=8e-3, core_shift=1.5e-3) == pytest.approx(5e-3)
    assert least_wall_elsewhere(wall=2e-3, core_shift=1.5e-3) == 0


def test_temperature_there_and_back():
    warm = at_temperature(length_at_20=0.1, expansion=11.4e-6, temperature=35.0)
    assert to_20(length=warm, expansion=11.4e-6, temperature=35.0) == pytest.approx(0.1, rel=1e-15)


def test_a_gauge_of_the_same_metal_at_the_same_heat_needs_no_correction():
    same = {"expansion_part": 11.4e-6, "temperature_part": 5.0, "expansion_gauge": 11.4e-6, "temperature_gauge": 5.0}
    assert reading_at_20(reading=0.127, **same) == pytest.approx(0.127, rel=1e-15)


def test_a_cold_bore_reads_small():
    # 5 in of iron at 40 F reads about .0009 small against 68 F, for a gauge at 68 F (arithmetic from .0006 per 10 F and 10 in)
    at_40_f = (40 - 32) / 1.8
    true = reading_at_20(
        reading=5.0, expansion_part=11.4e-6, temperature_part=at_40_f, expansion_gauge=11.7e-6, temperature_gauge=20.0
    )
    assert true - 5.0 == pytest.approx(0.0009, abs=5e-5)


def test_temperature_to_drop_in():
    dropped = temperature_difference(interference=60e-6, play=50e-6, diameter=0.11, expansion=11.4e-6)
    assert 0.11 * 11.4e-6 * dropped == pytest.approx(110e-6)


@pytest.mark.parametrize("lobes", [2, 3, 4, 5, 7])
@pytest.mark.parametrize("angle", [60.0, 90.0, 120.0])
def test_vee_block_by_turning_the_part(lobes, angle):
    # lay r = R + a cos(n t) in the block by force: the centre that leaves both flanks just touched, then read the top
    turn = np.linspace(0, 2 * np.pi, 2001)
    small, half = 1e-6, np.radians(angle) / 2
    left = 1 + small * np.cos(lobes * (turn + np.pi / 2 + half))
    right = 1 + small * np.cos(lobes * (turn - np.pi / 2 - half))
    # flank normals at +-(90 + half): heights solve h sin(half) -+ x cos(half) = r
    height = np.array([np.linalg.solve([[np.sin(half), np.cos(half)], [np.sin(half), -np.cos(half)]], pair)[0]
                       for pair in zip(left, right, strict=True)])  # fmt: skip
    top = height + small * np.cos(lobes * turn)
    assert np.ptp(top) / (2 * small) == pytest.approx(abs(vee_block_factor(lobes=lobes, angle=np.radians(angle))), abs=2e-3)


def test_what_two_and_three_points_see():
    assert [two_point_factor(lobes=n) for n in (2, 3, 4, 5)] == pytest.approx([2, 0, 2, 0], abs=1e-12)
    assert [three_leg_factor(lobes=n) for n in (2, 3, 4, 5, 6)] == pytest.approx([0, 1, 0, 0, 1], abs=1e-12)


def test_one_formula_for_one_number_or_many():
    bores = np.array([0.09, 0.1])
    many = radial_pressure(bore=bores, thickness=0.004, free_gap=0.0125, modulus=100e9)
    assert many[1] == radial_pressure(**RING)
    assert isinstance(radial_pressure(**RING), float)
