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
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.system import WearPlace

Array = NDArray[np.float64]

# share of cases, lowest and highest fraction of the greatest wear
FRACTIONS: dict[str, tuple[tuple[float, float, float], ...]] = {
    "none": ((1.0, 0.0, 0.0),),
    "unworn": ((0.72, 0.0, 0.02), (0.22, 0.0, 0.12), (0.06, 0.0, 0.6)),
    "little": ((0.55, 0.0, 0.15), (0.35, 0.05, 0.4), (0.10, 0.0, 1.0)),
    "some": ((0.80, 0.05, 0.7), (0.20, 0.0, 1.0)),
    "most": ((0.75, 0.4, 1.0), (0.25, 0.05, 1.0)),
    "unknown": ((1.0, 0.0, 1.0),),
    "said to be unworn": ((0.4, 0.0, 0.15), (0.6, 0.0, 1.0)),
    "either": ((1.0, -1.0, 1.0),),
}
RAISED = ("some", "most", "unknown")
"""Places whose wear never falls below the base."""
BASES = np.array([0.0, 0.25, 0.6])
"""Wear that even the least worn of the spots not known to be unworn has, as a fraction of the greatest."""
BASE_SHARES = np.array([0.42, 0.38, 0.2])
WEAR_NODES = np.array([-2.1, -1.4, -0.7, 0.0, 0.7, 1.4, 2.1])
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


def likelihoods(instances: Sequence[Sequence[Spot]], *, grid: Array, usual_wear: float) -> Array:
    """Likelihood of what each instance measured when new, for each base fraction.

    Parameters
    ----------
    instances : the spots of each; sizes run in the direction in which wear adds.
    grid : evenly spaced sizes when new [m], rising, same direction.
    usual_wear : median of the greatest wear of such an instance before anything is read [m].

    Returns
    -------
    array of shape (bases, instances, grid); only ratios within one instance mean anything (its largest value is 1).

    The fractions of wear are rounded to steps of the grid, which is half of the sharpest spot's uncertainty or finer.
    """
    count, start = grid.size, float(grid[0])
    step = float(f"{grid[1] - grid[0]:.9g}")  # free of the last bits, so that equal grids share their curves
    found = np.empty((BASES.size, len(instances), count))
    for number, spots in enumerate(instances):
        plain = np.zeros((1, WEAR_NODES.size, count), dtype=np.float32)
        raised = np.zeros((BASES.size, WEAR_NODES.size, count), dtype=np.float32)
        for spot in spots:
            kernel = _kernel(count, step, spot.uncertainty, spot.place, spot.trust, usual_wear)
            shift = min(max(round((spot.size - start) / step), 0), count - 1)
            part = kernel[:, :, count - 1 - shift : 2 * count - 1 - shift]
            if part.shape[0] == 1:
                plain += part
            else:
                raised += part
        total = plain + raised
        total -= total.max()
        found[:, number] = np.einsum("w,bwx->bx", WEAR_SHARES.astype(np.float32), np.exp(total))
    return found


@lru_cache(maxsize=256)
def _kernel(count: int, step: float, uncertainty: float, place: str, trust: float, usual_wear: float) -> NDArray[np.float32]:
    """Logarithm of the density of a reading by size when new less reading, in steps from 1 - count to count - 1; shape
    (bases or 1, worst, .)."""
    from scipy.special import ndtr

    worst = usual_wear * np.exp(WEAR_SPREAD * WEAR_NODES)
    farthest = int(worst[-1] / step) + 2
    # below[m] is the chance that the error of reading is under (middle - m) steps
    middle = count + farthest
    below = ndtr((middle - np.arange(2 * middle + 1)) * (step / uncertainty)).astype(np.float32)
    windows = np.lib.stride_tricks.sliding_window_view(below, 2 * count - 1)
    raised = BASES[:, None] if place in RAISED else BASES[:1, None] * 0
    reach = worst[None, :] / step
    trust *= 1 - STRAY
    density = np.full((raised.shape[0], worst.size, 2 * count - 1), (1 - trust) / STRAY_WIDTH, dtype=np.float32)
    for share, low, high in FRACTIONS[place]:
        first = np.rint((low + raised * (1 - low)) * reach).astype(np.intp)
        last = np.maximum(np.rint((high + raised * (1 - high)) * reach).astype(np.intp), first + 1)
        scale = (trust * share / ((last - first) * step)).astype(np.float32)
        density += scale[:, :, None] * (windows[farthest + 1 + first] - windows[farthest + 1 + last])
    logs: NDArray[np.float32] = np.log(density)
    return logs
