"""The drive of the magneto and where the spark falls: ratio, impulse, running advance, play, gaps."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import numpy as np

from gudgeon.engine.finding import Finding, Standing
from gudgeon.engine.system import Feature
from gudgeon.mechanics import slider_crank, timing
from gudgeon.quantity import Amount, Said
from gudgeon.systems.engine_kind import engines_of, which_engines
from gudgeon.systems.ignition import description as d
from gudgeon.systems.judging import (
    Limit,
    Practice,
    authorities_differ,
    joined,
    judged,
    known_rules,
    middle,
    not_measured,
    origin_of,
)
from gudgeon.systems.kit import Kit, Read

RATIO, CRANKING, RUNNING, PLAY = "drive ratio", "spark while cranking", "spark when running", "coupling play at the crank"
ROD_OVER_STROKE = (2.0, 2.5)
"""Length of the rod over the stroke where it was not read; common practice."""
_DATUM = re.compile(r"\b([AB])[TB]DC\b")


def after_centre(kit: Kit, feature: Feature, item: str) -> Read | None:
    """An angle as after dead centre [rad of crank], negative before it, whichever way it was counted when it was read."""
    read = kit.size(feature, item)
    if read is None:
        return None
    readings = kit.bench.snapshot.readings_of(kit.reader.key(feature, item))
    texts = [text for each in readings for text in (each.understood.words, each.unit, each.typed)] + [feature.unit]
    found = next((match for text in texts if (match := _DATUM.search(text.upper()))), None)
    return (-read.draws if found is not None and found[1] == "B" else read.draws), read.inputs


def magneto(kit: Kit) -> str:
    """Name of the magneto."""
    names = kit.items(d.MAGNETO)
    return names[0] if names else "magneto"


def ratio_found(kit: Kit) -> tuple[float, tuple[str, ...], str] | None:
    """Turns of the magneto for one of the crank, readings, and how it is known: as counted, else by the teeth of the gears."""
    read = kit.size(d.RATIO, magneto(kit))
    if read is not None:
        return read.value, read.inputs, "as counted"
    teeth = {}
    for item in kit.items("gear"):
        name = item.lower()
        counted = kit.size(d.GEAR_TEETH, item)
        for word in ("crank", "magneto"):
            if word in name and "pair" not in name and counted is not None:
                teeth[word] = counted
    if len(teeth) < 2:
        return None
    pair = teeth["crank"].value, teeth["magneto"].value
    words = f"teeth of the gears, {pair[0]:.0f} to {pair[1]:.0f}; gears between them change nothing"
    return timing.train_ratio((pair,)), (*teeth["crank"].inputs, *teeth["magneto"].inputs), words


def ratio_wanted(kit: Kit) -> float | None:
    """Turns that the magneto must make for one of the crank; None where cylinders, strokes or its sparks are not known."""
    outline, sparks = kit.bench.snapshot.outline, kit.size(d.SPARKS, magneto(kit))
    if not outline.cylinders or not outline.strokes or sparks is None:
        return None
    return float(
        timing.magneto_ratio(cylinders=outline.cylinders, strokes=outline.strokes, sparks_per_turn=round(sparks.value))
    )


def ratio(kit: Kit) -> float:
    """The ratio to reckon with: as found, else as wanted, else one half, the slow drive of the time."""
    found = ratio_found(kit)
    return found[0] if found is not None else ratio_wanted(kit) or 0.5


def cranking(kit: Kit) -> Read | None:
    """Where the first spark falls while cranking, after inner dead centre [rad]: impulse trip, else full retard."""
    return after_centre(kit, d.TRIPS, magneto(kit)) or after_centre(kit, d.RETARDED, magneto(kit))


def running(kit: Kit) -> tuple[Read, str] | None:
    """Where the spark falls when running, before inner dead centre [rad], and how it is known."""
    read = after_centre(kit, d.RUNS, magneto(kit))
    if read is not None:
        return (-read[0], read[1]), "as read"
    trips, lag = after_centre(kit, d.TRIPS, magneto(kit)), kit.size(d.LAG, magneto(kit))
    if trips is None or lag is None:
        return None
    draws = np.asarray(timing.running_spark(trips_after=trips[0], lag=lag.draws, ratio=ratio(kit)))
    return (draws, (*trips[1], *lag.inputs)), "lag / ratio − trip; the coupling lets go as soon as it runs"


def advance_rules(kit: Kit) -> Practice:
    """What books of the time give for the advance, those for its kind of engine first; none decides."""
    engines, _ = which_engines(kit.bench.snapshot.outline)
    found = kit.rules("ignition advance").targets
    return Practice(targets=tuple(sorted(found, key=lambda target: engines_of(target.origin.page) != engines)))


def spark_findings(kit: Kit) -> tuple[Finding, ...]:
    """All findings on magneto and coupling."""
    item = magneto(kit)
    return (
        *_ratio(kit, item),
        *_cranking(kit, item),
        *_running(kit, item),
        *_agreement(kit, item),
        *_play(kit, item),
        *gap_findings(kit),
        *kit.noted(d.COUPLING, item, settle="Look at the coupling: cracked discs, worn lugs, a weak spring; write what it is."),
        *kit.noted(d.MAG_STATE, item, settle="Spin the magneto by hand: does it jump a quarter inch, does the armature rub?"),
    )


def _ratio(kit: Kit, item: str) -> tuple[Finding, ...]:
    line = kit.blank(d.MAGNETO, item, RATIO, "ratio")
    found, wanted = ratio_found(kit), ratio_wanted(kit)
    if found is None or wanted is None:
        missing = "how often its points open in one turn" if wanted is None else "its turns for ten turns of the crank"
        said = Said("")
        if wanted is not None:
            said = Said(f"The magneto must turn {wanted:g} times for one turn of the crank; its drive was not counted.")
        elif found is not None:
            said = Said(f"The magneto turns {found[0]:.3g} times for one of the crank; how often it sparks was not counted.")
        return (not_measured(replace(line, sentence=said), settle=f"Count {missing}."),)
    right = abs(found[0] / wanted - 1.0) < 0.005
    standing: Standing = "within" if right else "past"
    said = Said(f"The magneto turns {found[0]:.3g} times for one turn of the crank; it wants {wanted:.3g}.")
    if not right:
        said = joined(said, Said("It cannot stay in time: a gear, or the magneto, is of another engine."))
    formula = f"cylinders × 2 / strokes / sparks for one turn; Pagé 1917, ch. VI; {found[2]}"
    return (
        replace(
            line, value=found[0], low=found[0], high=found[0], target_low=wanted, target_high=wanted, standing=standing,
            sentence=said, inputs=found[1], formula=formula,
        ),
    )  # fmt: skip


def _cranking(kit: Kit, item: str) -> tuple[Finding, ...]:
    practised = kit.rules("impulse trips after centre")
    line, read = kit.blank(d.MAGNETO, item, CRANKING, "angle"), cranking(kit)
    if read is None:
        settle = "Plug out, turn slowly by hand and read on the rim where the impulse trips, or the points open at full retard."
        return (not_measured(line, settle=settle, practised=practised),)
    at = middle(read[0])
    where = "after" if at >= 0 else "before"
    said = Said(f"Turned by hand the spark falls {{0}} {where} dead centre.", (Amount(abs(at), "angle"),))
    if at < 0:
        said = joined(said, Said("Before dead centre it throws the crank back at whoever turns it: set it later."))
    elif at > math.radians(12):
        said = joined(said, Said("That late it starts safely and hardly fires; see that the advance is enough when it runs."))
    line = replace(
        line,
        sentence=said,
        inputs=read[1],
        formula="as read on the rim, from dead centre by stop",
        as_fitted=kit.fitted(d.TRIPS, item),
    )
    return judged(line, read[0], practised)


def _running(kit: Kit, item: str) -> tuple[Finding, ...]:
    practised = advance_rules(kit)
    line, found = kit.blank(d.MAGNETO, item, RUNNING, "angle"), running(kit)
    if found is None:
        settle = "Read the lag stamped on the impulse coupling and where it trips; or where the points open at full advance."
        return (not_measured(line, settle=settle, practised=practised),)
    (draws, inputs), how = found
    at = middle(draws)
    word = "before" if at >= 0 else "AFTER"
    said = joined(
        Said(f"When it runs the spark falls {{0}} {word} dead centre.", (Amount(abs(at), "angle"),)),
        rim_words(kit, at),
        authorities_differ(practised, "angle"),
        Said("The best spark is the one at which the governor asks for least, under a steady load."),
    )
    line = replace(line, sentence=said, inputs=inputs, formula=how)
    return judged(line, draws, practised)


def rim_words(kit: Kit, angle: float) -> Said:
    """An angle before dead centre as piston travel and as distance along the rim, as far as stroke and wheel are known."""
    found: list[Said] = []
    stroke = kit.bench.snapshot.outline.stroke
    if stroke:
        depth = float(slider_crank.piston_depth(angle=abs(angle), throw=stroke / 2, rod=rod_length(kit, stroke)))
        found.append(Said("The piston stands {0} from the end of its stroke there.", (Amount(depth, "length"),)))
    wheel = rim_diameter(kit)
    if wheel is not None:
        along = float(slider_crank.rim_distance(angle=abs(angle), diameter=wheel))
        found.append(Said("On the rim that is {0}.", (Amount(along, "length"),)))
    return joined(*found)


def rod_length(kit: Kit, stroke: float) -> float:
    """Length of the rods [m]: as read, else 2.25 strokes."""
    for item in kit.items("rod"):
        read = kit.size(d.ROD_LENGTH, item)
        if read is not None:
            return read.value
    return sum(ROD_OVER_STROKE) / 2 * stroke


def rim_diameter(kit: Kit) -> float | None:
    """Outside of the rim [m], under whichever cylinder it was written."""
    sizes = [read.value for item in kit.items(d.TIMING) if (read := kit.size(d.RIM, item)) is not None]
    return sizes[0] if sizes else None


def _agreement(kit: Kit, item: str) -> tuple[Finding, ...]:
    """Where trip, lag and running spark were all read: do they fit together?"""
    runs, trips, lag = after_centre(kit, d.RUNS, item), after_centre(kit, d.TRIPS, item), kit.size(d.LAG, item)
    if runs is None or trips is None or lag is None:
        return ()
    should = np.asarray(timing.running_spark(trips_after=trips[0], lag=lag.draws, ratio=ratio(kit)))
    draws = -runs[0] - should
    off = middle(draws)
    said = Said("Trip, lag and running spark agree.")
    if abs(off) > math.radians(4):
        said = Said(
            "By trip and lag the running spark should fall {0} from where it was read: one of the readings is wrong.",
            (Amount(abs(off), "angle"),),
        )
    line = kit.blank(d.MAGNETO, item, "running spark, read less reckoned", "angle")
    line = replace(line, sentence=said, inputs=(*runs[1], *trips[1], *lag.inputs), formula="read − (lag / ratio − trip)")
    return judged(line, draws)


def _play(kit: Kit, item: str) -> tuple[Finding, ...]:
    line, read = kit.blank(d.MAGNETO, item, PLAY, "angle"), kit.size(d.PLAY, item)
    if read is None:
        return (not_measured(line, settle="Hold the crank and rock the magneto shaft: read the angle it turns free."),)
    draws = np.asarray(timing.crank_of_magneto(angle=read.draws, ratio=ratio(kit)))
    said = Said(
        "Play of coupling and gears lets the spark wander by up to {0} of the crank. "
        "Worn igniter gears usually bring the spark early, slowly, and a broken crank can follow (Rathbun §87).",
        (Amount(middle(draws), "angle"),),
    )
    return judged(replace(line, sentence=said, inputs=read.inputs, formula="play / ratio"), draws)


def gap_rules(kit: Kit, subject: str) -> Practice:
    """What makers print for a gap. Each speaks of its own magneto: where the outline names the make, its limit decides,
    else only the widest figure that any of them prints, other than from memory."""
    outline = kit.bench.snapshot.outline
    named = set(re.findall(r"[A-Za-z]{3,}", f"{outline.magneto} {outline.ignition}"))
    rows = [row for row in known_rules(subject) if row.high is not None]
    own = [row for row in rows if named & {word for word in re.findall(r"[A-Za-z]{3,}", row.applies) if word[0].isupper()}]
    widest = max((row for row in rows if not row.from_memory), key=lambda row: row.high or 0.0, default=None)
    deciding = own or ([widest] if widest is not None else [])
    known = kit.rules(subject)
    limits = tuple(Limit(size=row.high or 0.0, most=True, origin=origin_of(row)) for row in deciding)
    decided = {limit.origin for limit in limits}
    others = tuple(replace(limit, decides=False) for limit in known.limits if limit.origin not in decided)
    return Practice(targets=known.targets, limits=(*limits, *others))


def gap_findings(kit: Kit) -> tuple[Finding, ...]:
    """Gaps of points, armature, latch, plugs and igniters, each against its rules."""
    item, found = magneto(kit), list[Finding]()
    found += kit.as_read(
        d.POINTS, item, text="The points open {0}; the make of the magneto decides which figure holds.",
        settle="Dress the points flat and read them fully open.", practised=gap_rules(kit, "contact point gap"),
    )  # fmt: skip
    for feature, text in (
        (d.AIR, "The armature clears its pole pieces by {0}."),
        (d.LATCH, "The latch overlaps its lip by {0}."),
    ):
        if kit.size(feature, item) is not None:
            found += kit.as_read(feature, item, text=text, settle="", practised=kit.rules(feature.name))
    for plug in kit.items(d.PLUG):
        found += kit.as_read(
            d.PLUG_GAP,
            plug,
            text=f"{plug} is set to {{0}}.",
            settle=f"Read the gap of {plug}.",
            practised=gap_rules(kit, "plug gap"),
        )
        found += kit.noted(d.PLUG_STATE, plug)
    for each in kit.items(d.IGNITER):
        found += kit.as_read(
            d.STRIKE, each, text=f"{each} has {{0}} from lever to pin at rest.",
            settle=f"Read the gap of {each} from lever to pin, at rest.", practised=kit.rules("igniter striking gap"),
        )  # fmt: skip
        if kit.size(d.SWING, each) is not None:
            found += kit.as_read(
                d.SWING, each, text=f"{each}: the armature swings {{0}}.", settle="", practised=kit.rules("magneto swing")
            )
        found += kit.noted(d.IGNITER_STATE, each)
    return tuple(found)
