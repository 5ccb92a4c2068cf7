"""All that the readings of magneto, plugs, rim and lobes mean."""

from __future__ import annotations

from typing import cast

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.systems.ignition import description as d
from gudgeon.systems.ignition.crank_marks import crank_findings
from gudgeon.systems.ignition.spark import gap_findings, spark_findings
from gudgeon.systems.kit import Kit


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where none of its parts was read or noted."""
    kit = Kit.of(bench, d.KEY)
    return cast(tuple[Finding, ...], kit.once("findings", lambda: _findings(kit)))


def _findings(kit: Kit) -> tuple[Finding, ...]:
    found: list[Finding] = []
    if kit.items(d.MAGNETO):
        found += spark_findings(kit)
    elif kit.items(d.PLUG, d.IGNITER):
        found += [each for each in gap_findings(kit) if each.part != d.MAGNETO]
    return (*found, *crank_findings(kit))
