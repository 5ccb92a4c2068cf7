"""From what a person typed at the bench to its meaning.

The forms, in the order in which they are tried: a plain decimal; a state or feel ("not reached", "tight"); a bracket
("go .003 no-go .004", "over .010", "full 1/4"); a deviation from standard ("+3", "20 over", "STD"); a crank angle
("30° BBDC"); a stack ("6 + 4 + 1½ feelers"); one figure with its unit ("5 1/8", "3½ thou", "130,25 mm"). Each has its module.
A unit in the text goes before the column's unit. What cannot be read one way only is refused with a sentence.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache

from gudgeon.quantity.bracket import at_end, bracketed
from gudgeon.quantity.crank import crank_angle
from gudgeon.quantity.deviation import from_standard
from gudgeon.quantity.meaning import NotUnderstood, Slip, Understood
from gudgeon.quantity.stack import stacked
from gudgeon.quantity.term import INCH, MILLIMETRE, Term, term
from gudgeon.quantity.units import UNITS, Unit, UnknownUnit, unit_named
from gudgeon.quantity.words import BESIDE, FREE_ON, in_words
from gudgeon.quantity.writing import figures, tidy
from gudgeon.quantity.wrong import what_is_wrong

__all__ = ["NotUnderstood", "Understood", "understand"]

_PLAIN_DECIMAL = re.compile(r"([0-9]{0,7})\.?([0-9]{0,7})")
_FIGURE_ALONE = re.compile(r"[0-9.][0-9 ./,-]*\"?")
_LONGEST = 160
IN_WORDS = "words"
"""The unit of a column that takes any words: what it is made of, where it is cracked."""
_STEPS = tuple(10.0**-decimals for decimals in range(8))


def understand(typed: str, *, unit: str | None = None, base: str | None = None) -> Understood:
    """The meaning of ``typed`` in SI.

    Parameters
    ----------
    typed : as it stands on the sheet: "5 1/8", ".003", "3½ thou", "+3", "go .003 no-go .004", "not reached", ...
    unit : the unit of the column or the feature ("in", "mm", "psi gauge", "deg BTDC", "1"), or "words" for any words;
        a unit in the text goes before it.
    base : the size that deviations count from, as typed ("5 1/8"); 0 where a dial was set to zero.

    Raises NotUnderstood, and nothing else, with one sentence: what was read, what is wrong, what would be right.
    """
    return _remembered(typed, unit, base)


@lru_cache(maxsize=65_536)
def _remembered(typed: str, unit: str | None, base: str | None) -> Understood:
    column = UNITS.get(unit) if unit else None
    if column is not None and (plain := _plain(typed, column)) is not None:
        return plain
    try:
        return _understand(typed, unit, base)
    except Slip as slip:
        raise NotUnderstood(typed, slip.wrong, slip.right) from None


def _plain(typed: str, column: Unit) -> Understood | None:
    """A decimal with its point, or a whole number: nearly every reading, so this path is kept short."""
    found = _PLAIN_DECIMAL.fullmatch(typed)
    if found is None or (not found[2] and (not found[1] or typed[-1] == ".")):
        return None
    step = _STEPS[len(found[2])] if "." in typed else 1.0
    return Understood(
        kind="point",
        dimension=column.dimension,
        value=(float(typed) + column.offset) * column.factor,
        step=step * column.factor,
        words=column.datum if column.dimension == "angle" else "",
        echo=typed + column.after,
    )


def _understand(typed: str, unit: str | None, base: str | None) -> Understood:
    text = tidy(typed)
    if not text:
        raise Slip("is empty", "a size, or words such as not reached, would be right")
    if len(text) > _LONGEST:
        raise Slip("is too long for a reading", "the size here and the rest in the note would be right")
    if (words := in_words(text)) is not None:
        return words
    if (unit or "").strip().lower() == IN_WORDS:
        return Understood(kind="words", words=text, echo=" ".join(typed.split()))
    column = _column(unit)
    if _FIGURE_ALONE.fullmatch(text) and (figure := term(text, column)) is not None:
        return point(figure)
    text = figures(text)
    standard = _base(base, column)
    meaning = _with_a_feel(text, column, standard)
    if meaning is None:
        meaning = _meaning(text, column, standard)
    if meaning is None:
        raise what_is_wrong(text)
    return meaning


def _meaning(text: str, column: Unit | None, standard: Term | None) -> Understood | None:
    if (meaning := from_standard(text, column, standard)) is not None:
        return meaning
    for form in (crank_angle, bracketed, stacked):
        if (meaning := form(text, column)) is not None:
            return meaning
    plain = term(text, column)
    return None if plain is None else point(plain)


def point(plain: Term) -> Understood:
    """One figure with its unit as a reading."""
    unit = plain.unit
    decimal = f" ({_decimal(plain)})" if plain.form in ("fraction", "mixed") and unit.symbol == "in" else ""
    return Understood(
        kind="point", dimension=unit.dimension, value=plain.value, step=plain.step,
        words=unit.datum if unit.dimension == "angle" else "", echo=f"{plain.shown}{unit.after}{decimal}",
    )  # fmt: skip


def _decimal(plain: Term) -> str:
    return f"{plain.figure:.6f}".rstrip("0").removeprefix("0").replace("-0", "−").replace("-", "−")


def _with_a_feel(text: str, column: Unit | None, standard: Term | None) -> Understood | None:
    """A size with a feel beside it: "drag on .003" is about .003; "free on .003" is over it."""
    if found := FREE_ON.fullmatch(text):
        return at_end(found.group(1), "low", column, words="free")
    found = BESIDE.fullmatch(text)
    if found is None:
        return None
    feel = found.group("first") or found.group("last")
    meaning = _meaning(found.group("after") or found.group("before").rstrip(" ,("), column, standard)
    return None if meaning is None else replace(meaning, words=feel, echo=f"{meaning.echo} ({feel})")


def _column(unit: str | None) -> Unit | None:
    if unit is None or not unit.strip():
        return None
    try:
        return unit_named(unit.strip())
    except UnknownUnit as unknown:
        raise Slip(
            f"stands in a column in “{unknown.symbol}”, which is no unit known here",
            f"{' or '.join(unknown.near)} would be right",
        ) from None


def _base(base: str | None, column: Unit | None) -> Term | None:
    """The base as a figure. A base of a column in thou or tenths is in inches, of one in micrometres in millimetres."""
    if base is None or not base.strip():
        return None
    measure = column
    if column is not None and column.dimension == "length" and column.symbol in ("thou", "tenth", "um", "hundredth"):
        measure = MILLIMETRE if column.metric else INCH
    try:
        size = term(figures(tidy(base)[:_LONGEST]), measure)
    except Slip as slip:
        raise Slip(f"has “{base}” as its base, which {slip.wrong}", slip.right) from None
    if size is None:
        raise Slip(f"has “{base}” as its base, which is no size", "a size such as 5 1/8 would be right")
    return size
