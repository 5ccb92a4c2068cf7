"""Which level of a feature a spot stands at, by the words that people write in the station and the note."""

from __future__ import annotations

import re
from collections.abc import Sequence

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.place import Place
from gudgeon.engine.reading import Reading
from gudgeon.engine.system import Feature, Level


def level_of(feature: Feature, place: Place, *, notes: Sequence[str] = ()) -> Level | None:
    """The level that a spot's station or notes name, without regard to case; None where no words of the feature occur.

    The station speaks first, then the notes. Where several levels' words occur in one text the longest wins, so that
    "below ring travel" is not taken for "ring travel".
    """
    for text in (place.station, *notes):
        found = [(len(word), level) for level in feature.levels for word in (level.name, *level.words) if _says(text, word)]
        if found:
            return max(found, key=lambda pair: pair[0])[1]
    return None


def level_of_estimate(feature: Feature, estimate: Estimate, readings: Sequence[Reading]) -> Level | None:
    """The level of an estimate: its station's words, or else the notes of the readings it was made from."""
    notes = [reading.note for reading in readings if reading.id in estimate.readings and reading.note]
    return level_of(feature, estimate.place, notes=notes)


def _says(text: str, word: str) -> bool:
    return bool(word) and re.search(rf"(?<!\w){re.escape(word.lower())}(?!\w)", text.lower()) is not None
