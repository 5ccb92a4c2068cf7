"""Helical springs of round wire pressed endwise: rate, stress, solid length, buckling, surge; and a new one to measure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from gudgeon.mechanics.numbers import Number, plain

Ends = Literal["plain", "plain, ground", "closed", "closed, ground"]
_DEAD = {"plain": 0.0, "plain, ground": 1.0, "closed": 2.0, "closed, ground": 2.0}
_SOLID = {"plain": 1.0, "plain, ground": 0.0, "closed": 1.0, "closed, ground": 0.0}


def index(*, wire: Number, mean_diameter: Number) -> Number:
    """Spring index D / d [1]; from 4 to 12 can be wound well (Shigley 10-7)."""
    return plain(np.divide(mean_diameter, wire))


def active_coils(*, total: Number, ends: Ends) -> Number:
    """Coils that work, of all that can be counted (Shigley Table 10-1): none dead at plain ends, two at closed ones."""
    return plain(np.subtract(total, _DEAD[ends]))


def solid_length(*, wire: Number, total: Number, ends: Ends) -> Number:
    """Length [m] when coil lies on coil: d Nt with ground ends, d (Nt + 1) without (Shigley Table 10-1)."""
    return plain(np.multiply(wire, np.add(total, _SOLID[ends])))


def rate(*, wire: Number, mean_diameter: Number, active: Number, shear_modulus: Number) -> Number:
    """Force per length [N/m]: k = G d^4 / (8 D^3 Na) (Shigley 10-9).

    Parameters
    ----------
    wire : d [m]. mean_diameter : outside less one wire, D [m]. active : Na [1]. shear_modulus : G [Pa].

    Even pitch, no coil touching its neighbour. One thou of wire in an eighth of an inch is 3 % of the rate.
    """
    return plain(shear_modulus * np.power(wire, 4) / (8 * np.power(mean_diameter, 3) * active))


def coils_for_rate(*, rate: Number, wire: Number, mean_diameter: Number, shear_modulus: Number) -> Number:
    """Active coils that give a rate [N/m]: G d^4 / (8 D^3 k)."""
    return plain(shear_modulus * np.power(wire, 4) / (8 * np.power(mean_diameter, 3) * rate))


def rate_between(*, force_1: Number, length_1: Number, force_2: Number, length_2: Number) -> Number:
    """Rate [N/m] from two forces [N] at two lengths [m]; NaN where the lengths are the same."""
    span = np.subtract(length_1, length_2)
    return plain(np.where(span != 0, np.subtract(force_2, force_1) / np.where(span != 0, span, 1.0), np.nan))


def force_at(*, rate: Number, free_length: Number, length: Number) -> Number:
    """Force [N] at a length [m]: k (L0 - L), none where the spring is loose."""
    return plain(np.maximum(np.multiply(rate, np.subtract(free_length, length)), 0.0))


def wahl(*, index: Number) -> Number:
    """Wahl's factor for curvature and direct shear: (4C - 1) / (4C - 4) + 0.615 / C."""
    c = np.asarray(index, dtype=np.float64)
    return plain((4 * c - 1) / (4 * c - 4) + 0.615 / c)


def bergstraesser(*, index: Number) -> Number:
    """Bergstraesser's factor for the same: (4C + 2) / (4C - 3); within 1.5 % of Wahl's from C 4 to 12 (Shigley 10-5)."""
    c = np.asarray(index, dtype=np.float64)
    return plain((4 * c + 2) / (4 * c - 3))


def stress(*, force: Number, wire: Number, mean_diameter: Number) -> Number:
    """Greatest shear stress [Pa] in the wire, on the inside of the coil: KB 8 F D / (pi d^3) (Shigley 10-3, 10-5)."""
    factor = bergstraesser(index=index(wire=wire, mean_diameter=mean_diameter))
    return plain(factor * 8 * np.asarray(force) * mean_diameter / (np.pi * np.power(wire, 3)))


def force_for_stress(*, stress: Number, wire: Number, mean_diameter: Number) -> Number:
    """Force [N] at which the wire reaches a stress [Pa]; there and back with ``stress``."""
    factor = bergstraesser(index=index(wire=wire, mean_diameter=mean_diameter))
    return plain(np.pi * np.power(wire, 3) * np.asarray(stress) / (factor * 8 * np.asarray(mean_diameter)))


def wire_strength(*, wire: Number, constant: Number, exponent: Number) -> Number:
    """Tensile strength [Pa] of drawn wire: A / d^m, with A in Pa m^m and d [m] (Shigley 10-14)."""
    return plain(np.divide(constant, np.power(wire, exponent)))


def steady_length(*, mean_diameter: Number, end_condition: Number = 0.5, young: Number, shear_modulus: Number) -> Number:
    """Free length [m] below which a spring never buckles: pi D / a sqrt(2 (E - G) / (2G + E)) (Shigley 10-12).

    ``end_condition`` a: 0.5 between flat parallel seats, 0.707 with one end hinged, 1 with both. For steel 2.63 D / a.
    """
    shape = np.sqrt(2 * np.subtract(young, shear_modulus) / (2 * np.asarray(shear_modulus) + young))
    return plain(np.pi * np.asarray(mean_diameter) / end_condition * shape)


def buckling_travel(
    *, free_length: Number, mean_diameter: Number, end_condition: Number = 0.5, young: Number, shear_modulus: Number
) -> Number:
    """Travel [m] at which a slender spring buckles; infinite where it never does (Shigley 10-10).

    y = L0 C1 [1 - sqrt(1 - C2 / s^2)], C1 = E / 2(E - G), C2 = 2 pi^2 (E - G) / (2G + E), s = a L0 / D.
    """
    difference = np.subtract(young, shear_modulus)
    first = young / (2 * difference)
    second = 2 * np.pi**2 * difference / (2 * np.asarray(shear_modulus) + young)
    slender = np.multiply(end_condition, free_length) / mean_diameter
    inside = 1 - second / np.square(slender)
    travel = np.multiply(free_length, first) * (1 - np.sqrt(np.maximum(inside, 0.0)))
    return plain(np.where(inside > 0, travel, np.inf))


def active_mass(*, wire: Number, mean_diameter: Number, active: Number, density: Number) -> Number:
    """Mass [kg] of the coils that work: pi^2 d^2 D Na rho / 4."""
    return plain(np.pi**2 / 4 * np.square(wire) * np.asarray(mean_diameter) * active * density)


def surge_frequency(*, rate: Number, mass: Number) -> Number:
    """Frequency [Hz] at which the coils swing between two seats: 1/2 sqrt(k / m), m of the working coils (Shigley 10-25).

    It should lie 15 to 20 times above the frequency of the lifts.
    """
    return plain(0.5 * np.sqrt(np.divide(rate, mass)))


@dataclass(frozen=True, kw_only=True)
class SpringMade:
    """A spring to order, one number or an array each [SI]. ``stress_share`` is the stress when open over what is allowed."""

    wire: Number
    mean_diameter: Number
    active: Number
    total: Number
    rate: Number
    free_length: Number
    solid_length: Number
    stress_open: Number
    stress_solid: Number
    clash: Number


def spring_to_order(
    *,
    closed_force: Number,
    closed_length: Number,
    open_force: Number,
    open_length: Number,
    outside_diameter: Number,
    wire: Number,
    shear_modulus: Number,
    ends: Ends = "closed, ground",
) -> SpringMade:
    """The spring of a wire that gives two forces at two lengths in a given outside diameter.

    Rate from the forces; active coils from rate, wire and diameter; free length L1 + F1 / k; ``clash`` is what is left
    between the open length and solid [m]: coil lies on coil where it is not above nought.

    Parameters
    ----------
    closed_*, open_* : valve closed and open: forces [N], lengths [m]. outside_diameter, wire : [m].
    """
    mean = np.subtract(outside_diameter, wire)
    k = rate_between(force_1=closed_force, length_1=closed_length, force_2=open_force, length_2=open_length)
    active = coils_for_rate(rate=k, wire=wire, mean_diameter=plain(mean), shear_modulus=shear_modulus)
    total = plain(np.add(active, _DEAD[ends]))
    solid = solid_length(wire=wire, total=total, ends=ends)
    free = plain(np.add(closed_length, np.divide(closed_force, k)))
    at_solid = force_at(rate=k, free_length=free, length=solid)
    return SpringMade(
        wire=wire,
        mean_diameter=plain(mean),
        active=active,
        total=total,
        rate=k,
        free_length=free,
        solid_length=solid,
        stress_open=stress(force=open_force, wire=wire, mean_diameter=plain(mean)),
        stress_solid=stress(force=at_solid, wire=wire, mean_diameter=plain(mean)),
        clash=plain(np.subtract(open_length, solid)),
    )
