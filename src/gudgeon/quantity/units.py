"""The units in use at the bench and in the sums, each as one factor to SI.

Exact by definition: 1 in = 25.4 mm, 1 lb = 0.45359237 kg (international yard and pound agreement, 1959);
standard gravity 9.80665 m/s2 (3rd CGPM, 1901), hence 1 lbf = 4.4482216152605 N. Conventional millimetre of mercury
133.322387415 Pa (NIST SP 811, appendix B). The pint and the gallon without more are the US liquid ones.

Gauge pressure keeps the figure that the gauge shows: nothing adds the barometer to it here. A crank angle keeps the
figure and names what it is counted from; 13.5 degrees ATDC is -13.5 degrees BTDC.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

_INCH = 0.0254
_POUND = 0.45359237
_POUND_FORCE = 4.4482216152605
_PSI = _POUND_FORCE / _INCH**2
_MERCURY_MM = 133.322387415
_US_PINT = 231 * _INCH**3 / 8
_DEGREE = math.pi / 180


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: SI value = (figure + offset) x factor.

    ``after`` is what follows the figure when shown (" in", "°"); ``datum`` what the figure is counted from ("BTDC",
    "gauge"); ``metric`` whether a comma may be its decimal sign; ``places`` the decimals usually worth showing.
    """

    symbol: str
    dimension: str
    factor: float
    after: str
    offset: float = 0.0
    datum: str = ""
    metric: bool = False
    places: int = 1


class UnknownUnit(ValueError):
    """The unit is not in the table; the sentence names those that are near."""

    def __init__(self, symbol: str, near: tuple[str, ...]) -> None:
        self.symbol, self.near = symbol, near
        super().__init__(f"“{symbol}” is no unit known here; {' or '.join(near)} would be right.")


def _rows() -> tuple[tuple[Unit, str], ...]:
    """Every unit with the other ways people write it, split at commas."""

    def unit(symbol: str, dimension: str, factor: float, aliases: str = "", **more: object) -> tuple[Unit, str]:
        after = str(more.pop("after", f" {symbol}"))
        return Unit(symbol, dimension, factor, after, **more), aliases  # type: ignore[arg-type]

    return (
        unit("in", "length", _INCH, "inch,inches,ins,\",''", places=3),
        unit("thou", "length", _INCH * 1e-3, "thous,mil,mils,thousandth,thousandths", places=1),
        unit("tenth", "length", _INCH * 1e-4, "tenths", after=" tenths", places=0),
        unit("ft", "length", 12 * _INCH, "foot,feet,'", places=2),
        unit("mm", "length", 1e-3, "millimetre,millimetres,millimeter,millimeters", metric=True, places=3),
        unit("hundredth", "length", 1e-5, "hundredths", after=" hundredths", metric=True, places=0),
        unit("cm", "length", 1e-2, "centimetre,centimetres,centimeter,centimeters", metric=True, places=2),
        unit("m", "length", 1.0, "metre,metres,meter,meters", metric=True, places=3),
        unit("um", "length", 1e-6, "µm,μm,micron,microns,micrometre,micrometres", metric=True, places=0),
        unit("deg", "angle", _DEGREE, "°,degree,degrees,degs", after="°", metric=True),
        *(
            unit(
                f"deg {datum}",
                "angle",
                _DEGREE,
                f"° {datum},°{datum},{datum},degrees {datum}",
                after=f"° {datum}",
                datum=datum,
                metric=True,
            )
            for datum in ("BTDC", "ATDC", "BBDC", "ABDC")
        ),
        unit("rad", "angle", 1.0, "radian,radians", places=4),
        unit("psi", "pressure", _PSI, "lb/sq in,lb/in2,lb per sq in,lbs/sq in,lbf/in2,pounds per square inch"),
        unit("psi gauge", "pressure", _PSI, "psig,psi (gauge),psi g", after=" psi gauge", datum="gauge"),
        unit("psia", "pressure", _PSI, "psi absolute,psi abs", datum="absolute"),
        unit("kPa", "pressure", 1e3, metric=True),
        unit("MPa", "pressure", 1e6, metric=True, places=2),
        unit("Pa", "pressure", 1.0, metric=True, places=0),
        unit("bar", "pressure", 1e5, metric=True, places=2),
        unit("inHg", "pressure", 25.4 * _MERCURY_MM, "in Hg,in. Hg,inches of mercury", places=2),
        unit("mmHg", "pressure", _MERCURY_MM, "mm Hg", metric=True),
        unit("lbf", "force", _POUND_FORCE, "lb force,lbs force,pounds force"),
        unit("N", "force", 1.0, "newton,newtons", metric=True),
        unit("kN", "force", 1e3, metric=True, places=2),
        unit("kgf", "force", 9.80665, "kp", metric=True, places=2),
        unit("lb", "mass", _POUND, "lbs,pound,pounds", places=2),
        unit("oz", "mass", _POUND / 16, "ounce,ounces", places=2),
        unit("kg", "mass", 1.0, "kilogram,kilograms,kilo,kilos", metric=True, places=3),
        unit("g", "mass", 1e-3, "gram,grams,gramme,grammes", metric=True),
        unit("cc", "volume", 1e-6, "cm3,cm³,ccm,cu cm", metric=True),
        unit("ml", "volume", 1e-6, "mL,millilitre,millilitres", metric=True),
        unit("litre", "volume", 1e-3, "l,litres,liter,liters", metric=True, places=3),
        unit("cu in", "volume", _INCH**3, "in3,in³,cubic inch,cubic inches,cu. in.,cu.in,cuin", places=2),
        unit("pint", "volume", _US_PINT, "pints,pt", places=2),
        unit("imperial pint", "volume", 568.26125e-6, "imperial pints,imp pint,imp pints", places=2),
        unit("US gallon", "volume", 8 * _US_PINT, "gallon,gallons,gal", places=2),
        unit("sq in", "area", _INCH**2, "in2,in²,square inch,square inches", places=3),
        unit("mm2", "area", 1e-6, "mm²,sq mm", metric=True),
        unit("1", "count", 1.0, "count,teeth,tooth,t,off,pieces,pcs", after="", places=0),
        unit("ratio", "ratio", 1.0, ":1,to 1", after="", places=3),
        unit("%", "ratio", 0.01, "percent,per cent", after=" %"),
        unit("tpi", "threads per length", 1 / _INCH, "threads per inch,t.p.i", places=0),
        unit("DP", "threads per length", 1 / _INCH, "diametral pitch", places=0),
        unit("rpm", "speed", math.pi / 30, "rev/min,r.p.m,revs,revolutions per minute", places=0),
        unit("rad/s", "speed", 1.0, places=2),
        unit("ft/min", "velocity", 12 * _INCH / 60, "fpm,feet per minute", places=0),
        unit("m/s", "velocity", 1.0, metric=True, places=2),
        unit("K", "temperature", 1.0, "kelvin", metric=True),
        unit("degC", "temperature", 1.0, "°C,C,deg C,celsius,degrees C", after=" °C", offset=273.15, metric=True),
        unit("degF", "temperature", 5 / 9, "°F,F,deg F,fahrenheit,degrees F", after=" °F", offset=459.67),
        unit("lb ft", "torque", 12 * _INCH * _POUND_FORCE, "ft lb,lbf ft,lb-ft,ft-lb,ft lbs,lb.ft,ft.lb,foot pounds,lbft,ftlb"),
        unit("lb in", "torque", _INCH * _POUND_FORCE, "in lb,lbf in,lb-in,in-lb,in lbs,lb.in,in.lb,inch pounds"),
        unit("N m", "torque", 1.0, "Nm,N·m,newton metres", metric=True),
        unit("lb/in", "stiffness", _POUND_FORCE / _INCH, "lbf/in,lb per in,lb per inch,lbs/in"),
        unit("N/mm", "stiffness", 1e3, metric=True, places=2),
        unit("s", "time", 1.0, "sec,secs,second,seconds", metric=True),
        unit("min", "time", 60.0, "mins,minute,minutes"),
        unit("hour", "time", 3600.0, "h,hr,hrs,hours", places=2),
        unit("day", "time", 86400.0, "days"),
        unit("Hz", "frequency", 1.0),
        unit("drops/min", "drip rate", 1 / 60, "drops,drops a minute,drops per minute,drop", places=0),
        unit("cSt", "kinematic viscosity", 1e-6, "centistoke,centistokes,mm2/s", metric=True, places=2),
        unit("cP", "viscosity", 1e-3, "centipoise,mPa s", metric=True, places=2),
        unit("HB", "hardness", 1.0, "BHN,Brinell", places=0),
        unit("ohm", "resistance", 1.0, "ohms,Ω,Ω", metric=True, places=2),
        unit("kohm", "resistance", 1e3, "kΩ,kΩ,kilohm,kilohms", metric=True, places=2),
        unit("megohm", "resistance", 1e6, "MΩ,MΩ,megohms", metric=True, places=2),
        unit("V", "voltage", 1.0, "volt,volts", metric=True, places=2),
        unit("A", "current", 1.0, "amp,amps,ampere,amperes", metric=True, places=2),
        unit("W", "power", 1.0, "watt,watts", metric=True),
        unit("hp", "power", 550 * 12 * _INCH * _POUND_FORCE, "horsepower,bhp", places=2),
        unit("kg/m3", "density", 1.0, "kg/m³", metric=True, places=0),
        unit("lb/cu in", "density", _POUND / _INCH**3, "lb/in3", places=4),
        unit("kg m2", "inertia", 1.0, "kg m²", metric=True, places=4),
        unit("lb ft2", "inertia", _POUND * (12 * _INCH) ** 2, "lb ft²", places=2),
    )


def _tables() -> tuple[dict[str, Unit], dict[str, Unit]]:
    exact: dict[str, Unit] = {}
    folded: dict[str, Unit | None] = {}
    for unit, aliases in _rows():
        for name in (unit.symbol, *filter(None, aliases.split(","))):
            exact[name] = unit
            other = folded.get(name.casefold(), unit)
            folded[name.casefold()] = unit if other is unit else None
    # A lone capital M is as often "metric" or "mm" as it is metres; it must be written out.
    return exact, {name: unit for name, unit in folded.items() if unit is not None}


UNITS, _FOLDED = _tables()


def unit_named(symbol: str) -> Unit:
    """The unit of that symbol or of another way of writing it. Raises UnknownUnit naming near ones.

    Small and capital letters are told apart only where they mean different units.
    """
    found = UNITS.get(symbol)
    if found is None:
        tidy = " ".join(symbol.split()).rstrip(".")
        found = UNITS.get(tidy) or (None if tidy == "M" else _FOLDED.get(tidy.casefold()))
    if found is None:
        raise UnknownUnit(symbol, _near(symbol))
    return found


def _near(symbol: str) -> tuple[str, ...]:
    from difflib import get_close_matches

    close = get_close_matches(symbol.casefold(), _FOLDED, n=6, cutoff=0.6)
    symbols = dict.fromkeys(_FOLDED[name].symbol for name in close)
    return tuple(symbols)[:3] or ("in", "thou", "mm")


def dimension_of(symbol: str) -> str:
    """What a unit measures: "length", "angle", "pressure", ... Raises UnknownUnit."""
    return unit_named(symbol).dimension


def to_si(value: float, symbol: str) -> float:
    """A figure in a unit, in SI (m, rad, Pa, N, kg, m3, K, rad/s, s, ohm, ...). Raises UnknownUnit."""
    unit = unit_named(symbol)
    return (value + unit.offset) * unit.factor


def from_si(value: float, symbol: str) -> float:
    """An SI value as a figure in a unit. Raises UnknownUnit."""
    unit = unit_named(symbol)
    return value / unit.factor - unit.offset
