"""What a bearing has to carry at rated speed, and the oil that carries it, from the outline and what was read.

Shared by the systems that have bearings; it knows none of them. Nothing is reckoned where bore, stroke or speed is unknown;
what else is taken for granted is said.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Origin
from gudgeon.handbook.oils import Oil, oil
from gudgeon.handbook.rules import rules
from gudgeon.mechanics.bearing_load import ATMOSPHERE, Loads, crankpin_load
from gudgeon.mechanics.oil import Running, dynamic, least_film, running, walther
from gudgeon.mechanics.rods import likely_piston_mass, likely_rod_mass
from gudgeon.systems.judging import Limit, Practice
from gudgeon.systems.measured import Draws, Reader

COMPRESSION_RATIO = 4.2
"""As built, petrol engines of 1905 to 1917 : 4 to 4.55; Page, Aviation Engines (1917). It only shapes the indicator card."""

ROD_OVER_STROKE = 2.25
"""Length of rod over stroke where it was not read; common practice, 2 to 2.5."""

INLET = (40.0, 65.0)
"""Oil in the sump or trough, and air about the bearing, at work [degree C]; from memory."""

HOUSING_COEFFICIENT = 15.3
"""Heat shed by a bearing housing stirred by its shaft [W/(m2 K)]; Shigley, self-contained bearings; from memory."""

HOUSING_AREA = 15.0
"""Surface of the housing over the bearing's projected area; Shigley's 12.5 to 20; from memory."""

FINISH = (0.4e-6, 1.2e-6)
"""Roughness of journal and scraped babbitt together [m]; from memory."""


@dataclass(frozen=True, kw_only=True)
class FilmFound:
    """The oil film of one bearing: least film under the mean load and with the greatest load held steady, draws [m]; the
    temperature at which it settles [degree C]; mean and greatest pressure on the projected area [Pa]."""

    mean: Draws
    held: Draws
    running: Running
    pressure: tuple[float, float]
    finish: Draws


@dataclass(frozen=True, kw_only=True)
class Duty:
    """The load on one crankpin of the engine, and its oil."""

    bench: Bench
    reader: Reader

    @cached_property
    def missing(self) -> tuple[str, ...]:
        """What the outline lacks for a load to be reckoned."""
        outline = self.bench.snapshot.outline
        wanted = (("bore", outline.bore), ("stroke", outline.stroke), ("rated speed", outline.rated_speed))
        return tuple(name for name, value in wanted if not value)

    @cached_property
    def speed(self) -> float:
        """Rated speed [rev/s]."""
        return (self.bench.snapshot.outline.rated_speed or 0.0) / 60.0

    @cached_property
    def peak(self) -> tuple[float, float]:
        """Greatest pressure in the cylinder for the fuel, low and high [Pa gauge]; what books of the time print."""
        every = rules("explosion pressure")
        rows = [row for row in every if self._fuel in row.applies] or list(every)
        lows, highs = [row.low for row in rows if row.low], [row.high for row in rows if row.high]
        return min(lows), max(highs)

    @cached_property
    def _fuel(self) -> str:
        fuel = self.bench.snapshot.outline.fuel.lower()
        names = (("kerosene", "kerosene"), ("paraffin", "kerosene"), ("alcohol", "alcohol"), ("natural", "natural gas"))
        return next((name for word, name in names if word in fuel), "coal gas" if "gas" in fuel.split() else "gasoline")

    @cached_property
    def loads(self) -> Loads:
        """Loads over the cycle at five peak pressures, from low to high."""
        outline = self.bench.snapshot.outline
        bore, stroke = outline.bore or 0.1, outline.stroke or 0.1
        rod = sum(likely_rod_mass(bore=bore, stroke=stroke)) / 2.0
        return crankpin_load(
            bore=bore,
            throw=stroke / 2.0,
            rod=ROD_OVER_STROKE * stroke,
            speed=2.0 * math.pi * self.speed,
            reciprocating=sum(likely_piston_mass(bore=bore)) / 2.0 + rod / 3.0,
            rotating=2.0 * rod / 3.0,
            compression_ratio=COMPRESSION_RATIO,
            peak=np.linspace(*self.peak, 5) + ATMOSPHERE,
            strokes=outline.strokes or 4,
            count=360,
        )

    def load(self, share: float = 1.0) -> tuple[Draws, Draws]:
        """Mean and greatest load over the cycle [N], times the share of it that one bearing takes."""
        at = self.reader.even("explosion pressure", *self.peak)
        grid = np.linspace(*self.peak, 5)
        loads = self.loads
        return (
            np.asarray(share * np.interp(at, grid, np.asarray(loads.mean))),
            np.asarray(share * np.interp(at, grid, np.asarray(loads.greatest))),
        )

    @cached_property
    def oil(self) -> tuple[Oil, bool]:
        """The oil of the outline, and whether it names one; SAE 30 else."""
        text = f"{self.bench.snapshot.outline.oiling} {self.bench.snapshot.outline.notes}"
        named = re.search(r"\b(?:SAE|sae)\s*-?\s*(20|30|40|50|60)\b", text)
        return oil(f"SAE {named[1]}" if named else "SAE 30"), named is not None

    def viscosity(self, temperature: float) -> float:
        """Dynamic viscosity of that oil, middle of its grade [Pa s]."""
        return float(dynamic(temperature=temperature, constants=self._constants))

    @cached_property
    def _constants(self) -> tuple[float, float]:
        grade = self.oil[0]
        return walther(temperature=(40.0, 100.0), kinematic=(sum(grade.at_40) / 2.0, sum(grade.at_100) / 2.0))

    def film(self, *, name: str, diameter: Draws, length: float, clearance: Draws, share: float = 1.0) -> FilmFound:
        """The film of one bearing at rated load and speed.

        Temperature is balanced at the middle of all inputs; the draws spread it by the span of the inlet's, and the
        viscosity by that of the grade (about a seventh each way).
        """
        mean, greatest = self.load(share)
        middle = float(np.median(diameter))
        tight = np.maximum(clearance, 2e-6)
        state = running(
            load=float(np.median(mean)),
            diameter=middle,
            length=length,
            clearance=float(np.median(tight)),
            speed=self.speed,
            viscosity_at=self.viscosity,
            inlet=sum(INLET) / 2.0,
            housing=HOUSING_COEFFICIENT * HOUSING_AREA * middle * length,
        )
        warmer = self.reader.even("oil in the sump", *INLET) - sum(INLET) / 2.0
        grade = self.reader.even("viscosity within its grade", 0.86, 1.14)
        viscosity = grade * np.asarray(dynamic(temperature=state.temperature + warmer, constants=self._constants))
        common = {"diameter": diameter, "length": length, "clearance": tight, "speed": self.speed, "viscosity": viscosity}
        projected = middle * length
        return FilmFound(
            mean=least_film(load=mean, **common),
            held=least_film(load=greatest, **common),
            running=state,
            pressure=(float(np.median(mean)) / projected, float(np.median(greatest)) / projected),
            finish=self.reader.even(f"finish of {name}", *FINISH),
        )


def film_practice(diameter: float) -> Practice:
    """What is said of a least film: Trumpler's for a ground journal, and three times the roughness; neither decides.

    Both are from memory; old engines with scraped babbitt and splash oil have run a century on less at every stroke.
    """
    row = rules("bearing film")[0]
    low, _ = row.at(diameter)
    return Practice(
        limits=(
            Limit(size=low or 0.0, most=False, origin=Origin(row.grade, row.source, row.applies), decides=False),
            Limit(
                size=3.0 * sum(FINISH) / 2.0,
                most=False,
                origin=Origin("E", "from memory", "three times the roughness of both faces: no touching"),
                decides=False,
            ),
        )
    )
