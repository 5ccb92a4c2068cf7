"""Whether the figures of farm and stationary engines apply or those of cars; they differ two to four times.

Shared by systems; it knows none of them.
"""

from __future__ import annotations

from typing import Literal

from gudgeon.engine.outline import Outline

Engines = Literal["slow", "fast", "unknown"]
_SLOW_WORDS = ("stationary", "horizontal gas engine", "tractor", "farm", "hit-and-miss", "unmarked stover")
_ANY_WORDS = ("where nothing is known",)
_SLOW_FUELS = ("kerosene", "paraffin", "gas oil", "natural gas", "town gas", "coal gas", "crude")


def which_engines(outline: Outline) -> tuple[Engines, str]:
    """Which figures apply and why: by rated speed (600 rev/min and under slow, 900 and over fast), else by the fuel."""
    if outline.rated_speed is not None:
        if outline.rated_speed <= 600:
            return "slow", f"rated at {outline.rated_speed:.0f} rev/min, it is a slow engine: stationary and farm figures apply"
        if outline.rated_speed >= 900:
            return "fast", f"rated at {outline.rated_speed:.0f} rev/min, it is a fast engine: car figures apply"
        return "unknown", f"at {outline.rated_speed:.0f} rev/min it stands between farm engines and cars: both are shown"
    if any(word in outline.fuel.lower() for word in _SLOW_FUELS):
        fuel = outline.fuel.replace("{", "(").replace("}", ")")
        return "slow", f"its speed is not known; burning {fuel} it is taken as a stationary engine"
    return "unknown", "its rated speed is not known, so whether farm or car figures apply cannot be told"


def engines_of(applies: str) -> Engines:
    """Which engines a rule was written for, by the words of its field of use."""
    words = applies.lower()
    if any(word in words for word in _ANY_WORDS):
        return "unknown"
    return "slow" if any(word in words for word in _SLOW_WORDS) else "fast"
