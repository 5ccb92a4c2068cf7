"""The history folded into what stands now. Every kind of entry and the shape of its body is listed here.

=============  ==========================================================================================================
kind           body
=============  ==========================================================================================================
job            ``outline`` (plain Outline), ``format`` (1): the first entry of every history
outline        ``outline``: takes the place of the one before
reading        the columns of the CSV as typed, ``base``, ``setting``, ``source``, ``supersedes``, ``confirmed``
refused        ``row``, ``line``, ``reason``, ``source``; ``mended`` names a refused entry that was put right since
part           plain PartNote
picture        plain PictureNote
verdict        plain Verdict
price          plain Price
aims           plain Aims
order          plain Order
order-event    ``order`` (id), ``event`` (plain OrderEvent)
step           plain StepDraft, added by hand
done           plain StepDone
=============  ==========================================================================================================

Identity, person and time come from the entry, not from its body.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, cast

from gudgeon.engine.history import Entry
from gudgeon.engine.order import Order, OrderEvent
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartNote
from gudgeon.engine.place import Place
from gudgeon.engine.plain import from_plain
from gudgeon.engine.reading import Reading, RefusedRow, Stage
from gudgeon.engine.snapshot import Aims, PictureNote, Price, Snapshot
from gudgeon.engine.step import StepDone, StepDraft
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Understood, understand

READING_COLUMNS = (
    "row", "part", "item", "feature", "station", "depth", "direction_deg", "reading", "unit", "instrument", "resolution",
    "repeat", "part_temp_c", "note", "base", "setting", "stage",
)  # fmt: skip


@dataclass
class Fold:
    """A fold under way. Feed it entries in order; ``snapshot()`` may be asked for at any time and costs little."""

    outline: Outline = field(default_factory=lambda: Outline(name=""))
    readings: dict[str, Reading] = field(default_factory=dict)
    refused: dict[str, RefusedRow] = field(default_factory=dict)
    parts: dict[str, PartNote] = field(default_factory=dict)
    pictures: list[PictureNote] = field(default_factory=list)
    verdicts: dict[str, Verdict] = field(default_factory=dict)
    orders: dict[str, Order] = field(default_factory=dict)
    prices: dict[str, Price] = field(default_factory=dict)
    aims: Aims = field(default_factory=Aims)
    steps: dict[str, StepDraft] = field(default_factory=dict)
    done: dict[str, StepDone] = field(default_factory=dict)
    superseded: list[Reading | Verdict] = field(default_factory=list)
    head: str = ""
    entries: int = 0

    def feed(self, entries: Iterable[Entry]) -> Fold:
        """Take in entries, oldest first. An unknown kind raises ValueError: a newer gudgeon wrote it."""
        for entry in entries:
            try:
                take = _KINDS[entry.kind]
            except KeyError:
                raise ValueError(
                    f"Entry {entry.seq} is of kind “{entry.kind}”, which this gudgeon does not know: "
                    "a newer version wrote this job; open it with that one."
                ) from None
            take(self, entry)
            self.head, self.entries = entry.digest, entry.seq
        return self

    def snapshot(self) -> Snapshot:
        """What stands now."""
        return Snapshot(
            outline=self.outline,
            readings=tuple(self.readings.values()),
            refused=tuple(self.refused.values()),
            parts=tuple(self.parts.values()),
            pictures=tuple(self.pictures),
            verdicts=tuple(self.verdicts.values()),
            orders=tuple(self.orders.values()),
            prices=dict(self.prices),
            aims=self.aims,
            steps=tuple(self.steps.values()),
            done=tuple(self.done.values()),
            superseded=tuple(self.superseded),
            head=self.head,
            entries=self.entries,
        )


def fold(entries: Iterable[Entry]) -> Snapshot:
    """The snapshot of a whole history."""
    return Fold().feed(entries).snapshot()


def reading_of(entry: Entry) -> Reading:
    """The reading in an entry of that kind, understood again from what was typed."""
    body = entry.body
    return Reading(
        id=entry.id,
        place=place_of(body),
        typed=str(body.get("reading", "")),
        unit=str(body.get("unit", "")),
        understood=understood_of(body),
        base=str(body.get("base", "")),
        instrument=str(body.get("instrument", "")),
        resolution=_step(body),
        setting=str(body.get("setting", "")),
        repeat=int(body["repeat"]) if body.get("repeat") else None,
        temperature=float(body["part_temp_c"]) if body.get("part_temp_c") else None,
        note=str(body.get("note", "")),
        row=int(body["row"]) if body.get("row") else None,
        source=str(body.get("source", "")),
        person=entry.person,
        at=entry.at,
        supersedes=str(body.get("supersedes", "")),
        confirmed=bool(body.get("confirmed", False)),
        stage=cast(Stage, body.get("stage") or "found"),
    )


def place_of(body: Mapping[str, Any]) -> Place:
    """The place a reading's columns name. ``depth`` is typed in the row's unit unless it carries its own."""
    depth = str(body.get("depth", "") or "")
    direction = str(body.get("direction_deg", "") or "")
    unit = str(body.get("unit", "") or "in")
    return Place(
        part=str(body["part"]),
        item=str(body["item"]),
        feature=str(body.get("feature", "")),
        station=str(body.get("station", "") or ""),
        depth=understand(depth, unit=unit).value if depth else None,
        direction=float(direction) if direction else None,
    )


def understood_of(body: Mapping[str, Any]) -> Understood:
    """The meaning of a reading's typed text under its unit and base. Raises NotUnderstood."""
    return understand(
        str(body.get("reading", "")), unit=str(body.get("unit", "") or "") or None, base=str(body.get("base", "") or "") or None
    )


def _step(body: Mapping[str, Any]) -> float | None:
    typed = str(body.get("resolution", "") or "")
    return understand(typed, unit=str(body.get("unit", "") or "") or None).value if typed else None


def _outline(state: Fold, entry: Entry) -> None:
    state.outline = from_plain(Outline, entry.body["outline"])


def _reading(state: Fold, entry: Entry) -> None:
    reading = reading_of(entry)
    if old := state.readings.pop(reading.supersedes, None):
        state.superseded.append(old)
    state.readings[reading.id] = reading


def _refused(state: Fold, entry: Entry) -> None:
    if mended := entry.body.get("mended"):
        state.refused.pop(str(mended), None)
        return
    state.refused[entry.id] = RefusedRow(
        id=entry.id,
        row=int(entry.body["row"]),
        line=str(entry.body["line"]),
        reason=str(entry.body["reason"]),
        source=str(entry.body.get("source", "")),
        person=entry.person,
        at=entry.at,
    )


def _part(state: Fold, entry: Entry) -> None:
    note = replace(from_plain(PartNote, entry.body), id=entry.id, person=entry.person, at=entry.at)
    state.parts.pop(note.supersedes, None)
    state.parts[note.id] = note


def _picture(state: Fold, entry: Entry) -> None:
    state.pictures.append(replace(from_plain(PictureNote, entry.body), person=entry.person, at=entry.at))


def _verdict(state: Fold, entry: Entry) -> None:
    verdict = replace(from_plain(Verdict, entry.body), id=entry.id, person=entry.person, at=entry.at)
    for old in [old for old in state.verdicts.values() if old.subject == verdict.subject]:
        state.superseded.append(state.verdicts.pop(old.id))
        verdict = replace(verdict, supersedes=old.id)
    state.verdicts[verdict.id] = verdict


def _price(state: Fold, entry: Entry) -> None:
    price = replace(from_plain(Price, entry.body), person=entry.person, at=entry.at)
    state.prices[price.name] = price


def _aims(state: Fold, entry: Entry) -> None:
    state.aims = from_plain(Aims, entry.body)


def _order(state: Fold, entry: Entry) -> None:
    state.orders[entry.id] = replace(from_plain(Order, entry.body), id=entry.id, person=entry.person, at=entry.at)


def _order_event(state: Fold, entry: Entry) -> None:
    order = state.orders[str(entry.body["order"])]
    event = replace(from_plain(OrderEvent, entry.body["event"]), person=entry.person, at=entry.at)
    state.orders[order.id] = replace(order, events=(*order.events, event))


def _hand_step(state: Fold, entry: Entry) -> None:
    step = from_plain(StepDraft, entry.body)
    state.steps[step.key] = step


def _done(state: Fold, entry: Entry) -> None:
    done = replace(from_plain(StepDone, entry.body), person=entry.person)
    state.done[done.key] = done


_KINDS: dict[str, Callable[[Fold, Entry], None]] = {
    "job": _outline,
    "outline": _outline,
    "reading": _reading,
    "refused": _refused,
    "part": _part,
    "picture": _picture,
    "verdict": _verdict,
    "price": _price,
    "aims": _aims,
    "order": _order,
    "order-event": _order_event,
    "step": _hand_step,
    "done": _done,
}
