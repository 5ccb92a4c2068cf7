"""Pins, bushes and keys against worked sums."""

import math

import numpy as np
import pytest

from gudgeon.handbook import rules
from gudgeon.mechanics import balls, keys, pins
from gudgeon.quantity import from_si, to_si

INCH, PSI, LBF = 0.0254, to_si(1, "psi"), to_si(1, "lbf")


# tau = 2 T / (D 2 A): 1000 lbf in on a 1 in shaft, 1/4 in pin: 2000 lbf, 20 372 psi (any text on strength of materials)
def test_shear_pin() -> None:
    torque = 1000 * LBF * INCH
    stress = pins.cross_pin_stress(torque=torque, shaft=INCH, pin=0.25 * INCH)
    assert stress / PSI == pytest.approx(20_372, rel=1e-4)
    assert pins.cross_pin_torque(strength=stress, shaft=INCH, pin=0.25 * INCH) == pytest.approx(torque)
    assert pins.shear_stress(force=2000 * LBF, diameter=0.25 * INCH) / PSI == pytest.approx(20_372, rel=1e-4)


# anchorbronze.com, sleeve bearings: V = .262 n d, P = load / (L d): 600 lb, 1.5 x 2 in, 400 rev/min
def test_pressure_times_speed() -> None:
    p = pins.bearing_pressure(force=600 * LBF, diameter=1.5 * INCH, length=2 * INCH)
    v = pins.surface_speed(diameter=1.5 * INCH, speed=400)
    assert p / PSI == pytest.approx(200)
    assert from_si(v, "ft/min") == pytest.approx(157.1, abs=0.1)
    assert pins.pressure_times_speed(pressure=p, velocity=v) / (PSI * to_si(1, "ft/min")) == pytest.approx(31_416, rel=1e-3)
    limit = next(row.high for row in rules("bush pressure times speed") if "C93200" in row.applies)
    assert pins.pressure_times_speed(pressure=p, velocity=v) < limit


def test_a_pin_that_swings_right_round_rubs_like_one_that_turns() -> None:
    swinging = pins.swinging_speed(diameter=0.5, swing=math.pi, per_minute=100)
    assert swinging == pytest.approx(pins.surface_speed(diameter=0.5, speed=100))


def test_walls_and_clean_up() -> None:
    assert pins.wall_beside(outside=1.0, hole=0.5) == pytest.approx(0.25)
    assert pins.wall_beside(outside=1.0, hole=0.5, off_centre=0.05) == pytest.approx(0.20)
    led = pins.clean_up_hole(largest=0.505, smallest=0.501, allowance=0.001, kept_centre=False)
    kept = pins.clean_up_hole(largest=0.505, smallest=0.501, allowance=0.001, kept_centre=True)
    assert led == pytest.approx(0.506)
    # a circle about the old centre that takes in a hole worn .004 to one side must be .008 larger than the hole was
    assert kept == pytest.approx(0.510)


def test_lost_motion_follows_the_lever() -> None:
    found = pins.lost_motion(clearance=np.array([0.002, 0.004]), arm=6.0, pivot_arm=2.0)
    assert np.allclose(found, [0.006, 0.012])


# Low, Pocket-book, keys: a 1 in shaft has a 3/8 x 1/4 key, 1 1/2 in 1/2 x 5/16, 2 in 5/8 x 3/8 by rule (5/16 in his table)
@pytest.mark.parametrize(("shaft", "width", "thick"), [(1.0, 3 / 8, 1 / 4), (1.5, 1 / 2, 5 / 16)])
def test_sunk_key_rule(shaft: float, width: float, thick: float) -> None:
    by_rule = next(row for row in rules("key width")).at(shaft * INCH)[0]
    assert by_rule / INCH == pytest.approx(width)
    assert next(row for row in rules("key thickness") if "sunk" in row.applies).at(shaft * INCH)[0] / INCH == pytest.approx(
        thick
    )


# Shigley, Example 7-6 (from memory): a 1 7/16 in shaft, 3/8 square key, 2819 lbf in: force 3922 lbf; at Ssy 37.5 ksi and n 2.8,
# length 0.78 in for shear
def test_key_example() -> None:
    shaft, torque = 1.4375 * INCH, 2819 * LBF * INCH
    assert keys.key_force(torque=torque, shaft=shaft) / LBF == pytest.approx(3922, rel=1e-3)
    stress = keys.key_shear(torque=torque, shaft=shaft, width=0.375 * INCH, length=0.78 * INCH)
    assert stress / PSI == pytest.approx(37_500 / 2.8, rel=0.01)


def test_keyway_depth_is_that_of_the_side_and_the_arc() -> None:
    # 3-4-5 triangle: radius 5, half width 3, the arc rises 1 over the key
    assert keys.seat_depth(shaft=10.0, width=6.0, in_shaft=2.0) == pytest.approx(3.0)
    assert keys.rock(slack=0.001, shaft=1.0) == pytest.approx(0.002)


def test_balls_on_a_circle() -> None:
    # plane geometry: six equal balls go round a seventh, their centres on a circle of twice the ball
    assert balls.full_complement(circle=2.0, ball=1.0) == 6
    assert balls.room_left(circle=2.0, ball=1.0, count=6) == pytest.approx(0.0, abs=1e-12)
    # four in a square: the circle through their centres is sqrt 2 balls across
    assert balls.full_complement(circle=math.sqrt(2), ball=1.0) == 4
    assert balls.full_complement(circle=1.0, ball=0.5 * 1.001) == 5
