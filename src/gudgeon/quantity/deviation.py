"""Sizes said from a standard: "+3", "+.020", "20 over", "O/S 20", "10 under", "STD".

How a deviation without a unit is read. Inch column: a whole number, a mixed number, a half or quarter and a decimal of one
or more are thou ("20 over", "+3", "+1½", "+15.6"); a decimal below one and a finer fraction are inches ("+.020",
"1/64 over"). Millimetre column: a whole number is hundredths of a millimetre ("+3" is .03 mm); a decimal is millimetres.
The echo always says which.
"""

from __future__ import annotations

import re

from gudgeon.quantity.meaning import Slip, Understood
from gudgeon.quantity.term import HUNDREDTH, INCH, MILLIMETRE, THOU, Term, shown, term
from gudgeon.quantity.units import Unit

_OVER = r"(?:over ?size|over|o/s|os|o\.s\.)"
_UNDER = r"(?:under ?size|under|u/s|us|u\.s\.)"
_SIGNED = re.compile(r"(?:std|standard|nominal)?\.? ?([+-]) ?(.+)")
_AFTER = re.compile(rf"([^+]+?) ?(?:({_OVER})|({_UNDER}))(?: (?:std|standard|nominal))?")
_BEFORE = re.compile(r"(?:(over ?size|o/s|os|o\.s\.)|(under ?size|u/s|us|u\.s\.))[ .]?(.+)")
_STANDARD = frozenset({"std", "std.", "standard", "s"})
_ONLY_WORD = re.compile(rf"{_OVER}|{_UNDER}")


def from_standard(text: str, column: Unit | None, base: Term | None) -> Understood | None:
    """The size that a deviation makes of its base, or None where ``text`` is no deviation. Raises Slip without a base."""
    if text in _STANDARD:
        return _standard(column, base)
    if _ONLY_WORD.fullmatch(text):
        raise Slip("does not say by how much", "20 over, .020 over or 1/64 over would be right")
    split = _split(text)
    if split is None:
        return None
    sign, rest, word = split
    if column is not None and column.dimension != "length":
        return _other_than_length(sign, rest, word, column, base)
    if base is None and sign < 0 and not word and _is_plain_negative(rest, column):
        return None
    deviation = _deviation(rest, column, base)
    if deviation is None:
        return None
    if base is None:
        raise Slip(
            "has no standard size to count from", "the size as new stated as its base, or the size itself, would be right"
        )
    return _sum(base, sign, deviation)


def _split(text: str) -> tuple[int, str, str] | None:
    if found := _SIGNED.fullmatch(text):
        return (1 if found.group(1) == "+" else -1), found.group(2), ""
    if found := _AFTER.fullmatch(text):
        return (1 if found.group(2) else -1), found.group(1), found.group(2) or found.group(3)
    if found := _BEFORE.fullmatch(text):
        return (1 if found.group(1) else -1), found.group(3), found.group(1) or found.group(2)
    return None


def _is_plain_negative(rest: str, column: Unit | None) -> bool:
    """A dial reading below zero: a decimal, or a figure with its own unit. A bare "-3" is a deviation and needs its base."""
    plain = term(rest, column)
    return plain is not None and (plain.own or plain.form == "decimal")


def _standard(column: Unit | None, base: Term | None) -> Understood:
    if base is None:
        return Understood(kind="words", words="standard", echo="standard (its size is not stated)")
    dimension = base.unit.dimension if column is None else column.dimension
    echo = f"{base.shown}{base.unit.after} (standard)"
    return Understood(kind="point", dimension=dimension, value=base.value, step=base.step, words="standard", echo=echo)


def _other_than_length(sign: int, rest: str, word: str, column: Unit, base: Term | None) -> Understood | None:
    plain = term(rest, column)
    if plain is None or word:
        return None
    if base is not None:
        return _sum(base, sign, plain)
    if sign < 0:
        return None
    return Understood(
        kind="point", dimension=column.dimension, value=plain.value, step=plain.step, words=plain.unit.datum,
        echo=f"{plain.shown}{plain.unit.after}",
    )  # fmt: skip


def _deviation(text: str, column: Unit | None, base: Term | None) -> Term | None:
    """The deviation with the unit it must be in."""
    measure = column or (base.unit if base is not None else INCH)
    plain = term(text, MILLIMETRE if measure.metric else INCH)
    if plain is None or plain.own:
        return plain
    if measure.symbol in ("thou", "tenth", "um"):
        return term(text, measure)
    if measure.metric:
        return term(text, HUNDREDTH) if plain.form in ("whole", "mixed") else plain
    return term(text, THOU) if _is_thou(plain) else plain


def _is_thou(plain: Term) -> bool:
    if plain.form == "fraction":
        return plain.step_figure >= 0.25
    return plain.form in ("whole", "mixed") or plain.figure >= 1


def _sum(base: Term, sign: int, deviation: Term) -> Understood:
    if deviation.unit.dimension != base.unit.dimension:
        raise Slip(
            f"does not go with its base {base.shown}{base.unit.after}", f"a deviation in {base.unit.symbol} would be right"
        )
    size, step = deviation.counted_in(base.unit)
    figure, unit = base.figure + sign * size, base.unit
    how = f"{base.shown} {'+' if sign > 0 else '−'} {deviation.shown}{deviation.unit.after}"
    return Understood(
        kind="point",
        dimension=unit.dimension,
        value=(figure + unit.offset) * unit.factor,
        step=deviation.step,
        words=unit.datum,
        echo=f"{shown(figure, step, unit)}{unit.after} ({how})",
    )
