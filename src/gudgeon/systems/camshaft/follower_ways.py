"""What could be done about followers and cam bearings: run on, new rollers and pins, faces ground, bodies and bushes made."""

from __future__ import annotations

import numpy as np

from gudgeon.engine.origin import Range
from gudgeon.engine.remedy import Need, PricedItem, Risk
from gudgeon.quantity import Said
from gudgeon.systems.camshaft import description as d
from gudgeon.systems.camshaft.bearings import CLEARANCE, bearing_rules, clearance
from gudgeon.systems.camshaft.cam_set import CamSet
from gudgeon.systems.camshaft.followers import GUIDE, ROLLER_PLAY, ROLLER_ROUND, follower_rules, play
from gudgeon.systems.camshaft.steps import BEARINGS, BUSH_MADE, FOLLOWER_MADE, FOLLOWERS, LOBES, ROLLER_MADE, last_step, step
from gudgeon.systems.judging import Practice, Target
from gudgeon.systems.measured import Draws, number
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, hours, listed, worn

ROUND_NEW = 0.0003 * d.INCH
"""Out-of-round of a ground roller, as a standard deviation [m]; from memory."""
ROLLER_TARGET = (0.002 * d.INCH, 0.003 * d.INCH)
"""Play to make where no authority gives one [m]; common practice."""


def follower_matter(cams: CamSet) -> Matter:
    """All followers together."""
    names = (GUIDE, ROLLER_PLAY, ROLLER_ROUND)
    now: dict[str, dict[str, Draws]] = {name: {} for name in names}
    practices: dict[str, dict[str, Practice]] = {name: {} for name in names}
    inputs: list[str] = []
    for item in cams.followers:
        for name in names:
            if name != GUIDE and cams.is_roller(item) is False:
                continue
            practices[name][item] = follower_rules(name, item, cams)
            read = play(item, name, cams)
            if read is not None:
                now[name][item] = read[0]
                inputs += read[1]
    return Matter(
        system=d.KEY,
        subject=FOLLOWERS,
        bench=cams.bench,
        items=cams.followers,
        quantities=tuple(Quantity(name=n, part=d.FOLLOWER, dimension="length", practices=practices[n]) for n in names),
        now=now,
        inputs=tuple(dict.fromkeys(inputs)),
    )


def follower_ways(cams: CamSet, matter: Matter) -> tuple[Way, ...]:
    """Every way: rollers where there are any, faces where they are flat."""
    rolling = tuple(item for item in matter.items if cams.is_roller(item))
    flat = tuple(item for item in matter.items if cams.is_roller(item) is False)
    found = [_run_on(matter)]
    if rolling:
        items = tuple(item for item in worn(matter, ROLLER_PLAY, ROLLER_ROUND) if item in rolling) or rolling
        found.append(_rollers(cams, items))
    if flat:
        found.append(_faces(flat))
    found.append(_followers(cams, matter))
    return tuple(found)


def _target(practised: Practice, otherwise: tuple[float, float]) -> tuple[float, float]:
    known = [target for target in practised.targets if target.low is not None and target.high is not None]
    wanted: Target | None = max(known, key=lambda target: target.high or 0.0, default=None)
    if wanted is None:
        return otherwise
    low, high = wanted.low or 0.0, wanted.high or 0.0
    return (low, high) if high > low else (0.8 * low, low)


def roller_target(item: str, cams: CamSet) -> tuple[float, float]:
    """Play to make between roller and pin [m]: the loosest that an authority asks."""
    return _target(follower_rules(ROLLER_PLAY, item, cams), ROLLER_TARGET)


def guide_target(item: str, cams: CamSet) -> tuple[float, float]:
    """Play to make between follower and guide [m]."""
    return _target(follower_rules(GUIDE, item, cams), (0.001 * d.INCH, 0.002 * d.INCH))


def _run_on(matter: Matter) -> Way:
    past = worn(matter, GUIDE, ROLLER_PLAY, ROLLER_ROUND)
    return Way(
        name="followers-run-on",
        title=Said("Run the followers on"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        steps=(
            step(
                "followers-free",
                "Clean the followers, free and oil every roller and pin",
                hours=hours(0.2, 0.3, 0.5, len(matter.items)),
            ),
        ),
        for_it=(Said("Nothing is made."),),
        against_it=(Said(f"{listed(past)} stay past a limit; a flat or tipping roller spoils the lobe it runs on."),)
        if past
        else (),
    )


def _rollers(cams: CamSet, items: tuple[str, ...]) -> Way:
    after: dict[str, dict[str, Draws]] = {ROLLER_PLAY: {}, ROLLER_ROUND: {}}
    parameters: dict[str, float] = {}
    needs = []
    for item in items:
        low, high = roller_target(item, cams)
        after[ROLLER_PLAY][item] = cams.reader.even(f"play made in the roller of {item}", low, high)
        after[ROLLER_ROUND][item] = np.abs(ROUND_NEW * cams.bench.named(f"new roller of {item}"))
        parameters |= {f"{item} play low": low, f"{item} play high": high}
        for feature in (d.ROLLER, d.ROLLER_WIDTH, d.PIN):
            needs.append(
                Need(
                    kind="reading",
                    what=f"{item}: {feature.title.lower()}",
                    met=cams.size(feature, item) is not None,
                    why="roller and pin are made from it",
                    part=d.FOLLOWER,
                    item=item,
                    feature=feature.name,
                )
            )
    return Way(
        name="new-rollers",
        title=Said(f"New rollers and pins: {listed(items)}"),
        action="remake",
        intervention="removable",
        original="The old rollers and pins go on the shelf.",
        items=items,
        after=after,
        parameters=parameters,
        priced=(PricedItem(ROLLER_MADE, len(items)),),
        steps=(
            step("rollers", "Rollers and pins made", shop=ROLLER_MADE),
            step(
                "fit-rollers",
                "Inspect rollers and pins in, fit them, lock the pins",
                hours=hours(0.3, 0.5, 1.0, len(items)),
                after=("rollers",),
                hold="every roller turns freely by a finger, play read, pin locked and seen",
                works=("pressing",),
            ),
        ),
        needs=tuple(needs),
        risks=(Risk("a pin works out", Range(0.01, 0.02, 0.05, OWN), "it scores the guide and may jam the valve gear"),),
        works=("pressing",),
        for_it=(Said("The cheapest way to save a lobe; test the case with a file (Mathot, 1905)."),),
        against_it=(Said("A pin hole worn oval in the fork must be reamed over first."),),
    )


def _faces(items: tuple[str, ...]) -> Way:
    return Way(
        name="reface-followers",
        title=Said(f"Grind the faces of {listed(items)} flat and true"),
        action="make good",
        intervention="irreversible",
        original="The faces lose a few thou of their chill or case.",
        items=items,
        priced=(),
        steps=(
            step(
                "reface-followers",
                "Grind or lap the faces flat, square to the body, and try them with a file",
                hours=hours(0.3, 0.5, 1.0, len(items)),
                hold="every face flat on a plate and glass-hard",
                works=("cam grinding",),
            ),
        ),
        works=("cam grinding",),
        for_it=(Said("A flat face lets the follower turn and wear evenly."),),
        against_it=(Said("The body's play in its guide stays."),),
    )


def _followers(cams: CamSet, matter: Matter) -> Way:
    items = worn(matter, GUIDE) or matter.items
    after: dict[str, dict[str, Draws]] = {GUIDE: {}, ROLLER_PLAY: {}, ROLLER_ROUND: {}}
    parameters: dict[str, float] = {}
    for item in items:
        low, high = guide_target(item, cams)
        after[GUIDE][item] = cams.reader.even(f"play made in the guide of {item}", low, high)
        guide = cams.reader.largest(d.GUIDE, item)
        if guide is not None:
            hole = np.ceil((guide.value + 0.001 * d.INCH) / (0.001 * d.INCH)) * 0.001 * d.INCH
            parameters |= {f"{item} guide": float(hole), f"{item} play low": low, f"{item} play high": high}
        if cams.is_roller(item):
            wanted = roller_target(item, cams)
            after[ROLLER_PLAY][item] = cams.reader.even(f"play made in the roller of {item}", *wanted)
            after[ROLLER_ROUND][item] = np.abs(ROUND_NEW * cams.bench.named(f"new roller of {item}"))
    return Way(
        name="new-followers",
        title=Said(f"Ream the guides and make followers to them: {listed(items)}"),
        action="remake",
        intervention="irreversible",
        original="The guides stay, a few thou larger; the old followers go on the shelf.",
        items=items,
        after=after,
        parameters=parameters,
        priced=(PricedItem(FOLLOWER_MADE, len(items)),),
        steps=(
            step(
                "ream-followers",
                "Ream the followers' guides by hand, in line",
                hours=hours(0.4, 0.8, 1.5, len(items)),
                hold="every guide read; the followers are made to it",
                may_fail=Range(0.02, 0.05, 0.1, OWN),
                works=("guide work",),
            ),
            step("followers", "Followers made", shop=FOLLOWER_MADE, after=("ream-followers",)),
            step(
                "read-followers",
                "Inspect the followers in and try each in its guide",
                hours=hours(0.2, 0.3, 0.5, len(items)),
                after=("followers",),
                hold="play of every follower read, and it falls by its own weight",
            ),
        ),
        needs=tuple(
            Need(
                kind="reading",
                what=f"{item}: guide",
                met=cams.reader.largest(d.GUIDE, item) is not None,
                why="the reamer is chosen by it",
                part=d.FOLLOWER,
                item=item,
                feature=d.GUIDE.name,
            )
            for item in items
        ),
        works=("guide work",),
        for_it=(Said("Upright followers wear their lobes evenly."),),
        against_it=(Said("Dearer, and no two alike afterwards."),),
    )


def bearing_matter(cams: CamSet) -> Matter:
    """All cam bearings together."""
    now: dict[str, Draws] = {}
    practices: dict[str, Practice] = {}
    inputs: list[str] = []
    for bearing in cams.bearings:
        item = cams.cam_item("bearing", bearing)
        practices[item] = bearing_rules(bearing, cams)
        read = clearance(bearing, cams)
        if read is not None:
            now[item] = read[0]
            inputs += read[1]
    return Matter(
        system=d.KEY,
        subject=BEARINGS,
        bench=cams.bench,
        items=tuple(practices),
        quantities=(Quantity(name=CLEARANCE, part=d.CAM, dimension="length", practices=practices),),
        now={CLEARANCE: now},
        inputs=tuple(dict.fromkeys(inputs)),
    )


def bearing_ways(cams: CamSet, matter: Matter) -> tuple[Way, ...]:
    """Run the bearings on, or bush them."""
    items = worn(matter, CLEARANCE) or matter.items
    past = worn(matter, CLEARANCE)
    run_on = Way(
        name="bearings-run-on",
        title=Said("Run the cam bearings on"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        steps=(step("cam-oil", "Clear the oil holes of the cam bearings", hours=hours(0.1, 0.2, 0.3, len(matter.items))),),
        for_it=(Said("Nothing is cut."),),
        against_it=(Said(f"{listed(past)} stay past a limit: the gears bottom and rumble, and lash moves with the load."),)
        if past
        else (),
    )
    return run_on, _bush(cams, items)


def bearing_target(item: str, cams: CamSet) -> tuple[float, float]:
    """Clearance to make in a cam bearing [m]: the loosest that an authority asks for its size, else .001 to .002 in."""
    return _target(bearing_rules(number(item), cams), (0.001 * d.INCH, 0.002 * d.INCH))


def _bush(cams: CamSet, items: tuple[str, ...]) -> Way:
    after: dict[str, Draws] = {}
    parameters: dict[str, float] = {}
    for item in items:
        low, high = bearing_target(item, cams)
        after[item] = cams.reader.even(f"clearance made in {item}", low, high)
        journal = cams.size(d.JOURNAL, cams.cam_item("journal", number(item)))
        if journal is not None:
            parameters |= {f"{item} bore low": journal.value + low, f"{item} bore high": journal.value + high}
    return Way(
        name="bush-bearings",
        title=Said(f"Bush {listed(items)} and bore to the journals"),
        action="make good",
        intervention="re-doable",
        original="The bearings are bored out once; the bushes in them can be renewed.",
        items=items,
        after={CLEARANCE: after},
        parameters=parameters,
        priced=(PricedItem(BUSH_MADE, len(items)),),
        steps=(
            step("cam-bushes", "Cam bearing bushes made and bored in line", shop=BUSH_MADE, after=last_step(cams, LOBES)),
            step(
                "read-cam-bushes",
                "Inspect the bushes in: bores in two directions, camshaft tried by hand",
                hours=hours(0.2, 0.3, 0.5, len(items)),
                after=("cam-bushes",),
                hold="every bore read, and the camshaft turns by two fingers",
                works=("pressing",),
            ),
        ),
        needs=tuple(
            Need(
                kind="reading",
                what=f"journal of {item}",
                met=f"{item} bore low" in parameters,
                why="the bush is bored to it",
                part=d.CAM,
                item=cams.cam_item("journal", number(item)),
                feature=d.JOURNAL.name,
            )
            for item in items
        ),
        risks=(
            Risk("the bushes are bored out of line", Range(0.02, 0.05, 0.1, OWN), "the shaft binds and the gears run hard"),
        ),
        works=("pressing",),
        for_it=(Said("Bearings come before gears: set the shaft right, then look at the backlash."),),
        against_it=(Said("The centre distance of the timing gears must be kept, or their backlash goes."),),
    )
