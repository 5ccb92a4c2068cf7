"""Fit-up of the ignition: dead centre by stop, valves proven, impulse at dead centre by hand, spark seen; each a hold point."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.step import StepDraft
from gudgeon.systems.drafting import last_step, step
from gudgeon.systems.ignition import description as d
from gudgeon.systems.ignition.remedies import GAPS, SPARK
from gudgeon.systems.kit import Kit
from gudgeon.systems.proposing import hours


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """The steps that put spark and valves in time; none before anything of it was decided."""
    kit = Kit.of(bench, d.KEY)
    if not any(bench.snapshot.verdict_on(subject) for subject in (SPARK, GAPS)):
        return ()
    before = (*last_step(bench, GAPS), *last_step(bench, SPARK))
    order = "; firing order seen at the leads" if (bench.snapshot.outline.cylinders or 1) > 1 else ""
    found = [
        step(
            d.KEY, "fit-centre", "Find dead centre by a stop in the plug hole, turned to from both sides, and scribe it",
            hours=hours(0.3, 0.5, 1.0),
            after=before,
            hold="both marks read and dead centre half way between them",
            works=("ignition work",),
        ),
        step(
            d.KEY, "fit-valves", "Turn it over by hand and read opening and closing of every valve on the rim",
            hours=hours(0.5, 1.0, 2.0),
            after=("fit-centre",),
            hold="every event as fitted within a few degrees of what was decided; a tooth out shows in all of them together",
        ),
    ]  # fmt: skip
    if kit.items(d.MAGNETO):
        found += [
            step(
                d.KEY, "fit-magneto", "Time the magneto with cylinder 1 on compression and prove it by hand, plugs out",
                hours=hours(0.5, 1.0, 2.0),
                after=("fit-valves",),
                hold="impulse trips at dead centre or just after, three times running; never before it",
                works=("ignition work",),
            ),
            step(
                d.KEY, "fit-spark", "See the spark at every plug or igniter, fuel off and the hole plugged",
                hours=hours(0.2, 0.3, 0.5),
                after=("fit-magneto",),
                hold=f"a spark at each, in its own turn{order}; a way to stop it tried before it ever runs",
                works=("ignition work", "first start"),
            ),
        ]  # fmt: skip
    return tuple(found)
