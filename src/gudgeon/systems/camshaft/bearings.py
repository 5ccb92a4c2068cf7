"""Camshaft in its bearings: clearance, journals worn and out of round, end play, bow."""

from __future__ import annotations

from dataclasses import replace

from gudgeon.engine.finding import Finding
from gudgeon.quantity import Amount, Said
from gudgeon.systems.camshaft import description as d
from gudgeon.systems.camshaft.cam_set import CamSet, Read, blank
from gudgeon.systems.judging import Practice, authorities_differ, joined, judged, middle, not_measured

CLEARANCE, ROUND, WEAR = "cam bearing clearance", "cam journal out-of-round", "cam journal wear"
END_PLAY, BOW = "cam end play", "cam run-out"


def bearing_findings(bearing: str, cams: CamSet) -> tuple[Finding, ...]:
    """All that one bearing and its journal say."""
    return (*_clearance(bearing, cams), *_round(bearing, cams), *_wear(bearing, cams))


def bearing_rules(bearing: str, cams: CamSet) -> Practice:
    """What authorities say of the clearance of a cam bearing."""
    read = cams.size(d.JOURNAL, cams.cam_item("journal", bearing))
    return cams.rules("cam bearing clearance", size=read.value if read else 0.04)


def clearance(bearing: str, cams: CamSet) -> Read | None:
    """Clearance of a journal in its bearing at the widest [m]."""
    bore = cams.reader.largest(d.BORE, cams.cam_item("bearing", bearing))
    journal = cams.size(d.JOURNAL, cams.cam_item("journal", bearing))
    if bore is None or journal is None:
        return None
    return bore.draws - journal.draws, (*bore.inputs, *journal.inputs)


def _clearance(bearing: str, cams: CamSet) -> tuple[Finding, ...]:
    item = cams.cam_item("bearing", bearing)
    practised = bearing_rules(bearing, cams)
    line = blank(item, CLEARANCE, part=d.CAM)
    read = clearance(bearing, cams)
    if read is None:
        return (not_measured(line, settle=f"Read cam journal {bearing} and its bore.", practised=practised),)
    said = Said(f"The camshaft has {{0}} in {item}.", (Amount(middle(read[0]), "length"),))
    if float((read[0] < 0).mean()) > 0.5:
        said = Said(f"The journal reads larger than {item}: one of the readings is wrong.")
    said = joined(said, Said("Gears that rumble are often cam bearings."), authorities_differ(practised))
    formula = "largest bore − mean journal, both at 20 degree C"
    return judged(replace(line, sentence=said, inputs=read[1], formula=formula), read[0], practised)


def _round(bearing: str, cams: CamSet) -> tuple[Finding, ...]:
    item = cams.cam_item("journal", bearing)
    if len(cams.reader.spots(d.JOURNAL, item)) < 2:
        return ()
    large, small = cams.reader.largest(d.JOURNAL, item), cams.reader.smallest(d.JOURNAL, item)
    assert large is not None
    assert small is not None
    draws = large.draws - small.draws
    practised = cams.rules("cam journal out-of-round", size=large.value)
    said = Said(f"{item} is {{0}} out of round.", (Amount(middle(draws), "length"),))
    line = replace(
        blank(item, ROUND, part=d.CAM),
        sentence=said,
        inputs=(*large.inputs, *small.inputs),
        formula="largest − smallest diameter",
    )
    return judged(line, draws, practised)


def _wear(bearing: str, cams: CamSet) -> tuple[Finding, ...]:
    item = cams.cam_item("journal", bearing)
    small, original = cams.reader.smallest(d.JOURNAL, item), cams.reader.original(d.JOURNAL, item)
    if small is None or original is None:
        return ()
    draws = original - small.draws
    said = Said(f"{item} has worn {{0}}, going by what it was likely made to.", (Amount(middle(draws), "length"),))
    line = replace(
        blank(item, WEAR, part=d.CAM),
        sentence=said,
        inputs=small.inputs,
        formula="journal when new, as reconstructed − least now",
    )
    return judged(line, draws, cams.rules("cam journal wear", size=small.value))


def shaft_findings(cams: CamSet) -> tuple[Finding, ...]:
    """End play and run-out of each camshaft that was read or noted."""
    found: list[Finding] = []
    for item in cams.bench.items(d.CAM):
        if "journal" in item.lower() or "bearing" in item.lower():
            continue
        for quantity, feature, words in (
            (END_PLAY, d.END_PLAY, "floats {0} endwise"),
            (BOW, d.RUNOUT, "runs out {0} at the middle; half of it is the bow"),
        ):
            practised = cams.rules("cam end play", size=0.04) if quantity == END_PLAY else Practice()
            read = cams.size(feature, item)
            line = blank(item, quantity, part=d.CAM)
            if read is None:
                found.append(not_measured(line, settle=f"Read the {feature.title.lower()} of {item}.", practised=practised))
                continue
            said = Said(f"{item} {words}.", (Amount(read.value, "length"),))
            found += judged(replace(line, sentence=said, inputs=read.inputs, formula="as read"), read.draws, practised)
    return tuple(found)
