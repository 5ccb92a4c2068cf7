"""What to draw of the rods: the lobe of each pin, its oil film by clearance, clearance and shims on a scale."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Picture, Strip
from gudgeon.systems.bearings.findings import findings
from gudgeon.systems.bearings.rods import Rods
from gudgeon.systems.journals import ROUND, TAPER, lobe
from gudgeon.systems.poured import CLEARANCE, film_curve

STRIPS = (CLEARANCE, ROUND, TAPER)


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """Name and data of every picture."""
    rods = Rods.of(bench)
    found: list[tuple[str, Picture]] = []
    for pin in rods.pins:
        if (drawn := lobe(pin)) is not None:
            found.append((f"{pin.item} lobe", drawn))
    for each in rods.bearings.bearings:
        if (drawn := film_curve(each)) is not None:
            found.append((f"{each.item} oil film", drawn))
    found += [(f"{one.item} {one.quantity}", Strip(finding=one)) for one in key_findings(findings(bench))]
    return tuple(found)


def key_findings(found: tuple[Finding, ...]) -> list[Finding]:
    """The measured findings that a strip is drawn of: of each the first authority whose limit decides, else the first."""
    chosen: dict[tuple[str, str], Finding] = {}
    for finding in found:
        if finding.quantity not in STRIPS or finding.value is None:
            continue
        key = finding.item, finding.quantity
        if key not in chosen or (chosen[key].standing == "for information" and finding.standing != "for information"):
            chosen[key] = finding
    return list(chosen.values())
