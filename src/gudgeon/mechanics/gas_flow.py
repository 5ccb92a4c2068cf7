"""Air through small openings: isentropic flow, choking, openings in a row, and the two-gauge leak test.

A perfect gas of constant k. Leaks are nozzles of an effective area, discharge coefficient x free area: a ring's joint or a
pitted seat is no nozzle, and what is worked out backwards is the nozzle that would leak as much.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from gudgeon.mechanics.numbers import Array, Number, plain

AIR_K = 1.4
AIR_CONSTANT = 287.05
"""Gas constant of dry air [J/(kg K)]: 8.31446 / 0.0289647; ICAO standard atmosphere, Doc 7488."""

_HALVINGS = 60


def pressure_ratio(*, mach: Number, k: float = AIR_K) -> Number:
    """p / p0 at a Mach number, (1 + (k-1)/2 M^2)^(-k/(k-1)); NACA Report 1135, eq. 44."""
    return plain(np.power(_heat_ratio(mach, k), -k / (k - 1)))


def density_ratio(*, mach: Number, k: float = AIR_K) -> Number:
    """rho / rho0 at a Mach number; NACA Report 1135, eq. 45."""
    return plain(np.power(_heat_ratio(mach, k), -1 / (k - 1)))


def temperature_ratio(*, mach: Number, k: float = AIR_K) -> Number:
    """T / T0 at a Mach number; NACA Report 1135, eq. 43."""
    return plain(1 / _heat_ratio(mach, k))


def area_ratio(*, mach: Number, k: float = AIR_K) -> Number:
    """A / A* at a Mach number over 0; NACA Report 1135, eq. 80."""
    inner = 2 * _heat_ratio(mach, k) / (k + 1)
    return plain(np.power(inner, (k + 1) / (2 * (k - 1))) / np.asarray(mach))


def _heat_ratio(mach: Number, k: float) -> Array:
    return np.asarray(1 + (k - 1) / 2 * np.square(mach), dtype=np.float64)


def critical_ratio(*, k: float = AIR_K) -> float:
    """Down/upstream pressure at and under which a nozzle is choked, (2/(k+1))^(k/(k-1)): .5283 for air."""
    return float((2 / (k + 1)) ** (k / (k - 1)))


def flow_function(*, ratio: Number, k: float = AIR_K) -> Number:
    """Flow of a nozzle over area x p0 / sqrt(R T0) [1], by down over upstream pressure (0 to 1).

    sqrt(2k/(k-1) (r^(2/k) - r^((k+1)/k))), Saint-Venant and Wantzel 1839; at and under the critical ratio what it is there
    (.6847 for air). Nothing flows where the ratio is 1 or more.
    """
    r = np.clip(ratio, critical_ratio(k=k), 1.0)
    return plain(np.sqrt(2 * k / (k - 1) * np.maximum(np.power(r, 2 / k) - np.power(r, (k + 1) / k), 0.0)))


def mass_flow(
    *, area: Number, upstream: Number, downstream: Number, temperature: Number, k: float = AIR_K, constant: float = AIR_CONSTANT
) -> Number:
    """Mass flow of a nozzle [kg/s].

    Parameters
    ----------
    area : effective, discharge coefficient x free area [m2]. upstream, downstream : absolute [Pa].
    temperature : of the gas at rest upstream [K].
    """
    share = flow_function(ratio=np.divide(downstream, upstream), k=k)
    return plain(np.multiply(area, share) * upstream / np.sqrt(constant * np.asarray(temperature)))


def pressure_upstream(
    *, flow: Number, area: Number, downstream: Number, temperature: Number, k: float = AIR_K, constant: float = AIR_CONSTANT
) -> Number:
    """Pressure before a nozzle [Pa] that drives a known flow [kg/s] through it: ``mass_flow`` turned round, in closed form.

    With y = (p0/p)^((k-1)/k) an unchoked nozzle has (m sqrt(R T0) / (A p))^2 = 2k/(k-1) (y^2 - y); a choked one has flow in
    proportion to p0.
    """
    push = np.asarray(flow) * np.sqrt(constant * np.asarray(temperature)) / area
    y = (1 + np.sqrt(1 + 4 * np.square(push / downstream) * (k - 1) / (2 * k))) / 2
    open_nozzle = downstream * np.power(y, k / (k - 1))
    choked = push / flow_function(ratio=0.0, k=k)
    return plain(np.where(open_nozzle * critical_ratio(k=k) > downstream, choked, open_nozzle))


def flow_in_series(
    *, areas: Sequence[Number], upstream: Number, downstream: Number, temperature: Number, k: float = AIR_K
) -> tuple[Number, tuple[Number, ...]]:
    """Flow through openings one after the other [kg/s], and the pressure in each room between them [Pa].

    The gas comes to rest in every room at its first temperature (throttled, no heat lost): rings of a piston, or the orifice
    of a leak tester and the leak behind it. Solved by halving; good to the last digit that a float holds.
    """
    high = np.min([np.asarray(mass_flow(area=a, upstream=upstream, downstream=0.0, temperature=temperature, k=k)
                              + 0.0 * np.add(upstream, downstream)) for a in np.broadcast_arrays(*areas)], axis=0)  # fmt: skip
    low = np.zeros_like(high)
    for _ in range(_HALVINGS):
        flow = (low + high) / 2
        too_much = _back_pressures(flow, areas, downstream, temperature, k)[0] > upstream
        low, high = np.where(too_much, low, flow), np.where(too_much, flow, high)
    flow = (low + high) / 2
    rooms = _back_pressures(flow, areas, downstream, temperature, k)[1:]
    return plain(flow), tuple(plain(room) for room in rooms)


def _back_pressures(flow: Array, areas: Sequence[Number], downstream: Number, temperature: Number, k: float) -> list[Array]:
    """Pressures before each opening, from the first on, for a flow through them all."""
    found: list[Array] = []
    after: Number = downstream
    for area in reversed(areas):
        after = pressure_upstream(flow=flow, area=area, downstream=after, temperature=temperature, k=k)
        found.append(np.asarray(after))
    return found[::-1]


def area_in_series(*, areas: Sequence[Number], ratio: Number, k: float = AIR_K) -> Number:
    """The one opening [m2] that passes as much as several in a row at a pressure ratio down/upstream.

    Near ratio 1 it is (sum of 1/A^2)^(-1/2); far from it the row is tighter by less, for the last opening chokes first.
    """
    flow, _ = flow_in_series(areas=areas, upstream=1.0, downstream=ratio, temperature=1.0, k=k)
    one = mass_flow(area=1.0, upstream=1.0, downstream=ratio, temperature=1.0, k=k)
    return plain(np.divide(flow, one))


def leak_down_pressure(*, orifice: Number, leak: Number, supply: Number, ambient: Number) -> Number:
    """Absolute pressure [Pa] at which the cylinder of a two-gauge leak test settles.

    Parameters
    ----------
    orifice, leak : effective areas of the tester's restrictor and of the leak [m2].
    supply, ambient : absolute [Pa]; the regulated gauge of the tester is supply less ambient.

    What comes in by the orifice goes out by the leak, both as nozzles; the piston stands still at inner dead centre.
    """
    return flow_in_series(areas=(orifice, leak), upstream=supply, downstream=ambient, temperature=293.15)[1][0]


def leak_down_area(*, orifice: Number, reading: Number, supply: Number, ambient: Number) -> Number:
    """Effective area of the leak [m2] behind a leak test's reading; all pressures absolute [Pa], in closed form."""
    through = mass_flow(area=orifice, upstream=supply, downstream=reading, temperature=293.15)
    return plain(np.divide(through, mass_flow(area=1.0, upstream=reading, downstream=ambient, temperature=293.15)))


def hold_time(
    *, volume: Number, area: Number, first: Number, last: Number, ambient: Number, temperature: Number, points: int = 48
) -> Number:
    """Time [s] in which a closed volume leaks from one pressure to a lower one, all absolute [Pa].

    The air keeps the walls' temperature [K]: t = V / (R T) x integral of dp / flow(p), by Gauss and Legendre after
    p = ambient + u^2, which takes away the root at the end. ``last`` must not be under ambient.
    """
    nodes, weights = np.polynomial.legendre.leggauss(points)
    start, end = (np.sqrt(np.maximum(np.subtract(p, ambient), 0.0)) for p in (first, last))
    half = np.asarray((start - end) / 2)[..., None]
    u = np.asarray((start + end) / 2)[..., None] + half * nodes
    outside = np.asarray(ambient)[..., None]
    flow = mass_flow(area=1.0, upstream=outside + u**2, downstream=outside, temperature=np.asarray(temperature)[..., None])
    integral = np.sum(2 * u / flow * weights * half, axis=-1)
    return plain(np.divide(volume, area) * integral / (AIR_CONSTANT * np.asarray(temperature)))


def standard_pressure(*, height: Number) -> Number:
    """Pressure of the standard atmosphere [Pa] at a height over the sea [m], to 11,000 m; ICAO Doc 7488."""
    return plain(101_325.0 * np.power(1 - 0.0065 * np.asarray(height) / 288.15, 9.80665 / (AIR_CONSTANT * 0.0065)))
