"""Tags for bags, boxes and parts that go to a shop: a plain number to read, a QR that opens the part's page, room to write."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from gudgeon.typeset import data_file, date_or_epoch, pdf

TEMPLATE = Path(__file__).parent / "tags.typ"
MOST_TAGS = 400
A_SHEET = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Tag:
    """One tag: its number, the address that scanning opens, and the part it is for ("" for one still to be given out)."""

    number: int
    address: str
    item: str = ""
    place: str = ""


def tags_pdf(tags: Sequence[Tag], *, engine: str, date: str = "") -> bytes:
    """Sheets of ten tags on A4, 91 x 52 mm each with lines to cut along and a ring for the punch; PDF/A, the same bytes
    every time.

    The QR codes are ISO/IEC 18004 with error correction level Q, so that a quarter of one may be smudged. Raises ValueError
    for more than 400 tags at once.
    """
    if len(tags) > MOST_TAGS:
        raise ValueError(f"{len(tags)} tags were asked for at once; at most {MOST_TAGS} would be right.")
    files: dict[str, Any] = {f"qr-{tag.number}.svg": _qr(tag.address) for tag in tags}
    rows = [
        {
            "number": str(tag.number),
            "item": tag.item,
            "place": tag.place,
            "qr": f"qr-{tag.number}.svg",
            "address": tag.address.partition("://")[2] or tag.address,
        }
        for tag in tags
    ]
    return pdf(
        TEMPLATE.read_text("utf-8"),
        files={"tags.json": data_file({"engine": engine, "tags": rows}), **files},
        title=f"{engine}: tags",
        date=date_or_epoch(date),
    )


def _qr(address: str) -> bytes:
    import segno

    out = io.BytesIO()
    segno.make(address, error="q", micro=False).save(out, kind="svg", border=2, xmldecl=False, dark="#1b1a18")
    return out.getvalue()
