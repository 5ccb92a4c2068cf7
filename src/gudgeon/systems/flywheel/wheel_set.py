"""Flywheels, clutch and pulley on the bench, and what the engine puts into them: torque, swing of energy, run-up time."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.system import Feature
from gudgeon.handbook.materials import material
from gudgeon.mechanics import flywheels
from gudgeon.quantity import to_si
from gudgeon.systems.bearing_duty import Duty
from gudgeon.systems.flywheel import description as d
from gudgeon.systems.judging import slow_engine
from gudgeon.systems.measured import Draws, Measured, Reader

RPM = math.pi / 30
ARMS = (0.05, 0.15)
"""What arms and hub add to the rim's moment of inertia [1]; common practice."""
GYRATION = (0.72, 0.85)
"""Radius of gyration over outside radius where only the weight is known; from memory."""


@dataclass(frozen=True, kw_only=True)
class WheelSet:
    """All wheels, the clutch and the pulley that were read or noted. ``worked_out`` keeps what was computed of them."""

    bench: Bench
    reader: Reader
    worked_out: dict[str, object] = field(default_factory=dict)

    @classmethod
    def of(cls, bench: Bench) -> WheelSet:
        """As they stand on the bench; those asked for last are kept."""
        kept = _LAST.get("set")
        if kept is None or kept.bench.snapshot is not bench.snapshot or kept.bench.named != bench.named:
            kept = _LAST["set"] = cls(bench=bench, reader=Reader(bench=bench))
        return kept

    @cached_property
    def wheels(self) -> tuple[str, ...]:
        """Names of the flywheels."""
        return self.bench.items(d.WHEEL)

    @cached_property
    def clutches(self) -> tuple[str, ...]:
        """Names of the clutches."""
        return self.bench.items(d.CLUTCH)

    @cached_property
    def pulleys(self) -> tuple[str, ...]:
        """Names of the pulleys."""
        return self.bench.items(d.PULLEY)

    @cached_property
    def slow(self) -> bool:
        """Is it a slow engine?"""
        return slow_engine(self.bench.snapshot.outline.rated_speed)

    @cached_property
    def rated(self) -> float | None:
        """Rated speed [rad/s]."""
        speed = self.bench.snapshot.outline.rated_speed
        return None if speed is None else speed * RPM

    @cached_property
    def power(self) -> float | None:
        """Rated power [W], from the outline's words; None where they name none."""
        found = re.search(r"([\d.]+)\s*(b\.?h\.?p\.?|h\.?p\.?|horse|kw)", self.bench.snapshot.outline.power.lower())
        if found is None:
            return None
        try:
            return float(found[1]) * 1e3 if found[2] == "kw" else to_si(float(found[1]), "hp")
        except ValueError:
            return None

    def of_crank(self, feature: Feature) -> Measured | None:
        """A size that was read with the crankshaft; None where there are two wheels and it could be either's."""
        items = self.bench.items("crankshaft")
        return self.reader.size(feature, items[0]) if items and len(self.wheels) < 2 else None

    def hub(self, item: str) -> Measured | None:
        """Bore of the hub, at its largest."""
        return self.reader.largest(d.HUB, item) or self.of_crank(d.CRANK_HUB)

    def seat(self, item: str) -> Measured | None:
        """The shaft in it, at its smallest."""
        return self.reader.smallest(d.SEAT, item) or self.of_crank(d.CRANK_SEAT)

    def inertia(self, item: str) -> tuple[Draws, tuple[str, ...], str] | None:
        """Moment of inertia [kg m2], readings, and what it rests on: the rim's sizes, else the weight."""
        outside, width, thick, mass = (
            self.reader.size(feature, item) for feature in (d.OUTSIDE, d.RIM_WIDTH, d.RIM_THICKNESS, d.MASS)
        )
        if outside is None:
            return None
        if width is not None and thick is not None:
            inside = outside.draws - 2 * thick.draws
            rim = flywheels.rim_mass(
                outside=outside.draws, inside=inside, width=width.draws, density=material("grey cast iron").density
            )
            ring = np.asarray(flywheels.ring_inertia(mass=rim, outside=outside.draws, inside=inside))
            found = ring * (1 + self.reader.even(f"arms and hub of {item}", *ARMS))
            return found, (*outside.inputs, *width.inputs, *thick.inputs), "its rim and a tenth for arms and hub"
        if mass is not None:
            radius = outside.draws / 2 * self.reader.even(f"radius of gyration of {item}", *GYRATION)
            return mass.draws * np.square(radius), (*mass.inputs, *outside.inputs), "its weight"
        return None

    @cached_property
    def all_inertia(self) -> tuple[Draws, tuple[str, ...], str] | None:
        """All wheels together; None while one is not known."""
        found = [self.inertia(item) for item in self.wheels]
        if not found or any(each is None for each in found):
            return None
        known = [each for each in found if each is not None]
        inputs = tuple(dict.fromkeys(identity for each in known for identity in each[1]))
        return np.asarray(np.sum([each[0] for each in known], axis=0)), inputs, known[0][2]

    @cached_property
    def moments(self) -> tuple[Draws, Draws, float] | None:
        """Greatest turning moment [N m] and swing of energy [J] at full load, draws; and the mean moment likely [N m].

        From an idealised card with what books of the time print as explosion pressure, cylinders alike and evenly spaced,
        likely weights of pistons and rods. None where bore, stroke, speed or cylinders are unknown.
        """
        outline, duty = self.bench.snapshot.outline, Duty(bench=self.bench, reader=self.reader)
        if duty.missing or outline.cylinders is None or outline.stroke is None:
            return None
        loads, throw = duty.loads, outline.stroke / 2
        one = throw * (loads.across * np.cos(loads.angle) + loads.along * np.sin(loads.angle))
        whole = flywheels.together(moment=one, cylinders=outline.cylinders)
        step = float(loads.angle[1] - loads.angle[0])
        swing, most = np.asarray(flywheels.fluctuation(moment=whole, step=step)), whole.max(axis=-1)
        at, peaks = self.reader.even("explosion pressure", *duty.peak), np.linspace(*duty.peak, len(most))
        return np.interp(at, peaks, most), np.interp(at, peaks, swing), float(whole.mean(axis=-1)[len(most) // 2])

    @cached_property
    def torque(self) -> float | None:
        """Mean torque at full load [N m]: rated power over rated speed, else of the idealised card."""
        if self.power is not None and self.rated is not None:
            return self.power / self.rated
        return None if self.moments is None else self.moments[2]


_LAST: dict[str, WheelSet] = {}


def blank(item: str, quantity: str, *, part: str = d.WHEEL, dimension: str = "length") -> Finding:
    """A finding of this system with its names only."""
    return Finding(system=d.KEY, part=part, item=item, quantity=quantity, dimension=dimension)
