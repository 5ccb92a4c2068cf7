"""Outwork: what a shop is asked for, and what came back."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from gudgeon.engine.caution import Caution
from gudgeon.engine.drawing import Drawing
from gudgeon.engine.remedy import Need


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedSize:
    """One size asked of the shop: lower and upper limit of size [SI], on which feature, in whose words."""

    part: str
    item: str
    feature: str
    dimension: str
    lower: float
    upper: float
    note: str = ""

    def __post_init__(self) -> None:
        if not self.lower <= self.upper:
            raise ValueError(
                f"{self.item} {self.feature}: the lower limit {self.lower} lies above the upper limit {self.upper}."
            )


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One line of an order: how many, of what, in which material, with its own words of description."""

    count: int
    what: str
    material: str = ""
    detail: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderDraft:
    """An order as a system draws it up from a verdict. It is held while any need is unmet, and says so."""

    key: str
    system: str
    verdict: str
    title: str
    to: str
    lines: tuple[OrderLine, ...]
    asked: tuple[AskedSize, ...]
    drawings: tuple[Drawing, ...] = ()
    leave_alone: tuple[str, ...] = ()
    needs: tuple[Need, ...] = ()
    rests_on: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    priced: str = ""

    @property
    def held(self) -> tuple[Need, ...]:
        """The needs that hold this order back; empty when it may go."""
        return tuple(need for need in self.needs if not need.met)


OrderState = Literal["sent", "promised", "returned", "accepted", "accepted with a concession", "sent back", "withdrawn"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """An order that went out: the draft as it stood, frozen, and what has happened to it since, newest last."""

    id: str
    draft: OrderDraft
    shop: str
    price: float | None
    promised: str
    person: str
    at: str
    overruled: str = ""
    events: tuple[OrderEvent, ...] = ()

    @property
    def state(self) -> OrderState:
        """The newest state."""
        return self.events[-1].state if self.events else "sent"


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderEvent:
    """Something that happened to an order."""

    state: OrderState
    on: str
    note: str
    person: str
    at: str


Outcome = Literal["accept", "accept with a concession", "send back", "can't tell yet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Inspected:
    """One asked size against what was read on return.

    ``outcome`` follows ISO 14253-1: conformity is proved only inside the tolerance reduced by the expanded uncertainty,
    non-conformity only outside it enlarged; between the two the reading cannot tell. ``value``, ``low`` and
    ``high`` are of the spot that decides [SI]; ``rule`` names the guard band taken.
    """

    asked: AskedSize
    value: float | None
    low: float | None
    high: float | None
    outcome: Outcome
    sentence: str
    readings: tuple[str, ...] = ()
    rule: str = ""
