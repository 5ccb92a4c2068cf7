"""What to draw of the cylinders: bores opened out flat, walls, the key findings on a scale, the candidates for the bore."""

from __future__ import annotations

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import BoreMap, Picture, SizePosterior, Strip, WallMap
from gudgeon.systems.cylinders.block import Block
from gudgeon.systems.cylinders.clearances import CLEARANCE, GAP_TOP
from gudgeon.systems.cylinders.description import BORE
from gudgeon.systems.cylinders.findings import findings
from gudgeon.systems.cylinders.spots import Bore
from gudgeon.systems.cylinders.wear import ROUND, TAPER, WEAR, size_for_rules, travel_ends

STRIPS = (WEAR, TAPER, ROUND, CLEARANCE, GAP_TOP)


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """Name and data of every picture: per cylinder its bore map, wall map and candidates, then a strip per key finding."""
    block = Block.of(bench)
    found: list[tuple[str, Picture]] = []
    for bore in block.bores:
        for name, picture in (
            ("bore map", bore_map(bore, block)),
            ("wall map", wall_map(bore, block)),
            ("candidates", candidates(bore, bench)),
        ):
            if picture is not None:
                found.append((f"{bore.item} {name}", picture))
    found += [(f"{finding.item} {finding.quantity}", Strip(finding=finding)) for finding in _key_findings(findings(bench))]
    return tuple(found)


def _key_findings(found: tuple[Finding, ...]) -> list[Finding]:
    """The measured findings that a strip is drawn of: of each the first authority whose limit decides, else the first."""
    chosen: dict[tuple[str, str], Finding] = {}
    for finding in found:
        if finding.quantity not in STRIPS or finding.value is None:
            continue
        key = finding.item, finding.quantity
        if key not in chosen or (chosen[key].standing == "for information" and finding.standing != "for information"):
            chosen[key] = finding
    return list(chosen.values())


def bore_map(bore: Bore, block: Block) -> BoreMap | None:
    """Wear at every spot whose depth and direction are known; None where there is none, or the size when new is not known."""
    if bore.original is None:
        return None
    original = float(np.median(bore.original))
    spots = tuple(
        (spot.depth, spot.direction, spot.estimate.value - original)
        for spot in bore.spots
        if spot.depth is not None and spot.direction is not None
    )
    if not spots:
        return None
    top, bottom = travel_ends(bore, block.bench)
    up = block.clean_ups[bore.item]
    return BoreMap(
        title=f"{bore.item}: wear of the bore, opened out",
        spots=spots,
        travel_top=top,
        travel_bottom=bottom,
        worst=max(wear for _, _, wear in spots),
        nominal=size_for_rules(bore, block.bench),
        clean_up=float(np.median(up.kept)) if up is not None else None,
    )


def wall_map(bore: Bore, block: Block) -> WallMap | None:
    """Wall at every place whose direction is known; None where there is none."""
    wall = block.walls[bore.item]
    if wall is None:
        return None
    spots = tuple((spot.depth or 0.0, spot.direction, spot.value) for spot in wall.spots if spot.direction is not None)
    if not spots:
        return None
    return WallMap(title=f"{bore.item}: wall between bore and jacket", spots=spots, least=block.least_wall.size)


def candidates(bore: Bore, bench: Bench) -> SizePosterior | None:
    """The sizes that the drawing may have called for, with the readings of the unworn belt under them."""
    specification = bench.specification("cylinder", bore.item, BORE.name)
    if specification is None or specification.nominal is None:
        return None
    first = (
        specification.nominal,
        " ".join(filter(None, (specification.written, specification.rework))),
        specification.probability,
    )
    others = tuple(
        (each.nominal, " ".join(filter(None, (each.written, each.rework))), each.probability)
        for each in specification.runners_up
    )
    readings = tuple(spot.estimate.value for spot in bore.unworn)
    return SizePosterior(title=f"{bore.item}: what it was made to", candidates=(first, *others), readings=readings)
