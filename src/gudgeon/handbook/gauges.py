"""Gauges of the home shop: step, repeatability, doubt of their calibration, and how they are held."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from gudgeon.handbook.shelf import Grade, UnknownName, check, dimension, si, source, table


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeKind:
    """A kind of gauge and the uncertainty to assume of one until its owner's own repeats and setting say otherwise.

    Attributes
    ----------
    name : plain name. ``aliases`` are other ways people write it; spaces, dashes and underscores count alike.
    dimension : of what it reads.
    resolution : smallest step that can be read [SI]; 0 for counting.
    repeatability : standard deviation of one careful reading, feel and reader included [SI].
    calibration : standard uncertainty of its constant offset where it was not checked against a standard [SI].
    reads : "point", or "interval" where it only brackets a size (a leaf goes, the next does not).
    feel : what disturbs it: cosine error, the touch, the spring of the frame.
    habit : how to use it, for the bench sheet.
    """

    name: str
    aliases: tuple[str, ...]
    dimension: str
    unit: str
    resolution: float
    repeatability: float
    calibration: float
    reads: Literal["point", "interval"]
    feel: str
    habit: str
    source: str
    grade: Grade
    from_memory: bool


NEEDS = ("unit", "resolution", "repeatability", "calibration", "source")
MAY = ("aliases", "reads", "feel", "habit", "memory", "grade", "dimension")


@cache
def gauge_kinds() -> Mapping[str, GaugeKind]:
    """All kinds of gauge by name."""
    return {name: _gauge(name, raw) for name, raw in table("gauges.toml").items()}


def _gauge(name: str, raw: Mapping[str, Any]) -> GaugeKind:
    where = f"gauges.toml [{name}]"
    check(raw, where=where, needs=NEEDS, may=MAY)
    cited = source(str(raw["source"]), where=where)
    unit = str(raw["unit"])
    scale = si(1.0, unit) - si(0.0, unit)  # a step, not a point: a degree Celsius is a kelvin
    resolution, repeatability, calibration = (float(raw[key]) * scale for key in ("resolution", "repeatability", "calibration"))
    return GaugeKind(
        name=name,
        aliases=tuple(raw.get("aliases", ())),
        dimension=str(raw.get("dimension", dimension(unit))),
        unit=unit,
        resolution=resolution,
        repeatability=repeatability,
        calibration=calibration,
        reads="interval" if raw.get("reads") == "interval" else "point",
        feel=str(raw.get("feel", "")),
        habit=str(raw.get("habit", "")),
        source=cited.title,
        grade=cited.grade,
        from_memory=bool(raw.get("memory", cited.seen == "memory")),
    )


def _plain(name: str) -> str:
    return re.sub(r"[\s_\-]+", " ", name.strip().lower())


@cache
def _by_any_name() -> Mapping[str, GaugeKind]:
    return {_plain(alias): kind for name, kind in gauge_kinds().items() for alias in (name, *kind.aliases)}


def gauge_kind(name: str) -> GaugeKind:
    """A kind of gauge by its name or an alias; raises ``UnknownName`` with the near ones."""
    try:
        return _by_any_name()[_plain(name)]
    except KeyError:
        raise UnknownName("kind of gauge", name, _by_any_name()) from None
