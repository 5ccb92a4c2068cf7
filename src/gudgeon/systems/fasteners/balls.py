"""Sets of loose balls: which size they were, how far they differ, how many go in."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.engine.specification import Specification
from gudgeon.handbook.sizes import named_sizes
from gudgeon.mechanics import balls as mechanics
from gudgeon.quantity import Amount, Said
from gudgeon.systems.fasteners import description as d
from gudgeon.systems.judging import Limit, Practice, authorities_differ, joined, judged, not_measured, practice
from gudgeon.systems.measured import Draws, Reader

SIZE, WORN, DIFFER, COUNT, STATE = "ball size", "balls worn", "balls differ", "balls in a full ring", "condition"


@dataclass(frozen=True, kw_only=True)
class BallSet:
    """One set of balls."""

    reader: Reader
    item: str

    @property
    def specification(self) -> Specification | None:
        """What the reckoning says they were made to."""
        key = self.reader.key(d.BALL["diameter"], self.item)
        return self.reader.bench.specification(key.part, key.item, key.feature)

    @property
    def nominal(self) -> float | None:
        """The size that they were made to [m]: the reckoning's, else the nearest in the list at or over the largest ball."""
        known = self.specification
        if known is not None and known.nominal is not None:
            return known.nominal
        largest = self.reader.largest(d.BALL["diameter"], self.item)
        if largest is None:
            return None
        sizes = [each.nominal for each in named_sizes("bearing balls") if each.nominal >= largest.value - 0.0005 * d.INCH]
        return min(sizes, key=lambda size: size - largest.value, default=None)

    @property
    def differ(self) -> Draws | None:
        """Largest less smallest ball [m]; None where fewer than two were read."""
        spots = self.reader.spots(d.BALL["diameter"], self.item)
        if len(spots) < 2:
            return None
        draws = np.stack([self.reader.bench.spot(spot) for spot in spots])
        return np.asarray(draws.max(axis=0) - draws.min(axis=0))

    @property
    def practised(self) -> Practice:
        """What authorities say of the variation within a set; a thou as the owner's own limit where none decides."""
        known = practice("ball set variation", size=self.nominal or 0.0)
        if known.deciding:
            return known
        own = Limit(
            size=0.001 * d.INCH, most=True, origin=Origin("F", "past a thou the larger balls carry all; common practice")
        )
        return replace(known, limits=(own,))

    @property
    def full(self) -> int | None:
        """How many go in a full ring; None where its circle was not read."""
        circle = self.reader.size(d.BALL["circle of centres"], self.item)
        if circle is None or self.nominal is None:
            return None
        return int(mechanics.full_complement(circle=circle.value, ball=self.nominal))

    @property
    def count(self) -> int | None:
        """How many were found."""
        read = self.reader.size(d.BALL["ball count"], self.item)
        return None if read is None else round(read.value)

    def words(self) -> str:
        """Their condition."""
        return self.reader.words(d.BALL["condition"], self.item)[0]


def ball_findings(balls: BallSet) -> tuple[Finding, ...]:
    """All that the readings of one set say."""
    return (*_size(balls), *_worn(balls), *_differ(balls), *_count(balls), *_state(balls))


def _blank(balls: BallSet, quantity: str, dimension: str = "length") -> Finding:
    return Finding(system=d.KEY, part="ball", item=balls.item, quantity=quantity, dimension=dimension)


def _size(balls: BallSet) -> tuple[Finding, ...]:
    if balls.nominal is None:
        return (not_measured(_blank(balls, SIZE, "words"), settle=f"Read several balls of {balls.item} with a micrometer."),)
    known = balls.specification
    read = balls.reader.largest(d.BALL["diameter"], balls.item)
    sure = f", {known.probability * 100:.0f} in 100" if known is not None and known.nominal is not None else ""
    name = known.written if known is not None and known.written else ""
    text = f"{balls.item} was of {name + ', ' if name else ''}{{0}} balls{sure}."
    said = Said(text, (Amount(balls.nominal, "length", fine=True),))
    inputs = read.inputs if read else ()
    line = replace(
        _blank(balls, SIZE, "words"),
        sentence=said,
        inputs=inputs,
        settle=known.settle if known is not None else "",
        formula="largest ball against the sizes that balls came in",
    )
    return (line,)


def _worn(balls: BallSet) -> tuple[Finding, ...]:
    smallest, nominal = balls.reader.smallest(d.BALL["diameter"], balls.item), balls.nominal
    if smallest is None or nominal is None:
        return ()
    draws = np.asarray(nominal - smallest.draws)
    said = Said(
        f"The smallest ball of {balls.item} is {{0}} under size.", (Amount(float(np.median(draws)), "length", fine=True),)
    )
    line = replace(_blank(balls, WORN), sentence=said, inputs=smallest.inputs, formula="standard size − smallest ball")
    return judged(line, draws)


def _differ(balls: BallSet) -> tuple[Finding, ...]:
    if balls.differ is None:
        return ()
    said = Said(
        f"The balls of {balls.item} differ by {{0}}; the largest carry the load until they have worn to the others.",
        (Amount(float(np.median(balls.differ)), "length", fine=True),),
    )
    inputs = [identity for spot in balls.reader.spots(d.BALL["diameter"], balls.item) for identity in spot.readings]
    line = replace(
        _blank(balls, DIFFER),
        sentence=joined(said, authorities_differ(balls.practised)),
        inputs=tuple(inputs),
        formula="largest − smallest",
    )
    return judged(line, balls.differ, balls.practised)


def _count(balls: BallSet) -> tuple[Finding, ...]:
    if balls.full is None:
        return ()
    had = f"; {balls.count} were found" if balls.count is not None else ""
    short = balls.count is not None and balls.count < balls.full
    more = " One or more may be lost: look in the sump and the race before ordering." if short else ""
    said = Said(f"{balls.full} balls go round {balls.item} without a cage{had}.{more}")
    line = replace(
        _blank(balls, COUNT, "count"),
        value=float(balls.full),
        low=float(balls.full),
        high=float(balls.full),
        sentence=said,
        formula="π / asin(ball / circle), rounded down; plane geometry",
    )
    return (line,)


def _state(balls: BallSet) -> tuple[Finding, ...]:
    words = balls.words()
    if not words:
        return ()
    return (replace(_blank(balls, STATE, "words"), sentence=Said(f"{balls.item}: {words}."), formula="as noted"),)
