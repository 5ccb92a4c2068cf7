"""Reference cylinders on shapes whose answer is known."""

from __future__ import annotations

import numpy as np
import pytest

from gudgeon.mechanics.circles import minimum_zone_circle
from gudgeon.mechanics.cylinder_form import least_squares_cylinder, minimum_zone_cylinder


def probed(radius: np.ndarray, *, tilt: tuple[float, float] = (0.0, 0.0), offset: tuple[float, float] = (0.0, 0.0)):
    """Points of a surface of given radii (levels, directions) about an axis that is then tilted and moved."""
    angle = np.linspace(0, 2 * np.pi, radius.shape[1], endpoint=False)
    height = np.linspace(0, 0.15, radius.shape[0])
    angles, heights = np.meshgrid(angle, height)
    axis = np.array([tilt[0], tilt[1], 1.0]) / np.hypot(np.hypot(*tilt), 1.0)
    side = np.cross(axis, [0.0, 1.0, 0.0])
    side /= np.linalg.norm(side)
    across = np.cross(axis, side)
    points = (
        heights[..., None] * axis
        + (radius * np.cos(angles))[..., None] * side
        + (radius * np.sin(angles))[..., None] * across
        + np.array([*offset, 0.0])
    )
    return {"x": points[..., 0], "y": points[..., 1], "z": points[..., 2]}


@pytest.mark.parametrize("fit", [least_squares_cylinder, minimum_zone_cylinder])
def test_a_perfect_cylinder_that_leans(fit):
    found = fit(**probed(np.full((4, 8), 0.05), tilt=(0.05, -0.02), offset=(0.001, 0.002)))
    direction = np.array([0.05, -0.02, 1.0]) / np.sqrt(1 + 0.05**2 + 0.02**2)
    assert found.radius == pytest.approx(0.05, abs=1e-12)
    assert found.direction == pytest.approx(direction, abs=1e-10)
    assert found.cylindricity == pytest.approx(0, abs=1e-12)


def test_a_cone_is_half_its_taper_out():
    # two levels of radius R -+ d: the zone holds d on the radius either way, by symmetry
    radius = np.vstack([np.full(12, 0.050), np.full(12, 0.05002)])
    found = minimum_zone_cylinder(**probed(radius))
    assert found.cylindricity == pytest.approx(2e-5, rel=1e-6)


def test_one_profile_at_every_level_is_as_round_as_its_circle():
    rng = np.random.default_rng(2)
    profile = 0.05 + 1e-5 * rng.standard_normal(16)
    points = probed(np.tile(profile, (5, 1)), tilt=(0.001, 0.0))
    angle = np.linspace(0, 2 * np.pi, 16, endpoint=False)
    circle = minimum_zone_circle(x=profile * np.cos(angle), y=profile * np.sin(angle))
    assert minimum_zone_cylinder(**points).cylindricity == pytest.approx(circle.out_of_roundness, rel=1e-4)


def test_the_minimum_zone_is_the_narrower():
    rng = np.random.default_rng(5)
    points = probed(0.05 + 1e-5 * rng.standard_normal((6, 12)))
    assert minimum_zone_cylinder(**points).cylindricity < least_squares_cylinder(**points).cylindricity


def test_one_level_is_refused():
    with pytest.raises(ValueError, match="at least two levels"):
        least_squares_cylinder(x=np.cos(np.arange(8.0)), y=np.sin(np.arange(8.0)), z=np.zeros(8))
