"""The estimate of one spot from all readings of it, with its budget (JCGM 100:2008)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.place import Place
from gudgeon.engine.reading import Reading
from gudgeon.engine.system import Feature
from gudgeon.metrology.gauges import Kind, Offset, rounding
from gudgeon.metrology.misreadings import Suspect
from gudgeon.metrology.temperature import to_reference

COVERAGE = 0.90


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeState:
    """A gauge as this job knows it: its kind, the standard deviation of one reading with its freedom, and its offset."""

    kind: Kind
    repeat: float
    freedom: float
    offset: Offset

    @property
    def noise(self) -> float:
        """Standard deviation of one reading, rounding included."""
        return math.hypot(self.repeat, self.kind.resolution / math.sqrt(12))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """The readings that one gauge took at a spot."""

    gauge: str
    value: float
    own: float
    freedom: float
    budget: tuple[tuple[str, float, str], ...]


def estimate_of(
    place: Place,
    readings: Sequence[Reading],
    *,
    gauges: Mapping[str, GaugeState],
    feature: Feature,
    suspected: Mapping[str, Suspect],
) -> Estimate:
    """The estimate of one spot.

    Where two gauges read it, each is corrected by its own offset and the two are weighted by their uncertainties; the offset
    of the weightier one is then the shared one, the other's counts as own.
    """
    good = [reading for reading in readings if reading.id not in suspected] or list(readings)
    names = dict.fromkeys(reading.instrument for reading in good)
    parts = [
        _part(name, [each for each in good if each.instrument == name], gauges[name], feature, suspected) for name in names
    ]
    best = min(parts, key=lambda part: math.hypot(part.own, gauges[part.gauge].offset.uncertainty))
    shared = gauges[best.gauge].offset
    value, own, freedom = _combined(parts, best, gauges)
    total = math.hypot(own, shared.uncertainty)
    freedom = _satterthwaite(((own, freedom), (shared.uncertainty, shared.freedom)))
    half = _half_width(round(freedom, 1)) * total
    floor = 0.0 if _is_gap(feature) and value >= 0 else -math.inf
    lines = tuple(line for part in parts for line in part.budget)
    return Estimate(
        place=place,
        dimension=readings[0].understood.dimension,
        value=value,
        uncertainty=total,
        own=own,
        freedom=freedom,
        low=max(value - half, floor),
        high=value + half,
        gauge=best.gauge,
        shared=shared.uncertainty,
        readings=tuple(reading.id for reading in readings),
        budget=(*lines, (f"offset of {best.gauge or 'the gauge'}", shared.uncertainty, shared.sentence)),
        interval=all(reading.understood.kind == "interval" for reading in good) or gauges[best.gauge].kind.interval,
    )


def _is_gap(feature: Feature) -> bool:
    return feature.dimension == "length" and feature.family == "gap"


def _part(
    name: str, readings: Sequence[Reading], state: GaugeState, feature: Feature, suspected: Mapping[str, Suspect]
) -> _Part:
    values, doubt = _values(readings, suspected)
    count = len(values)
    mean = math.fsum(values) / count - state.offset.value
    repeat = state.repeat / math.sqrt(count)
    step = _step(readings, state, count)
    warm = _temperature(readings, mean, feature)
    budget = [
        (
            "repeats",
            repeat,
            f"type A: {count} of them, repeatability of the gauge over the job, {state.freedom:.0f} degrees of freedom",
        ),
        ("smallest step", step, "type B: even over the step, or over what the feelers leave open"),
    ]
    squares = repeat**2 + step**2 + doubt**2
    if warm is not None:
        mean += warm[0]
        squares += warm[1] ** 2
        budget.append(("temperature", warm[1], warm[2]))
    if doubt:
        budget.append(
            ("doubtful reading", doubt, "the size probably meant is used until the reading is confirmed or taken again")
        )
    return _Part(
        gauge=name,
        value=mean,
        own=math.sqrt(squares),
        freedom=_satterthwaite(((repeat, state.freedom), (math.sqrt(max(squares - repeat**2, 0.0)), math.inf))),
        budget=tuple(budget),
    )


def _values(readings: Sequence[Reading], suspected: Mapping[str, Suspect]) -> tuple[list[float], float]:
    """The sizes to average and, where a probable slip had to be put right, the uncertainty that it brings."""
    values, doubt = [], 0.0
    for reading in readings:
        value = reading.understood.value
        assert value is not None
        suspect = suspected.get(reading.id)
        if suspect is not None:
            value, doubt = suspect.instead, max(doubt, suspect.uncertainty)
        values.append(value)
    return values, doubt


def _step(readings: Sequence[Reading], state: GaugeState, count: int) -> float:
    """What rounding, or the bracket between two feelers, leaves open."""
    brackets = [
        (each.understood.high - each.understood.low) / math.sqrt(12)
        for each in readings
        if each.understood.kind == "interval" and each.understood.low is not None and each.understood.high is not None
    ]
    if brackets:
        return max(brackets)
    resolution = max((each.resolution or state.kind.resolution for each in readings), default=state.kind.resolution)
    return rounding(resolution=resolution, repeat=0.0 if state.kind.interval else state.repeat, count=count)


def _temperature(readings: Sequence[Reading], size: float, feature: Feature) -> tuple[float, float, str] | None:
    if readings[0].understood.dimension != "length" or _is_gap(feature):
        return None
    stated = [reading.temperature for reading in readings if reading.temperature is not None]
    celsius = math.fsum(stated) / len(stated) if stated else None
    correction = to_reference(size, made_of=feature.material, celsius=celsius)
    said = f"read at {celsius:.1f} °C" if celsius is not None else "no temperature noted, room taken as 20 °C"
    return correction.value, correction.uncertainty, f"type B: {said}, gauge of steel and as warm as the part"


def _combined(parts: Sequence[_Part], best: _Part, gauges: Mapping[str, GaugeState]) -> tuple[float, float, float]:
    if len(parts) == 1:
        return best.value, best.own, best.freedom
    sigma = {
        part.gauge: part.own if part is best else math.hypot(part.own, gauges[part.gauge].offset.uncertainty) for part in parts
    }
    weights = {part.gauge: 1 / max(sigma[part.gauge], 1e-12) ** 2 for part in parts}
    total = math.fsum(weights.values())
    value = math.fsum(weights[part.gauge] * part.value for part in parts) / total
    return value, 1 / math.sqrt(total), min(part.freedom for part in parts)


def _satterthwaite(parts: Sequence[tuple[float, float]]) -> float:
    """Effective degrees of freedom of a sum of components (JCGM 100:2008, G.4.1)."""
    total = math.fsum(u**2 for u, _ in parts)
    below = math.fsum(u**4 / freedom for u, freedom in parts if u > 0 and not math.isinf(freedom))
    return total**2 / below if below > 0 else math.inf


@lru_cache(maxsize=4096)
def _half_width(freedom: float) -> float:
    """Student's t for 90 % coverage."""
    from scipy.special import stdtrit

    return float(stdtrit(min(freedom, 1e9), (1 + COVERAGE) / 2))
