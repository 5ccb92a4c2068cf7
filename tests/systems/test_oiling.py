"""The oiling on benches built by hand, whose troughs, pumps and films are known."""

from dataclasses import replace

import numpy as np
import pytest

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.outline import Outline
from gudgeon.engine.picture import Curve
from gudgeon.engine.remedy import Remedy
from gudgeon.engine.verdict import Verdict
from gudgeon.mechanics.film_table import film
from gudgeon.quantity.show import say
from gudgeon.systems.oiling import SYSTEM

from .benches import INCH, THOU, Maker

OUTLINE = Outline(
    name="test engine", cylinders=3, strokes=4, bore=4.5 * INCH, stroke=6 * INCH, rated_speed=450, fuel="petrol",
    main_bearings=4, oiling="splash, dippers and troughs, plunger pump",
)  # fmt: skip
PUMP = "oil pump"


def found(bench: Bench, quantity: str, item: str = "") -> list[Finding]:
    return [each for each in SYSTEM.findings(bench) if each.quantity == quantity and item in each.item]


def remedy(bench: Bench, name: str) -> Remedy:
    return next(each for each in SYSTEM.remedies(bench) if each.key == f"oiling/{name}")


def troughs(*dips: float) -> Maker:
    """Troughs 1 in deep whose dippers go so far in [in]."""
    made = Maker(outline=OUTLINE)
    for n, dip in enumerate(dips, 1):
        made.read("trough", f"trough {n}", "oil depth", INCH)
        made.read("trough", f"trough {n}", "dipper tip above floor", (1.0 - dip) * INCH)
        made.read("trough", f"trough {n}", "trough length", 4 * INCH)
        made.read("trough", f"trough {n}", "trough width", 2 * INCH)
    return made


def test_a_dipper_that_was_not_read_is_unknown_and_starts_at_just_touching() -> None:
    # No book was found that gives it; "just dips": R. B. Whitman, Tractor Principles (1920), ch. X.
    made = Maker(outline=OUTLINE)
    made.words("trough", "trough 1", "condition", "sound")
    line = found(made.bench(), "dip")[0]
    assert line.standing == "not measured"
    assert line.value is None
    assert "unknown: measure it" in line.sentence.text
    assert "just touching" in line.sentence.text
    assert line.settle


@pytest.mark.parametrize(("dip", "standing"), [(0.1, "within"), (-0.1, "past"), (0.0, "doubtful")])
def test_a_dipper_must_touch(dip: float, standing: str) -> None:
    judged = [each for each in found(troughs(dip).bench(), "dip") if each.limit is not None]
    assert [each.standing for each in judged] == [standing]
    assert ("runs dry" in judged[0].sentence.text) == (judged[0].value is not None and judged[0].value <= 0)


def test_what_a_trough_holds_above_the_tip_is_length_by_width_by_dip() -> None:
    line = found(troughs(0.25).bench(), "oil above the dipper's tip")[0]
    assert line.value == pytest.approx(4 * 2 * 0.25 * INCH**3, rel=0.01)


def test_the_dip_read_on_a_rod_counts_for_its_trough() -> None:
    made = Maker(outline=OUTLINE)
    made.words("trough", "trough 2", "condition", "sound")
    made.read("rod", "rod 2", "dip", 0.125 * INCH)
    line = found(made.bench(), "dip")[0]
    assert line.value == pytest.approx(0.125 * INCH, rel=0.05)
    assert line.formula == "as read on rod 2"


def test_setting_the_dips_is_worth_more_than_leaving_a_dry_one() -> None:
    bench = troughs(0.1, -0.2, 0.1).bench()
    leave, reset = remedy(bench, "dips-leave"), remedy(bench, "dips-set")
    assert reset.merit > 0.99 > 0.01 > leave.merit
    assert "trough 2" in leave.against_it[0].text


def plunger(*, play: float = 2.0, delivered: float | None = None) -> Maker:
    made = Maker(outline=OUTLINE)
    made.words(PUMP, PUMP, "kind", "plunger, off the camshaft")
    for feature, size in (("plunger diameter", 0.375), ("barrel bore", 0.375 + play / 1000), ("plunger stroke", 0.5)):
        made.read(PUMP, PUMP, feature, size * INCH)
    made.read(PUMP, PUMP, "turns per crank turn", 0.5, dimension="ratio", noise=0.0)
    if delivered is not None:
        made.read(PUMP, PUMP, "delivery of 100 turns", delivered, dimension="volume", noise=1e-7)
    return made


def test_a_measured_delivery_tells_the_slip() -> None:
    # 3/8 in by 1/2 in sweeps .0552 cu in a stroke; half of it measured is 50 % lost. Plane geometry.
    swept = np.pi / 4 * 0.375**2 * 0.5 * INCH**3
    bench = plunger(delivered=50 * swept).bench()
    line = found(bench, "slips back, of what it sweeps")[0]
    assert line.value == pytest.approx(0.5, abs=0.01)
    minute = found(bench, "delivered in a minute")[0]
    assert minute.value == pytest.approx(0.5 * swept * 225, rel=0.01)  # half of 450 turns
    assert minute.standing == "within"  # drips of 1909 need 3 x 12 and 7 x 8 drops, some 6 cc


def test_more_than_it_can_sweep_is_called_wrong() -> None:
    swept = np.pi / 4 * 0.375**2 * 0.5 * INCH**3
    assert "cannot" not in found(plunger(delivered=50 * swept).bench(), "slips back, of what it sweeps")[0].sentence.text
    line = found(plunger(delivered=150 * swept).bench(), "slips back, of what it sweeps")[0]
    assert "More was measured than it can sweep" in line.sentence.text


def test_slip_past_a_plunger_goes_as_the_cube_of_its_play() -> None:
    narrow, wide = (found(plunger(play=p).bench(), "slips back, of what it sweeps")[0].value for p in (3.0, 6.0))
    assert narrow is not None
    assert wide is not None
    assert wide == pytest.approx(8 * narrow, rel=0.1)


def gears(*, tip: float, side: float) -> Maker:
    made = Maker(outline=replace(OUTLINE, oiling="splash, gear pump"))
    made.words(PUMP, PUMP, "kind", "gear")
    for feature, inches in (
        ("gear outside diameter", 1.5), ("gear centre distance", 1.25), ("gear width", 0.5),
        ("oil pump tip clearance", tip / 1000), ("oil pump side clearance", side / 1000),
    ):  # fmt: skip
        made.read(PUMP, PUMP, feature, inches * INCH)
    made.read(PUMP, PUMP, "turns per crank turn", 0.5, dimension="ratio", noise=0.0)
    made.read(PUMP, PUMP, "gear tooth count", 10, dimension="count", noise=0.0)
    return made


def test_gear_pump_against_the_manuals() -> None:
    # .0035 at a tip, half of .007: TM 5-4310-354-14; .006 to the cover: TM 10-3950-203-34 and Mack; Ford A .001 to .002.
    bench = gears(tip=5.0, side=8.0).bench()
    for quantity in ("oil pump tip clearance", "oil pump side clearance"):
        judged = [each for each in found(bench, quantity) if each.limit is not None]
        assert judged
        assert all(each.standing == "past" for each in judged)
        assert judged[0].target_low == pytest.approx(0.001 * INCH)
    faced = remedy(bench, "pump-face-cover")
    assert remedy(bench, "pump-run-on").merit < faced.merit < remedy(bench, "pump-new-gears").merit


def test_a_plunger_is_drawn_and_waits_for_the_lapped_barrel() -> None:
    made = plunger(play=6.0)
    made.read(PUMP, PUMP, "plunger length", 3.0 * INCH)
    bench = made.bench()
    chosen = remedy(bench, "pump-new-plunger")
    verdict = Verdict(id="v1", subject=chosen.subject, chosen=chosen, reason="")
    (order,) = SYSTEM.orders(bench, verdict)
    assert [need.what for need in order.held] == ["oil pump: barrel read after lapping"]
    assert order.drawings[0].title == "Plunger, oil pump"
    made.read(PUMP, PUMP, "barrel bore", 0.383 * INCH, stage="fitted")
    (order,) = SYSTEM.orders(made.bench(), verdict)
    assert order.held == ()
    assert order.asked[0].upper == pytest.approx(0.382 * INCH)


def with_films(bench: Bench, *films: tuple[str, float, float]) -> Bench:
    made = [
        Finding(system="bearings", part="bearing", item=item, quantity=quantity, dimension="length", value=value)
        for item, film, clearance in films
        for quantity, value in (("oil film, mean load", film), ("vertical clearance", clearance))
    ]
    return replace(bench, findings={"bearings": tuple(made), "crankshaft": ()})


def oil_bench() -> Bench:
    made = Maker(outline=OUTLINE)
    made.words("oil", "oil", "grade", "SAE 30")
    return made.bench()


def test_oil_is_not_chosen_before_a_film_was_reckoned() -> None:
    line = found(oil_bench(), "oil by film")[0]
    assert line.standing == "not measured"
    assert not [each for each in SYSTEM.remedies(oil_bench()) if each.subject == "oiling: oil"]


def test_thicker_oil_has_a_thicker_film_as_the_bearing_table_says() -> None:
    # Raimondi and Boyd (1958), L/D 1: S of .121 has an eccentricity of .6, .264 has .4: the film goes up by half where the
    # viscosity goes up 2.18 times.
    bench = with_films(oil_bench(), ("rod 1", 0.4 * THOU, 2.0 * THOU), ("rod 2", 0.6 * THOU, 2.0 * THOU))
    assert float(film(sommerfeld=0.121, slenderness=1.0).eccentricity) == pytest.approx(0.6, abs=0.01)
    (name, curve), *_ = SYSTEM.pictures(bench)
    assert name == "oil by film"
    assert isinstance(curve, Curve)
    films = dict(curve.curves[0][1])
    assert curve.curves[0][0] == "rod 1"
    assert films[30.0] == pytest.approx(0.4, rel=0.02)
    assert list(films.values()) == sorted(films.values())
    assert films[50.0] == pytest.approx(0.6, rel=0.12)  # SAE 50 is about 2.1 times SAE 30 at 70 degree C
    line = found(bench, "oil by film")[0]
    assert "rod 1" in say(line.sentence, "inch")
    assert remedy(bench, "oil-30").action == "adjust"


def test_drops_of_a_car_are_told_as_a_cars() -> None:
    # 6 to 12 drops to a cylinder, 8 to a bearing: Whitman (1909), lubrication table; no limit: it is set by trial.
    made = Maker(outline=replace(OUTLINE, oiling="drip oilers"))
    made.read("oiler", "oiler 1", "drip", 15 / 60, dimension="drip rate", noise=0.01)
    made.read("oiler", "oiler 2", "drip", 15 / 60, dimension="drip rate", noise=0.01)
    made.words("oiler", "oiler 2", "feeds", "main bearing")
    one, two = (found(made.bench(), "drip", f"oiler {n}")[0] for n in (1, 2))
    assert (one.target_low, one.target_high) == pytest.approx((6 / 60, 12 / 60))
    assert two.target_low == pytest.approx(8 / 60)
    assert one.limit is None
    assert "by trial" in one.sentence.text


def test_fit_up_shows_oil_before_power() -> None:
    bench = troughs(0.1).bench()
    chosen = remedy(bench, "dips-set")
    verdict = Verdict(id="v1", subject=chosen.subject, chosen=chosen, reason="")
    settled = replace(bench, snapshot=replace(bench.snapshot, verdicts=(verdict,)))
    steps = SYSTEM.fit_up(settled)
    assert [each.key for each in steps] == ["oiling/fit-dips", "oiling/fit-oil"]
    assert steps[0].after == ("oiling/set-dips",)
    assert "no power before that" in steps[-1].hold


def test_an_empty_bench_says_nothing() -> None:
    bench = Maker(outline=OUTLINE).bench()
    assert SYSTEM.findings(bench) == () == SYSTEM.remedies(bench)
    assert SYSTEM.pictures(bench) == ()
