"""Everything that the remedies need of all cylinders at once, worked out once per reckoning."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.origin import Origin
from gudgeon.systems.cylinders.cleanup import WALL_LEFT, CleanUp, Wall, clean_up_of, common_nominal, wall_of, wall_rules
from gudgeon.systems.cylinders.clearances import (
    CLEARANCE_WORST,
    GAP_HOT,
    GAP_TOP,
    NO_TOUCH,
    clearance_rules,
    gap_rules,
    material_of,
)
from gudgeon.systems.cylinders.description import INCH
from gudgeon.systems.cylinders.spots import Bore, Draws, bores, number
from gudgeon.systems.cylinders.wear import ROUND, TAPER, WEAR, rules_for, size_for_rules, words_read
from gudgeon.systems.judging import Limit, Practice, Target, known_rules, slow_engine

QUANTITIES = (WEAR, TAPER, ROUND, CLEARANCE_WORST, GAP_TOP, GAP_HOT, WALL_LEFT)
"""What is compared before and after a remedy."""


@dataclass(frozen=True, kw_only=True)
class Block:
    """All cylinders that were read or noted. ``worked_out`` keeps what was computed of them, by name."""

    bench: Bench
    bores: tuple[Bore, ...]
    worked_out: dict[str, object] = field(default_factory=dict)

    @classmethod
    def of(cls, bench: Bench) -> Block:
        """The block as it stands on the bench; the one asked for last is kept, since findings, remedies, orders and pictures
        all start from it. Benches of one snapshot with the same draws show the same block."""
        kept = _LAST.get("block")
        if kept is None or kept.bench.snapshot is not bench.snapshot or kept.bench.named != bench.named:
            kept = _LAST["block"] = cls(bench=bench, bores=bores(bench))
        return kept

    @property
    def items(self) -> tuple[str, ...]:
        """Names of the cylinders."""
        return tuple(bore.item for bore in self.bores)

    @cached_property
    def nominal(self) -> float | None:
        """The nominal bore that most cylinders share [m]."""
        return common_nominal(self.bores, self.bench)

    @cached_property
    def clean_ups(self) -> dict[str, CleanUp | None]:
        """Clean-up of each cylinder."""
        return {bore.item: clean_up_of(bore, self.bench) for bore in self.bores}

    @cached_property
    def walls(self) -> dict[str, Wall | None]:
        """The walls that were read."""
        return {bore.item: wall_of(bore, self.bench) for bore in self.bores}

    @cached_property
    def least_wall(self) -> Limit:
        """The least wall that may be left, in the largest of the bores."""
        return max((wall_rules(bore, self.bench).limits[0] for bore in self.bores), key=lambda limit: limit.size)

    @cached_property
    def measured(self) -> bool:
        """Is the wear of every cylinder known?"""
        return bool(self.bores) and all(self.clean_ups.values())

    @cached_property
    def rings_each(self) -> int:
        """Rings to a piston: the outline's, else three, which is what engines before 1915 had (handbook, ring count)."""
        return self.bench.snapshot.outline.rings_per_piston or 3

    @cached_property
    def slow(self) -> bool:
        """Is it a slow engine?"""
        return slow_engine(self.bench.snapshot.outline.rated_speed)

    @cached_property
    def practices(self) -> dict[str, dict[str, Practice]]:
        """Per quantity and cylinder: what the authorities say."""
        found: dict[str, dict[str, Practice]] = {quantity: {} for quantity in QUANTITIES}
        for bore in self.bores:
            found[WEAR][bore.item] = rules_for("bore wear", bore=bore, bench=self.bench)
            found[TAPER][bore.item] = rules_for("bore taper", bore=bore, bench=self.bench)
            found[ROUND][bore.item] = rules_for("bore out-of-round", bore=bore, bench=self.bench)
            found[CLEARANCE_WORST][bore.item] = clearance_rules(bore, self.bench)
            found[GAP_TOP][bore.item] = gap_rules(bore, self.bench, "top ring")
            found[GAP_HOT][bore.item] = Practice(limits=(NO_TOUCH,))
            found[WALL_LEFT][bore.item] = Practice(limits=(self.least_wall,))
        return found

    def clearance_target(self, item: str) -> Target:
        """The skirt clearance to turn a new piston to [m].

        The lower end is the period's figure per inch for the skirt; the upper end is the loose figure of slow engines, or a
        quarter more for others; common practice.
        """
        bore = next(bore for bore in self.bores if bore.item == item)
        size = size_for_rules(bore, self.bench)
        iron = material_of(self.bench, item)[0] == "grey cast iron"
        rows = known_rules(f"piston skirt clearance, {'cast iron' if iron else 'aluminium'}")
        slopes = [row for row in rows if row.low_per_size and not row.from_memory]
        tight = min(slopes, key=lambda row: row.low_per_size)
        low = tight.low_per_size * size
        loose = max(slopes, key=lambda row: row.low_per_size)
        high = loose.low_per_size * size if self.slow and loose is not tight else 1.25 * low
        source = tight.source if loose is tight or not self.slow else f"{tight.source}, to {loose.source}"
        return Target(low=low, high=high, origin=Origin("E", source, tight.page), authority=tight.authority)

    def gap_target(self, item: str) -> Target:
        """The end gap to order a new ring to [m]: the first authority that gives both ends for this bore."""
        practised = self.practices[GAP_TOP][item]
        for target in practised.targets:
            if target.low is not None and target.high is not None and target.high > target.low:
                return target
        size = self.nominal or 0.1
        return Target(low=0.0035 * size, high=0.0045 * size, origin=Origin("E", "common practice", ""))

    def cracked(self, item: str) -> bool:
        """Was a crack noted in a cylinder's piston?"""
        text = words_read(self.bench, self.piston(item), "crack", part="piston")[0].lower()
        return bool(text) and not text.startswith(("no", "none", "sound", "not "))

    def worst_first(self) -> tuple[str, ...]:
        """The cylinders by their clean-up size, the largest first."""
        known = {item: float(np.median(each.kept)) for item, each in self.clean_ups.items() if each is not None}
        return tuple(sorted(known, key=lambda item: -known[item]))

    def piston(self, item: str) -> str:
        """The piston that belongs to a cylinder."""
        return f"piston {number(item)}"


_LAST: dict[str, Block] = {}


def round_up(size: float, step: float = 0.001 * INCH) -> float:
    """The next whole thou at or above a size [m]."""
    return float(np.ceil(size / step - 1e-6) * step)


def full(bench: Bench, value: float) -> Draws:
    """The same value in every draw."""
    return np.full(bench.count, value)
