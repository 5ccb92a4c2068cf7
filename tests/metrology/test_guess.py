"""What a feature's words say: hole or shaft, and how worn a spot is."""

from __future__ import annotations

import pytest

from gudgeon.engine.place import FeatureKey, Place
from gudgeon.engine.system import Feature, Level
from gudgeon.metrology.guess import guessed, wear_place


@pytest.mark.parametrize(
    ("part", "feature", "wear", "family"),
    [
        ("cylinder", "bore diameter", "adds", "bore"),
        ("piston", "skirt diameter", "takes", "piston"),
        ("crankpin", "journal diameter", "takes", "journal"),
        ("main", "journal diameter", "takes", "journal"),
        ("cam", "journal diameter", "takes", "shaft"),
        ("cam", "bore", "adds", "bush"),
        ("pin", "diameter", "takes", "pin"),
        ("pin", "bush bore", "adds", "bush"),
        ("valve", "stem diameter", "takes", "stem"),
        ("valve", "guide bore", "adds", "guide"),
        ("valve", "lash", "adds", "gap"),
        ("bearing", "vertical clearance", "adds", "gap"),
        ("ring", "end gap in unworn belt", "adds", "gap"),
        ("valve_spring", "free length", "takes", "spring length"),
        ("governor", "spindle diameter", "takes", "shaft"),
        ("latch", "pin hole", "adds", "hole"),
        ("base", "length", "none", "length"),
    ],
)
def test_words_tell_hole_from_shaft(part: str, feature: str, wear: str, family: str) -> None:
    guess = guessed(FeatureKey(part, f"{part} 1", feature))
    assert (guess.wear, guess.family) == (wear, family)


BARE = guessed(FeatureKey("thing", "thing 1", "diameter"))


@pytest.mark.parametrize(
    ("station", "note", "wear"),
    [
        ("5", "below ring travel", "unworn"),
        ("keeper end", "", "unworn"),
        ("boss end", "", "unworn"),
        ("other boss end", "", "unworn"),
        ("rod", "", "most"),
        ("middle", "", "some"),
        ("top of guide", "", "most"),
        ("just below the ridge", "", "most"),
        ("A", "", "unknown"),
        ("", "", "unknown"),
    ],
)
def test_words_tell_how_worn_a_spot_is(station: str, note: str, wear: str) -> None:
    assert wear_place(BARE, Place(part="thing", item="thing 1", feature="diameter", station=station), note) == wear


def test_the_descriptions_levels_go_before_the_words() -> None:
    feature = Feature(
        part="thing", name="diameter", title="", levels=(Level(name="middle", wear="unworn"), Level(name="end", wear="most"))
    )
    place = Place(part="thing", item="thing 1", feature="diameter", station="Middle")
    assert wear_place(feature, place) == "unworn"
