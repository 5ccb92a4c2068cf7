"""Wire for helical springs: strength by diameter, moduli, and how hard it may be twisted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from gudgeon.handbook.shelf import INCH, Grade, UnknownName, check, si, source, table


@dataclass(frozen=True, slots=True, kw_only=True)
class SpringWire:
    """One kind of wire.

    Attributes
    ----------
    constant, exponent : tensile strength = constant / d^exponent [Pa], d in metres.
    shear_modulus, young : [Pa]. density : [kg/m3].
    torsion : greatest shear stress, pressed solid, as a share of the tensile strength.
    """

    name: str
    constant: float
    exponent: float
    shear_modulus: float
    young: float
    density: float
    torsion: float
    source: str
    grade: Grade
    from_memory: bool
    aliases: tuple[str, ...] = ()


NEEDS = ("strength", "exponent", "shear", "young", "torsion", "source")
MAY = ("aliases", "grade", "memory")
STEEL_DENSITY = 7850.0


@cache
def spring_wires() -> Mapping[str, SpringWire]:
    """All kinds of wire by name."""
    return {name: _wire(name, raw) for name, raw in table("spring_wires.toml").items()}


def _wire(name: str, raw: Mapping[str, Any]) -> SpringWire:
    where = f"spring_wires.toml [{name}]"
    check(raw, where=where, needs=NEEDS, may=MAY)
    cited = source(raw["source"], where=where)
    exponent = float(raw["exponent"])
    return SpringWire(
        name=name,
        constant=si(1000.0 * raw["strength"], "psi") * INCH**exponent,
        exponent=exponent,
        shear_modulus=si(1e6 * raw["shear"], "psi"),
        young=si(1e6 * raw["young"], "psi"),
        density=STEEL_DENSITY,
        torsion=float(raw["torsion"]),
        source=cited.title,
        grade=raw.get("grade", cited.grade),
        from_memory=bool(raw.get("memory", cited.seen == "memory")),
        aliases=tuple(raw.get("aliases", ())),
    )


def spring_wire(name: str) -> SpringWire:
    """A kind of wire by its name or an alias; raises ``UnknownName`` with the near ones."""
    every = {alias.lower(): each for each in spring_wires().values() for alias in (each.name, *each.aliases)}
    try:
        return every[name.strip().lower()]
    except KeyError:
        raise UnknownName("kind of spring wire", name, every) from None
