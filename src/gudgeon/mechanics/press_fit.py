"""Pressed and shrunk fits of round parts: pressure, stress, force, bore closing. Lame's thick rings, two materials."""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain


def contact_pressure(
    *,
    interference: Number,
    diameter: Number,
    outer_diameter: Number,
    inner_diameter: Number = 0.0,
    modulus_outer: Number,
    poisson_outer: Number,
    modulus_inner: Number,
    poisson_inner: Number,
) -> Number:
    """Pressure [Pa] between a ring and what is pressed into it.

    Formula (Lame; Shigley, Mechanical Engineering Design, press and shrink fits):
    p = i / ( d [ ((Do^2+d^2)/(Do^2-d^2) + v_o)/E_o + ((d^2+Di^2)/(d^2-Di^2) - v_i)/E_i ] ).

    Parameters
    ----------
    interference : on the diameter [m]; what roughness and a film of rust take off must be taken off before.
    diameter : nominal at the joint, d [m]. outer_diameter : of the ring, Do [m]. inner_diameter : of the sleeve, Di [m].
    modulus_*, poisson_* : of the ring outside and the sleeve or shaft inside [Pa], [1].

    Parts of equal length, elastic, round and concentric; for a wall that is uneven see ``uneven_wall_stress``. An
    interference of zero or less gives zero pressure.
    """
    d2, o2, i2 = np.square(diameter), np.square(outer_diameter), np.square(inner_diameter)
    outer = ((o2 + d2) / (o2 - d2) + poisson_outer) / modulus_outer
    inner = ((d2 + i2) / (d2 - i2) - poisson_inner) / modulus_inner
    return plain(np.maximum(interference, 0.0) / (np.multiply(diameter, outer + inner)))


def outer_hoop_stress(*, pressure: Number, diameter: Number, outer_diameter: Number) -> Number:
    """Greatest hoop stress of the outer ring [Pa], tension, at its bore: p (Do^2 + d^2) / (Do^2 - d^2) (Lame)."""
    d2, o2 = np.square(diameter), np.square(outer_diameter)
    return plain(pressure * (o2 + d2) / (o2 - d2))


def inner_hoop_stress(*, pressure: Number, diameter: Number, inner_diameter: Number = 0.0) -> Number:
    """Hoop stress of the sleeve at the joint [Pa], compression, negative: -p (d^2 + Di^2) / (d^2 - Di^2) (Lame)."""
    d2, i2 = np.square(diameter), np.square(inner_diameter)
    return plain(-np.multiply(pressure, (d2 + i2) / (d2 - i2)))


def inner_bore_stress(*, pressure: Number, diameter: Number, inner_diameter: Number) -> Number:
    """Hoop stress of the sleeve at its bore [Pa], compression, negative: -2 p d^2 / (d^2 - Di^2) (Lame)."""
    d2, i2 = np.square(diameter), np.square(inner_diameter)
    return plain(-2 * np.multiply(pressure, d2 / (d2 - i2)))


def bore_closing(*, pressure: Number, diameter: Number, inner_diameter: Number, modulus_inner: Number) -> Number:
    """By how much the sleeve's bore closes when it is in [m]: 2 p d^2 Di / (E (d^2 - Di^2)) (Lame, free ends).

    A sleeve bored before fitting must be left at least so much large, or bored after fitting.
    """
    d2, i2 = np.square(diameter), np.square(inner_diameter)
    return plain(2 * np.multiply(pressure, d2) * inner_diameter / (modulus_inner * (d2 - i2)))


def outside_growth(*, pressure: Number, diameter: Number, outer_diameter: Number, modulus_outer: Number) -> Number:
    """By how much the ring's outside grows [m]: 2 p d^2 Do / (E (Do^2 - d^2)) (Lame, free ends)."""
    d2, o2 = np.square(diameter), np.square(outer_diameter)
    return plain(2 * np.multiply(pressure, d2) * outer_diameter / (modulus_outer * (o2 - d2)))


def push_force(*, pressure: Number, diameter: Number, length: Number, friction: Number) -> Number:
    """Axial force [N] to move the joint: friction x pressure x pi d L. Friction runs from .1 oiled to .25 dry (Shigley)."""
    return plain(np.pi * np.multiply(friction, pressure) * diameter * length)


def holding_torque(*, pressure: Number, diameter: Number, length: Number, friction: Number) -> Number:
    """Torque [N m] that the joint holds: force x d / 2."""
    return plain(push_force(pressure=pressure, diameter=diameter, length=length, friction=friction) * np.divide(diameter, 2))


def temperature_difference(*, interference: Number, play: Number, diameter: Number, expansion: Number) -> Number:
    """Difference of temperature [K], hot ring or chilled sleeve, at which it drops in with ``play`` [m] to spare.

    Formula: (interference + play) / (expansion x diameter).
    """
    return plain(np.add(interference, play) / np.multiply(expansion, diameter))


def uneven_wall_stress(*, pressure: Number, diameter: Number, outer_diameter: Number, offset: Number) -> Number:
    """Greatest hoop stress [Pa] at the bore of a ring whose bore stands ``offset`` [m] off its centre.

    Best estimate for a cored casting: Jeffery's eccentric tube (G. B. Jeffery, Phil. Trans. R. Soc. A 221 (1921), in the
    form of Coker and Filon), at the thinnest place:

        p [ 2 b^2 (b^2 + a^2 - 2 a e - e^2) / ((a^2 + b^2)(b^2 - a^2 - 2 a e - e^2)) - 1 ]

    with a, b the radii and e the offset. With no offset it is Lame's. Valid while e < a / 2; beyond it, and where the
    wall is gone, NaN.
    """
    a, b, e = np.divide(diameter, 2), np.divide(outer_diameter, 2), np.asarray(offset, dtype=np.float64)
    wall = b**2 - a**2 - 2 * a * e - e**2
    valid = (e < a / 2) & (b - a - e > 0)
    top = 2 * b**2 * (b**2 + a**2 - 2 * a * e - e**2)
    factor = top / ((a**2 + b**2) * np.where(valid, wall, 1.0)) - 1
    return plain(np.where(valid, pressure * factor, np.nan))


def least_wall_stress_bound(*, pressure: Number, diameter: Number, least_wall: Number) -> Number:
    """Bound on the hoop stress [Pa] of an uneven wall: Lame with the least wall taken all round.

    It asks nothing about the rest of the casting and lies above ``uneven_wall_stress``.
    """
    return outer_hoop_stress(pressure=pressure, diameter=diameter, outer_diameter=plain(diameter + 2 * np.asarray(least_wall)))
