"""Manuals for tests: lines typed, folded and reckoned without any system's findings."""

from __future__ import annotations

from collections.abc import Iterable

from gudgeon.engine.outline import Outline
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reckoning import Reckoning
from gudgeon.engine.specification import Specification
from gudgeon.reckoning import reckon
from tests.metrology.rows import INCH, job, row

__all__ = ["INCH", "bore_rows", "job", "line_of", "manual", "row"]


def manual(rows: Iterable[dict[str, str]], *, outline: Outline | None = None) -> Reckoning:
    """The reckoning of these lines where no system describes anything."""
    return reckon(job(rows, outline=outline), ())


def line_of(reckoning: Reckoning, part: str, item: str, feature: str) -> Specification:
    """One line of the manual."""
    return reckoning.specifications[FeatureKey(part, item, feature)]


def bore_rows(number: int, below: str, *worn: str) -> list[dict[str, str]]:
    """A bore read below the ring travel in two directions and at worn levels in one."""
    common = {"instrument": "dial_bore_gauge"}
    lines = [
        row("cylinder", f"cyl {number}", "bore diameter", below, station="below ring travel", direction_deg=direction, **common)
        for direction in ("0", "90")
        if below
    ]
    return lines + [
        row("cylinder", f"cyl {number}", "bore diameter", reading, station=str(level), direction_deg="90", **common)
        for level, reading in enumerate(worn, start=1)
    ]
