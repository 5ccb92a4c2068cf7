"""Reference circles: against a linear programme, under moves and turns, in batches, and compiled against plain."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog
from scipy.spatial import Delaunay, Voronoi

from gudgeon.mechanics import circles
from gudgeon.mechanics.circles import (
    algebraic_circle,
    largest_circle_within,
    least_squares_circle,
    minimum_zone_circle,
    smallest_circle_round,
)

ALL = (least_squares_circle, algebraic_circle, smallest_circle_round, minimum_zone_circle, largest_circle_within)


def profiles(count: int, n: int, noise: float, seed: int = 1) -> tuple[np.ndarray, np.ndarray]:
    rng = np.random.default_rng(seed)
    angle = np.linspace(0, 2 * np.pi, n, endpoint=False)
    radius = 50 + noise * rng.standard_normal((count, n))
    return radius * np.cos(angle) + 0.3, radius * np.sin(angle) - 0.2


def zone_by_linear_programme(x: np.ndarray, y: np.ndarray) -> float:
    """Chebyshev fit of the linearised radii, repeated about the centre found: an independent way to the minimum zone."""
    cx, cy = x.mean(), y.mean()
    for _ in range(20):
        u, v = x - cx, y - cy
        r = np.hypot(u, v)
        rows = np.column_stack([-u / r, -v / r, -np.ones_like(r)])
        half = -np.ones((len(r), 1))
        found = linprog(
            [0, 0, 0, 1], A_ub=np.vstack([np.hstack([rows, half]), np.hstack([-rows, half])]),
            b_ub=np.concatenate([-r, r]), bounds=(None, None),
        )  # fmt: skip
        cx, cy = cx + found.x[0], cy + found.x[1]
    return float(np.ptp(np.hypot(x - cx, y - cy)))


@pytest.mark.parametrize("n", [4, 5, 8, 24, 72])
def test_minimum_zone_against_linear_programme(n):
    x, y = profiles(6, n, 0.01, seed=n)
    found = minimum_zone_circle(x=x, y=y)
    expected = [zone_by_linear_programme(*each) for each in zip(x, y, strict=True)]
    assert found.out_of_roundness == pytest.approx(expected, abs=1e-8)


@pytest.mark.parametrize("fit", ALL)
def test_a_perfect_circle(fit):
    angle = np.linspace(0, 2 * np.pi, 7, endpoint=False) + 0.1
    found = fit(x=2 + 5 * np.cos(angle), y=1 + 5 * np.sin(angle))
    assert (found.x, found.y, found.radius) == pytest.approx((2, 1, 5), abs=1e-12)
    assert found.out_of_roundness == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("fit", ALL)
def test_three_points_lie_on_the_circle(fit):
    # a triangle with sharp corners, so that the smallest round it passes through all three
    found = fit(x=np.array([0.0, 4.0, 1.8]), y=np.array([0.0, 0.2, 3.5]))
    assert found.inner == pytest.approx(found.outer, rel=1e-9)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(st.floats(-1, 1), st.floats(-1, 1)), min_size=4, max_size=12, unique=True),
    st.floats(-50, 50),
    st.floats(0, 6.28),
    st.floats(0.1, 20),
)
def test_the_bounding_circles_move_and_turn_with_their_points(points, move, turn, scale):
    x, y = np.array(points).T
    assume(np.ptp(x) > 0.1)
    assume(np.ptp(y) > 0.1)
    assume(min(np.hypot(x[:, None] - x, y[:, None] - y)[~np.eye(len(x), dtype=bool)]) > 1e-3)
    c, s = np.cos(turn), np.sin(turn)
    moved_x, moved_y = scale * (c * x - s * y) + move, scale * (s * x + c * y) - move
    before, after = smallest_circle_round(x=x, y=y), smallest_circle_round(x=moved_x, y=moved_y)
    assert after.radius == pytest.approx(scale * before.radius, rel=1e-6)
    assert before.outer <= before.radius * (1 + 1e-9)


@pytest.mark.parametrize("noise", [1e-5, 0.01, 2.0])
def test_order_of_the_four_circles(noise):
    x, y = profiles(200, 16, noise)
    squares, zone = least_squares_circle(x=x, y=y), minimum_zone_circle(x=x, y=y)
    round_it, within = smallest_circle_round(x=x, y=y), largest_circle_within(x=x, y=y)
    assert np.all(zone.out_of_roundness <= squares.out_of_roundness * (1 + 1e-9))
    assert np.all(zone.out_of_roundness <= round_it.out_of_roundness * (1 + 1e-9))
    assert np.all(zone.out_of_roundness <= within.out_of_roundness * (1 + 1e-9))
    assert np.all(round_it.radius <= zone.outer * (1 + 1e-12))
    assert np.all(round_it.radius <= squares.outer * (1 + 1e-12))
    assert np.all(within.radius >= squares.inner * (1 - 1e-12))
    assert np.all(within.radius >= zone.inner * (1 - 1e-9))


def test_largest_within_against_the_corners_of_the_cells():
    # the greatest circle free of points sits on a corner of the points' Voronoi cells inside their hull
    x, y = profiles(20, 14, 0.5, seed=9)
    found = largest_circle_within(x=x, y=y)
    for case in range(20):
        points = np.column_stack([x[case], y[case]])
        corners = Voronoi(points).vertices
        inside = corners[Delaunay(points).find_simplex(corners) >= 0]
        free = np.hypot(*(points[:, None] - inside).T).min(axis=1)
        assert found.radius[case] == pytest.approx(free.max(), rel=1e-12)


def test_an_arc_has_no_largest_circle_within():
    angle = np.linspace(0, 1, 6)
    found = largest_circle_within(x=np.cos(angle), y=np.sin(angle))
    assert np.isnan(found.radius)
    assert np.isnan(found.out_of_roundness)


def test_points_on_a_line_give_no_circle():
    found = least_squares_circle(x=np.arange(5.0), y=2 * np.arange(5.0))
    assert np.isnan(found.radius)


def test_repeated_readings_in_one_direction():
    # two readings of one spot lie in one direction from the centre: the exchange cannot settle, the trial of pairs does
    angle = np.array([0.0, 0.0, 1.5, 1.5, 3.1, 4.6])
    radius = np.array([10.02, 9.98, 10.0, 10.0, 10.0, 10.0])
    found = minimum_zone_circle(x=radius * np.cos(angle), y=radius * np.sin(angle))
    assert found.out_of_roundness == pytest.approx(0.04, abs=1e-6)


@pytest.mark.parametrize("fit", ALL)
def test_compiled_and_plain_agree(fit):
    x, y = profiles(150, 20, 0.05, seed=4)
    assert x.size > circles.WORTH_COMPILING
    together = fit(x=x, y=y)
    alone = [fit(x=each_x, y=each_y) for each_x, each_y in zip(x[:20], y[:20], strict=True)]
    assert together.radius[:20] == pytest.approx([each.radius for each in alone], rel=1e-13)
    assert together.out_of_roundness[:20] == pytest.approx([each.out_of_roundness for each in alone], abs=1e-12)


def test_shapes():
    x, y = profiles(6, 9, 0.01)
    found = minimum_zone_circle(x=x.reshape(2, 3, 9), y=y.reshape(2, 3, 9))
    assert np.shape(found.radius) == (2, 3)
    assert isinstance(minimum_zone_circle(x=x[0], y=y[0]).radius, float)
    with pytest.raises(ValueError, match="through 2 points; it needs 3 or more"):
        least_squares_circle(x=np.zeros(2), y=np.zeros(2))
