"""What could be done about pins, rollers, sleeve and thrust: run on, free them, re-pin with new rollers, or rebuild the lot."""

from __future__ import annotations

import math

import numpy as np

from gudgeon.engine.origin import Range
from gudgeon.engine.remedy import Need, PricedItem, Risk
from gudgeon.engine.step import StepDraft
from gudgeon.engine.system import Feature
from gudgeon.quantity import Amount, Said
from gudgeon.systems.drafting import reading_need, step
from gudgeon.systems.governor import description as d
from gudgeon.systems.governor.curve import (
    FREE_PLAY,
    Condition,
    as_found,
    curve_of,
    freed,
    plays,
    rebuilt,
    repinned,
)
from gudgeon.systems.governor.governor_set import GovernorSet
from gudgeon.systems.governor.joints import PIN_PLAY, ROLLER_PLAY, balls_of, pin_rules, roller_rules
from gudgeon.systems.governor.running import WANDER, swing_of
from gudgeon.systems.judging import joined, middle
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, hours, listed, worn

JOINTS, SPRINGS, DETENTS = "governor: pins, rollers and sleeve", "governor: spring", "governor: detent"
PIN_MADE, ROLLER_MADE, LUG_BUILT, SLEEVE_FACED, BALL = (
    "governor pin made",
    "governor roller and pin made",
    "governor lug built up and bored",
    "governor sleeve faced",
    "thrust ball",
)
SIXTY_FOURTH = d.INCH / 64
CLEAN = 0.001 * d.INCH
"""A reamer takes so much beyond the widest place to cut all round [m]; common practice."""


def joint_matter(one: GovernorSet) -> Matter:
    """Pins, rollers, sleeve and thrust together: they are taken apart together."""
    curve, governor = curve_of(one), one.only(d.GOVERNOR)
    now: dict[str, dict[str, Draws]] = {WANDER: {}, PIN_PLAY: {}, ROLLER_PLAY: {}}
    inputs: list[str] = []
    if curve is not None:
        now[WANDER][governor] = curve.wander(as_found(one))
        inputs += curve.inputs
    for quantity, hole, pin in ((PIN_PLAY, d.HOLE, d.PIN), (ROLLER_PLAY, d.ROLLER_BORE, d.ROLLER_PIN)):
        for item, (draws, read) in plays(one, hole, pin).items():
            now[quantity][item] = draws
            inputs += read
    quantities = [
        Quantity(name=WANDER, part=d.GOVERNOR, dimension="percent", practices={governor: one.spread_rules}),
        Quantity(name=PIN_PLAY, part=d.WEIGHT, dimension="length", practices={i: pin_rules(one, i) for i in one.weights}),
    ]
    if not one.hung:
        rules = {item: roller_rules(one, item) for item in one.weights}
        quantities.append(Quantity(name=ROLLER_PLAY, part=d.WEIGHT, dimension="length", practices=rules))
    return Matter(
        system=d.KEY,
        subject=JOINTS,
        bench=one.bench,
        items=(governor, *one.weights),
        quantities=tuple(quantities),
        now=now,
        inputs=tuple(dict.fromkeys(inputs)),
    )


def joint_ways(one: GovernorSet, matter: Matter) -> tuple[Way, ...]:
    """Every way, from leaving it to rebuilding it."""
    found = [_run_on(matter), _free(one, matter)]
    return (*found, _repin(one, matter), _rebuild(one, matter)) if one.weights else tuple(found)


def condition_after(one: GovernorSet) -> Condition:
    """The joints as what was decided on them will leave them; as found while nothing was."""
    verdict = one.bench.snapshot.verdict_on(JOINTS)
    name = verdict.chosen.key.rpartition("/")[2] if verdict is not None else ""
    makers = {"free": freed, "repin": repinned, "rebuild": rebuilt}
    return makers[name](one) if name in makers else as_found(one)


def _after(one: GovernorSet, condition: Condition, *, new_pins: bool) -> dict[str, dict[str, Draws]]:
    curve = curve_of(one)
    found: dict[str, dict[str, Draws]] = {}
    if curve is not None:
        found[WANDER] = {one.only(d.GOVERNOR): curve.wander(condition)}
    if new_pins:
        found[PIN_PLAY] = dict.fromkeys(one.weights, condition.pin_play)
        found[ROLLER_PLAY] = dict.fromkeys(one.weights, condition.roller_play)
    return found


def _dead_band(one: GovernorSet, condition: Condition, name: str) -> tuple[Said, ...]:
    """What becomes of the dead band and of hunting, as reasons for a way."""
    curve = curve_of(one)
    if curve is None:
        return ()
    before, after = middle(curve.dead_band(as_found(one))), middle(curve.dead_band(condition))
    said = Said(f"The dead band goes from {100 * before:.1f} to {100 * after:.1f} % of speed.")
    old, new = swing_of(curve, as_found(one), "as found"), swing_of(curve, condition, name)
    if old is not None and new is not None and one.bench.snapshot.outline.governing != "hit-and-miss":
        hunts, still = (float(np.mean(each.speed > 0)) for each in (old, new))
        said = joined(said, Said(f"It hunts in {still:.0%} of the cases tried, before in {hunts:.0%}."))
    return (said,)


def _run_on(matter: Matter) -> Way:
    past = worn(matter, WANDER, PIN_PLAY, ROLLER_PLAY)
    text = f"{listed(past)} stay past a limit; lost motion gives wandering speed (Rathbun, about 1916, §131)."
    return Way(
        name="joints-run-on",
        title=Said("Run pins, rollers and sleeve on"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        steps=(
            step(
                d.KEY,
                "joints-look",
                "Look at weights, lugs and pins with a glass; every cotter and rivet home",
                hours=hours(0.3, 0.5, 1.0),
                hold="no crack at lug, arm or pin",
                works=("governor work",),
            ),
        ),
        works=("governor work",),
        for_it=(Said("Nothing is cut and nothing sent out."),),
        against_it=(Said(text),) if past else (),
    )


def _free(one: GovernorSet, matter: Matter) -> Way:
    condition = freed(one)
    return Way(
        name="free",
        title=Said("Clean and free every joint, oil it, shim collar and thrust"),
        action="adjust",
        intervention="removable",
        original="Everything stays; the shims come out again.",
        items=matter.items,
        after=_after(one, condition, new_pins=False),
        steps=(
            step(
                d.KEY,
                "free",
                "Take it apart, wash out gum and rust, polish the shaft lengthways, shim collar and thrust, oil",
                hours=hours(2.0, 4.0, 7.0),
                hold="force up and back read again, half way",
                works=("governor work",),
            ),
        ),
        works=("governor work",),
        for_it=(
            Said("A sticky collar is the first thing on the old lists of governor troubles."),
            *_dead_band(one, condition, "free"),
        ),
        against_it=(Said("Worn pins, flats and the groove stay."),),
    )


def new_pin(item: str, one: GovernorSet) -> float | None:
    """The pin that goes into a reamed hole [m]: the next 1/64 in over the widest hole and what cleans it; None where unread."""
    holes = [read for feature in (d.HOLE, d.LUG) if (read := one.reader.largest(feature, item)) is not None]
    if not holes:
        return None
    widest = max(float(np.quantile(read.draws, 0.95)) for read in holes)
    return math.ceil((widest + CLEAN) / SIXTY_FOURTH - 1e-9) * SIXTY_FOURTH


def old_pin(item: str, one: GovernorSet) -> float | None:
    """The pin as it was made [m]: its nominal, else the thickest place read, to the next half thou."""
    nominal, read = one.reader.nominal(d.PIN, item), one.reader.largest(d.PIN, item)
    half = 0.0005 * d.INCH
    return nominal if nominal is not None else None if read is None else round(read.value / half) * half


def new_roller(item: str, one: GovernorSet) -> tuple[float, float] | None:
    """Outside of a new roller and its pin [m]: as made, else as read at the largest, to the next 1/64 in; None where unread."""
    found = []
    for feature in (d.ROLLER, d.ROLLER_PIN):
        nominal, read = one.reader.nominal(feature, item), one.reader.largest(feature, item)
        if nominal is None and read is None:
            return None
        assert nominal is not None or read is not None
        found.append(nominal if nominal is not None else round((read.value if read else 0.0) / SIXTY_FOURTH) * SIXTY_FOURTH)
    return found[0], found[1]


def _roller_parameters(one: GovernorSet) -> dict[str, float]:
    parameters: dict[str, float] = {}
    for item in one.weights:
        made = new_roller(item, one)
        if made is not None and not one.hung:
            parameters |= {f"{item} roller": made[0], f"{item} roller pin": made[1]}
    return parameters


def _needs(one: GovernorSet, features: tuple[Feature, ...], why: str) -> tuple[Need, ...]:
    return tuple(reading_need(one.reader, feature, item, why=why) for item in one.weights for feature in features)


def _roller_step(one: GovernorSet, after: tuple[str, ...]) -> tuple[StepDraft, ...]:
    return (
        step(
            d.KEY,
            "fit-pins",
            "Fit pins and rollers, every joint free by its own weight",
            hours=hours(0.5, 1.0, 2.0, len(one.weights)),
            after=after,
            hold="play of every pin and roller read as fitted; force up and back read again",
            works=("governor work",),
        ),
    )


def _repin(one: GovernorSet, matter: Matter) -> Way:
    condition = repinned(one)
    parameters = {f"{item} pin": size for item in one.weights if (size := new_pin(item, one)) is not None}
    rollers = _roller_parameters(one)
    priced = [PricedItem(PIN_MADE, len(one.weights))] + ([PricedItem(ROLLER_MADE, len(one.weights))] if rollers else [])
    biggest = max(parameters.values(), default=0.0)
    title = Said(f"Ream weights and lugs, new pins{' and rollers' if rollers else ''}")
    if biggest:
        title = Said(f"{title.text}: pins of {{0}}", (Amount(biggest, "length"),))
    return Way(
        name="repin",
        title=title,
        action="make good",
        intervention="irreversible",
        original="Holes are larger for good; old pins and rollers go on the shelf.",
        items=matter.items,
        after=_after(one, condition, new_pins=True),
        parameters={**parameters, **rollers},
        priced=tuple(priced),
        steps=(
            step(
                d.KEY,
                "ream",
                "Ream weights and lugs in line, from the unworn side",
                hours=hours(0.7, 1.2, 2.0, len(one.weights)),
                hold="every hole read; pins are made to them",
                may_fail=Range(0.02, 0.05, 0.12, OWN),
                works=("governor work",),
            ),
            step(d.KEY, "pins", "Pins made to the reamed holes", shop=PIN_MADE, after=("ream",)),
            *((step(d.KEY, "rollers", "Rollers and their pins made", shop=ROLLER_MADE),) if rollers else ()),
            *_roller_step(one, ("pins", "rollers") if rollers else ("pins",)),
        ),
        needs=(
            *_needs(one, (d.HOLE, d.PIN_LENGTH), "the pin is made from its drawing"),
            *(() if one.hung else _needs(one, (d.ROLLER, d.ROLLER_PIN, d.ROLLER_WIDTH), "the roller is made from its drawing")),
        ),
        risks=(
            Risk(
                "a hole runs out of line and the weights swing unevenly",
                Range(0.02, 0.06, 0.15, OWN),
                "bush it and ream again",
            ),
        ),
        works=("governor work",),
        for_it=(Said("Round, hard joints without lugs being heated."), *_dead_band(one, condition, "repin")),
        against_it=(Said("The groove of the sleeve stays, and the lugs are weaker by what is reamed out."),),
    )


def _rebuild(one: GovernorSet, matter: Matter) -> Way:
    condition, balls = rebuilt(one), balls_of(one)
    pins = {f"{item} pin": size for item in one.weights if (size := old_pin(item, one)) is not None}
    rollers = _roller_parameters(one)
    priced = [PricedItem(LUG_BUILT, len(one.weights)), PricedItem(PIN_MADE, len(one.weights)), PricedItem(SLEEVE_FACED, 1)]
    parameters = {**pins, **rollers, **{f"{item} lug": size for item in one.weights if (size := old_pin(item, one))}}
    if rollers:
        priced.append(PricedItem(ROLLER_MADE, len(one.weights)))
    if balls is not None and balls.sizes and balls.wanted:
        priced.append(PricedItem(BALL, balls.wanted))
        parameters |= {"sleeve ball": balls.sizes[0][1], "sleeve balls": float(balls.wanted)}
    return Way(
        name="rebuild",
        title=Said("Build up and bore the lugs, standard pins, new rollers, sleeve faced, new thrust balls"),
        action="remake",
        intervention="re-doable",
        original="Old metal stays under the weld; pins, rollers and balls go on the shelf.",
        items=matter.items,
        after=_after(one, condition, new_pins=True),
        parameters=parameters,
        priced=tuple(priced),
        stages=((LUG_BUILT, SLEEVE_FACED), (PIN_MADE, ROLLER_MADE, BALL)),
        steps=(
            step(d.KEY, "lugs", "Lugs and weights built up and bored to the old size, in line", shop=LUG_BUILT),
            step(d.KEY, "face", "Sleeve faced clean of its groove, with a shim behind to bring it up again", shop=SLEEVE_FACED),
            step(d.KEY, "pins", "Pins made to the bored holes", shop=PIN_MADE, after=("lugs",)),
            *((step(d.KEY, "rollers", "Rollers and their pins made", shop=ROLLER_MADE),) if rollers else ()),
            *_roller_step(one, ("pins", "face", *(("rollers",) if rollers else ()))),
        ),
        needs=(
            *_needs(one, (d.PIN, d.HOLE, d.PIN_LENGTH), "holes are bored to the pin as it was made"),
            *(() if one.hung else _needs(one, (d.ROLLER, d.ROLLER_PIN, d.ROLLER_WIDTH), "the roller is made from its drawing")),
            reading_need(one.reader, d.GROOVE, one.only(d.SLEEVE), why="it says how much is faced off and shimmed"),
        ),
        risks=(
            Risk(
                "the lug cracks beside the weld, or the gear warps",
                Range(0.03, 0.08, 0.2, OWN),
                "weld again, or make the carrier new",
            ),
        ),
        works=("governor work", "cast-iron welding"),
        for_it=(
            Said("Back to the sizes it was made to, sleeve and spring where they stood."),
            *_dead_band(one, condition, "rebuild"),
        ),
        against_it=(Said("Heat at a gear or a lug near its teeth; the weld must be sounded before it is spun."),),
    )


def play_made() -> tuple[float, float]:
    """Play of a pin or roller that is made new [m]: low and high."""
    return 0.3 * FREE_PLAY, FREE_PLAY
