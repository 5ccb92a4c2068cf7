"""The SVG is measured as a person with a rule would measure the print, by an XML reader and plain geometry."""

import dataclasses
import math
import re
import xml.etree.ElementTree as ET

import pytest

from gudgeon.engine.drawing import Arc, Circle, Dimension, DrawingFault, Hatched, Line, Text, View
from gudgeon.engine.sketching import Groove, bored_hole_section, piston_blank, sleeve_section
from gudgeon.outwork import drawing_svg
from gudgeon.outwork.layout import hatch_lines, set_out
from gudgeon.outwork.marks import Words
from tests.outwork.drawings import BORE, IN, between, drawing, ring, sheets, size

SVG = "{http://www.w3.org/2000/svg}"


def read(text):
    return ET.fromstring(text)


def straights(root, pen):
    """End points of every straight run of a pen [mm]."""
    for path in root.iter(f"{SVG}path"):
        if path.get("class") == pen and "A" not in path.get("d") and path.get("stroke"):
            yield [tuple(map(float, pair)) for pair in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path.get("d"))]


def words_of(root):
    return [node.text for node in root.iter(f"{SVG}text")]


@pytest.mark.parametrize("name", sheets())
def test_every_sheet_is_whole(name):
    sheet = set_out(sheets()[name])
    root = read(drawing_svg(sheets()[name]))
    assert root.get("width") == "297mm"
    assert root.get("viewBox") == "0 0 297 210"
    for mark in sheet.marks():
        if isinstance(mark, Words):
            for x, y in mark.corners():
                assert 20 <= x <= 287, mark
                assert 10 <= y <= 200, mark


@pytest.mark.parametrize("name", sheets())
def test_no_words_cover_other_words(name):
    """Separating-axis test on the boxes of every pair of lines of text, a fifth of a millimetre forgiven."""
    boxes = [mark for mark in set_out(sheets()[name]).marks() if isinstance(mark, Words)]
    for n, one in enumerate(boxes):
        for two in boxes[n + 1 :]:
            assert apart(one.corners(), two.corners()), (one.text, two.text)


def apart(one, two, slack=0.2):
    for box in (one, two):
        for (x1, y1), (x2, y2) in ((box[0], box[1]), (box[1], box[2])):
            length = math.hypot(x2 - x1, y2 - y1)
            axis = ((x2 - x1) / length, (y2 - y1) / length)
            a, b = ([x * axis[0] + y * axis[1] for x, y in corners] for corners in (one, two))
            if max(a) <= min(b) + slack or max(b) <= min(a) + slack:
                return True
    return False


def test_a_bore_is_drawn_as_wide_as_it_is():
    """The two bore lines are 9 in long at 1:2.5, 91.44 mm on paper, and 5.1455 in apart, 52.278 mm."""
    root = read(drawing_svg(sheets()["bore"]))
    upright = sorted(p[0][0] for p in straights(root, "outline") if len(p) == 2 and abs(math.dist(*p) - 91.44) < 1e-3)
    assert len(upright) == 4
    assert upright[2] - upright[1] == pytest.approx(5.1455 * 25.4 / 2.5, abs=1e-3)
    assert upright[3] - upright[2] == pytest.approx(0.5 * 25.4 / 2.5, abs=1e-3)


def test_a_ring_is_as_round_as_it_is_wide():
    """At 1:2 the outer arc of a ring closed in a 5.1455 in bore has a radius of 32.674 mm and leaves the gap open."""
    root = read(drawing_svg(sheets()["butt ring"]))
    arcs = [path.get("d") for path in root.iter(f"{SVG}path") if "A" in path.get("d")]
    numbers = [list(map(float, re.findall(r"-?[\d.]+", arc))) for arc in arcs]
    outer = max(numbers, key=lambda arc: arc[2])
    assert outer[2] == pytest.approx(5.1455 * 25.4 / 2 / 2, abs=1e-3)
    chord = math.dist(outer[:2], outer[-2:])
    assert chord == pytest.approx(0.0175 * 25.4 / 2, abs=2e-3)


def test_figures_are_limits_in_both_units():
    shown = words_of(read(drawing_svg(sheets()["bore"])))
    assert "⌀5.1460 (130.708)" in shown  # 130.7084
    assert "⌀5.1450 (130.683)" in shown
    other = words_of(read(drawing_svg(sheets()["bore"], units="millimetre")))
    assert "⌀130.708 (5.1460)" in other
    assert "mm, inch in brackets" in other


def test_the_title_block_says_whose_and_what():
    shown = words_of(read(drawing_svg(sheets()["bore"])))
    for words in (
        "Trial piece",
        "H-01",
        "Harrow marine engine, Lower Quay",
        "grey cast iron",
        "1:2.5",
        "2026-03-14",
        "the owner",
    ):
        assert words in shown


def test_typed_words_cannot_become_markup():
    root = read(drawing_svg(dataclasses.replace(sheets()["bore"], title='<script>&"]]>')))
    assert not list(root.iter(f"{SVG}script"))
    assert '<script>&"]]>' in words_of(root)


def test_a_long_title_is_not_cut():
    long = "Bore the second cylinder to clean up at twenty thousandths over and leave every stamped number as it is " * 2
    shown = " ".join(words_of(read(drawing_svg(dataclasses.replace(sheets()["bore"], title=long)))))
    assert long.strip() in shown


def test_the_same_drawing_gives_the_same_text():
    assert drawing_svg(sheets()["piston"]) == drawing_svg(sheets()["piston"])


def test_hatching_covers_a_square():
    """Lines 1 mm apart across a square of side 10 at 45 degrees: total length is area over spacing, within one diagonal."""
    lines = hatch_lines(((0, 0), (10, 0), (10, 10), (0, 10)), spacing=1.0)
    total = sum(math.dist(*line.points) for line in lines)
    assert total == pytest.approx(100, abs=14.2)
    assert all(-1e-9 <= x <= 10 + 1e-9 and -1e-9 <= y <= 10 + 1e-9 for line in lines for x, y in line.points)


def flat(*items, scale=1.0):
    return drawing(View(title="View", items=(Line((0, 0), (50, 0)), *items), scale=scale))


FAULTS = {
    "longer than drawn": (
        flat(Dimension("length", (0, 0), (50, 0), 10, 0.051, 0.051)),
        "Drawing H-01, “View”: a dimension says 2.0079 in (51.0 mm) and is drawn 50.000 mm long; 51.000 mm would be right.",
    ),
    "limits changed over": (
        flat(Dimension("length", (0, 0), (50, 0), 10, 0.051, 0.049)),
        "lower limit above its upper one",
    ),
    "below nought": (flat(Dimension("length", (0, 0), (50, 0), 10, -0.05, 0.05)), "lower limit of size of -0.05 was given"),
    "not a number": (flat(Line((0, 0), (math.nan, 0))), "a line has nan where a finite number of millimetres"),
    "endless": (flat(Circle((math.inf, 0), 4)), "a circle has inf"),
    "no radius": (flat(Arc((0, 0), 0.0, 0, 90)), "a radius of 0.0 was given; a number above nought would be right"),
    "flat hatching": (flat(Hatched(((0, 0), (5, 0), (10, 0)))), "encloses nothing"),
    "no letters": (flat(Text((0, 0), "words", height=-1)), "height of letters of -1"),
    "no scale": (flat(scale=0.0), "a scale of 0.0 was given"),
    "no view": (drawing(), "Drawing H-01 has no view"),
    "empty view": (drawing(View(title="View", items=())), "is empty"),
    "off the sheet": (flat(Line((0, 0), (0, 400))), r"runs off its sheet.*a smaller scale than 1:1 would be right"),
}


@pytest.mark.parametrize("name", FAULTS)
def test_what_cannot_be_true_is_refused(name):
    wrong, sentence = FAULTS[name]
    with pytest.raises(DrawingFault) as fault:
        drawing_svg(wrong)
    assert re.search(sentence, str(fault.value)) or sentence == str(fault.value)


def test_a_sleeve_thicker_than_its_bore_is_refused():
    with pytest.raises(
        DrawingFault, match=r"an inside diameter of 139.700 mm \(5.5000 in\) does not go inside an outside diameter"
    ):
        sleeve_section(outside=size(5.25), inside=size(5.5), length=size(9))


def test_grooves_may_not_overlap():
    grooves = [Groove(from_crown=x * IN, width=size(0.25), depth=size(0.2)) for x in (0.375, 0.5)]
    with pytest.raises(
        DrawingFault, match=r"Groove 2 starts 12.70 mm below the crown, where the one above still runs to 15.8[78] mm"
    ):
        piston_blank(skirt=size(5), length=size(5), grooves=grooves)


@pytest.mark.parametrize("bore", [(math.nan, 0.1), (0.1, 0.09), (-0.1, 0.1)])
def test_limits_that_are_none_are_refused(bore):
    with pytest.raises(DrawingFault, match="two sizes above nought, the lower first, would be right"):
        bored_hole_section(bore=bore, length=size(9))


def test_a_large_part_at_true_size_goes_on_a3():
    assert set_out(flat(Line((0, 0), (0, 150)))).paper == "A3"
    assert set_out(flat(Line((0, 0), (0, 90)))).paper == "A4"


def test_a_wider_bore_makes_a_wider_ring():
    small, large = (ring(joint="butt", bore=bore)[0].items[0].radius for bore in (BORE, between(6, 6)))
    assert large / small == pytest.approx(6 / 5.1455)
