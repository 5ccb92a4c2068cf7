"""Figures as people write them: decimals, fractions, mixed numbers, number words. No units here."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from gudgeon.quantity.meaning import Slip

Form = Literal["whole", "decimal", "fraction", "mixed"]

_VULGAR = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅓": "1/3", "⅔": "2/3", "⅙": "1/6", "⅚": "5/6", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5", "⅒": "1/10",
}  # fmt: skip
_PLAINER = str.maketrans(
    {**{sign: f" {fraction}" for sign, fraction in _VULGAR.items()}, **dict.fromkeys("−–—‐‑‒", "-"), "⁄": "/", "∕": "/",
     "×": "x", "“": '"', "”": '"', "″": '"', "’": "'", "‘": "'", "′": "'", "\u00a0": " ", "\u202f": " ", "\u2009": " ",
     "º": "°", "≥": " >= ", "≤": " <= "}
)  # fmt: skip
_SMALL = dict.fromkeys(("zero", "nought"), 0) | {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11,
    "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
}  # fmt: skip
_TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}  # fmt: skip
_WORD = "|".join(sorted((*_SMALL, *_TENS), key=len, reverse=True))
_WORDS = re.compile(rf"\b({_WORD})(?:[ -]({_WORD}))?\b")
_HALF_A = re.compile(r"\bhalf (?:a |an )?(?=thou|tenth|in|mm)")
_AND_A_HALF = re.compile(r"\b([0-9]+) and (?:a )?(?:half|1/2)")
_ONE = re.compile(r"^an? (?=thou|tenth)")

NUMBER = (
    r"(?:[0-9]+[ -][0-9]+ ?/ ?[0-9]+|[0-9]+ ?/ ?[0-9]+|[0-9]*\.[0-9]+(?:e[+-]?[0-9]{1,2})?"
    r"|[0-9]+,[0-9]+|[0-9]+(?:e-[0-9]{1,2})?)"
)
_MIXED = re.compile(r"([0-9]+)[ -]([0-9]+) ?/ ?([0-9]+)")
_FRACTION = re.compile(r"([0-9]+) ?/ ?([0-9]+)")
_MOST_DIGITS = 15


@dataclass(frozen=True, slots=True)
class Number:
    """A figure: its value, the smallest step that its writing claims, how it is shown, and how it was written."""

    value: float
    step: float
    shown: str
    form: Form
    comma: bool = False


def tidy(typed: str) -> str:
    """The typed text with one kind of dash, quote, blank and fraction, in small letters."""
    return " ".join(typed.translate(_PLAINER).lower().split())


def figures(text: str) -> str:
    """Number words turned into figures: "two and a half thou" is "2 1/2 thou"."""
    text = _WORDS.sub(_figure_of_words, _HALF_A.sub("1/2 ", text))
    return _ONE.sub("1 ", _AND_A_HALF.sub(r"\1 1/2", text))


def _figure_of_words(found: re.Match[str]) -> str:
    first, second = found.group(1), found.group(2)
    if second is None:
        return str(_TENS.get(first, _SMALL.get(first)))
    if first in _TENS and 0 < _SMALL.get(second, 0) < 10:
        return str(_TENS[first] + _SMALL[second])
    return f"{_figure_of_word(first)} {_figure_of_word(second)}"


def _figure_of_word(word: str) -> int:
    return _TENS[word] if word in _TENS else _SMALL[word]


def number(text: str) -> Number:
    """The number that ``text`` (one match of NUMBER) stands for. Raises Slip for a division by nought or endless digits."""
    if sum(character.isdigit() for character in text) > _MOST_DIGITS:
        raise Slip("has more digits than any gauge shows", "a size such as 5.128 would be right")
    if found := _MIXED.fullmatch(text):
        return _mixed(*found.groups())
    if found := _FRACTION.fullmatch(text):
        top, bottom = int(found.group(1)), _bottom(found.group(2))
        return Number(top / bottom, 1 / bottom, f"{top}/{bottom}", "fraction")
    return _decimal(text)


def _mixed(whole: str, above: str, below: str) -> Number:
    top, bottom = int(above), _bottom(below)
    if top >= bottom:
        raise Slip(
            f"has {top}/{bottom} as the part after a whole number", "a part smaller than one, as in 5 1/8, would be right"
        )
    return Number(int(whole) + top / bottom, 1 / bottom, f"{int(whole)} {top}/{bottom}", "mixed")


def _bottom(text: str) -> int:
    if int(text) == 0:
        raise Slip("divides by nought", "a fraction such as 1/8 would be right")
    return int(text)


def _decimal(text: str) -> Number:
    comma = "," in text
    plain = text.replace(",", ".")
    mantissa, _, exponent = plain.partition("e")
    decimals = len(mantissa.partition(".")[2]) - int(exponent or 0)
    whole = "." not in mantissa and not exponent
    return Number(float(plain), 10.0**-decimals, plain, "whole" if whole else "decimal", comma)
