"""A reading: what a person typed at the bench, and what was understood by it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gudgeon.engine.place import FeatureKey, Place
from gudgeon.quantity import Understood

Stage = Literal["found", "returned", "fitted"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One reading, kept as typed.

    A reading is never changed. A newer one that names it in ``supersedes`` takes its place, and both are kept.

    Attributes
    ----------
    id : the entry's identity in the history, unique in the job.
    typed, unit, base : the person's own characters ("+3", "thou", "5 1/8").
    understood : the meaning of ``typed`` in SI.
    instrument, resolution, setting : gauge kind, its smallest step [SI] where stated, and what it was set to, as typed.
    temperature : of the part when read [degree C], or None.
    row : the row number in the file it came from, where it had one.
    confirmed : the person was asked about a doubtful value and stood by it.
    stage : "found" as the engine came apart, "returned" as it came back from a shop, "fitted" as it was put together. Only
        what was found says how far a part has worn; what was returned is held against the order.
    """

    id: str
    place: Place
    typed: str
    unit: str
    understood: Understood
    base: str = ""
    instrument: str = ""
    resolution: float | None = None
    setting: str = ""
    repeat: int | None = None
    temperature: float | None = None
    note: str = ""
    row: int | None = None
    source: str = ""
    person: str = ""
    at: str = ""
    supersedes: str = ""
    confirmed: bool = False
    stage: Stage = "found"

    @property
    def key(self) -> FeatureKey:
        """The feature that was read."""
        return self.place.key


@dataclass(frozen=True, slots=True, kw_only=True)
class RefusedRow:
    """A line of a file that could not be understood: kept whole, with the reason, to be mended and taken later."""

    id: str
    row: int
    line: str
    reason: str
    source: str = ""
    person: str = ""
    at: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """A reading that its neighbours make implausible, and the slip that would explain it.

    ``likely`` is the size that was probably meant [SI], or None where no slip explains it.
    """

    reading: Reading
    likely: float | None
    slip: str
    sentence: str
