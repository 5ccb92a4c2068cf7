"""All that the readings of crankshaft and mains mean."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.quantity import Amount, Said
from gudgeon.systems.crankshaft import description as d
from gudgeon.systems.crankshaft.shaft import BowFound, Shaft
from gudgeon.systems.journals import INCH, Journal, journal_findings
from gudgeon.systems.judging import (
    Limit,
    Practice,
    authorities_differ,
    joined,
    judged,
    not_measured,
    practice,
    slow_engine,
)
from gudgeon.systems.poured import bearing_findings

BOW, LINE, THROW, PHASE, SEAT_FIT = (
    "bow, as run-out",
    "line of the mains",
    "throw",
    "phase of the throw",
    "flywheel on its seat",
)


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where nothing of it was read or noted."""
    shaft = Shaft.of(bench)
    if not shaft.present:
        return ()
    if "findings" not in shaft.worked_out:
        shaft.worked_out["findings"] = (
            *_cracks(shaft),
            *_bow(shaft),
            *_end_play(shaft),
            *(finding for main in shaft.mains for finding in _main(shaft, main)),
            *(finding for each in shaft.bearings.bearings for finding in bearing_findings(each)),
            *_line(shaft),
            *_throws(shaft),
            *_phases(shaft),
            *_flywheel(shaft),
        )
    return cast(tuple[Finding, ...], shaft.worked_out["findings"])


def _length(value: float) -> Amount:
    return Amount(value, "length")


def _main(shaft: Shaft, main: Journal) -> tuple[Finding, ...]:
    found = list(journal_findings(main))
    text, inputs = shaft.reader.words(d.MAIN_SURFACE, main.item)
    if text:
        blank = shaft.blank(main.item, "surface", part="main", dimension="words")
        found.append(replace(blank, sentence=Said(f"{main.item}, surface: {text}."), inputs=inputs))
    fillet = shaft.reader.smallest(d.MAIN_FILLET, main.item)
    if fillet is not None:
        said = Said(f"The fillets of {main.item} are {{0}}: a grinder must leave as much.", (_length(fillet.value),))
        blank = shaft.blank(main.item, d.MAIN_FILLET.name, part="main")
        found += judged(replace(blank, sentence=said, inputs=fillet.inputs, formula="as read, the least"), fillet.draws)
    return tuple(found)


def crack_free(shaft: Shaft) -> bool | None:
    """Was the shaft tried for cracks and found free; None where nobody tried."""
    text = shaft.reader.words(d.CRACK, d.SHAFT)[0].strip().lower()
    return None if not text else text.startswith(("no", "none", "sound", "free", "without"))


def _cracks(shaft: Shaft) -> tuple[Finding, ...]:
    blank = shaft.blank(d.SHAFT, "cracks", dimension="words")
    text, inputs = shaft.reader.words(d.CRACK, d.SHAFT)
    if not text:
        settle = "Try the crankshaft with dye or magnetic powder at every fillet and oil hole before money goes into it."
        return (not_measured(blank, settle=settle),)
    said = Said(f"Crankshaft, crack test: {text}.")
    if crack_free(shaft):
        return (replace(blank, sentence=said, inputs=inputs, standing="within"),)
    return (
        replace(
            blank, sentence=joined(said, Said("A cracked crank is not run: it is replaced.")), inputs=inputs, standing="past"
        ),
    )


def bow_practice(shaft: Shaft) -> Practice:
    """What authorities say of run-out; those for cars do not decide about a slow engine."""
    slow = slow_engine(shaft.bench.snapshot.outline.rated_speed)
    found = practice("crank run-out", "crank straightness", size=2.0 * INCH, slow=slow)
    limits = tuple(
        replace(limit, decides=limit.decides and not (slow and "car engine" in limit.origin.page)) for limit in found.limits
    )
    return Practice(targets=found.targets, limits=limits)


def _bow(shaft: Shaft) -> tuple[Finding, ...]:
    blank, practised, found = shaft.blank(d.SHAFT, BOW), bow_practice(shaft), shaft.bow
    if found is None:
        if len(shaft.mains) == 2:
            settle = "With two mains a bow shows at the throws and the flywheel end: read the flywheel's run-out."
        else:
            settle = "Read the run-out of every main with a dial, the end ones in vee blocks, and where each is high."
        return (not_measured(blank, settle=settle, practised=practised),)
    formula = (
        "centres of the mains as vectors, less the straight line through those of the end mains, doubled as a dial shows it; "
        f"positions {'counted evenly' if found.even else 'as noted'}"
    )
    settle = "" if found.known else "Read again where each main is high: 0 at the first throw, a direction to each run-out."
    plain = replace(blank, sentence=_bow_said(found), inputs=found.inputs, formula=formula, settle=settle)
    return judged(plain, found.total, practised)


def _bow_said(found: BowFound) -> Said:
    median = float(np.median(found.total))
    item = found.items[found.worst]
    if not found.known or found.x is None or found.y is None:
        low, high = (float(np.quantile(found.total, share)) for share in (0.05, 0.95))
        return Said(
            f"Between {{0}} and {{1}} of the run-out at {item} is bow: which way the mains lean was not noted for all.",
            (_length(low), _length(high)),
        )
    towards = np.degrees(np.arctan2(np.median(found.y[found.worst]), np.median(found.x[found.worst]))) % 360.0
    return Said(
        f"The crankshaft is bowed: {item} runs out {{0}} against the line of the end mains, high at {towards:.0f} degree from "
        "the first throw.",
        (_length(median),),
    )


def _end_play(shaft: Shaft) -> tuple[Finding, ...]:
    size = next((main.size for main in shaft.mains if main.size), 2.0 * INCH) or 2.0 * INCH
    practised = practice("crank end play", size=size, slow=slow_engine(shaft.bench.snapshot.outline.rated_speed))
    blank, read = shaft.blank(d.SHAFT, d.END_PLAY.name, part="bearing"), shaft.reader.size(d.END_PLAY, d.SHAFT)
    if read is None:
        settle = "Push the crankshaft to and fro and read its end play with a feeler at the thrust faces."
        return (not_measured(blank, settle=settle, practised=practised),)
    said = [Said("The crankshaft has {0} end play.", (_length(read.value),)), authorities_differ(practised)]
    if read.value < 0.002 * INCH:
        said.append(Said("It must have some: hammering at a flywheel then goes into the mains."))
    return judged(replace(blank, sentence=joined(*said), inputs=read.inputs, formula="as read"), read.draws, practised)


def _line(shaft: Shaft) -> tuple[Finding, ...]:
    found = shaft.line
    practised = practice("bearing alignment", size=2.0 * INCH)
    if found is None:
        if len(shaft.bearings.items) < 3:
            return ()
        settle = "Lay a true bar along the main beds and read the gap under it at every one."
        return (not_measured(shaft.blank(d.SHAFT, LINE), settle=settle, practised=practised),)
    items, off, inputs = found
    result: list[Finding] = []
    for item, draws in list(zip(items, off, strict=True))[1:-1]:
        median = float(np.median(draws))
        side = "below" if median >= 0 else "above"
        said = Said(f"{item} lies {{0}} {side} the line of the end mains.", (_length(abs(median)),))
        blank = replace(shaft.blank(item, LINE, part="bearing"), sentence=said, inputs=inputs,
                        formula="gaps under the bar, less the straight line between those of the end mains")  # fmt: skip
        result += judged(blank, np.abs(draws), practised)
    return tuple(result)


def _throws(shaft: Shaft) -> tuple[Finding, ...]:
    stroke = shaft.bench.snapshot.outline.stroke
    result: list[Finding] = []
    for item in shaft.bench.items("throw"):
        found = shaft.throw(item)
        blank = shaft.blank(item, THROW, part="throw")
        if found is None:
            result.append(not_measured(blank, settle=f"Read the pin of {item} over its top and its bottom, on a plate."))
            continue
        draws, inputs = found
        said = Said(f"{item} is {{0}}.", (_length(float(np.median(draws))),))
        if stroke:
            off = float(np.median(draws)) - stroke / 2.0
            said = joined(said, Said("Half the stroke of the outline is {0}: it differs by {1}.",
                                     (_length(stroke / 2.0), _length(off))))  # fmt: skip
        formula = "half the difference of the pin's heights at top and bottom"
        result += judged(replace(blank, sentence=said, inputs=inputs, formula=formula), draws)
    return tuple(result)


def _phases(shaft: Shaft) -> tuple[Finding, ...]:
    """How far pins that should be level with one another are not, as an angle of the crank."""
    from gudgeon.mechanics.runout import phase_error

    level = [(item, read) for item in shaft.bench.items("throw") if (read := shaft.reader.size(d.HEIGHT_LEVEL, item))]
    if len(level) < 2:
        return ()
    first, zero = level[0]
    stroke = shaft.bench.snapshot.outline.stroke
    result: list[Finding] = []
    for item, read in level[1:]:
        own = shaft.throw(item)
        throw = own[0] if own is not None else np.full(shaft.bench.count, (stroke or 0.1) / 2.0)
        draws = np.degrees(np.abs(np.asarray(phase_error(height=read.draws, level_height=zero.draws, throw=throw))))
        said = Said(f"{item} stands {float(np.median(draws)):.2f} degree out of level with {first}.")
        blank = shaft.blank(item, PHASE, part="throw", dimension="angle degree")
        limit = Limit(size=0.5, most=True, origin=Origin("F", "from memory", "half a degree of crank"), decides=False)
        formula = "asin of the difference of heights over the throw"
        result += judged(
            replace(blank, sentence=said, inputs=(*zero.inputs, *read.inputs), formula=formula),
            draws,
            Practice(limits=(limit,)),
        )
    return tuple(result)


def _flywheel(shaft: Shaft) -> tuple[Finding, ...]:
    return (*_seat(shaft), *_rim(shaft))


def _seat(shaft: Shaft) -> tuple[Finding, ...]:
    blank = shaft.blank(d.SHAFT, SEAT_FIT)
    seat, hub = shaft.reader.size(d.SEAT, d.SHAFT), shaft.reader.size(d.HUB, d.SHAFT)
    limit = Limit(size=0.0015 * INCH, most=True,
                  origin=Origin("F", "common practice", "a hub on a gib key rocks with more and works loose"))  # fmt: skip
    practised = Practice(limits=(limit,))
    if seat is None or hub is None:
        settle = "Read the flywheel's seat on the shaft and the bore of its hub, clear of the keyway."
        return (not_measured(blank, settle=settle, practised=practised),)
    draws = hub.draws - seat.draws
    median = float(np.median(draws))
    said = (
        Said("The flywheel's hub is {0} loose on its seat.", (_length(median),))
        if median > 0
        else Said("The flywheel's hub is {0} tight on its seat.", (_length(-median),))
    )
    formula = "bore of the hub less seat"
    return judged(replace(blank, sentence=said, inputs=(*seat.inputs, *hub.inputs), formula=formula), draws, practised)


def _rim(shaft: Shaft) -> tuple[Finding, ...]:
    blank, read = shaft.blank(d.SHAFT, d.WHEEL_RUN_OUT.name), shaft.reader.size(d.WHEEL_RUN_OUT, d.SHAFT)
    practised = practice(
        "flywheel run-out", size=_rim_radius(shaft), slow=slow_engine(shaft.bench.snapshot.outline.rated_speed)
    )
    if read is None:
        settle = "Turn the flywheel past a pointer and read how far its rim runs out: a bent crank shows there first."
        return (not_measured(blank, settle=settle, practised=practised),)
    said = Said("The flywheel's rim runs out {0}.", (_length(read.value),))
    return judged(replace(blank, sentence=said, inputs=read.inputs, formula="as read"), read.draws, practised)


def _rim_radius(shaft: Shaft) -> float:
    """Radius of the flywheel from the outline ("26 in, gib key"); a foot where it does not say [m]."""
    import re

    found = re.search(r"(\d+(?:\.\d+)?)\s*(?:in\b|\")", shaft.bench.snapshot.outline.flywheel)
    return 0.5 * float(found[1]) * INCH if found else 12.0 * INCH
