"""A table of finite-bearing solutions over eccentricity and L/D, and reading it for many draws at once.

Made once by ``python -m gudgeon.mechanics.film_table`` from ``journal_bearing.film_at`` on a fine grid (240 by 48); what is
kept are ratios to closed forms, which are smooth. Read between its points it differs from a solution by less than
INTERPOLATION_ERROR (checked in the tests at eccentricities and slendernesses that lie between).
"""

from __future__ import annotations

from functools import cache
from importlib import resources

import numpy as np

from gudgeon.mechanics.journal_bearing import FIELDS, Film, film_at, short_bearing_attitude, short_bearing_sommerfeld
from gudgeon.mechanics.numbers import Array, Number, plain

SLENDERNESSES = (0.15, 0.2, 0.25, 0.32, 0.4, 0.5, 0.63, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5)
ECCENTRICITIES = tuple(
    round(each, 3) for each in (*np.linspace(0.02, 0.90, 23), 0.915, 0.93, 0.945, 0.955, 0.965, 0.975, 0.982, 0.988)
)
INTERPOLATION_ERROR = 0.004
"""Largest relative difference between the table and a solution, over its whole range, of any of its numbers."""

NAME = "films.csv"
DENSE = 2401


def film(*, sommerfeld: Number, slenderness: Number) -> Film:
    """The film of a bearing whose S and L/D are known; floats or arrays.

    Beyond the table S is taken at its ends (eccentricity .02 and .988: a film so thin that roughness rules); L/D at
    .15 and 2.5. Right to ``INTERPOLATION_ERROR`` within it.
    """
    s, slender = np.broadcast_arrays(np.asarray(sommerfeld, dtype=np.float64), np.asarray(slenderness, dtype=np.float64))
    values = np.unique(slender)
    if values.size <= 4:
        columns = np.empty((len(FIELDS) + 1, *s.shape))
        for value in values:
            here = slender == value
            columns[:, here] = _read(s[here], float(value))
    else:
        columns = _read_each(s, slender)
    return Film(eccentricity=plain(columns[0]), **{name: plain(columns[n]) for n, name in enumerate(FIELDS, 1)})


def eccentricity(*, sommerfeld: Number, slenderness: float) -> Number:
    """The eccentricity alone, for one L/D: a seventh of the work of ``film``."""
    return plain(np.interp(np.log(sommerfeld), *_inverse(slenderness)))


def _read(s: Array, slenderness: float) -> Array:
    """Eccentricity and all numbers at some S and one slenderness, rows in that order."""
    curves, grid = _curves(slenderness), _dense_eccentricities()
    at = np.interp(np.log(s), *_inverse(slenderness))
    found = np.stack([at, *(np.interp(at, grid, curve) for curve in curves)])
    found[1] = s
    return found


def _read_each(s: Array, slenderness: Array) -> Array:
    """As ``_read``, with a slenderness to each: read at every slenderness of the table, then blended."""
    places = np.log(np.clip(slenderness, SLENDERNESSES[0], SLENDERNESSES[-1]))
    knots = np.log(np.array(SLENDERNESSES))
    # what is blended varies little along the table once S is measured in that of a short bearing
    at_rows = np.stack([_read(s * (slenderness / each) ** 2, each) for each in SLENDERNESSES])
    scale = np.array([_lifted(places, knots, row) for row in range(len(SLENDERNESSES))])
    found = np.einsum("rn,rfn->fn", scale.reshape(len(SLENDERNESSES), -1), at_rows.reshape(*at_rows.shape[:2], -1))
    found = found.reshape(at_rows.shape[1], *s.shape)
    found[1] = s
    return np.asarray(found)


def _lifted(places: Array, knots: Array, row: int) -> Array:
    """Weight of one row of the table in the cubic through the four rows about each place; nought elsewhere."""
    first = np.clip(np.searchsorted(knots, places) - 2, 0, knots.size - 4)
    inside = (row >= first) & (row < first + 4)
    weight = np.ones_like(places)
    for step in range(4):
        other = knots[first + step]
        apart = knots[row] - other
        weight *= np.where(first + step == row, 1.0, (places - other) / np.where(first + step == row, 1.0, apart))
    return np.asarray(np.where(inside, weight, 0.0))


@cache
def _dense_eccentricities() -> Array:
    """Eccentricities between which reading in straight lines is good enough, closer together towards one."""
    share = np.linspace(0.0, 1.0, DENSE)
    low, high = ECCENTRICITIES[0], ECCENTRICITIES[-1]
    return np.asarray(1.0 - (1.0 - low) * ((1.0 - high) / (1.0 - low)) ** share)


@cache
def _inverse(slenderness: float) -> tuple[Array, Array]:
    """Rising logarithms of S, and the eccentricities that belong to them, for one slenderness."""
    return np.log(_curves(slenderness)[0][::-1]), _dense_eccentricities()[::-1].copy()


@cache
def _curves(slenderness: float) -> Array:
    """All numbers at the dense eccentricities for one slenderness, rows in the order of FIELDS."""
    slender = float(np.clip(slenderness, SLENDERNESSES[0], SLENDERNESSES[-1]))
    place, knots = np.log(np.array([slender])), np.log(np.array(SLENDERNESSES))
    weights = np.array([_lifted(place, knots, row)[0] for row in range(len(SLENDERNESSES))])
    ratios = np.exp(np.einsum("r,rfe->fe", weights, np.log(_dense_ratios())))
    return np.asarray(ratios * _closed(_dense_eccentricities(), slender))


@cache
def _dense_ratios() -> Array:
    """The kept ratios at the dense eccentricities: shape (slendernesses, fields, dense)."""
    from scipy.interpolate import CubicSpline

    kept = table().reshape(len(SLENDERNESSES), len(ECCENTRICITIES), len(FIELDS))
    spline = CubicSpline(-np.log1p(-np.array(ECCENTRICITIES)), np.log(kept), axis=1)
    return np.asarray(np.exp(spline(-np.log1p(-_dense_eccentricities()))).transpose(0, 2, 1))


def _closed(eccentricity: Array, slenderness: float) -> Array:
    """Closed forms that the kept ratios refer to, rows in the order of FIELDS."""
    s = np.asarray(short_bearing_sommerfeld(eccentricity=eccentricity, slenderness=slenderness))
    return np.stack(
        [
            s,
            np.asarray(short_bearing_attitude(eccentricity=eccentricity)),
            2.0 * np.pi**2 * s / np.sqrt(1.0 - eccentricity**2),
            np.pi * (1.0 + eccentricity),
            2.0 * eccentricity / (1.0 + eccentricity),
            np.ones_like(eccentricity),
        ]
    )


@cache
def table() -> Array:
    """The kept ratios as they stand in the file: one row to an eccentricity, slenderness by slenderness."""
    text = resources.files("gudgeon.mechanics").joinpath("data", NAME).read_text("utf-8")
    rows = [line.split(",")[2:] for line in text.splitlines() if line and not line.startswith(("#", "L/D"))]
    return np.array(rows, dtype=np.float64)


def made(*, around: int = 240, along: int = 48) -> str:
    """The text of the table, solved anew."""
    lines = [
        "# Finite journal bearing, ratios to closed forms; python -m gudgeon.mechanics.film_table",
        f"L/D,eccentricity,{','.join(FIELDS)}",
    ]
    eccentricities = np.array(ECCENTRICITIES)
    for slenderness in SLENDERNESSES:
        solved = film_at(eccentricity=eccentricities, slenderness=slenderness, around=around, along=along)
        columns = np.stack([np.asarray(getattr(solved, name)) for name in FIELDS]) / _closed(eccentricities, slenderness)
        for n, eccentricity in enumerate(ECCENTRICITIES):
            lines.append(f"{slenderness},{eccentricity}," + ",".join(f"{value:.5f}" for value in columns[:, n]))
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    from pathlib import Path

    (Path(__file__).parent / "data" / NAME).write_text(made(), encoding="utf-8")
