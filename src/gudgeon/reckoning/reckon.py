"""The reckoning: readings weighed, the manual reconstructed, the systems run over it, remedies ranked."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

from gudgeon.engine.bench import Bench
from gudgeon.engine.finding import Finding
from gudgeon.engine.naming import feature_finder
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reckoning import Reckoning
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.system import Feature, System
from gudgeon.metrology import Weighed, weigh
from gudgeon.reckoning.advice import advise
from gudgeon.reckoning.bench import Drawn, bench_of
from gudgeon.reckoning.order import in_order
from gudgeon.reckoning.reconstruct import Manual, reconstruct_manual

COUNT = 20_000
feature_index = feature_finder


@dataclass(frozen=True, kw_only=True)
class Worked(Reckoning):
    """A reckoning with the workings that the next one may take over."""

    weighed: Weighed | None = field(default=None, repr=False, compare=False)
    manual: Manual | None = field(default=None, repr=False, compare=False)
    drawn: Drawn | None = field(default=None, repr=False, compare=False)


def reckon(
    snapshot: Snapshot, systems: Sequence[System], *, count: int = COUNT, previous: Reckoning | None = None
) -> Reckoning:
    """Reckon a snapshot. See ``reckon_with_bench``."""
    return reckon_with_bench(snapshot, systems, count=count, previous=previous)[0]


def reckon_with_bench(
    snapshot: Snapshot, systems: Sequence[System], *, count: int = COUNT, previous: Reckoning | None = None
) -> tuple[Reckoning, Bench]:
    """Reckon a snapshot and give the bench that the systems saw.

    Parameters
    ----------
    systems : in any order; each is run after those whose findings it wants.
    count : number of draws.
    previous : an earlier reckoning of the same job: whatever rests on unchanged readings is taken over from it.

    Raises
    ------
    Loop
        when systems want each other's findings in a circle, or want one that is not there.
    """
    ordered = in_order(systems)
    feature_of = feature_finder(systems)
    old = previous if isinstance(previous, Worked) else None
    weighed = weigh(snapshot, feature_of, before=old.weighed if old else None)
    manual = reconstruct_manual(
        weighed,
        outline=snapshot.outline,
        systems=systems,
        readings=snapshot.by_feature,
        before=old.manual if old else None,
    )
    drawn = Drawn(count=count, manual=manual, before=old.drawn if old else None)
    findings: dict[str, tuple[Finding, ...]] = {}
    benches: dict[str, Bench] = {}
    for system in ordered:
        benches[system.key] = bench_of(
            snapshot, weighed, manual, drawn=drawn, findings={name: findings[name] for name in system.wants}
        )
        findings[system.key] = tuple(system.findings(benches[system.key]))
    remedies = tuple(remedy for system in ordered for remedy in system.remedies(benches[system.key]))
    whole = bench_of(snapshot, weighed, manual, drawn=drawn, findings=findings)
    reckoning = Worked(
        made_from=_digest(snapshot, systems, count),
        estimates=MappingProxyType(dict(weighed.estimates)),
        specifications=MappingProxyType(dict(manual.specifications)),
        findings=tuple(finding for system in ordered for finding in findings[system.key]),
        remedies=remedies,
        advice=tuple(advise(remedies, snapshot, whole, systems=systems)),
        doubts=weighed.doubts,
        remarks=weighed.remarks,
        unknown=_unknown(weighed.estimates, feature_of),
        pictures=tuple(picture for system in ordered for picture in system.pictures(benches[system.key])),
        fit_up=tuple(step for system in ordered for step in system.fit_up(benches[system.key])),
        weighed=weighed,
        manual=manual,
        drawn=drawn,
    )
    return reckoning, whole


def _unknown(
    estimates: Mapping[FeatureKey, object], feature_of: Callable[[str, str], Feature | None]
) -> tuple[FeatureKey, ...]:
    return tuple(key for key in estimates if feature_of(key.part, key.feature) is None)


def _digest(snapshot: Snapshot, systems: Sequence[System], count: int) -> str:
    """What a reckoning was made from: the head of the history, the systems and the number of draws."""
    text = "\n".join((snapshot.head, str(snapshot.entries), str(count), *(system.key for system in systems)))
    return hashlib.sha256(text.encode()).hexdigest()
