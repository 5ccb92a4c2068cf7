"""Found, target and limit of one finding on one scale."""

from __future__ import annotations

from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Strip
from gudgeon.pictures.lettering import width_of
from gudgeon.pictures.svg import Point, box, disc, path, picture, words
from gudgeon.quantity import Amount, UnitChoice, show, show_interval

WIDTH, HEIGHT = 380.0, 92.0
LEFT, RIGHT, AXIS = 14.0, 366.0, 42.0


def draw_strip(strip: Strip, *, units: UnitChoice) -> str:
    """The strip: the band aimed at washed, the limit a heavy upright with the side past it washed, what was found as a dot
    with its 90 % interval. A strip of a thing not measured shows target and limit alone."""
    finding = strip.finding
    sizes = [size for size in _sizes(finding) if size is not None]
    if not sizes:
        return picture(width=WIDTH, height=30, title="Nothing measured and no limit known", body="")
    scale = _Scale(sizes)
    body = [*_bands(finding, scale), path([(LEFT, AXIS), (RIGHT, AXIS)], "pic-axis"), *_found(finding, scale, units)]
    body += _below(_notes(finding, scale, units))
    title = f"{finding.item}, {finding.quantity}: {_spoken(finding, units)}"
    return picture(width=WIDTH, height=HEIGHT, title=title, body="".join(body))


def _sizes(finding: Finding) -> tuple[float | None, ...]:
    return (finding.value, finding.low, finding.high, finding.target_low, finding.target_high, finding.limit, finding.as_fitted)


class _Scale:
    """Where a size stands on the strip."""

    def __init__(self, sizes: list[float]) -> None:
        low, high = min(sizes), max(sizes)
        room = (high - low) * 0.1 or abs(high) * 0.1 or 1e-6
        self.low = max(0.0, low - room) if low >= 0 else low - room
        self.high = high + room

    def at(self, size: float) -> float:
        return LEFT + (RIGHT - LEFT) * (size - self.low) / (self.high - self.low)


def _bands(finding: Finding, scale: _Scale) -> list[str]:
    shapes = []
    if finding.target_low is not None or finding.target_high is not None:
        start = LEFT if finding.target_low is None else scale.at(finding.target_low)
        end = RIGHT if finding.target_high is None else scale.at(finding.target_high)
        shapes.append(box((start, AXIS - 12), (max(end, start + 2), AXIS + 12), "pic-target"))
        for edge, size in ((start, finding.target_low), (end, finding.target_high)):
            if size is not None:
                shapes.append(path([(edge, AXIS - 12), (edge, AXIS + 12)], "pic-target-edge"))
    if finding.limit is not None:
        at = scale.at(finding.limit)
        past = (at, RIGHT) if finding.limit_is == "most" else (LEFT, at)
        shapes.append(box((past[0], AXIS - 7), (past[1], AXIS + 7), "pic-past"))
        shapes.append(path([(at, AXIS - 18), (at, AXIS + 18)], "pic-limit"))
    return shapes


def _found(finding: Finding, scale: _Scale, units: UnitChoice) -> list[str]:
    shapes = []
    if finding.as_fitted is not None:
        at = scale.at(finding.as_fitted)
        shapes.append(path([(at - 5, AXIS), (at, AXIS - 6), (at + 5, AXIS), (at, AXIS + 6)], "pic-reading", closed=True))
    if finding.value is None:
        return shapes
    at = scale.at(finding.value)
    if finding.low is not None and finding.high is not None:
        ends = scale.at(finding.low), scale.at(finding.high)
        shapes.append(path([(ends[0], AXIS), (ends[1], AXIS)], "pic-thick"))
        shapes += [path([(end, AXIS - 7), (end, AXIS + 7)], "pic-thick") for end in ends]
    shapes.append(disc((at, AXIS), 4.6, "pic-solid"))
    text = show(Amount(finding.value, finding.dimension), units)
    shapes.append(words((_inside(at, text), AXIS - 22), text, "pic-figure", anchor="middle", size=13))
    return shapes


def _inside(at: float, text: str) -> float:
    half = width_of(text, 13, bold=True) / 2
    return min(max(at, LEFT + half), RIGHT - half)


def _notes(finding: Finding, scale: _Scale, units: UnitChoice) -> list[tuple[float, str, str]]:
    notes = []
    band = [size for size in (finding.target_low, finding.target_high) if size is not None]
    if band:
        text = "target " + show_interval(finding.target_low, finding.target_high, finding.dimension, units)
        middle = scale.at(sum(band) / len(band))
        notes.append((middle, text, "pic-note"))
    if finding.limit is not None:
        notes.append((scale.at(finding.limit), "limit " + show(Amount(finding.limit, finding.dimension), units), "pic-warn"))
    if finding.as_fitted is not None:
        notes.append(
            (scale.at(finding.as_fitted), "as fitted " + show(Amount(finding.as_fitted, finding.dimension), units), "pic-ask")
        )
    return notes


def _below(notes: list[tuple[float, str, str]]) -> list[str]:
    """Notes under the axis, each in the first line where it touches no other."""
    lines: list[list[tuple[float, float]]] = []
    shapes = []
    for at, text, kind in sorted(notes):
        half = width_of(text, 12, bold=kind != "pic-note") / 2
        middle = min(max(at, LEFT + half), RIGHT - half)
        line = next(
            (n for n, taken in enumerate(lines) if all(middle - half > end or middle + half < start for start, end in taken)),
            len(lines),
        )
        if line == len(lines):
            lines.append([])
        lines[line].append((middle - half - 6, middle + half + 6))
        at_point: Point = (middle, AXIS + 32 + 15 * line)
        shapes.append(words(at_point, text, kind, anchor="middle", size=12))
    return shapes


def _spoken(finding: Finding, units: UnitChoice) -> str:
    found = "not measured" if finding.value is None else "found " + show(Amount(finding.value, finding.dimension), units)
    limit = "" if finding.limit is None else f", limit {show(Amount(finding.limit, finding.dimension), units)}"
    return found + limit
