"""The decision rule of ISO 14253-1 (1998, clauses 5 and 6: conformance is proved inside the tolerance less the expanded
uncertainty at each end, non-conformance outside it plus the same; from memory, as the standard's text was not at hand)."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.order import AskedSize
from gudgeon.engine.place import Place
from gudgeon.outwork import decide_order, inspect
from gudgeon.outwork.inspection import conformance, guard_factor

MM = 1e-3


def asked(lower=10.00, upper=10.10, **more):
    return AskedSize(
        part="cylinder", item="cyl 2", feature="bore diameter", dimension="length", lower=lower * MM, upper=upper * MM, **more
    )


def read(value, *, u=0.01, direction=None, station="", interval=None, own=None, freedom=math.inf):
    low, high = interval or (value - 1.645 * u, value + 1.645 * u)
    return Estimate(
        place=Place(part="cylinder", item="cyl 2", feature="bore diameter", station=station, direction=direction),
        dimension="length",
        value=value * MM,
        uncertainty=u * MM,
        own=(u if own is None else own) * MM,
        freedom=freedom,
        low=low * MM,
        high=high * MM,
        readings=(f"{value}/{direction}",),
        interval=interval is not None,
    )


# tolerance 10.00 to 10.10 mm, u = 0.01 mm, U = 0.02 mm: conformance 10.02 to 10.08, non-conformance below 9.98, above 10.12
ZONES = [
    (10.050, "accept"),
    (10.021, "accept"),
    (10.079, "accept"),
    (10.019, "can't tell yet"),
    (10.081, "can't tell yet"),
    (10.100, "can't tell yet"),
    (10.119, "can't tell yet"),
    (9.981, "can't tell yet"),
    (10.121, "send back"),
    (9.979, "send back"),
]


@pytest.mark.parametrize(("value", "outcome"), ZONES)
def test_the_three_zones(value, outcome):
    found = inspect(asked(), [read(value)])
    assert found.outcome == outcome
    assert (found.low, found.high) == pytest.approx(((value - 0.02) * MM, (value + 0.02) * MM))
    assert "k = 2" in found.rule


def test_the_one_sided_rule_has_the_narrower_guard_band():
    """1.65 u is 0.0165 mm: 10.083 is proved inside, where the expanded uncertainty of 0.02 could not."""
    assert inspect(asked(), [read(10.083)], rule="one-sided").outcome == "accept"
    assert inspect(asked(), [read(10.083)]).outcome == "can't tell yet"
    assert guard_factor(rule="one-sided") == pytest.approx(stats.norm.ppf(0.95), abs=0.006)


def test_few_degrees_of_freedom_widen_the_guard_band():
    """Student's t for 95.45 % (JCGM 100:2008, table G.2): 2.87 for 4 degrees of freedom, 2.28 for 10, 13.97 for 1."""
    for freedom, factor in ((4, 2.87), (10, 2.28), (1, 13.97)):
        assert guard_factor(rule="expanded", freedom=freedom) == pytest.approx(factor, abs=0.006)


@given(st.floats(9.9, 10.2), st.floats(0.0005, 0.05))
def test_never_accepted_below_nineteen_in_twenty(value, u):
    """Either end's guard band of 1.65 u leaves one-sided conformance at 95 % or more, computed here with scipy."""
    found = inspect(asked(), [read(value, u=u)], rule="one-sided")
    upper = stats.norm.cdf((10.10 - value) / u)
    lower = stats.norm.sf((10.00 - value) / u)
    if found.outcome == "accept":
        assert min(upper, lower) >= 0.95
    if found.outcome == "send back":
        assert min(upper, lower) <= 0.0500001


@given(st.floats(-3, 3), st.floats(0.01, 2))
def test_conformance_probability(value, u):
    """JCGM 106:2012 clause 7 (from memory), checked against scipy's normal distribution."""
    expected = stats.norm.cdf(1, value, u) - stats.norm.cdf(-1, value, u)
    assert conformance(value=value, uncertainty=u, lower=-1, upper=1) == pytest.approx(expected, abs=1e-12)


def test_a_reading_on_the_limit_is_an_even_chance():
    assert conformance(value=1, uncertainty=0.01, lower=0, upper=1) == pytest.approx(0.5)
    assert conformance(value=1.1, uncertainty=0, lower=0, upper=1) == 0


def test_one_bad_spot_decides():
    found = inspect(asked(), [read(10.05, direction=0), read(10.13, direction=90)])
    assert found.outcome == "send back"
    assert found.value == pytest.approx(10.13 * MM)
    assert found.readings == ("10.05/0", "10.13/90")


def test_a_bore_that_is_not_round_is_said_to_be():
    found = inspect(asked(), [read(10.04, u=0.004, station="1", direction=0), read(10.15, u=0.004, station="1", direction=90)])
    assert "It is not round: from .3953 in (10.040 mm) at 1, 0° to .3996 in (10.150 mm) at 1, 90°" in found.sentence
    assert "a difference of .0043 in (0.110 mm), more than the whole tolerance" in found.sentence


def test_directions_that_agree_say_nothing_of_form():
    found = inspect(asked(), [read(10.050, direction=0), read(10.052, direction=90)])
    assert "not round" not in found.sentence


def test_not_read_is_not_judged():
    found = inspect(asked(), [])
    assert (found.outcome, found.value) == ("can't tell yet", None)
    assert found.sentence == (
        "cyl 2 bore diameter was not read since it came back; .3938 to .3976 in (10.000 to 10.100 mm) was asked. "
        "Read it as the bench sheet says."
    )


def test_what_would_settle_it_does():
    """It asks for a reading good to 0.010 mm either way; one that comes out the same and is that good is accepted."""
    found = inspect(asked(), [read(10.09)], units="millimetre")
    assert found.outcome == "can't tell yet"
    assert "reading good to 0.010 mm (.0004 in) either way would settle it" in found.sentence
    assert inspect(asked(), [read(10.09, u=0.01 / 2)]).outcome == "accept"


def test_on_the_limit_no_gauge_settles_it():
    assert "no better gauge is likely to settle it" in inspect(asked(), [read(10.1)]).sentence


def test_a_bracket_proves_only_what_it_brackets():
    feelers = read(10.05, u=0.0, interval=(10.02, 10.08))
    assert inspect(asked(), [feelers]).outcome == "accept"
    over = read(10.09, u=0.0, interval=(10.07, 10.11))
    found = inspect(asked(), [over])
    assert found.outcome == "can't tell yet"
    assert "one that gives a figure would settle it" in found.sentence
    assert inspect(asked(), [read(10.15, u=0.0, interval=(10.11, 10.19))]).outcome == "send back"


def test_the_whole_order():
    good, doubt, bad = (inspect(asked(), [read(value)]) for value in (10.05, 10.09, 10.2))
    assert decide_order([good, good]).outcome == "accept"
    assert decide_order([good, doubt]).outcome == "can't tell yet"
    assert decide_order([doubt, bad]).outcome == "send back"
    assert (
        decide_order([bad], concessions={"cyl 2 bore diameter": "the rings are made to it"}).outcome
        == "accept with a concession"
    )
    assert decide_order([bad], concessions={"cyl 2 bore diameter": "  "}).outcome == "send back"
    assert decide_order([]).outcome == "can't tell yet"
    other = replace(bad, asked=replace(asked(), item="cyl 3"))
    assert decide_order([bad, other], concessions={"cyl 2 bore diameter": "as above"}).outcome == "send back"
