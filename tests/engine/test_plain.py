from __future__ import annotations

import json
import math
import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass, is_dataclass
from types import UnionType
from typing import Any, Literal, Union, cast, get_args, get_origin

import numpy as np
import pytest

from gudgeon.engine.drawing import Arc, Circle, Dimension, Drawing, Hatched, Line, Text, View
from gudgeon.engine.estimate import Estimate
from gudgeon.engine.finding import Finding
from gudgeon.engine.history import canonical
from gudgeon.engine.order import AskedSize, Inspected, Order, OrderDraft, OrderEvent
from gudgeon.engine.origin import Origin, Range
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartNote
from gudgeon.engine.place import FeatureKey, Place
from gudgeon.engine.plain import NotPlain, _hints, from_plain, to_plain
from gudgeon.engine.reading import Doubt, Reading, RefusedRow
from gudgeon.engine.reckoning import Reckoning
from gudgeon.engine.remedy import Advice, Caution, Remedy
from gudgeon.engine.snapshot import Aims, PictureNote, Price
from gudgeon.engine.specification import Specification
from gudgeon.engine.step import StepDone, StepDraft
from gudgeon.engine.verdict import Verdict
from gudgeon.quantity import Amount, Said

FROZEN = (
    Advice, Aims, Doubt, Drawing, Estimate, Finding, Inspected, Order, OrderDraft, OrderEvent, Outline, PartNote, PictureNote,
    Place, Price, Reading, Reckoning, RefusedRow, Remedy, Specification, StepDone, StepDraft, Verdict,
)  # fmt: skip
WORDS = ("", "bore", "5 1/8", "“quoted”", "a\nb", "\u00e9\U0001f600\ufb33", "None", "1.0", "{}")
SIZES = (0.0, -0.0, 0.1, 1 / 3, 5.125 * 0.0254, -2.5e-5, 5e-324, 1e300, math.inf, 3.0)


def made(kind: Any, chance: random.Random) -> Any:
    """Any value of a frozen type."""
    if kind in SIMPLE:
        return SIMPLE[kind](chance)
    if is_dataclass(kind):
        return kind(**{name: made(hint, chance) for name, hint in _hints(cast(type, kind)).items()})
    origin, arguments = get_origin(kind), get_args(kind)
    if origin is Literal:
        return chance.choice(arguments)
    if origin in (Union, UnionType):
        return made(chance.choice(arguments), chance)
    if origin is tuple and len(arguments) == 2 and arguments[1] is Ellipsis:
        return tuple(made(arguments[0], chance) for _ in range(chance.choice((0, 1, 1, 2))))
    if origin is tuple:
        return tuple(made(inner, chance) for inner in arguments)
    if origin in (dict, Mapping):
        return {made(arguments[0], chance): made(arguments[1], chance) for _ in range(chance.randrange(3))}
    raise AssertionError(f"no way to make a {kind}")


def rising(chance: random.Random) -> list[float]:
    return sorted(chance.choices(SIZES, k=3))


SIMPLE: dict[Any, Callable[[random.Random], Any]] = {
    str: lambda chance: chance.choice(WORDS),
    int: lambda chance: chance.choice((0, 1, -7, 2**53 - 1)),
    bool: lambda chance: chance.random() < 0.5,
    float: lambda chance: chance.choice(SIZES),
    type(None): lambda _: None,
    Range: lambda chance: Range(*rising(chance), "quotation"),
    AskedSize: lambda chance: AskedSize(
        part="p", item="i", feature="f", dimension="length", lower=rising(chance)[0], upper=math.inf
    ),
}


@pytest.mark.parametrize("kind", FROZEN, ids=lambda kind: kind.__name__)
def test_there_and_back_through_the_bytes_of_an_entry(kind: type) -> None:
    chance = random.Random(kind.__name__)
    for _ in range(30):
        value = made(kind, chance)
        assert from_plain(kind, json.loads(canonical(to_plain(value)))) == value


def test_drawing_items_come_back_as_what_they_were() -> None:
    items = (
        Line((0.0, 0.0), (1.0, 2.5)),
        Circle((0.0, 0.0), 65.1, "hidden"),
        Arc((0.0, 0.0), 3.0, 0.0, 90.0),
        Hatched(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0))),
        Dimension("diameter", (0.0, 0.0), (130.2, 0.0), 8.0, 0.1302, 0.13022, "after honing"),
        Text((0.0, 0.0), "break sharp edges"),
    )
    drawing = Drawing(
        number="1",
        title="Liner",
        part="cylinder",
        item="cyl 1",
        material="cast iron",
        finish="",
        views=(View(title="A", items=items),),
    )
    back = from_plain(Drawing, json.loads(json.dumps(to_plain(drawing))))
    assert back == drawing
    assert [type(item) for item in back.views[0].items] == [Line, Circle, Arc, Hatched, Dimension, Text]


def test_floats_keep_their_last_bit() -> None:
    """Shortest text that reads back the same: Python's documented repr of float."""
    for value in (0.1, 1 / 3, 5.125 * 0.0254, 5e-324, 1.7976931348623157e308, math.inf):
        amount = Amount(value, "length")
        assert from_plain(Amount, to_plain(amount)).value == value
    assert to_plain(Amount(0.1, "length"))["value"] == "0.1"


def test_numbers_of_numpy_are_written_as_plain_ones() -> None:
    amount = Amount(np.float64(0.13), "length", np.bool_(True))  # type: ignore[arg-type]
    assert to_plain(amount) == {"is": "Amount", "value": "0.13", "dimension": "length", "fine": True}
    assert to_plain(np.int64(3)) == 3
    assert type(to_plain(np.int64(3))) is int


def test_defaults_are_left_out() -> None:
    assert to_plain(Outline(name="x")) == {"is": "Outline", "name": "x"}
    assert to_plain(Said("ground", ())) == {"is": "Said", "text": "ground"}


@dataclass(frozen=True)
class Tag:
    number: int
    words: str = ""


def test_old_entries_keep_their_meaning_when_a_field_is_added() -> None:
    old = to_plain(Tag(7))

    @dataclass(frozen=True)
    class Later:
        number: int
        words: str = ""
        colour: str = "buff"
        holes: tuple[int, ...] = ()

    Later.__name__ = "Tag"
    assert from_plain(Later, old) == Later(7)
    assert to_plain(Later(7)) == old


def test_features_as_keys() -> None:
    """Keys that are no texts travel as pairs."""
    key = FeatureKey("cylinder", "cyl 1", "bore diameter")
    assert to_plain({key: 0.5}) == [
        [{"is": "FeatureKey", "part": "cylinder", "item": "cyl 1", "feature": "bore diameter"}, "0.5"]
    ]


@pytest.mark.parametrize("value", [{1, 2}, print, object, np.zeros(2)])
def test_what_could_not_be_read_back_is_refused(value: object) -> None:
    with pytest.raises(NotPlain, match="cannot be written down"):
        to_plain(value)


# -- refusals: place, what was read, what would be right --------------------------------------------------------------------

CAUTION = {"is": "Caution", "hazard": "lead", "say": "s", "source": "common practice"}
LINE = {"is": "Line", "a": ["0", "0"], "b": ["1", "1"]}
DRAWING = {
    "is": "Drawing", "number": "1", "title": "", "part": "", "item": "", "material": "", "finish": "",
    "views": [{"is": "View", "title": "A", "items": [LINE]}],
}  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "data", "sentence"),
    [
        (Caution, {**CAUTION, "colour": "red"}, "Caution: colour is no field of it; the fields are hazard, say, source."),
        (Caution, {"hazard": "lead"}, "Caution: say, source is missing."),
        (Caution, {**CAUTION, "say": 3}, "Caution.say: 3 was read; a value of kind str would be right."),
        (Caution, {**CAUTION, "is": "Risk"}, "Caution: a Risk was read; a Caution would be right."),
        (Caution, [], "Caution: [] was read; an object would be right."),
        (
            Origin,
            {"grade": "G", "source": "x"},
            "Origin.grade: 'G' was read; one of 'A', 'B', 'C', 'D', 'E', 'F' would be right.",
        ),
        (Outline, {"name": "x", "strokes": 3}, "Outline.strokes: 3 was read; one of 2, 4 would be right."),
        (Outline, {"name": "x", "strokes": 2.0}, "Outline.strokes: 2.0 was read; one of 2, 4 would be right."),
        (Outline, {"name": "x", "cylinders": True}, "Outline.cylinders: True was read; a value of kind int would be right."),
        (Outline, {"name": "x", "bore": "five"}, "Outline.bore: 'five' was read; a number would be right."),
        (Amount, {"value": True, "dimension": "length"}, "Amount.value: True was read; a number would be right."),
        (Aims, {"away": [["2027-01-01"]]}, "Aims.away[0]: 1 values were read; 2 would be right."),
        (Aims, {"away": "never"}, "Aims.away: 'never' was read; a list would be right."),
        (
            Drawing,
            {**DRAWING, "views": [{"title": "A", "items": [{**LINE, "pen": "crayon"}]}]},
            "Drawing.views[0].items[0].pen: 'crayon' was read; one of 'outline', 'thin', 'hidden', 'centre', 'hatch', "
            "'dimension', 'note' would be right.",
        ),
        (
            Range,
            {"low": "3", "likely": "2", "high": "4", "origin": "quotation"},
            "Range: A range was given as low 3.0, likely 2.0, high 4.0; it must rise from low through likely to high.",
        ),
    ],
)
def test_refusal_says_where_what_and_what_would_be_right(kind: type, data: object, sentence: str) -> None:
    with pytest.raises(NotPlain) as refused:
        from_plain(kind, data)
    assert str(refused.value) == sentence


def test_unknown_shape_on_a_drawing_is_refused() -> None:
    data = {**DRAWING, "views": [{"title": "A", "items": [{"is": "Spiral"}]}]}
    with pytest.raises(NotPlain, match=r"Drawing\.views\[0\]\.items\[0\]: .*Spiral.* was read; one of .*Line.* would be right"):
        from_plain(Drawing, data)
