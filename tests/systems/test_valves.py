"""Valves: findings against printed limits and closed forms, remedies, orders and fit-up."""

from __future__ import annotations

import csv
import math
from dataclasses import replace

import pytest

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.outline import Outline
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.plain import from_plain, to_plain
from gudgeon.engine.remedy import Remedy
from gudgeon.engine.verdict import Verdict
from gudgeon.outwork import drawing_dxf, drawing_svg
from gudgeon.pictures import draw
from gudgeon.quantity import say
from gudgeon.systems import feature_named
from gudgeon.systems.valves import SYSTEM
from gudgeon.systems.valves.steps import LASH, SEATS, SPRINGS, STEMS
from tests.systems.benches import INCH, THOU, Maker

LBF = 4.4482216152605
VALVES = ("intake 1", "exhaust 1", "intake 2", "exhaust 2")


def engine(*, speed: float | None = 450, inlet: str = "mechanical", fuel: str = "petrol") -> Maker:
    """Two cylinders of 4 1/2 by 6 in with all that can be read of valves and springs."""
    outline = Outline(
        name="test",
        cylinders=2,
        bore=4.5 * INCH,
        stroke=6 * INCH,
        rated_speed=speed,
        fuel=fuel,
        inlet=inlet,  # type: ignore[arg-type]
    )
    maker = Maker(outline=outline)
    for item in VALVES:
        exhaust = item.startswith("exhaust")
        stem(maker, item, worn=2.0 if exhaust else 0.5, clearance=4.0 if exhaust else 2.5)
        face(maker, item, margin=0.062, pits=0.002)
        maker.read("valve", item, "lash", 0.031 * INCH)
        spring(maker, f"{item} spring", share=0.95)
    return maker


def stem(maker: Maker, item: str, *, worn: float, clearance: float) -> None:
    """A 3/8 in stem worn at the top; the clearance [thou] at its unworn size."""
    for station, share in (("top of guide", 1.0), ("middle", 0.5), ("keeper end", 0.0)):
        maker.read("valve", item, "stem diameter", 0.375 * INCH - worn * share * THOU, station=station)
    for station in ("top", "middle", "bottom"):
        maker.read("valve", item, "guide bore", 0.375 * INCH + clearance * THOU, station=station)
    maker.originals[FeatureKey("valve", item, "stem diameter")] = 0.375 * INCH
    maker.originals[FeatureKey("valve", item, "guide bore")] = 0.377 * INCH
    for feature, inches in (("head diameter", 1.875), ("port diameter", 1.625), ("stem length", 6.25), ("guide length", 2.5)):
        maker.read("valve", item, feature, inches * INCH)
    maker.words("valve", item, "keeper", "cotter")


def face(maker: Maker, item: str, *, margin: float, pits: float) -> None:
    for feature, inches in (
        ("margin", margin),
        ("face pit depth", pits),
        ("seat pit depth", pits),
        ("seat width", 0.070),
        ("valve lift", 0.300),
        ("face run-out", 0.001),
        ("seat run-out", 0.001),
    ):
        maker.read("valve", item, feature, inches * INCH)
    maker.read("valve", item, "face angle", math.radians(45), dimension="angle", noise=1e-3)
    maker.read("valve", item, "seat angle", math.radians(45), dimension="angle", noise=1e-3)


def spring(maker: Maker, item: str, *, share: float) -> None:
    """A spring of 50 lb/in (wire .148, outside 1.375, 9 1/2 coils by the formula) that keeps a share of 40 lb at 2 3/4 in."""
    force = 40 * share
    maker.read("valve_spring", item, "free length", (2.75 + force / 50) * INCH)
    maker.read("valve_spring", item, "fitted length", 2.75 * INCH)
    maker.read("valve_spring", item, "open length", 2.45 * INCH)
    maker.read("valve_spring", item, "force at 2.7500 in", force * LBF, dimension="force", noise=0.1)
    maker.read("valve_spring", item, "force at 2.4500 in", (force + 15) * LBF, dimension="force", noise=0.1)
    maker.read("valve_spring", item, "wire diameter", 0.1483 * INCH, noise=0.02 * THOU)
    maker.read("valve_spring", item, "outside diameter", 1.375 * INCH)
    maker.read("valve_spring", item, "total coils", 9.5, dimension="ratio", noise=0.02)
    maker.read("valve_spring", item, "out of square", 0.020 * INCH)
    maker.words("valve_spring", item, "ends", "closed, ground")


def of(bench: Bench, item: str, quantity: str) -> list[Finding]:
    found = [finding for finding in SYSTEM.findings(bench) if (finding.item, finding.quantity) == (item, quantity)]
    assert found, f"no finding {item} {quantity}"
    return found


def one(bench: Bench, item: str, quantity: str) -> float:
    value = of(bench, item, quantity)[0].value
    assert value is not None
    return value


def keyed(bench: Bench) -> dict[str, Remedy]:
    return {remedy.key: remedy for remedy in SYSTEM.remedies(bench)}


def decided(maker: Maker, *keys: str) -> Bench:
    """The bench after verdicts on some remedies, one after the other."""
    bench = maker.bench()
    for key in keys:
        remedy = keyed(bench)[key]
        verdict = Verdict(id=key, subject=remedy.subject, chosen=remedy, reason="test")
        bench = replace(bench, snapshot=replace(bench.snapshot, verdicts=(*bench.snapshot.verdicts, verdict)))
    return bench


def test_words_of_a_kept_sheet_are_known() -> None:
    kept = csv.reader(
        ["valve,stem diameter", "valve,guide bore", "valve,lash", "valve_spring,force at 2.2500 in", "valve_spring,free length"]
    )
    for part, feature in kept:
        assert feature_named(part, feature) is not None, (part, feature)
    assert feature_named("valve_spring", "force at 1.082 in") is feature_named("valve_spring", "force at 2.2500 in")


# TM 9-6115-464-34 Table 1-1: intake at most .0050, exhaust .0060; TM 5-4310-276-14: .0045; TM 5-3810-206-35: .007
def test_stem_clearance_against_army_limits_for_its_own_kind() -> None:
    bench = engine().bench()
    exhaust = of(bench, "exhaust 1", "stem clearance at top of guide")
    assert exhaust[0].value == pytest.approx(6.0 * THOU, abs=0.2 * THOU)
    limits = {round((finding.limit or 0) / INCH, 4): finding.standing for finding in exhaust}
    assert limits[0.0045] == "past"
    assert limits[0.0070] == "within"
    assert limits[0.0060] == "doubtful"
    assert 0.0050 not in limits
    assert 0.0050 in {round((f.limit or 0) / INCH, 4) for f in of(bench, "intake 1", "stem clearance at top of guide")}


# Ford Service Bulletin (1928-31): stem .311, exhaust .002 in its guide: inside every limit there is
def test_a_model_a_exhaust_valve_is_within_every_limit() -> None:
    maker = Maker(outline=Outline(name="car", cylinders=4, rated_speed=2200), noise=0.02 * THOU)
    maker.read("valve", "exhaust 1", "stem diameter", 0.311 * INCH, station="top of guide")
    maker.read("valve", "exhaust 1", "guide bore", 0.313 * INCH, station="top")
    found = of(maker.bench(), "exhaust 1", "stem clearance at top of guide")
    assert {finding.standing for finding in found} == {"within"}
    assert "Ford A bulletin 1928–31 .0020 in" in say(found[0].sentence, "inch")


def test_stem_wear_is_told_against_its_own_unworn_end() -> None:
    # The definition: unworn size less the least; TM 9-6115-604-34 Table 1-4 leaves a stem .0020 of wear.
    bench = engine().bench()
    wear = of(bench, "exhaust 1", "stem wear")[0]
    assert wear.value == pytest.approx(2.0 * THOU, abs=0.2 * THOU)
    assert wear.limit == pytest.approx(0.0020 * INCH)


def test_margin_after_refacing_by_plane_geometry() -> None:
    # .062 less (.002 of pit + .002 to .006 of truing cut, .004 in the middle) over cos 45
    value = one(engine().bench(), "exhaust 1", "margin after refacing")
    assert value == pytest.approx((0.062 - 0.006 * math.sqrt(2)) * INCH, abs=0.3 * THOU)


def test_a_thin_valve_cannot_be_refaced_and_is_made_new_instead() -> None:
    maker = engine()
    maker.estimates.pop(FeatureKey("valve", "exhaust 2", "margin"))
    maker.estimates.pop(FeatureKey("valve", "exhaust 2", "face pit depth"))
    maker.read("valve", "exhaust 2", "margin", 0.036 * INCH)
    maker.read("valve", "exhaust 2", "face pit depth", 0.012 * INCH)
    found = keyed(maker.bench())
    assert not found["valves/reface-recut"].possible
    assert "too thin an edge" in found["valves/reface-recut"].why_not
    mixed = found["valves/reface-recut-some-new"]
    assert mixed.possible
    assert mixed.parameters["exhaust 2 new valve"] == 1.0


# PERIOD of the books: tractor 1/32 cold (Whitman 1920), Ford A .010 to .013: two to three times apart
def test_car_and_farm_lash_are_kept_apart_and_the_sentence_says_which() -> None:
    slow, fast = (of(engine(speed=speed).bench(), "exhaust 1", "lash")[0] for speed in (450, 1500))
    assert slow.target_low == pytest.approx(INCH / 32)
    assert fast.target_low == pytest.approx(0.010 * INCH)
    assert "it is a slow engine: stationary and farm figures apply" in slow.sentence.text
    assert "it is a fast engine: car figures apply" in fast.sentence.text
    assert slow.standing == "within"
    unknown = of(engine(speed=None).bench(), "exhaust 1", "lash")
    assert {finding.standing for finding in unknown} == {"for information"}
    assert "cannot be told" in unknown[0].sentence.text
    assert (
        "taken as a stationary engine" in of(engine(speed=None, fuel="kerosene").bench(), "exhaust 1", "lash")[0].sentence.text
    )


def test_hot_lash_falls_by_the_growth_of_the_stem() -> None:
    # 6.25 in x 11.3e-6 x 120 to 300 K: .0085 to .0212 in less than cold; an exhaust stem grows more than an inlet (expansion)
    bench = engine().bench()
    exhaust, intake = (one(bench, item, "lash, hot") for item in ("exhaust 1", "intake 1"))
    assert 0.031 * INCH - exhaust == pytest.approx(6.25 * INCH * 11.3e-6 * 210, rel=0.1)
    assert exhaust < intake < 0.031 * INCH


def test_a_spring_by_wire_and_by_force() -> None:
    # k = G d^4 / (8 D^3 Na) with hard-drawn wire's 11.5e6 psi: 11.5e6 x .1483^4 / (8 x 1.2267^3 x 7.5) = 50.2 lb/in
    bench = engine().bench()
    assert one(bench, "exhaust 1 spring", "spring rate") / (LBF / INCH) == pytest.approx(50.0, abs=0.5)
    assert one(bench, "exhaust 1 spring", "spring rate from wire and coils") / (LBF / INCH) == pytest.approx(50.2, abs=0.6)
    assert one(bench, "exhaust 1 spring", "spring force, valve open") / LBF == pytest.approx(53.0, abs=0.7)
    solid = 9.5 * 0.1483  # Shigley Table 10-1, closed and ground
    assert one(bench, "exhaust 1 spring", "room to solid when open") == pytest.approx((2.45 - solid) * INCH, abs=5 * THOU)


def test_the_weakest_of_like_springs_is_found_and_a_washer_brings_it_back() -> None:
    maker = engine()
    for feature in list(maker.estimates):
        if feature.item == "exhaust 2 spring":
            maker.estimates.pop(feature)
    spring(maker, "exhaust 2 spring", share=0.95 * 0.80)
    bench = maker.bench()
    left = of(bench, "exhaust 2 spring", "valve spring force left")
    # at 2.45 in: 45.4 of 53.0 lb
    assert left[0].value == pytest.approx(45.4 / 53.0, abs=0.01)
    assert {finding.standing for finding in left} <= {"past", "doubtful", "for information"}
    washers = keyed(bench)["valves/spring-washers"]
    lost = (53.0 - 45.4) / 50.0  # force lost over the rate
    assert washers.parameters["exhaust 2 spring washer"] == pytest.approx(lost * INCH, abs=INCH / 128)
    after = next(f for f in washers.gives if f.quantity == "valve spring force left" and f.item == "exhaust 2 spring")
    assert after.value == pytest.approx(1.0, abs=0.02)


def test_a_spring_read_at_one_stated_length_only() -> None:
    # The layout of an owner who kept force at 2 1/4 in and the free length, nothing else; Ford A: 57 to 64 lb
    maker = Maker(outline=Outline(name="car", rated_speed=2200))
    maker.read("valve_spring", "spring 1", "force at 2.2500 in", 54 * LBF, dimension="force", noise=1.0)
    maker.read("valve_spring", "spring 1", "free length", 2.890625 * INCH)
    bench = maker.bench()
    assert one(bench, "spring 1", "spring rate") / (LBF / INCH) == pytest.approx(54 / 0.640625, rel=0.01)
    ford = of(bench, "spring 1", "spring force at 2.25 in")[0]
    assert ford.target_low == pytest.approx(57 * LBF)
    assert of(bench, "spring 1", "spring force, valve shut")[0].standing == "not measured"


def test_an_automatic_inlet_has_no_lash_and_opens_by_suction() -> None:
    bench = engine(inlet="automatic").bench()
    assert not [f for f in SYSTEM.findings(bench) if f.item == "intake 1" and f.quantity.startswith("lash")]
    # 38 lb on a 1 5/8 in port: 38 / 2.074 = 18.3 psi by arithmetic; no engine draws that, and the page shows it
    suction = one(bench, "intake 1 spring", "suction to open")
    assert suction / 6894.757 == pytest.approx(38.0 / (math.pi / 4 * 1.625**2), rel=0.02)
    assert "intake 1" not in keyed(bench)["valves/lash-set"].items


def test_gas_speed_by_the_books_of_the_time() -> None:
    # 450 ft/min of piston x (4.5^2 / least area over pi/4): the curtain of .300 in at 45 degree is the least
    bench = engine().bench()
    speed = one(bench, "exhaust 1", "gas speed at the valve")
    share = one(bench, "exhaust 1", "room round the valve over the port")
    port = 1.625**2 - 0.373**2
    assert speed / (0.3048 / 60) == pytest.approx(450 * 4.5**2 / (min(share, 1.0) * port), rel=0.02)


def test_what_was_not_measured_says_what_to_read() -> None:
    maker = Maker(outline=Outline(name="x", cylinders=1))
    maker.words("valve", "exhaust 1", "condition", "burnt")
    bench = maker.bench()
    found = SYSTEM.findings(bench)
    assert all(finding.settle for finding in found if finding.standing == "not measured")
    assert of(bench, "exhaust 1", "margin")[0].settle == "Read margin: the upright edge above the face of exhaust 1."
    blind = [remedy for remedy in SYSTEM.remedies(bench) if remedy.action not in ("run on", "adjust")]
    assert blind
    assert all(not remedy.possible and remedy.why_not.startswith("can't tell yet") for remedy in blind)


def test_guides_come_before_seats() -> None:
    # Common practice: a seat is cut true to its guide; changing guides makes reseating compulsory.
    maker = engine()
    seats = keyed(maker.bench())["valves/reface-recut"]
    assert any(need.kind == "decision" and not need.met and STEMS in need.what for need in seats.needs)
    bench = decided(maker, "valves/bush-guides")
    seats = keyed(bench)["valves/reface-recut"]
    assert all(need.met for need in seats.needs if need.kind == "decision")
    recut = next(step for step in seats.steps if step.key == "valves/recut-seats")
    assert "valves/bush-guides" in recut.after
    verdict = Verdict(id="s", subject=SEATS, chosen=seats, reason="test")
    draft = next(draft for draft in SYSTEM.orders(bench, verdict) if draft.key == "valves/seats")
    assert {need.what for need in draft.held} == {f"finished guide of {item}, read after reaming" for item in seats_of(bench)}


def seats_of(bench: Bench) -> tuple[str, ...]:
    verdict = bench.snapshot.verdict_on(STEMS)
    assert verdict is not None
    return verdict.chosen.items


def test_valves_wait_for_the_finished_guide_and_are_made_to_it() -> None:
    maker = engine()
    remedy = keyed(maker.bench())["valves/ream-oversize"]
    verdict = Verdict(id="v", subject=STEMS, chosen=remedy, reason="test")
    draft = SYSTEM.orders(maker.bench(), verdict)[0]
    assert any("finished guide" in need.what for need in draft.held)
    for item in remedy.items:
        for station in ("top", "middle"):
            maker.read("valve", item, "guide bore", 0.3815 * INCH, station=station, stage="returned")
    draft = SYSTEM.orders(maker.bench(), verdict)[0]
    assert not draft.held
    asked = next(each for each in draft.asked if each.feature == "stem diameter")
    low, high = (remedy.parameters[f"{asked.item} clearance {end}"] for end in ("low", "high"))
    assert low <= 0.3815 * INCH - asked.upper
    assert 0.3815 * INCH - asked.lower <= high + 1e-9


def test_orders_draw_and_survive_being_written_down() -> None:
    maker = engine()
    bench = maker.bench()
    for key in ("valves/bush-guides-new-valves", "valves/new-springs"):
        remedy = keyed(bench)[key]
        assert from_plain(Remedy, to_plain(remedy)) == remedy
        verdict = Verdict(id="v", subject=remedy.subject, chosen=remedy, reason="test")
        drawings = [drawing for draft in SYSTEM.orders(bench, verdict) for drawing in draft.drawings]
        assert drawings
        for drawing in drawings[:2]:
            assert drawing_svg(drawing).startswith("<svg")
            assert drawing_dxf(drawing)


def test_a_new_spring_gives_the_forces_asked() -> None:
    bench = engine().bench()
    remedy = keyed(bench)["valves/new-springs"]
    item = remedy.items[0]
    closed, opened = (remedy.parameters[f"{item} {end} force"] for end in ("fitted", "open"))
    # the rate of the old springs, 50 lb/in, is kept
    lengths = remedy.parameters[f"{item} fitted length"] - remedy.parameters[f"{item} open length"]
    assert (opened - closed) / lengths / (LBF / INCH) == pytest.approx(50, abs=0.7)
    verdict = Verdict(id="v", subject=SPRINGS, chosen=remedy, reason="test")
    draft = SYSTEM.orders(bench, verdict)[0]
    assert not draft.held
    force = next(each for each in draft.asked if each.feature == "force at fitted length")
    assert (force.lower + force.upper) / 2 == pytest.approx(closed)


def test_fit_up_holds_on_blue_leak_and_lash() -> None:
    steps = SYSTEM.fit_up(decided(engine(), "valves/bush-guides", "valves/reface-recut", "valves/lash-set"))
    holds = " ".join(step.hold for step in steps)
    assert "unbroken ring" in holds
    assert "no seat weeps" in holds
    assert "as fitted at the heel" in holds
    assert len({step.key for step in steps}) == len(steps)
    assert not SYSTEM.fit_up(engine().bench())
    assert LASH == "valves: lash"


def test_pictures_can_be_drawn() -> None:
    pictures = dict(SYSTEM.pictures(engine().bench()))
    assert "valve springs" in pictures
    for picture in pictures.values():
        assert draw(picture, units="inch").startswith("<svg")


def test_prospects_match_remedies() -> None:
    bench = engine().bench()
    merits = {remedy.key: remedy.merit for remedy in SYSTEM.remedies(bench)}
    worths = {key: draws.mean() for prospect in SYSTEM.prospects(bench) for key, draws in prospect.worth.items()}
    assert worths == pytest.approx(merits)
