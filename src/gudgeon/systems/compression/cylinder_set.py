"""The cylinders as the compression test sees them: geometry, what is known and what must be allowed for, all as draws."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import TypeVar, cast

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.system import Feature
from gudgeon.mechanics import compression as model
from gudgeon.mechanics.gas_flow import standard_pressure
from gudgeon.systems.compression import description as d
from gudgeon.systems.compression.lanes import ROWS, Lanes
from gudgeon.systems.engine_kind import which_engines
from gudgeon.systems.measured import Draws, Measured, Reader, number

T = TypeVar("T")
Rows = NDArray[np.intp]

NORMAL_90 = 1.6448536269514722
RATIO_ROD = (3.8, 5.0)
"""Rod over throw where nothing is known; common proportions of the time."""
SURFACE = {"overhead": (1.0, 1.2), "L head": (1.3, 1.7), "T head": (1.4, 1.8), "F head": (1.2, 1.6), None: (1.0, 1.7)}
"""Area of head and crown over two flat discs of the bore; F, chosen from chambers of the time."""
SPEEDS = (50 * d.RPM, 200 * d.RPM)
"""From a hand on the crank to a starter [rad/s]; common practice."""
HOSE = (0.0, 4.0 * d.CC)
"""What the tester's fitting adds to the clearance volume [m3]; from memory."""
COLD = (283.0, 298.0)
"""Temperature of charge and walls of a cold engine in a shop [K]."""
CLOSES = {"slow": (5.0, 35.0), "fast": (20.0, 55.0), "unknown": (5.0, 50.0)}
"""Where the intake closes if nobody read it [degree after outer centre]: the printed timings span it (Rathbun, Kansas State,
Kean, Pagé, Ford)."""
SUCTION = (0.5 * d.PSI, 2.0 * d.PSI)
"""What an inlet that suction opens leaves the charge short of [Pa]: Pagé's table starts from 13 psia."""
CHARGE_AIR = (13.6 * d.PSI, 14.9 * d.PSI)
"""Barometer where neither it nor the height is known [Pa]: sea level to some 2,000 ft with weather."""


@dataclass(frozen=True, kw_only=True)
class CylinderSet:
    """All cylinders of the test. ``worked_out`` keeps what was computed of them, by name."""

    bench: Bench
    reader: Reader
    worked_out: dict[str, object] = field(default_factory=dict)

    @classmethod
    def of(cls, bench: Bench) -> CylinderSet:
        """The test as it stands on the bench; the one asked for last is kept."""
        kept = _LAST.get("set")
        same = kept is not None and kept.bench.snapshot is bench.snapshot and kept.bench.named == bench.named
        if kept is None or not same or not _same_findings(kept.bench, bench):
            kept = _LAST["set"] = cls(bench=bench, reader=Reader(bench=bench))
        return kept

    @cached_property
    def items(self) -> tuple[str, ...]:
        """Names of the cylinders."""
        return tuple(item for item in self.bench.items(d.PART) if d.DRY.belongs_to(item))

    @cached_property
    def shop(self) -> str:
        """Name under which the shop's readings stand."""
        return next((item for item in self.bench.items(d.PART) if d.BAROMETER.belongs_to(item)), d.SHOP)

    def found(self, system: str, quantity: str, item: str | None = None) -> Finding | None:
        """The first measured finding of another system on a quantity, of the cylinder of that number where one is named."""
        for finding in self.bench.findings.get(system, ()):
            right = item is None or number(finding.item) == number(item)
            if right and finding.quantity == quantity and finding.value is not None:
                return finding
        return None

    def draws_of(self, finding: Finding) -> Draws:
        """Draws of another system's finding, normal over its interval."""
        value = finding.value or 0.0
        spread = ((finding.high or value) - (finding.low or value)) / (2 * NORMAL_90)
        return value + spread * self.bench.named(f"{finding.system} {finding.item} {finding.quantity}")

    def read(self, feature: Feature, item: str) -> Measured | None:
        """A feature as one size."""
        return self.reader.size(feature, item)

    def even(self, name: str, ends: tuple[float, float]) -> Draws:
        """Draws spread evenly, under one name for all cylinders."""
        return self.reader.even(f"compression: {name}", *ends)

    def keep(self, name: str, made: T) -> T:
        """Keep something worked out."""
        self.worked_out[name] = made
        return made

    @cached_property
    def bore(self) -> float | None:
        """The bore [m]: as found when new, else that of the outline."""
        sizes = [f.value for f in self.bench.findings.get("cylinders", ()) if f.quantity == "bore when new" and f.value]
        return float(np.median(sizes)) if sizes else self.bench.snapshot.outline.bore

    @cached_property
    def stroke(self) -> float | None:
        """The stroke [m], from the outline."""
        return self.bench.snapshot.outline.stroke

    @cached_property
    def barometer(self) -> tuple[Draws, tuple[str, ...], str]:
        """Barometer [Pa], its readings, and how it is known."""
        if (read := self.read(d.BAROMETER, self.shop)) is not None:
            return read.draws, read.inputs, "as read"
        if (height := self.read(d.HEIGHT, self.shop)) is not None:
            weather = 1_000.0 * self.bench.named("compression: weather")
            return np.asarray(standard_pressure(height=height.draws)) + weather, height.inputs, "from the height"
        return self.even("barometer", CHARGE_AIR), (), "not read"

    @cached_property
    def speed(self) -> tuple[Draws, tuple[str, ...]]:
        """Cranking speed [rad/s] and its readings; evenly in its logarithm from hand to starter where it was not counted."""
        if (read := self.read(d.SPEED, self.shop)) is not None:
            return np.maximum(read.draws, 5 * d.RPM), read.inputs
        return np.exp(self.even("speed", (math.log(SPEEDS[0]), math.log(SPEEDS[1])))), ()

    @cached_property
    def closing(self) -> tuple[Draws, tuple[str, ...]]:
        """Where the intake closes after outer dead centre [rad], and the readings."""
        if self.automatic:
            return self.reader.full(0.0), ()
        if (event := self.found("camshaft", "inlet closes after outer centre")) is not None:
            return self.draws_of(event), event.inputs
        ends = CLOSES[which_engines(self.bench.snapshot.outline)[0]]
        return self.even("intake closes", (math.radians(ends[0]), math.radians(ends[1]))), ()

    @property
    def automatic(self) -> bool:
        """Does suction open the inlets?"""
        return self.bench.snapshot.outline.inlet == "automatic"

    def volume(self, item: str) -> tuple[Draws, tuple[str, ...]] | None:
        """Clearance volume of a cylinder [m3] as poured, else as its neighbours' within two in a hundred; None without any."""
        if (read := self.read(d.VOLUME, item)) is not None:
            return read.draws, read.inputs
        others = [each for other in self.items if (each := self.read(d.VOLUME, other)) is not None]
        if not others:
            return None
        mean = np.asarray(np.mean([each.draws for each in others], axis=0))
        return mean * (1 + 0.02 * self.bench.named(f"volume of {item}, not poured")), ()

    def ratio(self, item: str) -> Draws | None:
        """Compression ratio of a cylinder; None where bore, stroke or volume is missing."""
        volume = self.volume(item)
        if volume is None or self.bore is None or self.stroke is None:
            return None
        return np.asarray(model.compression_ratio(bore=self.bore, stroke=self.stroke, clearance_volume=volume[0]))

    @cached_property
    def lanes(self) -> Lanes | None:
        """Peak pressures over leak and volume for what must be allowed for; None where geometry is missing."""
        volumes = [each[0] for item in self.items if (each := self.volume(item)) is not None]
        if not volumes or self.bore is None or self.stroke is None:
            return None
        ends = (float(min(v.min() for v in volumes)) - 20 * d.CC, float(max(v.max() for v in volumes)) + 6 * d.CC)
        rows = slice(0, min(ROWS, self.bench.count))
        ambient = self.barometer[0][rows]
        return Lanes.run(
            (max(ends[0], 0.5 * ends[1]), ends[1]),
            bore=self.bore,
            stroke=self.stroke,
            rod=self.even("rod", RATIO_ROD)[rows] * self.stroke / 2,
            speed=self.speed[0][rows],
            intake_closes=self.closing[0][rows],
            ambient=ambient,
            charge_pressure=ambient - (self.even("suction", SUCTION)[rows] if self.automatic else 0.0),
            charge_temperature=self.even("cold", COLD)[rows],
            wall_temperature=self.even("cold", COLD)[rows],
            film=self.even("film", model.ANNAND)[rows],
            surface=self.even("surface", SURFACE[self.bench.snapshot.outline.valves])[rows],
        )

    def gauge(self, area: Draws, volume: Draws, rows: Rows | None = None) -> Draws:
        """Gauge pressure [Pa] for leak areas [m2] and clearance volumes [m3], draw by draw, when the gauge stands.

        ``rows`` are the draws of the bench that these are, all of them in order by default.
        """
        lanes = cast(Lanes, self.lanes)
        which = np.arange(self.bench.count) if rows is None else rows
        row = which % len(lanes.ambient)
        return np.asarray(lanes.rise(area, volume + self.even("hose", HOSE)[which], row) * lanes.ambient[row])


_LAST: dict[str, CylinderSet] = {}


def _same_findings(one: Bench, other: Bench) -> bool:
    return all(one.findings.get(key) is other.findings.get(key) for key in {*one.findings, *other.findings})


def inputs_of(*groups: Sequence[str]) -> tuple[str, ...]:
    """Identities of readings, each once."""
    return tuple(dict.fromkeys(identity for group in groups for identity in group))


def blank(item: str, quantity: str, *, dimension: str = "pressure") -> Finding:
    """A finding of this system with its names only."""
    return Finding(system=d.KEY, part=d.PART, item=item, quantity=quantity, dimension=dimension)
