"""The pivots on the bench: which pin runs in which bush, what it does, and what fit its use asks for."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.engine.system import Feature
from gudgeon.handbook.limits_and_fits import newall_fit
from gudgeon.systems.judging import Practice, Target, practice
from gudgeon.systems.measured import Draws, Measured, Reader, number
from gudgeon.systems.pivots import description as d


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """What a pivot does: the words that say so, the period's fit for it, and the rules of practice on it."""

    name: str
    title: str
    words: tuple[str, ...]
    newall: str
    subjects: tuple[str, ...]


USES = (
    Use(name="shear", title="shear pins", words=("shear",), newall="P", subjects=()),
    Use(
        name="piston",
        title="piston pins",
        words=("wrist", "gudgeon", "piston", "rod bush"),
        newall="Y",
        subjects=("pin in rod bush clearance", "piston pin fit"),
    ),
    Use(name="roller", title="rollers", words=("roller",), newall="X", subjects=("roller on pin clearance",)),
    Use(
        name="governor",
        title="governor pins",
        words=("governor", "flyweight", "sleeve", "collar"),
        newall="Y",
        subjects=("governor pin clearance", "linkage pin clearance"),
    ),
    Use(name="fixed", title="pins held fast", words=("held", "fast", "fixed", "driven in"), newall="D", subjects=()),
    Use(
        name="turning",
        title="turning pins and shafts",
        words=("turns", "turning", "spindle", "shaft", "pump", "magneto", "idler"),
        newall="X",
        subjects=("turning pin clearance",),
    ),
    Use(name="swinging", title="linkage pins", words=(), newall="Y", subjects=("linkage pin clearance",)),
)
"""First match wins; a pivot of which nothing is said swings."""


@dataclass(frozen=True, kw_only=True)
class Joint:
    """One pin in one bush or eye; either may not have been read."""

    reader: Reader
    part: str
    pin: str
    bush: str

    @property
    def name(self) -> str:
        """The pin's name, which stands for the joint."""
        return self.pin or self.bush

    def feature(self, name: str) -> Feature:
        """A feature of this kind of pivot."""
        return d.BY_KIND[self.part][name]

    def size(self, name: str, *, stage: str = "found") -> Measured | None:
        """A size, by whichever of the two names it was read under."""
        for item in (self.pin, self.bush):
            read = self.reader.size(self.feature(name), item, stage=stage) if item else None
            if read is not None:
                return read
        return None

    def words(self, name: str) -> str:
        """What was noted in words of pin or bush."""
        said = [self.reader.words(self.feature(name), item)[0] for item in dict.fromkeys((self.pin, self.bush)) if item]
        return "; ".join(filter(None, said))

    @cached_property
    def use(self) -> Use:
        """What it does: by what was noted, else by its name."""
        bush = self.bush.lower() if self.bush != self.pin else ""
        for text in (self.words("use").lower(), f"{self.pin.lower()} {bush}"):
            for use in USES:
                if text and any(word in text for word in use.words):
                    return use
        return USES[-1]

    @cached_property
    def thinnest(self) -> Measured | None:
        """The pin at its thinnest."""
        spots = [*self._pin_spots("rod"), *self._pin_spots("")] or list(self.reader.spots(self.feature("diameter"), self.pin))
        return self.reader.of(sorted(spots, key=lambda each: each.value)[:1])

    def _pin_spots(self, level: str) -> list:  # type: ignore[type-arg]
        from gudgeon.engine.levels import level_of_estimate

        feature = self.feature("diameter")
        if not self.pin:
            return []
        readings = self.reader.bench.snapshot.readings_of(self.reader.key(feature, self.pin))
        found = []
        for each in self.reader.spots(feature, self.pin):
            at = level_of_estimate(feature, each, readings)
            if (at.name if at else "") == level:
                found.append(each)
        return found

    @cached_property
    def unworn(self) -> Measured | None:
        """The pin where nothing rubbed, the mean of its ends."""
        return self.reader.of([*self._pin_spots("boss end"), *self._pin_spots("other boss end")]) if self.pin else None

    @cached_property
    def widest(self) -> Measured | None:
        """The bush or eye where widest."""
        return self.reader.largest(self.feature("bush bore"), self.bush) if self.bush else None

    @cached_property
    def narrowest(self) -> Measured | None:
        """The bush or eye where narrowest."""
        return self.reader.smallest(self.feature("bush bore"), self.bush) if self.bush else None

    @cached_property
    def nominal(self) -> float | None:
        """The size that the pin was made to [m]: the drawing's, else its unworn ends, else as read."""
        known = self.reader.nominal(self.feature("diameter"), self.pin) if self.pin else None
        if known is not None:
            return known
        read = self.unworn or self.thinnest
        if read is not None:
            return read.value
        return self.narrowest.value if self.narrowest is not None else None

    @cached_property
    def clearance(self) -> Measured | None:
        """Widest bush less thinnest pin [m]; None where either was not read."""
        if self.widest is None or self.thinnest is None:
            return None
        return Measured(
            draws=self.widest.draws - self.thinnest.draws,
            value=self.widest.value - self.thinnest.value,
            inputs=(*self.widest.inputs, *self.thinnest.inputs),
            estimates=(*self.widest.estimates, *self.thinnest.estimates),
        )

    @cached_property
    def practised(self) -> Practice:
        """What its use asks for: the period's limits first, then what authorities print."""
        size = self.nominal or 0.5 * d.INCH
        known = practice(*self.use.subjects, size=size) if self.use.subjects else Practice()
        return Practice(targets=(*self._period(size), *known.targets), limits=known.limits)

    def _period(self, size: float) -> tuple[Target, ...]:
        if size / d.INCH > 4.0:
            return ()
        fit = newall_fit(size=size, name=self.use.newall)
        return (
            Target(
                low=fit.clearance.low,
                high=fit.clearance.high,
                origin=Origin("E", fit.source, fit.name),
                authority="Newall 1914",
            ),
        )

    @cached_property
    def aim(self) -> tuple[float, float]:
        """Clearance to make [m]: the target that most of the deciding limits allow, the first where several do alike."""
        limits = self.practised.deciding
        best: tuple[int, tuple[float, float]] = (-1, (0.0005 * d.INCH, 0.0015 * d.INCH))
        for target in self.practised.targets:
            low, high = target.low or 0.0, target.high if target.high is not None else target.low or 0.0
            kept = sum(high <= limit.size if limit.most else low >= limit.size for limit in limits)
            if kept > best[0]:
                best = (kept, (low, max(high, low)))
        return best[1]

    def finished(self) -> float | None:
        """The bush as read when it was reamed or came back, where narrowest [m]; None while it was not."""
        for stage in ("fitted", "returned"):
            spots = self.reader.spots(self.feature("bush bore"), self.bush, stage=stage) if self.bush else ()
            if spots:
                return min(spot.value for spot in spots)
        return None


@dataclass(frozen=True, kw_only=True)
class Pivots:
    """All pivots that were read or noted. ``worked_out`` keeps what was computed of them, by name."""

    bench: Bench
    reader: Reader
    worked_out: dict[str, object] = field(default_factory=dict)

    @classmethod
    def of(cls, bench: Bench) -> Pivots:
        """The pivots as they stand on the bench; those asked for last are kept."""
        kept = _LAST.get("pivots")
        if kept is None or kept.bench.snapshot is not bench.snapshot or kept.bench.named != bench.named:
            kept = _LAST["pivots"] = cls(bench=bench, reader=Reader(bench=bench))
        return kept

    @cached_property
    def joints(self) -> tuple[Joint, ...]:
        """Every joint: pins with their bushes, then what is left alone."""
        found: list[Joint] = []
        for part in d.KINDS:
            found += self._of_part(part)
        return tuple(found)

    def _of_part(self, part: str) -> list[Joint]:
        items = self.bench.items(part)
        diameter, bore = d.BY_KIND[part]["diameter"], d.BY_KIND[part]["bush bore"]
        both = [item for item in items if self.reader.spots(bore, item) or _bush_like(item)]
        pins = [item for item in items if self.reader.spots(diameter, item) or item not in both]
        bushes = [item for item in both if item not in pins]
        found = []
        for pin in pins:
            own = pin if pin in both else next((bush for bush in bushes if _together(pin, bush)), "")
            if own in bushes:
                bushes.remove(own)
            found.append(Joint(reader=self.reader, part=part, pin=pin, bush=own))
        return found + [Joint(reader=self.reader, part=part, pin="", bush=bush) for bush in bushes]

    def of_use(self, use: Use) -> tuple[Joint, ...]:
        """The joints of one use."""
        return tuple(joint for joint in self.joints if joint.use.name == use.name)


_LAST: dict[str, Pivots] = {}


def _bush_like(item: str) -> bool:
    return "bush" in item.lower() or "eye" in item.lower()


def _together(pin: str, bush: str) -> bool:
    """One number ("pin 1", "rod bush 1"), or the same words but for pin and bush ("throttle pin", "throttle bush")."""
    digits = re.search(r"\d", pin), re.search(r"\d", bush)
    if all(digits):
        return number(pin) == number(bush)
    left = [re.sub(r"\b(pin|bush|eye|shaft|pivot)\b", "", each.lower()).split() for each in (pin, bush)]
    return not any(digits) and left[0] == left[1]


def blank(joint: Joint, quantity: str, dimension: str = "length", item: str = "") -> Finding:
    """A finding of this system with nothing in it yet."""
    return Finding(system=d.KEY, part=joint.part, item=item or joint.name, quantity=quantity, dimension=dimension)


def lost(read: Measured, unworn: Draws) -> Draws:
    """What a pin has lost [m]."""
    return np.asarray(unworn - read.draws)
