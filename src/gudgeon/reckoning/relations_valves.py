"""Valve timing as it is, and as it was: whether the whole of it stands a tooth out, and what each event was when new.

All angles in crank degrees. Events are given as after inner dead centre or after outer dead centre, negative before.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

# Usual timing of the time: middle and standard deviation of each event, in degree after the centre it is counted from. Drawn
# from the period's tables (stationary, farm and car engines, 1905 to 1935), wide enough to hold all of them.
USUAL: dict[str, tuple[float, float]] = {
    "inlet opens": (6.0, 9.0),
    "inlet closes": (30.0, 17.0),
    "exhaust opens": (-42.0, 11.0),
    "exhaust closes": (6.0, 6.0),
}
TEETH_OUT = {0: 0.88, 1: 0.05, -1: 0.05, 2: 0.01, -2: 0.01}
"""How often a cam gear is found so many teeth out after a century of other hands (common practice)."""
ALIKE = 4.0
"""Standard deviation of one event's drift by wear and lash [degree]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shift:
    """The cam stands so many teeth early (positive) against when new, worth so many crank degrees, with its probability."""

    teeth: int
    degrees: float
    probability: float


def degrees_per_tooth(*, cam_teeth: int, cycle: float = 720.0) -> float:
    """Crank degrees that one tooth of the cam gear is worth: 720 / N for a four-stroke engine."""
    return cycle / cam_teeth


def identify_shift(events: Mapping[str, float], *, uncertainty: float, cam_teeth: int) -> tuple[Shift, ...]:
    """How many teeth out the cam gear stands, by falling probability.

    ``events`` are those of ``USUAL`` that were read [degree after their centre]. The same shift moves all of them; the timing
    that is left must be one of the time.
    """
    each = degrees_per_tooth(cam_teeth=cam_teeth)
    logs: dict[int, float] = {}
    for teeth, share in TEETH_OUT.items():
        log = math.log(share)
        for name, value in events.items():
            middle, spread = USUAL[name]
            sigma = math.hypot(spread, ALIKE, uncertainty)
            log += -0.5 * ((value + teeth * each - middle) / sigma) ** 2
        logs[teeth] = log
    best = max(logs.values())
    total = math.fsum(math.exp(log - best) for log in logs.values())
    found = [Shift(teeth=teeth, degrees=teeth * each, probability=math.exp(log - best) / total) for teeth, log in logs.items()]
    return tuple(sorted(found, key=lambda shift: -shift.probability))


def open_for(*, opens: float, closes: float) -> float:
    """How long a valve stands open [crank degree], from opening and closing counted after the two centres in turn."""
    return 180.0 + closes - opens
