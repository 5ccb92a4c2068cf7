"""Steps of work on valves, what each waits for, and the names under which work is priced."""

from __future__ import annotations

from gudgeon.engine.origin import Range
from gudgeon.engine.remedy import Need
from gudgeon.engine.step import StepDraft
from gudgeon.systems.proposing import warned
from gudgeon.systems.valves.description import KEY
from gudgeon.systems.valves.valve_set import ValveSet

STEMS, SEATS, SPRINGS, LASH = "valves: stems and guides", "valves: seats", "valves: springs", "valves: lash"

VALVE_MADE, BUSH_MADE, REFACE, RECUT, INSERT, SPRING_MADE = (
    "valve made",
    "valve guide bush made",
    "valve refaced",
    "valve seat recut",
    "valve seat insert fitted",
    "valve spring made",
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


def last_step(valves: ValveSet, subject: str) -> tuple[str, ...]:
    """The last step of what was decided on another matter; none while it is not decided or asks for no work."""
    verdict = valves.bench.snapshot.verdict_on(subject)
    return (verdict.chosen.steps[-1].key,) if verdict is not None and verdict.chosen.steps else ()


def decided_first(valves: ValveSet, subject: str, why: str) -> Need:
    """That another matter is decided first."""
    met = valves.bench.snapshot.verdict_on(subject) is not None
    return Need(kind="decision", what=f"{subject} decided", met=met, why=why)
