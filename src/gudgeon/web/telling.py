"""Numbers and moments as text for one reader. The only place where a page's figures are made into words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin, Range
from gudgeon.quantity import Amount, Said, UnitChoice, say, show
from gudgeon.quantity.show import UnknownDimension, show_interval
from gudgeon.web import words

_MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]


@dataclass(frozen=True, slots=True)
class Teller:
    """Says amounts in the reader's units and money in the job's currency."""

    units: UnitChoice
    currency: str = ""

    def amount(self, value: float | None, dimension: str) -> str:
        """One size, or "" for none."""
        if value is None:
            return ""
        try:
            return show(Amount(value, dimension), self.units)
        except UnknownDimension:
            return f"{value:.3g}"

    def interval(self, low: float | None, high: float | None, dimension: str, *, fine: bool = False) -> str:
        """A band, or "" for none; ``fine`` with one more digit."""
        if low is None and high is None:
            return ""
        try:
            return show_interval(low, high, dimension, self.units, fine=fine)
        except UnknownDimension:
            return f"{low:.3g} to {high:.3g}" if low is not None and high is not None else ""

    def said(self, said: Said | str) -> str:
        """A sentence with its amounts."""
        return say(said, self.units) if isinstance(said, Said) else said

    def chance(self, chance: float | None) -> str:
        """ "98 in 100"."""
        return "" if chance is None else show(Amount(chance, "probability"), self.units)

    def money(self, value: float | None) -> str:
        """A sum in the job's currency."""
        if value is None:
            return ""
        return f"{show(Amount(value, 'money'), self.units)} {self.currency}".strip()

    def money_range(self, span: Range | None) -> str:
        """Low to high, and the likely one."""
        if span is None:
            return ""
        if span.low == span.high:
            return self.money(span.likely)
        low, high = (show(Amount(end, "money"), self.units) for end in (span.low, span.high))
        return f"{low} to {high} {self.currency}".strip() + f", likely {show(Amount(span.likely, 'money'), self.units)}"

    @staticmethod
    def days(span: Range | None) -> str:
        """A wait in days."""
        if span is None:
            return ""
        return (
            f"{span.likely:.0f} days"
            if span.low == span.high
            else f"{span.low:.0f} to {span.high:.0f} days, likely {span.likely:.0f}"
        )

    @staticmethod
    def hours(span: Range | None) -> str:
        """Own work in hours."""
        if span is None:
            return ""
        return f"{span.likely:g} h" if span.low == span.high else f"{span.low:g} to {span.high:g} h"

    @staticmethod
    def day(moment: str | date | None) -> str:
        """ "1 May 2027" for an ISO date or moment; a text that is neither stays as it is."""
        if not moment:
            return ""
        try:
            day = moment if isinstance(moment, date) else datetime.fromisoformat(moment).date()
        except ValueError:
            return str(moment)
        return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"

    @staticmethod
    def moment(moment: str) -> str:
        """ "1 May 2027, 14:05", in the machine's own time."""
        try:
            at = datetime.fromisoformat(moment).astimezone()
        except ValueError:
            return moment
        return f"{at.day} {_MONTHS[at.month - 1]} {at.year}, {at:%H:%M}"

    @staticmethod
    def clock(moment: str) -> str:
        """ "17 October 2026, 15:20" as the camera's own clock had it; a text that is no moment stays as it is."""
        try:
            at = datetime.fromisoformat(moment)
        except ValueError:
            return moment
        return f"{at.day} {_MONTHS[at.month - 1]} {at.year}, {at:%H:%M}"

    @staticmethod
    def direction(degrees: float | None) -> str:
        """ "across the crank"."""
        if degrees is None:
            return ""
        return words.DIRECTIONS.get(degrees, words.DIRECTION_OTHER.format(degrees=degrees))

    def found(self, finding: Finding) -> str:
        """What was found."""
        return self.amount(finding.value, finding.dimension)

    @staticmethod
    def origin(origin: Origin | None) -> str:
        """Where a number came from, with its grade."""
        return str(origin) if origin else ""
