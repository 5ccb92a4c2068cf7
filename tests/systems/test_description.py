"""The description of the cylinders: its words against the layouts that people keep."""

import csv
import io

import pytest

from gudgeon.engine.levels import level_of
from gudgeon.engine.outline import Outline
from gudgeon.engine.place import Place
from gudgeon.systems import ALL, feature_named, system_named
from gudgeon.systems.cylinders.description import BORE, PARTS

# A sheet as an owner of a four-cylinder engine kept it, before any of this was written.
KEPT = """part,feature
cylinder,bore diameter
ring,end gap in unworn belt
ring,end gap under the ridge
piston,skirt diameter
piston,"side clearance, top ring, new ring"
piston,"side clearance, oil ring, new ring"
"""


@pytest.mark.parametrize("row", list(csv.DictReader(io.StringIO(KEPT))), ids=lambda row: row["feature"])
def test_words_of_a_kept_sheet_are_known(row: dict[str, str]) -> None:
    feature = feature_named(row["part"], row["feature"])
    assert feature is not None
    assert feature.name == row["feature"]


def test_other_words_and_case_find_the_same_feature() -> None:
    assert feature_named("Cylinder", "BORE") is BORE
    assert feature_named("cylinder", "bore_diameter") is BORE
    assert feature_named("gear", "stroke") is None


@pytest.mark.parametrize(
    ("station", "note", "level"),
    [
        ("below ring travel", "", "below ring travel"),
        ("5", "below ring travel", "below ring travel"),
        ("Just below the ridge", "", "top of ring travel"),
        ("above the ridge", "", "top land, above ring travel"),
        ("ridge", "", "ridge"),
        ("Mid stroke", "light scoring", "middle of ring travel"),
        ("Bottom of ring travel", "", "bottom of ring travel"),
    ],
)
def test_level_is_recognised_from_station_or_note(station: str, note: str, level: str) -> None:
    place = Place(part="cylinder", item="cyl 1", feature="bore diameter", station=station)
    found = level_of(BORE, place, notes=(note,))
    assert found is not None
    assert found.name == level


def test_a_bare_number_names_no_level() -> None:
    place = Place(part="cylinder", item="cyl 1", feature="bore diameter", station="1", depth=0.0133)
    assert level_of(BORE, place, notes=("",)) is None


def test_the_ends_that_rings_do_not_reach_are_unworn_and_only_they() -> None:
    # Unworn zones of a bore are above and below the ring travel : common practice of the trade.
    assert {level.name for level in BORE.levels if level.wear == "unworn"} == {
        "top land, above ring travel",
        "below ring travel",
    }
    assert [level.name for level in BORE.levels if level.wear == "most"] == ["top of ring travel"]


def test_instances_follow_the_outline() -> None:
    outline = Outline(name="x", cylinders=2, rings_per_piston=3)
    names = {kind.kind: kind.items(outline) for kind in PARTS}
    assert names["cylinder"] == ("cyl 1", "cyl 2")
    assert names["ring"] == tuple(f"cyl {n} {place} ring" for n in (1, 2) for place in ("top", "second", "third"))
    assert all(kind.items(Outline(name="x")) == () for kind in PARTS)


def test_every_feature_belongs_to_a_part_of_its_system_and_names_are_unique() -> None:
    for system in ALL:
        kinds = {kind.kind for kind in system.parts}
        names = [(feature.part, feature.name) for feature in system.features]
        assert {part for part, _ in names} <= kinds
        assert len(names) == len(set(names))


def test_an_unknown_system_is_named_with_those_that_exist() -> None:
    assert system_named("Cylinders").key == "cylinders"
    with pytest.raises(LookupError, match=r"No system is called “wheels”; the systems are cylinders"):
        system_named("wheels")
