"""A drawing's title block: whose engine, which part, of what, how finished, at what scale, and by whom."""

from __future__ import annotations

from gudgeon.engine.drawing import Drawing, Point
from gudgeon.outwork.marks import Mark, Round, Stroke, Words, fitted
from gudgeon.outwork.sizes import SPOKEN, other, scale_words

WIDTH, HEIGHT = 170.0, 38.0
_RULES = (9.0, 18.0, 27.0)


def title_block(drawing: Drawing, *, right: float, bottom: float) -> list[Mark]:
    """The marks of the block with its lower right corner at a point [mm of the paper]."""
    left = right - WIDTH
    scales = ", ".join(dict.fromkeys(scale_words(view.scale) for view in drawing.views))
    units = f"{SPOKEN[drawing.units]}, {SPOKEN[other(drawing.units)]} in brackets"
    part = f"{drawing.part}, {drawing.item}" if drawing.item and drawing.item != drawing.part else drawing.part
    cells = (  # x, y, width, name, value
        (0, 27, 112, "title", drawing.title),
        (112, 27, 58, "drawing number", drawing.number),
        (0, 18, 76, "engine", drawing.job or "not named"),
        (76, 18, 94, "part", part or "not named"),
        (0, 9, 76, "material", drawing.material or "as the old part"),
        (76, 9, 94, "finish", drawing.finish or "not stated"),
        (0, 0, 40, "scale", scales),
        (40, 0, 36, "sizes in", units),
        (76, 0, 32, "projection", ""),
        (108, 0, 28, "date", drawing.date or "not dated"),
        (136, 0, 34, "drawn by", drawing.drawn_by or "not named"),
    )
    marks: list[Mark] = [_box(left, bottom, WIDTH, HEIGHT)]
    marks += [Stroke(((left, bottom + y), (right, bottom + y)), "thin") for y in _RULES]
    for x, y, width, name, value in cells:
        tall = 11 if y == 27 else 9
        if x:
            marks.append(Stroke(((left + x, bottom + y), (left + x, bottom + y + tall)), "thin"))
        marks.append(Words((left + x + 1.5, bottom + y + tall - 2.6), name, 2.1, quiet=True))
        size, bold = (4.6, True) if y == 27 else (3.2, False)
        marks += fitted(value, at=(left + x + 1.5, bottom + y + 1.9), within=width - 3, tall=tall - 3.2, height=size, bold=bold)
    return [*marks, *projection_symbol((left + 76 + 20, bottom + 4.2), drawing.projection)]


def _box(x: float, y: float, width: float, height: float) -> Stroke:
    return Stroke(((x, y), (x + width, y), (x + width, y + height), (x, y + height)), "outline", closed=True)


def projection_symbol(at: Point, projection: str) -> list[Mark]:
    """The cone and its end view (ISO 5456-2): the end view stands left of the cone's small end in third angle, right of its
    large end in first angle."""
    x, y = at
    small, large, long = 1.3, 2.6, 5.5
    cone = Stroke(((x, y - small), (x + long, y - large), (x + long, y + large), (x, y + small)), "outline", closed=True)
    end = x - 5.0 if projection == "third angle" else x + long + 4.0
    ends: list[Mark] = [Round((end, y), small, "outline"), Round((end, y), large, "outline")]
    lines: list[Mark] = [
        Stroke(((x - 1, y), (x + long + 1, y)), "centre"),
        Stroke(((end - 3.2, y), (end + 3.2, y)), "centre"),
        Stroke(((end, y - 3.2), (end, y + 3.2)), "centre"),
    ]
    return [cone, *ends, *lines]
