"""What if: one thing changed, everything else on the same draws, so that the difference is the change and not luck."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

import numpy as np

from gudgeon.engine.origin import Range
from gudgeon.engine.snapshot import Price, Snapshot
from gudgeon.engine.step import StepDraft
from gudgeon.planning.forecast import forecast
from gudgeon.planning.outlook import Forecast, in_ten, said_day, said_money


@dataclass(frozen=True, kw_only=True)
class Change:
    """A change in words, and what it does to the job as it stands. Nothing is written to the job."""

    words: str
    apply: Callable[[Snapshot], Snapshot]


def wait_changed(item: str, wait: Range, *, shop: str = "", cost: Range | None = None) -> Change:
    """Another wait for an item, or another shop with its own wait and price."""

    def apply(snapshot: Snapshot) -> Snapshot:
        old = snapshot.prices.get(item)
        price = Price(
            name=item, cost=cost if cost is not None or old is None else old.cost, wait_days=wait,
            shop=shop or (old.shop if old else ""),
        )  # fmt: skip
        return replace(snapshot, prices={**snapshot.prices, item: price})

    where = f" at {shop}" if shop else ""
    return Change(words=f"if “{item}”{where} takes {wait.low:g} to {wait.high:g} days, likely {wait.likely:g}", apply=apply)


def away_too(first: date, last: date) -> Change:
    """Days lost at the bench, both ends among them."""

    def apply(snapshot: Snapshot) -> Snapshot:
        away = (*snapshot.aims.away, (first.isoformat(), last.isoformat()))
        return replace(snapshot, aims=replace(snapshot.aims, away=away))

    return Change(words=f"if you are away from {said_day(first)} to {said_day(last)}", apply=apply)


def hours_changed(hours_a_week: float) -> Change:
    """Another number of hours a week."""

    def apply(snapshot: Snapshot) -> Snapshot:
        return replace(snapshot, aims=replace(snapshot.aims, hours_a_week=hours_a_week))

    return Change(words=f"with {hours_a_week:g} hours a week", apply=apply)


@dataclass(frozen=True, kw_only=True)
class Comparison:
    """Before and after, run by run on the same draws.

    ``days_low``, ``days``, ``days_high`` are 5 %, median and 95 % of how far the end moves (later is positive); None where
    either end cannot be told. ``money`` is the median difference of known prices.
    """

    before: Forecast
    after: Forecast
    days_low: float | None
    days: float | None
    days_high: float | None
    money: float
    sentences: tuple[str, ...]


def what_if(
    drafts: Sequence[StepDraft], *, snapshot: Snapshot, today: date, change: Change, before: Forecast | None = None, **kept: Any
) -> Comparison:
    """The forecast with one thing changed beside the forecast as it stands.

    ``kept`` are further arguments of ``forecast`` and go to both. A ``before`` made with the same arguments saves its runs.
    """
    before = before or forecast(drafts, snapshot=snapshot, today=today, **kept)
    after = forecast(drafts, snapshot=change.apply(snapshot), today=today, **kept)
    return compared(before, after, words=change.words)


def compared(before: Forecast, after: Forecast, *, words: str) -> Comparison:
    """Two forecasts of the same plan, run by run."""
    runs = min(before.runs, after.runs)
    moved = after.ends[:runs] - before.ends[:runs]
    money = float(np.median(after.money.draws[:runs] - before.money.draws[:runs]))
    told = before.can_tell and after.can_tell and bool(np.isfinite(moved).all())
    low, middle, high = (float(v) for v in np.quantile(moved, (0.05, 0.5, 0.95))) if told else (None, None, None)
    said = [*_date_words(before, after, low, middle, high, words), *_money_words(before, after, money)]
    return Comparison(
        before=before, after=after, days_low=low, days=middle, days_high=high, money=money, sentences=tuple(said)
    )  # fmt: skip


def _date_words(
    before: Forecast, after: Forecast, low: float | None, middle: float | None, high: float | None, words: str
) -> list[str]:
    head = words[0].upper() + words[1:]
    if low is None or middle is None or high is None:
        if not after.can_tell:
            return [f"{head}: it still can't be told when the engine runs."]
        when = f", likely {said_day(after.finish.likely)}" if after.finish else ""
        return [f"{head}: it can be told when the engine runs{when}."]
    if max(abs(low), abs(high)) < 0.5:
        rows = [f"{head}, the date stays."]
    elif abs(middle) < 0.5:
        rows = [f"{head}, the date mostly stays; 9 in 10 it moves by {low:+.0f} to {high:+.0f} days."]
    else:
        way = "later" if middle > 0 or (middle == 0 and high > 0) else "sooner"
        near, far = sorted((abs(low), abs(high)))
        rows = [f"{head}, it ends about {abs(middle):.0f} days {way}, 9 in 10 by {near:.0f} to {far:.0f}."]
        if low < -0.5 and high > 0.5:
            rows = [f"{head}, the end moves by {low:+.0f} to {high:+.0f} days, most likely {middle:+.0f}."]
    if before.chance_by_target is not None and after.chance_by_target is not None and after.target is not None:
        old, new = in_ten(before.chance_by_target), in_ten(after.chance_by_target)
        rows.append(f"By {said_day(after.target)}: {new}" + (f" instead of {old}." if new != old else ", as before."))
    return rows


def _money_words(before: Forecast, after: Forecast, money: float) -> list[str]:
    rows = []
    if abs(money) >= 0.5:
        rows.append(f"It costs about {said_money(abs(money), after.money.currency)} {'more' if money > 0 else 'less'}.")
    if before.money.chance_within is not None and after.money.chance_within is not None:
        old, new = in_ten(before.money.chance_within), in_ten(after.money.chance_within)
        if old != new:
            rows.append(f"The purse holds it: {new} instead of {old}.")
    return rows
