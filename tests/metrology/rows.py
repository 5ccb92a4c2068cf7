"""Readings for tests, written as a person writes them: one line each, folded into a snapshot through the real history."""

from __future__ import annotations

from collections.abc import Iterable

from gudgeon.engine.fold import fold
from gudgeon.engine.history import FIRST, Entry, sealed
from gudgeon.engine.outline import Outline
from gudgeon.engine.plain import to_plain
from gudgeon.engine.snapshot import Snapshot

INCH = 0.0254
THOU = INCH * 1e-3
AT = "2026-01-05T09:00:00+00:00"
COLUMNS = ("part", "item", "feature", "station", "direction_deg", "reading", "unit", "instrument", "part_temp_c", "note")


def row(part: str, item: str, feature: str, reading: str, **more: str) -> dict[str, str]:
    """One line: inch, at 20 degree C, with an outside micrometer, unless said otherwise."""
    line = {"unit": "in", "instrument": "outside_mic", "part_temp_c": "20", **more}
    return {"part": part, "item": item, "feature": feature, "reading": reading, **line}


def standard(size: str, readings: Iterable[str], *, instrument: str) -> list[dict[str, str]]:
    """Readings of a setting standard."""
    note = f"certified {size} in at 20 C"
    return [row("setting_standard", f"standard {size} in", "size", each, instrument=instrument, note=note) for each in readings]


def job(rows: Iterable[dict[str, str]], *, outline: Outline | None = None) -> Snapshot:
    """The snapshot of a job with these lines; the n-th has row number n and identity "row-n"."""
    outline = outline or Outline(name="test engine", cylinders=4)
    entries: list[Entry] = []
    body: dict[str, object] = {"outline": to_plain(outline), "format": 1}
    _append(entries, "job", "job", body)
    for number, line in enumerate(rows, start=1):
        _append(entries, "reading", f"row-{number}", {"row": str(number), **line})
    return fold(entries)


def _append(entries: list[Entry], kind: str, name: str, body: dict[str, object]) -> None:
    previous = entries[-1].digest if entries else FIRST
    entries.append(sealed(seq=len(entries) + 1, id=name, kind=kind, body=body, person="Ann", at=AT, previous=previous))


def nothing_known(part: str, feature: str) -> None:
    """No system describes anything."""
    del part, feature
