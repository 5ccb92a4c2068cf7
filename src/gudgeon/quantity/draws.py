"""Random draws that depend on what they stand for and on nothing else, and what is read off them.

The same names give the same draws in every run and on every machine with the same numpy (numpy keeps the bit streams of
PCG64; NEP 19 lets a new numpy release change how a distribution is made from them). Two remedies computed on draws of the
same names are compared on the same chances.
"""

from __future__ import annotations

import math
from hashlib import sha256
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Floats = NDArray[np.float64]

COUNT = 20_000


def seed_of(*names: object) -> int:
    """A whole number below 2^128 that stands for these names: the head of SHA-256 over them, each with its length before it."""
    digest = sha256()
    for name in names:
        data = str(name).encode()
        digest.update(b"%d:" % len(data) + data)
    return int.from_bytes(digest.digest()[:16], "big")


def generator(*names: object) -> np.random.Generator:
    """A PCG64 generator of its own for these names."""
    return np.random.Generator(np.random.PCG64(seed_of(*names)))


def standard_normal(*names: object, count: int = COUNT) -> Floats:
    """``count`` draws with mean 0 and standard deviation 1."""
    return generator(*names).standard_normal(count)


def normal(*names: object, mean: float, sd: float, count: int = COUNT) -> Floats:
    """``count`` normal draws."""
    return mean + sd * standard_normal(*names, count=count)


def uniform(*names: object, low: float = 0.0, high: float = 1.0, count: int = COUNT) -> Floats:
    """``count`` draws, any value from low to high equally likely (JCGM 101:2008, 6.4.2)."""
    return low + (high - low) * generator(*names).random(count)


def student(*names: object, mean: float, scale: float, freedom: float, count: int = COUNT) -> Floats:
    """``count`` draws of a mean known from a few repeats, as scaled and shifted t (JCGM 101:2008, 6.4.9)."""
    if math.isinf(freedom):
        return normal(*names, mean=mean, sd=scale, count=count)
    return mean + scale * generator(*names).standard_t(freedom, count)


def arcsine(*names: object, low: float, high: float, count: int = COUNT) -> Floats:
    """``count`` draws of something that swings as a sine between two ends (JCGM 101:2008, 6.4.6)."""
    turn = generator(*names).random(count)
    return np.asarray((low + high) / 2 + (high - low) / 2 * np.sin(2 * np.pi * turn), dtype=float)


def curvilinear_trapezoid(*names: object, low: float, high: float, inexact: float, count: int = COUNT) -> Floats:
    """``count`` draws between two ends that are themselves known only within ``inexact`` (JCGM 101:2008, 6.4.3)."""
    chances = generator(*names).random((2, count))
    start = (low - inexact) + 2 * inexact * chances[0]
    return np.asarray(start + (low + high - 2 * start) * chances[1], dtype=float)


def triangular(*names: object, low: float, mode: float, high: float, count: int = COUNT) -> Floats:
    """``count`` draws between two ends with a likeliest value."""
    if not low < high:
        return np.full(count, mode)
    return generator(*names).triangular(low, mode, high, count)


def quantiles(draws: ArrayLike, chances: tuple[float, ...] = (0.5, 0.05, 0.95)) -> tuple[float, ...]:
    """The values below which these shares of the draws lie: by default median, 5 % and 95 %.

    Hyndman and Fan's definition 7, as numpy's, by sorting (which numpy does faster than sorting in part). Draws that are not a
    number are left out; all of them so gives NaN. Raises ValueError for no draws or a chance outside 0 to 1.
    """
    values = np.asarray(draws, dtype=float).ravel()
    if values.size == 0:
        raise ValueError("0 draws were given; quantiles need at least one.")
    if any(not 0 <= chance <= 1 for chance in chances):
        raise ValueError(f"chances {chances} were given; each must lie from 0 to 1.")
    if math.isnan(float(values.sum())):
        values = values[~np.isnan(values)]
        if values.size == 0:
            return (math.nan,) * len(chances)
    places = [chance * (values.size - 1) for chance in chances]
    ordered = np.sort(values)
    return tuple(_between(float(ordered[math.floor(place)]), float(ordered[math.ceil(place)]), place % 1) for place in places)


def _between(low: float, high: float, share: float) -> float:
    return low if share == 0 or low == high else low + (high - low) * share


def chance_above(draws: ArrayLike, limit: ArrayLike) -> float:
    """The share of draws past a limit, which may itself be draws; draws that are not a number are left out."""
    difference = np.asarray(draws, dtype=float) - np.asarray(limit, dtype=float)
    known = int(np.count_nonzero(~np.isnan(difference)))
    return float(np.count_nonzero(difference > 0) / known) if known else math.nan


def chance_below(draws: ArrayLike, limit: ArrayLike) -> float:
    """The share of draws under a limit."""
    return chance_above(-np.asarray(draws, dtype=float), -np.asarray(limit, dtype=float))


def shortest_interval(draws: ArrayLike, coverage: float = 0.95) -> tuple[float, float]:
    """The narrowest interval that holds this share of the draws (JCGM 101:2008, 7.7.2 to 7.7.4)."""
    values = np.sort(np.asarray(draws, dtype=float).ravel())
    held = round(coverage * values.size)
    if not 1 <= held < values.size:
        raise ValueError(f"{values.size} draws were given; a {coverage:.0%} interval needs more.")
    start = int(np.argmin(values[held:] - values[:-held]))
    return float(values[start]), float(values[start + held])
