"""Lost motion and drag in a chain of levers and rods, brought to its first end or its last.

The chain runs joint 1, lever 1, joint 2, lever 2, ..., joint n. A lever is driven at one arm and drives by the other.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from gudgeon.mechanics.numbers import Number, plain


def lever_ratio(*, driving: Number, driven: Number) -> Number:
    """Travel of the driven end for one of the driving end: driven arm over driving arm, small angles."""
    return plain(np.divide(driven, driving))


def fulcrum_play(*, clearance: Number, driving: Number, driven: Number) -> Number:
    """Play at a lever's driving end [m] by clearance at its fulcrum, the driven end held still: c (1 + driving/driven)."""
    return plain(np.multiply(clearance, 1 + np.divide(driving, driven)))


def ratio_before(*, ratios: Sequence[Number], joint: int) -> Number:
    """Travel at a joint (counted from 1) for one at the first: the product of the ratios of the levers before it."""
    found: Number = 1.0
    for ratio in ratios[: joint - 1]:
        found = plain(np.multiply(found, ratio))
    return found


def slack_at_start(*, plays: Sequence[Number], ratios: Sequence[Number]) -> Number:
    """All play of a chain, as lost travel of its first joint [m]: the sum of play k over the ratios before it.

    ``plays`` of joints 1 to n, ``ratios`` of levers 1 to n - 1 at least. Raises ValueError for too few levers.
    """
    if len(ratios) < len(plays) - 1:
        raise ValueError(f"{len(plays)} joints and {len(ratios)} levers were given; a lever between any two joints is right.")
    total: Number = 0.0
    for joint, play in enumerate(plays, 1):
        total = plain(np.add(total, np.divide(play, ratio_before(ratios=ratios, joint=joint))))
    return total


def slack_at_end(*, plays: Sequence[Number], ratios: Sequence[Number]) -> Number:
    """The same as lost travel of the last joint [m]: slack at the start times all ratios between."""
    return plain(np.multiply(slack_at_start(plays=plays, ratios=ratios), ratio_before(ratios=ratios, joint=len(plays))))


def force_at_start(*, force: Number, ratio: Number) -> Number:
    """Force at the first joint [N] that a force further on needs, no friction between: F times the ratio (work is kept)."""
    return plain(np.multiply(force, ratio))


# ---- the butterfly at the end of it


def shaft_leak_area(*, shaft: Number, clearance: Number, ends: int = 2) -> Number:
    """Free area round a worn throttle shaft [m2]: pi d c / 2 at each end; c on the diameter, lying anyhow in its hole."""
    return plain(ends * np.pi / 2 * np.multiply(shaft, clearance))


def disc_leak_area(*, bore: Number, gap: Number, open_angle: Number = 0.0, closed_angle: Number = 0.0) -> Number:
    """Free area round a round disc that is shut [m2]: pi D times the gap at its edge, and what the opening adds.

    (pi D^2 / 4)(1 - cos a / cos a0), a the angle from square to the bore and a0 that at which it would touch (Heywood, Internal
    Combustion Engine Fundamentals, 7.3, shaft left out; from memory).
    """
    opened = np.pi / 4 * np.square(bore) * (1 - np.cos(open_angle) / np.cos(closed_angle))
    return plain(np.pi * np.multiply(bore, gap) + np.maximum(opened, 0.0))


def shaft_drag(*, suction: Number, bore: Number, shaft: Number, friction: Number) -> Number:
    """Torque that suction on a shut disc costs at its shaft [N m]: mu p (pi D^2 / 4) d / 2."""
    return plain(np.multiply(friction, suction) * np.pi / 4 * np.square(bore) * np.divide(shaft, 2))
