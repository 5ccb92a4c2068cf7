"""What is drawn on top of a photo: arrows, rings and words. The photo itself stays as it came from the camera."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

MarkKind = Literal["arrow", "ring", "words"]
MARK_KINDS: tuple[MarkKind, ...] = ("arrow", "ring", "words")
MOST_MARKS, LONGEST_TEXT = 60, 200


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoMark:
    """One mark, placed in shares of the upright photo's width and height, from its upper left corner.

    An arrow runs from (x, y) to its head at (to_x, to_y); a ring is drawn round the middle (x, y) through (to_x, to_y);
    words stand at (x, y). ``text`` is written beside an arrow or a ring too, where there is one.
    """

    kind: MarkKind
    x: float
    y: float
    to_x: float = 0.0
    to_y: float = 0.0
    text: str = ""

    def __post_init__(self) -> None:
        """Refuse a mark off the photo."""
        if self.kind not in MARK_KINDS:
            raise ValueError(f"“{self.kind}” was read as a kind of mark; {', '.join(MARK_KINDS)} would be right.")
        if not all(0.0 <= share <= 1.0 for share in (self.x, self.y, self.to_x, self.to_y)):
            raise ValueError("A mark lies off its photo; its place is given in shares of width and height, from 0 to 1.")


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoMarks:
    """All marks on one photo, as they stand."""

    digest: str
    marks: tuple[PhotoMark, ...] = ()
    person: str = ""
    at: str = ""
