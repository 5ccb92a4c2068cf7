"""The gears on the bench, set by set: what teeth they have, with the doubt of it carried into every draw, and how far worn.

A set is two gears that run together, or one whose mate was not read. Which standard tooth it is, is drawn too: in a doubtful
case some draws are of one system and some of the other, so that wear and life carry the doubt.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.estimate import Estimate
from gudgeon.engine.finding import Finding
from gudgeon.mechanics import gear_geometry as geometry
from gudgeon.metrology.gear_identity import GearCandidate, Teeth, centres_of, identify_gear, what_would_tell
from gudgeon.metrology.gear_readings import GearFound, GearSet, gears_read
from gudgeon.systems.gears import description as d
from gudgeon.systems.judging import Practice, practice, slow_engine
from gudgeon.systems.measured import Draws, Measured, Reader

AS_CUT = (0.0005 * d.INCH, 0.0035 * d.INCH)
"""By how much each tooth was cut thin for backlash [m]; half of the period's backlash of .001 to .007 in (common practice)."""


@dataclass(frozen=True, kw_only=True)
class Worn:
    """A gear's teeth at the pitch line: thinner than half the pitch by [m], at the mean and where thinnest."""

    mean: Draws
    worst: Draws
    uneven: Draws
    place: str
    by: str
    inputs: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class RunningSet:
    """One set of gears. ``kept`` holds draws that are asked for again and again."""

    reader: Reader
    found: GearSet
    pair_item: str
    kept: dict[tuple[str, int], object] = field(default_factory=dict, repr=False, compare=False)

    @property
    def bench(self) -> Bench:
        """The bench it stands on."""
        return self.reader.bench

    @property
    def gears(self) -> tuple[GearFound, ...]:
        """Its gears, the one with fewer teeth first."""
        return self.found.gears

    @property
    def items(self) -> tuple[str, ...]:
        """Names of its gears."""
        return tuple(gear.item for gear in self.gears)

    @property
    def name(self) -> str:
        """The pair's name, else the gear's."""
        return self.pair_item or self.items[0]

    @cached_property
    def candidates(self) -> tuple[GearCandidate, ...]:
        """What the teeth may be, likeliest first."""
        return identify_gear(self.found.readings)

    @property
    def likeliest(self) -> GearCandidate:
        """The likeliest tooth."""
        return self.candidates[0]

    @cached_property
    def alone(self) -> float:
        """Probability of the likeliest tooth with those that run with it."""
        return math.fsum(each.probability for each in self.candidates if each.alike(self.likeliest))

    @cached_property
    def settle(self) -> str:
        """The reading that would tell the two likeliest apart."""
        return what_would_tell(self.found.readings, self.candidates)

    @cached_property
    def known(self) -> bool:
        """Does anything that was read tell the pitch at all?"""
        return any(each.outside or each.root or each.spans or each.centre for each in self.found.readings)

    @cached_property
    def _drawn(self) -> np.ndarray[tuple[int], np.dtype[np.intp]]:
        """Which candidate each draw is of."""
        shares = np.cumsum([each.probability for each in self.candidates])
        chance = self.reader.even(f"which tooth, {self.name}", 0.0, 1.0)
        return np.asarray(np.minimum(np.searchsorted(shares / shares[-1], chance), len(self.candidates) - 1))

    def teeth(self, place: int = 0) -> Teeth:
        """The teeth of its first or second gear, draw by draw."""
        if ("teeth", place) not in self.kept:
            self.kept["teeth", place] = self._teeth(place)
        return cast(Teeth, self.kept["teeth", place])

    def _teeth(self, place: int) -> Teeth:
        every = [each.teeth(place) for each in self.candidates]
        pick = self._drawn

        def drawn(name: str) -> Draws:
            return np.asarray([float(getattr(each, name)) for each in every])[pick]

        return Teeth(**{name: drawn(name) for name in ("module", "angle", "addendum", "dedendum", "shift")})

    @cached_property
    def face(self) -> Measured | None:
        """The narrowest width of face in contact that was read."""
        read = [self.reader.smallest(feature, item) for item in self.items for feature in (d.TOUCHING, d.FACE)]
        known = [each for each in read if each is not None]
        return min(known, key=lambda each: each.value, default=None)

    @cached_property
    def centres(self) -> Measured | None:
        """The centre distance that was read."""
        return self.reader.size(d.CENTRE, self.pair_item) if self.pair_item else None

    @cached_property
    def centre_draws(self) -> Draws:
        """Centre distance [m]: as read, else the drawn tooth's own."""
        if self.centres is not None:
            return self.centres.draws
        first, mate = self.teeth(0), self.teeth(min(1, len(self.gears) - 1))
        counts = self.counts
        return np.asarray(centres_of(first, mate, teeth=counts[0], mate_teeth=counts[1])) + np.zeros(self.bench.count)

    @property
    def counts(self) -> tuple[int, int]:
        """Teeth of both; of one alone, its own count twice over (a cam gear to a crank gear)."""
        counts = [gear.count for gear in self.gears]
        return (counts[0], counts[1]) if len(counts) > 1 else (counts[0], 2 * counts[0])

    def worn(self, gear: GearFound) -> Worn | None:
        """How thin a gear's teeth have become, by its spans, else over pins, else by the chord; None where none was read."""
        place = self.gears.index(gear)
        if ("worn", place) not in self.kept:
            self.kept["worn", place] = self._worn(gear, self.teeth(place))
        return cast("Worn | None", self.kept["worn", place])

    def _worn(self, gear: GearFound, teeth: Teeth) -> Worn | None:
        for by, spots in (("span", self._by_span(gear, teeth)), ("chord", self._by_chord(gear, teeth))):
            if spots:
                return self._gathered(spots, by)
        pins = self._by_pins(gear, teeth)
        return self._gathered(pins, "pins") if pins else None

    def _by_span(self, gear: GearFound, teeth: Teeth) -> list[tuple[Estimate, Draws]]:
        found = []
        for spanned, (key, _) in gear.spans.items():
            for spot in self.bench.estimates.get(key, ()):
                thin = geometry.thinned_by_span(
                    measured=self.bench.spot(spot),
                    teeth=gear.count,
                    spanned=spanned,
                    module=teeth.module,
                    angle=teeth.angle,
                    shift=teeth.shift,
                )
                found.append((spot, np.asarray(thin)))
        return found

    def _by_chord(self, gear: GearFound, teeth: Teeth) -> list[tuple[Estimate, Draws]]:
        if gear.chord is None:
            return []
        diameter = gear.count * np.asarray(teeth.module)
        spots = self.bench.estimates.get(gear.chord[0], ())
        return [
            (
                spot,
                np.asarray(teeth.thickness)
                - geometry.arc_of_chord(chord=np.minimum(self.bench.spot(spot), diameter), diameter=diameter),
            )
            for spot in spots
        ]

    def _by_pins(self, gear: GearFound, teeth: Teeth) -> list[tuple[Estimate, Draws]]:
        found = []
        for pin, (key, _) in gear.pins.items():
            for spot in self.bench.estimates.get(key, ()):
                thick = geometry.thickness_by_pins(
                    measured=self.bench.spot(spot), teeth=gear.count, module=teeth.module, angle=teeth.angle, pin=pin
                )
                found.append((spot, np.asarray(teeth.thickness) - thick))
        return found

    def _gathered(self, spots: Sequence[tuple[Estimate, Draws]], by: str) -> Worn:
        places: dict[str, list[Draws]] = {}
        for spot, draws in spots:
            places.setdefault(spot.place.station, []).append(draws)
        means = {name: np.mean(group, axis=0) for name, group in places.items()}
        worst = max(means, key=lambda name: float(np.median(means[name])))
        stack = np.stack(list(means.values()))
        return Worn(
            mean=np.asarray(stack.mean(axis=0)),
            worst=np.asarray(means[worst]),
            uneven=np.asarray(stack.max(axis=0) - stack.min(axis=0)) if len(means) > 1 else np.zeros(self.bench.count),
            place=worst if len(means) > 1 else "",
            by=by,
            inputs=tuple(dict.fromkeys(identity for spot, _ in spots for identity in spot.readings)),
        )

    def thickness_left(self, gear: GearFound) -> Draws | None:
        """Mean arc thickness at the pitch line now [m]; None where it was not read."""
        worn = self.worn(gear)
        if worn is None:
            return None
        return np.asarray(self.teeth(self.gears.index(gear)).thickness) - worn.mean

    def backlash_practice(self) -> Practice:
        """What authorities say of its backlash, at its own centres."""
        size = float(np.median(self.centre_draws))
        slow = slow_engine(self.bench.snapshot.outline.rated_speed)
        return practice("timing gear backlash", size=size, slow=slow)


@dataclass(frozen=True, kw_only=True)
class GearTrain:
    """All gears that were read or noted. ``worked_out`` keeps what was computed of them, by name."""

    bench: Bench
    reader: Reader
    worked_out: dict[str, object] = field(default_factory=dict)

    @classmethod
    def of(cls, bench: Bench) -> GearTrain:
        """The gears as they stand on the bench; those asked for last are kept."""
        kept = _LAST.get("train")
        if kept is None or kept.bench.snapshot is not bench.snapshot or kept.bench.named != bench.named:
            kept = _LAST["train"] = cls(bench=bench, reader=Reader(bench=bench))
        return kept

    @cached_property
    def items(self) -> tuple[str, ...]:
        """Names of the gears."""
        return tuple(item for item in self.bench.items(d.GEAR) if not d.is_pair(item))

    @cached_property
    def pairs(self) -> tuple[str, ...]:
        """Names under which readings of two gears together stand."""
        return tuple(item for item in self.bench.items(d.GEAR) if d.is_pair(item))

    @cached_property
    def sets(self) -> tuple[RunningSet, ...]:
        """The gears whose teeth were counted, in sets."""
        specified = self.bench.specifications
        counts = {
            key: round(line.nominal)
            for key, line in specified.items()
            if line.dimension == "count" and line.nominal is not None
        }
        estimates = {key: spots for key, spots in self.bench.estimates.items() if key.part == d.GEAR}
        found = []
        for group in _paired(gears_read(estimates, counts=counts), self.pairs):
            gears = tuple(sorted(group.gears, key=lambda gear: gear.count))
            found.append(RunningSet(reader=self.reader, found=GearSet(gears, group.centre), pair_item=self._pair_item(group)))
        return tuple(found)

    def _pair_item(self, group: GearSet) -> str:
        if group.centre is not None:
            return group.centre[0].item
        return self.pairs[0] if len(group.gears) == 2 and len(self.pairs) == 1 else ""

    def uncounted(self) -> tuple[str, ...]:
        """Gears that were noted but whose teeth were not counted."""
        known = {item for each in self.sets for item in each.items}
        return tuple(item for item in self.items if item not in known)


_LAST: dict[str, GearTrain] = {}


def _paired(groups: list[GearSet], pairs: Sequence[str]) -> list[GearSet]:
    """Crank and cam gear, one with twice the other's teeth, run together even where no centre distance was read."""
    singles = [group for group in groups if len(group.gears) == 1]
    if len(groups) != len(singles) or len(pairs) > 1:
        return groups
    doubles = [
        (one, other)
        for one in singles
        for other in singles
        if other.gears[0].count == 2 * one.gears[0].count and "cam" in other.gears[0].item.lower()
    ]
    if len(doubles) != 1:
        return groups
    one, other = doubles[0]
    rest = [group for group in groups if group is not one and group is not other]
    return [GearSet((one.gears[0], other.gears[0])), *rest]


def blank(item: str, quantity: str, dimension: str = "length") -> Finding:
    """A finding of this system with nothing in it yet."""
    return Finding(system=d.KEY, part=d.GEAR, item=item, quantity=quantity, dimension=dimension)
