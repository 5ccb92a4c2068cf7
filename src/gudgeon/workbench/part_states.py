"""The state of each part in words, for page and paper: from orders out, verdicts, findings, in that order."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from gudgeon.engine.finding import Finding
from gudgeon.engine.verdict import Verdict
from gudgeon.pictures import PartState, engine_section, place_of
from gudgeon.workbench.job import Job

WITHIN = "measured, inside its limits"
NOT_MEASURED = "not measured"
INFORMATION = "measured"
PAST = "{quantity}: past its limit"
DOUBTFUL = "{quantity}: can’t tell yet"
MORE = "{first}, and {count} more"
SETTLED = "{action}: settled"
AT_SHOP = "{action}: at {shop}"
_BACK = ("returned", "accepted", "accepted with a concession", "withdrawn", "sent back")


@dataclass(frozen=True, slots=True, kw_only=True)
class StateOfPart:
    """What to say of one place in the picture, and what it is about: a finding's item, a verdict's system, an order."""

    words: str
    tint: Literal["", "blue", "red"] = ""
    about: Literal["findings", "verdict", "order"]
    system: str
    item: str = ""
    order: str = ""


def part_states(job: Job) -> Mapping[str, StateOfPart]:
    """The state of every part in the picture, by place."""
    snapshot, reckoning = job.snapshot(), job.reckoning()
    found: dict[str, list[Finding]] = {}
    for finding in reckoning.findings:
        if place := place_of(finding.part, finding.item):
            found.setdefault(place, []).append(finding)
    states = {place: _from_findings(findings) for place, findings in found.items()}
    for verdict in snapshot.verdicts:
        state = StateOfPart(words=SETTLED.format(action=verdict.chosen.action), about="verdict", system=verdict.chosen.system)
        states |= dict.fromkeys(_places(verdict), state)
    verdicts = {verdict.id: verdict for verdict in snapshot.verdicts}
    for order in snapshot.orders:
        if order.state in _BACK:
            continue
        verdict_ = verdicts.get(order.draft.verdict)
        action = verdict_.chosen.action if verdict_ else order.draft.title
        state = StateOfPart(
            words=AT_SHOP.format(action=action, shop=order.shop),
            tint="blue",
            about="order",
            system=order.draft.system,
            order=order.id,
        )
        states |= {place_of(asked.part, asked.item): state for asked in order.draft.asked}
    states.pop("", None)
    return states


def engine_picture(job: Job) -> str:
    """The engine's section with the state of each part, as SVG for paper."""
    states = {place: PartState(state.words, state.tint) for place, state in part_states(job).items()}
    return engine_section(job.snapshot().outline, states)


def _places(verdict: Verdict) -> set[str]:
    parts = {finding.item: finding.part for finding in verdict.findings}
    return {place_of(parts[item], item) for item in verdict.chosen.items if item in parts}


def _from_findings(findings: list[Finding]) -> StateOfPart:
    system, item = findings[0].system, findings[0].item
    past = _quantities(findings, "past")
    doubtful = [quantity for quantity in _quantities(findings, "doubtful") if quantity not in past]
    if past:
        return StateOfPart(words=_first(PAST, past), tint="red", about="findings", system=system, item=item)
    if doubtful:
        return StateOfPart(words=_first(DOUBTFUL, doubtful), tint="blue", about="findings", system=system, item=item)
    measured = any(finding.value is not None for finding in findings)
    words = WITHIN if _quantities(findings, "within") else INFORMATION if measured else NOT_MEASURED
    return StateOfPart(words=words, about="findings", system=system, item=item)


def _quantities(findings: list[Finding], standing: str) -> list[str]:
    return list(dict.fromkeys(finding.quantity for finding in findings if finding.standing == standing))


def _first(form: str, quantities: list[str]) -> str:
    first = form.format(quantity=quantities[0])
    return first if len(quantities) == 1 else MORE.format(first=first, count=len(quantities) - 1)
