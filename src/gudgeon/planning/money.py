"""What the plan costs, when, and whether the purse holds it. A price that nobody has given is named, never guessed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

import numpy as np

from gudgeon.engine.remedy import PricedItem
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.step import StepDraft
from gudgeon.planning.durations import Floats, drawn, spread_of
from gudgeon.planning.standing import orders_of_steps


@dataclass(frozen=True, slots=True)
class MoneyBy:
    """Money gone by the end of a day: 5 %, median and 95 % of the runs, known prices only."""

    on: date
    low: float
    likely: float
    high: float


@dataclass(frozen=True, kw_only=True)
class MoneyOutlook:
    """Money over the whole plan, in the job's currency.

    Attributes
    ----------
    low, likely, high : 5 %, median and 95 % of the runs, known prices only: with ``unknown`` items it is "at least".
    agreed : of that, prices agreed on orders that went out.
    chance_within : chance that the purse holds it; None without a purse or while a price is unknown.
    best_chance : the chance if every unknown item cost nothing; it can only be less.
    spread_from : per item the share of the spread that comes from it, most first.
    """

    currency: str
    low: float
    likely: float
    high: float
    agreed: float
    purse: float | None
    unknown: tuple[str, ...]
    chance_within: float | None
    best_chance: float | None
    by: tuple[MoneyBy, ...] = ()
    spread_from: tuple[tuple[str, float], ...] = ()
    draws: Floats = field(repr=False, compare=False)


@dataclass(frozen=True)
class _Payment:
    item: str
    cost: Floats
    step: str


def priced_items(drafts: Sequence[StepDraft], snapshot: Snapshot, priced: Sequence[PricedItem] | None) -> Mapping[str, float]:
    """How many of what has to be paid for: what the verdicts' remedies list, and one of whatever else a step takes."""
    if priced is None:
        newest = {verdict.subject: verdict for verdict in snapshot.verdicts}
        priced = [item for verdict in newest.values() for item in verdict.chosen.priced]
    counts: dict[str, float] = {}
    for item in priced:
        counts[item.name] = counts.get(item.name, 0) + item.count
    for draft in drafts:
        if draft.shop and draft.shop not in {item.name for item in priced}:
            counts[draft.shop] = counts.get(draft.shop, 0) + 1
    return counts


def payments(
    drafts: Sequence[StepDraft], snapshot: Snapshot, priced: Sequence[PricedItem] | None, *, runs: int
) -> tuple[tuple[_Payment, ...], tuple[str, ...], float]:
    """What is paid at the end of which step, per run; the items without a price; the sum agreed on orders.

    An item's count is shared among the steps that take it. A step whose order carries an agreed price costs that price.
    An item that no step takes is paid at the start.
    """
    orders = orders_of_steps(drafts, snapshot.orders)
    rows: list[_Payment] = []
    unknown: list[str] = []
    agreed = 0.0
    for name, count in priced_items(drafts, snapshot, priced).items():
        steps = [draft.key for draft in drafts if draft.shop == name] or [""]
        for key in steps:
            order = orders.get(key)
            if order is not None and order.price is not None:
                agreed += order.price
                rows.append(_Payment(name, np.full(runs, order.price), key))
                continue
            cost = _cost(name, snapshot, runs)
            if cost is None:
                unknown += [name] if name not in unknown else []
            else:
                rows.append(_Payment(name, cost * (count / len(steps)), key))
    carried = {order.id for order in orders.values()}
    for order in snapshot.orders:
        if order.id not in carried and order.price is not None and order.state != "withdrawn":
            agreed += order.price
            rows.append(_Payment(order.draft.priced or order.draft.title, np.full(runs, order.price), ""))
    return tuple(rows), tuple(unknown), agreed


def _cost(name: str, snapshot: Snapshot, runs: int) -> Floats | None:
    price = snapshot.prices.get(name)
    if price is None or price.cost is None:
        return None
    return drawn(spread_of(price.cost), name, "cost", runs=runs)


def money_outlook(
    drafts: Sequence[StepDraft],
    *,
    snapshot: Snapshot,
    priced: Sequence[PricedItem] | None,
    finishes: Mapping[str, Floats],
    first: date,
    runs: int,
) -> MoneyOutlook:
    """Money over the plan. ``finishes`` are the moments [days from ``first``] at which each step is finished, per run."""
    rows, unknown, agreed = payments(drafts, snapshot, priced, runs=runs)
    total = np.sum([row.cost for row in rows], axis=0) if rows else np.zeros(runs)
    purse = snapshot.aims.purse
    within = None if purse is None else float(np.mean(total <= purse + 1e-9))
    low, likely, high = np.quantile(total, (0.05, 0.5, 0.95))
    return MoneyOutlook(
        currency=snapshot.aims.currency,
        low=float(low), likely=float(likely), high=float(high), agreed=agreed, purse=purse, unknown=unknown,
        chance_within=None if unknown else within, best_chance=within,
        by=_over_time(rows, finishes, first, runs), spread_from=_spread_from(rows), draws=total,
    )  # fmt: skip


def _over_time(rows: Sequence[_Payment], finishes: Mapping[str, Floats], first: date, runs: int) -> tuple[MoneyBy, ...]:
    """Cumulated at the month's ends until all is paid, five years at most."""
    from datetime import timedelta

    moments = [finishes.get(row.step, np.zeros(runs)) for row in rows]
    last = max((float(np.quantile(moment, 0.95)) for moment in moments), default=0.0)
    found: list[MoneyBy] = []
    day = first
    while rows and len(found) < 60:
        month = (day.replace(day=28) + timedelta(days=4)).replace(day=1) - timedelta(days=1)
        gone = np.zeros(runs)
        for row, moment in zip(rows, moments, strict=True):
            gone += row.cost * (moment <= (month - first).days + 1)
        found.append(MoneyBy(month, *(float(value) for value in np.quantile(gone, (0.05, 0.5, 0.95)))))
        day = month + timedelta(days=1)
        if (month - first).days >= last:
            break
    return tuple(found)


def _spread_from(rows: Sequence[_Payment]) -> tuple[tuple[str, float], ...]:
    """Shares of the variance per item; payments of one item move together, items do not."""
    sums: dict[str, Floats] = {}
    for row in rows:
        sums[row.item] = sums[row.item] + row.cost if row.item in sums else row.cost
    variances = {name: float(np.var(cost)) for name, cost in sums.items()}
    whole = sum(variances.values())
    if whole <= 0:
        return ()
    shares = [(name, value / whole) for name, value in variances.items() if value > 1e-12 * whole]
    return tuple(sorted(shares, key=lambda share: -share[1]))
