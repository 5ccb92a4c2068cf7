"""Fit-up of fasteners and keys: run in by hand, pulled up in turn, keys bedded; and what to draw of them."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Picture, Strip
from gudgeon.engine.step import StepDraft
from gudgeon.systems.drafting import both, last_step, step
from gudgeon.systems.fasteners import description as d
from gudgeon.systems.fasteners.balls import DIFFER
from gudgeon.systems.fasteners.keys import SLACK
from gudgeon.systems.fasteners.screws import CLAMP
from gudgeon.systems.fasteners.store import Store, findings
from gudgeon.systems.fasteners.ways import KEYS, SCREWS, tightening
from gudgeon.systems.proposing import hours

STRIPS = (CLAMP, DIFFER, SLACK)


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """Steps after the verdicts on threads and keys; none before."""
    store = Store.of(bench)
    found = []
    if bench.snapshot.verdict_on(SCREWS) is not None and store.screws:
        told = "; ".join(f"{screw.item} {both(torque, 'torque')}" for screw, torque in tightening(store)[:6])
        found.append(
            step(
                d.KEY,
                "fit-tighten",
                "Oil threads and seats; run every nut down by hand; pull up from the middle outwards in three rounds",
                hours=hours(0.2, 0.4, 0.8, max(len(store.screws) // 4, 1)),
                after=last_step(bench, SCREWS),
                hold="every nut went down by hand" + (f"; tightened at last to {told}" if told else "") + "; locked",
            )
        )
    if bench.snapshot.verdict_on(KEYS) is not None and store.keys:
        found.append(
            step(
                d.KEY,
                "fit-keys",
                "Drive each key home oiled, count the blows, mark it; turn the hub against its shaft by a lever",
                hours=hours(0.2, 0.4, 0.8, len(store.keys)),
                after=last_step(bench, KEYS),
                hold="no hub rocks on its shaft; keys seen again after the first hour of running",
                works=("flywheel work",),
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
