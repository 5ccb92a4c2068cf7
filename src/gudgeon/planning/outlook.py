"""What a forecast says: the frozen types that pages, calendar and record read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from gudgeon.engine.caution import Caution
from gudgeon.planning.durations import Floats
from gudgeon.planning.money import MoneyOutlook
from gudgeon.planning.standing import State


@dataclass(frozen=True, slots=True)
class Dates:
    """5 %, median and 95 % of the runs."""

    low: date
    likely: date
    high: date


@dataclass(frozen=True, kw_only=True)
class StepOutlook:
    """One step on the plan.

    Attributes
    ----------
    place : "bench", or the priced item that a shop does.
    start, finish : of what is still to come; of a finished step the day it was done. None where they never come.
    slack_days : how far its start may slip without moving the end, median of the runs; None for a finished step.
    criticality : share of the runs whose end it set.
    waits_for : keys of the steps before it that are not finished.
    words : why it stands as it does.
    not_before : the dates count only what is known; an unknown wait comes before this step or in it.
    """

    key: str
    title: str
    system: str
    place: str
    start: Dates | None
    finish: Dates | None
    slack_days: float | None
    criticality: float
    waits_for: tuple[str, ...]
    state: State
    words: str
    not_before: bool = False
    hold: str = ""
    promised: date | None = None
    cautions: tuple[Caution, ...] = ()


@dataclass(frozen=True, kw_only=True)
class LatestSend:
    """How late a step may go out to the shop.

    Attributes
    ----------
    on : the latest day that keeps the target at ``level``; None where it is not kept even if all goes out in time.
    if_all_goes_well : the latest day if everything takes its likely time.
    at_most : unknown waits stand behind it, so that the true day is earlier.
    """

    key: str
    title: str
    shop: str
    on: date | None
    if_all_goes_well: date | None
    level: float
    at_most: bool
    sentence: str


@dataclass(frozen=True, kw_only=True)
class Ask:
    """Something worth finding out, with how far the plan hangs on it.

    ``days`` is how far the end moves for four more weeks of an unknown wait, or how much of the spread of the end [day] comes
    from a known one; ``free_days`` what an unknown wait may take before it moves the end at all; ``share`` of the spread of
    the money for a price.
    """

    kind: Literal["hours a week", "wait", "price", "wait known roughly", "price known roughly"]
    name: str
    days: float = 0.0
    free_days: float | None = None
    share: float | None = None
    sentence: str = ""


@dataclass(frozen=True, slots=True)
class Buffer:
    """Days to keep in hand: between the end if all takes its likely time and the end that is kept at ``level``."""

    likely_end: date
    safe_end: date
    days: int
    level: float


@dataclass(frozen=True, kw_only=True)
class Forecast:
    """Will it run this season, within the purse.

    Attributes
    ----------
    can_tell : False while a wait, the owner's hours or the order of the work is unknown; ``finish`` is None then.
    not_before : the earliest day that what is known allows (5 % of the runs).
    chance_by_target : None without a target or while it cannot be told; ``best_chance`` counts unknown waits as nothing.
    chance_of_both : by the target and within the purse.
    order_words : how good the order of the work is.
    remarks : what is wrong with the plan as it was given.
    runs : how many runs it rests on; fewer than asked for when it was stopped.
    ends, moments : draws for comparisons: end of each run [days from ``today``], and finish per step.
    """

    today: date
    steps: tuple[StepOutlook, ...]
    can_tell: bool
    finish: Dates | None
    not_before: date | None
    target: date | None
    chance_by_target: float | None
    best_chance: float | None
    chance_of_both: float | None
    latest_send: tuple[LatestSend, ...]
    money: MoneyOutlook
    ask_for: tuple[Ask, ...]
    buffer: Buffer | None
    own_hours_left: float
    order_words: str
    remarks: tuple[str, ...]
    sentences: tuple[str, ...]
    level: float
    runs: int
    ends: Floats = field(repr=False, compare=False)
    moments: Mapping[str, Floats] = field(repr=False, compare=False)


def in_ten(chance: float) -> str:
    """A chance as people say it: "7 in 10". Never "10 in 10" or "0 in 10" for what is only likely or unlikely."""
    if chance >= 0.995:
        return "as good as certain"
    if chance <= 0.005:
        return "as good as impossible"
    if chance > 0.95:
        return f"{min(round(chance * 100), 99)} in 100"
    if chance < 0.05:
        return f"{max(round(chance * 100), 1)} in 100"
    return f"{round(chance * 10)} in 10" if round(chance * 10) not in (0, 10) else f"{round(chance * 100)} in 100"


MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def said_day(day: date) -> str:
    """A date in words: "1 May 2027", the same in every locale."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def said_money(amount: float, currency: str) -> str:
    """A sum in whole units with its currency."""
    return f"{currency} {amount:,.0f}".strip()
