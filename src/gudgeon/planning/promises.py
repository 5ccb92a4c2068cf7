"""How the shops have kept their promises: days taken over days promised, and what that says of the next promise."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

import numpy as np

from gudgeon.engine.order import Order
from gudgeon.planning.durations import TABLE, Spread, certain

PRIOR_ORDERS = 2.0
"""The owner's first orders are weighed against so many that came back on the day (chosen here; it fades as orders come in)."""
PRIOR_LOG_SPREAD = 0.3
"""Spread of ln(taken / promised) before any order came back: about a third early or late (from memory)."""


@dataclass(frozen=True, slots=True)
class KeptPromise:
    """One order that came back: calendar days from sending to having it back, promised and taken."""

    shop: str
    promised_days: float
    taken_days: float


@dataclass(frozen=True, slots=True)
class Lateness:
    """What taken / promised is expected to be: its median, the spread of its logarithm, and from how many orders."""

    median: float
    log_spread: float
    orders: int
    of_this_shop: int

    def of(self, promised_days: float) -> Spread:
        """The days that a promise of so many will take: log-normal, or as promised where nothing came back yet."""
        if self.orders == 0:
            return certain(promised_days)
        from scipy.special import ndtri

        chances = np.clip(np.linspace(0.0, 1.0, TABLE + 1), 0.5 / TABLE, 1 - 0.5 / TABLE)
        return Spread(table=promised_days * self.median * np.exp(self.log_spread * ndtri(chances)))

    @property
    def words(self) -> str:
        """Where it comes from."""
        if self.orders == 0:
            return "taken at the shop's word: nothing has come back yet to judge it by"
        told = f"{self.orders} order{'s' if self.orders > 1 else ''} back so far, {self.of_this_shop} of them from this shop"
        return f"reckoned at {self.median:.2f} times the time promised ({told})"


def day_of(text: str) -> date | None:
    """The day of an ISO date or time; None where none was given. Raises ValueError with what was read."""
    if not text:
        return None
    try:
        return date.fromisoformat(text[:10])
    except ValueError:
        raise ValueError(f"“{text}” was read as a date; one like 2027-05-01 would be right.") from None


def promised_day(order: Order) -> date | None:
    """The day last promised: a later ``promised`` event names it in its date, if that lies after the day it was noted."""
    promised = day_of(order.promised)
    for event in order.events:
        named, noted = day_of(event.on), day_of(event.at)
        if event.state == "promised" and named and (noted is None or named > noted):
            promised = named
    return promised


def sent_day(order: Order) -> date | None:
    """The day it went out, or went back to be done again."""
    sent = day_of(order.at)
    for event in order.events:
        if event.state in ("sent", "sent back"):
            sent = day_of(event.on) or sent
    return sent


def back_day(order: Order) -> date | None:
    """The day it first came back."""
    for event in order.events:
        if event.state in ("returned", "accepted", "accepted with a concession", "sent back"):
            return day_of(event.on)
    return None


def kept_promises(orders: Iterable[Order]) -> tuple[KeptPromise, ...]:
    """Of the orders that came back with a date promised when they went: promised against taken."""
    kept = []
    for order in orders:
        sent, promised, back = day_of(order.at), day_of(order.promised), back_day(order)
        if sent and promised and back and promised > sent and order.state != "withdrawn":
            kept.append(KeptPromise(order.shop, float((promised - sent).days), float(max((back - sent).days, 1))))
    return tuple(kept)


def lateness(kept: Iterable[KeptPromise], *, shop: str = "") -> Lateness:
    """Log-normal ratio of taken to promised, shrunk in two steps: all shops towards 1, one shop towards all shops.

    With r = ln(taken / promised), k = ``PRIOR_ORDERS`` and n orders: ``m_all = sum(r) / (n + k)``; of this shop's n_s orders
    ``m = (sum(r_s) + k m_all) / (n_s + k)``; ``s^2 = (k PRIOR_LOG_SPREAD^2 + sum((r - m_all)^2)) / (n + k)``; for the next
    order ``s sqrt(1 + 1 / (n_s + k))``. This is the posterior mean of normal means with weights fixed beforehand (partial
    pooling, e.g. Gelman et al., Bayesian Data Analysis, 3rd ed., 5.4); the weights are a choice, and fade with n.
    """
    rows = tuple(kept)
    if not rows:
        return Lateness(1.0, 0.0, 0, 0)
    every = np.log([row.taken_days / row.promised_days for row in rows])
    ours = np.array([r for r, row in zip(every, rows, strict=True) if shop and row.shop.casefold() == shop.casefold()])
    overall = every.sum() / (len(every) + PRIOR_ORDERS)
    here = (ours.sum() + PRIOR_ORDERS * overall) / (len(ours) + PRIOR_ORDERS)
    variance = (PRIOR_ORDERS * PRIOR_LOG_SPREAD**2 + ((every - overall) ** 2).sum()) / (len(every) + PRIOR_ORDERS)
    spread = float(np.sqrt(variance * (1 + 1 / (len(ours) + PRIOR_ORDERS))))
    return Lateness(float(np.exp(here)), spread, len(every), len(ours))
