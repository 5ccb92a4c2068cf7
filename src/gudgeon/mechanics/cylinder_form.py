"""Reference cylinders of a bore or a shaft probed at several levels: axis, radius, cylindricity, straightness of axis."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from gudgeon.mechanics.numbers import Array


@dataclass(frozen=True, slots=True)
class Cylinder:
    """A fitted cylinder.

    Attributes
    ----------
    point : a point of the axis, at height zero [m].
    direction : unit vector of the axis, upwards.
    radius : [m]; of the middle of the zone for the minimum zone.
    deviations : distance of each point from the axis less the radius [m].
    """

    point: tuple[float, float, float]
    direction: tuple[float, float, float]
    radius: float
    deviations: Array

    @property
    def cylindricity(self) -> float:
        """Radial width of the zone about this axis that holds all points [m]."""
        return float(np.ptp(self.deviations))


def _distances(parameters: Array, points: Array) -> tuple[Array, Array]:
    """Distance of each point from the axis (x0 + p z, y0 + q z, z), and its slopes along x0, y0, p, q."""
    x0, y0, p, q = parameters
    x, y, z = points
    length2 = 1 + p * p + q * q
    u, v = x - x0, y - y0
    along = (p * u + q * v + z) / length2  # height of the foot of the perpendicular on the axis
    dx, dy, dz = u - p * along, v - q * along, z - along
    distance = np.sqrt(dx * dx + dy * dy + dz * dz)
    slopes = -np.stack([dx, dy, dx * along, dy * along]) / distance
    return distance, slopes


def _cylinder(parameters: Array, radius: float, points: Array) -> Cylinder:
    x0, y0, p, q = (float(value) for value in parameters)
    length = float(np.sqrt(1 + p * p + q * q))
    distance, _ = _distances(parameters, points)
    return Cylinder((x0, y0, 0.0), (p / length, q / length, 1 / length), radius, distance - radius)


def _points(x: Array, y: Array, z: Array) -> Array:
    points = np.stack([np.ravel(each) for each in np.broadcast_arrays(x, y, z)]).astype(np.float64)
    if points.shape[1] < 5 or np.ptp(points[2]) == 0:
        raise ValueError(
            f"A cylinder was asked for through {points.shape[1]} points over {np.ptp(points[2])} m of height; "
            "it needs five points or more on at least two levels."
        )
    return points


def least_squares_cylinder(*, x: Array, y: Array, z: Array) -> Cylinder:
    """The least-squares cylinder of points whose axis stands nearly along z.

    Gauss-Newton on the true distances from the axis (ISO 12180-1 for the definition; slopes exact), from the mean of the
    points with no tilt. Five points or more on at least two levels; the tilt may be large, but not lie across z.

    Raises
    ------
    ValueError
        for fewer points, for one level only, or where the points do not go round the axis.
    """
    points = _points(x, y, z)
    parameters = np.array([points[0].mean(), points[1].mean(), 0.0, 0.0])
    for _ in range(100):
        distance, slopes = _distances(parameters, points)
        design = np.vstack([-slopes, np.ones_like(distance)]).T
        step, _, rank, _ = np.linalg.lstsq(design, distance, rcond=1e-12)
        if rank < 5:
            raise ValueError("The points do not fix a cylinder; spread them round the bore on each level.")
        parameters = parameters + step[:4]
        if np.abs(step[:4]).max() <= 1e-14 * (1 + distance.max()):
            break
    distance, _ = _distances(parameters, points)
    return _cylinder(parameters, float(distance.mean()), points)


def minimum_zone_cylinder(*, x: Array, y: Array, z: Array) -> Cylinder:
    """The two coaxial cylinders closest together that hold all points between them: ISO's cylindricity.

    A linear programme in axis, radius and half width (Chebyshev fit), repeated about the axis found until the zone no
    longer shrinks; exact for the small tilts and form errors of machined parts. Raises as ``least_squares_cylinder``.
    """
    from scipy.optimize import linprog

    points = _points(x, y, z)
    start = least_squares_cylinder(x=x, y=y, z=z)
    parameters = np.array([start.point[0], start.point[1], *(np.array(start.direction[:2]) / start.direction[2])])
    width = start.cylindricity
    for _ in range(50):
        distance, slopes = _distances(parameters, points)
        middle = distance.mean()
        scale = max(np.ptp(distance), 1e-12)  # microns beside metres would be lost in the solver's tolerance
        ones = np.ones((1, distance.size))
        up, down = np.vstack([slopes, -ones, -ones]).T, np.vstack([-slopes, ones, -ones]).T
        off = (distance - middle) / scale
        found = linprog([0, 0, 0, 0, 0, 1], A_ub=np.vstack([up, down]), b_ub=np.concatenate([-off, off]), bounds=(None, None))
        tried = parameters + np.asarray(found.x, dtype=np.float64)[:4] * scale
        tried_width = float(np.ptp(_distances(tried, points)[0]))
        if tried_width >= width - 1e-12 * width:
            break
        parameters, width = tried, tried_width
    distance, _ = _distances(parameters, points)
    return _cylinder(parameters, float((distance.max() + distance.min()) / 2), points)
