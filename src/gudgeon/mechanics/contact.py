"""Bodies that press on each other along a line or at a point: Hertz's contacts of smooth elastic bodies, dry and at rest.

A radius is positive where the surface is convex, negative where it is hollow, and infinite (``numpy.inf``) where it is flat.
"""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain

SHEAR_OF_LINE, DEPTH_OF_LINE = 0.30, 0.786
"""Greatest shear under a line contact over its greatest pressure, and its depth over the half width (Hertz; Shigley 3-19)."""
SHEAR_OF_POINT, DEPTH_OF_POINT = 0.31, 0.48
"""The same under a round point contact, for a Poisson's ratio of 0.3 (Shigley 3-19)."""


def _yielding(modulus_1: Number, poisson_1: Number, modulus_2: Number, poisson_2: Number) -> Number:
    """(1 - v1^2) / E1 + (1 - v2^2) / E2 [1/Pa]."""
    return plain((1 - np.square(poisson_1)) / modulus_1 + (1 - np.square(poisson_2)) / modulus_2)


def _curvature(radius_1: Number, radius_2: Number) -> Number:
    """1 / d1 + 1 / d2 [1/m]; NaN where the two would touch over their whole faces or not at all."""
    both = 0.5 / np.asarray(radius_1, dtype=np.float64) + 0.5 / np.asarray(radius_2, dtype=np.float64)
    return plain(np.where(both > 0, both, np.nan))


def line_half_width(
    *,
    force: Number,
    length: Number,
    radius_1: Number,
    radius_2: Number,
    modulus_1: Number,
    poisson_1: Number,
    modulus_2: Number,
    poisson_2: Number,
) -> Number:
    """Half width [m] of the strip where two cylinders with parallel axes touch.

    Formula (Hertz; Shigley, Mechanical Engineering Design, 3-19): b = sqrt( 2F/(pi L) [(1-v1^2)/E1 + (1-v2^2)/E2] /
    (1/d1 + 1/d2) ).

    Parameters
    ----------
    force : pressing them together [N]. length : of the line [m], that of the shorter body.
    radius_1, radius_2 : [m]. modulus_* : [Pa]. poisson_* : [1].

    Valid while the strip is narrow against both radii and no body yields. A follower that stands askew bears on one edge and
    is pressed harder than this. NaN where the radii do not meet in a line.
    """
    give = _yielding(modulus_1, poisson_1, modulus_2, poisson_2)
    square = 2 * np.divide(force, np.pi * np.asarray(length)) * give / _curvature(radius_1, radius_2)
    return plain(np.sqrt(square))


def line_pressure(
    *,
    force: Number,
    length: Number,
    radius_1: Number,
    radius_2: Number,
    modulus_1: Number,
    poisson_1: Number,
    modulus_2: Number,
    poisson_2: Number,
) -> Number:
    """Greatest pressure [Pa] in a line contact, on its middle: 2F / (pi b L) with the half width b (Hertz)."""
    half = line_half_width(
        force=force,
        length=length,
        radius_1=radius_1,
        radius_2=radius_2,
        modulus_1=modulus_1,
        poisson_1=poisson_1,
        modulus_2=modulus_2,
        poisson_2=poisson_2,
    )
    return plain(2 * np.asarray(force) / (np.pi * half * length))


def line_force(
    *,
    pressure: Number,
    length: Number,
    radius_1: Number,
    radius_2: Number,
    modulus_1: Number,
    poisson_1: Number,
    modulus_2: Number,
    poisson_2: Number,
) -> Number:
    """Force [N] at which a line contact reaches a pressure [Pa]: pi L p^2 [yielding] / (2 [1/d1 + 1/d2]); there and back."""
    give = _yielding(modulus_1, poisson_1, modulus_2, poisson_2)
    return plain(np.pi * np.multiply(length, np.square(pressure)) * give / (2 * np.asarray(_curvature(radius_1, radius_2))))


def line_shear(*, pressure: Number) -> Number:
    """Greatest shear stress [Pa] under a line contact of a pressure [Pa]: 0.30 p (Shigley 3-19, v = .3)."""
    return plain(np.multiply(SHEAR_OF_LINE, pressure))


def line_shear_depth(*, half_width: Number) -> Number:
    """How deep [m] the greatest shear lies under a line contact: 0.786 b. A hard case must reach well below it."""
    return plain(np.multiply(DEPTH_OF_LINE, half_width))


def point_radius(
    *,
    force: Number,
    radius_1: Number,
    radius_2: Number,
    modulus_1: Number,
    poisson_1: Number,
    modulus_2: Number,
    poisson_2: Number,
) -> Number:
    """Radius [m] of the round spot where two balls touch: a^3 = 3F/8 [(1-v1^2)/E1 + (1-v2^2)/E2] / (1/d1 + 1/d2) (Hertz).

    A ball on a flat has one radius infinite; a ball in a cup has one negative. NaN where they do not meet in a point.
    """
    give = _yielding(modulus_1, poisson_1, modulus_2, poisson_2)
    return plain(np.cbrt(3 / 8 * np.multiply(force, give) / _curvature(radius_1, radius_2)))


def point_pressure(
    *,
    force: Number,
    radius_1: Number,
    radius_2: Number,
    modulus_1: Number,
    poisson_1: Number,
    modulus_2: Number,
    poisson_2: Number,
) -> Number:
    """Greatest pressure [Pa] in a round point contact: 3F / (2 pi a^2) (Hertz; Shigley 3-19)."""
    spot = point_radius(
        force=force,
        radius_1=radius_1,
        radius_2=radius_2,
        modulus_1=modulus_1,
        poisson_1=poisson_1,
        modulus_2=modulus_2,
        poisson_2=poisson_2,
    )
    return plain(3 * np.asarray(force) / (2 * np.pi * np.square(spot)))


def steel_contact_strength(*, hardness: Number) -> Number:
    """Contact pressure [Pa] that steel of a Brinell hardness bears for 10^8 turns: 2.76 HB - 70 MPa.

    Buckingham and AGMA, as in Shigley 6-16 (from memory). For rolling steel of 150 to 400 HB; a guide, not a limit: cast iron
    bears less at the same figure, and a thin case may break into a soft core.
    """
    return plain((2.76 * np.asarray(hardness, dtype=np.float64) - 70.0) * 1e6)
