"""An order as it is handed to a shop: the words first, then its drawings."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

from gudgeon.engine.order import AskedSize, Order, OrderDraft
from gudgeon.engine.outline import Outline
from gudgeon.engine.remedy import Need
from gudgeon.outwork.print_drawing import drawing_pdf
from gudgeon.outwork.sizes import SHORT, limits_in, other
from gudgeon.quantity import Amount, UnitChoice, show
from gudgeon.typeset import data_file, join, pdf

TEMPLATE = Path(__file__).parent / "order.typ"


def order_pdf(
    order: OrderDraft | Order,
    *,
    outline: Outline,
    date: dt.date | str,
    units: UnitChoice = "inch",
    shop: str = "",
    title: str = "",
    drawings: bool = True,
) -> bytes:
    """The order as PDF/A: what to do, sizes in both units, what must not be touched, what comes with it, what it waits for,
    followed by its drawings. While it is held it says so in a banner.

    ``order`` is a draft, or an order that went out, whose shop, price and promised date are then printed. Raises DrawingFault
    when a drawing cannot be true. The same input gives the same bytes.
    """
    draft = order.draft if isinstance(order, Order) else order
    sent = order if isinstance(order, Order) else None
    heading = title or draft.title
    data = {
        "title": heading,
        "key": draft.key,
        "engine": outline.name or "not named",
        "to": shop or (sent.shop if sent else "") or draft.to or "not named yet",
        "date": str(date)[:10],
        "price": f"{sent.price:,.2f}" if sent and sent.price is not None else "",
        "promised": sent.promised if sent else "",
        "overruled": sent.overruled if sent else "",
        "held": [_need(need) for need in draft.held],
        "met": [_need(need) for need in draft.needs if need.met],
        "lines": [
            {"count": line.count, "what": line.what, "material": line.material or "as the old part", "detail": line.detail}
            for line in draft.lines
        ],
        "asked": [_asked(asked, units) for asked in draft.asked],
        "leave_alone": draft.leave_alone,
        "comes_with": [f"Drawing {drawing.number}, {drawing.title}" for drawing in draft.drawings] if drawings else [],
        "cautions": [{"hazard": c.hazard.rstrip("."), "say": c.say, "source": c.source} for c in draft.cautions],
    }
    files = {"order.json": data_file(data)}
    words = pdf(TEMPLATE.read_text("utf-8"), files=files, title=f"{outline.name}: {heading}", date=date)
    if not (drawings and draft.drawings):
        return words
    sheets = [drawing_pdf(drawing, units=units) for drawing in draft.drawings]
    return join([words, *sheets], title=f"{outline.name}: {heading}", date=date)


def _need(need: Need) -> dict[str, str]:
    return {"what": need.what, "why": need.why}


def _asked(asked: AskedSize, units: UnitChoice) -> dict[str, Any]:
    if asked.dimension == "length":
        first = limits_in(lower=asked.lower, upper=asked.upper, units=units)
        second = limits_in(lower=asked.lower, upper=asked.upper, units=other(units))
        limits = [f"{a} {SHORT[units]} ({b} {SHORT[other(units)]})" for a, b in zip(first, second, strict=True)]
    else:
        limits = [show(Amount(limit, asked.dimension), units) for limit in (asked.lower, asked.upper)]
    return {"item": asked.item, "feature": asked.feature, "lower": limits[0], "upper": limits[1], "note": asked.note}
