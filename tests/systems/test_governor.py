"""The governor: what play, flats, friction and slack do to its speed, what repairs give, what is ordered."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.order import OrderDraft
from gudgeon.engine.remedy import Remedy
from gudgeon.engine.verdict import Verdict
from gudgeon.outwork import drawing_svg
from gudgeon.systems.governor import SYSTEM
from gudgeon.systems.governor.governor_set import GovernorSet
from gudgeon.systems.governor.joint_ways import JOINTS
from gudgeon.systems.governor.spring_ways import spring_asked
from tests.systems.benches import INCH, Maker
from tests.systems.governors import LBF, governor, outline

RPM = np.pi / 30


def found(bench: Bench, quantity: str) -> Finding:
    return next(finding for finding in SYSTEM.findings(bench) if finding.quantity == quantity)


def value(bench: Bench, quantity: str) -> float:
    got = found(bench, quantity).value
    assert got is not None
    return got


def keyed(bench: Bench) -> dict[str, Remedy]:
    return {remedy.key.partition("/")[2]: remedy for remedy in SYSTEM.remedies(bench)}


def gives(remedy: Remedy, quantity: str) -> float:
    got = next(finding.value for finding in remedy.gives if finding.quantity == quantity)
    assert got is not None
    return got


def orders(bench: Bench, remedy: Remedy) -> dict[str, OrderDraft]:
    verdict = Verdict(id="v1", subject=remedy.subject, chosen=remedy, reason="test")
    return {draft.key.partition("/")[2]: draft for draft in SYSTEM.orders(bench, verdict)}


def decided(maker: Maker, name: str) -> Bench:
    bench = maker.bench()
    verdict = Verdict(id="v1", subject=JOINTS, chosen=keyed(bench)[name], reason="test")
    return replace(bench, snapshot=replace(bench.snapshot, verdicts=(verdict,)))


@pytest.fixture(scope="module")
def bench() -> Bench:
    return governor().bench()


def test_full_load_speed_on_paper(bench: Bench) -> None:
    # worked by hand: spring 36 lbf at .75 in of travel, 48 lbf/in, so 24 lbf at .5 in; arms 2 and 1 1/4 in, sleeve arm
    # square at half travel so it leans asin(.21875/1.25); weight arm leans asin(.1/2); 1 3/4 lb each; crank twice as fast
    lean, out = np.arcsin(0.21875 / 1.25), np.arcsin(0.05)
    force = 24 * LBF / 2 * (1.25 * np.cos(lean)) / (2.0 * np.cos(out))
    turning = np.sqrt(force / (28 * 0.45359237 / 16 * 2.1 * INCH))
    assert value(bench, "speed at full load") == pytest.approx(2 * turning, rel=0.005)


def test_slack_of_the_collar_and_thrust_is_lost_whole_and_pins_only_in_part() -> None:
    tight = value(governor(pin_play=0.0, thrust=0.0).bench(), "lost motion at the sleeve")
    thrust = value(governor(pin_play=0.0, thrust=0.010).bench(), "lost motion at the sleeve")
    pins = value(governor(pin_play=0.010, thrust=0.0).bench(), "lost motion at the sleeve")
    # geometry: a joint that nothing presses loses its whole play; one pressed one way only what friction lets it climb
    assert thrust - tight == pytest.approx(0.010 * INCH, rel=0.05)
    assert 0.0005 * INCH < pins - tight < 0.005 * INCH


def test_a_spring_on_the_lever_takes_the_collars_slack_up() -> None:
    maker = governor()
    maker.readings = [reading for reading in maker.readings if reading.place.feature != "place"]
    maker.words("governor_spring", "governor spring", "place", "on the fork lever outside")
    assert value(maker.bench(), "lost motion at the sleeve") < 0.6 * value(governor().bench(), "lost motion at the sleeve")


def test_flats_and_groove_widen_the_dead_band() -> None:
    sound = value(governor(flat=0.0, groove=0.0).bench(), "dead band")
    assert value(governor(flat=0.200, groove=0.0).bench(), "dead band") > sound
    assert value(governor(flat=0.0, groove=0.020).bench(), "dead band") > sound


def test_friction_is_half_the_difference_up_and_back(bench: Bench) -> None:
    # 24.5 and 21.5 lbf: 1.5 lbf (plain arithmetic)
    assert value(bench, "friction at the sleeve") / LBF == pytest.approx(1.5, rel=0.05)


def test_spread_is_held_against_what_mathot_allowed_for_its_way_of_governing(bench: Bench) -> None:
    # Mathot 1905, ch. II: 5 % throttling, 2 % hit-and-miss
    throttling = found(bench, "spread with dead band")
    assert throttling.limit == pytest.approx(0.05)
    assert throttling.limit_origin is not None
    assert "Mathot" in throttling.limit_origin.source
    other = found(governor(governing="hit-and-miss").bench(), "spread with dead band")
    assert other.limit == pytest.approx(0.02)
    assert throttling.standing == "past"


def test_what_is_missing_is_named_and_nothing_is_claimed() -> None:
    maker = Maker(outline=outline())
    maker.read("governor", "governor", "sleeve travel", 0.4375 * INCH)
    finding = found(maker.bench(), "speed at full load")
    assert finding.standing == "not measured"
    assert finding.value is None
    for words in ("weight pivots", "pivot to the middle of the weight", "free length"):
        assert words in finding.settle


def test_hunting_waits_for_the_wheel(bench: Bench) -> None:
    finding = found(bench, "swing when hunting")
    assert finding.standing == "not measured"
    assert "flywheel" in finding.settle


def with_findings(bench: Bench, **values: tuple[str, float]) -> Bench:
    told = {
        system: (
            Finding(
                system=system, part=system, item=system, quantity=quantity, dimension="length", value=size, low=size, high=size
            ),
        )
        for system, (quantity, size) in values.items()
    }
    return replace(bench, findings=told)


def test_slack_of_the_linkage_comes_from_the_other_systems_finding(bench: Bench) -> None:
    without = value(bench, "lost motion at the sleeve")
    more = with_findings(bench, intake=("linkage slack at the governor", 0.020 * INCH))
    assert value(more, "lost motion at the sleeve") - without == pytest.approx(0.020 * INCH, rel=1e-3)
    assert value(more, "dead band") > value(bench, "dead band")


def test_a_light_wheel_hunts_where_a_heavy_one_does_not(bench: Bench) -> None:
    # the heavier the flywheel the steadier the governed engine : common practice, and Vyshnegradskii's condition
    swings = [float(value(with_findings(bench, flywheel=("run-up time", time)), "swing when hunting")) for time in (0.3, 20.0)]
    assert swings[1] <= swings[0]


def test_every_repair_narrows_the_dead_band(bench: Bench) -> None:
    ways = keyed(bench)
    wander = [gives(ways[name], "spread with dead band") for name in ("joints-run-on", "free", "repin", "rebuild")]
    assert wander[0] > wander[1] > wander[2] > wander[3]


def test_new_pins_keep_what_authorities_allow(bench: Bench) -> None:
    # Page (1917), ch. XI, shared out: .005 in to one joint
    assert gives(keyed(bench)["repin"], "weight on its pin") < 0.005 * INCH
    assert gives(keyed(bench)["joints-run-on"], "weight on its pin") == pytest.approx(0.009 * INCH, rel=0.05)


def test_the_spring_to_order_brings_speed_and_spread_right() -> None:
    way = keyed(decided(governor(), "rebuild"))["spring-new"]
    assert gives(way, "speed at full load") / RPM == pytest.approx(450, rel=0.01)
    assert gives(way, "speed spread") == pytest.approx(0.04, rel=0.05)  # a little under the 5 % that is allowed
    assert way.merit > 0.95


def test_the_spring_ordered_holds_the_weights_at_the_speeds_asked(bench: Bench) -> None:
    asked = spring_asked(GovernorSet.of(bench))
    assert asked.down is not None
    assert asked.up is not None
    assert asked.made is not None
    # by hand, sleeve down: n m w^2 r (dr/ds), w of 225 rev/min
    lean, out = np.arcsin(0.21875 / 1.25), np.arcsin(0.05)
    force = 2 * (28 * 0.45359237 / 16) * (225 * RPM) ** 2 * 2.1 * INCH * 2.0 * np.cos(out) / (1.25 * np.cos(lean))
    assert asked.down[1] == pytest.approx(force, rel=0.005)
    # the wire's own rate agrees with the two forces (there and back)
    travel = asked.down[0] - asked.up[0]
    assert float(np.asarray(asked.made.rate)) == pytest.approx((asked.up[1] - asked.down[1]) / travel, rel=1e-6)


def test_setting_a_strong_spring_lets_it_out(bench: Bench) -> None:
    way = keyed(bench)["spring-set"]
    assert way.parameters["pressed further"] < 0
    assert gives(way, "speed at full load") / RPM == pytest.approx(450, rel=0.01)


def test_balls_are_identified_counted_and_ordered(bench: Bench) -> None:
    finding = found(bench, "ball of the thrust")
    assert "1/4 in" in finding.sentence.text
    # a ring of 1/4 in balls on 1 1/2 in: pi / asin(1/6) = 18.8, so 18 (geometry)
    assert "18 go in" in finding.sentence.text
    draft = orders(bench, keyed(bench)["rebuild"])["balls"]
    assert draft.lines[0].count == 18
    assert not draft.held


def test_pins_wait_for_their_holes_and_are_made_to_them() -> None:
    maker = governor()
    draft = orders(maker.bench(), keyed(maker.bench())["repin"])["pins"]
    assert {need.feature for need in draft.held} == {"pin hole"}
    for n in (1, 2):
        maker.read("governor_weight", f"weight {n}", "pin hole", 0.3290 * INCH, stage="fitted")
    ready = orders(maker.bench(), keyed(maker.bench())["repin"])["pins"]
    assert not ready.held
    assert all(0 < 0.3290 * INCH - asked.upper < 0.001 * INCH for asked in ready.asked)


def test_both_rollers_are_ordered_alike_and_every_drawing_can_be_drawn(bench: Bench) -> None:
    drafts = orders(bench, keyed(bench)["rebuild"]) | orders(bench, keyed(bench)["spring-new"])
    assert set(drafts) == {"lugs", "sleeve", "pins", "rollers", "balls", "spring"}
    sizes = {(asked.lower, asked.upper) for asked in drafts["rollers"].asked if asked.feature == "roller diameter"}
    assert len(sizes) == 1
    for draft in drafts.values():
        for drawing in draft.drawings:
            assert "<svg" in drawing_svg(drawing)


def test_a_porter_governor_is_reckoned_by_its_own_geometry() -> None:
    # Khurmi and Gupta, ch. 18: arms 250 mm on the axis, 5 and 30 kg, radius 150 to 200 mm: 177 to 204.4 rev/min
    maker = Maker(outline=outline(governor="", rated_speed=None), noise=1e-6)
    maker.words("governor", "governor", "form", "Porter, upright")
    travel = 2 * (np.sqrt(0.25**2 - 0.15**2) - np.sqrt(0.25**2 - 0.20**2))
    for name, size in (
        ("upper arm", 0.25), ("lower arm", 0.25), ("weight radius, sleeve down", 0.15), ("sleeve travel", travel),
        ("turns per turn of the crank", 1.0), ("sleeve mass", 30.0),
    ):  # fmt: skip
        maker.read("governor", "governor", name, size)
    for n in (1, 2):
        maker.read("governor_weight", f"weight {n}", "mass", 5.0)
    assert value(maker.bench(), "speed at full load") / RPM == pytest.approx(177, abs=0.2)
    assert value(maker.bench(), "speed without load") / RPM == pytest.approx(204.4, abs=0.2)


def test_a_rounded_latch_is_past_and_a_turned_block_cures_it() -> None:
    maker = Maker(outline=outline(governing="hit-and-miss"))
    maker.read("detent", "detent", "blade gap at lowest speed", 0.0625 * INCH)
    maker.read("detent", "detent", "catch overlap", 0.030 * INCH)
    maker.read("detent", "detent", "edge rounding", 0.040 * INCH)
    maker.words("detent", "detent", "catch block", "one side used")
    bench = maker.bench()
    assert found(bench, "hold of the blade on the block").standing == "past"
    assert found(bench, "blade off the block at lowest speed").standing == "within"
    assert "turn it round" in found(bench, "catch block").sentence.text
    assert keyed(bench)["detent-turn"].merit > 0.99 > keyed(bench)["detent-leave"].merit


def test_fit_up_ends_with_the_stop_proven_before_the_first_run() -> None:
    steps = SYSTEM.fit_up(decided(governor(), "repin"))
    names = [step.key.partition("/")[2] for step in steps]
    assert names == ["fit-free", "fit-slack", "fit-stop", "fit-speed"]
    assert all(step.hold for step in steps)
    assert steps[3].after == ("governor/fit-stop",)
    assert any(caution.hazard == "runaway" for caution in steps[0].cautions)
    assert SYSTEM.fit_up(governor().bench()) == ()


def test_the_picture_shows_speed_before_and_after(bench: Bench) -> None:
    name, picture = SYSTEM.pictures(bench)[0]
    assert name == "governor: speed over travel"
    lines = dict(picture.curves)  # type: ignore[union-attr]
    assert {"as found, speed rising", "as found, speed falling", "made good, old spring"} <= set(lines)
    rising, falling = lines["as found, speed rising"], lines["as found, speed falling"]
    assert all(up[1] > down[1] for up, down in zip(rising, falling, strict=True))
