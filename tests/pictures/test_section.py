"""The engine's section: whatever the outline, no label is cut, none lies on another, and every part is named."""

from __future__ import annotations

import itertools
import re
import xml.etree.ElementTree as ElementTree

import pytest

from gudgeon.engine.outline import Outline
from gudgeon.pictures.section import PartState, labels, laid_out, place_of

LAYOUTS = list(
    itertools.product(
        range(1, 9),
        ("singly", "in pairs", "en bloc"),
        ("L head", "T head", "F head", "overhead"),
        ("vertical", "horizontal"),
        ("integral", "detachable"),
    )
)


def outline_of(count, casting, valves, lie, head, **more):
    return Outline(name="x", cylinders=count, casting=casting, valves=valves, lie=lie, head=head, **more)


def all_different(count):
    words = (
        "run on, inside its limit",
        "bore .020 over, waits for the shop",
        "skirt cracked: remake",
        "not reached below the ridge",
    )
    states = {}
    for kind in ("cylinder", "piston", "rod", "main", "head"):
        for n in range(1, count + 2):
            states[f"{kind} {n}"] = PartState(f"{words[n % 4]} {n}", ("", "blue", "red")[n % 3], f"/part/{kind}/{n}")
    return states


def overlapping(boxes):
    return [
        (a.label.name, b.label.name)
        for a, b in itertools.combinations(boxes, 2)
        if a.left < b.right - 0.05 and b.left < a.right - 0.05 and a.top < b.bottom - 0.05 and b.top < a.bottom - 0.05
    ]


@pytest.mark.parametrize("width", ["wide", "narrow"])
@pytest.mark.parametrize("stated", [False, True], ids=["nothing measured", "every part in its own state"])
def test_no_label_overlaps_or_is_cut(width, stated):
    for layout in LAYOUTS[:: 1 if stated else 5]:
        states = all_different(layout[0]) if stated else {}
        laid = laid_out(outline_of(*layout), states, width=width)
        assert not overlapping(laid.boxes), layout
        for box in laid.boxes:
            assert min(box.left, box.top) >= 0, (layout, box.label.name)
            assert box.right <= laid.width, (layout, box.label.name)
            assert box.bottom <= laid.height, (layout, box.label.name)


@pytest.mark.parametrize("width", ["wide", "narrow"])
def test_shapes_stay_inside_the_picture(width):
    for layout in LAYOUTS[::3]:
        laid = laid_out(outline_of(*layout), {}, width=width)
        for d in re.findall(r' d="M([^"A-Z]+(?:L[^"]+)?)z?"', laid.svg):
            for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", d):
                if (x, y) in (("0", "0"), ("0", "5"), ("0", "4")):
                    continue
                assert -0.5 <= float(x) <= laid.width + 0.5, (layout, x)
                assert -0.5 <= float(y) <= laid.height + 0.5, (layout, y, laid.height)


def test_every_label_is_drawn_once_and_the_svg_is_well_formed():
    for layout in LAYOUTS[::7]:
        outline = outline_of(*layout)
        laid = laid_out(outline, {}, width="wide")
        ElementTree.fromstring(laid.svg)
        wanted = [label.number for label in labels(outline, {})]
        assert sorted(box.label.number for box in laid.boxes) == wanted, layout


def test_texts_are_escaped_and_the_bytes_are_the_same_twice():
    states = {"piston 1": PartState("<b>&\"'", "red", 'x"><script>')}
    first = laid_out(outline_of(2, "singly", "overhead", "vertical", "integral"), states).svg
    assert first == laid_out(outline_of(2, "singly", "overhead", "vertical", "integral"), states).svg
    assert "<script" not in first
    assert "<b>" not in first
    ElementTree.fromstring(first)


def test_nothing_known_is_drawn_all_the_same():
    laid = laid_out(Outline(name="x"), {})
    assert "not measured" in laid.svg


def test_equal_neighbours_share_a_label():
    states = {f"piston {n}": PartState("run on") for n in (1, 2, 3)}
    names = [label.name for label in labels(outline_of(4, "singly", "L head", "vertical", "integral"), states)]
    assert "pistons 1 to 3" in names
    assert "piston 4" in names
    assert "cylinders 1 to 4" in names


@pytest.mark.parametrize(
    ("part", "item", "place"),
    [
        ("cylinder", "cyl 2", "cylinder 2"), ("ring", "cyl 3 top ring", "piston 3"), ("pin", "rod bush 4", "rod 4"),
        ("main", "main 1", "main 1"), ("bearing", "main bearing 2", "main 2"), ("bearing", "crankpin bearing 2", "rod 2"),
        ("gear", "cam gear", "timing gears"), ("cam", "cam journal 1", "camshaft"), ("bearing", "crankshaft", "crankshaft"),
        ("thread", "thread 1", ""), ("compression", "shop", ""),
    ],
)  # fmt: skip
def test_parts_as_readings_name_them_find_their_place(part, item, place):
    assert place_of(part, item) == place
