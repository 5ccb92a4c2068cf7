"""Governors against worked examples of the textbooks, printed rules and simple shapes."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics import governors
from gudgeon.mechanics.hunting import hunt

RPM = math.pi / 30
G = 9.81  # the examples' figure


def porter(radius: np.ndarray | float, arm: float) -> governors.Motion:
    return governors.hung_arms(radius=radius, lowest_radius=0.150, upper_arm=arm, lower_arm=arm)


# Khurmi and Gupta, Theory of Machines, ch. 18: arms 250 mm pivoted on the axis, balls 5 kg, sleeve 30 kg, radius 150 to 200 mm:
# 177 and 204.4 rev/min, range 27.4; with 20 N of friction at the sleeve 172 and 210, range 38 (copies: scribd 702193907,
# expertsmind.com estimate-speed-range-99014 with 176.9, 204.32, 27.42)
def test_porter_of_equal_arms() -> None:
    motion = porter(np.array([0.150, 0.200]), 0.250)
    speeds = governors.speed(motion=motion, sleeve_load=30 * G, mass=5.0, gravity=G) / RPM
    assert speeds == pytest.approx([177, 204.4], abs=0.1)
    assert speeds[1] - speeds[0] == pytest.approx(27.4, abs=0.05)
    # ininet.org lab manual: sensitiveness 2 (N2 - N1) / (N1 + N2) of the same example, 0.1437
    assert governors.sensitiveness(low=177.0, high=204.4) == pytest.approx(0.1437, abs=5e-5)


def test_porter_with_friction_at_the_sleeve() -> None:
    motion = porter(np.array([0.150, 0.200]), 0.250)
    speeds = governors.speed(motion=motion, sleeve_load=30 * G + np.array([-20.0, 20.0]), mass=5.0, gravity=G) / RPM
    assert speeds == pytest.approx([172, 210], abs=0.4)
    assert speeds[1] - speeds[0] == pytest.approx(38, abs=0.6)


# the same by friction as a band on each frictionless speed
def test_friction_as_a_band_agrees_with_friction_as_a_load() -> None:
    motion = porter(np.array([0.150, 0.200]), 0.250)
    plain = governors.speed(motion=motion, sleeve_load=30 * G, mass=5.0, gravity=G)
    holding = governors.holding_force(speed=plain, motion=motion, mass=5.0)
    low, high = governors.friction_speeds(speed=plain, friction=20.0, holding=holding)
    assert np.array([low[0], high[1]]) / RPM == pytest.approx([171.7, 210.2], abs=0.1)


# Khurmi and Gupta, ch. 18: the same governor with a sleeve of 15 kg: 133.8, 154.5, range 20.7. With 25 kg 163.8 and 189.2, with
# 10 N of friction 161.0 and 192.4 : worked out apart from the printed formula w^2 = (m g + M g (1 + q)/2) / (m h)
@pytest.mark.parametrize(
    ("sleeve", "friction", "low", "high"), [(15.0, 0.0, 133.8, 154.5), (25.0, 0.0, 163.8, 189.2), (25.0, 10.0, 161.0, 192.4)]
)
def test_porter_with_other_sleeves(sleeve: float, friction: float, low: float, high: float) -> None:
    motion = porter(np.array([0.150, 0.200]), 0.250)
    load = sleeve * G + friction * np.array([-1.0, 1.0])
    assert governors.speed(motion=motion, sleeve_load=load, mass=5.0, gravity=G) / RPM == pytest.approx([low, high], abs=0.06)


# askfilo.com, Porter governor, equal arms 300 mm, 5 and 25 kg, radius 150 and 200 mm; answer worked out apart: 143.7, 154.9
def test_porter_of_longer_arms() -> None:
    motion = porter(np.array([0.150, 0.200]), 0.300)
    speeds = governors.speed(motion=motion, sleeve_load=25 * G, mass=5.0, gravity=G) / RPM
    assert speeds == pytest.approx([143.7, 154.9], abs=0.06)


# Khurmi and Gupta, ex. 18.10: 290 to 310 rev/min, lift 15 mm, sleeve arms 80, ball arms 120, pivots 120 mm off, balls 2.5 kg,
# ball arms along the axis at the lowest speed: springs 831 and 1128 N, 19.8 N/mm (rounded in the book; 830, 1126.3, 19.75)
def test_hartnell_spring_loads() -> None:
    motion = governors.bell_crank(travel=np.array([0.0, 0.015]), pivot_radius=0.120, weight_arm=0.120, sleeve_arm=0.080)
    assert motion.radius == pytest.approx([0.120, 0.1425])
    load = governors.sleeve_load_for(speed=np.array([290.0, 310.0]) * RPM, motion=motion, mass=2.5, gravity=0.0)
    assert load == pytest.approx([830.0, 1126.3], abs=0.3)
    assert (load[1] - load[0]) / 0.015 / 1e3 == pytest.approx(19.75, abs=0.01)


# dom-nitk.vlabs.ac.in, Hartnell governor, post-test: balls 1.5 kg, arms 65 (sleeve) and 75 mm (ball), middle radius
# 105 mm, travel 30 mm, top 415 and bottom 430 rev/min. Answer worked out apart: radii 87.7 and 122.3 mm, controlling force
# 266.7 and 346.5 N, springs 615.5 and 799.6 N, 6.14 N/mm; being slower at the top it cannot govern
def test_hartnell_that_cannot_govern() -> None:
    ball, sleeve = 0.075, 0.065
    start = -math.asin(0.015 / sleeve)
    motion = governors.bell_crank(
        travel=np.array([0.0, 0.030]), pivot_radius=0.105, weight_arm=ball, sleeve_arm=sleeve, weight_angle=start,
        sleeve_angle=start,
    )  # fmt: skip
    assert motion.radius * 1e3 == pytest.approx([87.7, 122.3], abs=0.05)
    speeds = np.array([430.0, 415.0]) * RPM
    assert 1.5 * speeds**2 * motion.radius == pytest.approx([266.7, 346.5], abs=0.2)
    load = governors.sleeve_load_for(speed=speeds, motion=motion, mass=1.5, gravity=0.0)
    assert load == pytest.approx([615.5, 799.6], abs=0.5)
    assert (load[1] - load[0]) / 0.030 / 1e3 == pytest.approx(6.14, abs=0.01)
    assert governors.sensitiveness(low=speeds[0], high=speeds[1]) < 0


# the same page: 1100 N at 35 cm between the balls, 550 N at 20 cm: F = 7333 r - 183.3; 183.3 N more spring makes it isochronous
def test_a_spring_line_through_the_axis_is_isochronous() -> None:
    radius = np.linspace(0.100, 0.175, 7)
    force = 550.0 + (radius - 0.100) * (1100.0 - 550.0) / 0.075
    assert np.polyfit(radius, force, 1) == pytest.approx([7333, -183.3], abs=0.5)
    before = governors.equilibrium_speed(force=force, mass=3.0, radius=radius)
    after = governors.equilibrium_speed(force=force + 183.3, mass=3.0, radius=radius)
    assert np.ptp(before) / before.mean() > 0.05
    assert np.ptp(after) / after.mean() < 1e-4


# 895 / N^2 m (any text): 60, 80, 100 rev/min
@pytest.mark.parametrize(("speed", "height"), [(60, 0.2486), (80, 0.1398), (100, 0.0895)])
def test_watt_height(speed: float, height: float) -> None:
    assert governors.watt_height(speed=speed * RPM, gravity=G) == pytest.approx(height, abs=1.2e-4)  # 895 is rounded


def test_a_watt_governor_is_a_cone_pendulum() -> None:
    motion = governors.hung_arms(radius=0.15, lowest_radius=0.15, upper_arm=0.25, lower_arm=0.25)
    speed = governors.speed(motion=motion, sleeve_load=0.0, mass=2.0)
    assert governors.watt_height(speed=speed) == pytest.approx(math.sqrt(0.25**2 - 0.15**2))


# ques10.com, effort and power: c [2m/(1+q) + M] g; q 1, m 5, M 15, c .01: 1.962 N. Power, q = 1: 4c^2/(1+2c) (m + M) g h
def test_effort_and_power_of_a_porter() -> None:
    motion = porter(0.150, 0.250)
    speed = governors.speed(motion=motion, sleeve_load=15 * G, mass=5.0, gravity=G)
    holding = governors.holding_force(speed=speed, motion=motion, mass=5.0)
    effort = governors.effort(change=0.01, holding=holding)
    assert effort == pytest.approx(1.962, abs=1e-3)
    radii = np.linspace(0.150, 0.160, 4001)
    along = porter(radii, 0.250)
    faster = governors.speed(motion=along, sleeve_load=15 * G, mass=5.0, gravity=G)
    lift = np.interp(1.01 * speed, faster, along.travel)
    printed = 4 * 0.01**2 / 1.02 * (5 + 15) * G * 0.200
    assert governors.power(effort=effort, lift=lift) == pytest.approx(printed, rel=0.01)  # c^2 left out on one side


# ---- simple shapes, and there and back


@given(
    travel=st.floats(0.001, 0.02), weight=st.floats(-0.4, 0.6), sleeve=st.floats(-0.5, 0.3), load=st.floats(20, 500),
    mass=st.floats(0.2, 3),
)  # fmt: skip
def test_load_and_speed_there_and_back_at_any_angle(
    travel: float, weight: float, sleeve: float, load: float, mass: float
) -> None:
    motion = governors.bell_crank(
        travel=travel, pivot_radius=0.08, weight_arm=0.06, sleeve_arm=0.04, weight_angle=weight, sleeve_angle=sleeve
    )
    speed = governors.speed(motion=motion, sleeve_load=load, mass=mass, gravity=0.0)
    assert governors.sleeve_load_for(speed=speed, motion=motion, mass=mass, gravity=0.0) == pytest.approx(load)
    assert governors.holding_force(speed=speed, motion=motion, mass=mass) == pytest.approx(load)


@given(travel=st.floats(0.002, 0.015), weight=st.floats(-0.4, 0.6), sleeve=st.floats(-0.5, 0.3))
def test_the_rates_are_the_slopes_of_the_travel(travel: float, weight: float, sleeve: float) -> None:
    def at(s: float) -> governors.Motion:
        return governors.bell_crank(
            travel=s, pivot_radius=0.08, weight_arm=0.06, sleeve_arm=0.04, weight_angle=weight, sleeve_angle=sleeve
        )

    step = 1e-6
    out = at(travel + step).radius - at(travel - step).radius
    assert at(travel).sleeve == pytest.approx(2 * step / out, rel=1e-6)
    height = [0.06 * math.cos(math.asin((at(travel + s).radius - 0.08) / 0.06)) for s in (-step, step)]
    assert at(travel).rise == pytest.approx((height[1] - height[0]) / out, rel=1e-5, abs=1e-6)


def test_springs_between_the_weights_store_what_the_weights_do() -> None:
    # work of both weights moving out by x against two springs hooked half way along the arms: 2 x k (2 c x)^2 / 2
    x = np.linspace(0.0, 0.02, 20001)
    pull = governors.cross_spring_pull(radius=0.05 + x, slack_radius=0.05, rate=800.0, share=0.5, springs=2)
    assert 2 * np.trapezoid(pull, x) == pytest.approx(2 * 800.0 * (2 * 0.5 * 0.02) ** 2 / 2, rel=1e-6)


def test_a_flat_and_a_play_on_paper() -> None:
    # a flat of 3/16 on a 5/8 roller: half of .625 - sqrt(.625^2 - .1875^2), by plain arithmetic .0144 in
    assert governors.flat_depth(width=0.1875, diameter=0.625) == pytest.approx(0.0144, abs=5e-5)
    assert governors.flat_depth(width=0.625, diameter=0.625) == pytest.approx(0.3125)
    # without friction a joint pressed one way loses nothing; with much of it, nearly its whole play
    assert governors.play_under_load(clearance=0.010, friction=0.0) == 0
    assert governors.play_under_load(clearance=0.010, friction=100.0) == pytest.approx(0.010, rel=1e-3)


# Vyshnegradskii, Sur la theorie generale des regulateurs (1876-77), from memory: a governor without friction of the dry kind is
# steady if damping times droop is more than its own inertia over the wheel's, and hunts if less (Routh's test, third degree)
@pytest.mark.parametrize(("share", "steady"), [(0.5, False), (0.85, False), (1.15, True), (2.0, True)])
def test_the_loop_is_steady_where_vyshnegradskii_says(share: float, steady: bool) -> None:
    own, spread, wheel = 0.05, 0.05, 2.0
    found = hunt(
        governor_time=own, spread=spread, friction=0.0, slack=0.0, damping=share * own**2 / wheel / spread, run_up=wheel,
        charge_wait=0.0, step_of_load=0.001,
    )  # fmt: skip
    assert bool(found.sleeve_swing < 1e-3) is steady


def test_its_period_at_the_border_is_that_of_the_cubic() -> None:
    # T_g^2 x''' + c x'' + D x' + x / T_a = 0 with c D = T_g^2 / T_a swings at w^2 = D / T_g^2 (algebra)
    own, spread, wheel = 0.05, 0.05, 2.0
    found = hunt(
        governor_time=own, spread=spread, friction=0.0, slack=0.0, damping=0.97 * own**2 / wheel / spread, run_up=wheel,
        charge_wait=0.0, step_of_load=0.002,
    )  # fmt: skip
    assert found.period == pytest.approx(2 * math.pi * own / math.sqrt(spread), rel=0.02)


def test_slack_in_the_linkage_makes_a_quiet_engine_hunt() -> None:
    # near its border a loop with backlash and nothing else that is not linear swings as the backlash does (it has no other
    # size to go by) : common practice of control
    slack = np.array([0.0, 0.05, 0.1, 0.2])
    found = hunt(
        governor_time=0.01, spread=0.04, friction=0.0, slack=slack, damping=0.003, run_up=2.0, charge_wait=0.08,
        step_of_load=0.05,
    )  # fmt: skip
    assert found.speed_swing[0] < 1e-4
    assert np.isnan(found.period[0])
    assert found.speed_swing[2:] / found.speed_swing[1] == pytest.approx([2.0, 4.0], rel=0.05)
    assert found.period[1:] == pytest.approx(found.period[1], rel=0.03)


def test_steps_that_are_too_long_are_refused() -> None:
    with pytest.raises(ValueError, match="too long"):
        hunt(governor_time=0.001, spread=0.04, friction=0.0, slack=0.0, damping=0.0, run_up=3.0, charge_wait=0.0, steps=4000)
