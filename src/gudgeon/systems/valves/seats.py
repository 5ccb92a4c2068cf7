"""Face and seat: angles, width and place of the seat, margin now and after refacing, sink, run-out, leaks."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.system import Feature
from gudgeon.mechanics.refacing import margin_after, sink
from gudgeon.quantity import Amount, Said
from gudgeon.systems.judging import Practice, authorities_differ, joined, judged, middle, not_measured, practice
from gudgeon.systems.measured import Draws
from gudgeon.systems.valves import description as d
from gudgeon.systems.valves.valve_set import ValveSet, blank

FACE_ANGLE, SEAT_ANGLE, PLACE = "face angle", "seat angle", "blue ring from edge of face"
WIDTH, MARGIN, MARGIN_AFTER = "seat width", "margin", "margin after refacing"
SINK, POCKET, FACE_RUNOUT, SEAT_RUNOUT = "sink by refacing and recutting", "pocket depth", "face run-out", "seat run-out"
LEAK = "leak test"

FACE_CUT = (0.002 * d.INCH, 0.006 * d.INCH)
"""Metal that a refacer takes square off a face to true it all round, beyond its deepest pit [m]; from memory."""
SEAT_CUT = (0.002 * d.INCH, 0.008 * d.INCH)
"""The same off a seat [m]; from memory."""


def seat_findings(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    """All that face and seat of one valve say."""
    return (
        *_angles(item, valves),
        *_plain_size(item, d.SEAT_WIDTH, WIDTH, valves, "the seat is {0} wide", authorities=True),
        *_place(item, valves),
        *_plain_size(item, d.MARGIN, MARGIN, valves, "the edge above the face is {0} thick", subject="valve margin"),
        *_margin_after(item, valves),
        *_plain_size(item, d.POCKET, POCKET, valves, "the head lies {0} below the edge of its pocket", subject=""),
        *_sink(item, valves),
        *_plain_size(item, d.FACE_RUNOUT, FACE_RUNOUT, valves, "the face runs out {0}", subject="valve face run-out"),
        *_plain_size(
            item, d.SEAT_RUNOUT, SEAT_RUNOUT, valves, "the seat runs out {0} on the guide", subject="valve seat run-out"
        ),
        *_leak(item, valves),
    )


def seat_rules(quantity: str, item: str, valves: ValveSet) -> Practice:
    """What authorities say of a quantity of face and seat."""
    subject = {
        WIDTH: "valve seat width",
        MARGIN: "valve margin",
        MARGIN_AFTER: "valve margin",
        FACE_RUNOUT: "valve face run-out",
        SEAT_RUNOUT: "valve seat run-out",
    }.get(quantity, "")
    return valves.rules(subject, item=item) if subject else Practice()


def _plain_size(
    item: str,
    feature: Feature,
    quantity: str,
    valves: ValveSet,
    words: str,
    *,
    subject: str = "as the quantity",
    authorities: bool = False,
) -> tuple[Finding, ...]:
    practised = seat_rules(quantity, item, valves)
    read = valves.size(feature, item)
    if read is None:
        if not subject:
            return ()
        settle = f"Read {feature.title.lower()} of {item}."
        return (not_measured(blank(item, quantity), settle=settle, practised=practised),)
    said = Said(f"{item}: {words}.", (Amount(middle(read.draws), "length"),))
    if authorities:
        said = joined(said, authorities_differ(practised))
    line = replace(blank(item, quantity), sentence=said, inputs=read.inputs, formula="as read")
    return judged(line, read.draws, practised)


def _angles(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    found: list[Finding] = []
    sizes = {}
    for quantity, feature in ((FACE_ANGLE, d.FACE_ANGLE), (SEAT_ANGLE, d.SEAT_ANGLE)):
        practised = practice("valve seat angle", size=valves.stem_size(item), slow=valves.slow)
        read = sizes[quantity] = valves.size(feature, item)
        line = blank(item, quantity, dimension="angle")
        if read is None:
            found.append(not_measured(line, settle=f"Read the {quantity} of {item} with a protractor.", practised=practised))
            continue
        said = Said(f"{item}: {quantity} {{0}}.", (Amount(read.value, "angle"),))
        face = sizes.get(FACE_ANGLE)
        if quantity == SEAT_ANGLE and face is not None:
            said = joined(said, _interference(middle(read.draws - face.draws)))
        line = replace(line, sentence=said, inputs=read.inputs, formula="from square across the stem, as read")
        found += judged(line, read.draws, Practice(targets=practised.targets))
    return tuple(found)


def _interference(difference: float) -> Said:
    """Seat less face [rad]: half a degree to one is how later shops cut them, so that they meet at one edge first."""
    if abs(np.degrees(difference)) < 0.4:
        return Said("Face and seat are cut alike: lap them together until the ring is grey all round.")
    side = "outer" if difference < 0 else "inner"
    return Said(
        f"Face and seat differ by {abs(np.degrees(difference)):.1f}°: they meet at the {side} edge first. "
        "TM 5-4310-276-14 cuts them a degree apart on purpose; the books of the time cut them alike."
    )


def _place(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    read = valves.size(d.SEAT_PLACE, item)
    if read is None:
        return (not_measured(blank(item, PLACE), settle=f"Blue the seat of {item} and read where the ring lies on the face."),)
    said = Said(f"{item}: the seat bears {{0}} in from the edge of the face.", (Amount(read.value, "length"),))
    if read.value < 0.010 * d.INCH:
        said = joined(said, Said("That is at the very edge: narrow the seat from above or it will burn there."))
    return judged(replace(blank(item, PLACE), sentence=said, inputs=read.inputs, formula="as blued"), read.draws)


def face_ground(item: str, valves: ValveSet) -> tuple[Draws, tuple[str, ...], bool]:
    """What must be taken square off the face [m]: its deepest pit and a truing cut; the readings; were pits read?"""
    return _ground(item, d.FACE_PITS, FACE_CUT, "truing cut on the face", valves)


def seat_cut(item: str, valves: ValveSet) -> tuple[Draws, tuple[str, ...], bool]:
    """What must be taken square off the seat [m], likewise."""
    return _ground(item, d.SEAT_PITS, SEAT_CUT, "truing cut on the seat", valves)


def _ground(
    item: str, pits: Feature, cut: tuple[float, float], name: str, valves: ValveSet
) -> tuple[Draws, tuple[str, ...], bool]:
    deepest = valves.reader.largest(pits, item)
    taken = valves.reader.even(f"{name} of {item}", *cut)
    if deepest is None:
        return taken, (), False
    return taken + np.maximum(deepest.draws, 0.0), deepest.inputs, True


def refaced_margin(item: str, valves: ValveSet) -> tuple[Draws, tuple[str, ...]] | None:
    """Margin left after refacing [m]; None where the margin was not read."""
    margin = valves.size(d.MARGIN, item)
    if margin is None:
        return None
    ground, inputs, _ = face_ground(item, valves)
    angle, read, _ = valves.angle(item)
    left = np.asarray(margin_after(margin=margin.draws, ground=ground, angle=angle))
    return left, (*margin.inputs, *inputs, *read)


def _margin_after(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    practised = seat_rules(MARGIN_AFTER, item, valves)
    left = refaced_margin(item, valves)
    if left is None:
        return (not_measured(blank(item, MARGIN_AFTER), settle=f"Read the margin of {item}.", practised=practised),)
    least = middle(left[0])
    said = Said(f"Refaced, {item} would keep a margin of {{0}}.", (Amount(least, "length"),))
    if least <= 0:
        said = Said(f"{item} cannot be refaced: its edge would be a knife, and a knife edge glows and fires the charge.")
    settle = "" if face_ground(item, valves)[2] else f"Read how deep the pits in the face of {item} are."
    if settle:
        said = joined(said, Said("Its pits were not read; this is for a clean face."))
    if not valves.angle(item)[2]:
        said = joined(said, Said("Its angle was not read and is taken as 45°."))
    line = replace(
        blank(item, MARGIN_AFTER),
        sentence=said,
        inputs=left[1],
        settle=settle,
        formula="margin − (deepest pit + truing cut) / cos angle; plane geometry, cut of .002 to .006 in from memory",
    )
    return judged(line, left[0], practised)


def sink_of(item: str, valves: ValveSet) -> tuple[Draws, tuple[str, ...]]:
    """How far the valve goes down when face and seat are trued [m]; the lash closes by as much."""
    ground, cut = face_ground(item, valves), seat_cut(item, valves)
    angle, read, _ = valves.angle(item)
    draws = np.asarray(sink(face_ground=ground[0], seat_cut=cut[0], angle=angle))
    return draws, (*ground[1], *cut[1], *read)


def _sink(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    if valves.size(d.FACE_PITS, item) is None and valves.size(d.SEAT_PITS, item) is None:
        settle = f"Read the depth of pits in face and seat of {item}."
        return (not_measured(blank(item, SINK), settle=settle),)
    draws, inputs = sink_of(item, valves)
    said = Said(
        f"Trued, {item} goes down {{0}}; its lash closes by as much and its spring stands that much longer.",
        (Amount(middle(draws), "length"),),
    )
    line = replace(
        blank(item, SINK), sentence=said, inputs=inputs, formula="(face ground + seat cut) / cos angle; plane geometry"
    )
    return judged(line, draws)


def _leak(item: str, valves: ValveSet) -> tuple[Finding, ...]:
    words, inputs = valves.reader.words(d.LEAK, item)
    line = blank(item, LEAK, dimension="words")
    if not words:
        return (not_measured(line, settle=f"Pour kerosene on {item} with its spring fitted, and see whether it weeps."),)
    return (replace(line, sentence=Said(f"{item}, leak test: {words}."), inputs=inputs, formula="as noted"),)
