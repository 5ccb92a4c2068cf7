"""An amount on its way to a person: SI inside, inch or millimetre at the edge."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

UnitChoice = Literal["inch", "millimetre"]


@dataclass(frozen=True, slots=True)
class Amount:
    """A number with its dimension. ``fine`` asks for one more digit than usual (a standard uncertainty, a tenth)."""

    value: float
    dimension: str
    fine: bool = False


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence whose amounts are filled in when it is shown: ``{0}``, ``{1}`` ... stand for them.

    Sums, words and names are already part of ``text``; only amounts wait for the reader's units.
    """

    text: str
    amounts: tuple[Amount, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.text)
