"""All that the readings of crankpins, rod bearings and rods mean."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.quantity import Amount, Said
from gudgeon.systems.bearings import description as d
from gudgeon.systems.bearings.rods import BEND, TWIST, Rods
from gudgeon.systems.journals import INCH, Journal, journal_findings
from gudgeon.systems.judging import joined, judged, not_measured, practice
from gudgeon.systems.poured import bearing_findings


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where no pin, bearing or rod was read or noted."""
    rods = Rods.of(bench)
    if "findings" not in rods.worked_out:
        rods.worked_out["findings"] = (
            *(finding for pin in rods.pins for finding in _pin(rods, pin)),
            *(finding for each in rods.bearings.bearings for finding in bearing_findings(each)),
            *(finding for rod in rods.rods for finding in _rod(rods, rod)),
        )  # fmt: skip
    return cast(tuple[Finding, ...], rods.worked_out["findings"])


def _pin(rods: Rods, pin: Journal) -> tuple[Finding, ...]:
    return (*journal_findings(pin), *_surface(rods, pin.item), *_fillet(rods, pin.item))


def _surface(rods: Rods, item: str) -> tuple[Finding, ...]:
    text, inputs = rods.reader.words(d.SURFACE, item)
    blank = rods.blank(item, "surface", part="crankpin", dimension="words")
    if not text:
        return (not_measured(blank, settle=f"Look at {item} with a glass: scores, rust, cracks at the fillets; write none."),)
    return (replace(blank, sentence=Said(f"{item}, surface: {text}."), inputs=inputs),)


def _fillet(rods: Rods, item: str) -> tuple[Finding, ...]:
    read = rods.reader.smallest(d.FILLET, item)
    if read is None:
        return ()
    said = Said(f"The fillets of {item} are {{0}}: a grinder must leave as much.", (Amount(read.value, "length"),))
    blank = rods.blank(item, d.FILLET.name, part="crankpin")
    return judged(replace(blank, sentence=said, inputs=read.inputs, formula="as read, the least"), read.draws)


def _rod(rods: Rods, rod: str) -> tuple[Finding, ...]:
    return (
        *_side_play(rods, rod),
        *_slope(rods, rod, BEND, d.BEND.name),
        *_slope(rods, rod, TWIST, d.TWIST.name),
        *_dip(rods, rod),
    )


def _side_play(rods: Rods, rod: str) -> tuple[Finding, ...]:
    bearing = rods.bearing_of(rod)
    size = bearing.size if bearing is not None else 2.0 * INCH
    practised = practice("rod side play", size=size)
    blank, read = rods.blank(rod, d.SIDE_PLAY.name, part="bearing"), rods.reader.size(d.SIDE_PLAY, rod)
    if read is None:
        return (not_measured(blank, settle=f"Read the side play of {rod} with feelers.", practised=practised),)
    said = Said(f"{rod} has {{0}} side play.", (Amount(read.value, "length"),))
    low = practised.target.low if practised.target else None
    if low is not None and read.value < 0.75 * low:
        said = joined(said, Said("That is close: the rod must slide over by hand when it is warm."))
    elif practised.target and practised.target.high and read.value > 3 * practised.target.high:
        said = joined(said, Said("A slow engine runs with it, but oil is thrown out at the cheeks."))
    return judged(replace(blank, sentence=said, inputs=read.inputs, formula="as read"), read.draws, practised)


def _slope(rods: Rods, rod: str, quantity: str, name: str) -> tuple[Finding, ...]:
    blank, practised = rods.blank(rod, quantity), rods.slope_practice(rod)
    slope, over = rods.slope(rod, quantity), rods.over_big_end(rod, quantity)
    if slope is None or over is None:
        wants = "with its arbor span" if rods.reader.size(d.SPAN, rod) is None else "and the length of its bearing"
        return (not_measured(blank, settle=f"Read the {name} of {rod} with arbors, {wants}.", practised=practised),)
    median = float(np.median(over[0]))
    verb = "bent" if name == d.BEND.name else "twisted"
    said = Said(f"{rod} is {verb}: over its big end that takes {{0}} of the clearance.", (Amount(median, "length"),))
    bore = rods.bench.snapshot.outline.bore
    if name == d.BEND.name and bore:
        lean = float(np.median(slope[0])) * bore
        said = joined(said, Said("Over a bore's length the piston leans {0}.", (Amount(lean, "length"),)))
    formula = "difference of the two readings over their span, times the length of the bearing; FAA powerplant handbook"
    return judged(replace(blank, sentence=said, inputs=over[1], formula=formula), over[0], practised)


def _dip(rods: Rods, rod: str) -> tuple[Finding, ...]:
    if "splash" not in rods.bench.snapshot.outline.oiling.lower() and rods.reader.size(d.DIP, rod) is None:
        return ()
    practised, blank = practice("rod dip", size=1.0), rods.blank(rod, "dip of the dipper")
    read = rods.reader.size(d.DIP, rod)
    if read is None:
        settle = f"Read how deep the dipper of {rod} goes: no book gives it for a trough, so start at just touching."
        return (not_measured(blank, settle=settle, practised=practised),)
    said = Said(f"The dipper of {rod} goes {{0}} into the oil.", (Amount(read.value, "length"),))
    if read.value <= 0:
        said = joined(said, Said("It does not reach: the bearing runs dry."))
    return judged(replace(blank, sentence=said, inputs=read.inputs, formula="as read"), read.draws, practised)
