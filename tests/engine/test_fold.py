from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from gudgeon.engine.drawing import Drawing, Line, View
from gudgeon.engine.finding import Finding
from gudgeon.engine.fold import Fold, NotFolded, fold
from gudgeon.engine.history import FIRST, Entry, sealed
from gudgeon.engine.order import Order, OrderDraft, OrderEvent, OrderLine
from gudgeon.engine.origin import Range
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartNote
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.plain import to_plain
from gudgeon.engine.remedy import Caution, Remedy
from gudgeon.engine.snapshot import Aims, PictureNote, Price, natural
from gudgeon.engine.step import StepDone, StepDraft
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Said

ROW = {
    "part": "cylinder", "item": "cyl 1", "feature": "bore diameter", "station": "2", "depth": "1 1/2", "direction_deg": "90",
    "reading": "5.128", "unit": "in", "instrument": "telescoping gauge", "resolution": ".001", "repeat": "1",
    "part_temp_c": "18.5", "note": "wiped dry", "row": "12", "source": "bench.csv",
}  # fmt: skip


class History:
    """Entries one after another, as a job file would hand them out."""

    def __init__(self) -> None:
        self.entries: list[Entry] = []
        self.add("job", {"format": 1, "outline": to_plain(Outline(name="mill engine", cylinders=3))})

    def add(self, kind: str, body: Mapping[str, Any], id: str = "", *, person: str = "Owner") -> Entry:
        seq = len(self.entries) + 1
        previous = self.entries[-1].digest if self.entries else FIRST
        at = f"2026-11-{seq:02}T09:00:00Z"
        entry = sealed(seq=seq, id=id or f"e{seq}", kind=kind, body=body, person=person, at=at, previous=previous)
        self.entries.append(entry)
        return entry


@pytest.fixture
def history() -> History:
    return History()


def verdict(subject: str, reason: str) -> dict[str, Any]:
    remedy = Remedy(
        key="cylinders/bore/.020", system="cylinders", subject=subject, title=Said("Bore"), action="make good",
        items=("cyl 1",), intervention="irreversible", original="", parameters={"size": 0.130683},
    )  # fmt: skip
    finding = Finding(system="cylinders", part="cylinder", item="cyl 1", quantity="taper", dimension="length", value=7.6e-5)
    plain: dict[str, Any] = to_plain(Verdict(id="", subject=subject, chosen=remedy, reason=reason, findings=(finding,)))
    return plain


# -- each kind ------------------------------------------------------------------------------------------------------------


def test_job_and_its_newest_outline(history: History) -> None:
    assert fold(history.entries).outline == Outline(name="mill engine", cylinders=3)
    history.add("outline", {"outline": to_plain(Outline(name="mill engine", cylinders=2))})
    assert fold(history.entries).outline.cylinders == 2


def test_reading_with_every_column(history: History) -> None:
    """Inch figures by the exact 25.4 mm (1959 international yard agreement)."""
    history.add("reading", ROW, "r1", person="Mate")
    (reading,) = fold(history.entries).readings
    assert reading.id == "r1"
    assert (reading.place.part, reading.place.item, reading.place.feature, reading.place.station) == (
        "cylinder", "cyl 1", "bore diameter", "2",
    )  # fmt: skip
    assert reading.place.depth == pytest.approx(0.0381, rel=1e-12)
    assert reading.place.direction == 90.0
    assert (reading.typed, reading.unit) == ("5.128", "in")
    assert reading.understood.value == pytest.approx(0.1302512, rel=1e-12)
    assert reading.resolution == pytest.approx(25.4e-6, rel=1e-12)
    assert (reading.repeat, reading.temperature, reading.row) == (1, 18.5, 12)
    assert (reading.instrument, reading.note, reading.source) == ("telescoping gauge", "wiped dry", "bench.csv")
    assert (reading.person, reading.at) == ("Mate", "2026-11-02T09:00:00Z")
    assert reading.stage == "found"
    assert not reading.confirmed


def test_reading_with_hardly_any_column(history: History) -> None:
    history.add("reading", {"part": "cylinder", "item": "cyl 1", "reading": "130.2", "unit": "mm"})
    (reading,) = fold(history.entries).readings
    assert reading.understood.value == pytest.approx(0.1302, rel=1e-12)
    assert (reading.place.depth, reading.place.direction, reading.resolution, reading.repeat) == (None, None, None, None)


def test_deviation_counts_from_its_base(history: History) -> None:
    history.add("reading", {**ROW, "reading": "+3", "unit": "thou", "base": "5 1/8", "depth": "", "resolution": ""})
    (reading,) = fold(history.entries).readings
    assert reading.understood.value == pytest.approx(5.128 * 0.0254, rel=1e-12)
    assert reading.base == "5 1/8"


def test_place_that_was_not_reached_is_a_reading_too(history: History) -> None:
    history.add("reading", {**ROW, "reading": "not reached"})
    (reading,) = fold(history.entries).readings
    assert reading.understood.kind == "not taken"
    assert reading.understood.value is None


def test_stages_are_kept_apart(history: History) -> None:
    for stage in ("", "returned", "fitted"):
        history.add("reading", {**ROW, "stage": stage})
    snapshot = fold(history.entries)
    key = FeatureKey("cylinder", "cyl 1", "bore diameter")
    assert [reading.id for reading in snapshot.by_feature[key]] == ["e2"]
    assert [reading.id for reading in snapshot.returned[key]] == ["e3"]
    assert [reading.id for reading in snapshot.fitted[key]] == ["e4"]
    assert snapshot.readings_of(key) == snapshot.by_feature[key]
    assert snapshot.readings_of(FeatureKey("cylinder", "cyl 9", "bore diameter")) == ()


def test_refused_line_and_its_mending(history: History) -> None:
    body = {"row": 3, "line": "cylinder,cyl 1,bore,5..1,in", "reason": "“5..1” has two points.", "source": "bench.csv"}
    history.add("refused", body, "bad")
    (refused,) = fold(history.entries).refused
    assert (refused.id, refused.row, refused.line, refused.reason) == ("bad", 3, body["line"], body["reason"])
    assert (refused.source, refused.person) == ("bench.csv", "Owner")
    history.add("reading", ROW)
    history.add("refused", {"mended": "bad"})
    assert fold(history.entries).refused == ()


def test_part_note_and_its_correction(history: History) -> None:
    note = PartNote(id="", part="cylinder", item="cyl 2", tag=7, marks="II", shims="3 a side")
    history.add("part", to_plain(note), "n1")
    history.add("part", {**to_plain(note), "marks": "III", "supersedes": "n1"}, "n2", person="Mate")
    (part,) = fold(history.entries).parts
    assert (part.id, part.marks, part.shims, part.tag, part.person) == ("n2", "III", "3 a side", 7, "Mate")


def test_picture(history: History) -> None:
    history.add("picture", to_plain(PictureNote(digest="ab" * 32, name="plate.jpg", note="before cleaning")))
    (picture,) = fold(history.entries).pictures
    assert (picture.name, picture.person, picture.at) == ("plate.jpg", "Owner", "2026-11-02T09:00:00Z")


def test_price_of_one_name_is_replaced(history: History) -> None:
    for likely in (80.0, 95.0):
        cost = Range(60.0, likely, 120.0, "quotation")
        history.add("price", to_plain(Price(name="bore a cylinder", cost=cost, wait_days=None, shop="Lower Works")))
    history.add("price", to_plain(Price(name="rings", cost=None, wait_days=None)))
    prices = fold(history.entries).prices
    assert set(prices) == {"bore a cylinder", "rings"}
    assert prices["bore a cylinder"].cost == Range(60.0, 95.0, 120.0, "quotation")
    assert prices["bore a cylinder"].person == "Owner"


def test_aims_are_replaced(history: History) -> None:
    assert fold(history.entries).aims == Aims()
    history.add("aims", to_plain(Aims(run_by="2027-05-01", purse=900.0, away=(("2027-01-02", "2027-01-09"),))))
    assert fold(history.entries).aims.away == (("2027-01-02", "2027-01-09"),)


def test_verdict_takes_the_place_of_the_one_on_the_same_subject(history: History) -> None:
    history.add("verdict", verdict("cylinders: bores", "quotation came"), "v1")
    history.add("verdict", verdict("bearings: mains", "sound"), "v2")
    history.add("verdict", verdict("cylinders: bores", "too dear"), "v3", person="Mate")
    snapshot = fold(history.entries)
    assert [standing.id for standing in snapshot.verdicts] == ["v2", "v3"]
    now = snapshot.verdict_on("cylinders: bores")
    assert now is not None
    assert (now.id, now.supersedes, now.person, now.reason) == ("v3", "v1", "Mate", "too dear")
    (old,) = snapshot.superseded
    assert isinstance(old, Verdict)
    assert (old.id, old.reason, old.chosen.parameters, old.findings[0].value) == (
        "v1", "quotation came", {"size": 0.130683}, 7.6e-5,
    )  # fmt: skip
    assert snapshot.verdict_on("gears") is None


def test_order_and_what_happens_to_it(history: History) -> None:
    drawing = Drawing(
        number="1", title="Bore", part="cylinder", item="cyl 1", material="", finish="",
        views=(View(title="", items=(Line((0.0, 0.0), (1.0, 1.0)),)),),
    )  # fmt: skip
    draft = OrderDraft(
        key="k", system="cylinders", verdict="v1", title="Bore three", to="a boring shop",
        lines=(OrderLine(3, "cylinders"),), asked=(), drawings=(drawing,),
        cautions=(Caution("lead", "Wash.", "common practice"),),
    )  # fmt: skip
    order = Order(id="", draft=draft, shop="Lower Works", price=240.0, promised="2027-02-01", person="", at="")
    history.add("order", to_plain(order), "o1")
    event = OrderEvent(state="promised", on="2026-12-01", note="by telephone", person="", at="")
    history.add("order-event", {"order": "o1", "event": to_plain(event)}, person="Mate")
    history.add("order-event", {"order": "o1", "event": {**to_plain(event), "state": "returned", "on": "2027-02-03"}})
    (sent,) = fold(history.entries).orders
    assert (sent.id, sent.person, sent.at, sent.draft) == ("o1", "Owner", "2026-11-02T09:00:00Z", draft)
    assert [(happened.state, happened.person) for happened in sent.events] == [("promised", "Mate"), ("returned", "Owner")]
    assert sent.state == "returned"


def test_event_of_an_order_that_is_not_there_is_said(history: History) -> None:
    event = OrderEvent(state="returned", on="", note="", person="", at="")
    history.add("order-event", {"order": "o9", "event": to_plain(event)})
    with pytest.raises(NotFolded, match=r"Entry 2 \(order-event, .*\) speaks of the order “o9”, which is not in this job"):
        fold(history.entries)


def test_steps_by_hand_and_done(history: History) -> None:
    history.add("step", to_plain(StepDraft(key="own/paint", title="Paint", system="own", hours=Range(1.0, 2.0, 4.0, "guess"))))
    history.add("step", to_plain(StepDraft(key="own/paint", title="Paint twice", system="own")))
    history.add("done", to_plain(StepDone(key="own/paint", on="2027-03-01", person="", note="two coats")))
    snapshot = fold(history.entries)
    assert [step.title for step in snapshot.steps] == ["Paint twice"]
    (done,) = snapshot.done
    assert (done.key, done.on, done.person, done.note) == ("own/paint", "2027-03-01", "Owner", "two coats")


# -- corrections ----------------------------------------------------------------------------------------------------------


def test_correction_takes_the_place_and_the_old_reading_is_kept(history: History) -> None:
    history.add("reading", ROW, "r1")
    history.add("reading", {**ROW, "reading": "5.138", "supersedes": "r1"}, "r2")
    snapshot = fold(history.entries)
    assert [(reading.id, reading.typed) for reading in snapshot.readings] == [("r2", "5.138")]
    assert [old.id for old in snapshot.superseded] == ["r1"]


def test_two_corrections_of_one_reading_are_not_two_readings(history: History) -> None:
    """Desk and phone both corrected the same reading: of one line of corrections the newest stands, all are kept."""
    history.add("reading", ROW, "r1")
    history.add("reading", {**ROW, "reading": "5.138", "supersedes": "r1"}, "desk")
    history.add("reading", {**ROW, "reading": "5.137", "supersedes": "r1"}, "phone", person="Mate")
    snapshot = fold(history.entries)
    assert [reading.id for reading in snapshot.readings] == ["phone"]
    assert [old.id for old in snapshot.superseded] == ["r1", "desk"]


def test_correction_of_nothing_is_a_reading(history: History) -> None:
    history.add("reading", {**ROW, "supersedes": "never there"}, "r1")
    assert [reading.id for reading in fold(history.entries).readings] == ["r1"]


def test_reading_no_longer_understood_does_not_close_the_job(history: History) -> None:
    history.add("reading", {**ROW, "reading": "5..128"}, "odd")
    history.add("reading", {**ROW, "direction_deg": "sideways"}, "odd too")
    history.add("reading", ROW, "good")
    snapshot = fold(history.entries)
    assert [reading.id for reading in snapshot.readings] == ["good"]
    odd, odd_too = snapshot.refused
    assert (odd.id, odd.row, odd.source, odd.person) == ("odd", 12, "bench.csv", "Owner")
    assert "5..128" in odd.line
    assert "wiped dry" in odd.line
    assert "5..128" in odd.reason
    assert "sideways" in odd_too.line
    history.add("reading", {**ROW, "supersedes": "odd"}, "mended")
    assert [refused.id for refused in fold(history.entries).refused] == ["odd too"]


# -- the fold as a whole ----------------------------------------------------------------------------------------------------


def test_fed_in_pieces_or_at_once_is_the_same(history: History) -> None:
    history.add("reading", ROW, "r1")
    history.add("verdict", verdict("cylinders: bores", "so"), "v1")
    history.add("reading", {**ROW, "reading": "5.138", "supersedes": "r1"}, "r2")
    history.add("verdict", verdict("cylinders: bores", "otherwise"), "v2")
    piecewise = Fold()
    for entry in history.entries:
        piecewise.feed([entry])
        piecewise.snapshot()
    assert piecewise.snapshot() == fold(history.entries)
    assert piecewise.head == history.entries[-1].digest
    assert piecewise.snapshot().entries == 5


def test_snapshot_stands_still_while_the_fold_goes_on(history: History) -> None:
    state = Fold().feed(history.entries)
    before = state.snapshot()
    state.feed([history.add("price", to_plain(Price(name="rings", cost=None, wait_days=None))), history.add("reading", ROW)])
    assert (before.prices, before.readings, before.entries) == ({}, (), 1)


def test_unknown_kind_is_a_newer_version(history: History) -> None:
    history.add("reading", ROW, "r1")
    history.add("hologram", {})
    state = Fold()
    with pytest.raises(NotFolded, match=r"Entry 3 \(hologram, .*\) is of a kind that this gudgeon does not know") as fault:
        state.feed(history.entries)
    assert fault.value.seq == 3
    assert state.entries == 2, "what came before is in"


def test_newer_format_is_refused(history: History) -> None:
    history.add("job", {"format": 2, "outline": {"name": "x"}})
    with pytest.raises(NotFolded, match="is written in format 2; this gudgeon reads format 1"):
        fold(history.entries)


def test_field_of_a_newer_version_is_said(history: History) -> None:
    history.add("aims", {"is": "Aims", "glory": 3})
    with pytest.raises(NotFolded, match=r"Entry 2 \(aims, .*\) cannot be read: Aims: glory is no field of it"):
        fold(history.entries)


def test_body_that_lacks_something_is_said(history: History) -> None:
    history.add("outline", {})
    with pytest.raises(NotFolded, match=r"Entry 2 .* cannot be read: 'outline' is missing or out of place"):
        fold(history.entries)


# -- the snapshot -----------------------------------------------------------------------------------------------------------


def test_items_come_in_natural_order(history: History) -> None:
    for item in ("cyl 10", "cyl 2", "Cyl 1"):
        history.add("reading", {**ROW, "item": item})
    history.add("part", to_plain(PartNote(id="", part="cylinder", item="cyl 3")))
    snapshot = fold(history.entries)
    assert snapshot.items("cylinder") == ("Cyl 1", "cyl 2", "cyl 3", "cyl 10")
    assert snapshot.items("piston") == ()


def test_natural_order_takes_any_name() -> None:
    """Digits that are no decimal digits (the square sign) are letters like any other."""
    names = ["²", "valve 10", "valve 9b", "valve 9a", "", "7"]
    assert sorted(names, key=natural) == ["", "7", "valve 9a", "valve 9b", "valve 10", "²"]
