"""The crankshaft on the bench: journals, bearings, bow, line of the mains, throws; looked up once per reckoning."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.estimate import Estimate
from gudgeon.engine.finding import Finding
from gudgeon.mechanics.runout import bow, bow_bounds, off_line
from gudgeon.mechanics.runout import throw as throw_of
from gudgeon.systems.bearing_duty import Duty
from gudgeon.systems.crankshaft import description as d
from gudgeon.systems.journals import CRANKPIN, Journal, journals
from gudgeon.systems.measured import Draws, Reader, number
from gudgeon.systems.poured import BearingSet, Poured

ANGLE_READ = np.radians(10.0)
"""How far off a high spot is read round the shaft, either way [rad]; from memory."""


@dataclass(frozen=True, kw_only=True)
class BowFound:
    """The shaft's bend at each main that was read.

    Attributes
    ----------
    items, positions : the mains, and where along the shaft they stand, in metres or, where none was noted, counted evenly.
    bend : draws of the bend at each, off the line through the end mains [m], shape (mains, count).
    across, along : its parts in line with the first throw and a quarter turn on [m]; None where directions are missing.
    known : were all directions noted? even : are positions only counted?
    """

    items: tuple[str, ...]
    positions: tuple[float, ...]
    bend: Draws
    x: Draws | None
    y: Draws | None
    known: bool
    even: bool
    inputs: tuple[str, ...]

    @property
    def worst(self) -> int:
        """Place of the largest bend."""
        return int(np.argmax(np.median(self.bend, axis=1)))

    @property
    def total(self) -> Draws:
        """What a dial shows at the worst main when the shaft turns in its end mains: twice the bend [m]."""
        return np.asarray(2.0 * self.bend[self.worst])


@dataclass(frozen=True, kw_only=True)
class Shaft:
    """All of the crankshaft that was read or noted. ``worked_out`` keeps what was computed, by name."""

    bench: Bench
    reader: Reader
    worked_out: dict[str, object] = field(default_factory=dict)

    @classmethod
    def of(cls, bench: Bench) -> Shaft:
        """The shaft as it stands on the bench; the one asked for last is kept."""
        kept = _LAST.get("shaft")
        if kept is None or kept.bench.snapshot is not bench.snapshot or kept.bench.named != bench.named:
            kept = _LAST["shaft"] = cls(bench=bench, reader=Reader(bench=bench))
        return kept

    @cached_property
    def mains(self) -> tuple[Journal, ...]:
        """The main journals."""
        return journals(self.bench, self.reader, system=d.KEY, feature=d.MAIN)

    @cached_property
    def pins(self) -> tuple[Journal, ...]:
        """The crankpins: ground in one visit with the mains."""
        return journals(self.bench, self.reader, system=d.KEY, feature=CRANKPIN)

    @cached_property
    def present(self) -> bool:
        """Was anything of the crankshaft read or noted?"""
        kinds = ("main", "throw", "crankshaft")
        return any(self.bench.items(kind) for kind in kinds) or bool(self.bearings.bearings) or d.SHAFT in self._bearing_items

    @property
    def _bearing_items(self) -> tuple[str, ...]:
        return self.bench.items("bearing")

    @cached_property
    def bearings(self) -> BearingSet:
        """The main bearings: those that were read or noted, and one to each main journal that was."""
        seen = [item for item in self._bearing_items if d.MAIN_BEARING in item.lower()]
        numbers = {number(item) for item in seen}
        seen += [f"{d.MAIN_BEARING} {number(main.item)}" for main in self.mains if number(main.item) not in numbers]
        duty = Duty(bench=self.bench, reader=self.reader)
        found = tuple(
            Poured(
                system=d.KEY,
                item=item,
                journal=next((main for main in self.mains if number(main.item) == number(item)), None),
                features=d.BY_NAME,
                reader=self.reader,
                duty=duty,
                share=0.5,  # a throw between two mains leans on both alike; statics
            )
            for item in sorted(seen, key=lambda name: (len(number(name)), number(name)))
        )
        return BearingSet(system=d.KEY, bench=self.bench, reader=self.reader, bearings=found)

    @cached_property
    def bow(self) -> BowFound | None:
        """The shaft's bend; None where fewer than three mains were read."""
        return _bow(self)

    @cached_property
    def line(self) -> tuple[tuple[str, ...], Draws, tuple[str, ...]] | None:
        """Per main bearing how far it lies under the line of the end ones [m], and the readings; None for fewer than three."""
        spots = [(item, at) for item in self.bearings.items if (at := self.reader.spots(d.BAR_GAP, item))]
        if len(spots) < 3:
            return None
        gaps = np.stack([np.mean([self.bench.spot(each) for each in at], axis=0) for _, at in spots])
        positions, _ = _positions([at[0] for _, at in spots])
        inputs = tuple(dict.fromkeys(identity for _, at in spots for each in at for identity in each.readings))
        off = off_line(position=np.array(positions), gap=gaps, held=(0, len(spots) - 1))
        return tuple(item for item, _ in spots), off, inputs

    def throw(self, item: str) -> tuple[Draws, tuple[str, ...]] | None:
        """A throw [m]: half the difference of its heights; None where both were not read."""
        top, bottom = self.reader.size(d.HEIGHT_TOP, item), self.reader.size(d.HEIGHT_BOTTOM, item)
        if top is None or bottom is None:
            return None
        return np.asarray(throw_of(top=top.draws, bottom=bottom.draws)), (*top.inputs, *bottom.inputs)

    def blank(self, item: str, quantity: str, *, part: str = "crankshaft", dimension: str = "length") -> Finding:
        """A finding that carries the names only."""
        return Finding(system=d.KEY, part=part, item=item, quantity=quantity, dimension=dimension)


_LAST: dict[str, Shaft] = {}


def _positions(spots: Sequence[Estimate]) -> tuple[tuple[float, ...], bool]:
    """Where stations stand along the shaft: as noted [m], else counted evenly; and whether they were only counted."""
    depths = [spot.place.depth for spot in spots]
    known = [depth for depth in depths if depth is not None]
    if len(known) == len(depths) and len(set(known)) == len(known):
        return tuple(known), False
    return tuple(float(n) for n in range(len(depths))), True


def _bow(shaft: Shaft) -> BowFound | None:
    stations = [(main.item, found) for main in shaft.mains if (found := _station(shaft, main.item)) is not None]
    if len(stations) < 3:
        return None
    spots = [found[2][0] for _, found in stations]
    positions, even = _positions(spots)
    items = tuple(item for item, _ in stations)
    inputs = tuple(dict.fromkeys(i for _, found in stations for spot in found[2] for i in spot.readings))
    held = (0, len(stations) - 1)
    centres = [found for _, found in stations]
    if all(found[0] is not None for found in centres):
        x = np.stack([np.asarray(found[0]) for found in centres])
        y = np.stack([np.asarray(found[1]) for found in centres])
        taken = bow(position=np.array(positions), x=x, y=y, held=held)
        return BowFound(items=items, positions=positions, bend=taken.bow, x=taken.bow_x, y=taken.bow_y, known=True, even=even,
                        inputs=inputs)  # fmt: skip
    totals = np.stack([np.abs(np.mean([shaft.bench.spot(each) for each in found[2]], axis=0)) for found in centres])
    low, high = bow_bounds(position=np.array(positions), total=totals, held=held)
    share = shaft.reader.even("which way the run-outs lean", 0.0, 1.0)
    return BowFound(items=items, positions=positions, bend=low + (high - low) * share, x=None, y=None, known=False, even=even,
                    inputs=inputs)  # fmt: skip


Station = tuple[Draws | None, Draws | None, tuple[Estimate, ...]]


def _station(shaft: Shaft, item: str) -> Station | None:
    """Centre of one main off the axis it turned about [m], from a dial round one turn, else from its run-out."""
    round_turn = [spot for spot in shaft.reader.spots(d.DIAL, item) if spot.place.direction is not None]
    if len({spot.place.direction for spot in round_turn}) >= 3:
        x, y = _first_harmonic(shaft, round_turn)
        return x, y, tuple(round_turn)
    spots = shaft.reader.spots(d.RUN_OUT, item)
    if not spots:
        return None
    total = np.mean([shaft.bench.spot(each) for each in spots], axis=0)
    direction = spots[0].place.direction
    if direction is None:
        return None, None, spots
    angle = np.radians(direction) + shaft.reader.even(f"high spot of {item}", -ANGLE_READ, ANGLE_READ)
    return np.asarray(0.5 * total * np.cos(angle)), np.asarray(0.5 * total * np.sin(angle)), spots


def _first_harmonic(shaft: Shaft, spots: Sequence[Estimate]) -> tuple[Draws, Draws]:
    """The first harmonic of dial readings, draw by draw: the least-squares fit is one matrix for all draws."""
    angle = np.radians([spot.place.direction or 0.0 for spot in spots])
    columns = [np.ones_like(angle), np.cos(angle), np.sin(angle)]
    if len(spots) >= 5:
        columns += [np.cos(2.0 * angle), np.sin(2.0 * angle)]
    fit = np.linalg.pinv(np.stack(columns, axis=1))
    found = fit @ np.stack([shaft.bench.spot(spot) for spot in spots])
    return np.asarray(found[1]), np.asarray(found[2])
