"""Compression ratio from poured volume, bore and stroke; stroke from the throw; drive ratios from teeth; spring rates."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

Number = TypeVar("Number", float, NDArray[np.float64])


def swept_volume(*, bore: Number, stroke: Number) -> Number:
    """Volume swept by one piston, pi/4 bore^2 stroke [m3]."""
    return math.pi / 4 * bore * bore * stroke


def compression_ratio(*, swept: Number, clearance: Number) -> Number:
    """(swept + clearance) / clearance [1]; volumes in one unit."""
    return (swept + clearance) / clearance


def stroke_of_throw(*, throw: Number) -> Number:
    """Stroke of a crank whose pin stands ``throw`` off the shaft's middle: twice the throw, for a cylinder not set off [m]."""
    return 2 * throw


def drive_ratio(*, driver: int, driven: int) -> Fraction:
    """Turns of the driver for one of the driven, exactly."""
    return Fraction(driven, driver)


def spring_rate(*, wire: Number, mean_diameter: Number, active_coils: Number, shear_modulus: float = 79.3e9) -> Number:
    """Rate of a helical compression spring, G d^4 / (8 D^3 n) [N/m]; lengths [m]. Carbon steel wire: G about 79.3 GPa."""
    return shear_modulus * wire**4 / (8 * mean_diameter**3 * active_coils)


def spring_force_when_new(*, force: Number, length: float, free_now: Number, free_new: Number) -> Number:
    """Force at a length when new, from the force now and what the spring has set: F (L_new - l) / (L_now - l).

    The rate of a spring that has only set is unchanged. ``length`` must be shorter than both free lengths.
    """
    return force * (free_new - length) / (free_now - length)
