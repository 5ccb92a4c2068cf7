"""The table of units against pint, a general library of units."""

import math

import pint
import pytest

from gudgeon.quantity import UnknownUnit, dimension_of, from_si, to_si
from gudgeon.quantity.units import UNITS, unit_named

IN_PINT = {
    "in": "inch",
    "thou": "thou",
    "tenth": "1e-4 inch",
    "ft": "foot",
    "mm": "millimeter",
    "hundredth": "1e-2 millimeter",
    "cm": "centimeter",
    "m": "meter",
    "um": "micrometer",
    "deg": "degree",
    "deg BTDC": "degree",
    "rad": "radian",
    "psi": "psi",
    "psi gauge": "psi",
    "psia": "psi",
    "kPa": "kilopascal",
    "MPa": "megapascal",
    "bar": "bar",
    "mmHg": "mmHg",
    "inHg": "25.4 mmHg",
    "lbf": "lbf",
    "N": "newton",
    "kN": "kilonewton",
    "kgf": "kgf",
    "lb": "pound",
    "oz": "ounce",
    "kg": "kilogram",
    "g": "gram",
    "cc": "centimeter**3",
    "ml": "milliliter",
    "litre": "liter",
    "cu in": "inch**3",
    "pint": "pint",
    "imperial pint": "imperial_pint",
    "US gallon": "gallon",
    "sq in": "inch**2",
    "mm2": "millimeter**2",
    "%": "percent",
    "rpm": "rpm",
    "rad/s": "radian/second",
    "ft/min": "foot/minute",
    "lb ft": "lbf*foot",
    "lb in": "lbf*inch",
    "N m": "newton*meter",
    "lb/in": "lbf/inch",
    "N/mm": "newton/millimeter",
    "min": "minute",
    "hour": "hour",
    "day": "day",
    "cSt": "centistokes",
    "cP": "centipoise",
    "ohm": "ohm",
    "kohm": "kiloohm",
    "megohm": "megaohm",
    "hp": "horsepower",
    "W": "watt",
    "lb/cu in": "pound/inch**3",
    "lb ft2": "pound*foot**2",
    "tpi": "1/inch",
}


@pytest.fixture(scope="module")
def registry():
    return pint.UnitRegistry()


@pytest.mark.parametrize("symbol", sorted(IN_PINT))
def test_factor_is_pints(symbol, registry):
    expected = registry(IN_PINT[symbol]).to_base_units()
    # pint's base unit of mass is the gram in some systems; to_base_units of the default registry is SI (kilogram).
    assert to_si(1.0, symbol) == pytest.approx(expected.magnitude, rel=1e-9)


@pytest.mark.parametrize(("symbol", "name"), [("degC", "degC"), ("degF", "degF")])
@pytest.mark.parametrize("figure", [-40.0, 0.0, 68.0, 212.0])
def test_temperatures_are_pints(symbol, name, figure, registry):
    assert to_si(figure, symbol) == pytest.approx(registry.Quantity(figure, name).to("kelvin").magnitude, abs=1e-9)


def test_inch_is_exact():
    # International yard and pound agreement, 1959: 1 in = 25.4 mm exactly.
    assert to_si(1.0, "in") == 0.0254
    assert from_si(0.0254, "mm") == pytest.approx(25.4, rel=1e-15)


def test_tenth_is_a_ten_thousandth_of_an_inch():
    # common practice: a machinist's tenth is .0001 in.
    assert to_si(1.0, "tenth") == pytest.approx(0.0001 * 0.0254, rel=1e-12)


@pytest.mark.parametrize("symbol", sorted({unit.symbol for unit in UNITS.values()}))
@pytest.mark.parametrize("figure", [0.0, 1.0, -13.5, 5.128])
def test_there_and_back(symbol, figure):
    assert from_si(to_si(figure, symbol), symbol) == pytest.approx(figure, rel=1e-12, abs=1e-10)


@pytest.mark.parametrize(
    ("written", "symbol"),
    [('"', "in"), ("Inches", "in"), ("in.", "in"), ("µm", "um"), ("PSI", "psi"), ("psig", "psi gauge"), ("° btdc", "deg BTDC"),
     ("ft-lb", "lb ft"), ("RPM", "rpm"), ("c", "degC"), ("°F", "degF"), ("BHN", "HB"), ("Ω", "ohm"), ("count", "1")],
)  # fmt: skip
def test_other_ways_of_writing(written, symbol):
    assert unit_named(written).symbol == symbol


def test_dimensions():
    assert [dimension_of(symbol) for symbol in ("thou", "deg ATDC", "psia", "kgf", "oz", "pint", "1", "HB")] == [
        "length", "angle", "pressure", "force", "mass", "volume", "count", "hardness"
    ]  # fmt: skip


def test_unknown_unit_names_near_ones():
    with pytest.raises(UnknownUnit) as refusal:
        to_si(1.0, "inchs")
    assert "“inchs” is no unit known here" in str(refusal.value)
    assert "in" in refusal.value.near


def test_lone_capital_m_is_refused():
    with pytest.raises(UnknownUnit):
        unit_named("M")


def test_rpm_is_radians():
    assert to_si(60.0, "rpm") == pytest.approx(2 * math.pi, rel=1e-15)
