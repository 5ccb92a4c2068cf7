"""The order is read back as a shop would read it."""

import dataclasses
import io
import re

import pytest
from pypdf import PdfReader

from gudgeon.engine.order import AskedSize, Order, OrderDraft, OrderLine
from gudgeon.engine.outline import Outline
from gudgeon.engine.remedy import Caution, Need
from gudgeon.outwork import order_pdf
from tests.outwork.drawings import IN, sheets

OUTLINE = Outline(name="Harrow marine engine", place="Lower Quay")


def draft(*, held=True, **more):
    needs = (
        Need(kind="decision", what="the bores are settled", met=True),
        Need(kind="reading", what="read the groove width of piston 2", met=not held, why="Rings are made to the trued groove."),
    )
    return OrderDraft(
        key="cylinders/bore",
        system="cylinders",
        verdict="v1",
        title="Bore three cylinders",
        to="a machine shop",
        lines=(
            OrderLine(3, "bore and hone a cylinder", "", (("comes with", "its piston, tagged"), ("clean-up", "≥ .020 #over"))),
        ),
        asked=(
            AskedSize(
                part="cylinder", item="cyl 2", feature="bore diameter", dimension="length", lower=5.145 * IN, upper=5.146 * IN
            ),
        ),
        drawings=(sheets()["bore"],),
        leave_alone=("the stamped number on the flange",),
        needs=needs,
        cautions=(Caution("Weight", "A cylinder weighs more than one person should lift.", "common practice"),),
        **more,
    )


def text_of(data):
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages))


def paper(order, **more):
    return order_pdf(order, outline=OUTLINE, date="2026-03-20", **more)


def test_a_held_order_says_so_and_why():
    shown = text_of(paper(draft()))
    assert "HELD" in shown
    assert "read the groove width of piston 2. Rings are made to the trued groove." in shown
    assert "HELD" not in text_of(paper(draft(held=False)))


def test_sizes_stand_in_both_units():
    """5.145 in is 130.683 mm, 5.146 in is 130.7084 mm, at 25.4 mm to the inch."""
    shown = text_of(paper(draft()))
    assert "5.1450 in (130.683 mm)" in shown
    assert "5.1460 in (130.708 mm)" in shown
    assert "130.683 mm (5.1450 in)" in text_of(paper(draft(), units="millimetre"))


@pytest.mark.parametrize(
    "words",
    ["the stamped number on the flange", "≥ .020 #over", "Harrow marine engine", "Drawing H-01", "A cylinder weighs more"],
)
def test_it_says_what_a_shop_must_know(words):
    assert words in text_of(paper(draft()))


def test_its_drawings_follow_at_their_own_size():
    pages = PdfReader(io.BytesIO(paper(draft()))).pages
    assert float(pages[-1].mediabox.width) / 72 * 25.4 == pytest.approx(297, abs=0.01)
    assert len(pages) == len(PdfReader(io.BytesIO(paper(draft(), drawings=False))).pages) + 1


def test_a_sent_order_names_its_shop_and_its_overruling():
    sent = Order(
        id="o1",
        draft=draft(),
        shop="Quayside Boring",
        price=480.0,
        promised="2026-05-02",
        person="A",
        at="",
        overruled="bore first",
    )
    shown = text_of(paper(sent))
    for words in ("Quayside Boring", "480.00", "2026-05-02", "bore first"):
        assert words in shown


def test_the_same_order_gives_the_same_bytes():
    assert paper(draft()) == paper(draft())
    assert paper(draft()) != paper(dataclasses.replace(draft(), title="Bore two cylinders"))
