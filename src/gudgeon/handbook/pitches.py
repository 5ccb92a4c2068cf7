"""Standard gear pitches and pressure angles of the time, with how likely each is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from gudgeon.handbook.shelf import INCH, Grade, check, si, source, table


@dataclass(frozen=True, slots=True, kw_only=True)
class GearPitch:
    """One standard tooth size. ``module`` [m] is pitch diameter per tooth, whatever system it is written in."""

    written: str
    system: str
    module: float
    weight: float
    source: str
    grade: Grade
    from_memory: bool

    @property
    def diametral_pitch(self) -> float:
        """Teeth per inch of pitch diameter."""
        return INCH / self.module


@cache
def gear_pitches() -> tuple[GearPitch, ...]:
    """Diametral pitches, modules and circular pitches, coarsest first."""
    return tuple(sorted(_rows(), key=lambda pitch: -pitch.module))


def _rows() -> Iterator[GearPitch]:
    for system, raw in table("pitches.toml")["pitch"].items():
        where = f"pitches.toml [pitch.{system}]"
        check(raw, where=where, needs=("weights", "source"), may=())
        cited = source(raw["source"], where=where)
        for text, weight in raw["weights"].items():
            yield GearPitch(
                written=_written(system, text),
                system=system,
                module=_module(system, float(text)),
                weight=float(weight),
                source=cited.title,
                grade=cited.grade,
                from_memory=cited.seen == "memory",
            )


def _module(system: str, number: float) -> float:
    if system == "diametral pitch":
        return INCH / number
    if system == "module":
        return si(number, "mm")
    return si(number, "in") / 3.141592653589793


def _written(system: str, text: str) -> str:
    return {"diametral pitch": f"{text} DP", "module": f"module {text}"}.get(system, f"{text} in circular pitch")


@cache
def pressure_angles() -> dict[float, float]:
    """Pressure angles [degree] and their prior weights: 14½ was the norm of the time in the United States."""
    return {float(angle): float(weight) for angle, weight in table("pitches.toml")["pressure_angle"]["weights"].items()}
