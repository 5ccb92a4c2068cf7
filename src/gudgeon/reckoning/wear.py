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
    """
    step = grid[1] - grid[0]
    count = grid.size
    worst = usual_wear * np.exp(WEAR_SPREAD * WEAR_NODES)
    offsets = (np.arange(2 * count - 1) - (count - 1)) * step
    kernels: dict[tuple[float, str, float], Array] = {}
    total = np.zeros((BASES.size, worst.size, count))
    for spot in spots:
        key = (spot.uncertainty, spot.place, spot.trust)
        if key not in kernels:
            kernels[key] = np.log(_kernel(offsets, spot, worst))
        shift = int(np.clip(round((spot.size - grid[0]) / step), 0, count - 1))
        # kernel index of (size - x) for x on the grid runs backwards
        total += kernels[key][:, :, shift : shift + count][:, :, ::-1]
    total -= total.max()
    likely: Array = np.einsum("w,bwx->bx", WEAR_SHARES, np.exp(total))
    return likely


def _kernel(offsets: Array, spot: Spot, worst: Array) -> Array:
    """Density of (reading minus size when new), shape (bases, worst, offsets)."""
    density = np.zeros((BASES.size, worst.size, offsets.size))
    for share, low, high in FRACTIONS[spot.place]:
        raised = BASES if spot.place in ("some", "most", "unknown") else np.zeros_like(BASES)
        lowest, highest = low + raised * (1 - low) if low >= 0 else raised * 0 + low, high + raised * (1 - high)
        density += share * _smeared(
            offsets, worst[None, :] * lowest[:, None], worst[None, :] * highest[:, None], spot.uncertainty
        )
    trust = spot.trust * (1 - STRAY)
    return trust * density + (1 - trust) / STRAY_WIDTH


def _smeared(offsets: Array, low: Array, high: Array, uncertainty: float) -> Array:
    """An even distribution from low to high with a normal error on top; never narrower than a fifth of the error."""
    from scipy.special import ndtr

    middle, half = (low + high) / 2, np.maximum((high - low) / 2, 0.1 * uncertainty)
    upper = ndtr((offsets - (middle - half)[:, :, None]) / uncertainty)
    lower = ndtr((offsets - (middle + half)[:, :, None]) / uncertainty)
    smeared: Array = (upper - lower) / (2 * half[:, :, None])
    return np.maximum(smeared, 0.0)
