"""What grinding a valve's face and cutting its seat takes: margin, sink, seat width.

The angle of a face or seat is counted from flat, that is from square across the stem: 45 and 30 degree are the usual ones.
"""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain


def margin_lost(*, ground: Number, angle: Number) -> Number:
    """Height of the edge [m] that is lost where ``ground`` [m] is taken square off the face: g / cos a (plane geometry)."""
    return plain(np.divide(ground, np.cos(angle)))


def margin_after(*, margin: Number, ground: Number, angle: Number) -> Number:
    """Margin [m] left after refacing; below nought the edge is a knife."""
    return plain(np.subtract(margin, margin_lost(ground=ground, angle=angle)))


def may_be_ground(*, margin: Number, least: Number, angle: Number) -> Number:
    """How much may be taken square off the face [m] until the least margin is left; there and back with margin_after."""
    return plain(np.multiply(np.subtract(margin, least), np.cos(angle)))


def sink(*, face_ground: Number, seat_cut: Number, angle: Number) -> Number:
    """How far the valve goes down [m] when face and seat lose so much, each square to its cone: (g + s) / cos a.

    The lash closes by as much, and the spring stands that much longer.
    """
    return plain(np.add(face_ground, seat_cut) / np.cos(angle))


def seat_width(*, outer_diameter: Number, inner_diameter: Number, angle: Number) -> Number:
    """Width of a seat along its cone [m]: half the difference of its diameters over cos a."""
    return plain(np.subtract(outer_diameter, inner_diameter) / 2 / np.cos(angle))


def seat_outer_diameter(*, inner_diameter: Number, width: Number, angle: Number) -> Number:
    """Outer diameter of a seat [m] of a width along its cone; there and back with seat_width."""
    return plain(np.asarray(inner_diameter) + 2 * np.asarray(width) * np.cos(angle))


def seat_width_after(*, width: Number, cut: Number, angle: Number) -> Number:
    """Width of a seat [m] along its cone after ``cut`` [m] is taken square off it, before it is narrowed again.

    Between a straight throat and the flat of the casting both edges run out: w + c (tan a + 1 / tan a), plane geometry; a 45
    degree seat widens by twice what is cut.
    """
    return plain(np.asarray(width) + np.multiply(cut, np.tan(angle) + 1 / np.tan(angle)))
