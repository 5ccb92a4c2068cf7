"""The teeth of a new gear: thick for the backlash wanted at the real centres, and every size that its cutter sets."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from gudgeon.handbook.pitches import cutter_number
from gudgeon.mechanics import gear_geometry as geometry
from gudgeon.metrology.gear_readings import GearFound
from gudgeon.systems.gears import description as d
from gudgeon.systems.gears.train import RunningSet

Limits = tuple[float, float]
LEAST_BACKLASH, MOST_OF_TARGET = 0.003 * d.INCH, 0.008 * d.INCH
"""A slow engine's gears are left at least so much, and new ones no more [m]; common practice, "a good fit"."""
THICKNESS_TOLERANCE, OUTSIDE_TOLERANCE, BORE_TOLERANCE = 0.001 * d.INCH, 0.003 * d.INCH, 0.0007 * d.INCH
"""What a shop with a dividing head and a form cutter holds [m]; common practice."""
THICKEST = 0.006 * d.INCH
"""A new gear's teeth may be so much thicker than half the pitch to suit a worn mate [m]; common practice."""


@dataclass(frozen=True, kw_only=True)
class NewTeeth:
    """One new gear's teeth: module [m], angle [degree]; addendum, dedendum, shift in modules; thin on the pitch line by [m]."""

    item: str
    teeth: int
    module: float
    angle: float
    addendum: float
    dedendum: float
    shift: float
    thinned: float

    @property
    def radian(self) -> float:
        """Pressure angle [rad]."""
        return math.radians(self.angle)

    @property
    def pitch_diameter(self) -> float:
        """[m]"""
        return self.teeth * self.module

    @property
    def outside(self) -> Limits:
        """Limits of the blank's diameter [m]: none over, a little under."""
        size = float(geometry.outside_diameter(teeth=self.teeth, module=self.module, addendum=self.addendum, shift=self.shift))
        return size - OUTSIDE_TOLERANCE, size

    @property
    def root(self) -> float:
        """Root diameter [m]."""
        return float(geometry.root_diameter(teeth=self.teeth, module=self.module, dedendum=self.dedendum, shift=self.shift))

    @property
    def whole_depth(self) -> float:
        """Depth that the cutter is set in from the blank's outside [m]."""
        return (self.addendum + self.dedendum) * self.module

    @property
    def thickness(self) -> Limits:
        """Limits of arc thickness on the pitch line [m]."""
        whole = float(geometry.tooth_thickness(module=self.module, angle=self.radian, shift=self.shift))
        middle = whole - self.thinned
        return middle - THICKNESS_TOLERANCE / 2, middle + THICKNESS_TOLERANCE / 2

    @property
    def chord(self) -> Limits:
        """Limits of the chordal thickness [m]."""
        low, high = (float(geometry.chordal_thickness(thickness=each, diameter=self.pitch_diameter)) for each in self.thickness)
        return low, high

    @property
    def chordal_addendum(self) -> float:
        """Depth to set on the gear-tooth calliper, from a blank at its upper limit [m]."""
        return float(
            geometry.chordal_addendum(outside=self.outside[1], diameter=self.pitch_diameter, thickness=sum(self.thickness) / 2)
        )

    @property
    def spanned(self) -> int:
        """How many teeth to span."""
        return int(geometry.teeth_to_span(teeth=self.teeth, angle=self.radian))

    @property
    def span(self) -> Limits:
        """Limits of the span [m]."""
        size = float(
            geometry.span(
                teeth=self.teeth,
                spanned=self.spanned,
                module=self.module,
                angle=self.radian,
                shift=self.shift,
                thinned=self.thinned,
            )
        )
        half = THICKNESS_TOLERANCE / 2 * math.cos(self.radian)
        return size - half, size + half

    @property
    def cutter(self) -> str:
        """Form cutter in words: its number in the set of eight, or that the gear is generated."""
        if self.teeth < 12:
            return "no form cutter of the set cuts under 12 teeth: generate it"
        kind = f"{d.INCH / self.module:.4g} DP" if abs(d.INCH / self.module % 0.5) < 1e-6 else f"module {self.module * 1e3:.4g}"
        if self.shift:
            return f"generated on a hob of {kind}, {self.angle:g}°, shifted {self.shift:+g} modules"
        if self.addendum < 0.9:
            return f"stub-tooth cutter for {self.teeth} teeth, {kind}, {self.angle:g}°"
        return f"No. {cutter_number(self.teeth)} (of 8), {kind}, {self.angle:g}°"

    @property
    def undercut(self) -> bool:
        """Would a generated tooth be undercut; form-cut teeth are then weakened or relieved by hand."""
        return self.teeth < float(geometry.least_teeth(angle=self.radian, addendum=self.addendum)) - 0.5 and not self.shift

    def parameters(self) -> dict[str, float]:
        """What the order is drawn up from, by name."""
        names = ("teeth", "module", "angle", "addendum", "dedendum", "shift", "thinned")
        return {f"{self.item} {name}": float(getattr(self, name)) for name in names}


def from_parameters(item: str, found: Mapping[str, float]) -> NewTeeth | None:
    """The teeth that a verdict's parameters ask for; None where it asks for no new gear of this name."""
    if f"{item} teeth" not in found:
        return None
    names = ("module", "angle", "addendum", "dedendum", "shift", "thinned")
    return NewTeeth(item=item, teeth=round(found[f"{item} teeth"]), **{name: found[f"{item} {name}"] for name in names})


def target_backlash(one: RunningSet) -> float:
    """The backlash to cut for [m]: the middle of the first authority's target, within what a slow engine's gears are left."""
    target = one.backlash_practice().target
    ends = [end for end in (target.low, target.high) if end is not None] if target else []
    middle = sum(ends) / len(ends) if ends else 0.005 * d.INCH
    return min(max(middle, LEAST_BACKLASH), MOST_OF_TARGET)


def centres_used(one: RunningSet) -> float:
    """The centre distance that new gears are cut for [m]: as fitted or returned where read then, else as found."""
    for stage in ("fitted", "returned"):
        read = one.reader.size(d.CENTRE, one.pair_item, stage=stage) if one.pair_item else None
        if read is not None:
            return read.value
    return one.centres.value if one.centres is not None else float(np.median(one.centre_draws))


def standard_backlash(one: RunningSet) -> float:
    """Backlash [m] of teeth of full thickness at the centres used; negative where the shafts stand too close."""
    first, mate = one.likeliest.teeth(), one.likeliest.mate()
    return float(
        geometry.backlash(
            thickness=first.thickness,
            mate_thickness=mate.thickness,
            teeth=one.counts[0],
            mate_teeth=one.counts[1],
            module=first.module,
            angle=first.angle,
            centres=centres_used(one),
        )
    )


def new_pair(one: RunningSet) -> tuple[NewTeeth, NewTeeth] | None:
    """Both gears new, thinned alike for the backlash wanted; None for a gear whose mate is not known."""
    if len(one.gears) != 2:
        return None
    each = (target_backlash(one) - standard_backlash(one)) / 2
    return new_teeth(one, one.gears[0], each), new_teeth(one, one.gears[1], each)


def new_small(one: RunningSet) -> NewTeeth | None:
    """The smaller gear new, its teeth as thick as the worn mate asks, as far as is prudent; None where wear is not known."""
    if len(one.gears) != 2:
        return None
    mate = one.worn(one.gears[1])
    if mate is None:
        return None
    thinned = target_backlash(one) - standard_backlash(one) - float(np.median(mate.mean))
    return new_teeth(one, one.gears[0], max(thinned, -THICKEST))


def new_teeth(one: RunningSet, gear: GearFound, thinned: float) -> NewTeeth:
    """A new gear in the likeliest system."""
    teeth = one.likeliest.teeth(one.gears.index(gear))
    return NewTeeth(
        item=gear.item,
        teeth=gear.count,
        module=float(teeth.module),
        angle=one.likeliest.angle,
        addendum=float(teeth.addendum),
        dedendum=float(teeth.dedendum),
        shift=float(teeth.shift),
        thinned=thinned,
    )
