"""What the teeth carry: torque as read, or as likely; bending stress by Lewis with Barth's factor, contact pressure by AGMA."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.handbook.materials import material
from gudgeon.handbook.rules import RuleRow
from gudgeon.handbook.shelf import UnknownName
from gudgeon.mechanics import gear_strength as strength
from gudgeon.metrology.gear_readings import GearFound
from gudgeon.quantity import Amount, Said
from gudgeon.systems.gears import description as d
from gudgeon.systems.gears.train import RunningSet, blank
from gudgeon.systems.judging import Limit, Practice, joined, judged, known_rules, not_measured, origin_of
from gudgeon.systems.measured import Draws

BENDING, PRESSURE = "bending stress of a tooth", "contact pressure of the teeth"
LBF_INCH = 4.4482216152605 * d.INCH
# Torque at the smaller gear that a drive likely asks for where nobody read it: two cams lifting at once against 40 lb springs,
# .35 in of lift a radian, halved by the gears; a magneto's drag; a small pump. Median and the factor that covers nine in ten.
LIKELY_TORQUE = {
    "cam": (14.0 * LBF_INCH, 3.0),
    "magneto": (6.0 * LBF_INCH, 3.0),
    "pump": (5.0 * LBF_INCH, 3.0),
    "": (14.0 * LBF_INCH, 4.0),
}
"""Common practice, from memory: wide, so that it decides nothing."""
_MATERIALS = {"cast iron": "grey cast iron", "fibre": "", "fiber": "", "bronze": "bronze", "steel": "steel 1020"}
_ROWS = {"cast iron": "cast iron", "fibre": "fibre", "fiber": "fibre", "bronze": "bronze", "steel": ".20 carbon"}
SPREAD = (1.2, 1.8)
"""AGMA's load distribution factor for home-fitted shafts, even between (from memory)."""
QUALITY = 5.0


@dataclass(frozen=True, kw_only=True)
class Load:
    """Torque at the smaller gear [N m], whether it was read, and the readings."""

    torque: Draws
    read: bool
    inputs: tuple[str, ...]


def load_of(one: RunningSet) -> Load:
    """The torque that a set carries, at its smaller gear."""
    for place, gear in enumerate(one.gears):
        read = one.reader.largest(d.TORQUE, gear.item)
        if read is not None:
            ratio = 1.0 if place == 0 else one.counts[0] / one.counts[1]
            return Load(torque=np.abs(read.draws) * ratio, read=True, inputs=read.inputs)
    words = " ".join(one.items).lower()
    name = next((kind for kind in LIKELY_TORQUE if kind and kind in words), "")
    middle, factor = LIKELY_TORQUE[name]
    draws = middle * np.exp(np.log(factor) / 1.645 * one.bench.named(f"torque carried by {one.name}"))
    return Load(torque=np.asarray(draws), read=False, inputs=())


def speed_of(one: RunningSet) -> float | None:
    """Speed of the smaller gear [rev/min]: the crank's rated speed, or that of the gear it drives; None where unknown."""
    rated = one.bench.snapshot.outline.rated_speed
    if rated is None:
        return None
    named = [place for place, item in enumerate(one.items) if "crank" in item.lower()]
    if named:
        return rated * (one.counts[named[0]] / one.counts[0])
    return rated / 2 if "cam" in one.items[0].lower() else rated


def material_words(one: RunningSet, item: str) -> tuple[str, bool]:
    """The kind of material that a gear is of, and whether it was noted; cast iron is taken where it was not."""
    words, _ = one.reader.words(d.MATERIAL, item)
    found = next((name for name in _ROWS if name in words.lower()), "")
    return (found, True) if found else ("cast iron", False)


def stress_practice(one: RunningSet, gear: GearFound, *, decides: bool) -> Practice:
    """The stress that a gear's material may bear, from the table of a maker of gears."""
    word = _ROWS[material_words(one, gear.item)[0]]
    rows: list[RuleRow] = [row for row in known_rules("gear tooth bending stress") if word in row.applies]
    limits = tuple(
        Limit(size=row.high, most=True, origin=origin_of(row), decides=decides) for row in rows[:1] if row.high is not None
    )
    return Practice(limits=limits)


def bending_draws(one: RunningSet, gear: GearFound, load: Load) -> Draws | None:
    """Bending stress at the root of a gear's thinnest tooth [Pa]; None where the face was not read."""
    if one.face is None:
        return None
    place = one.gears.index(gear)
    teeth = one.teeth(place)
    module = np.asarray(teeth.module)
    diameter = gear.count * module
    torque = load.torque * (gear.count / one.counts[0])
    speed = speed_of(one)
    turns = 0.0 if speed is None else speed * one.counts[0] / gear.count
    velocity = strength.pitch_line_speed(diameter=diameter, speed=turns)
    form: strength.Form = (
        "20 stub" if one.likeliest.form.addendum < 0.9 else "20 full depth" if one.likeliest.angle > 17 else "14.5 full depth"
    )
    chipped = one.reader.largest(d.CHIPPED, gear.item)
    share = 1.0 if chipped is None else 1.0 - np.clip(chipped.draws, 0.0, 0.9)
    stress = np.asarray(
        strength.lewis_stress(
            force=strength.tangential_force(torque=torque, diameter=diameter),
            face=one.face.draws * share,
            module=module,
            factor=strength.lewis_factor(teeth=max(gear.count, 12), form=form),
            velocity_factor=strength.barth_factor(velocity=velocity, made="cut"),
        )
    )
    worn = one.worn(gear)
    if worn is None:
        return stress
    factor = strength.thinned_stress_factor(
        thickness=teeth.thickness, thinned=np.clip(worn.worst, 0.0, 0.7 * np.asarray(teeth.thickness))
    )
    return np.asarray(stress * factor)


def load_findings(one: RunningSet) -> tuple[Finding, ...]:
    """Bending stress of each gear, and the contact pressure of the set."""
    load = load_of(one)
    found: list[Finding] = []
    for gear in one.gears:
        found += _bending(one, gear, load)
    if len(one.gears) == 2:
        found += _pressure(one, load)
    return tuple(found)


def _torque_said(one: RunningSet, load: Load) -> Said:
    amount = Amount(float(np.median(load.torque)), "torque")
    if load.read:
        return Said(f"At the {{0}} that {one.items[0]} was read to carry", (amount,))
    return Said("At {0} or so, which is what such a drive usually takes and was not read here", (amount,))


def _bending(one: RunningSet, gear: GearFound, load: Load) -> tuple[Finding, ...]:
    draws = bending_draws(one, gear, load)
    practised = stress_practice(one, gear, decides=load.read)
    line = blank(gear.item, BENDING, "stress")
    if draws is None:
        settle = f"Read the width of face of {' and '.join(one.items)}."
        return (not_measured(line, settle=settle, practised=practised),)
    name, noted = material_words(one, gear.item)
    said = joined(
        Said(
            f"{_torque_said(one, load).text} a tooth of {gear.item} bends at {{1}}.",
            (*_torque_said(one, load).amounts, Amount(float(np.median(draws)), "stress")),
        ),
        Said("" if noted else f"Its material was not noted; {name} is taken."),
        Said("" if speed_of(one) is not None else "The speed is not known, so nothing is added for it."),
    )
    settle = "" if load.read else f"Turn {one.items[-1]} with a spring balance on an arm, all springs fitted."
    line = replace(
        line,
        sentence=said,
        inputs=(*load.inputs, *(one.face.inputs if one.face else ())),
        formula="Kv W / (F m Y), Lewis 1892 with Barth's factor; times (s / (s − worn))² for the thinned tooth",
        settle=settle,
    )
    return judged(line, draws, practised)


def _pressure(one: RunningSet, load: Load) -> tuple[Finding, ...]:
    if one.face is None:
        return ()
    metals = [_MATERIALS[material_words(one, item)[0]] for item in one.items]
    if not all(metals):
        return ()
    try:
        first, mate = (material(name) for name in metals)
    except UnknownName:
        return ()
    teeth = one.teeth()
    diameter = one.counts[0] * np.asarray(teeth.module)
    elastic = strength.elastic_coefficient(
        modulus=first.modulus, poisson=first.poisson, mate_modulus=mate.modulus, mate_poisson=mate.poisson
    )
    velocity = strength.pitch_line_speed(diameter=diameter, speed=speed_of(one) or 0.0)
    draws = np.asarray(
        strength.contact_stress(
            force=strength.tangential_force(torque=load.torque, diameter=diameter),
            face=one.face.draws,
            pinion_diameter=diameter,
            geometry=strength.contact_geometry(angle=teeth.angle, ratio=one.counts[1] / one.counts[0]),
            elastic=elastic,
            dynamic=strength.dynamic_factor(velocity=velocity, quality=QUALITY),
            spread=one.reader.even(f"spread of load over the face, {one.name}", *SPREAD),
        )
    )
    torque = _torque_said(one, load)
    said = Said(
        f"{torque.text} the flanks of {one.name} press on each other with {{1}}.",
        (*torque.amounts, Amount(float(np.median(draws)), "stress")),
    )
    line = replace(
        blank(one.name, PRESSURE, "stress"),
        sentence=said,
        inputs=(*load.inputs, *one.face.inputs),
        formula="Cp √(W Kv Km / (d F I)), AGMA as in Shigley 14-16; teeth as cut",
    )
    return judged(line, draws)
