"""Ignition and timing on benches built by hand, whose spark, teeth and marks are known."""

import math
from dataclasses import replace

import pytest

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.outline import Outline
from gudgeon.engine.picture import TimingChart
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity.show import say
from gudgeon.systems.ignition import SYSTEM

from .benches import INCH, Maker

DEGREE = math.pi / 180
OUTLINE = Outline(
    name="test engine", cylinders=3, strokes=4, bore=4.5 * INCH, stroke=6 * INCH, rated_speed=450, fuel="petrol",
    ignition="high-tension magneto", magneto="gear driven, impulse coupling",
)  # fmt: skip


def maker(*, trips: float = 1.0, lag: float = 14.0, ratio: float = 1.5, sparks: int = 1) -> Maker:
    made = Maker(outline=OUTLINE)
    for feature, value, dimension in (
        ("turns per crank turn", ratio, "ratio"),
        ("sparks per turn", sparks, "count"),
        ("impulse lag", lag * DEGREE, "angle"),
        ("impulse trips", trips * DEGREE, "angle"),
    ):
        noise = 0.5 * DEGREE if dimension == "angle" else 0.0
        made.read("magneto", "magneto", feature, value, dimension=dimension, noise=noise)
    return made


def found(bench: Bench, quantity: str) -> list[Finding]:
    return [each for each in SYSTEM.findings(bench) if each.quantity == quantity]


def test_a_magneto_of_the_right_ratio_runs_lag_over_ratio_before_centre() -> None:
    # Three cylinders want 1.5 sparks a turn of the crank (Pagé 1917, ch. VI); 14 / 1.5 - 1 = 8.3 degree, plane geometry.
    bench = maker().bench()
    assert found(bench, "drive ratio")[0].standing == "within"
    running = found(bench, "spark when running")[0]
    assert running.value is not None
    assert math.degrees(running.value) == pytest.approx(8.33, abs=0.1)
    assert "end of its stroke" in running.sentence.text


def test_a_magneto_of_another_engine_is_past() -> None:
    wrong = found(maker(ratio=1.0).bench(), "drive ratio")[0]
    assert wrong.standing == "past"
    assert wrong.target_low == pytest.approx(1.5)


@pytest.mark.parametrize(("trips", "standing"), [(1.0, "within"), (-2.0, "doubtful"), (-10.0, "past")])
def test_a_spark_before_centre_while_cranking_is_past(trips: float, standing: str) -> None:
    # "a risk of kickback" where it trips any great amount early : yesterdaystractors.com, Farmall board 467601.
    judged = [each for each in found(maker(trips=trips).bench(), "spark while cranking") if each.limit is not None]
    assert [each.standing for each in judged] == [standing]
    assert ("throws the crank back" in judged[0].sentence.text) == (trips < 0)


def test_an_angle_counted_before_centre_is_turned_round() -> None:
    made = Maker(outline=OUTLINE)
    made.read("magneto", "magneto", "impulse trips", 10 * DEGREE, dimension="angle", noise=0.5 * DEGREE)
    made.readings[-1] = type(made.readings[-1])(
        **{**{name: getattr(made.readings[-1], name) for name in made.readings[-1].__slots__}, "unit": "deg BTDC"}
    )
    assert found(made.bench(), "spark while cranking")[0].standing == "past"


def test_nothing_read_is_not_measured_and_says_what_to_read() -> None:
    made = Maker(outline=OUTLINE)
    made.words("magneto", "magneto", "condition", "weak spark")
    bench = made.bench()
    for quantity in ("drive ratio", "spark while cranking", "spark when running", "coupling play at the crank"):
        line = found(bench, quantity)[0]
        assert line.standing == "not measured"
        assert line.settle
        assert line.value is None


def test_an_empty_bench_has_no_findings_and_no_remedies() -> None:
    bench = Maker(outline=OUTLINE).bench()
    assert SYSTEM.findings(bench) == ()
    assert SYSTEM.remedies(bench) == ()
    assert SYSTEM.pictures(bench) == ()


def test_dead_centre_lies_half_way_and_the_old_mark_is_told_from_it() -> None:
    # A 26 in wheel: a degree is pi 26 / 360 = .2269 in of rim; plane geometry.
    made = Maker(outline=OUTLINE)
    for feature, inches in (
        ("rim diameter", 26.0), ("stop mark before", 2.0), ("stop mark after", 9.0), ("old dead centre mark", 5.5 + 3 * 0.2269),
    ):  # fmt: skip
        made.read("timing", "cyl 1", feature, inches * INCH, noise=0.01 * INCH)
    bench = made.bench()
    centre, old = found(bench, "dead centre on the rim")[0], found(bench, "old mark from dead centre")[0]
    assert centre.value == pytest.approx(5.5 * INCH, abs=0.002 * INCH)
    assert old.value is not None
    assert math.degrees(old.value) == pytest.approx(3.0, abs=0.05)
    assert ".227 in of rim" in say(centre.sentence, "inch")


def _order(lobes: dict[int, float], throws: dict[int, float]) -> Finding:
    made = Maker(outline=OUTLINE)
    for feature, angles in (("exhaust lobe after cylinder 1", lobes), ("comes to inner centre", throws)):
        for cylinder, degrees in angles.items():
            made.read("timing", f"cyl {cylinder}", feature, degrees * DEGREE, dimension="angle", noise=0.5 * DEGREE)
    return found(made.bench(), "firing order")[0]


def test_firing_order_by_cam_and_crank() -> None:
    # A three with throws at 120 degree fires every 240: 1-3-2 where piston 3 comes up 240 after 1; plane geometry.
    right = _order({3: 240.0, 2: 480.0}, {3: 240.0, 2: 120.0})
    assert right.standing == "within"
    assert "1-3-2" in right.sentence.text
    only_crank = _order({}, {3: 240.0, 2: 120.0})
    assert only_crank.standing == "for information"
    assert "1-3-2" in only_crank.sentence.text
    crossed = _order({2: 240.0, 3: 480.0}, {3: 240.0, 2: 120.0})
    assert crossed.standing == "doubtful"


def test_valve_events_from_lobe_and_lash() -> None:
    # A straight lobe: lift 1 thou a degree up to .050 at the nose. At .010 lash it is open 40 degree of the cam either side,
    # 80 of the crank: nose 110 before inner centre, opens 190 before it.
    made = Maker(outline=OUTLINE)
    made.read("timing", "cyl 1", "exhaust nose", 110 * DEGREE, dimension="angle", noise=0.01 * DEGREE)
    for angle in range(-60, 61, 10):
        lift = max(50 - abs(angle), 0) * 1e-3 * INCH
        made.read("cam lobe", "exhaust 1 lobe", f"lift at {angle} deg", lift, noise=1e-7)
    made.read("valve", "exhaust 1", "lash", 0.010 * INCH, noise=1e-7)
    bench = made.bench()
    line = found(bench, "exhaust opens by lobe and lash")[0]
    assert line.value is not None
    assert math.degrees(line.value) == pytest.approx(-190, abs=0.1)
    (name, chart), *_ = SYSTEM.pictures(bench)
    assert name == "cyl 1 timing"
    assert isinstance(chart, TimingChart)
    assert chart.arcs[0][1:] == pytest.approx((170.0, 330.0), abs=0.1)


def test_setting_the_coupling_over_brings_the_trip_to_centre() -> None:
    # 20 teeth at 1.5 turns: a tooth is 360 / 30 = 12 degree of the crank; one tooth later from 8 before is 4 after.
    made = maker(trips=-8.0)
    made.read("magneto", "magneto", "coupling teeth", 20, dimension="count", noise=0.0)
    leave, reset = [each for each in SYSTEM.remedies(made.bench()) if each.subject == "ignition: spark timing"]
    assert reset.parameters["magneto teeth"] == 1
    after = next(each for each in reset.gives if each.quantity == "spark while cranking")
    assert after.value is not None
    assert math.degrees(after.value) == pytest.approx(4.0, abs=0.1)
    assert reset.merit > 0.95 > 0.05 > leave.merit
    assert any("kick-back" in caution.hazard or "magneto" in caution.hazard for caution in reset.cautions)
    assert not reset.needs[0].met


def test_the_overhaul_is_ordered_and_waits_for_what_is_not_known() -> None:
    made = maker()
    bench = made.bench()
    chosen = next(each for each in SYSTEM.remedies(bench) if each.key == "ignition/magneto-overhaul")
    verdict = Verdict(id="v1", subject=chosen.subject, chosen=chosen, reason="weak spark")
    (order,) = SYSTEM.orders(bench, verdict)
    assert [need.feature for need in order.held] == ["condition"]
    assert order.asked[0].feature == "contact point gap"
    assert "14°" in dict(order.lines[0].detail)["impulse"]


def test_fit_up_proves_the_impulse_by_hand_before_the_first_spark() -> None:
    made = maker()
    chosen = next(each for each in SYSTEM.remedies(made.bench()) if each.key == "ignition/spark-set")
    bench = made.bench()
    verdict = Verdict(id="v1", subject=chosen.subject, chosen=chosen, reason="")
    settled = replace(bench, snapshot=replace(bench.snapshot, verdicts=(verdict,)))
    steps = {each.key: each for each in SYSTEM.fit_up(settled)}
    assert "never before it" in steps["ignition/fit-magneto"].hold
    assert steps["ignition/fit-spark"].after == ("ignition/fit-magneto",)
    assert SYSTEM.fit_up(bench) == ()


def test_the_rim_may_be_read_either_way_round() -> None:
    # The same marks counted backwards from 20 in: the centre is the same place, the old mark as late; plane geometry.
    late = []
    for turned in (False, True):
        made = Maker(outline=OUTLINE)
        for feature, inches in (
            ("rim diameter", 26.0), ("stop mark before", 2.0), ("stop mark after", 9.0), ("old dead centre mark", 6.0),
        ):  # fmt: skip
            at = 20.0 - inches if turned and feature != "rim diameter" else inches
            made.read("timing", "cyl 1", feature, at * INCH, noise=0.001 * INCH)
        line = found(made.bench(), "old mark from dead centre")[0]
        assert "comes later" in line.sentence.text
        late.append(line.value)
    assert late[0] == pytest.approx(late[1], abs=0.001)


def test_a_gap_is_held_to_its_own_make_where_that_is_known() -> None:
    # Dixie: points .020 in at most (Pagé 1917, ch. VI); the widest of all is the tractor's 1/32 (Whitman 1920, ch. XII).
    for magneto, standing in (("gear driven, impulse coupling", "within"), ("Dixie, gear driven", "past")):
        made = maker()
        made.outline = replace(OUTLINE, magneto=magneto)
        made.read("magneto", "magneto", "contact point gap", 0.024 * INCH, noise=0.0005 * INCH)
        deciding = [each for each in found(made.bench(), "contact point gap") if each.standing != "for information"]
        assert [each.standing for each in deciding] == [standing]
