"""Pitch, pressure angle, tooth form and profile shift of a spur gear, from its tooth count and whatever was read of it.

A candidate is a standard pitch, an angle, a form of tooth that was cut at both, and a shift. Its weight is how common each was
times a normal curve for every reading. Two spans over k and k + 1 teeth differ by the base pitch pi m cos a, whatever has worn
off; one span, a chord or a reading over pins tells the angle only as far as the wear is known. Where two candidates stay
likely, the reading is named at which they part most.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from itertools import pairwise

import numpy as np

from gudgeon.handbook.pitches import GearPitch, ToothForm, gear_pitches, pressure_angles, tooth_forms
from gudgeon.mechanics import gear_geometry as geometry
from gudgeon.mechanics.numbers import Array, Number

INCH = 0.0254
OUTSIDE_LESS, OUTSIDE_SPREAD = 0.001 * INCH, 0.004 * INCH
ROOT_SPREAD, CENTRE_SPREAD, STEP_SPREAD = 0.006 * INCH, 0.003 * INCH, 0.0004 * INCH
"""How far sizes stood off their formulas as made (common practice); tips have also lost a little."""
THINNED = ((0.7, 0.0015 * INCH, 0.002 * INCH), (0.3, 0.006 * INCH, 0.005 * INCH))
"""Teeth are thinner than half the pitch: cut so for backlash, and worn. Shares of two normal curves (common practice)."""
SHIFTED = 0.05
"""Chance of a profile shift before anything is read: rare before 1930 (common practice)."""
SHIFTS = (-0.5, -0.4, -0.3, -0.25, -0.2, -0.15, -0.1, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5)
BLUNDER = 1e-4
"""Floor under any one reading's say, so that one bad reading never decides alone."""
SURE = 0.95
"""A candidate that is likelier than this stands alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """A reading of a gear: size and its standard uncertainty [m]."""

    size: float
    uncertainty: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GearReadings:
    """What was read of one gear.

    ``spans`` by number of teeth spanned; ``pins`` by diameter of the pins [m]; ``chord`` is the chordal thickness at the pitch
    line; ``centre`` belongs to the pair and is told to one gear of it, with the mate's tooth count.
    """

    teeth: int
    outside: Read | None = None
    root: Read | None = None
    spans: Mapping[int, Read] = field(default_factory=dict)
    pins: Mapping[float, Read] = field(default_factory=dict)
    chord: Read | None = None
    centre: Read | None = None
    mate_teeth: int | None = None


@dataclass(frozen=True, kw_only=True)
class Teeth:
    """Teeth of one kind, or of many at once: module [m], angle [rad]; addendum, dedendum and shift in modules."""

    module: Number
    angle: Number
    addendum: Number
    dedendum: Number
    shift: Number

    def outside(self, teeth: int) -> Number:
        """Outside diameter that they ask for [m]."""
        return geometry.outside_diameter(teeth=teeth, module=self.module, addendum=self.addendum, shift=self.shift)

    def root(self, teeth: int) -> Number:
        """Root diameter that they ask for [m]."""
        return geometry.root_diameter(teeth=teeth, module=self.module, dedendum=self.dedendum, shift=self.shift)

    def span(self, teeth: int, spanned: int) -> Number:
        """Span over k teeth without backlash [m]."""
        return geometry.span(teeth=teeth, spanned=spanned, module=self.module, angle=self.angle, shift=self.shift)

    @property
    def thickness(self) -> Number:
        """Arc thickness on the pitch line without backlash [m]."""
        return geometry.tooth_thickness(module=self.module, angle=self.angle, shift=self.shift)

    def thinned(self, gear: GearReadings) -> tuple[Array, Array] | None:
        """By how much a gear's teeth stand thinner [m], and the doubt of it: by a span, else over pins, else by the chord."""
        cos = np.cos(self.angle)
        if gear.spans:
            spanned = min(gear.spans)
            read = gear.spans[spanned]
            return np.asarray(self.span(gear.teeth, spanned) - read.size) / cos, np.asarray(read.uncertainty / cos)
        if gear.pins:
            pin, read = next(iter(gear.pins.items()))
            thick = geometry.thickness_by_pins(
                measured=read.size, teeth=gear.teeth, module=self.module, angle=self.angle, pin=pin
            )
            return np.asarray(self.thickness) - thick, np.asarray(read.uncertainty * np.tan(self.angle))
        if gear.chord is not None:
            diameter = np.asarray(gear.teeth * np.asarray(self.module))
            arc = geometry.arc_of_chord(chord=np.minimum(gear.chord.size, diameter), diameter=diameter)
            return np.asarray(self.thickness) - arc, np.asarray(gear.chord.uncertainty + 0.0 * diameter)
        return None


def centres_of(one: Teeth, mate: Teeth, *, teeth: int, mate_teeth: int) -> Number:
    """Centre distance of a pair without backlash [m]."""
    both = np.asarray(one.shift, dtype=np.float64) + mate.shift
    return geometry.centre_distance(
        teeth=teeth,
        mate_teeth=mate_teeth,
        module=one.module,
        angle=one.angle,
        shift_sum=np.where(np.abs(both) < 1e-9, 0.0, both),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class GearCandidate:
    """What the readings may be of, with its probability.

    ``angle`` in degree; ``shifts`` in modules, one for each gear of the pair in the order given.
    """

    pitch: GearPitch
    angle: float
    form: ToothForm
    shifts: tuple[float, ...]
    probability: float = 0.0

    def teeth(self, place: int = 0) -> Teeth:
        """The teeth of the first or second gear of the pair."""
        return Teeth(
            module=self.pitch.module,
            angle=math.radians(self.angle),
            addendum=self.form.addendum,
            dedendum=self.form.dedendum,
            shift=self.shifts[min(place, len(self.shifts) - 1)],
        )

    def mate(self) -> Teeth:
        """The teeth of the second gear; of one alone, teeth that suit it without correction of the centres."""
        if len(self.shifts) == 2:
            return self.teeth(1)
        own = self.teeth()
        return Teeth(
            module=own.module, angle=own.angle, addendum=own.addendum, dedendum=own.dedendum, shift=-np.asarray(own.shift)
        )

    @property
    def written(self) -> str:
        """As the trade would say it: "8 DP, 14.5°, full depth"."""
        pieces = [self.pitch.written, f"{self.angle:g}°", self.form.name]
        pieces += [f"shifted {' and '.join(f'{each:+g}' for each in self.shifts)}"] if any(self.shifts) else []
        return ", ".join(pieces)

    def alike(self, other: GearCandidate) -> bool:
        """Are they one tooth to the shop: alike but for the depth below the mate's tip, the angles within half a degree?

        14.5 and 15 degree run together, and no reading at the bench tells them apart (common practice).
        """
        same_form = abs(self.form.addendum - other.form.addendum) < 0.01 and self.shifts == other.shifts
        return same_form and abs(self.angle - other.angle) < 0.6 and abs(self.pitch.module / other.pitch.module - 1) < 1e-3


@cache
def _kinds() -> tuple[tuple[GearPitch, float, ToothForm, float], ...]:
    """Pitch, angle, form and the log of their weight together, for every such tooth that was cut."""
    found = []
    for pitch in gear_pitches():
        for angle, custom in pressure_angles().items():
            forms = [form for form in tooth_forms() if form.suits(pitch, angle)]
            total = math.fsum(form.weight for form in forms)
            found += [(pitch, angle, form, math.log(pitch.weight * custom * form.weight / total)) for form in forms]
    return tuple(found)


def _shifts(count: int) -> tuple[tuple[tuple[float, ...], float], ...]:
    """Shifts of one gear, or of two that run together, with the log of their chances; mostly none, else long and short."""
    plain = ((0.0,) * count, math.log(1 - SHIFTED))
    if count == 1:
        return (plain, *(((each,), math.log(SHIFTED / len(SHIFTS))) for each in SHIFTS))
    opposite = [((each, -each), math.log(0.7 * SHIFTED / len(SHIFTS))) for each in SHIFTS]
    upward = [each for each in SHIFTS if each > 0]
    others = [pair for each in upward for pair in ((each, 0.0), (0.0, each), (each, each))]
    return (plain, *opposite, *((pair, math.log(0.3 * SHIFTED / len(others))) for pair in others))


@cache
def _every(count: int) -> tuple[tuple[GearCandidate, ...], tuple[Teeth, ...], Array]:
    """All candidates of one gear or of two, their teeth as arrays, and the log of their weight before any reading."""
    rows = [(*kind[:3], shifts, kind[3] + chance) for kind in _kinds() for shifts, chance in _shifts(count)]
    candidates = tuple(
        GearCandidate(pitch=pitch, angle=angle, form=form, shifts=shifts) for pitch, angle, form, shifts, _ in rows
    )
    teeth = tuple(
        Teeth(
            module=np.array([each.pitch.module for each in candidates]),
            angle=np.radians([each.angle for each in candidates]),
            addendum=np.array([each.form.addendum for each in candidates]),
            dedendum=np.array([each.form.dedendum for each in candidates]),
            shift=np.array([each.shifts[place] for each in candidates]),
        )
        for place in range(count)
    )
    return candidates, teeth, np.array([row[-1] for row in rows])


def identify_gear(gears: Sequence[GearReadings]) -> tuple[GearCandidate, ...]:
    """Candidates by falling probability, for one gear or for two that run together (both of one pitch, angle and form).

    Without a span, chord or reading over pins nothing tells the pressure angle but custom; without a diameter or a centre
    distance nothing tells the pitch. Empty for no gear; of more than two, the first two are taken.
    """
    if not gears:
        return ()
    count = min(len(gears), 2)
    candidates, teeth, weights = _every(count)
    logs = weights.copy()
    for place in range(count):
        logs += _log_gear(gears[place], teeth[place], teeth[-1] if count == 2 else None)
    shares = np.exp(logs - logs.max())
    shares /= shares.sum()
    order = np.argsort(-shares, kind="stable")
    return tuple(
        GearCandidate(
            pitch=candidates[n].pitch,
            angle=candidates[n].angle,
            form=candidates[n].form,
            shifts=candidates[n].shifts,
            probability=float(shares[n]),
        )
        for n in order[: int((shares > 1e-3).sum())]
    )


def _log_gear(gear: GearReadings, teeth: Teeth, mate: Teeth | None) -> Array:
    said = np.zeros_like(teeth.module)
    if gear.outside is not None:
        away = teeth.outside(gear.teeth) - gear.outside.size - OUTSIDE_LESS
        said += _log(away, math.hypot(gear.outside.uncertainty, OUTSIDE_SPREAD))
    if gear.root is not None:
        said += _log(teeth.root(gear.teeth) - gear.root.size, math.hypot(gear.root.uncertainty, ROOT_SPREAD))
    if gear.centre is not None and gear.mate_teeth is not None:
        other = mate or Teeth(
            module=teeth.module,
            angle=teeth.angle,
            addendum=teeth.addendum,
            dedendum=teeth.dedendum,
            shift=-np.asarray(teeth.shift),
        )
        away = centres_of(teeth, other, teeth=gear.teeth, mate_teeth=gear.mate_teeth) - gear.centre.size
        said += _log(away, math.hypot(gear.centre.uncertainty, CENTRE_SPREAD))
    return np.asarray(said + _log_steps(gear, teeth) + _log_thickness(gear, teeth))


def _log_steps(gear: GearReadings, teeth: Teeth) -> Array:
    """Neighbouring spans differ by the base pitch."""
    said = np.zeros_like(teeth.module)
    base = np.asarray(geometry.base_pitch(module=teeth.module, angle=teeth.angle))
    for fewer, more in pairwise(sorted(gear.spans)):
        doubt = math.hypot(gear.spans[fewer].uncertainty, gear.spans[more].uncertainty, STEP_SPREAD)
        said += _log(gear.spans[more].size - gear.spans[fewer].size - (more - fewer) * base, doubt)
    return np.asarray(said)


def _log_thickness(gear: GearReadings, teeth: Teeth) -> Array:
    found = teeth.thinned(gear)
    if found is None:
        return np.zeros_like(teeth.module)
    thin, doubt = found
    density = np.zeros_like(thin)
    for share, mean, spread in THINNED:
        sigma = np.hypot(doubt, spread)
        density += share * np.exp(-0.5 * np.minimum(((thin - mean) / sigma) ** 2, 1400.0)) / sigma
    return np.asarray(np.log(np.nan_to_num(density) * INCH + BLUNDER))


def _log(away: Number, sigma: float) -> Array:
    parted = np.minimum(np.square(np.asarray(away, dtype=np.float64) / sigma), 1400.0)
    return np.asarray(np.log(np.exp(-0.5 * np.nan_to_num(parted, nan=1400.0)) + BLUNDER) - math.log(sigma / INCH))


def what_would_tell(gears: Sequence[GearReadings], candidates: Sequence[GearCandidate]) -> str:
    """The reading at which the two likeliest candidates part most, in words; "" where one stands alone."""
    if not candidates:
        return "Count the teeth and read the outside diameter."
    first = candidates[0]
    alone = math.fsum(each.probability for each in candidates if each.alike(first))
    rivals = [each for each in candidates if not each.alike(first)]
    if alone > SURE or not rivals:
        return ""
    parting, ask = max(_partings(gears, first, rivals[0]), key=lambda each: each[0])
    if parting < 2.0:
        ask = "Roll it in clay against a gear that is known"
    return f"{ask}: it tells {first.written} from {rivals[0].written}."


def _partings(gears: Sequence[GearReadings], one: GearCandidate, other: GearCandidate) -> list[tuple[float, str]]:
    """For each reading that could be had, by how many of its spreads two candidates part."""
    found: list[tuple[float, str]] = []
    vernier = 0.001 * INCH
    for place, gear in enumerate(gears[:2]):
        first, second, count = one.teeth(place), other.teeth(place), gear.teeth
        k = int(geometry.teeth_to_span(teeth=count, angle=first.angle))
        again = " again, with a disc micrometer," if len(gear.spans) > 1 else ""
        steps = [float(geometry.base_pitch(module=each.module, angle=each.angle)) for each in (first, second)]
        step = abs(steps[0] - steps[1]) / math.hypot(0.0003 * INCH, STEP_SPREAD)
        found.append((step, f"Read the span over {k} teeth and over {k + 1}{again} on the {count}-tooth gear"))
        if gear.root is None:
            part = abs(float(first.root(count)) - float(second.root(count))) / math.hypot(ROOT_SPREAD, vernier)
            found.append((part, f"Read the root diameter of the {count}-tooth gear"))
        if gear.outside is None:
            part = abs(float(first.outside(count)) - float(second.outside(count))) / math.hypot(OUTSIDE_SPREAD, vernier)
            found.append((part, f"Read the outside diameter of the {count}-tooth gear on an unworn edge"))
    if gears and not any(each.centre for each in gears):
        teeth, mate = gears[0].teeth, gears[1].teeth if len(gears) > 1 else 2 * gears[0].teeth
        apart = [float(centres_of(each.teeth(), each.mate(), teeth=teeth, mate_teeth=mate)) for each in (one, other)]
        found.append((abs(apart[0] - apart[1]) / math.hypot(CENTRE_SPREAD, vernier), "Read the centre distance of the shafts"))
    return found
