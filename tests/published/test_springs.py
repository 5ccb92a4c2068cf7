"""Springs against a maker's drawing, textbook examples and printed rules."""

from __future__ import annotations

import math

import numpy as np
import pytest

from gudgeon.handbook.rules import rules
from gudgeon.handbook.spring_wires import spring_wire
from gudgeon.mechanics import springs

PSI = 6894.757293168361
IN = 0.0254
LBF = 4.4482216152605
LB_IN = LBF / IN


# TM 9-6115-464-34, valve spring: wire .177, outside 1.292 to 1.302 (D 1.120), 6 1/4 coils of which about 4 1/4 work;
# 72 to 82 lb at 1.492 in and 163 to 180 lb at 1.082 in, hence 222 to 239 lb/in between the middles' neighbours; G 11.5e6 psi
def test_an_army_valve_spring_drawing() -> None:
    active = springs.active_coils(total=6.25, ends="closed, ground")
    k = springs.rate(wire=0.177 * IN, mean_diameter=1.120 * IN, active=active, shear_modulus=11.5e6 * PSI)
    assert k / LB_IN == pytest.approx(236, abs=0.5)
    printed = springs.rate_between(
        force_1=np.array([72.0, 82.0]) * LBF,
        length_1=1.492 * IN,
        force_2=np.array([163.0, 180.0]) * LBF,
        length_2=1.082 * IN,
    )
    assert printed / LB_IN == pytest.approx([222, 239], abs=0.5)
    assert printed[0] < k < printed[1]


# Shigley, Example 10-1 (from memory, reproduced by calculation): music wire .037, outside 7/16, closed ends, 12.5 coils,
# A 201 kpsi, m .145, G 11.85e6: Sut 324 kpsi, Ssy 146, C 10.8, KB 1.124, F 6.46 lbf, k 4.13 lbf/in, Ls .500, L0 2.06 in
def test_shigley_example_10_1() -> None:
    wire, mean = 0.037 * IN, (7 / 16 - 0.037) * IN
    strength = springs.wire_strength(wire=wire, constant=201e3 * PSI * IN**0.145, exponent=0.145)
    assert strength / PSI / 1e3 == pytest.approx(324, abs=0.5)
    assert springs.index(wire=wire, mean_diameter=mean) == pytest.approx(10.8, abs=0.05)
    assert springs.bergstraesser(index=10.8) == pytest.approx(1.124, abs=5e-4)
    force = springs.force_for_stress(stress=0.45 * strength, wire=wire, mean_diameter=mean)
    assert force / LBF == pytest.approx(6.46, abs=0.02)
    active = springs.active_coils(total=12.5, ends="closed")
    k = springs.rate(wire=wire, mean_diameter=mean, active=active, shear_modulus=11.85e6 * PSI)
    assert k / LB_IN == pytest.approx(4.13, abs=0.02)
    solid = springs.solid_length(wire=wire, total=12.5, ends="closed")
    assert solid / IN == pytest.approx(0.500, abs=0.001)
    assert (solid + force / k) / IN == pytest.approx(2.06, abs=0.01)


def test_the_wire_table_gives_the_same_strength() -> None:
    music = spring_wire("music wire")
    strength = springs.wire_strength(wire=0.037 * IN, constant=music.constant, exponent=music.exponent)
    assert strength / PSI / 1e3 == pytest.approx(324, abs=0.5)


# mis.kyeop.go.ke shelf 50917770: wire 4 mm, outside 30, 11 coils of which 2 dead, G 79.3 GPa; answer computed apart 16.04 N/mm
def test_a_metric_spring() -> None:
    active = springs.active_coils(total=11, ends="closed, ground")
    k = springs.rate(wire=0.004, mean_diameter=0.026, active=active, shear_modulus=79.3e9)
    assert k / 1e3 == pytest.approx(16.04, abs=0.005)


# motormayhem.net, Model A: free length 2 15/16, 57 to 64 lb at 2 1/4 in: 82.9 to 93.1 lb/in
def test_model_a_valve_spring() -> None:
    k = springs.rate_between(force_1=0.0, length_1=2.9375 * IN, force_2=np.array([57.0, 64.0]) * LBF, length_2=2.25 * IN)
    assert k / LB_IN == pytest.approx([82.9, 93.1], abs=0.06)
    rule = rules("valve spring force", purpose="target")[0]
    back = springs.force_at(rate=k, free_length=2.9375 * IN, length=2.25 * IN)
    assert back == pytest.approx([rule.low, rule.high])


# Shigley 10-5: the two factors differ by the order of 1 %
def test_wahl_and_bergstraesser_agree() -> None:
    c = np.linspace(4, 12, 30)
    assert springs.wahl(index=c) == pytest.approx(springs.bergstraesser(index=c), rel=0.015)
    assert springs.wahl(index=4.0) == pytest.approx(1.404, abs=5e-4)  # Wahl's own table at C 4, from memory


# Shigley 10-13: of steel, L0 below 2.63 D / a never buckles
def test_steady_length_of_steel() -> None:
    steady = springs.steady_length(mean_diameter=1.0, end_condition=1.0, young=30e6, shear_modulus=11.5e6)
    assert steady == pytest.approx(2.63, abs=0.01)
    given = {"mean_diameter": 0.025, "end_condition": 0.5, "young": 207e9, "shear_modulus": 79.3e9}
    limit = springs.steady_length(**given)
    assert math.isinf(springs.buckling_travel(free_length=0.99 * limit, **given))
    assert springs.buckling_travel(free_length=1.01 * limit, **given) < 1.01 * limit
    slim, slimmer = (springs.buckling_travel(free_length=n * limit, **given) / (n * limit) for n in (1.5, 3.0))
    assert slimmer < slim


# Shigley 10-25 for a spring between plates: 1/2 sqrt(k g / W). The speed of a wave along the spring, written apart: the wave
# takes 1/f to go there and back over all working coils
def test_surge_is_the_time_of_a_wave_there_and_back() -> None:
    wire, mean, active, shear, density = 0.0045, 0.0285, 4.25, 79.3e9, 7850.0
    k = springs.rate(wire=wire, mean_diameter=mean, active=active, shear_modulus=shear)
    mass = springs.active_mass(wire=wire, mean_diameter=mean, active=active, density=density)
    frequency = springs.surge_frequency(rate=k, mass=mass)
    along_the_wire = wire / mean * math.sqrt(shear / (2 * density))  # dL/dt of a compression wave, measured along the wire
    length = math.pi * mean * active
    assert frequency == pytest.approx(along_the_wire / (2 * length), rel=1e-9)


def test_there_and_back() -> None:
    made = springs.spring_to_order(
        closed_force=77 * LBF,
        closed_length=1.492 * IN,
        open_force=171.5 * LBF,
        open_length=1.082 * IN,
        outside_diameter=1.297 * IN,
        wire=0.177 * IN,
        shear_modulus=11.5e6 * PSI,
    )
    k = springs.rate(wire=made.wire, mean_diameter=made.mean_diameter, active=made.active, shear_modulus=11.5e6 * PSI)
    assert k == pytest.approx(made.rate)
    assert springs.force_at(rate=k, free_length=made.free_length, length=1.492 * IN) / LBF == pytest.approx(77)
    assert springs.force_at(rate=k, free_length=made.free_length, length=1.082 * IN) / LBF == pytest.approx(171.5)
    # The drawing's own total, 6 1/4 coils
    assert made.total == pytest.approx(6.25, abs=0.15)
    assert springs.stress(
        force=springs.force_for_stress(stress=4e8, wire=0.004, mean_diameter=0.03), wire=0.004, mean_diameter=0.03
    ) == pytest.approx(4e8)


# Shigley Table 10-1
@pytest.mark.parametrize(
    ("ends", "active", "solid"),
    [("plain", 10, 11), ("plain, ground", 9, 10), ("closed", 8, 11), ("closed, ground", 8, 10)],
)
def test_ends(ends: springs.Ends, active: float, solid: float) -> None:
    assert springs.active_coils(total=10, ends=ends) == active
    assert springs.solid_length(wire=1.0, total=10, ends=ends) == solid
