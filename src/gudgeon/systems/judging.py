"""From draws and rules of practice to findings: one per authority, with interval, target, limit and chance of being past it.

Shared by all systems; it knows none of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from weakref import ref

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.finding import Finding, Standing, standing_of
from gudgeon.engine.origin import Origin
from gudgeon.engine.system import Rule
from gudgeon.handbook.rules import RuleRow, rules
from gudgeon.handbook.shelf import UnknownName
from gudgeon.quantity import Amount, Said
from gudgeon.quantity.draws import quantiles

Draws = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One authority's limit for one size: ``size`` [SI] is the most allowed, or the least where ``most`` is False.

    ``decides`` is False for a limit that may be shown but must not decide: one from memory, or one that its authority gives
    for other sizes.
    """

    size: float
    most: bool
    origin: Origin
    decides: bool = True

    def kept(self, draws: Draws) -> NDArray[np.bool_]:
        """Is the limit kept, draw by draw?"""
        return draws <= self.size if self.most else draws >= self.size


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """One authority's band to aim at [SI]; an end that it does not rule is None. ``authority`` is its short name."""

    low: float | None
    high: float | None
    origin: Origin
    authority: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Practice:
    """What authorities say of one quantity at one size: targets, the one to go by first, and limits."""

    targets: tuple[Target, ...] = ()
    limits: tuple[Limit, ...] = ()

    @property
    def deciding(self) -> tuple[Limit, ...]:
        """The limits that may decide."""
        return tuple(limit for limit in self.limits if limit.decides)

    @property
    def target(self) -> Target | None:
        """The target to go by."""
        return self.targets[0] if self.targets else None


@lru_cache(maxsize=512)
def practice(*subjects: str, size: float, words: tuple[str, ...] = (), slow: bool = False) -> Practice:
    """What the handbook's authorities say of one or more subjects at a size [m], none averaged away.

    Parameters
    ----------
    words : where one authority gives several rows, those whose field of use has one of these words are kept ("top ring").
    slow : the engine is a slow one, so that rows marked as the tight end are shown but do not decide.

    Limits that their authority gives for other sizes, or that are from memory, are shown but do not decide. Limits of one
    authority that differ are kept apart, each with the words of its row.
    """
    rows = _worded([row for subject in subjects for row in known_rules(subject)], words)
    targets = tuple(
        Target(low=row.at(size)[0], high=row.at(size)[1], origin=origin_of(row), authority=row.authority)
        for row in rows
        if row.purpose == "target" and row.covers(size)
    )
    return Practice(targets=targets, limits=_limits(rows, size, slow))


def _worded(rows: Sequence[RuleRow], words: Sequence[str]) -> list[RuleRow]:
    """Of one authority's rows of one purpose only those that have one of the words, where any has."""
    if not words:
        return list(rows)
    groups: dict[tuple[str, str], list[RuleRow]] = {}
    for row in rows:
        groups.setdefault((row.source, row.purpose), []).append(row)
    kept = {key: [row for row in group if _has_word(row, words)] or group for key, group in groups.items()}
    return [row for row in rows if row in kept[row.source, row.purpose]]


def _has_word(row: RuleRow, words: Sequence[str]) -> bool:
    text = f"{row.applies} {row.note}".lower()
    return any(word in text for word in words)


def slow_engine(rated_speed: float | None) -> bool:
    """Is this a slow engine, 600 rev/min or less? Not taken to be one where the speed is unknown.

    Limits of faster engines with pressure oil are the tight end for engines of 150 to 600 rev/min; common practice.
    """
    return rated_speed is not None and rated_speed <= 600.0


def as_rules(*subjects: str) -> tuple[Rule, ...]:
    """The handbook's rows of some subjects as rules of a fit."""
    return tuple(
        Rule(
            purpose=row.purpose,
            low=row.low,
            high=row.high,
            low_per_size=row.low_per_size,
            high_per_size=row.high_per_size,
            origin=origin_of(row),
            when=row.applies,
        )
        for subject in subjects
        for row in known_rules(subject)
    )


def known_rules(subject: str) -> tuple[RuleRow, ...]:
    """The rows of a subject, none where the handbook has no such subject."""
    try:
        return rules(subject)
    except UnknownName:
        return ()


def origin_of(row: RuleRow) -> Origin:
    """The origin of a rule: its full citation, with what it was written for where it says so."""
    page = "; ".join(text for text in (row.page, row.applies) if text)
    return Origin(row.grade, row.source, page)


def _limits(rows: Sequence[RuleRow], size: float, slow: bool) -> tuple[Limit, ...]:
    found: dict[tuple[str, bool], list[tuple[RuleRow, Limit]]] = {}
    for row in rows:
        if row.purpose != "limit":
            continue
        low, high = row.at(size)
        end, most = (high, True) if high is not None else (low, False)
        if end is None:
            continue
        decides = row.covers(size) and not row.from_memory and not (slow and "tight end" in row.applies)
        limit = Limit(size=end, most=most, origin=origin_of(row), decides=decides)
        group = found.setdefault((row.source, most), [])
        if all(other.size != limit.size for _, other in group):
            group.append((row, limit))
    return tuple(limit for group in found.values() for limit in _told_apart(group))


def _told_apart(group: Sequence[tuple[RuleRow, Limit]]) -> list[Limit]:
    """The limits of one authority that cover the size, where any does; with the row's own words where they differ."""
    covering = [(row, limit) for row, limit in group if limit.decides] or list(group)
    if len(covering) == 1:
        return [covering[0][1]]
    return [
        replace(limit, origin=replace(limit.origin, source=f"{limit.origin.source}, {row.typed}")) for row, limit in covering
    ]


_SPREADS: dict[int, tuple[ref[Draws], tuple[float, float, float]]] = {}


def spread(draws: Draws) -> tuple[float, float, float]:
    """Median, 5 % and 95 % of draws; of the same array it is worked out once."""
    kept = _SPREADS.get(id(draws))
    if kept is not None and kept[0]() is draws:
        return kept[1]
    value, low, high = quantiles(draws)
    identity = id(draws)
    _SPREADS[identity] = ref(draws, lambda _: _SPREADS.pop(identity, None)), (value, low, high)
    return value, low, high


def middle(draws: Draws) -> float:
    """Median of draws; of the same array it is worked out once."""
    return spread(draws)[0]


def judged(plain: Finding, draws: Draws, practised: Practice = Practice()) -> tuple[Finding, ...]:
    """A measured finding, once per authority whose limit it is held against; once without a limit where there is none.

    ``plain`` carries the names, the sentence and the inputs; value (median), 90 % interval, target, limit, chance and standing
    are filled in here. Where there are limits of both kinds, those for the least are told apart by ", least" in the quantity.
    """
    value, low, high = spread(draws)
    found = replace(plain, value=value, low=low, high=high)
    if target := practised.target:
        found = replace(found, target_low=target.low, target_high=target.high, target_origin=target.origin)
    if not practised.limits:
        return (found,)
    both = len({limit.most for limit in practised.limits}) > 1
    found_least = replace(found, quantity=f"{found.quantity}, least") if both else found
    return tuple(_against(found if limit.most else found_least, draws, limit) for limit in practised.limits)


def _against(found: Finding, draws: Draws, limit: Limit) -> Finding:
    chance = 1.0 - np.count_nonzero(limit.kept(draws)) / draws.size
    standing: Standing = standing_of(chance) if limit.decides else "for information"
    return replace(
        found,
        limit=limit.size,
        limit_is="most" if limit.most else "least",
        limit_origin=limit.origin,
        chance_past_limit=chance,
        standing=standing,
    )


def not_measured(plain: Finding, *, settle: str, practised: Practice = Practice()) -> Finding:
    """The finding that a thing was not measured: no value, and the reading that would settle it."""
    target = practised.target
    return replace(
        plain,
        standing="not measured",
        settle=settle,
        sentence=plain.sentence or Said(f"{plain.item}, {plain.quantity}: not measured."),
        target_low=target.low if target else None,
        target_high=target.high if target else None,
        target_origin=target.origin if target else None,
    )


def share_kept(draws: Draws, limits: Sequence[Limit]) -> Draws:
    """Share of the deciding authorities whose limit is kept, draw by draw; 1 where none decides."""
    deciding = [limit for limit in limits if limit.decides]
    if not deciding:
        return np.ones_like(draws)
    kept = np.stack([limit.kept(draws) for limit in deciding]).astype(np.float64)
    return np.asarray(kept.mean(axis=0))


def authorities_differ(practised: Practice, dimension: str = "length") -> Said:
    """A sentence that sets differing targets side by side; empty where fewer than two authorities speak."""
    if len(practised.targets) < 2:
        return Said("")
    pieces: list[str] = []
    amounts: list[Amount] = []
    for target in practised.targets:
        ends = list(dict.fromkeys(end for end in (target.low, target.high) if end is not None))
        marks = [f"{{{len(amounts) + place}}}" for place in range(len(ends))]
        word = "at least " if target.high is None else "at most " if target.low is None else ""
        pieces.append(f"{target.authority} {word}{' to '.join(marks)}")
        amounts += [Amount(end, dimension) for end in ends]
    return Said(f"Authorities differ: {'; '.join(pieces)}.", tuple(amounts))


def joined(*sentences: Said) -> Said:
    """Several sentences as one, their amounts counted through."""
    text: list[str] = []
    amounts: list[Amount] = []
    for said in sentences:
        if not said:
            continue
        line = said.text
        for place in reversed(range(len(said.amounts))):
            line = line.replace(f"{{{place}}}", f"{{{place + len(amounts)}}}")
        text.append(line)
        amounts += said.amounts
    return Said(" ".join(text), tuple(amounts))
