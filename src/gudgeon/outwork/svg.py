"""A drawing as SVG, true to scale: one user unit is one millimetre of the paper."""

from __future__ import annotations

import math
from xml.sax.saxutils import escape

from gudgeon.engine.drawing import Drawing, Pen
from gudgeon.outwork.layout import Sheet, set_out
from gudgeon.outwork.marks import Mark, Round, Stroke, Words
from gudgeon.outwork.sizes import Units
from gudgeon.typeset import printable

INK, QUIET, MARKING_BLUE = "#1b1a18", "#5f5a50", "#1c4a94"
PENS: dict[Pen, tuple[float, str, str]] = {  # width [mm], colour, dashes
    "outline": (0.5, INK, ""),
    "thin": (0.18, INK, ""),
    "hidden": (0.25, INK, "3 1.2"),
    "centre": (0.18, INK, "8 1.4 1.4 1.4"),
    "hatch": (0.13, INK, ""),
    "dimension": (0.18, MARKING_BLUE, ""),
    "note": (0.18, INK, ""),
}


def drawing_svg(drawing: Drawing, *, units: Units | None = None) -> str:
    """The sheet as SVG with its border and title block, the same text every time.

    ``units`` overrides which unit stands first. Width and height are stated in mm, so that it prints true to scale.
    Raises DrawingFault when the drawing cannot be true.
    """
    return sheet_svg(set_out(drawing, units=units))


def sheet_svg(sheet: Sheet) -> str:
    """The SVG of a sheet that was set out."""
    body = "\n".join(_svg(mark, sheet.height) for mark in sheet.marks())
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{sheet.width:g}mm" height="{sheet.height:g}mm" '
        f"viewBox=\"0 0 {sheet.width:g} {sheet.height:g}\" font-family=\"'Clear Sans','DejaVu Sans',sans-serif\" "
        f'fill="none" stroke-linecap="round" stroke-linejoin="round">\n{body}\n</svg>\n'
    )


def _n(value: float) -> str:
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _pen(pen: Pen, *, filled: bool = False) -> str:
    width, colour, dashes = PENS[pen]
    if filled:
        return f'class="{pen}" fill="{colour}"'
    dash = f' stroke-dasharray="{dashes}" stroke-linecap="butt"' if dashes else ""
    return f'class="{pen}" stroke="{colour}" stroke-width="{width}"{dash}'


def _svg(mark: Mark, height: float) -> str:
    match mark:
        case Stroke():
            points = "L".join(f"{_n(x)} {_n(height - y)}" for x, y in mark.points)
            return f'<path {_pen(mark.pen, filled=mark.filled)} d="M{points}{"Z" if mark.closed else ""}"/>'
        case Round():
            return _round(mark, height)
        case Words():
            x, y = _n(mark.at[0]), _n(height - mark.at[1])
            turn = f' transform="rotate({_n(-mark.angle)} {x} {y})"' if mark.angle else ""
            anchor = f' text-anchor="{mark.anchor}"' if mark.anchor != "start" else ""
            weight = ' font-weight="bold"' if mark.bold else ""
            colour = QUIET if mark.quiet else INK
            words = escape(printable(mark.text).replace("\n", " "))
            return f'<text x="{x}" y="{y}" font-size="{_n(mark.height)}"{anchor}{weight} fill="{colour}"{turn}>{words}</text>'


def _round(mark: Round, height: float) -> str:
    (x, y), r = mark.centre, mark.radius
    if mark.end - mark.start >= 360:
        return f'<circle {_pen(mark.pen)} cx="{_n(x)}" cy="{_n(height - y)}" r="{_n(r)}"/>'
    ends = [(x + r * math.cos(math.radians(t)), height - y - r * math.sin(math.radians(t))) for t in (mark.start, mark.end)]
    large = int(mark.end - mark.start > 180)
    (x1, y1), (x2, y2) = ends
    return f'<path {_pen(mark.pen)} d="M{_n(x1)} {_n(y1)}A{_n(r)} {_n(r)} 0 {large} 0 {_n(x2)} {_n(y2)}"/>'
