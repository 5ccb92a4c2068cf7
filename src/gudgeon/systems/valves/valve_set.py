"""The valves on the bench: each with its kind, its spring and what was read of it, looked up once per reckoning."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.system import Feature
from gudgeon.systems.judging import Practice, practice, slow_engine
from gudgeon.systems.measured import Draws, Measured, Reader
from gudgeon.systems.valves import description as d


def kind_of(item: str) -> str:
    """ "intake", "exhaust", or "" where the name does not say."""
    words = item.lower()
    return "intake" if re.search(r"intake|inlet|\bin\b", words) else "exhaust" if re.search(r"exh", words) else ""


@dataclass(frozen=True, kw_only=True)
class ValveSet:
    """All valves and springs that were read or noted. ``worked_out`` keeps what was computed of them, by name."""

    bench: Bench
    reader: Reader
    worked_out: dict[str, object] = field(default_factory=dict)

    @classmethod
    def of(cls, bench: Bench) -> ValveSet:
        """The valves as they stand on the bench; those asked for last are kept."""
        kept = _LAST.get("set")
        if kept is None or kept.bench.snapshot is not bench.snapshot or kept.bench.named != bench.named:
            kept = _LAST["set"] = cls(bench=bench, reader=Reader(bench=bench))
        return kept

    @cached_property
    def items(self) -> tuple[str, ...]:
        """Names of the valves."""
        return self.bench.items(d.VALVE)

    @cached_property
    def springs(self) -> tuple[str, ...]:
        """Names of the springs."""
        return self.bench.items(d.SPRING)

    @cached_property
    def slow(self) -> bool:
        """Is it a slow engine?"""
        return slow_engine(self.bench.snapshot.outline.rated_speed)

    @cached_property
    def automatic(self) -> tuple[str, ...]:
        """The valves that suction alone opens."""
        return tuple(item for item in self.items if self.is_automatic(item))

    def is_automatic(self, item: str) -> bool:
        """Is a valve, or a spring's valve, one that suction opens?"""
        return self.bench.snapshot.outline.inlet == "automatic" and kind_of(item) == "intake"

    def spring_of(self, valve: str) -> str | None:
        """The spring that belongs to a valve by its name ("exhaust 2 spring"); None where no name says so."""
        plain = _plain(valve)
        return next((spring for spring in self.springs if re.search(rf"\b{re.escape(plain)}\b", _plain(spring))), None)

    def valve_of(self, spring: str) -> str | None:
        """The valve that a spring belongs to by its name."""
        return next((valve for valve in self.items if re.search(rf"\b{re.escape(_plain(valve))}\b", _plain(spring))), None)

    def size(self, feature: Feature, item: str) -> Measured | None:
        """A feature of a valve or spring as one size."""
        return self.reader.size(feature, item)

    def stem_size(self, item: str) -> float:
        """The stem that rules of practice are taken at: the nominal, else as read, else 3/8 in [m]."""
        nominal = self.reader.nominal(d.STEM, item)
        read = self.reader.largest(d.STEM, item)
        return nominal if nominal is not None else read.value if read is not None else 0.375 * d.INCH

    def angle(self, item: str) -> tuple[Draws, tuple[str, ...], bool]:
        """The angle of the face from flat [rad], its readings, and whether it was read; 45 degree where it was not."""
        for feature in (d.FACE_ANGLE, d.SEAT_ANGLE):
            read = self.size(feature, item)
            if read is not None:
                return read.draws, read.inputs, True
        return self.reader.full(np.pi / 4), (), False

    def rules(self, *subjects: str, item: str, size: float | None = None) -> Practice:
        """What authorities say of a quantity of a valve, those for its kind where they tell kinds apart."""
        kind = kind_of(item)
        words = ("intake", "inlet") if kind == "intake" else ("exhaust",) if kind else ()
        return practice(*subjects, size=self.stem_size(item) if size is None else size, words=words, slow=self.slow)


_LAST: dict[str, ValveSet] = {}


def _plain(item: str) -> str:
    return item.lower().replace("inlet", "intake")


def blank(item: str, quantity: str, *, part: str = d.VALVE, dimension: str = "length") -> Finding:
    """A finding of this system with its names only."""
    return Finding(system=d.KEY, part=part, item=item, quantity=quantity, dimension=dimension)
