"""Connecting rods: bend and twist from two arbors, and what they do at the piston."""

from __future__ import annotations

import math

import numpy as np

from gudgeon.mechanics.numbers import Number, plain


def out_of_parallel(*, one: Number, other: Number, apart: Number) -> Number:
    """Bend or twist as a slope [m/m]: difference of two readings over the distance between them.

    Readings at both ends of the piston-pin arbor, against that in the big end: heights for bend, a feeler under one of two
    blocks for twist (FAA powerplant handbook: thickness-gauge reading divided by the spacing of the blocks is the twist to the
    inch).
    """
    return plain(np.subtract(one, other) / np.asarray(apart))


def lean_of_piston(*, bend: Number, length: Number) -> Number:
    """How far the piston leans over a length [m]: slope times length. The rings then bear at opposite corners."""
    return plain(np.multiply(bend, length))


def edge_load(*, slope: Number, bearing_length: Number) -> Number:
    """Clearance that a bent or twisted rod takes at the ends of its big end [m]: slope x length of the bearing.

    Where it exceeds the clearance the bearing runs on its edges.
    """
    return plain(np.abs(np.multiply(slope, bearing_length)))


def masses(*, total: Number, big_end_weight: Number) -> tuple[Number, Number]:
    """Reciprocating and rotating share of a rod [kg]: level on two scales, what the big end weighs rotates."""
    return plain(np.subtract(total, big_end_weight)), plain(np.asarray(big_end_weight))


def likely_rod_mass(*, bore: float, stroke: float) -> tuple[float, float]:
    """Mass of a forged rod of the time [kg], low and high.

    Taken as a bar of steel 4 to 9 % of the piston's area, twice and a quarter the stroke long; from memory, a guess that says
    what the order of it is.
    """
    area = math.pi / 4.0 * bore**2
    return 0.04 * area * 2.25 * stroke * 7850.0, 0.09 * area * 2.25 * stroke * 7850.0


def likely_piston_mass(*, bore: float) -> tuple[float, float]:
    """Mass of a cast-iron piston of the time with pin and rings [kg], low and high.

    1.3 to 2.2 t/m3 times bore cubed; from memory, trunk pistons about a bore and a quarter long.
    """
    return 1300.0 * bore**3, 2200.0 * bore**3
