"""The history folded into what stands now. Every kind of entry and the shape of its body is listed here.

=============  ==========================================================================================================
kind           body
=============  ==========================================================================================================
job            ``outline`` (plain Outline), ``format`` (1): the first entry of every history
outline        ``outline``: takes the place of the one before
reading        the columns of the CSV as typed, ``base``, ``setting``, ``source``, ``supersedes``, ``confirmed``
refused        ``row``, ``line``, ``reason``, ``source``; ``mended`` names a refused entry that was put right since
part           plain PartNote; ``supersedes`` names an older note of the same part
picture        plain PictureNote; one of the same ``digest`` takes the older one's place
marks          plain PhotoMarks: all that is drawn on one picture; takes the place of those before
verdict        plain Verdict
price          plain Price
aims           plain Aims
order          plain Order
order-event    ``order`` (id), ``event`` (plain OrderEvent)
step           plain StepDraft, added by hand
done           plain StepDone
=============  ==========================================================================================================

Identity, person and time come from the entry, not from its body.

A correction of a reading that somebody else has corrected meanwhile takes the place of that correction: of one line of
corrections the newest stands. A reading that this version no longer understands is shown among the refused, so that the
job opens and the person can put it right.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any, cast

from gudgeon.engine.collector import collector_held
from gudgeon.engine.history import Entry
from gudgeon.engine.order import Order, OrderEvent
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartNote
from gudgeon.engine.photo import PhotoMarks
from gudgeon.engine.place import FeatureKey, Place
from gudgeon.engine.plain import NotPlain, from_plain
from gudgeon.engine.quick import quick
from gudgeon.engine.reading import Reading, RefusedRow, Stage
from gudgeon.engine.snapshot import Aims, PictureNote, Price, Snapshot
from gudgeon.engine.step import StepDone, StepDraft
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Understood, understand

READING_COLUMNS = (
    "row", "part", "item", "feature", "station", "depth", "direction_deg", "reading", "unit", "instrument", "resolution",
    "repeat", "part_temp_c", "note", "base", "setting", "stage",
)  # fmt: skip


_REMEMBERED = 65_536
_make_reading = quick(Reading)
_NEWER = "If a newer version wrote this job, open it with that one."

FORMAT = 1
"""Of the bodies; an entry of kind ``job`` names the one its history is written in."""


class NotFolded(ValueError):
    """An entry that cannot be taken in; ``seq`` is its number."""

    def __init__(self, entry: Entry, sentence: str) -> None:
        self.seq = entry.seq
        super().__init__(f"Entry {entry.seq} ({entry.kind}, {entry.at}) {sentence}")


@dataclass
class Fold:
    """A fold under way. Feed it entries in order; ``snapshot()`` may be asked for at any time and costs little: whatever
    did not change since the last one is handed out again as it is."""

    outline: Outline = field(default_factory=lambda: Outline(name=""))
    readings: dict[str, Reading] = field(default_factory=dict)
    refused: dict[str, RefusedRow] = field(default_factory=dict)
    parts: dict[str, PartNote] = field(default_factory=dict)
    pictures: dict[str, PictureNote] = field(default_factory=dict)
    marks: dict[str, PhotoMarks] = field(default_factory=dict)
    verdicts: dict[str, Verdict] = field(default_factory=dict)
    orders: dict[str, Order] = field(default_factory=dict)
    prices: dict[str, Price] = field(default_factory=dict)
    aims: Aims = field(default_factory=Aims)
    steps: dict[str, StepDraft] = field(default_factory=dict)
    done: dict[str, StepDone] = field(default_factory=dict)
    superseded: list[Reading | Verdict] = field(default_factory=list)
    replaced: dict[str, str] = field(default_factory=dict)
    part_lines: dict[str, str] = field(default_factory=dict)
    groups: dict[Stage, dict[FeatureKey, dict[str, Reading]]] = field(default_factory=dict)
    changed: set[str] = field(default_factory=set)
    regrouped: set[tuple[Stage, FeatureKey]] = field(default_factory=set)
    kept: dict[str, Any] = field(default_factory=dict)
    head: str = ""
    entries: int = 0

    def feed(self, entries: Iterable[Entry]) -> Fold:
        """Take in entries, oldest first. Raises NotFolded at the first that can't be taken in; those before it are in."""
        with collector_held():
            for entry in entries:
                self._take(entry)
                self.head, self.entries = entry.digest, entry.seq
        return self

    def _take(self, entry: Entry) -> None:
        take = _KINDS.get(entry.kind)
        if take is None:
            raise NotFolded(entry, f"is of a kind that this gudgeon does not know. {_NEWER}")
        self.changed.update(_CHANGES.get(entry.kind, ()))
        try:
            take(self, entry)
        except NotPlain as fault:
            raise NotFolded(entry, f"cannot be read: {fault} {_NEWER}") from fault
        except (KeyError, TypeError, AttributeError) as fault:
            raise NotFolded(entry, f"cannot be read: {fault} is missing or out of place. {_NEWER}") from fault

    def snapshot(self) -> Snapshot:
        """What stands now."""
        if "readings" in self.changed or not self.kept:
            self.kept["reading_index"] = dict(self.readings)
        for name in _COLLECTIONS if "readings" not in self.kept else self.changed:
            value = getattr(self, name)
            self.kept[name] = dict(value) if name in _MAPPINGS else tuple(value.values() if isinstance(value, dict) else value)
        self.changed.clear()
        snapshot = Snapshot(
            outline=self.outline,
            aims=self.aims,
            head=self.head,
            entries=self.entries,
            **{name: self.kept[name] for name in _COLLECTIONS},
        )
        # What Snapshot would otherwise gather afresh from fifty thousand readings.
        snapshot.__dict__["reading_index"] = self.kept["reading_index"]
        for stage, name in _GROUPED:
            snapshot.__dict__[name] = self._grouped(stage)
        self.regrouped.clear()
        return snapshot

    def _grouped(self, stage: Stage) -> Mapping[FeatureKey, tuple[Reading, ...]]:
        held = self.kept.get(f"grouped {stage}")
        changed = {key for of, key in self.regrouped if of == stage}
        if held is None or changed:
            old = held or {}
            held = {
                key: tuple(group.values()) if key in changed or key not in old else old[key]
                for key, group in self.groups.get(stage, {}).items()
            }
            self.kept[f"grouped {stage}"] = held
        return cast(Mapping[FeatureKey, tuple[Reading, ...]], held)

    def put(self, reading: Reading) -> None:
        """Take a reading in."""
        self.readings[reading.id] = reading
        self.groups.setdefault(reading.stage, {}).setdefault(reading.key, {})[reading.id] = reading
        self.regrouped.add((reading.stage, reading.key))

    def withdraw(self, identity: str) -> Reading | None:
        """Take a reading out, if it is there."""
        reading = self.readings.pop(identity, None)
        if reading is not None:
            groups = self.groups[reading.stage]
            del groups[reading.key][identity]
            if not groups[reading.key]:
                del groups[reading.key]
            self.regrouped.add((reading.stage, reading.key))
        return reading


def fold(entries: Iterable[Entry]) -> Snapshot:
    """The snapshot of a whole history."""
    return Fold().feed(entries).snapshot()


def reading_of(entry: Entry) -> Reading:
    """The reading in an entry of that kind, understood again from what was typed. Raises NotUnderstood, ValueError."""
    get = entry.body.get
    repeat, temperature, row = get("repeat"), get("part_temp_c"), get("row")
    return _make_reading(
        id=entry.id,
        place=place_of(entry.body),
        typed=str(get("reading", "")),
        unit=str(get("unit", "")),
        understood=understood_of(entry.body),
        base=str(get("base", "")),
        instrument=str(get("instrument", "")),
        resolution=_step(entry.body),
        setting=str(get("setting", "")),
        repeat=int(repeat) if repeat else None,
        temperature=float(temperature) if temperature else None,
        note=str(get("note", "")),
        row=int(row) if row else None,
        source=str(get("source", "")),
        person=entry.person,
        at=entry.at,
        supersedes=str(get("supersedes", "")),
        confirmed=bool(get("confirmed", False)),
        stage=cast(Stage, get("stage") or "found"),
    )


def place_of(body: Mapping[str, Any]) -> Place:
    """The place a reading's columns name. ``depth`` is typed in the row's unit unless it carries its own."""
    get = body.get
    return _place(
        str(body["part"]),
        str(body["item"]),
        str(get("feature", "")),
        str(get("station") or ""),
        str(get("depth") or ""),
        str(get("direction_deg") or ""),
        str(get("unit") or "in"),
    )


@lru_cache(maxsize=_REMEMBERED)
def _place(part: str, item: str, feature: str, station: str, depth: str, direction: str, unit: str) -> Place:
    return Place(
        part=part,
        item=item,
        feature=feature,
        station=station,
        depth=understand(depth, unit=unit).value if depth else None,
        direction=float(direction) if direction else None,
    )


def understood_of(body: Mapping[str, Any]) -> Understood:
    """The meaning of a reading's typed text under its unit and base. Raises NotUnderstood."""
    get = body.get
    return understand(str(get("reading", "")), unit=str(get("unit") or "") or None, base=str(get("base") or "") or None)


def _step(body: Mapping[str, Any]) -> float | None:
    typed = body.get("resolution")
    return understand(str(typed), unit=str(body.get("unit") or "") or None).value if typed else None


def _job(state: Fold, entry: Entry) -> None:
    form = entry.body.get("format", FORMAT)
    if form != FORMAT:
        raise NotFolded(entry, f"is written in format {form}; this gudgeon reads format {FORMAT}. {_NEWER}")
    _outline(state, entry)


def _outline(state: Fold, entry: Entry) -> None:
    state.outline = from_plain(Outline, entry.body["outline"])


def _reading(state: Fold, entry: Entry) -> None:
    try:
        reading = reading_of(entry)
    except (ValueError, KeyError) as fault:
        state.refused[entry.id] = _no_longer_understood(entry, fault)
        return
    if reading.supersedes:
        _replace_reading(state, reading)
    state.put(reading)


def _replace_reading(state: Fold, reading: Reading) -> None:
    state.refused.pop(reading.supersedes, None)
    old = reading.supersedes
    while old in state.replaced:
        old = state.replaced[old]
    if replaced := state.withdraw(old):
        state.superseded.append(replaced)
        state.replaced[old] = reading.id


def _no_longer_understood(entry: Entry, fault: Exception) -> RefusedRow:
    body = entry.body
    row = str(body.get("row") or "")
    return RefusedRow(
        id=entry.id,
        row=int(row) if row.isdecimal() else 0,
        line=",".join(str(body.get(name, "")) for name in READING_COLUMNS),
        reason=f"{fault} is missing." if isinstance(fault, KeyError) else str(fault),
        source=str(body.get("source", "")),
        person=entry.person,
        at=entry.at,
    )


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
    old = state.parts.pop(state.part_lines.get(note.supersedes, note.supersedes), None)
    line, off = (old.line, old.off) if old else (note.id, entry.seq)
    state.part_lines[note.id] = line
    # Filed under the first note of the line, so that every later one, whichever it names, finds the newest.
    state.parts[line] = replace(note, line=line, off=off)


def _picture(state: Fold, entry: Entry) -> None:
    note = replace(from_plain(PictureNote, entry.body), person=entry.person, at=entry.at)
    state.pictures[note.digest] = note


def _marks(state: Fold, entry: Entry) -> None:
    marks = replace(from_plain(PhotoMarks, entry.body), person=entry.person, at=entry.at)
    state.marks[marks.digest] = marks


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
    order = state.orders.get(str(entry.body["order"]))
    if order is None:
        raise NotFolded(entry, f"speaks of the order “{entry.body['order']}”, which is not in this job.")
    event = replace(from_plain(OrderEvent, entry.body["event"]), person=entry.person, at=entry.at)
    state.orders[order.id] = replace(order, events=(*order.events, event))


def _hand_step(state: Fold, entry: Entry) -> None:
    step = from_plain(StepDraft, entry.body)
    state.steps[step.key] = step


def _done(state: Fold, entry: Entry) -> None:
    done = replace(from_plain(StepDone, entry.body), person=entry.person)
    state.done[done.key] = done


_KINDS: dict[str, Callable[[Fold, Entry], None]] = {
    "job": _job,
    "outline": _outline,
    "reading": _reading,
    "refused": _refused,
    "part": _part,
    "picture": _picture,
    "marks": _marks,
    "verdict": _verdict,
    "price": _price,
    "aims": _aims,
    "order": _order,
    "order-event": _order_event,
    "step": _hand_step,
    "done": _done,
}

_MAPPINGS = ("prices", "marks", "part_lines")
_COLLECTIONS = (
    "readings", "refused", "parts", "pictures", "verdicts", "orders", "prices", "steps", "done", "superseded", "marks",
    "part_lines",
)  # fmt: skip
_GROUPED: tuple[tuple[Stage, str], ...] = (("found", "by_feature"), ("returned", "returned"), ("fitted", "fitted"))
_CHANGES: dict[str, tuple[str, ...]] = {
    "reading": ("readings", "refused", "superseded"),
    "refused": ("refused",),
    "part": ("parts", "part_lines"),
    "picture": ("pictures",),
    "marks": ("marks",),
    "verdict": ("verdicts", "superseded"),
    "price": ("prices",),
    "order": ("orders",),
    "order-event": ("orders",),
    "step": ("steps",),
    "done": ("done",),
}
"""Which of the collections an entry of a kind may change."""
