"""Remedies, orders and fit-up of the cylinders: what they give, need and hold back."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from gudgeon.engine.bench import Bench
from gudgeon.engine.order import OrderDraft
from gudgeon.engine.origin import Range
from gudgeon.engine.plain import from_plain, to_plain
from gudgeon.engine.remedy import Remedy
from gudgeon.engine.snapshot import Price
from gudgeon.engine.verdict import Verdict
from gudgeon.outwork import drawing_svg
from gudgeon.systems.cylinders.fit_up import fit_up
from gudgeon.systems.cylinders.orders import orders
from gudgeon.systems.cylinders.pictures import pictures
from gudgeon.systems.cylinders.remedies import SUBJECT, prospects, remedies
from tests.systems.benches import INCH, THOU, Maker, three_cylinders


def keyed(bench: Bench) -> dict[str, Remedy]:
    return {remedy.key: remedy for remedy in remedies(bench)}


def gives(remedy: Remedy, item: str, quantity: str) -> float:
    value = next(finding.value for finding in remedy.gives if (finding.item, finding.quantity) == (item, quantity))
    assert value is not None
    return value


def verdict(remedy: Remedy) -> Verdict:
    return Verdict(id="v1", subject=remedy.subject, chosen=remedy, reason="test")


@pytest.fixture(scope="module")
def bench() -> Bench:
    return complete().bench()


def complete() -> Maker:
    maker = three_cylinders()
    for n in (1, 2, 3):
        maker.read("cylinder", f"cyl {n}", "bore length", 9 * INCH)
        maker.read("piston", f"piston {n}", "length", 5.5 * INCH)
        maker.read("piston", f"piston {n}", "ring groove width", 0.1885 * INCH, station="top groove")
        maker.words("ring", f"cyl {n} top ring", "joint", "step joint")
    return maker


def test_one_subject_and_every_way_is_on_the_table(bench: Bench) -> None:
    found = keyed(bench)
    assert {remedy.subject for remedy in found.values()} == {SUBJECT}
    for name in ("run-on", "hone", "bore-all/040", "bore-all/least", "bore-each", "sleeve-all", "sleeve-worst"):
        assert f"cylinders/{name}" in found


def test_a_hone_cures_neither_taper_nor_oval(bench: Bench) -> None:
    # oldengine.org, pistons: a hone cannot cure taper or ovality; round rings cannot seal an oval hole (Hawera Star, 1931).
    found = keyed(bench)
    for quantity in ("taper", "out-of-round"):
        assert gives(found["cylinders/hone"], "cyl 1", quantity) == pytest.approx(
            gives(found["cylinders/run-on"], "cyl 1", quantity)
        )
        assert gives(found["cylinders/bore-all/040"], "cyl 1", quantity) < 0.5 * THOU
    assert any("cures neither taper" in said.text for said in found["cylinders/hone"].against_it)


def test_new_rings_close_the_gap_but_the_wear_still_opens_it(bench: Bench) -> None:
    # New rings of .003 to .004 per inch (pistonrings.net) open by pi times the growth of the bore, here about 10 thou.
    gap = gives(keyed(bench)["cylinders/hone"], "cyl 1", "ring end gap at top of ring travel")
    growth = 14.0 * THOU * (1 - 0.1) * (1 - 0.3 * 0.5)
    assert gap == pytest.approx(0.0035 * 4.5 * INCH + np.pi * growth, abs=1.0 * THOU)


def test_the_first_step_that_is_sure_is_the_last_one_offered(bench: Bench) -> None:
    # 14 thou of wear, all of it perhaps on one side, and 10 of allowance: 38 thou at most, so +.040 is sure (geometry).
    steps = sorted(key for key in keyed(bench) if key.startswith("cylinders/bore-all/0"))
    assert steps[-1] == "cylinders/bore-all/040"


def test_a_measured_wall_that_is_too_thin_rules_cutting_out() -> None:
    found = keyed(three_cylinders(wall=3.2e-3).bench())
    assert found["cylinders/run-on"].possible
    assert not found["cylinders/bore-all/040"].possible
    assert "too thin" in found["cylinders/bore-all/040"].why_not


def test_an_unmeasured_wall_holds_the_order_and_does_not_rule_out() -> None:
    maker = three_cylinders(wall=None)
    bench = maker.bench()
    remedy = keyed(bench)["cylinders/bore-all/040"]
    assert remedy.possible
    assert {need.item for need in remedy.needs if need.feature == "wall thickness" and not need.met} == {
        "cyl 1",
        "cyl 2",
        "cyl 3",
    }
    draft = orders(bench, verdict(remedy))[0]
    assert any("wall thickness" in need.what for need in draft.held)


def test_nothing_can_be_bored_before_the_wear_is_known() -> None:
    maker = three_cylinders()
    maker.read("cylinder", "cyl 4", "bore diameter", 4.51 * INCH, station="top of ring travel", direction=90)
    remedy = keyed(maker.bench())["cylinders/bore-all/least"]
    assert not remedy.possible
    assert remedy.why_not.startswith("can't tell yet: read cyl 4")


def test_cost_is_the_sum_and_unknown_prices_stay_unknown() -> None:
    maker = three_cylinders()
    maker.prices = {
        "bore a cylinder": Price(
            name="bore a cylinder", cost=Range(70, 90, 140, "letter"), wait_days=Range(14, 24, 49, "letter")
        ),
        "piston made": Price(name="piston made", cost=Range(140, 175, 230, "letter"), wait_days=Range(35, 56, 98, "letter")),
    }
    remedy = keyed(maker.bench())["cylinders/bore-all/040"]
    assert remedy.cost is None
    assert remedy.unpriced == ("ring made",)
    maker.prices = {
        **maker.prices,
        "ring made": Price(name="ring made", cost=Range(14, 18, 26, "list"), wait_days=Range(14, 21, 42, "list")),
    }
    remedy = keyed(maker.bench())["cylinders/bore-all/040"]
    assert remedy.cost is not None
    assert remedy.cost.likely == 3 * 90 + 3 * 175 + 9 * 18
    assert remedy.wait_days is not None
    assert remedy.wait_days.likely == 24 + 56 + 21


def test_merit_is_the_mean_of_the_worth(bench: Bench) -> None:
    prospect = prospects(bench)[0]
    for key, remedy in keyed(bench).items():
        assert prospect.worth[key].mean() == pytest.approx(remedy.merit)
        assert 0.0 <= remedy.merit <= 1.0


def test_remedies_are_compared_on_the_same_draws(bench: Bench) -> None:
    first, second = keyed(bench), keyed(complete().bench())
    assert {key: remedy.merit for key, remedy in first.items()} == pytest.approx({key: r.merit for key, r in second.items()})


def test_steps_wait_for_steps_that_are_there(bench: Bench) -> None:
    for remedy in remedies(bench):
        keys = [step.key for step in remedy.steps]
        assert len(keys) == len(set(keys))
        for place, step in enumerate(remedy.steps):
            assert set(step.after) <= set(keys[:place]), remedy.key


def test_remedies_and_orders_can_be_sealed(bench: Bench) -> None:
    for remedy in remedies(bench):
        assert from_plain(Remedy, to_plain(remedy)) == remedy
        for draft in orders(bench, verdict(remedy)):
            assert from_plain(OrderDraft, to_plain(draft)) == draft


def test_rings_and_pistons_wait_for_the_finished_bore_and_rings_for_the_groove() -> None:
    # pistonrings.net and a rebuilder's journal: rings wait for the finished bore and the trued groove.
    maker = complete()
    bench = maker.bench()
    chosen = verdict(keyed(bench)["cylinders/bore-all/040"])
    drafts = {draft.key: draft for draft in orders(bench, chosen)}
    assert not drafts["cylinders/bore"].held
    assert len(drafts["cylinders/pistons"].held) == 3
    assert {need.kind for need in drafts["cylinders/rings"].held} == {"reading", "work"}

    for n in (1, 2, 3):
        for station in ("top of ring travel", "below ring travel"):
            maker.read("cylinder", f"cyl {n}", "bore diameter", 4.5404 * INCH, station=station, direction=90, stage="returned")
    bench = maker.bench()
    drafts = {draft.key: draft for draft in orders(bench, chosen)}
    assert not drafts["cylinders/pistons"].held
    assert [need.kind for need in drafts["cylinders/rings"].held] == ["work"]
    skirt = drafts["cylinders/pistons"].asked[0]
    assert skirt.upper < 4.5404 * INCH - 0.001 * 4.5404 * INCH  # at least .001 per inch of clearance: Pagé 1917

    for n in (1, 2, 3):
        maker.read("piston", f"piston {n}", "ring groove width", 0.1900 * INCH, station="top groove", stage="returned")
    drafts = {draft.key: draft for draft in orders(maker.bench(), chosen)}
    assert not drafts["cylinders/rings"].held
    width = next(asked for asked in drafts["cylinders/rings"].asked if asked.feature == "width")
    assert width.upper == pytest.approx(0.1890 * INCH)  # groove clearance .001: Ford bulletin 1928-31


def test_the_boring_sheet_asks_for_the_size_that_was_chosen(bench: Bench) -> None:
    draft = orders(bench, verdict(keyed(bench)["cylinders/bore-all/040"]))[0]
    assert {asked.item: asked.lower for asked in draft.asked} == pytest.approx({f"cyl {n}": 4.540 * INCH for n in (1, 2, 3)})
    assert "4.5400 in" in draft.lines[0].what
    assert any("worn hole" in words for words in draft.leave_alone)
    assert len(draft.drawings) == 3


def test_every_drawing_can_be_drawn(bench: Bench) -> None:
    for remedy in remedies(bench):
        for draft in orders(bench, verdict(remedy)):
            for drawing in draft.drawings:
                assert drawing_svg(drawing).lstrip().startswith("<")


def test_the_step_joint_is_proposed_where_none_was_noted() -> None:
    # Pagé, Aviation Engines (1917), ch. IX: the lap or step joint is the approved one.
    bench = three_cylinders().bench()
    rings = {draft.key: draft for draft in orders(bench, verdict(keyed(bench)["cylinders/hone"]))}["cylinders/rings"]
    assert dict(rings.lines[0].detail)["joint"].startswith("step, lap or step is the approved joint")


def test_running_on_orders_nothing(bench: Bench) -> None:
    assert orders(bench, verdict(keyed(bench)["cylinders/run-on"])) == ()
    other = replace(verdict(keyed(bench)["cylinders/hone"]), subject="something else")
    assert orders(bench, other) == ()


def test_fit_up_follows_the_last_step_of_the_verdict(bench: Bench) -> None:
    assert fit_up(bench) == ()
    chosen = verdict(keyed(bench)["cylinders/bore-all/040"])
    settled = replace(bench, snapshot=replace(bench.snapshot, verdicts=(chosen,)))
    steps = fit_up(settled)
    assert steps[0].after == ("cylinders/fit-rings",)
    assert all(step.hold for step in steps)


def test_pictures_of_every_cylinder(bench: Bench) -> None:
    names = [name for name, _ in pictures(bench)]
    for n in (1, 2, 3):
        assert {f"cyl {n} bore map", f"cyl {n} wall map", f"cyl {n} candidates"} <= set(names)
    assert len(names) == len(set(names))
