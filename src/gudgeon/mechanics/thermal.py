"""Growth of a length with temperature, and sizes brought to 20 degree Celsius."""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain

REFERENCE_CELSIUS = 20.0
"""Standard reference temperature of length, ISO 1. Makers before 1931 used others, so a nominal size may look odd."""


def growth(*, length: Number, expansion: Number, rise: Number) -> Number:
    """Growth of a length [m] over a rise of temperature [K].

    Formula: growth = expansion x length x rise, with the mean expansion coefficient [1/K] over that range
    (Callister, Materials Science and Engineering, linear coefficient of thermal expansion). A hole grows as if it were
    filled. Valid while the coefficient may be taken as constant, for cast iron and steel to some 200 K.
    """
    return plain(np.multiply(np.multiply(length, expansion), rise))


def at_temperature(*, length_at_20: Number, expansion: Number, temperature: Number) -> Number:
    """Length [m] at a temperature [degree C] of something that measures ``length_at_20`` at 20 degree C."""
    return plain(length_at_20 * (1.0 + np.multiply(expansion, np.subtract(temperature, REFERENCE_CELSIUS))))


def to_20(*, length: Number, expansion: Number, temperature: Number) -> Number:
    """Length [m] at 20 degree C of something that measures ``length`` at a temperature [degree C]."""
    return plain(length / (1.0 + np.multiply(expansion, np.subtract(temperature, REFERENCE_CELSIUS))))


def reading_at_20(
    *,
    reading: Number,
    expansion_part: Number,
    temperature_part: Number,
    expansion_gauge: Number,
    temperature_gauge: Number,
) -> Number:
    """Size of a part at 20 degree C [m] from a reading taken warm.

    Formula: reading x (1 + a_g (t_g - 20)) / (1 + a_p (t_p - 20)); the gauge's own scale has grown too (the length model
    of JCGM 100:2008, H.1). Cast iron read with a steel gauge at one temperature needs almost no correction.

    Parameters
    ----------
    reading : what the gauge showed [m].
    expansion_part, expansion_gauge : [1/K].
    temperature_part, temperature_gauge : [degree C].
    """
    gauge = 1.0 + np.multiply(expansion_gauge, np.subtract(temperature_gauge, REFERENCE_CELSIUS))
    return plain(to_20(length=np.multiply(reading, gauge), expansion=expansion_part, temperature=temperature_part))


def clearance_change(
    *, diameter: Number, expansion_hole: Number, rise_hole: Number, expansion_shaft: Number, rise_shaft: Number
) -> Number:
    """Change of the diametral clearance [m] of a shaft in a hole of about ``diameter`` [m]; negative where it closes."""
    hole = np.multiply(expansion_hole, rise_hole)
    shaft = np.multiply(expansion_shaft, rise_shaft)
    return plain(np.multiply(diameter, hole - shaft))


def rise_for_growth(*, growth: Number, length: Number, expansion: Number) -> Number:
    """Rise of temperature [K] that makes a length [m] grow by so much [m]; for shrinking, the same downwards."""
    return plain(np.divide(growth, np.multiply(expansion, length)))
