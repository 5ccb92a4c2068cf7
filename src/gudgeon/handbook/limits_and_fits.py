"""Limits and fits by name: ISO 286, ANSI B4.1, and the Newall limits of 1914."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from gudgeon.handbook.shelf import INCH, UnknownName, source, table

MICROMETRE = 1e-6
THOU = INCH * 1e-3


@dataclass(frozen=True, slots=True)
class Limits:
    """Lower and upper deviation from the nominal size [m]."""

    low: float
    high: float

    @property
    def tolerance(self) -> float:
        """Width of the band [m]."""
        return self.high - self.low


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedFit:
    """A fit looked up for one size.

    ``clearance`` is of shaft in hole, negative for interference. ``hole`` and ``shaft`` are None where the table as read
    gives the clearance only. ``from_memory`` marks rows that were not read in the source.
    """

    name: str
    size: float
    hole: Limits | None
    shaft: Limits | None
    clearance: Limits
    source: str
    from_memory: bool = False


def tolerance_unit(*, size: float) -> float:
    """Standard tolerance unit i [m] of ISO 286-1 for a size [m]: 0.45 D^(1/3) + 0.001 D micrometre, D in mm.

    D is the geometric mean of the ends of the range that the size lies in (of 1 and 3 for the first), 500 mm at most.
    """
    ends = table("iso_286.toml")["tolerance"]["to"]
    place = _range(size, ends)
    low, high = (ends[place - 1] if place else 1), ends[place]
    mean = math.sqrt(low * high)
    return float((0.45 * mean ** (1 / 3) + 0.001 * mean) * MICROMETRE)


def _range(size: float, ends: list[float]) -> int:
    millimetres = round(size * 1e3, 6)
    if not 0 < millimetres <= ends[-1]:
        raise ValueError(
            f"A tolerance was asked for {millimetres:g} mm; the table of ISO 286 here runs from 0 to {ends[-1]} mm."
        )
    return next(place for place, end in enumerate(ends) if millimetres <= end)


def iso_tolerance(*, size: float, grade: int) -> float:
    """Standard tolerance [m] of a size [m] in grades IT4 to IT11, the rounded value of ISO 286-1 table 1."""
    rows = table("iso_286.toml")["tolerance"]
    if f"IT{grade}" not in rows:
        raise UnknownName("tolerance grade", f"IT{grade}", [name for name in rows if name != "to"])
    return float(rows[f"IT{grade}"][_range(size, rows["to"])] * MICROMETRE)


def iso_limits(*, size: float, code: str) -> Limits:
    """Limit deviations [m] of a tolerance class such as "H7" (hole) or "s6" (shaft) for a size [m].

    Shafts d e f g h k n p r s t u and holes D E F G H, grades 4 to 11 (ISO 286-2). Holes D to G mirror the shafts of the
    same letter. Class t begins over 24 mm.

    Raises
    ------
    UnknownName
        for a letter or grade that is not in the table.
    ValueError
        for a size outside it.
    """
    match = re.fullmatch(r"([A-Za-z])(\d+)", code.strip())
    if match is None:
        raise UnknownName("tolerance class", code, ["H7", "g6", "h6", "k6", "n6", "p6", "s6"])
    letter, grade = match[1], int(match[2])
    width = iso_tolerance(size=size, grade=grade)
    if letter.isupper():
        if letter not in "DEFGH":
            raise UnknownName("hole class", code, ["D9", "E8", "F8", "G7", "H7", "H8"])
        low = 0.0 - _upper(letter.lower(), size)
        return Limits(low, low + width)
    if letter in "defgh":
        high = _upper(letter, size)
        return Limits(high - width, high)
    low = _lower(letter, grade, size)
    return Limits(low, low + width)


def _upper(letter: str, size: float) -> float:
    rows = table("iso_286.toml")["upper_deviation"]
    return float(rows[letter][_range(size, rows["to"])] * MICROMETRE)


def _lower(letter: str, grade: int, size: float) -> float:
    rows = table("iso_286.toml")["lower_deviation"]
    if letter not in rows:
        raise UnknownName("shaft class", f"{letter}{grade}", [f"{name}6" for name in "defghknprstu"])
    if letter == "k" and grade > 7:
        return 0.0
    value = rows[letter][_range(size, rows["to"])]
    if math.isnan(value):
        raise ValueError(f"Class {letter}{grade} was asked for {size * 1e3:g} mm; in ISO 286 it begins over 24 mm.")
    return float(value * MICROMETRE)


def iso_fit(*, size: float, name: str) -> NamedFit:
    """A fit such as "H7/s6" for a size [m] (ISO 286-2)."""
    hole_code, _, shaft_code = name.partition("/")
    hole, shaft = iso_limits(size=size, code=hole_code), iso_limits(size=size, code=shaft_code)
    return NamedFit(
        name=name,
        size=size,
        hole=hole,
        shaft=shaft,
        clearance=_clearance(hole, shaft),
        source=source("iso 286", where=name).title,
    )


def _clearance(hole: Limits, shaft: Limits) -> Limits:
    return Limits(hole.low - shaft.high, hole.high - shaft.low)


@cache
def ansi_names() -> tuple[str, ...]:
    """Classes of ANSI B4.1 on the shelf."""
    ansi = table("inch_fits.toml")["ansi"]
    return (*ansi["clearance"], *ansi["interference"])


def ansi_fit(*, size: float, name: str) -> NamedFit:
    """A fit of ANSI B4.1, "RC1" to "RC7", "LN2", "FN1" to "FN5", for a size [m].

    The hole's lower limit is the nominal size. RC1, RC5 to RC7 and LN2 come with the clearance alone.

    Raises
    ------
    UnknownName
        for another class.
    ValueError
        where the table here has no row for that size.
    """
    ansi = table("inch_fits.toml")["ansi"]
    name = name.strip().upper()
    if name not in ansi_names():
        raise UnknownName("fit of ANSI B4.1", name, ansi_names())
    running = name in ansi["clearance"]
    rows: Mapping[str, Any] = ansi["clearance" if running else "interference"][name]
    inches = round(size / INCH, 6)
    for key, row in rows.items():
        low, high = ansi["ranges"][key]
        if low < inches <= high:
            return _ansi(name, size, row, running=running)
    raise ValueError(f"{name} was asked for {inches:g} in; the rows here do not cover it.")


def _ansi(name: str, size: float, row: Mapping[str, Any], *, running: bool) -> NamedFit:
    clearance = Limits(row["low"] * THOU, row["high"] * THOU) if running else Limits(-row["high"] * THOU, -row["low"] * THOU)
    hole = shaft = None
    if "hole" in row:
        hole = Limits(0.0, row["hole"] * THOU)
        shaft = Limits(hole.high - clearance.high, -clearance.low)
    cited = source("ansi b4.1", where=name)
    return NamedFit(
        name=name,
        size=size,
        hole=hole,
        shaft=shaft,
        clearance=clearance,
        source=cited.title,
        from_memory=bool(row.get("memory", False)),
    )


NEWALL_WORDS: Mapping[str, str] = {
    "F": "forced",
    "D": "driving",
    "P": "push",
    "X": "running, easy, engines",
    "Y": "running, good average",
    "Z": "running, fine",
}


def newall_fit(*, size: float, name: str, hole_class: str = "A") -> NamedFit:
    """A fit of the Newall limits of 1914 for a size [m] up to 4 in: shaft F D P X Y Z in a hole of class A or B.

    X is the easy running fit "for engines and other work where easy fits are wanted".
    """
    newall = table("inch_fits.toml")["newall"]
    letter = name.strip().upper()
    if letter not in newall["shaft"]:
        raise UnknownName("Newall fit", name, newall["shaft"])
    if hole_class not in newall["hole"]:
        raise UnknownName("Newall hole", hole_class, newall["hole"])
    inches = round(size / INCH, 6)
    if not 0 < inches <= newall["to"][-1]:
        raise ValueError(f"A Newall fit was asked for {inches:g} in; the table of 1914 runs to {newall['to'][-1]:g} in.")
    place = next(place for place, end in enumerate(newall["to"]) if inches <= end)
    hole, shaft = (
        Limits(*(end * THOU for end in rows[place])) for rows in (newall["hole"][hole_class], newall["shaft"][letter])
    )
    return NamedFit(
        name=f"Newall {letter} ({NEWALL_WORDS[letter]}) in hole {hole_class}",
        size=size,
        hole=hole,
        shaft=shaft,
        clearance=_clearance(hole, shaft),
        source=source(newall["source"], where=name).title,
    )
