"""Linkage, flywheels and friction clutches against printed rules, worked examples and plain arithmetic."""

from __future__ import annotations

import math

import numpy as np
import pytest

from gudgeon.handbook.rules import rules
from gudgeon.mechanics import flywheels, friction, linkage
from gudgeon.mechanics.bearing_load import crankpin_load

RPM = math.pi / 30
FOOT_A_MINUTE = 0.3048 / 60
IN = 0.0254


# Hercules Engine News, July 2001: under 60 mph = 5280 ft/min at the rim; plain arithmetic: 20 in 1008 rev/min, 36 in 560
@pytest.mark.parametrize(("diameter", "speed"), [(20, 1008), (36, 560)])
def test_rim_speed_of_a_mile_a_minute(diameter: float, speed: float) -> None:
    limit = next(row for row in rules("flywheel rim speed") if "60 mph" in row.applies)
    assert limit.high == pytest.approx(60 * 1609.344 / 3600)
    found = flywheels.speed_for_rim(diameter=diameter * IN, rim_speed=60 * 1609.344 / 3600)
    assert found / RPM == pytest.approx(speed, abs=1)
    assert flywheels.rim_speed(diameter=diameter * IN, speed=found) / FOOT_A_MINUTE == pytest.approx(5280)


# rho v^2 of iron of 7200 kg/m3 at 30 m/s: 6.48 MPa (plain arithmetic; any text on machine design)
def test_rim_stress() -> None:
    assert flywheels.rim_stress(rim_speed=30.0, density=7200.0) == pytest.approx(6.48e6)


def test_a_thin_ring_has_all_its_mass_at_its_radius() -> None:
    assert flywheels.ring_inertia(mass=10.0, outside=1.0, inside=1.0) == pytest.approx(10.0 * 0.25)
    assert flywheels.ring_inertia(mass=10.0, outside=1.0, inside=0.0) == pytest.approx(10.0 * 0.25 / 2)


def test_fluctuation_of_a_sine_on_paper() -> None:
    # the integral of A sin(2a) swings by A (calculus)
    angle = np.arange(7200) * 2 * math.pi / 7200
    found = flywheels.fluctuation(moment=50 + 30 * np.sin(2 * angle), step=2 * math.pi / 7200)
    assert found == pytest.approx(30.0, rel=1e-3)
    assert flywheels.unsteadiness(fluctuation=found, inertia=3.0, speed=10.0) == pytest.approx(0.1, rel=1e-3)


# Khurmi and Gupta, Theory of Machines, ch. 16 (from memory): fluctuation of energy over the work of a cycle of one four-stroke
# cylinder 1.1 to 1.9 by engine; of four cylinders less than a sixth of it
def test_four_cylinders_ask_for_a_small_part_of_the_wheel_of_one() -> None:
    loads = crankpin_load(
        bore=0.1, throw=0.07, rod=0.3, speed=40.0, reciprocating=0.0, rotating=0.0, compression_ratio=4.5, peak=1.8e6
    )
    moment = 0.07 * (loads.across * np.cos(loads.angle) + loads.along * np.sin(loads.angle))
    step = loads.angle[1] - loads.angle[0]
    work = moment.sum() * step
    one = flywheels.fluctuation(moment=moment, step=step) / work
    four = flywheels.fluctuation(moment=flywheels.together(moment=moment, cylinders=4), step=step) / (4 * work)
    assert 0.9 < one < 2.1
    assert four < one / 6


# Khurmi and Gupta, ch. 10 (from memory, reworked): plate lined on both sides, 300 and 200 mm, 0.1 N/mm2 at most, mu .3, 2500
# rev/min: 61.7 kW
def test_plate_clutch_example() -> None:
    force = 0.1e6 * 2 * math.pi * 0.100 * 0.050
    assert friction.face_pressure(force=force, outside=0.300, inside=0.200) == pytest.approx(0.1e6)
    torque = friction.plate_torque(force=force, friction=0.3, outside=0.300, inside=0.200)
    assert torque * 2500 * RPM / 1e3 == pytest.approx(61.7, abs=0.05)
    assert friction.force_for_torque(torque=torque, friction=0.3, outside=0.300, inside=0.200) == pytest.approx(force)


# Khurmi and Gupta, ch. 10 (from memory, reworked): cone of 20 degree, mean diameter 375 mm, mu .2, 0.25 N/mm2, 90 kW at 1500
# rev/min: 573 N m, face 52 mm wide, radii 196.5 and 178.5 mm
def test_cone_clutch_example() -> None:
    angle = math.radians(20)
    torque = 90e3 / (1500 * RPM)
    assert torque == pytest.approx(573, abs=0.5)
    force = 0.25e6 * 2 * math.pi * 0.1875 * 0.052 * math.sin(angle)
    found = friction.cone_torque(force=force, friction=0.2, outside=0.393, inside=0.357, half_angle=angle)
    assert found == pytest.approx(573, rel=0.01)


def test_new_lining_acts_further_out_than_worn_in() -> None:
    # 2/3 of the radius for a full disc pressed evenly, half of it worn in (Shigley 16-5)
    assert friction.mean_radius(outside=0.2, inside=0.0, pressing="new") == pytest.approx(0.2 / 3)
    assert friction.mean_radius(outside=0.2, inside=0.0) == pytest.approx(0.05)


def test_slack_through_levers_on_paper() -> None:
    # governor lever 2 : 3, throttle lever 1 : 1; plays of 10, 15, 6 thou: 10 + 15 / 1.5 + 6 / 1.5 = 24 thou at the governor
    ratios = (linkage.lever_ratio(driving=2.0, driven=3.0), 1.0)
    assert linkage.slack_at_start(plays=(10.0, 15.0, 6.0), ratios=ratios) == pytest.approx(24.0)
    assert linkage.slack_at_end(plays=(10.0, 15.0, 6.0), ratios=ratios) == pytest.approx(36.0)
    # a fulcrum with 4 thou, arms alike: the driving end wanders by twice as much
    assert linkage.fulcrum_play(clearance=4.0, driving=1.0, driven=1.0) == pytest.approx(8.0)
    with pytest.raises(ValueError, match="a lever between"):
        linkage.slack_at_start(plays=(1.0, 1.0, 1.0), ratios=(1.0,))


def test_a_worn_throttle_shaft_leaks_like_a_hole() -> None:
    # 3/8 in shaft, 5 thou: half of pi x .375 x .005 = .00295 sq in at each end (plain arithmetic)
    assert linkage.shaft_leak_area(shaft=0.375, clearance=0.005, ends=1) == pytest.approx(0.00295, abs=5e-6)
    assert linkage.disc_leak_area(bore=1.5, gap=0.002) == pytest.approx(math.pi * 1.5 * 0.002)
    # a disc turned from flat across to along the bore opens it whole
    assert linkage.disc_leak_area(bore=1.0, gap=0.0, open_angle=math.pi / 2) == pytest.approx(math.pi / 4)
