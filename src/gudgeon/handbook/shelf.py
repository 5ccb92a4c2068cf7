"""The shelf that the tables stand on: reads the data files once, checks every row, and names its source in full."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from importlib import resources
from typing import Any, Literal

Grade = Literal["A", "B", "C", "D", "E", "F"]
GRADES: tuple[Grade, ...] = ("A", "B", "C", "D", "E", "F")

# Exact by definition (international yard and pound 1959; 1 hp = 550 ft lbf/s; g = 9.80665 m/s2), SI per unit.
INCH = 0.0254
POUND_FORCE = 4.4482216152605
UNITS: Mapping[str, float] = {
    "": 1.0,
    "1": 1.0,
    "m": 1.0,
    "mm": 1e-3,
    "um": 1e-6,
    "in": INCH,
    "thou": INCH * 1e-3,
    "ft": 12 * INCH,
    "deg": 0.017453292519943295,
    "psi": POUND_FORCE / INCH**2,
    "MPa": 1e6,
    "GPa": 1e9,
    "bar": 1e5,
    "lbf": POUND_FORCE,
    "N": 1.0,
    "lb ft": POUND_FORCE * 12 * INCH,
    "short ton": 2000 * POUND_FORCE,
    "long ton": 2240 * POUND_FORCE,
    "lb": 0.45359237,
    "g": 1e-3,
    "kg/m3": 1.0,
    "ft/min": 12 * INCH / 60,
    "drops/min": 1 / 60,
    "cc": 1e-6,
    "US gal": 231 * INCH**3,
    "1e-6/K": 1e-6,
    "psi ft/min": POUND_FORCE / INCH**2 * 12 * INCH / 60,
    "K": 1.0,
    "HB": 1.0,
    "rev/min": 1.0,
    "ohm": 1.0,
}
DIMENSIONS: Mapping[str, str] = {
    "": "number",
    "1": "number",
    "m": "length",
    "mm": "length",
    "um": "length",
    "in": "length",
    "thou": "length",
    "ft": "length",
    "deg": "angle",
    "psi": "pressure",
    "MPa": "pressure",
    "GPa": "pressure",
    "bar": "pressure",
    "lbf": "force",
    "N": "force",
    "lb ft": "torque",
    "short ton": "force",
    "long ton": "force",
    "lb": "mass",
    "g": "mass",
    "kg/m3": "density",
    "ft/min": "speed",
    "drops/min": "drip rate",
    "cc": "volume",
    "US gal": "volume",
    "1e-6/K": "expansion",
    "psi ft/min": "pressure times speed",
    "K": "temperature difference",
    "degF": "temperature",
    "degC": "temperature",
    "HB": "hardness",
    "rev/min": "rotation speed",
    "ohm": "resistance",
}


class UnknownName(KeyError):
    """A name that is not on the shelf; the sentence names the near ones."""

    def __init__(self, kind: str, name: str, known: Iterable[str]) -> None:
        self.kind, self.name = kind, name
        names = list(known)
        self.near = (
            tuple(get_close_matches(name.lower(), names, n=4, cutoff=0.4))
            or tuple(each for each in names if name and name.lower() in each.lower())[:4]
        )
        hint = f"near it are: {', '.join(self.near)}" if self.near else f"known are: {', '.join(sorted(names))}"
        super().__init__(f"“{name}” is not a {kind} in the handbook; {hint}.")

    def __str__(self) -> str:
        return str(self.args[0])


class BadTable(ValueError):
    """A data file whose row is wrong; ``str()`` says which row, what is wrong and what would be right."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Where a row was taken from.

    ``authority`` is its short name on a page ("Hastings"), ``title`` the full citation, ``seen`` how it was read:
    "read" in the source's own text, "quoted" in another page that quotes it, "excerpt", "computed", or "memory".
    """

    key: str
    authority: str
    title: str
    seen: Literal["read", "quoted", "excerpt", "computed", "memory"]
    pre_1950: bool = False
    grade: Grade = "E"


def si(value: float, unit: str) -> float:
    """A value in SI; temperatures become degree Celsius, because every formula of ours works on differences from 20."""
    if unit == "degF":
        return (value - 32) / 1.8
    if unit == "degC":
        return value
    return value * UNITS[unit]


@cache
def table(name: str) -> Mapping[str, Any]:
    """One data file, parsed; ``name`` is its path under ``handbook/data``."""
    place = resources.files("gudgeon.handbook") / "data"
    for piece in name.split("/"):
        place = place / piece
    with place.open("rb") as stream:
        return tomllib.load(stream)


@cache
def sources() -> Mapping[str, Source]:
    """All sources that rows name, by key."""
    found = {}
    for key, raw in table("sources.toml").items():
        check(raw, where=f"sources.toml [{key}]", needs=("authority", "title", "seen"), may=("pre_1950", "grade"))
        found[key] = Source(key=key, **raw)
    return found


def source(key: str, *, where: str) -> Source:
    """The source that a row names by its key."""
    try:
        return sources()[key]
    except KeyError:
        raise BadTable(f"{where} names the source “{key}”; it must be one of those in sources.toml.") from None


def check(raw: Mapping[str, Any], *, where: str, needs: Iterable[str], may: Iterable[str]) -> None:
    """Raise ``BadTable`` where a row lacks a field, has one that nobody reads, or carries an unknown unit or grade."""
    needs, may = tuple(needs), tuple(may)
    missing = [name for name in needs if name not in raw]
    if missing:
        raise BadTable(f"{where} has no {', '.join(missing)}; every such row must have {', '.join(needs)}.")
    strange = [name for name in raw if name not in needs and name not in may]
    if strange:
        raise BadTable(f"{where} has {', '.join(strange)}, which nothing reads; it may have {', '.join((*needs, *may))}.")
    if raw.get("unit", "") not in DIMENSIONS:
        raise BadTable(f"{where} has the unit “{raw['unit']}”; it must be one of {', '.join(DIMENSIONS)}.")
    if raw.get("grade", "E") not in GRADES:
        raise BadTable(f"{where} has the grade “{raw['grade']}”; it must be a letter from A to F.")
