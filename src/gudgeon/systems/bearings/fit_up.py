"""Fit-up of the rods: checks, hold points, and the readings wanted as fitted."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Range
from gudgeon.engine.step import StepDraft
from gudgeon.quantity import Amount
from gudgeon.quantity.show import show
from gudgeon.systems.bearings import description as d
from gudgeon.systems.bearings.remedies import RODS
from gudgeon.systems.bearings.rods import Rods
from gudgeon.systems.proposing import OWN


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """The steps that put the rods on their pins, after the last step of the verdict on them; none before a verdict."""
    verdict = bench.snapshot.verdict_on(RODS)
    rods = Rods.of(bench)
    if verdict is None or not rods.bearings.bearings:
        return ()
    last = verdict.chosen.steps[-1].key if verdict.chosen.steps else ""
    count = len(rods.bearings.bearings)
    target = rods.bearings.bearings[0].target
    low, high = (show(Amount(end or 0.0, "length"), "inch") for end in (target.low, target.high))
    return (
        _step(
            "rods-square",
            "Try every rod square: piston on, bar through the bearing, light under both edges alike",
            (last,) if last else (),
            (0.2, 0.3, 0.5),
            count,
            "every piston seen square in its bore with the rod drawn down",
        ),
        _step(
            "rods-clearance",
            "Cap down on its shims, read clearance with oiled strip, then with oil only: does it fall?",
            (f"{d.KEY}/rods-square",),
            (0.3, 0.5, 1.0),
            count,
            f"clearance of every rod read as fitted, {low} to {high} aimed at ({target.authority}); rod and piston just fall "
            "over from upright; slides sideways by hand",
        ),
        _step(
            "rods-close",
            "Nuts down, pinned or wired; shims noted; dippers face the way the crank turns, and reach the oil",
            (f"{d.KEY}/rods-clearance",),
            (0.3, 0.5, 1.0),
            count,
            "every nut seen locked, side play and dip read as fitted, crank turned over twice by hand",
        ),
    )


def _step(name: str, title: str, after: tuple[str, ...], each: tuple[float, float, float], count: int, hold: str) -> StepDraft:
    low, likely, high = (hours * count for hours in each)
    return StepDraft(
        key=f"{d.KEY}/{name}", title=title, system=d.KEY, hours=Range(low, likely, high, OWN), after=after, hold=hold
    )
