"""A step of work on the plan: at the bench or at a shop, with what it waits for."""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.engine.caution import Caution
from gudgeon.engine.origin import Range


@dataclass(frozen=True, slots=True, kw_only=True)
class StepDraft:
    """A step as a system proposes it.

    Attributes
    ----------
    key : unique in the plan ("cylinders/bore").
    hours : own work at the bench [h], or None for none.
    shop : the priced item whose wait this step takes ("bore a cylinder"), or "" for own work.
    after : keys of steps that must be finished first; unknown keys are reported, not ignored.
    hold : a hold point: a reading or a witness is wanted before what comes after may cover it.
    may_fail : chance that the step must be repeated, or None.
    """

    key: str
    title: str
    system: str
    hours: Range | None = None
    shop: str = ""
    after: tuple[str, ...] = ()
    hold: str = ""
    may_fail: Range | None = None
    cautions: tuple[Caution, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class StepDone:
    """The owner says that a step is finished, and when."""

    key: str
    on: str
    person: str
    note: str = ""
