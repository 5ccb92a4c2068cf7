"""Lamé's thick rings against published examples."""

from __future__ import annotations

import pytest

from gudgeon.mechanics.press_fit import (
    contact_pressure,
    holding_torque,
    inner_hoop_stress,
    outer_hoop_stress,
    push_force,
)

PSI = 6894.757293168361
IN = 0.0254


def steel(modulus: float, poisson: float = 0.3) -> dict[str, float]:
    return {"modulus_outer": modulus, "modulus_inner": modulus, "poisson_outer": poisson, "poisson_inner": poisson}


# metricmech.com, press fit: shaft 25, interference .020, hub 50, E 210 GPa: 63.0 MPa, hoop 105.0 MPa, 9.9 kN at L 20, mu .1
def test_steel_hub_on_solid_shaft():
    pressure = contact_pressure(interference=20e-6, diameter=0.025, outer_diameter=0.050, **steel(210e9))
    assert pressure / 1e6 == pytest.approx(63.0, abs=0.05)
    hoop = outer_hoop_stress(pressure=pressure, diameter=0.025, outer_diameter=0.050)
    assert hoop / 1e6 == pytest.approx(105.0, abs=0.05)
    force = push_force(pressure=pressure, diameter=0.025, length=0.020, friction=0.1)
    assert force / 1e3 == pytest.approx(9.9, abs=0.05)


# machinecalcs.com, press fit: shaft 50, hub 80, .04 mm, L 40, mu .15, E 200 GPa: 48.75 MPa, 45 950 N, 1149 N m, hoop 111.3
def test_steel_hub_of_50_by_80():
    pressure = contact_pressure(interference=40e-6, diameter=0.050, outer_diameter=0.080, **steel(200e9))
    assert pressure / 1e6 == pytest.approx(48.75, abs=0.005)
    assert outer_hoop_stress(pressure=pressure, diameter=0.050, outer_diameter=0.080) / 1e6 == pytest.approx(111.3, abs=0.06)
    assert push_force(pressure=pressure, diameter=0.050, length=0.040, friction=0.15) == pytest.approx(45950, abs=10)
    assert holding_torque(pressure=pressure, diameter=0.050, length=0.040, friction=0.15) == pytest.approx(1149, abs=1)


# Shigley eq. 3-56 worked by hand: bronze 2.0 x 2.5 (E 17e6) in steel 3.5 (E 30e6), v .27, .004 in: 4397 psi
def test_bronze_bush_in_steel():
    pressure = contact_pressure(
        interference=0.004 * IN,
        diameter=2.5 * IN,
        outer_diameter=3.5 * IN,
        inner_diameter=2.0 * IN,
        modulus_outer=30e6 * PSI,
        poisson_outer=0.27,
        modulus_inner=17e6 * PSI,
        poisson_inner=0.27,
    )
    assert pressure / PSI == pytest.approx(4397, abs=1)
    # the ring's hoop stress 13 558 psi by the same hand calculation
    assert outer_hoop_stress(pressure=pressure, diameter=2.5 * IN, outer_diameter=3.5 * IN) / PSI == pytest.approx(
        13558, abs=40
    )
    assert inner_hoop_stress(pressure=pressure, diameter=2.5 * IN, inner_diameter=2.0 * IN) < 0
