"""Two metals in one water: which is eaten, how far they stand apart, and what a current takes."""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain

FARADAY = 96485.332
"""Charge of a mole of electrons [C/mol]; CODATA."""

BANDS = ((0.10, "little to fear"), (0.20, "keep an eye on it"), (9.0, "the less noble of the two is eaten"))
"""How far apart two metals may stand in water [V]; past .2 the less noble corrodes (galvanic series chart, docslib 8174925)."""


def apart(*, first: tuple[float, float], second: tuple[float, float]) -> tuple[float, float]:
    """Least and greatest difference of two metals' potentials [V], each given as a range; nought where the ranges meet."""
    low = max(second[0] - first[1], first[0] - second[1], 0.0)
    return low, max(second[1] - first[0], first[1] - second[0])


def eaten_first(*, first: tuple[float, float], second: tuple[float, float]) -> int:
    """0 or 1: which of two is the less noble, by the middle of its range [V]."""
    return 0 if sum(first) <= sum(second) else 1


def concentrated(*, noble_area: Number, base_area: Number) -> Number:
    """By how much the current is crowded on the less noble metal: area of the noble over area of the base one."""
    return plain(np.divide(noble_area, base_area))


def metal_lost(*, current: Number, time: Number, molar_mass: Number, valence: Number) -> Number:
    """Mass that a current dissolves [kg]: I t M / (n F), Faraday; M [kg/mol]. Iron: 9.1 kg per ampere and year (n = 2)."""
    return plain(np.multiply(current, time) * np.divide(molar_mass, valence) / FARADAY)
