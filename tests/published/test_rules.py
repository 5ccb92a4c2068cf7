"""Rows of practice against the documents they were read in. The sums are done here from the printed numbers."""

from __future__ import annotations

import pytest

from gudgeon.handbook import RuleRow, rules

IN = 0.0254


def row(subject: str, authority: str, purpose: str = "target", applies: str = "") -> RuleRow:
    found = [
        each for each in rules(subject) if authority in each.authority and each.purpose == purpose and applies in each.applies
    ]
    assert len(found) == 1, [each.applies for each in found]
    return found[0]


def inches(band: tuple[float | None, float | None]) -> tuple[float | None, float | None]:
    return tuple(None if end is None else round(end / IN, 6) for end in band)  # type: ignore[return-value]


# Hastings tech tip "Oversize cylinders": .0035 per inch least, "4 in -> .014"; over .008 per inch the bore is oversize
def test_hastings_end_gap():
    assert inches(row("ring end gap", "Hastings").at(4 * IN)) == (0.014, None)
    assert inches(row("ring end gap", "Hastings", "limit").at(4 * IN)) == (None, 0.032)


# Ford Service Bulletin, "Clearances and limits used in assembly of Model A engines" (1928-31), a manual from before 1950
@pytest.mark.parametrize(
    ("subject", "applies", "purpose", "band"),
    [
        ("ring end gap", "lower ring", "target", (0.008, 0.010)),
        ("ring end gap", "centre ring", "target", (0.010, 0.012)),
        ("ring end gap", "upper ring", "target", (0.012, 0.015)),
        ("ring side clearance", "car engine", "target", (0.001, 0.001)),
        ("piston skirt clearance, aluminium", "split-skirt", "limit", (None, 0.002)),
        ("babbitt bearing clearance", "car engine", "target", (0.001, 0.001)),
        ("crank end play", "car engine", "target", (0.002, 0.004)),
        ("rod side play", "car engine", "target", (0.008, 0.012)),
        ("pin in rod bush clearance", "car engine", "limit", (None, 0.0003)),
        ("pin in piston interference", "car engine", "target", (0.0002, 0.0005)),
        ("rod end play between piston bosses", "car engine", "target", (0.040, 0.053)),
        ("cam bearing clearance", "car engine", "limit", (None, 0.003)),
        ("valve lash", "car engine", "target", (0.010, 0.013)),
        ("stem clearance", "exhaust", "target", (0.002, 0.002)),
        ("stem clearance", "intake", "target", (0.001, 0.0015)),
        ("tappet clearance", "car engine", "target", (0.0015, 0.0015)),
        ("timing gear backlash", "car engine", "target", (0.004, 0.004)),
        ("flywheel run-out", "car engine", "limit", (None, 0.005)),
        ("contact point gap", "Ford A", "target", (0.018, 0.022)),
        ("water pump end play", "Ford A", "target", (0.006, 0.010)),
    ],
)
def test_ford_a_bulletin(subject, applies, purpose, band):
    found = row(subject, "Ford A bulletin", purpose, applies)
    assert inches(found.at(3.876 * IN)) == band
    assert found.pre_1950
    assert not found.from_memory


def test_ford_a_piston_lies_within_its_own_limit():
    # bulletin: bore 3.876, piston 3.8745
    clearance = (3.876 - 3.8745) * IN
    limit = row("piston skirt clearance, aluminium", "Ford A bulletin", "limit").at()[1]
    assert limit is not None
    assert clearance < limit
    assert row("piston skirt clearance, aluminium", "Ford A bulletin").at()[0] == pytest.approx(clearance)


def test_factory_gaps_are_below_the_later_rule_and_both_stand():
    # 3.876 in: bulletin .008 to .015, Hastings .0136 at least; two practices, neither averaged away
    lower = row("ring end gap", "Ford A bulletin", applies="lower ring").at()[1]
    later = row("ring end gap", "Hastings").at(3.876 * IN)[0]
    assert lower is not None
    assert later is not None
    assert lower < later


# TM 55-1905-219-14-4: new minimum / new maximum / wear limit of a 4.25 in engine
@pytest.mark.parametrize(
    ("subject", "applies", "new", "limit"),
    [
        ("piston skirt clearance", "4.25", (0.0045, 0.0083), 0.0120),
        ("ring end gap", "top ring", (0.023, 0.038), None),
        ("ring end gap", "rings 2 to 4", (0.018, 0.043), None),
        ("ring side clearance", "ring 1", (0.004, 0.007), 0.018),
        ("ring side clearance", "ring 2", (0.010, 0.013), 0.022),
        ("ring side clearance", "rings 3 and 4", (0.004, 0.007), 0.013),
        ("oil ring end gap", "4.25", (0.008, 0.023), 0.043),
        ("oil ring side clearance", "4.25", (0.0015, 0.0055), 0.0080),
        ("journal out-of-round", "4.25", (None, 0.00025), 0.0010),
        ("journal taper", "4.25", (None, 0.0005), 0.0015),
    ],
)
def test_army_triples(subject, applies, new, limit):
    assert inches(row(subject, "TM 55-1905-219", "target", applies).at(4.25 * IN)) == new
    if limit is not None:
        assert inches(row(subject, "TM 55-1905-219", "limit", applies).at(4.25 * IN)) == (None, limit)


# TM 5-6115-545-34 Table 1-2
def test_army_sleeve_limits():
    for subject in ("bore out-of-round", "bore taper"):
        assert inches(row(subject, "TM 5-6115-545", "limit").at()) == (None, 0.0015)
    assert inches(row("bore wear", "TM 5-6115-545", "limit").at()) == (None, 0.005)
    assert inches(row("piston skirt clearance", "TM 5-6115-545").at()) == (0.0025, 0.0050)


# TM 10-3930-653-14&P prints both: .059 in and 1.5 mm
def test_resleeve_rule_in_both_units():
    assert row("bore wear", "TM 10-3930-653", "limit").at()[1] == pytest.approx(1.5e-3, abs=2e-6)


# forum.hetclub.org 172786: 2 in shaft .0020 to .0025, 1.5 in .0015 to .0020
@pytest.mark.parametrize(("shaft", "band"), [(2.0, (0.0020, 0.0025)), (1.5, (0.0015, 0.0020))])
def test_babbitt_shop_rule(shaft, band):
    assert inches(row("babbitt bearing clearance", "babbitt shop").at(shaft * IN)) == band


# Pagé, Aviation Engines (1917), ch. XI: a piston .005 under at the bottom is .0065 at the middle and .0075 at the top
def test_graduated_piston_of_1917():
    bore = 5 * IN
    assert inches(row("piston skirt clearance, cast iron", "Pagé", applies="bottom").at(bore)) == (0.005, 0.005)
    assert inches(row("piston middle clearance, cast iron", "Pagé").at(bore)) == (0.0065, 0.0065)
    assert inches(row("top land clearance", "Pagé").at(bore)) == (0.0075, 0.0075)


# Low, Machine Drawing, table of keys: 1 in shaft 3/8 x 1/4; 1½: 1/2 x 5/16; 2: 5/8 x .. ; 3: 7/8 x .. (printed to 1/16)
@pytest.mark.parametrize(("shaft", "width"), [(1.0, 0.375), (1.5, 0.5), (2.0, 0.625), (3.0, 0.875)])
def test_keys_by_low(shaft, width):
    assert inches(row("key width", "Low").at(shaft * IN))[0] == pytest.approx(width)


# gregsengine.com/sleeve.htm: 2.00-5.125 .003, 5.125-6.5 .004, 6.5-8.5 .005
@pytest.mark.parametrize(("bore", "press"), [(3.875, 0.003), (6.0, 0.004), (8.0, 0.005)])
def test_sleeve_press_by_bore(bore, press):
    found = list(rules("sleeve interference", purpose="limit", size=bore * IN))
    assert [inches(each.at(bore * IN))[1] for each in found] == [press]


# FAA AC 43.13-1B par. 8-14: .040 under 5.00 in, .060 from 5.00; its own example 5.125 takes .060
@pytest.mark.parametrize(("bore", "hole"), [(4.75, 0.040), (5.0, 0.060), (5.125, 0.060)])
def test_restrictor_by_bore(bore, hole):
    assert [inches(each.at())[0] for each in rules("leak tester restrictor", size=bore * IN)] == [hole]


# ASTM B23 as printed: grade 2 pour 795 F (424 C), melting starts 466 F (241 C)
def test_babbitt_temperatures_in_both_scales():
    assert row("babbitt pouring temperature", "ASTM B23", applies="grade 2").at()[0] == pytest.approx(273.15 + 424, abs=0.5)
    assert row("babbitt melting start", "ASTM B23", applies="grade 2").at()[0] == pytest.approx(273.15 + 241, abs=0.5)


# Mathot 1905: 2 % hit-and-miss, 5 % throttling; 1/60 and 1/25 within a turn
def test_governor_rows_of_1905():
    assert row("governor speed spread", "Mathot", applies="hit-and-miss, no load").at()[1] == 0.02
    assert row("governor speed spread", "Mathot", applies="throttling").at()[1] == 0.05
    assert row("speed variation within a turn", "Mathot", applies="dynamo").at()[1] == pytest.approx(1 / 60)
