"""A drawing as DXF R2010: every view at true size in model space, the sheet with its title block in paper space."""

from __future__ import annotations

import io
import threading
from typing import Any

from gudgeon.engine.drawing import Arc, Circle, Dimension, Drawing, Hatched, Line, Pen, Point, Text
from gudgeon.outwork.dimensioning import ARROW, BEYOND, GAP, note_below
from gudgeon.outwork.layout import HATCH, Placed, note_marks, set_out, sweep
from gudgeon.outwork.marks import LETTERS, Mark, Round, Stroke, Words
from gudgeon.outwork.sizes import Units, rows
from gudgeon.typeset import FONTS, printable

LAYERS: dict[Pen, tuple[str, int, int, str]] = {  # layer, colour index, line weight [1/100 mm], line type
    "outline": ("OUTLINE", 7, 50, "Continuous"),
    "thin": ("THIN", 7, 18, "Continuous"),
    "hidden": ("HIDDEN", 7, 25, "SHOP_HIDDEN"),
    "centre": ("CENTRE", 7, 18, "SHOP_CENTRE"),
    "hatch": ("HATCH", 8, 13, "Continuous"),
    "dimension": ("DIMENSION", 5, 18, "Continuous"),
    "note": ("NOTE", 7, 18, "Continuous"),
}
LINE_TYPES = {"SHOP_HIDDEN": (4.2, 3.0, -1.2), "SHOP_CENTRE": (12.2, 8.0, -1.4, 1.4, -1.4)}
STYLE = "SHOP"
CAPITALS = LETTERS * 0.72  # CAD counts the height of capitals, where type counts from descender to ascender
ROW = 5 / 3  # from row to row in capitals, the pitch of formatted text (DXF reference, MTEXT)
APART = 60.0  # between views in model space [mm of the paper]
_ANSI31 = 3.175  # the pattern's own spacing [mm]
_one_at_a_time = threading.Lock()


def drawing_dxf(drawing: Drawing, *, units: Units | None = None) -> bytes:
    """The drawing for a shop's CAD or CAM: R2010, millimetres, the same bytes every time.

    Model space holds the part at true size, one layer per pen, with DIMENSION entities: measured in mm, figures in both units,
    tolerance set to the limits of size. Paper space holds the sheet as it is printed. Letters and arrowheads are as large as on
    paper at the view's scale. Raises DrawingFault when the drawing cannot be true.
    """
    sheet = set_out(drawing, units=units)
    with _one_at_a_time:  # the library's date switch and font list are its own global state
        return _written(drawing, sheet, units or drawing.units)


def _written(drawing: Drawing, sheet: Any, units: Units) -> bytes:
    import ezdxf._options

    options = ezdxf._options.options
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        doc = _new_document()
        _draw_sheet(doc, drawing, sheet)
        x = 0.0
        for placed in sheet.placed:
            left, bottom, right, top = placed.extent
            scale = placed.view.scale
            origin = (x - left / scale, 0.0)
            _draw_view(doc.modelspace(), placed, origin=origin, units=units)
            _open_window(doc, placed, origin=origin, box=(left, bottom, right, top))
            x += (right - left + APART) / scale
        out = io.StringIO()
        doc.write(out)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return out.getvalue().encode("utf-8")


def _new_document() -> Any:
    from ezdxf import units
    from ezdxf.filemanagement import new
    from ezdxf.fonts import fonts

    fonts.font_manager.clear()  # figures are measured with the shipped fonts, never with the machine's
    fonts.font_manager.build([str(FONTS)], support_dirs=False)
    doc = new("R2010", setup=False, units=units.MM)
    doc.header["$MEASUREMENT"] = 1
    doc.header["$LTSCALE"] = 1.0
    for name, (total, *pattern) in LINE_TYPES.items():
        doc.linetypes.add(name, pattern=[total, *pattern])
    for layer, colour, weight, line_type in LAYERS.values():
        doc.layers.add(layer, color=colour, lineweight=weight, linetype=line_type)
    doc.styles.add(STYLE, font="arial.ttf")
    doc.dimstyles.new(STYLE, dxfattribs=_dimension_style())
    return doc


def _dimension_style() -> dict[str, Any]:
    return {
        "dimlfac": 1.0,  # model space is in millimetres; the library's own style measures in other units
        "dimtxsty": STYLE,
        "dimtxt": CAPITALS,
        "dimasz": ARROW,
        "dimgap": GAP,
        "dimexe": BEYOND,
        "dimexo": GAP,
        "dimtad": 1,
        "dimtih": 0,
        "dimtoh": 0,
        "dimdec": 3,
        "dimdsep": ord("."),
        "dimclrd": LAYERS["dimension"][1],
        "dimclre": LAYERS["dimension"][1],
    }


def _draw_view(space: Any, placed: Placed, *, origin: Point, units: Units) -> None:
    scale = placed.view.scale

    def at(point: Point) -> Point:
        return point[0] + origin[0], point[1] + origin[1]

    for item in placed.view.items:
        match item:
            case Line():
                space.add_line(at(item.a), at(item.b), dxfattribs=_pen(item.pen, scale))
            case Circle():
                space.add_circle(at(item.centre), item.radius, dxfattribs=_pen(item.pen, scale))
            case Arc():
                start, end = sweep(item.start, item.end)
                space.add_arc(at(item.centre), item.radius, start, end, dxfattribs=_pen(item.pen, scale))
            case Hatched():
                hatch = space.add_hatch(color=LAYERS["hatch"][1], dxfattribs={"layer": LAYERS["hatch"][0]})
                hatch.set_pattern_fill("ANSI31", scale=HATCH / _ANSI31 / scale)
                hatch.paths.add_polyline_path([at(point) for point in item.outline], is_closed=True)
            case Dimension():
                _add_dimension(space, item, origin=origin, scale=scale, units=units)
            case Text():
                spot, to = ((p[0] * scale, p[1] * scale) if p else None for p in (item.at, item.to))
                for mark in note_marks(item, at=spot or (0, 0), to=to):
                    _add_mark(space, mark, origin=origin, scale=scale)
    title = placed.marks[-1]
    _add_mark(space, title, origin=origin, scale=scale)


def _pen(pen: Pen, scale: float = 1.0) -> dict[str, Any]:
    return {"layer": LAYERS[pen][0], "ltscale": 1 / scale}


def figures(item: Dimension, *, units: Units) -> tuple[str, ...]:
    """The rows of a dimension, with the control codes that every CAD reads for the signs."""
    shown = rows(kind=item.kind, lower=item.lower, upper=item.upper, units=units)
    return tuple(row.replace("⌀", "%%c") for row in shown)


def _coded(text: str) -> str:
    """Typed words with the signs as control codes."""
    words = printable(text).replace("\n", " ").replace("\t", " ").replace("%%", "% %")
    return words.replace("⌀", "%%c").replace("°", "%%d").replace("±", "%%p")


def _add_dimension(space: Any, item: Dimension, *, origin: Point, scale: float, units: Units) -> None:
    a, b = ((x + origin[0], y + origin[1]) for x, y in (item.a, item.b))
    shown = figures(item, units=units)
    common = {
        "text": "\\P".join(shown),
        "dimstyle": STYLE,
        "override": {"dimscale": 1 / scale, "dimlfac": 1.0},
        "dxfattribs": {"layer": LAYERS["dimension"][0]},
    }
    if item.kind == "radius":
        style = space.add_radius_dim(center=a, mpoint=b, **common)
    else:
        style = space.add_aligned_dim(p1=a, p2=b, distance=item.offset / scale, **common)
        # the library places one row over the line; more rows are lifted so that the lowest stands there
        style.shift_text(0, (len(shown) - 1) * CAPITALS * ROW / 2 / scale)
    style.render()
    for mark in note_below(item, scale=scale, units=units):
        _add_mark(space, mark, origin=origin, scale=scale)
    measured = ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5
    if item.upper > item.lower:
        # the limits are in the text already; these are for programs that read the style. The lower one is subtracted.
        style.set_tolerance(round(item.upper * 1000 - measured, 6), round(measured - item.lower * 1000, 6), dec=4)
        style.commit()


def _add_mark(space: Any, mark: Mark, *, origin: Point = (0.0, 0.0), scale: float = 1.0) -> None:
    """A mark in millimetres of the paper, blown up to the size of the part."""
    from ezdxf.enums import TextEntityAlignment as Alignment

    def at(point: Point) -> Point:
        return point[0] / scale + origin[0], point[1] / scale + origin[1]

    match mark:
        case Stroke() if mark.filled:
            space.add_solid([at(point) for point in mark.points], dxfattribs=_pen(mark.pen))
        case Stroke():
            space.add_lwpolyline([at(point) for point in mark.points], close=mark.closed, dxfattribs=_pen(mark.pen, scale))
        case Round():
            space.add_arc(at(mark.centre), mark.radius / scale, mark.start, mark.end, dxfattribs=_pen(mark.pen, scale))
        case Words():
            height = mark.height * CAPITALS / LETTERS / scale
            placing = {"start": Alignment.LEFT, "middle": Alignment.CENTER, "end": Alignment.RIGHT}[mark.anchor]
            text = space.add_text(
                _coded(mark.text), height=height, rotation=mark.angle, dxfattribs={"layer": "NOTE", "style": STYLE}
            )
            text.set_placement(at(mark.at), align=placing)


def _open_window(doc: Any, placed: Placed, *, origin: Point, box: tuple[float, float, float, float]) -> None:
    left, bottom, right, top = (box[0] - 5, box[1] - 1, box[2] + 5, box[3] + 5)
    scale = placed.view.scale
    middle = ((left + right) / 2, (bottom + top) / 2)
    window = doc.layout("Layout1").add_viewport(
        center=(placed.at[0] + middle[0], placed.at[1] + middle[1]),
        size=(right - left, top - bottom),
        view_center_point=(middle[0] / scale + origin[0], middle[1] / scale + origin[1]),
        view_height=(top - bottom) / scale,
    )
    window.dxf.layer = "VIEWS"


def _draw_sheet(doc: Any, drawing: Drawing, sheet: Any) -> None:
    doc.layers.add("VIEWS", color=9).off()  # frames of the windows are not drawn
    layout = doc.layout("Layout1")
    layout.page_setup(size=(sheet.width, sheet.height), margins=(0, 0, 0, 0), units="mm")

    for mark in sheet.frame:
        _add_mark(layout, mark)
    doc.header.custom_vars.append("title", drawing.title)
    doc.header.custom_vars.append("drawing number", drawing.number)
