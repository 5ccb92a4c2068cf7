"""A caution: where the work can hurt someone."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Caution:
    """A short hazard warning, shown on the step where it applies; ``source`` as for every other row of practice."""

    hazard: str
    say: str
    source: str
