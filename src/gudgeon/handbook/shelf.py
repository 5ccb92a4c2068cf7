"""The shelf that the tables stand on: reads the data files once, checks every row, and names its source in full."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from importlib import resources
from typing import Any, Literal

from gudgeon.quantity.units import UnknownUnit, dimension_of, to_si

Grade = Literal["A", "B", "C", "D", "E", "F"]
GRADES: tuple[Grade, ...] = ("A", "B", "C", "D", "E", "F")

INCH = to_si(1.0, "in")

# Units of tables that nobody types at the bench: SI per unit, and dimension.
TABLE_UNITS: Mapping[str, tuple[float, str]] = {
    "1": (1.0, "ratio"),
    "GPa": (1e9, "pressure"),
    "1e-6/K": (1e-6, "expansion"),
    "short ton": (to_si(2000.0, "lbf"), "force"),
    "long ton": (to_si(2240.0, "lbf"), "force"),
    "psi ft/min": (to_si(1.0, "psi") * to_si(1.0, "ft/min"), "pressure times speed"),
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
    """A figure of a table in SI; temperatures become kelvin."""
    return value * TABLE_UNITS[unit][0] if unit in TABLE_UNITS else to_si(value, unit)


def dimension(unit: str) -> str:
    """What a unit of a table measures."""
    return TABLE_UNITS[unit][1] if unit in TABLE_UNITS else dimension_of(unit)


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
    try:
        dimension(raw.get("unit", "1"))
    except UnknownUnit as unknown:
        raise BadTable(f"{where} has the unit “{raw['unit']}”, which is not known. {unknown}") from None
    if raw.get("grade", "E") not in GRADES:
        raise BadTable(f"{where} has the grade “{raw['grade']}”; it must be a letter from A to F.")
