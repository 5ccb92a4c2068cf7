"""When it can run and for how much; what waits for what; what is worth asking; the owner's aims."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup
from starlette.responses import Response

from gudgeon import workbench
from gudgeon.engine.snapshot import Aims
from gudgeon.pictures import PlanStop, PlanStreams, draw_plan
from gudgeon.planning.outlook import Dates, Forecast, StepOutlook
from gudgeon.systems import ALL
from gudgeon.web import words
from gudgeon.web.addresses import anchor
from gudgeon.web.engine_page import money_words, today
from gudgeon.web.frame import drawn, page, piece
from gudgeon.web.visit import Visit, go
from gudgeon.workbench.faults import Refused

PRIORITIES = words.PRIORITIES
COMMON = words.FIT_UP


@dataclass(frozen=True, slots=True, kw_only=True)
class StepRow:
    """One step."""

    key: str
    title: str
    place: str
    state: str
    tone: str
    when: str
    words: str
    hold: str
    waits_for: tuple[str, ...]
    cautions: tuple[tuple[str, str], ...]
    done: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StepGroup:
    """The steps of one system, in the order in which they can be done."""

    anchor: str
    title: str
    counts: str
    late: bool
    steps: tuple[StepRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanPicture:
    """What waits for what, drawn."""

    picture: Markup
    back: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceRow:
    """One thing that has to be paid or waited for, as known now."""

    name: str
    cost: str
    wait: str
    shop: str
    asked: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanPage:
    """The plan."""

    sentences: tuple[str, ...]
    remarks: tuple[str, ...]
    finish: str
    finish_span: str
    money: str
    money_span: str
    purse: str
    settled: tuple[str, ...]
    assumed: tuple[str, ...]
    picture: str
    groups: tuple[StepGroup, ...]
    latest: tuple[str, ...]
    asks: tuple[str, ...]
    prices: tuple[PriceRow, ...]
    aims: Mapping[str, str]
    priorities: tuple[tuple[str, str, int], ...]


def show(visit: Visit) -> Response:
    """The plan."""
    forecast = workbench.standing_forecast(visit.job, today=today())
    plan = workbench.plan(visit.job)
    tell, snapshot = visit.tell, visit.snapshot
    aims, asks = snapshot.aims, tuple(ask.sentence for ask in forecast.ask_for)
    latest = tuple(one.sentence for one in forecast.latest_send)
    data = PlanPage(
        sentences=tuple(sentence for sentence in forecast.sentences if sentence not in (*asks, *latest)),
        remarks=forecast.remarks,
        finish=tell.day(forecast.finish.likely) if forecast.finish else words.RUNS_BY_UNKNOWN,
        finish_span=_span(visit, forecast.finish) or _not_before(visit, forecast),
        money=money_words(visit, forecast),
        money_span=_money_span(visit, forecast),
        purse=tell.money(aims.purse) if aims.purse is not None else words.PURSE_NONE,
        settled=tuple(tell.said(remedy.title) for remedy in plan.settled),
        assumed=tuple(tell.said(remedy.title) for remedy in plan.assumed),
        picture=visit.at.page("plan/picture") if forecast.steps else "",
        groups=_groups(visit, forecast),
        latest=latest,
        asks=asks,
        prices=_prices(visit),
        aims=_aims(aims),
        priorities=tuple((name, text, int(getattr(aims, name))) for name, text in PRIORITIES),
    )
    return page(visit, "plan.html", data, sheet=words.SHEETS["plan"], here="plan")


def _span(visit: Visit, dates: Dates | None) -> str:
    if dates is None:
        return ""
    return words.NINE_IN_TEN.format(low=visit.tell.day(dates.low), high=visit.tell.day(dates.high))


def _not_before(visit: Visit, forecast: Forecast) -> str:
    return words.NOT_BEFORE.format(day=visit.tell.day(forecast.not_before)) if forecast.not_before else ""


def _money_span(visit: Visit, forecast: Forecast) -> str:
    money, tell = forecast.money, visit.tell
    span = words.NINE_IN_TEN.format(low=tell.money(money.low), high=tell.money(money.high))
    return words.AND_AGREED.format(span=span, agreed=tell.money(money.agreed))


def _when(visit: Visit, step: StepOutlook) -> str:
    if step.finish is None:
        return words.RUNS_BY_UNKNOWN
    day = visit.tell.day(step.finish.likely)
    if step.state == "done":
        return words.DONE_ON.format(day=day)
    return (words.NOT_BEFORE if step.not_before else words.ABOUT).format(day=day)


def show_picture(visit: Visit) -> Response:
    """What waits for what: a piece for the script of the plan, or a page of its own."""
    data = PlanPicture(
        picture=drawn(_picture(visit, workbench.standing_forecast(visit.job, today=today()))), back=visit.at.page("plan")
    )
    return piece(visit, "_plan_picture.html", data, sheet="plan", here="plan")


def _groups(visit: Visit, forecast: Forecast) -> tuple[StepGroup, ...]:
    titles = {step.key: step.title for step in forecast.steps}
    systems = {system.key: system.title for system in ALL}
    groups: dict[str, list[StepOutlook]] = {}
    for step in forecast.steps:
        groups.setdefault(systems.get(step.system, step.system or COMMON), []).append(step)
    return tuple(_group(visit, name, steps, titles) for name, steps in groups.items())


def _group(visit: Visit, name: str, steps: list[StepOutlook], titles: Mapping[str, str]) -> StepGroup:
    rows = tuple(_step(visit, step, titles) for step in _in_order(steps))
    states = Counter(row.state for row in rows)
    return StepGroup(
        anchor=anchor(f"steps {name}"),
        title=name[:1].upper() + name[1:],
        counts=", ".join(f"{count} {state}" for state, count in states.items()),
        late=any("late" in row.state for row in rows),
        steps=rows,
    )


def _step(visit: Visit, step: StepOutlook, titles: Mapping[str, str]) -> StepRow:
    return StepRow(
        key=step.key,
        title=step.title,
        place=step.place,
        state=step.state,
        tone="red" if "late" in step.state else "",
        when=_when(visit, step),
        words=step.words,
        hold=step.hold,
        waits_for=tuple(titles.get(key, key) for key in step.waits_for),
        cautions=tuple((caution.hazard, caution.say) for caution in step.cautions),
        done=step.state == "done",
    )


def _picture(visit: Visit, forecast: Forecast) -> str:
    systems = {system.key: system.title for system in ALL}
    steps = sorted(forecast.steps, key=lambda step: (step.finish is None, step.finish.likely if step.finish else today()))
    keys = {step.key for step in steps}
    steps = _in_order(steps)
    stops = tuple(
        PlanStop(
            key=step.key,
            title=step.title,
            when=_when(visit, step),
            arm=COMMON if "fit" in step.key.rpartition("/")[2] else systems.get(step.system, step.system or COMMON),
            kind="done" if step.state == "done" else "hold" if step.hold else "own" if step.place == "bench" else "shop",
            after=tuple(key for key in step.waits_for if key in keys),
        )
        for step in steps
    )
    finish = visit.tell.day(forecast.finish.likely) if forecast.finish else words.RUNS_BY_UNKNOWN
    end = words.CAN_RUN.format(day=finish)
    target = words.AIMED_AT.format(day=visit.tell.day(forecast.target)) if forecast.target else ""
    return draw_plan(PlanStreams(title=words.PLAN_PICTURE, stops=stops, common=COMMON, end=end, target=target))


def _in_order(steps: list[StepOutlook]) -> list[StepOutlook]:
    """By date, but never a step above one that it waits for."""
    placed: dict[str, StepOutlook] = {}
    left = list(steps)
    while left:
        ready = next(
            (step for step in left if not any(key in {other.key for other in left} for key in step.waits_for)), left[0]
        )
        left.remove(ready)
        placed[ready.key] = ready
    return list(placed.values())


def _prices(visit: Visit) -> tuple[PriceRow, ...]:
    tell, known = visit.tell, visit.snapshot.prices
    names = dict.fromkeys([*workbench.prices_asked(visit.job), *known])
    rows = []
    for name in names:
        price = known.get(name)
        cost, wait = (price.cost, price.wait_days) if price else (None, None)
        origin = (cost or wait).origin if price and (cost or wait) else ""  # type: ignore[union-attr]
        rows.append(
            PriceRow(
                name=name, cost=tell.money_range(cost), wait=tell.days(wait), shop=price.shop if price else "", asked=origin
            )
        )
    return tuple(rows)


def _aims(aims: Aims) -> dict[str, str]:
    return {
        "run_by": aims.run_by,
        "start": aims.start,
        "purse": "" if aims.purse is None else f"{aims.purse:g}",
        "currency": aims.currency,
        "hours_a_week": "" if aims.hours_a_week is None else f"{aims.hours_a_week:g}",
        "hours_a_year": "" if aims.hours_a_year is None else f"{aims.hours_a_year:g}",
    }


def act(visit: Visit) -> Response:
    """Aims, a price or wait, or a step that is done."""
    what = {"aims": _set_aims, "price": _set_price, "done": _set_done}.get(visit.form.text("what"))
    if what is None:
        raise Refused(words.BAD_CHOICE.format(typed=visit.form.text("what")))
    return what(visit)


def _set_aims(visit: Visit) -> Response:
    form, person = visit.form, visit.need_name()
    levels = {name: int(form.text(name)) for name, _ in PRIORITIES if form.text(name) in ("0", "1", "2", "3")}
    aims = replace(
        visit.snapshot.aims,
        run_by=form.day("run_by", what="the date to run by"),
        start=form.day("start", what="the day work starts"),
        purse=form.number("purse", what="the purse", example="3500"),
        currency=form.text("currency")[:8],
        hours_a_week=form.number("hours_a_week", what="hours a week", example="8"),
        hours_a_year=form.number("hours_a_year", what="hours a year", example="40"),
        **levels,  # type: ignore[arg-type]
    )
    workbench.set_aims(visit.job, aims, person=person)
    return go(visit.at.page("plan") + "#aims", words.SAID_AIMS)


def _set_price(visit: Visit) -> Response:
    form, person, name = visit.form, visit.need_name(), visit.form.text("name")
    workbench.price(
        visit.job,
        name,
        person=person,
        cost=form.span("cost", what="the cost", example="240"),
        wait_days=form.span("wait", what="the wait in days", example="21"),
        origin=form.text("origin"),
        shop=form.text("shop"),
    )
    return go(visit.at.page("plan") + "#prices", words.SAID_PRICE.format(name=name))


def _set_done(visit: Visit) -> Response:
    form = visit.form
    workbench.mark_done(
        visit.job, form.text("step"), on=form.day("on", what="the day"), person=visit.need_name(), note=form.text("note")
    )
    return go(visit.at.page("plan") + "#steps", words.SAID_DONE.format(title=form.text("title") or form.text("step")))
