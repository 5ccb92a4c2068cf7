"""An inch is 25.4 mm exactly (international yard and pound agreement, 1959), which gives the figures in the other unit."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.outwork.sizes import in_words, limits_in, rows


@pytest.mark.parametrize(
    ("lower", "upper", "units", "expected"),
    [
        (0.0254 * 5.1250, 0.0254 * 5.1271, "inch", ("5.1250", "5.1271")),
        (0.0254 * 5.1250, 0.0254 * 5.1271, "millimetre", ("130.175", "130.228")),  # 130.17500, 130.22834
        (0.0254 * 0.2485, 0.0254 * 0.2490, "millimetre", ("6.312", "6.324")),  # 6.31190 up, 6.32460 down
        (0.0254, 0.0254, "millimetre", ("25.4", "25.4")),
        (0.0254 * 2.75, 0.0254 * 2.75, "inch", ("2.750", "2.750")),
    ],
)
def test_limits_by_hand(lower, upper, units, expected):
    assert limits_in(lower=lower, upper=upper, units=units) == expected


@given(st.integers(1000, 10_000_000), st.integers(10, 5000))
def test_a_written_limit_never_allows_more_than_was_asked(start, wide):
    """Exact arithmetic over tenths of a micrometre."""
    lower, upper = Fraction(start, 10**7), Fraction(start + wide, 10**7)
    for units, metre in (("inch", Fraction(254, 10000)), ("millimetre", Fraction(1, 1000))):
        low, high = limits_in(lower=float(lower), upper=float(upper), units=units)
        assert lower - Fraction(1, 10**10) <= Fraction(low) * metre <= Fraction(high) * metre <= upper + Fraction(1, 10**10)
        assert (Fraction(high) - Fraction(low)) * metre >= (upper - lower) * Fraction(85, 100)


def test_the_readers_unit_stands_first():
    assert rows(kind="diameter", lower=0.0254, upper=0.0254, units="inch") == ("⌀1.000 (25.4)",)
    assert rows(kind="radius", lower=0.0254, upper=0.0254, units="millimetre") == ("R25.4 (1.000)",)
    assert in_words(lower=0.025, upper=0.0254, units="millimetre") == "25.000 to 25.400 mm (.9843 to 1.0000 in)"
