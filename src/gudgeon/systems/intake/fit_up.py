"""Fit-up of throttle and linkage, each step a hold point; and what to draw of them."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Picture, Strip
from gudgeon.engine.step import StepDraft
from gudgeon.systems.drafting import last_step, step
from gudgeon.systems.intake import description as d
from gudgeon.systems.intake.findings import JOINT_PLAY, LEAK, SHAFT_PLAY, findings
from gudgeon.systems.intake.ways import LINKAGE, THROTTLE
from gudgeon.systems.proposing import hours


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """The steps that put throttle and linkage back; none before anything was decided."""
    decided = [subject for subject in (THROTTLE, LINKAGE) if bench.snapshot.verdict_on(subject) is not None]
    if not decided:
        return ()
    before = tuple(key for subject in decided for key in last_step(bench, subject))
    return (
        step(
            d.KEY,
            "fit-shut",
            "Fit the throttle and hold it to the light; turn it from stop to stop",
            hours=hours(0.3, 0.5, 1.0),
            after=before,
            hold="no light but a hair round the disc, free from stop to stop, disc screws locked",
            works=("throttle work",),
        ),
        step(
            d.KEY,
            "fit-linkage",
            "Join the linkage and move it from the governor's end",
            hours=hours(0.3, 0.6, 1.0),
            after=("fit-shut",),
            hold="lost motion at the governor's end read as fitted; every cotter seen; nothing fouls from stop to stop",
            works=("throttle work",),
        ),
    )


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """A strip per key finding: of each the first authority whose limit decides, else the first."""
    chosen: dict[tuple[str, str], Finding] = {}
    for finding in findings(bench):
        if finding.quantity.split(",")[0] not in (JOINT_PLAY, LEAK, SHAFT_PLAY) or finding.value is None:
            continue
        key = finding.item, finding.quantity
        if key not in chosen or (chosen[key].standing == "for information" and finding.standing != "for information"):
            chosen[key] = finding
    return tuple((f"{finding.item} {finding.quantity}", Strip(finding=finding)) for finding in chosen.values())
