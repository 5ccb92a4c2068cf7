"""Names of features as people write them, with a size in them or not."""

from __future__ import annotations

import pytest

from gudgeon.engine.naming import feature_finder, size_in_name
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartKind
from gudgeon.engine.place import Place
from gudgeon.engine.reading import Reading
from gudgeon.engine.sheet import bench_sheet
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.system import Feature, System
from gudgeon.quantity import Understood

FORCE = Feature(part="valve_spring", name="force at", title="Force at a length", dimension="force", unit="lbf", sized=True)
JOURNAL = Feature(part="cam", name="journal diameter", title="Journal", of=("journal",))
BORE = Feature(part="cam", name="bore", title="Bore", of=("bearing",))


def names(_: Outline) -> tuple[str, ...]:
    return ("cam journal 1", "cam bearing 1")


SYSTEM = System(
    key="test",
    title="Test",
    introduction="",
    parts=(
        PartKind(kind="cam", title="Cam", count=lambda _: None, item="", names=names),
        PartKind(kind="valve_spring", title="Spring", count=lambda _: 1, item="spring {n}"),
    ),
    features=(FORCE, JOURNAL, BORE),
)


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("force at 2.2500 in", ("force at", 2.25, "in")),
        ("Force at 2 1/4", ("force at", 2.25, "")),
        ('force at 1 3/8"', ("force at", 1.375, "in")),
        ("lift at 30 degrees", ("lift at", 30.0, "deg")),
        ("lift at -30 deg", ("lift at", -30.0, "deg")),
        ("force_at 57 mm", ("force at", 57.0, "mm")),
        ("span over 4 teeth", ("span over", 4.0, "teeth")),
        ("length over 10 pitches", ("length over", 10.0, "pitches")),
        ("over pins of .216 in", ("over pins of", 0.216, "in")),
    ],
)
def test_a_size_in_a_name_is_read(written: str, meant: tuple[str, float, str]) -> None:
    assert size_in_name(written) == meant


@pytest.mark.parametrize("written", ["force at fitted length", "end gap", "force at", "force at 1/0 in", "wear at top"])
def test_names_without_a_size_have_none(written: str) -> None:
    assert size_in_name(written) is None


def test_any_length_finds_the_force() -> None:
    find = feature_finder((SYSTEM,))
    assert find("valve_spring", "force at 2.2500 in") is FORCE
    assert find("valve spring", "force at 1.082 in") is FORCE
    assert find("valve_spring", "stiffness at 1.082 in") is None


def test_a_sheet_asks_each_instance_only_for_what_it_has() -> None:
    sheet = bench_sheet(SYSTEM, Snapshot(outline=Outline(name="x")))
    assert [(block.item, block.feature.name) for block in sheet.blocks] == [
        ("cam journal 1", "journal diameter"),
        ("cam bearing 1", "bore"),
    ]


def test_a_force_that_was_read_stands_on_the_sheet_under_its_own_length() -> None:
    place = Place(part="valve_spring", item="spring 1", feature="force at 2.2500 in")
    reading = Reading(
        id="r1", place=place, typed="54", unit="lbf", understood=Understood(kind="point", dimension="force", value=240)
    )
    sheet = bench_sheet(SYSTEM, Snapshot(outline=Outline(name="x"), readings=(reading,)))
    block = next(block for block in sheet.blocks if block.item == "spring 1")
    assert block.feature.name == "force at 2.2500 in"
    assert block.lines[0].taken == (reading,)


def test_a_name_with_a_size_that_has_a_feature_of_its_own_is_asked_for_once() -> None:
    spans = Feature(part="gear", name="span over", title="Span", sized=True)
    three = Feature(part="gear", name="span over 3 teeth", title="Span over three")
    gear = PartKind(kind="gear", title="Gear", count=lambda _: 1, item="gear {n}")
    system = System(key="g", title="G", introduction="", parts=(gear,), features=(three, spans))
    readings = tuple(
        Reading(
            id=str(k),
            place=Place(part="gear", item="gear 1", feature=f"span over {k} teeth"),
            typed="1",
            unit="in",
            understood=Understood(kind="point", dimension="length", value=0.0254),
        )
        for k in (3, 4)
    )
    sheet = bench_sheet(system, Snapshot(outline=Outline(name="x"), readings=readings))
    assert [block.feature.name for block in sheet.blocks] == ["span over 3 teeth", "span over 4 teeth"]
