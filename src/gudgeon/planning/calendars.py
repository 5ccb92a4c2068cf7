"""Calendars: the owner's hours at the bench and the days a shop is open, as work done by the end of each day."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

HORIZON_DAYS = 5 * 365
"""Days laid out one by one; after them the mean pace of the last year goes on."""

EVENINGS_AND_WEEKENDS = (1.0, 1.0, 1.0, 1.0, 1.0, 2.5, 2.5)
"""Shares of a week's hours, Monday to Sunday: evenings on working days, most of it at the weekend (common practice; the
owner may give his own)."""

ROUNDING = 1e-9
"""Work too small to count [h or days]: so rounding never carries a moment across days on which nothing is done."""


@dataclass(frozen=True, kw_only=True)
class WorkCalendar:
    """Work that can be done by a moment. Moments are days (with fractions) counted from the beginning of ``first``.

    Attributes
    ----------
    done : work done by the beginning of day 0, 1, 2 ...; starts at 0 and never falls. Within a day it goes on evenly.
    beyond : work a day after the last day laid out, and before the first.
    """

    first: date
    done: NDArray[np.float64]
    beyond: float

    def by(self, moment: float) -> float:
        """Work done from the beginning of the first day to a moment."""
        last = len(self.done) - 1
        if moment < 0:
            return moment * self.beyond
        if moment >= last:
            return float(self.done[last]) + (moment - last) * self.beyond
        day = int(moment)
        return float(self.done[day] + (moment - day) * (self.done[day + 1] - self.done[day]))

    def finish(self, moment: float, work: float) -> float:
        """The earliest moment at which work begun at a moment is done; infinite if it never is."""
        if work <= ROUNDING:
            return moment
        wanted, last = self.by(moment) + work - ROUNDING, len(self.done) - 1
        if wanted > self.done[last]:
            return last + (wanted - float(self.done[last])) / self.beyond if self.beyond > 0 else np.inf
        if wanted <= 0:
            return wanted / self.beyond if self.beyond > 0 else moment
        day = int(np.searchsorted(self.done, wanted, side="left")) - 1
        return day + (wanted - float(self.done[day])) / float(self.done[day + 1] - self.done[day])

    def start(self, moment: float, work: float) -> float:
        """The latest moment at which work may begin that must be done by a moment."""
        if work <= ROUNDING:
            return moment
        wanted, last = self.by(moment) - work + 2 * ROUNDING, len(self.done) - 1
        if wanted >= self.done[last]:
            return last + (wanted - float(self.done[last])) / self.beyond if self.beyond > 0 else float(last)
        if wanted < 0:
            return wanted / self.beyond if self.beyond > 0 else -np.inf
        day = int(np.searchsorted(self.done, wanted, side="right")) - 1
        return day + (wanted - float(self.done[day])) / float(self.done[day + 1] - self.done[day])

    def day(self, moment: float) -> date | None:
        """The date of a moment. Work done exactly at the end of a day belongs to that day. None if it never comes."""
        if not np.isfinite(moment) or abs(moment) > 300_000:
            return None
        return self.first + timedelta(days=int(np.floor(moment - 1e-9)) if moment > 0 else int(np.floor(moment)))


def away_days(away: Iterable[tuple[str, str]]) -> set[date]:
    """All days of ISO date spans, both ends among them. Raises ValueError with the span that cannot be read."""
    days: set[date] = set()
    for first, last in away:
        try:
            begin, end = date.fromisoformat(first), date.fromisoformat(last or first)
        except ValueError:
            raise ValueError(f"Away “{first}” to “{last}” was read; two dates like 2027-02-01 would be right.") from None
        if end < begin:
            raise ValueError(f"Away from {first} to {last} ends before it begins; the earlier date first would be right.")
        days |= {begin + timedelta(days=number) for number in range((end - begin).days + 1)}
    return days


def own_hours(
    *,
    first: date,
    hours_a_week: float,
    away: Iterable[tuple[str, str]] = (),
    shares: Sequence[float] = EVENINGS_AND_WEEKENDS,
    begin: date | None = None,
    days: int = HORIZON_DAYS,
) -> WorkCalendar:
    """The owner's hours: a week's hours shared over its days, none while away and none before ``begin``.

    Hours of days away are lost, not made up. Raises ValueError for hours outside 0 to 168 or shares that are not seven.
    """
    if not 0 <= hours_a_week <= 168:
        raise ValueError(f"{hours_a_week:g} hours a week was read; between 0 and 168 would be right.")
    if len(shares) != 7 or min(shares) < 0 or sum(shares) <= 0:
        raise ValueError(f"{tuple(shares)} was read as the shares of a week; seven numbers, Monday first, would be right.")
    gone = away_days(away)
    week = np.asarray(shares, dtype=float) / float(sum(shares)) * hours_a_week
    hours = week[(first.weekday() + np.arange(days)) % 7]
    for day in gone:
        number = (day - first).days
        if 0 <= number < days:
            hours[number] = 0.0
    if begin is not None and begin > first:
        hours[: (begin - first).days] = 0.0
    return WorkCalendar(first=first, done=np.concatenate([[0.0], np.cumsum(hours)]), beyond=hours_a_week / 7)


def shop_days(*, first: date, closed: Iterable[tuple[str, str]] = (), days: int = HORIZON_DAYS) -> WorkCalendar:
    """Calendar days on which a shop gets on with what it has; none while it is closed."""
    open_days = np.ones(days)
    for day in away_days(closed):
        number = (day - first).days
        if 0 <= number < days:
            open_days[number] = 0.0
    return WorkCalendar(first=first, done=np.concatenate([[0.0], np.cumsum(open_days)]), beyond=1.0)
