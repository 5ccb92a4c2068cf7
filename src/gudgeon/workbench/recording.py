"""Paper and proof: bench sheets, orders, the book, and the check that nothing was altered."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from gudgeon.engine.history import Fault
from gudgeon.engine.order import Order, OrderDraft
from gudgeon.engine.sheet import Sheet
from gudgeon.quantity import UnitChoice
from gudgeon.workbench.faults import Refused
from gudgeon.workbench.job import Job, now
from gudgeon.workbench.keeping import HIGHEST_TAG
from gudgeon.workbench.outworking import draft_named, order_named, order_sheet, sheet

if TYPE_CHECKING:
    from gudgeon.planning import StepOutlook


def sheet_paper(job: Job, system_key: str, *, units: UnitChoice) -> bytes:
    """The bench sheet of one system as PDF."""
    return _paper_of(sheet(job, system_key), job, units)


def return_paper(job: Job, identity: str, *, units: UnitChoice) -> bytes:
    """The sheet for inspecting an order in, as PDF."""
    return _paper_of(order_sheet(job, identity), job, units)


def _paper_of(wanted: Sheet, job: Job, units: UnitChoice) -> bytes:
    from gudgeon.record import bench_sheet_pdf

    return bench_sheet_pdf(wanted, outline=job.snapshot().outline, units=units, date=now()[:10])


def tags_paper(job: Job, numbers: Sequence[int], *, host: str, path: str = "/tag/") -> bytes:
    """Tags to print, as PDF: those that hang on a part carry its name, the others are blank.

    ``host`` is where phones find the workbench ("192.168.1.20:8765"); network addresses change, so it is the owner's to set,
    and the plain number on the tag works whatever becomes of it. Raises Refused.
    """
    from gudgeon.record.tags import MOST_TAGS, Tag, tags_pdf

    if not numbers or len(numbers) > MOST_TAGS or not all(1 <= number <= HIGHEST_TAG for number in numbers):
        raise Refused(f"Tags are printed from 1 to {MOST_TAGS} at a time, with numbers from 1 to {HIGHEST_TAG}.")
    start, noted, snapshot = address_of(host), job.snapshot().tag_index, job.snapshot()
    tags = [
        Tag(
            number=number,
            address=f"{start}{path}{number}",
            item=noted[number].item if number in noted else "",
            place=noted[number].place if number in noted else "",
        )
        for number in dict.fromkeys(numbers)
    ]
    return tags_pdf(tags, engine=snapshot.outline.name, date=now()[:10])


def address_of(host: str) -> str:
    """The beginning of an address from a host as people type it, with or without its http://. Raises Refused."""
    found = re.fullmatch(r"(?:(https?)://)?([A-Za-z0-9.-]{1,120}|\[[0-9a-fA-F:]+\])(:\d{1,5})?/?", host.strip())
    if not found:
        raise Refused(f"“{host}” was read as the host of the tags; a name or address such as 192.168.1.20:8765 would be right.")
    return f"{found[1] or 'http'}://{found[2]}{found[3] or ''}"


def _order_or_draft(job: Job, key: str) -> Order | OrderDraft:
    try:
        return order_named(job, key)
    except Refused:
        return draft_named(job, key)


def order_paper(job: Job, key: str, *, units: UnitChoice) -> bytes:
    """An order with its drawings as PDF: one that went out, or one that could; a held one says so across its head."""
    from gudgeon.outwork import order_pdf

    return order_pdf(_order_or_draft(job, key), outline=job.snapshot().outline, date=now()[:10], units=units)


def write_order(job: Job, key: str, folder: Path, *, units: UnitChoice) -> list[Path]:
    """Write an order (PDF) and each of its drawings (PDF, DXF, SVG) into a folder. Returns the files written."""
    from gudgeon.outwork import drawing_dxf, drawing_pdf, drawing_svg

    order = _order_or_draft(job, key)
    draft = order.draft if isinstance(order, Order) else order
    folder.mkdir(parents=True, exist_ok=True)
    written = [_written(folder / f"{_file_name(draft.key)}.pdf", order_paper(job, key, units=units))]
    for drawing in draft.drawings:
        name = _file_name(drawing.number or drawing.title)
        written += [
            _written(folder / f"{name}.pdf", drawing_pdf(drawing)),
            _written(folder / f"{name}.dxf", drawing_dxf(drawing)),
            _written(folder / f"{name}.svg", drawing_svg(drawing).encode("utf-8")),
        ]
    return written


def _written(path: Path, data: bytes) -> Path:
    path.write_bytes(data)
    return path


def _file_name(text: str) -> str:
    return re.sub(r"[^A-Za-z0-9]+", "-", text).strip("-").lower() or "drawing"


def record_book(job: Job, *, units: UnitChoice) -> bytes:
    """The book so far, as PDF/A: everything known, decided, ordered and inspected, with the head of the history."""
    from gudgeon.engine.sheet import bench_sheet
    from gudgeon.pictures import draw, standalone
    from gudgeon.record import Book, book
    from gudgeon.systems import ALL
    from gudgeon.workbench.forecasting import forecast
    from gudgeon.workbench.outworking import inspection
    from gudgeon.workbench.part_states import engine_picture

    snapshot, reckoning, entries = job.snapshot(), job.reckoning(), job.file.entries()
    outlook = forecast(job, today=date.fromisoformat(entries[-1].at[:10]))
    return book(
        Book(
            outline=snapshot.outline,
            snapshot=snapshot,
            reckoning=reckoning,
            head=snapshot.head,
            units=units,
            date=entries[-1].at[:10],
            titles={system.key: system.title for system in ALL},
            introductions={system.key: system.introduction for system in ALL},
            svgs={name: standalone(draw(picture, units=units)) for name, picture in reckoning.pictures}
            | {"engine": standalone(engine_picture(job))},
            pictures={
                note.digest: job.file.picture(note.digest) for note in snapshot.pictures if job.file.has_picture(note.digest)
            },
            forecast=outlook.sentences,
            steps=tuple((step.title, _when(step)) for step in outlook.steps),
            cautions=tuple(dict.fromkeys(caution for system in ALL for caution in system.cautions)),
            sheets=tuple(bench_sheet(system, snapshot) for system in ALL),
            inspections={order.id: inspection(job, order.id).lines for order in snapshot.orders},
            history=tuple(entries),
        )
    )


def _when(step: StepOutlook) -> str:
    dates = "" if step.finish is None else f"likely finished by {step.finish.likely:%d %B %Y}"
    waits = f"waits for {', '.join(step.waits_for)}" if step.waits_for else ""
    return "; ".join(words for words in (step.state, dates, waits) if words)


@dataclass(frozen=True, slots=True)
class Verified:
    """What the check of a job found. ``whole`` is True when nothing was found altered."""

    faults: tuple[Fault, ...]
    standing: str
    entries: int
    head: str

    @property
    def whole(self) -> bool:
        """Nothing was found altered."""
        return not self.faults

    def __str__(self) -> str:
        if self.faults:
            return "ALTERED. " + "\n".join(fault.sentence for fault in self.faults)
        words = {
            "anchored": "and the head that was kept elsewhere lies in it: nothing was altered since.",
            "consistent, not anchored": "consistent, not anchored: it agrees with itself. Only a head printed or kept "
            "elsewhere (--against) can show that it was not rewritten as a whole.",
        }
        return f"{self.entries} entries, {words[self.standing]}\nhead {self.head}"


def verify(job: Job, *, against: str = "") -> Verified:
    """Check the history, every picture and the database. ``against``: a head kept elsewhere, or a printed book."""
    from gudgeon.jobfile import check, standing

    head = _head_from(against)
    faults = check(job.file, against=head)
    entries = job.file.entries() if not faults else []
    return Verified(tuple(faults), standing(faults, against=head), len(entries), job.file.head() if entries else "")


def _head_from(against: str) -> str:
    if not against:
        return ""
    if re.fullmatch(r"[0-9a-fA-F ]{64,90}", against):
        return against.replace(" ", "").lower()
    path = Path(against)
    if not path.is_file():
        raise Refused(f"“{against}” is neither a head (64 figures and letters a to f) nor a book that is there.")
    from gudgeon.record import head_of_book

    head = head_of_book(path.read_bytes())
    if not head:
        raise Refused(f"{path} carries no head of a history; the PDF that `gudgeon record` wrote would be right.")
    return head
