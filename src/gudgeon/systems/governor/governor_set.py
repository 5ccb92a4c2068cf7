"""The governor on the bench: what was read of it, looked up once per reckoning, and what is taken where nothing was read."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.origin import Origin
from gudgeon.engine.system import Feature
from gudgeon.handbook.rules import RuleRow, rules
from gudgeon.systems.governor import description as d
from gudgeon.systems.judging import Limit, Practice, Target, origin_of, slow_engine
from gudgeon.systems.measured import Draws, Measured, Reader

RPM = math.pi / 30
STOPS = Limit(
    size=0.0, most=False, origin=Origin("E", "geometry: a governor that stands slower at the top of its travel cannot govern")
)


@dataclass(frozen=True, kw_only=True)
class GovernorSet:
    """All parts of the governor that were read or noted. ``worked_out`` keeps what was computed of them, by name."""

    bench: Bench
    reader: Reader
    worked_out: dict[str, object] = field(default_factory=dict)

    @classmethod
    def of(cls, bench: Bench) -> GovernorSet:
        """The governor as it stands on the bench; the one asked for last is kept."""
        kept = _LAST.get("set")
        if kept is None or kept.bench.snapshot is not bench.snapshot or kept.bench.named != bench.named:
            kept = _LAST["set"] = cls(bench=bench, reader=Reader(bench=bench))
        elif kept.bench is not bench:  # the same draws with other systems' findings beside them
            kept = _LAST["set"] = cls(bench=bench, reader=kept.reader)
        return kept

    @cached_property
    def present(self) -> bool:
        """Was anything of a governor read or noted?"""
        return any(self.bench.items(kind) for kind in d.KINDS)

    @cached_property
    def weights(self) -> tuple[str, ...]:
        """Names of the weights."""
        return self.bench.items(d.WEIGHT)

    def only(self, part: str) -> str:
        """The one instance of a kind, by the name that it was read under."""
        names = self.bench.items(part)
        default = {d.GOVERNOR: "governor", d.SLEEVE: "sleeve", d.SPRING: "governor spring", d.DETENT: "detent"}
        return names[0] if names else default[part]

    def one(self, feature: Feature) -> Measured | None:
        """A feature of the governor, its sleeve, its spring or its detent as one size."""
        return self.reader.size(feature, self.only(feature.part))

    def said(self, feature: Feature) -> tuple[str, tuple[str, ...]]:
        """What was noted of it in words, in small letters, and the readings."""
        words, inputs = self.reader.words(feature, self.only(feature.part))
        return words.lower(), inputs

    def of_weights(self, feature: Feature) -> tuple[Measured, ...]:
        """A feature of every weight that it was read of."""
        found = (self.reader.size(feature, item) for item in self.weights)
        return tuple(each for each in found if each is not None)

    @cached_property
    def count(self) -> int:
        """How many weights there are; two where only one or none was read."""
        return max(len(self.weights), 2)

    @cached_property
    def hung(self) -> bool:
        """Is it one with weights hung in arms (Watt, Porter)?"""
        words = self.said(d.FORM)[0]
        return any(word in words for word in ("hung", "porter", "watt", "pendul"))

    @cached_property
    def upright(self) -> bool:
        """Does its shaft stand upright? A hung one must; any other lies level unless it is said."""
        words = self.said(d.FORM)[0]
        return "upright" in words or "vertical" in words or (self.hung and "level" not in words)

    @cached_property
    def gearing(self) -> tuple[Draws, tuple[str, ...], str] | None:
        """Turns of the governor for one of the crank, the readings, and what it rests on; None where nothing tells."""
        read = self.one(d.GEARING)
        if read is not None:
            return read.draws, read.inputs, "as counted"
        outline = self.bench.snapshot.outline
        if "camshaft" in outline.governor.lower() and outline.strokes == 4:
            return self.reader.full(0.5), (), "on the camshaft, so half as fast as the crank"
        if "crankshaft" in outline.governor.lower() or "flywheel" in outline.governor.lower():
            return self.reader.full(1.0), (), "on the crankshaft, so as fast as the crank"
        return None

    @cached_property
    def rated(self) -> float | None:
        """Rated speed of the crank [rad/s]."""
        speed = self.bench.snapshot.outline.rated_speed
        return None if speed is None else speed * RPM

    @cached_property
    def slow(self) -> bool:
        """Is it a slow engine?"""
        return slow_engine(self.bench.snapshot.outline.rated_speed)

    @cached_property
    def spread_rules(self) -> Practice:
        """What authorities allow between no load and full load, those for its way of governing first.

        The widest that applies is taken as the most. Where it is not known how it governs, all targets are shown and the
        widest of all decides.
        """
        rows = rules("governor speed spread", purpose="target")
        way = self.bench.snapshot.outline.governing
        first = [row for row in rows if way and way in row.applies and "inertia" not in row.applies]
        rest = [row for row in rows if row not in first]
        decides = max(first or rows, key=lambda row: row.high or 0.0)
        limit = Limit(size=decides.high or 0.05, most=True, origin=origin_of(decides))
        return Practice(targets=tuple(_target(row) for row in (*first, *rest)), limits=(limit,))

    @cached_property
    def rated_rules(self) -> Practice:
        """The plate's speed as target, and as far from it as the spread that is allowed; none where it is not known."""
        if self.rated is None:
            return Practice()
        most = self.spread_rules.limits[0]
        origin = Origin("A", "rated speed of the outline", "its plate")
        room = Origin("E", most.origin.source, "as far from the rated speed as it may spread")
        return Practice(
            targets=(Target(low=0.99 * self.rated, high=1.01 * self.rated, origin=origin, authority="plate"),),
            limits=(
                Limit(size=self.rated * (1 + most.size), most=True, origin=room),
                Limit(size=self.rated * (1 - most.size), most=False, origin=room),
            ),
        )

    @cached_property
    def linkage_slack(self) -> tuple[Draws, tuple[str, ...]] | None:
        """Lost motion of the throttle linkage at the sleeve [m], from the other system's finding; None where not read."""
        return self._wanted("linkage slack at the governor")

    @cached_property
    def linkage_drag(self) -> tuple[Draws, tuple[str, ...]] | None:
        """Drag of throttle and linkage at the sleeve [N], from the other system's finding."""
        return self._wanted("throttle drag at the governor")

    def _wanted(self, quantity: str) -> tuple[Draws, tuple[str, ...]] | None:
        found = next((each for each in self.bench.findings.get("intake", ()) if each.quantity == quantity), None)
        return None if found is None else self._drawn(found)

    @cached_property
    def run_up(self) -> tuple[Draws, tuple[str, ...]] | None:
        """Run-up time of the flywheel [s], from the other system's finding."""
        found = next((each for each in self.bench.findings.get("flywheel", ()) if each.quantity == "run-up time"), None)
        return None if found is None else self._drawn(found)

    def _drawn(self, finding: Finding) -> tuple[Draws, tuple[str, ...]] | None:
        """Draws with a finding's median and interval, never below nought."""
        if finding.value is None or finding.low is None or finding.high is None:
            return None
        normal = self.bench.named(f"{finding.item}, {finding.quantity}")
        below, above = ((finding.value - finding.low) / 1.645, (finding.high - finding.value) / 1.645)
        draws = finding.value + normal * np.where(normal < 0, below, above)
        return np.maximum(draws, 0.0), finding.inputs


_LAST: dict[str, GovernorSet] = {}


def _target(row: RuleRow) -> Target:
    low, high = row.at()
    return Target(low=low, high=high, origin=origin_of(row), authority=row.authority)


def blank(item: str, quantity: str, *, part: str = d.GOVERNOR, dimension: str = "length") -> Finding:
    """A finding of this system with its names only."""
    return Finding(system=d.KEY, part=part, item=item, quantity=quantity, dimension=dimension)
