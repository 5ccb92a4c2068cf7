"""Flywheels: rim speed and stress, energy held, steadiness within a turn, run-out."""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Array, Number, plain


def rim_speed(*, diameter: Number, speed: Number) -> Number:
    """Speed of the rim [m/s]: w D / 2, speed in rad/s."""
    return plain(np.multiply(speed, diameter) / 2)


def speed_for_rim(*, diameter: Number, rim_speed: Number) -> Number:
    """Speed of the shaft [rad/s] at which the rim runs so fast: 2 v / D."""
    return plain(2 * np.divide(rim_speed, diameter))


def rim_stress(*, rim_speed: Number, density: Number) -> Number:
    """Tension round a thin free rim [Pa]: rho v^2; arms and joints add to it (any text on machine design)."""
    return plain(np.multiply(density, np.square(rim_speed)))


def rim_mass(*, outside: Number, inside: Number, width: Number, density: Number) -> Number:
    """Mass of the rim [kg], a plain ring: rho pi/4 (D^2 - d^2) w."""
    return plain(np.multiply(density, width) * np.pi / 4 * (np.square(outside) - np.square(inside)))


def ring_inertia(*, mass: Number, outside: Number, inside: Number) -> Number:
    """Moment of inertia of a ring about its axis [kg m2]: m (D^2 + d^2) / 8."""
    return plain(np.multiply(mass, np.square(outside) + np.square(inside)) / 8)


def energy(*, inertia: Number, speed: Number) -> Number:
    """Energy of motion [J]: J w^2 / 2."""
    return plain(np.multiply(inertia, np.square(speed)) / 2)


def unsteadiness(*, fluctuation: Number, inertia: Number, speed: Number) -> Number:
    """(w max - w min) / w mean within a turn: dE / (J w^2) (Khurmi and Gupta, Theory of Machines, ch. 16)."""
    return plain(np.divide(fluctuation, np.multiply(inertia, np.square(speed))))


def inertia_for(*, fluctuation: Number, unsteadiness: Number, speed: Number) -> Number:
    """Moment of inertia [kg m2] that keeps to an unsteadiness; ``unsteadiness`` turned round."""
    return plain(np.divide(fluctuation, np.multiply(unsteadiness, np.square(speed))))


def fluctuation(*, moment: Array, step: float) -> Number:
    """Greatest fluctuation of energy over a cycle [J]: the swing of the integral of (moment - its mean).

    ``moment`` [N m] at even steps [rad] round the whole cycle, the last axis; the load is taken as steady.
    """
    moment = np.asarray(moment, dtype=np.float64)
    over = moment - moment.mean(axis=-1, keepdims=True)
    held = np.cumsum(over, axis=-1) * step
    return plain(held.max(axis=-1) - held.min(axis=-1))


def together(*, moment: Array, cylinders: int) -> Array:
    """Turning moment of so many like cylinders at even intervals, from that of one over its cycle (last axis)."""
    count = moment.shape[-1]
    return np.asarray(np.sum([np.roll(moment, round(count * n / cylinders), axis=-1) for n in range(cylinders)], axis=0))


def run_up_time(*, inertia: Number, speed: Number, power: Number) -> Number:
    """Time [s] in which full power would bring the wheel from rest to speed at full torque: J w^2 / P."""
    return plain(np.multiply(inertia, np.square(speed)) / power)
