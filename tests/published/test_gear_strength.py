"""Stress in gear teeth against textbook examples."""

import math

import pytest

from gudgeon.mechanics import gear_strength as s
from gudgeon.quantity import from_si, to_si

INCH, PSI, LBF = 0.0254, to_si(1, "psi"), to_si(1, "lbf")


# Y of 20 degree teeth by the library gearpy 1.3.1 (SpurGear.lewis_factor), and Y(20) = 0.3192 in an EES text example
@pytest.mark.parametrize(("teeth", "y"), [(12, 0.245), (17, 0.302), (20, 0.3192), (30, 0.358), (50, 0.408)])
def test_lewis_factor_against_a_library(teeth: int, y: float) -> None:
    assert s.lewis_factor(teeth=teeth, form="20 full depth") == pytest.approx(y, rel=0.02)


# 14.5 degree: a generated root gives 12 .192, 20 .254, 30 .292, 50 .326, about 10 % under the handbooks' table (weak)
@pytest.mark.parametrize(("teeth", "y"), [(12, 0.192), (20, 0.254), (30, 0.292), (50, 0.326)])
def test_lewis_factor_of_the_old_angle(teeth: int, y: float) -> None:
    assert 1.0 < s.lewis_factor(teeth=teeth, form="14.5 full depth") / y < 1.13


# Lewis's own closed forms (1892) against the later tables: the same quantity within a tenth
@pytest.mark.parametrize("form", ["20 full depth", "14.5 full depth"])
@pytest.mark.parametrize("teeth", [16, 20, 30, 50, 100])
def test_closed_form_agrees_with_the_table(form, teeth: int) -> None:
    assert s.lewis_closed_form(teeth=teeth, form=form) == pytest.approx(s.lewis_factor(teeth=teeth, form=form), rel=0.1)


# Shigley, Example 14-1: P 8, N 16, F 1.5 in, 20 degree, 10 ksi allowed, 1200 rev/min: V 628 ft/min,
# Kv 1.52, Wt 365 lbf, 6.95 hp
def test_lewis_example() -> None:
    velocity = s.pitch_line_speed(diameter=2 * INCH, speed=1200)
    assert from_si(velocity, "ft/min") == pytest.approx(628, abs=0.5)
    factor = s.barth_factor(velocity=velocity, made="cut")
    assert factor == pytest.approx(1.52, abs=0.005)
    unit = s.lewis_stress(force=1.0, face=1.5 * INCH, module=INCH / 8, factor=0.296, velocity_factor=factor)
    force = 10_000 * PSI / unit
    assert force / LBF == pytest.approx(365, rel=0.003)
    assert from_si(force * velocity, "hp") == pytest.approx(6.95, abs=0.02)
    assert s.lewis_factor(teeth=16, form="20 full depth") == pytest.approx(0.296)


# scribd 29351238, Gear Stress: (600 + V)/600 for cast teeth, (1200 + V)/1200 for cut
def test_barth() -> None:
    v = to_si(600, "ft/min")
    assert s.barth_factor(velocity=v, made="cast") == pytest.approx(2.0)
    assert s.barth_factor(velocity=v, made="cut") == pytest.approx(1.5)


# Shigley, Example 14-4: 17/52 teeth, P 10, F 1.5, 20 degree, 1800 rev/min, 4 hp, Qv 6
def test_agma_example() -> None:
    d = 1.7 * INCH
    velocity = s.pitch_line_speed(diameter=d, speed=1800)
    assert from_si(velocity, "ft/min") == pytest.approx(801.1, abs=0.1)
    torque = to_si(4, "hp") / (2 * math.pi * 1800 / 60)
    force = s.tangential_force(torque=torque, diameter=d)
    assert force / LBF == pytest.approx(164.8, abs=0.1)
    kv = s.dynamic_factor(velocity=velocity, quality=6)
    assert kv == pytest.approx(1.377, abs=0.001)
    common = {"force": force, "face": 1.5 * INCH, "dynamic": kv, "spread": 1.22}
    pinion = s.bending_stress(**common, module=INCH / 10, geometry=0.30, size=1.043)
    gear = s.bending_stress(**common, module=INCH / 10, geometry=0.40, size=1.052)
    assert pinion / PSI == pytest.approx(6417, rel=0.001)
    assert gear / PSI == pytest.approx(4854, rel=0.001)
    i = s.contact_geometry(angle=math.radians(20), ratio=52 / 17)
    assert i == pytest.approx(0.121, abs=0.0005)
    contact = s.contact_stress(**common, pinion_diameter=d, geometry=i, elastic=2300 * PSI**0.5, size=1.043)
    assert contact / PSI == pytest.approx(70_360, rel=0.001)


# Shigley Table 14-8: Cp of steel on steel 2300 sqrt(psi) (191 sqrt(MPa)), E 30e6 psi, v .292
def test_elastic_coefficient() -> None:
    cp = s.elastic_coefficient(modulus=30e6 * PSI, poisson=0.292, mate_modulus=30e6 * PSI, mate_poisson=0.292)
    assert cp / PSI**0.5 == pytest.approx(2300, rel=0.01)
    assert cp / 1e3 == pytest.approx(191, rel=0.01)


def test_a_tooth_of_half_its_thickness_is_stressed_four_times() -> None:
    assert s.thinned_stress_factor(thickness=2.0, thinned=1.0) == pytest.approx(4.0)
