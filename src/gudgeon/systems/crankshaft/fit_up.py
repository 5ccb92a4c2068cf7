"""Fit-up of crankshaft and mains: checks, hold points, and the readings wanted as fitted."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Range
from gudgeon.engine.step import StepDraft
from gudgeon.quantity import Amount
from gudgeon.quantity.show import show
from gudgeon.systems.crankshaft import description as d
from gudgeon.systems.crankshaft.remedies import MAINS
from gudgeon.systems.crankshaft.shaft import Shaft
from gudgeon.systems.proposing import OWN, warned


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """The steps that lay the crankshaft in its mains, after the last step of the verdict on them; none before a verdict."""
    verdict = bench.snapshot.verdict_on(MAINS)
    shaft = Shaft.of(bench)
    if verdict is None or not shaft.bearings.bearings:
        return ()
    last = verdict.chosen.steps[-1].key if verdict.chosen.steps else ""
    target = shaft.bearings.bearings[0].target
    low, high = (show(Amount(end or 0.0, "length"), "inch") for end in (target.low, target.high))
    count = len(shaft.bearings.bearings)
    return (
        _step("oil-ways", "Wash the oil ways of crank and case through until a white rag stays white",
              (last,) if last else (), (0.5, 1.0, 2.0), "every oil hole seen open with a wire"),
        _step("lay-in", "Lay the crank in blued beds, then each cap down alone on its shims: turn it with one hand",
              (f"{d.KEY}/oil-ways",), (0.5 * count, 1.0 * count, 2.0 * count),
              f"colour along every main; clearance of every main read as fitted, {low} to {high} aimed at ({target.authority})",
              works=("lifting",)),
        _step("mains-close", "All caps down: the crank turns as free as with one; nuts locked; end play read",
              (f"{d.KEY}/lay-in",), (0.5, 1.0, 2.0), "end play and every clearance read as fitted; every nut seen locked"),
        _step("flywheel-on", "Flywheel on its seat, key bearing top and bottom along its length; rim against a pointer",
              (f"{d.KEY}/mains-close",), (0.5, 1.5, 3.0), "rim run-out read as fitted; key seen home",
              works=("flywheel work", "lifting")),
    )  # fmt: skip


def _step(
    name: str,
    title: str,
    after: tuple[str, ...],
    hours: tuple[float, float, float],
    hold: str,
    *,
    works: tuple[str, ...] = (),
) -> StepDraft:
    return StepDraft(
        key=f"{d.KEY}/{name}",
        title=title,
        system=d.KEY,
        hours=Range(*hours, OWN),
        after=after,
        hold=hold,
        cautions=warned(*works),
    )
