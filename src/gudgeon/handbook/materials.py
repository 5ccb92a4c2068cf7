"""Materials that old engines are made of: expansion, stiffness and density, each with its spread and source."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from gudgeon.handbook.shelf import Grade, UnknownName, check, si, source, table


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """One material.

    Attributes
    ----------
    expansion : mean coefficient of linear expansion about 20 degree C [1/K].
    expansion_uncertainty : its standard uncertainty, from the spread between tables and between alloys [1/K].
    modulus : Young's modulus [Pa].
    poisson : Poisson's ratio [1].
    density : [kg/m3].
    from_celsius, to_celsius : range over which the expansion may be used.
    memory : names of the fields whose value is from memory.
    """

    name: str
    expansion: float
    expansion_uncertainty: float
    modulus: float
    poisson: float
    density: float
    from_celsius: float
    to_celsius: float
    source: str
    grade: Grade
    memory: tuple[str, ...] = ()
    aliases: tuple[str, ...] = ()
    note: str = ""

    @property
    def from_memory(self) -> bool:
        """True where the expansion itself is from memory."""
        return "expansion" in self.memory


NEEDS = ("expansion", "expansion_uncertainty", "modulus", "poisson", "density", "range", "source")
MAY = ("memory", "aliases", "note", "grade")


@cache
def materials() -> Mapping[str, Material]:
    """All materials by their name in the table."""
    return {name: _material(name, raw) for name, raw in table("materials.toml").items()}


def _material(name: str, raw: Mapping[str, Any]) -> Material:
    where = f"materials.toml [{name}]"
    check(raw, where=where, needs=NEEDS, may=MAY)
    cited = source(raw["source"], where=where)
    low, high = raw["range"]
    return Material(
        name=name,
        expansion=si(raw["expansion"], "1e-6/K"),
        expansion_uncertainty=si(raw["expansion_uncertainty"], "1e-6/K"),
        modulus=si(raw["modulus"], "GPa"),
        poisson=float(raw["poisson"]),
        density=float(raw["density"]),
        from_celsius=float(low),
        to_celsius=float(high),
        source=cited.title,
        grade=raw.get("grade", cited.grade),
        memory=tuple(raw.get("memory", ())),
        aliases=tuple(raw.get("aliases", ())),
        note=raw.get("note", ""),
    )


@cache
def _by_any_name() -> Mapping[str, Material]:
    found = {}
    for name, each in materials().items():
        for alias in (name, *each.aliases):
            found[alias.lower()] = each
    return found


def material(name: str) -> Material:
    """A material by its name or one of its aliases, without regard to case.

    Raises
    ------
    UnknownName
        with the near names in its sentence.
    """
    try:
        return _by_any_name()[name.strip().lower()]
    except KeyError:
        raise UnknownName("material", name, _by_any_name()) from None
