"""Wall thickness round a bore, in the round, against the least that may be left."""

from __future__ import annotations

from collections import defaultdict
from math import cos, radians, sin

import numpy as np

from gudgeon.engine.picture import WallMap
from gudgeon.pictures.round_field import between
from gudgeon.pictures.svg import Point, disc, path, picture, words
from gudgeon.quantity import Amount, UnitChoice, show

WIDTH, HEIGHT, BORE, WALL = 380.0, 330.0, 66.0, 44.0
LINES = ("pic-line-a", "pic-line-b", "pic-line-d")


def draw_wall_map(wall: WallMap, *, units: UnitChoice) -> str:
    """The bore, the outside as the readings give it (one line a level, up to three levels), the least wall dashed."""
    centre = (WIDTH / 2, 168.0)
    thickest = max([thickness for _, _, thickness in wall.spots] + [wall.least or 0.0, 1e-9])
    gain = WALL / thickest
    levels: dict[float, list[tuple[float, float, float]]] = defaultdict(list)
    for spot in wall.spots:
        levels[round(spot[0], 4)].append(spot)
    body = [disc(centre, BORE, "pic-outline")]
    for (_, spots), kind in zip(sorted(levels.items()), LINES, strict=False):
        if len(spots) >= 3:
            directions = np.arange(72) * 5.0
            thickness = between(spots, spots[0][0], directions, depth_scale=1.0, turn=360)
            outside = [_polar(centre, BORE + gain * t, d) for t, d in zip(thickness, directions, strict=True)]
            body.append(path(outside, kind, closed=True))
    if wall.least is not None:
        body.append(disc(centre, BORE + gain * wall.least, "pic-clean"))
        text = f"least {show(Amount(wall.least, 'length'), units)}"
        body.append(words((centre[0], centre[1] + 16), text, "pic-warn", anchor="middle", size=12))
    body.append(words((centre[0], centre[1] - 4), "wall left", "pic-text", anchor="middle", size=12))
    for _, direction, read in wall.spots:
        body.append(disc(_polar(centre, BORE + gain * read, direction), 3.2, "pic-reading"))
    body += _figures(wall, centre, units)
    return picture(width=WIDTH, height=HEIGHT, title=wall.title, body="".join(body))


def _figures(wall: WallMap, centre: Point, units: UnitChoice) -> list[str]:
    """The thinnest reading of each direction, written outside."""
    thinnest: dict[float, float] = {}
    for _, direction, thickness in wall.spots:
        thinnest[direction] = min(thickness, thinnest.get(direction, thickness))
    out = []
    for direction, thickness in sorted(thinnest.items()):
        x, y = _polar(centre, BORE + WALL + 16, direction)
        side = cos(radians(direction))
        anchor = "middle" if abs(side) < 0.3 else "start" if side > 0 else "end"
        out.append(words((x, y + 4), show(Amount(thickness, "length"), units), "pic-text", anchor=anchor, size=12))
    return out


def _polar(centre: Point, radius: float, direction: float) -> Point:
    return centre[0] + radius * cos(radians(direction)), centre[1] - radius * sin(radians(direction))
