"""What the readings of a bore say of its form: size when new, wear, taper, out-of-round, ridge, pits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.place import FeatureKey
from gudgeon.quantity import Amount, Said
from gudgeon.systems.cylinders.description import BORE, KEY, TRAVEL
from gudgeon.systems.cylinders.spots import Bore, Draws, Measured, Spot, inputs_of, largest_of, size_of
from gudgeon.systems.judging import Practice, joined, judged, not_measured, practice, slow_engine

WEAR, TAPER, ROUND, RIDGE = "wear at top of ring travel", "taper", "out-of-round", "ridge"

_NAVEDTRA = "NAVEDTRA and aircraft inspection practice (aircraftsystemstech.com, Reciprocating Engine Dimensional Inspection)"


def plain(item: str, quantity: str, *, part: str = "cylinder", dimension: str = "length") -> Finding:
    """A finding of this system with its names only."""
    return Finding(system=KEY, part=part, item=item, quantity=quantity, dimension=dimension)


def size_for_rules(bore: Bore, bench: Bench) -> float:
    """The bore that rules of practice are taken at: the nominal, else the size when new, else the mean reading [m]."""
    specification = bench.specification("cylinder", bore.item, BORE.name)
    if specification is not None and specification.nominal is not None:
        return specification.nominal
    if bore.original is not None:
        return float(np.median(bore.original))
    return float(np.mean([spot.estimate.value for spot in bore.spots])) if bore.spots else bench.snapshot.outline.bore or 0.1


def rules_for(*subjects: str, bore: Bore, bench: Bench, words: tuple[str, ...] = ()) -> Practice:
    """What authorities say of a quantity of this bore."""
    slow = slow_engine(bench.snapshot.outline.rated_speed)
    return practice(*subjects, size=size_for_rules(bore, bench), words=words, slow=slow)


def nominal_finding(bore: Bore, bench: Bench) -> tuple[Finding, ...]:
    """What the cylinder measured when new or last bored, and the size that its drawing called for; for information."""
    blank = plain(bore.item, "bore when new")
    specification = bench.specification("cylinder", bore.item, BORE.name)
    if specification is None or specification.nominal is None:
        settle = f"Read the bore of {bore.item} below the ring travel, along and across the crank, twice."
        return (not_measured(blank, settle=settle),)
    rework = f", {specification.rework} since" if specification.rework else ""
    written = f" ({specification.written})" if specification.written else ""
    said = Said(
        f"{bore.item} was made to {{0}}{written}{rework}: {specification.probability:.0%} sure.",
        (Amount(specification.nominal, "length"),),
    )
    others = "; ".join(
        f"{each.written}{' ' + each.rework if each.rework else ''} {each.probability:.0%}"
        for each in specification.runners_up[:2]
    )
    if others:
        said = joined(said, Said(f"Next likeliest: {others}."))
    if specification.conflict:
        said = joined(said, Said(specification.conflict))
    found = replace(
        blank,
        sentence=said,
        inputs=inputs_of(bore.unworn) or bore.inputs,
        formula=f"the likeliest size of the time, from the readings: {specification.origin}",
        settle=specification.settle,
    )
    if bore.original is None:
        return (replace(found, value=specification.nominal, low=specification.low, high=specification.high),)
    return judged(found, bore.original)


def wear_of(bore: Bore) -> Draws | None:
    """Wear of the bore at its worst spot in the ring travel, on the diameter [m]."""
    if bore.worst is None or bore.original is None:
        return None
    return bore.worst.draws - bore.original


def wear_findings(bore: Bore, bench: Bench) -> tuple[Finding, ...]:
    """Wear at the top of the ring travel, or at the worst level where another is worse."""
    practised = rules_for("bore wear", bore=bore, bench=bench)
    blank = plain(bore.item, WEAR)
    worn = wear_of(bore)
    if worn is None or bore.worst is None:
        missing = "just below the ridge" if bore.worst is None else "below the ring travel, where it is unworn"
        return (not_measured(blank, settle=f"Read the bore of {bore.item} {missing}.", practised=practised),)
    at = where(bore.worst)
    said = Said(f"{bore.item} has worn {{0}}, most {at}.", (Amount(float(np.median(worn)), "length"),))
    if not bore.unworn:
        said = joined(said, Said("No unworn place was read, so this rests on the likely size when new."))
    if named := bore.named(TRAVEL[0]):
        top = max(named, key=lambda spot: spot.estimate.value)
        if bore.worst.estimate.value - top.estimate.value > 3 * max(top.estimate.own, 1e-6):
            said = joined(said, Said("That is not at the top of the ring travel, where wear is usually worst: read it again."))
    sentence = replace(
        blank,
        sentence=said,
        inputs=inputs_of((bore.worst, *bore.unworn)),
        formula=f"largest diameter in the ring travel − diameter when new; {_NAVEDTRA}",
        settle=""
        if bore.unworn
        else f"Read the bore of {bore.item} below the ring travel: it shows what it measured when new.",
    )
    return judged(sentence, worn, practised)


def where(spot: Spot) -> str:
    """Words for where a spot is."""
    if spot.direction is None:
        return f"at {spot.label}"
    line = {0.0: "along the crank", 90.0: "across the crank"}.get(spot.direction, f"at {spot.direction:g} degree")
    return f"at {spot.label}, {line}"


def roundness_of(bore: Bore) -> tuple[str, Spot, Spot] | None:
    """The level that is most out of round, with its largest and smallest spot; None where no level has two directions.

    The pair is chosen by the estimates and then kept for all draws, so that noise in many spots does not add to it.
    """
    pairs = [
        (label, max(spots, key=_value), min(spots, key=_value))
        for label, spots in bore.levels.items()
        if len({spot.direction for spot in spots} - {None}) >= 2
    ]
    return max(pairs, key=lambda pair: _value(pair[1]) - _value(pair[2])) if pairs else None


def _value(spot: Spot) -> float:
    return spot.estimate.value


def roundness_findings(bore: Bore, bench: Bench) -> tuple[Finding, ...]:
    """Out-of-round: the difference between diameters at one level, at the worst level of the ring travel."""
    practised = rules_for("bore out-of-round", bore=bore, bench=bench)
    blank = plain(bore.item, ROUND)
    found = roundness_of(bore)
    if found is None:
        settle = f"Read the bore of {bore.item} along and across the crank at the same level."
        return (not_measured(blank, settle=settle, practised=practised),)
    _, large, small = found
    draws = large.draws - small.draws
    said = Said(f"{bore.item} is {{0}} out of round {where(large)}.", (Amount(float(np.median(draws)), "length"),))
    directions = {spot.direction for spot in bore.spots if spot.direction is not None}
    few = len(directions) < 4
    if few:
        said = joined(said, Said("Only two directions were read; an oval lying between them would not show."))
    sentence = replace(
        blank,
        sentence=said,
        inputs=inputs_of((large, small)),
        formula=f"largest − smallest diameter at one level; {_NAVEDTRA}",
        settle=f"Read {bore.item} at 45 and 135 degree too." if few else "",
    )
    return judged(sentence, draws, practised)


def taper_of(bore: Bore) -> tuple[Spot, Spot] | None:
    """Largest and smallest spot of the line down the ring travel that tapers most; None where no line has two levels."""
    lines: dict[float | None, list[Spot]] = {}
    for spot in bore.spots:
        if spot.in_travel:
            lines.setdefault(spot.direction, []).append(spot)
    pairs = [
        (max(line, key=_value), min(line, key=_value)) for line in lines.values() if len({spot.label for spot in line}) >= 2
    ]
    return max(pairs, key=lambda pair: _value(pair[0]) - _value(pair[1])) if pairs else None


def taper_findings(bore: Bore, bench: Bench) -> tuple[Finding, ...]:
    """Taper: the difference between diameters along one line within the ring travel.

    A bore that narrows towards the head may have been made so (choke); it is said, and not called wear.
    """
    practised = rules_for("bore taper", bore=bore, bench=bench)
    blank = plain(bore.item, TAPER)
    found = taper_of(bore)
    if found is None:
        settle = f"Read the bore of {bore.item} at two levels or more of the ring travel along the same line."
        return (not_measured(blank, settle=settle, practised=practised),)
    large, small = found
    draws = large.draws - small.draws
    said = Said(
        f"{bore.item} tapers {{0}}, wide {where(large)}, narrow at {small.label}.", (Amount(float(np.median(draws)), "length"),)
    )
    if _narrows_to_the_head(large, small):
        said = joined(said, _choke(bore))
    sentence = replace(
        blank,
        sentence=said,
        inputs=inputs_of((large, small)),
        formula=f"largest − smallest diameter along one line within the ring travel; {_NAVEDTRA}",
    )
    return judged(sentence, draws, practised)


def _narrows_to_the_head(large: Spot, small: Spot) -> bool:
    if large.depth is None or small.depth is None:
        levels = [spot.level.name if spot.level is not None else "" for spot in (small, large)]
        return all(name in TRAVEL for name in levels) and TRAVEL.index(levels[0]) < TRAVEL.index(levels[1])
    noise = (large.estimate.own**2 + small.estimate.own**2) ** 0.5
    return small.depth < large.depth and large.estimate.value - small.estimate.value > 2 * noise


def _choke(bore: Bore) -> Said:
    top, bottom = bore.named("top land, above ring travel"), bore.named("below ring travel")
    if not (top and bottom):
        return Said(
            "It narrows towards the head. Some cylinders were made so: "
            "read the unworn belt at both ends before it is called wear."
        )
    difference = float(np.median(np.mean([s.draws for s in bottom], axis=0) - np.mean([s.draws for s in top], axis=0)))
    noise = 2 * (top[0].estimate.own + bottom[0].estimate.own)
    if difference > noise:
        return Said("Its unworn ends differ by {0} the same way: it was made with choke.", (Amount(difference, "length"),))
    return Said("It narrows towards the head though its unworn ends agree: this is wear at the crank end.")


def ridge_findings(bore: Bore, bench: Bench) -> tuple[Finding, ...]:
    """Height of the ridge on one side: as read, else from the diameters below and above it."""
    practised = rules_for("ridge", bore=bore, bench=bench)
    blank = plain(bore.item, RIDGE)
    read = size_of(bench, "cylinder", bore.item, "ridge height", aliases=("ridge", "ridge step", "wear step", "step"))
    if read is not None:
        said = Said(f"{bore.item} has a ridge of {{0}}.", (Amount(read.value, "length"),))
        return judged(replace(blank, sentence=said, inputs=read.inputs, formula="as read"), read.draws, practised)
    above = bore.named("ridge") or bore.named("top land, above ring travel")
    if not above or bore.worst is None:
        settle = f"Read the step of the ridge in {bore.item}, or the diameter above it."
        expected = wear_of(bore)
        hint = Said("")
        if expected is not None:
            half = Amount(float(np.median(expected)) / 2, "length")
            hint = Said(f"{bore.item}: the ridge was not read; half the wear, {{0}}, is to be expected.", (half,))
        return (not_measured(replace(blank, sentence=hint), settle=settle, practised=practised),)
    draws = (bore.worst.draws - np.mean([spot.draws for spot in above], axis=0)) / 2
    said = Said(
        f"{bore.item} has a ridge of {{0}} on a side: cut it before the piston is drawn past it.",
        (Amount(float(np.median(draws)), "length"),),
    )
    formula = "(largest diameter below the ridge − diameter above it) / 2, the wear taken as even all round"
    return judged(replace(blank, sentence=said, inputs=inputs_of((bore.worst, *above)), formula=formula), draws, practised)


def pit_of(bench: Bench, item: str) -> Measured | None:
    """The deepest pit or scratch of a bore; None where neither was read."""
    pits = [
        found
        for found in (
            largest_of(bench, "cylinder", item, "pit depth", aliases=("pitting", "pit", "pits")),
            largest_of(bench, "cylinder", item, "scratch depth", aliases=("score depth", "scratch", "score", "scoring")),
        )
        if found is not None
    ]
    return max(pits, key=lambda found: found.value) if pits else None


def pit_findings(bore: Bore, bench: Bench) -> tuple[Finding, ...]:
    """The deepest pit or scratch, and whether the rings pass over it."""
    blank = plain(bore.item, "pits and scratches")
    pit = pit_of(bench, bore.item)
    if pit is None:
        settle = f"Look {bore.item} over for pits and scratches and read the deepest; write 0 where there are none."
        return (not_measured(blank, settle=settle),)
    if pit.value <= 0:
        return judged(replace(blank, sentence=Said(f"{bore.item} has no pits or scratches."), inputs=pit.inputs), pit.draws)
    said = joined(
        Said(f"The deepest mark in {bore.item} is {{0}} deep.", (Amount(pit.value, "length"),)),
        _place_of_pit(pit, bore, bench),
    )
    return judged(replace(blank, sentence=said, inputs=pit.inputs, formula="as read, the deepest"), pit.draws)


def _place_of_pit(pit: Measured, bore: Bore, bench: Bench) -> Said:
    place = pit.estimates[0].place
    ends = travel_ends(bore, bench)
    if place.depth is not None and ends[0] is not None and ends[1] is not None:
        if place.depth < ends[0]:
            return Said("It lies above the ring travel, where no ring passes over it.")
        if place.depth > ends[1]:
            return Said("It lies below the ring travel, where it does no harm to the rings.")
        share = (place.depth - ends[0]) / (ends[1] - ends[0])
        third = "upper" if share < 1 / 3 else "middle" if share < 2 / 3 else "lower"
        return Said(f"It lies in the {third} third of the ring travel: every ring passes over it.")
    if "below" in place.station.lower() and "ridge" not in place.station.lower():
        return Said("It lies below the ring travel, where it does no harm to the rings.")
    if place.station:
        return Said(f"It lies at {place.station}.")
    return Said("Whether the rings pass over it was not noted: write down how far down the bore it lies.")


def travel_ends(bore: Bore, bench: Bench) -> tuple[float | None, float | None]:
    """Depths of the ends of the ring travel [m]: as read, else those of the outermost levels in it; None where unknown."""
    read = [
        size_of(bench, "cylinder", bore.item, f"{end} of ring travel depth", aliases=(f"ring travel {end}",))
        for end in ("top", "bottom")
    ]
    depths = [spot.depth for spot in bore.spots if spot.in_travel and spot.depth is not None]
    top = read[0].value if read[0] else min(depths, default=None)
    bottom = read[1].value if read[1] else max(depths, default=None)
    return top, bottom


def word_findings(bore: Bore, bench: Bench) -> tuple[Finding, ...]:
    """Cracks and the leak test of the jacket, in the owner's words."""
    return tuple(
        _words(bench, bore.item, feature, settle)
        for feature, settle in (
            (
                "crack",
                f"Clean the casting of {bore.item} and look for cracks, from the valve seats to the bore and along the jacket.",
            ),
            (
                "leak test",
                f"Fill the jacket of {bore.item} with water and hold a low pressure before money goes into the casting.",
            ),
        )
    )


def words_read(bench: Bench, item: str, feature: str, *, part: str = "cylinder") -> tuple[str, tuple[str, ...]]:
    """What was written under a feature that is said in words, newest last, and the readings' identities."""
    readings = bench.snapshot.readings_of(FeatureKey(part, item, feature))
    texts = [reading.understood.words or reading.typed for reading in readings]
    return "; ".join(text for text in texts if text), tuple(reading.id for reading in readings)


def _words(bench: Bench, item: str, feature: str, settle: str) -> Finding:
    text, inputs = words_read(bench, item, feature)
    blank = plain(item, feature, dimension="words")
    if not text:
        return not_measured(blank, settle=settle)
    return replace(blank, sentence=Said(f"{item}, {feature}: {text}."), inputs=inputs)


def form_findings(bores: Sequence[Bore], bench: Bench) -> tuple[Finding, ...]:
    """All findings on the form of all bores, cylinder by cylinder."""
    parts = (nominal_finding, wear_findings, taper_findings, roundness_findings, ridge_findings, pit_findings, word_findings)
    return tuple(finding for bore in bores for part in parts for finding in part(bore, bench))
