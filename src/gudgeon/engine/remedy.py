"""A remedy: something that could be done, with what it gives, costs, takes, risks and needs."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from gudgeon.engine.caution import Caution
from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Range
from gudgeon.engine.step import StepDraft
from gudgeon.quantity import Said

Action = Literal["run on", "adjust", "make good", "remake", "buy in"]
Intervention = Literal["removable", "re-doable", "irreversible"]
NeedKind = Literal["reading", "decision", "work", "order"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """Something that must be known or done first. ``met`` is judged on the snapshot it was reckoned from."""

    kind: NeedKind
    what: str
    met: bool
    why: str = ""
    part: str = ""
    item: str = ""
    feature: str = ""


@dataclass(frozen=True, slots=True)
class Risk:
    """What can go wrong, how likely (0 to 1, with its origin), and what then."""

    what: str
    chance: Range
    then: str


@dataclass(frozen=True, slots=True)
class PricedItem:
    """So many of one thing that a price or a wait is asked for: ("bore a cylinder", 3). Names are shared across remedies."""

    name: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """One thing that could be done to a group of parts that are decided together.

    Attributes
    ----------
    key : stable identity, ``system/short-name[/size]``; a verdict names it.
    subject : the matter decided ("cylinders: bores"); remedies with one subject compete with each other.
    items : the instances it covers.
    parameters : sizes chosen [SI], by name; the order is drawn up from them.
    gives : expected findings afterwards, on the same draws as the findings before.
    priced : what has to be paid for; ``cost`` and ``wait_days`` are None until a price or quotation is known for each.
    merit : expected service afterwards, 0 (none) to 1 (as new), from the chances of ``gives`` being past their limits.
    """

    key: str
    system: str
    subject: str
    title: Said
    action: Action
    items: tuple[str, ...]
    intervention: Intervention
    original: str
    parameters: dict[str, float] = field(default_factory=dict)
    gives: tuple[Finding, ...] = ()
    priced: tuple[PricedItem, ...] = ()
    own_hours: Range | None = None
    cost: Range | None = None
    wait_days: Range | None = None
    unpriced: tuple[str, ...] = ()
    risks: tuple[Risk, ...] = ()
    needs: tuple[Need, ...] = ()
    steps: tuple[StepDraft, ...] = ()
    cautions: tuple[Caution, ...] = ()
    merit: float = 0.0
    for_it: tuple[Said, ...] = ()
    against_it: tuple[Said, ...] = ()
    possible: bool = True
    why_not: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """The reckoning's recommendation for one subject: the keys in order of preference, and why."""

    subject: str
    ranked: tuple[str, ...]
    scores: tuple[float, ...]
    reasons: tuple[Said, ...]
    second_would_win: Said
    next_readings: tuple[NextReading, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NextReading:
    """A further reading, and how far it could change the recommendation (0 to 1: chance that the choice changes)."""

    part: str
    item: str
    feature: str
    chance_of_change: float
    why: str
    minutes: float | None = None
