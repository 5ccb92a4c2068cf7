"""What strikes one about the readings together: a missing direction, mixed units, a part read hot, a pair that cannot be."""

from __future__ import annotations

import math
import statistics
from collections.abc import Mapping, Sequence

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reading import Reading
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.system import Feature
from gudgeon.metrology.gauges import is_standard
from gudgeon.metrology.guess import wear_place, words_of
from gudgeon.metrology.spots import GaugeState

FAR_FROM_OTHERS = 6.0
"""Degrees Celsius from the other readings at which a part counts as hot or cold (4 in of iron then grows .0003 in)."""


def job_remarks(
    snapshot: Snapshot,
    *,
    features: Mapping[FeatureKey, Feature],
    estimates: Mapping[FeatureKey, tuple[Estimate, ...]],
    gauges: Mapping[str, GaugeState],
) -> tuple[str, ...]:
    """Sentences about all readings together, the weightier first: pairs that cannot be, temperatures, gauges."""
    found = [reading for reading in snapshot.readings if reading.stage == "found" and not is_standard(reading)]
    lengths = [reading for reading in found if reading.understood.dimension == "length"]
    return (*_tight_pairs(features, estimates), *_temperatures(lengths), *_gauges(gauges, lengths))


def sort_remarks(readings: Sequence[Reading], *, feature: Feature) -> tuple[str, ...]:
    """Sentences about the readings of one sort of feature: units, directions, places."""
    groups: dict[FeatureKey, list[Reading]] = {}
    for reading in readings:
        groups.setdefault(reading.key, []).append(reading)
    return (
        *_mixed_units(groups),
        *_directions(groups, feature),
        *_levels_short(groups),
        *_only_worn(groups, feature),
    )


def _mixed_units(groups: Mapping[FeatureKey, Sequence[Reading]]) -> list[str]:
    sentences = []
    for key, group in groups.items():
        inch = [each for each in group if each.understood.dimension == "length" and not _is_metric(each)]
        metric = [each for each in group if each.understood.dimension == "length" and _is_metric(each)]
        if inch and metric:
            sentences.append(
                f"{key}: {len(inch)} of its readings in inches, {len(metric)} in millimetres. Each is taken as it is written; "
                "look that none was meant in the other unit."
            )
    return sentences


def _is_metric(reading: Reading) -> bool:
    return any(mark in f"{reading.unit} {reading.typed}".lower() for mark in ("mm", "millim", "cm"))


def _temperatures(lengths: Sequence[Reading]) -> list[str]:
    stated = [each.temperature for each in lengths if each.temperature is not None]
    sentences = []
    if lengths and not stated:
        sentences.append("No temperature is noted with any reading: 20 °C is taken, with an allowance of 5 °C either way.")
    elif len(lengths) - len(stated) > 0:
        sentences.append(
            f"No temperature is noted with {len(lengths) - len(stated)} of {len(lengths)} readings: 20 °C is taken for them."
        )
    if len(stated) < 3:
        return sentences
    usual = statistics.median(stated)
    off: dict[str, list[float]] = {}
    for each in lengths:
        if each.temperature is not None and abs(each.temperature - usual) > FAR_FROM_OTHERS:
            off.setdefault(str(each.key), []).append(each.temperature)
    for name, values in off.items():
        word = "hot" if values[0] > usual else "cold"
        sentences.append(
            f"{name} was read {word}, at {values[0]:.0f} °C where the rest was at {usual:.0f} °C. It is corrected to 20 °C; "
            "read it again when it has lain in the room overnight."
        )
    return sentences


def _directions(groups: Mapping[FeatureKey, Sequence[Reading]], feature: Feature) -> list[str]:
    """Instances read in fewer directions than their siblings, or all in one only where wear goes one way."""
    instances = {
        key: {each.place.direction for each in group if each.place.direction is not None} for key, group in groups.items()
    }
    every = {direction for directions in instances.values() for direction in directions}
    first = next(iter(groups))
    if len(every) == 1 and feature.wear in ("adds", "takes") and feature.family != "gap":
        return [f"{first.part} {first.feature}: read in one direction only ({_degrees(every)}); out-of-round cannot be told."]
    return [
        f"{key}: nothing was read at {_degrees(every - directions)}, where the others were; wear there is not known."
        for key, directions in instances.items()
        if directions and every - directions
    ]


def _levels_short(groups: Mapping[FeatureKey, Sequence[Reading]]) -> list[str]:
    """Levels of one instance that miss a direction which its other levels have."""
    sentences = []
    for key, group in groups.items():
        levels: dict[str, set[float]] = {}
        for each in group:
            if each.place.direction is not None and each.understood.kind != "not taken":
                levels.setdefault(each.place.station, set()).add(each.place.direction)
        every = set().union(*levels.values()) if levels else set()
        short = {level: every - directions for level, directions in levels.items() if every - directions}
        if len(levels) > 1 and len(every) > 1 and short:
            said = "; ".join(f"{level or 'one level'} lacks {_degrees(sorted(missing))}" for level, missing in short.items())
            sentences.append(f"{key}: {said}. Out-of-round there is from what was read.")
    return sentences


def _degrees(directions: Sequence[float] | set[float]) -> str:
    return ", ".join(f"{each:g}°" for each in sorted(directions))


def _only_worn(groups: Mapping[FeatureKey, Sequence[Reading]], feature: Feature) -> list[str]:
    if feature.wear not in ("adds", "takes") or feature.family in ("", "gap"):
        return []
    sentences = []
    for key, group in groups.items():
        places = {wear_place(feature, each.place, each.note) for each in group}
        if places and places <= {"most", "some"}:
            sentences.append(
                f"{key}: every reading is from a worn place; a reading where nothing ran would tell its size when new."
            )
    return sentences


def _tight_pairs(features: Mapping[FeatureKey, Feature], estimates: Mapping[FeatureKey, tuple[Estimate, ...]]) -> list[str]:
    """A shaft that is surely larger than the hole of its number that it came out of."""
    sentences = []
    for shaft, hole in pairs(features):
        if shaft not in estimates or hole not in estimates:
            continue
        largest = max(estimates[shaft], key=lambda each: each.value)
        smallest = max(estimates[hole], key=lambda each: each.value)
        gap = smallest.value - largest.value
        doubt = math.hypot(smallest.uncertainty, largest.uncertainty)
        if gap < -3 * doubt - 1e-6:
            sentences.append(
                f"{hole} reads nowhere larger than {shaft} that came out of it: {-gap / 0.0254:.4f} in at the least. "
                "One of the two is misread, read at another temperature, or they never were a pair."
            )
    return sentences


_MATES = (("skirt", "bore diameter"), ("stem", "guide"), ("pin diameter", "bush"), ("pin diameter", "pin bore"))


def pairs(features: Mapping[FeatureKey, Feature]) -> list[tuple[FeatureKey, FeatureKey]]:
    """Shaft and hole that came apart from each other by their words and their number: ("piston 2 skirt", "cyl 2 bore")."""
    words = {key: words_of(key) for key, feature in features.items() if feature.wear in ("adds", "takes")}
    found = []
    for shaft_words, hole_words in _MATES:
        holes: dict[str, list[FeatureKey]] = {}
        for key, said in words.items():
            if hole_words in said and features[key].wear == "adds":
                holes.setdefault(_number(key), []).append(key)
        for shaft, said in words.items():
            if shaft_words in said and features[shaft].wear == "takes":
                same = holes.get(_number(shaft), [])
                same = [hole for hole in same if hole.item == shaft.item] or same
                if len(same) == 1:
                    found.append((shaft, same[0]))
    return found


def _number(key: FeatureKey) -> str:
    return "".join(sign for sign in key.item if sign.isdigit())


def _gauges(gauges: Mapping[str, GaugeState], lengths: Sequence[Reading]) -> list[str]:
    used = {reading.instrument for reading in lengths}
    return [state.offset.sentence for name, state in gauges.items() if name in used and (not state.kind.known or not name)]
