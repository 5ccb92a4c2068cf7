"""What could be done about the spark: leave it, set the coupling, set the gaps, have the magneto overhauled."""

from __future__ import annotations

import math
from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Range
from gudgeon.engine.prospect import Prospect
from gudgeon.engine.remedy import Need, PricedItem, Remedy, Risk
from gudgeon.mechanics import timing
from gudgeon.quantity import Amount, Said
from gudgeon.systems.drafting import step
from gudgeon.systems.ignition import description as d
from gudgeon.systems.ignition.crank_marks import true_centre
from gudgeon.systems.ignition.spark import CRANKING, cranking, gap_rules, magneto, ratio
from gudgeon.systems.judging import Practice, middle
from gudgeon.systems.kit import Kit
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, could_be_read, hours, prospect_of, remedy_of, worn

SPARK, GAPS = "ignition: spark timing", "ignition: magneto and gaps"
OVERHAUL = "magneto overhauled"
HAND = math.radians(2.0)
"""How closely an impulse is set by hand on the rim [rad]; common practice."""
TRIP_TARGET = (0.0, math.radians(5.0))
SET_TO = {"contact point gap": (0.015 * d.INCH, 0.016 * d.INCH), "plug gap": (0.022 * d.INCH, 0.025 * d.INCH)}
"""Settings that the most authorities allow; where the make is known its own figure goes before them."""


def matters(bench: Bench) -> tuple[tuple[Matter, tuple[Way, ...]], ...]:
    """Every matter with its ways; none where neither magneto nor plug was read or noted."""
    kit = Kit.of(bench, d.KEY)
    return cast(tuple[tuple[Matter, tuple[Way, ...]], ...], kit.once("matters", lambda: _matters(kit)))


def _matters(kit: Kit) -> tuple[tuple[Matter, tuple[Way, ...]], ...]:
    found: list[tuple[Matter, tuple[Way, ...]]] = []
    if kit.items(d.MAGNETO):
        spark = _spark_matter(kit)
        found.append((spark, (_leave_spark(spark), _retime(kit, spark))))
    if kit.items(d.MAGNETO, d.PLUG):
        gaps = _gap_matter(kit)
        found.append((gaps, (_leave_gaps(gaps), _set_gaps(kit, gaps), *_overhaul(kit, gaps))))
    return tuple(found)


def _spark_matter(kit: Kit) -> Matter:
    item, read = magneto(kit), cranking(kit)
    return Matter(
        system=d.KEY,
        subject=SPARK,
        bench=kit.bench,
        items=(item,),
        quantities=(
            Quantity(
                name=CRANKING, part=d.MAGNETO, dimension="angle", practices={item: kit.rules("impulse trips after centre")}
            ),
        ),
        now={CRANKING: {item: read[0]} if read is not None else {}},
        inputs=read[1] if read is not None else (),
    )


def _leave_spark(matter: Matter) -> Way:
    past = worn(matter, CRANKING)
    return Way(
        name="spark-leave",
        title=Said("Leave the spark where it is"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        works=("ignition work",),
        for_it=(Said("Where an old mark says how it was set, nothing is lost."),),
        against_it=(Said("It sparks before dead centre while cranking: a kick-back breaks wrists."),) if past else (),
    )


def moved(kit: Kit) -> tuple[Draws, int, float] | None:
    """Where the spark falls after the coupling is set over [rad after centre], teeth moved (later is positive), and one step.

    The fewest teeth that bring it to dead centre or just after it; without a count of teeth it is set freely.
    """
    read, teeth = cranking(kit), kit.size(d.TEETH, magneto(kit))
    if read is None or teeth is None or teeth.value < 2:
        return None
    one = float(timing.tooth_step(teeth=round(teeth.value), ratio=ratio(kit)))
    count = math.ceil((TRIP_TARGET[0] - middle(read[0])) / one - 1e-6)
    return np.asarray(read[0] + count * one), count, one


def _retime(kit: Kit, matter: Matter) -> Way:
    item = magneto(kit)
    by_teeth = moved(kit)
    after = kit.reader.even("spark set by hand", *TRIP_TARGET) + 0.5 * HAND * kit.bench.named("hand on the rim")
    parameters = {f"{item} trips low": TRIP_TARGET[0], f"{item} trips high": TRIP_TARGET[1]}
    title = Said(
        "Set the magneto over so that the impulse trips at dead centre or up to {0} after", (Amount(TRIP_TARGET[1], "angle"),)
    )
    against: list[Said] = []
    if by_teeth is not None:
        after, count, one = by_teeth
        parameters[f"{item} teeth"] = float(count)
        if count:
            way = "later" if count > 0 else "earlier"
            title = Said(
                f"Set the coupling {abs(count)} {'tooth' if abs(count) == 1 else 'teeth'} {way}, {{0}} each",
                (Amount(one, "angle"),),
            )
        if one > math.radians(8):
            against.append(Said("One tooth is {0}: it may not be settable closer.", (Amount(one, "angle"),)))
    centre = next((read for cylinder in kit.items(d.TIMING) if (read := true_centre(kit, cylinder))), None)
    return Way(
        name="spark-set",
        title=title,
        action="adjust",
        intervention="removable",
        original="Old marks stay; new ones are scribed beside them.",
        items=matter.items,
        after={CRANKING: {item: after}},
        parameters=parameters,
        steps=(
            step(
                d.KEY,
                "set-spark",
                "Set the magneto: cylinder 1 on compression, at dead centre by the stop, lever retarded, points about to open",
                hours=hours(0.5, 1.0, 2.5),
                hold="impulse trips at dead centre or just after, read three times by hand, plugs out",
                may_fail=Range(0.1, 0.2, 0.4, OWN),
                works=("ignition work",),
            ),
        ),
        needs=(
            Need(
                kind="reading",
                what="inner dead centre of cylinder 1 by a stop and two marks",
                met=centre is not None,
                why="an angle is no better than the centre it is counted from",
                part=d.TIMING,
                item="cyl 1",
                feature=d.STOP_BEFORE.name,
            ),
        ),
        works=("ignition work",),
        for_it=(Said("Costs nothing but the time; fuel off, plugs out, magneto shorted while hands are at the wheel."),),
        against_it=tuple(against),
    )


def _gap_matter(kit: Kit) -> Matter:
    now: dict[str, dict[str, Draws]] = {}
    practices: dict[str, dict[str, Practice]] = {}
    inputs: list[str] = []
    for feature, items in ((d.POINTS, kit.items(d.MAGNETO)), (d.PLUG_GAP, kit.items(d.PLUG))):
        if not items:
            continue
        practices[feature.name] = {item: gap_rules(kit, feature.name) for item in items}
        now[feature.name] = {}
        for item in items:
            read = kit.size(feature, item)
            if read is not None:
                now[feature.name][item] = read.draws
                inputs += read.inputs
    parts = {d.POINTS.name: d.MAGNETO, d.PLUG_GAP.name: d.PLUG}
    return Matter(
        system=d.KEY,
        subject=GAPS,
        bench=kit.bench,
        items=kit.items(d.MAGNETO, d.PLUG),
        quantities=tuple(
            Quantity(name=name, part=parts[name], dimension="length", practices=each) for name, each in practices.items()
        ),
        now=now,
        inputs=tuple(inputs),
    )


def _leave_gaps(matter: Matter) -> Way:
    return Way(
        name="gaps-leave",
        title=Said("Leave points and plugs as they are"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        works=("ignition work",),
        for_it=(Said("A magneto that sparks well needs nothing."),),
    )


def _set_after(kit: Kit, matter: Matter) -> dict[str, dict[str, Draws]]:
    return {
        quantity.name: {
            item: kit.reader.even(f"{quantity.name} set at {item}", *SET_TO[quantity.name]) for item in quantity.practices
        }
        for quantity in matter.quantities
    }


def _set_gaps(kit: Kit, matter: Matter) -> Way:
    return Way(
        name="gaps-set",
        title=Said("Dress the points flat and set points and plugs"),
        action="adjust",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        after=_set_after(kit, matter),
        parameters={
            f"{name} {end}": value for name, band in SET_TO.items() for end, value in zip(("low", "high"), band, strict=True)
        },
        steps=(
            step(
                d.KEY,
                "set-gaps",
                "Dress and set the points, clean and set the plugs",
                hours=hours(0.3, 0.7, 1.5),
                hold="gaps read as fitted; the spark jumps a quarter inch in the open, away from fuel",
                works=("ignition work",),
            ),
        ),
        works=("ignition work",),
        for_it=(Said("The figure on the magneto's own plate goes before these: makes differ from .010 to 1/32."),),
        against_it=(Said("Setting the points moves the spark: time it again afterwards."),),
    )


def _overhaul(kit: Kit, matter: Matter) -> tuple[Way, ...]:
    item = magneto(kit)
    if item not in matter.items:
        return ()
    return (
        Way(
            name="magneto-overhaul",
            title=Said("Send the magneto out: remagnetised, rewound if it needs it, bearings and condenser"),
            action="make good",
            intervention="re-doable",
            original="Body, magnets and plate stay; windings may be new.",
            items=matter.items,
            after=_set_after(kit, matter),
            parameters={f"{item} overhaul": 1.0},
            priced=(PricedItem(OVERHAUL, 1),),
            steps=(
                step(d.KEY, "magneto-away", "Magneto overhauled", shop=OVERHAUL),
                step(
                    d.KEY,
                    "magneto-back",
                    "Inspect the magneto in: spark by hand, points, air gap, end play, plate still on it",
                    hours=hours(0.3, 0.5, 1.0),
                    after=("magneto-away",),
                    hold="point gap read and spark seen at hand speed",
                    works=("ignition work",),
                ),
            ),
            needs=(
                Need(
                    kind="reading",
                    what=f"{item}: what its spark, windings and bearings are like",
                    met=bool(kit.words(d.MAG_STATE, item)),
                    why="the shop is asked for what it needs and no more",
                    part=d.MAGNETO,
                    item=item,
                    feature=d.MAG_STATE.name,
                ),
            ),
            risks=(
                Risk(
                    "an armature off its keeper loses strength on the way",
                    Range(0.02, 0.05, 0.15, OWN),
                    "it must be magnetised again; keep a keeper across the poles",
                ),
            ),
            works=("ignition work",),
            for_it=(
                Said(
                    "Old shellac runs when hot and throws the engine out of spark after half an hour: only a rewind cures that."
                ),
            ),
            against_it=(Said("Note the rotation and the lag angle first: it may come back set for the other hand."),),
        ),
    )


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy of the system."""
    return tuple(remedy_of(matter, way) for matter, ways in matters(bench) for way in ways)


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    wanted = {
        CRANKING: (d.MAGNETO, d.TRIPS.name),
        d.POINTS.name: (d.MAGNETO, d.POINTS.name),
        d.PLUG_GAP.name: (d.PLUG, d.PLUG_GAP.name),
    }
    return tuple(
        prospect_of(matter, ways, could_be_read(matter, wanted, "it was not read, and decides whether it may stay so"))
        for matter, ways in matters(bench)
    )
