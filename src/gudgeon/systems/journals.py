"""Journals as they were read: wear, taper, out-of-round, and the undersize at which they grind true.

Shared by the systems that have journals; it knows none of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.estimate import Estimate
from gudgeon.engine.finding import Finding
from gudgeon.engine.levels import level_of_estimate
from gudgeon.engine.origin import Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.picture import Curve
from gudgeon.engine.system import Feature, Level
from gudgeon.handbook.oversizes import oversizes
from gudgeon.quantity import Amount, Said
from gudgeon.systems.judging import Practice, joined, judged, not_measured, practice, slow_engine
from gudgeon.systems.measured import Draws, Measured, Reader

INCH = 0.0254
THOU = 1e-3 * INCH
WEAR, ROUND, TAPER, NEW = "journal wear", "journal out-of-round", "journal taper", "journal when new"

SPREAD = 0.0018 / 12**0.5 * INCH
SPREAD_ORIGIN = Origin(
    "E", "Turning and Boring (1914), ch. III, Newall limits",
    "running fit X, 1 1/16 to 2 in: .0018 wide, taken as even over its width",
)  # fmt: skip

LEVELS = (
    Level(name="A", wear="some", words=("front end", "station a"), hint="a quarter in from the front cheek"),
    Level(name="B", wear="some", words=("flywheel end", "station b"), hint="a quarter in from the other cheek"),
)
MIDDLE = Level(name="C", wear="most", words=("middle", "mid journal", "station c"), hint="half way along")
UNWORN = Level(
    name="the belt beside the fillet",
    wear="unworn",
    words=("beside the fillet", "near the fillet", "outside the bearing", "unworn", "never ran"),
    hint="the narrow belt that the bearing does not reach, where there is one: it shows the size when new",
)


def journal_feature(part: str, *, levels: Sequence[Level], directions: Sequence[float], how: str) -> Feature:
    """The description of a journal's diameter on a kind of part."""
    return Feature(
        part=part,
        name="journal diameter",
        title="Journal diameter",
        wear="takes",
        family="journal",
        spread=SPREAD,
        spread_origin=SPREAD_ORIGIN,
        levels=tuple(levels),
        directions=tuple(directions),
        gauges=("outside_mic", "outside_mic_coarse", "vernier"),
        rework="ground under",
        aliases=("diameter", "journal", "pin diameter", "journal dia"),
        material="steel",
        how=how,
    )


CRANKPIN = journal_feature(
    "crankpin",
    levels=(*LEVELS, MIDDLE, UNWORN),
    directions=(0.0, 90.0),
    how="0 lies in line with the throw, 90 across it. Two readings of each. Pins wear oval: least on the side that carries "
    "the power stroke.",
)
MAIN = journal_feature(
    "main",
    levels=(*LEVELS, MIDDLE, UNWORN),
    directions=(0.0, 45.0, 90.0, 135.0),
    how="0 lies in line with the first throw. Mains seldom go oval; a ridge beside the bearing shows the size when new.",
)

GRIND_ALLOWANCE = (0.5 * THOU, 2.0 * THOU)
"""Metal beyond the worn size, on the diameter, that grinding takes to be clean all over [m]; from memory."""

GRIND_TOLERANCE = 0.5 * THOU
"""Width of the limits of size asked of a ground journal [m]; common practice of a crank grinder."""

SHOP_FORM = 0.1 * THOU
"""Out-of-round and taper that a crank grinder in good order leaves, as a standard deviation [m]; from memory."""

_AS_READ = "from the readings at 0 and 90 degree and at both ends; TM 5-3805-254"


@dataclass(frozen=True, kw_only=True)
class Spot:
    """One spot of a journal: the owner's word for the level, and the draws of its size [m]."""

    label: str
    unworn: bool
    direction: float | None
    estimate: Estimate
    draws: Draws


@dataclass(frozen=True, kw_only=True)
class Journal:
    """A journal as it was read. ``original`` are draws of what it measured when new or last ground [m]."""

    system: str
    item: str
    feature: Feature
    reader: Reader
    outline: Outline

    @cached_property
    def spots(self) -> tuple[Spot, ...]:
        """Every spot that was read."""
        readings = self.reader.bench.snapshot.readings_of(self.reader.key(self.feature, self.item))
        found = []
        for estimate in self.reader.spots(self.feature, self.item):
            level = level_of_estimate(self.feature, estimate, readings)
            found.append(
                Spot(
                    label=estimate.place.station.strip() or (level.name if level else "where read"),
                    unworn=level is not None and level.wear == "unworn",
                    direction=None if estimate.place.direction is None else estimate.place.direction % 180.0,
                    estimate=estimate,
                    draws=self.reader.bench.spot(estimate),
                )
            )
        return tuple(found)

    @cached_property
    def worn(self) -> tuple[Spot, ...]:
        """The spots that run in the bearing."""
        return tuple(spot for spot in self.spots if not spot.unworn)

    @cached_property
    def original(self) -> Draws | None:
        """What it measured when new: the specification, else the mean of the unworn spots."""
        found = self.reader.original(self.feature, self.item)
        unworn = [spot.draws for spot in self.spots if spot.unworn]
        return np.asarray(np.mean(unworn, axis=0)) if found is None and unworn else found

    @property
    def inputs(self) -> tuple[str, ...]:
        """Identities of all its readings."""
        return tuple(dict.fromkeys(identity for spot in self.spots for identity in spot.estimate.readings))

    @cached_property
    def size(self) -> float | None:
        """The size that rules of practice are taken at [m]: the nominal, else the largest that was read."""
        nominal = self.reader.nominal(self.feature, self.item)
        return nominal or max((spot.estimate.value for spot in self.spots), default=None)

    @cached_property
    def mean(self) -> Measured | None:
        """The worn journal as one size, the mean of its spots."""
        return self.reader.of([spot.estimate for spot in self.worn])

    @cached_property
    def least(self) -> Spot | None:
        """The smallest spot, by its estimate."""
        return min(self.worn, key=_value) if self.worn else None

    @cached_property
    def wear(self) -> Draws | None:
        """Wear at the smallest spot, on the diameter [m]."""
        if self.least is None or self.original is None:
            return None
        return self.original - self.least.draws

    @cached_property
    def round_pair(self) -> tuple[Spot, Spot] | None:
        """Largest and smallest spot of the level that is most out of round; None where no level has two directions."""
        levels: dict[str, list[Spot]] = {}
        for spot in self.worn:
            levels.setdefault(spot.label, []).append(spot)
        pairs = [
            (max(each, key=_value), min(each, key=_value))
            for each in levels.values()
            if len({spot.direction for spot in each} - {None}) >= 2
        ]
        return max(pairs, key=_apart) if pairs else None

    @cached_property
    def taper_pair(self) -> tuple[Spot, Spot] | None:
        """Largest and smallest spot of the line that tapers most; None where no line has two levels."""
        lines: dict[float | None, list[Spot]] = {}
        for spot in self.worn:
            lines.setdefault(spot.direction, []).append(spot)
        pairs = [
            (max(each, key=_value), min(each, key=_value)) for each in lines.values() if len({spot.label for spot in each}) >= 2
        ]
        return max(pairs, key=_apart) if pairs else None

    @property
    def out_of_round(self) -> Draws | None:
        """Difference of diameters at the worst level [m]."""
        return None if self.round_pair is None else self.round_pair[0].draws - self.round_pair[1].draws

    @property
    def taper(self) -> Draws | None:
        """Difference of diameters along the worst line [m]."""
        return None if self.taper_pair is None else self.taper_pair[0].draws - self.taper_pair[1].draws

    def practised(self, quantity: str) -> Practice:
        """What authorities say of one quantity."""
        size = self.size or 2.0 * INCH
        return practice(quantity, size=size, slow=slow_engine(self.outline.rated_speed))

    @cached_property
    def clean_up(self) -> Draws | None:
        """The largest size at which it grinds clean on its own centre [m]; None where it was not read.

        The side that wore most decides: twice its wear comes off the diameter, and what the wheel takes to be clean. Of the
        wear one side has a share from half to all of it, any as likely. Where the size when new is not known the wear is
        taken to be the out-of-round.
        """
        if self.least is None:
            return None
        worn = self.wear if self.wear is not None else self.out_of_round
        worn = np.maximum(worn, 0.0) if worn is not None else np.zeros(self.reader.bench.count)
        share = self.reader.even(f"wear on one side of {self.item}", 0.5, 1.0)
        allowance = self.reader.even(f"grinding allowance of {self.item}", *GRIND_ALLOWANCE)
        return np.asarray(self.least.draws - (2.0 * share - 1.0) * worn - allowance)

    def blank(self, quantity: str) -> Finding:
        """A finding that carries the names only."""
        return Finding(system=self.system, part=self.feature.part, item=self.item, quantity=quantity, dimension="length")


def _value(spot: Spot) -> float:
    return spot.estimate.value


def _apart(pair: tuple[Spot, Spot]) -> float:
    return _value(pair[0]) - _value(pair[1])


def journals(bench: Bench, reader: Reader, *, system: str, feature: Feature) -> tuple[Journal, ...]:
    """All journals of a kind that were read or noted."""
    outline = bench.snapshot.outline
    return tuple(
        Journal(system=system, item=item, feature=feature, reader=reader, outline=outline)
        for item in bench.items(feature.part)
        if feature.belongs_to(item)
    )


def journal_findings(journal: Journal) -> tuple[Finding, ...]:
    """Size when new, wear, out-of-round and taper of one journal."""
    return (
        *_when_new(journal),
        *_wear(journal),
        *_difference(journal, ROUND, journal.out_of_round, journal.round_pair),
        *_difference(journal, TAPER, journal.taper, journal.taper_pair),
    )


def _when_new(journal: Journal) -> tuple[Finding, ...]:
    blank = journal.blank(NEW)
    known = journal.reader.bench.specifications.get(journal.reader.key(journal.feature, journal.item))
    if known is None or known.nominal is None:
        settle = f"Read {journal.item} beside the fillet, where the bearing never ran, twice."
        return (not_measured(blank, settle=settle),)
    since = f", {known.rework} since" if known.rework else ""
    written = f" ({known.written})" if known.written else ""
    said = Said(
        f"{journal.item} was made to {{0}}{written}{since}: {known.probability:.0%} sure.", (Amount(known.nominal, "length"),)
    )
    if known.conflict:
        said = joined(said, Said(known.conflict))
    found = replace(
        blank,
        sentence=said,
        inputs=journal.inputs,
        settle=known.settle,
        formula=f"the likeliest size of the time, from the readings: {known.origin}",
    )
    if journal.original is None:
        return (replace(found, value=known.nominal, low=known.low, high=known.high),)
    return judged(found, journal.original)


def _wear(journal: Journal) -> tuple[Finding, ...]:
    blank, practised = journal.blank(WEAR), journal.practised(WEAR)
    if journal.wear is None or journal.least is None:
        missing = "at both ends, in line with the throw and across it" if journal.least is None else "beside the fillet too"
        return (not_measured(blank, settle=f"Read {journal.item} {missing}.", practised=practised),)
    said = Said(
        f"{journal.item} has worn {{0}}, most at {_where(journal.least)}.", (Amount(float(np.median(journal.wear)), "length"),)
    )
    if not any(spot.unworn for spot in journal.spots):
        said = joined(said, Said("No unworn place was read, so this rests on the likely size when new."))
    sentence = replace(
        blank,
        sentence=said,
        inputs=journal.inputs,
        formula="diameter when new or last ground − smallest diameter; the TMs give it as the least size allowed",
    )
    return judged(sentence, journal.wear, practised)


def _difference(journal: Journal, quantity: str, draws: Draws | None, pair: tuple[Spot, Spot] | None) -> tuple[Finding, ...]:
    blank, practised = journal.blank(quantity), journal.practised(quantity)
    if draws is None or pair is None:
        missing = "in line with the throw and across it, at one level" if quantity == ROUND else "at both ends along one line"
        return (not_measured(blank, settle=f"Read {journal.item} {missing}.", practised=practised),)
    verb = "is {0} out of round at" if quantity == ROUND else "tapers {0}, smallest at"
    said = Said(f"{journal.item} {verb} {_where(pair[1])}.", (Amount(float(np.median(draws)), "length"),))
    worst = max((spot.estimate.uncertainty for spot in pair), default=0.0)
    if worst > 0.3 * THOU:
        said = joined(said, Said("The gauge is coarse for this: read it again in tenths before it decides anything."))
    inputs = tuple(dict.fromkeys((*pair[0].estimate.readings, *pair[1].estimate.readings)))
    return judged(replace(blank, sentence=said, inputs=inputs, formula=f"largest − smallest, {_AS_READ}"), draws, practised)


def _where(spot: Spot) -> str:
    if spot.direction is None:
        return spot.label
    line = {0.0: "in line with the throw", 90.0: "across the throw"}.get(spot.direction, f"at {spot.direction:g} degree")
    return f"{spot.label}, {line}"


def lobe(journal: Journal) -> Curve | None:
    """The journal's lobe: its diameter at each level less its size when new, by direction; None without two directions.

    Between the directions read it is drawn as the plain oval through them, by least squares: mean and second harmonic.
    """
    if journal.original is None:
        return None
    new = float(np.median(journal.original))
    levels: dict[str, list[tuple[float, float]]] = {}
    for spot in journal.spots:
        if spot.direction is not None:
            levels.setdefault(spot.label, []).append((spot.direction, (spot.estimate.value - new) / THOU))
    curves = []
    for label, points in sorted(levels.items()):
        if len({direction for direction, _ in points}) >= 2:
            curves.append((label, _oval(points)))
    if not curves:
        return None
    return Curve(
        title=f"{journal.item}: lobe of the journal",
        x_text="direction [degree], 0 in line with the throw",
        y_text="diameter less that when new [thou]",
        curves=tuple(curves),
    )


def _oval(points: Sequence[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """A plain oval through diameters by direction [degree]; its long axis lies at 0 or 90 where only those were read."""
    angle = np.radians([direction for direction, _ in points])
    columns = [np.ones_like(angle), np.cos(2.0 * angle)]
    if len({direction for direction, _ in points}) >= 3:
        columns.append(np.sin(2.0 * angle))
    found, *_ = np.linalg.lstsq(np.stack(columns, axis=1), np.array([size for _, size in points]), rcond=None)
    mean, first, second = [*found, 0.0][:3]
    round_turn = np.arange(0.0, 361.0, 10.0)
    at = 2.0 * np.radians(round_turn)
    sizes = mean + first * np.cos(at) + second * np.sin(at)
    return tuple(zip(round_turn.tolist(), sizes.tolist(), strict=True))


@dataclass(frozen=True, kw_only=True)
class Undersize:
    """A size that journals could be ground to: the nominal less a step, how it is written, and the chance that all clean up."""

    written: str
    amount: float
    size: float
    chance: float


def nominal_of(found: Sequence[Journal]) -> float | None:
    """The nominal that most journals share [m]."""
    sizes = [size for size in (journal.reader.nominal(journal.feature, journal.item) for journal in found) if size is not None]
    return max(set(sizes), key=sizes.count) if sizes else None


def undersizes(found: Sequence[Journal], *, hardly: float = 0.05, sure: float = 0.95) -> tuple[Undersize, ...]:
    """The common undersizes from the first that may clean all journals up to the first that is sure to, and the exact one.

    The exact one is the largest size, in whole thou, that is sure to; it is left out where a common one lies within
    2 1/2 thou of it. None where a journal was not read, or the nominal cannot be said.
    """
    nominal = nominal_of(found)
    kept = [journal.clean_up for journal in found]
    if nominal is None or not kept or any(each is None for each in kept):
        return ()
    worst = np.min([each for each in kept if each is not None], axis=0)
    result = []
    steps = [step for step in oversizes("journal") if step.amount < -1.5 * THOU]
    for step in steps:
        chance = float((worst >= nominal + step.amount).mean())
        if chance >= hardly:
            result.append(Undersize(written=step.written, amount=step.amount, size=nominal + step.amount, chance=chance))
        if chance >= sure:
            break
    exact = float(np.floor(np.quantile(worst, 1.0 - sure) / THOU + 1e-6) * THOU)
    if exact < nominal and all(abs(each.size - exact) > 2.5 * THOU for each in result):
        chance = float((worst >= exact).mean())
        written = f"−{(nominal - exact) / INCH:.3f}".replace("0.", ".", 1)
        result.append(Undersize(written=written, amount=exact - nominal, size=exact, chance=chance))
    return tuple(sorted(result, key=lambda each: -each.size))


def strength_lost(*, size: float, amount: float) -> float:
    """Share of a pin's strength in bending and twist that goes with metal off its diameter: 1 − ((d − a)/d)^3."""
    return 1.0 - ((size - abs(amount)) / size) ** 3
