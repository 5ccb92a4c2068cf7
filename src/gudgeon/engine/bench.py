"""What a system sees: a read-only snapshot with the estimates, specifications and draws that were made from it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.finding import Finding
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reading import Reading
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.specification import Specification

Draws = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Bench:
    """Everything a system may look at. Draws stand for the same thing wherever they are asked for, so that two findings
    or two remedies are compared on the same draws.

    Attributes
    ----------
    estimates : per feature, one estimate per spot that was read.
    specifications : per feature of an instance, what it was when new.
    count : number of draws.
    spot : draws of one estimate, corrected size [SI], shape (count,).
    original : draws of what an instance measured when new or last re-sized [SI], shape (count,), or None.
    named : draws of a standard normal variable under a name, for anything else that is uncertain.
    returned : like ``estimates``, of what came back from a shop: the finished sizes that rings and pistons wait for.
    fitted : like ``estimates``, as fitted.
    findings : those of the other systems that were asked for, by system key.
    """

    snapshot: Snapshot
    estimates: Mapping[FeatureKey, Sequence[Estimate]]
    specifications: Mapping[FeatureKey, Specification]
    count: int
    spot: Callable[[Estimate], Draws]
    original: Callable[[FeatureKey], Draws | None]
    named: Callable[[str], Draws]
    returned: Mapping[FeatureKey, Sequence[Estimate]] = field(default_factory=dict)
    fitted: Mapping[FeatureKey, Sequence[Estimate]] = field(default_factory=dict)
    findings: Mapping[str, Sequence[Finding]] = field(default_factory=dict)

    def items(self, part: str) -> tuple[str, ...]:
        """Instances of a kind of part that were read or noted, in natural order."""
        return self.snapshot.items(part)

    def readings(self, part: str, item: str, feature: str) -> tuple[Reading, ...]:
        """Current readings of one feature, taken or not ("not reached" is a reading too)."""
        return self.snapshot.readings_of(FeatureKey(part, item, feature))

    def estimate(self, part: str, item: str, feature: str) -> tuple[Estimate, ...]:
        """Estimates of one feature, one per spot."""
        return tuple(self.estimates.get(FeatureKey(part, item, feature), ()))

    def specification(self, part: str, item: str, feature: str) -> Specification | None:
        """What one feature was when new, if anything can be said."""
        return self.specifications.get(FeatureKey(part, item, feature))
