"""Sizes made of several: feeler leaves, shims, a fraction and some thou."""

from __future__ import annotations

import re

from gudgeon.quantity.meaning import Slip, Understood
from gudgeon.quantity.term import HUNDREDTH, INCH, MILLIMETRE, THOU, Term, shown, term
from gudgeon.quantity.units import Unit

_LEAVES = re.compile(r"(.+?) ?(feelers?|feeler leaves|leaves|leaf|blades|blade|shims|shim)(?: together)?")
_PARTS = re.compile(r" ?\+ ?| (-) ")
_COUNTED = re.compile(r"([0-9]{1,3}) ?(?:@|x|off) ?(.+)")
_SIDES = re.compile(r"(?:l|left|r|right|near|off|top|bottom) ?[:=] ?.*[0-9].*")


def stacked(text: str, column: Unit | None) -> Understood | None:
    """The sum that ``text`` states, or None where it states none. Leaves are kept in ``words``. Raises Slip."""
    if _SIDES.fullmatch(text):
        raise Slip("states more than one place", "each side as a reading of its own would be right")
    found = _LEAVES.fullmatch(text)
    body, kind = found.groups() if found else (text, "")
    pieces = [piece for piece in _PARTS.split(body) if piece is not None]
    if not kind and len(pieces) == 1 and not _COUNTED.fullmatch(body):
        return None
    signed = _with_signs(pieces)
    if not signed:
        return None
    terms = [_leaf(sign, piece, column, bool(kind)) for sign, piece in signed]
    if any(each is None for each in terms):
        return None
    leaves = [each for each in terms if each is not None]
    if len({each.unit.dimension for _, each in leaves}) > 1:
        raise Slip("adds different kinds of amount", "lengths alone would be right")
    return _total(leaves, column, kind)


def _with_signs(pieces: list[str]) -> list[tuple[int, str]]:
    """The pieces between the signs, each with the sign before it; none at all where a sign has nothing after it."""
    signed: list[tuple[int, str]] = []
    sign = 1
    for piece in pieces:
        if piece == "-":
            sign = -sign if sign > 0 else 0
        else:
            signed.append((sign, piece.strip()))
            sign = 1
    return signed if sign == 1 and all(each and side for side, each in signed) else []


def _leaf(sign: int, piece: str, column: Unit | None, leaves: bool) -> tuple[float, Term] | None:
    count = 1
    if found := _COUNTED.fullmatch(piece):
        count, piece = int(found.group(1)), found.group(2)
    length = column is None or column.dimension == "length"
    if leaves and length:
        each = _of_feelers(piece, column)
    else:
        each = term(piece, column)
        if each is not None and length and each.form == "whole" and not each.own:
            fine = f"0.{each.shown:0>2} mm" if each.unit.metric else f"{each.shown} thou"
            raise Slip(
                f"adds a whole {each.shown} without its unit", f"{fine}, or the word feelers after the sum, would be right"
            )
    return None if each is None else (float(sign * count), each)


def _of_feelers(piece: str, column: Unit | None) -> Term | None:
    """Feelers are named by their thou, or hundredths of a millimetre, unless written as a decimal below one."""
    metric = column is not None and column.metric
    plain = term(piece, column or THOU)
    if plain is None or plain.own or (plain.form == "fraction" and plain.step_figure < 0.25):
        return plain
    if plain.form == "decimal" and (metric or abs(plain.figure) < 1):
        return plain if column is not None else term(f"{piece} in", None)
    return term(piece, HUNDREDTH if metric else THOU)


def _total(leaves: list[tuple[float, Term]], column: Unit | None, kind: str) -> Understood:
    first = leaves[0][1].unit
    unit = first if first.symbol not in ("thou", "tenth", "hundredth") else (column or _inch_or_mm(first))
    counted = [(times, *each.counted_in(unit)) for times, each in leaves]
    figure = sum(times * size for times, size, _ in counted)
    step = min(step for _, _, step in counted)
    said = _said(leaves)
    return Understood(
        kind="point", dimension=unit.dimension, value=figure * unit.factor, step=step * unit.factor,
        words=f"{said} {kind}" if kind else "", echo=f"{shown(figure, step, unit)}{unit.after} ({said})",
    )  # fmt: skip


def _inch_or_mm(unit: Unit) -> Unit:
    return MILLIMETRE if unit.metric else INCH


def _said(leaves: list[tuple[float, Term]]) -> str:
    text = ""
    units = {each.unit.symbol for _, each in leaves}
    for times, each in leaves:
        sign = (" + " if times > 0 else " − ") if text else ("−" if times < 0 else "")
        count = f"{abs(times):.0f} × " if abs(times) != 1 else ""
        after = each.unit.after if len(units) > 1 and each.unit.symbol != "in" else ""
        text += f"{sign}{count}{each.shown}{after}"
    return text + (leaves[-1][1].unit.after if len(units) == 1 else "")
