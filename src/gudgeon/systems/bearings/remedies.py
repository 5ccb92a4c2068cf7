"""What could be done about the rod bearings, and about rods that are bent or twisted."""

from __future__ import annotations

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Range
from gudgeon.engine.prospect import PossibleReading, Prospect
from gudgeon.engine.remedy import PricedItem, Remedy, Risk
from gudgeon.engine.step import StepDraft
from gudgeon.quantity import Said
from gudgeon.systems.bearings import description as d
from gudgeon.systems.bearings.rods import BEND, TWIST, Rods
from gudgeon.systems.journals import THOU
from gudgeon.systems.measured import Draws
from gudgeon.systems.poured import CLEARANCE
from gudgeon.systems.poured_ways import Kind, matter_of, ways_of
from gudgeon.systems.proposing import (
    OWN,
    Matter,
    Quantity,
    Way,
    could_be_read,
    hours,
    listed,
    prospect_of,
    remedy_of,
    warned,
    worn,
)

RODS, STRAIGHT = "bearings: rods", "bearings: rods straight"
POUR, STRAIGHTEN = "rod poured and bored", "rod straightened"

KIND = Kind(
    prefix="rods",
    one="rod bearing",
    many="rod bearings",
    shaft="crankpins",
    shaft_subject="crankshaft: pins",
    pour=POUR,
    casting="the rods",
)


def bearing_matter(rods: Rods) -> tuple[Matter, tuple[Way, ...]] | None:
    """The rod bearings and the ways to settle them; None where there are none on the bench."""
    if not rods.bearings.bearings:
        return None
    if "bearings" not in rods.worked_out:
        rods.worked_out["bearings"] = (matter_of(rods.bearings, RODS), ways_of(rods.bearings, KIND))
    return rods.worked_out["bearings"]  # type: ignore[return-value]


def straight_matter(rods: Rods) -> tuple[Matter, tuple[Way, ...]] | None:
    """Rods bent or twisted; None where no rod was tried with arbors."""
    now: dict[str, dict[str, Draws]] = {BEND: {}, TWIST: {}}
    inputs: list[str] = []
    for rod in rods.rods:
        for quantity in (BEND, TWIST):
            if (over := rods.over_big_end(rod, quantity)) is not None:
                now[quantity][rod] = over[0]
                inputs += over[1]
    items = tuple(rod for rod in rods.rods if rod in now[BEND] or rod in now[TWIST])
    if not items:
        return None
    matter = Matter(
        system=d.KEY,
        subject=STRAIGHT,
        bench=rods.bench,
        items=items,
        quantities=tuple(
            Quantity(name=name, part="rod", dimension="length", practices={rod: rods.slope_practice(rod) for rod in items})
            for name in (BEND, TWIST)
        ),
        now=now,
        inputs=tuple(dict.fromkeys(inputs)),
    )
    return matter, (_leave(items), _straighten(rods, matter))


def _leave(items: tuple[str, ...]) -> Way:
    return Way(
        name="straight-run-on",
        title=Said("Leave the rods as they are"),
        action="run on",
        intervention="removable",
        original="Everything stays.",
        items=items,
        for_it=(Said("Nothing is bent, nothing can crack."),),
    )


def _straighten(rods: Rods, matter: Matter) -> Way:
    bent = worn(matter, BEND, TWIST) or matter.items
    left = {
        name: {rod: np.abs(0.3 * THOU * rods.bench.named(f"{name} left in {rod}")) for rod in bent} for name in (BEND, TWIST)
    }
    return Way(
        name="straighten",
        title=Said(f"Straighten {listed(bent)} cold"),
        action="make good",
        intervention="re-doable",
        original="The rods stay.",
        items=bent,
        after=left,
        priced=(PricedItem(STRAIGHTEN, len(bent)),),
        steps=(
            StepDraft(
                key=f"{d.KEY}/straighten", title="Straighten the rods cold, a little past and back", system=d.KEY,
                shop=STRAIGHTEN, cautions=warned("pressing"),
            ),
            StepDraft(
                key=f"{d.KEY}/straighten-inspect", title="Try the rods again with arbors, and for cracks", system=d.KEY,
                hours=hours(0.3, 0.5, 1, len(bent)), after=(f"{d.KEY}/straighten",),
                hold="bend and twist of every rod read and accepted, no crack at the bend",
            ),
        ),
        risks=(
            Risk("a forged rod cracks, or a cast one breaks", Range(0.01, 0.04, 0.15, OWN), "another rod must be made"),
            Risk("it creeps back in the first hours", Range(0.02, 0.06, 0.15, OWN), "straighten again"),
        ),
        works=("pressing",),
        for_it=(Said("The bearing then bears over its whole length, and the piston stands square."),),
        against_it=(Said("Before the bearing is poured or scraped, never after; and never a rod with a crack."),),
    )  # fmt: skip


def _matters(rods: Rods) -> tuple[tuple[Matter, tuple[Way, ...]], ...]:
    return tuple(found for found in (bearing_matter(rods), straight_matter(rods)) if found is not None)


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy for the rod bearings, and for rods out of true where they were tried."""
    return tuple(remedy_of(matter, way) for matter, ways in _matters(Rods.of(bench)) for way in ways)


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    rods = Rods.of(bench)
    found = []
    for matter, ways in _matters(rods):
        readings = _could_be_read(rods, matter) if matter.subject == RODS else ()
        found.append(prospect_of(matter, ways, readings))
    return tuple(found)


def _could_be_read(rods: Rods, matter: Matter) -> tuple[PossibleReading, ...]:
    """Clearances and shims that nobody read, and a second reading of each clearance."""
    features = {CLEARANCE: ("bearing", CLEARANCE), "shims left": ("bearing", "shims")}
    again = tuple(
        PossibleReading(
            part="bearing",
            item=each.item,
            feature="lift",
            would_show=each.clearance.draws,
            uncertainty=0.4 * THOU,
            why="a second way of reading the clearance; strip alone is half a thou either way",
            minutes=5.0,
        )
        for each in rods.bearings.bearings
        if each.clearance is not None
    )
    return (*could_be_read(matter, features, "clearance and shims decide whether the bearing can be taken up"), *again)
