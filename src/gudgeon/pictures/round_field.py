"""A field over a bore's wall, between the spots that were read: nearest readings count most, and round is round."""

from __future__ import annotations

from collections.abc import Sequence

Spot = tuple[float, float, float]


def between(spots: Sequence[Spot], depth: float, direction: float, *, depth_scale: float, turn: float) -> float:
    """Value at a depth and direction, by inverse squared distance (Shepard 1968) from the spots.

    ``spots`` are (depth, direction, value); directions [degree] repeat after ``turn`` (180 for a diameter, 360 for a wall);
    ``depth_scale`` is the depth that counts as far as an eighth of a turn. Returns a spot's own value at the spot.
    """
    top = bottom = 0.0
    for spot_depth, spot_direction, value in spots:
        away = abs(direction - spot_direction) % turn
        away = min(away, turn - away) / (turn / 8)
        distance = ((depth - spot_depth) / depth_scale) ** 2 + away**2
        if distance < 1e-9:
            return value
        top += value / distance**1.5
        bottom += 1 / distance**1.5
    return top / bottom
