"""What people type at the bench, and what it means.

The forms are common practice of engine shops: fractions, thou, tenths (.0001 in), oversizes by whole thou, feelers named
by their thou, go and no-go. Expected values are worked by hand in inches.
"""

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from gudgeon.quantity import NotUnderstood, Understood, understand

INCH = 0.0254


def inches(meaning: Understood) -> float:
    assert meaning.kind == "point"
    assert meaning.dimension == "length"
    assert meaning.value is not None
    return meaning.value / INCH


def refusal(typed: str, *, unit: str | None = "in", base: str | None = None) -> str:
    with pytest.raises(NotUnderstood) as refused:
        understand(typed, unit=unit, base=base)
    assert refused.value.typed == typed
    return str(refused.value)


@pytest.mark.parametrize(
    ("typed", "size", "step"),
    [
        ("5 1/8", 5.125, 1 / 8),
        ("5-1/8", 5.125, 1 / 8),
        ("5⅛", 5.125, 1 / 8),
        ("5 ⅛", 5.125, 1 / 8),
        ("5 1⁄8", 5.125, 1 / 8),
        ('5 1/8"', 5.125, 1 / 8),
        ("17/64", 17 / 64, 1 / 64),
        ("5.125", 5.125, 0.001),
        ("5.12", 5.12, 0.01),
        ("5.120", 5.12, 0.001),
        ("5.1200", 5.12, 0.0001),
        ("4.2532", 4.2532, 0.0001),
        ("0.0150", 0.015, 0.0001),
        (".003", 0.003, 0.001),
        ("-.002", -0.002, 0.001),
        ("−.002", -0.002, 0.001),
        ("5", 5.0, 1.0),
        ("3 thou", 0.003, 0.001),
        ("3½ thou", 0.0035, 0.0005),
        ("three thou", 0.003, 0.001),
        ("Three Thou", 0.003, 0.001),
        ("twenty-five thou", 0.025, 0.001),
        ("1-1/2 thou", 0.0015, 0.0005),
        ("half a thou", 0.0005, 0.0005),
        ("two and a half thou", 0.0025, 0.0005),
        ("a thou", 0.001, 0.001),
        ("2 tenths", 0.0002, 0.0001),
        ("5 in.", 5.0, 1.0),
        ("5' 3 1/4\"", 63.25, 1 / 4),
        ("2 ft 1 in", 25.0, 1.0),
        ("5.0E-03", 0.005, 0.0001),
    ],
)
def test_inch_sizes(typed, size, step):
    meaning = understand(typed, unit="in")
    assert inches(meaning) == pytest.approx(size, rel=1e-12)
    assert meaning.step == pytest.approx(step * INCH, rel=1e-9)


@pytest.mark.parametrize(
    ("typed", "unit", "millimetres", "step"),
    [
        ("130.25 mm", "in", 130.25, 0.01),
        ("130,25 mm", "in", 130.25, 0.01),
        ("79,985", "mm", 79.985, 0.001),
        ("0,155", "mm", 0.155, 0.001),
        ("3 thou", "mm", 0.0762, 0.0254),
        ("25 microns", "mm", 0.025, 0.001),
        ("3 hundredths", "mm", 0.03, 0.01),
        ("13 cm", "mm", 130.0, 10.0),
        ("5 1/8 in", "mm", 130.175, 3.175),
        ("5 1/8", None, 130.175, 3.175),
    ],
)
def test_own_unit_goes_before_the_columns(typed, unit, millimetres, step):
    meaning = understand(typed, unit=unit)
    assert meaning.value == pytest.approx(millimetres * 1e-3, rel=1e-12)
    assert meaning.step == pytest.approx(step * 1e-3, rel=1e-9)


@pytest.mark.parametrize(
    ("typed", "size", "echo"),
    [
        ("+3", 5.128, "5.128 in (5 1/8 + 3 thou)"),
        ("+15.6", 5.1406, "5.1406 in (5 1/8 + 15.6 thou)"),
        ("+15.6 thou", 5.1406, "5.1406 in (5 1/8 + 15.6 thou)"),
        ("+1½", 5.1265, "5.1265 in (5 1/8 + 1 1/2 thou)"),
        ("+½", 5.1255, "5.1255 in (5 1/8 + 1/2 thou)"),
        ("-3", 5.122, "5.122 in (5 1/8 − 3 thou)"),
        ("+.020", 5.145, "5.145 in (5 1/8 + .020 in)"),
        (".020 over", 5.145, "5.145 in (5 1/8 + .020 in)"),
        ("20 over", 5.145, "5.145 in (5 1/8 + 20 thou)"),
        ("O/S 20", 5.145, "5.145 in (5 1/8 + 20 thou)"),
        ("20 O/S", 5.145, "5.145 in (5 1/8 + 20 thou)"),
        ("oversize .020", 5.145, "5.145 in (5 1/8 + .020 in)"),
        ("STD + .020", 5.145, "5.145 in (5 1/8 + .020 in)"),
        ("10 under", 5.115, "5.115 in (5 1/8 − 10 thou)"),
        ("U/S 10", 5.115, "5.115 in (5 1/8 − 10 thou)"),
        ("-.010", 5.115, "5.115 in (5 1/8 − .010 in)"),
        ("1/64 over", 5.140625, "5.140625 in (5 1/8 + 1/64 in)"),
        ("1/32 O/S", 5.15625, "5.15625 in (5 1/8 + 1/32 in)"),
        ("STD", 5.125, "5 1/8 in (standard)"),
        ("S", 5.125, "5 1/8 in (standard)"),
        ("5.128", 5.128, "5.128 in"),
    ],
)
def test_deviations_from_a_base(typed, size, echo):
    meaning = understand(typed, unit="in", base="5 1/8")
    assert inches(meaning) == pytest.approx(size, rel=1e-12)
    assert meaning.echo == echo


@pytest.mark.parametrize(
    ("typed", "unit", "base", "si", "echo"),
    [
        ("+3", "mm", "130", 0.13003, "130.03 mm (130 + 3 hundredths)"),
        ("+0,5", "mm", "130", 0.1305, "130.5 mm (130 + 0.5 mm)"),
        ("1.0 over", "mm", "82.5", 0.0835, "83.5 mm (82.5 + 1.0 mm)"),
        ("+3", "thou", "5 1/8", 5.128 * INCH, "5.128 in (5 1/8 + 3 thou)"),
        ("+.002", "in", "0", 0.002 * INCH, ".002 in (0 + .002 in)"),
        ("+5", "psi", "50", 55 * 6894.757293168361, "55 psi (50 + 5 psi)"),
    ],
)
def test_deviations_in_other_units(typed, unit, base, si, echo):
    meaning = understand(typed, unit=unit, base=base)
    assert meaning.value == pytest.approx(si, rel=1e-12)
    assert meaning.echo == echo


@pytest.mark.parametrize("typed", ["+3", "+.020", ".020 over", "20 over", "O/S 20", "10 under", "1/64 over", "-3"])
def test_deviation_without_base_says_that_one_is_needed(typed):
    assert "no standard size to count from" in refusal(typed)
    assert "base" in refusal(typed)


def test_standard_without_base_is_a_word():
    assert understand("STD", unit="in").kind == "words"
    assert understand("STD", unit="in").value is None


@pytest.mark.parametrize(
    ("typed", "low", "high", "echo"),
    [
        ("go .003 no-go .004", 0.003, 0.004, "between .003 and .004 in"),
        ("go .003 / no-go .004", 0.003, 0.004, "between .003 and .004 in"),
        ("Go .003, no go .004", 0.003, 0.004, "between .003 and .004 in"),
        ("no-go .004, go .003", 0.003, 0.004, "between .003 and .004 in"),
        (".010 goes, .011 won't", 0.010, 0.011, "between .010 and .011 in"),
        (".010 goes, .011 won’t go", 0.010, 0.011, "between .010 and .011 in"),
        ("between .003 and .004", 0.003, 0.004, "between .003 and .004 in"),
        (".003 to .004", 0.003, 0.004, "between .003 and .004 in"),
        (".003-.004", 0.003, 0.004, "between .003 and .004 in"),
        ("3 to 4 thou", 0.003, 0.004, "between 3 and 4 thou"),
        ("go 3 thou no-go 4 thou", 0.003, 0.004, "between 3 and 4 thou"),
        ("over .010", 0.010, None, "over .010 in"),
        ("> .010", 0.010, None, "over .010 in"),
        (".010 goes", 0.010, None, "over .010 in"),
        ("free on .003", 0.003, None, "over .003 in (free)"),
        ("under .002", None, 0.002, "under .002 in"),
        ("<.002", None, 0.002, "under .002 in"),
        (".002 won't go", None, 0.002, "under .002 in"),
        ("no-go 2 thou", None, 0.002, "under 2 thou"),
        ("full 1/4", 0.25, 0.25 + 1 / 64, "full 1/4 in (a little over, by eye)"),
        ("bare 1/4", 0.25 - 1 / 64, 0.25, "bare 1/4 in (a little under, by eye)"),
        ("a strong 1/4", 0.25, 0.25 + 1 / 64, "strong 1/4 in (a little over, by eye)"),
    ],
)
def test_brackets(typed, low, high, echo):
    meaning = understand(typed, unit="in")
    assert meaning.kind == "interval"
    ends = [None if end is None else end / INCH for end in (meaning.low, meaning.high)]
    assert ends == [None if end is None else pytest.approx(end, rel=1e-9) for end in (low, high)]
    assert meaning.value == (None if None in (low, high) else pytest.approx((low + high) / 2 * INCH, rel=1e-9))
    assert meaning.echo == echo


@pytest.mark.parametrize(
    ("typed", "size", "words", "echo"),
    [
        ("6 + 4 + 1½ feelers", 0.0115, "6 + 4 + 1 1/2 thou feelers", ".0115 in (6 + 4 + 1 1/2 thou)"),
        (".006 + .004 feelers", 0.010, ".006 + .004 in feelers", ".010 in (.006 + .004 in)"),
        ("10 feeler", 0.010, "10 thou feeler", ".010 in (10 thou)"),
        ("3 @ .002 + 1 @ .005", 0.011, "", ".011 in (3 × .002 + .005 in)"),
        ("3 @ .002 + 1 @ .005 shims", 0.011, "3 × .002 + .005 in shims", ".011 in (3 × .002 + .005 in)"),
        ("5 1/8 + 15.6 thou", 5.1406, "", "5.1406 in (5 1/8 + 15.6 thou)"),
        (".006 + .004", 0.010, "", ".010 in (.006 + .004 in)"),
    ],
)
def test_stacks(typed, size, words, echo):
    meaning = understand(typed, unit="in")
    assert inches(meaning) == pytest.approx(size, rel=1e-9)
    assert meaning.words == words
    assert meaning.echo == echo


def test_metric_feelers():
    assert understand("5 + 10 feelers", unit="mm").value == pytest.approx(0.15e-3, rel=1e-9)
    assert understand("0,05 + 0,10 feelers", unit="mm").value == pytest.approx(0.15e-3, rel=1e-9)


@pytest.mark.parametrize("typed", ["not reached", "Broken", "missing", "seized", "n/a", "N/A", "-", "could not reach"])
def test_not_taken(typed):
    assert understand(typed, unit="in").kind == "not taken"
    assert understand(typed).kind == "not taken"


@pytest.mark.parametrize(
    "typed",
    [
        "tight",
        "free",
        "Slack",
        "light drag",
        "very tight",
        "1/2-12",
        "1/8 pipe",
        "10 DP 48T",
        "stamped 20",
        "size 3 pin pricked",
    ],
)
def test_words(typed):
    meaning = understand(typed, unit="in")
    assert meaning.kind == "words"
    assert meaning.words == typed.lower()
    assert meaning.value is None


def test_a_column_of_words_takes_any():
    meaning = understand("Grey iron, cracked at 2 studs", unit="words")
    assert (meaning.kind, meaning.words, meaning.echo) == (
        "words", "grey iron, cracked at 2 studs", "Grey iron, cracked at 2 studs"
    )  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "size", "words"),
    [("drag on .003", 0.003, "drag"), ("light drag on 3 thou", 0.003, "light drag"), (".012 cold", 0.012, "cold"),
     (".012 (hot)", 0.012, "hot"), (".003 tight", 0.003, "tight")],
)  # fmt: skip
def test_a_feel_beside_the_size(typed, size, words):
    meaning = understand(typed, unit="in")
    assert inches(meaning) == pytest.approx(size, rel=1e-12)
    assert meaning.words == words
    assert words in meaning.echo


@pytest.mark.parametrize(
    ("typed", "unit", "degrees", "datum", "echo"),
    [
        ("30° BBDC", None, 30.0, "BBDC", "30° BBDC"),
        ("30 BBDC", "deg", 30.0, "BBDC", "30° BBDC"),
        ("24.50", "deg BTDC", 24.5, "BTDC", "24.50° BTDC"),
        ("-13.50", "deg ATDC", -13.5, "ATDC", "−13.50° ATDC"),
        ("5 after", "deg BTDC", -5.0, "BTDC", "5° ATDC (−5° BTDC)"),
        ("5 before", "deg ATDC", -5.0, "ATDC", "5° BTDC (−5° ATDC)"),
        ("5 after", "deg ATDC", 5.0, "ATDC", "5° ATDC"),
        ("5 after", None, 5.0, "after", "5° after centre"),
        ("13° 30' ATDC", "deg ATDC", 13.5, "ATDC", "13° 30′ ATDC"),
        ("12 before top dead center", "deg", 12.0, "BTDC", "12° BTDC"),
        ("TDC", "deg BTDC", 0.0, "BTDC", "on top dead centre"),
        ("30,5°", "deg", 30.5, "", "30.5°"),
        ("30,5 ABDC", "deg ABDC", 30.5, "ABDC", "30.5° ABDC"),
    ],
)
def test_crank_angles(typed, unit, degrees, datum, echo):
    meaning = understand(typed, unit=unit)
    assert meaning.dimension == "angle"
    assert meaning.value == pytest.approx(math.radians(degrees), abs=1e-12)
    assert meaning.words == datum
    assert meaning.echo == echo


@pytest.mark.parametrize(
    ("typed", "unit", "dimension", "si"),
    [
        ("60 lb", "psi", "pressure", 413685.4375901),  # NIST SP 811: 1 psi = 6894.757 Pa
        ("60#", "psi gauge", "pressure", 413685.4375901),
        ("60 psi", "psi gauge", "pressure", 413685.4375901),
        ("60 lb", "lbf", "force", 266.89329691563),  # 1 lbf = 4.448222 N
        ("60#", "N", "force", 266.89329691563),
        ("60 lb", "kg", "mass", 27.2155422),  # 1 lb = 0.45359237 kg
        ("2 lb 3 oz", "kg", "mass", 0.992233309375),
        ("10 drops", "drops/min", "drip rate", 10 / 60),
        ("10 drops", None, "drip rate", 10 / 60),
        ("32 tooth", "1", "count", 32.0),
        ("48T", "1", "count", 48.0),
        ("68 F", "degC", "temperature", 293.15),
        ("68°", "degF", "temperature", 293.15),
        ("12 tpi", "tpi", "threads per length", 12 / INCH),
        ("5%", "ratio", "ratio", 0.05),
        ("4:1", "ratio", "ratio", 4.0),
        ("18", "kPa", "pressure", 18e3),
    ],
)
def test_other_dimensions(typed, unit, dimension, si):
    meaning = understand(typed, unit=unit)
    assert (meaning.kind, meaning.dimension) == ("point", dimension)
    assert meaning.value == pytest.approx(si, rel=1e-9)


@pytest.mark.parametrize(
    ("typed", "unit", "wrong", "right"),
    [
        ("", "in", "is empty", "not reached"),
        ("   ", "in", "is empty", "not reached"),
        ("5.128.", "in", "ends in a point", "5.128"),
        ("5.1.28", "in", "more than one point", "5.128"),
        ("5.I28", "in", "letter I among its figures", "5.128"),
        ("5.O28", "in", "letter O among its figures", "5.028"),
        ("5.l28", "in", "letter L among its figures", "5.128"),
        ("5,128", "in", "has a comma", "5.128"),
        ("1,200", "rpm", "has a comma", "1.200"),
        ("1.234,5", "mm", "both a comma and a point", "one of them"),
        ("1/0", "in", "divides by nought", "1/8"),
        ("5 9/8", "in", "9/8", "5 1/8"),
        ("5.128 5.129", "in", "2 figures", "one size"),
        ("5 128", "in", "2 figures", "one size"),
        ("6 + 4", "in", "adds a whole 6", "feelers"),
        ("go 3 no-go 4", "in", "whole 3 in an inch column", "3 thou"),
        (".004 to .003", "in", "larger end first", "the other way round"),
        ("go .003 no-go .003", "in", "same size at both ends", "two sizes"),
        ("60 psi", "in", "is in psi where a length is asked", "inches"),
        ("60 lb", None, "a pressure, a force or a mass", "psi"),
        ("60 lb", "in", "is in pounds where a length is asked", "inches"),
        ("5.128", None, "has no unit", "5.128 in"),
        ("5.128 inhces", "in", "no unit known here", "in"),
        ("130 M", "in", "lone m", "mm"),
        ("2 tenths", "mm", "tenths in a metric column", "mm"),
        ("60 psia", "psi gauge", "psia where psi gauge is asked", "psi gauge"),
        ("30° BBDC", "deg BTDC", "bottom dead centre where the column counts from top", "deg BTDC"),
        ('2 1/2" on the rim before center', "deg BTDC", "along the rim", "diameter"),
        ("L: 3 @ .002 + 1 @ .005; R: same", "in", "more than one place", "each side"),
        ("over", "in", "by how much", "20 over"),
        ("wibble", "in", "no word known here", "5.128"),
        ("nan", "in", "no word known here", "5.128"),
        ("12345678901234567890", "in", "more digits", "5.128"),
        ("5", "furlong", "column in “furlong”", "in"),
        ("x" * 500, "in", "too long", "note"),
    ],
)
def test_refusals_say_what_is_wrong_and_what_would_be_right(typed, unit, wrong, right):
    sentence = refusal(typed, unit=unit)
    before, _, after = sentence.removeprefix(f"“{typed}” ").partition(";")
    assert wrong in before
    assert right in after
    assert sentence.endswith(".")


@pytest.mark.parametrize(("base", "wrong"), [("about five", "is no size"), ("5 9/8", "9/8"), ("5,1", "comma")])
def test_a_bad_base_is_named(base, wrong):
    sentence = refusal("+3", base=base)
    assert f"“{base}” as its base" in sentence
    assert wrong in sentence


PIECES = st.sampled_from(
    [
        "5 1/8",
        "⅛",
        "½",
        ".003",
        "3",
        "1/0",
        "/",
        "-",
        "+",
        ".",
        ",",
        "thou",
        "tenths",
        "over",
        "under",
        "go",
        "no-go",
        "goes",
        "won't",
        "between",
        "and",
        "to",
        "feelers",
        "@",
        "x",
        "in",
        "mm",
        '"',
        "'",
        "°",
        "BTDC",
        "after",
        "lb",
        "#",
        "oz",
        "full",
        "bare",
        "drag",
        "on",
        "tight",
        "STD",
        "S",
        "O/S",
        "U/S",
        "psi",
        "three",
        "half a",
        "cold",
        "e",
        "E5",
        "1e99",
        "99999999999999999999",
        "rim",
        "tpi",
        "m",
        "%",
        ":",
        ">",
        "<",
        "(",
        ")",
    ]
)
COLUMNS = st.sampled_from(
    [None, "in", "mm", "thou", "deg", "deg BTDC", "psi gauge", "1", "lbf", "degC", "ratio", "", "nonsense", "kg"]
)
BASES = st.sampled_from([None, "5 1/8", "130", "0", "x", "1/0"])


@given(st.lists(PIECES, max_size=8), st.sampled_from(["", " "]), COLUMNS, BASES)
@settings(max_examples=1500, deadline=None)
def test_pieces_of_the_trade_never_fail_otherwise(pieces, between, unit, base):
    _understood_or_refused(between.join(pieces), unit, base)


@given(st.text(max_size=40), COLUMNS, BASES)
@settings(max_examples=500, deadline=None)
@example("١٢", "in", None)
@example("²", "in", None)
@example("\ud800", "in", None)
def test_no_text_fails_otherwise(typed, unit, base):
    _understood_or_refused(typed, unit, base)


def _understood_or_refused(typed, unit, base):
    try:
        meaning = understand(typed, unit=unit, base=base)
    except NotUnderstood as refused:
        sentence = str(refused)
    else:
        sentence = ""
    if sentence:
        assert sentence.startswith(f"“{typed}” ")
        assert "would be right" in sentence
        return
    assert meaning.echo
    for number in (meaning.value, meaning.low, meaning.high):
        assert number is None or math.isfinite(number)
    assert (meaning.value is not None) or meaning.kind != "point"
    if meaning.low is not None and meaning.high is not None:
        assert meaning.low < meaning.high


@given(
    st.integers(0, 40), st.integers(1, 63), st.sampled_from(["{w} {n}/{d}", "{w}-{n}/{d}", '{w} {n}/{d}"', "{w} {n}/{d} in"])
)
def test_fractions_there_and_back(whole, top, form):
    typed = form.format(w=whole, n=top, d=64)
    assert inches(understand(typed, unit="in")) == pytest.approx(whole + top / 64, rel=1e-12)


@given(st.integers(-9_999_999, 9_999_999), st.integers(0, 5), st.sampled_from(["in", "mm", "psi", "lbf", "deg", "cc", "degC"]))
def test_decimals_there_and_back(digits, decimals, unit):
    typed = f"{digits / 10**decimals:.{decimals}f}"
    if typed.startswith("-") and decimals == 0 and unit in ("in", "mm"):
        return
    from gudgeon.quantity import from_si

    meaning = understand(typed, unit=unit)
    assert from_si(meaning.value, unit) == pytest.approx(float(typed), rel=1e-9, abs=1e-9)


@given(st.integers(1, 400))
def test_every_way_of_saying_so_many_thou_is_the_same(thou):
    forms = [f"{thou / 1000:.3f}", f"{thou / 1000:.3f}".lstrip("0"), f"{thou} thou", f"{thou} thou in", f"{thou} feeler"]
    sizes = [inches(understand(form, unit="in")) for form in forms if not form.endswith("thou in")]
    assert sizes == [pytest.approx(thou / 1000, rel=1e-9)] * len(sizes)
