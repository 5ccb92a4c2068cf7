"""Screw threads and tightening against standards and charts."""

import math

import numpy as np
import pytest

from gudgeon.handbook.threads import all_threads
from gudgeon.mechanics import threads as t
from gudgeon.mechanics import torque as q
from gudgeon.quantity import from_si, to_si

INCH = 0.0254
SQ_IN = INCH**2
PSI, LBF = to_si(1, "psi"), to_si(1, "lbf")


# studylib.net 18133655, threading tables, Whitworth: depth .0320, radius .0069, core .1860, effective .2180 for 1/4-20; cores
@pytest.mark.parametrize(("major", "tpi", "core"), [(0.25, 20, 0.1860), (0.5, 12, 0.3933), (1.0, 8, 0.8399)])
def test_whitworth_core(major: float, tpi: float, core: float) -> None:
    assert t.core_diameter(major=major, pitch=1 / tpi, form="55") == pytest.approx(core, abs=5e-5)


def test_whitworth_quarter_inch() -> None:
    assert t.depth(pitch=1 / 20, form="55") == pytest.approx(0.0320, abs=5e-5)
    assert t.ROUND["55"] / 20 == pytest.approx(0.0069, abs=5e-5)
    assert t.effective_diameter(major=0.25, pitch=1 / 20, form="55") == pytest.approx(0.2180, abs=5e-5)


# ASME B1.1 tensile stress areas, square inch
@pytest.mark.parametrize(
    ("major", "tpi", "area"),
    [
        (0.25, 20, 0.0318), (0.375, 16, 0.0775), (0.4375, 20, 0.1187), (0.5, 13, 0.1419), (0.5, 20, 0.1600),
        (0.625, 11, 0.2260), (0.75, 10, 0.3345), (1.0, 8, 0.6057),
    ],
)  # fmt: skip
def test_stress_area(major: float, tpi: float, area: float) -> None:
    assert t.stress_area(major=major * INCH, pitch=INCH / tpi) / SQ_IN == pytest.approx(area, abs=6e-5)


# ASME B1.1: 75 % of a 1/4-20 is drilled .2013; No. 7 = .201 leaves 75.4 %
def test_share_of_thread() -> None:
    assert t.drill_for(major=0.25, pitch=1 / 20, share=0.75) == pytest.approx(0.2013, abs=5e-5)
    assert t.share_of_thread(major=0.25, pitch=1 / 20, hole=0.201) == pytest.approx(0.754, abs=5e-4)


# blackwalnutjigs.com, tap and drill chart "for 75% thread": each of its drills leaves 70 to 83 %
@pytest.mark.parametrize(
    ("major", "tpi", "drill"),
    [
        (7 / 16, 14, 0.368), (7 / 16, 20, 25 / 64), (1 / 2, 13, 27 / 64), (1 / 2, 20, 29 / 64), (9 / 16, 12, 31 / 64),
        (5 / 8, 11, 17 / 32), (3 / 4, 10, 21 / 32), (3 / 4, 16, 11 / 16),
    ],
)  # fmt: skip
def test_a_tapping_chart(major: float, tpi: float, drill: float) -> None:
    assert 0.64 < t.share_of_thread(major=major, pitch=1 / tpi, hole=drill) < 0.84
    row = next(each for each in all_threads() if abs(each.major / INCH - major) < 1e-6 and abs(each.per_inch - tpi) < 1e-6)
    assert row.tapping_drill is not None
    assert row.tapping_drill / INCH == pytest.approx(drill, abs=2e-4)


# ASME B1.20.1, NPT: E0 and L2
@pytest.mark.parametrize(
    ("outside", "tpi", "e0", "l2"),
    [
        (0.405, 27, 0.36351, 0.2639), (0.540, 18, 0.47739, 0.4018), (0.840, 14, 0.75843, 0.5337),
        (1.315, 11.5, 1.21363, 0.6828), (2.375, 11.5, 2.26902, 0.7565),
    ],
)  # fmt: skip
def test_pipe_thread(outside: float, tpi: float, e0: float, l2: float) -> None:
    assert t.pipe_end_diameter(outside=outside * INCH, pitch=INCH / tpi) / INCH == pytest.approx(e0, abs=1.1e-5)
    assert t.pipe_effective_length(outside=outside * INCH, pitch=INCH / tpi) / INCH == pytest.approx(l2, abs=6e-5)


# coxhardware.com, bolt torque: K .20, 75 % of proof (SAE J429): torque lb ft, clamp load lbf
@pytest.mark.parametrize(
    ("major", "tpi", "proof", "pounds", "torque"),
    [
        (0.25, 20, 55, 1312, 5.4), (0.375, 16, 55, 3197, 20.0), (0.5, 13, 55, 5853, 48.8), (0.5, 20, 55, 6600, 55.0),
        (0.75, 10, 55, 13778, 172), (0.875, 9, 33, 11435, 167), (1.0, 8, 33, 14999, 250), (0.5, 13, 85, 9046, 75.4),
        (0.375, 16, 85, 4941, 30.9),
    ],
)  # fmt: skip
def test_torque_chart(major: float, tpi: float, proof: float, pounds: float, torque: float) -> None:
    area = t.stress_area(major=major * INCH, pitch=INCH / tpi)
    force = q.proof_preload(stress_area=area, proof=proof * 1000 * PSI)
    assert force / LBF == pytest.approx(pounds, rel=0.002)
    found = q.tightening_torque(force=force, diameter=major * INCH, coefficient=0.20)
    assert from_si(found, "lb ft") == pytest.approx(torque, rel=0.008, abs=0.08)
    assert q.preload(torque=found, diameter=major * INCH, coefficient=0.20) == pytest.approx(force)


# Shigley 8-8: with .15 for both frictions K is about .20 whatever the size or pitch of the bolt
@pytest.mark.parametrize(("major", "tpi"), [(0.25, 20), (0.25, 28), (0.5, 13), (0.5, 20), (1.0, 8), (1.0, 12)])
def test_k_of_usual_friction(major: float, tpi: float) -> None:
    k = q.coefficient_of_friction(thread=0.15, seat=0.15, diameter=major, pitch=1 / tpi, half_angle=math.radians(30))
    assert k == pytest.approx(0.20, abs=0.012)


# leadergt.com, preload accuracy: a torque wrench produces preload within 30 per cent
def test_spread_of_the_preload() -> None:
    draws = np.random.default_rng(1).standard_normal(200_000)
    force = q.preload(torque=1.0, diameter=1.0, coefficient=q.spread(likely=0.2, scatter=0.30, normal=draws))
    low, middle, high = np.quantile(force, [0.0228, 0.5, 0.9772])
    assert middle == pytest.approx(5.0, rel=0.01)
    assert high / middle == pytest.approx(1.30, abs=0.01)
    assert middle / low == pytest.approx(1.30, abs=0.01)


def test_engagement_makes_screw_and_hole_alike() -> None:
    area = t.stress_area(major=0.5, pitch=1 / 13)
    length = t.engagement_for(stress_area=area, tensile=74e3, diameter=0.5, shear=20e3)
    assert t.strip_area(diameter=0.5, engaged=length) * 20e3 == pytest.approx(area * 74e3)
    # common practice: a steel stud goes one and a half diameters into cast iron
    assert 0.6 < length / 0.5 < 1.6
