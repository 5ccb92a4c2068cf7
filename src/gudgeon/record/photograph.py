"""Photos made fit for the page: upright, no larger than the page can show, plain JPEG."""

from __future__ import annotations

from collections.abc import Mapping

from gudgeon.pictures.photograph import small_copy

LONGEST = 1000  # pixels; 83 mm on paper, the width it is printed at, takes 980 at 300 to the inch
QUALITY = 80


def all_on_paper(photos: Mapping[str, bytes]) -> dict[str, bytes]:
    """The photos that can be read, by digest, two at a time."""
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(max_workers=2) as hands:
        done = hands.map(on_paper, photos.values())
        return {digest: photo for digest, photo in zip(photos, done, strict=True) if photo is not None}


def on_paper(photo: bytes) -> bytes | None:
    """JPEG bytes, turned as the camera was held (EXIF orientation), or None where the file is no picture that can be read."""
    return small_copy(photo, longest=LONGEST, quality=QUALITY) or None
