"""The sheet: paper chosen by fit, views set out on it, notes and title block. Millimetres of the paper, y upward."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from gudgeon.engine.drawing import Arc, Circle, Dimension, Drawing, DrawingFault, Hatched, Item, Line, Point, Text, View
from gudgeon.outwork.check import check
from gudgeon.outwork.dimensioning import arrowhead, dimension_marks
from gudgeon.outwork.marks import LETTERS, Mark, Round, Stroke, Words, extent, moved, wrapped
from gudgeon.outwork.sizes import Units, scale_words
from gudgeon.outwork.title_block import HEIGHT, title_block

SHEETS = (("A4", 297.0, 210.0), ("A3", 420.0, 297.0))  # ISO 216, landscape
LEFT, EDGE = 20.0, 10.0  # filing margin and the other three (ISO 5457)
BETWEEN = 11.0
HATCH = 2.4
NOTE_STEP = 4.4


@dataclass(frozen=True, slots=True)
class Placed:
    """A view's marks round its own origin, and where that origin stands on the sheet."""

    view: View
    marks: tuple[Mark, ...]
    at: Point

    @property
    def extent(self) -> tuple[float, float, float, float]:
        """Left, bottom, right and top round the view's own origin."""
        return extent(self.marks)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A drawing set out on paper."""

    paper: str
    width: float
    height: float
    placed: tuple[Placed, ...]
    frame: tuple[Mark, ...]

    def marks(self) -> list[Mark]:
        """Every mark of the sheet."""
        return [moved(mark, view.at) for view in self.placed for mark in view.marks] + list(self.frame)


def set_out(drawing: Drawing, *, units: Units | None = None) -> Sheet:
    """The drawing on the smaller of A4 and A3 that takes its views at their scales.

    Raises DrawingFault when a view or a dimension cannot be true, or when the largest sheet is too small.
    """
    check(drawing)
    shown: Units = units or drawing.units
    if shown != drawing.units:
        drawing = replace(drawing, units=shown)
    views = [(view, tuple(_view_marks(view, units=shown))) for view in drawing.views]
    for paper, width, height in SHEETS:
        notes = _notes(drawing, width=width)
        bottom = EDGE + max(HEIGHT, notes[1]) + 5
        placed = _shelve(views, left=LEFT + 5, bottom=bottom, right=width - EDGE - 5, top=height - EDGE - 5)
        if placed is not None:
            frame = [*_border(width, height), *notes[0], *title_block(drawing, right=width - EDGE, bottom=EDGE)]
            return Sheet(paper, width, height, placed, tuple(frame))
    boxes = [extent(marks) for _, marks in views]
    widest, tallest = max(box[2] - box[0] for box in boxes), max(box[3] - box[1] for box in boxes)
    raise DrawingFault(
        f"Drawing {drawing.number} runs off its sheet: its {len(views)} views, the largest {widest:.0f} by {tallest:.0f} mm on "
        f"paper, do not fit an A3; a smaller scale than {scale_words(min(v.scale for v in drawing.views))} would be right."
    )


def _view_marks(view: View, *, units: Units) -> list[Mark]:
    marks: list[Mark] = []
    for item in view.items:
        marks += _item_marks(item, scale=view.scale, units=units)
    left, bottom, right, _ = extent(marks)
    title = f"{view.title}, {scale_words(view.scale)}" if view.title else scale_words(view.scale)
    marks.append(Words(((left + right) / 2, bottom - 7), title, 3.8, anchor="middle", bold=True))
    return marks


def _item_marks(item: Item, *, scale: float, units: Units) -> list[Mark]:
    def paper(point: Point) -> Point:
        return point[0] * scale, point[1] * scale

    match item:
        case Line():
            return [Stroke((paper(item.a), paper(item.b)), item.pen)]
        case Circle():
            return [Round(paper(item.centre), item.radius * scale, item.pen)]
        case Arc():
            return [Round(paper(item.centre), item.radius * scale, item.pen, *sweep(item.start, item.end))]
        case Hatched():
            return list(hatch_lines(tuple(map(paper, item.outline))))
        case Dimension():
            return dimension_marks(item, scale=scale, units=units)
        case Text():
            return note_marks(item, at=paper(item.at), to=paper(item.to) if item.to else None)


def sweep(start: float, end: float) -> tuple[float, float]:
    """An arc's angles [degree] so that it runs anticlockwise from start to end, through at most one turn."""
    turn = (end - start) % 360
    return start % 360, start % 360 + (turn or 360)


def note_marks(item: Text, *, at: Point, to: Point | None) -> list[Mark]:
    """The words of a note and its leader, from points on the paper [mm]."""
    marks: list[Mark] = []
    lines = item.text.split("\n")
    for n, line in enumerate(lines):
        spot = (at[0], at[1] - n * item.height * 1.25)
        marks.append(Words(spot, line, item.height, anchor="middle" if item.centred else "start"))
    if to is None:
        return marks
    left, bottom, right, top = extent(marks)
    middle = at[1] + item.height * 0.26
    start = (right + 1, middle) if to[0] > (left + right) / 2 else (left - 1, middle)
    if left <= to[0] <= right:
        start = (to[0], bottom - 0.5) if to[1] < bottom else (to[0], top + 0.5)
    length = math.dist(start, to)
    if length > 0:
        marks += [Stroke((start, to), "dimension"), arrowhead(to, ((to[0] - start[0]) / length, (to[1] - start[1]) / length))]
    return marks


def hatch_lines(outline: tuple[Point, ...], *, spacing: float = HATCH) -> list[Stroke]:
    """Section lines at 45 degrees across a closed outline, ``spacing`` apart, inside by the even-odd rule."""
    root = math.sqrt(2)
    turned = [((x + y) / root, (y - x) / root) for x, y in outline]  # u along the lines, v across them
    low, high = min(v for _, v in turned), max(v for _, v in turned)
    lines = []
    for n in range(math.floor(low / spacing) + 1, math.ceil(high / spacing)):
        v = n * spacing
        crossings = []
        for (u1, v1), (u2, v2) in zip(turned, (*turned[1:], turned[0]), strict=True):
            if (v1 <= v) != (v2 <= v):
                crossings.append(u1 + (u2 - u1) * (v - v1) / (v2 - v1))
        crossings.sort()
        for start, end in zip(crossings[::2], crossings[1::2], strict=True):
            if end - start > 0.05:
                lines.append(Stroke(tuple(((u - v) / root, (u + v) / root) for u in (start, end)), "hatch"))
    return lines


def _shelve(
    views: list[tuple[View, tuple[Mark, ...]]], *, left: float, bottom: float, right: float, top: float
) -> tuple[Placed, ...] | None:
    """Views in rows from the left, every row on a common origin, spread evenly; None where they do not fit."""
    rows: list[list[tuple[View, tuple[Mark, ...]]]] = [[]]
    used = 0.0
    for view in views:
        box = extent(view[1])
        width = box[2] - box[0]
        if width > right - left:
            return None
        if rows[-1] and used + BETWEEN + width > right - left:
            rows.append([])
            used = 0.0
        used += width + (BETWEEN if rows[-1] else 0.0)
        rows[-1].append(view)
    spans = [_span(row) for row in rows]
    spare = (top - bottom) - sum(high - low for low, high in spans) - BETWEEN * (len(rows) - 1)
    if spare < 0:
        return None
    placed: list[Placed] = []
    y = top - spare / (len(rows) + 1)
    for row, (low, high) in zip(rows, spans, strict=True):
        placed += _row(row, left=left, right=right, origin=y - high)
        y -= high - low + BETWEEN + spare / (len(rows) + 1)
    return tuple(placed)


def _span(row: list[tuple[View, tuple[Mark, ...]]]) -> tuple[float, float]:
    boxes = [extent(marks) for _, marks in row]
    return min(box[1] for box in boxes), max(box[3] for box in boxes)


def _row(row: list[tuple[View, tuple[Mark, ...]]], *, left: float, right: float, origin: float) -> list[Placed]:
    boxes = [extent(marks) for _, marks in row]
    spare = (right - left - sum(box[2] - box[0] for box in boxes)) / (len(row) + 1)
    placed, x = [], left
    for (view, marks), box in zip(row, boxes, strict=True):
        x += spare
        placed.append(Placed(view, marks, (x - box[0], origin)))
        x += box[2] - box[0]
    return placed


def _border(width: float, height: float) -> list[Mark]:
    corners = ((LEFT, EDGE), (width - EDGE, EDGE), (width - EDGE, height - EDGE), (LEFT, height - EDGE))
    return [Stroke(corners, "outline", closed=True)]


def _notes(drawing: Drawing, *, width: float) -> tuple[list[Mark], float]:
    """The notes in the lower left corner, numbered, and the height they take."""
    from gudgeon.outwork.title_block import WIDTH

    within = width - LEFT - EDGE - WIDTH - 8
    lines: list[tuple[float, str]] = []
    for n, note in enumerate(drawing.notes, start=1):
        broken = wrapped(note, within=within - 5, height=LETTERS)
        lines += [(0.0, f"{n}. {broken[0]}"), *((4.0, line) for line in broken[1:])] if broken else []
    if not lines:
        return [], 0.0
    height = NOTE_STEP * len(lines) + 9
    marks: list[Mark] = [Words((LEFT + 4, EDGE + height - 4), "Notes", 3.6, bold=True)]
    for n, (indent, line) in enumerate(lines):
        marks.append(Words((LEFT + 4 + indent, EDGE + height - 9 - n * NOTE_STEP), line, LETTERS))
    return marks, height
