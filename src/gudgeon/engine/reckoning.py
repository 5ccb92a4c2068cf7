"""The answer of a reckoning: estimates, specifications, findings, remedies and advice, made from one snapshot."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Picture
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reading import Doubt
from gudgeon.engine.remedy import Advice, Remedy
from gudgeon.engine.specification import Specification
from gudgeon.engine.step import StepDraft


@dataclass(frozen=True, kw_only=True)
class Reckoning:
    """A disposable cache outside the history: ``made_from`` is the digest of what it was made from.

    ``remarks`` are sentences about the readings as a whole: a missing direction, mixed units, a part that never matched.
    ``unknown`` lists features that no system describes; their readings are kept, estimated and shown all the same.
    """

    made_from: str
    estimates: Mapping[FeatureKey, tuple[Estimate, ...]]
    specifications: Mapping[FeatureKey, Specification]
    findings: tuple[Finding, ...]
    remedies: tuple[Remedy, ...]
    advice: tuple[Advice, ...]
    doubts: tuple[Doubt, ...]
    remarks: tuple[str, ...]
    unknown: tuple[FeatureKey, ...]
    pictures: tuple[tuple[str, Picture], ...]
    fit_up: tuple[StepDraft, ...] = ()
