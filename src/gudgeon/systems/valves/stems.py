"""Stem in guide: clearance at three heights, wear of stem and guide against the unworn, and how far the guide is belled."""

from __future__ import annotations

from dataclasses import replace

from gudgeon.engine.finding import Finding
from gudgeon.quantity import Amount, Said
from gudgeon.systems.judging import authorities_differ, joined, judged, middle, not_measured, practice
from gudgeon.systems.measured import Draws, Measured
from gudgeon.systems.valves import description as d
from gudgeon.systems.valves.valve_set import ValveSet, blank, kind_of

TOP, MIDDLE, BOTTOM = "stem clearance at top of guide", "stem clearance at middle of guide", "stem clearance at bottom of guide"
STEM_WEAR, GUIDE_WEAR, BELL = "stem wear", "guide wear", "guide belled at the top"
_PLACES = ((TOP, "top of guide", "top"), (MIDDLE, "middle", "middle"), (BOTTOM, "keeper end", "bottom"))


def stem_findings(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    """All that stem and guide of one valve say."""
    return (*_clearances(item, valves), *_stem_wear(item, valves), *_guide_wear(item, valves), *_bell(item, valves))


def clearance(item: str, quantity: str, valves: ValveSet, *, stage: str = "found") -> Measured | None:
    """Clearance on the diameter at one height [m]; at the bottom against the unworn end, so at least so much."""
    _, stem_level, guide_level = next(place for place in _PLACES if place[0] == quantity)
    stem = valves.reader.level(d.STEM, item, stem_level, stage=stage)
    guide = valves.reader.level(d.GUIDE, item, guide_level, stage=stage)
    if stem is None or guide is None:
        return None
    return Measured(
        draws=guide.draws - stem.draws,
        value=guide.value - stem.value,
        inputs=(*guide.inputs, *stem.inputs),
        estimates=(*guide.estimates, *stem.estimates),
    )


def _clearances(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    practised = valves.rules("stem clearance", item=item)
    found: list[Finding] = []
    for quantity, stem_level, guide_level in _PLACES:
        read = clearance(item, quantity, valves)
        if read is None:
            if quantity != BOTTOM:
                settle = f"Read the stem of {item} at the {stem_level} and its guide at the {guide_level}."
                found.append(not_measured(blank(item, quantity), settle=settle, practised=practised))
            continue
        least = "at least " if quantity == BOTTOM else ""
        said = Said(f"{item} has {least}{{0}} in its guide at the {guide_level}.", (Amount(middle(read.draws), "length"),))
        if float((read.draws < 0).mean()) > 0.5:
            said = Said(f"{item}'s stem reads larger than the guide that it came out of: one of the readings is wrong.")
        elif quantity == TOP:
            said = joined(said, Said(_heat(item)), authorities_differ(practised))
        fitted = clearance(item, quantity, valves, stage="fitted")
        line = replace(
            blank(item, quantity),
            sentence=said,
            inputs=read.inputs,
            formula="guide bore − stem at one height, both at 20 degree C; TM 9-6115-464-34 Table 1-1 and others for limits",
            as_fitted=None if fitted is None else fitted.value,
        )
        found += judged(line, read.draws, practised)
    return tuple(found)


def _heat(item: str) -> str:
    if kind_of(item) == "exhaust":
        return "An exhaust stem runs hot and wants a thou more than an inlet; too loose it burns its seat, too tight it sticks."
    return "A slack inlet guide draws air, and the engine will not idle." if kind_of(item) == "intake" else ""


def stem_wear(item: str, valves: ValveSet) -> tuple[Draws, tuple[str, ...]] | None:
    """What the stem has lost where it is thinnest [m], against its unworn end, else against what it was when new."""
    worst = valves.reader.smallest(d.STEM, item)
    if worst is None:
        return None
    new = valves.reader.level(d.STEM, item, "keeper end")
    if new is not None and new.estimates != worst.estimates:
        return new.draws - worst.draws, (*new.inputs, *worst.inputs)
    original = valves.reader.original(d.STEM, item)
    return None if original is None else (original - worst.draws, worst.inputs)


def _stem_wear(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    practised = practice("stem wear", size=valves.stem_size(item), slow=valves.slow)
    read = stem_wear(item, valves)
    if read is None:
        settle = f"Read the stem of {item} at the top of the guide and at the keeper end."
        return (not_measured(blank(item, STEM_WEAR), settle=settle, practised=practised),)
    said = Said(f"{item}'s stem has worn {{0}} where it is thinnest.", (Amount(middle(read[0]), "length"),))
    if valves.reader.level(d.STEM, item, "keeper end") is None:
        said = joined(said, Said("Its unworn end was not read, so this rests on its likely size when new."))
    line = replace(
        blank(item, STEM_WEAR), sentence=said, inputs=read[1], formula="stem at the keeper end − least stem in the guide"
    )
    return judged(line, read[0], practised)


def _guide_wear(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    practised = practice("guide wear", size=valves.stem_size(item), slow=valves.slow)
    worst, original = valves.reader.largest(d.GUIDE, item), valves.reader.original(d.GUIDE, item)
    if worst is None or original is None:
        settle = f"Read the guide of {item} at its top, middle and bottom."
        return (not_measured(blank(item, GUIDE_WEAR), settle=settle, practised=practised),)
    draws = worst.draws - original
    said = Said(
        f"{item}'s guide has worn about {{0}}, going by what guides of its kind were reamed to.",
        (Amount(middle(draws), "length"),),
    )
    line = replace(
        blank(item, GUIDE_WEAR),
        sentence=said,
        inputs=worst.inputs,
        formula="largest guide bore − guide when new or last reamed, as reconstructed",
    )
    return judged(line, draws, practised)


def _bell(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    top, lower = valves.reader.level(d.GUIDE, item, "top"), valves.reader.level(d.GUIDE, item, "middle")
    if top is None or lower is None:
        return ()
    draws = top.draws - lower.draws
    said = Said(
        f"{item}'s guide is {{0}} wider at the top than at the middle; a reamer follows a belled hole, a pilot will not.",
        (Amount(middle(draws), "length"),),
    )
    if middle(draws) < 0.0003 * d.INCH:
        said = Said(f"{item}'s guide is as wide at the top as at the middle.")
    line = replace(blank(item, BELL), sentence=said, inputs=(*top.inputs, *lower.inputs), formula="guide at top − at middle")
    return judged(line, draws)
