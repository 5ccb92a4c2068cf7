"""What the readings of pivots mean: wear of pin and bush, clearance against the use, what play does, load and wall."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.mechanics import pins as mechanics
from gudgeon.quantity import Amount, Said
from gudgeon.systems.judging import Limit, Practice, authorities_differ, joined, judged, known_rules, not_measured, origin_of
from gudgeon.systems.measured import Draws
from gudgeon.systems.pivots.joints import Joint, Pivots, blank, lost

CLEARANCE, PIN_WEAR, OVAL = "clearance in its bush", "pin wear", "bush oval"
PLAY, PRESSURE, SHEARS, CONDITION = "play at the end of its arm", "pressure on the bush", "torque that shears it", "condition"


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where no pivot was read or noted."""
    pivots = Pivots.of(bench)
    if "findings" not in pivots.worked_out:
        pivots.worked_out["findings"] = tuple(each for joint in pivots.joints for each in joint_findings(joint))
    return cast(tuple[Finding, ...], pivots.worked_out["findings"])


def joint_findings(joint: Joint) -> tuple[Finding, ...]:
    """All that the readings of one joint say."""
    if joint.use.name == "shear":
        return (*_shears(joint), *_condition(joint))
    return (*_clearance(joint), *_pin_wear(joint), *_oval(joint), *_play(joint), *_pressure(joint), *_condition(joint))


def _clearance(joint: Joint) -> tuple[Finding, ...]:
    read = joint.clearance
    if read is None:
        missing = "its pin where it rubs" if joint.thinnest is None else "the bore of its bush, along the pull and across it"
        return (not_measured(blank(joint, CLEARANCE), settle=f"Read {missing}, {joint.name}.", practised=joint.practised),)
    said = Said(
        f"{joint.name} has {{0}} in its bush at the worst; it counts among {joint.use.title}.", (Amount(read.value, "length"),)
    )
    if float((read.draws < 0).mean()) > 0.5:
        said = Said(f"{joint.name} reads larger than the bush it came out of: one of the readings is wrong.")
    fitted = joint.size("bush bore", stage="fitted"), joint.size("diameter", stage="fitted")
    line = replace(
        blank(joint, CLEARANCE),
        sentence=joined(said, authorities_differ(joint.practised)),
        inputs=read.inputs,
        formula="widest bore − thinnest pin, both at 20 degree C",
        as_fitted=fitted[0].value - fitted[1].value if fitted[0] and fitted[1] else None,
    )
    return judged(line, read.draws, joint.practised)


def pin_wear(joint: Joint) -> tuple[Draws, tuple[str, ...]] | None:
    """What the pin has lost where thinnest [m]: against its unworn ends, else against what it was when new."""
    read = joint.thinnest
    if read is None:
        return None
    if joint.unworn is not None and joint.unworn.estimates != read.estimates:
        return lost(read, joint.unworn.draws), (*joint.unworn.inputs, *read.inputs)
    original = joint.reader.original(joint.feature("diameter"), joint.pin)
    return None if original is None else (lost(read, original), read.inputs)


def _pin_wear(joint: Joint) -> tuple[Finding, ...]:
    found = pin_wear(joint)
    if found is None:
        return ()
    said = Said(f"{joint.name} has worn {{0}} where the bush rubs.", (Amount(float(np.median(found[0])), "length"),))
    if joint.unworn is None:
        said = joined(said, Said("Its unworn ends were not read, so this rests on its likely size when new."))
    line = replace(blank(joint, PIN_WEAR), sentence=said, inputs=found[1], formula="unworn ends − thinnest")
    return judged(line, found[0])


def _oval(joint: Joint) -> tuple[Finding, ...]:
    wide, narrow = joint.widest, joint.narrowest
    if wide is None or narrow is None or wide.estimates == narrow.estimates:
        return ()
    draws = wide.draws - narrow.draws
    said = Said(f"{joint.bush} is {{0}} wider one way than the other.", (Amount(float(np.median(draws)), "length"),))
    line = replace(
        blank(joint, OVAL, item=joint.bush), sentence=said, inputs=(*wide.inputs, *narrow.inputs), formula="widest − narrowest"
    )
    return judged(line, np.asarray(draws))


def _play(joint: Joint) -> tuple[Finding, ...]:
    """Play at the lever's end: the pin tilts over its bearing length, or rocks once over the arm."""
    arm, over, clearance = joint.size("arm"), joint.size("bearing length") or joint.size("bush length"), joint.clearance
    if arm is None or over is None or clearance is None:
        return ()
    draws = np.asarray(mechanics.lost_motion(clearance=clearance.draws, arm=arm.draws, pivot_arm=over.draws))
    said = Said(
        f"The slack of {joint.name} lets the end of its arm move {{0}} sideways, and {{1}} along the pull.",
        (Amount(float(np.median(draws)), "length"), Amount(clearance.value, "length")),
    )
    line = replace(
        blank(joint, PLAY),
        sentence=said,
        inputs=(*clearance.inputs, *arm.inputs, *over.inputs),
        formula="clearance × arm / length of its bearing; plane geometry",
    )
    return judged(line, draws)


def _pressure(joint: Joint) -> tuple[Finding, ...]:
    load, length, pin = joint.size("load"), joint.size("bush length"), joint.thinnest
    if load is None or length is None or pin is None:
        return ()
    draws = np.asarray(mechanics.bearing_pressure(force=np.abs(load.draws), diameter=pin.draws, length=length.draws))
    rows = [row for row in known_rules("bush pressure") if "C93200" in row.applies and row.high is not None]
    limits = tuple(
        Limit(size=row.high, most=True, origin=origin_of(row), decides=not row.from_memory)
        for row in rows
        if row.high is not None
    )
    said = Said(
        f"{joint.name} presses on its bush with {{0}} at its greatest load.", (Amount(float(np.median(draws)), "pressure"),)
    )
    line = replace(
        blank(joint, PRESSURE, "pressure"),
        sentence=said,
        inputs=(*load.inputs, *length.inputs, *pin.inputs),
        formula="load / (diameter × length); limits are a bronze supplier's, for bronze C93200",
    )
    return judged(line, draws, Practice(limits=limits))


def _shears(joint: Joint) -> tuple[Finding, ...]:
    shaft, pin = joint.size("driven shaft diameter"), joint.thinnest
    if shaft is None or pin is None:
        settle = f"Read {joint.name} and the shaft that it drives."
        return (not_measured(blank(joint, SHEARS, "torque"), settle=settle),)
    brass = "brass" in joint.words("material").lower()
    row = next(each for each in known_rules("shear strength of a pin") if ("brass" in each.applies) == brass)
    strength = joint.reader.even(f"shear strength of {joint.name}", row.low or 0.0, row.high or 0.0)
    draws = np.asarray(mechanics.cross_pin_torque(strength=strength, shaft=shaft.draws, pin=pin.draws))
    noted = "" if joint.words("material") else " Its material was not noted; soft steel is taken."
    said = Said(
        f"{joint.name} shears at about {{0}}; it must let go before what it drives breaks.{noted}",
        (Amount(float(np.median(draws)), "torque"),),
    )
    line = replace(
        blank(joint, SHEARS, "torque"),
        sentence=said,
        inputs=(*shaft.inputs, *pin.inputs),
        formula=f"strength × D × π d² / 4, two planes; {row.applies}, {row.authority}",
    )
    return judged(line, draws)


def cracked(joint: Joint) -> bool:
    """Was a crack noted?"""
    words = joint.words("condition").lower()
    return "crack" in words and not any(sign in words for sign in ("no crack", "not cracked", "none"))


def _condition(joint: Joint) -> tuple[Finding, ...]:
    words = joint.words("condition")
    if not words:
        return ()
    return (replace(blank(joint, CONDITION, "words"), sentence=Said(f"{joint.name}: {words}."), formula="as noted"),)
