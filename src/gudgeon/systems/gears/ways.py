"""What could be done about a set of gears: run it on, turn it round, one new gear to suit the other, a new pair."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from gudgeon.engine.origin import Range
from gudgeon.engine.remedy import Need, PricedItem, Risk
from gudgeon.mechanics import gear_geometry as geometry
from gudgeon.quantity import Amount, Said
from gudgeon.systems.drafting import last_step, reading_need, step
from gudgeon.systems.gears import description as d
from gudgeon.systems.gears.cutting import (
    THICKNESS_TOLERANCE,
    NewTeeth,
    centres_used,
    new_pair,
    new_small,
    target_backlash,
)
from gudgeon.systems.gears.load import BENDING, bending_draws, load_of, stress_practice
from gudgeon.systems.gears.train import RunningSet
from gudgeon.systems.gears.wear import BACKLASH, CONTACT, backlash_now, contact_draws, cracked, slack_draws
from gudgeon.systems.judging import Draws, practice
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, hours, listed, worn

GEAR_CUT = "gear cut"


@dataclass(frozen=True, kw_only=True)
class SetMatter:
    """One set of gears as a matter, with what it was made of."""

    one: RunningSet
    matter: Matter


def subject_of(one: RunningSet) -> str:
    """The matter decided: "gears: timing pair"."""
    return f"gears: {one.name}"


def set_matter(one: RunningSet) -> SetMatter:
    """A set with its backlash, contact and stress as found."""
    name = one.name
    now: dict[str, dict[str, Draws]] = {BACKLASH: {}, CONTACT: {}, BENDING: {}}
    backlash, contact, load = backlash_now(one), contact_draws(one), load_of(one)
    if backlash is not None:
        now[BACKLASH][name] = backlash
    if contact is not None:
        now[CONTACT][name] = contact
    for gear in one.gears:
        stress = bending_draws(one, gear, load)
        if stress is not None:
            now[BENDING][gear.item] = stress
    stresses = {gear.item: stress_practice(one, gear, decides=load.read) for gear in one.gears}
    quantities = [
        Quantity(name=BACKLASH, part=d.GEAR, dimension="length", practices={name: one.backlash_practice()}),
        Quantity(name=CONTACT, part=d.GEAR, dimension="ratio", practices={name: practice("gear contact ratio", size=0.0)}),
    ]
    if load.read:
        quantities.append(Quantity(name=BENDING, part=d.GEAR, dimension="stress", practices=stresses))
    names = (*one.items, one.pair_item)
    inputs = [
        identity
        for key, spots in one.bench.estimates.items()
        if key.part == d.GEAR and key.item in names
        for spot in spots
        for identity in spot.readings
    ]
    return SetMatter(
        one=one,
        matter=Matter(
            system=d.KEY,
            subject=subject_of(one),
            bench=one.bench,
            items=tuple(dict.fromkeys((name, *one.items))),
            quantities=tuple(quantities),
            now=now,
            inputs=tuple(dict.fromkeys(inputs)),
        ),
    )


def set_ways(this: SetMatter) -> tuple[Way, ...]:
    """Every way; new gears only where the mate is known."""
    ways = [_run_on(this), *_turned(this)]
    small, pair = new_small(this.one), new_pair(this.one)
    if small is not None:
        ways.append(_one_new(this, small))
    if pair is not None:
        ways.append(_pair(this, pair))
    return tuple(ways)


def short(one: RunningSet) -> str:
    """The set's name as a piece of a key."""
    return one.name.replace(" ", "-")


def _whole(one: RunningSet, *items: str) -> np.ndarray[tuple[int], np.dtype[np.bool_]] | None:
    """Draws in which none of the gears that stay is cracked; None where nothing says that one is."""
    if any(cracked(item, one) for item in items):
        return np.zeros(one.bench.count, dtype=np.bool_)
    return None


def _chipped(one: RunningSet) -> float:
    spots = [spot.value for item in one.items for spot in one.reader.spots(d.CHIPPED, item)]
    return max(spots, default=0.0)


def _looked_over(one: RunningSet, items: tuple[str, ...]) -> tuple[Need, ...]:
    return tuple(
        reading_need(one.reader, d.CRACK, item, why="a crack at a tooth's root ends in the other gear's teeth")
        for item in items
    )


def _run_on(this: SetMatter) -> Way:
    one, matter = this.one, this.matter
    past = worn(matter, BACKLASH, CONTACT, BENDING)
    against = [Said(f"Past the limit of at least one authority: {listed(past)}.")] if past else []
    backlash = matter.now[BACKLASH].get(one.name)
    if backlash is not None:
        slack = float(np.median(slack_draws(one, backlash)))
        against.append(
            Said(
                "The crank turns {0} before the cam follows: idle is uneven, and the gears are heard.",
                (Amount(slack, "angle"),),
            )
        )
    broken = 0.002 + 0.2 * _chipped(one)
    return Way(
        name=f"{short(one)}-run-on",
        title=Said(f"Run {one.name} on as it is"),
        action="run on",
        intervention="removable",
        original="Both gears stay as their maker cut them.",
        items=matter.items,
        allowed=_whole(one, *one.items),
        why="a cracked gear would be run on",
        needs=_looked_over(one, one.items),
        steps=(
            step(
                d.KEY,
                f"{short(one)}-clean",
                f"Clean {listed(one.items)}, stone off burrs and the corners of chips, renew the marks in white",
                hours=hours(0.5, 1.0, 2.0),
                hold="chips, pits and cracks noted tooth by tooth",
                works=("cleaning",),
            ),
        ),
        risks=(
            Risk(
                "a tooth breaks and the cam stops against open valves",
                Range(0.5 * broken, broken, 4 * broken, OWN),
                "the mate loses teeth too; a valve may be bent",
            ),
        ),
        for_it=(
            Said("No metal is taken; nothing is sent out. Most old gears are heard long before they fail."),
            Said("Gears that have run together suit each other: only marks and meshing must stay as they were."),
        ),
        against_it=tuple(against),
    )


def _turned(this: SetMatter) -> tuple[Way, ...]:
    """The unworn flanks put to work; of use only where one flank is pitted or the teeth wear one-sidedly."""
    one, matter = this.one, this.matter
    pitted = max((spot.value for item in one.items for spot in one.reader.spots(d.PITTED, item)), default=0.0)
    if pitted < 0.05 or len(one.gears) != 2:
        return ()
    return (
        Way(
            name=f"{short(one)}-turned",
            title=Said(f"Turn both gears of {one.name} end for end, so that their other flanks drive"),
            action="adjust",
            intervention="removable",
            original="Both gears stay; they can be turned back.",
            items=matter.items,
            allowed=_whole(one, *one.items),
            why="a cracked gear would be run on",
            needs=(
                *_looked_over(one, one.items),
                Need(
                    kind="decision",
                    what="hubs are alike on both sides, and keyways run right through",
                    met=False,
                    why="else the gears stand off their places",
                ),
            ),
            steps=(
                step(
                    d.KEY,
                    f"{short(one)}-turn",
                    f"Turn {listed(one.items)} end for end on their shafts, both together, and mark them afresh",
                    hours=hours(1.0, 2.0, 4.0),
                    hold="new marks stamped with both shafts where the old ones were together",
                    works=("pressing",),
                ),
            ),
            for_it=(Said("Clean flanks take the load at no cost."),),
            against_it=(
                Said("Backlash stays as it is. Keyways seldom stand at a tooth: the timing shifts and must be found again."),
            ),
        ),
    )


def _new_backlash(one: RunningSet, *, name: str, more: Draws | float = 0.0) -> Draws:
    """Backlash of newly cut teeth, draw by draw: the target, the shop's tolerance, and the doubt of the centres."""
    apart = np.asarray(one.centre_draws) - centres_used(one)
    each = THICKNESS_TOLERANCE / 2
    held = one.reader.even(f"thickness as cut, {name}", -each, each) + one.reader.even(
        f"thickness of its mate, {name}", -each, each
    )
    angle = math.radians(one.likeliest.angle)
    return np.asarray(np.maximum(target_backlash(one) + held + 2 * math.tan(angle) * apart + more, 0.0))


def _new_contact(one: RunningSet, small: NewTeeth, large_outside: Draws | float) -> Draws:
    teeth = one.likeliest.teeth()
    return np.asarray(
        geometry.contact_ratio(
            teeth=one.counts[0],
            mate_teeth=one.counts[1],
            module=teeth.module,
            angle=teeth.angle,
            outside=small.outside[0],
            mate_outside=large_outside,
            centres=one.centre_draws,
        )
    )


def _cut_steps(this: SetMatter, items: tuple[str, ...]) -> tuple:  # type: ignore[type-arg]
    one = this.one
    return (
        step(
            d.KEY,
            f"{short(one)}-measure",
            f"Read bore, keyway, face and hub of {listed(items)}, the timing marks, and the centres over mandrels",
            hours=hours(0.5, 1.0, 2.0),
            hold="the cutting sheet has no blank left, and the teeth are told apart from every other system",
        ),
        step(
            d.KEY,
            f"{short(one)}-cut",
            f"{listed(items)} cut to the sheet",
            shop=GEAR_CUT,
            after=(f"{short(one)}-measure",),
            may_fail=Range(0.03, 0.08, 0.2, OWN),
        ),
        step(
            d.KEY,
            f"{short(one)}-try",
            "Fit keys, try the new teeth in mesh on the shafts, ease what binds",
            hours=hours(1.0, 2.0, 4.0),
            after=(f"{short(one)}-cut",),
            hold="turns right round by hand without a tight place",
            works=("pressing",),
        ),
    )


def order_needs(one: RunningSet, items: tuple[str, ...]) -> tuple[Need, ...]:
    """What a cutting sheet waits for."""
    reader = one.reader
    found = [
        Need(
            kind="reading",
            what=f"{one.name}: teeth told apart from every other system",
            met=not one.settle,
            why=one.settle or "one system stands alone",
            part=d.GEAR,
            item=one.items[0],
            feature=d.SPAN.name,
        ),
    ]
    if one.pair_item:
        found.append(
            reading_need(
                reader,
                d.CENTRE,
                one.pair_item,
                why="backlash is cut for the real centres, in the bearings as they will run, after any pouring or boring",
            )
        )
    for item in items:
        found += [
            reading_need(reader, feature, item, why=why)
            for feature, why in (
                (d.BORE, "the gear is bored to its shaft"),
                (d.KEYWAY, "the key comes from the old one"),
                (d.FACE, "strength goes with the face"),
                (d.THROUGH, "the hub sets the gear in line with its mate"),
                (d.MATERIAL, "steel on iron runs quieter than like on like"),
                (d.MARKS, "the new gear is marked where the old one was"),
            )
        ]
    return tuple(found)


def _one_new(this: SetMatter, small: NewTeeth) -> Way:
    one, matter = this.one, this.matter
    mate = one.gears[1]
    left = one.worn(mate)
    assert left is not None
    outside = one.reader.of(one.bench.estimates.get(mate.outside[0], ())) if mate.outside else None
    after: dict[str, dict[str, Draws]] = {
        BACKLASH: {one.name: _new_backlash(one, name=f"{one.name}, one new", more=left.worst - float(np.median(left.mean)))}
    }
    if outside is not None:
        after[CONTACT] = {one.name: _new_contact(one, small, outside.draws)}
    return Way(
        name=f"{short(one)}-one-new",
        title=Said(f"Have {small.item} cut new, thick enough to suit the worn {mate.item}"),
        action="remake",
        intervention="re-doable",
        original=f"{mate.item} stays; {small.item} is put by and tagged.",
        items=matter.items,
        after=after,
        allowed=_whole(one, mate.item),
        why=f"{mate.item} is cracked and would stay",
        parameters={**small.parameters(), "target backlash": target_backlash(one)},
        priced=(PricedItem(GEAR_CUT, 1),),
        needs=(*order_needs(one, (small.item,)), *_looked_over(one, (mate.item,))),
        steps=_cut_steps(this, (small.item,)),
        risks=(
            Risk(
                "the new gear beds badly on worn flanks and sings",
                Range(0.1, 0.25, 0.5, OWN),
                "it wears in, or the other is cut too",
            ),
        ),
        works=("pressing",),
        for_it=(Said("One gear to pay for, and the backlash comes back to what is wanted."),),
        against_it=(
            Said(
                f"The flanks of {mate.item} are no involutes any more: a true gear on a worn one is noisier than two worn ones."
            ),
        ),
    )


def _pair(this: SetMatter, pair: tuple[NewTeeth, NewTeeth]) -> Way:
    one, matter = this.one, this.matter
    load = load_of(one)
    stresses = {}
    for gear in one.gears:
        stress = bending_draws(one, gear, load)
        if stress is not None:
            stresses[gear.item] = stress * _unworn(one, gear.item)
    against = [Said("Two gears to pay and wait for; the engine stands meanwhile.")]
    if any(teeth.undercut for teeth in pair):
        thin = listed([teeth.item for teeth in pair if teeth.undercut])
        against.append(Said(f"{thin} has few teeth for its angle: generated teeth come out undercut, form-cut ones do not."))
    if one.settle:
        against.append(Said("Two systems fit what was read; cut to the wrong one they will not run."))
    return Way(
        name=f"{short(one)}-new-pair",
        title=Said(f"Have a new pair cut: {listed(one.items)}"),
        action="remake",
        intervention="re-doable",
        original="Both old gears are put by and tagged; nothing else is changed.",
        items=matter.items,
        after={
            BACKLASH: {one.name: _new_backlash(one, name=f"{one.name}, new pair")},
            CONTACT: {one.name: _new_contact(one, pair[0], pair[1].outside[0])},
            BENDING: stresses,
        },
        parameters={**pair[0].parameters(), **pair[1].parameters(), "target backlash": target_backlash(one)},
        priced=(PricedItem(GEAR_CUT, 2),),
        needs=order_needs(one, one.items),
        steps=_cut_steps(this, one.items),
        risks=(
            Risk(
                "cut to a mistaken pressure angle or pitch",
                Range(0.2 * (1 - one.alone), 1 - one.alone, max(2 * (1 - one.alone), 1e-3), "from the readings"),
                "both are scrap",
            ),
        ),
        works=("pressing",),
        for_it=(Said("Full teeth, the backlash that is wanted, and timing that stays where it is set."),),
        against_it=tuple(against),
    )


def _unworn(one: RunningSet, item: str) -> Draws:
    """How much less a full tooth is stressed than the worn one, chips and all."""
    gear = next(each for each in one.gears if each.item == item)
    left = one.worn(gear)
    thickness = np.asarray(one.teeth(one.gears.index(gear)).thickness)
    factor = (
        np.ones(one.bench.count)
        if left is None
        else np.square((thickness - np.clip(left.worst, 0.0, 0.7 * thickness)) / thickness)
    )
    chipped = one.reader.largest(d.CHIPPED, item)
    return np.asarray(factor if chipped is None else factor * (1.0 - np.clip(chipped.draws, 0.0, 0.9)))


def after_gears(one: RunningSet) -> tuple[str, ...]:
    """The last step of what was decided on a set."""
    return last_step(one.bench, subject_of(one))
