"""From readings to estimates: every spot that was read, with its uncertainty, its gauge's offset kept apart, and its doubts."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.place import FeatureKey, Place
from gudgeon.engine.reading import Doubt, Reading
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.system import Feature
from gudgeon.metrology.gauges import Kind, Offset, by_gauge, is_standard, kind_of, offset_of, repeatability
from gudgeon.metrology.guess import FeatureOf, described
from gudgeon.metrology.misreadings import Suspect, suspects
from gudgeon.metrology.remarks import remarks
from gudgeon.metrology.spots import GaugeState, estimate_of

Spots = Mapping[Place, tuple[Reading, ...]]


@dataclass(frozen=True, kw_only=True)
class Weighed:
    """The readings of a job, weighed.

    Attributes
    ----------
    estimates : per feature, one estimate per spot, of what was found.
    returned, fitted : the same of what came back from a shop, and as fitted.
    gauges : offset of each gauge by its name as written.
    doubts : readings that were probably slips.
    remarks : sentences about the readings as a whole.
    features : the description that each feature was weighed under.
    """

    estimates: Mapping[FeatureKey, tuple[Estimate, ...]]
    gauges: Mapping[str, Offset]
    doubts: tuple[Doubt, ...]
    remarks: tuple[str, ...]
    features: Mapping[FeatureKey, Feature] = field(default_factory=dict)
    returned: Mapping[FeatureKey, tuple[Estimate, ...]] = field(default_factory=dict)
    fitted: Mapping[FeatureKey, tuple[Estimate, ...]] = field(default_factory=dict)


def is_usable(reading: Reading) -> bool:
    """Does the reading say a size ("not reached" and "tight" do not)?"""
    return reading.understood.kind in ("point", "interval") and reading.understood.value is not None


def weigh(snapshot: Snapshot, feature_of: FeatureOf, *, before: Weighed | None = None) -> Weighed:
    """Weigh all readings of a snapshot.

    Parameters
    ----------
    snapshot : the job at one moment.
    feature_of : (part, feature) -> its description, or None where no system knows it; it is then guessed from its words.

    Repeats of a spot are pooled (GUM type A, with the repeatability of the gauge over the whole job), the gauge's step and its
    offset enter as type B, sizes are brought to 20 degree C. Readings that were probably slips are not averaged in: the size
    that was probably meant takes their place, wider, and the doubt says so; a reading that a person confirmed is used as it is.
    """
    usable = [reading for reading in snapshot.readings if is_usable(reading)]
    standards = [reading for reading in usable if is_standard(reading)]
    engine = [reading for reading in usable if not is_standard(reading)]
    features = _features(engine, feature_of)
    plain_gauges = _gauges(engine, standards, doubtful=frozenset())
    found = [reading for reading in engine if reading.stage == "found"]
    suspected = suspects(found, noise={name: state.noise for name, state in plain_gauges.items()}, features=features)
    gauges = _gauges(engine, standards, doubtful=frozenset(suspected))
    stages = {stage: [reading for reading in engine if reading.stage == stage] for stage in ("found", "returned", "fitted")}
    estimates = {stage: _estimates(group, gauges, features, suspected) for stage, group in stages.items()}
    return Weighed(
        estimates=estimates["found"],
        returned=estimates["returned"],
        fitted=estimates["fitted"],
        gauges={name: state.offset for name, state in gauges.items()},
        doubts=tuple(suspect.doubt for suspect in suspected.values()),
        remarks=remarks(snapshot, features=features, estimates=estimates["found"], gauges=gauges),
        features=features,
    )


def _features(readings: Iterable[Reading], feature_of: FeatureOf) -> dict[FeatureKey, Feature]:
    features: dict[FeatureKey, Feature] = {}
    by_words: dict[tuple[str, str, str], Feature] = {}
    for reading in readings:
        if reading.key not in features:
            words = (reading.key.part, reading.key.feature, reading.understood.dimension)
            if words not in by_words:
                by_words[words] = described(feature_of, reading.key, reading.understood.dimension)
            features[reading.key] = by_words[words]
    return features


def spots_of(readings: Iterable[Reading]) -> dict[Place, tuple[Reading, ...]]:
    """Readings by the spot they were taken at."""
    groups: dict[Place, list[Reading]] = {}
    for reading in readings:
        groups.setdefault(reading.place, []).append(reading)
    return {place: tuple(group) for place, group in groups.items()}


def _gauges(engine: Sequence[Reading], standards: Sequence[Reading], *, doubtful: frozenset[str]) -> dict[str, GaugeState]:
    """State of every gauge that took a reading: kind, repeatability, offset."""
    checks = by_gauge(standards)
    states = {}
    for name, readings in by_gauge([*standards, *engine]).items():
        kind = _kind(name, readings)
        good = [reading for reading in readings if reading.id not in doubtful]
        groups = [[_value(reading) for reading in group] for group in _repeats(good)]
        repeat, freedom = repeatability(groups, default=kind.repeat)
        offset = offset_of(name, checks.get(name, ()), kind=kind, repeat=repeat, freedom=freedom)
        states[name] = GaugeState(kind=kind, repeat=repeat, freedom=freedom, offset=offset)
    return states


def _repeats(readings: Sequence[Reading]) -> list[tuple[Reading, ...]]:
    groups: dict[tuple[Place, str], list[Reading]] = {}
    for reading in readings:
        groups.setdefault((reading.place, reading.stage), []).append(reading)
    return [tuple(group) for group in groups.values() if len(group) > 1]


def _kind(name: str, readings: Sequence[Reading]) -> Kind:
    dimension = readings[0].understood.dimension
    steps = [reading.resolution or reading.understood.step for reading in readings if reading.understood.dimension == dimension]
    stated = [step for step in steps if step]
    return kind_of(name, dimension=dimension, resolution=min(stated) if stated else None)


def _value(reading: Reading) -> float:
    value = reading.understood.value
    if value is None:
        raise ValueError(f"The reading “{reading.typed}” of {reading.key} says no size.")
    return value


def _estimates(
    readings: Sequence[Reading],
    gauges: Mapping[str, GaugeState],
    features: Mapping[FeatureKey, Feature],
    suspected: Mapping[str, Suspect],
) -> dict[FeatureKey, tuple[Estimate, ...]]:
    groups: dict[FeatureKey, list[Estimate]] = {}
    for place, group in spots_of(readings).items():
        feature = features[place.key]
        groups.setdefault(place.key, []).append(estimate_of(place, group, gauges=gauges, feature=feature, suspected=suspected))
    return {key: tuple(group) for key, group in groups.items() if not math.isnan(group[0].value)}
