"""Draws that stand for what they are named after, against scipy's distributions and numpy's quantiles."""

import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from gudgeon.quantity import draws

COUNT = 20_000
# Kolmogorov-Smirnov at one in a million: a right sampler fails once in a million names, a wrong one almost always.
CHANCE = 1e-6


def test_same_names_same_draws_and_others_differ():
    first = draws.standard_normal("gauge", "outside mic", count=100)
    assert np.array_equal(first, draws.standard_normal("gauge", "outside mic", count=100))
    assert not np.array_equal(first, draws.standard_normal("gauge", "outside mi", "c", count=100))
    assert not np.array_equal(first, draws.standard_normal("outside mic", "gauge", count=100))


def test_names_do_not_run_together():
    assert len({draws.seed_of("ab", "c"), draws.seed_of("a", "bc"), draws.seed_of("abc"), draws.seed_of("1:a", "bc")}) == 4


def test_seed_is_the_head_of_sha256():
    # printf 4:bore | sha256sum (GNU coreutils), first 32 figures
    assert f"{draws.seed_of('bore'):032x}" == "18f19863fe5c29cca8fb5cfd5a499ef6"


def test_seed_is_the_same_in_another_process():
    # Python's own hash() of text differs from run to run; this one may not.
    code = "from gudgeon.quantity.draws import seed_of; print(seed_of('cyl 1', 'bore', 3))"
    seen = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert int(seen) == draws.seed_of("cyl 1", "bore", 3)


@pytest.mark.parametrize(
    ("sample", "distribution"),
    [
        (draws.standard_normal("n", count=COUNT), stats.norm()),
        (draws.normal("n2", mean=3.0, sd=0.5, count=COUNT), stats.norm(3.0, 0.5)),
        (draws.uniform("u", low=-1.0, high=3.0, count=COUNT), stats.uniform(-1.0, 4.0)),
        (draws.student("t", mean=2.0, scale=0.1, freedom=4.0, count=COUNT), stats.t(4.0, 2.0, 0.1)),
        (draws.student("ti", mean=2.0, scale=0.1, freedom=float("inf"), count=COUNT), stats.norm(2.0, 0.1)),
        (draws.arcsine("a", low=-0.5, high=0.5, count=COUNT), stats.arcsine(-0.5, 1.0)),
        (draws.triangular("tri", low=1.0, mode=2.0, high=5.0, count=COUNT), stats.triang(0.25, 1.0, 4.0)),
        (draws.curvilinear_trapezoid("c", low=-1.0, high=1.0, inexact=0.0, count=COUNT), stats.uniform(-1.0, 2.0)),
    ],
)
def test_distributions_are_scipys(sample, distribution):
    assert stats.kstest(sample, distribution.cdf).pvalue > CHANCE


def test_curvilinear_trapezoid_variance():
    # JCGM 101:2008, 6.4.3.3: V = (b - a)^2 / 12 + d^2 / 9.
    sample = draws.curvilinear_trapezoid("ct", low=-1.0, high=1.0, inexact=0.4, count=200_000)
    assert sample.var() == pytest.approx(4 / 12 + 0.16 / 9, rel=0.01)
    assert abs(sample).max() <= 1.4


@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=60), st.lists(st.floats(0.0, 1.0), min_size=1, max_size=5))
def test_quantiles_are_numpys(values, chances):
    found = draws.quantiles(values, tuple(chances))
    assert found == pytest.approx(tuple(np.quantile(values, chances)), rel=1e-9, abs=1e-6)


def test_quantiles_leave_out_what_is_not_a_number():
    assert draws.quantiles([1.0, np.nan, 3.0, 2.0], (0.5,)) == (2.0,)
    assert np.isnan(draws.quantiles([np.nan], (0.5,))[0])
    with pytest.raises(ValueError, match="at least one"):
        draws.quantiles([])
    with pytest.raises(ValueError, match="from 0 to 1"):
        draws.quantiles([1.0], (1.5,))


def test_chances_against_the_normal_table():
    # Normal table: 5 % of a normal variable lies above 1.644854 standard deviations.
    sample = draws.standard_normal("chance", count=200_000)
    assert draws.chance_above(sample, 1.644854) == pytest.approx(0.05, abs=0.0025)
    assert draws.chance_below(sample, -1.644854) == pytest.approx(0.05, abs=0.0025)
    assert draws.chance_above([1.0, np.nan, 3.0], [2.0, 2.0, 2.0]) == 0.5
    assert np.isnan(draws.chance_above([np.nan], 0.0))


def test_shortest_interval_of_a_lopsided_sample():
    # The shortest 95 % interval of an exponential starts at 0 and ends at -ln .05 = 2.9957.
    sample = draws.generator("exponential").exponential(size=200_000)
    low, high = draws.shortest_interval(sample, 0.95)
    assert low == pytest.approx(0.0, abs=0.01)
    assert high == pytest.approx(2.9957, abs=0.05)
