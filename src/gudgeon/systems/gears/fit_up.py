"""Fit-up of gears: in line, true, marks together, backlash at four places, blue on the flanks; each a hold point."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.step import StepDraft
from gudgeon.systems.drafting import both, step
from gudgeon.systems.gears import description as d
from gudgeon.systems.gears.train import GearTrain, RunningSet
from gudgeon.systems.gears.ways import after_gears, short, subject_of
from gudgeon.systems.proposing import hours, listed


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """The steps that put the gears back, after what was decided of them; none before anything was."""
    found: list[StepDraft] = []
    for one in GearTrain.of(bench).sets:
        if bench.snapshot.verdict_on(subject_of(one)) is not None:
            found += _of_set(one)
    return tuple(found)


def _of_set(one: RunningSet) -> list[StepDraft]:
    name = short(one)
    target = one.backlash_practice().target
    ends = [end for end in (target.low, target.high) if end is not None] if target else []
    aim = (
        f", {' to '.join(dict.fromkeys(both(end) for end in ends))} aimed at ({target.origin.source})"
        if target and ends
        else ""
    )
    marks = [f"{item}: {words}" for item in one.items if (words := one.reader.words(d.MARKS, item)[0])]
    return [
        step(
            d.KEY,
            f"{name}-fit-true",
            f"Fit keys and gears, {listed(one.items)}; read the run-out of each over a pin in its spaces, on its own shaft",
            hours=hours(0.5, 1.0, 2.0),
            after=after_gears(one),
            hold=f"run-out of each gear read as fitted, {both(0.002 * d.INCH)} at most",
            works=("pressing",),
        ),
        step(
            d.KEY,
            f"{name}-fit-marks",
            "Bring the timing marks together"
            + (f" ({'; '.join(marks)})" if marks else "; where there are none, set by the valves"),
            hours=hours(0.2, 0.5, 1.5),
            after=(f"{name}-fit-true",),
            hold="timing marks seen together and photographed before anything covers them",
        ),
        step(
            d.KEY,
            f"{name}-fit-backlash",
            "Read the backlash at the pitch line at four places round the larger gear, shafts pressed to their running side",
            hours=hours(0.3, 0.5, 1.0),
            after=(f"{name}-fit-marks",),
            hold=f"backlash at four places read as fitted{aim}; none where it is less than {both(0.001 * d.INCH)}",
        ),
        step(
            d.KEY,
            f"{name}-fit-blue",
            "Blue one gear, turn both ways, look at the other's flanks",
            hours=hours(0.2, 0.3, 0.6),
            after=(f"{name}-fit-backlash",),
            hold="blue over most of the face and the middle of the height, not at one end",
            works=("first start",),
        ),
    ]
