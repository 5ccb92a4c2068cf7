"""Marks on paper: what every printed form of a drawing is made of. Millimetres of the paper, y upward."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from gudgeon.engine.drawing import Pen, Point
from gudgeon.typeset import text_width

LETTERS = 3.3  # size of the type in dimensions and notes


@dataclass(frozen=True, slots=True)
class Stroke:
    """A run of straight lines; ``filled`` for arrowheads."""

    points: tuple[Point, ...]
    pen: Pen
    closed: bool = False
    filled: bool = False


@dataclass(frozen=True, slots=True)
class Round:
    """A circle, or an arc anticlockwise from start to end [degree]."""

    centre: Point
    radius: float
    pen: Pen
    start: float = 0.0
    end: float = 360.0


@dataclass(frozen=True, slots=True)
class Words:
    """A line of text: its base line starts at (or is centred on) a point and runs at an angle [degree]."""

    at: Point
    text: str
    height: float
    angle: float = 0.0
    anchor: Literal["start", "middle", "end"] = "start"
    bold: bool = False
    quiet: bool = False

    @property
    def width(self) -> float:
        """Length of the line [mm]."""
        return text_width(self.text, height=self.height, bold=self.bold)

    def corners(self) -> tuple[Point, ...]:
        """The box round the letters, from below the descenders to the top of the capitals."""
        back = {"start": 0.0, "middle": self.width / 2, "end": self.width}[self.anchor]
        c, s = math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle))
        box = ((-back, -0.22), (self.width - back, -0.22), (self.width - back, 0.74), (-back, 0.74))
        flat = ((x, y * self.height if abs(y) < 1 else y) for x, y in box)
        return tuple((self.at[0] + x * c - y * s, self.at[1] + x * s + y * c) for x, y in flat)


Mark = Stroke | Round | Words


def extent(marks: Iterable[Mark]) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of a group of marks."""
    xs: list[float] = []
    ys: list[float] = []
    for mark in marks:
        for x, y in _corners(mark):
            xs.append(x)
            ys.append(y)
    return min(xs), min(ys), max(xs), max(ys)


def _corners(mark: Mark) -> Sequence[Point]:
    match mark:
        case Stroke():
            return mark.points
        case Words():
            return mark.corners()
        case Round():
            (x, y), r = mark.centre, mark.radius
            if mark.end - mark.start >= 360:
                return (x - r, y - r), (x + r, y + r)
            turns = [mark.start, mark.end] + [q for q in range(-360, 721, 90) if mark.start < q < mark.end]
            return [(x + r * math.cos(math.radians(t)), y + r * math.sin(math.radians(t))) for t in turns]


def moved(mark: Mark, by: Point) -> Mark:
    """The mark elsewhere on the sheet."""

    def shift(point: Point) -> Point:
        return point[0] + by[0], point[1] + by[1]

    match mark:
        case Stroke():
            return Stroke(tuple(map(shift, mark.points)), mark.pen, mark.closed, mark.filled)
        case Round():
            return Round(shift(mark.centre), mark.radius, mark.pen, mark.start, mark.end)
        case Words():
            return Words(shift(mark.at), mark.text, mark.height, mark.angle, mark.anchor, mark.bold, mark.quiet)


def fitted(
    text: str, *, at: Point, within: float, tall: float, height: float, bold: bool = False, quiet: bool = False
) -> tuple[Words, ...]:
    """A text in a cell of a width and height: one line, smaller where it is long, then several lines, never cut."""
    if not text.strip():
        return ()
    width = text_width(text, height=height, bold=bold)
    small = height * min(1.0, within / width)
    if small >= height * 0.67:
        return (Words(at, text, small, bold=bold, quiet=quiet),)
    small = height * 0.67
    lines = wrapped(text, within=within, height=small, bold=bold)
    while len(lines) * small * 1.12 > tall and small > 0.8:
        small *= 0.93
        lines = wrapped(text, within=within, height=small, bold=bold)
    base = at[1] - 0.8 + (len(lines) - 1) * small * 1.12
    return tuple(Words((at[0], base - n * small * 1.12), line, small, bold=bold, quiet=quiet) for n, line in enumerate(lines))


def wrapped(text: str, *, within: float, height: float, bold: bool = False) -> list[str]:
    """The lines of a text that is broken at spaces, and inside a word only where it alone is too long."""
    lines: list[str] = []
    line = ""
    for word in text.split():
        trial = f"{line} {word}".strip()
        if text_width(trial, height=height, bold=bold) <= within:
            line = trial
            continue
        if line:
            lines.append(line)
        while text_width(word, height=height, bold=bold) > within and len(word) > 1:
            cut = max(1, sum(text_width(word[:n], height=height, bold=bold) <= within for n in range(1, len(word))))
            lines.append(word[:cut])
            word = word[cut:]
        line = word
    return [*lines, line] if line else lines
