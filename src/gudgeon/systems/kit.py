"""What a system of a few unlike parts (a pump, an oiler, a magneto) looks at: readings, findings as read, key pictures.

Shared by systems; it knows none of them.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, field, replace

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.picture import Picture, Strip
from gudgeon.engine.system import Feature
from gudgeon.quantity import Amount, Said
from gudgeon.systems.judging import Practice, authorities_differ, joined, judged, middle, not_measured, practice, slow_engine
from gudgeon.systems.measured import Draws, Measured, Reader

Read = tuple[Draws, tuple[str, ...]]
NO_PRACTICE = Practice()


@dataclass(frozen=True, kw_only=True)
class Kit:
    """The parts of one system on the bench. ``worked_out`` keeps what was computed of them, by name."""

    system: str
    bench: Bench
    reader: Reader
    worked_out: dict[str, object] = field(default_factory=dict)

    @classmethod
    def of(cls, bench: Bench, system: str) -> Kit:
        """The parts as they stand on the bench; those that a system asked for last are kept."""
        kept = _LAST.get(system)
        same = kept is not None and kept.bench.snapshot is bench.snapshot and kept.bench.named == bench.named
        if kept is None or not same or any(kept.bench.findings.get(k) is not each for k, each in bench.findings.items()):
            kept = _LAST[system] = cls(system=system, bench=bench, reader=Reader(bench=bench))
        return kept

    def once(self, name: str, work: Callable[[], object]) -> object:
        """Something worked out once for all that ask."""
        if name not in self.worked_out:
            self.worked_out[name] = work()
        return self.worked_out[name]

    def items(self, *parts: str) -> tuple[str, ...]:
        """Instances of some kinds of part that were read or noted."""
        return tuple(item for part in parts for item in self.bench.items(part))

    def size(self, feature: Feature, item: str) -> Measured | None:
        """A feature as one size."""
        return self.reader.size(feature, item)

    def words(self, feature: Feature, item: str) -> str:
        """What was noted in words."""
        return self.reader.words(feature, item)[0]

    def rules(self, *subjects: str, size: float = 0.1) -> Practice:
        """What authorities say of a quantity at a size [m]."""
        return practice(*subjects, size=size, slow=slow_engine(self.bench.snapshot.outline.rated_speed))

    def fitted(self, feature: Feature, item: str) -> float | None:
        """A feature as it was read as fitted [SI]."""
        read = self.reader.size(feature, item, stage="fitted")
        return None if read is None else read.value

    def blank(self, part: str, item: str, quantity: str, dimension: str = "length") -> Finding:
        """A finding with its names only."""
        return Finding(system=self.system, part=part, item=item, quantity=quantity, dimension=dimension)

    def as_read(
        self,
        feature: Feature,
        item: str,
        *,
        text: str,
        settle: str,
        practised: Practice = NO_PRACTICE,
        quantity: str = "",
        more: Callable[[float], Said] | None = None,
    ) -> tuple[Finding, ...]:
        """A feature held against its rules just as it was read; ``{0}`` in ``text`` is its size, ``more`` is added."""
        line = self.blank(feature.part, item, quantity or feature.name, feature.dimension)
        read = self.size(feature, item)
        if read is None:
            return (not_measured(line, settle=settle, practised=practised),)
        said = joined(
            Said(text, (Amount(middle(read.draws), feature.dimension),)),
            more(read.value) if more is not None else Said(""),
            authorities_differ(practised, feature.dimension),
        )
        line = replace(line, sentence=said, inputs=read.inputs, formula="as read", as_fitted=self.fitted(feature, item))
        return judged(line, read.draws, practised)

    def noted(self, feature: Feature, item: str, *, settle: str = "") -> tuple[Finding, ...]:
        """A feature that is said in words; where nothing was noted, not examined, or nothing at all without ``settle``."""
        text, inputs = self.reader.words(feature, item)
        line = self.blank(feature.part, item, feature.name, "words")
        if not text:
            return (not_measured(line, settle=settle),) if settle else ()
        plain = text.replace("{", "(").replace("}", ")")
        return (replace(line, sentence=Said(f"{item}, {feature.name}: {plain}."), inputs=inputs, formula="as noted"),)


_LAST: dict[str, Kit] = {}


def strips(found: Sequence[Finding], quantities: Collection[str]) -> list[tuple[str, Picture]]:
    """A strip for each key quantity: of its authorities the first whose limit decides, else the first."""
    chosen: dict[tuple[str, str], Finding] = {}
    for finding in found:
        if finding.quantity not in quantities or finding.value is None:
            continue
        key = finding.item, finding.quantity
        if key not in chosen or (chosen[key].standing == "for information" and finding.standing != "for information"):
            chosen[key] = finding
    return [(f"{each.item} {each.quantity}", Strip(finding=each)) for each in chosen.values()]
