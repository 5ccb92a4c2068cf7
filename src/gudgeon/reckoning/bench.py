"""The bench that systems see, and the draws behind it.

A gauge's offset is drawn once and shared by every spot that the gauge read and by every size when new that was worked out from
such spots, so that it cancels where it should: in wear, in taper, in clearances read with one gauge.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from gudgeon.engine.bench import Bench
from gudgeon.engine.estimate import Estimate
from gudgeon.engine.finding import Finding
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.snapshot import Snapshot
from gudgeon.metrology import Weighed
from gudgeon.quantity.draws import generator, standard_normal
from gudgeon.reckoning.evidence import chief_gauge
from gudgeon.reckoning.reconstruct import Manual

Draws = NDArray[np.float64]


class Drawn:
    """Draws by what they stand for, made when first asked for. They are read-only, and the same for the same estimate in
    every run (``gudgeon.quantity.draws``)."""

    def __init__(self, *, count: int, manual: Manual, before: Drawn | None = None) -> None:
        self.count = count
        self._manual = manual
        keep = before is not None and before.count == count
        self._named: dict[str, Draws] = dict(before._named) if keep and before else {}
        self._spots: dict[Estimate, Draws] = dict(before._spots) if keep and before else {}
        self._originals: dict[FeatureKey, tuple[object, Draws]] = dict(before._originals) if keep and before else {}

    def named(self, name: str) -> Draws:
        """Draws of a standard normal variable under a name."""
        if name not in self._named:
            self._named[name] = _frozen(standard_normal("named", name, count=self.count))
        return self._named[name]

    def offset(self, gauge: str) -> Draws:
        """Draws of a gauge's offset, in standard deviations."""
        return self.named(f"offset of {gauge}")

    def spot(self, estimate: Estimate) -> Draws:
        """Draws of the size at one spot [SI]: own part about the estimate, less what the gauge's offset is off."""
        if estimate not in self._spots:
            place = estimate.place
            own = generator("spot", place.part, place.item, place.feature, place.station, place.depth, place.direction)
            if np.isinf(estimate.freedom) or estimate.freedom > 200:
                draws = estimate.value + estimate.own * own.standard_normal(self.count)
            else:
                draws = estimate.value + estimate.own * own.standard_t(max(estimate.freedom, 3.0), self.count)
            if estimate.shared:
                draws -= estimate.shared * self.offset(estimate.gauge)
            self._spots[estimate] = _frozen(draws)
        return self._spots[estimate]

    def original(self, key: FeatureKey) -> Draws | None:
        """Draws of what an instance measured when new or last re-sized [SI]; None where nothing can be said."""
        home = self._manual.home.get(key)
        if home is None:
            return self._bounded(key)
        state, number = self._manual.solved[home[0]], home[1]
        answer = state.answer
        if answer is None:
            return None
        kept = self._originals.get(key)
        if kept is not None and kept[0] is answer:
            return kept[1]
        draws = _drawn_from(
            answer.grid, answer.raised[number], generator("original", key.part, key.item, key.feature), self.count
        )
        gauge, shared = chief_gauge(tuple(each for spots in state.group.estimates for each in spots))
        if shared:
            draws -= shared * self.offset(gauge)
        self._originals[key] = (answer, _frozen(draws))
        return self._originals[key][1]

    def _bounded(self, key: FeatureKey) -> Draws | None:
        """Of a gap: a lognormal curve with the specification's interval."""
        known = self._manual.specifications.get(key)
        if known is None or known.low is None or known.high is None or known.dimension != "length" or known.high <= 0:
            return None
        kept = self._originals.get(key)
        if kept is not None and kept[0] == known:
            return kept[1]
        low, high = max(known.low, 0.02 * known.high), known.high
        middle, sigma = np.sqrt(low * high), np.log(high / low) / (2 * 1.6448536269514722)
        normal = generator("original", key.part, key.item, key.feature).standard_normal(self.count)
        draws = _frozen(middle * np.exp(sigma * normal))
        self._originals[key] = (known, draws)
        return draws


def _frozen(draws: Draws) -> Draws:
    draws.flags.writeable = False
    return draws


TABLE = 4096


def _drawn_from(grid: Draws, density: Draws, chance: np.random.Generator, count: int) -> Draws:
    """Draws from a density on a grid, by its inverse distribution at even chances; straight between entries."""
    below = np.cumsum(density)
    table = np.interp((np.arange(TABLE + 1)) / TABLE, below / below[-1], grid)
    place = chance.random(count) * TABLE
    left = place.astype(np.intp)
    part = place - left
    draws: Draws = table[left] * (1 - part) + table[left + 1] * part
    return draws


def bench_of(
    snapshot: Snapshot,
    weighed: Weighed,
    manual: Manual,
    *,
    drawn: Drawn,
    findings: Mapping[str, Sequence[Finding]] | None = None,
) -> Bench:
    """A bench over a weighed snapshot. Everything on it is read-only."""
    return Bench(
        snapshot=snapshot,
        estimates=MappingProxyType(dict(weighed.estimates)),
        specifications=MappingProxyType(dict(manual.specifications)),
        count=drawn.count,
        spot=drawn.spot,
        original=drawn.original,
        named=drawn.named,
        returned=MappingProxyType(dict(weighed.returned)),
        fitted=MappingProxyType(dict(weighed.fitted)),
        findings=MappingProxyType(dict(findings or {})),
    )
