"""Lift, timing, gas room and refacing of valves against printed figures and plane geometry."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.handbook.rules import rules
from gudgeon.mechanics import cam_lift, refacing, valve_flow

IN = 0.0254
DEG = math.pi / 180


# Model A (motormayhem.net): port 1 3/8 in; the curtain is as large as the port at d/4 = .344 in, the lift is .287
def test_lift_equal_to_port() -> None:
    assert valve_flow.lift_for_port(diameter=1.375 * IN) / IN == pytest.approx(0.344, abs=5e-4)
    lift = valve_flow.lift_for_port(diameter=1.375 * IN)
    curtain = valve_flow.curtain_area(lift=lift, head=1.375 * IN, angle=0.0)
    assert curtain == pytest.approx(valve_flow.port_area(port=1.375 * IN))
    # D. A. Low, Machine Drawing and Design: not over a quarter of the diameter
    rule = rules("valve lift", purpose="limit", size=1.375 * IN)[0]
    assert rule.at(1.375 * IN)[1] == pytest.approx(lift)


# As built: Hobbs, 5/16 on 2 in is .156 of the diameter; the room round the valve is then .625 of the port's
def test_lift_as_built_leaves_the_curtain_the_narrower() -> None:
    curtain = valve_flow.curtain_area(lift=0.3125 * IN, head=2.0 * IN, angle=0.0)
    assert curtain / valve_flow.port_area(port=2.0 * IN) == pytest.approx(4 * 0.15625)


@given(st.floats(1e-4, 2e-2), st.floats(0.02, 0.08), st.floats(5e-4, 3e-3), st.floats(20 * DEG, 60 * DEG))
def test_curtain_never_jumps_and_only_grows(lift: float, head: float, width: float, angle: float) -> None:
    step = 1e-8
    here = valve_flow.curtain_area(lift=lift, head=head, seat_width=width, angle=angle)
    there = valve_flow.curtain_area(lift=lift + step, head=head, seat_width=width, angle=angle)
    assert 0 < there - here < math.pi * (head + 2 * lift) * 2 * step


# The least distance between the two cones, found by search over points of both edges: plane geometry
@pytest.mark.parametrize("lift", [0.5e-3, 1.5e-3, 4e-3, 9e-3])
def test_curtain_slant_is_the_least_distance(lift: float) -> None:
    head, width, angle = 0.045, 1.6e-3, 45 * DEG
    seat = np.array([[head / 2 - width + t * width, t * width * math.tan(angle)] for t in np.linspace(0, 1, 801)])
    least = min(np.hypot(*(seat - point - [0, lift]).T).min() for point in seat)
    area = valve_flow.curtain_area(lift=lift, head=head, seat_width=width, angle=angle)
    assert area / (math.pi * (head - width)) == pytest.approx(least, rel=0.04)  # the cone's mean radius moves a little


# c.1915 motor book: area = piston area x piston speed / 5,000, so that the gas runs 5,000 ft/min
def test_gas_speed_of_the_books() -> None:
    foot_minute = 0.3048 / 60
    piston = valve_flow.mean_piston_speed(stroke=6 * IN, speed=450 * math.pi / 30)
    assert piston / foot_minute == pytest.approx(450)  # 2 x 6 in x 450 = 450 ft/min
    bore = 4.5 * IN
    area = math.pi / 4 * bore**2 * piston / (5000 * foot_minute)
    assert valve_flow.mean_gas_speed(bore=bore, piston_speed=piston, area=area) / foot_minute == pytest.approx(5000)
    assert rules("gas speed at a valve")[0].high == pytest.approx(5000 * foot_minute)


def test_an_automatic_valve_opens_at_spring_over_area() -> None:
    # 1 lb on 2 in: 1 / 3.1416 = .318 psi, arithmetic
    suction = valve_flow.suction_to_open(spring_force=4.4482216, diameter=2 * IN)
    assert suction / 6894.757 == pytest.approx(1 / math.pi, rel=1e-6)


# TM 5-4310-276-14 Table 1-1: least edge .031 in. A valve of 1/16 in margin at 45 degree may lose .031 in of height, which is
# .022 in square off its face (plane geometry)
def test_margin_left_after_refacing() -> None:
    least = next(row for row in rules("valve margin") if row.source.startswith("TM 5-4310")).low
    assert least is not None
    assert least / IN == pytest.approx(0.031)
    may = refacing.may_be_ground(margin=0.0625 * IN, least=least, angle=45 * DEG)
    assert may / IN == pytest.approx(0.0315 * math.cos(45 * DEG), abs=1e-6)
    assert refacing.margin_after(margin=0.0625 * IN, ground=may, angle=45 * DEG) == pytest.approx(least)


def test_a_flat_valve_loses_what_is_ground_and_a_steep_one_more() -> None:
    lost = refacing.margin_lost(ground=0.010 * IN, angle=np.array([0.0, 30 * DEG, 45 * DEG]))
    assert lost / IN == pytest.approx([0.010, 0.01155, 0.01414], abs=1e-5)
    assert refacing.sink(face_ground=0.005 * IN, seat_cut=0.005 * IN, angle=45 * DEG) == pytest.approx(lost[2])


def test_a_seat_cut_in_a_drawn_profile() -> None:
    # The cone z = r tan a cut by c square to itself, between a straight throat r = r0 and the flat z = 0: intersections by hand
    angle, cut, width = 30 * DEG, 0.5e-3, 1.5e-3
    inner = np.array([0.0, -width * math.sin(angle)])  # the flat lies at z = 0, the throat at r = 0
    shift = cut * np.array([math.sin(angle), -math.cos(angle)])
    along = np.array([math.cos(angle), math.sin(angle)])
    start = inner + shift
    at_throat = start - along * start[0] / along[0]
    at_flat = start + along * (-start[1]) / along[1]
    assert refacing.seat_width_after(width=width, cut=cut, angle=angle) == pytest.approx(np.hypot(*(at_flat - at_throat)))
    outer = refacing.seat_outer_diameter(inner_diameter=0.03, width=width, angle=angle)
    assert refacing.seat_width(outer_diameter=outer, inner_diameter=0.03, angle=angle) == pytest.approx(width)


# Model A timing (motormayhem.net): IO 7.5 BTDC, IC 48.5 ABDC: open 236 degrees of crank. A lobe table of that length gives the
# same back, and lash shortens it
def test_events_of_a_lobe() -> None:
    half = cam_lift.harmonic_half_angle(lift=0.287 * IN, lash=0.0115 * IN, half_open=236 / 4 * DEG)
    angles = np.arange(-90, 91, 2.0) * DEG
    lifts = cam_lift.harmonic_lift(angle=angles, lift=0.287 * IN, half_angle=half)
    opens, closes = cam_lift.events(angles=angles, lifts=lifts, lash=0.0115 * IN)
    assert cam_lift.CRANK_PER_CAM * (closes - opens) / DEG == pytest.approx(236, abs=0.7)
    later, sooner = cam_lift.events(angles=angles, lifts=lifts, lash=0.030 * IN)
    assert later > opens
    assert sooner < closes
    model = cam_lift.harmonic_half_open(lift=0.287 * IN, lash=0.030 * IN, half_angle=half)
    assert model == pytest.approx(sooner, abs=0.4 * DEG)


def test_a_lobe_that_never_takes_up_its_lash_says_so() -> None:
    with pytest.raises(cam_lift.LiftTableFault, match=r"greatest lift read is 1\.00 mm and the lash 2\.00 mm"):
        cam_lift.events(angles=np.array([-1.0, 0.0, 1.0]), lifts=np.array([0.0, 1e-3, 0.0]), lash=2e-3)
    with pytest.raises(cam_lift.LiftTableFault, match="starts or ends with the valve open"):
        cam_lift.events(angles=np.array([-1.0, 0.0, 1.0]), lifts=np.array([5e-4, 1e-3, 0.0]), lash=1e-4)
    with pytest.raises(cam_lift.LiftTableFault, match="Two lifts were read at one angle"):
        cam_lift.lift_table(np.array([0.0, 0.0, 1.0]), np.zeros(3))


def test_lash_and_rocker() -> None:
    # Ratio and lash by arithmetic: .250 x 1.2 - .012 = .288; a lash larger than the lift opens nothing
    assert cam_lift.valve_lift(lobe_lift=0.250, lash=0.012, ratio=1.2) == pytest.approx(0.288)
    assert cam_lift.valve_lift(lobe_lift=0.010, lash=0.012) == 0.0


# Harmonic motion: a = L/2 (pi w / h)^2 at the nose (any text on cams); the table's own second difference must agree
def test_acceleration_from_a_table() -> None:
    angles = np.arange(-70, 71, 2.0) * DEG
    half, lift, speed = 60 * DEG, 0.0073, 225 * math.pi / 30
    table = cam_lift.harmonic_lift(angle=angles, lift=lift, half_angle=half)
    second = cam_lift.second_derivative(angles=angles, lifts=table)
    nose = cam_lift.harmonic_nose_acceleration(lift=lift, half_angle=half, cam_speed=speed)
    assert -second[angles.size // 2] * speed**2 == pytest.approx(nose, rel=0.02)
    assert cam_lift.force_to_hold(mass=0.4, acceleration=nose) == pytest.approx(0.4 * nose)
    assert cam_lift.force_to_hold(mass=0.4, acceleration=-nose) == 0.0
    parabola = 3.0 * angles**2 - angles
    assert cam_lift.second_derivative(angles=angles, lifts=parabola) == pytest.approx(np.full(angles.size, 6.0))
    with pytest.raises(cam_lift.LiftTableFault, match="in even steps would be right"):
        cam_lift.second_derivative(angles=np.array([0.0, 1.0, 2.0, 3.0, 9.0]), lifts=np.zeros(5))


def test_radius_of_a_round_lobe_is_its_own() -> None:
    # A plain eccentric of radius R set off by e lifts a flat follower by e (1 + cos a) from base circle R - e: its radius is R
    # everywhere; under a roller in line with its centre the nose shows the same R. Geometry.
    radius, off, roller = 0.020, 0.004, 0.010
    a = np.linspace(-math.pi, math.pi, 41)
    flat = cam_lift.flat_follower_radius(base_radius=radius - off, lift=off * (1 + np.cos(a)), second=-off * np.cos(a))
    assert flat == pytest.approx(np.full(a.size, radius))
    reach = radius + roller
    second = -off - off**2 / reach  # of off cos a + sqrt(reach^2 - off^2 sin^2 a) at the nose
    nose = cam_lift.roller_cam_radius(base_radius=radius - off, roller_radius=roller, lift=2 * off, second=second)
    assert nose == pytest.approx(radius, rel=1e-12)
