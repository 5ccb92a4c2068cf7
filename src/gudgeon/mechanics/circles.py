"""Reference circles of a round profile: least squares, minimum zone, smallest round it, largest within it.

Definitions as in ISO 12181-1. Points come as arrays of shape (..., n) and every leading index is a circle of its own, so
that a hundred thousand draws of one profile are one call.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gudgeon.mechanics.compiled import Compiled, compiled
from gudgeon.mechanics.numbers import Array, Number, plain

Indices = NDArray[np.int64]

WORTH_COMPILING = 2000
"""Points in all from which on the compiled loop is taken: below it the plain one is done before numba is imported."""


@dataclass(frozen=True, slots=True)
class Circles:
    """Fitted circles, one per leading index of the points.

    Attributes
    ----------
    x, y : centre [m].
    radius : of the fitted circle [m]; of the middle of the zone for the minimum zone.
    inner, outer : least and greatest distance of a point from that centre [m].
    """

    x: Number
    y: Number
    radius: Number
    inner: Number
    outer: Number

    @property
    def out_of_roundness(self) -> Number:
        """Radial width of the zone about this centre that holds all points [m]."""
        return plain(np.subtract(self.outer, self.inner))


Loop = Callable[[Array, Array, Array], None]


def _fit(loop: Compiled[[Array, Array, Array], None], x: Array, y: Array, least: int) -> Circles:
    x, y = np.broadcast_arrays(np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64))
    if x.ndim == 0 or x.shape[-1] < least:
        raise ValueError(f"A circle was asked for through {x.shape[-1] if x.ndim else 1} points; it needs {least} or more.")
    shape, n = x.shape[:-1], x.shape[-1]
    flat_x = np.ascontiguousarray(x.reshape(-1, n))
    flat_y = np.ascontiguousarray(y.reshape(-1, n))
    found = np.empty((len(flat_x), 5))
    run: Loop = loop if flat_x.size > WORTH_COMPILING else loop.plain
    run(flat_x, flat_y, found)
    return Circles(*(plain(column.reshape(shape)) for column in found.T))


def least_squares_circle(*, x: Array, y: Array) -> Circles:
    """The geometric least-squares circle: least sum of squared radial distances.

    Gauss-Newton with Levenberg's damping from the algebraic (Kasa) circle, as in Gander, Golub and Strebel, BIT 34 (1994);
    stops when the step is under 1e-12 of the radius. Any three or more points that do not lie on a line.
    """
    return _fit(_least_squares, x, y, 3)


def algebraic_circle(*, x: Array, y: Array) -> Circles:
    """Kasa's centre, least sum of (r_i^2 - R^2)^2 in closed form, with the mean distance from it as the radius.

    As in the SciPy Cookbook, Least Squares Circle. Biased small on a short arc; a start for the others.
    """
    return _fit(_algebraic, x, y, 3)


def smallest_circle_round(*, x: Array, y: Array) -> Circles:
    """The minimum circumscribed circle, exact: what a ring gauge or a sleeve sees of a shaft.

    Welzl's incremental construction: every circle through two or three points that must lie on the border.
    """
    return _fit(_smallest_round, x, y, 2)


def largest_circle_within(*, x: Array, y: Array) -> Circles:
    """The maximum inscribed circle, exact: what a plug gauge or a piston sees of a bore.

    The greatest circle free of points whose three touching points surround its centre: touching points are exchanged until
    it cannot grow, then every other triple is tried, since a rough profile holds several such circles. Beyond 100 points
    only the first is given. NaN where the points do not surround any centre (an arc).
    """
    return _fit(_largest_within, x, y, 3)


def minimum_zone_circle(*, x: Array, y: Array) -> Circles:
    """The two concentric circles closest together that hold all points between them, exact: ISO's roundness.

    Two points on the outer and two on the inner circle, alternating in direction, fix the centre where the bisectors of the
    two pairs cross. Points are exchanged until none lies outside the zone (Stiefel's exchange on true radii). Where that
    does not settle (points in one direction, an arc), every pair of pairs is tried; beyond 40 points only the best centre
    met on the way is given, which is then a bound and no longer exact.
    """
    return _fit(_minimum_zone, x, y, 3)


@compiled
def _length(dx: float, dy: float) -> float:
    # Sizes of engine parts neither overflow nor vanish when squared, so the slower hypot is not needed.
    return float(np.sqrt(dx * dx + dy * dy))


@compiled
def _extremes(x: Array, y: Array, cx: float, cy: float) -> tuple[float, float]:
    low, high = np.inf, 0.0
    for i in range(len(x)):
        r2 = (x[i] - cx) ** 2 + (y[i] - cy) ** 2
        low, high = min(low, r2), max(high, r2)
    return np.sqrt(low), np.sqrt(high)


@compiled
def _record(x: Array, y: Array, cx: float, cy: float, radius: float, out: Array) -> None:
    low, high = _extremes(x, y, cx, cy)
    if np.isnan(cx):
        low, high = np.nan, np.nan
    out[0], out[1], out[2], out[3], out[4] = cx, cy, radius, low, high


@compiled
def _kasa(x: Array, y: Array) -> tuple[float, float, float]:
    n = len(x)
    mx, my = x.mean(), y.mean()
    uu = vv = uv = uz = vz = ww = 0.0
    for i in range(n):
        u, v = x[i] - mx, y[i] - my
        z = u * u + v * v
        uu += u * u
        vv += v * v
        uv += u * v
        uz += u * z
        vz += v * z
        ww += z
    det = 2 * (uu * vv - uv * uv)
    if not det > 1e-14 * ww * ww:  # points on a line, or all in one place
        return np.nan, np.nan, np.nan
    cx, cy = (uz * vv - vz * uv) / det, (vz * uu - uz * uv) / det
    return cx + mx, cy + my, np.sqrt(cx * cx + cy * cy + ww / n)


@compiled
def _algebraic(xs: Array, ys: Array, out: Array) -> None:
    for k in range(len(xs)):
        cx, cy, radius = _kasa(xs[k], ys[k])
        radius, _ = _squares(xs[k], ys[k], cx, cy)
        _record(xs[k], ys[k], cx, cy, radius, out[k])


@compiled
def _squares(x: Array, y: Array, cx: float, cy: float) -> tuple[float, float]:
    """Mean radius about a centre, and the sum of squared distances from that circle."""
    n = len(x)
    total = 0.0
    for i in range(n):
        total += _length(x[i] - cx, y[i] - cy)
    radius = total / n
    squares = 0.0
    for i in range(n):
        squares += (_length(x[i] - cx, y[i] - cy) - radius) ** 2
    return radius, squares


@compiled
def _normal_step(x: Array, y: Array, cx: float, cy: float, radius: float, damping: float) -> tuple[float, float]:
    """Step of the centre from the normal equations with the radius eliminated."""
    n = len(x)
    mc = ms = 0.0
    for i in range(n):
        r = _length(x[i] - cx, y[i] - cy)
        mc += (x[i] - cx) / r
        ms += (y[i] - cy) / r
    mc, ms = mc / n, ms / n
    cc = ss = cs = gc = gs = 0.0
    for i in range(n):
        r = _length(x[i] - cx, y[i] - cy)
        c, s = (x[i] - cx) / r - mc, (y[i] - cy) / r - ms
        cc += c * c
        ss += s * s
        cs += c * s
        gc += c * (r - radius)
        gs += s * (r - radius)
    cc, ss = cc * (1 + damping), ss * (1 + damping)
    det = cc * ss - cs * cs
    return (gc * ss - gs * cs) / det, (gs * cc - gc * cs) / det


@compiled
def _geometric(x: Array, y: Array) -> tuple[float, float, float]:
    cx, cy, radius = _kasa(x, y)
    if not radius > 0:
        return np.nan, np.nan, np.nan
    radius, squares = _squares(x, y, cx, cy)
    damping = 0.0
    for _ in range(200):
        dx, dy = _normal_step(x, y, cx, cy, radius, damping)
        new_radius, new_squares = _squares(x, y, cx + dx, cy + dy)
        if new_squares <= squares * (1 + 1e-10):
            cx, cy, radius, squares = cx + dx, cy + dy, new_radius, new_squares
            damping = damping / 10 if damping > 1e-9 else 0.0
            if _length(dx, dy) <= 1e-12 * radius:
                break
        else:
            damping = damping * 10 if damping > 0 else 1e-3
            if damping > 1e12:
                break
    return cx, cy, radius


@compiled
def _least_squares(xs: Array, ys: Array, out: Array) -> None:
    for k in range(len(xs)):
        cx, cy, radius = _geometric(xs[k], ys[k])
        _record(xs[k], ys[k], cx, cy, radius, out[k])


@compiled
def _centre_of_three(ax: float, ay: float, bx: float, by: float, cx: float, cy: float) -> tuple[float, float]:
    """Centre of the circle through three points; NaN on a line."""
    bx, by, cx, cy = bx - ax, by - ay, cx - ax, cy - ay
    det = 2 * (bx * cy - by * cx)
    b2, c2 = bx * bx + by * by, cx * cx + cy * cy
    if abs(det) <= 1e-15 * (b2 + c2):
        return np.nan, np.nan
    return ax + (cy * b2 - by * c2) / det, ay + (bx * c2 - cx * b2) / det


@compiled
def _outside(x: Array, y: Array, i: int, cx: float, cy: float, r2: float) -> bool:
    return bool((x[i] - cx) ** 2 + (y[i] - cy) ** 2 > r2 * (1 + 1e-14))


@compiled
def _round_two(x: Array, y: Array, upto: int, i: int, j: int) -> tuple[float, float, float]:
    """Smallest circle round the first points with i and j on its border."""
    cx, cy = (x[i] + x[j]) / 2, (y[i] + y[j]) / 2
    r2 = (x[i] - cx) ** 2 + (y[i] - cy) ** 2
    for k in range(upto):
        if _outside(x, y, k, cx, cy, r2):
            px, py = _centre_of_three(x[i], y[i], x[j], y[j], x[k], y[k])
            if not np.isnan(px):
                cx, cy = px, py
                r2 = (x[i] - cx) ** 2 + (y[i] - cy) ** 2
    return cx, cy, r2


@compiled
def _smallest_round(xs: Array, ys: Array, out: Array) -> None:
    n = xs.shape[1]
    for case in range(len(xs)):
        x, y = xs[case], ys[case]
        cx, cy, r2 = x[0], y[0], 0.0
        for i in range(1, n):
            if not _outside(x, y, i, cx, cy, r2):
                continue
            cx, cy, r2 = x[i], y[i], 0.0
            for j in range(i):
                if _outside(x, y, j, cx, cy, r2):
                    cx, cy, r2 = _round_two(x, y, j, i, j)
        _record(x, y, cx, cy, np.sqrt(r2), out[case])


@compiled
def _turn(angle: float, start: float) -> float:
    """Angle from a start, anticlockwise, 0 to 2 pi."""
    return (angle - start) % (2 * np.pi)


@compiled
def _surrounds(x: Array, y: Array, touching: Indices, cx: float, cy: float) -> bool:
    """Do three touching points surround the centre, every gap between them under half a turn?"""
    a = np.arctan2(y[touching[0]] - cy, x[touching[0]] - cx)
    b = _turn(np.arctan2(y[touching[1]] - cy, x[touching[1]] - cx), a)
    c = _turn(np.arctan2(y[touching[2]] - cy, x[touching[2]] - cx), a)
    low, high = min(b, c), max(b, c)
    return low <= np.pi + 1e-12 and high - low <= np.pi + 1e-12 and high >= np.pi - 1e-12


@compiled
def _nearest(x: Array, y: Array, cx: float, cy: float) -> int:
    best, at = np.inf, 0
    for i in range(len(x)):
        r = (x[i] - cx) ** 2 + (y[i] - cy) ** 2
        if r < best:
            best, at = r, i
    return at


@compiled
def _first_touching(x: Array, y: Array, cx: float, cy: float, touching: Indices) -> bool:
    """Three points that surround a centre: the nearest, and those closest to a third of a turn either side."""
    first = _nearest(x, y, cx, cy)
    start = np.arctan2(y[first] - cy, x[first] - cx)
    left, right = np.inf, np.inf
    touching[0] = touching[1] = touching[2] = first
    for i in range(len(x)):
        turn = _turn(np.arctan2(y[i] - cy, x[i] - cx), start)
        if abs(turn - 2 * np.pi / 3) < left:
            left, touching[1] = abs(turn - 2 * np.pi / 3), i
        if abs(turn - 4 * np.pi / 3) < right:
            right, touching[2] = abs(turn - 4 * np.pi / 3), i
    return _surrounds(x, y, touching, cx, cy)


@compiled
def _exchange_touching(x: Array, y: Array, touching: Indices, new: int, cx: float, cy: float) -> bool:
    """Take a new touching point for the one of three that leaves the centre surrounded."""
    for place in range(3):
        old = touching[place]
        touching[place] = new
        if _surrounds(x, y, touching, cx, cy):
            return True
        touching[place] = old
    return False


@compiled
def _within(x: Array, y: Array, touching: Indices) -> tuple[float, float, float]:
    """A circle that cannot grow from where it is, by exchange; radius 0 where none was found."""
    cx, cy, radius = _kasa(x, y)
    if not radius > 0 or not _first_touching(x, y, cx, cy, touching):
        return np.nan, np.nan, 0.0
    for _ in range(10 * len(x)):
        a, b, c = touching[0], touching[1], touching[2]
        cx, cy = _centre_of_three(x[a], y[a], x[b], y[b], x[c], y[c])
        if np.isnan(cx):
            break
        radius = _length(x[a] - cx, y[a] - cy)
        near = _nearest(x, y, cx, cy)
        if _length(x[near] - cx, y[near] - cy) >= radius * (1 - 1e-13):
            return cx, cy, radius
        if not _exchange_touching(x, y, touching, near, cx, cy):
            break
    return np.nan, np.nan, 0.0


@compiled
def _blunt(x: Array, y: Array, a: int, b: int, c: int) -> bool:
    """Is the corner at a of the triangle a, b, c over a right angle? Then its circle's centre lies outside the triangle."""
    return bool((x[b] - x[a]) * (x[c] - x[a]) + (y[b] - y[a]) * (y[c] - y[a]) < 0)


@compiled
def _free(x: Array, y: Array, cx: float, cy: float, r2: float) -> bool:
    for i in range(len(x)):  # noqa: SIM110 - numba compiles no generator
        if (x[i] - cx) ** 2 + (y[i] - cy) ** 2 < r2 * (1 - 1e-13):
            return False
    return True


@compiled
def _within_by_trying(x: Array, y: Array, bx: float, by: float, best: float) -> tuple[float, float, float]:
    """Every triple that surrounds its centre and whose circle is free of points, beginning with one already known."""
    n = len(x)
    best2 = best * best
    for a in range(n):
        for b in range(a):
            for c in range(b):
                if _blunt(x, y, a, b, c) or _blunt(x, y, b, a, c) or _blunt(x, y, c, a, b):
                    continue
                cx, cy = _centre_of_three(x[a], y[a], x[b], y[b], x[c], y[c])
                r2 = (x[a] - cx) ** 2 + (y[a] - cy) ** 2
                if r2 > best2 and _free(x, y, cx, cy, r2):  # a NaN centre compares false
                    best2, bx, by = r2, cx, cy
    return bx, by, np.sqrt(best2)


@compiled
def _largest_within(xs: Array, ys: Array, out: Array) -> None:
    touching = np.zeros(3, dtype=np.int64)
    n = xs.shape[1]
    for case in range(len(xs)):
        x, y = xs[case], ys[case]
        cx, cy, radius = _within(x, y, touching)
        if n <= 100:
            cx, cy, radius = _within_by_trying(x, y, cx, cy, radius)
        _record(x, y, cx, cy, radius if radius > 0 else np.nan, out[case])


@compiled
def _crossing(x: Array, y: Array, a: int, b: int, c: int, d: int) -> tuple[float, float]:
    """Where the bisector of a, b crosses that of c, d; NaN where they run side by side."""
    px, py = x[b] - x[a], y[b] - y[a]
    qx, qy = x[d] - x[c], y[d] - y[c]
    p = (px * (x[a] + x[b]) + py * (y[a] + y[b])) / 2
    q = (qx * (x[c] + x[d]) + qy * (y[c] + y[d])) / 2
    det = px * qy - py * qx
    if abs(det) <= 1e-14 * (px * px + py * py + qx * qx + qy * qy):
        return np.nan, np.nan
    return (p * qy - q * py) / det, (px * q - qx * p) / det


@compiled
def _first_four(x: Array, y: Array, cx: float, cy: float, four: Indices) -> None:
    """Four points a quarter of the way round from each other, in order of direction."""
    n = len(x)
    angles = np.empty(n)
    for i in range(n):
        angles[i] = np.arctan2(y[i] - cy, x[i] - cx)
    order = np.argsort(angles)
    for k in range(4):
        four[k] = order[(k * n) // 4]


@compiled
def _exchange_four(x: Array, y: Array, four: Indices, new: int, even: bool, cx: float, cy: float) -> None:
    """Take a new point for the neighbour of its own kind. ``four`` is in order of direction; its kinds alternate."""
    start = np.arctan2(y[four[0]] - cy, x[four[0]] - cx)
    turn = _turn(np.arctan2(y[new] - cy, x[new] - cx), start)
    before = 0
    for k in range(1, 4):
        if turn >= _turn(np.arctan2(y[four[k]] - cy, x[four[k]] - cx), start):
            before = k
    after = (before + 1) % 4
    place = before if (before % 2 == 0) == even else after
    if place == 0 and before == 3:  # the new point comes last in direction, the first one leaves: turn the order
        four[0], four[1], four[2], four[3] = four[1], four[2], four[3], new
        return
    four[place] = new


@compiled
def _zone_by_exchange(x: Array, y: Array, four: Indices) -> tuple[float, float, bool]:
    """Centre of the minimum zone, and whether it is proved; else the best centre met."""
    n = len(x)
    cx, cy, _ = _kasa(x, y)
    _first_four(x, y, cx, cy, four)
    low, high = _extremes(x, y, cx, cy)
    best, bx, by = high - low, cx, cy
    for _ in range(20 * n):
        px, py = _crossing(x, y, four[0], four[2], four[1], four[3])
        if np.isnan(px):
            break
        cx, cy = px, py
        even, odd = _length(x[four[0]] - cx, y[four[0]] - cy), _length(x[four[1]] - cx, y[four[1]] - cy)
        outer, inner, outer_is_even = max(even, odd), min(even, odd), even >= odd
        far, near = 0, 0
        low, high = np.inf, 0.0
        for i in range(n):
            r = (x[i] - cx) ** 2 + (y[i] - cy) ** 2
            if r > high:
                high, far = r, i
            if r < low:
                low, near = r, i
        low, high = np.sqrt(low), np.sqrt(high)
        if high - low < best:
            best, bx, by = high - low, cx, cy
        if high - outer <= 1e-13 * outer and inner - low <= 1e-13 * outer:
            return cx, cy, _alternate(x, y, four, cx, cy)
        if high - outer >= inner - low:
            _exchange_four(x, y, four, far, outer_is_even, cx, cy)
        else:
            _exchange_four(x, y, four, near, not outer_is_even, cx, cy)
    return bx, by, False


@compiled
def _alternate(x: Array, y: Array, four: Indices, cx: float, cy: float) -> bool:
    """Do the two kinds alternate in direction about the centre? Then no move of it narrows the zone."""
    start = np.arctan2(y[four[0]] - cy, x[four[0]] - cx)
    turns = np.empty(3)
    for k in range(3):
        turns[k] = _turn(np.arctan2(y[four[k + 1]] - cy, x[four[k + 1]] - cx), start)
    return bool((turns[0] < turns[1]) != (turns[2] < turns[1]))


@compiled
def _zone_by_trying(x: Array, y: Array, cx: float, cy: float) -> tuple[float, float]:
    """Every pair of pairs and every triple, beginning with a centre already known."""
    n = len(x)
    low, high = _extremes(x, y, cx, cy)
    best, bx, by = high - low, cx, cy
    for a in range(n):
        for b in range(a):
            for c in range(n):
                for d in range(c):
                    if a * n + b <= c * n + d:
                        continue
                    px, py = _crossing(x, y, a, b, c, d)
                    if np.isnan(px):
                        continue
                    low, high = _extremes(x, y, px, py)
                    if high - low < best:
                        best, bx, by = high - low, px, py
    return bx, by


@compiled
def _minimum_zone(xs: Array, ys: Array, out: Array) -> None:
    four = np.zeros(4, dtype=np.int64)
    n = xs.shape[1]
    for case in range(len(xs)):
        x, y = xs[case], ys[case]
        if n == 3:
            cx, cy = _centre_of_three(x[0], y[0], x[1], y[1], x[2], y[2])
        else:
            cx, cy, proved = _zone_by_exchange(x, y, four)
            if not proved and n <= 40:
                cx, cy = _zone_by_trying(x, y, cx, cy)
        low, high = _extremes(x, y, cx, cy)
        out[case, 0], out[case, 1], out[case, 2] = cx, cy, (low + high) / 2
        out[case, 3], out[case, 4] = low, high
