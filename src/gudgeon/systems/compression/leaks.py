"""From readings backwards to leaks: which areas, by which paths, would show what was read and heard.

Every path's area is drawn beforehand over what such paths are known to span, rings from their measured gaps. Draws are then
weighed by how well they explain dry and oiled pressure, the leak test and what was heard, and drawn again by weight.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import cast

import numpy as np

from gudgeon.engine.system import Feature
from gudgeon.handbook.rules import rules
from gudgeon.mechanics.gas_flow import area_in_series, leak_down_pressure
from gudgeon.mechanics.rings import joint_leak_area
from gudgeon.quantity.draws import generator
from gudgeon.systems.compression import description as d
from gudgeon.systems.compression.cylinder_set import CylinderSet, Rows, inputs_of
from gudgeon.systems.compression.listening import PLACES, heard
from gudgeon.systems.measured import Draws, Measured

MM2 = 1e-6
PATHS = tuple(PLACES)
NAMES = {
    "rings": "rings",
    "intake": "intake valve",
    "exhaust": "exhaust valve",
    "plug": "plug or gasket",
    "water": "a crack to the water",
}

SPANS: Mapping[str, tuple[float, float]] = {
    "rings": (0.03 * MM2, 8.0 * MM2),
    "intake": (0.003 * MM2, 10.0 * MM2),
    "exhaust": (0.003 * MM2, 10.0 * MM2),
    "plug": (0.0005 * MM2, 1.0 * MM2),
    "water": (0.0001 * MM2, 0.5 * MM2),
}
"""Effective areas that each path may have before anything is read, evenly in the logarithm [m2]; for rings what their faces and
sides leak besides the joints, all rings in a row. F, chosen wide: a lapped seat to a burnt one."""

NEW: Mapping[str, tuple[float, float]] = {
    "rings": (0.05 * MM2, 0.5 * MM2),
    "intake": (0.003 * MM2, 0.08 * MM2),
    "exhaust": (0.003 * MM2, 0.08 * MM2),
}
"""The same after new rings, not yet run in, and valves ground in; F, chosen: a .040 in tester then shows 75/80 or better."""

LAND = (0.004 * d.INCH, 0.012 * d.INCH)
"""Clearance on the radius beside a ring's joint where the piston was not read [m]."""
JOINT = (0.15, 0.85)
"""Discharge coefficient of a ring's joint, step and mitre cuts included: they leave less than the butt joint's gap."""
TESTER = (0.78, 0.92)
"""Discharge coefficient of the tester's restrictor, short with a coned approach; from memory."""
SEALED = (0.5, 0.95)
"""Share of the rings' leak that a spoonful of oil stops for the test's few turns; from memory."""
SPOON = (8.0 * d.CC, 16.0 * d.CC)
"""A tablespoon, less what the walls hold [m3]."""
EAR = 0.15 * MM2
"""Effective area that half of all listeners hear at test pressure [m2]; F, chosen: 0.4 mm across, near the whole flow of a
cylinder that holds 79 of 80."""
MODEL = 0.03
"""Standard uncertainty of the model itself, of a gauge pressure."""
ENOUGH = 150


@dataclass(frozen=True, kw_only=True)
class Leaks:
    """What the readings of one cylinder say of its leaks.

    Attributes
    ----------
    areas : per path effective areas [m2], draws of equal weight.
    volume : clearance volume [m3] on the same draws. ``rows`` are the draws of the bench that they are.
    readings : names of what was used. ``fits`` is False where no leak explains all of it.
    """

    areas: Mapping[str, Draws]
    volume: Draws
    rows: Rows
    readings: tuple[str, ...]
    inputs: tuple[str, ...]
    fits: bool

    @property
    def total(self) -> Draws:
        """All leaks together [m2]."""
        return np.asarray(sum(self.areas.values()))


def ring_joints(item: str, cylinders: CylinderSet) -> tuple[Draws, tuple[str, ...], bool]:
    """Effective area of the ring joints in a row [m2], readings behind it, and whether gaps were read."""
    key = f"ring joints of {item}"
    if key not in cylinders.worked_out:
        cylinders.worked_out[key] = _ring_joints(item, cylinders)
    return cast(tuple[Draws, tuple[str, ...], bool], cylinders.worked_out[key])


def _ring_joints(item: str, cylinders: CylinderSet) -> tuple[Draws, tuple[str, ...], bool]:
    count = max(cylinders.bench.snapshot.outline.rings_per_piston or 3, 1)
    gap = next((f for q in _GAPS if (f := cylinders.found("cylinders", q, item)) is not None), None)
    opening = cylinders.draws_of(gap) if gap is not None else cylinders.even("gap", (0.010 * d.INCH, 0.060 * d.INCH))
    skirt = cylinders.found("cylinders", "piston clearance", item)
    land = cylinders.draws_of(skirt) if skirt is not None else cylinders.even("land", LAND)
    one = np.asarray(
        joint_leak_area(joint="butt", gap=np.maximum(opening, 0.0), land_clearance=np.maximum(land, 0.0005 * d.INCH))
    )
    row = float(area_in_series(areas=(1.0,) * count, ratio=0.3))
    inputs = inputs_of(gap.inputs if gap else (), skirt.inputs if skirt else ())
    return one * cylinders.even("joint", JOINT) * row, inputs, gap is not None


_GAPS = ("ring end gap at top of ring travel", "ring end gap in unworn belt")


def before(item: str, cylinders: CylinderSet) -> dict[str, Draws]:
    """Areas of every path before anything is read of the cylinder's compression [m2]."""
    areas = {path: spanned(f"{path} of {item}", span, cylinders) for path, span in SPANS.items()}
    areas["rings"] = areas["rings"] + ring_joints(item, cylinders)[0]
    return areas


def spanned(name: str, span: tuple[float, float], cylinders: CylinderSet) -> Draws:
    """Draws evenly over the logarithm of a span."""
    return np.exp(cylinders.even(name, (math.log(span[0]), math.log(span[1]))))


def oiled(areas: Mapping[str, Draws], volume: Draws, cylinders: CylinderSet, rows: Rows | None = None) -> tuple[Draws, Draws]:
    """Total area [m2] and clearance volume [m3] with oil on the rings."""
    stopped, spoon = (picked(cylinders.even(*each), rows) for each in (("sealed", SEALED), ("spoon", SPOON)))
    return np.asarray(sum(areas.values())) - areas["rings"] * stopped, volume - spoon


def picked(draws: Draws, rows: Rows | None) -> Draws:
    """Draws of the bench picked by their number, all of them where no numbers are given."""
    return draws if rows is None else draws[rows]


def restrictor(cylinders: CylinderSet) -> tuple[Draws, tuple[str, ...], str]:
    """Effective area of the tester's restrictor [m2], its reading, and where its size comes from."""
    read = cylinders.read(d.RESTRICTOR, cylinders.shop)
    if read is not None:
        size, inputs, said = read.draws, read.inputs, "as read"
    else:
        row = rules("leak tester restrictor", size=cylinders.bore or 0.1)[0]
        size, inputs, said = cylinders.reader.full(row.high or 0.001), (), f"{row.authority}, {row.applies}"
    return cylinders.even("tester", TESTER) * math.pi / 4 * size**2, inputs, said


def supply(cylinders: CylinderSet) -> tuple[Draws, tuple[str, ...]]:
    """Pressure set on the tester, gauge [Pa]: as read, else 80 psi."""
    read = cylinders.read(d.SUPPLY, cylinders.shop)
    return (read.draws, read.inputs) if read is not None else (cylinders.reader.full(80 * d.PSI), ())


def leak_down(total: Draws, cylinders: CylinderSet, rows: Rows | None = None) -> Draws:
    """What the leak test would show, gauge [Pa].

    Held over supply depends on two ratios only, leak over restrictor and barometer over supply: looked up, straight between 301
    of the one and both ends of the other; within .05 % of supply.
    """
    ambient = picked(cylinders.barometer[0], rows)
    given = picked(supply(cylinders)[0], rows) + ambient
    ratio = np.log(total / picked(restrictor(cylinders)[0], rows))
    ends, held = _leak_test_table(cylinders)
    low, high = (np.interp(ratio, _RATIOS, each) for each in held)
    share = (ambient / given - ends[0]) / (ends[1] - ends[0])
    return np.asarray((low + (high - low) * share) * given - ambient)


_RATIOS = np.linspace(math.log(1e-4), math.log(1e3), 301)


def _leak_test_table(cylinders: CylinderSet) -> tuple[tuple[float, float], tuple[Draws, Draws]]:
    """Held over supply for every ratio of leak to restrictor, at both ends of barometer over supply."""
    if "leak test" not in cylinders.worked_out:
        outside = cylinders.barometer[0] / (supply(cylinders)[0] + cylinders.barometer[0])
        ends = (float(outside.min()), float(outside.max()) + 1e-6)
        low, high = (np.asarray(leak_down_pressure(orifice=1.0, leak=np.exp(_RATIOS), supply=1.0, ambient=end)) for end in ends)
        cylinders.worked_out["leak test"] = ends, (low, high)
    return cast(tuple[tuple[float, float], tuple[Draws, Draws]], cylinders.worked_out["leak test"])


def chance_heard(area: Draws) -> Draws:
    """Chance that a leak is heard, by its effective area [m2]."""
    return np.asarray(1 / (1 + (EAR / area) ** 2))


def leaks_of(item: str, cylinders: CylinderSet) -> Leaks | None:
    """The leaks of a cylinder; None where no pressure was read or its geometry is not known."""
    name = f"leaks of {item}"
    if name not in cylinders.worked_out:
        cylinders.worked_out[name] = _fitted(item, cylinders)
    return cast("Leaks | None", cylinders.worked_out[name])


def _fitted(item: str, cylinders: CylinderSet) -> Leaks | None:
    poured = cylinders.volume(item)
    if poured is None or cylinders.lanes is None:
        return None
    volume, areas = poured[0], before(item, cylinders)
    log, used, inputs = _likelihood(item, areas, volume, cylinders)
    if not used:
        return None
    fits = bool(np.partition(log, -20)[-20] > -4.5 * len(used))
    rows = _drawn_again(log, item)
    return Leaks(
        areas={path: area[rows] for path, area in areas.items()},
        volume=volume[rows],
        rows=rows,
        readings=used,
        inputs=inputs_of(poured[1], inputs, ring_joints(item, cylinders)[1], cylinders.barometer[1], cylinders.speed[1]),
        fits=fits,
    )


def _likelihood(
    item: str, areas: Mapping[str, Draws], volume: Draws, cylinders: CylinderSet
) -> tuple[Draws, tuple[str, ...], tuple[str, ...]]:
    log, used, inputs = np.zeros(len(volume)), list[str](), list[str]()
    for feature in (d.DRY, d.OILED, d.LEAK_DOWN):
        if (read := cylinders.read(feature, item)) is not None:
            log += _misses(read, _foretold(feature, areas, volume, cylinders))
            used.append(feature.title.lower())
            inputs += read.inputs
    words, spoken = cylinders.reader.words(d.HEARD, item)
    if used and words:
        for path, loud in heard(words).items():
            chance = chance_heard(areas[path])
            log += np.log(np.maximum(chance if loud else 1 - chance, 0.02))
        used.append("what was heard")
        inputs += spoken
    return log, tuple(used), tuple(inputs)


def _foretold(feature: Feature, areas: Mapping[str, Draws], volume: Draws, cylinders: CylinderSet) -> Draws:
    """What one of the three tests would show, gauge [Pa]."""
    total = np.asarray(sum(areas.values()))
    if feature is d.LEAK_DOWN:
        return leak_down(total, cylinders)
    return cylinders.gauge(*(oiled(areas, volume, cylinders) if feature is d.OILED else (total, volume)))


def _misses(read: Measured, foretold: Draws) -> Draws:
    """Log of how likely a reading is where something was foretold, up to a constant."""
    spread = np.hypot(float(np.std(read.draws)), MODEL * foretold)
    return np.asarray(-0.5 * ((read.value - foretold) / spread) ** 2 - np.log(spread / (MODEL * abs(read.value) + d.PSI)))


def _drawn_again(log: Draws, item: str) -> Rows:
    """Draws picked by weight, evenly spaced (systematic resampling); weights are flattened where too few would carry all."""
    power = 1.0
    while True:
        weights = np.exp(power * (log - log.max()))
        if weights.sum() ** 2 / (weights**2).sum() >= min(ENOUGH, len(log) / 4) or power < 0.05:
            break
        power *= 0.7
    below = np.cumsum(weights) / weights.sum()
    at = (np.arange(len(log)) + generator("compression, drawn again", item).random()) / len(log)
    return np.minimum(np.searchsorted(below, at), len(log) - 1)
