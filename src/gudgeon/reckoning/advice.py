"""Advice: which remedy fits the owner's aims best, what would change that, and which reading to take next.

Every remedy is scored from 0 to 1 on up to four terms, one for each of the owner's priorities, and the terms are weighed by
those priorities (0 to 3). What a remedy saves in money, time or original metal is credited only in so far as it can be
expected to serve: doing nothing is always cheapest, and has saved nothing when the engine does not run. A term counts only
where it is known of every remedy that it compares; otherwise it is left out for all of them, and the advice says so.
Remedies that break a hard limit are left out of the ranking, never off the page.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Range
from gudgeon.engine.prospect import Prospect
from gudgeon.engine.remedy import Advice, Intervention, Remedy
from gudgeon.engine.snapshot import Aims, Snapshot
from gudgeon.engine.system import System
from gudgeon.quantity import Said
from gudgeon.reckoning.next_reading import next_readings

ORIGINALITY: Mapping[Intervention, float] = {"removable": 1.0, "re-doable": 0.6, "irreversible": 0.2}
"""Score of the grades of intervention for keeping what is original. Chosen by us; the order is what matters."""

HIGHEST_PRIORITY = 3

TERMS: Mapping[str, str] = {
    "longest_life": "longest life",
    "keep_original": "keeping it original",
    "within_the_purse": "the purse",
    "by_the_date": "the date",
}


@dataclass(frozen=True, kw_only=True)
class Scored:
    """A remedy with its score on each term that counts, credited by its expected service, and their weighted mean.

    ``saved`` are the same scores before they are credited.
    """

    remedy: Remedy
    terms: Mapping[str, float]
    saved: Mapping[str, float]
    total: float


def advise(
    remedies: Sequence[Remedy], snapshot: Snapshot, bench: Bench | None, *, systems: Sequence[System] | None = None
) -> tuple[Advice, ...]:
    """One advice per subject, in the order in which the subjects come.

    Parameters
    ----------
    bench : the draws that the remedies were made on; without it no next reading is named.
    systems : those that made the remedies; all registered ones where None. Their prospects are what the next reading is
        chosen from.
    """
    subjects = tuple(dict.fromkeys(remedy.subject for remedy in remedies))
    prospects = _prospects(bench, systems)
    return tuple(
        _advise_on(subject, [each for each in remedies if each.subject == subject], snapshot.aims, prospects.get(subject))
        for subject in subjects
    )


def _prospects(bench: Bench | None, systems: Sequence[System] | None) -> dict[str, Prospect]:
    if bench is None:
        return {}
    if systems is None:
        from gudgeon.systems import ALL

        systems = ALL
    return {prospect.subject: prospect for system in systems for prospect in system.prospects(bench)}


def _advise_on(subject: str, remedies: Sequence[Remedy], aims: Aims, prospect: Prospect | None) -> Advice:
    possible = [remedy for remedy in remedies if remedy.possible]
    scored, left_out = scores(possible, aims)
    further = next_readings(prospect, gain=_gain(scores(remedies, aims)[0], aims)) if prospect else ()
    if not scored:
        why = tuple(Said(f"{remedy.title.text}: {remedy.why_not}", remedy.title.amounts) for remedy in remedies)
        reasons = (Said("None of these can be done as things stand."), *why)
        return Advice(subject=subject, ranked=(), scores=(), reasons=reasons, second_would_win=Said(""), next_readings=further)
    return Advice(
        subject=subject,
        ranked=tuple(each.remedy.key for each in scored),
        scores=tuple(each.total for each in scored),
        reasons=(*_reasons(scored), *left_out),
        second_would_win=_second_would_win(scored, aims) if len(scored) > 1 else Said("There is nothing else to choose from."),
        next_readings=further,
    )


def scores(remedies: Sequence[Remedy], aims: Aims) -> tuple[list[Scored], tuple[Said, ...]]:
    """Remedies with their scores, best first, and a sentence for every term that had to be left out.

    Where two score the same, the lighter intervention comes first, then the order in which they were given.
    """
    columns: dict[str, list[float]] = {
        "longest_life": [1.0 for _ in remedies],
        "keep_original": [1.0 if remedy.action == "run on" else ORIGINALITY[remedy.intervention] for remedy in remedies],
    }
    left_out = []
    for name, found in (("within_the_purse", _purse(remedies, aims)), ("by_the_date", _date(remedies, aims))):
        if isinstance(found, Said):
            left_out.append(found)
        else:
            columns[name] = found
    weights = {name: float(getattr(aims, name)) for name in columns}
    whole = sum(weights.values())
    scored = []
    for place, remedy in enumerate(remedies):
        saved = {name: column[place] for name, column in columns.items()}
        terms = {name: service(remedy) * score for name, score in saved.items()}
        total = sum(weights[name] * score for name, score in terms.items()) / whole if whole else service(remedy)
        scored.append(Scored(remedy=remedy, terms=terms, saved=saved, total=total))
    scored.sort(key=lambda each: (-round(each.total, 9), -ORIGINALITY[each.remedy.intervention]))
    return scored, tuple(left_out)


def service(remedy: Remedy) -> float:
    """Expected service, 0 to 1: the remedy's merit times the chance that none of its risks comes true.

    A risk that comes true is counted as if the service were lost: on the safe side, since what it then costs is not known.
    """
    return remedy.merit * soundness(remedy)


def soundness(remedy: Remedy) -> float:
    """The chance that none of a remedy's risks comes true, the risks taken as independent."""
    return math.prod(1.0 - min(risk.chance.likely, 1.0) for risk in remedy.risks)


def _purse(remedies: Sequence[Remedy], aims: Aims) -> list[float] | Said:
    """What is left of the purse, half, and the chance of staying within it, half; without a purse, beside the dearest."""
    costs = [_cost(remedy) for remedy in remedies]
    missing = list(
        dict.fromkeys(name for remedy, cost in zip(remedies, costs, strict=True) if cost is None for name in _unknown(remedy))
    )
    if missing:
        return Said(f"Money was left out of the comparison: no price is known yet for {_listed(missing)}.")
    known = [cost for cost in costs if cost is not None]
    dearest = max((cost.likely for cost in known), default=0.0)
    if aims.purse is None or aims.purse <= 0:
        return [1.0 - cost.likely / dearest if dearest else 1.0 for cost in known]
    return [_within(cost, aims.purse) for cost in known]


def _within(span: Range, bound: float) -> float:
    """Half for the share of a bound that is likely left, half for the chance of staying within it."""
    return 0.5 * max(0.0, 1.0 - span.likely / bound) + 0.5 * chance_below(span, bound)


def _date(remedies: Sequence[Remedy], aims: Aims) -> list[float] | Said:
    """What is left of the days to the date, half, and the chance of being done by it, half; without one, beside the slowest."""
    waits = [_days(remedy, aims) for remedy in remedies]
    missing = list(
        dict.fromkeys(name for remedy, wait in zip(remedies, waits, strict=True) if wait is None for name in _unknown(remedy))
    )
    if any(wait is None for wait in waits):
        of = f" for {_listed(missing)}" if missing else ""
        return Said(f"Time was left out of the comparison: no waiting time is known yet{of}.")
    known = [wait for wait in waits if wait is not None]
    slowest = max((wait.likely for wait in known), default=0.0)
    left = _days_left(aims)
    if left is None or left <= 0:
        return [1.0 - wait.likely / slowest if slowest else 1.0 for wait in known]
    return [_within(wait, left) for wait in known]


def _cost(remedy: Remedy) -> Range | None:
    return remedy.cost if remedy.priced else Range(0.0, 0.0, 0.0, "nothing is bought")


def _days(remedy: Remedy, aims: Aims) -> Range | None:
    """Wait at the shop and own hours at the owner's pace, one after the other [days]; None where a wait is unknown."""
    wait = remedy.wait_days if remedy.priced else Range(0.0, 0.0, 0.0, "nothing is sent out")
    if wait is None:
        return None
    if remedy.own_hours is None or not aims.hours_a_week:
        return wait
    days = 7.0 / aims.hours_a_week
    hours = remedy.own_hours
    return Range(wait.low + days * hours.low, wait.likely + days * hours.likely, wait.high + days * hours.high, wait.origin)


def _unknown(remedy: Remedy) -> tuple[str, ...]:
    return remedy.unpriced or tuple(item.name for item in remedy.priced)


def _days_left(aims: Aims) -> float | None:
    try:
        return float((date.fromisoformat(aims.run_by) - date.fromisoformat(aims.start)).days)
    except ValueError:
        return None


def chance_below(span: Range, bound: float) -> float:
    """Chance that something given as low, likely and high stays at or below a bound, taken as a triangular distribution.

    F(x) = (x-a)^2 / ((b-a)(c-a)) up to the likely value c, 1 - (b-x)^2 / ((b-a)(b-c)) beyond it (Evans, Hastings and Peacock,
    Statistical Distributions; from memory).
    """
    low, likely, high = span.low, span.likely, span.high
    if bound >= high:
        return 1.0
    if bound < low:
        return 0.0
    if bound < likely:
        return (bound - low) ** 2 / ((high - low) * (likely - low))
    return 1.0 - (high - bound) ** 2 / ((high - low) * (high - likely))


def _gain(scored: Sequence[Scored], aims: Aims) -> dict[str, float]:
    """Per remedy: what one unit of worth adds to its score."""
    result = {}
    for each in scored:
        weights = {name: float(getattr(aims, name)) for name in each.saved}
        whole = sum(weights.values())
        mean = sum(weights[name] * score for name, score in each.saved.items()) / whole if whole else 1.0
        result[each.remedy.key] = soundness(each.remedy) * mean
    return result


def _reasons(scored: Sequence[Scored]) -> tuple[Said, ...]:
    best = scored[0]
    head = f"{best.remedy.title.text} comes first with {best.total:.2f} of 1"
    if len(scored) == 1:
        return (Said(f"{head}; it is the only one that can be done.", best.remedy.title.amounts), *best.remedy.for_it)
    second = scored[1]
    better, worse = _edges(best, second), _edges(second, best)
    shift = len(best.remedy.title.amounts)
    other = _shifted(second.remedy.title, shift)
    text = f"{head}, {other.text} second with {second.total:.2f}."
    if better:
        text += f" The first is better for {_listed(better)}"
        text += f", the second for {_listed(worse)}." if worse else "."
    return (Said(text, (*best.remedy.title.amounts, *other.amounts)), *best.remedy.for_it)


def _edges(one: Scored, other: Scored) -> list[str]:
    """The terms on which one is plainly better than the other, in words."""
    own = {name: one.saved[name] for name in one.saved} | {"longest_life": service(one.remedy)}
    others = {name: other.saved[name] for name in other.saved} | {"longest_life": service(other.remedy)}
    return [TERMS[name] for name in own if own[name] > others[name] + 0.005]


def _second_would_win(scored: Sequence[Scored], aims: Aims) -> Said:
    """The smallest change of one priority that would put the second first; else the service that it would have to give."""
    best, second = scored[0], scored[1]
    amounts = second.remedy.title.amounts
    lead = sum(float(getattr(aims, name)) * (best.terms[name] - second.terms[name]) for name in best.terms)
    changes = []
    for name in best.terms:
        edge = best.terms[name] - second.terms[name]
        now = int(getattr(aims, name))
        if edge < 0 and (then := now + math.floor(lead / -edge) + 1) <= HIGHEST_PRIORITY:
            changes.append((then - now, f"{TERMS[name]} had a priority of {then} instead of {now}"))
        if edge > 0 and (then := now - math.floor(lead / edge) - 1) >= 0:
            changes.append((now - then, f"{TERMS[name]} had a priority of {then} instead of {now}"))
    if changes:
        return Said(f"{second.remedy.title.text} would come first if {min(changes)[1]}.", amounts)
    serves = service(second.remedy)
    if second.total > 0 and (needed := serves * best.total / second.total) <= 1.0:
        return Said(
            f"{second.remedy.title.text} would come first if its expected service were {needed:.3f} "
            f"instead of {serves:.3f}; no single priority changes the order.",
            amounts,
        )
    return Said(f"Nothing single would put {second.remedy.title.text} first.", amounts)


def _shifted(said: Said, by: int) -> Said:
    """The same sentence with its amounts counted from ``by``, to be joined to another one."""
    text = said.text
    for place in reversed(range(len(said.amounts))):
        text = text.replace(f"{{{place}}}", f"{{{place + by}}}")
    return Said(text, said.amounts)


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
