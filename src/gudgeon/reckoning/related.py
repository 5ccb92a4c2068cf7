"""Specifications that follow from several readings together: threads, gears, valve timing, spring forces, compression.

What each relation needs is found by its words on the parts that carry them; a relation that lacks a reading says nothing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from gudgeon.engine.outline import Outline
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reading import Reading
from gudgeon.engine.specification import Specification
from gudgeon.metrology import Weighed
from gudgeon.reckoning.related_gears import gear_specifications
from gudgeon.reckoning.related_springs import spring_specifications
from gudgeon.reckoning.related_threads import thread_specifications
from gudgeon.reckoning.related_timing import timing_specifications
from gudgeon.reckoning.related_volumes import volume_specifications


def related_specifications(
    weighed: Weighed,
    *,
    outline: Outline,
    specifications: Mapping[FeatureKey, Specification],
    readings: Mapping[FeatureKey, Sequence[Reading]],
) -> dict[FeatureKey, Specification]:
    """All of them, in place of what each feature alone said."""
    found: dict[FeatureKey, Specification] = {}
    found.update(thread_specifications(weighed.estimates))
    found.update(gear_specifications(weighed.estimates, specifications))
    found.update(timing_specifications(weighed.estimates, readings, specifications))
    found.update(spring_specifications(weighed.estimates, specifications))
    found.update(volume_specifications(weighed.estimates, {**specifications, **found}, outline=outline))
    return found
