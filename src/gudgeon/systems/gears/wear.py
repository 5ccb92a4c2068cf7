"""What the readings of gears mean: which tooth it is, how thin, how uneven, how slack, what still meets, what is broken."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.finding import Finding
from gudgeon.engine.levels import level_of_estimate
from gudgeon.mechanics import gear_geometry as geometry
from gudgeon.metrology.gear_readings import GearFound
from gudgeon.quantity import Amount, Said
from gudgeon.systems.gears import description as d
from gudgeon.systems.gears.train import AS_CUT, GearTrain, RunningSet, blank
from gudgeon.systems.judging import Practice, authorities_differ, joined, judged, not_measured, practice
from gudgeon.systems.measured import Draws

SYSTEM, THINNED, UNEVEN, TIP = "tooth system", "teeth thinned at the pitch line", "teeth uneven round the gear", "tips worn off"
BACKLASH, TIGHT, VARIES, SUM = (
    "backlash where widest",
    "backlash where tightest",
    "backlash varies round",
    "backlash by teeth and centres",
)
CONTACT, SLACK = "contact ratio as worn", "slack of the timing"
CHIPPED, PITTED, CRACK, RUNOUT = "chipped share of face", "pitted share of face", "crack", "pitch-line run-out"

BY = {
    "span": "span over teeth: (m cos a [(k − ½) π + N inv a] − W) / cos a; Machinery's Handbook",
    "chord": "π m / 2 − d asin(chord / d); SDP/SI Table 10-1",
    "pins": "π m / 2 − thickness by the reading over pins; Machinery's Handbook",
}


def gear_findings(one: RunningSet, gear: GearFound) -> tuple[Finding, ...]:
    """All that the readings of one gear say, but for its strength."""
    return (
        *_thinned(one, gear),
        *_uneven(one, gear),
        *_tip(one, gear),
        *_plain(one, gear.item, d.RUNOUT, RUNOUT, "runs out {0} over a pin in its spaces"),
        *damage_findings(gear.item, one),
    )


def set_findings(one: RunningSet) -> tuple[Finding, ...]:
    """All that belongs to a set: its teeth, backlash, contact, slack of the timing."""
    found = list(_system(one))
    if len(one.gears) == 2 or one.pair_item:
        found += [*_backlash(one), *_by_sum(one), *_contact(one), *_slack(one)]
    return tuple(found)


def uncounted_findings(train: GearTrain) -> tuple[Finding, ...]:
    """Gears whose teeth nobody counted: nothing can be said of them."""
    return tuple(
        not_measured(blank(item, SYSTEM, "words"), settle=f"Count the teeth of {item}, and read its outside diameter.")
        for item in train.uncounted()
    )


def _inputs(one: RunningSet) -> tuple[str, ...]:
    names = (*one.items, one.pair_item)
    told = [
        identity
        for key, spots in one.bench.estimates.items()
        if key.part == d.GEAR and key.item in names
        for spot in spots
        for identity in spot.readings
    ]
    return tuple(dict.fromkeys(told))


def _system(one: RunningSet) -> tuple[Finding, ...]:
    line = replace(
        blank(one.name, SYSTEM, "words"),
        inputs=_inputs(one),
        formula="weight of pitch, angle, tooth form and shift times a normal curve for every reading; all readings together",
    )
    teeth = " and ".join(str(gear.count) for gear in one.gears)
    if not one.known:
        settle = f"Read the outside diameter of {one.items[0]}, and the span over some teeth and over one more."
        return (
            not_measured(
                replace(line, sentence=Said(f"{one.name}: {teeth} teeth; its pitch is not told by what was read.")),
                settle=settle,
            ),
        )
    sure = f"{one.alone * 100:.0f} in 100"
    said = Said(f"{one.name}: {teeth} teeth of {one.likeliest.written} fit best, {sure}.")
    if one.settle:
        others = [each for each in one.candidates if not each.alike(one.likeliest)][:1]
        also = " and ".join(f"{each.written} fits too, {each.probability * 100:.0f} in 100" for each in others)
        said = joined(said, Said(f"{also[0].upper()}{also[1:]}: cut no gear before it is told apart."))
    return (replace(line, sentence=said, settle=one.settle),)


def thinning_practice(one: RunningSet, gear: GearFound) -> Practice:
    """What authorities say of the loss of thickness at the pitch line."""
    thickness = float(np.median(one.teeth(one.gears.index(gear)).thickness))
    return practice("tooth thickness loss", size=thickness)


def _thinned(one: RunningSet, gear: GearFound) -> tuple[Finding, ...]:
    worn = one.worn(gear)
    practised = thinning_practice(one, gear)
    if worn is None:
        k = int(geometry.teeth_to_span(teeth=gear.count, angle=math.radians(one.likeliest.angle)))
        settle = f"Read the span over {k} teeth of {gear.item} at three places round, and over {k + 1}."
        return (not_measured(blank(gear.item, THINNED), settle=settle, practised=practised),)
    share = float(np.median(worn.worst / np.asarray(one.teeth(one.gears.index(gear)).thickness)))
    at = f" at {worn.place}" if worn.place else ""
    said = Said(
        f"{gear.item}'s teeth are {{0}} thinner at the pitch line than half the pitch, {{1}} where thinnest{at}: "
        f"{share:.0%} of the tooth. Of it {{2}} to {{3}} was likely cut off for backlash.",
        (
            Amount(float(np.median(worn.mean)), "length"),
            Amount(float(np.median(worn.worst)), "length"),
            Amount(AS_CUT[0], "length"),
            Amount(AS_CUT[1], "length"),
        ),
    )
    line = replace(blank(gear.item, THINNED), sentence=said, inputs=worn.inputs, formula=BY[worn.by], settle=one.settle)
    return judged(line, worn.worst, practised)


def _uneven(one: RunningSet, gear: GearFound) -> tuple[Finding, ...]:
    worn = one.worn(gear)
    if worn is None or not worn.place:
        return ()
    said = Said(
        f"{gear.item}'s teeth differ by {{0}} between the places that were read; the loaded ones are where cams lift.",
        (Amount(float(np.median(worn.uneven)), "length"),),
    )
    line = replace(blank(gear.item, UNEVEN), sentence=said, inputs=worn.inputs, formula="largest less least of the places")
    return judged(line, worn.uneven)


def _tip(one: RunningSet, gear: GearFound) -> tuple[Finding, ...]:
    if gear.outside is None:
        return ()
    read = one.reader.of(one.bench.estimates.get(gear.outside[0], ()))
    if read is None:
        return ()
    teeth = one.teeth(one.gears.index(gear))
    draws = (np.asarray(teeth.outside(gear.count)) - read.draws) / 2
    said = Said(f"{gear.item}'s tips stand {{0}} below their formula.", (Amount(float(np.median(draws)), "length"),))
    line = replace(blank(gear.item, TIP), sentence=said, inputs=read.inputs, formula="((N + 2a) m − outside) / 2")
    return judged(line, np.asarray(draws))


def _plain(one: RunningSet, item: str, feature: object, quantity: str, words: str) -> tuple[Finding, ...]:
    read = one.reader.size(feature, item)  # type: ignore[arg-type]
    if read is None:
        return ()
    said = Said(f"{item} {words}.", (Amount(float(np.median(read.draws)), "length"),))
    return judged(replace(blank(item, quantity), sentence=said, inputs=read.inputs, formula="as read"), read.draws)


def damage_findings(item: str, one: RunningSet) -> tuple[Finding, ...]:
    """Chips, pits and cracks: share of the face, and where on the flank."""
    return (*_share(item, one, chips=True), *_share(item, one, chips=False), *_crack(item, one))


def _share(item: str, one: RunningSet, *, chips: bool) -> tuple[Finding, ...]:
    feature, quantity = (d.CHIPPED, CHIPPED) if chips else (d.PITTED, PITTED)
    spots = one.reader.spots(feature, item)
    line = blank(item, quantity, "ratio")
    if not spots:
        what = (
            "chips and say what share of the face the largest takes"
            if chips
            else "pits and say what share of the flank, and where"
        )
        return (not_measured(line, settle=f"Look {item} over for {what}; none is a reading."),)
    worst = max(spots, key=lambda spot: spot.value)
    draws = np.clip(one.bench.spot(worst), 0.0, 1.0)
    said = _chip_words(item, worst) if chips else _pit_words(item, worst, one)
    line = replace(line, sentence=said, inputs=worst.readings, formula="as judged by eye on the worst tooth")
    return judged(line, np.asarray(draws))


def _chip_words(item: str, worst: Estimate) -> Said:
    if worst.value <= 0.005:
        return Said(f"{item} has no chips.")
    more = " The corner may be stoned smooth and run on." if worst.value < 0.1 else " The rest of the tooth carries the load."
    return Said(f"{item}: {worst.value:.0%} of the face is chipped off the worst tooth.{more}")


def _pit_words(item: str, worst: Estimate, one: RunningSet) -> Said:
    if worst.value <= 0.005:
        return Said(f"{item} has no pits.")
    level = level_of_estimate(d.PITTED, worst, one.bench.snapshot.readings_of(one.reader.key(d.PITTED, item)))
    where = {
        "at the pitch line": "at the pitch line, where teeth roll and the load is on one pair: common, and slow to spread",
        "below it": "below the pitch line, where sliding tears: it tends to spread",
        "above it": "above the pitch line, towards the tip: look for teeth out of line",
    }.get(level.name if level else "", "where on the flank was not said")
    return Said(f"{item}: {worst.value:.0%} of the worst flank is pitted, {where}.")


def cracked(item: str, one: RunningSet) -> bool | None:
    """Was a crack noted; None where nobody looked."""
    words, _ = one.reader.words(d.CRACK, item)
    if not words:
        return None
    plain = words.lower()
    return not any(sign in plain for sign in ("none", "no crack", "sound", "not cracked"))


def _crack(item: str, one: RunningSet) -> tuple[Finding, ...]:
    words, inputs = one.reader.words(d.CRACK, item)
    line = blank(item, CRACK, "words")
    if not words:
        settle = f"Chalk and kerosene on {item}: tooth roots, web, and the hub over the keyway."
        return (not_measured(line, settle=settle),)
    said = Said(f"{item}: {words}." + (" A cracked gear is not run." if cracked(item, one) else ""))
    return (replace(line, sentence=said, inputs=inputs, formula="as noted"),)


def _backlash(one: RunningSet) -> tuple[Finding, ...]:
    practised = one.backlash_practice()
    spots = one.reader.spots(d.BACKLASH, one.pair_item) if one.pair_item else ()
    if not spots:
        settle = f"Read the backlash of {' and '.join(one.items)} at the pitch line, at four places round."
        return (not_measured(blank(one.name, BACKLASH), settle=settle, practised=practised),)
    read = {spot.place.station or f"place {n}": one.bench.spot(spot) for n, spot in enumerate(spots, 1)}
    inputs = tuple(identity for spot in spots for identity in spot.readings)
    worst, least = (pick(read, key=lambda name: float(np.median(read[name]))) for pick in (max, min))
    fitted = one.reader.size(d.BACKLASH, one.pair_item, stage="fitted")
    said = Said(f"{one.name}: {{0}} between the teeth {_at(worst, read)}.", (Amount(float(np.median(read[worst])), "length"),))
    if len(read) < 4:
        said = joined(said, Said(f"Read at {len(read)} of four places, so it may be more elsewhere."))
    line = replace(
        blank(one.name, BACKLASH),
        sentence=joined(said, authorities_differ(practised)),
        inputs=inputs,
        formula="as read at the pitch line, the widest place",
        as_fitted=None if fitted is None else fitted.value,
        settle="" if len(read) >= 4 else f"Read the backlash of {one.pair_item} at four places round.",
    )
    found = list(judged(line, read[worst], practised))
    if len(read) > 1:
        tight = Said(f"{one.name}: {{0}} where tightest, {least}.", (Amount(float(np.median(read[least])), "length"),))
        if float(np.median(read[least])) <= 0.0005 * d.INCH:
            tight = joined(tight, Said("There it has none to spare: the teeth will bind when warm."))
        found += judged(replace(blank(one.name, TIGHT), sentence=tight, inputs=inputs, formula="as read"), read[least])
        spread = np.asarray(read[worst] - read[least])
        words = Said(
            f"{one.name}: it varies by {{0}} round; a gear or a shaft runs out, or some teeth are worn more.",
            (Amount(float(np.median(spread)), "length"),),
        )
        found += judged(replace(blank(one.name, VARIES), sentence=words, inputs=inputs, formula="widest − tightest"), spread)
    return tuple(found)


def _at(place: str, read: dict[str, Draws]) -> str:
    return f"where widest, {place}" if len(read) > 1 else "at the pitch line"


def thicknesses(one: RunningSet) -> tuple[Draws, Draws] | None:
    """Arc thickness of both gears' teeth now [m]; None where either was not read."""
    if len(one.gears) != 2:
        return None
    first, mate = (one.thickness_left(gear) for gear in one.gears)
    return None if first is None or mate is None else (first, mate)


def backlash_by_sum(one: RunningSet, thickness: tuple[Draws, Draws]) -> Draws:
    """Backlash [m] that both gears' teeth leave at the centres."""
    teeth = one.teeth()
    return np.asarray(
        geometry.backlash(
            thickness=thickness[0],
            mate_thickness=thickness[1],
            teeth=one.counts[0],
            mate_teeth=one.counts[1],
            module=teeth.module,
            angle=teeth.angle,
            centres=one.centre_draws,
        )
    )


def backlash_now(one: RunningSet) -> Draws | None:
    """The widest backlash as read; where none was read, by teeth and centres if those were; else None."""
    spots = one.reader.spots(d.BACKLASH, one.pair_item) if one.pair_item else ()
    if spots:
        return np.asarray(np.max([one.bench.spot(spot) for spot in spots], axis=0))
    both = thicknesses(one)
    return None if both is None or one.centres is None else backlash_by_sum(one, both)


def _by_sum(one: RunningSet) -> tuple[Finding, ...]:
    both = thicknesses(one)
    if both is None:
        return ()
    draws = backlash_by_sum(one, both)
    said = Said(f"{one.name}: teeth and centres together leave {{0}}.", (Amount(float(np.median(draws)), "length"),))
    spots = one.reader.spots(d.BACKLASH, one.pair_item) if one.pair_item else ()
    if spots:
        read = np.mean([one.bench.spot(spot) for spot in spots], axis=0)
        apart = draws - read
        low, high = np.quantile(apart, [0.05, 0.95])
        if low > 0 or high < 0:
            said = joined(
                said,
                Said(
                    "That and the backlash as read do not agree: a shaft stood off in its worn bearing, or a reading is wrong."
                ),
            )
        else:
            said = joined(said, Said("It agrees with what was read."))
    if one.centres is None:
        said = joined(said, Said("The centre distance was not read; the formula's own was taken."))
    line = replace(
        blank(one.name, SUM),
        sentence=said,
        inputs=_inputs(one),
        formula="2 π C / (N1 + N2) − both teeth's arc on the working pitch circles",
    )
    return judged(line, draws)


def contact_draws(one: RunningSet) -> Draws | None:
    """Contact ratio with tips as they are [1]; None where an outside diameter was not read."""
    if len(one.gears) != 2 or any(gear.outside is None for gear in one.gears):
        return None
    outside = []
    for gear in one.gears:
        assert gear.outside is not None
        read = one.reader.of(one.bench.estimates.get(gear.outside[0], ()))
        if read is None:
            return None
        outside.append(read.draws)
    teeth = one.teeth()
    return np.asarray(
        geometry.contact_ratio(
            teeth=one.counts[0],
            mate_teeth=one.counts[1],
            module=teeth.module,
            angle=teeth.angle,
            outside=outside[0],
            mate_outside=outside[1],
            centres=one.centre_draws,
        )
    )


def _contact(one: RunningSet) -> tuple[Finding, ...]:
    practised = practice("gear contact ratio", size=0.0)
    draws = contact_draws(one)
    if draws is None:
        settle = "Read the outside diameter of both gears, and the centre distance."
        return (not_measured(blank(one.name, CONTACT, "ratio"), settle=settle, practised=practised),)
    said = Said(
        f"{one.name}: {float(np.median(draws)):.2f} pairs of teeth share the load on the mean, tips and centres as they are."
    )
    line = replace(
        blank(one.name, CONTACT, "ratio"),
        sentence=said,
        inputs=_inputs(one),
        formula="[√(ra1² − rb1²) + √(ra2² − rb2²) − C sin aw] / (π m cos a); Shigley 13-6",
    )
    return judged(line, draws, practised)


def slack_draws(one: RunningSet, backlash: Draws) -> Draws:
    """By how many radian the crank turns before the cam follows: backlash over the radius of the smaller gear."""
    radius = np.asarray(one.centre_draws) * one.counts[0] / sum(one.counts)
    return np.asarray(backlash / radius)


def _slack(one: RunningSet) -> tuple[Finding, ...]:
    backlash = backlash_now(one)
    if backlash is None:
        return ()
    draws = slack_draws(one, backlash)
    said = Said(
        f"{one.name}: {one.items[0]} turns {{0}} before the other follows; valves and spark wander by up to that much.",
        (Amount(float(np.median(draws)), "angle"),),
    )
    line = replace(
        blank(one.name, SLACK, "angle"), sentence=said, inputs=_inputs(one), formula="backlash / working pitch radius; geometry"
    )
    return judged(line, draws)
