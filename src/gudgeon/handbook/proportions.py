"""Proportions of engines of the time: what books asked for and what was built, as ratios to bore, stroke or another size."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from gudgeon.handbook.shelf import Grade, UnknownName, check, source, table


@dataclass(frozen=True, slots=True, kw_only=True)
class Proportion:
    """One ratio from one source.

    Attributes
    ----------
    of, to : what is divided by what ("pin diameter", "bore").
    low, high : the ratio [1]; equal where one figure is given.
    as_built : True for one real engine, False for a rule.
    """

    of: str
    to: str
    low: float
    high: float
    as_built: bool
    applies: str
    authority: str
    source: str
    page: str
    grade: Grade
    pre_1950: bool
    from_memory: bool


NEEDS = ("of", "to", "low", "high", "source", "applies")
MAY = ("page", "built", "memory", "grade")


@cache
def all_proportions() -> tuple[Proportion, ...]:
    """Every row of the table."""
    found = []
    for number, raw in enumerate(table("proportions.toml")["rows"], start=1):
        where = f"proportions.toml row {number}"
        check(raw, where=where, needs=NEEDS, may=MAY)
        cited = source(raw["source"], where=where)
        found.append(
            Proportion(
                of=raw["of"],
                to=raw["to"],
                low=float(raw["low"]),
                high=float(raw["high"]),
                as_built=bool(raw.get("built", False)),
                applies=raw["applies"],
                authority=cited.authority,
                source=cited.title,
                page=raw.get("page", ""),
                grade=raw.get("grade", cited.grade),
                pre_1950=cited.pre_1950,
                from_memory=bool(raw.get("memory", cited.seen == "memory")),
            )
        )
    return tuple(found)


def proportions(of: str) -> tuple[Proportion, ...]:
    """All ratios of one size ("pin diameter"); raises ``UnknownName`` with the near ones."""
    rows = tuple(row for row in all_proportions() if row.of == of)
    if not rows:
        raise UnknownName("proportion", of, {row.of for row in all_proportions()})
    return rows
