"""What a feature was when new: kept from a document, reconstructed from readings, or common practice."""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.engine.origin import Origin
from gudgeon.engine.place import FeatureKey


@dataclass(frozen=True, slots=True)
class Candidate:
    """One size the drawing may have called for: the size [SI], how it is written, rework since, probability."""

    nominal: float
    written: str
    rework: str
    probability: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Specification:
    """The reconstruction of one feature of one instance.

    Attributes
    ----------
    nominal : the size the drawing must have called for [SI]; None where the readings cannot tell.
    low, high : 90 % interval of what this instance measured when new, or when last bored or ground [SI].
    probability : of ``nominal``.
    rework : "" as made, or what has been done since ("bored +.020").
    runners_up : other candidates, likeliest first.
    evidence : sentences, each one piece of evidence and which way it pulls.
    conflict : where evidence disagrees (a plate against the readings), the sentence that says so.
    settle : the one reading that would most narrow this, in words.
    """

    key: FeatureKey
    dimension: str
    nominal: float | None
    low: float | None
    high: float | None
    probability: float
    origin: Origin
    written: str = ""
    rework: str = ""
    runners_up: tuple[Candidate, ...] = ()
    evidence: tuple[str, ...] = ()
    conflict: str = ""
    settle: str = ""
