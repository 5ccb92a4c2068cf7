"""Fit-up of the cooling: shaft free in its bushes, impeller clear, gland just dripping, water moving; each a hold point."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.step import StepDraft
from gudgeon.systems.cooling import description as d
from gudgeon.systems.cooling.remedies import IMPELLER, PIN, SHAFTS
from gudgeon.systems.drafting import last_step, step
from gudgeon.systems.kit import Kit
from gudgeon.systems.proposing import hours


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """The steps that put the pump back; none before anything of it was decided."""
    kit = Kit.of(bench, d.KEY)
    decided = [subject for subject in (SHAFTS, IMPELLER, PIN) if bench.snapshot.verdict_on(subject) is not None]
    if not decided or not kit.items(d.PUMP):
        return ()
    return (
        step(
            d.KEY, "fit-pump", "Put the pump together, cups filled, shaft turned by finger",
            hours=hours(0.5, 1.0, 2.0),
            after=tuple(key for subject in decided for key in last_step(bench, subject)),
            hold="shaft in both bushes, end play and impeller clearance read as fitted",
            works=("cooling work",),
        ),
        step(
            d.KEY, "fit-packing", "Pack the gland, joints staggered, nut finger tight and a little",
            hours=hours(0.3, 0.5, 1.0),
            after=("fit-pump",),
            hold="the pump still turns by hand; a few drops a minute when it first runs, the nut taken up little by little",
        ),
        step(
            d.KEY, "fit-water", "Fill with water, look for weeps, and see it move before the engine takes load",
            hours=hours(0.2, 0.5, 1.0),
            after=("fit-packing",),
            hold="no weep at the joints cold; outlet warm, water seen moving; drained again where frost is about",
            works=("cooling work",),
        ),
    )  # fmt: skip
