"""The bench sheet on screen: pick a feature, then one reading after another with a big pad."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup
from starlette.responses import JSONResponse, Response

from gudgeon import workbench
from gudgeon.engine.reading import Reading
from gudgeon.engine.sheet import Sheet, SheetBlock, SheetLine
from gudgeon.engine.system import System
from gudgeon.pictures import draw_spot
from gudgeon.quantity import NotUnderstood
from gudgeon.systems import ALL
from gudgeon.web import words
from gudgeon.web.engine_page import sheet_of
from gudgeon.web.findings_page import system_of
from gudgeon.web.frame import drawn, page
from gudgeon.web.visit import Visit, go, wants_json
from gudgeon.workbench.faults import Refused

REMEMBERED = ("base", "unit", "instrument", "setting", "part_temp_c")
COLUMNS = (
    "part", "item", "feature", "station", "direction_deg", "depth", "reading", "repeat", "note", "resolution", "stage",
    "supersedes", "confirmed", *REMEMBERED,
)  # fmt: skip
UNITS = ("in", "thou", "mm", "um", "psi", "kPa", "bar", "lbf", "N", "deg", "cc", "degC")


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockLine:
    """A feature on the list of the sheet."""

    number: int
    item: str
    title: str
    done: int
    wanted: int
    others: int
    href: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenRow:
    """A reading that was taken at a line."""

    id: str
    typed: str
    echo: str
    who: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LineRow:
    """One line of the sheet."""

    number: int
    station: str
    direction: str
    direction_deg: str
    hint: str
    taken: tuple[TakenRow, ...]
    here: bool
    href: str
    spot: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchPage:
    """The list of a system's features."""

    system: str
    title: str
    blocks: tuple[BlockLine, ...]
    paper: str
    bring_in: str
    others: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingPage:
    """One feature of one instance: its lines, the line at hand, the pad."""

    system: str
    number: int
    part: str
    item: str
    feature: str
    title: str
    how: str
    lines: tuple[LineRow, ...]
    line: LineRow
    others: tuple[TakenRow, ...]
    gauges: tuple[str, ...]
    units: tuple[str, ...]
    remembered: Mapping[str, str]
    before: str
    after: str
    list: str
    post: str
    echo: str
    stage: str
    ask: str


def show(visit: Visit) -> Response:
    """The list of features, or one of them."""
    system = system_of(visit)
    sheet = sheet_of(visit, system.key)
    number = visit.whole("block")
    if number is None or number >= len(sheet.blocks):
        return page(
            visit,
            "bench.html",
            _list(visit, system, sheet),
            sheet=words.SHEETS["bench"].format(name=system.title.lower()),
            here="bench",
        )
    data = _block(visit, sheet, sheet.blocks[number], number)
    return page(visit, "reading.html", data, sheet=words.SHEETS["bench"].format(name=data.item), here="bench")


def _list(visit: Visit, system: System, sheet: Sheet) -> BenchPage:
    return BenchPage(
        system=system.key,
        title=system.title,
        blocks=tuple(
            BlockLine(
                number=number,
                item=block.item,
                title=block.feature.title,
                done=block.done,
                wanted=len(block.lines),
                others=len(block.others),
                href=visit.at.bench(system.key, number),
            )
            for number, block in enumerate(sheet.blocks)
        ),
        paper=f"{visit.at.bench(system.key)}/sheet.pdf",
        bring_in=visit.at.page("bring-in"),
        others=tuple((other.title, visit.at.bench(other.key)) for other in ALL if other is not system),
    )


def _block(visit: Visit, sheet: Sheet, block: SheetBlock, number: int) -> ReadingPage:
    asked = visit.whole("line")
    empty = next((n for n, line in enumerate(block.lines) if not line.taken), 0)
    here = asked if asked is not None and asked < len(block.lines) else empty
    lines = tuple(_line(visit, sheet, block, number, n, line, here) for n, line in enumerate(block.lines))
    feature = block.feature
    return ReadingPage(
        system=sheet.system,
        number=number,
        part=feature.part,
        item=block.item,
        feature=feature.name,
        title=feature.title,
        how=feature.how,
        lines=lines,
        line=lines[here],
        others=tuple(_taken(visit, reading) for reading in block.others),
        gauges=feature.gauges,
        units=UNITS,
        remembered=_remembered(visit, block),
        before=visit.at.bench(sheet.system, number - 1) if number else "",
        after=visit.at.bench(sheet.system, number + 1) if number + 1 < len(sheet.blocks) else "",
        list=visit.at.bench(sheet.system),
        post=visit.at.bench(sheet.system, number),
        echo=f"{visit.at.root}/echo",
        stage=sheet.stage,
        ask=visit.at.page("doubtful"),
    )


def _line(visit: Visit, sheet: Sheet, block: SheetBlock, number: int, n: int, line: SheetLine, here: int) -> LineRow:
    feature = block.feature
    levels = tuple(level.name for level in feature.levels)
    spot = (
        draw_spot(levels=levels, level=line.station, direction=line.direction, inside=feature.wear != "takes")
        if levels or line.direction is not None
        else ""
    )
    return LineRow(
        number=n,
        station=line.station,
        direction=visit.tell.direction(line.direction),
        direction_deg="" if line.direction is None else f"{line.direction:g}",
        hint=line.hint,
        taken=tuple(_taken(visit, reading) for reading in line.taken),
        here=n == here,
        href=visit.at.bench(sheet.system, number, n),
        spot=drawn(spot),
    )


def _taken(visit: Visit, reading: Reading) -> TakenRow:
    return TakenRow(
        id=reading.id,
        typed=reading.typed,
        echo=reading.understood.echo,
        who=f"{reading.person}, {visit.tell.moment(reading.at)}",
    )


def _remembered(visit: Visit, block: SheetBlock) -> dict[str, str]:
    """Base, unit, gauge, setting and temperature as they were at the newest reading of this feature that names its
    gauge, whichever instance."""
    own = [r for r in visit.snapshot.readings if (r.place.part, r.place.feature) == (block.feature.part, block.feature.name)]
    last = max(own, key=lambda reading: (bool(reading.instrument), reading.at), default=None)
    if last is None:
        metric = visit.person.units == "millimetre" and block.feature.unit == "in"
        return {"base": "", "unit": "mm" if metric else block.feature.unit, "instrument": "", "setting": "", "part_temp_c": ""}
    return {
        "base": last.base,
        "unit": last.unit or block.feature.unit,
        "instrument": last.instrument,
        "setting": last.setting,
        "part_temp_c": f"{last.temperature:g}" if last.temperature is not None else "",
    }


def take(visit: Visit) -> Response:
    """Take one reading in: from the plain form, or from the script, which brings a ticket so that it is delivered once."""
    form = visit.form
    columns = {name: form.text(name) for name in COLUMNS if form.text(name)}
    if quick := form.text("quick"):
        columns["reading"] = quick
    if not columns.get("reading"):
        raise Refused("Nothing was typed; type the reading, or tap “not reached”.")
    reading = workbench.put_reading(visit.job, columns, person=visit.need_name(), ticket=form.text("ticket"))
    if wants_json(visit.request):
        return JSONResponse(
            {"id": reading.id, "typed": reading.typed, "echo": reading.understood.echo, "line": form.text("line")}
        )
    number, line = visit.whole("block") or 0, form.text("line")
    following = int(line) + 1 if line.isdecimal() else None
    lines = workbench.sheet(visit.job, visit.path("system")).blocks[number].lines
    if following is not None and following >= len(lines):
        following = None
    return go(visit.at.bench(visit.path("system"), number, following), words.SAID_READING.format(echo=reading.understood.echo))


def echo(visit: Visit) -> Response:
    """What a typed text would be taken to mean, for the line beside the pad."""
    columns = {name: visit.asked(name) for name in ("reading", "unit", "base") if visit.asked(name)}
    try:
        return JSONResponse({"echo": workbench.understood_as({"part": "x", "item": "x", **columns}).echo})
    except (NotUnderstood, ValueError) as fault:
        return JSONResponse({"sentence": str(fault)})
