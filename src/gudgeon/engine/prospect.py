"""What a further reading could show, and what each remedy would be worth then: the stuff that the next reading is chosen from.

A prospect is made of draws and lives only inside a reckoning; it is never kept in the history.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Draws = NDArray[np.float64]
Flags = NDArray[np.bool_]

CHANCE_NEEDED = 0.9
"""A remedy counts as possible while the chance that its hard limits are kept is at least this."""


@dataclass(frozen=True, kw_only=True)
class PossibleReading:
    """A reading that could still be taken.

    Attributes
    ----------
    would_show : draws of the size that it would be a reading of [SI].
    uncertainty : standard uncertainty of such a reading [SI].
    minutes : time that it takes at the bench, where it can be said.
    """

    part: str
    item: str
    feature: str
    would_show: Draws
    uncertainty: float
    why: str
    minutes: float | None = None


@dataclass(frozen=True, kw_only=True)
class Prospect:
    """The remedies of one subject, draw by draw.

    Attributes
    ----------
    worth : per remedy key, its merit in each draw (its mean is ``Remedy.merit``).
    allowed : per remedy key, whether its hard limits are kept in that draw; a remedy without an entry has none.
    readings : what could still be read.
    """

    subject: str
    worth: Mapping[str, Draws]
    allowed: Mapping[str, Flags] = field(default_factory=dict)
    readings: tuple[PossibleReading, ...] = ()
