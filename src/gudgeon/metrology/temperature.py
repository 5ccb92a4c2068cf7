"""Sizes brought to 20 degree C (ISO 1), from the part's material and the temperature it was read at.

The gauge is taken to be of steel and at the part's temperature, which is what the trade asks for: both have lain in one room.
What is then left is the difference of the two expansions, and the doubt whether the two really were alike in temperature.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from gudgeon.handbook.materials import material
from gudgeon.handbook.shelf import UnknownName

REFERENCE = 20.0
GAUGE_MATERIAL = "steel"
APART = 1.0
"""Standard uncertainty of the difference in temperature of part and gauge that have lain together [K] (common practice)."""
ROOM_SPREAD = 5.0
"""Standard uncertainty of an unstated temperature about 20 degree C [K] (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """What to add to a reading [m], its standard uncertainty [m], and whether the temperature was stated."""

    value: float
    uncertainty: float
    stated: bool


@lru_cache(maxsize=256)
def expansion(name: str) -> tuple[float, float]:
    """Coefficient of expansion and its standard uncertainty [1/K]; iron and steel taken together where the name is unknown."""
    try:
        found = material(name)
    except UnknownName:
        return 11.5e-6, 2.0e-6
    return found.expansion, found.expansion_uncertainty


def to_reference(size: float, *, made_of: str, celsius: float | None) -> Correction:
    """Correction of a length read at a temperature, by first-order expansion (JCGM 100:2008, H.1.2):

    l20 = l + l [(a_gauge - a_part) (t - 20)],  u^2 = l^2 [u(a)^2 (t - 20)^2 + a^2 u(dt)^2 + (a_gauge - a_part)^2 u(t)^2]
    """
    part, part_doubt = expansion(made_of)
    gauge, gauge_doubt = expansion(GAUGE_MATERIAL)
    away = 0.0 if celsius is None else celsius - REFERENCE
    spread = ROOM_SPREAD if celsius is None else 0.5
    doubt = math.sqrt((part_doubt**2 + gauge_doubt**2) * away**2 + (part * APART) ** 2 + (gauge - part) ** 2 * spread**2)
    return Correction(value=size * (gauge - part) * away, uncertainty=abs(size) * doubt, stated=celsius is not None)
