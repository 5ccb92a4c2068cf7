"""Oversizes and undersizes in which pistons, rings, pins and bearings were and are sold."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gudgeon.handbook.shelf import INCH, Grade, UnknownName, check, source, table


@dataclass(frozen=True, slots=True, kw_only=True)
class Oversize:
    """One step over (or, where ``amount`` is negative, under) the standard size.

    Attributes
    ----------
    amount : added to the diameter [m].
    written : as the trade writes it: "+.020", "1/32 over", "−.010".
    weight : how likely a part of the time was made or re-made to it, relative within its kind.
    period : in use before 1950.
    """

    kind: str
    amount: float
    written: str
    weight: float
    period: bool
    source: str
    grade: Grade
    from_memory: bool


NEEDS = ("kind", "inch", "written", "weight", "source")
MAY = ("period", "memory", "grade")


@cache
def all_oversizes() -> tuple[Oversize, ...]:
    """Every row of the table."""
    found = []
    for number, raw in enumerate(table("oversizes.toml")["rows"], start=1):
        where = f"oversizes.toml row {number}"
        check(raw, where=where, needs=NEEDS, may=MAY)
        cited = source(raw["source"], where=where)
        found.append(
            Oversize(
                kind=raw["kind"],
                amount=raw["inch"] * INCH,
                written=raw["written"],
                weight=float(raw["weight"]),
                period=bool(raw.get("period", cited.pre_1950)),
                source=cited.title,
                grade=raw.get("grade", cited.grade),
                from_memory=bool(raw.get("memory", cited.seen == "memory")),
            )
        )
    return tuple(found)


def oversizes(kind: str) -> tuple[Oversize, ...]:
    """Steps of one kind ("cylinder", "journal", "pin"), smallest change first; raises ``UnknownName`` with the near ones."""
    rows = [row for row in all_oversizes() if row.kind == kind]
    if not rows:
        raise UnknownName("kind of oversize", kind, {row.kind for row in all_oversizes()})
    return tuple(sorted(rows, key=lambda row: abs(row.amount)))
