"""What to draw of a finding: data for the pictures room, which alone knows how it looks."""

from __future__ import annotations

from dataclasses import dataclass

from gudgeon.engine.finding import Finding


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreMap:
    """A bore opened out flat: wear at each spot [m] by depth [m] and direction [degree], with the ring travel's ends.

    ``value`` is the estimated wear there; ``worst`` the largest of it. ``clean_up`` is the size that would true it [m].
    """

    title: str
    spots: tuple[tuple[float, float, float], ...]
    travel_top: float | None
    travel_bottom: float | None
    worst: float
    nominal: float
    clean_up: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WallMap:
    """Wall thickness round a bore [m] by direction [degree] and depth [m], with the least allowed [m]."""

    title: str
    spots: tuple[tuple[float, float, float], ...]
    least: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """Found, target and limit of one finding on one scale."""

    finding: Finding


@dataclass(frozen=True, slots=True, kw_only=True)
class SizePosterior:
    """The candidates for a nominal size: size [m], how it is written, probability."""

    title: str
    candidates: tuple[tuple[float, str, float], ...]
    readings: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """One or more curves on common axes. Axis texts carry their units; ``bands`` are (name, low, high) on y."""

    title: str
    x_text: str
    y_text: str
    curves: tuple[tuple[str, tuple[tuple[float, float], ...]], ...]
    bands: tuple[tuple[str, float, float], ...] = ()
    marks: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """Outlines of one thing laid over each other at one scale: (name, points [m]), y upward, the first as it was made.

    ``circles`` are (name, radius [m]) about the origin, drawn where they cross the outlines.
    """

    title: str
    outlines: tuple[tuple[str, tuple[tuple[float, float], ...]], ...]
    circles: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TimingChart:
    """When valves are open and where sparks fall, on a circle turned from inner dead centre [degree of crank].

    ``arcs`` are (name, opens, closes), closes the greater; ``marks`` are (name, angle), negative before the centre.
    """

    title: str
    arcs: tuple[tuple[str, float, float], ...]
    marks: tuple[tuple[str, float], ...] = ()


Picture = BoreMap | WallMap | Strip | SizePosterior | Curve | Profile | TimingChart
