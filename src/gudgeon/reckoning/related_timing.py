"""Manual lines of valve timing: each event as it was when new, with the whole cam set back where it stands teeth out."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gudgeon.engine.estimate import Estimate
from gudgeon.engine.origin import Origin
from gudgeon.engine.place import FeatureKey
from gudgeon.engine.reading import Reading
from gudgeon.engine.specification import Candidate, Specification
from gudgeon.reckoning.relations_valves import ALIKE, Shift, degrees_per_tooth, identify_shift, open_for

DEGREE = math.pi / 180
_VALVE = re.compile(r"\b(intake|inlet|exhaust)\b.*\b(open|close)")
_DATUM = re.compile(r"\b([AB])(TDC|BDC)\b")


@dataclass(frozen=True, slots=True)
class _Event:
    """One event: its name in the tables, degrees after its centre, the sign that turns that into the reading's own figure."""

    key: FeatureKey
    name: str
    after: float
    sign: int
    uncertainty: float


def timing_specifications(
    estimates: Mapping[FeatureKey, Sequence[Estimate]],
    readings: Mapping[FeatureKey, Sequence[Reading]],
    counted: Mapping[FeatureKey, Specification],
) -> dict[FeatureKey, Specification]:
    """Lines for every event that was read; all events of one part and instance are taken together."""
    sets: dict[tuple[str, str], list[_Event]] = {}
    for key, spots in estimates.items():
        event = _event(key, spots, readings.get(key, ()))
        if event is not None:
            sets.setdefault((key.part, key.item), []).append(event)
    teeth = _cam_teeth(counted)
    found: dict[FeatureKey, Specification] = {}
    for events in sets.values():
        found.update(_lines(events, teeth))
    return found


def _event(key: FeatureKey, spots: Sequence[Estimate], readings: Sequence[Reading]) -> _Event | None:
    words = _VALVE.search(key.feature.lower())
    if words is None or spots[0].dimension != "angle":
        return None
    texts = [text for reading in readings for text in (reading.understood.words, reading.unit, reading.typed, key.feature)]
    datum = next((match for text in texts if (match := _DATUM.search(text.upper()))), None)
    if datum is None:
        return None
    valve = "exhaust" if words.group(1) == "exhaust" else "inlet"
    name = f"{valve} {words.group(2)}s"
    sign = 1 if datum.group(1) == "A" else -1
    value = math.fsum(each.value for each in spots) / len(spots) / DEGREE
    return _Event(key=key, name=name, after=sign * value, sign=sign, uncertainty=spots[0].uncertainty / DEGREE)


def _cam_teeth(counted: Mapping[FeatureKey, Specification]) -> int | None:
    """Teeth of the cam gear: by its name, else the larger of two counts that stand two to one."""
    counts = {key: round(line.nominal) for key, line in counted.items() if line.dimension == "count" and line.nominal}
    named = [count for key, count in counts.items() if "cam" in f"{key.part} {key.item}".lower()]
    if len(named) == 1:
        return named[0]
    doubles = [count for count in counts.values() if count % 2 == 0 and count // 2 in counts.values()]
    return max(doubles) if len(doubles) == 1 else None


def _lines(events: Sequence[_Event], teeth: int | None) -> dict[FeatureKey, Specification]:
    shifts: tuple[Shift, ...] = (Shift(teeth=0, degrees=0.0, probability=1.0),)
    if teeth is not None and len(events) >= 3:
        doubt = max(event.uncertainty for event in events)
        shifts = identify_shift({event.name: event.after for event in events}, uncertainty=doubt, cam_teeth=teeth)
    said = _said(events, shifts, teeth)
    return {event.key: _line(event, shifts, said) for event in events}


def _said(events: Sequence[_Event], shifts: Sequence[Shift], teeth: int | None) -> tuple[str, ...]:
    by_name = {event.name: event.after for event in events}
    said = []
    for valve in ("inlet", "exhaust"):
        if {f"{valve} opens", f"{valve} closes"} <= set(by_name):
            opens, closes = by_name[f"{valve} opens"], by_name[f"{valve} closes"]
            # inlet opens at inner and closes after outer centre; exhaust the other way about
            said.append(f"The {valve} stands open {open_for(opens=opens, closes=closes):.0f}°, wherever the cam is set.")
    best = shifts[0]
    if best.teeth and teeth:
        word = "early" if best.teeth > 0 else "late"
        said.append(
            f"All events stand about {abs(best.degrees):.1f}° {word}: the cam gear is most likely {abs(best.teeth)} of its "
            f"{teeth} teeth out ({best.probability * 100:.0f} in 100). "
            f"One tooth is {degrees_per_tooth(cam_teeth=teeth):.1f}° of the crank."
        )
    elif teeth is None:
        said.append("The cam gear's teeth were not counted: whether the cam stands a tooth out cannot be told.")
    return tuple(said)


def _line(event: _Event, shifts: Sequence[Shift], said: tuple[str, ...]) -> Specification:
    best = shifts[0]
    middle = event.sign * (event.after + best.degrees)
    sigma = math.hypot(event.uncertainty, ALIKE / 2)
    candidates = _candidates(event, shifts, sigma)
    if len(shifts) > 1 and best.probability < 0.9:
        settle = "Look for the marks on the timing gears, and where the spark and the valves stand by a hand's turn."
    else:
        settle = "Read the cam's lobes off the engine: lift by lift they tell the events without the lash."
    return Specification(
        key=event.key,
        dimension="angle",
        nominal=candidates[0].nominal,
        low=(middle - 1.645 * sigma) * DEGREE,
        high=(middle + 1.645 * sigma) * DEGREE,
        probability=candidates[0].probability,
        origin=Origin("E", "reconstructed from the events read together and the timings of the time"),
        written=candidates[0].written,
        rework=f"cam gear {abs(best.teeth)} tooth {'early' if best.teeth > 0 else 'late'}" if best.teeth else "",
        runners_up=tuple(each for each in candidates[1:6] if each.probability > 0.03),
        evidence=said,
        settle=settle,
    )


def _candidates(event: _Event, shifts: Sequence[Shift], sigma: float) -> list[Candidate]:
    """Angles a drawing may have called for: fives likelier than whole degrees, those likelier than halves."""
    weights: dict[float, float] = {}
    for shift in shifts:
        middle = event.sign * (event.after + shift.degrees)
        for half in range(math.floor(2 * (middle - 3 * sigma)), math.ceil(2 * (middle + 3 * sigma)) + 1):
            angle = half / 2
            custom = 1.0 if angle % 5 == 0 else 0.3 if angle % 1 == 0 else 0.15
            near = math.exp(-0.5 * ((angle - middle) / sigma) ** 2)
            weights[angle] = weights.get(angle, 0.0) + shift.probability * custom * near
    total = math.fsum(weights.values())
    ranked = sorted(weights, key=lambda angle: -weights[angle])
    return [Candidate(angle * DEGREE, f"{angle:g}°", "", weights[angle] / total) for angle in ranked]
