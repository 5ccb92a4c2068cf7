"""Photos for the page: the original as it is, or a small copy, made once and kept in the job's cache."""

from __future__ import annotations

from io import BytesIO

from gudgeon.workbench.job import Job

SMALL = 480


def shown_bytes(job: Job, digest: str, *, small: bool) -> tuple[bytes, str]:
    """The bytes and their kind. A photo that no small copy can be made of comes whole."""
    if small:
        name = f"small-{digest}.jpg"
        kept = job.file.cached(name)
        if kept is None and (kept := _small(job.file.picture(digest))):
            job.file.cache(name, kept)
        if kept:
            return kept, "image/jpeg"
    data = job.file.picture(digest)
    return data, _kind(data)


def _kind(data: bytes) -> str:
    if data.startswith(b"\xff\xd8\xff"):
        return "image/jpeg"
    return "image/png" if data.startswith(b"\x89PNG") else "image/heic"


def _small(data: bytes) -> bytes:
    from PIL import Image, ImageOps, UnidentifiedImageError

    try:
        with Image.open(BytesIO(data)) as opened:
            opened.draft("RGB", (SMALL * 2, SMALL * 2))
            upright = ImageOps.exif_transpose(opened)
            upright.thumbnail((SMALL, SMALL))
            out = BytesIO()
            upright.convert("RGB").save(out, "JPEG", quality=80)
            return out.getvalue()
    except (UnidentifiedImageError, OSError, ValueError, Image.DecompressionBombError):
        return b""
