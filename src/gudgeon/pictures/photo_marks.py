"""What is drawn on top of a photo, as a see-through SVG of the photo's own proportions."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from gudgeon.engine.photo import PhotoMark
from gudgeon.pictures.svg import arrowhead, disc, path, picture, words

WIDTH = 1000.0


def draw_marks(marks: Sequence[PhotoMark], *, width: int, height: int) -> str:
    """The marks over a photo of that many pixels held upright; every line has a pale one under it, so that it is seen on
    dark iron and on bright metal alike."""
    tall = WIDTH * (height / width if width and height else 0.75)
    body = "".join(_drawn(mark, tall) for mark in marks)
    said = "; ".join(mark.text or mark.kind for mark in marks) or "nothing"
    return picture(width=WIDTH, height=tall, title=f"Drawn on the photo: {said}", body=body, kind="picture over")


def _drawn(mark: PhotoMark, tall: float) -> str:
    at, to = (mark.x * WIDTH, mark.y * tall), (mark.to_x * WIDTH, mark.to_y * tall)
    if mark.kind == "words":
        return _text(at, mark.text)
    if mark.kind == "ring":
        radius = max(12.0, hypot(to[0] - at[0], to[1] - at[1]))
        return (
            disc(at, radius, "pic-over-under", fill="none") + disc(at, radius, "pic-over", fill="none") + _text(to, mark.text)
        )
    head = arrowhead(to, at, length=30, half=10) if at != to else ""
    return (
        path([at, to], "pic-over-under")
        + path([at, to], "pic-over")
        + head.replace("pic-tip", "pic-over-tip")
        + _text(at, mark.text)
    )


def _text(at: tuple[float, float], text: str) -> str:
    if not text:
        return ""
    anchor = "end" if at[0] > 0.72 * WIDTH else ""
    place = (at[0] + (-12 if anchor else 12), at[1] - 10)
    return words(place, text, "pic-over-text", anchor=anchor)
