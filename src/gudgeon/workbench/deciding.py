"""Decide: record verdicts, prices, waits, and what the owner wants."""

from __future__ import annotations

from dataclasses import replace

from gudgeon.engine.origin import Range
from gudgeon.engine.remedy import Advice, Remedy
from gudgeon.engine.snapshot import Aims, Price
from gudgeon.engine.step import StepDone
from gudgeon.engine.verdict import Verdict
from gudgeon.jobfile import Draft
from gudgeon.workbench.faults import Refused
from gudgeon.workbench.job import Job, now, plain_body


def remedies(job: Job, subject: str = "") -> tuple[Remedy, ...]:
    """The remedies on the table, those of one subject or all."""
    return tuple(remedy for remedy in job.reckoning().remedies if not subject or remedy.subject == subject)


def advice(job: Job, subject: str) -> Advice | None:
    """The recommendation on one subject."""
    return next((advice for advice in job.reckoning().advice if advice.subject == subject), None)


def settle(job: Job, remedy_key: str, *, reason: str, person: str) -> Verdict:
    """Record the owner's decision: the remedy, the findings it rested on and the rejected alternatives, all frozen.

    The program never hides an option: a remedy that it thinks impossible may be chosen too, with a reason. Raises Refused
    when the key is not on the table or no reason is given.
    """
    reckoning = job.reckoning()
    chosen = next((remedy for remedy in reckoning.remedies if remedy.key == remedy_key), None)
    if chosen is None:
        on_table = ", ".join(remedy.key for remedy in reckoning.remedies) or "none yet; take readings first"
        raise Refused(f"“{remedy_key}” is no remedy on the table; on the table: {on_table}.")
    if not reason.strip():
        raise Refused("A verdict was given without a reason; say in a few words why, for the record.")
    findings = tuple(finding for finding in reckoning.findings if finding.system == chosen.system)
    verdict = Verdict(
        id="",
        subject=chosen.subject,
        chosen=chosen,
        reason=reason.strip(),
        findings=findings,
        rejected=tuple(
            (other.key, other.title)
            for other in reckoning.remedies
            if other.subject == chosen.subject and other.key != chosen.key
        ),
        readings=tuple(sorted({identity for finding in findings for identity in finding.inputs})),
    )
    entry = job.write([Draft(kind="verdict", body=plain_body(verdict))], person=person)[0]
    return next(verdict for verdict in job.snapshot().verdicts if verdict.id == entry.id)


def price(
    job: Job,
    name: str,
    *,
    person: str,
    cost: tuple[float, float, float] | None = None,
    wait_days: tuple[float, float, float] | None = None,
    origin: str,
    shop: str = "",
) -> Price:
    """What one thing costs and how long a shop takes over it: low, likely, high. What is not given is kept as it was."""
    if not origin.strip():
        raise Refused(f"No origin was given for the price of “{name}”; say whose figure it is: a quotation, or your own guess.")
    old = job.snapshot().prices.get(name, Price(name=name, cost=None, wait_days=None))
    try:
        new = replace(
            old,
            cost=Range(*cost, origin) if cost else old.cost,
            wait_days=Range(*wait_days, origin) if wait_days else old.wait_days,
            shop=shop or old.shop,
        )
    except ValueError as fault:
        raise Refused(f"{name}: {fault}") from fault
    job.write([Draft(kind="price", body=plain_body(new))], person=person)
    return job.snapshot().prices[name]


def prices_asked(job: Job) -> tuple[str, ...]:
    """Everything that some remedy on the table would have to be paid for, in the order of the remedies."""
    names = [item.name for remedy in job.reckoning().remedies for item in remedy.priced]
    return tuple(dict.fromkeys(names))


def set_aims(job: Job, aims: Aims, *, person: str) -> Aims:
    """What the owner wants: date, purse, hours, priorities."""
    job.write([Draft(kind="aims", body=plain_body(aims))], person=person)
    return job.snapshot().aims


def mark_done(job: Job, step: str, *, on: str, person: str, note: str = "") -> StepDone:
    """Say that a step is finished."""
    known = {draft.key for remedy in job.reckoning().remedies for draft in remedy.steps}
    known |= {draft.key for draft in job.reckoning().fit_up} | {draft.key for draft in job.snapshot().steps}
    if step not in known:
        raise Refused(f"“{step}” is no step of this job's plan; the plan lists them.")
    done = StepDone(key=step, on=on or now()[:10], person=person, note=note)
    job.write([Draft(kind="done", body=plain_body(done))], person=person)
    return done
