"""The spots of a bore that were read, set in order: which level each stands at, and which of them the rings never reach."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.bench import Bench
from gudgeon.engine.estimate import Estimate
from gudgeon.engine.levels import level_of_estimate
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.system import Level
from gudgeon.systems.cylinders.description import BORE, BORE_LEVELS, INCH, SKIRT

Draws = NDArray[np.float64]
_ORDER = {level.name: place for place, level in enumerate(BORE_LEVELS)}


@dataclass(frozen=True, kw_only=True)
class Spot:
    """One spot: its level where the words say which, the owner's own label for the level, and the draws of its size [m]."""

    level: Level | None
    label: str
    direction: float | None
    estimate: Estimate
    draws: Draws

    @property
    def depth(self) -> float | None:
        """Depth down the bore [m]."""
        return self.estimate.place.depth

    @property
    def in_travel(self) -> bool:
        """Do the rings pass here? A level that no words name is taken to be in their travel."""
        return self.level is None or (self.level.wear != "unworn" and self.level.name != "ridge")


@dataclass(frozen=True, kw_only=True)
class Bore:
    """The bore of one cylinder as it was read. ``original`` are draws of what it measured when new or last bored [m]."""

    item: str
    spots: tuple[Spot, ...]
    original: Draws | None

    @cached_property
    def levels(self) -> dict[str, tuple[Spot, ...]]:
        """Spots in the ring travel by level, from the head end down."""
        return _grouped(spot for spot in self.spots if spot.in_travel)

    def named(self, level: str) -> tuple[Spot, ...]:
        """The spots of one of the description's levels."""
        return tuple(spot for spot in self.spots if spot.level is not None and spot.level.name == level)

    @property
    def unworn(self) -> tuple[Spot, ...]:
        """The spots that the rings never reach."""
        return tuple(spot for spot in self.spots if spot.level is not None and spot.level.wear == "unworn")

    @cached_property
    def worst(self) -> Spot | None:
        """The largest spot in the ring travel, by its estimate."""
        travel = [spot for spot in self.spots if spot.in_travel]
        return max(travel, key=lambda spot: spot.estimate.value) if travel else None

    @property
    def inputs(self) -> tuple[str, ...]:
        """Identities of all readings of this bore."""
        return inputs_of(self.spots)


def mean_of(spots: Sequence[Spot]) -> Draws:
    """Mean diameter of the spots of one level [m], without those that stand far off."""
    off = far_off(spots)
    return np.asarray(np.mean([spot.draws for spot in spots if spot not in off], axis=0))


def far_off(spots: Sequence[Spot]) -> tuple[Spot, ...]:
    """Spots of one level that stand so far off the others that no oval explains it: a slip not settled yet.

    Further from the median than four times 1.48 x the median deviation and than 2 thou (Hampel's rule; Rousseeuw and Croux,
    JASA 88 (1993)). Of an oval read in four directions none is.
    """
    if len(spots) < 3:
        return ()
    values = np.array([spot.estimate.value for spot in spots])
    away = np.abs(values - np.median(values))
    bound = max(4.0 * 1.4826 * float(np.median(away)), 0.002 * INCH)
    return tuple(spot for spot, distance in zip(spots, away, strict=True) if distance > bound)


def inputs_of(spots: Sequence[Spot]) -> tuple[str, ...]:
    """Identities of the readings behind some spots."""
    return tuple(dict.fromkeys(identity for spot in spots for identity in spot.estimate.readings))


def number(item: str) -> str:
    """The instance's number in its name ("cyl 2 top ring" is of 2); the whole name where it has none."""
    found = re.search(r"\d+", item)
    return found.group() if found else item.lower()


def bores(bench: Bench) -> tuple[Bore, ...]:
    """All cylinders that were read or noted, in order, with what was read of their bores."""
    return tuple(bore_of(bench, item) for item in bench.items("cylinder") if item.lower() != "block")


def bore_of(bench: Bench, item: str) -> Bore:
    """The bore of one cylinder."""
    key = _key(bench, "cylinder", item, BORE.name, BORE.aliases)
    readings = bench.snapshot.readings_of(key)
    spots = []
    for estimate in bench.estimates.get(key, ()):
        level = level_of_estimate(BORE, estimate, readings)
        spots.append(
            Spot(
                level=level,
                label=_label(estimate, level),
                direction=None if estimate.place.direction is None else estimate.place.direction % 180.0,
                estimate=estimate,
                draws=bench.spot(estimate),
            )
        )
    spots.sort(key=_down)
    return Bore(item=item, spots=tuple(spots), original=_original(bench, key, spots))


def _original(bench: Bench, key: FeatureKey, spots: Sequence[Spot]) -> Draws | None:
    """What the specification says, else the mean of the spots that the rings never reach."""
    original = bench.original(key)
    unworn = [spot for spot in spots if spot.level is not None and spot.level.wear == "unworn"]
    return mean_of(unworn) if original is None and unworn else original


def _key(bench: Bench, part: str, item: str, name: str, aliases: Sequence[str]) -> FeatureKey:
    """The key under which a feature was read of an instance, by whichever of its names the owner used."""
    names = (name, *aliases)
    for key in bench.estimates:
        if key.part.lower() == part and key.item == item and key.feature.lower() in names:
            return key
    return FeatureKey(part, item, name)


def _label(estimate: Estimate, level: Level | None) -> str:
    """The owner's word for the level; a bare number or letter gives way to the level that a note names."""
    station = estimate.place.station.strip()
    if len(station) > 2:
        return station
    if level is not None:
        return level.name
    if station:
        return f"station {station}"
    depth = estimate.place.depth
    return "where read" if depth is None else f"{depth * 1000:.1f} mm down"


def _down(spot: Spot) -> tuple[float, int, str, float]:
    depth = spot.depth if spot.depth is not None else -1.0
    place = _ORDER[spot.level.name] if spot.level is not None else len(_ORDER)
    return depth, place, spot.label, spot.direction or 0.0


def _grouped(spots: Iterable[Spot]) -> dict[str, tuple[Spot, ...]]:
    groups: dict[str, list[Spot]] = {}
    for spot in spots:
        groups.setdefault(spot.label, []).append(spot)
    return {label: tuple(group) for label, group in groups.items()}


@dataclass(frozen=True, kw_only=True)
class Measured:
    """One plain size that was read: draws [m], and the readings behind it."""

    item: str
    draws: Draws
    value: float
    inputs: tuple[str, ...]
    estimates: tuple[Estimate, ...]


def size_of(bench: Bench, part: str, item: str, feature: str, *, aliases: Sequence[str] = ()) -> Measured | None:
    """A feature that has one size, as the mean of its spots; None where it was not read."""
    key = _key(bench, part, item, feature, aliases)
    estimates = tuple(bench.estimates.get(key, ()))
    if not estimates:
        return None
    draws = np.asarray(np.mean([bench.spot(estimate) for estimate in estimates], axis=0))
    inputs = tuple(dict.fromkeys(identity for estimate in estimates for identity in estimate.readings))
    value = float(np.mean([estimate.value for estimate in estimates]))
    return Measured(item=item, draws=draws, value=value, inputs=inputs, estimates=estimates)


def largest_of(bench: Bench, part: str, item: str, feature: str, *, aliases: Sequence[str] = ()) -> Measured | None:
    """The largest spot of a feature (the deepest pit); None where it was not read."""
    found = size_of(bench, part, item, feature, aliases=aliases)
    if found is None:
        return None
    worst = max(found.estimates, key=lambda estimate: estimate.value)
    return Measured(
        item=item, draws=bench.spot(worst), value=worst.value, inputs=worst.readings, estimates=(worst, *found.estimates)
    )


def skirt_of(bench: Bench, cylinder: str) -> Measured | None:
    """The skirt of the piston that belongs to a cylinder, on the thrust line: the largest spot at 90 degree, or of all."""
    for item in bench.items("piston"):
        if number(item) == number(cylinder):
            key = _key(bench, "piston", item, SKIRT.name, SKIRT.aliases)
            spots = [each for each in bench.estimates.get(key, ()) if "top land" not in each.place.station.lower()]
            across = [each for each in spots if each.place.direction == 90.0] or spots
            if across:
                worst = max(across, key=lambda each: each.value)
                return Measured(
                    item=item, draws=bench.spot(worst), value=worst.value, inputs=worst.readings, estimates=tuple(across)
                )
    return None


def rings_of(bench: Bench, cylinder: str) -> tuple[str, ...]:
    """The rings that belong to a cylinder."""
    return tuple(item for item in bench.items("ring") if number(item) == number(cylinder))
