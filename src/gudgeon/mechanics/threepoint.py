"""What a two-point gauge, a V-block or a three-legged gauge sees of a lobed part."""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain


def two_point_factor(*, lobes: Number) -> Number:
    """Reading of a two-point diameter over the lobed part's radial height: 2 for even lobes, 0 for odd ones.

    A micrometer or a two-point bore gauge is blind to three, five, seven lobes (ISO 12181-2, BS 3730).
    """
    return plain(1 + np.cos(np.multiply(np.pi, lobes)))


def vee_block_factor(*, lobes: Number, angle: Number) -> Number:
    """Reading of an indicator over a V-block, on its bisector, over the lobed part's radial height.

    For r = R + a cos(n phi) the reading's range is this factor times 2 a. Derived: the V of included ``angle`` [rad] holds
    the part at 90 degree + angle / 2 either side of the top, so the centre rises by the mean of both radii over
    sin(angle / 2):

        factor = 1 + cos(n (90 degree + angle / 2)) / sin(angle / 2)

    Known points: 60 degree and three lobes 3; 90 degree and three lobes 2, seven lobes 0. Negative: the reading falls
    where the part is high.
    """
    half = np.divide(angle, 2)
    return plain(1 + np.cos(np.multiply(lobes, np.pi / 2 + half)) / np.sin(half))


def three_leg_factor(*, lobes: Number) -> Number:
    """Mean radius at legs 120 degree apart over the radial height of the lobes: 1 for three, six, nine lobes, else 0."""
    turn = np.multiply(2 * np.pi / 3, lobes)
    return plain((1 + 2 * np.cos(turn)) / 3)
