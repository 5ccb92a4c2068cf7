"""All that the readings of valves, guides, seats and springs mean, valve by valve and spring by spring."""

from __future__ import annotations

from typing import cast

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.systems.valves.flow import flow_findings
from gudgeon.systems.valves.lash import lash_findings
from gudgeon.systems.valves.seats import seat_findings
from gudgeon.systems.valves.spring_findings import spring_findings
from gudgeon.systems.valves.stems import stem_findings
from gudgeon.systems.valves.valve_set import ValveSet


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where neither valve nor spring was read or noted."""
    valves = ValveSet.of(bench)
    if "findings" not in valves.worked_out:
        valves.worked_out["findings"] = (
            *(
                finding
                for item in valves.items
                for part in (stem_findings, seat_findings, flow_findings, lash_findings)
                for finding in part(item, valves)
            ),
            *(finding for item in valves.springs for finding in spring_findings(item, valves)),
        )
    return cast(tuple[Finding, ...], valves.worked_out["findings"])
