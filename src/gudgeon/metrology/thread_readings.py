"""What was read of each screw thread, by the words of its features, and what it may be."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.place import FeatureKey
from gudgeon.metrology.thread_identity import ThreadCandidate, identify_thread, what_would_tell

INCH = 0.0254
DEGREE = math.pi / 180
_PITCHES = re.compile(r"(?:length )?over (\d+) (?:pitches|threads)")
_OUTSIDE = re.compile(r"(outside|major|crest|thread) diameter|^diameter$")
_FLANK = re.compile(r"flank|thread angle")
_THREADED = re.compile(r"thread|\b(fastener|plug|stud|bolt|screw|nut|union)s?\b")


@dataclass
class ThreadFound:
    """What was read of one thread."""

    name: tuple[str, str]
    outside: tuple[FeatureKey, Estimate] | None = None
    lengths: list[tuple[FeatureKey, Estimate, int]] = field(default_factory=list)
    per_inch: list[tuple[FeatureKey, Estimate]] = field(default_factory=list)
    flank: tuple[FeatureKey, Estimate] | None = None

    @property
    def pitch(self) -> tuple[float | None, float]:
        """Length of one pitch and its standard uncertainty [m]: over most pitches, else by a gauge; None where not read."""
        if self.lengths:
            _, estimate, count = max(self.lengths, key=lambda each: each[2])
            return estimate.value / count, estimate.uncertainty / count
        if self.per_inch:
            value = self.per_inch[0][1].value
            # a thread gauge that fits is right to a quarter of a thread per inch
            return 1 / value, 0.25 / INCH / value**2
        return None, 0.0

    @property
    def candidates(self) -> tuple[ThreadCandidate, ...]:
        """Standard threads that it may be, likeliest first; none where its diameter was not read."""
        if self.outside is None:
            return ()
        pitch, doubt = self.pitch
        return identify_thread(
            outside=self.outside[1].value,
            outside_uncertainty=self.outside[1].uncertainty,
            pitch=pitch,
            pitch_uncertainty=doubt,
            flank=self.flank[1].value / DEGREE if self.flank else None,
        )

    def settle(self, candidates: Sequence[ThreadCandidate]) -> str:
        """The reading that would tell its likely candidates apart."""
        return what_would_tell(candidates, pitch_read=self.pitch[0] is not None, flank_read=self.flank is not None)


def threads_read(estimates: Mapping[FeatureKey, Sequence[Estimate]]) -> dict[tuple[str, str], ThreadFound]:
    """Every thread that anything was read of, by part and instance."""
    found: dict[tuple[str, str], ThreadFound] = {}
    for key, spots in estimates.items():
        words = key.feature.lower().replace("_", " ")
        if not spots or not (_THREADED.search(f"{key.part} {words}".lower()) or _PITCHES.search(words)):
            continue
        thread = found.setdefault((key.part, key.item), ThreadFound((key.part, key.item)))
        counted = _PITCHES.search(words)
        if counted:
            thread.lengths.append((key, spots[0], int(counted.group(1))))
        elif _FLANK.search(words):
            thread.flank = (key, spots[0])
        elif spots[0].dimension == "threads per length":
            thread.per_inch.append((key, spots[0]))
        elif _OUTSIDE.search(words) and spots[0].dimension == "length":
            thread.outside = (key, spots[0])
    return found
