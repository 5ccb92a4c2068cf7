"""Outwork: orders held and ready, what went out, and the inspection of what comes back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from markupsafe import Markup
from starlette.responses import Response

from gudgeon import workbench
from gudgeon.engine.drawing import Drawing
from gudgeon.engine.order import AskedSize, Inspected, Order, OrderDraft, OrderState
from gudgeon.outwork import drawing_dxf, drawing_pdf, drawing_svg
from gudgeon.web import words
from gudgeon.web.frame import drawn, page
from gudgeon.web.visit import Visit, go
from gudgeon.workbench.faults import Refused

NOTES: tuple[OrderState, ...] = ("promised", "returned", "accepted", "accepted with a concession", "sent back", "withdrawn")


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderRow:
    """One order on the list."""

    title: str
    to: str
    state: str
    tone: str
    held: tuple[tuple[str, str], ...]
    href: str
    when: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OrdersPage:
    """The list."""

    drafts: tuple[OrderRow, ...]
    sent: tuple[OrderRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeRow:
    """A size asked of the shop."""

    item: str
    feature: str
    limits: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawingRow:
    """A drawing, to look at and to download."""

    title: str
    svg: Markup
    files: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftPage:
    """An order that has not gone out, or the frozen text of one that has."""

    key: str
    title: str
    to: str
    lines: tuple[tuple[str, str, str, tuple[tuple[str, str], ...]], ...]
    asked: tuple[SizeRow, ...]
    drawings: tuple[DrawingRow, ...]
    leave_alone: tuple[str, ...]
    held: tuple[tuple[str, str], ...]
    cautions: tuple[tuple[str, str], ...]
    pdf: str
    list: str


@dataclass(frozen=True, slots=True, kw_only=True)
class InspectedRow:
    """An asked size against what was read on return."""

    part: str
    item: str
    feature: str
    asked: str
    found: str
    outcome: str
    tone: str
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnLine:
    """One reading wanted of the returned work."""

    part: str
    item: str
    feature: str
    title: str
    station: str
    direction: str
    direction_deg: str
    taken: tuple[str, ...]
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SentPage:
    """An order that went out."""

    order: DraftPage
    id: str
    shop: str
    price: str
    promised: str
    state: str
    who: str
    overruled: str
    events: tuple[tuple[str, str, str, str], ...]
    inspection: tuple[InspectedRow, ...]
    lines: tuple[ReturnLine, ...]
    clean: bool
    open: bool
    pdf: str
    sheet: str


def show_list(visit: Visit) -> Response:
    """All orders."""
    drafts = tuple(_draft_row(visit, draft) for draft in workbench.orders(visit.job))
    sent = tuple(_sent_row(visit, order) for order in reversed(visit.snapshot.orders))
    return page(visit, "orders.html", OrdersPage(drafts=drafts, sent=sent), sheet=words.SHEETS["orders"], here="orders")


def _held(draft: OrderDraft) -> tuple[tuple[str, str], ...]:
    return tuple((need.what, need.why) for need in draft.held)


def _draft_row(visit: Visit, draft: OrderDraft) -> OrderRow:
    held = _held(draft)
    return OrderRow(
        title=draft.title,
        to=draft.to,
        state=words.HELD if held else words.READY,
        tone="" if held else "blue",
        held=held,
        href=visit.at.draft(draft.key),
        when="",
    )


def _sent_row(visit: Visit, order: Order) -> OrderRow:
    promised = words.PROMISED_FOR.format(day=visit.tell.day(order.promised)) if order.promised else ""
    return OrderRow(
        title=order.draft.title,
        to=order.shop,
        state=order.state,
        tone={"sent back": "red", "returned": "blue"}.get(order.state, ""),
        held=(),
        href=visit.at.sent(order.id),
        when=words.SENT_ON.format(day=visit.tell.day(order.at), promised=promised),
    )


def show_draft(visit: Visit) -> Response:
    """One order before it goes out."""
    draft = _draft(visit)
    data = _draft_page(visit, draft, visit.at.draft(draft.key))
    return page(visit, "order.html", data, sheet=words.SHEETS["order"].format(name=draft.title), here="orders")


def _draft(visit: Visit) -> OrderDraft:
    return workbench.draft_named(visit.job, visit.path("key"))


def _limits(visit: Visit, asked: AskedSize) -> str:
    return visit.tell.interval(asked.lower, asked.upper, asked.dimension, fine=True)


def _draft_page(visit: Visit, draft: OrderDraft, address: str) -> DraftPage:
    return DraftPage(
        key=draft.key,
        title=draft.title,
        to=draft.to,
        lines=tuple((str(line.count), line.what, line.material, line.detail) for line in draft.lines),
        asked=tuple(SizeRow(item=a.item, feature=a.feature, limits=_limits(visit, a), note=a.note) for a in draft.asked),
        drawings=tuple(_drawing_row(drawing, f"{address}/drawing/{n}") for n, drawing in enumerate(draft.drawings)),
        leave_alone=draft.leave_alone,
        held=_held(draft),
        cautions=tuple((caution.hazard, caution.say) for caution in draft.cautions),
        pdf=f"{address}/order.pdf",
        list=visit.at.page("orders"),
    )


def _drawing_row(drawing: Drawing, address: str) -> DrawingRow:
    files = tuple((kind.upper(), f"{address}.{kind}") for kind in ("pdf", "dxf", "svg"))
    return DrawingRow(title=f"{drawing.number} {drawing.title}", svg=drawn(page_svg(drawing)), files=files)


def page_svg(drawing: Drawing) -> str:
    """The drawing for showing inside a page: without the XML head that a file of its own carries."""
    svg = drawing_svg(drawing)
    return svg[svg.index("<svg") :]


def send(visit: Visit) -> Response:
    """Send an order out."""
    form, draft = visit.form, _draft(visit)
    order = workbench.send(
        visit.job,
        draft.key,
        shop=form.text("shop"),
        person=visit.need_name(),
        price=form.number("price", what="the price", example="240"),
        promised=form.day("promised", what="the promised day"),
        overrule=form.text("overrule"),
    )
    return go(visit.at.sent(order.id), words.SAID_SENT.format(shop=order.shop))


def show_sent(visit: Visit) -> Response:
    """One order that went out, with its inspection."""
    order = workbench.order_named(visit.job, visit.path("id"))
    inspection = workbench.inspection(visit.job, order.id)
    address = visit.at.sent(order.id)
    data = SentPage(
        order=_draft_page(visit, order.draft, address),
        id=order.id,
        shop=order.shop,
        price=visit.tell.money(order.price),
        promised=visit.tell.day(order.promised),
        state=order.state,
        who=f"{order.person}, {visit.tell.moment(order.at)}",
        overruled=order.overruled,
        events=tuple((event.state, visit.tell.day(event.on), event.note, event.person) for event in order.events),
        inspection=tuple(_inspected(visit, line) for line in inspection.lines),
        lines=_return_lines(visit, order),
        clean=inspection.clean,
        open=order.state not in ("accepted", "accepted with a concession", "withdrawn", "sent back"),
        pdf=f"{address}/order.pdf",
        sheet=f"{address}/inspection.pdf",
    )
    return page(visit, "sent.html", data, sheet=words.SHEETS["sent"].format(name=order.draft.title), here="orders")


def _inspected(visit: Visit, line: Inspected) -> InspectedRow:
    tell, asked = visit.tell, line.asked
    sentence = line.sentence
    return InspectedRow(
        part=asked.part,
        item=asked.item,
        feature=asked.feature,
        asked=_limits(visit, asked),
        found=tell.interval(line.low, line.high, asked.dimension, fine=True) or tell.amount(line.value, asked.dimension),
        outcome=line.outcome,
        tone={"accept": "", "send back": "red"}.get(line.outcome, "blue"),
        sentence=tell.said(sentence),
    )


def _return_lines(visit: Visit, order: Order) -> tuple[ReturnLine, ...]:
    lines = []
    for block in workbench.order_sheet(visit.job, order.id).blocks:
        for line in block.lines:
            lines.append(
                ReturnLine(
                    part=block.feature.part,
                    item=block.item,
                    feature=block.feature.name,
                    title=block.feature.title,
                    station=line.station,
                    direction=visit.tell.direction(line.direction),
                    direction_deg="" if line.direction is None else f"{line.direction:g}",
                    taken=tuple(f"{reading.typed} ({reading.understood.echo})" for reading in line.taken),
                    unit=block.feature.unit,
                )
            )
    return tuple(lines)


def receive(visit: Visit) -> Response:
    """A reading of what came back, or what happened to the order."""
    form, order = visit.form, workbench.order_named(visit.job, visit.path("id"))
    person = visit.need_name()
    if form.text("reading_of"):
        return _read_returned(visit, order, person)
    state = next((known for known in NOTES if known == form.text("state")), None)
    if state is None:
        raise Refused(words.BAD_CHOICE.format(typed=form.text("state")))
    on = form.day("on", what="the day")
    workbench.note_order(visit.job, order.id, state, person=person, on=on, note=form.text("note"))
    return go(visit.at.sent(order.id), words.SAID_NOTED.format(state=state))


def _read_returned(visit: Visit, order: Order, person: str) -> Response:
    """All readings of one form; the first that cannot be understood refuses it, and those before it stand."""
    form, taken = visit.form, 0
    for n, line in enumerate(_return_lines(visit, order)):
        typed = form.text(f"reading_{n}")
        if not typed:
            continue
        columns = {
            "part": line.part,
            "item": line.item,
            "feature": line.feature,
            "station": line.station,
            "direction_deg": line.direction_deg,
            "reading": typed,
            "unit": form.text("unit") or line.unit,
            "instrument": form.text("instrument"),
            "base": form.text("base"),
            "stage": "returned",
        }
        ticket = f"{form.text('ticket')}-{n}" if form.text("ticket") else ""
        workbench.put_reading(visit.job, columns, person=person, ticket=ticket)
        taken += 1
    return go(visit.at.sent(order.id), words.counted(words.SAID_RETURNED, taken))


def draft_paper(visit: Visit) -> Response:
    """The order as PDF."""
    return pdf_answer(workbench.order_paper(visit.job, visit.path("key"), units=visit.person.units), "order.pdf")


def sent_paper(visit: Visit) -> Response:
    """The order that went out as PDF."""
    return pdf_answer(workbench.order_paper(visit.job, visit.path("id"), units=visit.person.units), "order.pdf")


def return_paper(visit: Visit) -> Response:
    """The sheet for inspecting an order in, to print."""
    return pdf_answer(workbench.return_paper(visit.job, visit.path("id"), units=visit.person.units), "inspection.pdf")


def pdf_answer(data: bytes, name: str) -> Response:
    """A PDF to keep."""
    return Response(data, media_type="application/pdf", headers={"content-disposition": f'attachment; filename="{name}"'})


def drawing_file(visit: Visit) -> Response:
    """A drawing as PDF, DXF or SVG."""
    order = workbench.order_named(visit.job, visit.path("id")).draft if visit.path("id") else _draft(visit)
    number, kind = int(visit.path("number")), visit.path("kind")
    if number >= len(order.drawings):
        raise KeyError(words.NO_PAGE)
    drawing = order.drawings[number]
    if kind not in _MAKE:
        raise KeyError(words.NO_PAGE)
    make, media = _MAKE[kind]
    name = "".join(letter if letter.isalnum() else "-" for letter in drawing.number) or "drawing"
    return Response(make(drawing), media_type=media, headers={"content-disposition": f'attachment; filename="{name}.{kind}"'})


_MAKE: dict[str, tuple[Callable[[Drawing], bytes], str]] = {
    "pdf": (drawing_pdf, "application/pdf"),
    "dxf": (drawing_dxf, "image/vnd.dxf"),
    "svg": (lambda drawing: drawing_svg(drawing).encode(), "image/svg+xml"),
}
