"""Photos from telephones: their kind, the camera's own time, which way up, and small copies."""

from __future__ import annotations

import base64
import io

import pytest
from PIL import Image

from gudgeon.pictures.photograph import can_open_heic, facts_of, kind_of, small_copy

# 64 x 48, left half blue, right half red, EXIF orientation 6 (turned a quarter clockwise to be seen: 48 x 64, blue above),
# taken 2026:10:17 15:20:07 +02:00. Written once with libheif's encoder.
HEIC = base64.b64decode(
    "AAAAHGZ0eXBoZWljAAAAAG1pZjFoZWljbWlhZgAAAchtZXRhAAAAAAAAACFoZGxyAAAAAAAAAABwaWN0AAAAAAAAAAAAAAAAAAAA"
    "ADRpbG9jAAAAAERAAAIAAQAAAAAB7AABAAAAAAAAAEAAAgAAAAACLAABAAAAAAAAAGoAAAA4aWluZgAAAAAAAgAAABVpbmZlAgAA"
    "AAABAABodmMxAAAAABVpbmZlAgAAAQACAABFeGlmAAAAAA5waXRtAAAAAAABAAABB2lwcnAAAADmaXBjbwAAAHZodmNDAQNwAAAA"
    "kAAAAAAAHvAA/P34+AAADwNgAAEAGEABDAH//wNwAAADAJAAAAMAAAMAHroCQGEAAQAqQgEBA3AAAAMAkAAAAwAAAwAeoCCBBZbq"
    "5Ka5uAhoMCAAAAMDIAAAAwAhYgABAAZEAcFzwIkAAAATY29scm5jbHgAAQANAAaAAAAAFGlzcGUAAAAAAAAAQAAAAEAAAAAoY2xh"
    "cAAAAEAAAAABAAAAMAAAAAEAAAAAAAAAAv////AAAAACAAAAEHBpeGkAAAAAAwgICAAAAAlpcm90AwAAABlpcG1hAAAAAAAAAAEA"
    "AQaBAgMFhIYAAAAaaXJlZgAAAAAAAAAOY2RzYwACAAEAAQAAALJtZGF0AAAAPCgBr1jm9Oq///EA+R+U9P/o8v1f/Sr6/7jD6/p4"
    "FWlfbR2zyMJHcqwRMlBb9/biDwUIzwI3jDhILvRawAAAAAZFeGlmAABNTQAqAAAACAACARIAAwAAAAEABgAAh2kABAAAAAEAAAAm"
    "AAAAAAACkAMAAgAAABQAAABEkBEAAgAAAAcAAABYAAAAADIwMjY6MTA6MTcgMTU6MjA6MDcAKzAyOjAwAAA="
)


def sideways() -> bytes:
    """The same as a JPEG, written by Pillow. Tags as CIPA DC-008 numbers them."""
    picture = Image.new("RGB", (64, 48), (200, 30, 30))
    picture.paste((30, 30, 200), (0, 0, 32, 48))
    exif = Image.Exif()
    exif[274] = 6
    exif.get_ifd(0x8769)[36867] = "2026:10:17 15:20:07"
    exif.get_ifd(0x8769)[36881] = "+02:00"
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=95, exif=exif.tobytes())
    return out.getvalue()


def check(data: bytes, kind: str) -> None:
    assert kind_of(data) == kind
    facts = facts_of(data)
    assert facts is not None
    assert (facts.taken, facts.width, facts.height) == ("2026-10-17T15:20:07+02:00", 48, 64)
    small = Image.open(io.BytesIO(small_copy(data, longest=32)))
    assert small.size == (24, 32)
    above, below = small.getpixel((12, 6)), small.getpixel((12, 26))
    assert above[2] > 150 > above[0]
    assert below[0] > 150 > below[2]
    assert not small.getexif(), "a small copy does not say where or when"


def test_a_jpeg_is_turned_as_the_camera_was_held() -> None:
    check(sideways(), "jpg")


@pytest.mark.skipif(not can_open_heic(), reason="the reader for HEIC (extra: heic) is not installed")
def test_a_heic_too() -> None:
    check(HEIC, "heic")


@pytest.mark.parametrize("data", [b"", b"\xff\xd8\xff", sideways()[:60], b"\x89PNG\r\n\x1a\n" + b"x" * 40, HEIC[:80]])
def test_a_torn_file_has_no_facts_and_no_small_copy(data: bytes) -> None:
    assert facts_of(data) is None
    assert small_copy(data, longest=32) == b""


@pytest.mark.parametrize("data", [b"<svg onload=alert(1)>", b"%PDF-1.7", b"GIF89a", b"MZ"])
def test_what_is_no_photo_has_no_kind(data: bytes) -> None:
    assert kind_of(data) == ""
