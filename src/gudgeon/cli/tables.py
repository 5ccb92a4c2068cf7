"""Answers as text for a terminal. No arithmetic: numbers arrive ready and leave as text in the reader's units."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from gudgeon.engine.finding import Finding
from gudgeon.engine.order import OrderDraft
from gudgeon.engine.origin import Origin, Range
from gudgeon.engine.reckoning import Reckoning
from gudgeon.engine.remedy import Remedy
from gudgeon.engine.snapshot import Aims, Snapshot
from gudgeon.engine.specification import Specification
from gudgeon.engine.system import System
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Amount, UnitChoice, say, show

if TYPE_CHECKING:
    from gudgeon.planning import Forecast
    from gudgeon.workbench import Inspection, Plan

WIDTH = 110


def columns(rows: Iterable[Sequence[str]], head: Sequence[str]) -> str:
    """A table with columns just wide enough; the last one wraps."""
    table = [list(head), *[list(row) for row in rows]]
    widths = [max(len(row[place]) for row in table) for place in range(len(head) - 1)]
    room = max(WIDTH - sum(widths) - 2 * len(widths), 30)
    lines = []
    for number, row in enumerate(table):
        wrapped = textwrap.wrap(row[-1], room) or [""]
        fixed = "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=False))
        lines.append(f"{fixed}  {wrapped[0]}".rstrip())
        lines += [" " * (len(fixed) + 2) + more for more in wrapped[1:]]
        if number == 0:
            lines.append("-" * min(WIDTH, max(map(len, lines))))
    return "\n".join(lines)


def _size(value: float | None, dimension: str, units: UnitChoice) -> str:
    """A size to its tenths: a bore is read to them, and a gap under a sixteenth shows them anyway."""
    large = dimension == "length" and value is not None and abs(value) > 0.0016
    return "-" if value is None else show(Amount(value, dimension, fine=large), units)


def _between(low: float | None, high: float | None, dimension: str, units: UnitChoice) -> str:
    if low is None and high is None:
        return "-"
    if low is None:
        return f"to {_size(high, dimension, units)}"
    if high is None:
        return f"from {_size(low, dimension, units)}"
    return f"{_size(low, dimension, units)} to {_size(high, dimension, units)}"


def _range(value: Range | None) -> str:
    return "not known" if value is None else f"{value.likely:,.0f} ({value.low:,.0f} to {value.high:,.0f})"


def _source(origin: Origin | None) -> str:
    return "" if origin is None else f"{origin.source} [{origin.grade}]"


def reckoning(snapshot: Snapshot, answer: Reckoning, system: str, units: UnitChoice) -> str:
    """Doubtful readings, findings, manual and remarks as text."""
    parts: list[str] = []
    rows: list[tuple[str, ...]]
    if answer.doubts and not system:
        rows = [(str(doubt.reading.row or doubt.reading.id), doubt.reading.typed, doubt.sentence) for doubt in answer.doubts]
        parts.append("DOUBTFUL READINGS, kept as typed\n" + columns(rows, ("row", "typed", "asked")))
    findings = [finding for finding in answer.findings if system in ("", finding.system)]
    if findings:
        parts.append("FINDINGS (in brackets: 90 in 100)\n" + "\n".join(_findings(findings, units)))
    if answer.specifications and not system:
        rows = [_manual(spec, units) for spec in answer.specifications.values()]
        parts.append("THE ENGINE'S OWN MANUAL: sizes when new\n" + columns(rows, _MANUAL))
    if answer.unknown and not system:
        names = ", ".join(sorted({f"{key.part} {key.feature}" for key in answer.unknown}))
        parts.append("Kept and estimated, but described by no system yet: " + names + ".")
    if snapshot.refused and not system:
        rows = [(str(row.row), row.source, row.reason) for row in snapshot.refused]
        parts.append("REFUSED LINES, to be mended\n" + columns(rows, ("row", "file", "why")))
    parts += [f"Note: {remark}" for remark in answer.remarks]
    return "\n\n".join(parts) if parts else "No readings yet; `gudgeon sheet` prints a bench sheet to take them on."


_MANUAL = ("instance", "feature", "size", "this one, when new", "sure", "grade", "next likeliest")


def _findings(findings: Sequence[Finding], units: UnitChoice) -> Iterator[str]:
    """One paragraph for each quantity of an instance; the authorities on its limit stand under it, side by side."""
    groups: dict[tuple[str, str], list[Finding]] = {}
    for finding in findings:
        groups.setdefault((finding.item, finding.quantity), []).append(finding)
    for (item, quantity), group in groups.items():
        first = group[0]
        found = "not measured" if first.standing == "not measured" else "in words"
        if first.value is not None:
            between = _between(first.low, first.high, first.dimension, units)
            found = f"{_size(first.value, first.dimension, units)} ({between})"
        yield f"{item}, {quantity}: {found}"
        if says := say(first.sentence, units) or first.settle:
            yield textwrap.fill(says, WIDTH, initial_indent="    ", subsequent_indent="    ")
        yield from (_limit(finding, units) for finding in group if finding.limit is not None)
        if first.target_low is not None or first.target_high is not None:
            target = _between(first.target_low, first.target_high, first.dimension, units)
            yield f"    target {target}  {_source(first.target_origin)}".rstrip()


def _limit(finding: Finding, units: UnitChoice) -> str:
    chance = finding.chance_past_limit
    odds = "" if chance is None else f" ({show(Amount(chance, 'probability'), units)} past it)"
    limit = f"at {finding.limit_is} {_size(finding.limit, finding.dimension, units)}"
    return f"    {finding.standing}: {limit}{odds}  {_source(finding.limit_origin)}".rstrip()


def _manual(spec: Specification, units: UnitChoice) -> tuple[str, ...]:
    others = "; ".join(
        f"{other.written} {other.rework} {other.probability:.0%}".replace("  ", " ") for other in spec.runners_up[:2]
    )
    size = _size(spec.nominal, spec.dimension, units)
    written = f" ({spec.written})" if spec.written and spec.written not in size else ""
    return (
        spec.key.item,
        spec.key.feature,
        f"{size}{written} {spec.rework}".rstrip(),
        _between(spec.low, spec.high, spec.dimension, units),
        "-" if spec.nominal is None else f"{spec.probability:.0%}",
        spec.origin.grade,
        others or spec.settle,
    )


def described(system: System, units: UnitChoice) -> str:
    """What a system says of itself: parts, features as the CSV names them, fits with their rules and sources, cautions."""
    features = [
        (
            feature.part,
            feature.name,
            "words" if feature.dimension == "words" else feature.unit,
            ", ".join(level.name for level in feature.levels) or "-",
            ", ".join(f"{direction:g}" for direction in feature.directions) or "-",
            ", ".join(feature.gauges) or "-",
            feature.how,
        )
        for feature in system.features
    ]
    head = ("part", "feature", "unit", "station", "direction", "gauges", "how")
    parts = [f"{system.title} ({system.key})", textwrap.fill(system.introduction, WIDTH), _listed(features, head)]
    for fit in system.fits:
        rules = [(rule.purpose, _between(*rule.at(0.1), "length", units), rule.when, str(rule.origin)) for rule in fit.rules]
        size = _size(0.1, "length", units)
        parts.append(f"{fit.name}, for a size of {size}\n" + columns(rules, ("purpose", "band", "when", "origin")))
    parts += [f"caution, {caution.hazard}: {caution.say} ({caution.source})" for caution in system.cautions]
    return "\n\n".join(part for part in parts if part)


def _listed(rows: Sequence[Sequence[str]], head: Sequence[str]) -> str:
    """One row a paragraph, for rows too wide for a table; what is "-" is left out."""
    paragraphs = []
    for row in rows:
        first = f"{row[0]} / {row[1]}"
        rest = [f"    {name}: {cell}" for name, cell in zip(head[2:], row[2:], strict=True) if cell not in ("-", "")]
        wrapped = [textwrap.fill(line, WIDTH, subsequent_indent="        ") for line in rest]
        paragraphs.append("\n".join([first, *wrapped]))
    return "\n".join(paragraphs)


def remedies(answer: Reckoning, snapshot: Snapshot, units: UnitChoice) -> str:
    """What could be done, subject by subject, the recommended first."""
    if not answer.remedies:
        return "Nothing to decide yet; take readings first."
    parts = []
    for subject in dict.fromkeys(remedy.subject for remedy in answer.remedies):
        group = {remedy.key: remedy for remedy in answer.remedies if remedy.subject == subject}
        advised = next((advice for advice in answer.advice if advice.subject == subject), None)
        order = [key for key in (advised.ranked if advised else ()) if key in group]
        order += [key for key in group if key not in order]
        head = f"{subject.upper()}" + (f"  (settled: {v.remedy})" if (v := snapshot.verdict_on(subject)) else "")
        parts.append(head + "\n" + columns([_remedy(group[key], units) for key in order], _REMEDY))
        if advised:
            parts += ["  " + say(reason, units) for reason in advised.reasons]
            if advised.second_would_win:
                parts.append("  " + say(advised.second_would_win, units))
            for reading in advised.next_readings:
                parts.append(f"  measure next: {reading.item} {reading.feature}: {reading.why}")
    return "\n".join(parts)


_REMEDY = ("remedy", "what", "possible", "cost", "wait, days", "service", "metal", "needs first")


def _remedy(remedy: Remedy, units: UnitChoice) -> tuple[str, ...]:
    needs = "; ".join(need.what for need in remedy.needs if not need.met) or "nothing"
    return (
        remedy.key,
        textwrap.shorten(say(remedy.title, units), 44),
        "yes" if remedy.possible else "no",
        _range(remedy.cost),
        _range(remedy.wait_days),
        f"{remedy.merit:.2f}",
        remedy.intervention,
        needs if remedy.possible else remedy.why_not,
    )


def remedies_plain(answer: Reckoning, units: UnitChoice) -> list[dict[str, Any]]:
    """The remedies as JSON data."""
    ranks = {key: rank for advice in answer.advice for rank, key in enumerate(advice.ranked, 1)}
    return [
        {
            "key": remedy.key,
            "subject": remedy.subject,
            "title": say(remedy.title, units),
            "action": remedy.action,
            "rank": ranks.get(remedy.key),
            "possible": remedy.possible,
            "why_not": remedy.why_not,
            "cost": _range_plain(remedy.cost),
            "wait_days": _range_plain(remedy.wait_days),
            "unpriced": list(remedy.unpriced),
            "merit": remedy.merit,
            "intervention": remedy.intervention,
            "original": remedy.original,
            "needs": [{"what": need.what, "met": need.met, "why": need.why} for need in remedy.needs],
        }
        for remedy in answer.remedies
    ]


def _range_plain(value: Range | None) -> dict[str, Any] | None:
    if value is None:
        return None
    return {"low": value.low, "likely": value.likely, "high": value.high, "origin": value.origin}


def verdict(decided: Verdict, units: UnitChoice) -> str:
    """A verdict in two lines."""
    return (
        f"{decided.subject}: {say(decided.chosen.title, units)}, because {decided.reason}.\n"
        f"Written down under {decided.person}, resting on {len(decided.readings)} readings; "
        f"{len(decided.rejected)} other possibilities kept beside it."
    )


def prices(names: Sequence[str], snapshot: Snapshot) -> str:
    """What is known of each priced thing."""
    rows = []
    for name in names:
        known = snapshot.prices.get(name)
        cost, wait = (known.cost, known.wait_days) if known else (None, None)
        origin = next((value.origin for value in (cost, wait) if value), "ask a shop")
        rows.append((name, _range(cost), _range(wait), known.shop if known else "", origin))
    return (
        columns(rows, ("thing", "cost of one", "wait, days", "shop", "whose figure")) if rows else "Nothing is asked for yet."
    )


def aims(wanted: Aims) -> str:
    """What the owner wants, in a few lines."""
    purse = "no limit said" if wanted.purse is None else f"{wanted.purse:,.0f} {wanted.currency}".rstrip()
    hours = "not said" if wanted.hours_a_week is None else f"{wanted.hours_a_week:g}"
    return "\n".join(
        (
            f"run by            {wanted.run_by or 'no date said'}",
            f"work starts       {wanted.start or 'today'}",
            f"purse             {purse}",
            f"hours a week      {hours}",
            f"by the date {wanted.by_the_date}, within the purse {wanted.within_the_purse}, "
            f"keep original {wanted.keep_original}, longest life {wanted.longest_life} (0 no matter, 3 most)",
        )
    )


def forecast(outlook: Forecast, plan: Plan, units: UnitChoice) -> str:
    """The forecast as text."""
    parts = [*outlook.sentences]
    if plan.assumed:
        titles = "; ".join(say(remedy.title, units) for remedy in plan.assumed)
        parts.append(f"Not settled yet, and planned as the remedy ranked first: {titles}.")
    rows = [
        (step.key, step.place, _dates(step.start), _dates(step.finish), step.state, ", ".join(step.waits_for) or "nothing")
        for step in outlook.steps
    ]
    if rows:
        parts.append(columns(rows, ("step", "where", "starts", "finished", "state", "waits for")))
    return "\n".join(parts)


def _dates(dates: Any) -> str:
    return "-" if dates is None else f"{dates.likely:%d %b %Y}"


def forecast_plain(outlook: Forecast) -> dict[str, Any]:
    """The forecast as JSON data."""
    from gudgeon.planning import plain_forecast

    return plain_forecast(outlook)


def orders(drafts: Sequence[OrderDraft], snapshot: Snapshot) -> str:
    """Orders that could go out, and those that did."""
    parts = []
    if drafts:
        rows = [
            (draft.key, draft.title, "held" if draft.held else "ready", "; ".join(need.what for need in draft.held) or "-")
            for draft in drafts
        ]
        parts.append(columns(rows, ("order", "title", "state", "waits for")))
    if snapshot.orders:
        parts.append(out(snapshot))
    return "\n\n".join(parts) or "No orders: they are drawn up from verdicts, and nothing is settled yet."


def order(draft: OrderDraft, units: UnitChoice) -> str:
    """One order in words."""
    lines = [draft.title, f"to: {draft.to}"]
    lines += [f"HELD, waits for: {need.what}. {need.why}".rstrip() for need in draft.held]
    lines += [f"{line.count} x {line.what}{f', {line.material}' if line.material else ''}" for line in draft.lines]
    lines += [
        f"  {asked.item} {asked.feature}: {_between(asked.lower, asked.upper, asked.dimension, units)} {asked.note}".rstrip()
        for asked in draft.asked
    ]
    lines += [f"leave alone: {words}" for words in draft.leave_alone]
    lines += [f"drawing {drawing.number}: {drawing.title}" for drawing in draft.drawings]
    lines += [f"caution: {caution.say}" for caution in draft.cautions]
    return "\n".join(lines)


def out(snapshot: Snapshot) -> str:
    """Orders that went out."""
    rows = [
        (order.draft.key, order.shop, order.at[:10], order.promised or "-", order.state, order.draft.title)
        for order in snapshot.orders
    ]
    return columns(rows, ("order", "shop", "sent", "promised", "state", "title")) if rows else "Nothing is out at a shop."


def inspection(found: Inspection, units: UnitChoice) -> str:
    """An order held against what came back."""
    rows = [
        (
            line.asked.item,
            line.asked.feature,
            _between(line.asked.lower, line.asked.upper, line.asked.dimension, units),
            _between(line.low, line.high, line.asked.dimension, units),
            line.outcome,
            line.sentence,
        )
        for line in found.lines
    ]
    head = f"{found.order.draft.title}, at {found.order.shop}: {found.order.state}"
    return head + "\n" + columns(rows, ("instance", "feature", "asked", "found", "outcome", "says"))
