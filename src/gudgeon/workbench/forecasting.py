"""When can it run, and for how much."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, cast

from gudgeon.engine.remedy import Remedy
from gudgeon.engine.step import StepDraft
from gudgeon.workbench.job import Job, reckoned_from
from gudgeon.workbench.standing import given_an_old_one

if TYPE_CHECKING:
    from gudgeon.planning import Forecast


@dataclass(frozen=True, slots=True)
class Plan:
    """The steps of a plan and where they came from: verdicts, or, for what is not settled, the remedy ranked first."""

    steps: tuple[StepDraft, ...]
    settled: tuple[Remedy, ...]
    assumed: tuple[Remedy, ...]


def plan(job: Job) -> Plan:
    """The steps that the standing verdicts lead to; a matter not settled yet is planned with the remedy ranked first."""
    snapshot, reckoning = job.snapshot(), job.reckoning()
    settled = tuple(verdict.chosen for verdict in snapshot.verdicts)
    decided = {remedy.subject for remedy in settled}
    by_key = {remedy.key: remedy for remedy in reckoning.remedies}
    assumed = tuple(by_key[advice.ranked[0]] for advice in reckoning.advice if advice.subject not in decided and advice.ranked)
    steps: dict[str, StepDraft] = {}
    for remedy in (*settled, *assumed):
        steps |= {step.key: step for step in remedy.steps}
    for step in (*reckoning.fit_up, *snapshot.steps):
        steps[step.key] = step
    return Plan(tuple(steps.values()), settled, assumed)


def forecast(
    job: Job, *, today: date | None = None, runs: int = 10_000, progress: Callable[[float], bool] | None = None
) -> Forecast:
    """The forecast of the plan as it stands. ``progress`` is told the share done and may stop the work by returning False."""
    from gudgeon.planning import forecast as reckon_forecast

    today, work = today or datetime.now(UTC).date(), plan(job)
    priced = [item for remedy in (*work.settled, *work.assumed) for item in remedy.priced]
    return reckon_forecast(work.steps, snapshot=job.snapshot(), today=today, runs=runs, progress=progress, priced=priced)


def standing_forecast(job: Job, *, today: date) -> Forecast:
    """The forecast of the day, made once for each state of the job; the last one for a caller in a hurry."""
    snapshot, reckoning = job.snapshot(), job.reckoning()
    if given_an_old_one():
        return cast("Forecast", job.answers.last("forecast"))
    of = (reckoning, *reckoned_from(snapshot), today)
    return cast("Forecast", job.answers.ask("forecast", of, lambda _: forecast(job, today=today)))
