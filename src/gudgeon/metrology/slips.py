"""Slips of hand and eye: what was probably meant by a reading that its neighbours make implausible.

For each slip the reading could have come from, the size that was meant is worked out and held against what the neighbours
expect. The odds of a slip against an honest odd reading are

    sum over slips (share x density of the meant size) / (honest share x density of the reading)

with a normal curve for what was meant and a heavy-tailed one (Student's t with five degrees of freedom) for an honest reading.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from gudgeon.engine.reading import Reading
from gudgeon.metrology.neighbours import REPEATS, SIBLINGS, Expected

INCH = 0.0254
SLIPS_PER_READING = 0.02
"""How often a reading at the bench is a slip (common practice, about one in fifty)."""
DOUBT_AT = 0.9
RESIZED, RESIZED_OVER = 0.1, 0.06 * INCH
"""How often one of several alike was re-sized since, and over what range: it then honestly stands apart from its siblings."""
FAR = 8.0
"""A reading this many spreads off its repeats is asked about even where no slip explains it."""
VERY_FAR = 40.0
VERY_FAR_SHARE = 0.03
"""The same against other spots or siblings: so many spreads, and so much of the size (no usual re-sizing is more)."""

_SHARES = {
    "one turn of the thimble": 0.25,
    "two adjacent digits swapped": 0.2,
    "a tenth of an inch wrong": 0.12,
    "the wrong whole inch": 0.12,
    "the decimal point misplaced": 0.08,
    "millimetres written as inches": 0.06,
    "inches written as millimetres": 0.04,
    "one digit misread": 0.1,
    "the wrong base": 0.03,
}


@dataclass(frozen=True, slots=True)
class Judged:
    """A judgement of one reading: the chance that it is a slip, what was then meant [SI] and which slip."""

    chance: float
    likely: float | None
    slip: str


@dataclass(frozen=True, slots=True)
class Meant:
    """A size that may have been meant [SI], by which slip."""

    size: float
    slip: str


def meanings(reading: Reading) -> list[Meant]:
    """Every size that a slip could have turned into this reading."""
    value = reading.understood.value
    if value is None:
        return []
    found = list(_from_digits(reading, value))
    if reading.understood.dimension == "length":
        found += list(_from_the_gauge(reading, value))
    return found


def _from_the_gauge(reading: Reading, value: float) -> Iterator[Meant]:
    metric = _is_metric(reading)
    turns = (0.5e-3, 1e-3) if metric else (0.025 * INCH,)
    for turn in turns:
        yield Meant(value + turn, "one turn of the thimble")
        yield Meant(value - turn, "one turn of the thimble")
    for sign in (1, -1):
        yield Meant(
            value + sign * (1e-3 if metric else 0.1 * INCH), "a tenth of an inch wrong" if not metric else "the wrong base"
        )
        yield Meant(value + sign * (25e-3 if metric else INCH), "the wrong whole inch")
    yield Meant(
        value / 25.4 if not metric else value * 25.4,
        "millimetres written as inches" if not metric else "inches written as millimetres",
    )
    if reading.base or reading.typed.strip().startswith(("+", "-", "−")):
        for step in (0.0625, 0.125):
            for sign in (1, -1):
                yield Meant(value + sign * step * INCH, "the wrong base")


def _from_digits(reading: Reading, value: float) -> Iterator[Meant]:
    text = reading.typed.strip()
    if not re.fullmatch(r"[+-]?\d*\.?\d+", text):
        return
    typed = float(text)
    if typed == 0:
        return
    scale, base = value / typed, 0.0
    if reading.base:
        return  # a departure from a base has too few digits to swap
    for factor in (10.0, 0.1, 100.0, 0.01):
        yield Meant(value * factor, "the decimal point misplaced")
    places = [place for place, sign in enumerate(text) if sign.isdigit()]
    for first, second in pairwise(places):
        if text[first] != text[second]:
            swapped = list(text)
            swapped[first], swapped[second] = text[second], text[first]
            yield Meant(float("".join(swapped)) * scale + base, "two adjacent digits swapped")
    for place in places:
        for other in _LOOKALIKE.get(text[place], ""):
            yield Meant(float(text[:place] + other + text[place + 1 :]) * scale, "one digit misread")


_LOOKALIKE = {"6": "09", "9": "67", "3": "8", "8": "3", "1": "7", "7": "1", "0": "6", "5": "6"}


def _is_metric(reading: Reading) -> bool:
    return "mm" in reading.unit.lower() or "mm" in reading.typed.lower()


def judge(reading: Reading, expected: Expected, *, noise: float) -> Judged:
    """How likely a reading is a slip, given what its neighbours expect; ``noise`` is the gauge's and hand's own [SI]."""
    value = reading.understood.value
    assert value is not None
    sigma = max(expected.spread, noise)
    honest = (1 - SLIPS_PER_READING) * _student(abs(value - expected.value) / sigma) / sigma
    if expected.who == SIBLINGS and reading.understood.dimension == "length":
        honest += RESIZED / RESIZED_OVER
    odds: dict[tuple[str, float], float] = {}
    groups = meanings(reading)
    counts: dict[str, int] = {}
    for meant in groups:
        counts[meant.slip] = counts.get(meant.slip, 0) + 1
    for meant in groups:
        share = SLIPS_PER_READING * _SHARES[meant.slip] / counts[meant.slip]
        density = math.exp(-0.5 * min(((meant.size - expected.value) / sigma) ** 2, 1400)) / (sigma * math.sqrt(2 * math.pi))
        odds[meant.slip, meant.size] = share * density / honest
    total = sum(odds.values())
    if not odds or total <= 0:
        return Judged(0.0, None, "")
    (slip, likely), _ = max(odds.items(), key=lambda pair: pair[1])
    return Judged(total / (1 + total), likely, slip)


def _student(ratio: float) -> float:
    """Density of Student's t with five degrees of freedom."""
    return 8 / (3 * math.pi * math.sqrt(5)) / (1 + ratio * ratio / 5) ** 3


def is_far(reading: Reading, expected: Expected, *, noise: float) -> bool:
    """Is the reading so far off that it must be asked about, whatever explains it?

    Against repeats at the same spot that is soon so; against other spots only well beyond what wear or an earlier repair does.
    """
    value = reading.understood.value
    if value is None or expected.count < 2:
        return False
    away = abs(value - expected.value)
    if expected.who == REPEATS:
        return away > FAR * max(expected.spread, noise)
    return expected.count >= 3 and away > max(VERY_FAR * max(expected.spread, noise), VERY_FAR_SHARE * abs(expected.value))
