"""Pivots on a bench built by hand: wear found again, the fit that the use asks for, ways to make good, orders and drawings."""

from __future__ import annotations

from dataclasses import replace

import pytest

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.outline import Outline
from gudgeon.engine.verdict import Verdict
from gudgeon.outwork import drawing_dxf, drawing_svg
from gudgeon.systems.pivots import SYSTEM
from gudgeon.systems.pivots.joints import Pivots
from tests.systems.benches import INCH, THOU, Maker


def lever(
    *, pin_wear: float = 2.0, eye_wear: float = 5.0, boss: float | None = 1.0, use: str = "", condition: str = ""
) -> Maker:
    """A half-inch pin in a lever's eye, worn by so many thou; boss in inch."""
    maker = Maker(outline=Outline(name="test", cylinders=1, rated_speed=450), noise=0.1 * THOU)
    nominal = 0.5 * INCH
    for level in ("boss end", "other boss end"):
        for direction in (0, 90):
            maker.read("lever", "throttle lever pivot", "diameter", nominal, station=level, direction=direction)
    for direction in (0, 90):
        maker.read(
            "lever",
            "throttle lever pivot",
            "diameter",
            nominal - pin_wear * THOU * (direction == 90),
            station="rod",
            direction=direction,
        )
        wide = 1.0 * THOU + eye_wear * THOU * (direction == 90)
        maker.read("lever", "throttle lever pivot", "bush bore", nominal + wide, station="one end", direction=direction)
    if boss is not None:
        maker.read("lever", "throttle lever pivot", "boss outside diameter", boss * INCH)
    maker.read("lever", "throttle lever pivot", "bush length", 0.75 * INCH)
    maker.read("lever", "throttle lever pivot", "length", 2.0 * INCH)
    if use:
        maker.words("lever", "throttle lever pivot", "use", use)
    if condition:
        maker.words("lever", "throttle lever pivot", "condition", condition)
    return maker


def only(found: tuple[Finding, ...], quantity: str) -> Finding:
    return next(each for each in found if each.quantity == quantity)


def settled(bench: Bench, ending: str) -> tuple[Bench, Verdict]:
    chosen = next(each for each in SYSTEM.remedies(bench) if each.key.endswith(ending))
    verdict = Verdict(id="v1", subject=chosen.subject, chosen=chosen, reason="")
    return replace(bench, snapshot=replace(bench.snapshot, verdicts=(verdict,))), verdict


def test_known_wear_is_found_again() -> None:
    found = SYSTEM.findings(lever().bench())
    assert only(found, "clearance in its bush").value == pytest.approx(8 * THOU, abs=0.3 * THOU)
    assert only(found, "pin wear").value == pytest.approx(2 * THOU, abs=0.3 * THOU)
    assert only(found, "bush oval").value == pytest.approx(5 * THOU, abs=0.3 * THOU)
    # a third of the .015 in of three loose joints (Page 1917, ch. XI)
    line = next(each for each in found if each.quantity == "clearance in its bush" and each.limit is not None)
    assert line.limit == pytest.approx(0.005 * INCH)
    assert line.standing == "past"


@pytest.mark.parametrize(
    ("item", "use", "meant"),
    [
        ("throttle lever pivot", "", "swinging"),
        ("throttle lever pivot", "turns, oil cup", "turning"),
        ("governor arm pin", "", "governor"),
        ("tappet roller pin", "", "roller"),
        ("pump shear pin", "", "shear"),
        ("fork pin", "held fast in the fork", "fixed"),
    ],
)
def test_the_use_is_told_by_words_then_by_the_name(item: str, use: str, meant: str) -> None:
    maker = Maker(outline=Outline(name="test"))
    maker.read("pivot", item, "diameter", 0.5 * INCH)
    if use:
        maker.words("pivot", item, "use", use)
    (joint,) = Pivots.of(maker.bench()).joints
    assert joint.use.name == meant


def test_pin_and_bush_of_one_number_belong_together() -> None:
    maker = Maker(outline=Outline(name="test", cylinders=2))
    for n in (1, 2):
        maker.read("pin", f"pin {n}", "diameter", INCH, station="rod")
        maker.read("pin", f"rod bush {n}", "bush bore", INCH + n * THOU)
    joints = Pivots.of(maker.bench()).joints
    assert [(joint.pin, joint.bush, joint.use.name) for joint in joints] == [
        ("pin 1", "rod bush 1", "piston"),
        ("pin 2", "rod bush 2", "piston"),
    ]
    assert joints[1].clearance is not None
    assert joints[1].clearance.value == pytest.approx(2 * THOU)


def test_the_oversize_pin_is_the_smallest_that_cleans_up() -> None:
    bench = lever().bench()
    way = next(each for each in SYSTEM.remedies(bench) if each.key.endswith("oversize"))
    # widest .506, a thou to clean up: a hole of about .507; usual oversizes are .005 and .010 over (from memory)
    pin = way.parameters["throttle lever pivot pin"]
    assert pin == pytest.approx(0.510 * INCH)
    assert way.intervention == "irreversible"
    assert way.merit > 0.9


def test_a_thin_boss_rules_cutting_out_but_not_remaking() -> None:
    ways = {each.key.rsplit("-", 1)[1]: each for each in SYSTEM.remedies(lever(boss=0.56).bench())}
    assert not ways["bush"].possible
    assert "wall" in ways["bush"].why_not
    assert ways["remade"].possible


def test_a_boss_that_nobody_read_holds_the_order() -> None:
    bench, verdict = settled(lever(boss=None).bench(), "bush")
    bushes = next(each for each in SYSTEM.orders(bench, verdict) if each.key.endswith("bushes"))
    assert any("boss" in need.what for need in bushes.held)


def test_pins_wait_for_the_reamed_hole_and_are_then_made_to_it() -> None:
    maker = lever()
    bench, verdict = settled(maker.bench(), "oversize")
    (order,) = SYSTEM.orders(bench, verdict)
    assert any("after reaming" in need.what for need in order.held)
    maker.read("lever", "throttle lever pivot", "bush bore", 0.5121 * INCH, stage="fitted")
    after = replace(maker.bench(), snapshot=bench.snapshot)
    (order,) = SYSTEM.orders(after, verdict)
    assert not order.held
    low = verdict.chosen.parameters["throttle lever pivot clearance low"]
    assert order.asked[0].upper == pytest.approx(0.5121 * INCH - low)


def test_bush_and_pin_are_drawn() -> None:
    bench, verdict = settled(lever().bench(), "bush")
    drawings = [drawing for order in SYSTEM.orders(bench, verdict) for drawing in order.drawings]
    assert {drawing.title.split(",")[0] for drawing in drawings} == {"Bush", "Pin"}
    for drawing in drawings:
        assert "<svg" in drawing_svg(drawing)
        assert drawing_dxf(drawing)


def test_the_press_is_stated_with_stress_and_closing() -> None:
    way = next(each for each in SYSTEM.remedies(lever().bench()) if each.key.endswith("bush"))
    assert any("closes by" in said.text for said in way.for_it)


def test_a_cracked_lever_may_not_run_on() -> None:
    ways = {each.key.rsplit("swinging-", 1)[1]: each for each in SYSTEM.remedies(lever(condition="crack in the eye").bench())}
    assert not ways["run-on"].possible


def test_play_at_the_end_of_the_arm_follows_the_lever() -> None:
    maker = lever()
    maker.read("lever", "throttle lever pivot", "arm", 6.0 * INCH)
    found = only(SYSTEM.findings(maker.bench()), "play at the end of its arm")
    assert found.value == pytest.approx(8 * THOU * 6.0 / 0.75, rel=0.05)


def test_a_shear_pin_says_at_what_torque_it_goes() -> None:
    maker = Maker(outline=Outline(name="test"))
    maker.read("pin", "pump shear pin", "diameter", 0.125 * INCH)
    maker.read("pin", "pump shear pin", "driven shaft diameter", 0.75 * INCH)
    maker.words("pin", "pump shear pin", "material", "brass")
    line = only(SYSTEM.findings(maker.bench()), "torque that shears it")
    # 2 T / (D 2 A) = strength; brass of 30 to 38 ksi (from memory): 276 to 350 lbf in by hand
    by_hand = 34_000 * 6894.757 * 0.75 * INCH * 3.14159265 / 4 * (0.125 * INCH) ** 2
    assert line.value == pytest.approx(by_hand, rel=0.04)
    assert SYSTEM.remedies(maker.bench()) == ()


def test_fit_up_only_after_a_verdict() -> None:
    assert SYSTEM.fit_up(lever().bench()) == ()
    bench, _ = settled(lever().bench(), "oversize")
    (step,) = SYSTEM.fit_up(bench)
    assert "read as fitted" in step.hold
