"""All that the readings of gears mean, set by set."""

from __future__ import annotations

from typing import cast

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.systems.gears.load import load_findings
from gudgeon.systems.gears.train import GearTrain
from gudgeon.systems.gears.wear import gear_findings, set_findings, uncounted_findings


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where no gear was read or noted."""
    train = GearTrain.of(bench)
    if "findings" not in train.worked_out:
        found: list[Finding] = []
        for one in train.sets:
            found += set_findings(one)
            if one.known:
                for gear in one.gears:
                    found += gear_findings(one, gear)
                found += load_findings(one)
        train.worked_out["findings"] = (*found, *uncounted_findings(train))
    return cast(tuple[Finding, ...], train.worked_out["findings"])
