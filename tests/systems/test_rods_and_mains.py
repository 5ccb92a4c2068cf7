"""Rods, poured bearings, crankshaft and mains on shapes whose answer is known, and against figures of the trade."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from gudgeon.engine.finding import Finding
from gudgeon.engine.outline import Outline
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.remedy import Remedy
from gudgeon.engine.step import StepDone
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import say
from gudgeon.systems import bearings, crankshaft, feature_named
from tests.systems.benches import THOU, Maker

INCH = 0.0254
SHIMS = "strip oiled; shims: 5 left, 5 right, each 0.0020 in"


def engine(*, speed: float = 450) -> Maker:
    return Maker(
        outline=Outline(
            name="test engine", cylinders=2, main_bearings=3, rated_speed=speed, bore=4.5 * INCH, stroke=6 * INCH, strokes=4,
            fuel="petrol", oiling="splash",
        )
    )  # fmt: skip


def journal(
    maker: Maker, part: str, item: str, *, new: float, wear: float, oval: float = 0.0, taper: float = 0.0, belt: bool = True
) -> None:
    """A journal worn by ``wear`` thou where it is least, ``oval`` less across the throw, ``taper`` less at B."""
    for level, less in (("A", 0.0), ("B", taper)):
        maker.read(part, item, "journal diameter", new - (wear - less) * THOU, station=level, direction=0)
        maker.read(part, item, "journal diameter", new - (wear - less - oval) * THOU, station=level, direction=90)
    if belt:
        maker.read(part, item, "journal diameter", new, station="beside the fillet", direction=0)
    maker.originals[FeatureKey(part, item, "journal diameter")] = new


def rods(*, clearances: tuple[float, ...] = (4.5, 2.2), shims: str = SHIMS) -> Maker:
    maker = engine()
    for n, clearance in enumerate(clearances, 1):
        journal(maker, "crankpin", f"crankpin {n}", new=2.0 * INCH, wear=1.5, oval=0.4)
        maker.read("bearing", f"crankpin bearing {n}", "vertical clearance", clearance * THOU, note=shims)
        maker.read("bearing", f"crankpin bearing {n}", "length", 2.5 * INCH)
    return maker


def find(found: tuple[Finding, ...], item: str, quantity: str) -> list[Finding]:
    return [each for each in found if each.item == item and each.quantity == quantity]


def remedy(found: tuple[Remedy, ...], key: str) -> Remedy:
    return next(each for each in found if each.key == key)


@pytest.mark.parametrize(
    ("part", "feature"),
    [
        # words of a kept sheet of a four-cylinder engine
        ("crankpin", "journal diameter"),
        ("main", "journal diameter"),
        ("bearing", "vertical clearance"),
        ("bearing", "lift"),
        ("bearing", "rod side play"),
        ("bearing", "crank end play"),
    ],
)
def test_words_of_a_kept_sheet_are_known(part, feature):
    found = feature_named(part, feature)
    assert found is not None
    assert found.name == feature


def test_bench_sheet_asks_each_bearing_for_its_own():
    from gudgeon.engine.sheet import bench_sheet
    from gudgeon.engine.snapshot import Snapshot

    snapshot = Snapshot(outline=engine().outline)
    asked = {
        system.key: {(block.item, block.feature.name) for block in bench_sheet(system, snapshot).blocks}
        for system in (bearings.SYSTEM, crankshaft.SYSTEM)
    }
    assert ("crankpin bearing 1", "vertical clearance") in asked["bearings"]
    assert ("rod 2", "rod side play") in asked["bearings"]
    assert ("rod 2", "vertical clearance") not in asked["bearings"]
    assert not any("main" in item for item, _ in asked["bearings"])
    assert ("main bearing 3", "gap under the bar") in asked["crankshaft"]
    assert ("crankshaft", "crank end play") in asked["crankshaft"]
    assert ("main bearing 1", "crank end play") not in asked["crankshaft"]


def test_wear_oval_and_taper_of_a_journal_come_back():
    maker = engine()
    journal(maker, "crankpin", "crankpin 1", new=2.0 * INCH, wear=3.0, oval=1.4, taper=0.8)
    found = bearings.SYSTEM.findings(maker.bench())
    for quantity, thou in (("journal wear", 3.0), ("journal out-of-round", 1.4), ("journal taper", 0.8)):
        value = find(found, "crankpin 1", quantity)[0].value
        assert value == pytest.approx(thou * THOU, abs=0.12 * THOU), quantity
    # TM 5-3805-254: regrind past .001 out of round
    army = next(each for each in find(found, "crankpin 1", "journal out-of-round") if "5-3805" in str(each.limit_origin))
    assert army.standing == "past"


def test_a_new_round_journal_has_nothing_past():
    maker = engine()
    journal(maker, "crankpin", "crankpin 1", new=2.0 * INCH, wear=0.0)
    found = bearings.SYSTEM.findings(maker.bench())
    assert not [each for each in found if each.part == "crankpin" and each.standing == "past"]


def test_clearance_is_held_against_the_shop_rule():
    found = bearings.SYSTEM.findings(rods(clearances=(2.2, 6.5)).bench())
    first = find(found, "crankpin bearing 1", "vertical clearance")[0]
    # forum.hetclub.org 172786: 2 in shaft -> .0020 to .0025
    assert first.target_low == pytest.approx(0.0020 * INCH)
    assert first.target_high == pytest.approx(0.0025 * INCH)
    assert first.standing == "within"
    assert find(found, "crankpin bearing 2", "vertical clearance")[0].standing == "past"


def test_strip_and_lift_are_put_together_and_told_apart_when_they_fight():
    maker = rods(clearances=(4.0, 2.2))
    maker.read("bearing", "crankpin bearing 1", "lift", 4.2 * THOU)
    said = find(bearings.SYSTEM.findings(maker.bench()), "crankpin bearing 1", "vertical clearance")[0]
    assert 4.0 * THOU < said.value < 4.2 * THOU
    assert "read both again" not in say(said.sentence, "inch")
    maker = rods(clearances=(4.0, 2.2))
    maker.read("bearing", "crankpin bearing 1", "lift", 8.0 * THOU)
    said = find(bearings.SYSTEM.findings(maker.bench()), "crankpin bearing 1", "vertical clearance")[0]
    assert "read both again" in say(said.sentence, "inch")


def test_bore_less_journal_is_a_third_way():
    maker = engine()
    journal(maker, "crankpin", "crankpin 1", new=2.0 * INCH, wear=0.0)
    maker.read("bearing", "crankpin bearing 1", "bore", 2.003 * INCH, direction=90)
    maker.read("bearing", "crankpin bearing 1", "bore", 2.005 * INCH, direction=0)
    found = bearings.SYSTEM.findings(maker.bench())
    assert find(found, "crankpin bearing 1", "vertical clearance")[0].value == pytest.approx(3 * THOU, abs=0.1 * THOU)
    assert find(found, "crankpin bearing 1", "oval of the bearing bore")[0].value == pytest.approx(2 * THOU, abs=0.15 * THOU)


def test_a_dry_strip_is_remarked_on():
    maker = rods(clearances=(3.0, 2.2), shims="dry, shims: 2 left, 2 right, each 0.0020 in")
    maker.readings = [
        replace(each, instrument="plastic_thread") if each.place.feature == "vertical clearance" else each
        for each in maker.readings
    ]
    said = find(bearings.SYSTEM.findings(maker.bench()), "crankpin bearing 1", "vertical clearance")[0]
    # babbitt shop, forum.hetclub.org 172786: dry strip dents babbitt and reads wrong
    assert "dents the metal" in say(said.sentence, "inch")


def test_shims_left_are_counted_on_the_thinner_side():
    maker = rods(shims="L: 3 @ .002 + 1 @ .005; R: 2 @ .002")
    found = find(bearings.SYSTEM.findings(maker.bench()), "crankpin bearing 1", "shims left")[0]
    assert found.value == pytest.approx(4 * THOU)
    assert "4 times more" in say(found.sentence, "inch")
    assert "sides differ by .0070 in" in say(found.sentence, "inch")


def test_no_shim_left_is_past():
    found = find(bearings.SYSTEM.findings(rods(shims="no shims").bench()), "crankpin bearing 1", "shims left")[0]
    assert found.standing == "past"
    assert "re-pour" in say(found.sentence, "inch")


def test_unread_things_say_what_to_read():
    maker = engine()
    journal(maker, "crankpin", "crankpin 1", new=2.0 * INCH, wear=1.0)
    found = bearings.SYSTEM.findings(maker.bench())
    missing = {
        each.quantity: each.settle for each in found if each.item == "crankpin bearing 1" and each.standing == "not measured"
    }
    assert {"vertical clearance", "shims left", "babbitt thickness", "metal", "oil film, mean load"} <= set(missing)
    assert all(missing.values())


def test_taking_shims_gives_the_clearance_less_what_was_taken():
    bench = rods(clearances=(4.5, 2.2)).bench()
    found = remedy(bearings.SYSTEM.remedies(bench), "bearings/rods-shims")
    assert found.subject == "bearings: rods"
    assert found.action == "adjust"
    given = {(each.item, each.quantity): each for each in found.gives}
    # .0020 to .0025 is aimed at; with .002 shims and .001 sheet the nearest is 2.5 or 1.5: never under the band
    assert given["crankpin bearing 1", "vertical clearance"].value == pytest.approx(2.5 * THOU, abs=0.1 * THOU)
    assert found.parameters["crankpin bearing 1 oval"] == pytest.approx(2 * THOU)
    assert "crankpin bearing 2" not in say(found.title, "inch")


def test_a_better_remedy_is_worth_more_on_the_same_draws():
    bench = rods(clearances=(7.0, 6.0)).bench()
    merits = {each.key: each.merit for each in bearings.SYSTEM.remedies(bench)}
    assert merits["bearings/rods-run-on"] < merits["bearings/rods-shims"] <= merits["bearings/rods-pour"]


def test_cracked_metal_rules_everything_but_a_pour_out():
    maker = rods()
    maker.words("bearing", "crankpin bearing 2", "metal", "cracked across the cap, dull when tapped")
    found = {each.key: each for each in bearings.SYSTEM.remedies(maker.bench())}
    assert not found["bearings/rods-run-on"].possible
    assert not found["bearings/rods-shims"].possible
    assert found["bearings/rods-pour"].possible
    worst = found["bearings/rods-pour-worst"]
    assert worst.possible
    assert worst.priced[0].count == 1
    maker = rods()
    maker.words("bearing", "crankpin bearing 2", "metal", "no cracks, rings clear")
    assert all(each.possible for each in bearings.SYSTEM.remedies(maker.bench()))


def settled(bench, system, key: str) -> Verdict:
    chosen = remedy(system.remedies(bench), key)
    return Verdict(id=f"v-{key}", subject=chosen.subject, chosen=chosen, reason="test")


def test_the_pour_waits_for_the_pins_for_the_heat_and_for_the_ground_size():
    maker = rods()
    bench = maker.bench()
    verdict = settled(bench, bearings.SYSTEM, "bearings/rods-pour")
    order = bearings.SYSTEM.orders(bench, verdict)[0]
    waits = {need.what for need in order.held}
    assert "what is done about the crankpins" in waits
    assert any("welding" in what for what in waits)
    assert any("babbitt" in caution.hazard for caution in order.cautions)

    ground = settled(bench, crankshaft.SYSTEM, "crankshaft/pins-grind/010")
    done = (StepDone(key="bearings/no-more-heat", on="2026-01-01", person="x"),)
    later = replace(bench, snapshot=replace(bench.snapshot, verdicts=(ground,), done=done))
    assert [each.key for each in bearings.SYSTEM.remedies(later) if each.possible] == ["bearings/rods-pour"]
    held = bearings.SYSTEM.orders(later, verdict)[0].held
    assert [need.item for need in held] == ["crankpin 1", "crankpin 2"]  # only the finished pins are missing

    for n in (1, 2):
        maker.read("crankpin", f"crankpin {n}", "journal diameter", 1.9898 * INCH, station="A", direction=0, stage="returned")
    bench = maker.bench()
    bench = replace(bench, snapshot=replace(bench.snapshot, verdicts=(ground,), done=done))
    order = bearings.SYSTEM.orders(bench, verdict)[0]
    assert not order.held
    asked = order.asked[0]
    # bored to the pin that came back, with .001 per inch and half a thou more at most
    assert asked.lower == pytest.approx(1.9898 * INCH + 2.0 * THOU, abs=0.05 * THOU)
    assert asked.upper - asked.lower == pytest.approx(0.5 * THOU, abs=0.02 * THOU)
    assert order.drawings[0].views


def test_pour_order_tells_b23_temperatures_and_metal():
    maker = rods()
    for n in (1, 2):
        maker.read("bearing", f"crankpin bearing {n}", "babbitt thickness", INCH / 8)
    bench = maker.bench()
    order = bearings.SYSTEM.orders(bench, settled(bench, bearings.SYSTEM, "bearings/rods-pour"))[0]
    detail = dict(order.lines[0].detail)
    assert "795" in detail["pour"]  # ASTM B23, grade 2
    # 2 1/4 shell, 1.94 bore, 2 1/2 long of 7.39: pi/4 (2.2486^2 - 1.9386^2) 2.5 in3 = 2.549 in3 = .309 kg, and .6 more
    mass = float(detail["metal to melt"].split("(")[1].split()[0])
    assert mass == pytest.approx(309 * 1.6, rel=0.03)  # g


def test_bent_rod_takes_clearance_at_its_ends():
    maker = rods()
    for item, bend in (("rod 1", 6.0), ("rod 2", 0.2)):
        maker.read("rod", item, "bend", bend * THOU)
        maker.read("rod", item, "twist", 0.0)
        maker.read("rod", item, "arbor span", 6.0 * INCH)
    bench = maker.bench()
    found = find(bearings.SYSTEM.findings(bench), "rod 1", "bend over the big end")[0]
    assert found.value == pytest.approx(2.5 * THOU, abs=0.1 * THOU)  # a thou to the inch over 2 1/2 in
    assert found.standing == "past"
    straighten = remedy(bearings.SYSTEM.remedies(bench), "bearings/straighten")
    assert straighten.items == ("rod 1",)
    assert straighten.merit > remedy(bearings.SYSTEM.remedies(bench), "bearings/straight-run-on").merit


def test_oil_film_thins_with_load_and_speed_falls():
    def film(speed: float) -> float:
        maker = rods(clearances=(3.0, 3.0))
        maker.outline = replace(maker.outline, rated_speed=speed)
        found = find(bearings.SYSTEM.findings(maker.bench()), "crankpin bearing 1", "oil film, mean load")[0]
        assert found.value is not None
        return found.value

    slow, rated = film(150), film(450)
    assert 0 < slow < rated < 1.5 * THOU


def test_a_film_is_not_reckoned_where_the_length_is_unknown():
    maker = rods()
    del maker.estimates[FeatureKey("bearing", "crankpin bearing 1", "length")]
    found = find(bearings.SYSTEM.findings(maker.bench()), "crankpin bearing 1", "oil film, mean load")[0]
    assert found.standing == "not measured"
    assert "length" in found.settle


def crank(*, directions: tuple[float | None, ...] = (0, 90, 0), totals: tuple[float, ...] = (0.0, 6.0, 0.0)) -> Maker:
    maker = engine()
    for n in (1, 2):
        journal(maker, "crankpin", f"crankpin {n}", new=2.0 * INCH, wear=1.5, oval=0.4)
    for n, (total, direction) in enumerate(zip(totals, directions, strict=True), 1):
        journal(maker, "main", f"main {n}", new=2.125 * INCH, wear=1.0, oval=0.2)
        maker.read("main", f"main {n}", "run-out", total * THOU, depth=n * 10 * INCH, direction=direction)
        maker.read("bearing", f"main bearing {n}", "vertical clearance", 4.6 * THOU, note=SHIMS)
    maker.read("bearing", "crankshaft", "crank end play", 0.011 * INCH)
    return maker


def test_bow_is_a_vector():
    # an end that runs out the same way as the middle is a shaft lying askew; the opposite way it adds to the bow
    def bow(*directions: float | None, totals=(6.0, 6.0, 6.0)) -> Finding:
        found = crankshaft.SYSTEM.findings(crank(directions=directions, totals=totals).bench())
        return find(found, "crankshaft", "bow, as run-out")[0]

    assert bow(0, 90, 0, totals=(0.0, 6.0, 0.0)).value == pytest.approx(6 * THOU, rel=0.05)
    assert bow(90, 90, 90).value < 2.0 * THOU
    assert bow(270, 90, 270).value == pytest.approx(12 * THOU, rel=0.05)
    unknown = bow(None, None, None)
    assert unknown.low < 2 * THOU
    assert unknown.high > 10 * THOU
    assert "direction" in unknown.settle


def test_dial_round_one_turn_serves_for_run_out():
    maker = engine()
    for n, half in ((1, 0.0), (2, 3.0), (3, 0.0)):
        journal(maker, "main", f"main {n}", new=2.125 * INCH, wear=0.5)
        for degree in range(0, 360, 60):
            value = (10 + half * math.cos(math.radians(degree - 120)) + 0.4 * math.cos(2 * math.radians(degree))) * THOU
            maker.read("main", f"main {n}", "dial reading", value, direction=degree, depth=n * 10 * INCH)
    found = find(crankshaft.SYSTEM.findings(maker.bench()), "crankshaft", "bow, as run-out")[0]
    assert found.value == pytest.approx(6 * THOU, rel=0.05)  # the oval of the journal is no bow
    assert "120 degree" in say(found.sentence, "inch")


def test_end_play_against_its_authorities():
    found = find(crankshaft.SYSTEM.findings(crank().bench()), "crankshaft", "crank end play")
    # TM 9-2815-213: new .005 to .015, limit .022
    assert found[0].limit == pytest.approx(0.022 * INCH)
    assert found[0].standing == "within"
    assert "Authorities differ" in say(found[0].sentence, "inch")


def test_a_low_main_shows_under_the_bar():
    maker = crank()
    for n, gap in ((1, 1.0), (2, 5.0), (3, 2.0)):
        maker.read("bearing", f"main bearing {n}", "gap under the bar", gap * THOU, depth=n * 10 * INCH)
    found = find(crankshaft.SYSTEM.findings(maker.bench()), "main bearing 2", "line of the mains")[0]
    assert found.value == pytest.approx(3.5 * THOU, abs=0.1 * THOU)
    assert "below" in say(found.sentence, "inch")


def test_throw_is_half_the_difference_of_heights():
    maker = crank()
    maker.read("throw", "throw 1", "height at top", 7.25 * INCH)
    maker.read("throw", "throw 1", "height at bottom", 1.25 * INCH)
    found = find(crankshaft.SYSTEM.findings(maker.bench()), "throw 1", "throw")[0]
    assert found.value == pytest.approx(3.0 * INCH, abs=0.1 * THOU)


def test_pins_are_ground_to_the_first_undersize_that_cleans_all_up():
    found = crankshaft.SYSTEM.remedies(crank().bench())
    sizes = {each.key: each for each in found if "pins-grind" in each.key}
    # worn 1.5 thou: .010 under is the first step of the trade that is sure to clean up
    assert "crankshaft/pins-grind/010" in sizes
    assert "crankshaft/pins-grind/020" not in sizes
    ten = sizes["crankshaft/pins-grind/010"]
    assert ten.subject == "crankshaft: pins"
    assert ten.parameters["crankpin 1 finished"] == pytest.approx(1.990 * INCH)
    assert ten.intervention == "irreversible"
    # (1.99/2)^3 = .985: a pin .010 smaller has lost 1.5 % of its strength
    assert any("1%" in say(each, "inch") for each in ten.against_it)


def test_a_deep_worn_pin_asks_for_a_larger_step():
    maker = crank()
    journal(maker, "crankpin", "crankpin 3", new=2.0 * INCH, wear=14.0, oval=6.0)
    sizes = [
        each.parameters["crankpin 3 finished"] for each in crankshaft.SYSTEM.remedies(maker.bench()) if "pins-grind" in each.key
    ]
    assert sizes
    assert max(sizes) < (2.0 - 0.014) * INCH


def test_building_up_is_the_last_resort():
    bench = crank().bench()
    found = {each.key: each for each in crankshaft.SYSTEM.remedies(bench)}
    build, ground = found["crankshaft/pins-build-up"], found["crankshaft/pins-grind/010"]
    chance = {each.key: math.prod(1 - risk.chance.likely for risk in each.risks) for each in (build, ground)}
    assert chance[build.key] < chance[ground.key]


def test_a_cracked_crank_is_neither_run_nor_ground():
    maker = crank()
    maker.words("crankshaft", "crankshaft", "crack test", "crack at the fillet of pin 2")
    bench = maker.bench()
    assert not any(each.possible for each in crankshaft.SYSTEM.remedies(bench) if each.subject == "crankshaft: pins")
    assert find(crankshaft.SYSTEM.findings(bench), "crankshaft", "cracks")[0].standing == "past"


def test_the_grinding_sheet_waits_for_cracks_and_for_the_mains():
    maker = crank()
    bench = maker.bench()
    verdict = settled(bench, crankshaft.SYSTEM, "crankshaft/pins-grind/010")
    order = crankshaft.SYSTEM.orders(bench, verdict)[0]
    waits = " / ".join(need.what for need in order.held)
    assert "cracks" in waits
    assert "main journals" in waits
    assert order.asked[0].upper == pytest.approx(1.990 * INCH)
    assert any("Fillets" in line for line in order.leave_alone)
    maker.words("crankshaft", "crankshaft", "crack test", "none, magnetic powder")
    bench = maker.bench()
    mains = settled(bench, crankshaft.SYSTEM, "crankshaft/journals-run-on")
    bench = replace(bench, snapshot=replace(bench.snapshot, verdicts=(mains,)))
    assert not crankshaft.SYSTEM.orders(bench, verdict)[0].held


def test_mains_are_poured_only_when_gears_and_crank_are_located():
    bench = crank().bench()
    verdict = settled(bench, crankshaft.SYSTEM, "crankshaft/mains-pour")
    waits = " / ".join(need.what for need in crankshaft.SYSTEM.orders(bench, verdict)[0].held)
    assert "gear centres" in waits
    assert "welding" in waits
    assert "bow" not in waits  # it was read


@pytest.mark.parametrize("system", [bearings.SYSTEM, crankshaft.SYSTEM], ids=lambda system: system.key)
def test_steps_keys_and_cautions_hang_together(system):
    maker = crank()
    for n in (1, 2):
        maker.read("bearing", f"crankpin bearing {n}", "vertical clearance", 4.5 * THOU, note=SHIMS)
    bench = maker.bench()
    found = system.remedies(bench)
    assert len({each.key for each in found}) == len(found)
    for each in found:
        keys = {step.key for step in each.steps}
        assert all(after in keys for step in each.steps for after in step.after), each.key
        assert 0.0 <= each.merit <= 1.0
        assert each.original
        assert all(need.what for need in each.needs)
    pours = [each for each in found if each.key.endswith("-pour")]
    assert all({"molten babbitt", "lead and fumes"} <= {caution.hazard for caution in each.cautions} for each in pours)
    prospects = {prospect.subject: prospect for prospect in system.prospects(bench)}
    for each in found:
        assert each.merit == pytest.approx(float(np.mean(prospects[each.subject].worth[each.key])))


@pytest.mark.parametrize("system", [bearings.SYSTEM, crankshaft.SYSTEM], ids=lambda system: system.key)
def test_an_empty_bench_says_nothing(system):
    bench = engine().bench()
    assert not system.findings(bench)
    assert not system.remedies(bench)
    assert not system.pictures(bench)
    assert not system.fit_up(bench)


def test_fit_up_follows_the_verdict_and_holds_for_readings():
    bench = crank().bench()
    verdict = settled(bench, crankshaft.SYSTEM, "crankshaft/mains-shims")
    bench = replace(bench, snapshot=replace(bench.snapshot, verdicts=(verdict,)))
    steps = crankshaft.SYSTEM.fit_up(bench)
    assert steps[0].after == (verdict.chosen.steps[-1].key,)
    # Ford Manual (1919), answer 34: each cap down alone, crank turned with one hand
    assert any("one hand" in step.title for step in steps)
    assert all(step.hold for step in steps)


def test_pictures_show_lobe_bow_and_film():
    maker = crank()
    for n in (1, 2, 3):
        maker.read("bearing", f"main bearing {n}", "length", 3.0 * INCH)
    names = [name for name, _ in crankshaft.SYSTEM.pictures(maker.bench())]
    assert {"crankshaft bow", "main 1 lobe", "main bearing 2 oil film", "main bearing 2 vertical clearance"} <= set(names)


def test_lobe_of_an_oval_journal_is_its_oval():
    maker = engine()
    journal(maker, "crankpin", "crankpin 1", new=2.0 * INCH, wear=3.0, oval=2.0)
    curve = dict(bearings.SYSTEM.pictures(maker.bench()))["crankpin 1 lobe"]
    points = dict(curve.curves[0][1])
    assert points[0.0] == pytest.approx(-3.0, abs=0.1)
    assert points[90.0] == pytest.approx(-1.0, abs=0.1)
    assert points[40.0] == pytest.approx(-2.0 - math.cos(math.radians(80)), abs=0.1)
