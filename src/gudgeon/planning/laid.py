"""The plan laid out for simulation: what the forecast works on and the questions are ranked by."""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.engine.step import StepDraft
from gudgeon.planning.durations import Floats
from gudgeon.planning.simulate import BenchPlan
from gudgeon.planning.standing import Standing


@dataclass(frozen=True, kw_only=True)
class Laid:
    """The plan laid out for simulation; rows by place in the network.

    Attributes
    ----------
    hours, waits : draws of own work [h] and waits [day by the shop's calendar], shape (runs, steps); unknown ones are 0.
    likely_hours, likely_waits : the likely values, shape (1, steps).
    unknown : places of steps with an unknown wait.
    hours_known : were the owner's hours given; if not, own work is counted as nothing.
    """

    plan: BenchPlan
    drafts: tuple[StepDraft, ...]
    standing: tuple[Standing, ...]
    hours: Floats
    waits: Floats
    likely_hours: Floats
    likely_waits: Floats
    unknown: tuple[int, ...]
    hours_known: bool
    order_words: str = ""
