"""What could be done about pivots of one use: run on, ream for oversize pins, bush for standard pins, remake both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import cast

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Origin, Range
from gudgeon.engine.prospect import Prospect
from gudgeon.engine.remedy import Need, PricedItem, Remedy, Risk
from gudgeon.handbook.materials import material
from gudgeon.handbook.oversizes import oversizes
from gudgeon.mechanics import pins as mechanics
from gudgeon.mechanics import press_fit
from gudgeon.quantity import Amount, Said
from gudgeon.systems.drafting import reading_need, step
from gudgeon.systems.judging import Draws, Limit, Practice, known_rules
from gudgeon.systems.pivots import description as d
from gudgeon.systems.pivots.joints import USES, Joint, Pivots, Use
from gudgeon.systems.pivots.wear import CLEARANCE, cracked
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, could_be_read, hours, listed, prospect_of, remedy_of, worn

PIN_MADE, BUSH_MADE, EYE_MADE = "pin made", "bush made", "lever or eye made"
CLEANS = 0.001 * d.INCH
"""A reamer takes so much beyond the widest place to cut all round [m]; common practice."""
REAMED = 0.0004 * d.INCH
"""How closely a home shop reams [m]; common practice."""
WALL = "wall left round the hole"


def subject_of(use: Use) -> str:
    """The matter decided: "pivots: linkage pins"."""
    return f"pivots: {use.title}"


@dataclass(frozen=True, kw_only=True)
class Group:
    """The joints of one use, decided together."""

    use: Use
    joints: tuple[Joint, ...]
    bench: Bench

    @property
    def items(self) -> tuple[str, ...]:
        """Their names."""
        return tuple(joint.name for joint in self.joints)

    @cached_property
    def matter(self) -> Matter:
        """Clearance as found, joint by joint."""
        now = {joint.name: joint.clearance.draws for joint in self.joints if joint.clearance is not None}
        inputs = [identity for joint in self.joints if joint.clearance for identity in joint.clearance.inputs]
        return Matter(
            system=d.KEY,
            subject=subject_of(self.use),
            bench=self.bench,
            items=self.items,
            quantities=(
                Quantity(
                    name=CLEARANCE,
                    part=self.joints[0].part,
                    dimension="length",
                    practices={joint.name: _with_limit(joint) for joint in self.joints},
                ),
            ),
            now={CLEARANCE: now},
            inputs=tuple(dict.fromkeys(inputs)),
        )


def _with_limit(joint: Joint) -> Practice:
    """What authorities say; where none gives a limit, four times the most that the period's fit has, as a home shop's own."""
    known = joint.practised
    if known.deciding:
        return known
    most = 4 * max(joint.aim[1], 0.0005 * d.INCH)
    own = Limit(size=most, most=True, origin=Origin("F", "four times the widest new fit; common practice"))
    return replace(known, limits=(*known.limits, own))


def groups(bench: Bench) -> tuple[Group, ...]:
    """The joints by use; pins that are meant to shear are no matter of wear."""
    pivots = Pivots.of(bench)
    found = []
    for use in USES:
        joints = tuple(joint for joint in pivots.of_use(use) if joint.thinnest is not None or joint.widest is not None)
        if joints and use.name != "shear":
            found.append(Group(use=use, joints=joints, bench=bench))
    return tuple(found)


def matters(bench: Bench) -> tuple[tuple[Group, tuple[Way, ...]], ...]:
    """Every matter with its ways."""
    pivots = Pivots.of(bench)
    if "matters" not in pivots.worked_out:
        pivots.worked_out["matters"] = tuple((group, ways_of(group)) for group in groups(bench))
    return cast(tuple[tuple[Group, tuple[Way, ...]], ...], pivots.worked_out["matters"])


def remedies(bench: Bench) -> tuple[Remedy, ...]:
    """Every remedy of the system."""
    return tuple(remedy_of(group.matter, way) for group, ways in matters(bench) for way in ways)


def prospects(bench: Bench) -> tuple[Prospect, ...]:
    """The worth of every remedy draw by draw, and what could still be read."""
    return tuple(
        prospect_of(
            group.matter,
            ways,
            could_be_read(
                group.matter,
                {CLEARANCE: (group.joints[0].part, "bush bore")},
                "it was not read, and decides whether the pin may stay",
            ),
        )
        for group, ways in matters(bench)
    )


def ways_of(group: Group) -> tuple[Way, ...]:
    """Every way; those that cut metal only where a bush or eye was read."""
    cut = tuple(joint for joint in group.joints if joint.widest is not None and joint.nominal is not None)
    touched = tuple(joint for joint in cut if joint.name in _past(group)) or cut
    found = [_run_on(group)]
    if touched:
        found += [_oversize(group, touched), _bushed(group, touched)]
        if not all(_is_bush(joint) for joint in touched):
            found.append(_remade(group, touched))
    return tuple(found)


def _is_bush(joint: Joint) -> bool:
    """Is what wore a bush already, which is renewed and not let in anew?"""
    read = joint.size("bush outside diameter")
    return "bush" in joint.bush.lower() or (read is not None and read.value > 0.5 * (joint.nominal or 0.0))


def _past(group: Group) -> tuple[str, ...]:
    return worn(group.matter, CLEARANCE)


def _sound(group: Group, joints: Sequence[Joint]) -> np.ndarray[tuple[int], np.dtype[np.bool_]] | None:
    return np.zeros(group.bench.count, dtype=np.bool_) if any(cracked(joint) for joint in joints) else None


def _run_on(group: Group) -> Way:
    past = _past(group)
    return Way(
        name=f"{group.use.name}-run-on",
        title=Said(f"Run the {group.use.title} on as they are"),
        action="run on",
        intervention="removable",
        original="Pins and bushes stay.",
        items=group.items,
        allowed=_sound(group, group.joints),
        why="a cracked part would be run on",
        for_it=(Said("Nothing is cut; oil fills more than one thinks."),),
        against_it=(Said(f"Past the limit of at least one authority: {listed(past)}."),) if past else (),
    )


def clean_up(joint: Joint) -> float:
    """The hole that trues a worn eye when a reamer follows it [m]."""
    assert joint.widest is not None
    assert joint.narrowest is not None
    found = mechanics.clean_up_hole(
        largest=joint.widest.value, smallest=joint.narrowest.value, allowance=CLEANS, kept_centre=False
    )
    return float(found)


def oversize_of(joint: Joint) -> float:
    """The pin to make for a reamed hole [m]: the smallest usual oversize whose hole cleans up, else just what cleans up."""
    assert joint.nominal is not None
    least = clean_up(joint) - sum(joint.aim) / 2
    for step_up in sorted(over.amount for over in oversizes("pin")):
        if joint.nominal + step_up >= least:
            return joint.nominal + step_up
    return least


def bush_outside(joint: Joint) -> float:
    """Outside of a bush to let in [m]: the old bush's, else what cleans up and leaves the bush a sound wall, in 1/64 in."""
    read = joint.size("bush outside diameter")
    if read is not None and read.value > 0.5 * (joint.nominal or 0.0):
        return read.value
    assert joint.nominal is not None
    wall = next(row.low for row in known_rules("least wall of a bush") if row.low is not None)
    least = max(clean_up(joint), joint.nominal + 2 * wall)
    return float(np.ceil(least / (d.INCH / 64) - 1e-9) * d.INCH / 64)


def press_of(outside: float) -> tuple[float, float]:
    """Press of a bush on the diameter [m]: the handbook's rule, from memory."""
    low, high = known_rules("bush press")[0].at(outside)
    return low or 0.0, high or 0.0


def wall_left(joint: Joint, hole: float) -> Draws | None:
    """Metal left round a hole in the boss [m]; None where the boss was not read."""
    boss = joint.size("boss outside diameter")
    return None if boss is None else np.asarray(mechanics.wall_beside(outside=boss.draws, hole=hole))


def wall_kept(joint: Joint, hole: float) -> np.ndarray[tuple[int], np.dtype[np.bool_]] | None:
    """Draws in which the boss keeps the wall that practice asks; None where the boss was not read."""
    left = wall_left(joint, hole)
    if left is None:
        return None
    least = known_rules("least wall of a boss")[0].at(hole)[0] or 0.0
    return np.asarray(left >= 0.5 * least)


def press_said(joint: Joint, outside: float) -> Said:
    """Pressure and closing of a bush of bronze in a steel or iron boss by Lame; empty where the boss was not read."""
    boss = joint.size("boss outside diameter")
    if boss is None or joint.nominal is None or boss.value <= outside:
        return Said("")
    bronze, iron = material("bronze C93200"), material("grey cast iron")
    pressure = press_fit.contact_pressure(
        interference=press_of(outside)[1],
        diameter=outside,
        outer_diameter=boss.value,
        inner_diameter=joint.nominal,
        modulus_outer=iron.modulus,
        poisson_outer=iron.poisson,
        modulus_inner=bronze.modulus,
        poisson_inner=bronze.poisson,
    )
    hoop = press_fit.outer_hoop_stress(pressure=pressure, diameter=outside, outer_diameter=boss.value)
    closes = press_fit.bore_closing(
        pressure=pressure, diameter=outside, inner_diameter=joint.nominal, modulus_inner=bronze.modulus
    )
    return Said(
        f"At its tightest the bush of {joint.name} stretches the boss with {{0}} and closes by {{1}}: ream it when it is in.",
        (Amount(float(hoop), "stress"), Amount(float(closes), "length")),
    )


def _made(joint: Joint, what: str) -> Draws:
    """Clearance as made [m]: within the aim, and the reamer's doubt."""
    low, high = joint.aim
    return joint.reader.even(f"clearance of {joint.name}, {what}", low - REAMED / 2, high + REAMED / 2)


def _walls(group: Group, holes: dict[str, float], joints: Sequence[Joint]) -> np.ndarray[tuple[int], np.dtype[np.bool_]] | None:
    flags = [wall_kept(joint, holes[joint.name]) for joint in joints]
    known = [each for each in flags if each is not None]
    return np.asarray(np.all(known, axis=0)) if known else _sound(group, joints)


def _boss_needs(joints: Sequence[Joint]) -> tuple[Need, ...]:
    return tuple(
        reading_need(
            joint.reader, joint.feature("boss outside diameter"), joint.bush, why="what is left round the hole must be known"
        )
        for joint in joints
    )


def _oversize(group: Group, joints: tuple[Joint, ...]) -> Way:
    pins = {joint.name: oversize_of(joint) for joint in joints}
    holes = {joint.name: pins[joint.name] + joint.aim[0] for joint in joints}
    parameters: dict[str, float] = {}
    for joint in joints:
        parameters |= {
            f"{joint.name} hole": holes[joint.name],
            f"{joint.name} pin": pins[joint.name],
            f"{joint.name} clearance low": joint.aim[0],
            f"{joint.name} clearance high": joint.aim[1],
        }
    count = len(joints)
    return Way(
        name=f"{group.use.name}-oversize",
        title=Said(f"Ream {_few(joints)} and fit oversize pins"),
        action="make good",
        intervention="irreversible",
        original="Levers and bushes stay, a little wider; pins are new.",
        items=group.items,
        after={CLEARANCE: {joint.name: _made(joint, "oversize") for joint in joints}},
        allowed=_walls(group, holes, joints),
        why="too little wall is left round the hole",
        parameters=parameters,
        priced=(PricedItem(PIN_MADE, count),),
        stages=((PIN_MADE,),),
        needs=(*_boss_needs(joints), *_mates_need(group)),
        steps=(
            step(
                d.KEY,
                f"{group.use.name}-ream",
                f"Ream {_few(joints)} right through, both holes of a fork in one pass",
                hours=hours(0.3, 0.6, 1.5, count),
                hold="every hole round, straight and read",
            ),
            step(
                d.KEY,
                f"{group.use.name}-pins",
                "Pins ground to the reamed holes",
                shop=PIN_MADE,
                after=(f"{group.use.name}-ream",),
            ),
        ),
        risks=(
            Risk(
                "the reamer follows the worn side and the centre moves",
                Range(0.05, 0.15, 0.3, OWN),
                "lever lengths change a little; bush it instead",
            ),
        ),
        for_it=(Said("Least work, and no bush to come loose: the period's own cure, the next larger pin in both parts."),),
        against_it=(Said("Each time takes metal that does not come back; no two pins are alike any more."),),
    )


def _few(joints: Sequence[Joint]) -> str:
    return listed([joint.bush or joint.name for joint in joints]) if len(joints) <= 4 else f"{len(joints)} bushes and eyes"


def _mates_need(group: Group) -> tuple[Need, ...]:
    if group.use.name != "piston":
        return ()
    return (
        Need(
            kind="decision",
            what="which pistons stay: their bosses must take the same pin",
            met=False,
            why="a pin of another size has to fit rod and piston both",
        ),
    )


def _bushed(group: Group, joints: tuple[Joint, ...]) -> Way:
    outsides = {joint.name: bush_outside(joint) for joint in joints}
    keeps = {joint.name: _pin_may_stay(joint) for joint in joints}
    parameters: dict[str, float] = {}
    for joint in joints:
        assert joint.nominal is not None
        pin = joint.thinnest.value if keeps[joint.name] and joint.thinnest else joint.nominal
        parameters |= {
            f"{joint.name} bush outside": outsides[joint.name],
            f"{joint.name} press low": press_of(outsides[joint.name])[0],
            f"{joint.name} press high": press_of(outsides[joint.name])[1],
            f"{joint.name} bush bore low": pin + joint.aim[0],
            f"{joint.name} bush bore high": pin + max(joint.aim[1], joint.aim[0] + REAMED),
            f"{joint.name} clearance low": joint.aim[0],
            f"{joint.name} clearance high": joint.aim[1],
        }
        if not keeps[joint.name]:
            parameters[f"{joint.name} pin"] = joint.nominal
    new_pins = sum(not keep for keep in keeps.values())
    priced = [PricedItem(BUSH_MADE, len(joints))] + ([PricedItem(PIN_MADE, new_pins)] if new_pins else [])
    said = [press_said(joint, outsides[joint.name]) for joint in joints]
    tail = (
        "standard pins"
        if new_pins == len(joints)
        else "the old pins"
        if not new_pins
        else "standard pins where the old are worn"
    )
    return Way(
        name=f"{group.use.name}-bush",
        title=Said(f"{'Renew' if all(_is_bush(joint) for joint in joints) else 'Bush'} {_few(joints)} and fit {tail}"),
        action="make good",
        intervention="re-doable",
        original="Levers stay; bushes can be pressed out and renewed.",
        items=group.items,
        after={CLEARANCE: {joint.name: _made(joint, "bushed") for joint in joints}},
        allowed=_walls(group, outsides, joints),
        why="too little wall is left round the bush",
        parameters=parameters,
        priced=tuple(priced),
        needs=_boss_needs(joints),
        steps=(
            step(d.KEY, f"{group.use.name}-bushes", "Bushes turned to the sheet", shop=BUSH_MADE),
            step(
                d.KEY,
                f"{group.use.name}-press",
                f"Bore {_few(joints)} on the old centre, press bushes in, drill oil holes, ream to the pin",
                hours=hours(0.7, 1.5, 3.0, len(joints)),
                after=(f"{group.use.name}-bushes",),
                hold="each bore read after reaming; no bush turns under the thumb",
                works=("pressing",),
            ),
        ),
        risks=(
            Risk(
                "a bush turns in its hole and shuts its oil hole",
                Range(0.01, 0.03, 0.08, OWN),
                "it runs dry: pin or press it anew",
            ),
        ),
        works=("pressing",),
        for_it=(Said("Back to the drawing's pin and centre, and it can be done again."), *[each for each in said[:2] if each]),
        against_it=(Said("Takes the most metal from the boss at once."),),
    )


def _pin_may_stay(joint: Joint) -> bool:
    """A pin worn by less than a quarter of the clearance wanted runs in a new bush reamed to it; common practice."""
    if joint.thinnest is None or joint.unworn is None:
        return False
    return joint.unworn.value - joint.thinnest.value < 0.25 * max(joint.aim[1], 0.001 * d.INCH)


def _remade(group: Group, joints: tuple[Joint, ...]) -> Way:
    parameters: dict[str, float] = {}
    for joint in joints:
        assert joint.nominal is not None
        parameters |= {
            f"{joint.name} pin": joint.nominal,
            f"{joint.name} hole": joint.nominal + joint.aim[0],
            f"{joint.name} clearance low": joint.aim[0],
            f"{joint.name} clearance high": joint.aim[1],
            f"{joint.name} remade": 1.0,
        }
    return Way(
        name=f"{group.use.name}-remade",
        title=Said(f"Remake both, {_few(joints)} and their pins"),
        action="remake",
        intervention="re-doable",
        original="The old parts are put by and tagged.",
        items=group.items,
        after={CLEARANCE: {joint.name: _made(joint, "remade") for joint in joints}},
        parameters=parameters,
        priced=(PricedItem(EYE_MADE, len(joints)), PricedItem(PIN_MADE, len(joints))),
        steps=(
            step(d.KEY, f"{group.use.name}-remake", "Levers or eyes made to pattern, holes left .010 small", shop=EYE_MADE),
            step(d.KEY, f"{group.use.name}-new-pins", "Pins made", shop=PIN_MADE),
            step(
                d.KEY,
                f"{group.use.name}-ream-new",
                "Ream the new eyes to their pins",
                hours=hours(0.3, 0.6, 1.5, len(joints)),
                after=(f"{group.use.name}-remake", f"{group.use.name}-new-pins"),
                hold="each bore read after reaming",
            ),
        ),
        for_it=(Said("Full metal everywhere; right where a boss is cracked or already thin."),),
        against_it=(Said("Dearest, slowest, and the least of the engine is left."),),
    )
