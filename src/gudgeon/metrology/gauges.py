"""Gauges: what each kind can be trusted for, what its setting standards said that day, and how well it repeats."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from gudgeon.engine.reading import Reading
from gudgeon.handbook.gauges import gauge_kind
from gudgeon.handbook.shelf import UnknownName

INCH = 0.0254
STANDARD_PART = "setting_standard"
STANDARD_MAKE = 0.00005 * INCH
"""Standard uncertainty of a workshop setting standard's own size where nothing better is said (common practice)."""
PRIOR_FREEDOM = 4.0
"""Weight of the default repeatability of a gauge's kind, as degrees of freedom, against the repeats of the job."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """What a kind of gauge can be trusted for, SI.

    Attributes
    ----------
    resolution : its usual smallest step.
    offset : standard uncertainty of its zero when it was not checked against a standard.
    repeat : standard deviation of one reading by an average hand.
    interval : it brackets a size instead of showing it (feelers, gauging strip).
    source : where the figures come from.
    known : False for a kind that the handbook does not have, taken wide.
    """

    name: str
    resolution: float
    offset: float
    repeat: float
    interval: bool = False
    source: str = ""
    known: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Offset:
    """A gauge's offset on the day: what it shows minus what is there [SI], with its standard uncertainty and freedom.

    ``standards`` names the setting standards it was checked on, ``readings`` their entries; both empty for the default.
    """

    gauge: str
    value: float
    uncertainty: float
    freedom: float
    standards: tuple[str, ...] = ()
    readings: tuple[str, ...] = ()
    sentence: str = ""


def _plain(name: str) -> str:
    return " ".join(name.replace("_", " ").lower().split())


def kind_of(name: str, *, dimension: str, resolution: float | None) -> Kind:
    """The kind of gauge a name means, from the handbook; ``resolution`` is the step that the reading states [SI].

    An unknown one is taken wide: two of its steps for its zero and one for its repeats, and that is said.
    """
    try:
        row = gauge_kind(name) if name.strip() else None
    except UnknownName:
        row = None
    if row is not None and row.dimension == dimension:
        return Kind(
            name=name,
            resolution=resolution or row.resolution,
            offset=row.calibration,
            repeat=row.repeatability,
            interval=row.reads == "interval",
            source=row.source,
        )
    step = resolution or _SMALLEST.get(dimension, 0.0)
    return Kind(
        name=name, resolution=step, offset=2 * step, repeat=step, source="taken wide from its smallest step", known=False
    )


_SMALLEST = {"length": 0.001 * INCH}


_CERTIFIED = re.compile(r"certified\s+([\d.]+)\s*(in|mm|inch|inches)\b", re.IGNORECASE)
_NAMED = re.compile(r"([\d.]+)\s*(in|mm|inch|inches|\")", re.IGNORECASE)


def certified_size(reading: Reading) -> float | None:
    """Size of the standard that was read [m], from the note ("certified 2.0000 in") or from its name."""
    found = _CERTIFIED.search(reading.note) or _NAMED.search(reading.place.item) or _NAMED.search(reading.setting)
    if found is None:
        return None
    return float(found.group(1)) * (1e-3 if found.group(2).lower() == "mm" else INCH)


def is_standard(reading: Reading) -> bool:
    """Is this a reading of a setting standard rather than of the engine?"""
    return _names_standard(reading.place.part, reading.place.item)


@lru_cache(maxsize=8192)
def _names_standard(part: str, item: str) -> bool:
    return _plain(part) == _plain(STANDARD_PART) or "setting standard" in _plain(item)


def repeatability(squares: float, freedom: float, *, default: float) -> tuple[float, float]:
    """Pooled standard deviation of one reading and its degrees of freedom.

    ``squares`` is the sum over spots of (x - mean)^2, ``freedom`` the sum of (n - 1). s^2 = (4 s0^2 + squares) / (4 + freedom):
    the default s0 of the gauge's kind counts as four earlier readings, so that two lucky repeats do not make a gauge perfect
    (JCGM 100:2008, 4.2.4, pooling). Given to two figures, as an uncertainty is (7.2.6), so that one more repeat seldom moves
    all estimates.
    """
    total = PRIOR_FREEDOM + freedom
    pooled = math.sqrt((PRIOR_FREEDOM * default**2 + squares) / total)
    return (float(f"{pooled:.1e}"), float(f"{total:.1e}"))


def rounding(*, resolution: float, repeat: float, count: int) -> float:
    """Standard uncertainty left by rounding to the smallest step: step/sqrt(12), averaged away only where readings scatter by
    more than half a step (JCGM 100:2008, F.2.2.1)."""
    one = resolution / math.sqrt(12)
    return one / math.sqrt(count) if repeat > resolution / 2 else one


def offset_of(gauge: str, standards: Sequence[Reading], *, kind: Kind, repeat: float, freedom: float) -> Offset:
    """The offset of one gauge from its readings of setting standards, or the default of its kind.

    Standard and gauge are taken to be at one temperature and both of steel, so that what is left is the gauge's own.
    """
    deviations: dict[str, list[float]] = {}
    used: list[str] = []
    for reading in standards:
        size = certified_size(reading)
        if size is not None and reading.understood.value is not None:
            deviations.setdefault(reading.place.item, []).append(reading.understood.value - size)
            used.append(reading.id)
    if not deviations:
        return Offset(gauge=gauge, value=0.0, uncertainty=kind.offset, freedom=math.inf, sentence=_unchecked(gauge, kind))
    every = [each for group in deviations.values() for each in group]
    value = math.fsum(every) / len(every)
    scatter = repeat / math.sqrt(len(every))
    step = rounding(resolution=kind.resolution, repeat=repeat, count=len(every))
    uncertainty = math.sqrt(scatter**2 + step**2 + STANDARD_MAKE**2)
    names = tuple(deviations)
    return Offset(
        gauge=gauge,
        value=value,
        uncertainty=uncertainty,
        freedom=freedom * (uncertainty / scatter) ** 4 if scatter else math.inf,
        standards=names,
        readings=tuple(used),
        sentence=f"{gauge or 'the gauge'} was checked on {' and '.join(names)}, {len(every)} readings.",
    )


def _unchecked(gauge: str, kind: Kind) -> str:
    if not gauge:
        return "No gauge was named: a wide allowance is made for its zero."
    if not kind.known:
        return f"“{gauge}” is no kind of gauge known here: a wide allowance is made for its zero and its feel."
    return f"{gauge} was not checked on a setting standard: the usual allowance for its kind is made for its zero."
