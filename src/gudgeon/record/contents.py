"""What the book is made of, and how each thing is put into words. Prepared data in, plain JSON data out; no page."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from gudgeon.engine.caution import Caution
from gudgeon.engine.estimate import Estimate
from gudgeon.engine.finding import Finding
from gudgeon.engine.history import Entry
from gudgeon.engine.order import Inspected, Order
from gudgeon.engine.origin import GRADE_WORDS, Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartNote
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reading import Reading
from gudgeon.engine.reckoning import Reckoning
from gudgeon.engine.sheet import Sheet
from gudgeon.engine.snapshot import PictureNote, Snapshot, natural
from gudgeon.engine.specification import Specification
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Amount, UnitChoice, say, show, show_interval
from gudgeon.record.evidence import evidence_for

UNKNOWN = "not known"


@dataclass(frozen=True, kw_only=True)
class Book:
    """Everything the printed record is set from; nothing in it is looked up later.

    Attributes
    ----------
    head : digest of the newest entry, 64 hexadecimal figures; "" prints as not sealed.
    titles : title of each system by its key, in the order of the chapters.
    svgs : drawings by name: "engine" for the engine's section, "key: caption" or "key/caption" for a system's chapter; any
        other name goes under "pictures". They carry their own styles.
    pictures : bytes of photos by digest; what the snapshot names and is not here is listed as missing.
    forecast, steps : the forecast's sentences; rows of the plan (step, when or what it waits for).
    sheets : the bench sheets, from which comes what was not examined.
    inspections : per order identity, what its sizes came to.
    history : the entries, for the list of who did what when.
    """

    outline: Outline
    snapshot: Snapshot
    reckoning: Reckoning | None = None
    head: str = ""
    units: UnitChoice = "inch"
    date: str = ""
    edition: str = ""
    titles: Mapping[str, str] = field(default_factory=dict)
    introductions: Mapping[str, str] = field(default_factory=dict)
    svgs: Mapping[str, str] = field(default_factory=dict)
    pictures: Mapping[str, bytes] = field(default_factory=dict)
    forecast: tuple[str, ...] = ()
    steps: tuple[tuple[str, str], ...] = ()
    cautions: tuple[Caution, ...] = ()
    sheets: tuple[Sheet, ...] = ()
    inspections: Mapping[str, tuple[Inspected, ...]] = field(default_factory=dict)
    history: tuple[Entry, ...] = ()


def parts_of(contents: Book) -> tuple[tuple[str, str], ...]:
    """Every part, with its kind, that anything was read, noted or found of, in natural order."""
    found = {(reading.place.part, reading.place.item) for reading in contents.snapshot.readings}
    found |= {(note.part, note.item) for note in contents.snapshot.parts}
    if contents.reckoning is not None:
        found |= {(finding.part, finding.item) for finding in contents.reckoning.findings}
    return tuple(sorted(found, key=lambda pair: (natural(pair[1]), pair[0])))


def in_groups(head: str) -> list[str]:
    """A digest in groups of eight, as it is read aloud and compared."""
    return [head[start : start + 8] for start in range(0, len(head), 8)]


OUTLINE_WORDS = {
    "maker": "maker",
    "place": "built at",
    "built": "built in",
    "serial": "number",
    "plate": "the plate says",
    "casting_numbers": "casting numbers",
    "power": "power",
    "cylinders": "cylinders",
    "casting": "cast",
    "head": "heads",
    "valves": "valves",
    "inlet": "inlet valves",
    "lie": "cylinders lie",
    "strokes": "strokes",
    "bore_typed": "bore, as stated",
    "stroke_typed": "stroke, as stated",
    "offset_typed": "offset of the cylinders, as stated",
    "rated_speed": "rated speed",
    "rotation": "turns",
    "main_bearings": "main bearings",
    "rings_per_piston": "rings to a piston",
    "bearings": "bearings",
    "oiling": "oiling",
    "cooling": "cooling",
    "ignition": "ignition",
    "governor": "governor",
    "fuel": "fuel",
    "flywheel": "flywheel",
    "notes": "notes",
}


def outline_rows(outline: Outline) -> list[tuple[str, str]]:
    """Every field of the outline with its words, "not known" where nothing was said."""
    rows = []
    for name, words in OUTLINE_WORDS.items():
        value = getattr(outline, name, None)
        text = UNKNOWN if value is None or value == "" else str(value)
        if name == "rated_speed" and value is not None:
            text = show(Amount(float(value), "speed rpm"), "inch")
        rows.append((words, text))
    return rows


def _band(low: float | None, high: float | None, dimension: str, units: UnitChoice, *, fine: bool = False) -> str:
    return "" if low is None and high is None else show_interval(low, high, dimension, units, fine=fine)


def _amount(value: float | None, dimension: str, units: UnitChoice, *, fine: bool = False) -> str:
    return "" if value is None else show(Amount(value, dimension, fine), units)


def _large(finding: Finding) -> bool:
    """A length that is a size and not a clearance: it is shown to a tenth of a thou, as it was read."""
    return finding.dimension == "length" and abs(finding.value or 0.0) > 0.0254 / 16


def origin_words(origin: Origin | None) -> str:
    """A source with its grade and what the grade means."""
    return "" if origin is None else str(origin)


def finding_rows(findings: Iterable[Finding], units: UnitChoice) -> list[dict[str, Any]]:
    """Lines of a found, target, limit and as-fitted table. What differs only by the authority on its limit is one line, with
    each authority's limit, standing and source under it: where authorities disagree, the disagreement shows."""
    rows: dict[tuple[str, ...], dict[str, Any]] = {}
    for finding in findings:
        row = _finding_row(finding, units)
        kept = rows.setdefault(tuple(str(value) for value in row.values()), {**row, "limits": []})
        kept["limits"].append(_limit_row(finding, units))
    return list(rows.values())


def _finding_row(finding: Finding, units: UnitChoice) -> dict[str, str]:
    sources = {"target": origin_words(finding.target_origin), "reckoned": finding.formula}
    return {
        "item": finding.item,
        "part": finding.part,
        "quantity": finding.quantity,
        "found": _amount(finding.value, finding.dimension, units, fine=_large(finding)),
        "interval": _band(finding.low, finding.high, finding.dimension, units, fine=_large(finding)),
        "target": _band(finding.target_low, finding.target_high, finding.dimension, units),
        "fitted": _amount(finding.as_fitted, finding.dimension, units),
        "sentence": say(finding.sentence, units) if finding.sentence else "",
        "settle": finding.settle,
        "sources": "; ".join(f"{name}: {words}" for name, words in sources.items() if words),
    }


def _limit_row(finding: Finding, units: UnitChoice) -> dict[str, str]:
    limit = _amount(finding.limit, finding.dimension, units)
    chance = finding.chance_past_limit
    return {
        "limit": limit and f"{'at most' if finding.limit_is == 'most' else 'at least'} {limit}",
        "standing": finding.standing,
        "chance": "" if chance is None else f"{show(Amount(chance, 'probability'), units)} past it",
        "source": origin_words(finding.limit_origin),
    }


def specification_row(spec: Specification, units: UnitChoice) -> dict[str, Any]:
    """One line of the engine's own manual: the size it was, how likely, on what grounds, and what would settle it."""
    runners = []
    for runner in spec.runners_up:
        if runner.probability >= 0.005:
            rework = f" ({runner.rework})" if runner.rework else ""
            runners.append(f"{runner.written}{rework}, {show(Amount(runner.probability, 'probability'), units)}")
    return {
        "item": spec.key.item,
        "part": spec.key.part,
        "feature": spec.key.feature,
        "written": spec.written or _amount(spec.nominal, spec.dimension, units) or "can't tell yet",
        "rework": spec.rework,
        "interval": _band(spec.low, spec.high, spec.dimension, units, fine=True),
        "probability": show(Amount(spec.probability, "probability"), units) if spec.nominal is not None else "",
        "grade": spec.origin.grade,
        "origin": str(spec.origin),
        "runners_up": "; ".join(runners),
        "evidence": list(dict.fromkeys(spec.evidence)),
        "conflict": spec.conflict,
        "settle": spec.settle,
    }


def part_row(note: PartNote) -> dict[str, Any]:
    """What was noted of a part, as (what, words) pairs; only what was said."""
    said = {
        "place": note.place,
        "which way round": note.orientation,
        "marks": note.marks,
        "condition": note.condition,
        "shims": note.shims,
        "runs with": note.mates,
        "stored": note.stored,
        "note": note.note,
    }
    return {
        "item": note.item,
        "part": note.part,
        "tag": "" if note.tag is None else str(note.tag),
        "said": [(name, words) for name, words in said.items() if words],
        "by": signed(note.person, note.at),
        "pictures": list(note.pictures),
    }


def signed(person: str, at: str) -> str:
    """Who and when, as every line of the record is signed."""
    return ", ".join(part for part in (person or "not signed", at[:10]) if part)


def verdict_row(verdict: Verdict, snapshot: Snapshot, units: UnitChoice) -> dict[str, Any]:
    """A decision with its reason, what was turned down, the findings frozen with it, and the word that it has earned."""
    evidence = evidence_for(verdict, snapshot)
    return {
        "subject": verdict.subject,
        "chosen": say(verdict.chosen.title, units),
        "items": list(verdict.chosen.items),
        "intervention": verdict.chosen.intervention,
        "original": verdict.chosen.original,
        "said": evidence.said,
        "proved": evidence.proved,
        "missing": list(evidence.missing),
        "reason": verdict.reason,
        "rejected": [say(title, units) for _, title in verdict.rejected],
        "findings": finding_rows(verdict.findings, units),
        "by": signed(verdict.person, verdict.at),
        "supersedes": verdict.supersedes,
    }


def order_row(order: Order, inspected: Sequence[Inspected], units: UnitChoice) -> dict[str, Any]:
    """An order: what was asked, what happened, and each size as it came back."""
    return {
        "title": order.draft.title,
        "shop": order.shop,
        "state": order.state,
        "lines": [f"{line.count} × {line.what}{f', {line.material}' if line.material else ''}" for line in order.draft.lines],
        "price": "" if order.price is None else show(Amount(order.price, "money"), units),
        "promised": order.promised,
        "overruled": order.overruled,
        "drawings": [f"{drawing.number} {drawing.title}" for drawing in order.draft.drawings],
        "events": [(event.on, event.state, event.note, signed(event.person, event.at)) for event in order.events],
        "asked": [
            {
                "what": f"{asked.item} {asked.feature}",
                "limits": show_interval(asked.lower, asked.upper, asked.dimension, units, fine=True),
                "note": asked.note,
            }
            for asked in order.draft.asked
        ],
        "inspected": [{"outcome": line.outcome, "sentence": line.sentence} for line in inspected],
        "by": signed(order.person, order.at),
    }


def reading_row(reading: Reading) -> tuple[str, ...]:
    """A reading as typed: row, part, feature, place, reading, gauge, remarks, who and when."""
    place = reading.place
    where = [place.station, "" if place.depth is None else f"{place.depth * 1000:.4g} mm down"]
    where.append("" if place.direction is None else f"{place.direction:g}°")
    typed = f"{reading.typed} {reading.unit}".strip() + (f" on {reading.base}" if reading.base else "")
    remarks = [reading.note, "" if reading.stage == "found" else reading.stage]
    remarks.append(f"{reading.temperature:g} °C" if reading.temperature is not None else "")
    remarks.append("confirmed" if reading.confirmed else "")
    gauge = reading.instrument.replace("_", " ") + (f", set to {reading.setting}" if reading.setting else "")
    return (
        "" if reading.row is None else str(reading.row),
        place.item,
        place.feature,
        ", ".join(filter(None, where)),
        typed,
        gauge,
        "; ".join(filter(None, remarks)),
        signed(reading.person, reading.at),
    )


def not_examined(contents: Book) -> list[tuple[str, str]]:
    """Features that a bench sheet asks for and nobody read, features that no system describes, findings without a value."""
    rows: dict[tuple[str, str], str] = {}
    for sheet in contents.sheets:
        for block in sheet.blocks:
            if not block.done and not block.others:
                rows.setdefault((block.item, block.feature.title or block.feature.name), "not examined")
    if contents.reckoning is not None:
        for finding in contents.reckoning.findings:
            if finding.standing == "not measured":
                rows.setdefault((finding.item, finding.quantity), finding.settle or "not measured")
        for key in contents.reckoning.unknown:
            rows[(key.item, key.feature)] = "read, but no rule here speaks of it"
    merged: dict[str, list[str]] = {}
    for (item, what), why in rows.items():
        merged.setdefault(item, []).append(what if why in ("not examined", "not measured") else f"{what} ({why})")
    return [(item, "; ".join(whats)) for item, whats in sorted(merged.items(), key=lambda pair: natural(pair[0]))]


def entry_row(entry: Entry) -> tuple[str, str, str, str, str]:
    """One line of the history: number, when, who, what, and the start of its digest."""
    return (str(entry.seq), entry.at[:16].replace("T", " "), entry.person, entry_words(entry), entry.digest[:12])


def entry_words(entry: Entry) -> str:
    """What an entry did, in a few words."""
    body = entry.body
    tell = _TELL.get(entry.kind)
    return tell(body) if tell else entry.kind


def _reading_words(body: Mapping[str, Any]) -> str:
    said = f"{body.get('item', '')} {body.get('feature', '')}: {body.get('reading', '')} {body.get('unit', '')}".strip()
    return f"corrected {said}" if body.get("supersedes") else f"read {said}"


def _refused_words(body: Mapping[str, Any]) -> str:
    if body.get("mended"):
        return "put a refused line right"
    return f"kept a line that was not understood, row {body.get('row', '')}: {body.get('reason', '')}"


def _event_words(body: Mapping[str, Any]) -> str:
    event = body.get("event", {})
    return f"order {event.get('state', '')} {event.get('on', '')}: {event.get('note', '')}".rstrip(": ")


_TELL: dict[str, Callable[[Mapping[str, Any]], str]] = {
    "job": lambda _: "started the job",
    "outline": lambda _: "changed the outline",
    "reading": _reading_words,
    "refused": _refused_words,
    "part": lambda body: f"noted {body.get('item', '')}",
    "picture": lambda body: f"kept a picture, {body.get('name', '')}",
    "verdict": lambda body: f"decided {body.get('subject', '')}: {body.get('reason', '')}",
    "price": lambda body: f"priced {body.get('name', '')}",
    "aims": lambda _: "set date, purse and aims",
    "order": lambda body: f"sent an order to {body.get('shop', '')}",
    "order-event": _event_words,
    "step": lambda body: f"added a step, {body.get('title', '')}",
    "done": lambda body: f"finished a step, {body.get('key', '')}, on {body.get('on', '')}",
}


def specifications(reckoning: Reckoning | None) -> Iterable[Specification]:
    """Specifications in the order of their parts."""
    if reckoning is None:
        return []
    return sorted(reckoning.specifications.values(), key=lambda spec: (spec.key.part, natural(spec.key.item), spec.key.feature))


def grades() -> list[tuple[str, str]]:
    """The grades of origin and what they mean."""
    return list(GRADE_WORDS.items())


def estimate_count(estimates: Mapping[FeatureKey, tuple[Estimate, ...]]) -> int:
    """How many spots were read."""
    return sum(len(spots) for spots in estimates.values())


def loose_pictures(contents: Book) -> list[PictureNote]:
    """Pictures that no part note names."""
    named = {digest for note in contents.snapshot.parts for digest in note.pictures}
    return [picture for picture in contents.snapshot.pictures if picture.digest not in named]
