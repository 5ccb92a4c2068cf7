"""All that the compression test says, cylinder by cylinder."""

from __future__ import annotations

from typing import cast

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.systems.compression.cylinder_set import CylinderSet
from gudgeon.systems.compression.first_start import first_start_findings
from gudgeon.systems.compression.leak_findings import leak_findings
from gudgeon.systems.compression.pressures import pressure_findings, spread_finding


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where nothing of the test was read or noted."""
    cylinders = CylinderSet.of(bench)
    if not cylinders.items:
        return ()
    if "findings" not in cylinders.worked_out:
        parts = (pressure_findings, leak_findings, first_start_findings)
        cylinders.worked_out["findings"] = (
            *(finding for item in cylinders.items for part in parts for finding in part(item, cylinders)),
            *spread_finding(cylinders),
        )
    return cast(tuple[Finding, ...], cylinders.worked_out["findings"])
