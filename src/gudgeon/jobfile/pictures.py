"""Pictures and documents of a job: files named by their own digest, so that same bytes are stored once and a change shows."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from pathlib import Path

from gudgeon.jobfile.fault import NoPicture
from gudgeon.jobfile.layout import force_folder, write_durably

_DIGEST = re.compile(r"[0-9a-f]{64}")

# First bytes of the usual kinds, from their published formats: JFIF/EXIF, PNG (ISO/IEC 15948), GIF89a, TIFF 6.0, ISO 32000.
_BEGINNINGS = (
    (b"\xff\xd8\xff", ".jpg"),
    (b"\x89PNG\r\n\x1a\n", ".png"),
    (b"GIF8", ".gif"),
    (b"II*\x00", ".tif"),
    (b"MM\x00*", ".tif"),
    (b"%PDF-", ".pdf"),
)


def suffix_of(data: bytes) -> str:
    """The usual file name ending for these bytes, so that other programs open the file; "" where the kind is not known."""
    for beginning, suffix in _BEGINNINGS:
        if data.startswith(beginning):
            return suffix
    if data[4:8] == b"ftyp" and data[8:12] in (b"heic", b"heix", b"mif1", b"msf1"):
        return ".heic"
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return ".webp"
    return ""


class PictureStore:
    """The folder of pictures of one job."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def add(self, data: bytes) -> str:
        """Store bytes durably and return their SHA-256; the same bytes again change nothing (or mend a spoilt file)."""
        if not data:
            raise ValueError("A picture of no bytes was given; choose the file again.")
        digest = hashlib.sha256(data).hexdigest()
        drawer = self.folder / digest[:2]
        path = drawer / (digest + suffix_of(data))
        if path.is_file() and path.read_bytes() == data:
            return digest
        if not drawer.is_dir():
            drawer.mkdir(parents=True, exist_ok=True)
            force_folder(self.folder)
        write_durably(path, data)
        return digest

    def path(self, digest: str) -> Path:
        """Where a picture lies. Raises NoPicture."""
        if not _DIGEST.fullmatch(digest):
            raise NoPicture(f"“{digest}” was read as the name of a picture; it would be 64 of the characters 0-9 and a-f.")
        found = next(iter(sorted((self.folder / digest[:2]).glob(f"{digest}*"))), None)
        if found is None:
            raise NoPicture(f"The picture {digest[:12]}... is not in this job: its file is missing from the folder pictures.")
        return found

    def read(self, digest: str) -> bytes:
        """The bytes of a picture. Raises NoPicture."""
        return self.path(digest).read_bytes()

    def has(self, digest: str) -> bool:
        """Whether a picture is there."""
        try:
            self.path(digest)
        except NoPicture:
            return False
        return True

    def __iter__(self) -> Iterator[Path]:
        """Every picture's file, in order of digest."""
        return iter(sorted(path for path in self.folder.glob("??/*") if _DIGEST.match(path.name)))


def digest_of(path: Path) -> str:
    """SHA-256 of a file, read in pieces."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()
