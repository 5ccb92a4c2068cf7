"""Fit-up of the oiling: pump primed, dippers marked wet, oil seen at every bearing; each a hold point."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.step import StepDraft
from gudgeon.systems.drafting import last_step, step
from gudgeon.systems.kit import Kit
from gudgeon.systems.oiling import description as d
from gudgeon.systems.oiling.remedies import DIPPERS, OIL, PUMP
from gudgeon.systems.proposing import hours


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """The steps that bring oil to every bearing; none before anything of it was decided."""
    kit = Kit.of(bench, d.KEY)
    decided = [subject for subject in (PUMP, DIPPERS, OIL) if bench.snapshot.verdict_on(subject) is not None]
    if not decided:
        return ()
    before = tuple(dict.fromkeys(key for subject in decided for key in last_step(bench, subject)))
    found: list[StepDraft] = []
    if kit.items(d.TROUGH):
        found.append(
            step(
                d.KEY, "fit-dips", "Engine level, troughs full to their overflows: turn once by hand and look at every dipper",
                hours=hours(0.2, 0.5, 1.0),
                after=before,
                hold="every dipper wet, by how much read as fitted",
                works=("oil work",),
            )
        )  # fmt: skip
    if kit.items(d.PUMP):
        found.append(
            step(
                d.KEY, "fit-pump", "Prime the pump and turn it by hand until oil comes from every pipe",
                hours=hours(0.2, 0.5, 1.0),
                after=before,
                hold="oil seen at the end of every pipe",
                works=("oil work",),
            )
        )  # fmt: skip
    found.append(
        step(
            d.KEY, "fit-oil", "Oil every bearing, ring and pin by hand, and turn the engine over ten times with the plugs out",
            hours=hours(0.3, 0.5, 1.0),
            after=tuple(each.key for each in found) or before,
            hold="oil seen at every bearing; no power before that",
            works=("oil work",),
        )
    )  # fmt: skip
    return tuple(found)
