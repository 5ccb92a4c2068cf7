"""What could be done about dippers and troughs, the oil pump, and which oil goes in; each its own matter."""

from __future__ import annotations

from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.prospect import Prospect
from gudgeon.engine.remedy import PricedItem, Remedy
from gudgeon.quantity import Amount, Said
from gudgeon.systems.drafting import reading_need, step
from gudgeon.systems.judging import Practice
from gudgeon.systems.kit import Kit
from gudgeon.systems.measured import Draws
from gudgeon.systems.oiling import description as d
from gudgeon.systems.oiling.film import GRADES, chosen, thinnest
from gudgeon.systems.oiling.pumping import MINUTE, kind, minute, need_rules, play, sweep
from gudgeon.systems.oiling.splash import DIP, dip, dip_rules
from gudgeon.systems.proposing import Matter, Quantity, Way, could_be_read, hours, listed, prospect_of, remedy_of, worn

DIPPERS, PUMP, OIL = "oiling: dippers and troughs", "oiling: oil pump", "oiling: oil"
PLUNGER_MADE, GEARS_MADE = "oil pump plunger made", "oil pump gears made"
START = (0.0, 0.125 * d.INCH)
"""Dip to start from [m]: from just touching (tractor of 1920) to an eighth of an inch (from memory)."""
FITTED = (0.001 * d.INCH, 0.002 * d.INCH)
"""Clearances made anew in an oil pump [m]: Ford A's gears; the trade's plunger, from memory."""


def matters(bench: Bench) -> tuple[tuple[Matter, tuple[Way, ...]], ...]:
    """Every matter with its ways; none where nothing of it was read or noted."""
    kit = Kit.of(bench, d.KEY)
    return cast(tuple[tuple[Matter, tuple[Way, ...]], ...], kit.once("matters", lambda: _matters(kit)))


def _matters(kit: Kit) -> tuple[tuple[Matter, tuple[Way, ...]], ...]:
    found: list[tuple[Matter, tuple[Way, ...]]] = []
    if kit.items(d.TROUGH):
        dips = _dip_matter(kit)
        found.append((dips, (_leave_dips(dips), _set_dips(kit, dips))))
    if kit.items(d.PUMP):
        pump = _pump_matter(kit)
        ways = [_leave_pump(pump)]
        kinds = {kind(kit, item) for item in pump.items}
        if "gear" in kinds:
            ways += [_face_cover(kit, pump), _new_gears(kit, pump)]
        if "plunger" in kinds:
            ways.append(_new_plunger(kit, pump))
        found.append((pump, tuple(ways)))
    if kit.items(d.OIL) and thinnest(kit) is not None:
        oil = Matter(system=d.KEY, subject=OIL, bench=kit.bench, items=kit.items(d.OIL), quantities=(), now={OIL: {}})
        found.append((oil, _oils(kit, oil)))
    return tuple(found)


def _dip_matter(kit: Kit) -> Matter:
    known = {item: read for item in kit.items(d.TROUGH) if (read := dip(kit, item)) is not None}
    return Matter(
        system=d.KEY,
        subject=DIPPERS,
        bench=kit.bench,
        items=kit.items(d.TROUGH),
        quantities=(
            Quantity(
                name=DIP, part=d.TROUGH, dimension="length", practices={item: dip_rules(kit) for item in kit.items(d.TROUGH)}
            ),
        ),
        now={DIP: {item: read[0][0] for item, read in known.items()}},
        inputs=tuple(identity for read in known.values() for identity in read[0][1]),
    )


def _leave_dips(matter: Matter) -> Way:
    dry = worn(matter, DIP)
    return Way(
        name="dips-leave",
        title=Said("Leave the level and the dippers"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        for_it=(Said("It ran so once, if nobody has bent a dipper or moved an overflow since."),),
        against_it=(Said(f"The dippers of {listed(dry)} do not touch: their bearings run dry."),) if dry else (),
    )


def _set_dips(kit: Kit, matter: Matter) -> Way:
    after = {item: kit.reader.even(f"dip set at {item}", *START) for item in matter.items}
    return Way(
        name="dips-set",
        title=Said("Set every dipper from just touching to {0} deep, engine level", (Amount(START[1], "length"),)),
        action="adjust",
        intervention="removable",
        original="Overflows and dippers stay; their old place is written down.",
        items=matter.items,
        after={DIP: after},
        parameters={f"{item} {end}": at for item in matter.items for end, at in zip(("low", "high"), START, strict=True)},
        steps=(
            step(
                d.KEY, "set-dips", "Level the engine, fill to the overflows, set each dipper by a lump of grease or chalk",
                hours=hours(0.3, 0.5, 1.0, len(matter.items)),
                hold="every dipper marked wet by the same depth, and every trough seen to hold its oil",
                works=("oil work",),
            ),
        ),
        works=("oil work",),
        for_it=(Said("Costs only time; go a sixteenth deeper at a time while bearings are warm and the exhaust stays clear."),),
        against_it=(Said("Too deep smokes and fouls plugs: light puffs at the exhaust say so."),),
    )  # fmt: skip


def _pump_matter(kit: Kit) -> Matter:
    items = kit.items(d.PUMP)
    names: dict[str, tuple[dict[str, Practice], dict[str, Draws]]] = {MINUTE: ({}, {})}
    inputs: list[str] = []
    for item in items:
        names[MINUTE][0][item] = need_rules(kit)
        delivered = minute(kit, item)
        if delivered is not None:
            names[MINUTE][1][item] = delivered[0]
            inputs += delivered[1]
        if kind(kit, item) != "gear":
            continue
        for feature in (d.TIP_GAP, d.SIDE_GAP):
            practised, now = names.setdefault(feature.name, ({}, {}))
            practised[item] = kit.rules(feature.name)
            read = kit.reader.largest(feature, item)
            if read is not None:
                now[item] = read.draws
                inputs += read.inputs
    return Matter(
        system=d.KEY,
        subject=PUMP,
        bench=kit.bench,
        items=items,
        quantities=tuple(
            Quantity(name=name, part=d.PUMP, dimension="volume" if name == MINUTE else "length", practices=practised)
            for name, (practised, _) in names.items()
        ),
        now={name: now for name, (_, now) in names.items()},
        inputs=tuple(dict.fromkeys(inputs)),
    )


def _leave_pump(matter: Matter) -> Way:
    past = worn(matter, d.TIP_GAP.name, d.SIDE_GAP.name, MINUTE)
    return Way(
        name="pump-run-on",
        title=Said("Clean the oil pump and run it on"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        steps=(
            step(
                d.KEY, "pump-clean", "Strip and wash the pump, clear gauze and pipes, see its check valves hold",
                hours=hours(0.5, 1.0, 2.0),
                works=("oil work",),
            ),
        ),
        works=("oil work",),
        for_it=(Said("A pump that only fills troughs may lose half of what it sweeps and still fill them."),),
        against_it=(Said("It stays past a limit or short of what is needed."),) if past else (),
    )  # fmt: skip


def _after_gears(kit: Kit, item: str, *, tip: Draws | None, side: Draws) -> Draws | None:
    delivered = minute(kit, item, sweep(kit, item, tip=tip, side=side))
    return None if delivered is None else np.asarray(delivered[0])


def _face_cover(kit: Kit, matter: Matter) -> Way:
    after: dict[str, dict[str, Draws]] = {d.SIDE_GAP.name: {}, MINUTE: {}}
    for item in matter.items:
        if kind(kit, item) == "gear":
            side = after[d.SIDE_GAP.name][item] = kit.reader.even(f"cover of {item} faced", *FITTED)
            delivered = _after_gears(kit, item, tip=None, side=side)
            if delivered is not None:
                after[MINUTE][item] = delivered
    return Way(
        name="pump-face-cover",
        title=Said("Face cover and body flat, gasket for {0} to {1}", tuple(Amount(end, "length") for end in FITTED)),
        action="make good",
        intervention="irreversible",
        original="Cover and body stay, a few thou less.",
        items=matter.items,
        after=after,
        steps=(
            step(
                d.KEY, "face-cover", "Rub body and cover on a plate with paste until the groove is gone; choose the gasket",
                hours=hours(0.5, 1.5, 3.0),
                hold="side clearance read with the gasket that stays in; gears turn free",
                works=("oil work",),
            ),
        ),
        works=("oil work",),
        for_it=(Said("Most of the slip of a gear pump goes past its faces, and this costs an evening."),),
        against_it=(Said("Does nothing for worn tips."),),
    )  # fmt: skip


def _new_gears(kit: Kit, matter: Matter) -> Way:
    after: dict[str, dict[str, Draws]] = {d.SIDE_GAP.name: {}, d.TIP_GAP.name: {}, MINUTE: {}}
    for item in matter.items:
        if kind(kit, item) == "gear":
            side = after[d.SIDE_GAP.name][item] = kit.reader.even(f"cover of {item} faced", *FITTED)
            tip = after[d.TIP_GAP.name][item] = kit.reader.even(f"new gears of {item}", *FITTED)
            delivered = _after_gears(kit, item, tip=tip, side=side)
            if delivered is not None:
                after[MINUTE][item] = delivered
    return Way(
        name="pump-new-gears",
        title=Said("New gears to the body, cover faced"),
        action="remake",
        intervention="removable",
        original="Body and cover stay; the old gears go on the shelf.",
        items=matter.items,
        after=after,
        priced=(PricedItem(GEARS_MADE, len(matter.items)),),
        steps=(
            step(d.KEY, "gears", "Oil pump gears made", shop=GEARS_MADE),
            step(
                d.KEY, "gears-in", "Fit the gears, face the cover, read all clearances",
                hours=hours(0.5, 1.5, 3.0),
                after=("gears",),
                hold="tip and side clearance read, and oil lifted by hand",
                works=("oil work",),
            ),
        ),
        needs=tuple(
            reading_need(kit.reader, feature, item, why="a gear is cut to its drawing")
            for item in matter.items
            for feature in (d.TEETH, d.GEAR_OUTSIDE, d.GEAR_CENTRES, d.GEAR_WIDTH)
        ),
        works=("oil work",),
        for_it=(Said("Tips and faces both as new."),),
        against_it=(Said("A worn body keeps its hollow on the suction side."),),
    )  # fmt: skip


def _new_plunger(kit: Kit, matter: Matter) -> Way:
    after: dict[str, dict[str, Draws]] = {MINUTE: {}}
    parameters: dict[str, float] = {}
    for item in matter.items:
        barrel = kit.reader.largest(d.BARREL, item)
        if play(kit, item) is None or barrel is None:
            continue
        parameters[f"{item} plunger low"] = barrel.value - FITTED[1]
        parameters[f"{item} plunger high"] = barrel.value - FITTED[0]
        delivered = minute(kit, item, sweep(kit, item, gap=kit.reader.even(f"new plunger of {item}", *FITTED)))
        if delivered is not None:
            after[MINUTE][item] = np.asarray(delivered[0])
    return Way(
        name="pump-new-plunger",
        title=Said("New plunger to the barrel, lapped in; check valves seated afresh"),
        action="remake",
        intervention="removable",
        original="The barrel is lapped true; the old plunger goes on the shelf.",
        items=matter.items,
        after=after,
        parameters=parameters,
        priced=(PricedItem(PLUNGER_MADE, len(matter.items)),),
        steps=(
            step(
                d.KEY, "lap-barrel", "Lap the barrel round and straight, as little as cleans it",
                hours=hours(0.5, 1.0, 2.0),
                hold="barrel read at both ends, along and across; the plunger is made to it",
                works=("oil work",),
            ),
            step(d.KEY, "plunger", "Oil pump plunger made", shop=PLUNGER_MADE, after=("lap-barrel",)),
            step(
                d.KEY, "plunger-in", "Fit the plunger, seat the check valves, measure 100 strokes",
                hours=hours(0.5, 1.0, 2.0),
                after=("plunger",),
                hold="100 strokes measured, and the pump holds oil over night",
                works=("oil work",),
            ),
        ),
        needs=tuple(
            reading_need(kit.reader, feature, item, why="a plunger is made to its barrel and its length")
            for item in matter.items
            for feature in (d.BARREL, d.PLUNGER_LENGTH)
        ),
        works=("oil work",),
        for_it=(Said("Check valves lose more than a plunger does: seat them in any case."),),
    )  # fmt: skip


def _oils(kit: Kit, matter: Matter) -> tuple[Way, ...]:
    found = thinnest(kit)
    assert found is not None
    best = chosen(found)
    ways = []
    for name in sorted(found.by_grade, key=lambda grade: (grade != best, GRADES.index(grade))):
        film = Amount(found.by_grade[name], "length")
        for_it = [Said(f"The thinnest film, at {found.item}, is about {{0}}.", (film,))]
        if name == best:
            for_it.append(Said("It is the thinnest grade that keeps the faces apart: it flows best of those."))
        ways.append(
            Way(
                name=f"oil-{name.split()[1]}",
                title=Said(f"Fill with straight mineral oil, {name}"),
                action="adjust",
                intervention="removable",
                original="Everything stays as it is.",
                items=matter.items,
                parameters={"grade": float(name.split()[1])},
                steps=(
                    step(
                        d.KEY, "fill", "Drain and wash out the crankcase, fill to the overflows, prime every bearing by hand",
                        hours=hours(0.5, 1.0, 2.0),
                        hold="oil seen at every bearing before it is turned by power",
                        works=("oil work",),
                    ),
                ),
                works=("oil work",),
                for_it=tuple(for_it),
                against_it=(Said("Thin in the cold: a tenth of kerosene was put into drip oil for winter (Rathbun §121)."),)
                if name in GRADES[3:]
                else (),
            )
        )  # fmt: skip
    return tuple(ways)


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy of the system."""
    return tuple(remedy_of(matter, way) for matter, ways in matters(bench) for way in ways)


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    wanted = {
        DIP: (d.TROUGH, d.DEPTH.name),
        MINUTE: (d.PUMP, d.DELIVERED.name),
        d.TIP_GAP.name: (d.PUMP, d.TIP_GAP.name),
        d.SIDE_GAP.name: (d.PUMP, d.SIDE_GAP.name),
    }
    return tuple(
        prospect_of(matter, ways, could_be_read(matter, wanted, "it was not read, and decides whether it may stay so"))
        for matter, ways in matters(bench)
    )
