"""Fit-up of pivots: tried dry, oiled, free without shake, read as fitted; and what to draw of them."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Picture, Strip
from gudgeon.engine.step import StepDraft
from gudgeon.systems.drafting import band, last_step, step
from gudgeon.systems.pivots import description as d
from gudgeon.systems.pivots.ways import groups, subject_of
from gudgeon.systems.pivots.wear import CLEARANCE, PIN_WEAR, findings
from gudgeon.systems.proposing import hours


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """One step for the pivots of each use that was decided; none before."""
    found = []
    for group in groups(bench):
        subject = subject_of(group.use)
        if bench.snapshot.verdict_on(subject) is None:
            continue
        joint = group.joints[0]
        found.append(
            step(
                d.KEY,
                f"{group.use.name}-fit",
                f"Fit the {group.use.title} oiled; each turns by its own weight and does not shake; cotters and clips home",
                hours=hours(0.1, 0.2, 0.4, len(group.joints)),
                after=last_step(bench, subject),
                hold=f"clearance of every pin read as fitted, {band(joint.aim)} aimed at, and every cotter seen",
            )
        )
    return tuple(found)


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """A strip per joint and key finding: of each the first authority whose limit decides, else the first."""
    chosen: dict[tuple[str, str], Finding] = {}
    for finding in findings(bench):
        if finding.quantity not in (CLEARANCE, PIN_WEAR) or finding.value is None:
            continue
        key = finding.item, finding.quantity
        if key not in chosen or (chosen[key].standing == "for information" and finding.standing != "for information"):
            chosen[key] = finding
    return tuple((f"{finding.item} {finding.quantity}", Strip(finding=finding)) for finding in chosen.values())
