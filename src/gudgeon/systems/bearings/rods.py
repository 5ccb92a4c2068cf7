"""The rods on the bench: their pins and bearings put together, looked up once per reckoning."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.mechanics.rods import edge_load
from gudgeon.systems.bearing_duty import Duty
from gudgeon.systems.bearings import description as d
from gudgeon.systems.journals import Journal, journals
from gudgeon.systems.judging import Limit, Practice
from gudgeon.systems.measured import Draws, Reader, number
from gudgeon.systems.poured import BearingSet, Poured

BEND, TWIST = "bend over the big end", "twist over the big end"


@dataclass(frozen=True, kw_only=True)
class Rods:
    """All crankpins, rod bearings and rods that were read or noted. ``worked_out`` keeps what was computed, by name."""

    bench: Bench
    reader: Reader
    worked_out: dict[str, object] = field(default_factory=dict)

    @classmethod
    def of(cls, bench: Bench) -> Rods:
        """The rods as they stand on the bench; those asked for last are kept."""
        kept = _LAST.get("rods")
        if kept is None or kept.bench.snapshot is not bench.snapshot or kept.bench.named != bench.named:
            kept = _LAST["rods"] = cls(bench=bench, reader=Reader(bench=bench))
        return kept

    @cached_property
    def pins(self) -> tuple[Journal, ...]:
        """The crankpins."""
        return journals(self.bench, self.reader, system=d.KEY, feature=d.PIN)

    @cached_property
    def duty(self) -> Duty:
        """What they carry."""
        return Duty(bench=self.bench, reader=self.reader)

    @cached_property
    def bearings(self) -> BearingSet:
        """The rod bearings: those that were read or noted, and one to each pin that was."""
        seen = [item for item in self.bench.items("bearing") if d.ROD_BEARING in item.lower()]
        numbers = {number(item) for item in seen}
        seen += [f"{d.ROD_BEARING} {number(pin.item)}" for pin in self.pins if number(pin.item) not in numbers]
        found = tuple(
            Poured(
                system=d.KEY,
                item=item,
                journal=next((pin for pin in self.pins if number(pin.item) == number(item)), None),
                features=d.BY_NAME,
                reader=self.reader,
                duty=self.duty,
            )
            for item in sorted(seen, key=lambda name: (len(number(name)), number(name)))
        )
        return BearingSet(system=d.KEY, bench=self.bench, reader=self.reader, bearings=found)

    @cached_property
    def rods(self) -> tuple[str, ...]:
        """The rods that were read or noted."""
        kinds = [item for item in self.bench.items("bearing") if d.SIDE_PLAY.belongs_to(item) and "bearing" not in item.lower()]
        return tuple(dict.fromkeys((*self.bench.items("rod"), *kinds)))

    def bearing_of(self, rod: str) -> Poured | None:
        """The bearing of a rod."""
        return next((each for each in self.bearings.bearings if number(each.item) == number(rod)), None)

    def slope(self, rod: str, quantity: str) -> tuple[Draws, tuple[str, ...]] | None:
        """Bend or twist of a rod [m/m], and the readings behind it; None where it or the span was not read."""
        read = self.reader.size(d.BEND if quantity == BEND else d.TWIST, rod)
        span = self.reader.size(d.SPAN, rod)
        if read is None or span is None:
            return None
        return np.asarray(np.abs(read.draws) / span.draws), (*read.inputs, *span.inputs)

    def over_big_end(self, rod: str, quantity: str) -> tuple[Draws, tuple[str, ...]] | None:
        """Bend or twist over the length of the big end [m]; None where that was not read, or the bend itself."""
        slope, bearing = self.slope(rod, quantity), self.bearing_of(rod)
        if slope is None or bearing is None or bearing.length is None:
            return None
        draws = edge_load(slope=slope[0], bearing_length=bearing.length.draws)
        return np.asarray(draws), (*slope[1], *bearing.length.inputs)

    def slope_practice(self, rod: str) -> Practice:
        """How much of the clearance bend or twist may take: half of what is aimed at, by geometry."""
        bearing = self.bearing_of(rod)
        high = bearing.target.high if bearing is not None else None
        origin = Origin("F", "common practice", "half the clearance aimed at: beyond it the bearing runs on its edges")
        return Practice(limits=(Limit(size=0.5 * (high or 0.0025 * 0.0254), most=True, origin=origin),))

    def blank(self, item: str, quantity: str, *, part: str = "rod", dimension: str = "length") -> Finding:
        """A finding that carries the names only."""
        return Finding(system=d.KEY, part=part, item=item, quantity=quantity, dimension=dimension)


_LAST: dict[str, Rods] = {}
