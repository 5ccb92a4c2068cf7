"""Run-out, alignment, rods and shims on shapes whose answer is known."""

import math
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics.oil import dynamic, running, walther
from gudgeon.mechanics.rods import edge_load, lean_of_piston, masses, out_of_parallel
from gudgeon.mechanics.runout import bow, bow_bounds, centre, off_line, phase_error, stroke_from_throw, throw, turned
from gudgeon.mechanics.shims import choose, takings_left

THOU = 2.54e-5


def test_dial_round_one_turn_gives_back_where_the_centre_lies():
    angle = np.radians(np.arange(0, 360, 45))
    dial = 0.7 + 2.0 * np.cos(angle - 0.4) + 0.3 * np.cos(2 * (angle - 1.0))
    found = turned(angle=angle, reading=dial)
    assert math.hypot(found.x, found.y) == pytest.approx(2.0)
    assert math.atan2(found.y, found.x) == pytest.approx(0.4)
    assert found.oval == pytest.approx(0.6)  # what the dial moves for the oval alone, low to high
    assert found.left == pytest.approx(0.0, abs=1e-12)
    three = turned(angle=angle[[0, 3, 6]], reading=2.0 * np.cos(angle[[0, 3, 6]] - 0.4))
    assert (three.x, three.y) == pytest.approx((2.0 * math.cos(0.4), 2.0 * math.sin(0.4)))
    assert three.oval is None
    with pytest.raises(ValueError, match="three or more"):
        turned(angle=angle[:2], reading=dial[:2])


def test_a_straight_shaft_that_lies_askew_has_no_bow():
    position = np.array([0.0, 0.2, 0.4, 0.6])
    x, y = 3 * THOU - position * 1e-4, -2 * THOU + position * 2e-4
    found = bow(position=position, x=x, y=y, held=(0, 3))
    assert found.bow == pytest.approx(np.zeros(4), abs=1e-15)
    assert found.lie_x == pytest.approx(x)


def test_the_same_totals_lean_the_same_way_or_apart():
    # both middles read 4 thou; the ends run true. Leaning one way it is a bow of 2, opposite ways an S of 2 each.
    position = np.array([0.0, 0.2, 0.4, 0.6])
    total = np.array([0.0, 4.0, 4.0, 0.0])
    for angles, apart in (((0, 90, 90, 0), 0.0), ((0, 90, 270, 0), 4.0)):
        x, y = centre(total=total, high_at=np.radians(angles))
        found = bow(position=position, x=x, y=y, held=(0, 3))
        assert found.bow == pytest.approx([0, 2, 2, 0], abs=1e-12)
        assert abs(found.bow_y[1] - found.bow_y[2]) == pytest.approx(apart)


@given(
    st.lists(st.floats(0, 5), min_size=4, max_size=4),
    st.lists(st.floats(0, 2 * math.pi), min_size=4, max_size=4),
)
def test_bounds_without_directions_hold_for_every_direction(totals, angles):
    position = np.array([0.0, 0.15, 0.4, 0.6])
    x, y = centre(total=np.array(totals), high_at=np.array(angles))
    found = bow(position=position, x=x, y=y, held=(0, 3)).bow
    low, high = bow_bounds(position=position, total=np.array(totals), held=(0, 3))
    assert np.all(found <= high + 1e-9)
    assert np.all(found >= low - 1e-9)


def test_bar_along_the_mains():
    # bar on the outer two, 3 thou of light at the second: it is 3 low; a bar raised on blocks tells the same
    position = np.array([0.0, 0.2, 0.4, 0.6])
    assert off_line(position=position, gap=np.array([0, 3, 0, 0.0]), held=(0, 3)) == pytest.approx([0, 3, 0, 0])
    assert off_line(position=position, gap=np.array([5, 9, 7, 8.0]), held=(0, 3)) == pytest.approx([0, 3, 0, 0])


def test_throw_stroke_and_phase():
    assert stroke_from_throw(throw=throw(top=0.3, bottom=0.15)) == pytest.approx(0.15)
    assert phase_error(height=0.0, level_height=0.0, throw=0.075) == 0.0
    assert phase_error(height=0.075 * math.sin(0.01), level_height=0.0, throw=0.075) == pytest.approx(0.01)


def test_twist_is_the_feeler_over_the_spacing_of_the_blocks():
    # FAA powerplant handbook, rod twist: .006 in under one block, blocks 6 in apart, is .001 in to the inch
    slope = out_of_parallel(one=0.006, other=0.0, apart=6.0)
    assert slope == pytest.approx(0.001)
    assert edge_load(slope=slope, bearing_length=2.5) == pytest.approx(0.0025)
    assert lean_of_piston(bend=slope, length=5.5) == pytest.approx(0.0055)
    assert masses(total=3.0, big_end_weight=2.0) == (1.0, 2.0)


def test_shims_of_two_thou_close_a_bearing_by_two():
    # common practice: the same from each side, .001 of each side closes the bore .001 along the bolts
    change = choose(left=[2 * THOU] * 5, right=[2 * THOU] * 5, clearance=4.5 * THOU, low=2.0 * THOU, high=3.0 * THOU)
    assert change is not None
    assert change.left.out == pytest.approx([2 * THOU])
    assert change.right.out == pytest.approx([2 * THOU])
    assert change.clearance == pytest.approx(2.5 * THOU)
    assert change.closed == pytest.approx(2 * THOU)
    assert takings_left(left=change.left.left, right=change.right.left, step=1 * THOU) == 8


def test_a_thin_shim_from_stock_makes_a_finer_step():
    change = choose(
        left=[5 * THOU, 5 * THOU], right=[5 * THOU, 5 * THOU], clearance=4 * THOU, low=1.9 * THOU, high=2.4 * THOU,
        stock=(1 * THOU, 2 * THOU, 3 * THOU),
    )  # fmt: skip
    assert change is not None
    assert change.clearance == pytest.approx(2 * THOU)
    assert change.left.out == pytest.approx([5 * THOU])
    assert change.left.put_in == pytest.approx([3 * THOU])


def test_nothing_to_take_is_no_change():
    assert choose(left=[], right=[2 * THOU], clearance=5 * THOU, low=2 * THOU, high=3 * THOU) is None
    assert choose(left=[2 * THOU], right=[2 * THOU], clearance=2.5 * THOU, low=2 * THOU, high=3 * THOU) is None


@given(
    st.lists(st.sampled_from([1, 2, 3, 5]), min_size=0, max_size=5),
    st.lists(st.sampled_from([1, 2, 3, 5]), min_size=0, max_size=5),
    st.integers(2, 14),
)
def test_the_choice_is_the_best_of_every_pair_of_subsets(left, right, clearance):
    # brute force over all subsets of real shims, equal from both sides, never below the band where that can be helped
    def totals(shims):
        return {sum(each) for n in range(len(shims) + 1) for each in combinations(shims, n)}

    both = totals(left) & totals(right)
    best = min(both, key=lambda t: (max(2 - (clearance - t), 0), abs(clearance - t - 2.5)))
    change = choose(
        left=[each * THOU for each in left], right=[each * THOU for each in right], clearance=clearance * THOU,
        low=2 * THOU, high=3 * THOU,
    )  # fmt: skip
    taken = 0.0 if change is None else change.closed / THOU
    score = (max(2 - (clearance - best), 0), abs(clearance - best - 2.5))
    mine = (max(2 - (clearance - taken), 0), abs(clearance - taken - 2.5))
    assert mine == pytest.approx(score, abs=1e-3)


def test_a_bearing_settles_where_friction_feeds_what_is_carried_off():
    constants = walther(temperature=(40, 100), kinematic=(100e-6, 11.2e-6))

    def viscosity(temperature):
        return dynamic(temperature=temperature, constants=constants)

    common = {"load": 2000.0, "diameter": 0.0508, "length": 0.0635, "clearance": 75e-6, "speed": 7.5, "inlet": 50.0}
    state = running(**common, viscosity_at=viscosity)
    cooled = running(**common, viscosity_at=viscosity, housing=5.0)
    assert 50.0 < cooled.temperature < state.temperature < 120.0
    assert cooled.thickness > state.thickness  # cooler oil is thicker and lifts more
    assert 0 < state.thickness < 37.5e-6
    from gudgeon.mechanics.oil import film_rise

    rise = film_rise(pressure=2000.0 / (0.0508 * 0.0635), film=state.film)
    assert state.temperature == pytest.approx(50.0 + rise / 2, abs=0.01)
