"""All that the readings of the governor mean."""

from __future__ import annotations

from typing import cast

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.systems.governor.governor_set import GovernorSet
from gudgeon.systems.governor.joints import joint_findings
from gudgeon.systems.governor.running import running_findings


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where no part of a governor was read or noted."""
    one = GovernorSet.of(bench)
    if not one.present:
        return ()
    if "findings" not in one.worked_out:
        one.worked_out["findings"] = (*running_findings(one), *joint_findings(one))
    return cast(tuple[Finding, ...], one.worked_out["findings"])
