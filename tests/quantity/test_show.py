"""Amounts as inch people and millimetre people write them. Expected texts are common practice of inch and metric shops."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.quantity import Amount, Said, say, show, show_in, show_interval, understand, written_size
from gudgeon.quantity.show import UnknownDimension

INCH = 0.0254


@pytest.mark.parametrize(
    ("value", "fine", "inch", "millimetre"),
    [
        (0.0061 * INCH, False, ".0061 in", "0.155 mm"),
        (0.0061 * INCH, True, ".00610 in", "0.1549 mm"),
        (-0.0061 * INCH, False, "−.0061 in", "−0.155 mm"),
        (5.125 * INCH, False, "5.125 in", "130.18 mm"),
        (5.1256 * INCH, True, "5.1256 in", "130.190 mm"),
        (0.5 * INCH, False, ".500 in", "12.70 mm"),
        (-0.5 * INCH, False, "−.500 in", "−12.70 mm"),
        (0.0625 * INCH, False, ".063 in", "1.59 mm"),
        (0.0624 * INCH, False, ".0624 in", "1.585 mm"),
        (-1e-12, False, ".0000 in", "0.000 mm"),
    ],
)
def test_lengths(value, fine, inch, millimetre):
    assert show(Amount(value, "length", fine), "inch") == inch
    assert show(Amount(value, "length", fine), "millimetre") == millimetre


def test_thou_on_request():
    assert show(Amount(0.0061 * INCH, "length"), "inch", small="thou") == "6.1 thou"
    assert show(Amount(5.128 * INCH, "length"), "inch", small="thou") == "5.128 in"


def test_table_figures_leave_their_unit_out():
    assert show(Amount(0.0061 * INCH, "length"), "inch", bare=True) == ".0061"
    assert show(Amount(0.0061 * INCH, "length"), "millimetre", bare=True) == "0.155"


@pytest.mark.parametrize(
    ("amount", "inch", "millimetre"),
    [
        (Amount(372316.9, "pressure"), "54 psi", "372 kPa"),  # 1 psi = 6.894757 kPa, NIST SP 811 appendix B
        (Amount(240.2, "force"), "54 lbf", "240 N"),  # 1 lbf = 4.448222 N
        (Amount(255e-6, "volume"), "15.6 cu in", "255 cc"),  # 1 cu in = 16.38706 cc
        (Amount(50.0, "torque"), "36.9 lb ft", "50 N m"),  # 1 lb ft = 1.355818 N m
        (Amount(0.2, "mass"), "7.05 oz", "200 g"),  # 1 oz = 28.34952 g
        (Amount(2.0, "mass"), "4.41 lb", "2 kg"),
        (Amount(293.15, "temperature"), "68 °F", "20 °C"),
        (Amount(10.0, "temperature difference"), "18 °F", "10 °C"),
        (Amount(47.12389, "speed"), "450 rpm", "450 rpm"),
        (Amount(450.4, "speed rpm"), "450 rpm", "450 rpm"),
        (Amount(0.5235988, "angle"), "30°", "30°"),
        (Amount(-13.5, "angle degree"), "−13.5°", "−13.5°"),
        (Amount(22.0, "count"), "22", "22"),
        (Amount(1250.0, "money"), "1,250", "1,250"),
        (Amount(12.5, "money", fine=True), "12.50", "12.50"),
        (Amount(0.98, "probability"), "98 in 100", "98 in 100"),
        (Amount(0.9999, "probability"), "over 99 in 100", "over 99 in 100"),
        (Amount(0.0, "probability"), "under 1 in 100", "under 1 in 100"),
        (Amount(0.125, "percent"), "12.5 %", "12.5 %"),
        (Amount(float("nan"), "length"), "not known", "not known"),
    ],
)
def test_other_amounts(amount, inch, millimetre):
    assert show(amount, "inch") == inch
    assert show(amount, "millimetre") == millimetre


def test_unknown_dimension_is_said():
    with pytest.raises(UnknownDimension, match="“lenght” is no dimension"):
        show(Amount(1.0, "lenght"), "inch")


def test_sentence_takes_the_readers_units():
    said = Said(
        "Worn {0} at the top, past the {1} that makers gave. {0}",
        (Amount(0.0124 * INCH, "length"), Amount(0.01 * INCH, "length")),
    )
    assert say(said, "inch") == "Worn .0124 in at the top, past the .0100 in that makers gave. .0124 in"
    assert say(said, "millimetre") == "Worn 0.315 mm at the top, past the 0.254 mm that makers gave. 0.315 mm"


def test_sentence_keeps_other_braces():
    assert say(Said("a {name} and {} of {0}", (Amount(3.0, "count"),)), "inch") == "a {name} and {} of 3"


def test_sentence_without_its_amount_is_refused():
    with pytest.raises(ValueError, match="asks for amount 1 and carries 1"):
        say(Said("{0} and {1}", (Amount(3.0, "count"),)), "inch")


def test_named_unit():
    assert show_in(372316.9, "psi") == "54 psi"
    assert show_in(5.125 * INCH, "in") == "5.125 in"
    assert show_in(5.125 * INCH, "mm") == "130.18 mm"
    assert show_in(0.5235988, "deg BTDC") == "30° BTDC"


@pytest.mark.parametrize(
    ("low", "high", "shown"),
    [
        (3.874, 3.876, "3.874 to 3.876 in"),
        (0.01, None, "over .0100 in"),
        (None, 0.002, "under .0020 in"),
        (None, None, "not known"),
        (3.8741, 3.8742, "3.874 in"),
    ],
)
def test_interval(low, high, shown):
    ends = [None if end is None else end * INCH for end in (low, high)]
    assert show_interval(ends[0], ends[1], "length", "inch") == shown


@pytest.mark.parametrize(
    ("value", "written"),
    [(5.125 * INCH, "5 1/8"), (5.128 * INCH, "5.128"), (0.130, "130 mm"), (0.0825, "82.5 mm"), (INCH, "1"), (INCH / 64, "1/64"),
     (0.003 * INCH, ".003"), (4.2532 * INCH, "4.2532"), (1e-4, "0.1 mm"), (-5.125 * INCH, "−5 1/8"), (0.127, "5")],
)  # fmt: skip
def test_written_as_on_a_drawing(value, written):
    assert written_size(value) == written


@given(st.integers(min_value=1, max_value=64 * 40))
def test_written_fractions_come_back(sixty_fourths):
    value = sixty_fourths / 64 * INCH
    assert understand(written_size(value), unit="in").value == pytest.approx(value, abs=1e-12)


@given(st.floats(min_value=-2.0, max_value=2.0), st.booleans(), st.sampled_from(["inch", "millimetre"]))
def test_shown_length_is_within_half_its_last_figure(value, fine, units):
    shown = show(Amount(value, "length", fine), units)
    figure, unit = shown.rsplit(" ", 1)
    half = 0.5 * 10.0 ** -len(figure.partition(".")[2])
    in_unit = value / (INCH if unit == "in" else 1e-3)
    assert abs(float(figure.replace("−", "-")) - in_unit) <= half * 1.001


@given(
    st.floats(allow_nan=True, allow_infinity=True),
    st.sampled_from(["length", "pressure", "mass", "time", "money", "probability", "ratio"]),
)
def test_never_fails(value, dimension):
    for units in ("inch", "millimetre"):
        assert show(Amount(value, dimension), units)
