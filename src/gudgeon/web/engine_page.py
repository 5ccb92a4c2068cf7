"""The home page of a job: the engine itself, every part in its place with its state in words."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime

from markupsafe import Markup
from starlette.responses import JSONResponse, Response

from gudgeon import workbench
from gudgeon.engine.remedy import NextReading
from gudgeon.engine.sheet import Sheet
from gudgeon.pictures import Label, PartState, engine_section, labels
from gudgeon.planning import Forecast
from gudgeon.systems import ALL
from gudgeon.web import words
from gudgeon.web.addresses import anchor
from gudgeon.web.frame import drawn, page
from gudgeon.web.visit import Visit
from gudgeon.workbench.job import reckoned_from
from gudgeon.workbench.part_states import StateOfPart
from gudgeon.workbench.part_states import part_states as states_of_parts
from gudgeon.workbench.standing import BeingReckoned, given_an_old_one


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """One label of the picture as the list beside it says it."""

    number: int
    name: str
    state: str
    tint: str
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemLine:
    """A system at a glance."""

    title: str
    introduction: str
    findings: str
    bench: str
    read: int
    wanted: int
    past: int
    doubtful: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Wants:
    """Something that waits for the owner, and where to see to it."""

    text: str
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EnginePage:
    """The page's words and pictures."""

    runs_by: str
    chance: str
    cost: str
    purse: str
    next_reading: str
    next_why: str
    next_href: str
    wide: Markup
    narrow: Markup
    listed: tuple[Listed, ...]
    systems: tuple[SystemLine, ...]
    wants: tuple[Wants, ...]
    empty: bool


def show(visit: Visit) -> Response:
    """The engine."""
    forecast = workbench.standing_forecast(visit.job, today=today())
    of = (visit.job.reckoning(), forecast, *reckoned_from(visit.snapshot))
    data = visit.job.kept(("engine page", visit.person.units), of, lambda: _page(visit, forecast))
    return page(visit, "engine.html", data, sheet=words.SHEETS["engine"], here="engine")


def _page(visit: Visit, forecast: Forecast) -> EnginePage:
    job = visit.job
    snapshot = job.snapshot()
    states = part_states(visit)
    listed = tuple(_listed(label) for label in labels(snapshot.outline, states))
    upcoming = _next(visit)
    runs_by, chance, cost, purse = _forecast_words(visit, forecast)
    return EnginePage(
        runs_by=runs_by,
        chance=chance,
        cost=cost,
        purse=purse,
        next_reading=f"{upcoming.item}, {upcoming.feature}" if upcoming else words.NOTHING_TO_MEASURE,
        next_why=upcoming.why if upcoming else "",
        next_href=bench_of(visit, upcoming.part, upcoming.item, upcoming.feature) if upcoming else "",
        wide=drawn(engine_section(snapshot.outline, states, width="wide")),
        narrow=drawn(engine_section(snapshot.outline, states, width="narrow")),
        listed=listed,
        systems=_systems(visit),
        wants=_wants(visit),
        empty=not snapshot.readings,
    )


def _listed(label: Label) -> Listed:
    return Listed(number=label.number, name=label.name, state=label.state.words, tint=label.state.tint, href=label.state.href)


def part_states(visit: Visit) -> dict[str, PartState]:
    """The state of every part in the picture, by place, and where it leads."""
    states = states_of_parts(visit.job)
    return {place: PartState(state.words, state.tint, _leads_to(visit, state)) for place, state in states.items()}


def _leads_to(visit: Visit, state: StateOfPart) -> str:
    if state.about == "order":
        return visit.at.sent(state.order)
    if state.about == "verdict":
        return visit.at.remedies(state.system)
    return visit.at.findings(state.system, anchor(group_of(state.item)))


def group_of(item: str) -> str:
    """Instances that belong to one place of the engine share their number: "cyl 2", "piston 2" and "cyl 2 top ring"."""
    found = re.search(r"\d+", item)
    return f"no {found[0]}" if found else item


def _next(visit: Visit) -> NextReading | None:
    readings = [reading for advice in visit.job.reckoning().advice for reading in advice.next_readings]
    return max(readings, key=lambda reading: reading.chance_of_change, default=None)


def bench_of(visit: Visit, part: str, item: str, feature: str) -> str:
    """The address of the bench sheet at a feature, or of the sheet as a whole where it is not on it."""
    for system in ALL:
        if any(kind.kind == part for kind in system.parts):
            blocks = sheet_of(visit, system.key).blocks
            for number, block in enumerate(blocks):
                if (block.feature.part, block.item, block.feature.name) == (part, item, feature):
                    return visit.at.bench(system.key, number)
            return visit.at.bench(system.key)
    return visit.at.page("bench")


def sheet_of(visit: Visit, system_key: str) -> Sheet:
    """The bench sheet of a system as it stands."""
    return workbench.sheet(visit.job, system_key)


def fresh(visit: Visit) -> Response:
    """Whether the answers are those of the job as it stands; asked by the script of a page that showed old ones."""
    try:
        workbench.standing_forecast(visit.job, today=today())
    except BeingReckoned:
        return JSONResponse({"fresh": False})
    return JSONResponse({"fresh": not given_an_old_one()})


def today() -> date:
    """The day it is here."""
    return datetime.now(UTC).astimezone().date()


def _forecast_words(visit: Visit, forecast: Forecast) -> tuple[str, str, str, str]:
    from gudgeon.planning.outlook import in_ten

    tell, aims = visit.tell, visit.snapshot.aims
    runs_by = tell.day(forecast.finish.likely) if forecast.finish else words.RUNS_BY_UNKNOWN
    chance = ""
    if forecast.target and forecast.chance_by_target is not None:
        chance = words.BY_THE_DAY.format(day=tell.day(forecast.target), chance=in_ten(forecast.chance_by_target))
    elif forecast.not_before:
        chance = words.NOT_BEFORE.format(day=tell.day(forecast.not_before))
    cost = money_words(visit, forecast)
    purse = tell.money(aims.purse) if aims.purse is not None else words.PURSE_NONE
    return runs_by, chance, cost, purse


def money_words(visit: Visit, forecast: Forecast) -> str:
    """What it will cost, "at least" where prices are missing."""
    text = visit.tell.money(forecast.money.likely)
    return words.AT_LEAST.format(sum=text) if forecast.money.unknown else text


def _systems(visit: Visit) -> tuple[SystemLine, ...]:
    findings = visit.job.reckoning().findings
    lines = []
    for system in ALL:
        blocks = sheet_of(visit, system.key).blocks
        own = [finding for finding in findings if finding.system == system.key]
        lines.append(
            SystemLine(
                title=system.title,
                introduction=system.introduction,
                findings=visit.at.findings(system.key),
                bench=visit.at.bench(system.key),
                read=sum(block.done for block in blocks),
                wanted=sum(len(block.lines) for block in blocks),
                past=len({(finding.item, finding.quantity) for finding in own if finding.standing == "past"}),
                doubtful=len({(finding.item, finding.quantity) for finding in own if finding.standing == "doubtful"}),
            )
        )
    return tuple(lines)


def _wants(visit: Visit) -> tuple[Wants, ...]:
    snapshot, reckoning, at = visit.snapshot, visit.job.reckoning(), visit.at
    wants = []
    if count := len(reckoning.doubts):
        wants.append(Wants(text=words.counted(words.ODD, count), href=at.page("doubtful")))
    if count := len(snapshot.refused):
        wants.append(Wants(text=words.counted(words.UNREAD, count), href=at.page("refused")))
    settled = {verdict.subject for verdict in snapshot.verdicts}
    for advice in reckoning.advice:
        if advice.subject not in settled and advice.ranked:
            key = advice.ranked[0].split("/")[0]
            wants.append(Wants(text=words.TO_SETTLE.format(subject=advice.subject), href=at.remedies(key)))
    for draft in workbench.orders(visit.job):
        if not draft.held:
            wants.append(Wants(text=words.TO_SEND.format(title=draft.title), href=at.draft(draft.key)))
    for order in snapshot.orders:
        if order.state == "returned":
            wants.append(Wants(text=words.TO_INSPECT.format(title=order.draft.title), href=at.sent(order.id)))
    return tuple(wants)
