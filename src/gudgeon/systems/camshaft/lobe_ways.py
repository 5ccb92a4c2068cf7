"""What could be done about the lobes: run on, stone smooth, grind over, a new camshaft."""

from __future__ import annotations

import numpy as np

from gudgeon.engine.origin import Range
from gudgeon.engine.remedy import Need, PricedItem, Risk
from gudgeon.quantity import Amount, Said
from gudgeon.systems.camshaft import description as d
from gudgeon.systems.camshaft.cam_set import CamSet
from gudgeon.systems.camshaft.lobes import FLIES, HOLD, LOST, acceleration, lift_lost, moving_mass
from gudgeon.systems.camshaft.steps import CAM_MADE, LOBES, REGRIND, step
from gudgeon.systems.judging import Practice, middle
from gudgeon.systems.measured import Draws
from gudgeon.systems.proposing import OWN, Matter, Quantity, Way, hours, listed, worn

GROUND_LIFT = 0.001 * d.INCH
"""How far a ground lobe's lift may lie off what was asked, as a standard deviation [m]; from memory."""
STONED = (0.0, 0.001 * d.INCH)
"""Lift that stoning a nose smooth takes [m]; from memory."""
GRIND_BELOW = 0.010 * d.INCH
"""Metal that a grinder takes off the heel beyond the lift lost, to true all round [m]; from memory."""


def lobe_matter(cams: CamSet) -> Matter:
    """All lobes together: they are on one shaft."""
    now: dict[str, dict[str, Draws]] = {LOST: {}, HOLD: {}}
    inputs: list[str] = []
    for lobe in cams.lobes:
        lost = lift_lost(lobe, cams)
        if lost is not None:
            now[LOST][lobe] = lost[0]
            inputs += lost[1]
        holding = held(lobe, cams)
        if holding is not None:
            now[HOLD][lobe] = holding
    practices = {
        LOST: {lobe: cams.rules("cam lift lost", size=0.01) for lobe in cams.lobes},
        HOLD: {lobe: Practice(limits=(FLIES,)) for lobe in now[HOLD]},
    }
    dimensions = {LOST: "length", HOLD: "ratio"}
    return Matter(
        system=d.KEY,
        subject=LOBES,
        bench=cams.bench,
        items=cams.lobes,
        quantities=tuple(Quantity(name=n, part=d.LOBE, dimension=dimensions[n], practices=practices[n]) for n in practices),
        now=now,
        inputs=tuple(dict.fromkeys(inputs)),
    )


def held(lobe: str, cams: CamSet) -> Draws | None:
    """Spring force over what holds contact at speed [1]; None where force, lift, speed or masses are not known."""
    force, fast, mass = cams.spring_force(lobe), acceleration(lobe, cams), moving_mass(lobe, cams)
    if force is None or fast is None or mass is None:
        return None
    return np.asarray(force[0] * cams.ratio(lobe) / np.maximum(mass[0] * fast[0], 1e-3))


def lobe_ways(cams: CamSet, matter: Matter) -> tuple[Way, ...]:
    """Every way for the lobes."""
    return _run_on(matter), _stone(cams, matter), _regrind(cams, matter), _new(cams, matter)


def _run_on(matter: Matter) -> Way:
    past = worn(matter, LOST)
    return Way(
        name="lobes-run-on",
        title=Said("Run the lobes on"),
        action="run on",
        intervention="removable",
        original="Everything stays as it is.",
        items=matter.items,
        steps=(
            step(
                "lobes-look",
                "Clean the lobes, try a file on their edges, look for pits and broken case",
                hours=hours(0.1, 0.1, 0.2, len(matter.items)),
                works=("valve work",),
            ),
        ),
        for_it=(Said("A slow engine hardly misses a few thou of lift."),),
        against_it=(Said(f"{listed(past)} have lost more lift than authorities allow; the valve opens late and less."),)
        if past
        else (),
    )


def _stone(cams: CamSet, matter: Matter) -> Way:
    after = {lobe: draws + cams.reader.even(f"stoning of {lobe}", *STONED) for lobe, draws in matter.now.get(LOST, {}).items()}
    return Way(
        name="lobes-stone",
        title=Said("Stone the lobes smooth by hand"),
        action="make good",
        intervention="irreversible",
        original="A few tenths go from ridges and edges; the case stays.",
        items=matter.items,
        after={LOST: after},
        steps=(
            step(
                "stone-lobes",
                "Stone ridges and pit edges smooth along the lobe, shape untouched, and polish",
                hours=hours(0.2, 0.4, 0.8, len(matter.items)),
                hold="lift of every lobe read again by indicator",
                works=("cam grinding",),
            ),
        ),
        works=("cam grinding",),
        for_it=(Said("Stops a ridge from cutting the new roller, at home, for nothing."),),
        against_it=(Said("Brings no lift back."),),
    )


def _asked_lift(lobe: str, cams: CamSet) -> float | None:
    """Lift to ask for [m]: when new, as reconstructed, else the best of its like."""
    lift, lost = cams.lift(lobe), lift_lost(lobe, cams)
    if lift is None:
        return None
    return middle(lift[0]) + max(middle(lost[0]), 0.0) if lost is not None else middle(lift[0])


def _ground(cams: CamSet, matter: Matter) -> dict[str, Draws]:
    return {lobe: GROUND_LIFT * cams.bench.named(f"lift ground on {lobe}") for lobe in matter.items}


def _parameters(cams: CamSet, matter: Matter) -> dict[str, float]:
    return {f"{lobe} lift": lift for lobe in matter.items if (lift := _asked_lift(lobe, cams)) is not None}


def _lift_needs(cams: CamSet, matter: Matter) -> tuple[Need, ...]:
    return tuple(
        Need(
            kind="reading",
            what=f"lift of {lobe}",
            met=cams.lift(lobe) is not None,
            why="the grinder is told what to bring it to",
            part=d.LOBE,
            item=lobe,
            feature=d.LIFT.name,
        )
        for lobe in matter.items
    )


def _regrind(cams: CamSet, matter: Matter) -> Way:
    lost = [middle(draws) for draws in matter.now.get(LOST, {}).values()]
    smaller = max(lost, default=0.0) + GRIND_BELOW
    cases = [read.value for lobe in matter.items if (read := cams.size(d.CASE, lobe)) is not None]
    allowed = None
    if cases:
        depth = min(cases) + 0.1 * min(cases) * cams.bench.named("case depth of the lobes")
        allowed = np.asarray(depth > smaller + 0.020 * d.INCH)
    return Way(
        name="lobes-regrind",
        title=Said(
            "Grind the lobes over to their old lift, the base circle about {0} smaller on the radius",
            (Amount(smaller, "length"),),
        ),
        action="make good",
        intervention="irreversible",
        original="The shaft stays, smaller in its heels and nearer the end of its case.",
        items=matter.items,
        after={LOST: _ground(cams, matter)},
        allowed=allowed,
        why="grinding would leave too little of the hard case",
        parameters=_parameters(cams, matter),
        priced=(PricedItem(REGRIND, 1),),
        steps=(
            step("regrind", "Camshaft ground over at the shop", shop=REGRIND, may_fail=Range(0.02, 0.05, 0.1, OWN)),
            step(
                "read-lobes",
                "Inspect the camshaft in: lift of every lobe, journals, hardness by file",
                hours=hours(0.1, 0.2, 0.3, len(matter.items)),
                after=("regrind",),
                hold="lift of every lobe read against the order, and a file skates on every nose",
            ),
        ),
        needs=(
            *_lift_needs(cams, matter),
            *(
                Need(
                    kind="reading",
                    what=f"{lobe}: depth of case or hardness",
                    met=cams.size(d.CASE, lobe) is not None or cams.size(d.HARDNESS, lobe) is not None,
                    why="grinding through the case leaves a soft cam",
                    part=d.LOBE,
                    item=lobe,
                    feature=d.CASE.name,
                )
                for lobe in matter.items
            ),
        ),
        risks=(
            Risk(
                "the grinder breaks through the case",
                Range(0.03, 0.08, 0.2, OWN),
                "the shaft must be cased again, and may warp",
            ),
        ),
        works=("cam grinding",),
        for_it=(Said("Full lift and smooth flanks on the old shaft."),),
        against_it=(Said("Followers stand lower by as much: see that the lash can still be taken up."),),
    )


def _new(cams: CamSet, matter: Matter) -> Way:
    return Way(
        name="camshaft-made",
        title=Said("A new camshaft, copied from the old"),
        action="remake",
        intervention="removable",
        original="The old camshaft goes on the shelf.",
        items=matter.items,
        after={LOST: _ground(cams, matter)},
        parameters=_parameters(cams, matter),
        priced=(PricedItem(CAM_MADE, 1),),
        steps=(
            step("camshaft", "Camshaft made", shop=CAM_MADE),
            step(
                "read-lobes",
                "Inspect the camshaft in: journals, lift and angle of every lobe, hardness",
                hours=hours(0.2, 0.3, 0.5, len(matter.items)),
                after=("camshaft",),
                hold="lift and angle of every lobe read against the order",
            ),
        ),
        needs=_lift_needs(cams, matter),
        for_it=(Said("Where case or journals are gone there is nothing else."),),
        against_it=(Said("Dearest; a copy repeats what has worn unless the grinder is told the lift when new."),),
    )
