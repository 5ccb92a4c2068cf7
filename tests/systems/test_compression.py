"""The compression room against cylinders whose leaks are known, against the tables of its own making, and in words."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.outline import Outline
from gudgeon.engine.remedy import Remedy
from gudgeon.engine.verdict import Verdict
from gudgeon.mechanics import compression as model
from gudgeon.mechanics.gas_flow import leak_down_pressure
from gudgeon.quantity import Said, say
from gudgeon.systems import compression, feature_named
from gudgeon.systems.compression.cylinder_set import CylinderSet
from gudgeon.systems.compression.leaks import PATHS, leak_down, leaks_of
from gudgeon.systems.compression.listening import heard
from gudgeon.systems.compression.next_tests import chance_after, worth_of_tests
from tests.systems.benches import Maker

PSI, IN, CC, RPM = 6894.757293168361, 0.0254, 1e-6, math.pi / 30
MM2 = 1e-6
ATMOSPHERE = 14.5 * PSI
BORE, STROKE, VOLUME, SPEED = 4.5 * IN, 6 * IN, 470 * CC, 90 * RPM
OUTLINE = Outline(
    name="test engine", cylinders=2, bore=BORE, stroke=STROKE, rated_speed=450, valves="F head", rings_per_piston=3
)
CLOSES = math.radians(20.0)


def other(system: str, item: str, quantity: str, value: float, spread: float, dimension: str = "length") -> Finding:
    """A finding as another room would hand it over."""
    return Finding(
        system=system, part="x", item=item, quantity=quantity, dimension=dimension, value=value,
        low=value - 1.645 * spread, high=value + 1.645 * spread,
    )  # fmt: skip


def truth(leak: float, *, volume: float = VOLUME, speed: float = SPEED) -> float:
    """Gauge pressure of a cylinder with that leak [Pa], by a run of its own at a tenth of a degree."""
    lane = model.cases(
        bore=BORE, stroke=STROKE, rod=2.2 * STROKE, clearance_volume=volume, speed=speed, intake_closes=CLOSES,
        leak_area=leak, ambient=ATMOSPHERE, charge_temperature=290.0, wall_temperature=290.0, film=0.55, surface=1.4,
    )  # fmt: skip
    return float(model.peak_pressures(lane)[0][0, 0]) - ATMOSPHERE


def bench_with(
    leaks: dict[str, float],
    *,
    oiled: bool = False,
    leak_test: bool = False,
    words: str = "",
    gap: float = 0.030,
    counted: bool = True,
) -> Bench:
    """A bench of one cylinder whose leaks are known; what is not asked for is not read."""
    total = sum(leaks.values())
    maker = Maker(outline=OUTLINE)
    maker.read("compression", "shop", "barometer", ATMOSPHERE, noise=0.05 * PSI)
    if counted:
        maker.read("compression", "shop", "cranking speed", SPEED, noise=3 * RPM)
    maker.read("compression", "cyl 1", "clearance volume by oil", VOLUME, noise=1 * CC)
    maker.read("compression", "cyl 1", "cranking pressure", truth(total), noise=1.5 * PSI)
    if oiled:
        with_oil = total - 0.8 * leaks.get("rings", 0.0)
        maker.read("compression", "cyl 1", "cranking pressure oiled", truth(with_oil, volume=VOLUME - 12 * CC), noise=1.5 * PSI)
    if leak_test:
        orifice = 0.85 * math.pi / 4 * (0.040 * IN) ** 2
        held = leak_down_pressure(orifice=orifice, leak=total, supply=80 * PSI + ATMOSPHERE, ambient=ATMOSPHERE)
        maker.read("compression", "cyl 1", "leak-down reading", float(held) - ATMOSPHERE, noise=1.5 * PSI)
    if words:
        maker.words("compression", "cyl 1", "leak heard at", words)
    found = {
        "cylinders": (
            other("cylinders", "cyl 1 top ring", "ring end gap at top of ring travel", gap * IN, 0.001 * IN),
            other("cylinders", "cyl 1", "piston clearance", 0.006 * IN, 0.0005 * IN),
        ),
        "camshaft": (other("camshaft", "cyl 1", "inlet closes after outer centre", CLOSES, math.radians(1.0), "angle"),),
    }
    return replace(maker.bench(), findings=found)


def finding(bench: Bench, quantity: str, item: str = "cyl 1") -> Finding:
    """The first finding of a quantity."""
    return next(f for f in compression.SYSTEM.findings(bench) if f.quantity == quantity and f.item == item)


@pytest.mark.parametrize(
    "feature", ["barometer", "clearance volume by oil", "cranking pressure"]
)  # words of a sheet kept by an owner of a four-cylinder engine
def test_words_of_a_kept_sheet_are_known(feature: str) -> None:
    known = feature_named("compression", feature)
    assert known is not None
    assert known.name == feature


def test_ratio_of_poured_and_swept_volume() -> None:
    # (pi/4 4.5^2 6 in3 + 470 cc) / 470 cc, by hand: 95.43 in3 = 1563.7 cc; 4.327
    assert finding(bench_with({"rings": MM2}), "compression ratio").value == pytest.approx(4.327, abs=0.003)


@pytest.mark.parametrize("leak", [0.2 * MM2, 1.5 * MM2, 6 * MM2])
def test_a_known_leak_is_found_again_within_its_interval(leak: float) -> None:
    bench = bench_with({"rings": 0.6 * leak, "exhaust": 0.4 * leak})
    leaks = leaks_of("cyl 1", CylinderSet.of(bench))
    assert leaks is not None
    assert leaks.fits
    low, high = np.quantile(leaks.total, (0.02, 0.98))
    assert low < leak < high


@pytest.mark.parametrize("path", ["rings", "exhaust"])
def test_oil_and_a_leak_test_with_listening_name_the_path(path: str) -> None:
    words = {"rings": "crankcase, not exhaust, not intake", "exhaust": "exhaust, not intake, not crankcase"}[path]
    leaks = {"rings": 0.1 * MM2, "exhaust": 0.02 * MM2, path: 4 * MM2}
    bench = bench_with(leaks, oiled=True, leak_test=True, words=words)
    found = leaks_of("cyl 1", CylinderSet.of(bench))
    assert found is not None
    share = found.areas[path] / found.total
    assert np.median(share) > 0.6
    assert float((share > 0.5).mean()) > 0.75
    assert "dry" in found.readings[0]


def test_dry_pressure_alone_tells_how_much_and_not_where() -> None:
    cylinders = CylinderSet.of(bench_with({"exhaust": 4 * MM2}))
    leaks = leaks_of("cyl 1", cylinders)
    assert leaks is not None
    for path in ("rings", "intake", "exhaust"):
        low, high = np.quantile(leaks.areas[path] / leaks.total, (0.05, 0.95))
        assert high - low > 0.5
    assert "cannot be told yet" in finding(cylinders.bench, "leak, all paths").sentence.text
    assert finding(cylinders.bench, "leak, all paths").settle


def test_a_better_test_narrows_and_is_foretold_to() -> None:
    plain = CylinderSet.of(bench_with({"exhaust": 4 * MM2}))
    leaks = leaks_of("cyl 1", plain)
    assert leaks is not None
    worth = worth_of_tests("cyl 1", leaks, plain)
    assert all(value >= worth[""] - 1e-9 for value in worth.values())  # a test cannot tell less than nothing
    assert worth["leak-test"] > worth["listen"] - 0.02  # it hears as much, and weighs besides
    keys = [remedy.key for remedy in compression.SYSTEM.remedies(plain.bench)]
    assert keys[0] == "compression/as-it-is"
    assert "compression/leak-test" in keys


def test_chance_of_naming_the_leader_by_hand() -> None:
    # Two outcomes: in the first 3 of 4 are path 0, in the second 2 of 2 are path 1: (3 + 2) / 6
    outcome = np.array([0.0, 0, 0, 0, 1, 1])
    first = np.array([0.0, 0, 0, 1, 1, 1])
    assert chance_after(outcome, first) == pytest.approx(5 / 6)


def test_a_tight_cylinder_is_within_and_a_leaky_one_past() -> None:
    assert finding(bench_with({"rings": 0.2 * MM2}), "cranking pressure").standing == "within"
    assert finding(bench_with({"rings": 6 * MM2}), "cranking pressure").standing == "past"


def test_what_ring_gaps_explain_grows_with_the_gap_and_is_little() -> None:
    # a ring maker: the end gap is a tiny share of leakage beside side fit and faces
    narrow, wide = (
        finding(bench_with({"rings": 3 * MM2}, gap=gap), "pressure that the ring gaps explain") for gap in (0.015, 0.090)
    )
    tight = finding(bench_with({"rings": 3 * MM2}), "pressure if tight")
    assert (narrow.value or 0) > (wide.value or 0)
    assert (tight.value or 0) - (narrow.value or 0) < 2 * PSI


def test_the_table_agrees_with_runs_of_its_own() -> None:
    cylinders = CylinderSet.of(bench_with({"rings": MM2}))
    lanes = cylinders.lanes
    assert lanes is not None
    rows = np.arange(5)
    area, volume = np.array([0.03, 0.3, 1.1, 4.7, 12.0]) * MM2, np.array([455, 460, 465, 470, 474]) * CC
    even = {
        "rod": cylinders.even("rod", (3.8, 5.0))[:5] * STROKE / 2,
        "film": cylinders.even("film", model.ANNAND)[:5],
        "surface": cylinders.even("surface", (1.2, 1.6))[:5],
        "charge_temperature": cylinders.even("cold", (283.0, 298.0))[:5],
        "wall_temperature": cylinders.even("cold", (283.0, 298.0))[:5],
    }
    own = model.cases(
        bore=BORE, stroke=STROKE, clearance_volume=volume, speed=cylinders.speed[0][:5], leak_area=area,
        intake_closes=cylinders.closing[0][:5], ambient=lanes.ambient[:5], **even,
    )  # fmt: skip
    peaks = model.peak_pressures(own)[0][:, 0]
    assert (lanes.rise(area, volume, rows) + 1) * lanes.ambient[:5] == pytest.approx(peaks, rel=7e-3)


def test_leak_tests_table_agrees_with_the_nozzles() -> None:
    cylinders = CylinderSet.of(bench_with({"rings": MM2}))
    area = np.geomspace(0.01, 20, cylinders.bench.count) * MM2
    orifice = cylinders.even("tester", (0.78, 0.92)) * math.pi / 4 * (0.040 * IN) ** 2
    ambient = cylinders.barometer[0]
    held = leak_down_pressure(orifice=orifice, leak=area, supply=80 * PSI + ambient, ambient=ambient)
    assert leak_down(area, cylinders) == pytest.approx(np.asarray(held) - ambient, abs=0.05 * PSI)


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("exhaust, not intake", {"exhaust": True, "intake": False}),
        ("hiss at the carburettor", {"intake": True}),
        ("breather only", {path: path == "rings" for path in PATHS}),
        ("bubbles in the hopper; nothing at the exhaust", {"water": True, "exhaust": False}),
        ("crankcase and exhaust", {"rings": True, "exhaust": True}),
        ("nothing heard", dict.fromkeys(PATHS, False)),
        ("not tried", {}),
    ],
)
def test_where_it_was_heard(words: str, expected: dict[str, bool]) -> None:
    assert heard(words) == expected


def chosen(system: str, subject: str, items: tuple[str, ...]) -> Verdict:
    """A verdict as another room's remedy was chosen."""
    remedy = Remedy(
        key=f"{system}/x", system=system, subject=subject, title=Said("x"), action="make good", items=items,
        intervention="irreversible", original="",
    )  # fmt: skip
    return Verdict(id="v" + system, subject=subject, chosen=remedy, reason="")


def test_first_start_rises_by_what_is_made_good_and_by_nothing_else() -> None:
    leaks = {"rings": 3 * MM2, "exhaust": 0.02 * MM2}
    plain = bench_with(leaks, oiled=True, leak_test=True, words="crankcase, not exhaust, not intake")
    rings = chosen("cylinders", "cylinders: bores", ("cyl 1",))
    seats = chosen("valves", "valves: seats", ("intake 1", "exhaust 1"))
    pressures = []
    for verdicts in ((), (seats,), (rings,), (rings, seats)):
        bench = replace(plain, snapshot=replace(plain.snapshot, verdicts=verdicts))
        pressures.append(finding(bench, "pressure at first start").value or 0.0)
    assert pressures[1] == pytest.approx(pressures[0], abs=2 * PSI)
    assert pressures[2] > pressures[0] + 10 * PSI
    assert pressures[3] == pytest.approx(truth(0.25 * MM2), abs=3 * PSI)
    steps = compression.SYSTEM.fit_up(bench)
    assert "cranking pressure at least: cyl 1" in steps[0].hold


def test_what_was_foretold_is_the_figure_to_accept() -> None:
    bench = bench_with({"rings": 3 * MM2})
    bench = replace(bench, snapshot=replace(bench.snapshot, verdicts=(chosen("cylinders", "cylinders: bores", ("cyl 1",)),)))
    maker = Maker(outline=OUTLINE)
    for value, standing in ((finding(bench, "pressure at first start").value or 0.0, "within"), (40 * PSI, "past")):
        maker.fitted.clear()
        maker.read("compression", "cyl 1", "cranking pressure", value, noise=0.5 * PSI, stage="fitted")
        fitted = replace(bench, fitted={key: tuple(each) for key, each in maker.fitted.items()}, named=maker.bench().named)
        assert finding(fitted, "cranking pressure as fitted").standing == standing


def test_readings_that_cannot_be_of_one_cylinder_are_said_so() -> None:
    maker_bench = bench_with({"rings": 0.05 * MM2}, leak_test=False)
    maker = Maker(outline=OUTLINE)
    maker.read("compression", "cyl 1", "leak-down reading", 8 * PSI, noise=1.0 * PSI)
    estimates = {**maker_bench.estimates, **{key: tuple(each) for key, each in maker.estimates.items()}}
    snapshot = replace(maker_bench.snapshot, readings=(*maker_bench.snapshot.readings, *maker.readings), head="other")
    bench = replace(maker_bench, estimates=estimates, snapshot=snapshot, named=maker.bench().named, spot=maker.bench().spot)
    assert "do not fit one another" in finding(bench, "leak, all paths").sentence.text


def test_without_stroke_or_volume_the_wanted_reading_is_named() -> None:
    bench = bench_with({"rings": MM2})
    lost = replace(bench, snapshot=replace(bench.snapshot, outline=replace(OUTLINE, stroke=None)))
    assert finding(lost, "compression ratio").settle == "Put the stroke in the outline."
    assert finding(lost, "cranking pressure").value is not None
    assert compression.SYSTEM.remedies(lost) == ()


def test_an_engine_without_such_readings_has_no_findings() -> None:
    assert compression.SYSTEM.findings(Maker(outline=OUTLINE).bench()) == ()


def test_sentences_show_sizes_to_inch_and_millimetre_people() -> None:
    bench = bench_with({"rings": 3 * MM2})
    for each in compression.SYSTEM.findings(bench):
        inch, metric = say(each.sentence, "inch"), say(each.sentence, "millimetre")
        assert "psi" not in metric
        assert "kPa" not in inch


def test_indicator_diagram_is_drawn() -> None:
    pictures = dict(compression.SYSTEM.pictures(bench_with({"rings": 3 * MM2})))
    diagram = pictures["indicator diagram"]
    peaks = [max(y for _, y in points) for _, points in diagram.curves]  # type: ignore[union-attr]
    assert peaks[0] > peaks[1] > peaks[2]
