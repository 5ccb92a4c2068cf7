"""One typst source to one PDF/A-2b."""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from gudgeon.typeset.words import FONTS, printable, quoted

HOUSE = Path(__file__).parent / "house.typ"
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
    shipped = {"house.typ": HOUSE.read_bytes(), "body.typ": source.encode("utf-8")}
    main = {"main.typ": _main(title=title, author=author, at=at, paper=paper).encode("utf-8")}
    try:
        out, warnings = typst.compile_with_warnings(
            {**main, **(files or {}), **shipped},
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


def _where(fault: Any) -> str:
    return " ".join(part for part in (*(fault.hints or ()), *(fault.trace or ())) if part) or str(fault.diagnostic or "")


def page_count(document: bytes) -> int:
    """How many pages a PDF has."""
    from pypdf import PdfReader

    return len(PdfReader(io.BytesIO(document)).pages)
