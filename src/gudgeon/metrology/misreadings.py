"""Doubtful readings of a job: each held against its neighbours, with the slip that would explain it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gudgeon.engine.reading import Doubt, Reading
from gudgeon.metrology.neighbours import Expected, Item, expectations
from gudgeon.metrology.slips import DOUBT_AT, is_far, judge

INCH = 0.0254
HONEST = 5.0
"""Within so many spreads no slip is ever likelier than an honest reading."""
AT_LEAST = 4
"""Readings of one sort of feature needed before any of them is doubted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspect:
    """A reading that was probably a slip: the size used in its stead [SI] with its standard uncertainty, and the question."""

    reading: Reading
    instead: float
    uncertainty: float
    doubt: Doubt


def suspects(readings: Sequence[Reading], *, noise: Mapping[str, float], alike: bool = True) -> dict[str, Suspect]:
    """Probable slips among the readings of one sort of feature, by the reading's identity.

    ``alike`` says whether instances may be held against each other. Readings that a person stood by are never doubted. A
    reading is first held against all its neighbours; then those that passed are held against each other once more, so that one
    slip does not spoil its neighbours' expectation.
    """
    if len(readings) < AT_LEAST:
        return {}
    first = _doubted(readings, noise, alike)
    rest = [reading for reading in readings if reading.id not in first]
    expected = _expected_among(rest, readings, noise, alike)
    found: dict[str, Suspect] = {}
    for reading in readings:
        if reading.id in first and not reading.confirmed:
            suspect = _suspect(reading, expected[reading.id], noise[reading.instrument])
            if suspect is not None:
                found[reading.id] = suspect
    return found


def _item(reading: Reading) -> Item:
    value = reading.understood.value
    assert value is not None
    depth = None if reading.place.station else reading.place.depth
    return Item(reading.key, (reading.place.station, depth), reading.place.direction, value)


def _floor(group: Sequence[Reading], noise: Mapping[str, float]) -> float:
    return max(noise[reading.instrument] for reading in group)


def _doubted(group: Sequence[Reading], noise: Mapping[str, float], alike: bool) -> set[str]:
    floor = _floor(group, noise)
    items = [_item(reading) for reading in group]
    found = set()
    apart = _apart(items, floor)
    for number, expected in zip(apart, expectations(items, floor=floor, only=apart, alike=alike), strict=True):
        if expected is not None and _is_doubtful(group[number], expected, noise[group[number].instrument]):
            found.add(group[number].id)
    return found


NEAR = 3.0
"""A reading that another one stands so near to, in standard deviations of one reading, is not looked at further."""


def _apart(items: Sequence[Item], floor: float) -> list[int]:
    """Readings that stand apart from every other at their level (read once there: of their part; else of their sort). Only
    these are looked at closely: one that agrees with another where the same is to be expected cannot be told to be a slip."""
    every: list[float] = []
    parts: dict[object, list[float]] = {}
    for item in items:
        for group in ((item.key, item.level), item.key):
            parts.setdefault(group, []).append(item.value)
        every.append(item.value)
    for values in (every, *parts.values()):
        values.sort()
    found = []
    for number, item in enumerate(items):
        near = next((own for group in ((item.key, item.level), item.key) if len(own := parts[group]) > 1), every)
        if not _has_near(near, item.value, NEAR * floor):
            found.append(number)
    return found


def _has_near(ordered: Sequence[float], value: float, within: float) -> bool:
    """Does a sorted list that holds the value hold another one near it?"""
    place = bisect_left(ordered, value)
    others = (place - 1, place + 1)
    return any(0 <= other < len(ordered) and abs(ordered[other] - value) <= within for other in others)


def _expected_among(
    rest: Sequence[Reading], group: Sequence[Reading], noise: Mapping[str, float], alike: bool
) -> dict[str, Expected | None]:
    """What the readings that passed lead one to expect of each that did not."""
    answers: dict[str, Expected | None] = {}
    passed = {reading.id for reading in rest}
    floor = _floor(group, noise)
    for reading in group:
        if reading.id not in passed:
            answers[reading.id] = expectations([_item(reading), *map(_item, rest)], floor=floor, only=(0,), alike=alike)[0]
    return answers


def _is_doubtful(reading: Reading, expected: Expected, noise: float) -> bool:
    value = reading.understood.value
    if value is None or abs(value - expected.value) < HONEST * max(expected.spread, noise):
        return False
    return judge(reading, expected, noise=noise).chance > DOUBT_AT or is_far(reading, expected, noise=noise)


def _suspect(reading: Reading, expected: Expected | None, noise: float) -> Suspect | None:
    if expected is None:
        return None
    judged = judge(reading, expected, noise=noise)
    if judged.chance > DOUBT_AT and judged.likely is not None:
        instead, uncertainty, slip = judged.likely, noise, judged.slip
    elif is_far(reading, expected, noise=noise):
        instead, uncertainty, slip = expected.value, max(expected.spread, noise), ""
    else:
        return None
    likely = instead if slip else None
    doubt = Doubt(reading=reading, likely=likely, slip=slip, sentence=_sentence(reading, expected, likely, slip))
    return Suspect(reading=reading, instead=instead, uncertainty=uncertainty, doubt=doubt)


def _sentence(reading: Reading, expected: Expected, likely: float | None, slip: str) -> str:
    where = " ".join(
        filter(
            None,
            (
                str(reading.key),
                f"at {reading.place.station}" if reading.place.station else "",
                f"{reading.place.direction:g}°" if reading.place.direction is not None else "",
            ),
        )
    )
    row = f"Row {reading.row}, " if reading.row is not None else ""
    unit = f" {reading.unit}" if reading.unit else ""
    around = f"{expected.who} lead one to expect about {_in_its_unit(reading, expected.value)}"
    meant = "no usual slip explains it" if likely is None else f"{_in_its_unit(reading, likely)} may have been meant ({slip})"
    return (
        f"{row}{where}: {reading.typed}{unit} was read; {around}; {meant}. "
        "It is kept as typed. Read it again, or confirm it; until then it is not reckoned with at its face."
    )


def _in_its_unit(reading: Reading, value: float) -> str:
    """A size in the unit and to the digits of the reading."""
    own = reading.understood.value
    text = reading.typed.strip().lstrip("+-−")
    decimals = len(text.split(".")[1]) if "." in text and text.replace(".", "").isdigit() else 4
    scale = _scale(reading, own)
    return f"{value / scale:.{decimals}f} {reading.unit or 'in'}"


def _scale(reading: Reading, own: float | None) -> float:
    try:
        typed = float(reading.typed)
        if own and typed and not reading.base:
            return own / typed
    except ValueError:
        pass
    return 1e-3 if "mm" in reading.unit.lower() else INCH
