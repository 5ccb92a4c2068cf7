"""First-order propagation against the libraries uncertainties and GTC; draws against the linear answer."""

import math

import GTC
import numpy as np
import pytest
import uncertainties
from scipy import stats
from uncertainties import umath

from gudgeon.quantity import draws
from gudgeon.quantity.propagate import Input, NotSmooth, by_draws, coverage_factor, linear, spread_of

INPUTS = {"x": Input(value=1.3, uncertainty=0.02, freedom=5), "y": Input(value=0.7, uncertainty=0.05, freedom=12)}


def model(*, x, y):
    return np.sin(x) * np.exp(-y) / (1 + x * y) ** 1.5


def test_against_uncertainties():
    x, y = (uncertainties.ufloat(each.value, each.uncertainty) for each in INPUTS.values())
    expected = umath.sin(x) * umath.exp(-y) / (1 + x * y) ** 1.5
    found = linear(model, INPUTS)
    assert found.values[0] == pytest.approx(expected.nominal_value, rel=1e-14)
    assert found.uncertainty[0] == pytest.approx(expected.std_dev, rel=1e-12)
    assert found.sensitivity[0] == pytest.approx([expected.derivatives[x], expected.derivatives[y]], rel=1e-12)


def test_freedom_against_gtc():
    x, y = (GTC.ureal(each.value, each.uncertainty, each.freedom) for each in INPUTS.values())
    expected = GTC.sin(x) * GTC.exp(-y) / (1 + x * y) ** 1.5
    found = linear(model, INPUTS)
    assert found.uncertainty[0] == pytest.approx(expected.u, rel=1e-12)
    assert found.freedom[0] == pytest.approx(expected.df, rel=1e-9)


def test_correlated_inputs_against_uncertainties():
    given = np.array([[0.0004, -0.0006], [-0.0006, 0.0025]])
    x, y = uncertainties.correlated_values([1.3, 0.7], given)
    expected = umath.sin(x) * umath.exp(-y) / (1 + x * y) ** 1.5
    found = linear(model, INPUTS, correlations={("y", "x"): -0.6})
    assert found.uncertainty[0] == pytest.approx(expected.std_dev, rel=1e-12)


def test_several_outputs_and_their_covariance():
    x, y = (uncertainties.ufloat(each.value, each.uncertainty) for each in INPUTS.values())
    expected = np.array(uncertainties.covariance_matrix([x * y, x / y, x + 0 * y]))
    found = linear(lambda *, x, y: (x * y, x / y, x), INPUTS)
    assert found.covariance == pytest.approx(expected, rel=1e-12)
    assert found.correlation[2, 0] == pytest.approx(expected[2, 0] / math.sqrt(expected[2, 2] * expected[0, 0]), rel=1e-12)


def test_an_output_without_uncertainty():
    found = linear(lambda *, x, y: (x + y, 3.0), INPUTS)
    assert found.uncertainty[1] == 0
    assert math.isinf(found.freedom[1])
    assert found.correlation[0, 1] == 0


@pytest.mark.parametrize(
    "rough",
    [lambda *, x, y: abs(x) * y, lambda *, x, y: np.where(x.real > 1.3, x, 2 * x) + y, lambda *, x, y: np.maximum(x, 1.3) + y],
    ids=["absolute value", "comparison", "larger of"],
)
def test_a_rough_model_is_refused(rough):
    with pytest.raises(NotSmooth, match="by draws"):
        linear(rough, INPUTS)


def test_a_bad_correlation_is_refused():
    with pytest.raises(ValueError, match=r"A correlation of 1\.2 between x and y"):
        linear(model, INPUTS, correlations={("x", "y"): 1.2})
    with pytest.raises(ValueError, match="between x and z"):
        linear(model, INPUTS, correlations={("x", "z"): 0.2})


@pytest.mark.parametrize(
    ("freedom", "coverage", "k"),
    # JCGM 100:2008, table G.2
    [
        (1, 0.95, 12.71),
        (4, 0.95, 2.78),
        (16, 0.99, 2.92),
        (16.7, 0.99, 2.92),
        (50, 0.90, 1.68),
        (math.inf, 0.95, 1.960),
        (10, 0.9545, 2.28),
    ],
)
def test_coverage_factor_is_the_guides_table(freedom, coverage, k):
    assert coverage_factor(freedom=freedom, coverage=coverage) == pytest.approx(k, abs=0.0051)


def test_coverage_out_of_range_is_refused():
    with pytest.raises(ValueError, match="between 0 and 1"):
        coverage_factor(freedom=5, coverage=95)


def test_draws_do_not_depend_on_the_block():
    inputs = {"x": draws.normal("x", mean=1.3, sd=0.02, count=5000), "y": draws.normal("y", mean=0.7, sd=0.05, count=5000)}
    whole = model(**inputs)
    for block in (7, 1000, 1024, 9999):
        assert np.array_equal(by_draws(model, inputs, block=block), whole)
    assert by_draws(lambda *, x, y: (x, y), {"x": inputs["x"], "y": 2.0}).shape == (2, 5000)


def test_draws_of_different_lengths_are_refused():
    with pytest.raises(ValueError, match="one length for all"):
        by_draws(model, {"x": np.zeros(3), "y": np.zeros(4)})


def test_draws_agree_with_the_linear_answer_where_the_model_is_nearly_straight():
    inputs = {
        "x": draws.normal("x", mean=1.3, sd=0.002, count=40_000),
        "y": draws.normal("y", mean=0.7, sd=0.005, count=40_000),
    }
    small = {"x": Input(value=1.3, uncertainty=0.002), "y": Input(value=0.7, uncertainty=0.005)}
    # The standard deviation of n draws is itself known to 1 in sqrt(2 n): 0.35 %; five of those.
    assert spread_of(by_draws(model, inputs)).uncertainty == pytest.approx(linear(model, small).uncertainty[0], rel=0.018)


def test_spread_against_scipy():
    sample = draws.standard_normal("spread", count=100_000)
    found = spread_of(sample, coverage=0.9)
    low, high = stats.norm.interval(0.9)
    assert found.symmetric == pytest.approx((low, high), abs=0.03)
    assert found.shortest == pytest.approx((low, high), abs=0.1)
