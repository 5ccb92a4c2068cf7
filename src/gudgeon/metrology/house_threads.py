"""Threads that stand in no table: a round diameter with a pitch that the shop's lathe could cut.

Before standards were general a maker cut what suited him: 3/8 in with 18 to the inch, No. 12 screws, 7 and 9 mm bolts
(*Gas Engine Magazine*, "Why Some Bolts and Nuts Don't Fit", 1997, tells of house pitches). They are looked for last.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from gudgeon.handbook.sizes import written_fraction
from gudgeon.handbook.threads import Thread, all_threads

INCH = 0.0254
SERIES = "house thread"
PER_INCH = (4, 4.5, 5, 6, 7, 8, 9, 10, 11, 11.5, 12, 13, 14, 16, 18, 20, 22, 24, 26, 27, 28, 30, 32, 36, 40, 44, 48, 56)
"""Threads to the inch that change gears of the time gave."""
MILLIMETRES = (0.35, 0.4, 0.45, 0.5, 0.6, 0.7, 0.75, 0.8, 0.9, 1.0, 1.1, 1.2, 1.25, 1.4, 1.5, 1.75, 2.0, 2.5, 3.0)
STEEPEST, FINEST = 0.3, 0.02
"""Pitch as a share of the diameter: nothing steeper or finer holds."""


@cache
def house_threads() -> tuple[Thread, ...]:
    """Every round diameter to 2 in with every pitch that makes a screw of it, less those that a table has."""
    known = {(round(each.major * 1e6), round(each.pitch * 1e7)) for each in all_threads()}
    found = []
    for major, name, pitches in _diameters():
        for pitch, words in pitches:
            if FINEST * major < pitch < STEEPEST * major and (round(major * 1e6), round(pitch * 1e7)) not in known:
                found.append(_thread(major, pitch, f"{name}{words}"))
    return tuple(found)


def _diameters() -> list[tuple[float, str, list[tuple[float, str]]]]:
    inch = [(INCH / count, f"-{count:g}") for count in PER_INCH]
    metric = [(pitch * 1e-3, f" x {pitch:g}") for pitch in MILLIMETRES]
    numbered = [((0.060 + 0.013 * number) * INCH, f"No. {number}", inch) for number in range(2, 31, 1)]
    fractions = [(count / 32 * INCH, written_fraction(Fraction(count, 32)), inch) for count in range(3, 65)]
    return [*numbered, *fractions, *((size * 1e-3, f"M{size}", metric) for size in range(2, 51))]


def _thread(major: float, pitch: float, written: str) -> Thread:
    return Thread(
        series=SERIES,
        written=written,
        major=major,
        pitch=pitch,
        flank_angle=60.0,
        taper=0.0,
        tapping_drill=None,
        era="of the maker's own choice",
        source="a round diameter and a pitch that a lathe of the time cut; in no table",
        from_memory=True,
    )
