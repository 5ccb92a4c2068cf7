"""From a lobe to a valve: lift, the events that lash moves, acceleration, and the force that holds contact.

Angles are those of the cam [rad]; the crank of a four-stroke engine turns twice as far.
"""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Array, Number, plain

CRANK_PER_CAM = 2.0


class LiftTableFault(ValueError):
    """A table of lifts that no lobe can have: what was read, what is wrong, what would be right."""


def valve_lift(*, lobe_lift: Number, lash: Number, ratio: Number = 1.0) -> Number:
    """Lift of the valve [m]: lobe lift x rocker ratio less the lash at the valve, none while the lash is not taken up."""
    return plain(np.maximum(np.multiply(lobe_lift, ratio) - np.asarray(lash), 0.0))


def harmonic_lift(*, angle: Number, lift: Number, half_angle: Number) -> Number:
    """Lift [m] at an angle from the nose of a lobe that rises and falls as a cosine: L/2 (1 + cos(pi a / h)).

    ``half_angle`` h is from the nose to where the flank meets the base circle. The plainest stand-in for a lobe of which only
    lift and duration are known; an arc-and-tangent lobe of the time opens a few degrees quicker.
    """
    turned = np.abs(np.asarray(angle, dtype=np.float64) / half_angle)
    return plain(np.where(turned < 1, np.multiply(lift, 0.5) * (1 + np.cos(np.pi * np.minimum(turned, 1.0))), 0.0))


def harmonic_half_open(*, lift: Number, lash: Number, half_angle: Number) -> Number:
    """Cam angle [rad] from the nose within which a cosine lobe holds the valve open past a lash at the follower [m].

    Solves harmonic_lift = lash: h/pi arccos(2 lash / L - 1); nought where the lash is never taken up.
    """
    share = np.clip(2 * np.divide(lash, lift) - 1, -1.0, 1.0)
    return plain(np.asarray(half_angle) / np.pi * np.arccos(share))


def harmonic_half_angle(*, lift: Number, lash: Number, half_open: Number) -> Number:
    """Half angle [rad] of the cosine lobe that is open for ``half_open`` at that lash; there and back with half_open."""
    share = np.clip(2 * np.divide(lash, lift) - 1, -1.0, 1.0)
    return plain(np.asarray(half_open) * np.pi / np.arccos(share))


def harmonic_nose_acceleration(*, lift: Number, half_angle: Number, cam_speed: Number) -> Number:
    """Acceleration [m/s2] of the follower over the nose, towards the cam: L/2 (pi w / h)^2, w the cam's speed [rad/s]."""
    return plain(np.multiply(lift, 0.5) * np.square(np.pi * np.asarray(cam_speed) / half_angle))


def lift_table(angles: Array, lifts: Array) -> tuple[Array, Array]:
    """A table of lifts in rising order of angle. Raises LiftTableFault where no lobe can have it."""
    a, y = np.asarray(angles, dtype=np.float64), np.asarray(lifts, dtype=np.float64)
    if a.ndim != 1 or a.shape != y.shape[-1:] or a.size < 3:
        raise LiftTableFault(
            f"{a.size} angles and {y.shape[-1]} lifts were read; as many of each, three at least, would be right."
        )
    order = np.argsort(a)
    if np.any(np.diff(a[order]) <= 0):
        raise LiftTableFault("Two lifts were read at one angle; one lift for each angle would be right.")
    return a[order], y[..., order]


def events(*, angles: Array, lifts: Array, lash: float) -> tuple[float, float]:
    """Cam angles [rad] at which a lobe takes up the lash [m at the follower] and lets it go, by straight lines in the table.

    ``angles`` [rad] and ``lifts`` [m], one lobe. Raises LiftTableFault where the lift never passes the lash or is past it at
    an end of the table.
    """
    a, y = lift_table(angles, lifts)
    over = np.flatnonzero(y > lash)
    if over.size == 0:
        raise LiftTableFault(
            f"The greatest lift read is {y.max() * 1e3:.2f} mm and the lash {lash * 1e3:.2f} mm: it never opens."
        )
    first, last = int(over[0]), int(over[-1])
    if first == 0 or last == a.size - 1:
        raise LiftTableFault("The table starts or ends with the valve open; lifts from heel to heel would be right.")
    opens = np.interp(lash, y[first - 1 : first + 1], a[first - 1 : first + 1])
    closes = np.interp(-lash, -y[last : last + 2], a[last : last + 2])
    return float(opens), float(closes)


def second_derivative(*, angles: Array, lifts: Array, window: int = 5) -> Array:
    """Second derivative of lift by cam angle [m/rad2] at every angle of an even table, smoothed.

    A parabola is fitted by least squares to each ``window`` of neighbouring lifts (Savitzky and Golay, Analytical Chemistry 36
    (1964)); exact for a parabola. An error of one lift comes through multiplied by up to 0.29 / step^2 for a window of 5, so a
    table read to half a thou in steps of 10 degree is good to about 5 thou/rad2. ``lifts`` may be of shape (..., n). Raises
    LiftTableFault for an uneven or too short table.
    """
    from scipy.signal import savgol_filter

    a, y = lift_table(angles, lifts)
    steps = np.diff(a)
    if a.size < window or np.ptp(steps) > 0.02 * steps.mean():
        raise LiftTableFault(
            f"{a.size} lifts were read, in steps from {np.degrees(steps.min()):.1f} to {np.degrees(steps.max()):.1f} degree; "
            f"{window} or more in even steps would be right."
        )
    # the fit is linear in the lifts: worked out once for a unit lift at each angle, it serves any number of tables
    each = savgol_filter(np.eye(a.size), window, 2, deriv=2, delta=float(steps.mean()), axis=0)
    return np.asarray(y @ each.T)


def force_to_hold(*, mass: Number, acceleration: Number) -> Number:
    """Spring force [N] that keeps a mass [kg] on its cam where it is slowed by ``acceleration`` [m/s2] (towards the cam)."""
    return plain(np.maximum(np.multiply(mass, acceleration), 0.0))


def flat_follower_radius(*, base_radius: Number, lift: Number, second: Number) -> Number:
    """Radius of the lobe [m] where it touches a flat follower: R + y + y'' (Norton, Cam Design; from memory).

    ``second`` is y'' by cam angle [m/rad2], negative over the nose; a result of nought or less is an edge.
    """
    return plain(np.add(base_radius, lift) + np.asarray(second))


def roller_cam_radius(*, base_radius: Number, roller_radius: Number, lift: Number, second: Number) -> Number:
    """Radius of the lobe's nose [m] under a roller that moves in line with the cam's centre.

    The roller's centre runs on a curve of radius P^2 / (P - y''), with P = R + r + y, where the follower stands still (y' = 0);
    the lobe lies one roller radius inside it (Norton, Cam Design; from memory).
    """
    pitch = np.add(base_radius, roller_radius) + np.asarray(lift)
    return plain(np.square(pitch) / (pitch - np.asarray(second)) - np.asarray(roller_radius))
