"""A dimension on paper: extension lines, dimension line, arrowheads and its rows of figures (ISO 129-1, limits of size)."""

from __future__ import annotations

import math
from dataclasses import replace

from gudgeon.engine.drawing import Dimension, Point
from gudgeon.outwork.marks import LETTERS, Mark, Stroke, Words, wrapped
from gudgeon.outwork.sizes import Units, rows

ARROW = 3.0
GAP = 0.9  # between the part and its extension line, and between the line and the figures
BEYOND = 1.8  # of the extension line past the dimension line
STEP = LETTERS * 1.15


def _along(point: Point, direction: Point, by: float) -> Point:
    return point[0] + direction[0] * by, point[1] + direction[1] * by


def arrowhead(tip: Point, direction: Point) -> Stroke:
    """A filled arrowhead whose tip points along a direction."""
    back, side = _along(tip, direction, -ARROW), (-direction[1], direction[0])
    return Stroke((tip, _along(back, side, ARROW / 6), _along(back, side, -ARROW / 6)), "dimension", closed=True, filled=True)


def dimension_marks(item: Dimension, *, scale: float, units: Units) -> list[Mark]:
    """The marks of one dimension round the view's own origin [mm of the paper]."""
    a, b = ((x * scale, y * scale) for x, y in (item.a, item.b))
    length = math.dist(a, b)
    u = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    left = (-u[1], u[0])
    p, q = _along(a, left, item.offset), _along(b, left, item.offset)
    figures = rows(kind=item.kind, lower=item.lower, upper=item.upper, units=units)
    widest = max(Words((0, 0), row, LETTERS).width for row in figures)
    inside = length >= widest + 2
    note = wrapped(item.note, within=max(widest, length - 2 if inside else 0.0), height=LETTERS)
    spread = length >= 3 * ARROW or item.kind == "radius"
    return [
        *_extension(a, p, item.offset, left),
        *_extension(b, q, item.offset, left),
        *_line_and_heads(p, q, u, radius=item.kind == "radius", spread=spread, widest=0.0 if inside else widest),
        *_figures(p, q, u, figures, note, inside=inside, spread=spread, widest=widest),
    ]


def note_below(item: Dimension, *, scale: float, units: Units) -> list[Mark]:
    """Only the note of a dimension, where ``dimension_marks`` sets it."""
    bare = replace(item, note="")
    return dimension_marks(item, scale=scale, units=units)[len(dimension_marks(bare, scale=scale, units=units)) :]


def _extension(foot: Point, end: Point, offset: float, left: Point) -> list[Mark]:
    if abs(offset) < GAP + BEYOND:
        return []
    way = math.copysign(1.0, offset)
    return [Stroke((_along(foot, left, way * GAP), _along(end, left, way * BEYOND)), "dimension")]


def _end_first(u: Point) -> bool:
    """True where the figures outside belong beyond b: to the right, or upward where the line is upright."""
    return u[0] > 1e-9 or (abs(u[0]) <= 1e-9 and u[1] > 0)


def _line_and_heads(p: Point, q: Point, u: Point, *, radius: bool, spread: bool, widest: float) -> list[Mark]:
    back = (-u[0], -u[1])
    tail = 0.0 if spread else ARROW * 2
    at_q = _end_first(u) or radius
    over_p = max(tail, 0.0 if at_q or not widest else widest + tail + 2)
    over_q = max(tail, 0.0 if not at_q or not widest else widest + tail + 2)
    marks: list[Mark] = [Stroke((_along(p, back, over_p), _along(q, u, over_q)), "dimension")]
    marks.append(arrowhead(q, u if spread else back))
    if not radius:
        marks.append(arrowhead(p, back if spread else u))
    return marks


def _figures(
    p: Point, q: Point, u: Point, figures: tuple[str, ...], note: list[str], *, inside: bool, spread: bool, widest: float
) -> list[Mark]:
    ahead = _end_first(u)
    way = u if ahead else (-u[0], -u[1])
    angle = math.degrees(math.atan2(way[1], way[0]))
    tail = 0.0 if spread else ARROW * 2
    far = q if ahead else p
    middle = ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2) if inside else _along(far, way, tail + 1.5 + widest / 2)
    up = (-way[1], way[0])
    marks: list[Mark] = []
    for n, row in enumerate(reversed(figures)):
        marks.append(Words(_along(middle, up, GAP + n * STEP), row, LETTERS, angle, "middle"))
    for n, line in enumerate(note):
        marks.append(Words(_along(middle, up, -GAP - LETTERS * 0.74 - n * STEP), line, LETTERS, angle, "middle"))
    return marks
