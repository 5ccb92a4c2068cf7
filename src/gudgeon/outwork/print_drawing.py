"""A drawing as a page: PDF at true scale, made from its SVG."""

from __future__ import annotations

from gudgeon.engine.drawing import Drawing
from gudgeon.outwork.layout import set_out
from gudgeon.outwork.sizes import Units
from gudgeon.outwork.svg import sheet_svg
from gudgeon.typeset import date_or_epoch, pdf


def drawing_pdf(drawing: Drawing, *, units: Units | None = None) -> bytes:
    """The sheet as PDF/A-2b, vector, on A4 or A3 landscape whichever takes it at its scale; the same bytes every time.

    A drawing without an ISO date is dated 1970-01-01 in the file's own data; the title block shows what was given.
    Raises DrawingFault when the drawing cannot be true.
    """
    sheet = set_out(drawing, units=units)
    source = (
        f"#set page(width: {sheet.width}mm, height: {sheet.height}mm, margin: 0mm)\n"
        f'#image("drawing.svg", width: {sheet.width}mm, height: {sheet.height}mm)'
    )
    return pdf(
        source,
        files={"drawing.svg": sheet_svg(sheet).encode("utf-8")},
        title=f"{drawing.number} {drawing.title}".strip(),
        author=drawing.drawn_by,
        date=date_or_epoch(drawing.date),
    )
