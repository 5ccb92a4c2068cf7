"""Fit-up of the flywheel and clutch, each step a hold point; and what to draw of them."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Picture, Strip
from gudgeon.engine.step import StepDraft
from gudgeon.systems.drafting import last_step, step
from gudgeon.systems.flywheel import description as d
from gudgeon.systems.flywheel.findings import FACE, HUB_FIT, KEY_SLACK, MARGIN, RIM, STEADY, findings, safe_speed
from gudgeon.systems.flywheel.ways import CLUTCHES, HUBS, TRUE
from gudgeon.systems.flywheel.wheel_set import WheelSet
from gudgeon.systems.proposing import hours

STRIPS = (RIM, HUB_FIT, KEY_SLACK, FACE, STEADY, MARGIN)


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """The steps that put wheel and clutch back; none before anything was decided."""
    wheels = WheelSet.of(bench)
    decided = [subject for subject in (HUBS, TRUE) if bench.snapshot.verdict_on(subject) is not None]
    found: list[StepDraft] = []
    if decided and wheels.wheels:
        before = tuple(key for subject in decided for key in last_step(bench, subject))
        known = [speed for item in wheels.wheels if (speed := safe_speed(item, wheels)) is not None]
        most = f"; never past {min(known):.0f} rev/min" if known else ""
        found += [
            step(
                d.KEY,
                "fit-wheel",
                "Fit the wheel, key home, and turn it under a dial",
                hours=hours(1.0, 2.0, 3.5, len(wheels.wheels)),
                after=before,
                hold="no crack seen again in good light; no rock; run-out of side and rim read as fitted",
                works=("flywheel work", "lifting"),
            ),
            step(
                d.KEY,
                "fit-guard",
                f"Guard wheel and belt, cover the key's head{most}",
                hours=hours(0.5, 1.0, 2.0),
                after=("fit-wheel",),
                hold="guards on before the first run; key tried again after the first hour",
                works=("flywheel work", "belt work"),
            ),
        ]
    if bench.snapshot.verdict_on(CLUTCHES) is not None and wheels.clutches:
        found.append(
            step(
                d.KEY,
                "fit-clutch",
                "Fit the clutch and try it by hand, engine turned over",
                hours=hours(0.5, 1.0, 2.0),
                after=last_step(bench, CLUTCHES),
                hold="it takes up without slip and lets go fully; free travel read",
                works=("clutch work",),
            )
        )
    return tuple(found)


def pictures(bench: Bench) -> tuple[tuple[str, Picture], ...]:
    """A strip per key finding: of each the first authority whose limit decides, else the first."""
    chosen: dict[tuple[str, str], Finding] = {}
    for finding in findings(bench):
        if finding.quantity not in STRIPS or finding.value is None:
            continue
        key = finding.item, finding.quantity
        if key not in chosen or (chosen[key].standing == "for information" and finding.standing != "for information"):
            chosen[key] = finding
    return tuple((f"{finding.item} {finding.quantity}", Strip(finding=finding)) for finding in chosen.values())
