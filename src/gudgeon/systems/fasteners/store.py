"""Everything of this system on the bench, looked up once per reckoning, and all that it means."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import cast

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.systems.fasteners.balls import BallSet, ball_findings
from gudgeon.systems.fasteners.keys import Keyed, key_findings
from gudgeon.systems.fasteners.screws import Screw, screw_findings, screws
from gudgeon.systems.measured import Reader


@dataclass(frozen=True, kw_only=True)
class Store:
    """Threads, balls and keys that were read or noted. ``worked_out`` keeps what was computed of them, by name."""

    bench: Bench
    reader: Reader
    worked_out: dict[str, object] = field(default_factory=dict)

    @classmethod
    def of(cls, bench: Bench) -> Store:
        """The store as it stands on the bench; the one asked for last is kept."""
        kept = _LAST.get("store")
        if kept is None or kept.bench.snapshot is not bench.snapshot or kept.bench.named != bench.named:
            kept = _LAST["store"] = cls(bench=bench, reader=Reader(bench=bench))
        return kept

    @cached_property
    def screws(self) -> tuple[Screw, ...]:
        """Threads of every kind of part."""
        return screws(self.bench, self.reader)

    @cached_property
    def balls(self) -> tuple[BallSet, ...]:
        """Sets of loose balls."""
        return tuple(BallSet(reader=self.reader, item=item) for item in self.bench.items("ball"))

    @cached_property
    def keys(self) -> tuple[Keyed, ...]:
        """Keys."""
        return tuple(Keyed(reader=self.reader, item=item) for item in self.bench.items("key"))


_LAST: dict[str, Store] = {}


def findings(bench: Bench) -> tuple[Finding, ...]:
    """Every finding of the system; nothing where nothing of it was read or noted."""
    store = Store.of(bench)
    if "findings" not in store.worked_out:
        store.worked_out["findings"] = (
            *(each for screw in store.screws for each in screw_findings(screw)),
            *(each for balls in store.balls for each in ball_findings(balls)),
            *(each for key in store.keys for each in key_findings(key)),
        )
    return cast(tuple[Finding, ...], store.worked_out["findings"])
