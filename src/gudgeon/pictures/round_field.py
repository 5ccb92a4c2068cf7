"""A field over a bore's wall, between the spots that were read: nearest readings count most, and round is round."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

Spot = tuple[float, float, float]


def between(
    spots: Sequence[Spot], depth: ArrayLike, direction: ArrayLike, *, depth_scale: float, turn: float
) -> NDArray[np.float64]:
    """Values at depths and directions, by inverse distance (Shepard 1968, power 3) from the spots.

    ``spots`` are (depth, direction, value); ``depth`` and ``direction`` broadcast against each other, and so comes the answer.
    Directions [degree] repeat after ``turn`` (180 for a diameter, 360 for a wall); ``depth_scale`` is the depth that counts
    as far as an eighth of a turn. At a spot the answer is the spot's own value.
    """
    at_depth, at_direction, value = np.array(spots, dtype=float).T
    depth, direction = np.broadcast_arrays(np.asarray(depth, float), np.asarray(direction, float))
    away = np.abs(direction[..., None] - at_direction) % turn
    away = np.minimum(away, turn - away) / (turn / 8)
    distance = ((depth[..., None] - at_depth) / depth_scale) ** 2 + away**2
    weight = np.maximum(distance, 1e-12) ** -1.5
    nearest = np.argmin(distance, axis=-1)
    mean = (weight * value).sum(axis=-1) / weight.sum(axis=-1)
    return np.asarray(np.where(distance.min(axis=-1) < 1e-9, value[nearest], mean))
