"""What could be done about throttle and linkage: run on, free, bush or oversize; each its own matter."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Origin, Range
from gudgeon.engine.prospect import PossibleReading, Prospect
from gudgeon.engine.remedy import Need, PricedItem, Remedy, Risk
from gudgeon.engine.step import StepDraft
from gudgeon.engine.system import Feature
from gudgeon.mechanics.pins import wall_beside
from gudgeon.quantity import Amount, Said
from gudgeon.systems.drafting import reading_need, step
from gudgeon.systems.intake import description as d
from gudgeon.systems.intake.findings import JOINT_PLAY, LEAK, SHAFT_PLAY, leak_now
from gudgeon.systems.intake.intake_set import TOO_MUCH, IntakeSet
from gudgeon.systems.judging import Limit, Practice, middle
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, could_be_read, hours, listed, prospect_of, remedy_of, worn

THROTTLE, LINKAGE = "intake: throttle", "intake: linkage"
BUSHES_MADE, SHAFT_MADE, PIN_MADE = "throttle bush made", "throttle shaft made", "linkage pin made"
SIXTY_FOURTH = d.INCH / 64
CLEAN = 0.001 * d.INCH
FIT = (0.0008 * d.INCH, 0.0018 * d.INCH)
"""Clearance of a throttle shaft or a joint made good [m]; common practice."""
LEAST_WALL = 0.0625 * d.INCH
"""Least wall of a pressed bush and of the boss round it [m]; from memory."""
NEW_GAP = (0.0, 0.0015 * d.INCH)
"""Gap of a disc that is bedded to its bore [m]; common practice."""


def matters(bench: Bench) -> tuple[tuple[Matter, tuple[Way, ...]], ...]:
    """Every matter with its ways; none where nothing of it was read or noted."""
    intake = IntakeSet.of(bench)
    if "matters" not in intake.worked_out:
        found: list[tuple[Matter, tuple[Way, ...]]] = []
        if bench.items(d.THROTTLE):
            matter = _throttle_matter(intake)
            found.append((matter, (_run_on(matter), _bushed(intake, matter), _oversize(intake, matter))))
        if intake.joints or intake.levers:
            matter = _linkage_matter(intake)
            found.append((matter, (_leave(matter), _pins(intake, matter))))
        intake.worked_out["matters"] = tuple(found)
    return cast(tuple[tuple[Matter, tuple[Way, ...]], ...], intake.worked_out["matters"])


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy of the system."""
    return tuple(remedy_of(matter, way) for matter, ways in matters(bench) for way in ways)


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    return tuple(prospect_of(matter, ways, _could_be_read(matter)) for matter, ways in matters(bench))


def _could_be_read(matter: Matter) -> tuple[PossibleReading, ...]:
    features = {LEAK: (d.THROTTLE, d.GAP.name), SHAFT_PLAY: (d.THROTTLE, d.HOLE.name), JOINT_PLAY: (d.JOINT, d.EYE.name)}
    return could_be_read(matter, features, "it was not read, and decides whether it may stay")


def shaft_limit(intake: IntakeSet) -> Practice:
    """The shaft's clearance is judged as a joint of the linkage where no authority speaks of throttles but from memory."""
    own = intake.shaft_rules()
    if own.deciding:
        return own
    joint = intake.joint_rules("")
    origin = [limit.origin for limit in joint.deciding]
    limits = [
        Limit(size=limit.size, most=limit.most, origin=Origin("E", at.source, "a joint of a linkage; taken for the shaft too"))
        for limit, at in zip(joint.deciding, origin, strict=True)
    ]
    return Practice(targets=own.targets, limits=(*own.limits, *limits))


def _throttle_matter(intake: IntakeSet) -> Matter:
    item = intake.throttle
    now: dict[str, dict[str, Draws]] = {SHAFT_PLAY: {}, LEAK: {}}
    if intake.clearances:
        now[SHAFT_PLAY][item] = np.asarray(np.max([draws for draws, _ in intake.clearances.values()], axis=0))
    leak = leak_now(intake)
    if leak is not None:
        now[LEAK][item] = leak
    return Matter(
        system=d.KEY,
        subject=THROTTLE,
        bench=intake.bench,
        items=(item,),
        quantities=(
            Quantity(name=SHAFT_PLAY, part=d.THROTTLE, dimension="length", practices={item: shaft_limit(intake)}),
            Quantity(name=LEAK, part=d.THROTTLE, dimension="percent", practices={item: Practice(limits=(TOO_MUCH,))}),
        ),
        now=now,
        inputs=tuple(dict.fromkeys(i for _, read in intake.clearances.values() for i in read)),
    )


def _run_on(matter: Matter) -> Way:
    past = worn(matter, SHAFT_PLAY, LEAK)
    return Way(
        name="throttle-run-on",
        title=Said("Run the throttle on, cleaned and free"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        steps=(
            step(
                d.KEY,
                "throttle-free",
                "Wash gum and rust out of the throttle, bed the disc, see that it falls shut",
                hours=hours(0.5, 1.0, 2.0),
                hold="it shuts from any place by its own spring, and its screws are locked",
                works=("throttle work",),
            ),
        ),
        works=("throttle work",),
        for_it=(Said("Nothing is cut. A felt washer under the lever keeps some of the air out."),),
        against_it=(Said("It stays past a limit: unfuelled air at idle, and a shaft that cocks and sticks."),) if past else (),
    )


def _after(intake: IntakeSet) -> dict[str, dict[str, Draws]]:
    item = intake.throttle
    fit = intake.reader.even("clearance made at the throttle shaft", *FIT)
    leak = intake.leak_share({"both ends": fit}, intake.reader.even("gap of the bedded disc", *NEW_GAP))
    return {SHAFT_PLAY: {item: fit}, **({LEAK: {item: leak}} if leak is not None else {})}


def old_shaft(intake: IntakeSet) -> float | None:
    """The shaft as it was made [m]: its nominal, else its thickest place to the next half thou."""
    nominal, read = intake.reader.nominal(d.SHAFT, intake.throttle), intake.reader.largest(d.SHAFT, intake.throttle)
    half = 0.0005 * d.INCH
    return nominal if nominal is not None else None if read is None else round(read.value / half) * half


def _wall(intake: IntakeSet, hole: float) -> np.ndarray[tuple[int], np.dtype[np.bool_]] | None:
    """Draws in which the boss keeps its least wall round a hole [m]; None where the boss was not read."""
    boss = intake.one(d.BOSS)
    return None if boss is None else np.asarray(np.asarray(wall_beside(outside=boss.draws, hole=hole)) >= LEAST_WALL)


def _fitting(name: str, title: str, after: Sequence[str]) -> StepDraft:
    return step(
        d.KEY,
        name,
        title,
        hours=hours(1.0, 2.0, 3.5),
        after=tuple(after),
        hold="clearance at both ends read as fitted, disc seen shut against the light, screws locked by punching",
        works=("throttle work",),
    )


def _bushed(intake: IntakeSet, matter: Matter) -> Way:
    shaft = old_shaft(intake)
    outside = None if shaft is None else math.ceil((shaft + 2 * LEAST_WALL) / SIXTY_FOURTH - 1e-9) * SIXTY_FOURTH
    parameters = {} if shaft is None or outside is None else {"throttle shaft": shaft, "throttle bush outside": outside}
    return Way(
        name="throttle-bush",
        title=Said("Bush the body, a new shaft of the old size, disc bedded"),
        action="make good",
        intervention="re-doable",
        original="The body is bored out once; bushes can be renewed. The old shaft goes on the shelf.",
        items=matter.items,
        after=_after(intake),
        allowed=None if outside is None else _wall(intake, outside),
        why="the boss would be left too thin round the bush",
        parameters=parameters,
        priced=(PricedItem(BUSHES_MADE, 2), PricedItem(SHAFT_MADE, 1)),
        steps=(
            step(d.KEY, "bushes", "Throttle bushes made", shop=BUSHES_MADE),
            step(
                d.KEY,
                "bore-body",
                "Bore the body in line through both ends, press the bushes in, ream in line",
                hours=hours(1.5, 2.5, 4.0),
                after=("bushes",),
                hold="both holes read; the shaft is made to them",
                may_fail=Range(0.02, 0.06, 0.15, OWN),
                works=("pressing",),
            ),
            step(d.KEY, "shaft", "Throttle shaft made to the reamed holes", shop=SHAFT_MADE, after=("bore-body",)),
            _fitting("fit-throttle", "Fit shaft and disc, bed the disc, lock its screws", ("shaft",)),
        ),
        needs=_needs(intake),
        risks=(
            Risk("a thin boss cracks under the press", Range(0.01, 0.04, 0.1, OWN), "braze it, or fit the bush with adhesive"),
        ),
        works=("throttle work", "pressing"),
        for_it=(Said("Standard shaft again; bushes take the next wear."),),
        against_it=(() if intake.one(d.BOSS) else (Said("The boss was not read: whether it has the wall is not known."),)),
    )


def _needs(intake: IntakeSet) -> tuple[Need, ...]:
    return tuple(
        reading_need(intake.reader, feature, intake.throttle, why="shaft and bushes are made from their drawings")
        for feature in (d.SHAFT, d.BOSS, d.BOSS_LENGTH, d.SHAFT_LENGTH)
    )


def _oversize(intake: IntakeSet, matter: Matter) -> Way:
    holes = intake.reader.largest(d.HOLE, intake.throttle)
    size = None
    if holes is not None:
        size = math.ceil((float(np.quantile(holes.draws, 0.95)) + CLEAN) / SIXTY_FOURTH - 1e-9) * SIXTY_FOURTH
    title = Said("Ream the body and fit a larger shaft")
    if size is not None:
        title = Said("Ream the body and fit a shaft of {0}", (Amount(size, "length"),))
    return Way(
        name="throttle-oversize",
        title=title,
        action="make good",
        intervention="irreversible",
        original="The holes are larger for good; the old shaft goes on the shelf.",
        items=matter.items,
        after=_after(intake),
        allowed=None if size is None else _wall(intake, size),
        why="the boss would be left too thin",
        parameters={} if size is None else {"throttle shaft": size},
        priced=(PricedItem(SHAFT_MADE, 1),),
        steps=(
            step(
                d.KEY,
                "ream-body",
                "Ream the body in line through both ends",
                hours=hours(0.5, 1.0, 2.0),
                hold="both holes read; the shaft is made to them",
                may_fail=Range(0.03, 0.08, 0.15, OWN),
                works=("throttle work",),
            ),
            step(d.KEY, "shaft", "Throttle shaft made to the reamed holes", shop=SHAFT_MADE, after=("ream-body",)),
            _fitting("fit-throttle", "Fit shaft and disc, its slot and lever to the larger shaft, lock its screws", ("shaft",)),
        ),
        needs=_needs(intake),
        works=("throttle work",),
        for_it=(Said("No bush to come loose; one part to make."),),
        against_it=(Said("A reamer follows an oval hole: where the wear is all on one side the shaft ends up off its line."),),
    )


# ---- the linkage


def _linkage_matter(intake: IntakeSet) -> Matter:
    plays, items = intake.plays(), (*intake.joints, *intake.levers)
    return Matter(
        system=d.KEY,
        subject=LINKAGE,
        bench=intake.bench,
        items=items,
        quantities=(
            Quantity(
                name=JOINT_PLAY,
                part=d.JOINT,
                dimension="length",
                practices={item: intake.joint_rules(item) for item in items},
            ),
        ),
        now={JOINT_PLAY: {item: draws for item, (draws, _) in plays.items()}},
        inputs=tuple(dict.fromkeys(i for _, read in plays.values() for i in read)),
    )


def _leave(matter: Matter) -> Way:
    past = worn(matter, JOINT_PLAY)
    text = f"{listed(past)} stay past the limit; lost motion gives wandering speed (Rathbun, about 1916, §131)."
    return Way(
        name="linkage-run-on",
        title=Said("Run the linkage on, cleaned and oiled"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        steps=(
            step(
                d.KEY,
                "linkage-clean",
                "Clean and oil every joint; a light spring that pulls it one way takes most of the slack up",
                hours=hours(0.3, 0.6, 1.0),
                works=("throttle work",),
            ),
        ),
        works=("throttle work",),
        for_it=(Said("A return spring that holds the joints to one side costs only a little of the governor's effort."),),
        against_it=(Said(text),) if past else (),
    )


def hole_of(item: str, intake: IntakeSet) -> Feature:
    """The hole of a joint, or of a lever's fulcrum."""
    return d.FULCRUM_HOLE if item in intake.levers else d.EYE


def new_pin(item: str, intake: IntakeSet) -> float | None:
    """The pin for a reamed joint [m]: the next 1/64 in over its widest hole and what cleans it; None where it was not read."""
    hole = intake.reader.largest(hole_of(item, intake), item)
    if hole is None:
        return None
    return math.ceil((float(np.quantile(hole.draws, 0.95)) + CLEAN) / SIXTY_FOURTH - 1e-9) * SIXTY_FOURTH


def _slack_said(intake: IntakeSet, items: tuple[str, ...], new: Draws) -> Said:
    plays = {item: draws for item, (draws, _) in intake.plays().items()}
    before, after = (intake.slack(each) for each in (plays, {**plays, **dict.fromkeys(items, new)}))
    if not before:
        return Said("")
    ends = (Amount(sum(middle(each) for each in found.values()), "length") for found in (before, after))
    return Said("Slack at the governor goes from {0} to {1}.", tuple(ends))


def _pins(intake: IntakeSet, matter: Matter) -> Way:
    items = worn(matter, JOINT_PLAY) or matter.items
    new = intake.reader.even("play made at the linkage's joints", *FIT)
    parameters = {f"{item} pin": size for item in items if (size := new_pin(item, intake)) is not None}
    said = _slack_said(intake, items, new)
    return Way(
        name="linkage-pins",
        title=Said(f"Ream {listed(items)} and fit larger pins"),
        action="make good",
        intervention="irreversible",
        original="Holes are larger for good; old pins go on the shelf.",
        items=items,
        after={JOINT_PLAY: dict.fromkeys(items, new)},
        parameters=parameters,
        priced=(PricedItem(PIN_MADE, len(items)),),
        steps=(
            step(
                d.KEY,
                "ream-joints",
                "Ream the joints",
                hours=hours(0.3, 0.5, 1.0, len(items)),
                hold="every hole read; pins are made to them",
                works=("throttle work",),
            ),
            step(d.KEY, "linkage-pins", "Linkage pins made", shop=PIN_MADE, after=("ream-joints",)),
        ),
        needs=tuple(
            reading_need(intake.reader, feature, item, why="the pin is made from its drawing")
            for item in items
            for feature in (hole_of(item, intake), *(() if item in intake.levers else (d.PIN_LENGTH,)))
        ),
        works=("throttle work",),
        for_it=(said,) if said else (),
        against_it=(Said("A reamed eye wants metal round it: at least a quarter of the hole each side, from memory."),),
    )
