"""Where the piston stands for a crank angle and back, dead centres, distances on the rim, for a cylinder set off or not.

Angles are turned from inner dead centre [rad]. Inner: the piston deepest in the cylinder; outer: nearest the crank. The
crank's own angle is counted from the line through its axis along the cylinder; with an offset the dead centres miss it.
The offset is positive on the side to which the crank pin moves as the piston leaves inner dead centre.
"""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Array, Number, plain


def inner_centre(*, throw: Number, rod: Number, offset: Number = 0.0) -> Number:
    """The crank's own angle at inner dead centre [rad]: crank and rod in one line, asin(e / (l + r))."""
    return plain(np.arcsin(np.divide(offset, np.add(rod, throw))))


def outer_centre(*, throw: Number, rod: Number, offset: Number = 0.0) -> Number:
    """Angle turned from inner to outer dead centre [rad]: pi without offset, pi + asin(e/(l-r)) - asin(e/(l+r)) with one."""
    outer = np.pi + np.arcsin(np.divide(offset, np.subtract(rod, throw)))
    return plain(outer - inner_centre(throw=throw, rod=rod, offset=offset))


def stroke(*, throw: Number, rod: Number, offset: Number = 0.0) -> Number:
    """Stroke [m]: sqrt((l+r)^2 - e^2) - sqrt((l-r)^2 - e^2), a little over twice the throw where there is an offset."""
    ends = [np.sqrt(np.square(arm) - np.square(offset)) for arm in (np.add(rod, throw), np.subtract(rod, throw))]
    return plain(ends[0] - ends[1])


def piston_depth(*, angle: Number, throw: Number, rod: Number, offset: Number = 0.0) -> Number:
    """How far the piston stands down from inner dead centre [m], at an angle turned from there [rad].

    Without offset r (1 - cos a) + l - sqrt(l^2 - r^2 sin^2 a); Heywood, Internal Combustion Engine Fundamentals, eq. 2.5.
    """
    own = np.asarray(angle) + inner_centre(throw=throw, rod=rod, offset=offset)
    return plain(_top(throw, rod, offset) - _height(own, throw, rod, offset))


def _top(throw: Number, rod: Number, offset: Number) -> Array:
    return np.asarray(np.sqrt(np.square(np.add(rod, throw)) - np.square(offset)))


def _height(own: Array, throw: Number, rod: Number, offset: Number) -> Array:
    """Pin over the crank's axis [m]: r cos a + sqrt(l^2 - (r sin a - e)^2)."""
    lean = throw * np.sin(own) - offset
    return np.asarray(throw * np.cos(own) + np.sqrt(np.square(rod) - np.square(lean)))


def crank_angle(*, depth: Number, throw: Number, rod: Number, offset: Number = 0.0, rising: bool = False) -> Number:
    """Angle turned from inner dead centre [rad] at which the piston stands ``depth`` [m] down from there; in closed form.

    Pin, crank axis and crank pin are a triangle of known sides. ``rising`` takes the piston on its way back, so that the
    angle lies between that of outer dead centre and a full turn. NaN where the piston never stands so deep.
    """
    height = _top(throw, rod, offset) - depth
    far = np.hypot(offset, height)
    cosine = (np.square(throw) + np.square(far) - np.square(rod)) / (2 * throw * far)
    near = np.where(np.abs(cosine) > 1 + 1e-9, np.nan, np.clip(cosine, -1.0, 1.0))
    own = np.arctan2(offset, height) + (-1 if rising else 1) * np.arccos(near)
    turned = own - inner_centre(throw=throw, rod=rod, offset=offset)
    return plain(np.where(turned < -1e-12, turned + 2 * np.pi, turned) if rising else turned)


def rim_distance(*, angle: Number, diameter: Number) -> Number:
    """Distance along a flywheel's rim [m] for an angle [rad]: with a tape, D/2 x angle."""
    return plain(np.multiply(diameter, angle) / 2)


def rim_angle(*, distance: Number, diameter: Number) -> Number:
    """Angle [rad] for a distance along the rim [m]."""
    return plain(2 * np.divide(distance, diameter))


def rim_chord(*, angle: Number, diameter: Number) -> Number:
    """Straight distance between two marks on the rim [m], as dividers take it: D sin(angle/2)."""
    return plain(np.multiply(diameter, np.sin(np.divide(angle, 2))))


def angle_of_chord(*, chord: Number, diameter: Number) -> Number:
    """Angle [rad] for a straight distance between two marks on the rim [m]."""
    return plain(2 * np.arcsin(np.divide(chord, diameter)))


def dead_centre_by_stop(*, before: Number, after: Number) -> Number:
    """The mark at inner dead centre, from the marks where the piston meets a stop turned either way: half way between.

    In whatever the marks are read in (degrees or distance along the rim, growing with rotation). Exact without offset;
    ``stop_error`` says how far off it is with one.
    """
    return plain((np.asarray(before) + after) / 2)


def stop_error(*, depth: Number, throw: Number, rod: Number, offset: Number) -> Number:
    """How far the middle between the stop's two marks lies past inner dead centre [rad], for a stop that holds the piston
    ``depth`` [m] down; the shallower the stop, the smaller."""
    down = np.asarray(crank_angle(depth=depth, throw=throw, rod=rod, offset=offset))
    back = np.asarray(crank_angle(depth=depth, throw=throw, rod=rod, offset=offset, rising=True))
    return plain((down + back) / 2 - np.pi)
