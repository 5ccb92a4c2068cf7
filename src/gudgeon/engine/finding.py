"""A finding: one line of a reckoning. How far something has worn, against which limit, how sure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gudgeon.engine.origin import Origin
from gudgeon.quantity import Said

Standing = Literal["within", "doubtful", "past", "not measured", "for information"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Found, target, limit, as fitted; with the interval, the chance of being past the limit, and where all of it came from.

    Where authorities differ there is one finding per authority, alike but for ``limit`` and its origin.

    Attributes
    ----------
    value, low, high : found [SI], median and 90 % interval; None where not measured.
    target_low, target_high : band aimed at when new or made good [SI].
    limit : the size past which the part should not be run on [SI].
    limit_is : "most" (value must not exceed it) or "least" (must not fall below it).
    chance_past_limit : probability, None without limit or value.
    standing : a word for the page: within (chance under .05), doubtful, past (over .95), not measured, for information.
    sentence : what an experienced fitter would say.
    inputs : identities of the readings it rests on.
    formula : how it was computed, with the source.
    settle : the reading that would settle a doubtful or missing one.
    """

    system: str
    part: str
    item: str
    quantity: str
    dimension: str
    value: float | None = None
    low: float | None = None
    high: float | None = None
    target_low: float | None = None
    target_high: float | None = None
    target_origin: Origin | None = None
    limit: float | None = None
    limit_is: Literal["most", "least"] = "most"
    limit_origin: Origin | None = None
    chance_past_limit: float | None = None
    as_fitted: float | None = None
    standing: Standing = "for information"
    sentence: Said = Said("")
    inputs: tuple[str, ...] = ()
    formula: str = ""
    settle: str = ""

    @property
    def name(self) -> str:
        """Stable name of the line, used in addresses and in verdicts."""
        authority = f" [{self.limit_origin.source}]" if self.limit_origin else ""
        return f"{self.item} {self.quantity}{authority}"


def standing_of(chance: float | None) -> Standing:
    """The word for a chance of being past the limit: under 5 % within, over 95 % past, between doubtful."""
    if chance is None:
        return "for information"
    if chance < 0.05:
        return "within"
    return "past" if chance > 0.95 else "doubtful"
