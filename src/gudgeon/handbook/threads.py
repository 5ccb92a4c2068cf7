"""Screw threads of the time: series, diameter, pitch, form, tapping drill."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from gudgeon.handbook.shelf import INCH, check, si, source, table


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """One standard thread.

    Attributes
    ----------
    series : "USS / NC", "SAE / NF", "BSW", "BA", "metric coarse", "NPT", ...
    written : as the trade writes it: "1/2-13", "2 BA", "M12 x 1.75", "1/8 pipe".
    major : outside diameter of the screw [m]; of a taper pipe, of the pipe.
    pitch : [m]. ``per_inch`` is the same as threads per inch.
    flank_angle : included angle of the form [degree].
    taper : on the diameter per length; 0 for a parallel thread.
    tapping_drill : [m], or None where none was read.
    era : when it was in use, in words.
    """

    series: str
    written: str
    major: float
    pitch: float
    flank_angle: float
    taper: float
    tapping_drill: float | None
    era: str
    source: str
    from_memory: bool

    @property
    def per_inch(self) -> float:
        """Threads per inch."""
        return INCH / self.pitch


NEEDS = ("flank_angle", "era", "source", "unit", "rows")
MAY = ("taper", "memory")


@cache
def all_threads() -> tuple[Thread, ...]:
    """Every thread in the table."""
    found: list[Thread] = []
    for series, raw in table("threads.toml").items():
        where = f"threads.toml [{series}]"
        check(raw, where=where, needs=NEEDS, may=MAY)
        found += [_thread(series, raw, row, where=where) for row in raw["rows"]]
    return tuple(found)


def _thread(series: str, raw: Mapping[str, Any], row: Mapping[str, Any], *, where: str) -> Thread:
    check(row, where=f"{where} {row.get('written')}", needs=("written", "major"), may=("tpi", "pitch", "drill", "memory"))
    cited = source(raw["source"], where=where)
    unit = raw["unit"]
    return Thread(
        series=series,
        written=row["written"],
        major=si(row["major"], unit),
        pitch=INCH / row["tpi"] if "tpi" in row else si(row["pitch"], "mm"),
        flank_angle=float(raw["flank_angle"]),
        taper=float(raw.get("taper", 0.0)),
        tapping_drill=si(row["drill"], unit) if "drill" in row else None,
        era=raw["era"],
        source=cited.title,
        from_memory=bool(row.get("memory", raw.get("memory", cited.seen == "memory"))),
    )


def threads(*, low: float, high: float) -> tuple[Thread, ...]:
    """Threads whose outside diameter lies between two lengths [m], in rising order of diameter."""
    kept = [thread for thread in all_threads() if low <= thread.major <= high]
    return tuple(sorted(kept, key=lambda thread: (thread.major, thread.pitch)))
