"""What could be done, compared side by side; the recommendation with its reasons; the verdict."""

from __future__ import annotations

from dataclasses import dataclass

from starlette.responses import Response

from gudgeon import workbench
from gudgeon.engine.finding import Finding
from gudgeon.engine.remedy import Advice, Remedy
from gudgeon.engine.verdict import Verdict
from gudgeon.systems import ALL
from gudgeon.web import words
from gudgeon.web.addresses import anchor
from gudgeon.web.engine_page import bench_of
from gudgeon.web.findings_page import RANK, system_of
from gudgeon.web.frame import page
from gudgeon.web.visit import Visit, go


@dataclass(frozen=True, slots=True, kw_only=True)
class ResultRow:
    """What a remedy is expected to give, for one quantity of one instance."""

    item: str
    quantity: str
    value: str
    chance: str
    standing: str
    tone: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedRow:
    """Something a remedy waits for."""

    text: str
    why: str
    met: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class RemedyCard:
    """One remedy."""

    key: str
    title: str
    action: str
    rank: int
    chosen: bool
    items: str
    service: str
    cost: str
    unpriced: tuple[str, ...]
    wait: str
    hours: str
    intervention: str
    original: str
    risks: tuple[tuple[str, str, str], ...]
    needs: tuple[NeedRow, ...]
    results: tuple[ResultRow, ...]
    inside: int
    for_it: tuple[str, ...]
    against_it: tuple[str, ...]
    cautions: tuple[tuple[str, str], ...]
    why_not: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NextRow:
    """A reading that could change the choice."""

    text: str
    chance: str
    why: str
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """One matter to settle."""

    name: str
    anchor: str
    cards: tuple[RemedyCard, ...]
    recommended: str
    reasons: tuple[str, ...]
    second: str
    next_readings: tuple[NextRow, ...]
    verdict: str
    verdict_reason: str
    verdict_who: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RemediesPage:
    """All matters of one system."""

    title: str
    subjects: tuple[Subject, ...]
    findings: str
    orders: str
    prices: str
    others: tuple[tuple[str, str, bool], ...]


def show(visit: Visit) -> Response:
    """The remedies of a system."""
    system = system_of(visit)
    reckoning, snapshot = visit.job.reckoning(), visit.snapshot
    own = [remedy for remedy in reckoning.remedies if remedy.system == system.key]
    advice = {one.subject: one for one in reckoning.advice}
    subjects = tuple(
        _subject(visit, name, [r for r in own if r.subject == name], advice.get(name), snapshot.verdict_on(name))
        for name in sorted(dict.fromkeys(remedy.subject for remedy in own), key=lambda n: snapshot.verdict_on(n) is not None)
    )
    data = RemediesPage(
        title=system.title,
        subjects=subjects,
        findings=visit.at.findings(system.key),
        orders=visit.at.page("orders"),
        prices=visit.at.page("plan") + "#prices",
        others=tuple((other.title, visit.at.remedies(other.key), other is system) for other in ALL),
    )
    return page(visit, "remedies.html", data, sheet=words.SHEETS["remedies"].format(name=system.title.lower()), here="remedies")


def _subject(visit: Visit, name: str, remedies: list[Remedy], advice: Advice | None, verdict: Verdict | None) -> Subject:
    tell = visit.tell
    ranked = list(advice.ranked) if advice else []
    ordered = sorted(
        remedies, key=lambda remedy: (ranked.index(remedy.key) if remedy.key in ranked else len(ranked), not remedy.possible)
    )
    by_key = {remedy.key: remedy for remedy in remedies}
    best = by_key.get(ranked[0]) if ranked else None
    return Subject(
        name=name,
        anchor=anchor(name),
        cards=tuple(_card(visit, remedy, ranked, verdict) for remedy in ordered),
        recommended=tell.said(best.title) if best else "",
        reasons=tuple(tell.said(reason) for reason in advice.reasons) if advice else (),
        second=tell.said(advice.second_would_win) if advice else "",
        next_readings=tuple(
            NextRow(
                text=f"{reading.item}, {reading.feature}",
                chance=tell.chance(reading.chance_of_change),
                why=reading.why,
                href=bench_of(visit, reading.part, reading.item, reading.feature),
            )
            for reading in advice.next_readings[:4]
        )
        if advice
        else (),
        verdict=tell.said(verdict.chosen.title) if verdict else "",
        verdict_reason=verdict.reason if verdict else "",
        verdict_who=f"{verdict.person}, {tell.moment(verdict.at)}" if verdict else "",
    )


def _card(visit: Visit, remedy: Remedy, ranked: list[str], verdict: Verdict | None) -> RemedyCard:
    tell = visit.tell
    worst: dict[tuple[str, str], Finding] = {}
    for finding in sorted(remedy.gives, key=lambda finding: RANK[finding.standing]):
        worst.setdefault((finding.item, finding.quantity), finding)
    telling = [finding for finding in worst.values() if finding.standing in ("past", "doubtful", "not measured")]
    return RemedyCard(
        key=remedy.key,
        title=tell.said(remedy.title),
        action=remedy.action,
        rank=ranked.index(remedy.key) + 1 if remedy.key in ranked else 0,
        chosen=verdict is not None and verdict.chosen.key == remedy.key,
        items=", ".join(remedy.items),
        service=tell.chance(remedy.merit),
        cost=tell.money_range(remedy.cost) or words.MONEY_NONE,
        unpriced=remedy.unpriced,
        wait=tell.days(remedy.wait_days),
        hours=tell.hours(remedy.own_hours),
        intervention=remedy.intervention,
        original=remedy.original,
        risks=tuple((risk.what, _risk_chance(visit, risk.chance.low, risk.chance.high), risk.then) for risk in remedy.risks),
        needs=tuple(NeedRow(text=need.what, why=need.why, met=need.met) for need in remedy.needs),
        results=tuple(_result(visit, finding) for finding in telling),
        inside=sum(finding.standing == "within" for finding in worst.values()),
        for_it=tuple(tell.said(said) for said in remedy.for_it),
        against_it=tuple(tell.said(said) for said in remedy.against_it),
        cautions=tuple((caution.hazard, caution.say) for caution in remedy.cautions),
        why_not="" if remedy.possible else remedy.why_not,
    )


def _risk_chance(visit: Visit, low: float, high: float) -> str:
    ends = visit.tell.chance(low), visit.tell.chance(high)
    return ends[0] if ends[0] == ends[1] else f"{ends[0].removesuffix(' in 100')} to {ends[1]}"


def _result(visit: Visit, finding: Finding) -> ResultRow:
    return ResultRow(
        item=finding.item,
        quantity=finding.quantity,
        value=visit.tell.interval(finding.low, finding.high, finding.dimension) or visit.tell.found(finding),
        chance=visit.tell.chance(finding.chance_past_limit),
        standing=words.STANDING[finding.standing],
        tone={"past": "red", "doubtful": "blue"}.get(finding.standing, ""),
    )


def settle(visit: Visit) -> Response:
    """The verdict."""
    verdict = workbench.settle(visit.job, visit.form.text("remedy"), reason=visit.form.text("reason"), person=visit.need_name())
    title = visit.tell.said(verdict.chosen.title)
    return go(visit.at.remedies(verdict.chosen.system), words.SAID_SETTLED.format(title=title))
