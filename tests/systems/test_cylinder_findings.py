"""What the readings of cylinders mean, against bores whose wear is known and against published figures."""

from __future__ import annotations

import math

import numpy as np
import pytest

from gudgeon.engine.finding import Finding
from gudgeon.engine.outline import Outline
from gudgeon.systems.cylinders.findings import findings
from gudgeon.systems.judging import practice
from tests.systems.benches import INCH, THOU, Maker, three_cylinders


def of(found: tuple[Finding, ...], item: str, quantity: str) -> list[Finding]:
    return [finding for finding in found if finding.item == item and finding.quantity == quantity]


def test_wear_taper_and_oval_of_a_known_bore_come_back() -> None:
    # The definitions are those of aircraft and Army inspection: wear = largest − original, taper along one line, out-of-round
    # at one level. The bore is made with 14 thou across the crank at the top, 30 % less along it, a tenth of it at the bottom.
    found = findings(three_cylinders(wears=(14.0,)).bench())
    known = {"wear at top of ring travel": 14.0, "taper": 14.0 * 0.9, "out-of-round": 14.0 * 0.3, "ridge": 7.0}
    for quantity, thou in known.items():
        finding = of(found, "cyl 1", quantity)[0]
        assert finding.value == pytest.approx(thou * THOU, abs=0.1 * THOU), quantity
        assert finding.low is not None
        assert finding.high is not None
        assert finding.low < thou * THOU < finding.high, quantity


def test_a_perfect_cylinder_has_no_wear_taper_or_oval() -> None:
    found = findings(three_cylinders(wears=(0.0,)).bench())
    for quantity in ("wear at top of ring travel", "taper", "out-of-round"):
        finding = of(found, "cyl 1", quantity)[0]
        assert finding.value == pytest.approx(0.0, abs=0.15 * THOU)


def test_authorities_stand_side_by_side() -> None:
    # Taper: one writer says that some run at .020 and others fail at .005; TM 5-6115-545-34 Table 1-2 gives .0015.
    limits = {round(f.limit / INCH, 4) for f in of(findings(three_cylinders().bench()), "cyl 1", "taper") if f.limit}
    assert {0.020, 0.005, 0.0015} <= limits


def test_tight_end_limits_do_not_decide_for_a_slow_engine() -> None:
    # Limits of faster engines with pressure oil are the tight end for 150 to 600 rev/min: common practice.
    def standing(speed: float) -> str:
        found = of(findings(three_cylinders(speed=speed).bench()), "cyl 1", "taper")
        return next(f.standing for f in found if f.limit == pytest.approx(0.0015 * INCH))

    assert standing(450) == "for information"
    assert standing(1500) == "past"


def test_hastings_limit_of_a_four_inch_bore() -> None:
    # Hastings tech tip, oversize cylinders: over .008 in per inch of bore betrays an oversize bore; least gap .0035 per inch.
    practised = practice("ring end gap", size=4.0 * INCH, words=("upper", "top ring"))
    assert any(limit.size == pytest.approx(0.032 * INCH) for limit in practised.limits if "Hastings" in limit.origin.source)
    assert any(target.low == pytest.approx(0.014 * INCH) for target in practised.targets if target.authority == "Hastings")


def test_ring_gap_opens_by_three_for_one() -> None:
    # TM 5-3805-261-34: the gap grows .003 in for each .001 in of bore diameter; exactly it is pi.
    maker = three_cylinders(wears=(10.0,))
    found = findings(maker.bench())
    belt = of(found, "cyl 1 top ring", "ring end gap in unworn belt")[0].value
    top = of(found, "cyl 1 top ring", "ring end gap at top of ring travel")[0].value
    mean_growth = 10.0 * THOU * (1 - 0.3 * 0.5)
    assert belt is not None
    assert top is not None
    assert (top - belt) / mean_growth == pytest.approx(3.0, rel=0.06)


def test_model_a_clearance_is_inside_its_own_limit() -> None:
    # Ford Service Bulletin, Clearances and limits, Model A (1928-31): bore 3.876, piston 3.8745, clearance .002 at most.
    maker = Maker(outline=Outline(name="car", cylinders=4), noise=0.01 * THOU)
    maker.bore("cyl 1", nominal=3.876 * INCH, wear=0.0)
    maker.read("piston", "piston 1", "skirt diameter", 3.8745 * INCH, station="skirt bottom", direction=90)
    maker.words("piston", "piston 1", "material", "aluminium")
    found = of(findings(maker.bench()), "cyl 1", "piston clearance")
    ford = next(f for f in found if f.limit_origin and "Ford" in f.limit_origin.source)
    assert ford.value == pytest.approx(0.0015 * INCH, abs=0.02 * THOU)
    assert ford.limit == pytest.approx(0.002 * INCH)
    assert ford.standing == "within"


def test_a_piston_larger_than_its_bore_is_pointed_out() -> None:
    maker = Maker(outline=Outline(name="car", cylinders=1))
    maker.bore("cyl 1", nominal=3.876 * INCH, wear=0.0)
    maker.read("piston", "piston 1", "skirt diameter", 3.886 * INCH, station="skirt bottom", direction=90)
    said = of(findings(maker.bench()), "cyl 1", "piston clearance")[0].sentence.text
    assert said.startswith("piston 1 reads larger than the bore that it came out of")


def test_numbered_stations_with_a_note_are_understood() -> None:
    # A sheet with stations 1 to 5 by depth, the last noted "below ring travel".
    maker = Maker(outline=Outline(name="car"))
    for station, depth, thou in (("1", 0.5, 7.0), ("2", 1.7, 4.0), ("3", 2.9, 2.0), ("4", 4.1, 1.0), ("5", 6.3, 0.0)):
        for direction in (0.0, 90.0):
            maker.read(
                "cylinder", "cyl 1", "bore diameter", 3.875 * INCH + thou * THOU * (1.0 if direction else 0.6),
                station=station, depth=depth * INCH, direction=direction, note="below ring travel" if station == "5" else "",
            )  # fmt: skip
    found = findings(maker.bench())
    assert of(found, "cyl 1", "wear at top of ring travel")[0].value == pytest.approx(7.0 * THOU, abs=0.1 * THOU)
    assert of(found, "cyl 1", "taper")[0].value == pytest.approx(6.0 * THOU, abs=0.1 * THOU)
    assert "station 1" in of(found, "cyl 1", "wear at top of ring travel")[0].sentence.text


def test_choke_is_not_called_wear_until_the_unworn_ends_say_so() -> None:
    # Some cylinders are made tapered so that they straighten when hot; the unworn ends tell: common practice.
    def bore(*, ends: bool) -> str:
        maker = Maker(outline=Outline(name="car"), noise=0.02 * THOU)
        for level, depth, thou in (
            ("top of ring travel", 0.7, 0.0),
            ("middle of ring travel", 3.0, 2.0),
            ("bottom of ring travel", 6.0, 4.0),
        ):
            for direction in (0.0, 90.0):
                maker.read(
                    "cylinder",
                    "cyl 1",
                    "bore diameter",
                    4.5 * INCH + thou * THOU,
                    station=level,
                    depth=depth * INCH,
                    direction=direction,
                )
        if ends:
            for level, depth, thou in (("top land, above ring travel", 0.2, -1.0), ("below ring travel", 7.5, 5.0)):
                maker.read(
                    "cylinder",
                    "cyl 1",
                    "bore diameter",
                    4.5 * INCH + thou * THOU,
                    station=level,
                    depth=depth * INCH,
                    direction=0.0,
                )
        return of(findings(maker.bench()), "cyl 1", "taper")[0].sentence.text

    assert "read the unworn belt at both ends before it is called wear" in bore(ends=False)
    assert "it was made with choke" in bore(ends=True)


def test_what_nobody_measured_is_said_and_how_to_settle_it() -> None:
    maker = Maker(outline=Outline(name="car"))
    maker.read("cylinder", "cyl 1", "bore diameter", 4.51 * INCH, station="top of ring travel", direction=90)
    found = findings(maker.bench())
    for quantity in (
        "wear at top of ring travel",
        "taper",
        "out-of-round",
        "ridge",
        "pits and scratches",
        "leak test",
        "piston clearance",
    ):
        finding = of(found, "cyl 1", quantity)[0]
        assert finding.standing == "not measured", quantity
        assert finding.value is None
        assert finding.settle


def test_nothing_read_nothing_found() -> None:
    assert findings(Maker(outline=Outline(name="car", cylinders=4)).bench()) == ()


def test_clean_up_keeps_the_centre_at_the_price_of_metal() -> None:
    # Plane geometry: with share s of the wear w on one side, the old centre needs D + 2 s w, the worn one D + w; the allowance
    # is .005 to .010 on the diameter (common practice). s is drawn even between one half and one.
    found = findings(three_cylinders(wears=(12.0,)).bench())
    kept = of(found, "cyl 1", "clean-up size, keeping the original centre")[0]
    followed = of(found, "cyl 1", "clean-up size, following the wear")[0]
    nominal = 4.5 * INCH
    assert kept.value is not None
    assert followed.value is not None
    assert kept.value - nominal == pytest.approx((1.5 * 12.0 + 7.5) * THOU, abs=0.6 * THOU)
    assert followed.value - nominal == pytest.approx((12.0 + 7.5) * THOU, abs=0.3 * THOU)


def test_a_pit_deepens_the_clean_up_by_twice_its_depth() -> None:
    def size(pit: float) -> float:
        maker = three_cylinders(wears=(8.0,))
        maker.read("cylinder", "cyl 1", "pit depth", pit, station="middle of ring travel", depth=3.7 * INCH)
        value = of(findings(maker.bench()), "cyl 1", "clean-up size, keeping the original centre")[0].value
        assert value is not None
        return value

    assert size(10 * THOU) - size(0.0) == pytest.approx(20 * THOU, abs=0.3 * THOU)


def test_wall_left_is_the_wall_less_half_the_growth() -> None:
    maker = three_cylinders(wears=(0.0,), wall=8.0e-3)
    finding = next(f for f in findings(maker.bench()) if f.item == "cyl 1" and f.quantity == "wall left at +.010")
    assert finding.value == pytest.approx(8.0e-3 - 0.5 * 10 * THOU, abs=0.15e-3)
    assert finding.limit_is == "least"


def test_least_wall_follows_the_textbook_formula() -> None:
    # Khurmi & Gupta: t = p D / (2 sigma), 3 MPa, 100 mm, 40 MPa gives 3.75 mm (6.15 with their reboring allowance of 2.4).
    from gudgeon.systems.cylinders.unknowns import CORROSION, explosion_pressure, least_wall

    bench = three_cylinders().bench()
    pressure = explosion_pressure(bench)
    rust = least_wall(bench, 0.1) - pressure * 0.1 / (2 * 40e6)
    assert CORROSION[0] <= rust.min() <= rust.max() <= CORROSION[1]
    assert pytest.approx(6.15e-3) == 3.0e6 * 0.1 / (2 * 40e6) + 2.4e-3


def test_even_draws_are_even() -> None:
    # Compared with the exact normal distribution function.
    from scipy.stats import norm

    from gudgeon.systems.cylinders.unknowns import even

    bench = three_cylinders().bench()
    exact = 2.0 + 3.0 * norm.cdf(bench.named("anything"))
    assert np.max(np.abs(even(bench, "anything", 2.0, 5.0) - exact)) < 3e-6


def test_the_block_speaks_for_all() -> None:
    found = findings(three_cylinders(wears=(14.0, 10.0, 11.0)).bench())
    assert "cyl 1 is worn most" in of(found, "block", "worst wear")[0].sentence.text
    assert of(found, "block", "nominal bore of all cylinders")[0].value == pytest.approx(4.5 * INCH)
    common = of(found, "block", "smallest size that cleans up all cylinders")[0]
    each = [of(found, f"cyl {n}", "clean-up size, keeping the original centre")[0].value for n in (1, 2, 3)]
    assert common.value is not None
    assert common.value >= max(value for value in each if value is not None) - 1e-9


def test_every_sentence_can_be_said_in_both_units() -> None:
    from gudgeon.quantity.show import say

    for finding in findings(three_cylinders().bench()):
        for units in ("inch", "millimetre"):
            said = say(finding.sentence, units)  # type: ignore[arg-type]
            assert "{" not in said
            assert not math.isnan(finding.value or 0.0)


def test_a_slip_among_four_directions_is_left_out_of_the_mean_and_said() -> None:
    maker = three_cylinders(wears=(0.0,))
    maker.read(
        "cylinder", "cyl 2", "bore diameter", 4.5181 * INCH, station="bottom of ring travel", depth=6.1 * INCH, direction=45
    )
    for direction in (0.0, 90.0, 135.0):
        maker.read(
            "cylinder",
            "cyl 2",
            "bore diameter",
            4.5 * INCH,
            station="bottom of ring travel",
            depth=6.1 * INCH,
            direction=direction,
        )
    maker.read("cylinder", "cyl 2", "bore diameter", 4.501 * INCH, station="top of ring travel", depth=0.7 * INCH, direction=0)
    maker.read("piston", "piston 2", "skirt diameter", 4.494 * INCH, direction=90)
    finding = of(findings(maker.bench()), "cyl 2", "piston clearance")[0]
    assert finding.value == pytest.approx(6.0 * THOU, abs=0.2 * THOU)
    assert "was left out: read it again" in finding.sentence.text
