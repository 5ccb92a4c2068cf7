"""Rules of practice: what authorities print as target or limit of a fit, a wear, a setting. Never averaged."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any, Literal, cast

from gudgeon.handbook.shelf import BadTable, Grade, Source, UnknownName, check, dimension, si, source, table

Purpose = Literal["target", "limit"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleRow:
    """One rule from one authority: a band from ``low + low_per_size x size`` to ``high + high_per_size x size`` [SI].

    Attributes
    ----------
    subject : what it rules, one of ``subjects()`` ("ring end gap").
    purpose : "target" when new or made good; "limit" beyond which the part is not run on. A limit has one
        end only: ``high`` is the most, ``low`` the least that is allowed; where the authority prints a band, ``note`` says so.
    low, high : constants [SI]; None where that end is not ruled.
    low_per_size, high_per_size : slopes [SI per m of size]; a pure number for lengths.
    size_of : what the size is ("bore", "journal"); "" where no size enters.
    size_from, size_to : sizes for which the authority gives it [m]; None where it does not say.
    unit, typed : the unit and the numbers as the authority prints them, for the page.
    authority : its short name. ``source`` and ``page`` are the full citation.
    seen : how it was read; "memory" is never a limit that decides by itself.
    applies : the engines and places it was written for.
    pre_1950 : the authority is from before 1950.
    """

    subject: str
    purpose: Purpose
    dimension: str
    low: float | None
    high: float | None
    low_per_size: float
    high_per_size: float
    size_of: str
    size_from: float | None
    size_to: float | None
    unit: str
    typed: str
    authority: str
    source: str
    page: str
    grade: Grade
    applies: str
    pre_1950: bool
    from_memory: bool
    seen: str
    note: str = ""

    def at(self, size: float = 0.0) -> tuple[float | None, float | None]:
        """The band for a size [m]; both ends [SI], None where an end is not ruled."""
        low = None if self.low is None else self.low + self.low_per_size * size
        high = None if self.high is None else self.high + self.high_per_size * size
        return low, high

    def covers(self, size: float) -> bool:
        """Does the authority give it for this size [m]? A rule without a stated range covers every size."""
        return (self.size_from is None or size >= self.size_from - 1e-9) and (
            self.size_to is None or size <= self.size_to + 1e-9
        )


NEEDS = ("subject", "purpose", "unit", "source", "applies")
MAY = (
    "low", "high", "low_per_size", "high_per_size", "size_of", "size_from", "size_to", "page", "grade", "memory", "note",
)  # fmt: skip


@cache
def all_rules() -> tuple[RuleRow, ...]:
    """Every row of every file under ``data/rules``, in file order."""
    found: list[RuleRow] = []
    for name in rule_files():
        for number, raw in enumerate(table(f"rules/{name}")["rows"], start=1):
            found.append(_rule(raw, where=f"rules/{name} row {number} ({raw.get('subject', 'no subject')})"))
    return tuple(found)


def rule_files() -> tuple[str, ...]:
    """Names of the files of rules, one subject area each."""
    folder = resources.files("gudgeon.handbook") / "data" / "rules"
    return tuple(sorted(each.name for each in folder.iterdir() if each.name.endswith(".toml")))


def _rule(raw: Mapping[str, Any], *, where: str) -> RuleRow:
    check(raw, where=where, needs=NEEDS, may=MAY)
    cited = source(raw["source"], where=where)
    unit = raw["unit"]
    low, high = _end(raw, "low", unit), _end(raw, "high", unit)
    if raw["purpose"] not in ("target", "limit") or (low is None and high is None):
        raise BadTable(f"{where} must be a target or a limit, and give a low or a high.")
    if raw["purpose"] == "limit" and low is not None and high is not None:
        raise BadTable(f"{where} is a limit with two ends; it must have a high (the most) or a low (the least).")
    return RuleRow(
        subject=raw["subject"],
        purpose=cast(Purpose, raw["purpose"]),
        dimension=dimension(unit),
        low=low,
        high=high,
        low_per_size=_slope(raw, "low_per_size", unit),
        high_per_size=_slope(raw, "high_per_size", unit),
        size_of=raw.get("size_of", ""),
        size_from=_inches(raw, "size_from"),
        size_to=_inches(raw, "size_to"),
        unit=unit,
        typed=_typed(raw),
        page=raw.get("page", ""),
        applies=raw["applies"],
        note=raw.get("note", ""),
        **_cited(cited, raw),
    )


def _cited(cited: Source, raw: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "authority": cited.authority,
        "source": cited.title,
        "grade": raw.get("grade", cited.grade),
        "pre_1950": cited.pre_1950,
        "from_memory": bool(raw.get("memory", cited.seen == "memory")),
        "seen": "memory" if raw.get("memory") else cited.seen,
    }


def _end(raw: Mapping[str, Any], name: str, unit: str) -> float | None:
    """An end is ruled where a constant or a slope is given for it."""
    if name not in raw and f"{name}_per_size" not in raw:
        return None
    return si(float(raw.get(name, 0.0)), unit)


def _slope(raw: Mapping[str, Any], name: str, unit: str) -> float:
    """Slopes are printed per inch of size; none where the row has none, whatever its unit counts from."""
    return si(float(raw[name]), unit) / si(1.0, "in") if name in raw else 0.0


def _inches(raw: Mapping[str, Any], name: str) -> float | None:
    return si(float(raw[name]), "in") if name in raw else None


def _typed(raw: Mapping[str, Any]) -> str:
    ends = [text for text in (_typed_end(raw, "low"), _typed_end(raw, "high")) if text]
    if len(ends) == 2 and ends[0] == ends[1]:
        return f"{ends[0]} {raw['unit']}".strip()
    if len(ends) == 2:
        return f"{ends[0]} to {ends[1]} {raw['unit']}".strip()
    word = "at most" if "high" in raw or "high_per_size" in raw else "at least"
    return f"{word} {ends[0]} {raw['unit']}".strip() if ends else ""


def _typed_end(raw: Mapping[str, Any], name: str) -> str:
    constant, slope = raw.get(name), raw.get(f"{name}_per_size")
    pieces = [f"{constant:g}"] if constant is not None else []
    if slope is not None:
        pieces.append(f"{slope:g} per inch of {raw.get('size_of', 'size')}")
    return " + ".join(pieces)


@cache
def subjects() -> tuple[str, ...]:
    """Every subject that has a rule."""
    return tuple(sorted({row.subject for row in all_rules()}))


def rules(subject: str, *, purpose: Purpose | None = None, size: float | None = None) -> tuple[RuleRow, ...]:
    """All rows of one subject, period authorities first, rows from memory last.

    Parameters
    ----------
    subject : one of ``subjects()``.
    purpose : keep only targets or only limits.
    size : keep only rows that cover this size [m].

    Rows that disagree stand side by side; the caller shows them, it does not average them.

    Raises
    ------
    UnknownName
        for a subject without any rule, with the near ones.
    """
    rows = [row for row in all_rules() if row.subject == subject]
    if not rows:
        raise UnknownName("subject of a rule", subject, subjects())
    kept = [row for row in rows if purpose in (None, row.purpose) and (size is None or row.covers(size))]
    return tuple(sorted(kept, key=lambda row: (row.from_memory, not row.pre_1950)))
