"""Fit-up of valves: blue test, leak test, springs, lash at the heel, each a hold point."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.step import StepDraft
from gudgeon.quantity import Amount
from gudgeon.quantity.show import show
from gudgeon.systems.proposing import hours
from gudgeon.systems.valves.lash import target_of
from gudgeon.systems.valves.steps import LASH, SEATS, SPRINGS, STEMS, last_step, step
from gudgeon.systems.valves.valve_set import ValveSet


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """The steps that put the valves back, after the last steps of what was decided; none before anything was."""
    valves = ValveSet.of(bench)
    decided = [subject for subject in (STEMS, SEATS, SPRINGS, LASH) if bench.snapshot.verdict_on(subject) is not None]
    if not decided or not valves.items:
        return ()
    count = len(valves.items)
    before = tuple(key for subject in decided if subject != LASH for key in last_step(valves, subject))
    driven = tuple(item for item in valves.items if not valves.is_automatic(item))
    found = [
        step(
            "fit-guides",
            "Try each stem, oiled, in its own guide: it falls by its own weight and does not shake to be seen",
            hours=hours(0.1, 0.1, 0.2, count),
            after=before,
            hold="clearance of every stem at the top of its guide read as fitted",
            works=("valve work",),
        ),
        step(
            "fit-blue",
            "Blue each seat, turn its valve a quarter, look",
            hours=hours(0.1, 0.1, 0.2, count),
            after=("fit-guides",),
            hold="an unbroken ring all round every face, in its middle",
        ),
        step(
            "fit-springs",
            "Fit springs and keepers, every cotter and collar home",
            hours=hours(0.2, 0.3, 0.5, count),
            after=("fit-blue",),
            hold="every keeper seen home, and every spring clear of solid with its valve open",
            works=("valve work",),
        ),
        step(
            "fit-leak",
            "Pour kerosene on every valve and wait five minutes",
            hours=hours(0.1, 0.2, 0.3, count),
            after=("fit-springs",),
            hold="no seat weeps",
        ),
    ]
    if driven:
        target = target_of(driven[0], valves)
        band = " to ".join(show(Amount(end or 0.0, "length"), "inch") for end in (target.low, target.high))
        found.append(
            step(
                "fit-lash",
                "Set and read the lash with each follower on the heel of its cam, engine cold",
                hours=hours(0.1, 0.2, 0.4, len(driven)),
                after=("fit-leak", *last_step(valves, LASH)),
                hold=f"lash of every valve as fitted at the heel, {band} aimed at ({target.origin.source}); again when hot",
                works=("valve work",),
            )
        )
    return tuple(found)
