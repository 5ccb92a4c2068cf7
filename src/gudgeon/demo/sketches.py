"""The demo's pictures: bench sketches drawn here, since an invented engine cannot be photographed."""

from __future__ import annotations

import io
import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.ImageDraw import ImageDraw

SIZE = (1280, 960)
PAPER, INK, BLUE, LEAD = (238, 232, 218), (32, 33, 30), (29, 78, 158), (176, 62, 34)


@dataclass(frozen=True, slots=True)
class Sketch:
    """One picture: JPEG bytes and what the owner noted of it."""

    name: str
    part: str
    item: str
    taken: str
    note: str
    data: bytes


def sketches() -> tuple[Sketch, ...]:
    """The demo's pictures, drawn afresh; the same bytes each time with one version of the drawing library."""
    return (
        Sketch("cylinder-3-bore.jpg", "cylinder", "cyl 3", "2026-10-17T15:20:00", "pits, exhaust side", _jpeg(_bore)),
        Sketch("piston-3-boss.jpg", "piston", "piston 3", "2026-10-17T15:41:00", "hairline at the boss", _jpeg(_piston)),
        Sketch("ring-1-joint.jpg", "ring", "cyl 1 top ring", "2026-10-18T10:05:00", "step joint, pegged", _jpeg(_ring)),
    )


def _jpeg(draw_on: Callable[[ImageDraw], None]) -> bytes:
    from PIL import Image, ImageDraw

    image = Image.new("RGB", SIZE, PAPER)
    draw_on(ImageDraw.Draw(image))
    out = io.BytesIO()
    image.save(out, "JPEG", quality=82)
    return out.getvalue()


def _bore(draw: ImageDraw) -> None:
    draw.rectangle((80, 80, 1200, 880), outline=INK, width=3)
    for ring in range(22):
        radius = 360 - 14 * ring
        shade = 225 - 7 * ring
        box = (640 - radius, 480 - radius, 640 + radius, 480 + radius)
        draw.ellipse(box, outline=INK if ring == 0 else (shade, shade, shade - 6), width=5 if ring == 0 else 9)
    for number in range(40):
        angle, reach = 0.35 + 0.016 * number, 210 + (number * 37) % 90
        x, y = 640 + reach * math.cos(angle), 480 + reach * math.sin(angle)
        size = 3 + (number * 13) % 7
        draw.ellipse((x - size, y - size, x + size, y + size), fill=(92, 60, 42))
    draw.line((1110, 820, 900, 660), fill=LEAD, width=5)


def _piston(draw: ImageDraw) -> None:
    draw.rectangle((360, 120, 920, 840), outline=INK, width=6)
    for top in (170, 240, 310):
        draw.rectangle((352, top, 928, top + 36), fill=(120, 116, 106), outline=INK, width=3)
    draw.ellipse((540, 480, 740, 680), outline=INK, width=6)
    draw.ellipse((568, 508, 712, 652), outline=INK, width=3)
    crack = [(730, 540), (762, 520), (781, 527), (812, 496), (846, 502)]
    draw.line(crack, fill=(20, 20, 20), width=4)
    draw.ellipse((700, 450, 890, 590), outline=LEAD, width=5)


def _ring(draw: ImageDraw) -> None:
    draw.arc((240, 80, 1040, 880), 4, 356, fill=INK, width=64)
    draw.arc((243, 83, 1037, 877), 4, 356, fill=(150, 146, 134), width=56)
    draw.line((940, 452, 1044, 452), fill=INK, width=5)
    draw.line((990, 480, 990, 508), fill=INK, width=5)
    draw.line((1180, 300, 1060, 430), fill=BLUE, width=5)
