"""Throttle, linkage, flywheel and clutch: leak, lost motion, rim speed, key and slip, and what is ordered."""

from __future__ import annotations

import math

import pytest

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.order import OrderDraft
from gudgeon.engine.remedy import Remedy
from gudgeon.engine.system import System
from gudgeon.engine.verdict import Verdict
from gudgeon.outwork import drawing_svg
from gudgeon.systems.flywheel import SYSTEM as FLYWHEEL
from gudgeon.systems.intake import SYSTEM as INTAKE
from tests.systems.benches import INCH, Maker
from tests.systems.governors import LBF, outline


def found(system: System, bench: Bench, quantity: str, item: str = "") -> Finding:
    return next(f for f in system.findings(bench) if f.quantity == quantity and (not item or f.item == item))


def value(system: System, bench: Bench, quantity: str, item: str = "") -> float:
    got = found(system, bench, quantity, item).value
    assert got is not None
    return got


def keyed(system: System, bench: Bench) -> dict[str, Remedy]:
    return {remedy.key.partition("/")[2]: remedy for remedy in system.remedies(bench)}


def orders(system: System, bench: Bench, name: str) -> dict[str, OrderDraft]:
    remedy = keyed(system, bench)[name]
    verdict = Verdict(id="v1", subject=remedy.subject, chosen=remedy, reason="test")
    return {draft.key.partition("/")[2]: draft for draft in system.orders(bench, verdict)}


def throttle(*, hole: float = 0.381, gap: float = 0.003, spring: str = "none") -> Maker:
    maker = Maker(outline=outline(bore=4.5 * INCH, stroke=6 * INCH), noise=0.0001 * INCH)
    for station in ("lever end", "far end"):
        maker.read("throttle", "throttle", "shaft diameter", 0.3720 * INCH, station=station)
        maker.read("throttle", "throttle", "shaft hole", hole * INCH, station=station)
    for name, size in (
        ("bore", 1.5), ("disc gap", gap), ("lever arm", 1.25), ("boss outside diameter", 0.75), ("boss length", 0.625),
        ("shaft length", 3.875),
    ):  # fmt: skip
        maker.read("throttle", "throttle", name, size * INCH)
    maker.read("throttle", "throttle", "force to move the lever", 0.5 * LBF, noise=0.01)
    maker.words("throttle", "throttle", "return spring", spring)
    for n, play in ((1, 0.010), (2, 0.015), (3, 0.006)):
        maker.read("throttle_joint", f"joint {n}", "pin diameter", 0.1875 * INCH)
        maker.read("throttle_joint", f"joint {n}", "hole", (0.1875 + play) * INCH)
        maker.read("throttle_joint", f"joint {n}", "pin length", 0.75 * INCH)
    for item, driving, driven in (("fork lever", 2.0, 2.0), ("lever 1", 2.0, 3.0)):
        maker.read("throttle_lever", item, "driving arm", driving * INCH)
        maker.read("throttle_lever", item, "driven arm", driven * INCH)
    return maker


def test_slack_is_summed_through_the_levers() -> None:
    # plays of 10, 15 and 6 thou behind a lever of 2 : 3: 10 + 15 / 1.5 + 6 / 1.5 = 24 thou at the governor (plain arithmetic)
    slack = value(INTAKE, throttle().bench(), "linkage slack at the governor")
    assert slack == pytest.approx(0.024 * INCH, rel=0.01)


def test_a_fulcrum_counts_at_both_ends_of_its_lever() -> None:
    maker = throttle()
    maker.read("throttle_lever", "fork lever", "fulcrum pin diameter", 0.3750 * INCH)
    maker.read("throttle_lever", "fork lever", "fulcrum hole", 0.3790 * INCH)
    # 4 thou at a fulcrum with arms alike: 8 at the driving end (geometry)
    assert value(INTAKE, maker.bench(), "linkage slack at the governor") == pytest.approx(0.032 * INCH, rel=0.01)


def test_a_return_spring_takes_most_of_the_slack_up() -> None:
    loose = value(INTAKE, throttle().bench(), "linkage slack at the governor")
    assert value(INTAKE, throttle(spring="pulls it shut").bench(), "linkage slack at the governor") < 0.35 * loose


def test_drag_of_the_lever_is_brought_to_the_governor() -> None:
    # half a pound at the throttle's lever, through 1 and 1.5: three quarters of a pound (work is kept)
    assert value(INTAKE, throttle().bench(), "throttle drag at the governor") / LBF == pytest.approx(0.75, rel=0.02)


def test_leak_on_paper_and_what_it_grows_by() -> None:
    # shaft .372, 9 thou at both ends: pi x .372 x .009 sq in; disc pi x 1.5 x .003 (plain arithmetic)
    area = math.pi * (0.372 * 0.009 + 1.5 * 0.003) * INCH**2
    assert value(INTAKE, throttle().bench(), "leak area of the shut throttle") == pytest.approx(area, rel=0.02)
    tight = value(INTAKE, throttle(hole=0.373, gap=0.0005).bench(), "air past the shut throttle")
    assert tight < 0.3 * value(INTAKE, throttle().bench(), "air past the shut throttle")


def test_bushing_makes_the_throttle_tight_if_its_boss_has_the_wall() -> None:
    good = keyed(INTAKE, throttle().bench())["throttle-bush"]
    assert good.possible
    assert good.merit > 0.95
    thin = throttle()
    thin.estimates = {key: each for key, each in thin.estimates.items() if key.feature != "boss outside diameter"}
    thin.read("throttle", "throttle", "boss outside diameter", 0.55 * INCH)
    assert not keyed(INTAKE, thin.bench())["throttle-bush"].possible


def test_shaft_and_pins_wait_for_their_holes() -> None:
    bench = throttle().bench()
    drafts = orders(INTAKE, bench, "throttle-bush") | orders(INTAKE, bench, "linkage-pins")
    assert set(drafts) == {"bushes", "shaft", "pins"}
    assert not drafts["bushes"].held
    assert {need.feature for need in drafts["shaft"].held} == {"shaft hole"}
    assert {need.feature for need in drafts["pins"].held} == {"hole"}
    for draft in drafts.values():
        assert draft.drawings
        for drawing in draft.drawings:
            assert "<svg" in drawing_svg(drawing)


# ---- the wheel


def wheel(*, key: float = 0.500, way: float = 0.507, sound: str = "no cracks", lining: str = "woven") -> Maker:
    maker = Maker(outline=outline(bore=4.5 * INCH, stroke=6 * INCH, fuel="petrol"), noise=0.0001 * INCH)
    for name, size in (
        ("outside diameter", 26.0), ("rim width", 3.0), ("rim thickness", 2.5), ("hub bore", 2.0035),
        ("shaft diameter", 1.9985), ("hub length", 3.75), ("hub outside diameter", 4.25), ("key width", key),
        ("key height", 0.400), ("key length", 3.5),
        ("shaft keyway width", 0.503), ("hub keyway width", way), ("face run-out", 0.040), ("rim run-out", 0.003),
    ):  # fmt: skip
        maker.read("flywheel", "flywheel", name, size * INCH)
    maker.words("flywheel", "flywheel", "condition", sound)
    for name, size in (("lining outside diameter", 12.0), ("lining inside diameter", 8.0), ("lining over rivets", 0.02)):
        maker.read("clutch", "clutch", name, size * INCH)
    maker.read("clutch", "clutch", "pressing force", 900 * LBF, noise=5)
    maker.read("clutch", "clutch", "rubbing faces", 2, noise=0)
    maker.words("clutch", "clutch", "lining", lining)
    return maker


def test_rim_speed_against_both_authorities() -> None:
    # 26 in at 450 rev/min: pi x 26/12 x 450 = 3063 ft/min (plain arithmetic); 5280 and 5000 ft/min are the limits printed
    bench = wheel().bench()
    rims = [finding for finding in FLYWHEEL.findings(bench) if finding.quantity == "rim speed"]
    assert rims[0].value == pytest.approx(3063 * 0.3048 / 60, rel=1e-3)
    assert sorted(round((rim.limit or 0) / (0.3048 / 60)) for rim in rims) == [5000, 5280]
    assert {rim.standing for rim in rims} == {"within"}


def test_a_wheel_that_is_too_large_for_its_speed_is_past() -> None:
    maker = wheel()
    maker.outline = outline(rated_speed=900.0)
    rims = [finding for finding in FLYWHEEL.findings(maker.bench()) if finding.quantity == "rim speed"]
    assert {rim.standing for rim in rims} == {"past"}


def test_run_up_time_on_paper() -> None:
    # rim of 26 by 21 in, 3 in wide, iron of 7300: 553.7 cu in, 66.2 kg; m (D^2 + d^2) / 8 = 5.96 kg m2 and 5 to 15 % more;
    # at 450 rev/min and 15 hp (11.19 kW) J w^2 / P (plain arithmetic)
    mass = 7300 * math.pi / 4 * (26**2 - 21**2) * 3 * INCH**3
    inertia = mass * (26**2 + 21**2) / 8 * INCH**2
    assert value(FLYWHEEL, wheel().bench(), "run-up time") == pytest.approx(
        1.10 * inertia * (450 * math.pi / 30) ** 2 / 11185.5, rel=0.01
    )


def test_a_slack_key_rocks_the_rim() -> None:
    finding = found(FLYWHEEL, wheel().bench(), "slack of the key")
    assert finding.standing == "past"
    assert finding.value == pytest.approx(0.007 * INCH, rel=0.05)
    # 7 thou at a radius of 1 in is 7 x 13 = 91 thou at the rim (proportion)
    assert finding.sentence.amounts[1].value == pytest.approx(0.091 * INCH, rel=0.05)
    assert found(FLYWHEEL, wheel(key=0.5025, way=0.503).bench(), "slack of the key").standing != "past"


def test_a_cracked_wheel_is_offered_no_way_of_running() -> None:
    bench = wheel(sound="hairline crack at a spoke").bench()
    ways = [remedy for remedy in FLYWHEEL.remedies(bench) if remedy.subject != "flywheel: clutch"]
    assert ways
    assert not any(remedy.possible for remedy in ways)
    assert "not run" in found(FLYWHEEL, bench, "condition", "flywheel").sentence.text


def test_the_key_waits_for_nothing_but_its_sizes_and_has_the_trades_taper() -> None:
    draft = orders(FLYWHEEL, wheel().bench(), "key-new")["key"]
    # 1/2 in ways worn to .507 clean up at 17/32 (.53125)
    assert draft.asked[0].lower == pytest.approx(0.53125 * INCH)
    # D. A. Low: an eighth of an inch to the foot, 1 in 96
    assert any("1 in 96" in words for line in draft.lines for _, words in line.detail)
    assert "<svg" in drawing_svg(draft.drawings[0])


def test_a_bushed_hub_is_drawn_and_leaves_the_rim_alone() -> None:
    drafts = orders(FLYWHEEL, wheel().bench(), "hub-bush")
    assert set(drafts) == {"hub", "key"}
    assert any("no weight on" in words for words in drafts["hub"].leave_alone)
    assert "<svg" in drawing_svg(drafts["hub"].drawings[0])


def test_clutch_on_paper_and_oil_makes_it_slip() -> None:
    # two faces, 900 lbf, radius (6 + 4)/2 = 5 in, mu .3 in the middle: 2 x .3 x 900 x 5/12 = 225 lb ft; 15 hp at 450: 175 lb ft
    bench = wheel().bench()
    assert value(FLYWHEEL, bench, "torque that the clutch carries") / (LBF * 0.3048) == pytest.approx(225, rel=0.02)
    assert value(FLYWHEEL, bench, "clutch over engine") == pytest.approx(225 / 175, rel=0.03)
    assert found(FLYWHEEL, wheel(lining="woven, oily").bench(), "clutch over engine").standing == "past"


def test_a_lining_is_taken_for_asbestos_unless_it_is_plainly_not() -> None:
    assert "asbestos" in found(FLYWHEEL, wheel().bench(), "lining").sentence.text
    assert not [f for f in FLYWHEEL.findings(wheel(lining="leather").bench()) if f.quantity == "lining"]
    assert any(caution.hazard == "asbestos" for caution in keyed(FLYWHEEL, wheel().bench())["clutch-reline"].cautions)
