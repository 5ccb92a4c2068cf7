"""The cooling on benches built by hand, whose pump, hopper and metals are known."""

from dataclasses import replace

import pytest

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.outline import Outline
from gudgeon.engine.remedy import Remedy
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity.units import from_si, to_si
from gudgeon.systems.cooling import SYSTEM

from .benches import INCH, THOU, Maker

OUTLINE = Outline(
    name="test engine", cylinders=3, strokes=4, bore=4.5 * INCH, stroke=6 * INCH, rated_speed=450, power="15 hp", fuel="petrol",
    cooling="water, pump", pump="centrifugal",
)  # fmt: skip
PUMP = "water pump"


def maker(*, slack: float = 9.0, clearance: float = 20.0) -> Maker:
    """A pump whose 5/8 in shaft has ``slack`` thou in the worse bush, two thirds of it the shaft's."""
    made = Maker(outline=OUTLINE)
    shaft = 0.625 * INCH
    sizes = (
        ("shaft diameter", shaft, "unworn"), ("shaft diameter", shaft - 2 * slack / 3 * THOU, "in the bush"),
        ("shaft diameter", shaft - 1 * THOU, "in the other bush"), ("shaft diameter", shaft - 4 * THOU, "under the packing"),
        ("bush bore", shaft + slack / 3 * THOU, "in the bush"), ("bush bore", shaft + 1 * THOU, "in the other bush"),
    )  # fmt: skip
    for feature, size, station in sizes:
        made.read(PUMP, PUMP, feature, size, station=station)
    for feature, inches in (
        ("impeller diameter", 4.0), ("impeller eye diameter", 1.75), ("vane height", 0.75),
        ("impeller clearance", clearance / 1000), ("end play", 0.012), ("drive pin diameter", 0.1875),
        ("shaft at drive pin", 0.625),
    ):  # fmt: skip
        made.read(PUMP, PUMP, feature, inches * INCH)
    made.read(PUMP, PUMP, "turns per crank turn", 1.5, dimension="ratio", noise=0.0)
    made.words(PUMP, PUMP, "drive pin material", "brass")
    made.words(PUMP, PUMP, "body material", "cast iron")
    made.words(PUMP, PUMP, "impeller material", "bronze")
    return made


def found(bench: Bench, quantity: str) -> list[Finding]:
    return [each for each in SYSTEM.findings(bench) if each.quantity == quantity]


def remedy(bench: Bench, name: str) -> Remedy:
    return next(each for each in SYSTEM.remedies(bench) if each.key == f"cooling/{name}")


@pytest.mark.parametrize(("slack", "standing"), [(9.0, "past"), (3.0, "within")])
def test_worst_bush_counts_against_the_nearest_printed_limit(slack: float, standing: str) -> None:
    # .006 in at most: TM 5-4310-354-14, Table 5-2, oil pump shaft in its body.
    judged = [each for each in found(maker(slack=slack).bench(), "shaft in its bush") if each.limit is not None]
    assert judged[0].value == pytest.approx(slack * THOU, abs=0.05 * THOU)
    assert [each.standing for each in judged] == [standing]
    assert ".010" in judged[0].sentence.text or "differ" in judged[0].sentence.text


def test_wear_and_groove_come_from_the_unworn_part() -> None:
    bench = maker().bench()
    assert found(bench, "shaft wear")[0].value == pytest.approx(6 * THOU, abs=0.05 * THOU)
    groove = found(bench, "groove under the packing")[0]
    assert groove.value == pytest.approx(2 * THOU, abs=0.05 * THOU)
    assert groove.standing == "for information"  # its limit is from memory


def test_end_play_is_read_against_the_bulletin() -> None:
    # .006 to .010 in: Ford Service Bulletin 1928 to 1931, clearances and limits.
    line = found(maker().bench(), "end play")[0]
    assert (line.target_low, line.target_high) == pytest.approx((0.006 * INCH, 0.010 * INCH))


def test_brass_pin_shears_where_statics_and_its_strength_say() -> None:
    # strength x D x pi d2 / 4 with 30 to 38 kpsi for brass (from memory): .625 x .0276 x 34,000 = 587 lbf in.
    line = found(maker().bench(), "torque that shears the drive pin")[0]
    assert line.value is not None
    assert from_si(line.value, "lb in") == pytest.approx(587, rel=0.02)
    assert "brass" in line.sentence.text


def test_iron_and_bronze_in_one_water() -> None:
    # .29 to .47 V apart: Professional Boatbuilder no. 100; the iron is the one that is eaten.
    line = next(each for each in SYSTEM.findings(maker().bench()) if each.quantity == "metals in one water: body and impeller")
    assert (line.low, line.high) == pytest.approx((0.29, 0.47))
    assert "the body is eaten by the impeller" in line.sentence.text


def test_more_clearance_slips_more_and_shims_give_it_back() -> None:
    tight, wide = (
        found(maker(clearance=gap).bench(), "water slipping back, over what is moved")[0].value for gap in (10.0, 60.0)
    )
    assert tight is not None
    assert wide is not None
    assert wide == pytest.approx(6 * tight, rel=0.02)  # a ring gap's flow is as its width
    bench = maker(clearance=250.0).bench()
    assert remedy(bench, "impeller-shim").merit > remedy(bench, "impeller-leave").merit


def test_nothing_but_a_note_is_not_measured() -> None:
    made = Maker(outline=OUTLINE)
    made.words(PUMP, PUMP, "condition", "seized")
    bench = made.bench()
    for quantity in ("shaft in its bush", "impeller clearance", "torque that shears the drive pin", "packing"):
        line = found(bench, quantity)[0]
        assert line.standing == "not measured"
        assert line.settle
    assert not remedy(bench, "new-shaft-and-bushes").possible


def test_an_empty_bench_says_nothing() -> None:
    bench = Maker(outline=OUTLINE).bench()
    assert SYSTEM.findings(bench) == () == SYSTEM.remedies(bench)


def test_new_shaft_and_bushes_beat_running_on_and_are_drawn() -> None:
    made = maker()
    for feature, inches in (("shaft length", 7.0), ("bush outside diameter", 0.875), ("bush length", 1.25)):
        made.read(PUMP, PUMP, feature, inches * INCH)
    bench = made.bench()
    both = remedy(bench, "new-shaft-and-bushes")
    assert both.merit > 0.99 > 0.1 > remedy(bench, "shaft-run-on").merit
    orders = SYSTEM.orders(bench, Verdict(id="v1", subject=both.subject, chosen=both, reason=""))
    shaft, bushes = orders
    assert shaft.held == () == bushes.held
    assert shaft.asked[0].upper == pytest.approx(0.625 * INCH)
    assert [drawing.title for order in orders for drawing in order.drawings] == [
        "Pump shaft, water pump",
        "Pump bush, water pump",
    ]
    # press on the outside: .001 to .0015 and .0005 in for each inch, the trade's rule (from memory)
    assert bushes.asked[0].lower == pytest.approx((0.875 + 0.001 + 0.0005 * 0.875) * INCH)


def test_bushes_alone_leave_the_shafts_own_wear() -> None:
    bench = maker().bench()
    after = {
        key: next(f.value for f in remedy(bench, key).gives if f.limit is not None)
        for key in ("new-bushes", "new-shaft-and-bushes")
    }
    assert after["new-bushes"] is not None
    assert after["new-shaft-and-bushes"] is not None
    assert after["new-bushes"] - after["new-shaft-and-bushes"] == pytest.approx(5 * THOU, abs=0.2 * THOU)


def test_drawings_of_the_orders_come_out_as_svg() -> None:
    from gudgeon.outwork import drawing_svg

    made = maker()
    for feature, inches in (
        ("shaft length", 7.0), ("bush outside diameter", 0.875), ("bush length", 1.25), ("drive pin length", 1.5),
    ):  # fmt: skip
        made.read(PUMP, PUMP, feature, inches * INCH)
    bench = made.bench()
    for name in ("new-shaft-and-bushes", "pin-brass"):
        chosen = remedy(bench, name)
        for order in SYSTEM.orders(bench, Verdict(id="v1", subject=chosen.subject, chosen=chosen, reason="")):
            for drawing in order.drawings:
                assert drawing_svg(drawing).startswith("<svg") or "<svg" in drawing_svg(drawing)


def test_a_hopper_lasts_as_long_as_the_book_lets_it_boil() -> None:
    # Rathbun (1916): .3 to .6 gal for each horsepower hour. 10 x 12 x 6 in is 3.117 gal; at 6 hp 1.8 to 3.6 gal/h.
    made = Maker(outline=replace(OUTLINE, cooling="hopper", power="6 hp"))
    for feature, inches in (
        ("opening length", 12.0),
        ("opening width", 10.0),
        ("water over cylinder", 6.0),
        ("water below top", 3.0),
    ):
        made.read("hopper", "hopper", feature, inches * INCH)
    bench = made.bench()
    line = found(bench, "hopper lasts, full load")[0]
    gallons = from_si(720 * INCH**3, "US gallon")
    assert line.low is not None
    assert line.high is not None
    assert gallons / 3.6 < line.low / 3600 < line.high / 3600 < gallons / 1.8
    # the level stands within 2 in of the top: the same book
    assert [each.standing for each in found(bench, "water below top") if each.limit is not None] == ["past"]


def test_outlet_of_a_petrol_engine_is_held_to_160_and_of_a_hopper_to_boiling() -> None:
    # Rathbun (1916): not over 160 F with gasoline, or scale forms; a hopper boils at 212 F at most.
    for cooling, part in (("water, pump", "water pump"), ("hopper", "hopper")):
        made = Maker(outline=replace(OUTLINE, cooling=cooling))
        made.words(part, part, "condition", "sound")
        made.read("cooling water", "water", "outlet temperature", to_si(205.0, "degF"), dimension="temperature", noise=1.0)
        limits = [each for each in found(made.bench(), "outlet temperature") if each.limit is not None]
        standings = {round(from_si(each.limit or 0, "degF")): each.standing for each in limits}
        assert standings == ({160: "past", 180: "past"} if part == "water pump" else {212: "within"})


def test_fit_up_keeps_the_gland_dripping() -> None:
    bench = maker().bench()
    chosen = remedy(bench, "new-shaft-and-bushes")
    verdict = Verdict(id="v1", subject=chosen.subject, chosen=chosen, reason="")
    settled = replace(bench, snapshot=replace(bench.snapshot, verdicts=(verdict,)))
    steps = SYSTEM.fit_up(settled)
    assert [each.key for each in steps] == ["cooling/fit-pump", "cooling/fit-packing", "cooling/fit-water"]
    assert steps[0].after == ("cooling/ream-bushes",)
    assert "drops a minute" in steps[1].hold
