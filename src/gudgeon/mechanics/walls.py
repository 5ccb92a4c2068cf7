"""Cylinder walls: how thick they must be for the gas, and what boring leaves of an uncertain casting."""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain


def hoop_stress(*, pressure: Number, bore: Number, wall: Number) -> Number:
    """Hoop stress [Pa] of a thin wall under gas pressure: p D / (2 t). Low by under 10 % while t < D / 10."""
    return plain(np.multiply(pressure, bore) / np.multiply(2, wall))


def minimum_wall(*, pressure: Number, bore: Number, stress: Number, allowance: Number = 0.0) -> Number:
    """Least wall [m] for a peak gas pressure: t = p D / (2 sigma) + C (Khurmi and Gupta, Machine Design, cylinder wall).

    Parameters
    ----------
    pressure : peak, gauge [Pa]. bore : D [m]. stress : allowed hoop stress, sigma [Pa].
    allowance : C for reboring and core shift [m]; none for the question "is what is left enough?".

    Strength alone. Old makers went thicker for casting, stiffness and rust, so this is a floor and not a target.
    """
    return plain(np.multiply(pressure, bore) / np.multiply(2, stress) + allowance)


def wall_left(*, wall: Number, original: Number, finished: Number, shift: Number = 0.0) -> Number:
    """Wall left [m] at the side towards which the bar is moved: wall - (finished - original) / 2 - shift.

    ``wall`` is that beside the original bore of diameter ``original``; ``finished`` is the new bore.
    """
    return plain(wall - np.subtract(finished, original) / 2 - shift)


def least_wall_elsewhere(*, wall: Number, core_shift: Number) -> Number:
    """Least wall [m] that may stand anywhere round the bore when ``wall`` was read at one place only.

    A core that moved by ``core_shift`` [m] off the bore's axis makes the wall run from t - s to t + s; the one place may be
    the thickest, so the thinnest may be as little as wall - 2 core_shift. Not below zero.
    """
    return plain(np.maximum(wall - np.multiply(2, core_shift), 0.0))
