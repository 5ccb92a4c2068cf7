"""Who sits at this device and which units that person reads: two cookies, asked once."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote, unquote

from starlette.requests import Request
from starlette.responses import Response

from gudgeon.quantity import UnitChoice

NAME, UNITS, SAID = "gudgeon-name", "gudgeon-units", "gudgeon-said"
LONGEST = 60
_YEARS = 3600 * 24 * 365 * 5


@dataclass(frozen=True, slots=True)
class Person:
    """The name changes are written down under ("" while not asked), and the units sizes are shown in."""

    name: str
    units: UnitChoice


def person_of(request: Request) -> Person:
    """The person of a request."""
    units = request.cookies.get(UNITS, "")
    return Person(cleaned(unquote(request.cookies.get(NAME, ""))), "millimetre" if units == "millimetre" else "inch")


def cleaned(name: str) -> str:
    """A name on one line, without control characters, not longer than sixty letters."""
    return " ".join("".join(letter for letter in name if letter.isprintable()).split())[:LONGEST]


def keep(response: Response, *, name: str, units: str) -> None:
    """Keep name and units on the device."""
    if name:
        response.set_cookie(NAME, quote(name), max_age=_YEARS, samesite="strict", httponly=True)
    if units in ("inch", "millimetre"):
        response.set_cookie(UNITS, units, max_age=_YEARS, samesite="strict", httponly=True)


def say_once(response: Response, sentence: str) -> None:
    """Have the next page say a sentence, once."""
    response.set_cookie(SAID, quote(sentence[:600]), max_age=60, samesite="strict", httponly=True)


def said(request: Request) -> str:
    """The sentence that this page is to say."""
    return unquote(request.cookies.get(SAID, ""))[:600]
