"""Fit-up of camshaft and followers: turning free, end play, rollers square on their lobes, timing on the rim."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.step import StepDraft
from gudgeon.systems.camshaft.cam_set import CamSet
from gudgeon.systems.camshaft.steps import BEARINGS, FOLLOWERS, LOBES, last_step, step
from gudgeon.systems.proposing import hours


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """The steps that put camshaft and followers back, after the last steps of what was decided; none before anything was."""
    cams = CamSet.of(bench)
    decided = [subject for subject in (LOBES, FOLLOWERS, BEARINGS) if bench.snapshot.verdict_on(subject) is not None]
    if not decided:
        return ()
    before = tuple(key for subject in decided for key in last_step(cams, subject))
    count = max(len(cams.followers), 1)
    return (
        step(
            "fit-cam",
            "Oil the camshaft in; turn it by hand, read clearances and end play",
            hours=hours(0.5, 1.0, 2.0),
            after=before,
            hold="it turns by two fingers; clearance of every cam bearing and end play read as fitted",
        ),
        step(
            "fit-followers",
            "Fit the followers with oil; blue each lobe and turn once",
            hours=hours(0.2, 0.3, 0.5, count),
            after=("fit-cam",),
            hold="every roller or face bears across its whole width and rolls, not skids",
        ),
        step(
            "fit-timing",
            "Mesh the gears on their marks; true inner dead centre by a stop both ways; read every event on the rim",
            hours=hours(1.0, 2.0, 4.0),
            after=("fit-followers",),
            hold="opening and closing of every valve of one cylinder read as fitted, lash set",
            works=("valve work",),
        ),
    )
