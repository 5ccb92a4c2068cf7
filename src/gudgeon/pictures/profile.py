"""Outlines of one thing at one scale: a tooth as it was cut and as it is, told apart by line as well as by colour."""

from __future__ import annotations

from math import asin, cos, sin

from gudgeon.engine.picture import Profile
from gudgeon.pictures.lettering import wrapped
from gudgeon.pictures.svg import Point, path, picture, words
from gudgeon.quantity import Amount, UnitChoice, show

WIDTH, SIDE, TOP, TALL, KEY_LEFT = 380.0, 40.0, 20.0, 210.0, 56.0
KINDS = ("pic-line-b", "pic-worn", "pic-line-c", "pic-line-d")
"""The first, as made, is dashed ink; the second, as it is, blue and washed."""


def draw_profile(profile: Profile, *, units: UnitChoice) -> str:
    """The outlines on one scale, circles about the origin across them, a scale bar, and a key below."""
    points = [point for _, line in profile.outlines for point in line]
    x0, x1 = min(x for x, _ in points), max(x for x, _ in points)
    y0, y1 = min(y for _, y in points), max(y for _, y in points)
    if x1 <= x0 or y1 <= y0:
        return picture(width=WIDTH, height=30, title=profile.title, body="")
    scale = min((WIDTH - 2 * SIDE) / (x1 - x0), TALL / (y1 - y0))
    middle, bottom = (x0 + x1) / 2, TOP + scale * (y1 - y0)

    def at(x: float, y: float) -> Point:
        return WIDTH / 2 + scale * (x - middle), bottom - scale * (y - y0)

    body = []
    half = (WIDTH - 2 * SIDE) / 2 / scale
    for name, radius in profile.circles:
        arc = _arc(radius, half)
        body.append(path([at(x, y) for x, y in arc], "pic-centre"))
        end = at(*arc[-1])
        body.append(words((min(end[0], WIDTH - 4), end[1] - 9), name, "pic-note", anchor="end", size=11))
    # what is drawn washed goes under what is only a line
    order = sorted(range(len(profile.outlines)), key=lambda n: KINDS[n % len(KINDS)] != "pic-worn")
    for n in order:
        body.append(path([at(x, y) for x, y in profile.outlines[n][1]], KINDS[n % len(KINDS)]))
    bar, said = _bar(half, units)
    y = bottom + 20
    left, right = WIDTH / 2 - scale * bar / 2, WIDTH / 2 + scale * bar / 2
    body.append(path([(left, y - 4), (left, y + 4)], "pic-thin") + path([(left, y), (right, y)], "pic-thin"))
    body.append(path([(right, y - 4), (right, y + 4)], "pic-thin"))
    body.append(words((WIDTH / 2, y + 16), said, "pic-note", anchor="middle", size=12))
    key, height = _key(profile, y + 38)
    return picture(width=WIDTH, height=height, title=profile.title, body="".join(body) + key)


def _arc(radius: float, half: float) -> list[Point]:
    """The crown of a circle about the origin, as wide as the picture; the whole upper half of a small one."""
    reach = asin(min(half / radius, 1.0)) if radius > 0 else 0.0
    steps = [reach * (n / 12 - 1) for n in range(25)]
    return [(radius * sin(angle), radius * cos(angle)) for angle in steps]


def _bar(half: float, units: UnitChoice) -> tuple[float, str]:
    """A round length about a third of the picture wide [m], and how it is written."""
    if units == "inch":
        choices = [0.0254 * each for each in (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10)]
    else:
        choices = [1e-3 * each for each in (0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200)]
    bar = min(choices, key=lambda each: abs(each - half * 0.7))
    return bar, show(Amount(bar, "length"), units)


def _key(profile: Profile, y: float) -> tuple[str, float]:
    out = []
    for n, (name, _) in enumerate(profile.outlines):
        out.append(path([(KEY_LEFT, y - 4), (KEY_LEFT + 30, y - 4)], KINDS[n % len(KINDS)]))
        for line in wrapped(name, WIDTH - KEY_LEFT - 50, 12):
            out.append(words((KEY_LEFT + 38, y), line, "pic-text", size=12))
            y += 15
        y += 3
    return "".join(out), y
