"""What to draw of crankshaft and mains: lobes of the journals, the bow, oil films, key findings on a scale."""

from __future__ import annotations

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Curve, Picture, Strip
from gudgeon.systems.crankshaft import description as d
from gudgeon.systems.crankshaft.findings import BOW, findings
from gudgeon.systems.crankshaft.shaft import Shaft
from gudgeon.systems.journals import ROUND, TAPER, THOU, lobe
from gudgeon.systems.poured import CLEARANCE, film_curve

STRIPS = (CLEARANCE, ROUND, TAPER, BOW, d.END_PLAY.name)


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """Name and data of every picture."""
    shaft = Shaft.of(bench)
    found: list[tuple[str, Picture]] = []
    if (drawn := bow_curve(shaft)) is not None:
        found.append((f"{d.SHAFT} bow", drawn))
    for main in shaft.mains:
        if (drawn := lobe(main)) is not None:
            found.append((f"{main.item} lobe", drawn))
    for each in shaft.bearings.bearings:
        if (drawn := film_curve(each)) is not None:
            found.append((f"{each.item} oil film", drawn))
    found += [(f"{one.item} {one.quantity}", Strip(finding=one)) for one in _key_findings(findings(bench))]
    return tuple(found)


def bow_curve(shaft: Shaft) -> Curve | None:
    """The bend along the shaft in line with the first throw and across it; None where directions were not noted."""
    found = shaft.bow
    if found is None or found.x is None or found.y is None:
        return None
    parts = (("in line with the first throw", found.x), ("a quarter turn on", found.y))
    scale = 1.0 if found.even else 1.0 / 0.0254
    return Curve(
        title="Bow of the crankshaft, off the line of its end mains",
        x_text="main, counted" if found.even else "along the shaft [in]",
        y_text="off the line [thou]",
        curves=tuple(
            (
                name,
                tuple(
                    (place * scale + (1.0 if found.even else 0.0), float(np.median(draws)) / THOU)
                    for place, draws in zip(found.positions, rows, strict=True)
                ),
            )
            for name, rows in parts
        ),
    )


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
