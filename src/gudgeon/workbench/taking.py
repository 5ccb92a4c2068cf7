"""Take readings in: from a CSV file, or one by one from a page."""

from __future__ import annotations

import csv
import difflib
import hashlib
import io
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from gudgeon.engine.fold import READING_COLUMNS, place_of, reading_of, understood_of
from gudgeon.engine.history import Entry
from gudgeon.engine.reading import Reading, Stage
from gudgeon.jobfile import Draft
from gudgeon.quantity import NotUnderstood, Understood, understand
from gudgeon.workbench.faults import LineFault, NoneTaken, Refused
from gudgeon.workbench.job import Job

NEEDED = ("part", "item", "reading")
STAGES: tuple[Stage, ...] = ("found", "returned", "fitted")
LARGEST = 20_000_000


@dataclass(frozen=True, slots=True)
class Taken:
    """What came of a file: readings taken, those that were already in the job, and lines kept as refused."""

    source: str
    taken: int
    already: int
    refused: tuple[LineFault, ...]
    mended: int

    def __str__(self) -> str:
        parts = [f"{self.source}: {self.taken} reading{'s' * (self.taken != 1)} taken"]
        if self.already:
            parts.append(f"{self.already} already in the job and not taken twice")
        if self.mended:
            parts.append(f"{self.mended} earlier refused line{'s' * (self.mended != 1)} mended")
        if self.refused:
            parts.append(f"{len(self.refused)} kept as refused")
        return ", ".join(parts) + "."


class _Rows(Protocol):
    """A CSV reader: rows, and the number of the line it has read to."""

    line_num: int

    def __iter__(self) -> Iterator[list[str]]: ...


@dataclass(frozen=True, slots=True)
class _Line:
    number: int
    text: str
    columns: dict[str, str]


def take(job: Job, file: Path | str, *, person: str, good_only: bool = False) -> Taken:
    """Take a CSV file of readings in (format: docs/csv.md).

    All or nothing: a line that cannot be understood refuses the whole file (NoneTaken, every such line named) unless
    ``good_only``, which keeps those lines as refused, with the reason. The same line of the same file is never taken twice.
    """
    path = Path(file)
    try:
        data = path.read_bytes()
    except OSError as fault:
        raise Refused(f"{path} could not be opened ({fault.strerror}); give the path of a CSV file.") from fault
    return take_text(job, data, source=path.name, person=person, good_only=good_only)


def take_text(job: Job, data: bytes, *, source: str, person: str, good_only: bool = False) -> Taken:
    """Take the bytes of a CSV file in; see ``take``."""
    lines = _lines(data, source)
    good, faults = [], []
    for line in lines:
        try:
            good.append(_reading_draft(line, source))
        except (NotUnderstood, Refused) as fault:
            faults.append((line, LineFault(line.number, line.text, str(fault))))
    if faults and not good_only:
        raise NoneTaken(source, tuple(fault for _, fault in faults), len(good))
    known = {entry.id for entry in job.file.entries()} if good or faults else set()
    mended = _mended(job, good, source)
    refused = [_refused_draft(line, fault, source) for line, fault in faults]
    if drafts := good + mended + refused:
        job.write(drafts, person=person)
    new = sum(draft.id not in known for draft in good)
    return Taken(source, new, len(good) - new, tuple(fault for _, fault in faults), len(mended))


def understood_as(columns: Mapping[str, str]) -> Understood:
    """What a reading's typed text would be taken to mean; for the echo beside the pad. Raises NotUnderstood."""
    return understood_of(_with_unit(dict(columns)))


def put_reading(
    job: Job, columns: Mapping[str, str], *, person: str, ticket: str = "", seen: str | None = None, mends: str = ""
) -> Reading:
    """Take one reading in.

    ``columns`` are those of the CSV, with ``supersedes`` to correct an older reading and ``confirmed`` ("yes") to stand by a
    doubtful one. ``ticket`` is the identity a phone gave it, so that it is delivered once. ``mends`` names a refused line
    that this one puts right. ``seen`` is the head of the page it was typed on: when another person read or corrected the
    same spot since, ``Moved`` carries their entry and nothing is written.
    """
    body = _with_unit({name: str(value).strip() for name, value in columns.items() if str(value).strip()})
    _check_columns(body)
    if confirmed := body.pop("confirmed", ""):
        body_out: dict[str, object] = {**body, "confirmed": confirmed.lower() in ("yes", "true", "1")}
    else:
        body_out = dict(body)
    old = body.get("supersedes", "")
    delivered = ticket and any(reading.id == ticket for reading in job.snapshot().readings)
    if old and not delivered and all(reading.id != old for reading in job.snapshot().readings):
        raise Refused("The reading to be corrected is no longer the newest one there; look at the page again.")
    drafts = [Draft(kind="reading", body=body_out, id=ticket)]
    if mends:
        drafts.append(Draft(kind="refused", body={"mended": mends}))
    entries = job.write(drafts, person=person, seen=seen, touching=lambda entry: _same_spot(entry, body))
    return reading_of(entries[0])


def confirm(job: Job, reading_id: str, *, person: str) -> Reading:
    """Stand by a reading that was asked about: the same reading again, marked as confirmed."""
    return put_reading(job, {**_columns_of(job, reading_id), "confirmed": "yes"}, person=person)


def correct(job: Job, reading_id: str, typed: str, *, person: str) -> Reading:
    """Correct a reading: a new one takes its place, and the old one is kept."""
    return put_reading(job, {**_columns_of(job, reading_id), "reading": typed}, person=person)


def _columns_of(job: Job, reading_id: str) -> dict[str, str]:
    entry = next((entry for entry in job.file.entries() if entry.id == reading_id and entry.kind == "reading"), None)
    if entry is None:
        raise Refused(f"There is no reading “{reading_id}” in this job; the pages and --json show the names of readings.")
    keep = {name: str(value) for name, value in entry.body.items() if name not in ("supersedes", "confirmed")}
    return {**keep, "supersedes": reading_id}


def _same_spot(entry: Entry, body: Mapping[str, str]) -> bool:
    spot = ("part", "item", "feature", "station", "direction_deg", "stage")
    return entry.kind == "reading" and all(str(entry.body.get(name, "")) == body.get(name, "") for name in spot)


def _lines(data: bytes, source: str) -> list[_Line]:
    if len(data) > LARGEST:
        raise Refused(f"{source} is {len(data) / 1e6:.0f} MB; a file of readings is at most {LARGEST / 1e6:.0f} MB.")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        line = data[: fault.start].count(b"\n") + 1
        raise Refused(f"{source}, line {line}: the file is not UTF-8 text; save it as CSV in UTF-8.") from fault
    if "\0" in text:
        raise Refused(f"{source} holds binary data and is no CSV; save the table as CSV in UTF-8.")
    first = text.split("\n", 1)[0]
    separator = max(",;\t", key=first.count)
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    try:
        header = [name.strip().lower() for name in next(rows, [])]
        _check_header(header, source)
        return _body(rows, header, source)
    except csv.Error as fault:
        raise Refused(f"{source}, line {rows.line_num}: {fault}; each line is one row, texts with commas in quotes.") from fault


def _body(rows: _Rows, header: list[str], source: str) -> list[_Line]:
    lines, start = [], 2
    for row in rows:
        text = ",".join(row)
        if any(cell.strip() for cell in row):
            spare = [cell for cell in row[len(header) :] if cell.strip()]
            columns = {name: cell.strip() for name, cell in zip(header, row, strict=False)}
            if spare or (len(row) < len(header) and len(row) < 2):
                columns["!"] = f"{len(row)} cells were read under {len(header)} columns; put texts with commas in quotes"
            lines.append(_Line(start, text, columns))
        start = rows.line_num + 1
    if not lines:
        raise Refused(f"{source} has a header and no readings; write one reading a line below it.")
    return lines


def _check_header(header: list[str], source: str) -> None:
    for name in header:
        if name and name not in READING_COLUMNS:
            near = difflib.get_close_matches(name, READING_COLUMNS, n=1)
            hint = f"did you mean “{near[0]}”" if near else f"the columns are {', '.join(READING_COLUMNS)}"
            raise Refused(f"{source}, line 1: “{name}” is no column of a file of readings; {hint}.")
    twice = next((name for name in header if name and header.count(name) > 1), None)
    if twice:
        raise Refused(f"{source}, line 1: the column “{twice}” stands there twice; name each column once.")
    if missing := [name for name in NEEDED if name not in header]:
        raise Refused(
            f"{source}, line 1: the column{'s' * (len(missing) > 1)} {', '.join(missing)} "
            f"{'are' if len(missing) > 1 else 'is'} missing; a file of readings has at least {', '.join(NEEDED)}."
        )


def _check_columns(columns: Mapping[str, str]) -> None:
    """Raise NotUnderstood or Refused for the first column that cannot be understood."""
    if "!" in columns:
        raise Refused(columns["!"] + ".")
    for name in ("part", "item"):
        if not columns.get(name):
            raise Refused(
                f"the column {name} is empty; name the {'kind of part' if name == 'part' else 'instance'} that was read."
            )
    understood_of(columns)
    _check_number(columns, "direction_deg", "an angle in degrees, 90 for across the crank")
    _check_number(columns, "part_temp_c", "a temperature in degrees C")
    _check_whole(columns, "repeat", "1, 2, 3 for the first, second, third time of reading")
    _check_whole(columns, "row", "the row's own number")
    if columns.get("stage", "found") not in STAGES:
        raise Refused(f"the stage “{columns['stage']}” was read; {', '.join(STAGES)} would be right.")
    place_of(columns)
    if step := columns.get("resolution"):
        understand(step, unit=columns.get("unit") or None)


def _check_number(columns: Mapping[str, str], name: str, right: str) -> None:
    if typed := columns.get(name):
        try:
            float(typed)
        except ValueError:
            raise Refused(f"“{typed}” was read as {name}; {right} would be right.") from None


def _check_whole(columns: Mapping[str, str], name: str, right: str) -> None:
    if (typed := columns.get(name)) and not typed.isdigit():
        raise Refused(f"“{typed}” was read as {name}; {right} would be right.")


def _with_unit(columns: dict[str, str]) -> dict[str, str]:
    """Without a unit, that of the feature's bench sheet; a feature that no system describes must name its own."""
    from gudgeon.systems import feature_named

    feature = feature_named(columns.get("part", ""), columns.get("feature", ""))
    if columns.get("unit") or feature is None:
        return columns
    return {**columns, "unit": "words" if feature.dimension == "words" else feature.unit}


def _reading_draft(line: _Line, source: str) -> Draft:
    body = _with_unit({name: value for name, value in line.columns.items() if value})
    _check_columns(body)
    body.setdefault("row", str(line.number))
    return Draft(kind="reading", body={**body, "source": source}, id=_identity("reading", line, source))


def _refused_draft(line: _Line, fault: LineFault, source: str) -> Draft:
    row = line.columns.get("row", "")
    body = {
        "row": row if row.isdigit() else str(line.number),
        "line": line.text,
        "reason": fault.reason,
        "source": source,
    }
    return Draft(kind="refused", body=body, id=_identity("refused", line, source))


def _identity(kind: str, line: _Line, source: str) -> str:
    """The same line at the same place of the same file has the same identity, so taking a file again adds nothing."""
    content = f"{kind}\n{source}\n{line.number}\n{line.text}".encode()
    return f"{kind}-{hashlib.sha256(content).hexdigest()[:20]}"


def _mended(job: Job, good: list[Draft], source: str) -> list[Draft]:
    """A refused line whose row of the same file has become readable counts as mended."""
    rows = {str(draft.body["row"]) for draft in good}
    return [
        Draft(kind="refused", body={"mended": old.id}, id=f"mended-{old.id}")
        for old in job.snapshot().refused
        if old.source == source and str(old.row) in rows
    ]
