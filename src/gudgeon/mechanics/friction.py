"""Friction clutches: what a plate or a cone carries, new and worn in."""

from __future__ import annotations

from typing import Literal

import numpy as np

from gudgeon.mechanics.numbers import Number, plain

Pressing = Literal["worn in", "new"]


def mean_radius(*, outside: Number, inside: Number, pressing: Pressing = "worn in") -> Number:
    """Radius at which the friction of a ring acts [m].

    Worn in, pressure falls outward and it is (R + r) / 2; new, pressed evenly, 2/3 (R^3 - r^3) / (R^2 - r^2) (Shigley 16-5).
    """
    big, small = np.divide(outside, 2), np.divide(inside, 2)
    if pressing == "worn in":
        return plain((big + small) / 2)
    return plain(2 / 3 * (big**2 + big * small + small**2) / (big + small))


def plate_torque(
    *, force: Number, friction: Number, outside: Number, inside: Number, faces: Number = 2, pressing: Pressing = "worn in"
) -> Number:
    """Torque that a plate clutch carries before it slips [N m]: n mu F R.

    ``force`` presses the plates together [N]; ``faces`` rub (two to a plate lined on both sides).
    """
    radius = mean_radius(outside=outside, inside=inside, pressing=pressing)
    return plain(np.multiply(faces, friction) * np.multiply(force, radius))


def cone_torque(
    *, force: Number, friction: Number, outside: Number, inside: Number, half_angle: Number, pressing: Pressing = "worn in"
) -> Number:
    """Torque that a cone clutch carries [N m]: mu F R / sin(a), a between face and axis; F along the axis [N] (Shigley 16-7).

    Below the angle of friction the cone holds by itself and must be knocked out.
    """
    radius = mean_radius(outside=outside, inside=inside, pressing=pressing)
    return plain(np.multiply(friction, force) * np.divide(radius, np.sin(half_angle)))


def face_pressure(*, force: Number, outside: Number, inside: Number) -> Number:
    """Greatest pressure of a worn-in ring, at its inside [Pa]: F / (2 pi r (R - r)) (Shigley 16-5)."""
    big, small = np.divide(outside, 2), np.divide(inside, 2)
    return plain(np.divide(force, 2 * np.pi * small * (big - small)))


def force_for_torque(*, torque: Number, friction: Number, outside: Number, inside: Number, faces: Number = 2) -> Number:
    """Force [N] that carries a torque by worn-in plates; ``plate_torque`` turned round."""
    radius = mean_radius(outside=outside, inside=inside)
    return plain(np.divide(torque, np.multiply(faces, friction) * radius))
