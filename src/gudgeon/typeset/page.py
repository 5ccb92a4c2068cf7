"""One typst source to one PDF/A-2b."""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from gudgeon.typeset.words import FONTS, printable, quoted

HOUSE = Path(__file__).parent / "house.typ"
BINARY = (".jpg", ".jpeg", ".png", ".webp", ".gif", ".pdf")
_MISSING = ("unknown font family", "could not be displayed")


class TypesetFault(ValueError):
    """The document could not be set; the sentence says where and why."""


@cache
def _fonts() -> Any:
    import typst

    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(FONTS)])


def moment(date: dt.datetime | dt.date | str) -> dt.datetime:
    """A date as a UTC moment. A text must be ISO 8601 ("2026-05-01" or "2026-05-01T09:30:00Z"), else TypesetFault."""
    if isinstance(date, str):
        try:
            date = dt.datetime.fromisoformat(date)
        except ValueError:
            raise TypesetFault(
                f"“{date}” was given as the document's date; a date such as 2026-05-01 would be right."
            ) from None
    if not isinstance(date, dt.datetime):
        date = dt.datetime(date.year, date.month, date.day)
    return date.astimezone(dt.UTC) if date.tzinfo else date.replace(tzinfo=dt.UTC)


def date_or_epoch(date: str) -> str:
    """An ISO date as given, else the first day of Unix time."""
    try:
        return dt.datetime.fromisoformat(date).isoformat()
    except ValueError:
        return "1970-01-01"


def _main(*, title: str, author: str, at: dt.datetime, paper: str) -> str:
    authors = f"({quoted(author)},)" if author else "()"
    when = f"datetime({at:year: %-Y, month: %-m, day: %-d, hour: %-H, minute: %-M, second: %-S})"
    return (
        f"#set document(title: {quoted(title)}, author: {authors}, date: {when})\n"
        f'#set page(paper: {quoted(paper)})\n#set text(font: ("Clear Sans", "DejaVu Sans"), lang: "en", region: "gb")\n'
        '#include "body.typ"\n'
    )


def pdf(
    source: str,
    *,
    files: Mapping[str, bytes] | None = None,
    title: str,
    author: str = "",
    date: dt.datetime | dt.date | str,
    paper: str = "a4",
    tagged: bool = True,
) -> bytes:
    """The PDF of a typst source.

    Parameters
    ----------
    source : typst markup. ``#import "house.typ": *`` gives the house style; user text goes in by ``data_file`` or ``escape``.
    files : what the source reads, by name: JSON, SVG, PNG and JPEG.
    date : of the document. Nothing else in it depends on the clock, so the same input gives the same bytes.
    paper : a paper name of typst ("a4", "a3"); a ``set page`` in the source overrides it.
    tagged : write the structure tree (for readers that speak the page); ``join`` drops it.

    Returns
    -------
    bytes : PDF/A-2b (ISO 19005-2 level B), fonts embedded.

    Raises
    ------
    TypesetFault : the source is wrong, a file is missing, or a font family is not among those shipped.
    """
    import typst

    at = moment(date)
    main = _main(title=title, author=author, at=at, paper=paper)
    try:
        with _laid_ready(main, source, files) as ready:
            out, warnings = typst.compile_with_warnings(
                **ready,
                font_paths=_fonts(),
                ignore_system_fonts=True,
                format="pdf",
                pdf_standards=["a-2b"],
                timestamp=at,
                pdf_tags=tagged,
            )
    except typst.TypstError as fault:
        raise TypesetFault(f"“{printable(title)}” could not be set: {fault.message} {_where(fault)}".strip()) from fault
    for warning in warnings:
        if any(sign in warning.message for sign in _MISSING):
            raise TypesetFault(
                f"“{printable(title)}” could not be set: {warning.message}; only the shipped fonts may be named."
            )
    return bytes(out)


def marks(
    source: str, *, files: Mapping[str, bytes] | None = None, title: str, date: dt.datetime | dt.date | str, label: str = "mark"
) -> list[dict[str, Any]]:
    """What a source says of itself: the values of its ``#metadata(...)<mark>`` elements, in order.

    With the same arguments right after ``pdf`` it costs little, since the typesetter keeps what it set.
    """
    import json

    import typst

    main = _main(title=title, author="", at=moment(date), paper="a4")
    with _laid_ready(main, source, files) as ready:
        found = typst.query(**ready, selector=f"<{label}>", field="value", font_paths=_fonts(), ignore_system_fonts=True)
    return list(json.loads(found))


@contextmanager
def _laid_ready(main: str, source: str, files: Mapping[str, bytes] | None) -> Iterator[dict[str, Any]]:
    """What the compiler reads from: its memory where all files are text, else a folder, as it takes no others in memory."""
    texts = {"main.typ": main.encode("utf-8"), "house.typ": HOUSE.read_bytes(), "body.typ": source.encode("utf-8")}
    ready = {**(files or {}), **texts}
    if strange := [name for name in ready if Path(name).name != name]:
        raise TypesetFault(
            f"“{strange[0]}” was given as the name of a file for the page; a name without a folder would be right."
        )
    if not any(name.lower().endswith(BINARY) for name in ready):
        yield {"input": ready}
        return
    with TemporaryDirectory(prefix="gudgeon-page-") as folder:
        for name, content in ready.items():
            (Path(folder) / name).write_bytes(content)
        yield {"input": str(Path(folder) / "main.typ"), "root": folder}


def _where(fault: Any) -> str:
    """Hints, and the place: the line of the diagnostic that names file, line and column."""
    place = next((line.strip(" │┌─") for line in str(fault.diagnostic or "").splitlines() if "┌─" in line), "")
    return " ".join(filter(None, [*(fault.hints or ()), f"(at {place})" if place else ""]))


def page_count(document: bytes) -> int:
    """How many pages a PDF has."""
    from pypdf import PdfReader

    return len(PdfReader(io.BytesIO(document)).pages)
