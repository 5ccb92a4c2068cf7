"""Manual lines of poured volumes: the compression ratio that they make with bore and stroke."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.origin import Origin
from gudgeon.engine.outline import Outline
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.specification import Specification
from gudgeon.metrology.guess import words_of
from gudgeon.reckoning.relations_volumes import compression_ratio, swept_volume


def volume_specifications(
    estimates: Mapping[FeatureKey, Sequence[Estimate]], sizes: Mapping[FeatureKey, Specification], *, outline: Outline
) -> dict[FeatureKey, Specification]:
    """Lines for poured clearance volumes, with the ratio where bore and stroke are known."""
    bore = _size(sizes, "bore diameter") or outline.bore
    stroke = _size(sizes, "stroke") or outline.stroke
    found = {}
    for key, spots in estimates.items():
        if spots[0].dimension != "volume" or key not in sizes:
            continue
        line = replace(
            sizes[key],
            origin=Origin("E", "as poured; carbon, gaskets and skimmed heads change it"),
            settle="A poured volume was seldom on a drawing; the ratio was.",
        )
        if bore and stroke:
            ratio = compression_ratio(swept=swept_volume(bore=bore, stroke=stroke), clearance=spots[0].value)
            relative = spots[0].uncertainty / spots[0].value * (1 - 1 / ratio)
            low, high = ratio * (1 - 1.645 * relative), ratio * (1 + 1.645 * relative)
            said = f"With the bore and stroke as made it gives a compression ratio of {ratio:.2f} ({low:.2f} to {high:.2f})."
            line = replace(line, evidence=(*line.evidence, said))
        else:
            missing = " and ".join(name for name, size in (("bore", bore), ("stroke", stroke)) if not size)
            line = replace(line, settle=f"Read the {missing}: then the compression ratio can be worked out.")
        if math.isfinite(spots[0].value):
            found[key] = line
    return found


def _size(sizes: Mapping[FeatureKey, Specification], words: str) -> float | None:
    """Nominal of the first feature of those words."""
    for key, each in sizes.items():
        if words in words_of(key) and each.dimension == "length" and each.nominal is not None:
            return each.nominal
    return None
