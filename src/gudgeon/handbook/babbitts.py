"""Bearing metals of ASTM B23: what they are made of, where they melt, how hot they are poured, what they stand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from gudgeon.handbook.shelf import Grade, UnknownName, check, si, source, table


@dataclass(frozen=True, slots=True, kw_only=True)
class Babbitt:
    """One grade.

    Attributes
    ----------
    base : "tin" or "lead". composition : per element its least and most [per cent by mass].
    melts_from, all_liquid, pour_at : temperatures [degree C]; ``all_liquid`` None where it is not known.
    yields, elastic : compressive yield (.125 % set) and Johnson's apparent elastic limit [Pa], at 20 and 100 degree C.
    brinell : at 20 and 100 degree C; None where not known.
    density : [kg/m3]; expansion : [1/K]; None where not known.
    memory : names of the fields whose value is from memory.
    """

    grade: str
    uns: str
    base: str
    composition: Mapping[str, tuple[float, float]]
    melts_from: float
    all_liquid: float | None
    pour_at: float
    yields: tuple[float, float]
    elastic: tuple[float, float]
    brinell: tuple[float, float] | None
    density: float | None
    expansion: float | None
    source: str
    source_grade: Grade
    memory: tuple[str, ...] = ()


NEEDS = ("base", "composition", "melts_from", "pour_at", "yields", "elastic", "source")
MAY = ("uns", "all_liquid", "brinell", "gravity", "expansion", "memory")


@cache
def babbitts() -> Mapping[str, Babbitt]:
    """All grades by their number."""
    return {name: _babbitt(name, raw) for name, raw in table("babbitts.toml").items()}


def _celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32.0) / 1.8


def _pair(raw: Mapping[str, Any], name: str, factor: float) -> tuple[float, float]:
    cold, hot = raw[name]
    return cold * factor, hot * factor


def _babbitt(name: str, raw: Mapping[str, Any]) -> Babbitt:
    where = f"babbitts.toml [{name}]"
    check(raw, where=where, needs=NEEDS, may=MAY)
    cited = source(raw["source"], where=where)
    return Babbitt(
        grade=name,
        uns=raw.get("uns", ""),
        base=raw["base"],
        composition={element: (float(low), float(high)) for element, (low, high) in raw["composition"].items()},
        melts_from=_celsius(raw["melts_from"]),
        all_liquid=_celsius(raw["all_liquid"]) if "all_liquid" in raw else None,
        pour_at=_celsius(raw["pour_at"]),
        yields=_pair(raw, "yields", si(1.0, "psi")),
        elastic=_pair(raw, "elastic", si(1.0, "psi")),
        brinell=_pair(raw, "brinell", 1.0) if "brinell" in raw else None,
        density=raw["gravity"] * 1000.0 if "gravity" in raw else None,
        expansion=si(raw["expansion"], "1e-6/K") if "expansion" in raw else None,
        source=cited.title,
        source_grade=cited.grade,
        memory=tuple(raw.get("memory", ())),
    )


def babbitt(grade: str) -> Babbitt:
    """One grade by its number ("2"); raises ``UnknownName`` with the others."""
    try:
        return babbitts()[grade]
    except KeyError:
        raise UnknownName("grade of babbitt", grade, babbitts()) from None
