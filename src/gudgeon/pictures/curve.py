"""Curves on common axes, told apart by line as well as by colour."""

from __future__ import annotations

from math import floor, log10

from gudgeon.engine.picture import Curve
from gudgeon.pictures.lettering import width_of, wrapped
from gudgeon.pictures.svg import Point, box, path, picture, words

WIDTH, LEFT, RIGHT, TOP, BOTTOM = 380.0, 56.0, 366.0, 26.0, 210.0
KINDS = ("pic-line-a", "pic-line-b", "pic-line-c", "pic-line-d")


def round_steps(low: float, high: float, *, most: int = 6) -> list[float]:
    """Round values (1, 2 or 5 times a power of ten apart) from at or above ``low`` to at or below ``high``."""
    raw = (high - low) / most or 1.0
    power = 10.0 ** floor(log10(raw))
    step = next(power * times for times in (1, 2, 5, 10) if power * times >= raw * 0.999)
    first = -floor(-low / step + 1e-9)
    values = []
    n = first
    while n * step <= high + step * 1e-6:
        values.append(n * step)
        n += 1
    return values


def draw_curve(curve: Curve) -> str:
    """The axes with round steps, bands washed, marks as uprights, curves, and a key below."""
    points = [point for _, line in curve.curves for point in line]
    xs = [x for x, _ in points] + [x for _, x in curve.marks]
    ys = [y for _, y in points] + [end for _, low, high in curve.bands for end in (low, high)]
    if not xs or not ys:
        return picture(width=WIDTH, height=30, title=curve.title, body="")
    x0, x1, y0, y1 = min(xs), max(xs), min(ys), max(ys)
    x1, y1 = x1 + (x1 == x0), y1 + (y1 == y0)
    y0, y1 = y0 - (y1 - y0) * 0.05 * (y0 != 0), y1 + (y1 - y0) * 0.08

    def at(x: float, y: float) -> Point:
        return LEFT + (RIGHT - LEFT) * (x - x0) / (x1 - x0), BOTTOM - (BOTTOM - TOP) * (y - y0) / (y1 - y0)

    body = [words((LEFT, 14), curve.y_text, "pic-note", size=12)]
    for name, low, high in curve.bands:
        body.append(box(at(x0, low), at(x1, high), "pic-target"))
        body.append(words((LEFT + 5, at(x1, low)[1] - 5), name, "pic-ask", size=11))
    for x in round_steps(x0, x1):
        body.append(path([at(x, y0), (at(x, y0)[0], BOTTOM + 4)], "pic-thin"))
        body.append(words((at(x, y0)[0], BOTTOM + 17), f"{x:g}", "pic-note", anchor="middle", size=11))
    for y in round_steps(y0, y1, most=5):
        body.append(path([at(x0, y), at(x1, y)], "pic-grid"))
        body.append(words((LEFT - 6, at(x0, y)[1] + 4), f"{y:g}", "pic-note", anchor="end", size=11))
    body.append(path([(LEFT, TOP), (LEFT, BOTTOM), (RIGHT, BOTTOM)], "pic-axis"))
    for name, x in curve.marks:
        body.append(path([at(x, y0), at(x, y1)], "pic-limit"))
        half = width_of(name, 11, bold=True) / 2
        body.append(
            words((min(max(at(x, y1)[0], LEFT + half), RIGHT - half), TOP - 2), name, "pic-warn", anchor="middle", size=11)
        )
    body += [
        path([at(x, y) for x, y in line], KINDS[n % len(KINDS)]) for n, (_, line) in enumerate(curve.curves) if len(line) > 1
    ]
    body.append(words(((LEFT + RIGHT) / 2, BOTTOM + 34), curve.x_text, "pic-note", anchor="middle", size=12))
    key, height = _key(curve)
    return picture(width=WIDTH, height=height, title=curve.title, body="".join(body) + key)


def _key(curve: Curve) -> tuple[str, float]:
    y, out = BOTTOM + 54, []
    for n, (name, _) in enumerate(curve.curves):
        out.append(path([(LEFT, y - 4), (LEFT + 30, y - 4)], KINDS[n % len(KINDS)]))
        for line in wrapped(name, RIGHT - LEFT - 40, 12):
            out.append(words((LEFT + 38, y), line, "pic-text", size=12))
            y += 15
        y += 3
    return "".join(out), y
