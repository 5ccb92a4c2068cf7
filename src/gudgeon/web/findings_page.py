"""A system's findings: for each place of the engine what was found, the target, the limits, as fitted, and why."""

from __future__ import annotations

from collections import Counter
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
from gudgeon.web.frame import drawn, page, piece
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
    """One quantity in one line; ``why`` is the address of what stands behind it."""

    item: str
    quantity: str
    found: str
    standing: str
    tone: str
    sentence: str
    settle: str
    settle_href: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WhyPage:
    """What stands behind one finding: its four columns, the strip, every authority's limit, the formula, the readings."""

    item: str
    quantity: str
    found: str
    interval: str
    target: str
    target_origin: str
    limit: str
    as_fitted: str
    strip: Markup
    limits: tuple[LimitRow, ...]
    inputs: tuple[InputRow, ...]
    more_inputs: int
    formula: str
    back: str


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
    counts: str
    rows: tuple[FindingRow, ...]
    calm: tuple[FindingRow, ...]
    drawing: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawingPage:
    """What the maker's drawing of one place must have called for, and the pictures of that place."""

    title: str
    manual: tuple[ManualRow, ...]
    pictures: tuple[tuple[str, Markup], ...]
    back: str


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
    others: tuple[tuple[str, str, bool], ...]


def show(visit: Visit) -> Response:
    """A system's findings."""
    system = system_of(visit)
    data = visit.job.kept(("findings", system.key, visit.person.units), (visit.job.reckoning(),), lambda: _page(visit, system))
    return page(visit, "findings.html", data, sheet=system.title.lower(), here="findings")


def _page(visit: Visit, system: System) -> FindingsPage:
    reckoning = visit.job.reckoning()
    parts = {kind.kind for kind in system.parts}
    names = dict.fromkeys(group_of(finding.item) for finding in reckoning.findings if finding.system == system.key)
    groups = sorted((_group(visit, system, name) for name in names), key=lambda ranked: ranked[0])
    return FindingsPage(
        key=system.key,
        title=system.title,
        introduction=system.introduction,
        groups=tuple(group for _, group in groups),
        doubts=tuple(doubt_row(visit, doubt) for doubt in reckoning.doubts if doubt.reading.place.part in parts),
        remarks=reckoning.remarks,
        unknown=tuple(f"{key.item}, {key.feature}" for key in reckoning.unknown),
        cautions=tuple((caution.hazard, caution.say) for caution in system.cautions),
        remedies=visit.at.remedies(system.key),
        bench=visit.at.bench(system.key),
        others=tuple((other.title, visit.at.findings(other.key), other is system) for other in ALL),
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


def _group(visit: Visit, system: System, name: str) -> tuple[int, Group]:
    """The findings of one place, worst first, and the rank of the worst."""
    own = [
        finding for finding in visit.job.reckoning().findings if finding.system == system.key and group_of(finding.item) == name
    ]
    lines: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in own:
        lines.setdefault((finding.part, finding.item, finding.quantity), []).append(finding)
    ordered = sorted((_strictest(authorities) for authorities in lines.values()), key=lambda one: RANK[one.standing])
    worst = ordered[0].standing
    items = list(dict.fromkeys(finding.item for finding in own))
    return RANK[worst], Group(
        anchor=anchor(name),
        title=", ".join(items[:3]),
        worst=words.STANDING[worst],
        tone=tone_of(worst),
        counts=_counts(ordered),
        rows=tuple(_row(visit, finding) for finding in ordered if RANK[finding.standing] <= RANK["doubtful"]),
        calm=tuple(_row(visit, finding) for finding in ordered if RANK[finding.standing] > RANK["doubtful"]),
        drawing=visit.at.drawing_called_for(system.key, name),
    )


def _counts(findings: Sequence[Finding]) -> str:
    standings: Counter[str] = Counter(finding.standing for finding in findings)
    return ", ".join(f"{standings[one]} {words.STANDING[one]}" for one in RANK if standings[one])


def _strictest(authorities: Sequence[Finding]) -> Finding:
    return min(authorities, key=lambda one: RANK[one.standing])


def tone_of(standing: str) -> str:
    """The colour of a standing."""
    return {"past": "red", "doubtful": "blue", "not measured": "red"}.get(standing, "")


def _row(visit: Visit, finding: Finding) -> FindingRow:
    return FindingRow(
        item=finding.item,
        quantity=finding.quantity,
        found=visit.tell.found(finding),
        standing=words.STANDING[finding.standing],
        tone=tone_of(finding.standing),
        sentence=visit.tell.said(finding.sentence),
        settle=finding.settle,
        settle_href=bench_of(visit, finding.part, finding.item, "") if finding.settle else "",
        why=visit.at.why(finding.system, finding.part, finding.item, finding.quantity),
    )


def show_why(visit: Visit) -> Response:
    """What stands behind one finding: a piece for the script of the findings page, or a page of its own."""
    system = system_of(visit)
    sought = (visit.asked("part"), visit.asked("item"), visit.asked("quantity"))
    authorities = [
        finding
        for finding in visit.job.reckoning().findings
        if finding.system == system.key and (finding.part, finding.item, finding.quantity) == sought
    ]
    if not authorities:
        raise KeyError(words.NO_FINDING)
    return piece(visit, "_why.html", _why(visit, authorities), sheet=system.title.lower(), here="findings")


def _why(visit: Visit, authorities: Sequence[Finding]) -> WhyPage:
    """Where authorities differ, their limits stand one under another and the strictest is drawn."""
    tell, finding = visit.tell, _strictest(authorities)
    readings = visit.job.bench().snapshot.reading_index
    inputs = [readings[identity] for identity in finding.inputs if identity in readings]
    strip = ""
    if finding.limit is not None and finding.value is not None:
        strip = draw(Strip(finding=finding), units=visit.person.units)
    return WhyPage(
        item=finding.item,
        quantity=finding.quantity,
        found=tell.found(finding),
        interval=tell.interval(finding.low, finding.high, finding.dimension),
        target=tell.interval(finding.target_low, finding.target_high, finding.dimension),
        target_origin=tell.origin(finding.target_origin),
        limit=tell.amount(finding.limit, finding.dimension),
        as_fitted=tell.amount(finding.as_fitted, finding.dimension),
        strip=drawn(strip),
        limits=tuple(_limit(visit, one) for one in authorities if one.limit is not None),
        inputs=tuple(_input(visit, reading) for reading in inputs[:12]),
        more_inputs=max(0, len(inputs) - 12),
        formula=finding.formula,
        back=visit.at.findings(finding.system, anchor(group_of(finding.item))),
    )


def show_drawing(visit: Visit) -> Response:
    """What the drawing of one place must have called for, and its pictures: a piece, or a page of its own."""
    system, name, reckoning = system_of(visit), visit.asked("place"), visit.job.reckoning()
    parts = {kind.kind for kind in system.parts}
    specifications = [
        spec for key, spec in reckoning.specifications.items() if group_of(key.item) == name and key.part in parts
    ]
    pictures = [
        (title, drawn(svg))
        for title, picture in reckoning.pictures
        if not isinstance(picture, Strip) and group_of(title) == name and (svg := draw(picture, units=visit.person.units))
    ]
    data = DrawingPage(
        title=name,
        manual=tuple(_manual(visit, spec) for spec in specifications),
        pictures=tuple(pictures),
        back=visit.at.findings(system.key, anchor(name)),
    )
    return piece(visit, "_drawing.html", data, sheet=system.title.lower(), here="findings")


def _limit(visit: Visit, finding: Finding) -> LimitRow:
    limit_words = words.LIMIT_LEAST if finding.limit_is == "least" else words.LIMIT_MOST
    return LimitRow(
        limit=limit_words.format(size=visit.tell.amount(finding.limit, finding.dimension)),
        origin=visit.tell.origin(finding.limit_origin),
        standing=words.STANDING[finding.standing],
        chance=visit.tell.chance(finding.chance_past_limit),
        past=finding.standing == "past",
    )


def place_words(visit: Visit, reading: Reading) -> str:
    """Where a reading was taken, in words."""
    place = reading.place
    depth = words.DOWN.format(depth=visit.tell.amount(place.depth, "length")) if place.depth is not None else ""
    station = words.LEVEL.format(name=place.station) if place.station.isdecimal() else place.station
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
    return page(visit, "doubtful.html", DoubtfulPage(doubts=rows), sheet=words.SHEETS["doubtful"], here="findings")


def answer_doubt(visit: Visit) -> Response:
    """Stand by a doubtful reading, or correct it."""
    person, reading = visit.need_name(), visit.form.text("reading")
    if visit.form.text("answer") == "stands":
        workbench.confirm(visit.job, reading, person=person)
        return go(visit.at.page("doubtful"), words.SAID_CONFIRMED.format(person=person))
    workbench.correct(visit.job, reading, visit.form.text("typed"), person=person)
    return go(visit.at.page("doubtful"), words.SAID_CORRECTED)
