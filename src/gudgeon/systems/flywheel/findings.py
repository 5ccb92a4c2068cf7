"""What flywheel, clutch and pulley mean: rim speed and stress, hub and key, run-out, steadiness, slip."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.engine.system import Feature
from gudgeon.handbook.materials import material
from gudgeon.handbook.rules import rules
from gudgeon.mechanics import flywheels, friction, keys
from gudgeon.quantity import Amount, Said
from gudgeon.systems.drafting import the
from gudgeon.systems.flywheel import description as d
from gudgeon.systems.flywheel.wheel_set import RPM, WheelSet, blank
from gudgeon.systems.judging import (
    Limit,
    Practice,
    Target,
    authorities_differ,
    joined,
    judged,
    middle,
    not_measured,
    origin_of,
    practice,
)
from gudgeon.systems.measured import Draws

RIM, STRESS, HUB_FIT, KEY_SLACK, SHEAR, CRUSH = (
    "rim speed",
    "rim stress",
    "hub on its shaft",
    "slack of the key",
    "shear of the key",
    "crushing of the key",
)
FACE, ROUND, RUN_UP, STEADY = "face run-out", "rim run-out", "run-up time", "unsteadiness within a turn"
CARRIES, MARGIN, LINING = "torque that the clutch carries", "clutch over engine", "lining over rivets"
HAMMERS = Limit(
    size=0.002 * d.INCH,
    most=True,
    origin=Origin("E", "common practice", "a key is fitted to bear; past two thou it hammers loose"),
)
SITS = Limit(size=0.002 * d.INCH, most=True, origin=Origin("E", "common practice", "a hub with more room rocks on its key"))
SLIPS = Limit(size=1.0, most=False, origin=Origin("E", "statics: a clutch that carries less than the engine gives slips"))
TOUCHES = Limit(size=0.0, most=False, origin=Origin("E", "geometry: rivet heads rub on the iron"))


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where nothing of it was read or noted."""
    wheels = WheelSet.of(bench)
    if "findings" not in wheels.worked_out:
        found = [finding for item in wheels.wheels for finding in _wheel(item, wheels)]
        if wheels.wheels:
            found += _together(wheels)
        found += [finding for item in wheels.clutches for finding in _clutch(item, wheels)]
        found += [finding for item in wheels.pulleys for finding in _pulley(item, wheels)]
        wheels.worked_out["findings"] = tuple(found)
    return cast(tuple[Finding, ...], wheels.worked_out["findings"])


def _wheel(item: str, wheels: WheelSet) -> tuple[Finding, ...]:
    outside = wheels.reader.size(d.OUTSIDE, item)
    return (
        *_rim(item, wheels, d.WHEEL, None if outside is None else (outside.draws, outside.inputs)),
        *_hub(item, wheels),
        *_key(item, wheels),
        *_run_out(item, wheels, FACE, d.FACE_RUNOUT),
        *_run_out(item, wheels, ROUND, d.RIM_RUNOUT),
        *_sound(item, wheels, d.SOUND),
    )


# ---- rim


def rim_rules(wheels: WheelSet) -> Practice:
    """How fast a cast-iron rim may run."""
    return practice("flywheel rim speed", size=0.0, slow=wheels.slow)


def _rim(
    item: str, wheels: WheelSet, part: str, outside: tuple[Draws, tuple[str, ...]] | None, ratio: Draws | float = 1.0
) -> tuple[Finding, ...]:
    practised = rim_rules(wheels)
    line = blank(item, RIM, part=part, dimension="velocity")
    if outside is None or wheels.rated is None:
        settle = f"Read the outside diameter of {the(item)}." if outside is None else "Note the rated speed on the outline."
        return (not_measured(line, settle=settle, practised=practised),)
    draws = np.asarray(flywheels.rim_speed(diameter=outside[0], speed=wheels.rated * np.asarray(ratio)))
    least = min(limit.size for limit in practised.limits)
    safe = float(np.asarray(flywheels.speed_for_rim(diameter=middle(outside[0]), rim_speed=least)))
    said = Said(
        f"At rated speed the rim of {the(item)} runs {{0}}. Cast iron is not run past {{1}}: {{2}} of it, never to be passed.",
        (Amount(middle(draws), "velocity"), Amount(least, "velocity"), Amount(safe, "speed")),
    )
    found = judged(replace(line, sentence=said, inputs=outside[1], formula="π D n"), draws, practised)
    iron = material("grey cast iron")
    stress = np.asarray(flywheels.rim_stress(rim_speed=draws, density=iron.density))
    told = Said(
        "That stretches a sound rim with {0}; arms, joints and a crack add to it, and it rises with the square of the speed.",
        (Amount(middle(stress), "stress"),),
    )
    more = replace(
        blank(item, STRESS, part=part, dimension="pressure"), sentence=told, inputs=outside[1], formula="ρ v², a thin free ring"
    )
    return (*found, *judged(more, stress))


def _run_out(item: str, wheels: WheelSet, quantity: str, feature: Feature) -> tuple[Finding, ...]:
    practised, read = run_out_rules(item, wheels, quantity), wheels.reader.largest(feature, item)
    line = blank(item, quantity, part=feature.part)
    if read is None:
        settle = f"Turn {the(item)} under a dial and read the {quantity}."
        return (not_measured(line, settle=settle, practised=practised),) if feature.part == d.WHEEL else ()
    said = Said(f"{quantity.split()[0].capitalize()} of {the(item)}: {{0}} out.", (Amount(read.value, "length"),))
    if quantity == FACE:
        said = joined(
            said, Said("A wobble may be the wheel, its key, or a bent shaft: try it turned half round, if it has no key.")
        )
    line = replace(
        line, sentence=joined(said, authorities_differ(practised)), inputs=read.inputs, formula="as read on the dial"
    )
    return judged(line, read.draws, practised)


def run_out_rules(item: str, wheels: WheelSet, quantity: str) -> Practice:
    """How far a wheel may run out, by its radius; a car's and a large diesel's figures are the tight end of a slow engine's."""
    outside = wheels.reader.size(d.OUTSIDE if item in wheels.wheels else d.PULLEY_OUTSIDE, item)
    radius = outside.value / 2 if outside is not None else 0.3
    words = ("face", "wobble") if quantity == FACE else ("eccentricity", "pilot")
    return practice("flywheel run-out", size=radius, words=words, slow=wheels.slow)


def _sound(item: str, wheels: WheelSet, feature: Feature) -> tuple[Finding, ...]:
    words, inputs = wheels.reader.words(feature, item)
    line = blank(item, "condition", part=feature.part, dimension="words")
    if not words:
        return (not_measured(line, settle=f"Clean {the(item)} and look for cracks at keyway, hub, spokes and rim."),)
    text = f"{item}: {words}.".replace("{", "(").replace("}", ")")
    if cracked(words):
        text += " A cracked wheel is not run: it bursts, and no guard holds it. Have it judged by one who repairs castings."
    return (replace(line, sentence=Said(text), inputs=inputs, formula="as noted"),)


def cracked(words: str) -> bool:
    """Do the words tell of a crack?"""
    plain = words.lower()
    if any(word in plain for word in ("no crack", "none", "not cracked", "no sign")):
        return False
    return any(word in plain for word in ("crack", "broken", "split", "welded"))


# ---- hub and key


def hub_room(item: str, wheels: WheelSet) -> tuple[Draws, tuple[str, ...]] | None:
    """Room of the hub on its shaft on the diameter [m], minus where it is pressed."""
    hub, seat = wheels.hub(item), wheels.seat(item)
    return None if hub is None or seat is None else (hub.draws - seat.draws, (*hub.inputs, *seat.inputs))


def hub_rules(item: str, wheels: WheelSet) -> Practice:
    """A forced fit as target; room past two thou as limit."""
    seat = wheels.seat(item)
    size = seat.value if seat is not None else 2.0 * d.INCH
    wanted = practice("forced fit interference", size=size, slow=wheels.slow)
    targets = tuple(
        Target(low=-(each.high or 0.0), high=-(each.low or 0.0), origin=each.origin, authority=each.authority)
        for each in wanted.targets
    )
    return Practice(targets=targets, limits=(SITS,))


def _hub(item: str, wheels: WheelSet) -> tuple[Finding, ...]:
    read, practised = hub_room(item, wheels), hub_rules(item, wheels)
    line = blank(item, HUB_FIT)
    if read is None:
        settle = f"Read the hub of {the(item)} beside the keyway and across it, and its shaft."
        return (not_measured(line, settle=settle, practised=practised),)
    room = middle(read[0])
    said = Said(f"The hub of {the(item)} has {{0}} of room on its shaft.", (Amount(room, "length"),))
    if room < 0:
        said = Said(f"The hub of {the(item)} is pressed on by {{0}}.", (Amount(-room, "length"),))
    elif room > SITS.size:
        said = joined(said, Said("The key then carries the wheel on one side: it rocks, hammers and runs out."))
    line = replace(line, sentence=said, inputs=read[1], formula="largest hub − smallest shaft")
    return judged(line, read[0], practised)


def key_slack(item: str, wheels: WheelSet) -> tuple[Draws, tuple[str, ...]] | None:
    """Slack of the key in the wider of its two ways [m]."""
    key = wheels.reader.smallest(d.KEY_WIDTH, item)
    ways = [read for feature in (d.SHAFT_WAY, d.HUB_WAY) if (read := wheels.reader.largest(feature, item)) is not None]
    if key is None or not ways:
        return None
    widest = np.max([read.draws for read in ways], axis=0)
    return widest - key.draws, (*key.inputs, *(identity for read in ways for identity in read.inputs))


def _key(item: str, wheels: WheelSet) -> tuple[Finding, ...]:
    read = key_slack(item, wheels)
    line = blank(item, KEY_SLACK)
    practised = Practice(limits=(HAMMERS,))
    if read is None:
        settle = f"Read the key of {the(item)} and both its keyways."
        found: tuple[Finding, ...] = (not_measured(line, settle=settle, practised=practised),)
    else:
        seat, outside = wheels.seat(item), wheels.reader.size(d.OUTSIDE, item)
        said = Said(f"The key of {the(item)} has {{0}} of slack.", (Amount(middle(read[0]), "length"),))
        if seat is not None and outside is not None and middle(read[0]) > 0:
            rock = np.asarray(keys.rock(slack=read[0], shaft=seat.draws)) * outside.draws / 2
            said = joined(said, Said("At the rim the wheel rocks by {0}.", (Amount(middle(rock), "length"),)))
        said = joined(said, Said("A loose taper key is a wreck."))
        found = judged(replace(line, sentence=said, inputs=read[1], formula="wider keyway − key"), read[0], practised)
    return (*found, *_key_stress(item, wheels))


def _key_stress(item: str, wheels: WheelSet) -> tuple[Finding, ...]:
    """Shear and crushing of the key at the greatest turning moment, for information."""
    width, height, length = (wheels.reader.size(feature, item) for feature in (d.KEY_WIDTH, d.KEY_HEIGHT, d.KEY_LENGTH))
    seat, moments = wheels.seat(item), wheels.moments
    if width is None or height is None or length is None or seat is None or moments is None:
        return ()
    inputs = (*width.inputs, *height.inputs, *length.inputs, *seat.inputs)
    shear = np.asarray(keys.key_shear(torque=moments[0], shaft=seat.draws, width=width.draws, length=length.draws))
    crush = np.asarray(keys.key_crushing(torque=moments[0], shaft=seat.draws, thickness=height.draws, length=length.draws))
    rows = (
        (
            SHEAR,
            shear,
            "2 T / (d w l)",
            "Were it to carry the greatest turning moment alone, the key would be sheared with {0}.",
        ),
        (CRUSH, crush, "4 T / (d t l)", "and crushed on its side with {0}; a tight hub carries most of it."),
    )
    found: list[Finding] = []
    for quantity, draws, formula, text in rows:
        words = text[0].upper() + text[1:]
        line = replace(
            blank(item, quantity, dimension="pressure"),
            sentence=Said(words, (Amount(middle(draws), "stress"),)),
            inputs=inputs,
            formula=f"{formula}; Shigley 7-7; T of an idealised card at the explosion pressures that books of the time print",
        )
        found += judged(line, draws)
    return tuple(found)


# ---- all wheels together


def steady_rules() -> Practice:
    """How unsteady an engine may run within a turn: 1/25 in ordinary use decides, 1/60 for a dynamo is shown."""
    rows = rules("speed variation within a turn", purpose="target")
    ordinary = max(rows, key=lambda row: row.high or 0.0)
    targets = tuple(Target(low=row.at()[0], high=row.at()[1], origin=origin_of(row), authority=row.authority) for row in rows)
    return Practice(targets=targets, limits=(Limit(size=ordinary.high or 0.04, most=True, origin=origin_of(ordinary)),))


def _together(wheels: WheelSet) -> tuple[Finding, ...]:
    item, held = wheels.wheels[0], wheels.all_inertia
    run_up, steady = blank(item, RUN_UP, dimension="time"), blank(item, STEADY, dimension="percent")
    if held is None:
        settle = "Read outside, width and thickness of the rim, or the weight of every flywheel."
        return tuple(not_measured(line, settle=settle) for line in (run_up, steady))
    inertia, inputs, rests = held
    found: list[Finding] = []
    if wheels.power is None or wheels.rated is None:
        found.append(not_measured(run_up, settle="Note rated power and speed on the outline."))
    else:
        draws = np.asarray(flywheels.run_up_time(inertia=inertia, speed=wheels.rated, power=wheels.power))
        energy = middle(np.asarray(flywheels.energy(inertia=inertia, speed=wheels.rated)))
        said = Said(
            f"By {rests} it holds {energy / 1e3:.1f} kJ at rated speed; at full torque it would come up to speed in {{0}}. "
            "The shorter, the sooner a governor hunts.",
            (Amount(middle(draws), "time"),),
        )
        found += judged(replace(run_up, sentence=said, inputs=inputs, formula="J ω² / P"), draws)
    if wheels.moments is None or wheels.rated is None:
        found.append(not_measured(steady, settle="Note bore, stroke, cylinders and rated speed on the outline."))
        return tuple(found)
    draws = np.asarray(flywheels.unsteadiness(fluctuation=wheels.moments[1], inertia=inertia, speed=wheels.rated))
    one_in = 1 / max(middle(draws), 1e-6)
    said = joined(
        Said(f"Within a turn its speed swings by one part in {one_in:.0f} at full load."),
        authorities_differ(steady_rules(), "percent"),
    )
    line = replace(
        steady,
        sentence=said,
        inputs=inputs,
        formula="swing of energy of an idealised card / (J ω²), cylinders evenly spaced",
    )
    return (*found, *judged(line, draws, steady_rules()))


# ---- clutch


@dataclass(frozen=True, kw_only=True)
class Grip:
    """What a clutch carries [N m], draws, its readings, and words on its friction."""

    torque: Draws
    inputs: tuple[str, ...]
    friction: str


def _coefficient(words: str, wheels: WheelSet, name: str) -> tuple[Draws, str]:
    """Draws of the lining's friction by the words for it; the whole range where it was not said."""
    rows = rules("clutch friction", purpose="target")
    plain = words.lower()
    kinds = (
        ("oily", ("oily", "oil-soaked", "greasy")),
        ("leather", ("leather",)),
        ("lining", ("woven", "mould", "lining", "asbestos")),
        ("iron on iron", ("iron", "cork", "wood", "bronze")),
    )
    for kind, hints in kinds:
        if any(hint in plain for hint in hints):
            row = next(each for each in rows if kind in each.applies)
            return wheels.reader.even(name, row.low or 0.1, row.high or 0.4), row.applies
    low, high = min(row.low or 0.1 for row in rows), max(row.high or 0.4 for row in rows)
    return wheels.reader.even(name, low, high), "lining not said: the whole range"


def grip_of(item: str, wheels: WheelSet, *, words: str | None = None) -> Grip | None:
    """What a clutch carries, worn in; None where its sizes or force were not read. ``words`` tries another lining."""
    outside, inside, force, faces, angle = (
        wheels.reader.size(feature, item) for feature in (d.LINED_OUTSIDE, d.LINED_INSIDE, d.PRESSING, d.FACES, d.ANGLE)
    )
    if outside is None or inside is None or force is None:
        return None
    told = wheels.reader.words(d.LINING, item)[0] if words is None else words
    coefficient, applies = _coefficient(told, wheels, f"friction of {item}")
    cone = angle is not None or "cone" in wheels.reader.words(d.FORM, item)[0].lower()
    if cone and angle is None:
        return None
    if cone and angle is not None:
        torque = friction.cone_torque(
            force=force.draws, friction=coefficient, outside=outside.draws, inside=inside.draws, half_angle=angle.draws
        )
    else:
        torque = friction.plate_torque(
            force=force.draws,
            friction=coefficient,
            outside=outside.draws,
            inside=inside.draws,
            faces=faces.draws if faces is not None else 2.0,
        )
    inputs = (
        *outside.inputs,
        *inside.inputs,
        *force.inputs,
        *(faces.inputs if faces else ()),
        *(angle.inputs if angle else ()),
    )
    return Grip(torque=np.asarray(torque), inputs=inputs, friction=applies)


def margin_rules() -> Practice:
    """How much more than the engine's torque a clutch should carry; less than it decides."""
    return replace(practice("clutch margin", size=0.0), limits=(SLIPS,))


def _clutch(item: str, wheels: WheelSet) -> tuple[Finding, ...]:
    grip, found = grip_of(item, wheels), list[Finding]()
    carries, margin = (
        blank(item, CARRIES, part=d.CLUTCH, dimension="torque"),
        blank(item, MARGIN, part=d.CLUTCH, dimension="ratio"),
    )
    if grip is None:
        settle = f"Read lining outside and inside, and the pressing force of {the(item)}; of a cone its angle."
        found.append(not_measured(margin, settle=settle, practised=margin_rules()))
    else:
        said = Said(
            f"{the(item).capitalize()} carries {{0}} before it slips ({grip.friction}).",
            (Amount(middle(grip.torque), "torque"),),
        )
        formula = "n μ F (R + r)/2, of a cone μ F (R + r)/2 / sin a; worn in, Shigley 16-5, 16-7; μ from memory"
        found += judged(replace(carries, sentence=said, inputs=grip.inputs, formula=formula), grip.torque)
        if wheels.torque is None:
            found.append(not_measured(margin, settle="Note rated power and speed on the outline.", practised=margin_rules()))
        else:
            draws = grip.torque / wheels.torque
            said = Said(f"That is {middle(draws):.1f} times what the engine gives at full load.")
            line = replace(margin, sentence=said, inputs=grip.inputs, formula="torque carried / (power / speed)")
            found += judged(line, draws, margin_rules())
    return (*found, *_lining(item, wheels))


def _lining(item: str, wheels: WheelSet) -> tuple[Finding, ...]:
    words, inputs = wheels.reader.words(d.LINING, item)
    over = wheels.reader.smallest(d.OVER_RIVETS, item)
    found: list[Finding] = []
    if over is not None:
        said = Said(f"The lining of {the(item)} stands {{0}} over its rivets.", (Amount(over.value, "length"),))
        line = replace(blank(item, LINING, part=d.CLUTCH), sentence=said, inputs=over.inputs, formula="as read")
        found += judged(line, over.draws, Practice(limits=(TOUCHES,)))
    bare = any(word in words.lower() for word in ("leather", "iron", "bronze", "cork", "wood"))
    if not bare:
        text = f"Lining of {item}: {words or 'not said'}. Treat it as asbestos until a laboratory says otherwise: wet, no dust."
        line = blank(item, "lining", part=d.CLUTCH, dimension="words")
        found.append(replace(line, sentence=Said(text.replace("{", "(").replace("}", ")")), inputs=inputs, formula="as noted"))
    words, inputs = wheels.reader.words(d.CLUTCH_SOUND, item)
    if words:
        text = f"{item}: {words}.".replace("{", "(").replace("}", ")")
        line = blank(item, "condition", part=d.CLUTCH, dimension="words")
        found.append(replace(line, sentence=Said(text), inputs=inputs, formula="as noted"))
    return tuple(found)


def _pulley(item: str, wheels: WheelSet) -> tuple[Finding, ...]:
    outside, ratio = wheels.reader.size(d.PULLEY_OUTSIDE, item), wheels.reader.size(d.PULLEY_SPEED, item)
    return (
        *_rim(
            item,
            wheels,
            d.PULLEY,
            None if outside is None else (outside.draws, outside.inputs),
            1.0 if ratio is None else ratio.draws,
        ),
        *_run_out(item, wheels, ROUND, d.PULLEY_RUNOUT),
        *_sound(item, wheels, d.PULLEY_SOUND),
    )


def safe_speed(item: str, wheels: WheelSet) -> float | None:
    """The speed [rev/min] that a wheel's rim must never pass; None where it was not read."""
    outside = wheels.reader.size(d.OUTSIDE, item)
    if outside is None:
        return None
    least = min(limit.size for limit in rim_rules(wheels).limits)
    return float(np.asarray(flywheels.speed_for_rim(diameter=outside.value, rim_speed=least))) / RPM
