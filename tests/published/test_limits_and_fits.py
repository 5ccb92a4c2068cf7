"""Limits and fits against the standards' tables."""

from __future__ import annotations

import math

import pressfit
import pytest

from gudgeon.handbook import UnknownName, ansi_fit, iso_fit, iso_limits, iso_tolerance, newall_fit
from gudgeon.handbook.limits_and_fits import NamedFit, tolerance_unit

THOU = 25.4e-6


def um(limits) -> tuple[int, int]:
    return round(limits.high * 1e6), round(limits.low * 1e6)


# ISO 286-2 rows by nominal size [mm]: H7 g6 f7 h6 p6 s6 (upper, lower) in micrometre
ISO_ROWS = {
    25: ((21, 0), (-7, -20), (-20, -41), (0, -13), (35, 22), (48, 35)),
    50: ((25, 0), (-9, -25), (-25, -50), (0, -16), (42, 26), (59, 43)),
    80: ((30, 0), (-10, -29), (-30, -60), (0, -19), (51, 32), (78, 59)),
    100: ((35, 0), (-12, -34), (-36, -71), (0, -22), (59, 37), (93, 71)),
}


@pytest.mark.parametrize("millimetres", ISO_ROWS)
def test_iso_286_rows(millimetres):
    for code, row in zip(("H7", "g6", "f7", "h6", "p6", "s6"), ISO_ROWS[millimetres], strict=True):
        assert um(iso_limits(size=millimetres / 1e3, code=code)) == row, code


# ISO 286-1 table 1, IT5 to IT11 [micrometre]
@pytest.mark.parametrize(
    ("millimetres", "row"),
    [
        (25, (9, 13, 21, 33, 52, 130)),
        (50, (11, 16, 25, 39, 62, 160)),
        (80, (13, 19, 30, 46, 74, 190)),
        (100, (15, 22, 35, 54, 87, 220)),
    ],
)
def test_iso_286_tolerances(millimetres, row):
    found = tuple(round(iso_tolerance(size=millimetres / 1e3, grade=grade) * 1e6) for grade in (5, 6, 7, 8, 9, 11))
    assert found == row


MIDDLES = (2, 4, 8, 14, 20, 26, 35, 45, 60, 70, 90, 110, 130, 150, 170, 190, 210, 240, 260, 300, 330, 380, 420, 480)


@pytest.mark.parametrize("millimetres", MIDDLES)
def test_against_another_table(millimetres):
    # the library pressfit holds its own copy of the ISO 286 tables; it has neither r nor t
    for grade in range(5, 12):
        assert round(iso_tolerance(size=millimetres / 1e3, grade=grade) * 1e6) == pressfit.it_value(millimetres, grade)
    for letter in "defghknpsu":
        for grade in (6, 7, 8):
            other = pressfit.fit(f"H7/{letter}{grade}", millimetres)
            ours = iso_limits(size=millimetres / 1e3, code=f"{letter}{grade}")
            assert um(ours) == (other.shaft_es_um, other.shaft_ei_um), f"{letter}{grade}"


@pytest.mark.parametrize("millimetres", MIDDLES[1:])
def test_tolerances_follow_the_formula_of_the_standard(millimetres):
    # ISO 286-1: i = 0.45 D^(1/3) + 0.001 D; IT5 7 i, IT6 10 i, IT7 16 i ... IT11 100 i; the table rounds them
    unit = tolerance_unit(size=millimetres / 1e3)
    for grade, units in ((5, 7), (6, 10), (7, 16), (8, 25), (9, 40), (10, 64), (11, 100)):
        assert iso_tolerance(size=millimetres / 1e3, grade=grade) == pytest.approx(units * unit, rel=0.06, abs=0.8e-6)


def test_tolerance_unit():
    # ISO 286-1 annex, by hand: 18-30 1.3074; 30-50 1.5612; 50-80 1.8561; 80-120 2.1725 micrometre
    for millimetres, unit in ((25, 1.3074), (40, 1.5612), (60, 1.8561), (100, 2.1725)):
        assert tolerance_unit(size=millimetres / 1e3) == pytest.approx(unit * 1e-6, abs=5e-11)


@pytest.mark.parametrize("millimetres", MIDDLES)
def test_r_and_t_from_memory_lie_between_their_neighbours(millimetres):
    # ISO 286-1: r is the geometric mean of p and s (to the rounding); t lies between s and u
    at = {letter: iso_limits(size=millimetres / 1e3, code=f"{letter}6").low * 1e6 for letter in "prsu"}
    assert at["r"] == pytest.approx(math.sqrt(at["p"] * at["s"]), abs=1.6)
    if millimetres > 24:
        assert at["s"] <= iso_limits(size=millimetres / 1e3, code="t6").low * 1e6 <= at["u"]
    else:
        with pytest.raises(ValueError, match="begins over 24 mm"):
            iso_limits(size=millimetres / 1e3, code="t6")


def thous(fit: NamedFit) -> tuple[float, float]:
    return round(fit.clearance.low / THOU, 3), round(fit.clearance.high / THOU, 3)


# ANSI B4.1-1967, Machinery's Handbook 31st ed. table 8a: clearance and, where printed, shaft limits
@pytest.mark.parametrize(
    ("name", "inch", "clearance", "shaft"),
    [
        ("RC1", 1.5, (0.4, 1.1), None),
        ("RC2", 0.5, (0.25, 0.95), (-0.25, -0.55)),
        ("RC2", 2.0, (0.4, 1.6), (-0.4, -0.9)),
        ("RC3", 0.75, (0.8, 2.1), (-0.8, -1.3)),
        ("RC3", 2.0, (1.2, 3.1), (-1.2, -1.9)),
        ("RC3", 4.0, (1.4, 3.7), (-1.4, -2.3)),
        ("RC4", 0.5, (0.6, 2.3), (-0.6, -1.3)),
        ("RC4", 1.5, (1.0, 3.6), (-1.0, -2.0)),
        ("RC4", 4.0, (1.4, 5.0), (-1.4, -2.8)),
        # 27th ed. p. 663, table 11: interference as negative clearance, and shaft limits
        ("FN1", 1.0, (-1.2, -0.3), (1.2, 0.8)),
        ("FN2", 2.0, (-2.7, -0.8), (2.7, 2.0)),
        ("FN2", 0.75, (-1.9, -0.6), (1.9, 1.4)),
        ("FN3", 1.5, (-2.6, -1.0), (2.6, 2.0)),
        ("FN4", 2.0, (-4.2, -2.3), (4.2, 3.5)),
        ("FN5", 0.5, (-2.3, -0.6), (2.3, 1.6)),
        ("FN5", 2.0, (-6.2, -3.2), (6.2, 5.0)),
        # 31st ed. p. 660
        ("LN2", 2.0, (-2.1, -0.2), None),
    ],
)
def test_ansi_b4_1(name, inch, clearance, shaft):
    fit = ansi_fit(size=inch * 0.0254, name=name)
    assert thous(fit) == clearance
    assert not fit.from_memory
    if shaft is None:
        assert fit.shaft is None
    else:
        assert fit.shaft is not None
        assert (round(fit.shaft.high / THOU, 3), round(fit.shaft.low / THOU, 3)) == shaft


def test_rows_from_memory_say_so():
    assert ansi_fit(size=1.5 * 0.0254, name="RC5").from_memory
    assert ansi_fit(size=4 * 0.0254, name="FN2").from_memory


# Newall limits, Turning and Boring (1914) ch. III; engine class X in hole A, derived: 1½ in .0015 to .0042, 2½ .0015 to .0052
@pytest.mark.parametrize(("inch", "clearance"), [(1.5, (1.5, 4.2)), (2.5, (1.5, 5.2))])
def test_newall_engine_fit(inch, clearance):
    assert thous(newall_fit(size=inch * 0.0254, name="X")) == clearance


def test_newall_forced_fit_of_2_inches():
    fit = newall_fit(size=2 * 0.0254, name="F")
    assert fit.shaft is not None
    assert (fit.shaft.high / THOU, fit.shaft.low / THOU) == pytest.approx((4.0, 3.0))


def test_refusals():
    with pytest.raises(UnknownName, match="q6"):
        iso_fit(size=0.05, name="H7/q6")
    with pytest.raises(ValueError, match=r"600 mm; the table .* to 500 mm"):
        iso_limits(size=0.6, code="H7")
    with pytest.raises(ValueError, match="do not cover"):
        ansi_fit(size=0.3, name="RC4")
