"""Features without a length: counts, forces, angles, volumes, pressures. What can be said of them when new."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.origin import Origin
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reading import Reading
from gudgeon.engine.specification import Candidate, Specification
from gudgeon.reckoning.groups import Group

_WHY = {
    "force": "A spring's force follows from its wire, coils and length; read those and the force when new can be worked out.",
    "pressure": "A pressure is what the engine did that day; no drawing called for it.",
    "volume": "A volume follows from bore, stroke and compression; read the stroke and the ratio can be worked out.",
    "angle": "Nothing else that was read bears on this angle.",
    "mass": "A weight was seldom on a drawing; weigh its like and the lightest tells most.",
}


def other_specifications(
    groups: Sequence[Group], readings: Mapping[FeatureKey, Sequence[Reading]]
) -> dict[FeatureKey, Specification]:
    """One line for each: a count is exact, of anything else the interval as it was read, and why there is no nominal."""
    found: dict[FeatureKey, Specification] = {}
    for group in groups:
        for number, key in enumerate(group.keys):
            estimates = group.estimates[number]
            if estimates[0].dimension == "count":
                found[key] = _counted(key, readings.get(key, ()))
            else:
                found[key] = _as_read(key, estimates)
    return found


def _counted(key: FeatureKey, readings: Sequence[Reading]) -> Specification:
    """Counting is exact unless two counts differ; then both stand."""
    counts: dict[int, int] = {}
    for reading in readings:
        if reading.understood.value is not None:
            whole = round(reading.understood.value)
            counts[whole] = counts.get(whole, 0) + 1
    total = sum(counts.values())
    ranked = sorted(counts, key=lambda whole: -counts[whole])
    agreed = len(ranked) == 1
    chance = (0.98 if total == 1 else 0.995) if agreed else 0.9 * counts[ranked[0]] / total
    runners = tuple(Candidate(float(each), str(each), "", 0.9 * counts[each] / total) for each in ranked[1:])
    return Specification(
        key=key,
        dimension="count",
        nominal=float(ranked[0]),
        low=float(min(ranked)),
        high=float(max(ranked)),
        probability=chance,
        origin=Origin("B", "counted"),
        written=str(ranked[0]),
        runners_up=runners,
        evidence=(f"Counted {total} times." if total > 1 else "Counted once.",),
        settle="" if agreed else "Count again with a chalk mark on the first one.",
    )


def _as_read(key: FeatureKey, estimates: Sequence[Estimate]) -> Specification:
    low = min(each.low for each in estimates)
    high = max(each.high for each in estimates)
    return Specification(
        key=key,
        dimension=estimates[0].dimension,
        nominal=None,
        low=low,
        high=high,
        probability=0.0,
        origin=Origin("E", "as it was read; what it was when new cannot be told from it alone"),
        evidence=(),
        settle=_WHY.get(estimates[0].dimension, "No drawing size is known for such a reading."),
    )
