"""One cylinder turned over on its compression stroke: the pressure that a gauge in its plug hole shows, and why.

Reckoned crank angle by crank angle. What is in it:

- volume by the slider-crank, with offset and the clearance volume as poured;
- the intake valve that closes after outer dead centre and lets charge back out until it does;
- leaks by rings, valves, plug and cracks, all to places at the barometer's pressure, as one nozzle of their joint effective
  area (``gas_flow``); they matter the more, the slower the engine is turned;
- heat to the walls by Annand's film, a (k/B) Re^0.7 with Re on mean piston speed (W. J. D. Annand, Proc. I. Mech. E. 177,
  1963, p. 973; as cited by Heywood, Internal Combustion Engine Fundamentals, eq. 12.19, from memory). He gives a = .35 to .8,
  growing with the motion of the charge. It was found on running engines; at cranking speed it is stretched, and carried as a
  range;
- the specific heat of air growing with temperature (under .5 % off from 250 to 650 K, against CoolProp 8);
- the gauge: a small volume behind a check valve, filled to the peak over a few turns.

What is neglected: pressure drop through an open intake until it throttles by half a percent, the swing of speed within a
stroke, blow-by stored between rings, fuel vapour, and the depth of the water in the jacket against which a crack leaks.
"""

from __future__ import annotations

import math
from typing import Literal

import numpy as np

from gudgeon.mechanics.compiled import compiled
from gudgeon.mechanics.gas_flow import AIR_CONSTANT
from gudgeon.mechanics.numbers import Array, Number, plain
from gudgeon.mechanics.slider_crank import piston_depth

TENTH_DEGREE = math.radians(0.1)

ANNAND = (0.35, 0.8)
"""Range of Annand's factor a."""

USUAL_OPENING = math.radians(220.0)
"""Angle for which an intake stands open where it was not read [rad]."""

COLUMNS = (
    "bore", "throw", "rod", "offset", "clearance_volume", "speed", "intake_closes", "intake_open_for", "intake_area",
    "leak_area", "ambient", "charge_pressure", "charge_temperature", "wall_temperature", "film", "surface", "gauge_volume",
)  # fmt: skip

_CP_AIR, _CV, _CV1, _CV2 = 1005.0, 718.0, 0.0495, 3.45e-4
"""cv = 718 + .0495 (T-300) + 3.45e-4 (T-300)^2 [J/(kg K)], through CoolProp 8's values for air at 1 bar at 300, 400, 600 K."""
_FILM = 0.02638 / 1.854e-5**0.7
"""k / mu^0.7 of air at 300 K; it grows as T^.296 (k as T^.80, mu as T^.72; within 1.5 % of CoolProp 8 to 600 K)."""
_R = AIR_CONSTANT
_THROTTLED = 0.005
_CRITICAL = (2 / 2.4) ** 3.5
_CHOKED = math.sqrt(1.4 * (2 / 2.4) ** 6.0)
_PAST = math.radians(30.0)


@compiled
def _nozzle(ratio: float) -> float:
    """``gas_flow.flow_function`` for air, one number at a time."""
    if ratio <= _CRITICAL:
        return _CHOKED
    if ratio >= 1.0:
        return 0.0
    y = ratio ** (2.0 / 7.0)
    fifth = y * y * y * y * y
    return math.sqrt(7.0 * (fifth - fifth * y))


@compiled
def _intake_area(c: Array, x: float) -> float:
    """Effective area of the closing intake valve [m2] at an angle after outer dead centre: its lift a sine squared."""
    left = c[6] - x
    if left <= 0.0:
        return 0.0
    wave = math.sin(math.pi * left / c[7])
    return float(c[8] * wave * wave)


@compiled
def _volume(c: Array, x: float, outer: float, top: float) -> tuple[float, float]:
    """Volume [m3] and its growth with angle [m3/rad], at an angle after outer dead centre."""
    sine, cosine = math.sin(outer + x), math.cos(outer + x)
    lean = c[1] * sine - c[3]
    root = math.sqrt(c[2] * c[2] - lean * lean)
    piston = 0.25 * math.pi * c[0] * c[0]
    return c[4] + piston * (top - c[1] * cosine - root), piston * (c[1] * sine + lean * c[1] * cosine / root)


@compiled
def _growth(
    c: Array, x: float, p: float, m: float, gauge: float, outer: float, top: float, film: float, warm: float
) -> tuple[float, float]:
    """Growth of pressure [Pa/rad] and mass [kg/rad].

    First law for an open volume: V dp = -k p dV + (k-1) (h dm_in - cp T dm_out - dQ), with cp, k at the gas's temperature.
    While the check valve is open the gauge's volume takes gas too, at the walls' temperature.
    """
    volume, swept = _volume(c, x, outer, top)
    t = p * volume / (m * _R)
    above = t - 300.0
    cv = _CV + warm * (_CV1 * above + _CV2 * above * above)
    k = 1.0 + _R / cv
    area = c[9] + _intake_area(c, x)
    if p >= c[10]:
        out = area * p * _nozzle(c[10] / p) / math.sqrt(_R * t) / c[5]
        carried = out * (cv + _R) * t
    else:
        out = -area * c[10] * _nozzle(p / c[10]) / math.sqrt(_R * c[12]) / c[5]
        carried = out * _CP_AIR * c[12]
    lost = 0.0
    if film > 0.0:
        wet = c[15] * 0.5 * math.pi * c[0] * c[0] + 4.0 * volume / c[0]
        lost = film * math.exp(0.7 * math.log(m / volume) + 0.296 * math.log(t / 300.0)) * wet * (t - c[13]) / c[5]
    room = volume
    taken = 0.0
    if p >= gauge and c[16] > 0.0:
        room += k * c[16] * t / c[13]
        taken = c[16] / (_R * c[13])
    grown = (-k * p * swept - (k - 1.0) * (carried + lost)) / room
    return grown, -out - (taken * grown if grown > 0.0 else 0.0)


@compiled
def _throttling(c: Array, x: float, outer: float, top: float) -> float:
    """What the charge is raised over the barometer by being pushed back out through the closing intake [Pa]:
    rho/2 (dV/dt / A)^2."""
    flow = max(-_volume(c, x, outer, top)[1] * c[5], 0.0) / max(_intake_area(c, x), 1e-12)
    return float(0.5 * c[10] / (_R * c[12]) * flow * flow)


@compiled
def _start(c: Array, outer: float, top: float, step: float) -> tuple[float, float]:
    """Angle after outer dead centre at which the closing intake begins to throttle, and the pressure there [Pa].

    Until then the charge is pushed back out through it against next to nothing.
    """
    x, p = 0.0, c[11]
    while x < c[6]:
        rise = _throttling(c, x, outer, top)
        p = c[10] + rise
        if rise > _THROTTLED * c[10]:
            early, late = max(x - step, 0.0), x
            for _ in range(30):
                x = 0.5 * (early + late)
                if _throttling(c, x, outer, top) > _THROTTLED * c[10]:
                    late = x
                else:
                    early = x
            return late, c[10] + _throttling(c, late, outer, top)
        x += step
    return x, p


@compiled
def _stroke(c: Array, gauge: float, step: float, warm: float, trace: Array) -> tuple[float, float]:
    """One compression stroke: its peak pressure [Pa] and the angle of it after outer dead centre [rad].

    Midpoint rule, the state half way on reached by the slopes of the two steps before, so that one evaluation a step gives
    second order; the peak by a parabola through the three highest points. ``trace`` of n > 0 rows is filled with angle,
    volume and pressure.
    """
    outer = math.pi + math.asin(c[3] / (c[2] - c[1]))
    top = math.sqrt((c[2] + c[1]) ** 2 - c[3] * c[3])
    to_inner = 2.0 * math.pi + math.asin(c[3] / (c[2] + c[1])) - outer
    speed = 2.0 * c[1] * c[5] / math.pi  # mean piston speed
    film = c[14] * _FILM * c[0] ** -0.3 * speed**0.7
    x, p = _start(c, outer, top, step)
    m = p * _volume(c, x, outer, top)[0] / (_R * c[12])
    row = 0
    dp, dm = _growth(c, x, p, m, gauge, outer, top, film, warm)
    old_dp, old_dm = dp, dm
    before, two_before = p, p
    peak, at = p, x
    last = to_inner + _PAST
    while x < last:
        if row < trace.shape[0]:
            trace[row, 0], trace[row, 1], trace[row, 2] = x, _volume(c, x, outer, top)[0], p
            row += 1
        half_p = p + 0.5 * step * (1.75 * dp - 0.75 * old_dp)
        half_m = m + 0.5 * step * (1.75 * dm - 0.75 * old_dm)
        old_dp, old_dm = dp, dm
        dp, dm = _growth(c, x + 0.5 * step, half_p, half_m, gauge, outer, top, film, warm)
        two_before, before = before, p
        p += step * dp
        m += step * dm
        x += step
        if p < before:  # over the top
            bend = two_before - 2.0 * before + p
            shift = 0.5 * (two_before - p) / bend if bend < 0.0 and two_before < before else 0.0
            top_here = before - 0.25 * (two_before - p) * shift
            if top_here > peak:
                peak, at = top_here, x - step + shift * step
            if trace.shape[0] == 0 and x > to_inner:
                break
    return max(peak, p if x < to_inner else peak), at


@compiled
def _lanes(cases: Array, turns: int, step: float, warm: float, peaks: Array, angles: Array) -> int:
    """Every case for so many turns; what the gauge shows after each goes into ``peaks``."""
    no_trace = np.empty((0, 3))
    for lane in range(cases.shape[0]):
        gauge = cases[lane, 10]
        for turn in range(turns):
            peak, angle = _stroke(cases[lane], gauge, step, warm, no_trace)
            gauge = max(gauge, peak)
            peaks[lane, turn] = gauge
            angles[lane] = angle
    return 0


def cases(
    *,
    bore: Number,
    stroke: Number,
    rod: Number,
    clearance_volume: Number,
    speed: Number,
    leak_area: Number = 0.0,
    intake_closes: Number = 0.0,
    intake_open_for: Number = USUAL_OPENING,
    intake_area: Number | None = None,
    offset: Number = 0.0,
    ambient: Number = 101_325.0,
    charge_pressure: Number | None = None,
    charge_temperature: Number = 293.15,
    wall_temperature: Number = 293.15,
    film: Number = 0.5,
    surface: Number = 1.0,
    gauge_volume: Number = 0.0,
) -> Array:
    """Cases side by side, shape (cases, 17), broadcast from what is given.

    Parameters
    ----------
    bore, stroke, rod, offset : [m]; the rod over half the stroke by more than the offset. With an offset the stroke is taken as
        twice the throw, which is under 0.5 % short for offsets to a tenth of the rod.
    clearance_volume : over the piston at inner dead centre, what the gauge's hose adds included [m3].
    speed : of the crank, steady [rad/s].
    leak_area : effective area of all leaks together [m2].
    intake_closes : after outer dead centre [rad]; nought or less for an inlet that suction alone opens.
    intake_open_for, intake_area : how long the intake stands open [rad], effective area at full lift [m2]; by default a tenth
        of the piston's, which is a head of .4 bore lifted a quarter of itself with a discharge coefficient of .6 (common
        proportions of the time). Only the last of its closing matters.
    ambient : barometer at the place, not reduced to the sea [Pa]. charge_pressure : in the cylinder at outer dead centre, by
        default ambient; less by the spring's pull where suction opens the inlet.
    charge_temperature, wall_temperature : [K].
    film : Annand's a, 0 for no heat to the walls.
    surface : area of head and crown over that of two flat discs of the bore; 1 for a flat chamber over the piston.
    gauge_volume : behind the gauge's check valve [m3]; 0 reads the peak that a gauge reaches after many turns.

    Raises
    ------
    ValueError
        for a speed or a clearance volume of nought, or a rod too short for the throw.
    """
    throw = np.divide(stroke, 2)
    if intake_area is None:
        intake_area = plain(0.1 * np.pi / 4 * np.square(bore))
    columns = np.broadcast_arrays(
        bore, throw, rod, offset, clearance_volume, speed, intake_closes, intake_open_for, intake_area, leak_area, ambient,
        ambient if charge_pressure is None else charge_pressure, charge_temperature, wall_temperature, film, surface,
        gauge_volume,
    )  # fmt: skip
    found = np.ascontiguousarray(np.stack([np.ravel(each) for each in columns], axis=1), dtype=np.float64)
    _checked(found)
    return found


def _checked(found: Array) -> None:
    for column, what in ((0, "bore"), (1, "stroke"), (4, "clearance volume"), (5, "cranking speed"), (10, "barometer")):
        if not (found[:, column] > 0).all():
            raise ValueError(f"A {what} of {found[:, column].min():g} was given; it must be more than nought.")
    if not (found[:, 2] > found[:, 1] + np.abs(found[:, 3])).all():
        raise ValueError("The rod is shorter than throw and offset together; the crank could not go round.")


def peak_pressures(
    lanes: Array, *, turns: int = 1, step: float = TENTH_DEGREE, specific_heat: Literal["air", "constant"] = "air"
) -> tuple[Array, Array]:
    """What the gauge holds after each turn [Pa absolute], shape (cases, turns), and the angle of the last peak after outer
    dead centre [rad].

    Parameters
    ----------
    lanes : from ``cases``.
    step : of crank angle [rad]; 0.1 degree keeps the peak within 1e-5, 2 degrees within 5e-4.
    specific_heat : "constant" takes cv of 718 J/(kg K) at every temperature, so that k is 1.3998.
    """
    peaks, angles = np.empty((len(lanes), turns)), np.empty(len(lanes))
    run = _lanes.plain if len(lanes) * turns * math.pi / step < _NOT_WORTH else _lanes.fast
    run(lanes, turns, step, 1.0 if specific_heat == "air" else 0.0, peaks, angles)
    return peaks, angles


_NOT_WORTH = 4_000
"""Steps under which compiling, or reading back what was compiled, takes longer than plain Python."""


def indicator(
    lane: Array, *, step: float = TENTH_DEGREE, specific_heat: Literal["air", "constant"] = "air"
) -> tuple[Array, Array, Array]:
    """Angle after outer dead centre [rad], volume [m3] and absolute pressure [Pa] along one compression stroke, from where the
    intake begins to throttle to a little past inner dead centre. ``lane`` is one row of ``cases``."""
    trace = np.zeros((int((1.5 * math.pi + _PAST) / step) + 8, 3))
    _stroke.fast(lane, float(lane[10]), step, 1.0 if specific_heat == "air" else 0.0, trace)
    filled = trace[trace[:, 1] > 0]
    return filled[:, 0], filled[:, 1], filled[:, 2]


def compression_ratio(*, bore: Number, stroke: Number, clearance_volume: Number) -> Number:
    """(swept + clearance) / clearance [1]."""
    return plain(1 + np.pi / 4 * np.square(bore) * stroke / clearance_volume)


def effective_exponent(*, peak: Number, ambient: Number, ratio: Number) -> Number:
    """The n for which (full ratio)^n gives the pressure that was read: ln(peak/ambient) / ln(ratio); pressures absolute.

    A description of a reading, not a law: late closing, heat and leaks all bring it under k.
    """
    return plain(np.log(np.divide(peak, ambient)) / np.log(ratio))


def polytropic_pressure(*, ratio: Number, exponent: Number, start: Number) -> Number:
    """Absolute pressure [Pa] after compression by a ratio of volumes with p V^n constant: start x ratio^n."""
    return plain(start * np.power(ratio, exponent))


def trapped_ratio(*, ratio: Number, closes: Number, throw: Number, rod: Number) -> Number:
    """Volume when the intake closes over the clearance volume [1], for a cylinder not set off.

    Parameters
    ----------
    ratio : full compression ratio. closes : after outer dead centre [rad].
    """
    down = np.divide(piston_depth(angle=np.pi - np.asarray(closes), throw=throw, rod=rod), 2 * np.asarray(throw))
    return plain(1 + (np.asarray(ratio) - 1) * down)
