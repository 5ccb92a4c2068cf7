"""All that the readings of water pump, hopper and water mean."""

from __future__ import annotations

from typing import cast

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.systems.cooling import description as d
from gudgeon.systems.cooling.shaft import shaft_findings
from gudgeon.systems.cooling.water import water_findings
from gudgeon.systems.kit import Kit


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where none of its parts was read or noted."""
    kit = Kit.of(bench, d.KEY)
    return cast(tuple[Finding, ...], kit.once("findings", lambda: _findings(kit)))


def _findings(kit: Kit) -> tuple[Finding, ...]:
    shafts = tuple(each for item in kit.items(d.PUMP) for each in shaft_findings(kit, item))
    return (*shafts, *water_findings(kit))
