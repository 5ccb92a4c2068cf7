"""Timing, pumps and galvanic pairs against figures that others printed; the source stands beside each."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.handbook.galvanic import galvanic_series, metal_in_words
from gudgeon.handbook.rules import rules
from gudgeon.mechanics import galvanic, pins, pumps, slider_crank, timing
from gudgeon.quantity.units import from_si, to_si

INCH = 0.0254
PINT = to_si(1.0, "pint")


# V. W. Pagé, Aviation Engines (1917), ch. VI, and R. B. Whitman, Tractor Principles (1920), ch. VI.
@pytest.mark.parametrize(("cylinders", "sparks", "turns"), [(4, 2, 1.0), (6, 2, 1.5), (8, 2, 2.0), (1, 1, 0.5)])
def test_magneto_turns_for_each_turn_of_the_crank(cylinders: int, sparks: int, turns: float) -> None:
    assert timing.magneto_ratio(cylinders=cylinders, strokes=4, sparks_per_turn=sparks) == pytest.approx(turns)


def test_lag_of_fourteen_degrees_is_twenty_eight_of_the_crank() -> None:
    # yesterdaystractors.com, Farmall board 467601: trips at dead centre, 14 degree of lag run 28 degree before it.
    found = timing.running_spark(trips_after=0.0, lag=math.radians(14), ratio=0.5)
    assert math.degrees(float(found)) == pytest.approx(28.0)


def test_one_tooth_of_a_cam_gear_of_48() -> None:
    # The crank turns twice for the cam's once: 2 x 360 / 48. Plane geometry.
    assert math.degrees(float(timing.tooth_step(teeth=48, ratio=0.5))) == pytest.approx(15.0)


@pytest.mark.parametrize(
    ("travel", "stroke", "rod", "degrees", "rising"),
    [
        # Whitman, Motor-Car Principles (1909): half an inch of travel; 5 in stroke and 11 in rod.
        (0.5, 5.0, 11.0, 33.0, False),
        # Ford Manual (1919), answer 22: inlet opens 1/16 in down; 4 in stroke, 7 in rod (rod from memory).
        (1 / 16, 4.0, 7.0, 13.0, False),
    ],
)
def test_piston_travel_that_books_print_beside_degrees(
    travel: float, stroke: float, rod: float, degrees: float, rising: bool
) -> None:
    angle = slider_crank.crank_angle(depth=travel * INCH, throw=stroke / 2 * INCH, rod=rod * INCH, rising=rising)
    assert math.degrees(float(angle)) == pytest.approx(degrees, abs=0.6)


@pytest.mark.parametrize(
    ("above_bottom", "after", "degrees"),
    # Ford Manual (1919), answer 22: exhaust opens 5/16 in before bottom, inlet closes 9/16 in after it.
    [(5 / 16, False, 38.0), (9 / 16, True, 51.0)],
)
def test_travel_counted_from_bottom(above_bottom: float, after: bool, degrees: float) -> None:
    angle = slider_crank.crank_angle(depth=(4.0 - above_bottom) * INCH, throw=2.0 * INCH, rod=7.0 * INCH, rising=after)
    assert abs(180.0 - math.degrees(float(angle))) == pytest.approx(degrees, abs=0.6)


@pytest.mark.parametrize(
    ("degree", "percent"),
    [(15, 2.123), (30, 8.267), (45, 17.794), (60, 29.744), (75, 42.978), (90, 56.351), (120, 79.744), (150, 94.870)],
)
def test_percent_of_stroke_with_a_rod_of_four_throws(degree: float, percent: float) -> None:
    # Exact geometry of Heywood, Internal Combustion Engine Fundamentals, eq. 2.5, worked by hand beside it.
    depth = slider_crank.piston_depth(angle=math.radians(degree), throw=1.0, rod=4.0)
    assert 50.0 * float(depth) == pytest.approx(percent, abs=6e-4)


def test_firing_orders_of_a_four_on_a_flat_crank() -> None:
    # Both orders of a four with outer and inner throws together, 1 3 4 2 and 1 2 4 3; Pagé 1917, ch. VIII; common practice.
    throws = {1: 0.0, 2: math.pi, 3: math.pi, 4: 0.0}
    assert timing.possible_orders(throws) == ((1, 2, 4, 3), (1, 3, 4, 2))


def test_firing_orders_of_a_six() -> None:
    # The usual 1 5 3 6 2 4 of a six with throws in pairs at 120 degree is among them; common practice.
    third = 2 * math.pi / 3
    found = timing.possible_orders({1: 0.0, 6: 0.0, 2: third * 1, 5: third * 1, 3: third * 2, 4: third * 2})
    assert (1, 5, 3, 6, 2, 4) in found
    assert len(found) == 4
    assert all(order.index(6) == 3 for order in found)


def test_order_follows_the_lobes() -> None:
    # Like lobes stand on the cam in firing order, a quarter turn apart in a four; plane geometry.
    quarter = math.pi
    assert timing.firing_order({1: 0.3, 3: 0.3 + quarter, 4: 0.3 + 2 * quarter, 2: 0.3 + 3 * quarter - 4 * math.pi}) == (
        1,
        3,
        4,
        2,
    )
    with pytest.raises(timing.FiringFault, match="5°"):
        timing.firing_order({1: 0.0, 2: 0.01})


def test_dead_centre_lies_half_way_between_the_marks_of_a_stop() -> None:
    # The piston stop rule of the trade (common practice), there and back through the crank's own geometry.
    depth = slider_crank.piston_depth(angle=math.radians(25), throw=0.0762, rod=0.34)
    after = float(slider_crank.crank_angle(depth=depth, throw=0.0762, rod=0.34))
    before = float(slider_crank.crank_angle(depth=depth, throw=0.0762, rod=0.34, rising=True)) - 2 * math.pi
    assert float(slider_crank.dead_centre_by_stop(before=before, after=after)) == pytest.approx(0.0, abs=1e-12)


@given(st.floats(0.5, 170.0), st.floats(3.0, 6.0))
def test_piston_to_angle_to_rim_and_back(degree: float, ratio: float) -> None:
    angle = math.radians(degree)
    depth = slider_crank.piston_depth(angle=angle, throw=1.0, rod=ratio)
    back = slider_crank.crank_angle(depth=depth, throw=1.0, rod=ratio)
    assert float(back) == pytest.approx(angle, abs=1e-6)
    along = slider_crank.rim_distance(angle=back, diameter=0.66)
    assert float(slider_crank.rim_angle(distance=along, diameter=0.66)) == pytest.approx(angle, abs=1e-6)


def test_valve_stands_open_for_twice_its_cam_angle() -> None:
    opens, closes = timing.lobe_events(nose=math.radians(-105), half_open=math.radians(56))
    assert math.degrees(float(opens)) == pytest.approx(-217)
    assert math.degrees(float(closes)) == pytest.approx(7)


def test_affinity_from_1750_to_2000() -> None:
    # Q as n, H as n2, P as n3, printed in any pump handbook: 1.1429, 1.3061, 1.4927.
    flow, head, power = pumps.affinity(flow=1.0, head=1.0, power=1.0, ratio=2000 / 1750)
    assert (flow, head, power) == pytest.approx((1.1429, 1.3061, 1.4927), abs=5e-5)


def test_gear_pump_by_the_sums_of_the_field() -> None:
    # hydraulic-systems.com: gal/min at 1800 rev/min = 47 W (2D - L) (L - D) / 2, D the bore, L across both, all in inch;
    # it counts a few per cent of slip in, so the swept volume lies up to 8 % above it.
    bore, across, width = 2.0, 3.6, 1.25
    swept = float(pumps.gear_displacement(outside=bore * INCH, centres=(across - bore) * INCH, width=width * INCH))
    printed = 47 * width * (2 * bore - across) * (across - bore) / 2
    ours = from_si(swept * 1800, "US gallon")
    assert printed < ours
    first_order = math.pi * 1.6 * (2.0 - 1.6) * 1.25 * INCH**3
    assert first_order == pytest.approx(printed * to_si(1.0, "US gallon") / 1800, rel=0.05)
    assert swept == pytest.approx(first_order, rel=0.15)


def test_oil_pump_of_nine_pints_at_1300() -> None:
    # gcmarc.com/model-a-specs: 9 pints a minute at 1300 rev/min. The pump turns with the cam; a pair of gears of about 1 1/2 in
    # outside, 1 1/4 in centres, 1/2 to 1 1/4 in wide (from memory) must bracket it.
    per_turn = 9 * PINT / 650
    narrow, wide = (
        float(pumps.gear_displacement(outside=1.5 * INCH, centres=1.25 * INCH, width=w * INCH)) for w in (0.25, 1.25)
    )
    assert narrow < per_turn < wide


def test_slot_and_ring_gap_agree_where_the_ring_is_opened_flat() -> None:
    # White, Fluid Mechanics, sec. 4.11: flow between plates; a thin ring is a plate pi d wide, 2.5 times it off centre.
    common = {"pressure": 2e5, "gap": 50e-6, "length": 0.02, "viscosity": 0.05}
    flat = float(pumps.slot_leak(width=math.pi * 0.012, **common))
    assert float(pumps.annular_leak(diameter=0.012, **common)) == pytest.approx(flat)
    assert float(pumps.annular_leak(diameter=0.012, off_centre=1.0, **common)) == pytest.approx(2.5 * flat)
    # by hand: 2e5 x .0377 x (50e-6)^3 / (12 x .05 x .02) = 7.85e-8 m3/s
    assert flat == pytest.approx(7.85e-8, rel=2e-3)


def test_ring_gap_against_the_exact_annulus() -> None:
    # Laminar flow in a concentric annulus (Bird, Stewart and Lightfoot, Transport Phenomena, 2.4); a thin gap is its limit.
    outer, gap, pressure, length, viscosity = 6e-3, 60e-6, 1e5, 0.03, 0.04
    k = 1 - gap / outer
    exact = math.pi * pressure * outer**4 / (8 * viscosity * length) * ((1 - k**4) - (1 - k**2) ** 2 / math.log(1 / k))
    ours = pumps.annular_leak(pressure=pressure, gap=gap, diameter=2 * outer - gap, length=length, viscosity=viscosity)
    assert float(ours) == pytest.approx(exact, rel=1e-4)


def test_water_boiled_off_lies_where_a_book_of_1916_has_it() -> None:
    # Rathbun (1916): .3 to .6 gal for each horsepower hour. The heat that Mathot's 5 1/2 gal carries off (1905: in at 57 F, out
    # at 149 F, middles of his bands) would boil .5 gal away.
    heat = 5.5 * to_si(1.0, "US gallon") * pumps.WATER * pumps.WATER_HEAT * (149 - 57) * 5 / 9 / 3600
    gone = from_si(float(pumps.boiled_off(heat=heat)) * 3600, "US gallon")
    row = rules("hopper evaporation for a horsepower hour")[0]
    assert from_si(row.low or 0, "US gallon") < gone < from_si(row.high or 0, "US gallon")
    assert float(pumps.cooling_flow(heat=heat, rise=(149 - 57) * 5 / 9)) * 3600 == pytest.approx(5.5 * to_si(1.0, "US gallon"))


def test_shear_pin_of_a_quarter_inch() -> None:
    # tau = 2 T / (D 2 A): 1000 lbf in on a 1 in shaft, 1/4 in pin in double shear gives 20,372 psi; worked by hand.
    stress = pins.cross_pin_stress(torque=to_si(1000, "lb in"), shaft=INCH, pin=0.25 * INCH)
    assert from_si(float(stress), "psi") == pytest.approx(20372, abs=2)


def test_steel_pin_in_a_bronze_pump_is_eaten() -> None:
    # Professional Boatbuilder no. 100: mild steel -.60 to -.71, composition G bronze -.24 to -.31 V.
    steel, bronze = galvanic_series()["mild steel"].volts, galvanic_series()["bronze"].volts
    assert galvanic.apart(first=steel, second=bronze) == pytest.approx((0.29, 0.47))
    assert galvanic.eaten_first(first=steel, second=bronze) == 0
    assert galvanic.apart(first=steel, second=(-0.65, -0.61)) == pytest.approx((0.0, 0.10))


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Phosphor bronze bush", "bronze"),
        ("manganese bronze", "manganese bronze"),
        ("cast iron, painted", "cast iron"),
        ("stainless steel", "stainless steel, active"),
        ("drill rod", "mild steel"),
    ],
)
def test_metal_by_the_words_of_a_note(text: str, name: str) -> None:
    found = metal_in_words(text)
    assert found is not None
    assert found.name == name


def test_words_without_a_metal_name_none() -> None:
    assert metal_in_words("not examined") is None


def test_an_ampere_year_of_iron() -> None:
    # Faraday: 1 A for a year dissolves 9.1 kg of iron; printed in corrosion handbooks (Fontana; from memory).
    lost = galvanic.metal_lost(current=1.0, time=365.25 * 86400, molar_mass=0.055845, valence=2)
    assert float(lost) == pytest.approx(9.13, abs=0.03)


def test_formulas_take_arrays_as_they_take_numbers() -> None:
    lag = np.radians([10.0, 14.0])
    found = np.asarray(timing.running_spark(trips_after=0.0, lag=lag, ratio=0.5))
    assert np.degrees(found) == pytest.approx([20.0, 28.0])
