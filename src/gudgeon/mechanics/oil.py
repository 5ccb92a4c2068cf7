"""Oil: how its viscosity falls with temperature, and the temperature at which a bearing settles."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from gudgeon.mechanics.film_table import eccentricity, film
from gudgeon.mechanics.journal_bearing import Film, sommerfeld
from gudgeon.mechanics.numbers import Array, Number, plain

KELVIN = 273.15
HEAT = 1900.0
"""Specific heat of mineral oil [J/(kg K)]; Shigley's .42 Btu/(lb F) is 1,760, handbooks go to 2,100."""

DENSITY = 885.0
"""Density of mineral engine oil at 15 degree C [kg/m3]; common practice."""


def walther(*, temperature: tuple[float, float], kinematic: tuple[float, float]) -> tuple[float, float]:
    """A and B of ASTM D341: log log(nu + .7) = A - B log T, nu in mm2/s, T in K, from two points [degree C, m2/s].

    For nu above 2 mm2/s. Raises ValueError where the two points are one, or the oil gets thicker as it warms.
    """
    absolute = np.log10(np.asarray(temperature) + KELVIN)
    thick = np.log10(np.log10(np.asarray(kinematic) * 1e6 + 0.7))
    if (temperature[1] - temperature[0]) * (kinematic[0] - kinematic[1]) <= 0.0:
        raise ValueError(
            f"Viscosities of {kinematic[0] * 1e6:g} and {kinematic[1] * 1e6:g} mm2/s were given at {temperature[0]:g} and "
            f"{temperature[1]:g} degree C; two temperatures, with the thinner oil at the higher one, would be right."
        )
    slope = float((thick[0] - thick[1]) / (absolute[1] - absolute[0]))
    return float(thick[0] + slope * absolute[0]), slope


def kinematic(*, temperature: Number, constants: tuple[float, float]) -> Number:
    """Kinematic viscosity [m2/s] at a temperature [degree C] (ASTM D341, for 2 mm2/s and more)."""
    a, b = constants
    return plain((10.0 ** (10.0 ** (a - b * np.log10(np.add(temperature, KELVIN)))) - 0.7) * 1e-6)


def density(*, temperature: Number, at_15: Number = DENSITY) -> Number:
    """Density [kg/m3] at a temperature [degree C]: it falls by .65 kg/m3 to the degree; common practice."""
    return plain(at_15 - 0.65 * np.subtract(temperature, 15.0))


def dynamic(*, temperature: Number, constants: tuple[float, float], at_15: Number = DENSITY) -> Number:
    """Dynamic viscosity [Pa s] at a temperature [degree C]."""
    return plain(
        np.multiply(kinematic(temperature=temperature, constants=constants), density(temperature=temperature, at_15=at_15))
    )


def film_rise(*, pressure: Number, film: Film, oil_density: Number = DENSITY, heat: Number = HEAT) -> Number:
    """Rise of temperature of the oil that goes through a film [K], where the oil carries all the heat away.

    Formula: 4 pi P / (rho c) x (r/c)f / [ Q/(rcNL) (1 - Qs/2Q) ]: the oil that leaves at the ends does so half way up the rise
    (Raimondi and Boyd; Shigley, chapter on lubrication, prints 4 pi / (rho c) as 1/9.70 for degree F and psi).
    """
    carried = np.multiply(film.flow, 1.0 - 0.5 * np.asarray(film.side_flow))
    return plain(4.0 * np.pi * np.asarray(pressure) / np.multiply(oil_density, heat) * np.asarray(film.friction) / carried)


def friction_power(*, film: Film, load: Number, diameter: Number, clearance: Number, speed: Number) -> Number:
    """Power that a bearing wastes [W]: f W pi d N; clearance on the diameter [m], speed [rev/s]."""
    coefficient = np.multiply(film.friction, np.asarray(clearance) / np.asarray(diameter))
    return plain(coefficient * load * np.pi * diameter * speed)


@dataclass(frozen=True, slots=True, kw_only=True)
class Running:
    """A bearing as it runs: temperature of its film [degree C], its viscosity [Pa s], the film, its least thickness [m], and
    the power it wastes [W]."""

    temperature: float
    viscosity: float
    film: Film
    thickness: float
    power: float


def running(
    *,
    load: float,
    diameter: float,
    length: float,
    clearance: float,
    speed: float,
    viscosity_at: Callable[[float], float],
    inlet: float,
    housing: float = 0.0,
) -> Running:
    """The temperature at which a bearing settles: friction heats what oil and housing carry off.

    Parameters
    ----------
    load [N]; diameter, length, clearance (on the diameter) [m]; speed [rev/s].
    viscosity_at : dynamic viscosity [Pa s] at a temperature [degree C].
    inlet : temperature of the oil that comes in, and of the air about the housing [degree C].
    housing : heat that the housing sheds for each degree that the film is above the inlet [W/K]; nought for a bearing that
        only its oil cools.

    The mean film temperature is that of the inlet plus half of the rise; found by halving over inlet to inlet + 200 K.
    A splash-fed bearing may get less oil than its film would draw in; then it runs hotter than this says.
    """

    def state(temperature: float) -> tuple[float, Running]:
        viscosity = viscosity_at(temperature)
        pressure = load / (length * diameter)
        s = sommerfeld(viscosity=viscosity, speed=speed, pressure=pressure, clearance_ratio=diameter / clearance)
        solved = film(sommerfeld=s, slenderness=length / diameter)
        power = float(friction_power(film=solved, load=load, diameter=diameter, clearance=clearance, speed=speed))
        rise = float(film_rise(pressure=pressure, film=solved))
        carried = power / rise if rise > 0.0 else np.inf
        mean = inlet + power / (2.0 * carried + housing)
        thickness = 0.5 * clearance * (1.0 - float(solved.eccentricity))
        return mean - temperature, Running(
            temperature=temperature, viscosity=viscosity, film=solved, thickness=thickness, power=power
        )

    low, high = inlet, inlet + 200.0
    for _ in range(16):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if state(middle)[0] > 0.0 else (low, middle)
    return state(0.5 * (low + high))[1]


def least_film(*, load: Number, diameter: Number, length: float, clearance: Number, speed: Number, viscosity: Number) -> Array:
    """Least film thickness [m] of a bearing, from the table of solutions; clearance on the diameter [m], speed [rev/s]."""
    pressure = np.asarray(load) / np.multiply(diameter, length)
    s = sommerfeld(
        viscosity=viscosity, speed=speed, pressure=pressure, clearance_ratio=np.asarray(diameter) / np.asarray(clearance)
    )
    slenderness = length / float(np.median(diameter))
    return np.asarray(0.5 * np.asarray(clearance) * (1.0 - np.asarray(eccentricity(sommerfeld=s, slenderness=slenderness))))


def roughness_together(*, journal: Number, bearing: Number) -> Number:
    """Roughness of two faces together [m]: the root of the sum of squares."""
    return plain(np.hypot(journal, bearing))
