"""The seal: the head of the history as a book prints it, and read back out of a book."""

from __future__ import annotations

import io
import re

_GROUPS = re.compile(r"\b((?:[0-9a-f]{8}\s+){7}[0-9a-f]{8})\b")


def seal_svg(*, name: str, entries: int, head: str) -> bytes:
    """A QR code (ISO/IEC 18004) of the engine's name, the number of entries and the digest."""
    import segno

    out = io.BytesIO()
    words = f"{name}\n{entries} entries\n{head}"
    segno.make(words, error="m", micro=False).save(out, kind="svg", border=2, xmldecl=False, dark="#1b1a18")
    return out.getvalue()


def head_of_book(book: bytes) -> str:
    """The head that a printed book states on its title page: 64 hexadecimal figures; "" where the file states none."""
    from pypdf import PdfReader
    from pypdf.errors import PyPdfError

    try:
        words = PdfReader(io.BytesIO(book)).pages[0].extract_text()
    except (PyPdfError, IndexError, ValueError):
        return ""
    found = _GROUPS.search(words)
    return re.sub(r"\s", "", found.group(1)) if found else ""
