"""The worked examples of the Guide (JCGM 100:2008, annex H) and of its Supplement 1 (JCGM 101:2008, clause 9).

Inputs of H.2 and H.3 as in the R package propagate (CRAN, data/H.2.rda and data/H.3.rda); the published results are those of
the documents' own tables. Where a result is marked `from memory` its table was not at hand when the check was written.
"""

import math

import GTC
import numpy as np
import pytest

from gudgeon.quantity import draws
from gudgeon.quantity.propagate import Input, by_draws, coverage_factor, linear, spread_of

TRIALS = 400_000


class TestEndGauge:
    """JCGM 100:2008, H.1. Lengths in nm."""

    standard = Input(value=50_000_623.0, uncertainty=25.0, freedom=18)
    # H.1.3.2: repeats 5.8 (24), random of the comparator 3.9 (5), its systematic 6.7 (8).
    difference = linear(
        lambda *, d, random, systematic: d + random + systematic,
        {
            "d": Input(value=215.0, uncertainty=5.8, freedom=24),
            "random": Input(value=0.0, uncertainty=3.9, freedom=5),
            "systematic": Input(value=0.0, uncertainty=6.7, freedom=8),
        },
    )

    def length(self):
        u, freedom = self.difference.uncertainty[0], self.difference.freedom[0]
        inputs = {
            "standard": self.standard,
            "difference": Input(value=215.0, uncertainty=float(u), freedom=float(freedom)),
            "alpha": Input(value=11.5e-6, uncertainty=1.2e-6),
            "d_alpha": Input(value=0.0, uncertainty=0.58e-6, freedom=50),
            "theta": Input(value=-0.1, uncertainty=0.41),
            "d_theta": Input(value=0.0, uncertainty=0.029, freedom=2),
        }

        def model(*, standard, difference, alpha, d_alpha, theta, d_theta):
            return standard + difference - standard * (d_alpha * theta + alpha * d_theta)

        return linear(model, inputs)

    def test_comparison(self):
        assert self.difference.uncertainty[0] == pytest.approx(9.7, abs=0.05)
        assert self.difference.freedom[0] == pytest.approx(25.6, abs=0.2)

    def test_length(self):
        found = self.length()
        assert found.values[0] == pytest.approx(50_000_838.0, abs=0.5)
        assert found.uncertainty[0] == pytest.approx(32.0, abs=0.5)

    def test_freedom_and_expanded(self):
        found = self.length()
        assert math.floor(found.freedom[0]) == 16
        assert coverage_factor(freedom=16, coverage=0.99) == pytest.approx(2.92, abs=0.005)
        assert found.expanded(0.99)[0] == pytest.approx(93.0, abs=0.6)


class TestResistanceAndReactance:
    """JCGM 100:2008, H.2: five simultaneous readings of V [V], I [A], phi [rad]. Results table H.4, from memory."""

    readings = np.array(
        [
            [5.007, 4.994, 5.005, 4.990, 4.999],
            [0.019663, 0.019639, 0.019640, 0.019685, 0.019678],
            [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
        ]
    )

    @staticmethod
    def model(*, v, i, phi):
        return v / i * np.cos(phi), v / i * np.sin(phi), v / i

    def found(self):
        means = self.readings.mean(axis=1)
        u = self.readings.std(axis=1, ddof=1) / math.sqrt(5)
        r = np.corrcoef(self.readings)
        each = [Input(value=float(mean), uncertainty=float(s), freedom=4) for mean, s in zip(means, u, strict=True)]
        inputs = dict(zip(("v", "i", "phi"), each, strict=True))
        pairs = {("v", "i"): float(r[0, 1]), ("v", "phi"): float(r[0, 2]), ("i", "phi"): float(r[1, 2])}
        return linear(self.model, inputs, correlations=pairs)

    def test_values(self):
        assert self.found().values == pytest.approx([127.732, 219.847, 254.260], abs=0.0006)

    def test_uncertainties(self):
        assert self.found().uncertainty == pytest.approx([0.071, 0.295, 0.236], abs=0.0006)

    def test_correlations(self):
        r = self.found().correlation
        assert [r[0, 1], r[0, 2], r[1, 2]] == pytest.approx([-0.588, -0.485, 0.993], abs=0.0006)

    def test_gtc_agrees(self):
        v, i, phi = GTC.multiple_ureal(
            self.readings.mean(axis=1), self.readings.std(axis=1, ddof=1) / math.sqrt(5), 4, label_seq=["v", "i", "phi"]
        )
        r = np.corrcoef(self.readings)
        for pair, value in (((v, i), r[0, 1]), ((v, phi), r[0, 2]), ((i, phi), r[1, 2])):
            GTC.set_correlation(float(value), *pair)
        expected = [v / i * GTC.cos(phi), v / i * GTC.sin(phi), v / i]
        found = self.found()
        assert found.uncertainty == pytest.approx([each.u for each in expected], rel=1e-9)
        assert found.freedom == pytest.approx([each.df for each in expected], rel=1e-6)


class TestThermometerLine:
    """JCGM 100:2008, H.3: corrections b [degC] at eleven temperatures t; b = y1 + y2 (t - 20)."""

    t = np.array([21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511])
    b = np.array([-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160])

    def line(self):
        """Least squares written as a function of the eleven corrections, each uncertain by the scatter about the line."""
        x = self.t - 20.0
        x_mean, x_square = x.mean(), ((x - x.mean()) ** 2).sum()
        slope = float(((x - x_mean) * self.b).sum() / x_square)
        rest = self.b - (self.b.mean() + slope * (x - x_mean))
        scatter = float(np.sqrt((rest**2).sum() / (len(x) - 2)))

        def model(**corrections):
            y2 = sum((x[k] - x_mean) * corrections[f"b{k}"] for k in range(len(x))) / x_square
            mean = sum(corrections.values()) / len(x)
            return mean - y2 * x_mean, y2, mean + y2 * (30.0 - 20.0 - x_mean)

        inputs = {f"b{k}": Input(value=float(each), uncertainty=scatter) for k, each in enumerate(self.b)}
        return linear(model, inputs), scatter

    def test_line(self):
        found, scatter = self.line()
        assert found.values[:2] == pytest.approx([-0.1712, 0.00218], abs=0.00005)
        assert found.uncertainty[0] == pytest.approx(0.0029, abs=0.00005)
        assert found.uncertainty[1] == pytest.approx(0.00067, abs=0.000005)
        assert found.correlation[0, 1] == pytest.approx(-0.930, abs=0.0006)
        assert scatter == pytest.approx(0.0035, abs=0.00005)

    def test_predicted_correction_at_30(self):
        found, _ = self.line()
        assert found.values[2] == pytest.approx(-0.1494, abs=0.00006)
        assert found.uncertainty[2] == pytest.approx(0.0041, abs=0.00006)

    def test_the_same_from_the_published_line(self):
        inputs = {"y1": Input(value=-0.1712, uncertainty=0.0029), "y2": Input(value=0.00218, uncertainty=0.00067)}
        found = linear(lambda *, y1, y2: y1 + y2 * 10.0, inputs, correlations={("y1", "y2"): -0.930})
        assert found.uncertainty[0] == pytest.approx(0.0041, abs=0.00006)


class TestAdditiveModels:
    """JCGM 101:2008, 9.2: Y = X1 + X2 + X3 + X4, each with mean 0 and standard uncertainty 1."""

    @staticmethod
    def total(*, a, b, c, d):
        return a + b + c + d

    def test_normal(self):
        """9.2.2, table 2: u 2.00, 95 % interval -3.92 to 3.92."""
        inputs = {name: draws.standard_normal("9.2.2", name, count=TRIALS) for name in "abcd"}
        found = spread_of(by_draws(self.total, inputs), coverage=0.95)
        assert found.uncertainty == pytest.approx(2.00, abs=0.012)
        assert found.symmetric == pytest.approx((-3.92, 3.92), abs=0.04)
        assert found.shortest == pytest.approx((-3.92, 3.92), abs=0.12)

    def test_rectangular(self):
        """9.2.3, table 3: u 2.00, 95 % interval -3.88 to 3.88 by draws, where the first-order answer says 3.92."""
        half = math.sqrt(3.0)
        inputs = {name: draws.uniform("9.2.3", name, low=-half, high=half, count=TRIALS) for name in "abcd"}
        found = spread_of(by_draws(self.total, inputs), coverage=0.95)
        assert found.uncertainty == pytest.approx(2.00, abs=0.012)
        # 400,000 draws place an end to about .009; the first-order 3.92 lies over four of those away.
        assert found.symmetric == pytest.approx((-3.88, 3.88), abs=0.025)

    def test_first_order(self):
        found = linear(self.total, {name: Input(value=0.0, uncertainty=1.0) for name in "abcd"})
        assert found.uncertainty[0] == pytest.approx(2.00, abs=1e-12)
        assert found.expanded(0.95)[0] == pytest.approx(3.92, abs=0.001)


class TestComparisonLoss:
    """JCGM 101:2008, 9.4: Y = X1^2 + X2^2 with x1 = 0.050, x2 = 0, u = 0.005 each, uncorrelated. Results table 8."""

    @staticmethod
    def loss(*, a, b):
        return a**2 + b**2

    def test_by_draws(self):
        inputs = {
            "a": draws.normal("9.4", "a", mean=0.050, sd=0.005, count=TRIALS),
            "b": draws.normal("9.4", "b", mean=0.0, sd=0.005, count=TRIALS),
        }
        found = spread_of(by_draws(self.loss, inputs))
        assert found.mean * 1e6 == pytest.approx(2550.0, abs=4.0)
        assert found.uncertainty * 1e6 == pytest.approx(502.0, abs=3.0)

    def test_first_order_misses_the_curvature(self):
        found = linear(self.loss, {"a": Input(value=0.050, uncertainty=0.005), "b": Input(value=0.0, uncertainty=0.005)})
        assert found.values[0] * 1e6 == pytest.approx(2500.0, abs=1e-6)
        assert found.uncertainty[0] * 1e6 == pytest.approx(500.0, abs=1e-6)


class TestGaugeBlock:
    """JCGM 101:2008, 9.5: deviation of a 50 mm gauge block from nominal, nm.

    Result 838 nm, u 36 nm, shortest 99 % interval 745 to 932 nm (Metrology 2022, 2(1), which quotes the document);
    first order u 32 nm.
    """

    @staticmethod
    def deviation(*, standard, difference, d1, d2, d_alpha, d_theta, alpha, theta):
        nominal = 50e6
        return standard + difference + d1 + d2 - standard * (d_alpha * theta + alpha * d_theta) - nominal

    def inputs(self):
        theta = draws.normal("9.5", "theta0", mean=-0.1, sd=0.2, count=TRIALS) + draws.arcsine(
            "9.5", "swing", low=-0.5, high=0.5, count=TRIALS
        )
        student = {
            "standard": (50_000_623.0, 25.0, 18),
            "difference": (215.0, 6.0, 24),
            "d1": (0.0, 4.0, 5),
            "d2": (0.0, 7.0, 8),
        }
        return {
            **{
                name: draws.student("9.5", name, mean=mean, scale=scale, freedom=freedom, count=TRIALS)
                for name, (mean, scale, freedom) in student.items()
            },
            "alpha": draws.uniform("9.5", "alpha", low=9.5e-6, high=13.5e-6, count=TRIALS),
            "theta": theta,
            "d_alpha": draws.curvilinear_trapezoid("9.5", "d_alpha", low=-1e-6, high=1e-6, inexact=0.1e-6, count=TRIALS),
            "d_theta": draws.curvilinear_trapezoid("9.5", "d_theta", low=-0.050, high=0.050, inexact=0.025, count=TRIALS),
        }

    def test_by_draws(self):
        found = spread_of(by_draws(self.deviation, self.inputs()), coverage=0.99)
        assert found.mean == pytest.approx(838.0, abs=0.7)
        assert found.uncertainty == pytest.approx(36.0, abs=0.5)
        assert found.shortest == pytest.approx((745.0, 932.0), abs=4.0)
