"""A bench sheet: the readings to take, one line each, derived from a system's description and what is on the bench."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace

from gudgeon.engine.naming import size_in_name
from gudgeon.engine.order import Order
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reading import Reading, Stage
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.system import Feature, System


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLine:
    """One reading wanted: the level and direction, and what has been read there so far (all repeats)."""

    station: str
    direction: float | None
    hint: str
    taken: tuple[Reading, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetBlock:
    """All lines of one feature of one instance."""

    feature: Feature
    item: str
    lines: tuple[SheetLine, ...]
    others: tuple[Reading, ...]

    @property
    def key(self) -> FeatureKey:
        """The feature to be read."""
        return FeatureKey(self.feature.part, self.item, self.feature.name)

    @property
    def done(self) -> int:
        """How many lines have at least one reading."""
        return sum(bool(line.taken) for line in self.lines)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """The bench sheet of one system."""

    system: str
    title: str
    blocks: tuple[SheetBlock, ...]
    stage: Stage = "found"


def bench_sheet(system: System, snapshot: Snapshot) -> Sheet:
    """The bench sheet of a system: the instances that the outline leads one to expect, and any other that was noted.

    Readings at levels or in directions that the sheet does not ask for are listed under their block as ``others``.
    """
    blocks = []
    for kind in system.parts:
        expected = kind.items(snapshot.outline)
        items = expected + tuple(item for item in snapshot.items(kind.kind) if item not in expected)
        for item in items:
            asked = [feature for feature in system.features if feature.part == kind.kind and feature.belongs_to(item)]
            names = {feature.name for feature in asked}
            for feature in asked:
                blocks += _blocks(feature, item, snapshot, asked=names)
    return Sheet(system=system.key, title=system.title, blocks=tuple(blocks))


def _blocks(feature: Feature, item: str, snapshot: Snapshot, *, asked: Collection[str]) -> list[SheetBlock]:
    """The block of a feature; of one whose name carries a size, one block for every size that was read at, and none else.

    A name that is ``asked`` for by a feature of its own has its block there.
    """
    if not feature.sized:
        return [_block(feature, item, snapshot.by_feature)]
    names = [
        key.feature
        for key in snapshot.by_feature
        if key.part == feature.part
        and key.item == item
        and key.feature not in asked
        and (split := size_in_name(key.feature))
        and split[0] == feature.name
    ]
    return [_block(replace(feature, name=name, title=name), item, snapshot.by_feature) for name in names]


def return_sheet(order: Order, feature_of: Callable[[str, str], Feature | None], snapshot: Snapshot) -> Sheet:
    """The sheet for inspecting an order in: every asked size, read as its feature is read on the bench."""
    blocks = []
    for asked in order.draft.asked:
        feature = feature_of(asked.part, asked.feature)
        if feature is None:
            feature = Feature(part=asked.part, name=asked.feature, title=asked.feature, dimension=asked.dimension)
        blocks.append(_block(feature, asked.item, snapshot.returned))
    return Sheet(system=order.draft.system, title=f"Inspected in: {order.draft.title}", blocks=tuple(blocks), stage="returned")


def _block(feature: Feature, item: str, readings: Mapping[FeatureKey, tuple[Reading, ...]]) -> SheetBlock:
    left = list(readings.get(FeatureKey(feature.part, item, feature.name), ()))
    lines = []
    for level in feature.levels or (None,):
        for direction in feature.directions or (None,):
            station = level.name if level else ""
            taken = tuple(
                reading for reading in left if reading.place.station == station and reading.place.direction == direction
            )
            left = [reading for reading in left if reading not in taken]
            lines.append(SheetLine(station=station, direction=direction, hint=level.hint if level else "", taken=taken))
    return SheetBlock(feature=feature, item=item, lines=tuple(lines), others=tuple(left))
