"""What to draw of the gears: the tooth as worn over the tooth as cut, backlash round, key findings on a scale."""

from __future__ import annotations

import math

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Picture, Profile, Strip
from gudgeon.mechanics import gear_geometry as geometry
from gudgeon.metrology.gear_readings import GearFound
from gudgeon.systems.gears.findings import findings
from gudgeon.systems.gears.train import GearTrain, RunningSet
from gudgeon.systems.gears.wear import BACKLASH, CONTACT, THINNED

STRIPS = (BACKLASH, THINNED, CONTACT)
STEPS = 24
SHOWN = 5.0
"""Wear is drawn so many times too large, or nobody would see it."""

Outline = tuple[tuple[float, float], ...]


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """Name and data of every picture: a tooth of each gear, then a strip per key finding."""
    found: list[tuple[str, Picture]] = []
    for one in GearTrain.of(bench).sets:
        for gear in one.gears:
            tooth = tooth_picture(one, gear)
            if tooth is not None:
                found.append((f"{gear.item} tooth", tooth))
    found += [(f"{finding.item} {finding.quantity}", Strip(finding=finding)) for finding in _key_findings(findings(bench))]
    return tuple(found)


def _key_findings(found: tuple[Finding, ...]) -> list[Finding]:
    chosen: dict[tuple[str, str], Finding] = {}
    for finding in found:
        if finding.quantity not in STRIPS or finding.value is None:
            continue
        key = finding.item, finding.quantity
        if key not in chosen or (chosen[key].standing == "for information" and finding.standing != "for information"):
            chosen[key] = finding
    return list(chosen.values())


def tooth_picture(one: RunningSet, gear: GearFound) -> Profile | None:
    """A tooth as cut and, its wear drawn larger than it is, as worn; None where the wear was not read."""
    worn = one.worn(gear)
    if worn is None:
        return None
    place = one.gears.index(gear)
    teeth = one.likeliest.teeth(place)
    thinned = max(float(np.median(worn.worst)), 0.0)
    thickness = float(teeth.thickness)
    outside, root = float(teeth.outside(gear.count)), float(teeth.root(gear.count))

    def drawn(thick: float) -> Outline:
        return tooth_outline(
            teeth=gear.count,
            module=float(teeth.module),
            angle=float(teeth.angle),
            thickness=thick,
            outside=outside,
            root=root,
        )

    left = max(thickness - SHOWN * thinned, 0.2 * thickness)
    shown = (thickness - left) / thinned if thinned > 0 else SHOWN
    return Profile(
        title=f"A tooth of {gear.item}, {one.likeliest.written}",
        outlines=(
            ("as cut, without backlash", drawn(thickness)),
            (f"as worn where thinnest, wear drawn {shown:.0f} times", drawn(left)),
        ),
        circles=(("pitch line", gear.count * float(teeth.module) / 2),),
    )


def tooth_outline(*, teeth: int, module: float, angle: float, thickness: float, outside: float, root: float) -> Outline:
    """A tooth standing upright on its gear's centre at (0, 0): points from root to root over the tip [m].

    Involute flanks above the base circle, straight towards the centre below it; the fillet is left out.
    """
    base = float(geometry.base_diameter(teeth=teeth, module=module, angle=angle))
    low = max(root, base)
    diameters = np.linspace(low, outside, STEPS)
    arcs = np.asarray(geometry.thickness_at(diameter=diameters, thickness=thickness, teeth=teeth, module=module, angle=angle))
    halves = np.maximum(arcs / diameters, 0.0)
    right = [(d / 2 * math.sin(half), d / 2 * math.cos(half)) for d, half in zip(diameters, halves, strict=True)]
    if root < low:
        right.insert(0, (root / 2 * math.sin(halves[0]), root / 2 * math.cos(halves[0])))
    return (*((-x, y) for x, y in right), *reversed(right))
