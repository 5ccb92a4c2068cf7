"""Fit-up of pistons and rings: the checks, their hold points, and the readings wanted as fitted."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Range
from gudgeon.engine.step import StepDraft
from gudgeon.systems.cylinders.block import Block
from gudgeon.systems.cylinders.description import KEY
from gudgeon.systems.cylinders.plan import OWN, warned
from gudgeon.systems.cylinders.remedies import SUBJECT


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """The steps that put pistons and rings back, after the last step of the verdict on the bores; none before a verdict."""
    verdict = bench.snapshot.verdict_on(SUBJECT)
    block = Block.of(bench)
    if verdict is None or not block.bores:
        return ()
    last = verdict.chosen.steps[-1].key if verdict.chosen.steps else ""
    count = len(block.items)
    return (
        _step(
            "wash",
            "Wash the bores with hot soapy water until a white rag stays white, and oil them",
            after=(last,) if last else (),
            hours=(0.3, 0.5, 1.0),
            count=count,
            hold="a white rag stays white in every bore",
            works=("honing",),
        ),
        _step(
            "check-clearance",
            "Try each piston in its own bore and read its clearance at the skirt, without rings",
            after=("wash",),
            hours=(0.2, 0.3, 0.5),
            count=count,
            hold=_clearance_hold(block),
        ),
        _step(
            "check-rings",
            "Read end gap in the least worn part of the bore and side clearance of every ring, as fitted",
            after=("check-clearance",),
            hours=(0.3, 0.5, 1.0),
            count=count,
            hold="gap and side clearance of every ring read as fitted",
            works=("ring fitting",),
        ),
        _step(
            "close-up",
            "Spread the joints round, oil, enter each piston in its own bore, marks as they came apart",
            after=("check-rings",),
            hours=(0.5, 1.0, 2.0),
            count=count,
            hold="every piston seen in its own bore and turned over by hand",
            works=("ring fitting",),
        ),
    )


def _clearance_hold(block: Block) -> str:
    from gudgeon.quantity import Amount
    from gudgeon.quantity.show import show

    target = block.clearance_target(block.items[0])
    low, high = (show(Amount(end or 0.0, "length"), "inch") for end in (target.low, target.high))
    return f"clearance of every piston read as fitted, {low} to {high} aimed at ({target.origin.source})"


def _step(
    name: str,
    title: str,
    *,
    after: tuple[str, ...],
    hours: tuple[float, float, float],
    count: int,
    hold: str,
    works: tuple[str, ...] = (),
) -> StepDraft:
    low, likely, high = (each * count for each in hours)
    return StepDraft(
        key=f"{KEY}/{name}",
        title=title,
        system=KEY,
        hours=Range(low, likely, high, OWN),
        after=tuple(each if "/" in each else f"{KEY}/{each}" for each in after),
        hold=hold,
        cautions=warned(*works),
    )
