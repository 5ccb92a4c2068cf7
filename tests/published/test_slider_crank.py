"""Piston, crank and rim against the exact percent table, plane geometry, and there and back."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics import slider_crank as s


# Percent of stroke for l/r = 4; exact geometry (equivalent to Heywood, eq. 2.5), printed in many valve-setting tables
@pytest.mark.parametrize(
    ("degree", "percent"),
    [
        (15, 2.123), (30, 8.267), (45, 17.794), (60, 29.744), (75, 42.978), (90, 56.351), (120, 79.744), (150, 94.870),
        (180, 100.0),
    ],
)  # fmt: skip
def test_percent_of_stroke(degree: float, percent: float) -> None:
    depth = s.piston_depth(angle=math.radians(degree), throw=0.06, rod=0.24)
    assert 100 * float(depth) / 0.12 == pytest.approx(percent, abs=5.1e-4)


def test_an_endless_rod_gives_simple_harmonic_motion() -> None:
    angle = np.linspace(0, np.pi, 7)
    assert s.piston_depth(angle=angle, throw=1.0, rod=1e7) == pytest.approx(1 - np.cos(angle), abs=1e-6)


@given(angle=st.floats(0.05, 6.2), throw=st.floats(0.03, 0.2), ratio=st.floats(2.5, 8.0), share=st.floats(-0.4, 0.4))
def test_depth_and_angle_there_and_back(angle: float, throw: float, ratio: float, share: float) -> None:
    rod, offset = ratio * throw, share * throw
    outer = float(s.outer_centre(throw=throw, rod=rod, offset=offset))
    depth = s.piston_depth(angle=angle, throw=throw, rod=rod, offset=offset)
    back = s.crank_angle(depth=depth, throw=throw, rod=rod, offset=offset, rising=angle > outer)
    assert back == pytest.approx(angle, abs=1e-5 if abs(angle - outer) < 0.02 else 1e-8)


def test_offset_cylinder() -> None:
    # By plane geometry, r 3, l 10, e 2: centres where crank and rod are in line; stroke sqrt(169-4) - sqrt(49-4)
    assert s.stroke(throw=3.0, rod=10.0, offset=2.0) == pytest.approx(math.sqrt(165) - math.sqrt(45), rel=1e-14)
    outer = s.outer_centre(throw=3.0, rod=10.0, offset=2.0)
    assert outer == pytest.approx(math.pi + math.asin(2 / 7) - math.asin(2 / 13), rel=1e-14)
    depth = s.piston_depth(angle=np.asarray([0.0, float(outer)]), throw=3.0, rod=10.0, offset=2.0)
    assert depth == pytest.approx([0.0, math.sqrt(165) - math.sqrt(45)], abs=1e-12)
    # no spot of the turn lies outside the two centres
    every = s.piston_depth(angle=np.linspace(0, 2 * np.pi, 7201), throw=3.0, rod=10.0, offset=2.0)
    assert float(np.min(every)) > -1e-12
    assert float(np.max(every)) <= math.sqrt(165) - math.sqrt(45) + 1e-12


def test_a_depth_that_is_never_reached_has_no_angle() -> None:
    assert math.isnan(float(s.crank_angle(depth=0.13, throw=0.06, rod=0.24)))


def test_rim_distances() -> None:
    # 114.6 x distance / diameter is the angle in degree (any shop handbook)
    assert math.degrees(float(s.rim_angle(distance=1.0, diameter=26.0))) == pytest.approx(114.6 / 26, rel=2e-4)
    assert s.rim_distance(angle=math.pi, diameter=26.0) == pytest.approx(13 * math.pi)
    assert s.rim_chord(angle=math.pi / 3, diameter=26.0) == pytest.approx(13.0)  # the hexagon
    assert s.angle_of_chord(chord=13.0, diameter=26.0) == pytest.approx(math.pi / 3)


def test_dead_centre_lies_half_way_between_the_stops_marks() -> None:
    throw, rod, depth = 0.0762, 0.32, 0.02
    down = s.crank_angle(depth=depth, throw=throw, rod=rod)
    back = s.crank_angle(depth=depth, throw=throw, rod=rod, rising=True)
    wheel = 0.7  # where the pointer stands at dead centre
    assert s.dead_centre_by_stop(before=wheel + float(back) - 2 * math.pi, after=wheel + float(down)) == pytest.approx(wheel)


def test_a_set_off_cylinder_moves_the_stops_middle_and_less_for_a_shallow_stop() -> None:
    deep = float(s.stop_error(depth=0.05, throw=0.0762, rod=0.32, offset=0.012))
    shallow = float(s.stop_error(depth=0.005, throw=0.0762, rod=0.32, offset=0.012))
    assert s.stop_error(depth=0.05, throw=0.0762, rod=0.32, offset=0.0) == pytest.approx(0.0, abs=1e-12)
    assert 0 < shallow < deep < math.radians(2)
    depths = s.piston_depth(angle=np.asarray([deep]) * 0, throw=0.0762, rod=0.32, offset=0.012)
    assert depths == pytest.approx([0.0], abs=1e-15)
