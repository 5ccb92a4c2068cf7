"""Findings on where each cylinder leaks: all together, by path, how long it holds, and what would tell more."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from gudgeon.engine.finding import Finding
from gudgeon.mechanics.gas_flow import hold_time
from gudgeon.quantity import Amount, Said
from gudgeon.systems.compression import description as d
from gudgeon.systems.compression.cylinder_set import CylinderSet, blank
from gudgeon.systems.compression.leaks import NAMES, PATHS, Leaks, leaks_of, picked, ring_joints
from gudgeon.systems.compression.next_tests import best_test, leader_chances
from gudgeon.systems.compression.pressures import missing
from gudgeon.systems.judging import Draws, joined, judged, middle, not_measured

ALL, HOLD = "leak, all paths", "hold time"
FORMULA = (
    "areas of all paths drawn beforehand (rings from their gaps, seats and plug over what such parts leak), weighed by how "
    "well they explain the readings, drawn again; as the round nozzle that passes as much"
)


def by_path(path: str) -> str:
    """Name of the finding on one path."""
    return f"leak by the {NAMES[path]}" if path != "water" else "leak by a crack to the water"


def hole(area: Draws) -> Draws:
    """Diameter of the round nozzle of that area [m]."""
    return np.sqrt(4 * area / math.pi)


def leak_findings(item: str, cylinders: CylinderSet) -> tuple[Finding, ...]:
    """The leaks of one cylinder with their intervals."""
    leaks = leaks_of(item, cylinders)
    if leaks is None:
        settle = missing(item, cylinders) or f"Read the cranking pressure of {item}, dry, until the gauge stands."
        return (not_measured(blank(item, ALL, dimension="length"), settle=settle),)
    return (
        *_all(item, leaks, cylinders),
        *(line for path in PATHS for line in _path(item, path, leaks)),
        *_hold(item, leaks, cylinders),
    )


def _all(item: str, leaks: Leaks, cylinders: CylinderSet) -> tuple[Finding, ...]:
    draws = hole(leaks.total)
    said = joined(
        Said(f"{item} leaks as a hole of {{0}} would.", (Amount(middle(draws), "length"),)),
        _shares(leaks),
        _gaps_explain(item, leaks, cylinders),
    )
    if not leaks.fits:
        said = joined(Said(f"The readings of {item} do not fit one another: no leak explains all of them. Read again."), said)
    test = best_test(item, leaks, cylinders)
    settle = test.settle(item) if test is not None else ""
    line = replace(blank(item, ALL, dimension="length"), sentence=said, inputs=leaks.inputs, formula=FORMULA, settle=settle)
    return judged(line, draws)


def _shares(leaks: Leaks) -> Said:
    """Who leaks most, as far as it can be told."""
    chances = leader_chances(leaks)
    ranked = sorted(PATHS, key=lambda path: -chances[path])
    first, second = ranked[:2]
    if chances[first] > 0.9:
        return Said(f"It is the {NAMES[first]} ({chances[first]:.0%} sure that they leak most).".replace(
            "they", "they" if first == "rings" else "it") if first != "water" else
            f"It is {NAMES[first]} ({chances[first]:.0%} sure).")  # fmt: skip
    return Said(
        f"Which leaks most cannot be told yet: {_the(first)} {chances[first]:.0%}, {_the(second)} {chances[second]:.0%}."
    )


def _the(path: str) -> str:
    return NAMES[path] if path == "water" else f"the {NAMES[path]}"


def _gaps_explain(item: str, leaks: Leaks, cylinders: CylinderSet) -> Said:
    joints, _, read = ring_joints(item, cylinders)
    if not read:
        return Said("")
    share = middle(np.minimum(picked(joints, leaks.rows) / leaks.total, 1.0))
    return Said(f"The ring gaps as measured explain {share:.0%} of it; {1 - share:.0%} they do not.")


def _path(item: str, path: str, leaks: Leaks) -> tuple[Finding, ...]:
    draws, share = hole(leaks.areas[path]), leaks.areas[path] / leaks.total
    low, high = (float(np.quantile(share, each)) for each in (0.05, 0.95))
    said = Said(f"{item}: {_the(path)} make{'' if path == 'rings' else 's'} {low:.0%} to {high:.0%} of the leak.")
    line = blank(item, by_path(path), dimension="length")
    return judged(replace(line, sentence=said, inputs=leaks.inputs, formula=FORMULA), draws)


def _hold(item: str, leaks: Leaks, cylinders: CylinderSet) -> tuple[Finding, ...]:
    """Time in which half the pressure is lost with the piston held at inner dead centre."""
    read: Sequence[object] = [cylinders.read(d.DRY, item)]
    ambient = picked(cylinders.barometer[0], leaks.rows)
    peak = cylinders.gauge(leaks.total, leaks.volume, leaks.rows)
    draws = np.asarray(
        hold_time(
            volume=leaks.volume,
            area=leaks.total,
            first=ambient + peak,
            last=ambient + peak / 2,
            ambient=ambient,
            temperature=picked(cylinders.even("cold", (283.0, 298.0)), leaks.rows),
            points=8,
        )
    )
    at = middle(draws)
    said = Said(f"Held on compression by hand, {item} should lose half in about {at:.1f} s.")
    if read[0] is None:
        said = joined(said, Said("Its cranking pressure was not read; this goes by the leak test."))
    formula = "blow-down at the walls' temperature through the leak, to half the gauge pressure"
    return judged(replace(blank(item, HOLD, dimension="time"), sentence=said, inputs=leaks.inputs, formula=formula), draws)
