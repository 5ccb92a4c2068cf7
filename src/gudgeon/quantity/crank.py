"""Crank angles as people say them: "30° BBDC", "5 after", "13° 30' ATDC", "on top dead centre"."""

from __future__ import annotations

import re

from gudgeon.quantity.meaning import Slip, Understood
from gudgeon.quantity.units import Unit, unit_named
from gudgeon.quantity.writing import NUMBER, Number, number

_CENTRE = r"(?:dead )?(?:centre|center)"
_DATUM = (
    r"(?P<datum>b\.?t\.?d\.?c\.?|a\.?t\.?d\.?c\.?|b\.?b\.?d\.?c\.?|a\.?b\.?d\.?c\.?|btc|atc|bbc|abc"
    rf"|(?:before|after|past)(?: (?:top|bottom|upper|lower|outer|inner|tdc|bdc))?(?: {_CENTRE})?)"
)
_ANGLE = rf"(?P<minus>-)?(?P<whole>{NUMBER}) ?(?:°|deg|degs|degree|degrees)?(?: ?(?P<minutes>[0-9]{{1,2}}) ?')?"
_FORMS = (re.compile(rf"{_ANGLE} ?{_DATUM}"), re.compile(rf"{_DATUM} {_ANGLE}"))
_PLAIN = re.compile(_ANGLE)
_AT_CENTRE = re.compile(rf"(?:at |on )?(?:(?P<top>tdc|top(?: {_CENTRE})?)|(?P<bottom>bdc|bottom(?: {_CENTRE})?)|{_CENTRE})")
_RIM = re.compile(r".*[0-9].*\b(?:rim|flywheel|wheel)\b.*")
DEGREE = unit_named("deg")
_SHORT = {"btc": "BTDC", "atc": "ATDC", "bbc": "BBDC", "abc": "ABDC"}


def crank_angle(text: str, column: Unit | None) -> Understood | None:
    """The crank angle in ``text``, counted from the column's dead centre where it names one; None for any other shape.

    ``words`` is what the angle is counted from. Raises Slip where text and column count from different centres.
    """
    if column is not None and column.dimension != "angle":
        return None
    if _RIM.fullmatch(text):
        raise Slip(
            "is a distance along the rim, which is no angle until the wheel's diameter is known",
            "degrees would be right: 114.6 times the rim distance over the wheel's diameter",
        )
    if found := _AT_CENTRE.fullmatch(text):
        said = "T" if found.group("top") else "B" if found.group("bottom") else ""
        return _counted(Number(0.0, 1.0, "0", "whole"), 1, f"A{said}DC" if said else "", column)
    for pattern in _FORMS:
        if found := pattern.fullmatch(text):
            return _counted(_degrees(found), -1 if found.group("minus") else 1, _datum(found.group("datum")), column)
    if (found := _PLAIN.fullmatch(text)) and found.group("minutes"):
        return _counted(_degrees(found), -1 if found.group("minus") else 1, "", column)
    return None


def _degrees(found: re.Match[str]) -> Number:
    whole = number(found.group("whole"))
    if found.group("minutes") is None:
        return whole
    minutes = int(found.group("minutes"))
    if minutes >= 60:
        raise Slip(f"has {minutes} minutes of arc", "fewer than 60 would be right")
    return Number(whole.value + minutes / 60, 1 / 60, f"{whole.shown}° {minutes:02d}′", "decimal")


def _datum(said: str) -> str:
    """BTDC, ATDC, BBDC, ABDC; "before" or "after" where no centre was named."""
    plain = said.replace(".", "")
    if plain in _SHORT:
        return _SHORT[plain]
    if plain.isalpha() and len(plain) == 4:
        return plain.upper()
    side = "before" if plain.startswith("before") else "after"
    if re.search(r"top|upper|outer|inner|tdc", plain):
        # On a horizontal engine the outer dead centre is the one nearest the crank; people differ, so it is not guessed.
        if re.search(r"outer|inner", plain):
            raise Slip("names an inner or outer centre, which people use both ways", "top or bottom dead centre would be right")
        return f"{side[0].upper()}TDC"
    return f"{side[0].upper()}BDC" if re.search(r"bottom|lower|bdc", plain) else side


def _counted(figure: Number, sign: int, said: str, column: Unit | None) -> Understood:
    own = DEGREE
    want = column.datum if column is not None else ""
    if want and not said:
        said = want
    if want and said in ("before", "after"):
        said = f"{said[0].upper()}{want[1:]}"
    if want and said[1:] != want[1:]:
        raise Slip(
            f"counts from {_centre(said)} where the column counts from {_centre(want)}",
            f"an angle in deg {want} would be right",
        )
    turned = -sign if want and said != want else sign
    value = turned * figure.value * own.factor + 0.0  # no minus nought
    return Understood(
        kind="point", dimension="angle", value=value, step=figure.step * own.factor, words=want or said,
        echo=_echo(figure, sign, said, turned, want) if figure.value else f"on {_centre(said)}",
    )  # fmt: skip


def _centre(datum: str) -> str:
    return {"T": "top dead centre", "B": "bottom dead centre"}.get(datum[1:2] if datum.endswith("DC") else "", "dead centre")


def _echo(figure: Number, sign: int, said: str, turned: int, want: str) -> str:
    degree = "" if figure.shown.endswith("′") else "°"
    word = f"{said} centre" if said in ("before", "after") else said
    shown = f"{'−' if sign < 0 else ''}{figure.shown}{degree} {word}".rstrip()
    return f"{shown} ({'−' if turned < 0 else ''}{figure.shown}{degree} {want})" if want and said != want else shown
