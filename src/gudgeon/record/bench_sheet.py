"""Bench sheets on paper: a box for every reading wanted, large enough for a pencil and cold fingers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from pathlib import Path
from typing import Any

from gudgeon.engine.outline import Outline
from gudgeon.engine.reading import Reading
from gudgeon.engine.sheet import Sheet, SheetBlock, SheetLine
from gudgeon.engine.system import Level
from gudgeon.quantity import UnitChoice
from gudgeon.record.sketch import shape_of, sketch_svg
from gudgeon.typeset import data_file, date_or_epoch, pdf

TEMPLATE = Path(__file__).parent / "bench_sheet.typ"
EXAMPLES = {"inch": "5.128, 5 1/8, +3 thou, go .003 / no-go .004", "millimetre": "130.2, +0.08, go 0.10 / no-go 0.15"}
REPEATS = 2


def bench_sheet_pdf(sheet: Sheet, *, outline: Outline, units: UnitChoice = "inch", date: str = "") -> bytes:
    """The sheet on A4 upright, black on white, PDF/A, the same bytes every time.

    One grid for each feature that is read at levels or in directions: levels downward as they lie on the part, directions
    across, two boxes each where there is room; the sketch beside it shows the levels, those that wear or witness most drawn
    heavy. Features read once share a table. What was already read is printed in its box. ``units`` only chooses the examples:
    people write what their gauge says.
    """
    data: dict[str, Any] = {
        "engine": outline.name or "not named",
        "title": sheet.title,
        "date": date[:10],
        "examples": EXAMPLES[units],
        "progress": _progress(sheet),
        "items": [],
    }
    sketches: dict[str, bytes] = {}
    for item, blocks in groupby(sheet.blocks, key=lambda block: block.item):
        data["items"].append({"name": item, "groups": list(_groups(tuple(blocks), sketches))})
    return pdf(
        TEMPLATE.read_text("utf-8"),
        files={"sheet.json": data_file(data), **sketches},
        title=f"{outline.name}: bench sheet, {sheet.title}",
        date=date_or_epoch(date),
    )


def _progress(sheet: Sheet) -> str:
    done, lines = sum(block.done for block in sheet.blocks), sum(len(block.lines) for block in sheet.blocks)
    if not done:
        return f"{lines} places to read."
    return f"{done} of {lines} places were read before this was printed."


def _groups(blocks: Sequence[SheetBlock], sketches: dict[str, bytes]) -> Iterable[dict[str, Any]]:
    for single, run in groupby(blocks, key=lambda block: len(block.lines) == 1):
        if single:
            yield {"kind": "lines", "lines": [_line(block) for block in run]}
        else:
            yield from (_grid(block, sketches) for block in run)


def _title(block: SheetBlock) -> str:
    return block.feature.title or block.feature.name


def _gauges(block: SheetBlock) -> str:
    return " or ".join(name.replace("_", " ") for name in block.feature.gauges[:3])


def _line(block: SheetBlock) -> dict[str, Any]:
    taken = [_typed(reading) for reading in (*block.lines[0].taken, *block.others)]
    return {"title": _title(block), "how": block.feature.how, "gauges": _gauges(block), "taken": _boxes(taken, 3)}


def _grid(block: SheetBlock, sketches: dict[str, bytes]) -> dict[str, Any]:
    columns = block.feature.directions or (None,)
    count = len(columns)
    repeats = REPEATS if count <= 4 else 1
    rows = [block.lines[start : start + count] for start in range(0, len(block.lines), count)]
    levels = {level.name: level for level in block.feature.levels}
    names = [row[0].station for row in rows]
    heavy = [_lit(levels.get(name)) for name in names]
    sketch = ""
    if shape := shape_of(block.feature):
        sketch = f"sketch-{shape}-{''.join('01'[lit] for lit in heavy)}.svg"
        sketches[sketch] = sketch_svg(shape=shape, heavy=heavy).encode("utf-8")
    return {
        "kind": "grid",
        "title": _title(block),
        "how": block.feature.how,
        "gauges": _gauges(block),
        "sketch": sketch,
        "repeats": repeats,
        "directions": [direction_words(direction) for direction in columns],
        "rows": [_row(row, levels.get(name), lit, repeats) for row, name, lit in zip(rows, names, heavy, strict=True)],
        "others": [_elsewhere(reading) for reading in block.others],
    }


def _lit(level: Level | None) -> bool:
    return level is not None and level.wear in ("unworn", "most")


def _row(lines: Sequence[SheetLine], level: Level | None, lit: bool, repeats: int) -> dict[str, Any]:
    return {
        "level": lines[0].station or "anywhere",
        "hint": level.hint if level else "",
        "lit": lit,
        "cells": [_boxes([_typed(reading) for reading in line.taken], repeats) for line in lines],
    }


def direction_words(direction: float | None) -> str:
    """How a direction heads its column: "along, 0°", "across, 90°", "45°"."""
    if direction is None:
        return "reading"
    word = {0.0: "along, ", 90.0: "across, "}.get(direction % 180 if direction < 180 else -1.0, "")
    return f"{word}{direction:g}°"


def _boxes(taken: Sequence[str], count: int) -> list[str]:
    """One text for each box; what does not fit goes into the last."""
    if len(taken) <= count:
        return list(taken)
    return [*taken[: count - 1], ", ".join(taken[count - 1 :])]


def _typed(reading: Reading) -> str:
    base = f" on {reading.base}" if reading.base else ""
    unit = f" {reading.unit}" if reading.unit and reading.unit not in ("in", "mm") else ""
    return f"{reading.typed}{unit}{base}"


def _elsewhere(reading: Reading) -> str:
    place = reading.place
    where = [place.station or ("" if place.depth is None else f"{place.depth * 1000:.0f} mm down")]
    where.append("" if place.direction is None else f"{place.direction:g}°")
    return f"{_typed(reading)} ({', '.join(filter(None, where)) or 'no place given'})"
