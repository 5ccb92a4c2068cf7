"""The shim book: which shims of a split bearing to take out for a clearance, with the shims that are really there.

Taking the same thickness t from each side closes the bearing by t along the bolts and leaves it as it was across them: the
hole turns oval by t (geometry). Taking tl and tr closes it by their mean at the crown and tilts the cap by their difference.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

SAME = 1e-7
"""Thicknesses that differ by less [m] are one size."""

MOST_ADDED = 2
"""How many thinner shims from stock may go in on a side in exchange for a thick one taken out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One side of a joint after a change: thicknesses taken out, put in, and left there [m]."""

    out: tuple[float, ...]
    put_in: tuple[float, ...]
    left: tuple[float, ...]

    @property
    def taken(self) -> float:
        """By how much the side is thinner [m]."""
        return sum(self.out) - sum(self.put_in)

    @property
    def total(self) -> float:
        """Thickness left between the halves on this side [m]."""
        return sum(self.left)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimChange:
    """What to do at one bearing.

    Attributes
    ----------
    left, right : the two sides. clearance : along the bolts afterwards [m].
    closed : by how much it closed along the bolts [m]; also the oval that it makes.
    tilt : difference between the sides [m].
    """

    left: Side
    right: Side
    clearance: float
    closed: float
    tilt: float


def choose(
    *,
    left: Sequence[float],
    right: Sequence[float],
    clearance: float,
    low: float,
    high: float,
    stock: Sequence[float] = (),
    equal: bool = True,
) -> ShimChange | None:
    """The change of shims that brings a clearance nearest to the middle of a band.

    Parameters
    ----------
    left, right : thicknesses of the shims on each side [m].
    clearance : along the bolts as found [m]. low, high : the band aimed at [m].
    stock : thicknesses that may be put in instead of thicker ones, two at most to a side.
    equal : take the same from both sides; otherwise they may differ by one thin shim where that comes nearer.

    A clearance below the band is never chosen where one within or above it can be had; of equals the one that moves the fewest
    shims. None where nothing can be taken or nothing would come nearer.
    """
    wanted = 0.5 * (low + high)
    best: tuple[tuple[float, ...], ShimChange] | None = None
    for one, other in product(_ways(left, stock), _ways(right, stock)):
        tilt = abs(one.taken - other.taken)
        if equal and tilt > SAME:
            continue
        closed = 0.5 * (one.taken + other.taken)
        after = clearance - closed
        moves = sum(len(side.out) + len(side.put_in) for side in (one, other))
        too_tight = max(low - after, 0.0)
        key = (round(too_tight / SAME), round(abs(after - wanted) / SAME), round(tilt / SAME), moves)
        change = ShimChange(left=one, right=other, clearance=after, closed=closed, tilt=tilt)
        if best is None or key < best[0]:
            best = (key, change)
    if best is None or best[1].closed <= SAME:
        return None
    return best[1]


def _ways(shims: Sequence[float], stock: Sequence[float]) -> list[Side]:
    """Every way of making one side thinner or leaving it, one for each amount taken: the one that moves the fewest shims."""
    kinds: dict[float, int] = {}
    for each in shims:
        kinds[round(each, 8)] = kinds.get(round(each, 8), 0) + 1
    sizes = sorted(kinds, reverse=True)
    additions: list[tuple[float, ...]] = [()]
    additions += [(each,) for each in stock]
    additions += [(one, other) for n, one in enumerate(stock) for other in stock[n:]] if MOST_ADDED > 1 else []
    found: dict[int, Side] = {}
    for counts in product(*(range(kinds[size] + 1) for size in sizes)):
        out = tuple(size for size, count in zip(sizes, counts, strict=True) for _ in range(count))
        kept = tuple(size for size, count in zip(sizes, counts, strict=True) for _ in range(kinds[size] - count))
        for put_in in additions:
            if any(any(abs(each - gone) < SAME for gone in out) for each in put_in):
                continue
            side = Side(out=out, put_in=tuple(put_in), left=tuple(sorted((*kept, *put_in), reverse=True)))
            if side.taken < -SAME or (put_in and side.taken <= SAME):
                continue
            key = round(side.taken / SAME)
            if key not in found or len(side.out) + len(side.put_in) < len(found[key].out) + len(found[key].put_in):
                found[key] = side
    return list(found.values())


def takings_left(*, left: Sequence[float], right: Sequence[float], step: float) -> int:
    """How often a step [m] can still be taken from both sides before the halves meet."""
    return int(min(sum(left), sum(right)) / step + 1e-6)
