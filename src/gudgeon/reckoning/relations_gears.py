"""Pitch and pressure angle of a spur gear from its tooth count and whatever was read: diameters, spans, centres.

Full-depth involute teeth: outside (N + 2) m, root (N + 2 - 2 x 2.157) m, centre distance (N1 + N2) m / 2, span over k teeth
m cos a [(k - 1/2) pi + N inv a] (Machinery's Handbook method; inv a = tan a - a). m is the pitch diameter per tooth. Stub teeth
have an addendum of 0.8 m. Two spans over k and k + 1 teeth differ by the base pitch pi m cos a, whatever the wear.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from gudgeon.handbook.pitches import GearPitch, gear_pitches, pressure_angles

INCH = 0.0254
WHOLE_DEPTH = 2.157
"""Whole depth of full-depth teeth as cut at the time, in modules (Brown & Sharpe proportions; from memory)."""
OUTSIDE_SPREAD, ROOT_SPREAD, CENTRE_SPREAD = 0.004 * INCH, 0.006 * INCH, 0.003 * INCH
SPAN_LESS, SPAN_SPREAD = 0.0015 * INCH, 0.002 * INCH
"""Teeth were cut thinner for backlash and have worn thinner since (common practice)."""
STUB = 0.1
"""Chance of stub teeth before anything is read."""
BLUNDER = 1e-4
"""Floor under any one reading's say, so that one bad reading never decides alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """A reading of a gear: size and its standard uncertainty [m]."""

    size: float
    uncertainty: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GearReadings:
    """What was read of one gear. ``spans`` by number of teeth spanned; ``centre`` with the mate's tooth count."""

    teeth: int
    outside: Read | None = None
    root: Read | None = None
    spans: Mapping[int, Read] = field(default_factory=dict)
    centre: Read | None = None
    mate_teeth: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GearCandidate:
    """A pitch, a pressure angle [degree] and an addendum [modules] that the readings may be of, with its probability."""

    pitch: GearPitch
    angle: float
    addendum: float
    probability: float


def involute(angle: float) -> float:
    """inv a = tan a - a, a in radian."""
    return math.tan(angle) - angle


def outside_diameter(*, teeth: int, module: float, addendum: float = 1.0) -> float:
    """Outside diameter [m]."""
    return (teeth + 2 * addendum) * module


def root_diameter(*, teeth: int, module: float, addendum: float = 1.0) -> float:
    """Root diameter [m]; the clearance below the mate's tip is 0.157 m for both depths of tooth."""
    return (teeth - 2 * (addendum + WHOLE_DEPTH - 2.0)) * module


def centre_distance(*, teeth: int, mate_teeth: int, module: float) -> float:
    """Distance of centres of a pair without correction [m]."""
    return (teeth + mate_teeth) * module / 2


def span(*, teeth: int, spanned: int, module: float, angle_degree: float) -> float:
    """Span over k teeth without backlash [m]."""
    angle = math.radians(angle_degree)
    return module * math.cos(angle) * ((spanned - 0.5) * math.pi + teeth * involute(angle))


def identify_gear(gears: Sequence[GearReadings]) -> tuple[GearCandidate, ...]:
    """Candidates by falling probability, for one gear or for a pair that run together (both must be of one pitch).

    P is proportional to the weight of pitch and angle times a normal curve for each reading. Without a span nothing tells the
    pressure angle but custom; without a diameter or a centre distance nothing tells the pitch.
    """
    found: list[tuple[GearPitch, float, float, float]] = []
    for pitch in gear_pitches():
        sizes = math.fsum(_log_sizes(gear, pitch.module, 1.0) for gear in gears)
        stub = math.fsum(_log_sizes(gear, pitch.module, 0.8) for gear in gears)
        for addendum, size, share in ((1.0, sizes, 1 - STUB), (0.8, stub, STUB)):
            for angle, custom in pressure_angles().items():
                spans = math.fsum(_log_spans(gear, pitch.module, angle) for gear in gears)
                found.append((pitch, angle, addendum, math.log(pitch.weight * custom * share) + size + spans))
    best = max(each[3] for each in found)
    total = math.fsum(math.exp(each[3] - best) for each in found)
    ranked = sorted(found, key=lambda each: -each[3])
    return tuple(
        GearCandidate(pitch=pitch, angle=angle, addendum=addendum, probability=math.exp(log - best) / total)
        for pitch, angle, addendum, log in ranked
        if math.exp(log - best) / total > 1e-3
    )


def _log_sizes(gear: GearReadings, module: float, addendum: float) -> float:
    said = 0.0
    if gear.outside is not None:
        away = outside_diameter(teeth=gear.teeth, module=module, addendum=addendum) - gear.outside.size - 0.001 * INCH
        said += _log(away, math.hypot(gear.outside.uncertainty, OUTSIDE_SPREAD))
    if gear.root is not None:
        away = root_diameter(teeth=gear.teeth, module=module, addendum=addendum) - gear.root.size
        said += _log(away, math.hypot(gear.root.uncertainty, ROOT_SPREAD))
    if gear.centre is not None and gear.mate_teeth is not None:
        away = centre_distance(teeth=gear.teeth, mate_teeth=gear.mate_teeth, module=module) - gear.centre.size
        said += _log(away, math.hypot(gear.centre.uncertainty, CENTRE_SPREAD))
    return said


def _log_spans(gear: GearReadings, module: float, angle: float) -> float:
    """Differences of neighbouring spans tell the base pitch sharply; one span tells it with the thinning of the teeth."""
    said, counts = 0.0, sorted(gear.spans)
    for fewer, more in pairwise(counts):
        steps = more - fewer
        base = steps * math.pi * module * math.cos(math.radians(angle))
        doubt = math.hypot(gear.spans[fewer].uncertainty, gear.spans[more].uncertainty, 0.0004 * INCH)
        said += _log(gear.spans[more].size - gear.spans[fewer].size - base, doubt)
    if counts:
        first = counts[0]
        away = span(teeth=gear.teeth, spanned=first, module=module, angle_degree=angle) - gear.spans[first].size - SPAN_LESS
        said += _log(away, math.hypot(gear.spans[first].uncertainty, SPAN_SPREAD))
    return said


def _log(away: float, sigma: float) -> float:
    return math.log(math.exp(-0.5 * min((away / sigma) ** 2, 1400.0)) + BLUNDER) - math.log(sigma / INCH)
