"""A verdict: the owner's decision, with the findings that it rested on, frozen."""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.engine.finding import Finding
from gudgeon.engine.remedy import Remedy
from gudgeon.quantity import Said


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """One decision on one subject.

    Attributes
    ----------
    chosen : the remedy just as it stood when it was chosen; nothing later changes it.
    findings : the findings that it rested on, just as they stood.
    rejected : the alternatives that were on the table: key and title.
    readings : identities of the readings behind the findings.
    """

    id: str
    subject: str
    chosen: Remedy
    reason: str
    findings: tuple[Finding, ...] = ()
    rejected: tuple[tuple[str, Said], ...] = ()
    readings: tuple[str, ...] = ()
    person: str = ""
    at: str = ""
    supersedes: str = ""

    @property
    def remedy(self) -> str:
        """Key of the chosen remedy."""
        return self.chosen.key
