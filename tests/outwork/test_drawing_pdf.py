"""The PDF's page box is read by pypdf; 1 point is 1/72 inch (ISO 32000)."""

import io

import pytest
from pypdf import PdfReader

from gudgeon.engine.drawing import Line, View
from gudgeon.outwork import drawing_pdf
from tests.outwork.drawings import drawing, sheets


def box(data):
    media = PdfReader(io.BytesIO(data)).pages[0].mediabox
    return float(media.width) / 72 * 25.4, float(media.height) / 72 * 25.4


def test_the_page_is_the_sheet():
    assert box(drawing_pdf(sheets()["bore"])) == pytest.approx((297, 210), abs=0.01)
    large = drawing(View(title="View", items=(Line((0, 0), (0, 150)),)))
    assert box(drawing_pdf(large)) == pytest.approx((420, 297), abs=0.01)


def test_a_line_is_as_long_on_the_page_as_on_the_part():
    """The only long thick line of the view runs 90 mm; it is found again in the page's own drawing commands."""
    data = drawing_pdf(drawing(View(title="View", items=(Line((0, 0), (0, 90)),))))
    page = PdfReader(io.BytesIO(data)).pages[0]
    lengths, at, scales = [], [None], []

    def visit(operator, operands, matrix, _text):
        nonlocal at
        numbers = [float(value) for value in operands if hasattr(value, "__float__")]
        if operator in (b"m", b"l"):
            x, y = numbers
            point = (matrix[0] * x + matrix[2] * y + matrix[4], matrix[1] * x + matrix[3] * y + matrix[5])
            if operator == b"l" and at[0]:
                lengths.append((abs(point[0] - at[0][0]) + abs(point[1] - at[0][1])) / 72 * 25.4)
            at = [point]

    def collect(stream_holder):
        stream_holder.extract_text(visitor_operand_before=visit)

    collect(page)
    for form in page["/Resources"].get("/XObject", {}).values():
        scales.append(form.get_object().get("/Matrix"))
    assert any(length == pytest.approx(90, abs=0.01) for length in lengths), (sorted(lengths)[-6:], scales)


def test_words_are_text_and_the_bytes_are_the_same():
    data = drawing_pdf(sheets()["ring" if "ring" in sheets() else "butt ring"])
    assert data == drawing_pdf(sheets()["butt ring"])
    assert "Trial piece" in PdfReader(io.BytesIO(data)).pages[0].extract_text()
