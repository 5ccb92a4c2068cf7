"""The galvanic series: potentials of metals in water, each with its source, by the words that people write."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from gudgeon.handbook.shelf import Grade, check, source, table


@dataclass(frozen=True, slots=True, kw_only=True)
class GalvanicMetal:
    """One metal of the series: ``volts`` against a calomel cell in flowing sea water, least and most noble."""

    name: str
    volts: tuple[float, float]
    words: tuple[str, ...]
    source: str
    grade: Grade
    from_memory: bool
    note: str = ""


@cache
def galvanic_series() -> Mapping[str, GalvanicMetal]:
    """All metals by name, least noble first as the table has them."""
    return {name: _metal(name, raw) for name, raw in table("galvanic.toml").items()}


def _metal(name: str, raw: Mapping[str, Any]) -> GalvanicMetal:
    where = f"galvanic.toml [{name}]"
    check(raw, where=where, needs=("volts", "words", "source"), may=("note",))
    cited = source(raw["source"], where=where)
    return GalvanicMetal(
        name=name,
        volts=(float(raw["volts"][0]), float(raw["volts"][1])),
        words=tuple(raw["words"]),
        source=cited.title,
        grade=cited.grade,
        from_memory=cited.seen == "memory",
        note=raw.get("note", ""),
    )


def metal_in_words(text: str) -> GalvanicMetal | None:
    """The metal that a note names ("cast iron, painted"), the longest word that fits; None where it names none."""
    plain = text.lower()
    found = [
        (len(word), metal)
        for metal in galvanic_series().values()
        for word in metal.words
        if re.search(rf"(?<!\w){re.escape(word)}(?!\w)", plain)
    ]
    return max(found, key=lambda pair: pair[0])[1] if found else None
