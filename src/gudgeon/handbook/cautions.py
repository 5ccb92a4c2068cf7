"""Hazards of the work, short, each with its source, shown on the step where it applies."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from gudgeon.handbook.shelf import Grade, UnknownName, check, source, table


@dataclass(frozen=True, slots=True)
class CautionRow:
    """One hazard: what it is, what to say about it, who says so.

    ``subjects`` are the kinds of work it belongs to; ``from_memory`` is True where no source was read.
    """

    hazard: str
    say: str
    source: str
    grade: Grade
    from_memory: bool
    subjects: tuple[str, ...]


@cache
def all_cautions() -> tuple[CautionRow, ...]:
    """Every caution in the table."""
    found = []
    for number, raw in enumerate(table("cautions.toml")["caution"], start=1):
        where = f"cautions.toml row {number}"
        check(raw, where=where, needs=("hazard", "say", "subjects", "source"), may=("memory", "grade"))
        cited = source(raw["source"], where=where)
        memory = bool(raw.get("memory", cited.seen == "memory"))
        found.append(CautionRow(raw["hazard"], raw["say"], cited.title, cited.grade, memory, tuple(raw["subjects"])))
    return tuple(found)


@cache
def _by_subject() -> Mapping[str, tuple[CautionRow, ...]]:
    names = sorted({name for row in all_cautions() for name in row.subjects})
    return {name: tuple(row for row in all_cautions() if name in row.subjects) for name in names}


def caution_subjects() -> tuple[str, ...]:
    """The kinds of work that have a caution."""
    return tuple(_by_subject())


def cautions(subject: str) -> tuple[CautionRow, ...]:
    """The cautions of one kind of work ("babbitt pouring", "sleeve fitting"); raises ``UnknownName`` with the near ones."""
    try:
        return _by_subject()[subject]
    except KeyError:
        raise UnknownName("kind of work with a caution", subject, _by_subject()) from None
