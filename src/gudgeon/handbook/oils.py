"""Engine oils by their SAE grade: the band of viscosity that the grade allows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from gudgeon.handbook.shelf import Grade, UnknownName, check, source, table

MM2_S = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Oil:
    """One grade of SAE J300 (January 2015).

    Attributes
    ----------
    at_100 : kinematic viscosity at 100 degree C, from and below [m2/s].
    at_40 : at 40 degree C, of straight mineral oils of the grade, thin to thick [m2/s].
    high_shear : least dynamic viscosity at 150 degree C and high shear [Pa s].
    memory : names of the fields whose value is from memory.
    """

    name: str
    at_100: tuple[float, float]
    at_40: tuple[float, float]
    high_shear: float
    source: str
    grade: Grade
    memory: tuple[str, ...] = ()


@cache
def oils() -> Mapping[str, Oil]:
    """All grades by name."""
    return {name: _oil(name, raw) for name, raw in table("oils.toml").items()}


def _oil(name: str, raw: Mapping[str, Any]) -> Oil:
    where = f"oils.toml [{name}]"
    check(raw, where=where, needs=("at_100", "at_40", "high_shear", "source"), may=("memory",))
    cited = source(raw["source"], where=where)
    return Oil(
        name=name,
        at_100=(raw["at_100"][0] * MM2_S, raw["at_100"][1] * MM2_S),
        at_40=(raw["at_40"][0] * MM2_S, raw["at_40"][1] * MM2_S),
        high_shear=raw["high_shear"] * 1e-3,
        source=cited.title,
        grade=cited.grade,
        memory=tuple(raw.get("memory", ())),
    )


def oil(name: str) -> Oil:
    """One grade by its name ("SAE 30"); raises ``UnknownName`` with the others."""
    try:
        return oils()[name]
    except KeyError:
        raise UnknownName("oil", name, oils()) from None
