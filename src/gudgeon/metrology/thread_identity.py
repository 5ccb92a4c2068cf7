"""Which standard thread a screw or hole was cut to, from its diameter, its pitch and, where it was tried, the flank angle."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.handbook.threads import Thread, threads
from gudgeon.metrology.house_threads import SERIES as HOUSE
from gudgeon.metrology.house_threads import house_threads

INCH = 0.0254
# How common a series was on engines of the time in the United States, relative; common practice, a starting value.
SERIES = {"USS / NC": 1.0, "SAE / NF": 0.7, "BSW": 0.35, "early USS": 0.1, "ASME machine screw": 0.3}
OTHER_SERIES = 0.15
HOUSE_SERIES = 0.004
"""Of any one thread that stands in no table; there are many."""
UNDER, UNDER_SPREAD = 0.003 * INCH, 0.0025 * INCH
"""A screw's outside stands below the nominal by its allowance and what has been rubbed off its crests (common practice)."""
PITCH_SPREAD = 0.004
"""Relative standard deviation of a shop-cut pitch over a few threads."""
FLANK_SPREAD = 1.5
"""Standard uncertainty of "this gauge fits" [degree]."""
NONE_FITS = 0.002
"""Chance, before any reading, that a thread is of no standard in the table, spread over 0.2 in of diameter and 40 pitches."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadCandidate:
    """A standard thread that the readings may be of, and its probability among all candidates and "none of these"."""

    thread: Thread
    probability: float


def identify_thread(
    *,
    outside: float,
    outside_uncertainty: float,
    pitch: float | None = None,
    pitch_uncertainty: float = 0.0,
    flank: float | None = None,
) -> tuple[ThreadCandidate, ...]:
    """Standard threads by falling probability.

    Parameters
    ----------
    outside, outside_uncertainty : over the crests of the screw [m].
    pitch, pitch_uncertainty : length of one pitch [m]; None where only the diameter was read.
    flank : included angle of the gauge that fits [degree]; None where none was tried.

    P(thread) is proportional to w(series) N(major - outside; 0.003 in, .) N(pitch) N(flank), to which a thread of no standard
    is added. Empty where nothing lies within 1/32 in of the diameter.
    """
    low, high = outside - INCH / 64, outside + INCH / 32
    near = (*threads(low=low, high=high), *(each for each in house_threads() if low <= each.major <= high))
    weighed = [(each, _weight(each, outside, outside_uncertainty, pitch, pitch_uncertainty, flank)) for each in near]
    none = NONE_FITS / (0.2 * INCH) * (1.0 if pitch is None else 1 / (0.1 * INCH))
    total = math.fsum(weight for _, weight in weighed) + none
    ranked = sorted(weighed, key=lambda pair: -pair[1])
    return tuple(ThreadCandidate(thread=each, probability=weight / total) for each, weight in ranked if weight / total > 0.002)


def _weight(each: Thread, outside: float, outside_u: float, pitch: float | None, pitch_u: float, flank: float | None) -> float:
    weight = HOUSE_SERIES if each.series == HOUSE else SERIES.get(each.series, OTHER_SERIES)
    weight *= _normal(each.major - outside - UNDER, math.hypot(outside_u, UNDER_SPREAD))
    if pitch is not None:
        weight *= _normal(each.pitch - pitch, math.hypot(pitch_u, PITCH_SPREAD * each.pitch))
    if flank is not None:
        weight *= math.exp(-0.5 * ((each.flank_angle - flank) / FLANK_SPREAD) ** 2)
    return weight


def _normal(away: float, sigma: float) -> float:
    return math.exp(-0.5 * min((away / sigma) ** 2, 1400.0)) / (sigma * math.sqrt(2 * math.pi))


def same_cut(candidates: Sequence[ThreadCandidate]) -> tuple[ThreadCandidate, ...]:
    """The candidates that share diameter and pitch with the likeliest: only the flank can tell them apart."""
    if not candidates:
        return ()
    first = candidates[0].thread
    return tuple(
        each
        for each in candidates
        if abs(each.thread.major - first.major) < 1e-6 and abs(each.thread.pitch / first.pitch - 1) < 1e-4
    )


def what_would_tell(candidates: Sequence[ThreadCandidate], *, pitch_read: bool, flank_read: bool) -> str:
    """The reading that would tell the likely candidates apart; "" where one stands alone."""
    likely = [each for each in candidates if each.probability > 0.03]
    if len(likely) < 2:
        return ""
    if not pitch_read:
        return "Lay a rule along it and read the length over ten pitches."
    angles = sorted({each.thread.flank_angle for each in likely})
    if len(angles) > 1 and not flank_read:
        said = ", ".join(f"{each.thread.flank_angle:g}° is {each.thread.series}" for each in likely[:3])
        return f"Try the flank with a thread gauge: {said}."
    return f"Try it with a known {likely[0].thread.written} and {likely[1].thread.written}."
