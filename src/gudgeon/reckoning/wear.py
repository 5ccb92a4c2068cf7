"""Wear as evidence: how likely a reading is, given what the part measured when new and where on it the reading was taken.

A reading shows the size when new, plus wear that is never negative, plus the error of reading. Wear at a spot is a fraction of
the instance's greatest wear W; which fraction, depends on the place. Neither W nor the wear common to all spots is known; both
are summed over. Places follow the engine's description ("below ring travel" is unworn, "top of ring travel" most worn).
Fractions are common practice, from the wear pattern that TM and navy texts describe (greatest at the top of ring travel, none
below it; journals worn most on the loaded side), and are checked by simulation.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.system import WearPlace

Array = NDArray[np.float64]

# share of cases, lowest and highest fraction of the greatest wear
FRACTIONS: dict[str, tuple[tuple[float, float, float], ...]] = {
    "none": ((1.0, 0.0, 0.0),),
    "unworn": ((0.72, 0.0, 0.02), (0.22, 0.0, 0.12), (0.06, 0.0, 0.6)),
    "little": ((0.55, 0.0, 0.15), (0.35, 0.05, 0.4), (0.10, 0.0, 1.0)),
    "some": ((0.80, 0.05, 0.6), (0.20, 0.0, 1.0)),
    "most": ((0.80, 0.5, 1.0), (0.20, 0.0, 1.0)),
    "unknown": ((1.0, 0.0, 1.0),),
    "either": ((1.0, -1.0, 1.0),),
}
RAISED = ("some", "most", "unknown")
"""Places whose wear never falls below the base."""
BASES = np.array([0.0, 0.2, 0.45, 0.7])
"""Wear that even the least worn of the spots not known to be unworn has, as a fraction of the greatest."""
BASE_SHARES = np.array([0.4, 0.32, 0.2, 0.08])
WEAR_NODES = np.array([-2.4, -1.8, -1.2, -0.6, 0.0, 0.6, 1.2, 1.8, 2.4])
WEAR_SHARES = np.exp(-0.5 * WEAR_NODES**2) / np.exp(-0.5 * WEAR_NODES**2).sum()
WEAR_SPREAD = 1.1
"""Standard deviation of the logarithm of the greatest wear about its usual value."""
STRAY = 0.004
"""Share of spots whose reading has nothing to do with the size (a slip that nobody noticed)."""
STRAY_WIDTH = 0.03 * 0.0254


@dataclass(frozen=True, slots=True)
class Spot:
    """One spot's evidence: size in the direction in which wear adds [m], own standard uncertainty [m], place, and trust (the
    probability that the reading is not a slip)."""

    size: float
    uncertainty: float
    place: WearPlace | str
    trust: float = 1.0


def likelihood(spots: Sequence[Spot], *, grid: Array, usual_wear: float) -> Array:
    """Likelihood of what one instance measured when new, for each base fraction.

    Parameters
    ----------
    spots : its spots; sizes run in the direction in which wear adds.
    grid : evenly spaced sizes when new [m], rising, same direction.
    usual_wear : median of the greatest wear of such an instance before anything is read [m].

    Returns
    -------
    array of shape (bases, grid); only ratios within it mean anything (it is scaled so that its largest value is 1).

    The fractions of wear are rounded to steps of the grid, which is two fifths of the sharpest spot's uncertainty or finer.
    """
    count = grid.size
    step = float(grid[1] - grid[0])
    worst = usual_wear * np.exp(WEAR_SPREAD * WEAR_NODES)
    kernels: dict[tuple[float, str, float], Array] = {}
    total = np.zeros((BASES.size, worst.size, count))
    for spot in spots:
        key = (spot.uncertainty, spot.place, spot.trust)
        if key not in kernels:
            kernels[key] = np.log(_kernel(count, step, spot, worst))
        shift = min(max(round((spot.size - float(grid[0])) / step), 0), count - 1)
        total += kernels[key][:, :, count - 1 - shift : 2 * count - 1 - shift]
    total -= total.max()
    likely: Array = np.einsum("w,bwx->bx", WEAR_SHARES, np.exp(total))
    return likely


def _kernel(count: int, step: float, spot: Spot, worst: Array) -> Array:
    """Density of a reading, by size when new less reading in steps from 1 - count to count - 1; shape (bases or 1, worst, ...)."""
    from scipy.special import ndtr

    farthest = int(worst[-1] / step) + 2
    # below[m] is the chance that the error of reading is under (m - middle) steps
    middle = count + 2 * farthest
    below = ndtr((np.arange(2 * middle + 1) - middle) * (step / spot.uncertainty))
    offsets = np.arange(count - 1, -count, -1)
    raised = BASES if spot.place in RAISED else BASES[:1]
    steps = worst / step
    density = np.zeros((raised.size, worst.size, offsets.size))
    for share, low, high in FRACTIONS[spot.place]:
        first = np.rint((low + raised * (1 - low))[:, None] * steps).astype(int) if spot.place in RAISED else low_steps(low, steps)
        last = np.rint((high + raised * (1 - high))[:, None] * steps).astype(int) if spot.place in RAISED else low_steps(high, steps)
        last = np.maximum(last, first + 1)
        # half a step either way so that a width of one step lies about its middle
        upper = below[middle + offsets - first[:, :, None]]
        lower = below[middle + offsets - last[:, :, None]]
        density += share * (upper - lower) / ((last - first) * step)[:, :, None]
    trust = spot.trust * (1 - STRAY)
    whole: Array = trust * density + (1 - trust) / STRAY_WIDTH
    return whole


def low_steps(fraction: float, steps: Array) -> NDArray[np.int64]:
    """A fraction of each greatest wear, in whole steps, shape (1, worst)."""
    return np.rint(fraction * steps).astype(np.int64)[None, :]
