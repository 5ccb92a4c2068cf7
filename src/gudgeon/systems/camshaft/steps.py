"""Steps of work on the camshaft and what it lifts, and the names under which work is priced."""

from __future__ import annotations

from gudgeon.engine.origin import Range
from gudgeon.engine.step import StepDraft
from gudgeon.systems.camshaft.cam_set import CamSet
from gudgeon.systems.camshaft.description import KEY
from gudgeon.systems.proposing import warned

LOBES, FOLLOWERS, BEARINGS = "camshaft: lobes", "camshaft: followers", "camshaft: bearings"
REGRIND, CAM_MADE, ROLLER_MADE, FOLLOWER_MADE, BUSH_MADE = (
    "camshaft reground",
    "camshaft made",
    "cam roller and pin made",
    "follower made",
    "cam bearing bush made",
)


def step(
    name: str,
    title: str,
    *,
    hours: Range | None = None,
    shop: str = "",
    after: tuple[str, ...] = (),
    hold: str = "",
    may_fail: Range | None = None,
    works: tuple[str, ...] = (),
) -> StepDraft:
    """A step of this system; ``after`` names steps of this system without its key, others in full."""
    return StepDraft(
        key=f"{KEY}/{name}",
        title=title,
        system=KEY,
        hours=hours,
        shop=shop,
        after=tuple(each if "/" in each else f"{KEY}/{each}" for each in after),
        hold=hold,
        may_fail=may_fail,
        cautions=warned(*works),
    )


def last_step(cams: CamSet, subject: str) -> tuple[str, ...]:
    """The last step of what was decided on another matter; none while it is not decided or asks for no work."""
    verdict = cams.bench.snapshot.verdict_on(subject)
    return (verdict.chosen.steps[-1].key,) if verdict is not None and verdict.chosen.steps else ()
