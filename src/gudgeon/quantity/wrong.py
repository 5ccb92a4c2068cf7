"""What is wrong with a text that has no meaning, said so that the person can mend it."""

from __future__ import annotations

import re

from gudgeon.quantity.meaning import Slip
from gudgeon.quantity.writing import NUMBER

_MISTAKEN = str.maketrans({"o": "0", "i": "1", "l": "1", "s": "5", "z": "2", "b": "8", "q": "9", "g": "9"})
_LETTER_AMONG = re.compile(
    r"(?:[0-9]*\.[0-9]*|[0-9]+)[oilszbqg][0-9]+|[oilszbqg]\.[0-9]+|[0-9]*\.[oilszbqg][0-9]*|[0-9]*\.[0-9]+[oil]"
)
_LATE_POINT = re.compile(r"([0-9]*\.?[0-9]+)\.+")
_POINTS = re.compile(r"[0-9]*(?:\.+[0-9]+){2,}|[0-9]*\.\.+[0-9]+")
_GENERAL = "a size (5 1/8, 5.128, 3 thou), a bracket (go .003 no-go .004) or words such as tight or not reached would be right"


def what_is_wrong(text: str) -> Slip:
    """The refusal of a tidied text that no form fits."""
    if _LATE_POINT.fullmatch(text):
        return Slip("ends in a point", f"{text.rstrip('.')}, or the figures that should follow the point, would be right")
    if _POINTS.fullmatch(text):
        return Slip("has more than one point", "one point, as in 5.128, would be right")
    if _LETTER_AMONG.fullmatch(text):
        letter = next(character for character in text if character.isalpha())
        return Slip(
            f"has the letter {letter.upper()} among its figures",
            f"{text.translate(_MISTAKEN)} would be right if that was meant",
        )
    numbers = re.findall(NUMBER, text)
    if text.count(",") and re.fullmatch(r"[0-9.,]+.*", text) and "." in text:
        return Slip("has both a comma and a point", "one of them, before the decimals, would be right")
    if len(numbers) > 1:
        return Slip(
            f"has {len(numbers)} figures and nothing that says how they belong together",
            "one size, or .003 to .004 for a bracket, would be right",
        )
    if not numbers:
        return Slip("has no size in it and is no word known here", _GENERAL)
    return Slip("is not a form known here", _GENERAL)
