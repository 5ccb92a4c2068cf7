"""A system's findings: for each place of the engine what was found, the target, the limits, as fitted, and why."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup
from starlette.responses import Response

from gudgeon import workbench
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Strip
from gudgeon.engine.reading import Doubt, Reading
from gudgeon.engine.specification import Specification
from gudgeon.engine.system import System
from gudgeon.pictures import draw
from gudgeon.systems import ALL
from gudgeon.web import words
from gudgeon.web.addresses import anchor
from gudgeon.web.engine_page import bench_of, group_of
from gudgeon.web.frame import drawn, page
from gudgeon.web.visit import Visit, go

RANK = {"past": 0, "doubtful": 1, "not measured": 2, "within": 3, "for information": 4}


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitRow:
    """One authority's limit, and how the finding stands against it."""

    limit: str
    origin: str
    standing: str
    chance: str
    past: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class InputRow:
    """One reading that a number rests on."""

    place: str
    typed: str
    echo: str
    gauge: str
    who: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingRow:
    """One quantity with its four columns."""

    item: str
    quantity: str
    found: str
    interval: str
    target: str
    target_origin: str
    limit: str
    as_fitted: str
    standing: str
    tone: str
    sentence: str
    strip: Markup
    limits: tuple[LimitRow, ...]
    inputs: tuple[InputRow, ...]
    more_inputs: int
    formula: str
    settle: str
    settle_href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ManualRow:
    """One line of the reconstructed manual."""

    item: str
    feature: str
    nominal: str
    rework: str
    interval: str
    chance: str
    origin: str
    runners_up: tuple[str, ...]
    evidence: tuple[str, ...]
    conflict: str
    settle: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DoubtRow:
    """A reading that is asked about."""

    reading: str
    place: str
    typed: str
    likely: str
    sentence: str
    row: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """One place of the engine: a cylinder with its piston and rings."""

    anchor: str
    title: str
    worst: str
    tone: str
    rows: tuple[FindingRow, ...]
    manual: tuple[ManualRow, ...]
    pictures: tuple[tuple[str, Markup], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FindingsPage:
    """A system's page."""

    key: str
    title: str
    introduction: str
    groups: tuple[Group, ...]
    doubts: tuple[DoubtRow, ...]
    remarks: tuple[str, ...]
    unknown: tuple[str, ...]
    cautions: tuple[tuple[str, str], ...]
    remedies: str
    bench: str
    others: tuple[tuple[str, str], ...]


def show(visit: Visit) -> Response:
    """A system's findings."""
    system = system_of(visit)
    data = visit.jobs.kept(visit.name, ("findings", system.key, visit.person.units), lambda: _page(visit, system))
    return page(visit, "findings.html", data, sheet=system.title.lower(), here="findings")


def _page(visit: Visit, system: System) -> FindingsPage:
    reckoning = visit.job.reckoning()
    readings = {reading.id: reading for reading in visit.job.snapshot().readings}
    parts = {kind.kind for kind in system.parts}
    names = dict.fromkeys(group_of(finding.item) for finding in reckoning.findings if finding.system == system.key)
    groups = tuple(_group(visit, system, name, readings) for name in names)
    return FindingsPage(
        key=system.key,
        title=system.title,
        introduction=system.introduction,
        groups=groups,
        doubts=tuple(doubt_row(visit, doubt) for doubt in reckoning.doubts if doubt.reading.place.part in parts),
        remarks=reckoning.remarks,
        unknown=tuple(f"{key.item}, {key.feature}" for key in reckoning.unknown),
        cautions=tuple((caution.hazard, caution.say) for caution in system.cautions),
        remedies=visit.at.remedies(system.key),
        bench=visit.at.bench(system.key),
        others=tuple((other.title, visit.at.findings(other.key)) for other in ALL if other is not system),
    )


def system_of(visit: Visit) -> System:
    """The system that an address names; the first where it names none. Raises KeyError with a sentence."""
    key = visit.path("system")
    if not key:
        return ALL[0]
    found = next((system for system in ALL if system.key == key), None)
    if found is None:
        raise KeyError(words.NO_SYSTEM.format(key=key))
    return found


def _group(visit: Visit, system: System, name: str, readings: dict[str, Reading]) -> Group:
    reckoning = visit.job.reckoning()
    own = [finding for finding in reckoning.findings if finding.system == system.key and group_of(finding.item) == name]
    lines: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in own:
        lines.setdefault((finding.part, finding.item, finding.quantity), []).append(finding)
    ordered = sorted(lines.values(), key=lambda authorities: min(RANK[one.standing] for one in authorities))
    rows = [_row(visit, authorities, readings) for authorities in ordered]
    worst = min((finding.standing for finding in own), key=RANK.__getitem__)
    items = list(dict.fromkeys(finding.item for finding in own))
    specifications = [
        spec
        for key, spec in reckoning.specifications.items()
        if group_of(key.item) == name and any(key.part == kind.kind for kind in system.parts)
    ]
    pictures = [
        (picture_title, drawn(svg))
        for picture_title, picture in reckoning.pictures
        if not isinstance(picture, Strip)
        and group_of(picture_title) == name
        and (svg := draw(picture, units=visit.person.units))
    ]
    return Group(
        anchor=anchor(name),
        title=", ".join(items[:3]),
        worst=words.STANDING[worst],
        tone=_tone(worst),
        rows=tuple(rows),
        manual=tuple(_manual(visit, spec) for spec in specifications),
        pictures=tuple(pictures),
    )


def _tone(standing: str) -> str:
    return {"past": "red", "doubtful": "blue", "not measured": "red"}.get(standing, "")


def _row(visit: Visit, authorities: Sequence[Finding], readings: dict[str, Reading]) -> FindingRow:
    """One quantity; where authorities differ, their limits stand one under another and the strictest is drawn."""
    tell = visit.tell
    finding = min(authorities, key=lambda one: RANK[one.standing])
    inputs = [readings[identity] for identity in finding.inputs if identity in readings]
    return FindingRow(
        item=finding.item,
        quantity=finding.quantity,
        found=tell.found(finding),
        interval=tell.interval(finding.low, finding.high, finding.dimension),
        target=tell.interval(finding.target_low, finding.target_high, finding.dimension),
        target_origin=tell.origin(finding.target_origin),
        limit=tell.amount(finding.limit, finding.dimension),
        as_fitted=tell.amount(finding.as_fitted, finding.dimension),
        standing=words.STANDING[finding.standing],
        tone=_tone(finding.standing),
        sentence=tell.said(finding.sentence),
        strip=drawn(
            draw(Strip(finding=finding), units=visit.person.units)
            if finding.limit is not None and finding.value is not None
            else ""
        ),
        limits=tuple(_limit(visit, one) for one in authorities if one.limit is not None),
        inputs=tuple(_input(visit, reading) for reading in inputs[:12]),
        more_inputs=max(0, len(inputs) - 12),
        formula=finding.formula,
        settle=finding.settle,
        settle_href=bench_of(visit, finding.part, finding.item, "") if finding.settle else "",
    )


def _limit(visit: Visit, finding: Finding) -> LimitRow:
    least = "at least " if finding.limit_is == "least" else "at most "
    return LimitRow(
        limit=least + visit.tell.amount(finding.limit, finding.dimension),
        origin=visit.tell.origin(finding.limit_origin),
        standing=words.STANDING[finding.standing],
        chance=visit.tell.chance(finding.chance_past_limit),
        past=finding.standing == "past",
    )


def place_words(visit: Visit, reading: Reading) -> str:
    """Where a reading was taken, in words."""
    place = reading.place
    depth = f"{visit.tell.amount(place.depth, 'length')} down" if place.depth is not None else ""
    station = f"level {place.station}" if place.station.isdecimal() else place.station
    pieces = [place.item, place.feature, station, depth, visit.tell.direction(place.direction)]
    return ", ".join(piece for piece in pieces if piece)


def _input(visit: Visit, reading: Reading) -> InputRow:
    return InputRow(
        place=place_words(visit, reading),
        typed=reading.typed
        if not reading.unit or any(letter.isalpha() for letter in reading.typed)
        else f"{reading.typed} {reading.unit}",
        echo=reading.understood.echo,
        gauge=reading.instrument.replace("_", " "),
        who=f"{reading.person}, {visit.tell.day(reading.at)}",
    )


def _manual(visit: Visit, spec: Specification) -> ManualRow:
    tell = visit.tell
    written = tell.amount(spec.nominal, spec.dimension)
    if spec.written and spec.written not in written:
        written = f"{spec.written} ({written})" if written else spec.written
    return ManualRow(
        item=spec.key.item,
        feature=spec.key.feature,
        nominal=written or words.RUNS_BY_UNKNOWN,
        rework=spec.rework,
        interval=tell.interval(spec.low, spec.high, spec.dimension),
        chance=tell.chance(spec.probability) if spec.nominal is not None else "",
        origin=tell.origin(spec.origin),
        runners_up=tuple(
            f"{other.written or tell.amount(other.nominal, spec.dimension)}{', ' + other.rework if other.rework else ''}: "
            f"{tell.chance(other.probability)}"
            for other in spec.runners_up[:4]
        ),
        evidence=spec.evidence,
        conflict=spec.conflict,
        settle=spec.settle,
    )


def doubt_row(visit: Visit, doubt: Doubt) -> DoubtRow:
    """A doubtful reading as it is asked about."""
    reading = doubt.reading
    return DoubtRow(
        reading=reading.id,
        place=place_words(visit, reading),
        typed=reading.typed,
        likely=visit.tell.amount(doubt.likely, reading.understood.dimension or "length"),
        sentence=doubt.sentence,
        row=str(reading.row or ""),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class DoubtfulPage:
    """All doubtful readings of the job."""

    doubts: tuple[DoubtRow, ...]


def show_doubtful(visit: Visit) -> Response:
    """All doubtful readings."""
    rows = tuple(doubt_row(visit, doubt) for doubt in visit.job.reckoning().doubts)
    return page(visit, "doubtful.html", DoubtfulPage(doubts=rows), sheet="readings asked about", here="findings")


def answer_doubt(visit: Visit) -> Response:
    """Stand by a doubtful reading, or correct it."""
    person, reading = visit.need_name(), visit.form.text("reading")
    if visit.form.text("answer") == "stands":
        workbench.confirm(visit.job, reading, person=person)
        return go(visit.at.page("doubtful"), words.SAID_CONFIRMED.format(person=person))
    workbench.correct(visit.job, reading, visit.form.text("typed"), person=person)
    return go(visit.at.page("doubtful"), words.SAID_CORRECTED)
