"""Outwork: orders drawn up from verdicts, sent, and inspected in when the work comes back."""

from __future__ import annotations

from dataclasses import dataclass, replace

from gudgeon.engine.bench import Bench
from gudgeon.engine.drawing import Drawing
from gudgeon.engine.order import Inspected, Order, OrderDraft, OrderEvent, OrderState
from gudgeon.engine.remedy import Need
from gudgeon.engine.sheet import Sheet, bench_sheet, return_sheet
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.verdict import Verdict
from gudgeon.jobfile import Draft
from gudgeon.workbench.faults import Refused
from gudgeon.workbench.job import Job, now, plain_body

STATES: tuple[OrderState, ...] = (
    "promised",
    "returned",
    "accepted",
    "accepted with a concession",
    "sent back",
    "withdrawn",
)


@dataclass(frozen=True, slots=True)
class Inspection:
    """An order held against what came back: one line per asked size, and what they say together."""

    order: Order
    lines: tuple[Inspected, ...]

    @property
    def clean(self) -> bool:
        """True when every asked size was read and accepted."""
        return bool(self.lines) and all(line.outcome == "accept" for line in self.lines)


def sheet(job: Job, system_key: str) -> Sheet:
    """The bench sheet of one system."""
    from gudgeon.systems import system_named

    snapshot = job.snapshot()
    of = (snapshot.readings, snapshot.parts, snapshot.outline)
    return job.kept(("sheet", system_key), of, lambda: bench_sheet(system_named(system_key), snapshot))


def orders(job: Job) -> tuple[OrderDraft, ...]:
    """The orders that the standing verdicts lead to, held or ready. What was already sent is not drawn up again."""
    snapshot, bench = job.snapshot(), job.bench()
    of = (bench, snapshot.readings, snapshot.verdicts, snapshot.orders, snapshot.outline)
    return job.kept("orders", of, lambda: _orders(job, snapshot, bench))


def _orders(job: Job, snapshot: Snapshot, bench: Bench) -> tuple[OrderDraft, ...]:
    from gudgeon.systems import system_named

    out = {order.draft.key for order in snapshot.orders if order.state not in ("withdrawn", "sent back")}
    drafts = []
    for verdict in snapshot.verdicts:
        for draft in system_named(verdict.chosen.system).orders(bench, verdict):
            if draft.key not in out:
                needs = (*draft.needs, *_changed_since(verdict, job))
                drafts.append(replace(draft, needs=needs, drawings=_titled(draft.drawings, verdict, job)))
    return tuple(drafts)


def _titled(drawings: tuple[Drawing, ...], verdict: Verdict, job: Job) -> tuple[Drawing, ...]:
    """The drawings with the engine, the verdict's date and its owner in the title block, where they name none."""
    name = job.snapshot().outline.name
    return tuple(
        replace(
            drawing,
            job=drawing.job or name,
            date=drawing.date or verdict.at[:10],
            drawn_by=drawing.drawn_by or verdict.person,
        )
        for drawing in drawings
    )


def _changed_since(verdict: Verdict, job: Job) -> tuple[Need, ...]:
    standing = job.snapshot().reading_index
    if gone := [reading for reading in verdict.readings if reading not in standing]:
        noun = "reading" if len(gone) == 1 else "readings"
        return (
            Need(
                kind="decision",
                what=f"settle {verdict.subject} again",
                met=False,
                why=f"{len(gone)} {noun} that the verdict rests on {'has' if len(gone) == 1 else 'have'} been corrected since.",
            ),
        )
    return ()


def draft_named(job: Job, key: str) -> OrderDraft:
    """One order that could go out."""
    drafts = orders(job)
    found = next((draft for draft in drafts if draft.key == key), None)
    if found is None:
        names = ", ".join(draft.key for draft in drafts) or "none; orders are drawn up from verdicts, so settle something first"
        raise Refused(f"“{key}” is no order that could go out; there are: {names}.")
    return found


def send(
    job: Job, key: str, *, shop: str, person: str, price: float | None = None, promised: str = "", overrule: str = ""
) -> Order:
    """Mark an order as sent. A held one is refused, with what it waits for, unless the owner overrules and says why."""
    draft = draft_named(job, key)
    if not shop.strip():
        raise Refused(f"No shop was named for “{draft.title}”; say where it goes.")
    if draft.held and not overrule.strip():
        waits = "; ".join(f"{need.what}{f' ({need.why})' if need.why else ''}" for need in draft.held)
        raise Refused(f"“{draft.title}” is held: it waits for {waits}. To send it all the same, say why.")
    order = Order(
        id="",
        draft=draft,
        shop=shop.strip(),
        price=price,
        promised=promised,
        person=person,
        at="",
        overruled=overrule.strip() if draft.held else "",
    )
    entry = job.write([Draft(kind="order", body=plain_body(order))], person=person)[0]
    return order_named(job, entry.id)


def order_named(job: Job, identity: str) -> Order:
    """One order that went out, by its identity or the key of its draft (the newest of that key)."""
    sent = [order for order in job.snapshot().orders if identity in (order.id, order.draft.key)]
    if not sent:
        names = ", ".join(order.draft.key for order in job.snapshot().orders) or "none has been sent yet"
        raise Refused(f"“{identity}” is no order that went out; there are: {names}.")
    return sent[-1]


def order_sheet(job: Job, identity: str) -> Sheet:
    """The sheet for reading what came back."""
    from gudgeon.systems import feature_named

    return return_sheet(order_named(job, identity), feature_named, job.snapshot())


def inspection(job: Job, identity: str) -> Inspection:
    """What was read of the returned work, held against what was asked."""
    from gudgeon.engine.place import FeatureKey
    from gudgeon.outwork import inspect

    order, returned = order_named(job, identity), job.bench().returned
    lines = tuple(
        inspect(asked, tuple(returned.get(FeatureKey(asked.part, asked.item, asked.feature), ())))
        for asked in order.draft.asked
    )
    return Inspection(order, lines)


def note_order(job: Job, identity: str, state: OrderState, *, person: str, on: str = "", note: str = "") -> Order:
    """Write down what happened to an order.

    To accept needs every asked size read and inside its limits by the decision rule; otherwise it is a concession, which
    needs a reason, or it goes back, which needs one too.
    """
    order = order_named(job, identity)
    if state not in STATES:
        raise Refused(f"“{state}” is no state of an order; {', '.join(STATES)} would be right.")
    if state == "accepted" and not (found := inspection(job, order.id)).clean:
        first = next((line for line in found.lines if line.outcome != "accept"), None)
        why = first.sentence if first else "Nothing was asked by size."
        raise Refused(f"“{order.draft.title}” cannot be accepted as asked: {why} Accept it with a concession, or send it back.")
    if state in ("accepted with a concession", "sent back") and not note.strip():
        raise Refused(f"“{order.draft.title}” was {state} without a reason; say why, for the record.")
    event = OrderEvent(state=state, on=on or now()[:10], note=note.strip(), person=person, at="")
    job.write([Draft(kind="order-event", body={"order": order.id, "event": plain_body(event)})], person=person)
    return order_named(job, order.id)
