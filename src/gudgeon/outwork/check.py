"""A drawing is checked before it is drawn: what cannot be true is refused with one sentence."""

from __future__ import annotations

import math
from collections.abc import Iterable

from gudgeon.engine.drawing import (
    SI_TO_DRAWN,
    Arc,
    Circle,
    Dimension,
    Drawing,
    DrawingFault,
    Hatched,
    Item,
    Line,
    Point,
    Text,
)
from gudgeon.outwork.sizes import in_words

DRAWN_WITHIN = 0.01  # mm by which a drawn distance may miss its size: a fifth of the thinnest line


def check(drawing: Drawing) -> None:
    """Raises DrawingFault naming the drawing, the view, what was read and what would be right."""
    if not drawing.views:
        raise DrawingFault(f"Drawing {drawing.number} has no view; at least one would be right.")
    for view in drawing.views:
        where = f"Drawing {drawing.number}, “{view.title}”"
        if not (math.isfinite(view.scale) and view.scale > 0):
            raise DrawingFault(f"{where}: a scale of {view.scale} was given; a number above nought would be right.")
        if not view.items:
            raise DrawingFault(f"{where} is empty; at least one line would be right.")
        for item in view.items:
            _check_item(item, where=where, drawing=drawing)


def points_of(item: Item) -> tuple[Point, ...]:
    """The points that an item is made of [mm of the part]."""
    match item:
        case Line() | Dimension():
            return item.a, item.b
        case Circle() | Arc():
            return (item.centre,)
        case Hatched():
            return item.outline
        case Text():
            return (item.at,) if item.to is None else (item.at, item.to)


def _check_item(item: Item, *, where: str, drawing: Drawing) -> None:
    _finite((number for point in points_of(item) for number in point), where=where, what=f"a {type(item).__name__.lower()}")
    match item:
        case Circle() | Arc():
            _above_nought(item.radius, where=where, what="radius")
        case Text():
            _above_nought(item.height, where=where, what="height of letters")
        case Hatched():
            if len(item.outline) < 3 or abs(area(item.outline)) < 1e-9:
                raise DrawingFault(f"{where}: a hatched outline encloses nothing; three points or more that do would be right.")
        case Dimension():
            _check_dimension(item, where=where, drawing=drawing)
        case Line():
            pass


def _check_dimension(item: Dimension, *, where: str, drawing: Drawing) -> None:
    _finite((item.lower, item.upper, item.offset), where=where, what="a dimension")
    _above_nought(item.lower, where=where, what="lower limit of size")
    asked = in_words(lower=item.lower, upper=item.upper, units=drawing.units)
    if item.lower > item.upper:
        raise DrawingFault(f"{where}: a dimension of {asked} has its lower limit above its upper one; the two change places.")
    drawn = math.dist(item.a, item.b)
    mean = (item.lower + item.upper) / 2 * SI_TO_DRAWN
    if abs(drawn - mean) > DRAWN_WITHIN + (item.upper - item.lower) / 2 * SI_TO_DRAWN:
        raise DrawingFault(f"{where}: a dimension says {asked} and is drawn {drawn:.3f} mm long; {mean:.3f} mm would be right.")


def area(outline: tuple[Point, ...]) -> float:
    """Signed area of a closed outline (shoelace formula), anticlockwise positive."""
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(outline, (*outline[1:], outline[0]), strict=True)) / 2


def _finite(numbers: Iterable[float], *, where: str, what: str) -> None:
    for number in numbers:
        if not math.isfinite(number):
            raise DrawingFault(f"{where}: {what} has {number} where a finite number of millimetres would be right.")


def _above_nought(number: float, *, where: str, what: str) -> None:
    if not (math.isfinite(number) and number > 0):
        raise DrawingFault(f"{where}: a {what} of {number} was given; a number above nought would be right.")
