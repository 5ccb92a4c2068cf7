"""Amounts as an inch person and a millimetre person each write them.

Inch habit: no nought before the point (".0061 in"); lengths under 1/16 in to a tenth (.0001), others to a thou; ``fine`` one
more digit. Metric habit: a nought before the point; lengths under 1.6 mm to a micrometre, others to a hundredth. Other
amounts show three figures, at most the decimals that their unit is worth. A negative figure has a proper minus sign.
"""

from __future__ import annotations

import re
from math import copysign, floor, log10
from typing import Literal

from gudgeon.quantity.amount import Amount, Said, UnitChoice
from gudgeon.quantity.units import Unit, from_si, unit_named

_SMALL = 0.0254 / 16
_PLACE = re.compile(r"\{([0-9]+)\}")
_NUDGE = 1e-9
_ENDLESS = 1e100
_SHOWN_IN = {
    "angle": ("deg", "deg"),
    "area": ("sq in", "mm2"),
    "volume": ("cu in", "cc"),
    "pressure": ("psi", "kPa"),
    "stress": ("psi", "MPa"),
    "force": ("lbf", "N"),
    "torque": ("lb ft", "N m"),
    "stiffness": ("lb/in", "N/mm"),
    "temperature": ("degF", "degC"),
    "speed": ("rpm", "rpm"),
    "velocity": ("ft/min", "m/s"),
    "frequency": ("Hz", "Hz"),
    "kinematic viscosity": ("cSt", "cSt"),
    "viscosity": ("cP", "cP"),
    "hardness": ("HB", "HB"),
    "resistance": ("ohm", "ohm"),
    "voltage": ("V", "V"),
    "current": ("A", "A"),
    "power": ("hp", "W"),
    "density": ("lb/cu in", "kg/m3"),
    "inertia": ("lb ft2", "kg m2"),
    "threads per length": ("tpi", "tpi"),
    "drip rate": ("drops/min", "drops/min"),
    "count": ("1", "1"),
    "ratio": ("ratio", "ratio"),
}


class UnknownDimension(ValueError):
    """An amount's dimension is none that can be shown."""


def show(amount: Amount, units: UnitChoice, *, small: Literal["in", "thou"] = "in", bare: bool = False) -> str:
    """An amount with its unit: ".0061 in" or "0.155 mm".

    ``small="thou"`` shows inch lengths under 1/16 in as "6.1 thou"; ``bare`` leaves a length's unit to the head of its table.
    Dimensions are those of the units table, and besides "probability" ("98 in 100"), "money" (no unit), "percent" (a ratio,
    shown in hundredths), "stress", "speed rpm" (value in rev/min), "angle degree" (value in degree), "temperature difference"
    (K). A value that is not finite shows as "not known". Raises UnknownDimension.
    """
    value, dimension = float(amount.value), amount.dimension
    if not abs(value) < _ENDLESS:
        return "not known"
    if dimension == "length":
        text = _length(value, units, fine=amount.fine, thou=small == "thou")
        return text.partition(" ")[0] if bare else text
    if dimension in _SPECIAL:
        return _SPECIAL[dimension](value, units, amount.fine)
    if dimension == "mass":
        return _mass(value, units, amount.fine)
    if dimension == "time":
        return _time(value, amount.fine)
    pair = _SHOWN_IN.get(dimension)
    if pair is None:
        raise UnknownDimension(
            f"“{dimension}” is no dimension that can be shown; length, angle, pressure or force would be right."
        )
    return _figured(value, unit_named(pair[units == "millimetre"]), amount.fine)


def say(said: Said, units: UnitChoice) -> str:
    """The sentence with its amounts filled in. Raises ValueError where it asks for an amount that it does not carry."""

    def fill(found: re.Match[str]) -> str:
        place = int(found.group(1))
        if place >= len(said.amounts):
            raise ValueError(
                f"“{said.text}” asks for amount {place} and carries {len(said.amounts)}; one for each place would be right."
            )
        return show(said.amounts[place], units)

    return _PLACE.sub(fill, said.text)


def show_in(value_si: float, symbol: str, *, fine: bool = False) -> str:
    """An SI value in a named unit: show_in(372316.9, "psi") is "54 psi". Raises UnknownUnit."""
    unit = unit_named(symbol)
    if unit.symbol in ("in", "mm"):
        return _length(value_si, "inch" if unit.symbol == "in" else "millimetre", fine=fine, thou=False)
    return _figured(value_si, unit, fine)


def show_interval(low: float | None, high: float | None, dimension: str, units: UnitChoice, *, fine: bool = False) -> str:
    """ "3.874 to 3.876 in"; "over .010 in" or "under .002 in" where one end is missing; "not known" where both are."""
    if low is None and high is None:
        return "not known"
    if high is None:
        return f"over {show(Amount(low or 0.0, dimension, fine), units)}"
    if low is None:
        return f"under {show(Amount(high, dimension, fine), units)}"
    ends = [show(Amount(end, dimension, fine), units) for end in (low, high)]
    if ends[0] == ends[1]:
        return ends[0]
    figure, _, unit = ends[0].rpartition(" ")
    return f"{figure} to {ends[1]}" if figure and ends[1].endswith(f" {unit}") else f"{ends[0]} to {ends[1]}"


def written_size(value_m: float) -> str:
    """A size as a drawing of the time would have written it: "5 1/8", "5.128", "130 mm".

    The first of these that it equals within 10 nm: a whole number of 1/64 in, of half millimetres, of thou, of hundredths of
    a millimetre; else its inches to a tenth. Only millimetres carry their unit.
    """
    sign, size = ("−", -value_m) if value_m < 0 else ("", value_m)
    if (sixty_fourths := _whole(size, 0.0254 / 64)) is not None:
        return sign + _fraction(sixty_fourths, 64)
    if _whole(size, 0.0005) is not None:
        return f"{sign}{size * 1e3:.1f}".removesuffix(".0") + " mm"
    if _whole(size, 0.0254e-3) is not None:
        return sign + f"{size / 0.0254:.3f}".removeprefix("0")
    if _whole(size, 1e-5) is not None:
        return sign + f"{size * 1e3:.2f}".rstrip("0") + " mm"
    return sign + f"{size / 0.0254:.4f}".removeprefix("0")


def _whole(size: float, part: float) -> int | None:
    count = round(size / part)
    return count if abs(size - count * part) < 1e-8 else None


def _fraction(count: int, parts: int) -> str:
    from math import gcd

    whole, top = divmod(count, parts)
    if not top:
        return str(whole)
    common = gcd(top, parts)
    return f"{whole} {top // common}/{parts // common}" if whole else f"{top // common}/{parts // common}"


def _rounded(figure: float, decimals: int) -> str:
    """To so many decimals, a half away from nought, with a proper minus sign and none before a nought."""
    text = f"{abs(figure) + _NUDGE * 10.0 ** -min(decimals, 3):.{decimals}f}"
    negative = copysign(1.0, figure) < 0 and text.strip("0.") != ""
    return f"−{text}" if negative else text


def _length(value: float, units: UnitChoice, *, fine: bool, thou: bool) -> str:
    small = abs(value) < _SMALL - 1e-9
    if units == "millimetre":
        return f"{_rounded(value * 1e3, 2 + small + fine)} mm"
    if small and thou:
        return f"{_rounded(value / 0.0254e-3, 1 + fine)} thou"
    text = _rounded(value / 0.0254, 3 + small + fine)
    return f"{text.replace('0.', '.', 1) if text.lstrip('−').startswith('0.') else text} in"


def _figured(value: float, unit: Unit, fine: bool) -> str:
    figure = from_si(value, unit.symbol)
    return f"{_three_figures(figure, unit.places, fine)}{unit.after}"


def _three_figures(figure: float, places: int, fine: bool) -> str:
    """At most three figures (four when fine) and at most the decimals the unit is worth, without idle noughts."""
    if figure == 0:
        return "0"
    wanted = 2 + fine - floor(log10(abs(figure)) + 1e-12)
    decimals = max(0, min(wanted, places + fine))
    text = _rounded(figure, decimals)
    return text.rstrip("0").rstrip(".") if "." in text else text


def _mass(value: float, units: UnitChoice, fine: bool) -> str:
    if units == "millimetre":
        return _figured(value, unit_named("kg" if abs(value) >= 1 else "g"), fine)
    return _figured(value, unit_named("lb" if abs(value) >= unit_named("lb").factor else "oz"), fine)


def _time(value: float, fine: bool) -> str:
    for symbol, least in (("day", 172800.0), ("hour", 7200.0), ("min", 120.0)):
        if abs(value) >= least:
            text = _figured(value, unit_named(symbol), fine)
            return text + "s" if symbol in ("day", "hour") else text
    return _figured(value, unit_named("s"), fine)


def _probability(value: float, units: UnitChoice, fine: bool) -> str:
    del units, fine
    in_hundred = round(value * 100)
    if in_hundred < 1:
        return "under 1 in 100"
    return "over 99 in 100" if in_hundred > 99 else f"{in_hundred} in 100"


def _money(value: float, units: UnitChoice, fine: bool) -> str:
    del units
    text = f"{abs(value):,.{2 if fine else 0}f}"
    return f"−{text}" if value < 0 and text.strip("0.,") else text


def _percent(value: float, units: UnitChoice, fine: bool) -> str:
    del units
    return _figured(value, unit_named("%"), fine)


def _rpm(value: float, units: UnitChoice, fine: bool) -> str:
    del units
    return f"{_rounded(value, int(fine))} rpm"


def _angle_degree(value: float, units: UnitChoice, fine: bool) -> str:
    del units
    return f"{_three_figures(value, 1, fine)}°"


def _temperature_difference(value: float, units: UnitChoice, fine: bool) -> str:
    figure, after = (value * 9 / 5, "°F") if units == "inch" else (value, "°C")
    return f"{_three_figures(figure, 1, fine)} {after}"


_SPECIAL = {
    "probability": _probability,
    "money": _money,
    "percent": _percent,
    "speed rpm": _rpm,
    "angle degree": _angle_degree,
    "temperature difference": _temperature_difference,
}
