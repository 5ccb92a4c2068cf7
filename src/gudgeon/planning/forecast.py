"""The forecast: from the steps of the plan and the job as it stands to dates, chances, money and what to ask for."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date

import numpy as np

from gudgeon.engine.remedy import PricedItem
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.step import StepDraft
from gudgeon.planning.asking import ask_for
from gudgeon.planning.calendars import EVENINGS_AND_WEEKENDS, WorkCalendar, own_hours, shop_days
from gudgeon.planning.durations import Floats, drawn_goes, pert_mean, spread_of
from gudgeon.planning.laid import Laid
from gudgeon.planning.money import money_outlook
from gudgeon.planning.network import Checked, checked, network_of_rows, passes
from gudgeon.planning.outlook import Buffer, Dates, Forecast, LatestSend, StepOutlook
from gudgeon.planning.promises import day_of
from gudgeon.planning.schedule import Project, scheduled
from gudgeon.planning.simulate import BenchOutcome, BenchPlan, latest_send, ranked_by, simulate_bench
from gudgeon.planning.standing import Standing, standings
from gudgeon.planning.telling import latest_words, sentences

DURING_THE_DAY = 1e-6
"""Added to every wait [day]: what comes back comes during its day, not at the stroke of the midnight before."""

Closed = Mapping[str, Sequence[tuple[str, str]]]
Told = Callable[[float], bool]


def forecast(
    drafts: Sequence[StepDraft],
    *,
    snapshot: Snapshot,
    today: date,
    runs: int = 10_000,
    level: float = 0.8,
    progress: Told | None = None,
    priced: Sequence[PricedItem] | None = None,
    shares: Sequence[float] = EVENINGS_AND_WEEKENDS,
    closed: Closed | None = None,
    hands: int = 1,
    exact: bool = False,
) -> Forecast:
    """When it will run and for how much, with the chances, from everything that is known and nothing that is not.

    Own work is done by one pair of hands (``hands``) in the owner's hours; waits at shops run side by side in calendar days.
    Durations are PERT betas; a step that may fail is done again. Steps done and orders out are taken as they stand. An
    unknown wait makes the end "cannot tell", with the day before which it cannot be and what to ask for, ranked.

    Parameters
    ----------
    runs : number of runs, at least 100; 10,000 tell a chance to about 1 in 100.
    level : chance at which latest sendings and the buffer keep the date, between 0 and 1.
    progress : told the share done; returning False stops the runs, and the forecast rests on those done.
    priced : what is paid for, where it differs from what the standing verdicts list (a remedy assumed, not settled).
    shares : how a week's hours fall on its days, Monday first.
    closed : per shop item, or "" for every shop, the spans (ISO dates, both ends among them) on which it does nothing.
    exact : look for the best order with OR-tools where it is installed.

    Raises
    ------
    ValueError
        For too few runs, a level outside 0 to 1, hours a week outside 0 to 168, or a date that cannot be read.
    """
    _check(runs, level)
    sound = checked(drafts)
    laid = lay_out(
        drafts, sound=sound, snapshot=snapshot, today=today, runs=runs, shares=shares, closed=closed or {}, hands=hands
    )
    laid = _ranked(laid, exact=exact)
    target = day_of(snapshot.aims.run_by)
    deadline = np.inf if target is None else float((target - today).days + 1)
    outcome = simulate_bench(
        laid.plan, hours=laid.hours, waits=laid.waits, deadline=deadline,
        progress=None if progress is None else lambda done, asked: progress(done / asked),
    )  # fmt: skip
    return _told(laid, outcome, sound=sound, snapshot=snapshot, today=today, target=target, level=level, priced=priced)


def _check(runs: int, level: float) -> None:
    if runs < 100:
        raise ValueError(f"{runs} runs were asked for; a chance to one in ten takes at least 100.")
    if not 0 < level < 1:
        raise ValueError(f"A level of {level:g} was asked for; between 0 and 1 would be right.")


def lay_out(
    drafts: Sequence[StepDraft],
    *,
    sound: Checked,
    snapshot: Snapshot,
    today: date,
    runs: int,
    shares: Sequence[float],
    closed: Closed,
    hands: int,
) -> Laid:
    """The plan with its calendars and draws. A step under way or done waits for nothing any more."""
    by_key = {draft.key: draft for draft in drafts}
    stand = standings(drafts, snapshot=snapshot, today=today)
    network = sound.network
    free = {key for key in network.keys if stand[key].state == "done" or stand[key].order is not None}
    rows = tuple(() if key in free else row for key, row in zip(network.keys, network.before, strict=True))
    network = network_of_rows(network.keys, rows)
    ordered = tuple(by_key[key] for key in network.keys)
    standing = tuple(stand[key] for key in network.keys)
    begin = day_of(snapshot.aims.start) or today
    hours_known = bool(snapshot.aims.hours_a_week)
    own = own_hours(
        first=today, hours_a_week=snapshot.aims.hours_a_week or 0.0, away=snapshot.aims.away, shares=shares, begin=begin
    )
    calendars, shop = _shop_calendars(ordered, standing, today, closed)
    offset = float(max((begin - today).days, 0))
    plan = BenchPlan(
        network=network, calendars=(own, *calendars), shop=shop, rank=tuple(range(len(network))),
        release=tuple(0.0 if key in free else offset for key in network.keys), hands=hands,
    )  # fmt: skip
    hours, waits = np.zeros((runs, len(network))), np.zeros((runs, len(network)))
    likely_hours, likely_waits = np.zeros((1, len(network))), np.zeros((1, len(network)))
    for place, (draft, now) in enumerate(zip(ordered, standing, strict=True)):
        if now.own_work and draft.hours is not None and hours_known:
            hours[:, place] = drawn_goes(spread_of(draft.hours), draft.may_fail, draft.key, "hours", runs=runs)
            likely_hours[0, place] = draft.hours.likely
        if now.wait is not None and now.wait.table[-1] > 0:
            may_fail = None if now.order is not None else draft.may_fail
            waits[:, place] = drawn_goes(now.wait, may_fail, draft.key, "wait", runs=runs) + DURING_THE_DAY
            likely_waits[0, place] = float(np.median(now.wait.table)) + DURING_THE_DAY
    return Laid(
        plan=plan, drafts=ordered, standing=standing, hours=hours, waits=waits, likely_hours=likely_hours,
        likely_waits=likely_waits, hours_known=hours_known,
        unknown=tuple(place for place, now in enumerate(standing) if now.wait is None),
    )  # fmt: skip


def _shop_calendars(
    drafts: Sequence[StepDraft], standing: Sequence[Standing], today: date, closed: Closed
) -> tuple[tuple[WorkCalendar, ...], tuple[int, ...]]:
    """A calendar for each set of closed spans; a date promised already counts them in."""
    found: dict[tuple[tuple[str, str], ...], int] = {(): 1}
    shop = []
    for draft, now in zip(drafts, standing, strict=True):
        spans = () if now.promised else tuple(map(tuple, (*closed.get("", ()), *closed.get(draft.shop, ()))))
        shop.append(found.setdefault(spans if draft.shop else (), len(found) + 1))  # type: ignore[arg-type]
    return tuple(shop_days(first=today, closed=spans) for spans in found), tuple(shop)


def _ranked(laid: Laid, *, exact: bool) -> Laid:
    """Which step a free hand takes first: by latest start or by a list schedule, whichever ends sooner over some runs."""
    own = laid.plan.calendars[0]
    pace = own.beyond or 1.0
    hours = np.array(
        [pert_mean(d.hours) if d.hours and now.own_work else 0.0 for d, now in zip(laid.drafts, laid.standing, strict=True)]
    )
    days = (hours / pace if laid.hours_known else 0 * hours) + laid.likely_waits[0]
    if len(days) == 0:
        return laid
    late = ranked_by(list(passes(laid.plan.network, days).late_start))
    if not laid.hours_known or (laid.likely_hours > 0).sum() < 2:
        return replace(laid, plan=replace(laid.plan, rank=late))
    found = scheduled(_project(laid, hours / pace), exact=exact, restarts=30)
    listed = ranked_by(found.starts[0::2])
    some = slice(0, 200)
    plans = [replace(laid.plan, rank=rank) for rank in (late, listed)]
    ends = [simulate_bench(plan, hours=laid.hours[some], waits=laid.waits[some]).ends.mean() for plan in plans]
    return replace(laid, plan=plans[int(np.argmin(ends))], order_words=found.sentence)


def _project(laid: Laid, days: Floats) -> Project:
    """Own work and waits as whole quarter days, the hands as the one resource. Waits stand after all own work."""
    count = len(days)
    keys = (*laid.plan.network.keys, *(f"{key} (wait)" for key in laid.plan.network.keys))
    rows = [*(tuple(count + p for p in row) for row in laid.plan.network.before), *((p,) for p in range(count))]
    quarters = [round(4 * d) for d in (*days, *laid.likely_waits[0])]
    needs = [(int(d > 0),) for d in quarters[:count]] + [(0,)] * count
    order = [p for pair in zip(range(count), range(count, 2 * count), strict=True) for p in pair]
    place = {old: new for new, old in enumerate(order)}
    network = network_of_rows(tuple(keys[p] for p in order), tuple(tuple(place[b] for b in rows[p]) for p in order))
    return Project(
        network=network, durations=tuple(quarters[p] for p in order), needs=tuple(needs[p] for p in order),
        capacities=(laid.plan.hands,),
    )  # fmt: skip


def _told(
    laid: Laid,
    outcome: BenchOutcome,
    *,
    sound: Checked,
    snapshot: Snapshot,
    today: date,
    target: date | None,
    level: float,
    priced: Sequence[PricedItem] | None,
) -> Forecast:
    """The outcome in dates, chances and words."""
    own, ends, runs = laid.plan.calendars[0], outcome.ends, len(outcome.starts)
    hours_left = sum(
        pert_mean(d.hours) for d, now in zip(laid.drafts, laid.standing, strict=True) if d.hours is not None and now.own_work
    )
    can_tell = not laid.unknown and not sound.loops and (laid.hours_known or hours_left == 0)
    deadline = np.inf if target is None else float((target - today).days + 1)
    best = None if target is None else float(np.mean(ends <= deadline))
    moments = {key: outcome.finishes[:, place] for place, key in enumerate(laid.plan.network.keys)}
    money = money_outlook(laid.drafts, snapshot=snapshot, priced=priced, finishes=moments, first=today, runs=runs)
    chance = best if can_tell else None
    both = None
    if chance is not None and money.chance_within is not None and money.purse is not None:
        both = float(np.mean((ends <= deadline) & (money.draws <= money.purse + 1e-9)))
    finish = _dates(own, ends) if len(laid.drafts) else None
    likely = simulate_bench(laid.plan, hours=laid.likely_hours, waits=laid.likely_waits, deadline=deadline)
    told = Forecast(
        today=today, steps=_steps(laid, outcome), can_tell=can_tell, finish=finish if can_tell else None,
        not_before=finish.low if finish else None, target=target, chance_by_target=chance, best_chance=best,
        chance_of_both=both,
        latest_send=_latest(laid, outcome, likely, deadline=deadline, level=level, at_most=not can_tell), money=money,
        ask_for=ask_for(laid, outcome, money=money), buffer=_buffer(own, likely, ends, level) if can_tell else None,
        own_hours_left=hours_left, order_words=laid.order_words, remarks=sound.remarks, sentences=(), level=level, runs=runs,
        ends=ends, moments=moments,
    )  # fmt: skip
    return replace(told, sentences=sentences(told, hours_known=laid.hours_known))


def _dates(calendar: WorkCalendar, moments: Floats) -> Dates | None:
    low, likely, high = (calendar.day(float(m)) for m in np.quantile(moments, (0.05, 0.5, 0.95), method="higher"))
    return Dates(low, likely, high) if low and likely and high else None


def _steps(laid: Laid, outcome: BenchOutcome) -> tuple[StepOutlook, ...]:
    """All steps, in the order of their median start as the plan stands, finished ones first."""
    own, criticality = laid.plan.calendars[0], outcome.criticality
    unfinished = {draft.key for draft, now in zip(laid.drafts, laid.standing, strict=True) if now.state != "done"}
    after_unknown: set[int] = set()
    rows = []
    for place, (draft, now) in enumerate(zip(laid.drafts, laid.standing, strict=True)):
        no_hours = not laid.hours_known and draft.hours is not None and now.own_work
        if place in laid.unknown or no_hours or any(before in after_unknown for before in laid.plan.network.before[place]):
            after_unknown.add(place)
        done = now.state == "done"
        on = Dates(now.on, now.on, now.on) if now.on else None
        rows.append(
            StepOutlook(
                key=draft.key,
                title=draft.title,
                system=draft.system,
                place=draft.shop or "bench",
                start=on if done else _dates(own, outcome.starts[:, place] + DURING_THE_DAY),
                finish=on if done else _dates(own, outcome.finishes[:, place]),
                slack_days=None if done else float(np.median(outcome.slacks[:, place])),
                criticality=0.0 if done else float(criticality[place]),
                waits_for=() if done else tuple(dict.fromkeys(key for key in draft.after if key in unfinished)),
                state=now.state,
                words=now.words,
                not_before=place in after_unknown,
                hold=draft.hold,
                promised=now.promised,
                cautions=draft.cautions,
            )
        )
    middle = np.median(outcome.starts, axis=0)
    order = sorted(range(len(rows)), key=lambda place: (rows[place].state != "done", float(middle[place]), place))
    return tuple(rows[place] for place in order)


def _latest(
    laid: Laid, outcome: BenchOutcome, likely: BenchOutcome, *, deadline: float, level: float, at_most: bool
) -> tuple[LatestSend, ...]:
    """For each step not yet sent to its shop, soonest first. Empty without a target."""
    if not np.isfinite(deadline):
        return ()
    own, found = laid.plan.calendars[0], []
    for place, (draft, now) in enumerate(zip(laid.drafts, laid.standing, strict=True)):
        if not draft.shop or now.order is not None or now.state == "done" or place in laid.unknown:
            continue
        moment = latest_send(outcome, place, deadline=deadline, level=level)
        well = float(likely.sends[0, place])
        found.append(
            LatestSend(
                key=draft.key,
                title=draft.title,
                shop=draft.shop,
                on=None if moment is None else own.day(moment),
                if_all_goes_well=own.day(well),
                level=level,
                at_most=at_most,
                sentence="",
            )
        )
    found = [replace(row, sentence=latest_words(row, today=own.first)) for row in found]
    return tuple(sorted(found, key=lambda row: row.on or row.if_all_goes_well or date.max))


def _buffer(own: WorkCalendar, likely: BenchOutcome, ends: Floats, level: float) -> Buffer | None:
    first, safe = own.day(float(likely.ends[0])), own.day(float(np.quantile(ends, level, method="higher")))
    if first is None or safe is None:
        return None
    return Buffer(likely_end=first, safe_end=safe, days=max((safe - first).days, 0), level=level)
