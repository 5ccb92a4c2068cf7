"""Reference circles against published sets and general libraries."""

from __future__ import annotations

import circle_fit
import miniball
import numpy as np
import pytest

from gudgeon.mechanics.circles import (
    algebraic_circle,
    largest_circle_within,
    least_squares_circle,
    minimum_zone_circle,
    smallest_circle_round,
)

# SciPy Cookbook, Least Squares Circle
X = np.array([9.0, 35, -13, 10, 23, 0])
Y = np.array([34.0, 10, 6, -14, 27, -10])
ARC_X = np.array([36.0, 36, 19, 18, 33, 26])
ARC_Y = np.array([14.0, 10, 28, 31, 18, 26])


def squares(circle, x, y) -> float:
    return float(np.sum((np.hypot(x - circle.x, y - circle.y) - circle.radius) ** 2))


@pytest.mark.parametrize(
    ("x", "y", "centre", "radius", "sum_squares", "kasa"),
    [
        (X, Y, (10.50009, 9.65995), 23.33353, 7.711852, (10.55231, 9.70590, 23.33482)),
        (ARC_X, ARC_Y, (9.88760, 3.68753), 27.35040, 4.042522, (15.05503, 8.83615, 20.82995)),
    ],
)
def test_scipy_cookbook(x, y, centre, radius, sum_squares, kasa):
    found = least_squares_circle(x=x, y=y)
    assert (found.x, found.y) == pytest.approx(centre, abs=5e-5)
    assert found.radius == pytest.approx(radius, abs=5e-5)
    assert squares(found, x, y) == pytest.approx(sum_squares, abs=1e-6)
    rough = algebraic_circle(x=x, y=y)
    assert (rough.x, rough.y, rough.radius) == pytest.approx(kasa, abs=5e-6)


def test_gander_golub_strebel():
    # BIT 34 (1994), Least-squares fitting of circles and ellipses
    x, y = np.array([1.0, 2, 5, 7, 9, 3]), np.array([7.0, 6, 8, 7, 5, 7])
    found = least_squares_circle(x=x, y=y)
    assert (found.x, found.y, found.radius) == pytest.approx((4.7398, 2.9835, 4.7142), abs=5e-5)
    assert np.sqrt(squares(found, x, y)) == pytest.approx(1.1080, abs=5e-5)


def test_against_circle_fit():
    rng = np.random.default_rng(7)
    for _ in range(20):
        x, y = rng.normal(size=(2, 9)) * 3
        x, y = x + 20 * np.cos(np.arange(9)), y + 20 * np.sin(np.arange(9))
        other_x, other_y, other_radius, _ = circle_fit.standardLSQ(np.column_stack([x, y]))
        found = least_squares_circle(x=x, y=y)
        # that library's minimiser stops some 1e-5 short: agree to 1e-3, and never be the worse of the two
        assert (found.x, found.y, found.radius) == pytest.approx((other_x, other_y, other_radius), abs=1e-3)
        theirs = float(np.sum((np.hypot(x - other_x, y - other_y) - other_radius) ** 2))
        assert squares(found, x, y) <= theirs * (1 + 1e-12)


def test_smallest_round_the_cookbook_set():
    # by miniball and by hand: centre (10.840764, 9.910828), R 24.159400
    found = smallest_circle_round(x=X, y=Y)
    assert (found.x, found.y, found.radius) == pytest.approx((10.840764, 9.910828, 24.159400), abs=5e-7)


def test_smallest_round_against_miniball():
    rng = np.random.default_rng(3)
    for n in (2, 3, 5, 24):
        points = rng.normal(size=(n, 2))
        centre, radius_squared = miniball.get_bounding_ball(points)
        found = smallest_circle_round(x=points[:, 0], y=points[:, 1])
        assert (found.x, found.y) == pytest.approx(tuple(centre), abs=1e-9)
        assert found.radius == pytest.approx(np.sqrt(radius_squared), rel=1e-10)


@pytest.mark.parametrize(
    ("x", "y", "centre", "zone", "inner", "outer"),
    [
        # by multi-start search and by exhaustive search over control points, two independent ways
        (X, Y, (10.253633, 9.274769), 2.924592, 21.832400, 24.756992),
        (ARC_X, ARC_Y, (-0.415254, -7.364407), 2.211807, 40.343443, 42.555250),
    ],
)
def test_minimum_zone_of_the_cookbook_sets(x, y, centre, zone, inner, outer):
    found = minimum_zone_circle(x=x, y=y)
    assert (found.x, found.y) == pytest.approx(centre, abs=5e-7)
    assert found.out_of_roundness == pytest.approx(zone, abs=5e-7)
    assert (found.inner, found.outer) == pytest.approx((inner, outer), abs=5e-7)


def test_eight_alternating_points():
    # exact by symmetry
    angle = np.arange(8) * np.pi / 4
    radius = np.where(np.arange(8) % 2 == 0, 10.01, 9.99)
    x, y = 3 + radius * np.cos(angle), -2 + radius * np.sin(angle)
    for circle in (least_squares_circle(x=x, y=y), minimum_zone_circle(x=x, y=y)):
        assert (circle.x, circle.y, circle.radius) == pytest.approx((3, -2, 10), abs=1e-12)
        assert circle.out_of_roundness == pytest.approx(0.020, abs=1e-12)


def test_ellipse():
    # a 50.02, b 49.98 each 10 degree: zone 0.040 and least-squares radius 50.000002 by series of the ellipse
    angle = np.arange(36) * np.pi / 18
    x, y = 1 + 50.02 * np.cos(angle), -1 + 49.98 * np.sin(angle)
    zone, squares_circle = minimum_zone_circle(x=x, y=y), least_squares_circle(x=x, y=y)
    assert zone.out_of_roundness == pytest.approx(0.040, abs=1e-9)
    assert (squares_circle.x, squares_circle.y, squares_circle.radius) == pytest.approx((1, -1, 50.000002), abs=5e-7)
    assert smallest_circle_round(x=x, y=y).radius == pytest.approx(50.02, abs=1e-9)
    assert largest_circle_within(x=x, y=y).radius == pytest.approx(49.98, abs=2e-3)
