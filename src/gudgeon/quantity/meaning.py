"""The meaning of what a person typed, and the refusal when there is none."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class Understood:
    """What was understood.

    Attributes
    ----------
    kind : "point" (a size), "interval" (only bracketed), "not taken" ("not reached", "broken"), "words" ("tight").
    value : SI, of a point; the middle of an interval.
    low, high : SI; the bracket of an interval. One end may be missing ("over .010").
    dimension : "length", "angle", "pressure", ...
    step : the smallest step that the writing claims, SI (5.12, 5.120 and 5.1200 are three claims).
    words : the state or the feel, in the trade's words; of a crank angle, what it is counted from ("BBDC").
    echo : what was understood, for the person to see, in the units it was typed in.
    """

    kind: Literal["point", "interval", "not taken", "words"]
    dimension: str = ""
    value: float | None = None
    low: float | None = None
    high: float | None = None
    step: float | None = None
    words: str = ""
    echo: str = ""


class NotUnderstood(ValueError):
    """What was read, what is wrong with it, and what would be right; ``str()`` is the whole sentence."""

    def __init__(self, typed: str, wrong: str, right: str) -> None:
        self.typed, self.wrong, self.right = typed, wrong, right
        super().__init__(f"“{typed}” {wrong}; {right}.")


class Slip(Exception):
    """The same refusal while the text as typed is not at hand; `understand` turns it into NotUnderstood."""

    def __init__(self, wrong: str, right: str) -> None:
        self.wrong, self.right = wrong, right
        super().__init__(wrong)
