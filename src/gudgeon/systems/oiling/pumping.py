"""The oil pump: what it sweeps, what it delivers, what slips back, against what drips alone would need."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.handbook.rules import rules
from gudgeon.mechanics import pumps
from gudgeon.quantity import Amount, Said
from gudgeon.quantity.units import to_si
from gudgeon.systems.bearing_duty import Duty
from gudgeon.systems.judging import Limit, Practice, joined, judged, middle, not_measured
from gudgeon.systems.kit import Kit, Read
from gudgeon.systems.measured import Draws
from gudgeon.systems.oiling import description as d

SLIP, MINUTE, PLAY = "slips back, of what it sweeps", "delivered in a minute", "plunger in its barrel"
PRESSURE = (to_si(5.0, "psi"), to_si(20.0, "psi"))
"""Pressure that a pump works against where it was not read: Kean (1915) has 5 to 40, 10 common; troughs less."""
HOT = 65.0
"""Temperature of the oil in the pump [degree C]; from memory."""
DROP = (30e-9, 60e-9)
"""Volume of a drop of engine oil [m3]; from memory, twenty to thirty to the cubic centimetre."""
Kind = Literal["gear", "plunger", "unknown"]


@dataclass(frozen=True, kw_only=True)
class Sweep:
    """Volume that a pump moves in one turn or stroke, and what slips back in that time [m3]; None where it cannot be told."""

    volume: Draws
    slip: Draws | None
    inputs: tuple[str, ...]


def kind(kit: Kit, item: str) -> Kind:
    """Gear or plunger, as noted, else by what was read of it."""
    words = kit.words(d.KIND, item).lower()
    for name, feature in (("gear", d.GEAR_OUTSIDE), ("plunger", d.PLUNGER)):
        if name in words or kit.size(feature, item) is not None:
            return "gear" if name == "gear" else "plunger"
    return "unknown"


def sweep(
    kit: Kit, item: str, *, tip: Draws | None = None, side: Draws | None = None, gap: Draws | None = None
) -> Sweep | None:
    """What a pump moves; other clearances than those read may be given."""
    return _gears(kit, item, tip, side) if kind(kit, item) == "gear" else _plunger(kit, item, gap)


def _turn(kit: Kit, item: str) -> float | None:
    """Time of one turn or stroke of the pump at rated speed [s]."""
    ratio, rated = kit.size(d.RATIO, item), kit.bench.snapshot.outline.rated_speed
    return None if ratio is None or not rated or ratio.value <= 0 else 60.0 / (ratio.value * rated)


def _viscosity(kit: Kit) -> float:
    return Duty(bench=kit.bench, reader=kit.reader).viscosity(HOT)


def _pressure(kit: Kit, item: str) -> Draws:
    read = kit.size(d.PRESSURE, item)
    return np.maximum(read.draws, 1.0) if read is not None else kit.reader.even("pressure of the oil pump", *PRESSURE)


def _gears(kit: Kit, item: str, tip: Draws | None, side: Draws | None) -> Sweep | None:
    sizes = [kit.size(feature, item) for feature in (d.GEAR_OUTSIDE, d.GEAR_CENTRES, d.GEAR_WIDTH)]
    if any(size is None for size in sizes):
        return None
    outside, centres, width = (size.draws for size in sizes if size is not None)
    inputs = tuple(identity for size in sizes if size is not None for identity in size.inputs)
    volume = np.asarray(pumps.gear_displacement(outside=outside, centres=centres, width=width))
    gaps, turn = (_draws(kit, d.TIP_GAP, item, tip), _draws(kit, d.SIDE_GAP, item, side)), _turn(kit, item)
    if gaps[0] is None or gaps[1] is None or turn is None:
        return Sweep(volume=volume, slip=None, inputs=inputs)
    teeth = kit.size(d.TEETH, item)
    land = 0.3 * outside / ((teeth.value if teeth is not None else 10.0) + 2.0)
    flow = pumps.gear_slip(
        pressure=_pressure(kit, item),
        viscosity=_viscosity(kit),
        tip_gap=gaps[0],
        side_gap=gaps[1],
        outside=outside,
        centres=centres,
        width=width,
        tooth_tip=land,
    )
    return Sweep(volume=volume, slip=np.asarray(flow) * turn, inputs=inputs)


def _draws(kit: Kit, feature: object, item: str, given: Draws | None) -> Draws | None:
    if given is not None:
        return given
    read = kit.reader.largest(feature, item)  # type: ignore[arg-type]
    return None if read is None else np.maximum(read.draws, 0.0)


def play(kit: Kit, item: str) -> Read | None:
    """Clearance of plunger in barrel, on the diameter [m], worst."""
    barrel, plunger = kit.reader.largest(d.BARREL, item), kit.reader.smallest(d.PLUNGER, item)
    return None if barrel is None or plunger is None else (barrel.draws - plunger.draws, (*barrel.inputs, *plunger.inputs))


def _plunger(kit: Kit, item: str, gap: Draws | None) -> Sweep | None:
    plunger, stroke = kit.size(d.PLUNGER, item), kit.size(d.STROKE, item)
    if plunger is None or stroke is None:
        return None
    volume = np.asarray(pumps.plunger_displacement(diameter=plunger.draws, stroke=stroke.draws))
    found, turn = play(kit, item), _turn(kit, item)
    clearance = gap if gap is not None else found[0] if found is not None else None
    if clearance is None or turn is None:
        return Sweep(volume=volume, slip=None, inputs=(*plunger.inputs, *stroke.inputs))
    flow = pumps.annular_leak(
        pressure=_pressure(kit, item),
        gap=np.maximum(clearance, 0.0) / 2,
        diameter=plunger.draws,
        length=plunger.draws * kit.reader.even("length of plunger in its barrel", 1.0, 3.0),
        viscosity=_viscosity(kit),
        off_centre=kit.reader.even("plunger off centre", 0.0, 1.0),
    )
    return Sweep(volume=volume, slip=0.5 * np.asarray(flow) * turn, inputs=(*plunger.inputs, *stroke.inputs))


def needed(kit: Kit) -> float:
    """Oil that drips alone would give in a minute [m3]: Whitman's most drops to each cylinder and his to each bearing."""
    outline = kit.bench.snapshot.outline
    cylinders = outline.cylinders or 1
    bearings = cylinders + (outline.main_bearings or cylinders + 1)
    most = rules("cylinder drip")[0].high or 0.0
    each = rules("bearing drip")[0].high or 0.0
    return 60.0 * DROP[1] * (cylinders * most + bearings * each)


def need_rules(kit: Kit) -> Practice:
    """The least that a pump must deliver in a minute: what the drips of 1909 would have given."""
    origin = Origin(
        "E", "Whitman, Motor-Car Principles (1909), lubrication table", "drops to every cylinder and bearing, drop from memory"
    )
    return Practice(limits=(Limit(size=needed(kit), most=False, origin=origin),))


def minute(kit: Kit, item: str, state: Sweep | None = None) -> Read | None:
    """Oil delivered in a minute at rated speed [m3]: as measured in 100 turns, else swept less slip."""
    turn, read = _turn(kit, item), kit.size(d.DELIVERED, item)
    if turn is None:
        return None
    if state is None and read is not None:
        return np.asarray(read.draws / 100.0 * 60.0 / turn), read.inputs
    known = state or sweep(kit, item)
    if known is None or known.slip is None:
        return None
    return np.maximum(known.volume - known.slip, 0.0) * 60.0 / turn, known.inputs


def pump_findings(kit: Kit, item: str) -> tuple[Finding, ...]:
    """All findings on one oil pump."""
    found: list[Finding] = []
    which = kind(kit, item)
    if which == "gear":
        for feature, text in (
            (d.TIP_GAP, "The gears' tips clear the body by {0}."),
            (d.SIDE_GAP, "The gears clear the cover by {0}."),
        ):
            found += kit.as_read(
                feature, item, text=text, settle=f"Read the {feature.title.lower()}.", practised=kit.rules(feature.name)
            )
    elif which == "plunger":
        found += _play(kit, item)
    else:
        line = kit.blank(d.PUMP, item, d.KIND.name, "words")
        found.append(not_measured(line, settle="Say what kind of pump it is: gear, plunger, vane."))
    settle = "Blow through its check valves each way and hold oil on them: write what they do."
    found += [*_slip(kit, item), *_minute(kit, item), *kit.noted(d.VALVES, item, settle=settle if which == "plunger" else "")]
    if kit.size(d.PRESSURE, item) is not None:
        found += kit.as_read(d.PRESSURE, item, text="It holds {0} hot.", settle="", practised=kit.rules("oil pressure"))
    return (*found, *kit.noted(d.PUMP_STATE, item))


def _play(kit: Kit, item: str) -> tuple[Finding, ...]:
    line, read = kit.blank(d.PUMP, item, PLAY), play(kit, item)
    practised = kit.rules("oil pump plunger clearance")
    if read is None:
        return (not_measured(line, settle="Read the plunger and its barrel, where they rub.", practised=practised),)
    said = Said("The plunger has {0} in its barrel.", (Amount(middle(read[0]), "length"),))
    return judged(replace(line, sentence=said, inputs=read[1], formula="barrel − plunger"), read[0], practised)


def _slip(kit: Kit, item: str) -> tuple[Finding, ...]:
    line, state, read = kit.blank(d.PUMP, item, SLIP, "percent"), sweep(kit, item), kit.size(d.DELIVERED, item)
    if state is None or (state.slip is None and read is None):
        settle = "Read its gears or plunger with their clearances, and its turns for one of the crank; or measure 100 turns."
        return (not_measured(line, settle=settle),)
    if read is not None:
        share = np.asarray(1.0 - read.draws / 100.0 / state.volume)
        how, inputs = "1 − delivered in 100 turns / (100 × swept)", (*read.inputs, *state.inputs)
        words = "as measured"
    else:
        assert state.slip is not None
        share = np.minimum(np.asarray(state.slip / state.volume), 1.0)
        how, inputs, words = (
            "laminar slots: dp w h³ / (12 μ L); White, Fluid Mechanics",
            state.inputs,
            "reckoned, within a factor of two",
        )
    said = Said(f"Of what it sweeps about {max(middle(share), 0.0):.0%} slips back, {words}.")
    if middle(share) < -0.05:
        said = Said("More was measured than it can sweep: count the turns again, or the sizes are wrong.")
    elif middle(share) > 0.5 and read is not None:
        said = joined(said, Said("Look for air at the suction, a check valve that leaks, or a worn pump, in this order."))
    return judged(replace(line, sentence=said, inputs=inputs, formula=how), share)


def _minute(kit: Kit, item: str) -> tuple[Finding, ...]:
    line, practised, read = kit.blank(d.PUMP, item, MINUTE, "volume"), need_rules(kit), minute(kit, item)
    if read is None:
        settle = "Measure what 100 turns deliver, and its turns for one of the crank."
        return (not_measured(line, settle=settle, practised=practised),)
    said = Said(
        "It delivers about {0} in a minute at rated speed; drips to every cylinder and bearing would be {1}. "
        "What splash wants beyond that nobody printed.",
        (Amount(middle(read[0]), "volume"), Amount(needed(kit), "volume")),
    )
    line = replace(line, sentence=said, inputs=read[1], formula="delivery of a turn × turns in a minute")
    return judged(line, read[0], practised)
