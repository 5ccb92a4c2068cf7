"""Pins, bushes and pivots: shear, bearing pressure, pressure times speed, what a bush leaves of the wall it is let into."""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain


def shear_stress(*, force: Number, diameter: Number, planes: Number = 2) -> Number:
    """Mean shear stress in a pin [Pa]: F / (n pi d^2 / 4); a pin through both walls is cut in two planes."""
    return plain(np.asarray(force) / (np.asarray(planes) * np.pi / 4 * np.square(diameter)))


def cross_pin_stress(*, torque: Number, shaft: Number, pin: Number) -> Number:
    """Shear stress [Pa] of a pin across a shaft that drives by it: 2 T / (D x 2 A), D the shaft, two planes."""
    force = 2 * np.divide(torque, shaft)
    return shear_stress(force=plain(force / 2), diameter=pin, planes=1)


def cross_pin_torque(*, strength: Number, shaft: Number, pin: Number) -> Number:
    """Torque [N m] at which a cross pin shears: strength x D x pi d^2 / 4; the other way round."""
    return plain(np.multiply(strength, shaft) * np.pi / 4 * np.square(pin))


def bearing_pressure(*, force: Number, diameter: Number, length: Number) -> Number:
    """Load over projected area [Pa]: F / (d L)."""
    return plain(np.asarray(force) / np.multiply(diameter, length))


def surface_speed(*, diameter: Number, speed: Number) -> Number:
    """pi d n / 60 [m/s], turning; speed in rev/min."""
    return plain(np.pi * np.multiply(diameter, speed) / 60)


def swinging_speed(*, diameter: Number, swing: Number, per_minute: Number) -> Number:
    """Mean rubbing speed of a pin that swings to and fro [m/s]: swing x d per double stroke; swing in radian, end to end."""
    return plain(np.multiply(swing, diameter) * np.asarray(per_minute) / 60)


def pressure_times_speed(*, pressure: Number, velocity: Number) -> Number:
    """PV [Pa m/s]."""
    return plain(np.multiply(pressure, velocity))


def wall_beside(*, outside: Number, hole: Number, off_centre: Number = 0.0) -> Number:
    """Least metal round a hole in a round boss [m]: (D - d) / 2 - e."""
    return plain(np.subtract(outside, hole) / 2 - np.asarray(off_centre))


def clean_up_hole(*, largest: Number, smallest: Number, allowance: Number, kept_centre: bool) -> Number:
    """Least diameter [m] that trues a worn, oval hole.

    A reamer that is led by the hole follows it: largest + allowance. A boring bar that keeps the old centre must reach the
    whole of the wear, which lies on one side: smallest + 2 (largest - smallest) + allowance, wear taken as all on one side.
    """
    if not kept_centre:
        return plain(np.add(largest, allowance))
    return plain(np.asarray(smallest) + 2 * np.subtract(largest, smallest) + allowance)


def end_angle(*, clearance: Number, length: Number) -> Number:
    """How far a pin may tilt in its bush [rad]: clearance / length, small angles."""
    return plain(np.divide(clearance, length))


def lost_motion(*, clearance: Number, arm: Number, pivot_arm: Number) -> Number:
    """Play at the end of a lever [m] from play in its pivots: clearance x arm / pivot_arm."""
    return plain(np.multiply(clearance, arm) / pivot_arm)
