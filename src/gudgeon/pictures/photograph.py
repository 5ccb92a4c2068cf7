"""Photos as they come from a telephone: their kind, the camera's own time, which way up they are, and small copies of them.

The time and the orientation stand in the EXIF data (CIPA DC-008, tags 36867 DateTimeOriginal, 36881 OffsetTimeOriginal and
274 Orientation). The original is never written to.
"""

from __future__ import annotations

import io
import re
import threading
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL import Image

KINDS = {"jpg": "image/jpeg", "png": "image/png", "heic": "image/heic"}
MOST_PIXELS = 120_000_000
"""Of a picture that must be opened whole; a JPEG may have more, since it is opened at a fraction of its size."""

_HEIC_BRANDS = (b"heic", b"heix", b"mif1", b"hevc", b"msf1")
_TIME = re.compile(r"(\d{4}):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)")
_OFFSET = re.compile(r"[+-]\d\d:\d\d")
_few_at_a_time = threading.BoundedSemaphore(2)


@dataclass(frozen=True, slots=True)
class PhotoFacts:
    """When a photo was taken by its camera's own clock (ISO 8601, "" where the camera did not say), and its width and
    height when it is held upright [pixel]."""

    taken: str
    width: int
    height: int


def kind_of(data: bytes) -> str:
    """ "jpg", "png" or "heic" by the first bytes; "" for anything else."""
    if data.startswith(b"\xff\xd8\xff"):
        return "jpg"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "png"
    return "heic" if data[4:8] == b"ftyp" and data[8:12] in _HEIC_BRANDS else ""


def facts_of(data: bytes) -> PhotoFacts | None:
    """What the file says of itself; None where it cannot be opened here (a HEIC without its reader, a torn file)."""
    from PIL import Image

    try:
        with _opened(data) as image:
            exif = image.getexif()
            width, height = image.size
            if exif.get(274, 1) in (5, 6, 7, 8):
                width, height = height, width
            return PhotoFacts(_taken(exif), width, height)
    except _unreadable(Image):
        return None


def small_copy(data: bytes, *, longest: int, quality: int = 80) -> bytes:
    """A JPEG no side of which is longer than ``longest`` pixels, held upright and without the camera's notes (which may
    tell where it was taken); b"" where the file cannot be opened here."""
    from PIL import Image, ImageOps

    try:
        with _few_at_a_time, _opened(data) as image:
            if image.format != "JPEG" and image.width * image.height > MOST_PIXELS:
                return b""
            image.draft("RGB", (longest, longest))
            upright = ImageOps.exif_transpose(image).convert("RGB")
            upright.thumbnail((longest, longest))
            out = io.BytesIO()
            upright.save(out, "JPEG", quality=quality)
            return out.getvalue()
    except _unreadable(Image):
        return b""


def can_open_heic() -> bool:
    """Is the reader for HEIC installed?"""
    try:
        import pi_heif  # noqa: F401
    except ImportError:
        return False
    return True


def _opened(data: bytes) -> Image.Image:
    from PIL import Image

    if kind_of(data) == "heic" and can_open_heic():
        import pi_heif

        pi_heif.register_heif_opener()
    return Image.open(io.BytesIO(data), formats=("JPEG", "PNG", "HEIF") if can_open_heic() else ("JPEG", "PNG"))


def _unreadable(image: object) -> tuple[type[Exception], ...]:
    bomb: type[Exception] = getattr(image, "DecompressionBombError")  # noqa: B009
    return (OSError, ValueError, SyntaxError, RuntimeError, TypeError, KeyError, bomb)


def _taken(exif: Image.Exif) -> str:
    inner = exif.get_ifd(0x8769)
    found = _TIME.fullmatch(str(inner.get(36867) or exif.get(306) or "").strip("\0 "))
    if not found:
        return ""
    year, month, day, hour, minute, second = found.groups()
    if year == "0000":
        return ""
    offset = str(inner.get(36881) or "").strip("\0 ")
    return f"{year}-{month}-{day}T{hour}:{minute}:{second}" + (offset if _OFFSET.fullmatch(offset) else "")
