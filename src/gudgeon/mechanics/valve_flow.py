"""Room for the gas at a valve: the area round its edge, the port, and the speed the gas needs."""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain


def lift_for_port(*, diameter: Number) -> Number:
    """Lift [m] at which the curtain round a flat valve is as large as the port: d / 4 (pi d L = pi d^2 / 4)."""
    return plain(np.divide(diameter, 4.0))


def port_area(*, port: Number, stem: Number = 0.0) -> Number:
    """Free area of the port [m2]: pi/4 (port^2 - stem^2)."""
    return plain(np.pi / 4 * (np.square(port) - np.square(stem)))


def curtain_area(*, lift: Number, head: Number, seat_width: Number = 0.0, angle: Number = np.pi / 4) -> Number:
    """Least area between valve and seat [m2] at a lift.

    Cone while the edges face each other, then between the edges (Heywood, Internal Combustion Engine Fundamentals, 6.3.2;
    from memory): pi L cos a (D - 2w + L/2 sin 2a) up to L = w / (sin a cos a), then pi (D - w) sqrt((L - w tan a)^2 + w^2).

    Parameters
    ----------
    head : outside of the seat on the valve, D [m]. seat_width : across, as seen along the stem, w [m].
    angle : of the seat from flat [rad]; 0 for a flat seat, where the curtain is a cylinder.
    """
    a, w, y = np.asarray(angle, dtype=np.float64), np.asarray(seat_width, dtype=np.float64), np.asarray(lift, dtype=np.float64)
    cone = np.pi * y * np.cos(a) * (head - 2 * w + y / 2 * np.sin(2 * a))
    edges = np.pi * (head - w) * np.sqrt(np.square(y - w * np.tan(a)) + np.square(w))
    return plain(np.where(y * np.sin(a) * np.cos(a) <= w, cone, edges))


def free_area(*, curtain: Number, port: Number) -> Number:
    """What the gas gets [m2]: the smaller of curtain and port."""
    return plain(np.minimum(curtain, port))


def mean_piston_speed(*, stroke: Number, speed: Number) -> Number:
    """Mean speed of the piston [m/s]: 2 S n, with the crank's speed [rad/s]."""
    return plain(np.multiply(stroke, speed) / np.pi)


def mean_gas_speed(*, bore: Number, piston_speed: Number, area: Number) -> Number:
    """Mean speed of the gas through an area [m/s] while the piston draws or drives: piston area x its mean speed / area.

    The fluid does not give and the area stays open; the usual measure of the books of the time.
    """
    return plain(np.pi / 4 * np.square(bore) * np.asarray(piston_speed) / area)


def suction_to_open(*, spring_force: Number, diameter: Number, weight: Number = 0.0) -> Number:
    """Difference of pressure [Pa] at which an automatic inlet valve leaves its seat: (spring + weight) / area of the port.

    ``weight`` is negative where the valve hangs open by its own weight.
    """
    return plain(np.add(spring_force, weight) / (np.pi / 4 * np.square(diameter)))
