"""What if: another wait, a week lost, other hours; beside the forecast as it stands, on the same draws. Nothing is written."""

from __future__ import annotations

from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

from gudgeon.engine.origin import Range
from gudgeon.workbench.faults import Refused
from gudgeon.workbench.forecasting import forecast, plan
from gudgeon.workbench.job import Job

if TYPE_CHECKING:
    from gudgeon.planning import Change, Comparison


def what_if(job: Job, changes: tuple[Change, ...], *, today: date | None = None) -> tuple[Comparison, ...]:
    """Each change held against the forecast as it stands, one by one."""
    from gudgeon.planning import what_if as compare

    today, work = today or datetime.now(UTC).date(), plan(job)
    priced = [item for remedy in (*work.settled, *work.assumed) for item in remedy.priced]
    before = forecast(job, today=today)
    return tuple(
        compare(work.steps, snapshot=job.snapshot(), today=today, change=change, before=before, priced=priced)
        for change in changes
    )


def changed_wait(job: Job, item: str, low: float, likely: float, high: float) -> Change:
    """Another wait for one thing. Raises Refused when the plan pays for no such thing, or the days do not rise."""
    from gudgeon.planning import wait_changed

    work = plan(job)
    names = sorted({priced.name for remedy in (*work.settled, *work.assumed) for priced in remedy.priced})
    if item not in names:
        raise Refused(f"“{item}” is nothing that this plan waits for; it waits for {', '.join(names) or 'no shop'}.")
    try:
        return wait_changed(item, Range(low, likely, high, "what if"))
    except ValueError as fault:
        raise Refused(f"{item}: {fault}") from fault
