"""The record: the book to download, the check that nothing was altered, and the history."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from starlette.responses import Response

from gudgeon import workbench
from gudgeon.engine.history import Entry
from gudgeon.web import words
from gudgeon.web.frame import page
from gudgeon.web.orders_page import pdf_answer
from gudgeon.web.visit import Visit
from gudgeon.workbench.faults import Refused

AT_ONCE = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryRow:
    """One line of the history."""

    seq: int
    kind: str
    text: str
    person: str
    at: str
    seal: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordPage:
    """The record's page."""

    book: str
    verdict: tuple[str, ...]
    against: str
    whole: bool
    checked: bool
    entries: tuple[EntryRow, ...]
    count: int
    older: str
    newer: str
    seal: str


def show(visit: Visit) -> Response:
    """The record, and the check when it is asked for."""
    checked = visit.asked("check") == "1"
    entries = visit.job.file.entries()
    start = visit.whole("before") or len(entries)
    shown = entries[max(0, start - AT_ONCE) : start]
    sentence, whole = _checked(visit) if checked else ((), True)
    here = visit.at.page("record")
    data = RecordPage(
        book=f"{here}/book.pdf",
        verdict=sentence,
        against=visit.asked("against"),
        whole=whole,
        checked=checked,
        entries=tuple(_entry(visit, entry) for entry in reversed(shown)),
        count=len(entries),
        older=f"{here}?before={start - AT_ONCE}" if start > AT_ONCE else "",
        newer=f"{here}?before={min(start + AT_ONCE, len(entries))}" if start < len(entries) else "",
        seal=visit.snapshot.head,
    )
    return page(visit, "record.html", data, sheet=words.SHEETS["record"], here="record")


def _checked(visit: Visit) -> tuple[tuple[str, ...], bool]:
    verified = workbench.verify(visit.job, against=plain_head(visit.asked("against")))
    return tuple(str(verified).splitlines()), verified.whole


def plain_head(typed: str) -> str:
    """A head as a person copies it from paper: 64 figures and letters, spaces allowed. Raises Refused for anything else, so
    that no file of this machine is ever looked at from a page."""
    head = "".join(typed.split()).lower()
    if head and (len(head) != 64 or any(letter not in "0123456789abcdef" for letter in head)):
        raise Refused(words.BAD_HEAD.format(typed=typed))
    return head


def _entry(visit: Visit, entry: Entry) -> EntryRow:
    return EntryRow(
        seq=entry.seq,
        kind=entry.kind,
        text=_text(entry.kind, entry.body),
        person=entry.person,
        at=visit.tell.moment(entry.at),
        seal=entry.digest[:12],
    )


def _text(kind: str, body: Mapping[str, Any]) -> str:
    """An entry in a few words, from whatever of these its body holds."""
    if kind == "reading":
        place = [str(body.get(name, "")) for name in ("item", "feature", "station", "direction_deg")]
        marks = (
            "corrects an older one"
            if body.get("supersedes") and not body.get("confirmed")
            else "confirmed"
            if body.get("confirmed")
            else ""
        )
        return ", ".join(
            piece for piece in [*place, f"“{body.get('reading', '')}” {body.get('unit', '')}".strip(), marks] if piece
        )
    if kind == "refused":
        return str(body.get("line") or "mended")
    chosen = body.get("chosen")
    if isinstance(chosen, Mapping):
        return f"{body.get('subject', '')}: {chosen.get('key', '')}; {body.get('reason', '')}"
    event = body.get("event")
    if isinstance(event, Mapping):
        return f"{event.get('state', '')} {event.get('note', '')}".strip()
    draft = body.get("draft")
    if isinstance(draft, Mapping):
        return f"{draft.get('title', '')}, to {body.get('shop', '')}"
    for name in ("name", "title", "item", "key"):
        if isinstance(body.get(name), str) and body[name]:
            return str(body[name])
    outline = body.get("outline")
    return str(outline.get("name", "")) if isinstance(outline, Mapping) else ""


def book(visit: Visit) -> Response:
    """The book so far."""
    return pdf_answer(workbench.record_book(visit.job, units=visit.person.units), "record.pdf")


def sheet(visit: Visit) -> Response:
    """A bench sheet to print."""
    return pdf_answer(workbench.sheet_paper(visit.job, visit.path("system"), units=visit.person.units), "bench-sheet.pdf")
