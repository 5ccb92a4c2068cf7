from __future__ import annotations

import tomllib
from dataclasses import fields
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.engine.outline import Outline
from gudgeon.engine.outline_file import KEYS, NoOutline, read_outline, write_outline

DOCS = Path(__file__).parents[2] / "docs" / "outline.md"

FILE = """\
format = "gudgeon outline 1"
name = "The mill engine"   # what everybody calls it
built = 1908
cylinders = 3
casting = "en-bloc"
valves = "t head"
bore = "5 1/8"
stroke = "6 in"
offset = "12.7 mm"
rated_speed_rpm = 450
"""


def test_reads_a_short_file() -> None:
    """Inches by the exact 25.4 mm (1959 international yard agreement)."""
    outline = read_outline(FILE)
    assert outline.name == "The mill engine"
    assert (outline.built, outline.cylinders, outline.casting, outline.valves) == ("1908", 3, "en bloc", "T head")
    assert outline.bore == pytest.approx(0.130175, rel=1e-12)
    assert outline.stroke == pytest.approx(0.1524, rel=1e-12)
    assert outline.offset == pytest.approx(0.0127, rel=1e-12)
    assert (outline.bore_typed, outline.stroke_typed, outline.offset_typed) == ("5 1/8", "6 in", "12.7 mm")
    assert outline.rated_speed == 450.0
    assert (outline.head, outline.strokes, outline.main_bearings, outline.maker) == (None, None, None, "")


def test_unit_of_the_file() -> None:
    outline = read_outline('name = "x"\nunit = "mm"\nbore = "130"\nstroke = 152.4\noffset = "1/2 in"')
    assert outline.bore == pytest.approx(0.130, rel=1e-12)
    assert outline.stroke == pytest.approx(0.1524, rel=1e-12)
    assert outline.offset == pytest.approx(0.0127, rel=1e-12)
    assert read_outline(write_outline(outline)) == outline, "the file written has no unit of its own"


def test_everything_but_the_name_may_be_left_out() -> None:
    assert read_outline('name = "x"') == Outline(name="x")
    assert read_outline("", name="mill-engine") == Outline(name="mill-engine")
    assert read_outline('name = "x"', name="mill-engine").name == "x"
    with pytest.raises(NoOutline, match="The engine has no name in this file; add a line such as name ="):
        read_outline("cylinders = 3")


def test_file_from_another_system() -> None:
    assert read_outline("\ufeff" + FILE.replace("\n", "\r\n")) == read_outline(FILE)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ('name = "x"\n\nbroe = "5"', "Line 3: broe is no key of an outline; did you mean bore?"),
        ('name = "x"\nBore = "5"', "Line 2: Bore is no key of an outline; did you mean bore?"),
        ('name = "x"\nrated_speed = 450', "Line 2: rated_speed is no key of an outline; did you mean rated_speed_rpm?"),
        ("bore = 5 1/8", 'Line 1: “bore = 5 1/8” can\'t be read; a text stands in quotes: bore = "5 1/8".'),
        ("name: Mill engine", 'Line 1: “name: Mill engine” can\'t be read; a text stands in quotes: name = "Mill engine".'),
        ('name="x"\nname="y"', 'Line 2: “name="y"” gives a key a second time; each key stands once.'),
        (
            '[engine]\nname = "x"',
            "Line 1: engine is read as a section, and an outline has none; take the line [engine] away.",
        ),
        ('cylinders = "three"', "Line 1: cylinders: “three” was read; a whole number from 1 to 24 would be right."),
        ("cylinders = 0", "Line 1: cylinders: “0” was read; a whole number from 1 to 24 would be right."),
        ("cylinders = 2.5", "Line 1: cylinders: “2.5” was read; a whole number from 1 to 24 would be right."),
        (
            'valves = "L heads"',
            "Line 1: valves: “L heads” was read; one of L head, T head, F head, overhead would be right (nearest: “L head”).",
        ),
        ("strokes = 3", "Line 1: strokes: “3” was read; one of 2, 4 would be right."),
        (
            'rated_speed_rpm = "400-450"',
            "Line 1: rated_speed_rpm: “400-450” was read; one speed in turns a minute would be right, such as 450.",
        ),
        (
            'bore = "tight"',
            'Line 1: bore: “tight” was read; one length would be right, such as "5 1/8", "5.125 in" or "130 mm".',
        ),
        (
            'bore = "130"',
            'Line 1: bore: “130” was read; one length would be right, such as "5 1/8", "5.125 in" or "130 mm".',
        ),
        ('format = "other"', "Line 1: format “other” was read; this gudgeon reads “gudgeon outline 1”."),
        ('unit = "cm"', 'Line 1: unit “cm” was read; "in" or "mm" would be right.'),
        ("serial = true", "Line 1: serial: “True” was read; a text in quotes would be right."),
    ],
)
def test_wrong_line_gets_one_sentence(text: str, sentence: str) -> None:
    with pytest.raises(NoOutline) as refused:
        read_outline(text, name="x")
    assert str(refused.value) == sentence
    assert refused.value.line == int(sentence.split()[1].rstrip(":"))


def test_size_of_another_kind_names_key_and_line() -> None:
    with pytest.raises(NoOutline, match=r"^Line 2: bore: “5 1/8 lb” .*would be right\.$"):
        read_outline('name = "x"\nbore = "5 1/8 lb"')


@pytest.mark.parametrize("typed", ['"450"', "450", "450.0", '"450 rpm"', '"450 R.P.M."'])
def test_ways_to_write_a_speed(typed: str) -> None:
    assert read_outline(f'name = "x"\nrated_speed_rpm = {typed}').rated_speed == 450.0


TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=12).map(str.strip)
SIZES = st.sampled_from([(0.130175, "5 1/8"), (0.1524, "6 in"), (0.130, "130 mm"), (None, "")])
OUTLINES = st.builds(
    Outline,
    name=TEXTS.filter(bool),
    maker=TEXTS,
    notes=TEXTS,
    firing_order=TEXTS,
    cylinders=st.none() | st.integers(1, 24),
    rated_speed=st.none() | st.integers(1, 20_000).map(lambda half: half / 2),
    valves=st.sampled_from([None, "L head", "T head", "F head", "overhead"]),
    strokes=st.sampled_from([None, 2, 4]),
    rotation=st.sampled_from([None, "clockwise", "anticlockwise"]),
)


@given(outline=OUTLINES, size=SIZES)
def test_there_and_back(outline: Outline, size: tuple[float | None, str]) -> None:
    from dataclasses import replace

    outline = replace(outline, bore=size[0], bore_typed=size[1])
    text = write_outline(outline)
    back = read_outline(text)
    assert replace(back, bore=None) == replace(outline, bore=None)
    assert back.bore == (None if size[0] is None else pytest.approx(size[0], rel=1e-12))


def test_size_that_nobody_typed_is_written_in_millimetres() -> None:
    outline = read_outline(write_outline(Outline(name="x", bore=0.130175)))
    assert outline.bore == pytest.approx(0.130175, rel=1e-12)
    assert outline.bore_typed == "130.175 mm"


def test_examples_in_the_written_file_are_right() -> None:
    """A person takes the # away: then every line must be taken."""
    written = write_outline(Outline(name="x")).splitlines()
    lines = [line.removeprefix("# ") if "=" in line else line for line in written]
    outline = read_outline("\n".join(lines))
    assert outline.cylinders == 3
    unfilled = [field.name for field in fields(Outline) if getattr(outline, field.name) in (None, "")]
    assert unfilled == []


def test_every_field_of_an_outline_can_be_written() -> None:
    assert {key.target for key in KEYS} == {field.name for field in fields(Outline) if not field.name.endswith("_typed")}


def test_docs_tell_every_key_and_their_example_reads() -> None:
    text = DOCS.read_text(encoding="utf-8")
    rows = [line.split("|")[1].strip().strip("`") for line in text.splitlines() if line.startswith("| `")]
    assert rows == ["format", "unit", *(key.name for key in KEYS)]
    example = text.split("```toml\n")[1].split("```")[0]
    assert set(tomllib.loads(example)) <= {"format", "unit", *(key.name for key in KEYS)}
    assert read_outline(example).cylinders == 3
