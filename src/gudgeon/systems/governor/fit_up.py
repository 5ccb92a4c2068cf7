"""Fit-up of the governor: free, slack read, spring set, stop proven; each a hold point."""

from __future__ import annotations

from gudgeon.engine.bench import Bench
from gudgeon.engine.step import StepDraft
from gudgeon.quantity import Amount
from gudgeon.quantity.show import show
from gudgeon.systems.drafting import last_step, step
from gudgeon.systems.governor import description as d
from gudgeon.systems.governor.curve import curve_of
from gudgeon.systems.governor.governor_set import GovernorSet
from gudgeon.systems.governor.joint_ways import DETENTS, JOINTS, SPRINGS
from gudgeon.systems.proposing import hours


def fit_up(bench: Bench) -> tuple[StepDraft, ...]:
    """The steps that put the governor back, after the last steps of what was decided; none before anything was."""
    one = GovernorSet.of(bench)
    decided = [subject for subject in (JOINTS, SPRINGS, DETENTS) if bench.snapshot.verdict_on(subject) is not None]
    if not decided or not one.present:
        return ()
    before = tuple(key for subject in decided for key in last_step(bench, subject))
    return (
        step(
            d.KEY,
            "fit-free",
            "Fit weights and sleeve oiled, spring out: the sleeve falls by its own weight from any place",
            hours=hours(0.5, 1.0, 2.0),
            after=before,
            hold="governor free over its whole travel, weights touching nothing, every cotter and rivet seen",
            works=("governor work",),
        ),
        step(
            d.KEY,
            "fit-slack",
            "Fit spring and linkage; move the sleeve by hand and watch the throttle or the blade",
            hours=hours(0.5, 0.8, 1.5),
            after=("fit-free",),
            hold="lost motion from sleeve to throttle read as fitted; force up and back read; throttle shut before the sleeve "
            "is right up",
            works=("governor work",),
        ),
        step(
            d.KEY,
            "fit-stop",
            "Prove the stop: fuel off, ignition off and throttle shut, each by itself, engine turned by hand",
            hours=hours(0.2, 0.3, 0.5),
            after=("fit-slack",),
            hold="two ways of stopping proven, and one hand on the stop at the first run",
            works=("governor work",),
        ),
        step(
            d.KEY,
            "fit-speed",
            f"First run at low speed, then set the governor by tachometer{_aim(one)}",
            hours=hours(0.5, 1.0, 2.0),
            after=("fit-stop",),
            hold="speed at full load and without load read; ten swings timed, or seen to stand still",
            works=("governor work", "first start"),
        ),
    )


def _aim(one: GovernorSet) -> str:
    if one.rated is None:
        return ""
    most = one.spread_rules.limits[0].size
    light = show(Amount(one.rated * (1 + most), "speed"), "inch")
    more = "" if curve_of(one) is None else f", no more than {light} without load"
    return f": {show(Amount(one.rated, 'speed'), 'inch')} at full load{more}"
