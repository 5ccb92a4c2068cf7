"""Timing of spark and valves: magneto drive, impulse lag, teeth of a coupling, firing orders, events from lobe and lash.

Angles in radian. Crank angles grow with rotation. Where the piston stands for a crank angle, distances along the rim and dead
centre by a stop are in ``slider_crank``.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import pairwise, product

import numpy as np

from gudgeon.mechanics.numbers import Number, plain

TURN = 2.0 * math.pi


class FiringFault(ValueError):
    """Throws or lobes that no engine can have: what was read, what is wrong, what would be right."""


def sparks_per_crank_turn(*, cylinders: Number, strokes: Number) -> Number:
    """Sparks wanted for each turn of the crank: cylinders x 2 / strokes."""
    return plain(2.0 * np.asarray(cylinders, dtype=np.float64) / strokes)


def magneto_ratio(*, cylinders: Number, strokes: Number, sparks_per_turn: Number) -> Number:
    """Turns of the magneto for each turn of the crank: sparks wanted over sparks that one turn of it gives.

    Four-stroke with a two-spark armature: 1 for four cylinders, 1.5 for six, 2 for eight (Pagé, Aviation Engines, ch. VI).
    """
    return plain(np.divide(sparks_per_crank_turn(cylinders=cylinders, strokes=strokes), sparks_per_turn))


def train_ratio(teeth: Sequence[tuple[float, float]]) -> float:
    """Turns of the last shaft for each turn of the first: the product of driving teeth over driven teeth, mesh by mesh."""
    return math.prod(driving / driven for driving, driven in teeth)


def crank_of_magneto(*, angle: Number, ratio: Number) -> Number:
    """The crank angle [rad] in which the magneto turns through an angle: angle / ratio."""
    return plain(np.divide(angle, ratio))


def running_spark(*, trips_after: Number, lag: Number, ratio: Number) -> Number:
    """How far before dead centre the spark falls when the impulse has let go [rad of crank].

    The coupling holds the magneto back by its lag angle while cranking. Where it trips ``trips_after`` dead centre, the same
    spark falls lag / ratio earlier when it runs.
    """
    return plain(np.asarray(crank_of_magneto(angle=lag, ratio=ratio)) - trips_after)


def tooth_step(*, teeth: Number, ratio: Number = 1.0) -> Number:
    """By how much one tooth moves the timing [rad of crank]: 2 pi / (teeth x ratio); ratio is turns of the toothed shaft
    for each turn of the crank."""
    return plain(TURN / np.multiply(teeth, ratio))


def vernier_step(*, first: int, second: int, ratio: float = 1.0) -> float:
    """The finest step that a coupling with two rings of teeth allows [rad of crank]: 2 pi / (lcm x ratio)."""
    return TURN / (math.lcm(first, second) * ratio)


def lobe_events(*, nose: Number, half_open: Number) -> tuple[Number, Number]:
    """Crank angles at which a valve opens and closes [rad], from the crank angle at its full lift and the cam angle either
    side of it within which the lobe holds it open past the lash; the crank turns twice as far as the cam."""
    half = 2.0 * np.asarray(half_open, dtype=np.float64)
    return plain(nose - half), plain(nose + half)


def possible_orders(throws: Mapping[int, float], *, strokes: int = 4) -> tuple[tuple[int, ...], ...]:
    """Firing orders that a crank allows with even intervals, cylinder 1 first.

    Parameters
    ----------
    throws : per cylinder the crank angle after cylinder 1 is at inner dead centre at which it comes there [rad, 0 to a turn].

    In a four-stroke engine a cylinder fires either at that angle or a turn later; the cam decides. Orders with the most even
    intervals are given, so that an engine whose throws cannot be even (two cylinders side by side on throws half a turn
    apart) still has its orders. Raises FiringFault where cylinder 1 is missing or there are more than eight.
    """
    if 1 not in throws or len(throws) > 8:
        raise FiringFault(
            f"Throws of cylinders {', '.join(map(str, sorted(throws)))} were given; 1 and seven more at most are right."
        )
    cycle = strokes / 2.0 * TURN
    others = [cylinder for cylinder in sorted(throws) if cylinder != 1]
    ways = product(*([throws[c] % TURN + k * TURN for k in range(strokes // 2)] for c in others))
    found: dict[tuple[int, ...], float] = {}
    for way in ways:
        fires = sorted([(0.0, 1), *zip(((a - throws[1]) % cycle for a in way), others, strict=True)])
        order = tuple(cylinder for _, cylinder in fires)
        uneven = unevenness([at for at, _ in fires], cycle=cycle)
        found[order] = min(uneven, found.get(order, math.inf))
    least = min(found.values())
    return tuple(sorted(order for order, uneven in found.items() if uneven <= least + math.radians(2.0)))


def firing_order(nose: Mapping[int, float]) -> tuple[int, ...]:
    """The order in which cylinders fire, cylinder 1 first, from the crank angle of one and the same lobe of each [rad over two
    turns, growing with rotation]: like lobes follow each other as the cylinders fire.

    Raises FiringFault where cylinder 1 is missing or two lobes stand at one angle.
    """
    if 1 not in nose:
        raise FiringFault("The lobe of cylinder 1 was not given; it is what the others are counted from.")
    cycle = 2.0 * TURN
    ranked = sorted(((at - nose[1]) % cycle, cylinder) for cylinder, at in nose.items())
    if any(after[0] - before[0] < math.radians(5.0) for before, after in pairwise(ranked)):
        raise FiringFault("Two lobes of one kind stand within 5° of the crank; each cylinder's own place would be right.")
    return tuple(cylinder for _, cylinder in ranked)


def unevenness(fires: Sequence[float], *, cycle: float = 2.0 * TURN) -> float:
    """How far the widest interval between firings is from the narrowest [rad], from firing angles in rising order."""
    ends = [*fires, fires[0] + cycle]
    gaps = np.diff(np.asarray(ends))
    return float(gaps.max() - gaps.min())
