"""How each step stands: done, out at a shop, ready, or waiting, and what it still takes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from gudgeon.engine.order import Order
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.step import StepDraft
from gudgeon.planning.durations import Spread, certain, spread_of
from gudgeon.planning.promises import back_day, kept_promises, lateness, promised_day, sent_day

State = Literal["done", "under way", "ready", "held", "waiting"]


@dataclass(frozen=True, kw_only=True)
class Standing:
    """One step as it stands today.

    Attributes
    ----------
    wait : what is still to come of the shop's wait [calendar day]; None where nobody has said how long it takes.
    own_work : is the step's own work still to be done.
    on : the day it was done.
    """

    state: State
    words: str
    wait: Spread | None
    own_work: bool = True
    on: date | None = None
    order: Order | None = None
    promised: date | None = None


def orders_of_steps(drafts: Sequence[StepDraft], orders: Sequence[Order]) -> Mapping[str, Order]:
    """Which order carries which step: of the same key, else the first step of its system that takes the item it pays for.

    Withdrawn orders carry none; of several with one key the last one holds.
    """
    found: dict[str, Order] = {}
    keys = {draft.key for draft in drafts}
    live = [order for order in orders if order.state != "withdrawn"]
    for order in live:
        if order.draft.key in keys:
            found[order.draft.key] = order
    for order in live:
        if order.draft.key in keys or not order.draft.priced:
            continue
        for draft in drafts:
            same = draft.shop.casefold() == order.draft.priced.casefold() and draft.system == order.draft.system
            if same and draft.key not in found:
                found[draft.key] = order
                break
    return found


def standings(drafts: Sequence[StepDraft], *, snapshot: Snapshot, today: date) -> Mapping[str, Standing]:
    """How every step of a plan stands, by key."""
    done = {row.key: row for row in snapshot.done}
    orders = orders_of_steps(drafts, snapshot.orders)
    finished = set(done) | {key for key, order in orders.items() if order.state.startswith("accepted")}
    by_key = {draft.key: draft for draft in drafts}
    return {
        draft.key: _done(done[draft.key].on, done[draft.key].note)
        if draft.key in done
        else _standing(draft, orders.get(draft.key), by_key, finished, snapshot, today)
        for draft in by_key.values()
    }


def _done(on: str, note: str) -> Standing:
    from gudgeon.planning.promises import day_of

    words = f"Done on {on}." if on else "Done."
    return Standing(state="done", words=f"{words} {note}".strip(), wait=certain(0), own_work=False, on=day_of(on))


def _standing(
    draft: StepDraft, order: Order | None, by_key: Mapping[str, StepDraft], finished: set[str], snapshot: Snapshot, today: date
) -> Standing:
    if order is not None:
        return _at_the_shop(draft, order, snapshot, today)
    wait = wait_of(draft.shop, snapshot)
    open_ = [by_key[key] for key in draft.after if key in by_key and key not in finished]
    if not open_:
        return Standing(state="ready", words="Nothing stands before it.", wait=wait)
    holds = [before for before in open_ if before.hold]
    if holds:
        words = "; ".join(f"“{before.title}” is a hold point: {before.hold}" for before in holds)
        return Standing(state="held", words=f"{words}.", wait=wait)
    words = ", ".join(f"“{before.title}”" for before in open_)
    return Standing(state="waiting", words=f"Waits for {words}.", wait=wait)


def wait_of(item: str, snapshot: Snapshot) -> Spread | None:
    """The wait for a priced item [calendar day], sharpened by how promises were kept; None where it is not known."""
    if not item:
        return certain(0)
    price = snapshot.prices.get(item)
    if price is None or price.wait_days is None:
        return None
    return spread_of(price.wait_days, times=lateness(kept_promises(snapshot.orders), shop=price.shop).median)


def _at_the_shop(draft: StepDraft, order: Order, snapshot: Snapshot, today: date) -> Standing:
    back, sent, promised = back_day(order), sent_day(order) or today, promised_day(order)
    if order.state.startswith("accepted"):
        words = f"Back from {order.shop} on {back}, {order.state}."
        return Standing(state="done", words=words, wait=certain(0), own_work=False, on=back, order=order)
    if order.state == "returned":
        words = f"Back from {order.shop} on {back}; it is not inspected in yet."
        return Standing(state="under way", words=words, wait=certain(0), own_work=False, order=order)
    elapsed = float(max((today - sent).days, 0))
    if promised is not None and promised > sent:
        late = lateness(kept_promises(snapshot.orders), shop=order.shop)
        left = late.of(float((promised - sent).days)).left_after(elapsed)
        if late.orders == 0 and promised >= today:
            left = certain(float((promised - today).days))
        words = f"At {order.shop} since {sent}, promised for {promised}, {late.words}."
    else:
        whole = wait_of(draft.shop, snapshot)
        left = None if whole is None else whole.left_after(elapsed)
        words = f"At {order.shop} since {sent}; no date is promised."
    if left is None:
        words += " Ask the shop when it comes back: " + (
            "it is overdue." if promised and promised < today else "nothing says how long it will be."
        )
    return Standing(state="under way", words=words, wait=left, own_work=False, order=order, promised=promised)
