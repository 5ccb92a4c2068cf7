"""The place of a reading lit in a small picture: the level along the part, and the direction seen from its end."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin

from gudgeon.pictures.svg import box, disc, leader, path, picture

WIDTH, HEIGHT = 260.0, 150.0
LEFT, RIGHT, TOP, BOTTOM = 26.0, 106.0, 12.0, 138.0


def draw_spot(*, levels: Sequence[str], level: str, direction: float | None, inside: bool) -> str:
    """A bore (``inside``) or a journal in section with its levels ticked and the one at hand lit; beside it the view from
    the end, crank axis dashed, with the measured diameter. ``direction`` 0 is along the crank, 90 across it [degree]."""
    body = _along(levels, level, inside=inside)
    if direction is not None:
        body += _end(direction, inside=inside)
    where = f"level: {level}" if level else "no level"
    title = where if direction is None else f"{where}; direction {direction:g} degrees from along the crank"
    return picture(width=WIDTH, height=HEIGHT, title=title, body="".join(body))


def _along(levels: Sequence[str], level: str, *, inside: bool) -> list[str]:
    if inside:
        body = [
            box((LEFT - 12, TOP), (LEFT, BOTTOM), "pic-wall"),
            box((RIGHT, TOP), (RIGHT + 12, BOTTOM), "pic-wall"),
        ]
    else:
        body = [box((LEFT, TOP), (RIGHT, BOTTOM), "pic-outline")]
    body.append(path([((LEFT + RIGHT) / 2, TOP - 8), ((LEFT + RIGHT) / 2, BOTTOM + 8)], "pic-centre"))
    for n, name in enumerate(levels):
        y = TOP + (BOTTOM - TOP) * (n + 0.5) / len(levels)
        if name == level:
            body.append(box((LEFT, y - 5), (RIGHT, y + 5), "pic-target"))
            body.append(path([(LEFT, y), (RIGHT, y)], "pic-line-a"))
            body += [disc((x, y), 4, "pic-solid") for x in (LEFT, RIGHT)]
        else:
            body.append(path([(LEFT, y), (LEFT + 12, y)], "pic-thin"))
            body.append(path([(RIGHT - 12, y), (RIGHT, y)], "pic-thin"))
    return body


def _end(direction: float, *, inside: bool) -> list[str]:
    centre, radius = (192.0, 75.0), 46.0
    body = []
    if inside:
        body.append(disc(centre, radius + 12, "pic-wall"))
    body.append(disc(centre, radius, "pic-outline"))
    body.append(path([(centre[0] - 66, centre[1]), (centre[0] + 66, centre[1])], "pic-centre"))
    dx, dy = cos(radians(direction)), -sin(radians(direction))
    ends = [(centre[0] + side * radius * dx, centre[1] + side * radius * dy) for side in (-1, 1)]
    body.append(path(ends, "pic-line-a"))
    body += [leader([centre, end]) for end in ends]
    return body
