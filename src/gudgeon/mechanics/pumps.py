"""Pumps of oil and water: what gears, plungers and impellers move, and what slips back through their clearances.

SI throughout: flow [m3/s], speed [rev/s], clearance as the gap it is (radial or axial, not on the diameter).
"""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain

GRAVITY = 9.80665
WATER = 1000.0
WATER_HEAT = 4186.0
WATER_LATENT = 2.257e6
"""Density [kg/m3], specific heat [J/(kg K)] and heat of evaporation at 100 degree C [J/kg] of water; IAPWS, rounded."""


def gear_displacement(*, outside: Number, centres: Number, width: Number, base_pitch: Number = 0.0) -> Number:
    """Volume that two equal gears move in one turn [m3].

    Formula: 2 pi b (ra^2 - (a/2)^2 - pb^2/12): involute teeth whose contact runs a base pitch about the pitch point and whose
    trapped oil is let out on the delivery side; without ``base_pitch`` the ripple term is left out (under 5 %).
    Range: equal gears, outside radius ra over half of the centre distance a. The trade's pi a (D - a) b is its first order.
    """
    half = np.square(np.asarray(outside) / 2.0) - np.square(np.asarray(centres) / 2.0)
    return plain(2.0 * np.pi * np.asarray(width) * (half - np.square(base_pitch) / 12.0))


def plunger_displacement(*, diameter: Number, stroke: Number) -> Number:
    """Volume of one stroke [m3]: pi/4 d^2 s."""
    return plain(np.pi / 4.0 * np.square(diameter) * np.asarray(stroke))


def slot_leak(*, pressure: Number, gap: Number, width: Number, length: Number, viscosity: Number) -> Number:
    """Flow through a narrow slot [m3/s]: dp w h^3 / (12 mu L), laminar, h far below w and L (White, Fluid Mechanics, 4.11)."""
    return plain(np.asarray(pressure) * width * np.power(gap, 3) / (12.0 * np.multiply(viscosity, length)))


def annular_leak(
    *, pressure: Number, gap: Number, diameter: Number, length: Number, viscosity: Number, off_centre: Number = 0.0
) -> Number:
    """Flow past a plunger in its barrel [m3/s]: pi d h^3 dp / (12 mu L) x (1 + 1.5 e^2), h the radial gap when central.

    ``off_centre`` e runs from 0, central, to 1, touching one side, where it leaks two and a half times as much.
    """
    plainly = slot_leak(pressure=pressure, gap=gap, width=np.pi * np.asarray(diameter), length=length, viscosity=viscosity)
    return plain(np.multiply(plainly, 1.0 + 1.5 * np.square(off_centre)))


def gear_slip(
    *,
    pressure: Number,
    viscosity: Number,
    tip_gap: Number,
    side_gap: Number,
    outside: Number,
    centres: Number,
    width: Number,
    tooth_tip: Number,
) -> Number:
    """Oil that slips back in a gear pump [m3/s], over the tips of both gears and past the faces of both at either side.

    Tips: slots of the gears' width, one land each (the worst case: a single tooth seals). Faces: slots from delivery to suction
    through the roots, as wide as the teeth are deep and about as long as the root radius, four of them. Laminar; an estimate
    within a factor of two, told apart from the pump's swept volume.
    """
    root = np.asarray(centres) - np.asarray(outside) / 2.0
    deep = np.asarray(outside) / 2.0 - root
    over = slot_leak(pressure=pressure, gap=tip_gap, width=width, length=tooth_tip, viscosity=viscosity)
    beside = slot_leak(pressure=pressure, gap=side_gap, width=plain(deep), length=plain(root), viscosity=viscosity)
    return plain(2.0 * np.asarray(over) + 4.0 * np.asarray(beside))


def affinity(*, flow: Number, head: Number, power: Number, ratio: Number) -> tuple[Number, Number, Number]:
    """Flow, head and power of a centrifugal pump at another speed: as ratio, its square, its cube."""
    return plain(np.multiply(flow, ratio)), plain(head * np.square(ratio)), plain(power * np.power(ratio, 3))


def rim_speed(*, diameter: Number, speed: Number) -> Number:
    """Speed of an impeller's rim [m/s]: pi d n, n [rev/s]."""
    return plain(np.pi * np.multiply(diameter, speed))


def shut_head(*, rim: Number, share: Number = 0.55) -> Number:
    """Head of a centrifugal pump with its outlet shut [m]: share x u^2 / g; .5 to .6 for plain vanes, from memory."""
    return plain(np.multiply(share, np.square(rim)) / GRAVITY)


def impeller_flow(*, diameter: Number, vane: Number, rim: Number, coefficient: Number = 0.1) -> Number:
    """Flow that an impeller is made for [m3/s]: coefficient x u x pi d b; .06 to .14 for simple pumps, from memory."""
    return plain(coefficient * np.asarray(rim) * np.pi * np.multiply(diameter, vane))


def orifice_leak(*, area: Number, head: Number, coefficient: Number = 0.6) -> Number:
    """Flow through an opening under a head [m3/s]: C A sqrt(2 g H); C about .6 for a plain ring gap (Pump Handbook, 2.1)."""
    return plain(coefficient * np.asarray(area) * np.sqrt(2.0 * GRAVITY * np.asarray(head)))


def cooling_flow(*, heat: Number, rise: Number) -> Number:
    """Water that carries a heat [W] away with a rise in temperature [K], as flow [m3/s]: q / (rho c dT)."""
    return plain(np.divide(heat, WATER * WATER_HEAT * np.asarray(rise)))


def boiled_off(*, heat: Number) -> Number:
    """Water that a heat [W] boils away [m3/s]: q / (rho r)."""
    return plain(np.divide(heat, WATER * WATER_LATENT))
