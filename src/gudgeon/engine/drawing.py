"""A shop drawing as data: views made of lines, arcs and dimensions in millimetres at true size. Renderers replay it.

Every point and radius is in millimetres of the part itself, y upward. What belongs to the paper and not to the part (the
distance of a dimension line, the height of letters) is in millimetres of the paper.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

SI_TO_DRAWN = 1000.0


class DrawingFault(ValueError):
    """A drawing that cannot be true: what was read, what is wrong with it, and what would be right."""


Pen = Literal["outline", "thin", "hidden", "centre", "hatch", "dimension", "note"]
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line from a to b [mm]."""

    a: Point
    b: Point
    pen: Pen = "outline"


@dataclass(frozen=True, slots=True)
class Circle:
    """A full circle [mm]."""

    centre: Point
    radius: float
    pen: Pen = "outline"


@dataclass(frozen=True, slots=True)
class Arc:
    """An arc, anticlockwise from start to end [mm, degree]."""

    centre: Point
    radius: float
    start: float
    end: float
    pen: Pen = "outline"


@dataclass(frozen=True, slots=True)
class Hatched:
    """A closed outline filled with section lines [mm]."""

    outline: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Dimension:
    """A dimension with limits of size.

    ``a`` and ``b`` are the measured points [mm of the part], ``offset`` the distance of the dimension line from them [mm of
    the paper], to the left as seen from a to b; of a radius, ``a`` is the centre. ``lower`` and ``upper`` are limits of size
    [m], equal where no tolerance is given. ``kind`` sets the sign before the figure. The distance from a to b must agree
    with the size, or the renderer refuses the drawing.
    """

    kind: Literal["length", "diameter", "radius"]
    a: Point
    b: Point
    offset: float
    lower: float
    upper: float
    note: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    """A note that starts at a point [mm of the part]; ``height`` of its letters [mm of the paper].

    ``to`` is a point that a leader with an arrowhead runs to, if any; ``centred`` sets the words round the point.
    """

    at: Point
    text: str
    height: float = 3.3
    to: Point | None = None
    centred: bool = False


Item = Line | Circle | Arc | Hatched | Dimension | Text


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One view, drawn at its scale (1 = true size, 0.5 = half) round its own origin."""

    title: str
    items: tuple[Item, ...]
    scale: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A sheet: views, notes and the title block. Sizes are shown in ``units`` first and the other in brackets."""

    number: str
    title: str
    part: str
    item: str
    material: str
    finish: str
    views: tuple[View, ...]
    notes: tuple[str, ...] = ()
    projection: Literal["first angle", "third angle"] = "third angle"
    units: Literal["inch", "millimetre"] = "inch"
    job: str = ""
    date: str = ""
    drawn_by: str = ""
