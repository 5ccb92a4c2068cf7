"""Durations: low, likely and high as a distribution, drawn from a table so that every what-if meets the same chances.

The distribution is the PERT beta: a beta on [low, high] with shape ``1 + 4 f`` and ``5 - 4 f``, where ``f`` is the place
of the likely value between low and high. Its mean is ``(low + 4 likely + high) / 6`` exactly. The classical formula takes
the standard deviation as ``(high - low) / 6``, an assumption that fits this beta exactly only where
``7 var = (mean - low)(high - mean)`` gives the same, near ``f = 0.15`` and ``0.85``; in the middle the beta's is
``(high - low) / 5.29``, at the ends ``(high - low) / 7.1``. Source: Malcolm, Roseboom, Clark and Fazar, Operations
Research 7 (1959) 646-669; Clark, Operations Research 10 (1962) 405-406.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.origin import Range

Floats = NDArray[np.float64]
TABLE = 1024
"""Steps of the quantile table; between them it is linear."""
_SHAPES = 64
MOST_GOES = 5
"""A step that keeps failing is counted at most so often."""


def pert_mean(spread: Range) -> float:
    """``(low + 4 likely + high) / 6``, in the unit of the range."""
    return (spread.low + 4 * spread.likely + spread.high) / 6


def pert_variance(spread: Range) -> float:
    """``((high - low) / 6)**2``: the six-sigma assumption of the classical method. The draws use ``beta_variance``."""
    return ((spread.high - spread.low) / 6) ** 2


def beta_variance(spread: Range) -> float:
    """Variance of the PERT beta itself: ``(mean - low)(high - mean) / 7``."""
    mean = pert_mean(spread)
    return (mean - spread.low) * (spread.high - mean) / 7


def chance_by(*, means: Floats, variances: Floats, deadline: float) -> float:
    """Classical chance that steps one after the other end by a deadline: the normal with the sums of means and variances.

    It looks at one path only and so is too hopeful where another comes near; ``simulate`` does not have that fault.
    """
    from scipy.special import ndtr

    spread = float(np.sqrt(np.sum(variances)))
    margin = deadline - float(np.sum(means))
    return float(ndtr(margin / spread)) if spread > 0 else float(margin >= 0)


@lru_cache(maxsize=1)
def _shapes() -> Floats:
    """Quantiles of the unit PERT beta, rows for f = 0 to 1/2, columns for chances 0 to 1. Other half by symmetry."""
    from scipy.special import betaincinv

    place = np.linspace(0.0, 0.5, _SHAPES + 1)[:, None]
    chance = np.linspace(0.0, 1.0, TABLE + 1)
    return np.asarray(betaincinv(1 + 4 * place, 5 - 4 * place, chance), dtype=float)


def unit_quantiles(place: float) -> Floats:
    """Quantile table of the unit PERT beta whose likely value lies at ``place`` (0 to 1), shape (TABLE + 1,).

    Rows between the tabled shapes are blended: off by less than 2e-5 of the range.
    """
    folded = min(place, 1 - place) * 2 * _SHAPES
    row = min(int(folded), _SHAPES - 1)
    shapes = _shapes()
    table: Floats = shapes[row] + (folded - row) * (shapes[row + 1] - shapes[row])
    return 1 - table[::-1] if place > 0.5 else table


@dataclass(frozen=True, kw_only=True)
class Spread:
    """A distribution as a quantile table: ``table[i]`` is the value not passed with chance ``i / TABLE``."""

    table: Floats

    def at(self, chance: Floats) -> Floats:
        """Values at the given chances (0 to 1)."""
        place = np.clip(chance, 0.0, 1.0) * TABLE
        low = np.minimum(place.astype(np.int64), TABLE - 1)
        values: Floats = self.table[low] + (place - low) * (self.table[low + 1] - self.table[low])
        return values

    def chance_of(self, value: float) -> float:
        """Chance of not passing a value."""
        if value <= self.table[0]:
            return 0.0
        if value >= self.table[-1]:
            return 1.0
        return float(np.interp(value, self.table, np.linspace(0.0, 1.0, TABLE + 1)))

    def left_after(self, elapsed: float) -> Spread | None:
        """What is still to come when ``elapsed`` has gone by without it: the upper tail, less what has gone. None if the
        distribution says that it should have been over by now."""
        gone = self.chance_of(elapsed)
        if gone >= 1.0:
            return None
        chances = gone + (1 - gone) * np.linspace(0.0, 1.0, TABLE + 1)
        return Spread(table=np.maximum(self.at(chances) - elapsed, 0.0))


def spread_of(estimated: Range, *, times: float = 1.0) -> Spread:
    """The PERT beta of a range, all of it multiplied by ``times``. Raises ValueError for a range that starts below 0."""
    if estimated.low < 0:
        raise ValueError(f"A duration from {estimated.low:g} was read; none below 0 would be right.")
    width = estimated.high - estimated.low
    place = (estimated.likely - estimated.low) / width if width > 0 else 0.5
    return Spread(table=times * (estimated.low + width * unit_quantiles(place)))


def certain(value: float) -> Spread:
    """A value without spread."""
    return Spread(table=np.full(TABLE + 1, float(value)))


def hashed(seed: int | NDArray[np.uint64], numbers: NDArray[np.uint64]) -> Floats:
    """Numbers evenly spread between 0 and 1, each from its stream and its place in it, always the same.

    SplitMix64's output function on ``seed + (number + 1) x golden gamma`` (Steele, Lea and Flood, OOPSLA 2014): any run of
    any step may be drawn by itself, on any processor, and gives what it gave before.
    """
    with np.errstate(over="ignore"):
        mixed = np.asarray(seed, dtype=np.uint64) + (numbers + np.uint64(1)) * np.uint64(0x9E3779B97F4A7C15)
        mixed = (mixed ^ (mixed >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
        mixed = (mixed ^ (mixed >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
        mixed = mixed ^ (mixed >> np.uint64(31))
    even: Floats = ((mixed >> np.uint64(11)).astype(np.float64) + 0.5) * 2.0**-53
    return even


def stream(*names: str) -> int:
    """The 64-bit seed of a stream, from what it stands for."""
    from gudgeon.quantity.draws import seed_of

    return int(seed_of("planning", *names)) & 0xFFFFFFFFFFFFFFFF


def drawn(spread: Spread, *names: str, runs: int) -> Floats:
    """Draws of a distribution under a name: the same chances for the same name, whatever the distribution."""
    return spread.at(hashed(stream(*names), np.arange(runs, dtype=np.uint64)))


def drawn_goes(spread: Spread, may_fail: Range | None, *names: str, runs: int) -> Floats:
    """Draws of a step that is done again when it fails, each go with its own duration.

    The number of goes is geometric, counted to ``MOST_GOES`` at most; the chance of failing is itself drawn from its range.
    Raises ValueError for a chance outside 0 to 1.
    """
    total = drawn(spread, *names, runs=runs)
    if may_fail is None or may_fail.high <= 0:
        return total
    failing = failures(may_fail, *names, runs=runs)
    for go in range(1, MOST_GOES):
        again = failing >= go
        if not again.any():
            break
        total = total + np.where(again, drawn(spread, *names, f"go {go + 1}", runs=runs), 0.0)
    return total


def failures(may_fail: Range, *names: str, runs: int) -> NDArray[np.int64]:
    """How often a step fails before it succeeds, at most ``MOST_GOES - 1``: ``floor(ln u / ln p)``, the geometric."""
    if not (may_fail.low >= 0 and may_fail.high <= 1):
        raise ValueError(
            f"A chance of failing from {may_fail.low:g} to {may_fail.high:g} was read; between 0 and 1 would be right."
        )
    chance = drawn(spread_of(may_fail), names[0], "chance of failing", runs=runs)
    luck = hashed(stream(names[0], "failing"), np.arange(runs, dtype=np.uint64))
    with np.errstate(divide="ignore"):
        goes = np.where(chance >= 1, MOST_GOES, np.floor(np.log(luck) / np.log(np.clip(chance, 1e-300, 1 - 1e-16))))
    return np.minimum(goes, MOST_GOES - 1).astype(np.int64)
