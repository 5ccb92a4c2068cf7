"""From readings to estimates: every spot that was read, with its uncertainty, its gauge's offset kept apart, and its doubts.

Work goes sort by sort (one feature of one kind of part, at one stage), so that a newer snapshot in which one reading came in
costs one sort.
"""

from __future__ import annotations

import math
from collections.abc import Container, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from statistics import median

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.place import FeatureKey, Place
from gudgeon.engine.reading import Doubt, Reading
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.system import Feature
from gudgeon.metrology.gauges import Kind, Offset, is_standard, kind_of, offset_of, repeatability
from gudgeon.metrology.guess import FeatureOf, described
from gudgeon.metrology.misreadings import Suspect, suspects
from gudgeon.metrology.neighbours import MAD_TO_SIGMA
from gudgeon.metrology.remarks import job_remarks, sort_remarks
from gudgeon.metrology.spots import GaugeState, estimate_of

DIFFERENT = ("thread", "gear")
"""Families whose instances are different things under one name."""
SortName = tuple[str, str, str, str]
"""Part, feature, dimension and stage."""
Repeats = tuple[str, tuple[float, ...]]
"""A gauge, and what it showed at one spot that it read more than once [SI]."""


@dataclass(frozen=True, kw_only=True)
class SortWork:
    """The work on one sort of readings, with what it was made from."""

    readings: tuple[Reading, ...]
    feature: Feature
    noise: Mapping[str, float]
    suspects: Mapping[str, Suspect]
    repeats: tuple[Repeats, ...]
    states: Mapping[str, GaugeState]
    estimates: Mapping[FeatureKey, tuple[Estimate, ...]]
    remarks: tuple[str, ...]


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
    sorts : the work behind all this, for the next weighing.
    """

    estimates: Mapping[FeatureKey, tuple[Estimate, ...]]
    gauges: Mapping[str, Offset]
    doubts: tuple[Doubt, ...]
    remarks: tuple[str, ...]
    features: Mapping[FeatureKey, Feature] = field(default_factory=dict)
    returned: Mapping[FeatureKey, tuple[Estimate, ...]] = field(default_factory=dict)
    fitted: Mapping[FeatureKey, tuple[Estimate, ...]] = field(default_factory=dict)
    sorts: Mapping[SortName, SortWork] = field(default_factory=dict, repr=False)


def is_usable(reading: Reading) -> bool:
    """Does the reading say a size ("not reached" and "tight" do not)?"""
    return reading.understood.kind in ("point", "interval") and reading.understood.value is not None


def weigh(snapshot: Snapshot, feature_of: FeatureOf, *, before: Weighed | None = None) -> Weighed:
    """Weigh all readings of a snapshot.

    Parameters
    ----------
    snapshot : the job at one moment.
    feature_of : (part, feature) -> its description, or None where no system knows it; it is then guessed from its words.
    before : an earlier weighing of the same job under the same descriptions; what rests on unchanged readings is taken over.

    Repeats of a spot are pooled (GUM type A, with the repeatability of the gauge over the whole job), the gauge's step and its
    offset enter as type B, sizes are brought to 20 degree C. Readings that were probably slips are not averaged in: the size
    that was probably meant takes their place, wider, and the doubt says so; a reading that a person confirmed is used as it is.
    """
    standards, sorts = _sorted(snapshot.readings)
    kept = before.sorts if before else {}
    kinds = _kinds(standards, sorts)
    kept = {name: work for name, work in kept.items() if name in sorts and work.readings == sorts[name]}
    repeats = {name: kept[name].repeats if name in kept else repeats_of(group) for name, group in sorts.items()}
    on_standards = repeats_of(standards)
    wild = _wild(kinds, (on_standards, *repeats.values()))
    first = {name: _squares(each, wild) for name, each in repeats.items()}
    checks = _squares(on_standards, wild)
    noise = {gauge: state.noise for gauge, state in _states(kinds, standards, (checks, *first.values())).items()}
    features = {
        name: kept[name].feature if name in kept else described(feature_of, group[0].key, name[2])
        for name, group in sorts.items()
    }
    doubted = {name: _suspects(name, group, features[name], noise, kept.get(name)) for name, group in sorts.items()}
    trusted = {name: _squares(repeats_of(sorts[name], doubted[name]), wild) for name in sorts if doubted[name]}
    states = _states(kinds, standards, (checks, *{**first, **trusted}.values()))
    works = {
        name: _worked(group, features[name], noise, doubted[name], repeats[name], states, kept.get(name))
        for name, group in sorts.items()
    }
    return _gathered(snapshot, works, states)


def _sorted(readings: Iterable[Reading]) -> tuple[list[Reading], dict[SortName, tuple[Reading, ...]]]:
    """Readings of setting standards, and those of the engine by sort."""
    standards: list[Reading] = []
    sorts: dict[SortName, list[Reading]] = {}
    for reading in readings:
        if not is_usable(reading):
            continue
        if is_standard(reading):
            standards.append(reading)
        else:
            name = (reading.place.part, reading.place.feature, reading.understood.dimension, reading.stage)
            sorts.setdefault(name, []).append(reading)
    return standards, {name: tuple(group) for name, group in sorts.items()}


def _gathered(snapshot: Snapshot, works: Mapping[SortName, SortWork], states: Mapping[str, GaugeState]) -> Weighed:
    stages: dict[str, dict[FeatureKey, tuple[Estimate, ...]]] = {"found": {}, "returned": {}, "fitted": {}}
    features: dict[FeatureKey, Feature] = {}
    for name, work in works.items():
        for key, estimates in work.estimates.items():
            if key not in stages[name[3]]:
                stages[name[3]][key] = estimates
                features[key] = work.feature
    ordered = {key: stages["found"][key] for key in snapshot.by_feature if key in stages["found"]}
    told = [sentence for work in works.values() for sentence in work.remarks]
    return Weighed(
        estimates=ordered,
        returned=stages["returned"],
        fitted=stages["fitted"],
        gauges={name: state.offset for name, state in states.items()},
        doubts=tuple(suspect.doubt for work in works.values() for suspect in work.suspects.values()),
        remarks=tuple(dict.fromkeys((*job_remarks(snapshot, features=features, estimates=ordered, gauges=states), *told))),
        features=features,
        sorts=works,
    )


def _suspects(
    name: SortName, readings: tuple[Reading, ...], feature: Feature, noise: Mapping[str, float], kept: SortWork | None
) -> Mapping[str, Suspect]:
    """Probable slips in a sort; only what was found is doubted, what a shop sent back is held against the order instead."""
    if name[3] != "found":
        return {}
    here = {gauge: noise[gauge] for gauge in {reading.instrument for reading in readings}}
    if kept is not None and kept.noise == here:
        return kept.suspects
    return suspects(readings, noise=here, alike=feature.family not in DIFFERENT)


def _worked(
    readings: tuple[Reading, ...],
    feature: Feature,
    noise: Mapping[str, float],
    doubted: Mapping[str, Suspect],
    repeats: tuple[Repeats, ...],
    states: Mapping[str, GaugeState],
    kept: SortWork | None,
) -> SortWork:
    gauges = {reading.instrument for reading in readings}
    own = {gauge: states[gauge] for gauge in gauges}
    if kept is not None and kept.states == own and kept.suspects == doubted:
        return kept
    return SortWork(
        readings=readings,
        feature=feature,
        noise={gauge: noise[gauge] for gauge in gauges},
        suspects=doubted,
        repeats=repeats,
        states=own,
        estimates=_estimates(readings, own, feature, doubted),
        remarks=sort_remarks(readings, feature=feature) if readings[0].stage == "found" else (),
    )


def spots_of(readings: Iterable[Reading]) -> dict[Place, tuple[Reading, ...]]:
    """Readings by the spot they were taken at. A reading whose depth was not stated belongs to the one of its level and
    direction that states one, where there is just one."""
    readings = tuple(readings)
    depths: dict[Place, dict[Place, None]] = {}
    for reading in readings:
        if reading.place.depth is not None:
            depths.setdefault(replace(reading.place, depth=None), {})[reading.place] = None
    groups: dict[Place, list[Reading]] = {}
    for reading in readings:
        stated = depths.get(reading.place, {}) if reading.place.station else {}
        place = next(iter(stated)) if len(stated) == 1 else reading.place
        groups.setdefault(place, []).append(reading)
    return {place: tuple(group) for place, group in groups.items()}


def _estimates(
    readings: Sequence[Reading], gauges: Mapping[str, GaugeState], feature: Feature, suspected: Mapping[str, Suspect]
) -> dict[FeatureKey, tuple[Estimate, ...]]:
    groups: dict[FeatureKey, list[Estimate]] = {}
    for place, group in spots_of(readings).items():
        groups.setdefault(place.key, []).append(estimate_of(place, group, gauges=gauges, feature=feature, suspected=suspected))
    return {key: tuple(group) for key, group in groups.items()}


def repeats_of(readings: Iterable[Reading], left_out: Container[str] = ()) -> tuple[Repeats, ...]:
    """Gauge and values of every spot that one gauge read more than once."""
    found: list[Repeats] = []
    for group in spots_of(readings).values():
        if len(group) > 1:
            values: dict[str, list[float]] = {}
            for reading in group:
                if reading.understood.value is not None and reading.id not in left_out:
                    values.setdefault(reading.instrument, []).append(reading.understood.value)
            found += [(gauge, tuple(each)) for gauge, each in values.items() if len(each) > 1]
    return tuple(found)


WILD = 6.0
"""Repeats that lie so many standard deviations from the middle of their spot are no repeats: a slip, or another spot."""


def _wild(kinds: Mapping[str, Kind], repeats: Iterable[Iterable[Repeats]]) -> dict[str, float]:
    """Per gauge, how far a repeat may lie from the middle of its spot and still speak for the gauge [SI].

    From the median of all such distances, which a few slips cannot move, and never less than the kind's default.
    """
    apart: dict[str, list[float]] = {}
    for gauge, values in (each for group in repeats for each in group):
        middle = median(values)
        # The middle of few values lies nearer to them than the truth does: n/(n - 1), as for a variance.
        apart.setdefault(gauge, []).extend(abs(each - middle) * math.sqrt(len(values) / (len(values) - 1)) for each in values)
    robust = {gauge: MAD_TO_SIGMA * median(distances) for gauge, distances in apart.items()}
    return {
        gauge: WILD * max(robust.get(gauge, 0.0), kind.repeat, kind.resolution / math.sqrt(12)) for gauge, kind in kinds.items()
    }


def _squares(repeats: Iterable[Repeats], wild: Mapping[str, float]) -> dict[str, tuple[float, float]]:
    """Per gauge, the sum of squared deviations of repeats from their spot's mean, and its degrees of freedom."""
    sums: dict[str, tuple[float, float]] = {}
    for gauge, every in repeats:
        middle = median(every)
        values = [each for each in every if abs(each - middle) <= wild[gauge]]
        if len(values) > 1:
            mean = math.fsum(values) / len(values)
            squares, freedom = sums.get(gauge, (0.0, 0.0))
            sums[gauge] = squares + math.fsum((each - mean) ** 2 for each in values), freedom + len(values) - 1
    return sums


def _kinds(standards: Sequence[Reading], sorts: Mapping[SortName, Sequence[Reading]]) -> dict[str, Kind]:
    """Kind of every gauge, by its name and the dimension and smallest step of its readings."""
    dimension: dict[str, str] = {}
    step: dict[str, float] = {}
    for group in (standards, *sorts.values()):
        for reading in group:
            gauge = reading.instrument
            first = dimension.setdefault(gauge, reading.understood.dimension)
            size = reading.resolution or reading.understood.step
            if size and reading.understood.dimension == first:
                step[gauge] = min(size, step.get(gauge, size))
    return {gauge: kind_of(gauge, dimension=each, resolution=step.get(gauge)) for gauge, each in dimension.items()}


def _states(
    kinds: Mapping[str, Kind], standards: Sequence[Reading], squares: Iterable[Mapping[str, tuple[float, float]]]
) -> dict[str, GaugeState]:
    """State of every gauge from all its repeats, those on setting standards among them."""
    total: dict[str, tuple[float, float]] = {}
    for sums in squares:
        for gauge, (square, freedom) in sums.items():
            before = total.get(gauge, (0.0, 0.0))
            total[gauge] = before[0] + square, before[1] + freedom
    checks: dict[str, list[Reading]] = {}
    for reading in standards:
        checks.setdefault(reading.instrument, []).append(reading)
    states = {}
    for gauge, kind in kinds.items():
        square, count = total.get(gauge, (0.0, 0.0))
        repeat, freedom = repeatability(square, count, default=kind.repeat)
        offset = offset_of(gauge, checks.get(gauge, ()), kind=kind, repeat=repeat, freedom=freedom)
        states[gauge] = GaugeState(kind=kind, repeat=repeat, freedom=freedom, offset=offset)
    return states
