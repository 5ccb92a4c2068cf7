"""Manual lines of spur gears: tooth size and pressure angle from all readings of a gear, or of a pair, together."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.origin import Origin
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.specification import Candidate, Specification
from gudgeon.mechanics import gear_geometry as geometry
from gudgeon.metrology.gear_identity import (
    CENTRE_SPREAD,
    OUTSIDE_SPREAD,
    ROOT_SPREAD,
    Read,
    Teeth,
    centres_of,
    identify_gear,
    what_would_tell,
)
from gudgeon.metrology.gear_readings import GearFound, GearSet, gears_read
from gudgeon.quantity.show import written_size
from gudgeon.reckoning.relations_volumes import drive_ratio

INCH = 0.0254
THICKNESS_SPREAD = 0.002 * INCH
"""How far the thickness of teeth stood off its formula as cut (common practice)."""


def gear_specifications(
    estimates: Mapping[FeatureKey, Sequence[Estimate]], counted: Mapping[FeatureKey, Specification]
) -> dict[FeatureKey, Specification]:
    """Lines for every feature of every gear whose teeth were counted."""
    counts = {key: round(line.nominal) for key, line in counted.items() if line.dimension == "count" and line.nominal}
    found: dict[FeatureKey, Specification] = {}
    for group in gears_read(estimates, counts=counts):
        told = _Told(group)
        for place, gear in enumerate(group.gears):
            found.update(told.lines(gear, place, counted))
        if group.centre is not None:
            found[group.centre[0]] = told.centre(*group.centre)
    return found


class _Told:
    """A set of gears put into lines."""

    def __init__(self, group: GearSet) -> None:
        self.group = group
        self.candidates = identify_gear(group.readings)
        self.settle = what_would_tell(group.readings, self.candidates)
        first = self.candidates[0]
        self.alone = math.fsum(each.probability for each in self.candidates if each.alike(first))

    def lines(
        self, gear: GearFound, place: int, counted: Mapping[FeatureKey, Specification]
    ) -> dict[FeatureKey, Specification]:
        assert gear.teeth is not None
        key, teeth = gear.teeth
        lines = {}
        if key in counted:
            lines[key] = self._with_ratio(counted[key], gear)
        asked: list[tuple[tuple[FeatureKey, Read] | None, Callable[[Teeth], object], float]] = [
            (gear.outside, lambda each: each.outside(teeth), OUTSIDE_SPREAD),
            (gear.root, lambda each: each.root(teeth), ROOT_SPREAD),
            (gear.chord, lambda each: _chord(each, teeth), THICKNESS_SPREAD),
        ]
        for spanned, told in gear.spans.items():
            asked.append((told, lambda each, spanned=spanned: each.span(teeth, spanned), THICKNESS_SPREAD))  # type: ignore[misc]
        for pin, told in gear.pins.items():
            asked.append((told, lambda each, pin=pin: _over_pins(each, teeth, pin), 2 * THICKNESS_SPREAD))  # type: ignore[misc]
        for told_of, size, spread in asked:
            if told_of is not None:
                sizes = [float(size(each.teeth(place))) for each in self.candidates]  # type: ignore[arg-type]
                lines[told_of[0]] = self._line(*told_of, sizes, spread)
        return lines

    def centre(self, key: FeatureKey, read: Read) -> Specification:
        teeth, mate = (gear.count for gear in self.group.gears)
        sizes = [float(centres_of(each.teeth(), each.mate(), teeth=teeth, mate_teeth=mate)) for each in self.candidates]
        return self._line(key, read, sizes, CENTRE_SPREAD)

    def _with_ratio(self, line: Specification, gear: GearFound) -> Specification:
        said = [
            f"It turns {drive_ratio(driver=gear.count, driven=mate.count)} times for one turn of {mate.item} "
            f"({mate.count} teeth)."
            for mate in self.group.gears
            if mate is not gear
        ]
        return replace(line, evidence=(*line.evidence, *said))

    def _line(self, key: FeatureKey, read: Read, sizes: Sequence[float], spread: float) -> Specification:
        """The size that each candidate asks for; sizes that agree within half a thousandth add up."""
        first, nominal = self.candidates[0], sizes[0]
        agreeing = math.fsum(
            each.probability for size, each in zip(sizes, self.candidates, strict=True) if abs(size - nominal) < 0.0005 * INCH
        )
        # what this gear measured when new lies between what was read, less its wear, and what the tooth form asks for
        weight = spread**2 / (spread**2 + read.uncertainty**2)
        middle = nominal + weight * (read.size - nominal)
        half = 1.645 * math.hypot(spread * read.uncertainty / math.hypot(spread, read.uncertainty), 0.25 * spread)
        return Specification(
            key=key,
            dimension="length",
            nominal=nominal,
            low=middle - half,
            high=middle + half + 0.25 * spread,
            probability=min(agreeing, 1.0),
            origin=Origin("C", f"all readings of the gear together; {first.pitch.source}"),
            written=f"{written_size(nominal)} ({first.written})",
            runners_up=self._runners(sizes),
            evidence=(f"{first.written} fits best, {self.alone * 100:.0f} in 100 with those that run with it.",),
            settle=self.settle,
        )

    def _runners(self, sizes: Sequence[float]) -> tuple[Candidate, ...]:
        return tuple(
            Candidate(size, f"{written_size(size)} ({each.written})", "", each.probability)
            for size, each in zip(sizes[1:6], self.candidates[1:6], strict=True)
            if each.probability > 0.02
        )


def _chord(teeth: Teeth, count: int) -> float:
    return float(geometry.chordal_thickness(thickness=teeth.thickness, diameter=count * float(teeth.module)))


def _over_pins(teeth: Teeth, count: int, pin: float) -> float:
    over = geometry.over_pins(teeth=count, module=teeth.module, angle=teeth.angle, pin=pin, thickness=teeth.thickness)
    return float(over)
