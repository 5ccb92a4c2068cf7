"""Manual lines of screw threads."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.origin import Origin
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.specification import Candidate, Specification
from gudgeon.handbook.threads import Thread
from gudgeon.metrology.thread_identity import UNDER, ThreadCandidate, same_cut
from gudgeon.metrology.thread_readings import ThreadFound, threads_read

INCH = 0.0254
DEGREE = math.pi / 180


def thread_specifications(estimates: Mapping[FeatureKey, Sequence[Estimate]]) -> dict[FeatureKey, Specification]:
    """Lines for every feature of every thread whose diameter was read."""
    found: dict[FeatureKey, Specification] = {}
    for thread in threads_read(estimates).values():
        if thread.outside is not None and (thread.lengths or thread.per_inch or thread.flank):
            found.update(_lines(thread))
    return found


def _lines(cut: ThreadFound) -> dict[FeatureKey, Specification]:
    assert cut.outside is not None
    candidates = cut.candidates
    if not candidates:
        return {}
    said = _Said(candidates, settle=cut.settle(candidates))
    lines = {cut.outside[0]: said.outside(*cut.outside)}
    for key, estimate, count in cut.lengths:
        lines[key] = said.length(key, estimate, count)
    for key, _ in cut.per_inch:
        lines[key] = said.per_inch(key)
    if cut.flank is not None:
        lines[cut.flank[0]] = said.flank(cut.flank[0])
    return lines


def _written(thread: Thread) -> str:
    return thread.written if thread.series in thread.written else f"{thread.written} {thread.series}"


class _Said:
    """A thread's candidates put into lines."""

    def __init__(self, candidates: tuple[ThreadCandidate, ...], *, settle: str) -> None:
        self.candidates, self.settle = candidates, settle
        self.first = candidates[0].thread
        alike = same_cut(candidates)
        self.series = " or ".join(dict.fromkeys(each.thread.series for each in alike if each.probability > 0.03))
        named = self.first.written
        self.written = named if self.series and named.endswith(self.series) else f"{named} {self.series}".strip()
        self.cut_chance = min(math.fsum(each.probability for each in alike), 1.0)

    def outside(self, key: FeatureKey, estimate: Estimate) -> Specification:
        low = max(estimate.low, self.first.major - 4 * UNDER)
        return self._line(key, self.first.major, min(low, self.first.major), max(self.first.major, estimate.low), by="major")

    def length(self, key: FeatureKey, estimate: Estimate, count: int) -> Specification:
        nominal = count * self.first.pitch
        spread = 1.645 * math.hypot(0.002 * nominal, 0.3 * estimate.uncertainty)
        return self._line(key, nominal, nominal - spread, nominal + spread, by="pitch", times=count)

    def per_inch(self, key: FeatureKey) -> Specification:
        nominal = 1 / self.first.pitch
        return self._line(key, nominal, 0.995 * nominal, 1.005 * nominal, by="per inch")

    def flank(self, key: FeatureKey) -> Specification:
        nominal = self.first.flank_angle * DEGREE
        return self._line(key, nominal, nominal - 0.5 * DEGREE, nominal + 0.5 * DEGREE, by="flank")

    def _line(self, key: FeatureKey, nominal: float, low: float, high: float, *, by: str, times: int = 1) -> Specification:
        chance = self.cut_chance
        if by == "flank":
            chance = min(
                math.fsum(each.probability for each in self.candidates if each.thread.flank_angle == self.first.flank_angle),
                1.0,
            )
        runners = []
        for each in self.candidates[1:6]:
            value = {
                "major": each.thread.major,
                "pitch": times * each.thread.pitch,
                "per inch": 1 / each.thread.pitch,
                "flank": each.thread.flank_angle * DEGREE,
            }[by]
            if each.probability > 0.02:
                runners.append(Candidate(value, _written(each.thread), "", each.probability))
        dimension = {"flank": "angle", "per inch": "threads per length"}.get(by, "length")
        return Specification(
            key=key,
            dimension=dimension,
            nominal=nominal,
            low=low,
            high=high,
            probability=chance,
            origin=Origin("C", f"diameter and pitch together; {self.first.source}"),
            written=self.written,
            runners_up=tuple(runners),
            evidence=(
                f"{self.first.written}: {self.first.major / INCH:.4f} in over the crests when new, "
                f"{INCH / self.first.pitch:g} to the inch, in use as {self.series}.",
            ),
            settle=self.settle,
        )
