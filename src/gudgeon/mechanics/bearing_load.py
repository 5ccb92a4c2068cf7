"""Load on crankpin and mains over the cycle, from the gas and from what moves: the plain slider-crank.

The angle is the last axis: inputs of shape (...) give loads of shape (..., count). Inner dead centre, the piston deepest in the
cylinder, is nought; angles rise the way the crank turns.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from gudgeon.mechanics.numbers import Array, Number, plain

ATMOSPHERE = 101_325.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Loads:
    """Loads over one cycle.

    Attributes
    ----------
    angle : crank angle [rad], shape (count,).
    pressure : in the cylinder, absolute [Pa]. piston : force of gas and inertia on the rod, along the cylinder [N].
    along, across : load on the crankpin towards the crank along the cylinder, and across it the way the pin moves at
        inner dead centre [N]; shapes (..., count).
    side : thrust of the piston on the wall [N].
    """

    angle: Array
    pressure: Array
    piston: Array
    along: Array
    across: Array
    side: Array

    @property
    def pin(self) -> Array:
        """Magnitude of the load on the crankpin [N]."""
        return np.asarray(np.hypot(self.along, self.across))

    @property
    def greatest(self) -> Number:
        """Greatest load on the crankpin over the cycle [N]."""
        return plain(self.pin.max(axis=-1))

    @property
    def mean(self) -> Number:
        """Mean of the load's magnitude over the cycle [N]."""
        return plain(self.pin.mean(axis=-1))


def _last(value: Number) -> Array:
    return np.asarray(value, dtype=np.float64)[..., None]


def piston_position(*, angle: Number, throw: Number, rod: Number, offset: Number = 0.0) -> Number:
    """Distance of the piston pin from the crank's axis, along the cylinder [m]: r cos a + sqrt(l^2 - (r sin a - e)^2)."""
    lean = np.multiply(throw, np.sin(angle)) - offset
    return plain(np.multiply(throw, np.cos(angle)) + np.sqrt(np.square(rod) - np.square(lean)))


def piston_acceleration(*, angle: Number, throw: Number, rod: Number, speed: Number, offset: Number = 0.0) -> Number:
    """Acceleration of the piston away from the crank [m/s2] at a steady speed [rad/s], exact for the slider-crank."""
    sine, cosine = np.sin(angle), np.cos(angle)
    lean = np.multiply(throw, sine) - offset
    up = np.sqrt(np.square(rod) - np.square(lean))
    first = np.multiply(throw, cosine)
    bend = -(np.square(first) - lean * np.multiply(throw, sine)) / up - np.square(lean * first) / up**3
    return plain(np.square(speed) * (-first + bend))


def cylinder_pressure(
    *,
    angle: Array,
    throw: Number,
    rod: Number,
    compression_ratio: Number,
    peak: Number,
    strokes: int = 4,
    peak_angle: float = 0.26,
    exhaust_opens: float = 2.44,
    suction: float = 0.92,
    exponents: tuple[float, float] = (1.30, 1.30),
) -> Array:
    """Pressure in the cylinder over the cycle [Pa absolute] from an idealised card; shape (..., count).

    Polytropic compression from ``suction`` atmospheres, a straight rise from dead centre to ``peak`` [Pa absolute] at
    ``peak_angle`` [rad], polytropic expansion to ``exhaust_opens``, a straight fall to the atmosphere at outer dead centre.
    Exponents 1.3 and angles 15 and 140 degree : common practice for slow spark-fired engines.
    """
    turn = np.mod(angle, 4.0 * np.pi if strokes == 4 else 2.0 * np.pi)
    long = _last(throw) + _last(rod)
    swept = 2.0 * _last(throw)
    down = long - np.asarray(piston_position(angle=turn, throw=_last(throw), rod=_last(rod)))
    volume = down + swept / (_last(compression_ratio) - 1.0)  # in lengths of bore
    whole, clear = swept + swept / (_last(compression_ratio) - 1.0), swept / (_last(compression_ratio) - 1.0)
    low = suction * ATMOSPHERE
    squeezed = low * (whole / clear) ** exponents[0]
    top_down = long - np.asarray(piston_position(angle=peak_angle, throw=_last(throw), rod=_last(rod)))
    at_peak = top_down + clear
    opened = long - np.asarray(piston_position(angle=exhaust_opens, throw=_last(throw), rod=_last(rod))) + clear
    released = _last(peak) * (at_peak / opened) ** exponents[1]
    rise = squeezed + (_last(peak) - squeezed) * turn / peak_angle
    power = _last(peak) * (at_peak / volume) ** exponents[1]
    fall = released + (ATMOSPHERE - released) * (turn - exhaust_opens) / (np.pi - exhaust_opens)
    squeeze = low * (whole / volume) ** exponents[0]
    bounds = [turn < peak_angle, turn < exhaust_opens, turn < np.pi]
    if strokes == 4:
        bounds += [turn < 2.0 * np.pi, turn < 3.0 * np.pi]
        parts = [rise, power, fall, np.full_like(turn, 1.03 * ATMOSPHERE), np.full_like(turn, low)]
    else:
        parts = [rise, power, fall]
    shape = np.broadcast_shapes(volume.shape, rise.shape)
    return np.select(
        [np.broadcast_to(bound, shape) for bound in bounds],
        [np.broadcast_to(part, shape) for part in parts],
        np.broadcast_to(squeeze, shape),
    )


def crankpin_load(
    *,
    bore: Number,
    throw: Number,
    rod: Number,
    speed: Number,
    reciprocating: Number,
    rotating: Number,
    compression_ratio: Number,
    peak: Number,
    strokes: int = 4,
    offset: Number = 0.0,
    count: int = 720,
) -> Loads:
    """Loads on the crankpin over the cycle.

    Parameters
    ----------
    bore, throw, rod, offset : [m]; throw is half the stroke. speed : [rad/s].
    reciprocating, rotating : masses of piston with the rod's upper share, and of the rod's lower share [kg].
    compression_ratio, peak : ratio, and greatest pressure [Pa absolute].
    count : crank angles over the cycle.

    With Q = (p - p_atm) A + m_rec x'' along the cylinder, the pin bears Q along and Q tan b across, less or more the lower
    share's m r w^2 (any textbook of machine design; Khurmi & Gupta, IC engine parts). The work of ``across`` and ``along``
    at the pin is the work of the gas.
    """
    angle = np.arange(count) * (4.0 if strokes == 4 else 2.0) * np.pi / count
    pressure = cylinder_pressure(
        angle=angle, throw=throw, rod=rod, compression_ratio=compression_ratio, peak=peak, strokes=strokes
    )
    area = np.pi / 4.0 * np.square(_last(bore))
    acceleration = np.asarray(
        piston_acceleration(angle=angle, throw=_last(throw), rod=_last(rod), speed=_last(speed), offset=_last(offset))
    )
    piston = (pressure - ATMOSPHERE) * area + _last(reciprocating) * acceleration
    lean = (_last(throw) * np.sin(angle) - _last(offset)) / _last(rod)
    side = piston * lean / np.sqrt(1.0 - lean**2)
    whirl = _last(rotating) * _last(throw) * _last(speed) ** 2
    return Loads(
        angle=angle,
        pressure=pressure,
        piston=piston,
        along=np.asarray(piston - whirl * np.cos(angle)),
        across=np.asarray(side + whirl * np.sin(angle)),
        side=np.asarray(side),
    )


def work_of_cycle(*, loads: Loads, throw: float) -> Number:
    """Work that the load does at the pin over one cycle [J]: the sum of turning moment by angle, by the trapezium rule."""
    moment = throw * (loads.across * np.cos(loads.angle) + loads.along * np.sin(loads.angle))
    step = loads.angle[1] - loads.angle[0]
    return plain(moment.sum(axis=-1) * step)


def bearing_pressure(*, load: Number, diameter: Number, length: Number) -> Number:
    """Pressure on the projected area [Pa]: W / (L d)."""
    return plain(np.asarray(load) / np.multiply(diameter, length))


def pin_diameter(*, load: Number, pressure: Number, slenderness: Number) -> Number:
    """Diameter of a crank or piston pin [m] for a safe pressure: sqrt(W / (p L/d)) (Khurmi & Gupta, IC engine parts)."""
    return plain(np.sqrt(np.asarray(load) / np.multiply(pressure, slenderness)))
