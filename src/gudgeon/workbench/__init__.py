"""The use cases, one function each: load a snapshot, call the pure rooms, write the result.

Every name here is also a name of ``gudgeon`` itself. Modules are imported when first used, so that a command that needs
little starts at once.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from gudgeon.workbench.deciding import (
        advice,
        mark_done,
        price,
        prices_asked,
        remedies,
        set_aims,
        settle,
    )
    from gudgeon.workbench.faults import LineFault, NoneTaken, Refused
    from gudgeon.workbench.forecasting import Plan, forecast, plan, standing_forecast
    from gudgeon.workbench.job import Job, change_outline, open_job, start
    from gudgeon.workbench.keeping import (
        add_picture,
        add_step,
        mark_picture,
        next_tag,
        note_part,
        note_picture,
        photo,
        put_back,
    )
    from gudgeon.workbench.outworking import (
        Inspection,
        draft_named,
        inspection,
        note_order,
        order_named,
        order_sheet,
        orders,
        send,
        sheet,
    )
    from gudgeon.workbench.plain_answers import answers
    from gudgeon.workbench.recording import (
        Verified,
        order_paper,
        record_book,
        return_paper,
        sheet_paper,
        tags_paper,
        verify,
        write_order,
    )
    from gudgeon.workbench.supposing import changed_wait, what_if
    from gudgeon.workbench.taking import Taken, confirm, correct, put_reading, take, take_text, understood_as

_HOME = {
    "deciding": ("advice", "mark_done", "price", "prices_asked", "remedies", "set_aims", "settle"),
    "faults": ("LineFault", "NoneTaken", "Refused"),
    "forecasting": ("Plan", "forecast", "plan", "standing_forecast"),
    "job": ("Job", "change_outline", "open_job", "start"),
    "keeping": (
        "add_picture", "add_step", "mark_picture", "next_tag", "note_part", "note_picture", "photo", "put_back",
    ),
    "outworking": (
        "Inspection", "draft_named", "inspection", "note_order", "order_named", "order_sheet", "orders", "send", "sheet",
    ),
    "plain_answers": ("answers",),
    "recording": (
        "Verified", "order_paper", "record_book", "return_paper", "sheet_paper", "tags_paper", "verify", "write_order",
    ),
    "supposing": ("changed_wait", "what_if"),
    "taking": ("Taken", "confirm", "correct", "put_reading", "take", "take_text", "understood_as"),
}  # fmt: skip
_WHERE = {name: module for module, names in _HOME.items() for name in names}


def __getattr__(name: str) -> Any:
    if name not in _WHERE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_WHERE[name]}"), name)


def __dir__() -> list[str]:
    return sorted(_WHERE)


__all__ = [
    "Inspection", "Job", "LineFault", "NoneTaken", "Plan", "Refused", "Taken", "Verified", "add_picture", "add_step", "advice",
    "answers", "change_outline", "changed_wait", "confirm", "correct", "draft_named", "forecast", "inspection", "mark_done",
    "mark_picture", "next_tag", "note_order", "note_part", "note_picture", "open_job", "order_named", "order_paper",
    "order_sheet", "orders", "photo",
    "plan", "price", "prices_asked", "put_back", "put_reading", "record_book", "remedies", "return_paper", "send",
    "set_aims", "settle", "sheet", "sheet_paper", "standing_forecast", "start", "tags_paper", "take", "take_text",
    "understood_as", "verify", "what_if", "write_order",
]  # fmt: skip
