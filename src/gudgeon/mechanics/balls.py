"""Loose balls in a race: how many go in, and what a worn one does."""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain


def full_complement(*, circle: Number, ball: Number) -> Number:
    """Greatest whole number of balls on a circle through their centres: pi / asin(d / D), rounded down (plane geometry).

    Neighbours on a circle of diameter D stand D sin(pi / n) apart, which may not be less than d. NaN where no ball goes in.
    """
    ratio = np.asarray(ball, dtype=np.float64) / np.asarray(circle, dtype=np.float64)
    safe = np.where((ratio > 0) & (ratio <= 1), ratio, np.nan)
    return plain(np.floor(np.pi / np.arcsin(safe) + 1e-9))


def room_left(*, circle: Number, ball: Number, count: Number) -> Number:
    """Room between so many balls, all of it together, along the circle [m]: n (D sin(pi / n) - d); negative where they jam."""
    n = np.asarray(count, dtype=np.float64)
    return plain(n * (np.asarray(circle) * np.sin(np.pi / n) - np.asarray(ball)))
