"""Standard gear pitches, pressure angles, tooth forms and form cutters of the time, with how likely each is."""

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


@dataclass(frozen=True, slots=True, kw_only=True)
class ToothForm:
    """One system of tooth depth, in modules.

    Attributes
    ----------
    weight : how common it was, relative. ``angles`` that it went with [degree], empty for any.
    diametral_pitch : the one pitch that it belongs to (a stub system named by two pitches), or None for any.
    """

    name: str
    addendum: float
    dedendum: float
    weight: float
    angles: tuple[float, ...]
    diametral_pitch: float | None
    source: str
    from_memory: bool
    note: str = ""

    @property
    def whole_depth(self) -> float:
        """Addendum and dedendum together, in modules."""
        return self.addendum + self.dedendum

    def suits(self, pitch: GearPitch, angle: float) -> bool:
        """Was this form cut at this pitch and pressure angle [degree]?"""
        if self.angles and angle not in self.angles:
            return False
        own = self.diametral_pitch
        return own is None or (pitch.system == "diametral pitch" and abs(pitch.diametral_pitch - own) < 1e-6)


@cache
def tooth_forms() -> tuple[ToothForm, ...]:
    """Full depth first, then stub and other systems."""
    found = []
    for name, raw in table("pitches.toml")["form"].items():
        where = f"pitches.toml [form.{name}]"
        check(raw, where=where, needs=("addendum", "dedendum", "weight", "source"), may=("angles", "diametral_pitch", "note"))
        cited = source(raw["source"], where=where)
        found.append(
            ToothForm(
                name=name,
                addendum=float(raw["addendum"]),
                dedendum=float(raw["dedendum"]),
                weight=float(raw["weight"]),
                angles=tuple(float(each) for each in raw.get("angles", ())),
                diametral_pitch=float(raw["diametral_pitch"]) if "diametral_pitch" in raw else None,
                source=cited.title,
                from_memory=cited.seen == "memory",
                note=raw.get("note", ""),
            )
        )
    return tuple(found)


def cutter_number(teeth: int) -> int:
    """Number of the involute form cutter for so many teeth, eight to a set (Brown & Sharpe's, in Rose).

    Raises ``ValueError`` under 12 teeth, which the set does not cut.
    """
    raw = table("pitches.toml")["cutters"]
    for row in raw["rows"]:
        if row["from"] <= teeth <= row.get("to", teeth):
            return int(row["number"])
    raise ValueError(f"A cutter was asked for {teeth} teeth; the set of eight cuts 12 teeth and more.")
