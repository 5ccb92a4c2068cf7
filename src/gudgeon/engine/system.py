"""What a system of an engine says of itself. From this description alone come sheet, pages, commands, docs and chapter."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from gudgeon.engine.origin import Origin
from gudgeon.engine.part import PartKind

if TYPE_CHECKING:
    from gudgeon.engine.bench import Bench
    from gudgeon.engine.caution import Caution
    from gudgeon.engine.finding import Finding
    from gudgeon.engine.order import OrderDraft
    from gudgeon.engine.picture import Picture
    from gudgeon.engine.prospect import Prospect
    from gudgeon.engine.remedy import Remedy
    from gudgeon.engine.step import StepDraft
    from gudgeon.engine.verdict import Verdict

Wear = Literal["adds", "takes", "either", "none"]
WearPlace = Literal["unworn", "little", "some", "most", "unknown"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """A level along a feature, as the sheet prints it.

    ``words`` are the other ways people write it, matched without regard to case in the station and the note.
    ``wear`` says how much of the feature's wear to expect there.
    """

    name: str
    wear: WearPlace = "unknown"
    words: tuple[str, ...] = ()
    hint: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Feature:
    """Something that can be measured on a kind of part.

    Attributes
    ----------
    wear : does wear add to the size (a hole), take from it (a shaft), either, or none.
    family : name of the size family in the handbook that its nominal came from; "" for a size with no standard.
    spread : standard deviation of manufacture of the time [SI], with its origin in ``spread_origin``.
    levels, directions : what the bench sheet asks for; directions in degree, 90 across the crank.
    gauges : fitting gauge kinds, best first.
    rework : how such a feature is re-sized ("bored over", "ground under", "bushed"), "" for never.
    aliases : other words people use for it.
    material : of the part at this feature, a name in the handbook's table of materials; "" takes the part kind's.
    of : words in the name of an instance that has this feature ("journal" in "cam journal 1"); none given takes all.
    sized : people write a size or an angle after the name ("force at 2.2500 in"): every such name is this feature.
    """

    part: str
    name: str
    title: str
    dimension: str = "length"
    unit: str = "in"
    wear: Wear = "none"
    family: str = ""
    spread: float | None = None
    spread_origin: Origin | None = None
    levels: tuple[Level, ...] = ()
    directions: tuple[float, ...] = ()
    gauges: tuple[str, ...] = ()
    rework: str = ""
    aliases: tuple[str, ...] = ()
    material: str = ""
    how: str = ""
    of: tuple[str, ...] = ()
    sized: bool = False

    def belongs_to(self, item: str) -> bool:
        """Has an instance of this name the feature?"""
        return not self.of or any(word in item.lower() for word in self.of)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A rule of practice: low and high of a fit as ``constant + per_size x size`` [SI], from one authority."""

    purpose: Literal["target", "limit"]
    low: float | None
    high: float | None
    low_per_size: float = 0.0
    high_per_size: float = 0.0
    origin: Origin
    when: str = ""

    def at(self, size: float) -> tuple[float | None, float | None]:
        """The band for a given size [SI]."""
        low = None if self.low is None else self.low + self.low_per_size * size
        high = None if self.high is None else self.high + self.high_per_size * size
        return low, high


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """Two features that run or hold together; ``hole`` and ``shaft`` are (part, feature), paired by instance number."""

    name: str
    hole: tuple[str, str]
    shaft: tuple[str, str]
    rules: tuple[Rule, ...]
    purpose: Literal["running", "holding"] = "running"


def _none(*_: object) -> tuple[()]:
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class System:
    """A system's description and its pure functions. ``wants`` names findings of other systems that it needs;
    ``prospects`` give the worth of its remedies draw by draw, from which the next reading is chosen."""

    key: str
    title: str
    introduction: str
    parts: tuple[PartKind, ...]
    features: tuple[Feature, ...]
    fits: tuple[Fit, ...] = ()
    wants: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    findings: Callable[[Bench], Sequence[Finding]] = _none
    remedies: Callable[[Bench], Sequence[Remedy]] = _none
    prospects: Callable[[Bench], Sequence[Prospect]] = _none
    orders: Callable[[Bench, Verdict], Sequence[OrderDraft]] = _none
    fit_up: Callable[[Bench], Sequence[StepDraft]] = _none
    pictures: Callable[[Bench], Sequence[tuple[str, Picture]]] = _none
    sources: tuple[str, ...] = field(default=())
