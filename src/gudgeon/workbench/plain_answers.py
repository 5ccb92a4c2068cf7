"""The answers of a reckoning as plain lists, in the units of the readings: what ``--json`` prints (docs/json.md)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import Any

from gudgeon.engine.finding import Finding
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reckoning import Reckoning
from gudgeon.engine.snapshot import Snapshot
from gudgeon.engine.specification import Specification
from gudgeon.quantity import dimension_of, from_si, say

FORMAT = "gudgeon reckoning 1"
PLAIN_UNITS = {
    "length": "in",
    "pressure": "psi",
    "force": "lbf",
    "volume": "cc",
    "angle": "deg",
    "count": "count",
    "mass": "lb",
}


def answers(snapshot: Snapshot, reckoning: Reckoning, system: str = "") -> dict[str, Any]:
    """Findings, the reconstructed manual, doubtful readings and what is missing, as JSON data.

    Every low and high bound a 90 % interval. ``instance`` is the CSV's ``item``; a size is in the unit that its feature
    carries in the CSV, or, for a finding that is no feature, the commonest unit of that part's readings.
    """
    units = _Units(snapshot)
    return {
        "format": FORMAT,
        "engine": snapshot.outline.name,
        "head": snapshot.head,
        "findings": [_finding(finding, units) for finding in reckoning.findings if system in ("", finding.system)],
        "manual": [_manual(spec, units) for spec in reckoning.specifications.values()],
        "doubtful": [
            {
                "row": doubt.reading.row,
                "part": doubt.reading.place.part,
                "instance": doubt.reading.place.item,
                "feature": doubt.reading.place.feature,
                "reading": doubt.reading.typed,
                "likely": None if doubt.likely is None else _round(from_si(doubt.likely, units.of(doubt.reading.key))),
                "unit": units.of(doubt.reading.key),
                "slip": doubt.slip,
                "sentence": doubt.sentence,
            }
            for doubt in reckoning.doubts
        ],
        "remarks": list(reckoning.remarks),
        "unknown": [{"part": key.part, "instance": key.item, "feature": key.feature} for key in reckoning.unknown],
        "refused": [{"row": row.row, "source": row.source, "line": row.line, "reason": row.reason} for row in snapshot.refused],
    }


class _Units:
    """The unit each feature was read in, and per part and dimension the commonest."""

    def __init__(self, snapshot: Snapshot) -> None:
        self._own: dict[FeatureKey, str] = {}
        common: dict[tuple[str, str], Counter[str]] = {}
        for reading in snapshot.readings:
            unit = reading.unit or PLAIN_UNITS.get(reading.understood.dimension, "")
            if not unit or reading.understood.dimension == "":
                continue
            self._own.setdefault(reading.key, unit)
            common.setdefault((reading.place.part, dimension_of(unit)), Counter())[unit] += 1
        self._common: Mapping[tuple[str, str], str] = {key: count.most_common(1)[0][0] for key, count in common.items()}
        lengths = Counter(unit for (_, dimension), unit in self._common.items() if dimension == "length")
        self._length = lengths.most_common(1)[0][0] if lengths else "in"

    def of(self, key: FeatureKey) -> str:
        return self._own.get(key, self._length)

    def for_finding(self, finding: Finding) -> str:
        own = self._common.get((finding.part, finding.dimension))
        if own:
            return own
        return self._length if finding.dimension == "length" else PLAIN_UNITS.get(finding.dimension, "")


def _round(value: float) -> float:
    return float(f"{value:.7g}")


def _in(value: float | None, unit: str) -> float | None:
    if value is None:
        return None
    return _round(from_si(value, unit)) if unit else _round(value)


def _finding(finding: Finding, units: _Units) -> dict[str, Any]:
    unit = units.for_finding(finding)
    metric = unit in ("mm", "cm", "um")
    return {
        "system": finding.system,
        "part": finding.part,
        "instance": finding.item,
        "quantity": finding.quantity,
        "value": _in(finding.value, unit),
        "low": _in(finding.low, unit),
        "high": _in(finding.high, unit),
        "unit": unit or finding.dimension,
        "target_low": _in(finding.target_low, unit),
        "target_high": _in(finding.target_high, unit),
        "target_origin": str(finding.target_origin) if finding.target_origin else None,
        "limit": _in(finding.limit, unit),
        "limit_is": finding.limit_is if finding.limit is not None else None,
        "limit_origin": str(finding.limit_origin) if finding.limit_origin else None,
        "chance_past_limit": None if finding.chance_past_limit is None else _round(finding.chance_past_limit),
        "standing": finding.standing,
        "sentence": say(finding.sentence, "millimetre" if metric else "inch"),
        "settle": finding.settle,
        "readings": list(finding.inputs),
        "formula": finding.formula,
    }


def _manual(spec: Specification, units: _Units) -> dict[str, Any]:
    unit = units.of(spec.key)
    return {
        "part": spec.key.part,
        "instance": spec.key.item,
        "feature": spec.key.feature,
        "nominal": _in(spec.nominal, unit),
        "low": _in(spec.low, unit),
        "high": _in(spec.high, unit),
        "unit": unit,
        "probability": _round(spec.probability),
        "written": spec.written,
        "rework": spec.rework,
        "origin": str(spec.origin),
        "grade": spec.origin.grade,
        "runners_up": [
            {
                "nominal": _in(other.nominal, unit),
                "written": other.written,
                "rework": other.rework,
                "probability": _round(other.probability),
            }
            for other in spec.runners_up
        ],
        "evidence": list(spec.evidence),
        "conflict": spec.conflict,
        "settle": spec.settle,
    }
