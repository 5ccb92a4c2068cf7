"""Tightening torque and what it makes of the bolt: T = K F d, with the spread that K really has."""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain


def tightening_torque(*, force: Number, diameter: Number, coefficient: Number) -> Number:
    """T = K F d [N m] (Shigley 8-27); K holds all friction of thread and nut."""
    return plain(np.multiply(coefficient, force) * diameter)


def preload(*, torque: Number, diameter: Number, coefficient: Number) -> Number:
    """F = T / (K d) [N]; the other way round. Draws of K give the spread of F."""
    return plain(np.asarray(torque) / np.multiply(coefficient, diameter))


def coefficient_of_friction(*, thread: Number, seat: Number, diameter: Number, pitch: Number, half_angle: Number) -> Number:
    """K from the frictions of thread and seat: (dm/2d)(tan l + f sec a)/(1 - f tan l sec a) + 0.625 fc (Shigley 8-26).

    ``half_angle`` of the flanks [rad]; dm is the mean of major and core diameter, tan l = p / (pi dm).
    """
    mean = np.asarray(diameter) - 0.649519 * np.asarray(pitch)
    lead = np.asarray(pitch) / (np.pi * mean)
    sec = 1 / np.cos(half_angle)
    turning = (lead + np.multiply(thread, sec)) / (1 - np.multiply(thread, lead) * sec)
    return plain(mean / (2 * np.asarray(diameter)) * turning + 0.625 * np.asarray(seat))


def proof_preload(*, stress_area: Number, proof: Number, share: Number = 0.75) -> Number:
    """Preload for a joint that comes apart again [N]: 0.75 of proof strength times stress area (Shigley 8-31)."""
    return plain(np.multiply(share, proof) * stress_area)


def spread(*, likely: Number, scatter: Number, normal: Number) -> Number:
    """Draws of K: lognormal about ``likely`` so that two sigma reach 1 + ``scatter``; ``normal`` are standard normal draws.

    A torque wrench sets a preload within about 30 per cent (leadergt.com, preload accuracy): scatter 0.30.
    """
    return plain(np.multiply(likely, np.exp(np.log1p(scatter) / 2 * np.asarray(normal))))
