"""One figure with its unit: the piece that every longer form is made of."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import ceil, log10

from gudgeon.quantity.meaning import Slip
from gudgeon.quantity.units import Unit, UnknownUnit, unit_named
from gudgeon.quantity.writing import NUMBER, Number, number

_TERM = re.compile(rf"(-)?({NUMBER})(?![0-9.,/])(.*)")
_FEET = re.compile(rf"({NUMBER}) ?(?:'|ft|feet|foot) ?({NUMBER}) ?(?:\"|in|ins|inch|inches|)")
_POUNDS = re.compile(rf"({NUMBER}) ?(?:lb|lbs|pounds?) ?({NUMBER}) ?(?:oz|ounces?)")
_POUND_WORDS = frozenset({"lb", "lbs", "#", "pound", "pounds"})
_POUNDS_OF = {"pressure": "psi", "force": "lbf", "mass": "lb", "stiffness": "lb/in"}
_DEGREE_WORDS = frozenset({"°", "deg", "degrees", "degree"})
INCH, THOU, MILLIMETRE, HUNDREDTH = (unit_named(symbol) for symbol in ("in", "thou", "mm", "hundredth"))


@dataclass(frozen=True, slots=True)
class Term:
    """A figure in a unit; ``own`` where the unit stood in the text and was not taken from the column."""

    figure: float
    step_figure: float
    unit: Unit
    shown: str
    form: str = "decimal"
    own: bool = False

    @property
    def value(self) -> float:
        """SI."""
        return (self.figure + self.unit.offset) * self.unit.factor

    @property
    def step(self) -> float:
        """SI."""
        return self.step_figure * self.unit.factor

    def counted_in(self, unit: Unit) -> tuple[float, float]:
        """The figure and its step as a difference in another unit of the same dimension."""
        ratio = self.unit.factor / unit.factor
        return self.figure * ratio, self.step_figure * ratio


def term(text: str, column: Unit | None) -> Term | None:
    """The one figure with its unit that ``text`` is, or None where it has another shape. Raises Slip."""
    if (compound := _compound(text, column)) is not None:
        return compound
    found = _TERM.fullmatch(text)
    if not found:
        return None
    minus, written, rest = found.groups()
    rest = rest.strip()
    if rest[:1].isdigit() or (rest[:1] in ".,/-" and rest):
        return None
    figure = number(written)
    unit = unit_of(rest, column, figure)
    if figure.comma and not unit.metric:
        raise Slip(
            "has a comma", f"a point, as in {figure.shown}, would be right, or the figure without it if thousands are meant"
        )
    sign, dash = (-1.0, "−") if minus else (1.0, "")
    return Term(sign * figure.value, figure.step, unit, dash + figure.shown, figure.form, bool(rest))


def shown(figure: float, step: float, unit: Unit) -> str:
    """A worked-out figure as it is written in its unit: to its step, with what more it needs up to six decimals."""
    claimed = max(0, ceil(-log10(step) - 1e-9))
    needed = len(f"{figure:.6f}".rstrip("0").partition(".")[2])
    text = f"{figure:.{min(max(claimed, needed), 6)}f}".replace("-", "−")
    return text.removeprefix("0") if unit.symbol == "in" and text.startswith("0.") else text


def _compound(text: str, column: Unit | None) -> Term | None:
    """Feet with inches, pounds with ounces."""
    for pattern, larger, smaller, ratio in ((_FEET, "ft", "in", 12), (_POUNDS, "lb", "oz", 16)):
        if found := pattern.fullmatch(text):
            first, second = number(found.group(1)), number(found.group(2))
            if first.comma or second.comma:
                raise Slip("has a comma", "a point would be right")
            unit = own_unit(smaller, column)
            return Term(
                first.value * ratio + second.value, second.step, unit, f"{first.shown} {larger} {second.shown}", own=True
            )
    return None


def unit_of(text: str, column: Unit | None, figure: Number) -> Unit:
    """The unit written after a figure, else the column's. Eighths without any unit are inches: nothing else is so divided."""
    if text:
        return own_unit(text, column)
    if column is not None:
        return column
    if figure.form in ("fraction", "mixed") and round(1 / figure.step) in (2, 4, 8, 16, 32, 64):
        return INCH
    raise Slip("has no unit", f"{figure.shown} in, {figure.shown} mm or whatever unit was read would be right")


def own_unit(text: str, column: Unit | None) -> Unit:
    """The unit that ``text`` names under a column's unit. Raises Slip where it is unknown, doubtful or of another kind."""
    if text in _POUND_WORDS:
        return _pounds(column)
    if column is not None and column.dimension in ("angle", "temperature") and text in _DEGREE_WORDS:
        return column
    try:
        unit = unit_named(text)
    except UnknownUnit as unknown:
        right = (
            f"{' or '.join(unknown.near)} would be right" if text.isascii() else "a unit such as in, mm or thou would be right"
        )
        raise Slip(f"has “{text}” after the figure, which is no unit known here", right) from None
    _refuse_doubtful(unit, column)
    return unit


def _pounds(column: Unit | None) -> Unit:
    if column is None:
        raise Slip(
            "may be a pressure, a force or a mass", "psi, lbf or oz after the figure, or a unit for the column, would be right"
        )
    if column.dimension not in _POUNDS_OF:
        raise Slip(f"is in pounds where a {column.dimension} is asked", f"a figure in {in_full(column)} would be right")
    return column if column.symbol.startswith("psi") else unit_named(_POUNDS_OF[column.dimension])


def _refuse_doubtful(unit: Unit, column: Unit | None) -> None:
    if unit.symbol == "m":
        raise Slip("has a lone m after the figure", "mm for millimetres, or the length in mm, would be right")
    metric = column is not None and column.metric
    if unit.symbol == "tenth" and metric:
        raise Slip("has tenths in a metric column", "mm after a decimal, or thou for inch work, would be right")
    if unit.symbol == "hundredth" and not metric:
        raise Slip("has hundredths without a metric column", "mm or in after a decimal would be right")
    if column is None:
        return
    if unit.dimension != column.dimension:
        raise Slip(
            f"is in {in_full(unit)} where {article(column.dimension)} is asked",
            f"a figure in {in_full(column)} would be right",
        )
    if unit.datum and column.datum and unit.datum != column.datum:
        raise Slip(f"is in {unit.symbol} where {column.symbol} is asked", f"a figure in {column.symbol} would be right")


def in_full(unit: Unit) -> str:
    """A unit's symbol as it reads in a sentence."""
    return {"in": "inches", "1": "whole numbers", "deg": "degrees"}.get(unit.symbol, unit.symbol)


def article(dimension: str) -> str:
    """The dimension's name with its article."""
    return f"{'an' if dimension[:1] in 'aeiou' else 'a'} {dimension}"
