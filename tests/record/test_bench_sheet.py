"""A sheet is read back with pypdf; the drawn boxes are measured in the page's own lines."""

import io
import re

import pytest
from pypdf import PdfReader

from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.place import Place
from gudgeon.engine.reading import Reading
from gudgeon.engine.sheet import bench_sheet
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.system import Feature, Level, System
from gudgeon.quantity import understand
from gudgeon.record import bench_sheet_pdf
from gudgeon.record.bench_sheet import direction_words
from gudgeon.record.sketch import shape_of

OUTLINE = Outline(name="Harrow marine engine", cylinders=2)
LEVELS = (
    Level(name="ridge", wear="little", hint="on the lip itself"),
    Level(name="top of ring travel", wear="most"),
    Level(name="below ring travel", wear="unworn", hint="the best witness of the size when new"),
)
SYSTEM = System(
    key="cylinders",
    title="Cylinders",
    introduction="",
    parts=(PartKind(kind="cylinder", title="Cylinder", count=lambda outline: outline.cylinders, item="cyl {n}"),),
    features=(
        Feature(
            part="cylinder",
            name="bore diameter",
            title="Bore diameter",
            wear="adds",
            levels=LEVELS,
            directions=(0.0, 90.0),
            gauges=("dial_bore_gauge",),
        ),
        Feature(part="cylinder", name="length", title="Length of the bore", how="From the top face."),
    ),
)


def read(typed, *, station="", direction=None, item="cyl 1", feature="bore diameter", unit="in", base=""):
    place = Place(part="cylinder", item=item, feature=feature, station=station, direction=direction)
    understood = understand(typed, unit=unit, base=base or None)
    return Reading(id=f"{typed}{station}{direction}", place=place, typed=typed, unit=unit, understood=understood, base=base)


def printed(*readings, **more):
    sheet = bench_sheet(SYSTEM, Snapshot(outline=OUTLINE, readings=readings))
    return bench_sheet_pdf(sheet, outline=OUTLINE, date="2026-03-14", **more)


def text_of(data):
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages))


@pytest.mark.parametrize(
    "words",
    [
        "cyl 1",
        "cyl 2",
        "Bore diameter",
        "on the lip itself",
        "below ring travel",
        "along, 0°",
        "across, 90°",
        "gauge (dial bore gauge)",
        "part temp. °C",
        "who",
        "when",
        "Length of the bore",
        "From the top face.",
        "14 places to read.",
    ],
)
def test_it_asks_for(words):
    """2 cylinders x (3 levels x 2 directions + 1 length) = 14 places."""
    assert words in text_of(printed())


def test_readings_already_taken_are_in_their_boxes():
    shown = text_of(
        printed(
            read("5.128", station="ridge", direction=0.0),
            read("+3", station="ridge", direction=90.0, unit="thou", base="5 1/8"),
        )
    )
    assert "5.128" in shown
    assert "+3 thou on 5 1/8" in shown
    assert "2 of 14 places were read before this was printed." in shown


def test_more_readings_than_boxes_are_all_printed():
    some = [read(f"5.12{n}", station="ridge", direction=0.0) for n in range(1, 6)]
    shown = text_of(printed(*some))
    assert all(f"5.12{n}" in shown for n in range(1, 6))


def test_readings_elsewhere_are_listed():
    assert "Also read: 5.127 (half way, 45°)" in text_of(printed(read("5.127", station="half way", direction=45.0)))


def test_examples_follow_the_units():
    assert "130.2, +0.08" in text_of(printed(units="millimetre"))


def test_it_is_upright_a4_and_the_same_every_time():
    data = printed()
    box = PdfReader(io.BytesIO(data)).pages[0].mediabox
    assert (float(box.width) / 72 * 25.4, float(box.height) / 72 * 25.4) == pytest.approx((210, 297), abs=0.01)
    assert data == printed()


def test_directions_have_their_words():
    assert direction_words(0.0) == "along, 0°"
    assert direction_words(90.0) == "across, 90°"
    assert direction_words(180.0) == "180°"
    assert direction_words(None) == "reading"


def test_no_sketch_rather_than_a_wrong_one():
    bore, length = SYSTEM.features
    assert shape_of(bore) == "hole"
    assert shape_of(Feature(part="piston", name="skirt diameter", title="", wear="takes")) == "shaft"
    assert shape_of(Feature(part="piston", name="groove width", title="", wear="adds")) is None
    assert shape_of(length) is None
