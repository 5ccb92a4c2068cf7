"""Shims as people note them: "5 left, 5 right, each 0.0020 in", "L: 3 @ .002 + 1 @ .005; R: same", "2 of 3 thou each side"."""

from __future__ import annotations

import re
from dataclasses import dataclass

from gudgeon.quantity.units import UnknownUnit, unit_named
from gudgeon.quantity.writing import tidy

MOST_SHIMS = 60
_THICKEST = 0.01
"""A thickness over 10 mm is no shim [m]."""

_NUMBER = r"\d*\.?\d+(?:\s+\d+/\d+)?|\d+/\d+"
_UNIT = r"(?:\s*(thou|thous|mils?|inch(?:es)?|in|mm|\"))?"
_GROUP = re.compile(rf"(\d+)\s*(?:@|x|×|of|at|off)\s*({_NUMBER}){_UNIT}")
_EACH = re.compile(rf"\beach(?:\s+(?:of|at|@))?\s+({_NUMBER}){_UNIT}|({_NUMBER}){_UNIT}\s+each\b(?!\s+side)")
_COUNTS = (
    re.compile(r"(\d+)\s*(?:on the\s+|on\s+)?(left|right|l|r)\b"),
    re.compile(r"\b(left|right|l|r)\s*:?\s*(\d+)(?!\s*(?:@|x|×|of|at|off|\.|\d))"),
)
_SIDE = re.compile(r"\b(left|right|l|r)\b\s*[:=]?\s*")
_BOTH = re.compile(r"\b(each|either|both|per)\s+sides?\b|\ba side\b")
_NONE = re.compile(r"\b(no|none|without)\b")


@dataclass(frozen=True, slots=True, kw_only=True)
class Shims:
    """Thicknesses between the halves of a bearing, side by side [m]."""

    left: tuple[float, ...]
    right: tuple[float, ...]

    @property
    def total_left(self) -> float:
        """All of the left side [m]."""
        return sum(self.left)

    @property
    def total_right(self) -> float:
        """All of the right side [m]."""
        return sum(self.right)


def shims_written(text: str) -> Shims | None:
    """The shims that a note tells of; None where it does not tell how many and how thick on each side.

    A thickness without a unit is in inches where it is under one ("@ .002"), else in thou ("3 of 2").
    """
    plain = tidy(text).lower().replace("left-hand", "left").replace("right-hand", "right")
    found = _counted(plain) or _sided(plain) or _both(plain)
    if found is None and _NONE.search(plain) and "shim" in plain:
        return Shims(left=(), right=())
    return found


def _metres(figure: str, unit: str | None) -> float | None:
    value = 0.0
    for piece in figure.split():
        over, _, under = piece.partition("/")
        value += float(over) / float(under or 1)
    try:
        factor = unit_named(unit).factor if unit else (0.0254 if value < 1 else 2.54e-5)
    except UnknownUnit:
        return None
    size = value * factor
    return size if 0 < size < _THICKEST else None


def _counted(text: str) -> Shims | None:
    """Counts to each side and one thickness for all."""
    each = _EACH.search(text)
    if each is None:
        return None
    size = _metres(each[1] or each[3], each[2] or each[4])
    counts: dict[str, int] = {}
    for figure, side in [(m[1], m[2]) for m in _COUNTS[0].finditer(text)] or [(m[2], m[1]) for m in _COUNTS[1].finditer(text)]:
        counts[side[0]] = int(figure)
    if size is None or set(counts) != {"l", "r"} or max(counts.values()) > MOST_SHIMS:
        return None
    return Shims(left=(size,) * counts["l"], right=(size,) * counts["r"])


def _stack(text: str) -> tuple[float, ...] | None:
    groups = _GROUP.findall(text)
    if not groups:
        return () if re.search(r"\b(none|no|nil|0)\b", text) else None
    found: list[float] = []
    units = [unit for _, _, unit in groups if unit]
    for count, figure, unit in groups:
        size = _metres(figure, unit or (units[0] if units else None))
        if size is None or int(count) > MOST_SHIMS:
            return None
        found += [size] * int(count)
    return tuple(found)


def _sided(text: str) -> Shims | None:
    """A stack written out for each side; the second may be "same"."""
    marks = list(_SIDE.finditer(text))
    if len(marks) < 2:
        return None
    pieces: dict[str, str] = {}
    for mark, following in zip(marks, [*marks[1:], None], strict=True):
        pieces.setdefault(mark[1][0], text[mark.end() : following.start() if following else len(text)])
    if set(pieces) != {"l", "r"}:
        return None
    sides = {side: _stack(piece) for side, piece in pieces.items()}
    for side, other in (("l", "r"), ("r", "l")):
        if sides[side] is None and re.search(r"\b(same|ditto|do\.?|likewise)\b", pieces[side]):
            sides[side] = sides[other]
    left, right = sides["l"], sides["r"]
    return None if left is None or right is None else Shims(left=left, right=right)


def _both(text: str) -> Shims | None:
    """One stack for both sides."""
    if _BOTH.search(text) is None:
        return None
    stack = _stack(text)
    return None if not stack else Shims(left=stack, right=stack)
