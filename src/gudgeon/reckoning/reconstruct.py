"""The engine's own manual: for every feature of every instance, what it was when new, from everything that was read.

Sizes with a standard behind them go through the sum over siblings (``siblings``), are then held against their mates, against
like groups and against the plate (``mates``), and are summed once more. Gaps and clearances have no drawing size and are
bounded (``clearances``); threads, gears, timing and volumes follow from relations (``related``).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.outline import Outline
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reading import Reading
from gudgeon.engine.specification import Specification
from gudgeon.engine.system import System
from gudgeon.metrology import Weighed
from gudgeon.reckoning.clearances import gap_specifications
from gudgeon.reckoning.evidence import siblings_of
from gudgeon.reckoning.groups import Group, Keys, groups_of
from gudgeon.reckoning.habits import lattice_family, resizing
from gudgeon.reckoning.lattice import THOU, Lattice, lattice
from gudgeon.reckoning.mates import HOUSE_FAMILIES, FitHabit, Pair, for_hole, for_house, for_like, for_plate, for_shaft
from gudgeon.reckoning.others import other_specifications
from gudgeon.reckoning.pairs import pairs_of
from gudgeon.reckoning.related import related_specifications
from gudgeon.reckoning.siblings import Groundwork, Outside, Reconstructed, Resizing, Siblings, groundwork, reconstruct
from gudgeon.reckoning.told import plate_size, told

Array = NDArray[np.float64]

MOST_OF_A_HOUSE = 12
"""Families with more groups than this are of many hands (bought-in linkage, say) and tell nothing of each other."""
SAME_ORDER = 0.13 * 0.0254
"""Groups of one part and feature may share a nominal when they stand no further apart than the largest re-sizing [m]."""


@dataclass(frozen=True, kw_only=True)
class Solved:
    """One group's sums, kept so that a next reckoning need not do them again.

    ``alone`` is the posterior from its own readings, ``answer`` with what bears on it from outside; ``mates`` are the
    posteriors of the groups that the words of its lines speak of.
    """

    group: Group
    siblings: Siblings
    work: Groundwork
    sizes: Lattice
    resizing: Resizing
    alone: Reconstructed
    outside: Outside | None = None
    answer: Reconstructed | None = None
    mates: tuple[tuple[str, Reconstructed], ...] = ()
    lines: Mapping[FeatureKey, Specification] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Partner:
    """Another group that bears on a group: as the shaft in its hole, the hole round its shaft, its like, or another shaft of
    the same house."""

    kind: Literal["shaft", "hole", "like", "house"]
    keys: Keys
    habit: FitHabit | None = None


@dataclass(frozen=True, kw_only=True)
class Manual:
    """All specifications, and the densities that draws of the sizes when new are made from."""

    specifications: Mapping[FeatureKey, Specification]
    solved: Mapping[Keys, Solved]
    groups: Mapping[Keys, Group]
    home: Mapping[FeatureKey, tuple[Keys, int]]
    outline: Outline


def reconstruct_manual(
    weighed: Weighed,
    *,
    outline: Outline,
    systems: Sequence[System],
    readings: Mapping[FeatureKey, Sequence[Reading]],
    before: Manual | None = None,
) -> Manual:
    """Reconstruct every feature that was read.

    ``before`` is the manual of an earlier snapshot: groups whose evidence is the same are taken over from it.
    """
    groups = groups_of(weighed.estimates, weighed.features, readings, kept=before.groups if before else None)
    kept = before.solved if before else {}
    same_outline = before is not None and before.outline == outline
    doubted = frozenset(doubt.reading.id for doubt in weighed.doubts)
    alone = {group.keys: _alone(group, doubted, kept.get(group.keys)) for group in groups if group.has_size}
    partners = partners_of([state.group for state in alone.values()], pairs_of(weighed.features, systems))
    solved = {
        keys: _told(_together(state, partners[keys], alone, outline, kept.get(keys)), outline, kept.get(keys), same_outline)
        for keys, state in alone.items()
    }
    specifications = {key: line for state in solved.values() for key, line in state.lines.items()}
    specifications.update(_lines_of_the_rest(weighed, groups, specifications, outline=outline, readings=readings))
    return Manual(
        specifications={key: specifications[key] for key in weighed.estimates if key in specifications},
        solved=solved,
        groups={group.keys: group for group in groups},
        home={key: (keys, number) for keys in solved for number, key in enumerate(keys)},
        outline=outline,
    )


def _lines_of_the_rest(
    weighed: Weighed,
    groups: Sequence[Group],
    sizes: Mapping[FeatureKey, Specification],
    *,
    outline: Outline,
    readings: Mapping[FeatureKey, Sequence[Reading]],
) -> dict[FeatureKey, Specification]:
    """Gaps, features without a length, and whatever follows from relations."""
    gaps = [group for group in groups if not group.has_size and group.feature.family == "gap"]
    others = [group for group in groups if not group.has_size and group.feature.family != "gap"]
    found = gap_specifications(gaps, sizes)
    found.update(other_specifications(others, readings))
    every = {**sizes, **found}
    found.update(related_specifications(weighed, outline=outline, specifications=every, readings=readings))
    return found


def _alone(group: Group, doubted: frozenset[str], kept: Solved | None) -> Solved:
    """The group's sum from its own readings."""
    if kept is not None and kept.group is group:
        return kept
    siblings = siblings_of(group, doubted)
    if kept is not None and kept.siblings == siblings and kept.group.feature == group.feature:
        return replace(kept, group=group, lines={})
    work = groundwork(siblings)
    ways = resizing(group.feature.family, bool(group.feature.rework))
    sizes = _lattice(group, work, ways)
    return Solved(group=group, siblings=siblings, work=work, sizes=sizes, resizing=ways, alone=reconstruct(work, sizes, ways))


def _lattice(group: Group, work: Groundwork, ways: Resizing) -> Lattice:
    """Sizes that could lie behind the readings, as far as the largest usual re-sizing reaches."""
    sign = work.siblings.sign
    low, high = sorted((sign * work.grid[0], sign * work.grid[-1]))
    beyond = [sign * float(amount) / THOU for amount in ways.amounts]
    before, after = max(beyond, default=0.0), max((-amount for amount in beyond), default=0.0)
    return lattice(
        lattice_family(group.feature), int(low / THOU - max(before, 0.0)) - 2, int(high / THOU + max(after, 0.0)) + 2
    )


def partners_of(groups: Sequence[Group], pairs: Sequence[Pair]) -> dict[Keys, tuple[Partner, ...]]:
    """Partners of every group, each once."""
    home = {key: group.keys for group in groups for key in group.keys}
    found: dict[Keys, dict[tuple[str, Keys], Partner]] = {group.keys: {} for group in groups}
    for pair in pairs:
        hole, shaft = home.get(pair.hole), home.get(pair.shaft)
        if hole is not None and shaft is not None and hole != shaft:
            found[hole].setdefault(("shaft", shaft), Partner("shaft", shaft, pair.habit))
            found[shaft].setdefault(("hole", hole), Partner("hole", hole, pair.habit))
    sorts: dict[tuple[str, str], list[Group]] = {}
    for group in groups:
        sorts.setdefault((group.sort[0], group.sort[2]), []).append(group)
    for alike in sorts.values():
        for group in alike:
            for other in alike:
                if other is not group and _like(group, other):
                    found[group.keys].setdefault(("like", other.keys), Partner("like", other.keys))
    _add_house(groups, found)
    return {keys: tuple(partners.values()) for keys, partners in found.items()}


def _add_house(groups: Sequence[Group], found: dict[Keys, dict[tuple[str, Keys], Partner]]) -> None:
    """Groups of one family of shafts, of different parts or features."""
    families: dict[str, list[Group]] = {}
    for group in groups:
        if group.feature.family in HOUSE_FAMILIES:
            families.setdefault(group.feature.family, []).append(group)
    for family in families.values():
        if len(family) > MOST_OF_A_HOUSE:
            continue
        for group in family:
            for other in family:
                if (group.sort[0], group.sort[2]) != (other.sort[0], other.sort[2]):
                    found[group.keys].setdefault(("house", other.keys), Partner("house", other.keys))


def _like(group: Group, other: Group) -> bool:
    """Of one part and feature, under another name (intake and exhaust) or standing apart in size."""
    return group.feature.family not in ("gear", "thread", "length") and abs(group.middle - other.middle) < SAME_ORDER


def _together(
    state: Solved,
    partners: Sequence[Partner],
    alone: Mapping[Keys, Solved],
    outline: Outline,
    kept: Solved | None,
) -> Solved:
    """The group's sum once more, with what its mates, its like and the plate say."""
    mates = tuple(
        (f"{partner.keys[0].part} {partner.keys[0].feature}", alone[partner.keys].alone)
        for partner in partners
        if partner.kind in ("shaft", "hole")
    )
    outside = _outside(state, partners, alone, outline)
    if outside is None:
        return replace(state, outside=None, answer=state.alone, mates=mates)
    if kept is not None and kept.work is state.work and kept.outside is not None and _same(kept.outside, outside):
        return replace(kept, group=state.group, mates=mates)
    answer = reconstruct(state.work, state.sizes, state.resizing, outside=outside)
    return replace(state, outside=outside, answer=answer, mates=mates)


def _same(one: Outside, other: Outside) -> bool:
    pairs = ((one.on_nominal, other.on_nominal), (one.at, other.at), (one.on_set, other.on_set))
    return all((a is None and b is None) or (a is not None and b is not None and np.array_equal(a, b)) for a, b in pairs)


def _outside(state: Solved, partners: Sequence[Partner], alone: Mapping[Keys, Solved], outline: Outline) -> Outside | None:
    on_nominal: list[Array] = []
    on_set: list[Array] = []
    at = _set_sizes(state)
    for partner in partners:
        other = alone[partner.keys].alone
        if partner.kind == "like":
            on_nominal.append(for_like(state.sizes, other))
        elif partner.habit is not None:
            on_set.append((for_hole if partner.kind == "shaft" else for_shaft)(at, other, partner.habit))
    house = [alone[partner.keys].alone for partner in partners if partner.kind == "house"]
    if house:
        on_nominal.append(for_house(state.sizes, house))
    plate = plate_size(state.group.feature, outline)
    if plate is not None:
        on_nominal.append(for_plate(state.sizes, plate))
    if not on_nominal and not on_set:
        return None
    return Outside(on_nominal=_product(on_nominal), at=at if on_set else None, on_set=_product(on_set))


def _set_sizes(state: Solved) -> Array:
    """Evenly spaced sizes over the group's grid, a quarter of a thousandth apart, true sign and rising."""
    ends = sorted(state.siblings.sign * state.work.grid[[0, -1]])
    return np.linspace(ends[0], ends[1], int((ends[1] - ends[0]) / (0.25 * THOU)) + 2)


def _product(factors: Sequence[Array]) -> Array | None:
    if not factors:
        return None
    product: Array = np.prod(np.stack(factors), axis=0)
    product /= product.max()
    return product


def _told(state: Solved, outline: Outline, kept: Solved | None, same_outline: bool) -> Solved:
    """The group's lines, in words; taken over where nothing that they speak of has changed."""
    answer = state.answer
    assert answer is not None
    if kept is not None and same_outline and kept.lines and kept.group is state.group and kept.answer is answer:
        mates = [mate for _, mate in state.mates]
        if len(kept.mates) == len(mates) and all(old is new for (_, old), new in zip(kept.mates, mates, strict=True)):
            return replace(state, lines=kept.lines)
    return replace(state, lines=told(state.group, answer, outline=outline, mates=state.mates))
