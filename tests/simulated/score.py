"""Hold what the reconstruction says of simulated engines against the truth about them.

What is asked of it: the drawing's size right (within .0005 in; counts and pitches exact), its 90 % intervals of the size when
new or last re-sized containing the truth nine times in ten, and its probabilities meaning what they say. A size that it leaves
open counts as not right; the share of those is given apart.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from gudgeon import reckoning, systems
from gudgeon.engine.fold import fold
from gudgeon.engine.history import FIRST, Entry, sealed
from gudgeon.engine.outline import Outline
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.plain import to_plain
from gudgeon.engine.reckoning import Reckoning
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.specification import Specification
from tests.simulated.engines import Engine, Truth

NEAR = 0.0005 * 0.0254
BINS = (0.0, 0.2, 0.4, 0.6, 0.8, 0.9, 0.97, 1.0)
Answer = Mapping[FeatureKey, Specification]


@dataclass(frozen=True)
class Judged:
    """One feature: the truth, what was said of it, and whether that was so (None where nothing was to be said)."""

    engine: int
    truth: Truth
    said: Specification | None
    stated: float | None
    right: bool | None
    covered: bool | None

    @property
    def counts(self) -> bool:
        """Does the demand on the nominal apply: two pieces of that size read, or an unworn place? An unworn place of a piece
        that was re-sized shows only the size it was re-sized to."""
        truth = self.truth
        return truth.nominal is not None and (truth.siblings >= 2 or (truth.unworn and not truth.resized))

    @property
    def probability(self) -> float | None:
        """What was said of the chance that the stated nominal is right."""
        return None if self.said is None or self.stated is None else self.said.probability


@dataclass(frozen=True)
class Doubts:
    """Readings asked about, against the slips that were really made."""

    slips: int
    found: int
    false: int
    readings: int


def snapshot_of(engine: Engine) -> Snapshot:
    """The job as it stands when the person has typed everything in."""
    outline = Outline(name=f"engine {engine.number}", cylinders=engine.cylinders, bore=engine.plate_bore)
    entries: list[Entry] = []
    _add(entries, "job", "job", {"format": 1, "outline": to_plain(outline)})
    for row in engine.rows:
        _add(entries, "reading", f"row-{row['row']}", {name: cell for name, cell in row.items() if cell})
    return fold(entries)


def _add(entries: list[Entry], kind: str, id: str, body: Mapping[str, object]) -> None:
    previous = entries[-1].digest if entries else FIRST
    at = "2026-01-01T00:00:00Z"
    entries.append(sealed(seq=len(entries) + 1, id=id, kind=kind, body=body, person="Owner", at=at, previous=previous))


def reckoned(engine: Engine) -> Reckoning:
    """The reckoning of its sizes: findings and remedies, which rest on them, are left out to save time."""
    bare = [
        replace(system, findings=_nothing, remedies=_nothing, prospects=_nothing, fit_up=_nothing, pictures=_nothing)
        for system in systems.ALL
    ]
    return reckoning.reckon(snapshot_of(engine), bare)


def _nothing(*_: object) -> tuple[()]:
    return ()


def judge(engine: Engine, said: Answer) -> list[Judged]:
    """Hold the specifications of one engine against the truth."""
    return [_judged(engine.number, truth, said) for truth in engine.truths]


def _judged(number: int, truth: Truth, said: Answer) -> Judged:
    if truth.family.endswith("pitch"):
        specification, stated = _pitch(truth, said)
        right = stated is not None and math.isclose(stated, truth.new, rel_tol=2e-3)
        return Judged(number, truth, specification, stated, right, None)
    specification = said.get(FeatureKey(*truth.key))
    stated = specification.nominal if specification else None
    covered = None
    if specification and specification.low is not None and specification.high is not None and not truth.exact:
        covered = specification.low <= truth.new <= specification.high
    if truth.nominal is None:
        return Judged(number, truth, specification, stated, None, covered)
    near = NEAR * 1.001 if specification is not None and specification.dimension == "length" else 1e-6
    right = stated is not None and abs(stated - truth.nominal) <= near
    return Judged(number, truth, specification, stated, right, covered)


def _pitch(truth: Truth, said: Answer) -> tuple[Specification | None, float | None]:
    """The pitch stated for a thread or gear [m]: of its own, as threads or teeth to the length, or over several pitches."""
    part, item, _ = truth.key
    for key, specification in said.items():
        if key.part != part or (item != key.item and part == "thread") or specification.nominal is None:
            continue
        if key.feature.startswith("length over "):
            return specification, specification.nominal / int(key.feature.split()[2])
        if "pitch" in key.feature or key.feature == "module":
            per_length = "per" in specification.dimension
            return specification, 1 / specification.nominal if per_length else specification.nominal
    return _pitch_of_pair(item, said) if part == "gear" else (None, None)


def _pitch_of_pair(pair: str, said: Answer) -> tuple[Specification | None, float | None]:
    """The pitch that a stated centre distance and stated tooth counts come to: twice the distance to both counts."""
    centre = said.get(FeatureKey("gear", pair, "centre distance"))
    teeth = [one.nominal or 0.0 for key, one in said.items() if key.part == "gear" and key.feature == "tooth count"]
    if centre is None or centre.nominal is None or len(teeth) != 2 or not all(teeth):
        return None, None
    return centre, 2 * centre.nominal / sum(teeth)


def judge_all(engines: Iterable[Engine], answer: Callable[[Engine], Answer]) -> list[Judged]:
    """All engines together."""
    return [judged for engine in engines for judged in judge(engine, answer(engine))]


def doubts(engine: Engine, reckoning: Reckoning) -> Doubts:
    """Slips found and false alarms of one engine."""
    asked = {doubt.reading.row for doubt in reckoning.doubts}
    found = len(asked & engine.slipped)
    return Doubts(len(engine.slipped), found, len(asked) - found, len(engine.rows))


def right_share(judged: Sequence[Judged]) -> float:
    """Share of nominals that are right among those of which it is demanded."""
    demanded = [one for one in judged if one.counts]
    return sum(bool(one.right) for one in demanded) / len(demanded)


def covered_share(judged: Sequence[Judged]) -> float:
    """Share of intervals that contain the truth."""
    stated = [one.covered for one in judged if one.covered is not None]
    return sum(stated) / len(stated)


@dataclass(frozen=True)
class Bin:
    """Nominals stated with a probability from ``low`` to ``high``: how many, their mean probability, share right, and the
    standard error of that share with siblings counted as one, since they stand or fall together."""

    low: float
    high: float
    count: int
    said: float
    right: float
    error: float


def reliability(judged: Sequence[Judged]) -> list[Bin]:
    """Stated probabilities against what came true."""
    bins = []
    for low, high in pairwise(BINS):
        inside = [
            one
            for one in judged
            if one.probability is not None
            and one.truth.nominal is not None
            and (low <= one.probability < high or one.probability == high == 1.0)
        ]
        if not inside:
            continue
        said = sum(one.probability or 0.0 for one in inside) / len(inside)
        right = sum(bool(one.right) for one in inside) / len(inside)
        groups = len({(one.engine, one.truth.family, one.truth.nominal) for one in inside})
        bins.append(Bin(low, high, len(inside), said, right, math.sqrt(max(said * (1 - said), 0.0025) / groups)))
    return bins


def by_family(judged: Sequence[Judged]) -> dict[str, list[Judged]]:
    """Features grouped by what they are."""
    groups: dict[str, list[Judged]] = {}
    for one in judged:
        groups.setdefault(one.truth.family, []).append(one)
    return groups


def plain_rounding(reckoning: Reckoning) -> Answer:
    """What a man does who forgets wear: the mean of the readings to the nearest sixty-fourth, and its interval. A control:
    it must fail the demands."""
    said: dict[FeatureKey, Specification] = {}
    for key, estimates in reckoning.estimates.items():
        if key not in reckoning.specifications:
            continue
        mean = sum(one.value for one in estimates) / len(estimates)
        sixty_fourth = 0.0254 / 64
        spread = 1.645 * max(one.uncertainty for one in estimates)
        said[key] = replace(
            reckoning.specifications[key],
            nominal=round(mean / sixty_fourth) * sixty_fourth,
            low=mean - spread,
            high=mean + spread,
        )
    return said
