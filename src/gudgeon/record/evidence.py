"""Words need evidence: what the job must hold before the record may say that a decision was carried out.

Rules of ours, after the word discipline of aircraft records (US 14 CFR 43.2, which ties "overhauled" to work that was done and
tested) and museum practice of writing down treatment with its date and its doer; no authority prescribes them for engines.
"""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.engine.remedy import Action
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.verdict import Verdict

DONE_WORDS: dict[Action, str] = {
    "run on": "run on",
    "adjust": "adjusted",
    "make good": "made good",
    "remake": "remade",
    "buy in": "bought in",
}


@dataclass(frozen=True, slots=True)
class Evidence:
    """What may be said of a verdict: the word, and what is missing before the stronger word may be used."""

    said: str
    missing: tuple[str, ...]

    @property
    def proved(self) -> bool:
        """True when nothing is missing."""
        return not self.missing


def evidence_for(verdict: Verdict, snapshot: Snapshot) -> Evidence:
    """The word that the job bears out, "decided: make good" until everything the word "made good" needs is there.

    Run on: every item measured against a limit, none past it or doubtful, and a picture. Adjusted: every step done and a
    reading as fitted of every item. Made good, remade, bought in: every order of the verdict accepted, every step of the
    remedy done, and a reading on return or as fitted of every item; remade and bought in need such an order.
    """
    action = verdict.chosen.action
    missing = _for_running_on(verdict, snapshot) if action == "run on" else _for_work(verdict, snapshot)
    said = DONE_WORDS[action] if not missing else f"decided: {action}"
    return Evidence(said, tuple(missing))


def _for_running_on(verdict: Verdict, snapshot: Snapshot) -> list[str]:
    missing = []
    measured = [finding for finding in verdict.findings if finding.value is not None and finding.limit is not None]
    for item in verdict.chosen.items:
        if not any(finding.item == item for finding in measured):
            missing.append(f"no reading of {item} against a limit")
    missing += [f"{f.item} {f.quantity} is past its limit" for f in measured if f.standing == "past"]
    missing += [f"{f.item} {f.quantity} is doubtful" for f in measured if f.standing == "doubtful"]
    seen = {note.item for note in snapshot.pictures} | {note.item for note in snapshot.parts if note.pictures}
    missing += [f"no picture of {item}" for item in verdict.chosen.items if item not in seen]
    return list(dict.fromkeys(missing))


def _for_work(verdict: Verdict, snapshot: Snapshot) -> list[str]:
    done = {step.key for step in snapshot.done}
    missing = [f"step not done: {step.title}" for step in verdict.chosen.steps if step.key not in done]
    orders = [order for order in snapshot.orders if order.draft.verdict in (verdict.id, verdict.subject, verdict.chosen.key)]
    standing = [order for order in orders if order.state not in ("withdrawn", "sent back")]
    missing += [
        f"order not accepted: {order.draft.title}"
        for order in standing
        if order.state not in ("accepted", "accepted with a concession")
    ]
    after = {key.item for key in (*snapshot.returned, *snapshot.fitted)}
    if verdict.chosen.action == "adjust":
        after = {key.item for key in snapshot.fitted}
    missing += [f"no reading of {item} afterwards" for item in verdict.chosen.items if item not in after]
    if verdict.chosen.action in ("remake", "buy in") and not standing:
        missing.append("no order or receipt")
    return missing
