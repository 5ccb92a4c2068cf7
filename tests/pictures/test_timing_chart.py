"""The timing chart: arcs where the angles say, words from the nearer dead centre. Plane geometry."""

import re

import pytest

from gudgeon.engine.picture import TimingChart
from gudgeon.pictures import draw
from gudgeon.pictures.timing_chart import MIDDLE, _at, _said

# Stationary engine of 150 to 600 rev/min: exhaust 30 before outer to 5 after inner, inlet 10 after inner to 10 after outer
# (J. B. Rathbun, Gas, Oil and Steam Engines (1916), par. 137).
CHART = TimingChart(title="cyl 1", arcs=(("exhaust", 150.0, 365.0), ("inlet", 10.0, 190.0)), marks=(("spark, running", -20.0),))


def test_the_chart_says_what_the_book_says() -> None:
    svg = draw(CHART, units="inch")
    assert "exhaust: 30° before outer to 5° after inner," in svg
    assert "open 215°" in svg
    assert "inlet: 10° after inner to 10° after outer," in svg
    assert "open 180°" in svg
    assert "spark, running: 20° before inner" in svg
    assert svg == draw(CHART, units="millimetre")


@pytest.mark.parametrize(("angle", "x", "y"), [(0, 0, -1), (90, 1, 0), (180, 0, 1), (-90, -1, 0)])
def test_inner_centre_is_at_the_top_and_the_crank_turns_clockwise(angle: float, x: float, y: float) -> None:
    assert _at(10.0, angle) == pytest.approx((MIDDLE[0] + 10 * x, MIDDLE[1] + 10 * y))


@pytest.mark.parametrize(
    ("angle", "words"), [(0, "inner centre"), (360, "inner centre"), (180, "outer centre"), (-150, "30° after outer")]
)
def test_words(angle: float, words: str) -> None:
    assert _said(angle) == words


def test_nothing_to_draw_draws_nothing_and_all_stays_on_the_sheet() -> None:
    assert draw(TimingChart(title="x", arcs=()), units="inch") == ""
    svg = draw(CHART, units="inch")
    box = re.search(r'viewBox="0 0 ([\d.]+) ([\d.]+)"', svg)
    assert box is not None
    assert all(0 <= float(y) <= float(box.group(2)) for y in re.findall(r' y="([\d.]+)"', svg))
