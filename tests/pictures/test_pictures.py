"""Pictures of findings: well formed, the same twice, saying the same sizes as everywhere else."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree

import pytest

from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import BoreMap, Curve, SizePosterior, Strip, WallMap
from gudgeon.pictures import PlanStop, PlanStreams, draw, draw_plan, standalone
from gudgeon.pictures.curve import round_steps
from gudgeon.pictures.round_field import between
from gudgeon.quantity import Amount, show

INCH = 0.0254
FINDING = Finding(
    system="s",
    part="cylinder",
    item="cyl <2>",
    quantity="out of round",
    dimension="length",
    value=0.0061 * INCH,
    low=0.0055 * INCH,
    high=0.0067 * INCH,
    target_low=0.0,
    target_high=0.001 * INCH,
    limit=0.005 * INCH,
)
SPOTS = tuple(
    (depth * INCH, direction, 0.001 * INCH * depth) for depth in (0.5, 2.0, 4.0) for direction in (0.0, 45.0, 90.0, 135.0)
)
PICTURES = (
    Strip(finding=FINDING),
    BoreMap(
        title="cyl 1",
        spots=SPOTS,
        travel_top=0.4 * INCH,
        travel_bottom=4.2 * INCH,
        worst=0.004 * INCH,
        nominal=3.875 * INCH,
        clean_up=3.89 * INCH,
    ),
    BoreMap(
        title="one reading", spots=SPOTS[:1], travel_top=None, travel_bottom=None, worst=0.0005 * INCH, nominal=3.875 * INCH
    ),
    WallMap(title="wall", spots=((0.02, 0.0, 0.005), (0.02, 90.0, 0.006), (0.02, 180.0, 0.0055)), least=0.004),
    SizePosterior(
        title="nominal", candidates=((3.875 * INCH, "3 7/8", 0.71), (3.88 * INCH, "3.880", 0.2)), readings=(3.8751 * INCH,)
    ),
    Curve(
        title="speed",
        x_text="load",
        y_text="rpm",
        curves=(("up", ((0.0, 500.0), (1.0, 480.0))),),
        bands=(("aim", 470.0, 510.0),),
    ),
)


@pytest.mark.parametrize("units", ["inch", "millimetre"])
@pytest.mark.parametrize("picture", PICTURES, ids=lambda picture: type(picture).__name__)
def test_well_formed_the_same_twice_and_with_its_style_inside_for_print(picture, units):
    svg = draw(picture, units=units)
    ElementTree.fromstring(svg)
    ElementTree.fromstring(standalone(svg))
    assert svg == draw(picture, units=units)


@pytest.mark.parametrize("units", ["inch", "millimetre"])
def test_a_strip_writes_found_and_limit_as_the_rest_of_the_house_does(units):
    svg = draw(Strip(finding=FINDING), units=units)
    assert f">{show(Amount(FINDING.value, 'length'), units)}<" in svg
    assert f"limit {show(Amount(FINDING.limit, 'length'), units)}" in svg


def test_on_a_strip_found_stands_right_of_the_limit_that_it_is_past():
    root = ElementTree.fromstring(draw(Strip(finding=FINDING), units="inch"))
    namespace = "{http://www.w3.org/2000/svg}"
    dot = next(shape for shape in root.iter(f"{namespace}circle"))
    limit = next(shape for shape in root.iter(f"{namespace}path") if shape.get("class") == "pic-limit")
    assert float(dot.get("cx")) > float(limit.get("d")[1:].split()[0])


def test_a_thing_not_measured_and_without_limit_still_draws():
    bare = Finding(system="s", part="p", item="i", quantity="q", dimension="length")
    assert "Nothing measured" in draw(Strip(finding=bare), units="inch")


def test_the_field_returns_each_reading_at_its_own_spot_and_stays_between_them():
    # A Shepard interpolant passes through its data and never leaves their range (Shepard 1968).
    for depth, direction, value in SPOTS:
        assert between(SPOTS, depth, direction, depth_scale=0.02, turn=180) == value
    middle = between(SPOTS, 1.2 * INCH, 70.0, depth_scale=0.02, turn=180)
    assert min(spot[2] for spot in SPOTS) <= middle <= max(spot[2] for spot in SPOTS)


def test_a_diameter_is_the_same_from_both_ends():
    assert between(SPOTS, 0.03, 20.0, depth_scale=0.02, turn=180) == pytest.approx(
        between(SPOTS, 0.03, 200.0, depth_scale=0.02, turn=180), rel=1e-12
    )


@pytest.mark.parametrize(
    ("low", "high", "steps"),
    [(0, 100, [0, 20, 40, 60, 80, 100]), (480, 500, [480, 485, 490, 495, 500]), (0.0, 0.6, [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6])],
)
def test_axis_steps_are_round(low, high, steps):
    assert round_steps(low, high) == pytest.approx(steps)


def test_the_plan_says_every_step_and_flows_into_the_common_arm():
    stops = (
        PlanStop(key="bore", title="bore the block", when="about 12 April", arm="cylinders", kind="shop"),
        PlanStop(key="pour", title="pour the mains", when="about 20 April", arm="bearings", kind="shop", late=True),
        PlanStop(key="fit", title="fit up", when="about 1 May", arm="fit-up", kind="hold", after=("bore", "pour")),
    )
    svg = draw_plan(PlanStreams(title="plan", stops=stops, common="fit-up", end="first run: 3 May", target="aimed at: 9 May"))
    ElementTree.fromstring(svg)
    for text in ("bore the block", "about 20 April", "first run: 3 May", "aimed at: 9 May", "bearings"):
        assert text in svg
    assert svg.count("pic-branch") == 3
