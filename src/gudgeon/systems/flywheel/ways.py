"""What could be done about hub and key, run-out, and a clutch; each its own matter. A cracked wheel is only ever not run."""

from __future__ import annotations

import math
from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Range
from gudgeon.engine.prospect import PossibleReading, Prospect
from gudgeon.engine.remedy import Need, PricedItem, Remedy, Risk
from gudgeon.engine.system import Feature
from gudgeon.quantity import Amount, Said
from gudgeon.systems.drafting import reading_need, step
from gudgeon.systems.flywheel import description as d
from gudgeon.systems.flywheel.findings import (
    FACE,
    HAMMERS,
    HUB_FIT,
    KEY_SLACK,
    LINING,
    MARGIN,
    ROUND,
    TOUCHES,
    cracked,
    grip_of,
    hub_room,
    hub_rules,
    key_slack,
    margin_rules,
    run_out_rules,
)
from gudgeon.systems.flywheel.wheel_set import WheelSet
from gudgeon.systems.judging import Practice
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, could_be_read, hours, listed, prospect_of, remedy_of, worn

HUBS, TRUE, CLUTCHES = "flywheel: hub and key", "flywheel: running true", "flywheel: clutch"
KEY_MADE, HUB_BUSHED, TURNED, RELINED = (
    "taper key made",
    "flywheel hub bored and bushed",
    "flywheel turned true",
    "clutch relined",
)
THIRTY_SECOND = d.INCH / 32
CLEAN = 0.002 * d.INCH
"""What is filed or cut off the sides of a hammered keyway before it is true [m]; common practice."""
FITTED_KEY = (-0.0005 * d.INCH, 0.0005 * d.INCH)
"""Slack of a key fitted by hand with blue [m]; common practice."""
NEW_HUB = (-0.0015 * d.INCH, 0.0)
"""Room of a bushed hub: a light press [m]; common practice for wheels that must come off again."""
TURNED_TO = (0.001 * d.INCH, 0.004 * d.INCH)
"""Run-out after turning on its own bore [m]; common practice."""
NEW_LINING = (0.05 * d.INCH, 0.09 * d.INCH)
"""New lining over its rivets [m]; from memory."""


def matters(bench: Bench) -> tuple[tuple[Matter, tuple[Way, ...]], ...]:
    """Every matter with its ways; none where nothing of it was read or noted."""
    wheels = WheelSet.of(bench)
    if "matters" not in wheels.worked_out:
        found: list[tuple[Matter, tuple[Way, ...]]] = []
        if wheels.wheels:
            hubs, true = _hub_matter(wheels), _true_matter(wheels)
            found += [
                (hubs, (_leave_key(wheels, hubs), _new_key(wheels, hubs), _bush(wheels, hubs))),
                (true, (_leave_true(wheels, true), _seat_again(wheels, true), _turn(wheels, true))),
            ]
        if wheels.clutches:
            clutch = _clutch_matter(wheels)
            found.append((clutch, (_leave_clutch(clutch), _clean_clutch(wheels, clutch), _reline(wheels, clutch))))
        wheels.worked_out["matters"] = tuple(found)
    return cast(tuple[tuple[Matter, tuple[Way, ...]], ...], wheels.worked_out["matters"])


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy of the system."""
    return tuple(remedy_of(matter, way) for matter, ways in matters(bench) for way in ways)


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    return tuple(prospect_of(matter, ways, _could_be_read(matter)) for matter, ways in matters(bench))


def _could_be_read(matter: Matter) -> tuple[PossibleReading, ...]:
    features = {
        HUB_FIT: (d.WHEEL, d.HUB.name),
        KEY_SLACK: (d.WHEEL, d.KEY_WIDTH.name),
        FACE: (d.WHEEL, d.FACE_RUNOUT.name),
        ROUND: (d.WHEEL, d.RIM_RUNOUT.name),
        MARGIN: (d.CLUTCH, d.PRESSING.name),
        LINING: (d.CLUTCH, d.OVER_RIVETS.name),
    }
    return could_be_read(matter, features, "it was not read, and decides whether it may stay")


def _sound(wheels: WheelSet) -> np.ndarray[tuple[int], np.dtype[np.bool_]] | None:
    """No draw is allowed with a wheel that is noted as cracked; None where none is."""
    told = [wheels.reader.words(d.SOUND, item)[0] for item in wheels.wheels]
    return np.zeros(wheels.bench.count, dtype=bool) if any(cracked(words) for words in told if words) else None


CRACKED = "a wheel is noted as cracked and must not be run"


def _look(wheels: WheelSet) -> tuple[Need, ...]:
    return tuple(reading_need(wheels.reader, d.SOUND, item, why="a cracked wheel is not run") for item in wheels.wheels)


# ---- hub and key


def _hub_matter(wheels: WheelSet) -> Matter:
    now: dict[str, dict[str, Draws]] = {HUB_FIT: {}, KEY_SLACK: {}}
    inputs: list[str] = []
    for item in wheels.wheels:
        for quantity, read in ((HUB_FIT, hub_room(item, wheels)), (KEY_SLACK, key_slack(item, wheels))):
            if read is not None:
                now[quantity][item] = read[0]
                inputs += read[1]
    practices = {
        HUB_FIT: {item: hub_rules(item, wheels) for item in wheels.wheels},
        KEY_SLACK: {item: Practice(limits=(HAMMERS,)) for item in wheels.wheels},
    }
    return Matter(
        system=d.KEY,
        subject=HUBS,
        bench=wheels.bench,
        items=wheels.wheels,
        quantities=tuple(
            Quantity(name=name, part=d.WHEEL, dimension="length", practices=practices[name]) for name in practices
        ),
        now=now,
        inputs=tuple(dict.fromkeys(inputs)),
    )


def _leave_key(wheels: WheelSet, matter: Matter) -> Way:
    past = worn(matter, HUB_FIT, KEY_SLACK)
    return Way(
        name="key-leave",
        title=Said("Keep hub and key, the key driven home again"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        allowed=_sound(wheels),
        why=CRACKED,
        steps=(
            step(
                d.KEY,
                "key-home",
                "Clean shaft, hub and key, blue the key, drive it home",
                hours=hours(0.5, 1.0, 2.0, len(matter.items)),
                hold="key blued over its length; no rock at the rim under a dial",
                works=("flywheel work", "lifting"),
            ),
        ),
        needs=_look(wheels),
        works=("flywheel work", "lifting"),
        for_it=(Said("Nothing is cut."),),
        against_it=(Said(f"{listed(past)} keeps too much room: a key cannot hold a wheel that rocks."),) if past else (),
    )


def new_key(item: str, wheels: WheelSet) -> float | None:
    """Width of a new key [m]: the next 1/32 in over its wider way once that is cleaned; None where no way was read."""
    ways = [read for feature in (d.SHAFT_WAY, d.HUB_WAY) if (read := wheels.reader.largest(feature, item)) is not None]
    if not ways:
        return None
    widest = max(float(np.quantile(read.draws, 0.95)) for read in ways)
    return math.ceil((widest + CLEAN) / THIRTY_SECOND - 1e-9) * THIRTY_SECOND


def _fitted(wheels: WheelSet, items: tuple[str, ...]) -> dict[str, Draws]:
    return {item: wheels.reader.even(f"slack of the fitted key of {item}", *FITTED_KEY) for item in items}


def _new_key(wheels: WheelSet, matter: Matter) -> Way:
    items = worn(matter, KEY_SLACK) or matter.items
    parameters = {f"{item} key": size for item in items if (size := new_key(item, wheels)) is not None}
    widest = max(parameters.values(), default=0.0)
    title = Said(f"Clean up the keyways and fit a new key: {listed(items)}")
    if widest:
        title = Said(f"{title.text}, {{0}} wide", (Amount(widest, "length"),))
    return Way(
        name="key-new",
        title=title,
        action="make good",
        intervention="irreversible",
        original="Keyways are wider for good; the old key goes on the shelf.",
        items=items,
        after={KEY_SLACK: _fitted(wheels, items)},
        allowed=_sound(wheels),
        why=CRACKED,
        parameters=parameters,
        priced=(PricedItem(KEY_MADE, len(items)),),
        steps=(
            step(
                d.KEY,
                "keyways",
                "File or mill both keyways true and to one width, corners left round",
                hours=hours(1.0, 2.0, 4.0, len(items)),
                hold="both keyways read at both ends; no crack from a corner",
                works=("flywheel work",),
            ),
            step(d.KEY, "key", "Taper key made, left .005 in tall for fitting", shop=KEY_MADE, after=("keyways",)),
            step(
                d.KEY,
                "fit-key",
                "Fit the key by blue, top and sides, and drive it home",
                hours=hours(1.0, 2.0, 4.0, len(items)),
                after=("key",),
                hold="key blued over three quarters of its length; no rock at the rim under a dial",
                works=("flywheel work", "lifting"),
            ),
        ),
        needs=(*_look(wheels), *_needs(wheels, items, (d.SHAFT_WAY, d.HUB_WAY, d.KEY_HEIGHT, d.KEY_LENGTH))),
        works=("flywheel work", "lifting"),
        for_it=(Said("A key that bears top and sides drives as it was made to."),),
        against_it=(Said("Taken too wide, the shaft is weaker at its keyway, and the hub thinner over it."),),
    )


def _needs(wheels: WheelSet, items: tuple[str, ...], features: tuple[Feature, ...]) -> tuple[Need, ...]:
    return tuple(
        reading_need(wheels.reader, feature, item, why="the part is made from its drawing")
        for item in items
        for feature in features
    )


def bush_sizes(item: str, wheels: WheelSet) -> tuple[float, float] | None:
    """Outside and bore of a hub bush [m]: the shaft and a quarter of an inch of wall, to the next 1/16; None where unread."""
    seat = wheels.seat(item)
    if seat is None:
        return None
    sixteenth = d.INCH / 16
    return math.ceil((seat.value + 0.5 * d.INCH) / sixteenth - 1e-9) * sixteenth, seat.value


def _bush(wheels: WheelSet, matter: Matter) -> Way:
    items = worn(matter, HUB_FIT) or matter.items
    parameters: dict[str, float] = {}
    for item in items:
        sizes = bush_sizes(item, wheels)
        if sizes is not None:
            parameters |= {f"{item} bush outside": sizes[0], f"{item} bush bore": sizes[1]}
    hub = {item: wheels.reader.even(f"room of the bushed hub of {item}", *NEW_HUB) for item in items}
    return Way(
        name="hub-bush",
        title=Said(f"Bore the hub true to the rim and bush it to the shaft, new keyway and key: {listed(items)}"),
        action="make good",
        intervention="re-doable",
        original="The hub is bored out once; bush and key can be renewed.",
        items=items,
        after={HUB_FIT: hub, KEY_SLACK: _fitted(wheels, items)},
        allowed=_sound(wheels),
        why=CRACKED,
        parameters=parameters,
        priced=(PricedItem(HUB_BUSHED, len(items)), PricedItem(KEY_MADE, len(items))),
        stages=((HUB_BUSHED,), (KEY_MADE,)),
        steps=(
            step(d.KEY, "hub", "Hub bored true to the rim, bushed, bush bored to the shaft, keyway cut", shop=HUB_BUSHED),
            step(d.KEY, "key", "Taper key made, left .005 in tall for fitting", shop=KEY_MADE, after=("hub",)),
            step(
                d.KEY,
                "fit-key",
                "Draw the wheel on, fit the key by blue, drive it home",
                hours=hours(1.5, 3.0, 5.0, len(items)),
                after=("key",),
                hold="key blued over three quarters of its length; no rock at the rim; run-out read",
                works=("flywheel work", "lifting"),
            ),
        ),
        needs=(*_look(wheels), *_needs(wheels, items, (d.HUB_LENGTH, d.HUB_OUTSIDE, d.KEY_HEIGHT, d.KEY_LENGTH))),
        risks=(
            Risk(
                "the hub cracks at the keyway while it is bored or pressed", Range(0.01, 0.03, 0.08, OWN), "the wheel is lost"
            ),
        ),
        works=("flywheel work", "lifting", "pressing"),
        for_it=(Said("Cures rock, wobble and key in one; the only cure for a bell-mouthed hub."),),
        against_it=(Said("A big wheel on a big machine: few shops will; the hub must have the metal."),),
    )


# ---- running true


def _true_matter(wheels: WheelSet) -> Matter:
    now: dict[str, dict[str, Draws]] = {FACE: {}, ROUND: {}}
    inputs: list[str] = []
    for quantity, feature in ((FACE, d.FACE_RUNOUT), (ROUND, d.RIM_RUNOUT)):
        for item in wheels.wheels:
            read = wheels.reader.largest(feature, item)
            if read is not None:
                now[quantity][item] = read.draws
                inputs += read.inputs
    return Matter(
        system=d.KEY,
        subject=TRUE,
        bench=wheels.bench,
        items=wheels.wheels,
        quantities=tuple(
            Quantity(
                name=name,
                part=d.WHEEL,
                dimension="length",
                practices={item: run_out_rules(item, wheels, name) for item in wheels.wheels},
            )
            for name in now
        ),
        now=now,
        inputs=tuple(dict.fromkeys(inputs)),
    )


def _leave_true(wheels: WheelSet, matter: Matter) -> Way:
    past = worn(matter, FACE, ROUND)
    return Way(
        name="true-leave",
        title=Said("Let it run as it runs"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        allowed=_sound(wheels),
        why=CRACKED,
        for_it=(Said("The limits are those of cars and diesels; a slow wheel cast and half turned was never so true."),),
        against_it=(Said(f"{listed(past)} stays past a limit: it shakes the engine and loosens its key."),) if past else (),
    )


def _seat_again(wheels: WheelSet, matter: Matter) -> Way:
    """Seating cleans what dirt, a burr or a badly fitted key did; how much of the run-out that is nobody can say before."""
    share = wheels.reader.even("run-out that comes of seat and key", 0.0, 0.7)
    after = {name: {item: draws * (1 - share) for item, draws in found.items()} for name, found in matter.now.items()}
    return Way(
        name="seat-again",
        title=Said("Take it off, clean seat, hub and key, try it without its key, fit it again"),
        action="adjust",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        after=after,
        allowed=_sound(wheels),
        why=CRACKED,
        steps=(
            step(
                d.KEY,
                "seat-again",
                "Push on end thrust first, draw the key, clean and stone seat and hub, try it without its key under a dial",
                hours=hours(1.5, 3.0, 5.0, len(matter.items)),
                hold="run-out read without key, with key, and of the bare shaft",
                works=("flywheel work", "lifting"),
            ),
        ),
        needs=_look(wheels),
        works=("flywheel work", "lifting"),
        for_it=(Said("It tells wheel from shaft: a bent crank shows as wobble of the wheel."),),
        against_it=(Said("How much it cures is known only when it is done."),),
    )


def _turn(wheels: WheelSet, matter: Matter) -> Way:
    items = worn(matter, FACE, ROUND) or matter.items
    after = {
        name: {item: wheels.reader.even(f"{name} of {item} when turned", *TURNED_TO) for item in items}
        for name in (FACE, ROUND)
    }
    return Way(
        name="turn-true",
        title=Said(f"Turn the rim true on its own bore: {listed(items)}"),
        action="make good",
        intervention="irreversible",
        original="Metal comes off the rim, and with it maker's paint and marks.",
        items=items,
        after=after,
        allowed=_sound(wheels),
        why=CRACKED,
        parameters={f"{item} turned": 1.0 for item in items},
        priced=(PricedItem(TURNED, len(items)),),
        steps=(step(d.KEY, "turn", "Rim turned true, face and side, and balanced", shop=TURNED),),
        needs=(*_look(wheels), _decided_hub(wheels)),
        works=("flywheel work", "lifting"),
        for_it=(Said("True once and for all, if shaft and hub are."),),
        against_it=(
            Said("It hides a bent shaft instead of curing it; timing marks on the rim are lost unless they are cut again."),
        ),
    )


def _decided_hub(wheels: WheelSet) -> Need:
    met = wheels.bench.snapshot.verdict_on(HUBS) is not None
    return Need(kind="decision", what=f"{HUBS} decided", met=met, why="a rim is turned on the bore that it will run on")


# ---- clutch


def _clutch_matter(wheels: WheelSet) -> Matter:
    now: dict[str, dict[str, Draws]] = {MARGIN: {}, LINING: {}}
    inputs: list[str] = []
    for item in wheels.clutches:
        grip, over = grip_of(item, wheels), wheels.reader.smallest(d.OVER_RIVETS, item)
        if grip is not None and wheels.torque is not None:
            now[MARGIN][item] = grip.torque / wheels.torque
            inputs += grip.inputs
        if over is not None:
            now[LINING][item] = over.draws
            inputs += over.inputs
    rows = ((MARGIN, "ratio", margin_rules()), (LINING, "length", Practice(limits=(TOUCHES,))))
    return Matter(
        system=d.KEY,
        subject=CLUTCHES,
        bench=wheels.bench,
        items=wheels.clutches,
        quantities=tuple(
            Quantity(name=name, part=d.CLUTCH, dimension=dimension, practices=dict.fromkeys(wheels.clutches, practised))
            for name, dimension, practised in rows
        ),
        now=now,
        inputs=tuple(dict.fromkeys(inputs)),
    )


def _leave_clutch(matter: Matter) -> Way:
    past = worn(matter, MARGIN, LINING)
    return Way(
        name="clutch-leave",
        title=Said("Run the clutch on as it is"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        works=("clutch work",),
        for_it=(Said("Dust that is not stirred does no harm."),),
        against_it=(Said("It slips, or its rivets score the iron."),) if past else (),
    )


def _clean_clutch(wheels: WheelSet, matter: Matter) -> Way:
    after = {}
    for item in matter.items:
        grip = grip_of(item, wheels, words="woven lining")
        if grip is not None and wheels.torque is not None:
            after[item] = grip.torque / wheels.torque
    return Way(
        name="clutch-clean",
        title=Said("Take the oil out of the lining, wet, and set the springs alike"),
        action="adjust",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        after={MARGIN: after},
        steps=(
            step(
                d.KEY,
                "clutch-clean",
                "Wash the lining wet, no brush and no air; stop the oil that reached it; set the springs to one length",
                hours=hours(1.0, 2.0, 4.0),
                hold="it takes up and lets go fully; springs read",
                works=("clutch work",),
            ),
        ),
        works=("clutch work",),
        for_it=(Said("An oily lining slips at half its torque."),),
        against_it=(Said("A lining soaked for years does not come clean."),),
    )


def _reline(wheels: WheelSet, matter: Matter) -> Way:
    after: dict[str, dict[str, Draws]] = {MARGIN: {}, LINING: {}}
    for item in matter.items:
        grip = grip_of(item, wheels, words="moulded lining")
        if grip is not None and wheels.torque is not None:
            after[MARGIN][item] = grip.torque / wheels.torque
        after[LINING][item] = wheels.reader.even(f"new lining of {item} over its rivets", *NEW_LINING)
    return Way(
        name="clutch-reline",
        title=Said("Reline it without asbestos"),
        action="buy in",
        intervention="re-doable",
        original="The old lining is waste that must be handed in; plate and cone stay.",
        items=matter.items,
        after=after,
        parameters={f"{item} relined": 1.0 for item in matter.items},
        priced=(PricedItem(RELINED, len(matter.items)),),
        steps=(step(d.KEY, "reline", "Clutch relined with a lining free of asbestos", shop=RELINED),),
        needs=_needs(wheels, matter.items, (d.LINED_OUTSIDE, d.LINED_INSIDE, d.THICKNESS)),
        works=("clutch work",),
        for_it=(Said("Known friction and no dust to fear; a shop that is equipped for it takes the old lining off."),),
        against_it=(Said("New lining grabs until it is worn in."),),
    )
