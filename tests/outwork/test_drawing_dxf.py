"""The DXF is read back and audited with ezdxf, a general library; unit code 4 is millimetres (DXF reference, $INSUNITS)."""

import dataclasses
import io
import math

import ezdxf
import pytest

from gudgeon.engine.drawing import Dimension, Line, View
from gudgeon.outwork import drawing_dxf
from tests.outwork.drawings import between, drawing, sheets


def read(data):
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


def written(dimension):
    """The figures in the block that a dimension shows, with its signs as characters."""
    return next(entity.plain_text() for entity in dimension.virtual_entities() if entity.dxftype() == "MTEXT")


def one(dimension, units="inch"):
    view = View(title="View", items=(Line((0, 0), (50, 0)), dimension), scale=0.5)
    return read(drawing_dxf(drawing(view, units=units))).modelspace().query("DIMENSION").first


@pytest.mark.parametrize("name", sheets())
def test_every_sheet_passes_the_audit(name):
    document = read(drawing_dxf(sheets()[name]))
    audit = document.audit()
    assert not audit.errors
    assert not audit.fixes
    assert document.dxfversion == "AC1024"
    assert document.header["$INSUNITS"] == 4
    assert document.header["$MEASUREMENT"] == 1


@pytest.mark.parametrize("name", sheets())
def test_every_dimension_measures_its_limits(name):
    """Whatever the view's scale: the entity measures in mm, and measured plus and minus its tolerance are the limits."""
    sheet = sheets()[name]
    asked = [item for view in sheet.views for item in view.items if isinstance(item, Dimension)]
    found = read(drawing_dxf(sheet)).modelspace().query("DIMENSION")
    assert len(found) == len(asked)
    for item, entity in zip(asked, found, strict=True):
        style = entity.override()
        assert style.get("dimlfac") == 1
        measured = entity.get_measurement()
        assert measured + style.get("dimtp", 0) == pytest.approx(item.upper * 1000, abs=1e-5)
        assert measured - style.get("dimtm", 0) == pytest.approx(item.lower * 1000, abs=1e-5)


def test_an_uneven_tolerance_keeps_its_signs():
    """Shaft 50 s6 of ISO 286-2, +0.059/+0.043 mm, drawn 50.040 mm long: both limits lie above the drawn size, by 0.019 and
    0.003 mm. A CAD subtracts $DIMTM (DXF reference), so the lower one must be written as minus 0.003."""
    entity = one(Dimension("diameter", (0, 0), (50.040, 0), 10, 0.050043, 0.050059), units="millimetre")
    style = entity.override()
    assert (style.get("dimtp"), style.get("dimtm")) == pytest.approx((0.019, -0.003))
    assert written(entity) == "Ø50.059 (1.9708)\nØ50.043 (1.9702)"  # 1.970197 up, 1.970827 down


def test_figures_read_back_are_true_size_at_any_scale():
    entity = one(Dimension("length", (0, 0), (50, 0), 10, 0.05, 0.05), units="millimetre")
    assert written(entity) == "50.0 (1.9685)"
    assert entity.get_measurement() == pytest.approx(50)


def test_a_radius_is_a_radius_dimension():
    entity = one(Dimension("radius", (0, 0), (30, 40), 0, 0.05, 0.05), units="millimetre")
    assert entity.dimtype == 4
    assert written(entity) == "R50.0 (1.9685)"


def test_the_part_is_at_true_size_on_layers_by_pen():
    """A bore of 5.1455 in: 130.6957 mm between its two walls in model space, though the sheet shows it at 1:2.5."""
    space = read(drawing_dxf(sheets()["bore"])).modelspace()
    lines = space.query('LINE[layer=="OUTLINE"]')
    walls = sorted({round(line.dxf.start.x, 6) for line in lines if line.dxf.start.x == line.dxf.end.x})
    assert walls[2] - walls[1] == pytest.approx(5.1455 * 25.4)
    assert {entity.dxf.layer for entity in space} == {"OUTLINE", "CENTRE", "HATCH", "DIMENSION", "NOTE"}
    assert read(drawing_dxf(sheets()["bore"])).layers.get("CENTRE").dxf.linetype == "SHOP_CENTRE"


def test_a_ring_is_an_arc_of_its_bore():
    space = read(drawing_dxf(sheets()["butt ring"])).modelspace()
    outer = max(space.query("ARC"), key=lambda arc: arc.dxf.radius)
    assert outer.dxf.radius * 2 == pytest.approx(5.1455 * 25.4)
    open_angle = 360 - (outer.dxf.end_angle - outer.dxf.start_angle) % 360
    assert math.radians(open_angle) * outer.dxf.radius == pytest.approx(0.0175 * 25.4, rel=1e-6)


def test_the_sheet_fits_its_paper():
    layout = read(drawing_dxf(sheets()["bore"])).layout("Layout1")
    assert layout.dxf.paper_width == 297
    words = [entity.dxf.text for entity in layout.query("TEXT")]
    assert "Harrow marine engine, Lower Quay" in words
    for entity in layout.query("LWPOLYLINE"):
        assert all(20 <= x <= 287 and 10 <= y <= 200 for x, y, *_ in entity.get_points())


def test_windows_show_each_view_at_its_scale():
    sheet = sheets()["piston"]
    windows = [v for v in read(drawing_dxf(sheet)).layout("Layout1").query("VIEWPORT") if v.dxf.id != 1]
    assert [v.dxf.height / v.dxf.view_height for v in windows] == pytest.approx([view.scale for view in sheet.views])


def test_the_same_drawing_gives_the_same_bytes():
    assert drawing_dxf(sheets()["bore"]) == drawing_dxf(sheets()["bore"])


def test_typed_words_cannot_become_codes():
    hostile = dataclasses.replace(sheets()["bore"], title=r"\P{x} %%c 0" + "\n999\nEOF")
    document = read(drawing_dxf(hostile))
    assert not document.audit().errors
    shown = [entity.plain_text() for entity in document.layout("Layout1").query("TEXT")]
    assert r"\P{x} % %c 0 999 EOF" in " ".join(shown)


def test_limits_and_note_are_both_written():
    item = Dimension("length", (0, 0), (25.4, 0), 10, *between(0.999, 1.001), r"after fitting \P{x}")
    view = View(title="View", items=(Line((0, 0), (50, 0)), item), scale=0.5)
    space = read(drawing_dxf(drawing(view))).modelspace()
    assert written(space.query("DIMENSION").first) == "1.0010 (25.425)\n.9990 (25.375)"  # 25.4254 down, 25.3746 up
    notes = " ".join(text.plain_text() for text in space.query("TEXT"))
    assert r"after fitting \P{x}" in notes
