"""All that the readings of troughs, pump, oilers and oil mean."""

from __future__ import annotations

from typing import cast

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.systems.kit import Kit
from gudgeon.systems.oiling import description as d
from gudgeon.systems.oiling.film import film_findings
from gudgeon.systems.oiling.pumping import pump_findings
from gudgeon.systems.oiling.splash import oiler_findings, trough_findings, use_findings


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where none of its parts was read or noted."""
    kit = Kit.of(bench, d.KEY)
    return cast(tuple[Finding, ...], kit.once("findings", lambda: _findings(kit)))


def _findings(kit: Kit) -> tuple[Finding, ...]:
    return (
        *(each for item in kit.items(d.TROUGH) for each in trough_findings(kit, item)),
        *(each for item in kit.items(d.PUMP) for each in pump_findings(kit, item)),
        *(each for item in kit.items(d.OILER) for each in oiler_findings(kit, item)),
        *(each for item in kit.items(d.OIL) for part in (film_findings, use_findings) for each in part(kit, item)),
    )
