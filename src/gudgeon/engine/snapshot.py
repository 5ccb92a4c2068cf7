"""The job at one moment: the history folded into what stands now. Pure, and the same for the same entries."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property, lru_cache

from gudgeon.engine.order import Order
from gudgeon.engine.origin import Range
from gudgeon.engine.outline import Outline
from gudgeon.engine.part import PartNote
from gudgeon.engine.photo import PhotoMarks
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reading import Reading, RefusedRow, Stage
from gudgeon.engine.step import StepDone, StepDraft
from gudgeon.engine.verdict import Verdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """What one priced item costs and how long a shop takes over it, as the owner or a quotation says. Money in the job's
    currency each; waits in calendar days from sending out to having it back."""

    name: str
    cost: Range | None
    wait_days: Range | None
    shop: str = ""
    person: str = ""
    at: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Aims:
    """What the owner wants: a date (ISO), a purse, hours a week, and plain priorities (0 to 3 each)."""

    run_by: str = ""
    purse: float | None = None
    currency: str = ""
    start: str = ""
    hours_a_week: float | None = None
    away: tuple[tuple[str, str], ...] = ()
    by_the_date: int = 1
    within_the_purse: int = 1
    keep_original: int = 1
    longest_life: int = 1
    hours_a_year: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureNote:
    """A picture in the job: its digest names its file.

    ``taken`` is the camera's own time (ISO 8601), ``before`` the digest of the picture that shows the same thing before
    the work; ``width`` and ``height`` are those of the picture held upright [pixel], 0 where it cannot be opened.
    """

    digest: str
    name: str
    part: str = ""
    item: str = ""
    taken: str = ""
    note: str = ""
    person: str = ""
    at: str = ""
    before: str = ""
    width: int = 0
    height: int = 0


@lru_cache(maxsize=16_384)
def natural(text: str) -> tuple[object, ...]:
    """Sort key under which "cyl 2" comes before "cyl 10"."""
    return tuple((0, int(piece), "") if piece.isdecimal() else (1, 0, piece) for piece in re.split(r"(\d+)", text.lower()))


@dataclass(frozen=True, kw_only=True)
class Snapshot:
    """What stands now. ``superseded`` keeps every reading and verdict that a newer one replaced; ``marks`` are by the
    digest of their picture; ``part_lines`` leads from any note of a part to the first one of it. Two snapshots of one fold
    share whatever did not change between them, so that a caller may ask by ``is`` what did."""

    outline: Outline
    readings: tuple[Reading, ...] = ()
    refused: tuple[RefusedRow, ...] = ()
    parts: tuple[PartNote, ...] = ()
    pictures: tuple[PictureNote, ...] = ()
    verdicts: tuple[Verdict, ...] = ()
    orders: tuple[Order, ...] = ()
    prices: Mapping[str, Price] = field(default_factory=dict)
    aims: Aims = field(default_factory=Aims)
    steps: tuple[StepDraft, ...] = ()
    done: tuple[StepDone, ...] = ()
    superseded: tuple[Reading | Verdict, ...] = ()
    marks: Mapping[str, PhotoMarks] = field(default_factory=dict)
    part_lines: Mapping[str, str] = field(default_factory=dict)
    head: str = ""
    entries: int = 0

    @cached_property
    def by_feature(self) -> Mapping[FeatureKey, tuple[Reading, ...]]:
        """Current readings of what was found, grouped by feature, in the order they were taken."""
        return self._grouped("found")

    @cached_property
    def returned(self) -> Mapping[FeatureKey, tuple[Reading, ...]]:
        """Current readings of what came back from a shop, grouped by feature."""
        return self._grouped("returned")

    @cached_property
    def fitted(self) -> Mapping[FeatureKey, tuple[Reading, ...]]:
        """Current readings as fitted, grouped by feature."""
        return self._grouped("fitted")

    def _grouped(self, stage: Stage) -> Mapping[FeatureKey, tuple[Reading, ...]]:
        groups: dict[FeatureKey, list[Reading]] = {}
        for reading in self.readings:
            if reading.stage == stage:
                groups.setdefault(reading.key, []).append(reading)
        return {key: tuple(group) for key, group in groups.items()}

    @cached_property
    def _items(self) -> Mapping[str, tuple[str, ...]]:
        found: dict[str, set[str]] = {}
        for key in (*self.by_feature, *self.returned, *self.fitted):
            found.setdefault(key.part, set()).add(key.item)
        for part in self.parts:
            found.setdefault(part.part, set()).add(part.item)
        return {part: tuple(sorted(items, key=natural)) for part, items in found.items()}

    @cached_property
    def reading_index(self) -> Mapping[str, Reading]:
        """Current readings by identity."""
        return {reading.id: reading for reading in self.readings}

    @cached_property
    def picture_index(self) -> Mapping[str, PictureNote]:
        """The pictures by digest."""
        return {picture.digest: picture for picture in self.pictures}

    @cached_property
    def part_index(self) -> Mapping[str, PartNote]:
        """The parts noted, by the identity of their first note."""
        return {part.line: part for part in self.parts}

    def part_noted(self, identity: str) -> PartNote | None:
        """The part that a note, old or new, is of."""
        return self.part_index.get(self.part_lines.get(identity, identity))

    @cached_property
    def tag_index(self) -> Mapping[int, PartNote]:
        """The parts noted, by the number on their tag; of two with one number, the one noted last."""
        return {part.tag: part for part in self.parts if part.tag is not None}

    @cached_property
    def pictures_of(self) -> Mapping[str, tuple[str, ...]]:
        """Digests of the pictures that were taken of an instance, by its name, besides those its own note lists."""
        found: dict[str, list[str]] = {}
        for picture in self.pictures:
            found.setdefault(picture.item, []).append(picture.digest)
        return {item: tuple(digests) for item, digests in found.items()}

    def items(self, part: str) -> tuple[str, ...]:
        """Instances of a kind of part that were read or noted, in natural order."""
        return self._items.get(part, ())

    def readings_of(self, key: FeatureKey) -> tuple[Reading, ...]:
        """Current readings of one feature."""
        return self.by_feature.get(key, ())

    def verdict_on(self, subject: str) -> Verdict | None:
        """The standing verdict on a subject."""
        return next((verdict for verdict in reversed(self.verdicts) if verdict.subject == subject), None)
