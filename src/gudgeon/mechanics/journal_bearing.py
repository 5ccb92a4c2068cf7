"""Plain journal bearings of finite length: film, attitude, friction and flow by Reynolds' equation, and closed forms as checks.

All results are the pure numbers of Raimondi and Boyd, "A Solution for the Finite Journal Bearing", Trans. ASLE 1 (1958): a full
bearing (360 degree), steady load, constant viscosity, no supply pressure. The film starts with no pressure at its widest place
and ends where pressure and its slope vanish together (Reynolds' boundary condition). Friction counts the whole round as full of
oil, as they did; an emptied film drags 4 to 20 % less.

``film_at`` solves; ``film`` reads a table of such solutions and is what draws go through.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from gudgeon.mechanics.compiled import compiled
from gudgeon.mechanics.numbers import Array, Number, plain

AROUND, ALONG = 90, 30
"""Nodes of the usual grid: round the journal, and along its whole length (half of which is solved, the other being alike)."""

TOLERANCE = 1e-6
"""Relative change of the pressure's sum over four sweeps at which a solution stands; the fields are then right to 1e-5."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Film:
    """A film's pure numbers; floats, or arrays of one shape.

    Attributes
    ----------
    eccentricity : e = 1 - h0 / c, c the radial clearance.
    sommerfeld : S = (r/c)^2 mu N / P, with N in rev/s and P = W / (L D).
    attitude : angle from the load to the line of centres [degree].
    friction : (r/c) f.
    flow : Q / (r c N L), what the film draws in. side_flow : the share of it that leaves at the ends, Qs / Q.
    pressure_ratio : P / pmax.
    """

    eccentricity: Number
    sommerfeld: Number
    attitude: Number
    friction: Number
    flow: Number
    side_flow: Number
    pressure_ratio: Number


FIELDS = ("sommerfeld", "attitude", "friction", "flow", "side_flow", "pressure_ratio")


@compiled
def _sweeps(field: Array, eccentricity: float, shape: float, tolerance: float, most: int) -> int:
    """Line by line over-relaxation of M = p h^1.5 on a half bearing, M >= 0; rows go round, column 0 is the middle.

    Vogelpohl's variable makes the equation Poisson's with a term in M: M_tt + k M_zz - g M = h'/h^1.5,
    g = (h^1.5)''/h^1.5, k = (D/L)^2, which a coarse grid holds far better than p itself. Row 0 is the widest place.
    """
    around, along = field.shape[0], field.shape[1] - 1
    dt = 2.0 * math.pi / around
    side = shape * (dt * along) ** 2
    radius = (math.cos(math.pi / (0.56 * around)) + side * math.cos(0.5 * math.pi / along)) / (1.0 + side)
    over = 2.0 / (1.0 + math.sqrt(1.0 - radius * radius))
    centre, source = np.empty(around), np.empty(around)
    for i in range(around):
        h = 1.0 + eccentricity * math.cos(i * dt)
        slope = -eccentricity * math.sin(i * dt)
        g = 1.5 * (1.0 - h) / h + 0.75 * (slope / h) ** 2
        centre[i] = over / (2.0 + 2.0 * side + g * dt * dt)
        source[i] = -slope / h**1.5 * dt * dt
    last, before, keep = around - 2, 0.0, 1.0 - over
    for sweep in range(most):
        total, top = 0.0, 0
        for i in range(1, last + 1):
            c, s = centre[i], source[i]
            new = (field[i - 1, 0] + field[i + 1, 0] + 2.0 * side * field[i, 1] + s) * c + keep * field[i, 0]
            field[i, 0] = max(new, 0.0)
            row = 0.5 * field[i, 0]
            for j in range(1, along):
                new = field[i - 1, j] + field[i + 1, j] + side * (field[i, j - 1] + field[i, j + 1]) + s
                field[i, j] = max(new * c + keep * field[i, j], 0.0)
                row += field[i, j]
            if row > 0.0:
                top = i
            total += row
        last = min(top + 2, around - 2)  # beyond the film's end nothing changes
        if sweep % 4 == 3:
            if abs(total - before) < tolerance * total:
                return sweep + 1
            before = total
    return most


@compiled
def _numbers(field: Array, eccentricity: float, shape: float, out: Array) -> None:
    """The pure numbers of a solved field into ``out``, in the order of FIELDS."""
    around, along = field.shape[0], field.shape[1] - 1
    dt, dz = 2.0 * math.pi / around, 1.0 / along
    radial, tangential, ends, back, peak = 0.0, 0.0, 0.0, 0.0, 0.0
    for i in range(around):
        cosine, sine = math.cos(i * dt), math.sin(i * dt)
        h = 1.0 + eccentricity * cosine
        thin = h**-1.5
        row = 0.5 * field[i, 0]
        for j in range(1, along):
            row += field[i, j]
        row *= thin * dz
        radial += row * cosine * dt
        tangential += row * sine * dt
        # slope at the end, where the pressure is nought: four points, third order
        slope = (18.0 * field[i, along - 1] - 9.0 * field[i, along - 2] + 2.0 * field[i, along - 3]) * thin / (6.0 * dz)
        ends += h**3 * slope * dt
        if i == 1:
            back += 2.0 * row / dt
        elif i == 2:
            back -= 0.5 * row / dt
        if field[i, 0] * thin > peak:
            above = field[i + 1, 0] * (1.0 + eccentricity * math.cos((i + 1) * dt)) ** -1.5
            below = field[i - 1, 0] * (1.0 + eccentricity * math.cos((i - 1) * dt)) ** -1.5
            here = field[i, 0] * thin
            bend = 2.0 * here - above - below
            peak = here + (above - below) ** 2 / (8.0 * bend) if bend > 0.0 and here > above and here > below else here
    load = math.hypot(radial, tangential)
    widest = 1.0 + eccentricity
    flow = math.pi * (widest - widest**3 * back)
    out[0] = 1.0 / (6.0 * math.pi * load)
    out[1] = math.degrees(math.atan2(tangential, -radial))
    out[2] = (2.0 * math.pi / math.sqrt(1.0 - eccentricity * eccentricity) + 3.0 * eccentricity * tangential) / (6.0 * load)
    out[3] = flow
    out[4] = math.pi * shape * ends / flow
    out[5] = load / (2.0 * peak)


@compiled
def _solve_all(eccentricities: Array, shape: float, around: int, along: int, tolerance: float, out: Array) -> None:
    """One solution after another, each started from the two before it, carried on in a straight line."""
    field, before, start = np.zeros((around, along + 1)), np.zeros((around, along + 1)), np.zeros((around, along + 1))
    for n in range(eccentricities.size):
        if n > 1 and abs(eccentricities[n - 1] - eccentricities[n - 2]) > 1e-12:
            ahead = (eccentricities[n] - eccentricities[n - 1]) / (eccentricities[n - 1] - eccentricities[n - 2])
            for i in range(around):
                for j in range(along):
                    start[i, j] = max(field[i, j] + ahead * (field[i, j] - before[i, j]), 0.0)
        else:
            start[:] = field
        before[:] = field
        field[:] = start
        _sweeps(field, eccentricities[n], shape, tolerance, 200000)
        _numbers(field, eccentricities[n], shape, out[n])


def film_at(*, eccentricity: Sequence[float] | Number, slenderness: float, around: int = AROUND, along: int = ALONG) -> Film:
    """Solve the film at one or more eccentricities; several are swept in the order given, each started from those before.

    Parameters
    ----------
    eccentricity : above nought and below one. slenderness : length over diameter, L/D.
    around, along : nodes round the journal and along its whole length.

    At 90 by 30 all numbers of Raimondi and Boyd's table come out within 0.5 % up to an eccentricity of .9.

    Raises
    ------
    ValueError
        for an eccentricity outside (0, 1) or a slenderness not above nought.
    """
    ratios = np.asarray(eccentricity, dtype=np.float64)
    if not (np.all(ratios > 0.0) and np.all(ratios < 1.0) and slenderness > 0.0):
        raise ValueError(
            f"A film was asked for at an eccentricity of {eccentricity} and L/D of {slenderness}; "
            "an eccentricity between 0 and 1 and an L/D above 0 would be right."
        )
    out = np.empty((ratios.size, len(FIELDS)))
    _solve_all(ratios.reshape(-1), slenderness**-2.0, around, max(along // 2, 4), TOLERANCE, out)
    columns = {name: plain(out[:, place].reshape(ratios.shape)) for place, name in enumerate(FIELDS)}
    return Film(eccentricity=plain(ratios), **columns)


def field_at(*, eccentricity: float, slenderness: float, around: int = AROUND, along: int = ALONG) -> Array:
    """Pressure over the half bearing as p (c/r)^2 / (6 mu omega), shape (around, along // 2 + 1); row 0 at the widest place."""
    field = np.zeros((around, max(along // 2, 4) + 1))
    _sweeps(field, eccentricity, slenderness**-2.0, TOLERANCE, 200000)
    angle = np.arange(around) * 2.0 * np.pi / around
    return np.asarray(field / (1.0 + eccentricity * np.cos(angle))[:, None] ** 1.5)


def short_bearing_sommerfeld(*, eccentricity: Number, slenderness: Number) -> Number:
    """S of a short bearing: (1-e^2)^2 / [pi e sqrt(pi^2 (1-e^2) + 16 e^2)] (D/L)^2 (DuBois and Ocvirk, NACA Report 1157, 1953).

    For L/D of a quarter and less; it lies 3 to 15 % below the finite solution there.
    """
    e2 = np.square(eccentricity)
    root = np.sqrt(np.pi**2 * (1.0 - e2) + 16.0 * e2)
    return plain(np.square(1.0 - e2) / (np.pi * np.multiply(eccentricity, root)) / np.square(slenderness))


def short_bearing_attitude(*, eccentricity: Number) -> Number:
    """Attitude angle of a short bearing [degree]: tan = pi sqrt(1-e^2) / (4 e) (same report)."""
    return plain(np.degrees(np.arctan2(np.pi * np.sqrt(1.0 - np.square(eccentricity)), np.multiply(4.0, eccentricity))))


def petroff_friction(*, viscosity: Number, speed: Number, pressure: Number, clearance_ratio: Number) -> Number:
    """Coefficient of friction of a bearing that runs central: 2 pi^2 (mu N / P) (r/c) (Petroff).

    viscosity [Pa s], speed [rev/s], pressure = W / (L D) [Pa], clearance_ratio = r/c. It is a lower bound under load.
    """
    return plain(2.0 * np.pi**2 * np.multiply(viscosity, speed) / np.asarray(pressure) * clearance_ratio)


def sommerfeld(*, viscosity: Number, speed: Number, pressure: Number, clearance_ratio: Number) -> Number:
    """S = (r/c)^2 mu N / P: viscosity [Pa s], speed [rev/s], pressure = W / (L D) [Pa], clearance_ratio = r/c."""
    return plain(np.square(clearance_ratio) * viscosity * speed / np.asarray(pressure))
