"""What could be done about the water pump: shaft and bushes, clearance of the impeller, drive pin, each its own matter."""

from __future__ import annotations

from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Origin, Range
from gudgeon.engine.prospect import Prospect
from gudgeon.engine.remedy import Need, PricedItem, Remedy, Risk
from gudgeon.engine.step import StepDraft
from gudgeon.engine.system import Feature
from gudgeon.handbook.rules import rules
from gudgeon.mechanics import pins
from gudgeon.quantity import Amount, Said
from gudgeon.systems.cooling import description as d
from gudgeon.systems.cooling.shaft import BUSHES, IN_BUSH, OVER_WORK, clearance, new_size, pin_over_work, work_torque
from gudgeon.systems.cooling.water import ENOUGH, MOVED, horsepower, moving, slip_at
from gudgeon.systems.drafting import reading_need, step
from gudgeon.systems.judging import Limit, Practice
from gudgeon.systems.kit import Kit
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, could_be_read, hours, prospect_of, remedy_of, worn

SHAFTS, IMPELLER, PIN = "cooling: pump shaft and bushes", "cooling: impeller clearance", "cooling: drive pin"
SHAFT_MADE, BUSH_MADE, PIN_MADE = "water pump shaft made", "water pump bush made", "drive pin made"
MADE = (0.001 * d.INCH, 0.002 * d.INCH)
"""Clearance made between a new shaft and its bushes [m]: the car's .001 and a little for a cup-fed shaft; common practice."""
SHIMMED = (0.008 * d.INCH, 0.012 * d.INCH)
"""Clearance of the impeller that shims bring it to [m]: about the .010 of a rebuilt pump of the 1930s."""
HOLDS = Limit(size=1.0, most=False, origin=Origin("E", "statics: under it the pin shears at its work", ""))


def matters(bench: Bench) -> tuple[tuple[Matter, tuple[Way, ...]], ...]:
    """Every matter with its ways; none where no pump was read or noted."""
    kit = Kit.of(bench, d.KEY)
    return cast(tuple[tuple[Matter, tuple[Way, ...]], ...], kit.once("matters", lambda: _matters(kit)))


def _matters(kit: Kit) -> tuple[tuple[Matter, tuple[Way, ...]], ...]:
    if not kit.items(d.PUMP):
        return ()
    shafts, impeller, pin = _shaft_matter(kit), _impeller_matter(kit), _pin_matter(kit)
    return (
        (shafts, (_run_on(shafts), _new_bushes(kit, shafts), _new_both(kit, shafts))),
        (impeller, (_leave_impeller(impeller), _shim(kit, impeller))),
        (pin, (_leave_pin(pin), _new_pin(kit, pin, brass=False), _new_pin(kit, pin, brass=True))),
    )


def _matter(
    kit: Kit,
    subject: str,
    quantity: str,
    dimension: str,
    practised: dict[str, Practice],
    now: dict[str, tuple[Draws, tuple[str, ...]]],
) -> Matter:
    return Matter(
        system=d.KEY,
        subject=subject,
        bench=kit.bench,
        items=kit.items(d.PUMP),
        quantities=(Quantity(name=quantity, part=d.PUMP, dimension=dimension, practices=practised),),
        now={quantity: {item: read[0] for item, read in now.items()}},
        inputs=tuple(dict.fromkeys(identity for read in now.values() for identity in read[1])),
    )


def _shaft_matter(kit: Kit) -> Matter:
    items = kit.items(d.PUMP)
    practised = {item: kit.rules("water pump shaft clearance", size=new_size(kit, item) or 0.5 * d.INCH) for item in items}
    now = {item: read for item in items if (read := clearance(kit, item)) is not None}
    return _matter(kit, SHAFTS, IN_BUSH, "length", practised, now)


def _impeller_matter(kit: Kit) -> Matter:
    now = {}
    for item in kit.items(d.PUMP):
        state = moving(kit, item)
        left = state.over_need(state.slips) if state is not None else None
        if state is not None and left is not None:
            now[item] = left, state.inputs
    return _matter(kit, IMPELLER, MOVED, "ratio", {item: Practice(limits=(ENOUGH,)) for item in kit.items(d.PUMP)}, now)


def _pin_matter(kit: Kit) -> Matter:
    now = {item: read for item in kit.items(d.PUMP) if (read := pin_over_work(kit, item)) is not None}
    return _matter(kit, PIN, OVER_WORK, "ratio", {item: Practice(limits=(HOLDS,)) for item in kit.items(d.PUMP)}, now)


def _run_on(matter: Matter) -> Way:
    past = worn(matter, IN_BUSH)
    return Way(
        name="shaft-run-on",
        title=Said("Run shaft and bushes on, with new packing"),
        action="run on",
        intervention="removable",
        original="Everything but the packing stays.",
        items=matter.items,
        steps=(
            step(
                d.KEY,
                "repack",
                "Draw the old packing wet, clean the box, fit new rings cut at a slant, joints staggered",
                hours=hours(0.5, 1.0, 2.0),
                works=("cooling work",),
            ),
        ),
        works=("cooling work",),
        for_it=(Said("Costs an hour; the cups must feed, and the nut is only snugged up."),),
        against_it=(Said("A shaft that shakes in its bush eats packing after packing and its own gears."),) if past else (),
    )


def _uneven(kit: Kit, item: str) -> Draws:
    """By how much the shaft is thinner in one bush than in the other [m]: a bush reamed to the larger leaves it slack."""
    reads = [read for level in BUSHES if (read := kit.reader.level(d.SHAFT, item, level)) is not None]
    if len(reads) < 2:
        return kit.reader.full(0.0)
    return np.asarray(np.abs(reads[0].draws - reads[1].draws))


def _new_bushes(kit: Kit, matter: Matter) -> Way:
    after: dict[str, Draws] = {}
    parameters: dict[str, float] = {}
    for item in matter.items:
        shaft = kit.reader.largest(d.SHAFT, item)
        if clearance(kit, item) is not None:
            after[item] = kit.reader.even(f"clearance made in {item}", *MADE) + _uneven(kit, item)
        if shaft is not None:
            running = [read.value for level in BUSHES if (read := kit.reader.level(d.SHAFT, item, level)) is not None]
            size = max(running, default=shaft.value)
            parameters |= {f"{item} bush bore low": size + MADE[0], f"{item} bush bore high": size + MADE[1]}
    return Way(
        name="new-bushes",
        title=Said("New bushes, reamed to the old shaft"),
        action="make good",
        intervention="re-doable",
        original="Case and shaft stay; the old bushes go on the shelf.",
        items=matter.items,
        after={IN_BUSH: after},
        parameters=parameters,
        priced=(PricedItem(BUSH_MADE, 2 * len(matter.items)),),
        steps=_bush_steps(),
        needs=_bush_needs(kit, matter.items),
        works=("cooling work", "pressing"),
        for_it=(Said("Half the work, where the shaft is smooth and round in both bushes and under the packing."),),
        against_it=(Said("A groove under the packing stays, and so do a rusted or thinned shaft and what its packing leaks."),),
    )


def _new_both(kit: Kit, matter: Matter) -> Way:
    after: dict[str, Draws] = {}
    parameters: dict[str, float] = {}
    for item in matter.items:
        after[item] = kit.reader.even(f"clearance made in {item}", *MADE)
        size = new_size(kit, item)
        if size is not None:
            parameters |= {
                f"{item} shaft": size,
                f"{item} bush bore low": size + MADE[0],
                f"{item} bush bore high": size + MADE[1],
            }
    likely = next((value for name, value in parameters.items() if name.endswith(" shaft")), None)
    title = Said("New shaft and bushes")
    if likely is not None:
        title = Said("New shaft of {0} and bushes to it", (Amount(likely, "length"),))
    return Way(
        name="new-shaft-and-bushes",
        title=title,
        action="remake",
        intervention="removable",
        original="The case stays; shaft and bushes go on the shelf.",
        items=matter.items,
        after={IN_BUSH: after},
        parameters=parameters,
        priced=(PricedItem(SHAFT_MADE, len(matter.items)), PricedItem(BUSH_MADE, 2 * len(matter.items))),
        steps=(step(d.KEY, "shaft", "Pump shaft made", shop=SHAFT_MADE), *_bush_steps(after=("shaft",))),
        needs=(
            *_needs(
                kit,
                matter.items,
                ((d.SHAFT_LENGTH, "a shaft is made from its drawing"), (d.PIN_SHAFT, "the cross hole goes there")),
            ),
            *_bush_needs(kit, matter.items),
        ),
        risks=(
            Risk(
                "stainless galls in bronze or is eaten under the packing",
                Range(0.05, 0.1, 0.25, OWN),
                "make it again of plain steel; which is better is disputed",
            ),
        ),
        works=("cooling work", "pressing"),
        for_it=(Said("Smooth and round under the packing: it can be kept just dripping."),),
    )


def _bush_steps(after: tuple[str, ...] = ()) -> tuple[StepDraft, ...]:
    return (
        step(d.KEY, "bushes", "Pump bushes made, left small inside", shop=BUSH_MADE),
        step(
            d.KEY,
            "ream-bushes",
            "Press the bushes in, line ream both together to the finished shaft, drill the oil holes through",
            hours=hours(1.0, 2.0, 4.0),
            after=("bushes", *after),
            hold="shaft turns by finger in both bushes, and both bores are read",
            may_fail=Range(0.03, 0.08, 0.2, OWN),
            works=("cooling work", "pressing"),
        ),
    )


def _needs(kit: Kit, items: tuple[str, ...], wanted: tuple[tuple[Feature, str], ...]) -> tuple[Need, ...]:
    return tuple(reading_need(kit.reader, feature, item, why=why) for item in items for feature, why in wanted)


def _bush_needs(kit: Kit, items: tuple[str, ...]) -> tuple[Need, ...]:
    return _needs(
        kit, items, ((d.BUSH_OUTSIDE, "a bush is made to its hole"), (d.BUSH_LENGTH, "a bush is made to its length"))
    )  # fmt: skip


def _leave_impeller(matter: Matter) -> Way:
    return Way(
        name="impeller-leave",
        title=Said("Leave the impeller's clearance"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        for_it=(Said("These engines want little water, and a thermometer tells whether it is enough."),),
    )


def _shim(kit: Kit, matter: Matter) -> Way:
    after = {}
    for item in matter.items:
        state = moving(kit, item)
        slips = slip_at(kit, item, kit.reader.even(f"impeller of {item} shimmed", *SHIMMED)) if state is not None else None
        left = state.over_need(slips) if state is not None and slips is not None else None
        if left is not None:
            after[item] = left
    return Way(
        name="impeller-shim",
        title=Said("Face or shim the impeller to about {0} from the case", (Amount(sum(SHIMMED) / 2, "length"),)),
        action="adjust",
        intervention="removable",
        original="Everything stays; shims and a thinner gasket can be taken out again.",
        items=matter.items,
        after={MOVED: after},
        steps=(
            step(
                d.KEY,
                "shim-impeller",
                "Shim or face the cover until the vanes clear the case, end play pushed both ways",
                hours=hours(0.5, 1.5, 3.0),
                hold="clearance read with the gasket that stays in, and the impeller turning free",
                works=("cooling work",),
            ),
        ),
        works=("cooling work",),
        for_it=(Said("Gives back what slips past the vanes, at low speed most."),),
        against_it=(Said("Vanes that rub cast iron chew themselves up: end play counts against the clearance."),),
    )


def _leave_pin(matter: Matter) -> Way:
    return Way(
        name="pin-leave",
        title=Said("Leave the drive pin"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        against_it=(Said("A stepped or hard pin: the one breaks at work, the other breaks the gears instead."),),
    )


def _new_pin(kit: Kit, matter: Matter, *, brass: bool) -> Way:
    material = "brass" if brass else "soft steel"
    row = next(each for each in rules("shear strength of a pin") if ("brass" in each.applies) == brass)
    strength = kit.reader.even(f"shear strength, {'brass' if brass else 'steel'}", row.low or 0.0, row.high or 0.0)
    after: dict[str, Draws] = {}
    parameters: dict[str, float] = {}
    for item in matter.items:
        shaft, work, pin = kit.size(d.PIN_SHAFT, item), work_torque(kit, item, horsepower(kit)), kit.reader.largest(d.PIN, item)
        if pin is not None:
            size = kit.reader.nominal(d.PIN, item) or round(pin.value / (d.INCH / 64)) * d.INCH / 64
            parameters |= {f"{item} pin": size, f"{item} brass": float(brass)}
            if shaft is not None and work is not None:
                after[item] = np.asarray(pins.cross_pin_torque(strength=strength, shaft=shaft.draws, pin=size) / work)
    return Way(
        name=f"pin-{'brass' if brass else 'steel'}",
        title=Said(f"New drive pin of {material}"),
        action="remake",
        intervention="removable",
        original="The old pin goes on the shelf.",
        items=matter.items,
        after={OVER_WORK: after},
        parameters=parameters,
        priced=(PricedItem(PIN_MADE, len(matter.items)),),
        steps=(
            step(d.KEY, "pin", "Drive pin made", shop=PIN_MADE),
            step(
                d.KEY,
                "fit-pin",
                "Fit the pin, secure it so that it cannot fall into the gears, leave a spare in the tool box",
                hours=hours(0.2, 0.3, 0.6),
                after=("pin",),
                hold="the pin lies flush or is wired, and the pump turns by hand",
            ),
        ),
        needs=_needs(
            kit, matter.items, ((d.PIN, "the pin is made to its hole"), (d.PIN_LENGTH, "a pin is made from its drawing"))
        ),
        for_it=(
            Said("Lets go soonest, and does not rust fast in its hole." if brass else "What most engines had; easy to find."),
        ),
        against_it=(Said("Beside bronze and water soft steel rusts in its hole."),) if not brass else (),
    )


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy of the system."""
    return tuple(remedy_of(matter, way) for matter, ways in matters(bench) for way in ways)


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    wanted = {
        IN_BUSH: (d.PUMP, d.BUSH.name), MOVED: (d.PUMP, d.CLEARANCE.name), OVER_WORK: (d.PUMP, d.PIN.name),
    }  # fmt: skip
    return tuple(
        prospect_of(matter, ways, could_be_read(matter, wanted, "it was not read, and decides whether it may stay so"))
        for matter, ways in matters(bench)
    )
