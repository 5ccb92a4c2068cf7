"""Lobes: lift lost, what lost lift and lash do to the timing, pressure under the follower, what holds it there at speed."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import cast

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.handbook.materials import material
from gudgeon.mechanics import cam_lift, contact
from gudgeon.quantity import Amount, Said
from gudgeon.systems.camshaft import description as d
from gudgeon.systems.camshaft.cam_set import CamSet, Read, blank, kind_of
from gudgeon.systems.judging import Limit, Practice, joined, judged, middle, not_measured
from gudgeon.systems.measured import Draws, Measured

LIFT, LOST, MOVED = "lobe lift", "cam lift lost", "timing moved by lost lift and lash"
STRESS, HOLD, DEPTH = "pressure of lobe on follower", "spring force over what holds contact at speed", "case depth"
FLIES = Limit(size=1.0, most=False, origin=Origin("E", "mechanics: below it the follower leaves the cam", "F = m a"))


def lobe_findings(lobe: str, cams: CamSet) -> tuple[Finding, ...]:
    """All that one lobe says."""
    return (
        *_lift(lobe, cams),
        *_lost(lobe, cams),
        *_moved(lobe, cams),
        *_stress(lobe, cams),
        *_hold(lobe, cams),
        *_case(lobe, cams),
        *_state(lobe, cams),
    )


def _line(lobe: str, quantity: str, dimension: str = "length") -> Finding:
    return blank(lobe, quantity, part=d.LOBE, dimension=dimension)


def _lift(lobe: str, cams: CamSet) -> tuple[Finding, ...]:
    read = cams.lift(lobe)
    if read is None:
        return (not_measured(_line(lobe, LIFT), settle=f"Read the lift of {lobe} by indicator over one turn."),)
    ratio, lash = cams.ratio(lobe), cams.lash(lobe)
    said = Said(f"{lobe} lifts {{0}}.", (Amount(middle(read[0]), "length"),))
    if lash is not None:
        at_valve = cam_lift.valve_lift(lobe_lift=read[0], lash=lash[0] * ratio, ratio=ratio)
        said = joined(
            said, Said("At the valve, the lash taken up, {0} is left.", (Amount(middle(np.asarray(at_valve)), "length"),))
        )
    line = replace(_line(lobe, LIFT), sentence=said, inputs=read[1], formula="as read, or height over nose − base circle")
    return judged(line, read[0])


def lift_lost(lobe: str, cams: CamSet) -> tuple[Draws, tuple[str, ...], str] | None:
    """Lift lost [m], its readings, and against what: the lift when new as reconstructed, or the best of its like.

    Lobes of one kind on one shaft were ground to one lift, so none was made to less than the best of them reads today.
    """
    read = cams.lift(lobe)
    if read is None:
        return None
    original = cams.reader.original(d.LIFT, lobe)
    like = [lift for other in cams.lobes if kind_of(other) == kind_of(lobe) and (lift := cams.lift(other)) is not None]
    best = max(like, key=lambda lift: middle(lift[0]))
    if original is None:
        if len(like) < 2:
            return None
        return best[0] - read[0], (*read[1], *best[1]), "the best lobe of its kind, which may have worn too"
    if middle(best[0]) > middle(original):
        return best[0] - read[0], (*read[1], *best[1]), "the best lobe of its kind, which may have worn too"
    return original - read[0], read[1], "what lobes of its kind were made to"


def _lost(lobe: str, cams: CamSet) -> tuple[Finding, ...]:
    practised = cams.rules("cam lift lost", size=0.01)
    lost = lift_lost(lobe, cams)
    if lost is None:
        return (not_measured(_line(lobe, LOST), settle=f"Read the lift of {lobe} and of its like.", practised=practised),)
    said = Said(f"{lobe} has lost {{0}} of lift, against {lost[2]}.", (Amount(middle(lost[0]), "length"),))
    line = replace(
        _line(lobe, LOST),
        sentence=said,
        inputs=lost[1],
        formula="lobe lift when new − now; TM 5-3805-260-24 p. 1-11 measures it so",
        settle="" if "best lobe" not in lost[2] else "Look for a lobe that carried no load: it shows the lift when new.",
    )
    return judged(line, lost[0], practised)


def timing_moved(lobe: str, cams: CamSet) -> tuple[Draws, Draws, tuple[str, ...]] | None:
    """By how much the valve opens later, and closes as much sooner, than when new and set as its kind [rad of the crank];
    and how much of that comes of lost lift. None where lift or lash were not read.

    By the flanks of its lift table where there is one. Else by a cosine lobe: of the opening that was read, at the lash as
    found; or where none was read, of the usual opening at the lash that its kind is set to.
    """
    now, lost, lash = cams.lift(lobe), lift_lost(lobe, cams), cams.lash(lobe)
    if now is None or lash is None:
        return None
    taken, usual = np.clip(lash[0], 0.0, 0.9 * now[0]), np.clip(cams.usual_lash(lobe), 0.0, 0.9 * now[0])
    table = cams.table(lobe)
    if table is not None and (flanks := _by_table(table[0], np.median(table[1], axis=1), usual=usual, lash=taken)) is not None:
        return flanks, np.zeros_like(flanks), (*table[2], *lash[1])
    new = now[0] + (np.maximum(lost[0], 0.0) if lost is not None else 0.0)
    half, inputs, seen = cams.half_open(lobe)
    flank = cam_lift.harmonic_half_angle(lift=now[0] if seen else new, lash=taken if seen else usual, half_open=half)
    halves = [
        np.asarray(cam_lift.harmonic_half_open(lift=lift, lash=play, half_angle=flank))
        for lift, play in ((now[0], taken), (new, taken), (new, usual))
    ]
    moved = cam_lift.CRANK_PER_CAM * (halves[2] - halves[0])
    return moved, cam_lift.CRANK_PER_CAM * (halves[1] - halves[0]), (*now[1], *lash[1], *inputs)


def _by_table(angles: Draws, lifts: Draws, *, usual: Draws, lash: Draws) -> Draws | None:
    """The same from both flanks of a table [rad of the crank]; None where a flank does not fall steadily from nose to heel.

    A flank ends at its first place that lies within 2 % of the heel; a rise of 1 % is taken for error of reading.
    """
    top = int(np.argmax(lifts))
    found = []
    for y, a in ((lifts[top::-1], -angles[top::-1]), (lifts[top:], angles[top:])):
        heel = np.flatnonzero(y <= 0.02 * lifts[top])
        if not heel.size or heel[0] < 2 or np.any(np.diff(y[: heel[0] + 1]) > 0.01 * lifts[top]):
            return None
        down, out = np.minimum.accumulate(y[: heel[0] + 1])[::-1], a[heel[0] :: -1]
        found.append(np.interp(usual, down, out) - np.interp(lash, down, out))
    return np.asarray(cam_lift.CRANK_PER_CAM * (found[0] + found[1]) / 2)


def _moved(lobe: str, cams: CamSet) -> tuple[Finding, ...]:
    line = _line(lobe, MOVED, "angle")
    read = timing_moved(lobe, cams)
    if read is None:
        return (not_measured(line, settle=f"Read the lift of {lobe} and the lash of its valve."),)
    _, _, seen = cams.half_open(lobe)
    by, wear = middle(read[0]), middle(read[1])
    later, sooner = ("later", "sooner") if by >= 0 else ("sooner", "later")
    said = Said(
        f"The valve of {lobe} opens {{0}} {later}, and closes as much {sooner}, than when new and set as its kind is set.",
        (Amount(abs(by), "angle"),),
    )
    if wear > math.radians(0.5):
        said = joined(said, Said("{0} of that is lost lift, the rest lash.", (Amount(wear, "angle"),)))
    tabled = cams.table(lobe) is not None
    if not seen and not tabled:
        said = joined(said, Said("Neither its events nor a lift table were read; the usual opening of its kind is taken."))
    line = replace(
        line,
        sentence=said,
        inputs=read[2],
        formula="both flanks of the lift table, where they take up the lash"
        if tabled
        else "cosine lobe: lift L/2 (1 + cos(π a / h)); lash is taken up where the lift equals it",
        settle=""
        if seen or tabled
        else f"Read the lift of {lobe} at every 10° of the cam, or its valve's events on the flywheel.",
    )
    return judged(line, read[0])


def acceleration(lobe: str, cams: CamSet) -> tuple[Draws, tuple[str, ...], str] | None:
    """Greatest acceleration towards the cam at rated speed [m/s2]; its readings; by table, or by a cosine lobe."""
    name = f"acceleration of {lobe}"
    if name not in cams.worked_out:
        cams.worked_out[name] = _acceleration(lobe, cams)
    return cast("tuple[Draws, tuple[str, ...], str] | None", cams.worked_out[name])


def _acceleration(lobe: str, cams: CamSet) -> tuple[Draws, tuple[str, ...], str] | None:
    if cams.speed is None:
        return None
    table = cams.table(lobe)
    if table is not None:
        try:
            second = cam_lift.second_derivative(angles=table[0], lifts=table[1].T)
        except cam_lift.LiftTableFault:
            table = None
        else:
            return np.asarray(-second.min(axis=-1) * cams.speed**2), table[2], "from its lift table"
    lift, lash = cams.lift(lobe), cams.lash(lobe)
    if lift is None:
        return None
    half_open, inputs, _ = cams.half_open(lobe)
    taken = np.clip(lash[0], 0.0, 0.9 * lift[0]) if lash is not None else np.zeros_like(lift[0])
    flank = cam_lift.harmonic_half_angle(lift=lift[0], lash=taken, half_open=half_open)
    draws = cam_lift.harmonic_nose_acceleration(lift=lift[0], half_angle=flank, cam_speed=cams.speed)
    return np.asarray(draws), (*lift[1], *inputs), "of a cosine lobe of its lift and opening"


def moving_mass(lobe: str, cams: CamSet) -> Read | None:
    """Mass that the lobe moves, brought to the follower [kg]: follower and push rod, and the valve by the ratio squared."""
    follower, valve = cams.partner(lobe, d.FOLLOWER), cams.partner(lobe, "valve")
    own = cams.size(d.MASS, follower) if follower else None
    heads = cams.size(d.VALVE_MASS, valve) if valve else None
    if own is None or heads is None:
        return None
    return own.draws + heads.draws * cams.ratio(lobe) ** 2, (*own.inputs, *heads.inputs)


def _hold(lobe: str, cams: CamSet) -> tuple[Finding, ...]:
    line = _line(lobe, HOLD, "ratio")
    force, fast, mass = cams.spring_force(lobe), acceleration(lobe, cams), moving_mass(lobe, cams)
    practised = Practice(limits=(FLIES,))
    if force is None or fast is None or mass is None:
        missing = [
            words
            for words, there in (
                ("the force of its spring with the valve open", force),
                ("its lift, and the rated speed", fast),
                ("the weight of its follower and valve", mass),
            )
            if there is None
        ]
        return (not_measured(line, settle=f"For {lobe} read {' and '.join(missing)}.", practised=practised),)
    needed = np.maximum(cam_lift.force_to_hold(mass=mass[0], acceleration=fast[0]), 1e-3)
    at_follower = force[0] * cams.ratio(lobe)
    draws = np.asarray(at_follower / needed)
    said = Said(
        f"At rated speed {{0}} hold the follower of {lobe} on its nose; the spring gives {{1}}.",
        (Amount(middle(needed), "force"), Amount(middle(at_follower), "force")),
    )
    line = replace(
        line,
        sentence=said,
        inputs=(*force[1], *fast[1], *mass[1]),
        formula=f"spring force × ratio / (moving mass × acceleration over the nose), {fast[2]}; friction left out",
    )
    return judged(line, draws, practised)


def nose_radius(lobe: str, cams: CamSet) -> tuple[Draws, tuple[str, ...], bool] | None:
    """Radius of the lobe's nose [m], its readings, and whether it was read; else from base circle, lift and opening."""
    read = cams.size(d.NOSE, lobe)
    if read is not None:
        return read.draws, read.inputs, True
    base, lift = cams.size(d.BASE, lobe), cams.lift(lobe)
    follower = cams.partner(lobe, d.FOLLOWER)
    roller = roller_size(follower, cams)
    rolls = cams.is_roller(follower)
    if base is None or lift is None or rolls is None or (rolls and roller is None):
        return None
    half_open, inputs, _ = cams.half_open(lobe)
    second = -lift[0] / 2 * np.square(np.pi / half_open)
    given = (*base.inputs, *lift[1], *inputs)
    if rolls and roller is not None:
        draws = cam_lift.roller_cam_radius(
            base_radius=base.draws / 2, roller_radius=roller.draws / 2, lift=lift[0], second=second
        )
    else:
        draws = cam_lift.flat_follower_radius(base_radius=base.draws / 2, lift=lift[0], second=second)
    return np.maximum(draws, 0.5e-3), given, False


def roller_size(follower: str | None, cams: CamSet) -> Measured | None:
    """Outside of a follower's roller, at its largest [m]."""
    return cams.reader.largest(d.ROLLER, follower) if follower else None


def _stress(lobe: str, cams: CamSet) -> tuple[Finding, ...]:
    practised = cams.rules("cam contact stress", size=0.03)
    line = _line(lobe, STRESS, "stress")
    follower = cams.partner(lobe, d.FOLLOWER)
    rolls, roller = cams.is_roller(follower), roller_size(follower, cams)
    force, nose = cams.spring_force(lobe), nose_radius(lobe, cams)
    width = cams.size(d.ROLLER_WIDTH, follower) if rolls and follower else None
    width = width or cams.size(d.WIDTH, lobe)
    if force is None or nose is None or width is None or rolls is None:
        settle = f"Read width, base circle and follower of {lobe}, and the force of its spring with the valve open."
        return (not_measured(line, settle=settle, practised=practised),)
    steel = material("steel 1020")
    draws = contact.line_pressure(
        force=np.maximum(force[0] * cams.ratio(lobe), 1e-3),
        length=width.draws,
        radius_1=nose[0],
        radius_2=roller.draws / 2 if rolls and roller is not None else np.inf,
        modulus_1=steel.modulus,
        poisson_1=steel.poisson,
        modulus_2=steel.modulus,
        poisson_2=steel.poisson,
    )
    said = Said(
        f"At rest on its nose {lobe} is pressed {{0}} by its {'roller' if rolls else 'flat follower'}.",
        (Amount(middle(np.asarray(draws)), "stress"),),
    )
    hard = cams.size(d.HARDNESS, lobe)
    limits = practised.limits
    if hard is not None:
        borne = float(np.asarray(contact.steel_contact_strength(hardness=hard.value)))
        origin = Origin("E", "Shigley 6-16, Buckingham: 2.76 HB − 70 MPa", f"at {hard.value:.0f} HB; from memory")
        limits = (*limits, Limit(size=borne, most=True, origin=origin, decides=False))
    else:
        said = joined(said, Said("Its hardness was not read; try a file on the end of the shaft and on the lobe's edge."))
    if not nose[2]:
        said = joined(said, Said("The radius of the nose was not read and is worked out from lift and opening."))
    line = replace(
        line,
        sentence=said,
        inputs=(*force[1], *nose[1], *width.inputs),
        formula="Hertz line contact, 2F / (π b L); Shigley 3-19. An edge that bears alone is pressed far harder",
    )
    return judged(line, np.asarray(draws), Practice(targets=practised.targets, limits=limits))


def _case(lobe: str, cams: CamSet) -> tuple[Finding, ...]:
    read = cams.size(d.CASE, lobe)
    if read is None:
        return ()
    practised = cams.rules("cam case depth", size=0.03)
    said = Said(f"{lobe} shows {{0}} of hard case; grinding takes from it.", (Amount(read.value, "length"),))
    line = replace(_line(lobe, DEPTH), sentence=said, inputs=read.inputs, formula="as seen; Mathot (1905) asks .08 in at least")
    return judged(line, read.draws, practised)


def _state(lobe: str, cams: CamSet) -> tuple[Finding, ...]:
    words, inputs = cams.reader.words(d.LOBE_STATE, lobe)
    if not words:
        return ()
    line = _line(lobe, "condition", "words")
    return (replace(line, sentence=Said(f"{lobe}: {words}."), inputs=inputs, formula="as noted"),)
