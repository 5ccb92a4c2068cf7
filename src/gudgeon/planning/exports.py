"""The plan for other programs: promised and latest dates as iCalendar, the steps as CSV, the whole forecast as JSON data."""

from __future__ import annotations

import csv
import io
from dataclasses import fields, is_dataclass
from datetime import date, timedelta
from hashlib import sha256
from typing import Any

import numpy as np

from gudgeon.planning.outlook import Dates, Forecast, StepOutlook


def calendar_file(outlook: Forecast, *, name: str, stamp: str) -> bytes:
    """Promised dates, latest dates of sending, the target and the likely end, as all-day events of an iCalendar file.

    RFC 5545: lines end in CRLF and are folded at 75 octets, text is escaped. The UID of an event hangs on the name of the
    job, the step and the kind of date only, so that a newer file moves the event instead of adding one.

    Parameters
    ----------
    name : of the job.
    stamp : when the file is made, UTC, "20270501T120000Z" (DTSTAMP).
    """
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//gudgeon//plan//EN", "CALSCALE:GREGORIAN"]
    for kind, key, on, summary, words in _dates_of(outlook):
        uid = sha256("\x1f".join((name, kind, key)).encode()).hexdigest()[:32]
        lines += [
            "BEGIN:VEVENT",
            f"UID:{uid}@gudgeon.invalid",
            f"DTSTAMP:{stamp}",
            f"DTSTART;VALUE=DATE:{on:%Y%m%d}",
            f"DTEND;VALUE=DATE:{on + timedelta(days=1):%Y%m%d}",
            f"SUMMARY:{_escaped(summary)}",
            f"DESCRIPTION:{_escaped(words)}",
            "TRANSP:TRANSPARENT",
            "END:VEVENT",
        ]
    lines.append("END:VCALENDAR")
    return b"".join(_folded(line) for line in lines)


def _dates_of(outlook: Forecast) -> list[tuple[str, str, date, str, str]]:
    rows = [
        ("promised", step.key, step.promised, f"Promised: {step.title}", step.words)
        for step in outlook.steps
        if step.promised and step.state != "done"
    ]
    for sending in outlook.latest_send:
        on = sending.on or sending.if_all_goes_well
        if on is not None:
            rows.append(("latest", sending.key, on, f"Send at the latest: {sending.title}", sending.sentence))
    if outlook.target is not None:
        rows.append(("target", "", outlook.target, "The engine should run", " ".join(outlook.sentences[:2])))
    if outlook.finish is not None:
        rows.append(("likely", "", outlook.finish.likely, "The engine runs, likely", " ".join(outlook.sentences[:2])))
    return [row for row in rows if row[2] is not None]


def _escaped(text: str) -> str:
    """TEXT of RFC 5545, 3.3.11."""
    text = text.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
    return "\\n".join("".join(c for c in line if c.isprintable()) for line in text.splitlines())


def _folded(line: str) -> bytes:
    """Fold at 75 octets (RFC 5545, 3.1) without cutting a character."""
    pieces, piece, room = [], b"", 75
    for character in line:
        octets = character.encode()
        if len(piece) + len(octets) > room:
            pieces.append(piece)
            piece, room = b"", 74
        piece += octets
    return b"\r\n ".join([*pieces, piece]) + b"\r\n"


COLUMNS = (
    "step", "title", "where", "state", "why", "waits for", "start low", "start likely", "start high",
    "finish low", "finish likely", "finish high", "not before", "slack days", "critical share", "promised", "latest send",
    "hold point",
)  # fmt: skip


def plan_table(outlook: Forecast) -> str:
    """The plan as CSV (RFC 4180, comma, CRLF), one row a step; dates ISO, columns as in ``COLUMNS``."""
    out = io.StringIO()
    table = csv.writer(out)
    table.writerow(COLUMNS)
    latest = {row.key: row.on for row in outlook.latest_send}
    for step in outlook.steps:
        table.writerow([_cell(value) for value in _row(step, latest.get(step.key))])
    return out.getvalue()


def _row(step: StepOutlook, latest: date | None) -> list[object]:
    slack = "" if step.slack_days is None else f"{step.slack_days:.1f}"
    said = [step.key, step.title, step.place, step.state, step.words, "; ".join(step.waits_for)]
    dates = [*_three(step.start), *_three(step.finish), "yes" if step.not_before else ""]
    return [*said, *dates, slack, f"{step.criticality:.2f}", step.promised, latest, step.hold]


def _three(dates: Dates | None) -> tuple[object, object, object]:
    return (dates.low, dates.likely, dates.high) if dates else ("", "", "")


def _cell(value: object) -> str:
    """Text that a spreadsheet will not take for a formula."""
    text = "" if value is None else value.isoformat() if isinstance(value, date) else str(value)
    return f"'{text}" if text[:1] in ("=", "+", "-", "@", "\t", "\r") and not _number(text) else text


def _number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True


def plain_forecast(outlook: Forecast) -> dict[str, Any]:
    """The forecast as JSON data, without its draws: dates ISO, numbers as they are, what never comes null."""
    plain = _plain(outlook)
    assert isinstance(plain, dict)
    return plain


def _plain(value: object) -> object:
    if is_dataclass(value) and not isinstance(value, type):
        return {row.name: _plain(getattr(value, row.name)) for row in fields(value) if row.repr}
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple | list):
        return [_plain(inner) for inner in value]
    if isinstance(value, float | np.floating):
        return float(value) if np.isfinite(value) else None
    return value
