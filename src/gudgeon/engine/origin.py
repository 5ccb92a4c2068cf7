"""Where a number came from, and how far it can be trusted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Grade = Literal["A", "B", "C", "D", "E", "F"]

GRADE_WORDS: dict[Grade, str] = {
    "A": "maker's document for this engine",
    "B": "unworn place, read twice",
    "C": "agrees with its mate and a standard size of the time",
    "D": "sister engine",
    "E": "handbook or design ratio",
    "F": "chosen by the owner",
}


@dataclass(frozen=True, slots=True)
class Origin:
    """A graded source. ``source`` names a book, a standard, readings, or says ``common practice`` or ``from memory``."""

    grade: Grade
    source: str
    page: str = ""

    def __str__(self) -> str:
        page = f", {self.page}" if self.page else ""
        return f"{self.source}{page} ({self.grade}: {GRADE_WORDS[self.grade]})"


@dataclass(frozen=True, slots=True)
class Range:
    """Low, likely and high of something uncertain that people estimate: money, hours, days.

    The unit is the holder's: ``Remedy.cost`` in the job's currency, hours in hours, waits in calendar days.
    """

    low: float
    likely: float
    high: float
    origin: str

    def __post_init__(self) -> None:
        if not self.low <= self.likely <= self.high:
            raise ValueError(
                f"A range was given as low {self.low}, likely {self.likely}, high {self.high}; "
                "it must rise from low through likely to high."
            )
