"""All that the readings of camshaft, lobes, followers and timing mean."""

from __future__ import annotations

from typing import cast

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.systems.camshaft import description as d
from gudgeon.systems.camshaft.bearings import bearing_findings, shaft_findings
from gudgeon.systems.camshaft.cam_set import CamSet
from gudgeon.systems.camshaft.followers import follower_findings
from gudgeon.systems.camshaft.lobes import lobe_findings
from gudgeon.systems.camshaft.timing import timing_findings


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where nothing of it was read or noted."""
    cams = CamSet.of(bench)
    if "findings" not in cams.worked_out:
        cams.worked_out["findings"] = (
            *(finding for lobe in cams.lobes for finding in lobe_findings(lobe, cams)),
            *(finding for follower in cams.followers for finding in follower_findings(follower, cams)),
            *(finding for bearing in cams.bearings for finding in bearing_findings(bearing, cams)),
            *shaft_findings(cams),
            *(finding for cylinder in bench.items(d.TIMING) for finding in timing_findings(cylinder, cams)),
        )
    return cast(tuple[Finding, ...], cams.worked_out["findings"])
