"""Sizes as a shop drawing writes them: limits of size, the reader's unit first and the other in brackets."""

from __future__ import annotations

import math
from typing import Literal

METRE_PER_INCH = 0.0254  # exact since the international yard of 1959

Units = Literal["inch", "millimetre"]
SIGNS = {"length": "", "diameter": "⌀", "radius": "R"}
SHORT = {"inch": "in", "millimetre": "mm"}
SPOKEN = {"inch": "inch", "millimetre": "mm"}
_PER_METRE = {"inch": 1 / METRE_PER_INCH, "millimetre": 1000.0}
_DIGITS = {"inch": 4, "millimetre": 3}


def other(units: Units) -> Units:
    """The unit that goes in brackets."""
    return "millimetre" if units == "inch" else "inch"


def limits_in(*, lower: float, upper: float, units: Units) -> tuple[str, str]:
    """Lower and upper limit of size [m] as figures in one unit.

    Limits are rounded inward, so that no figure allows what the order does not. Figures have 4 digits after the point in inch
    and 3 in mm, more where rounding would eat over a tenth of the tolerance. A size without tolerance is rounded to nearest and
    loses its idle zeros down to 3 digits in inch and 1 in mm.
    """
    per_metre, digits = _PER_METRE[units], _DIGITS[units]
    if upper == lower:
        figure = _without_idle_zeros(f"{lower * per_metre:.{digits}f}", least=3 if units == "inch" else 1)
        return (_figure(figure, units),) * 2
    for more in range(digits, digits + 3):
        step = 10.0**more
        low = math.ceil(lower * per_metre * step - 1e-6) / step
        high = math.floor(upper * per_metre * step + 1e-6) / step
        digits = more
        if (high - low) >= 0.9 * (upper - lower) * per_metre:
            break
    return _figure(f"{low:.{digits}f}", units), _figure(f"{high:.{digits}f}", units)


def _figure(text: str, units: Units) -> str:
    """Inch figures have no nought before the point, metric ones have (ASME Y14.5, decimal dimensions)."""
    return text.removeprefix("0") if units == "inch" else text


def _without_idle_zeros(figure: str, *, least: int) -> str:
    whole, _, after = figure.partition(".")
    return f"{whole}.{after[:least]}{after[least:].rstrip('0')}"


def rows(*, kind: str, lower: float, upper: float, units: Units) -> tuple[str, ...]:
    """The one or two rows of a dimension, upper limit above lower, e.g. ``⌀5.1271 (130.228)``."""
    sign = SIGNS[kind]
    low, high = limits_in(lower=lower, upper=upper, units=units)
    low_too, high_too = limits_in(lower=lower, upper=upper, units=other(units))
    if upper == lower:
        return (f"{sign}{low} ({low_too})",)
    return f"{sign}{high} ({high_too})", f"{sign}{low} ({low_too})"


def in_words(*, lower: float, upper: float, units: Units) -> str:
    """Limits of size in running text: ``5.1250 to 5.1271 in (130.175 to 130.228 mm)``."""
    low, high = limits_in(lower=lower, upper=upper, units=units)
    low_too, high_too = limits_in(lower=lower, upper=upper, units=other(units))
    if upper == lower:
        return f"{low} {SHORT[units]} ({low_too} {SHORT[other(units)]})"
    return f"{low} to {high} {SHORT[units]} ({low_too} to {high_too} {SHORT[other(units)]})"


def scale_words(scale: float) -> str:
    """A scale as ISO 5455 writes it: 1:2, 5:1."""
    return f"{scale:g}:1" if scale >= 1 else f"1:{1 / scale:g}"
