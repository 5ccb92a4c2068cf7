"""Keys in shafts and hubs: shear and crushing, and what the keyway takes."""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain


def key_force(*, torque: Number, shaft: Number) -> Number:
    """Force on a key at the shaft's surface [N]: 2 T / d."""
    return plain(2 * np.divide(torque, shaft))


def key_shear(*, torque: Number, shaft: Number, width: Number, length: Number) -> Number:
    """Shear stress of a key [Pa]: 2 T / (d w l) (Shigley 7-7)."""
    return plain(np.asarray(key_force(torque=torque, shaft=shaft)) / np.multiply(width, length))


def key_crushing(*, torque: Number, shaft: Number, thickness: Number, length: Number) -> Number:
    """Crushing stress on half the key's side [Pa]: 4 T / (d t l) (Shigley 7-7)."""
    return plain(2 * np.asarray(key_force(torque=torque, shaft=shaft)) / np.multiply(thickness, length))


def seat_depth(*, shaft: Number, width: Number, in_shaft: Number) -> Number:
    """Depth of the keyway from the shaft's crown [m]: depth of the side plus the rise of the arc over the key's width."""
    radius = np.divide(shaft, 2)
    return plain(np.asarray(in_shaft) + radius - np.sqrt(np.square(radius) - np.square(np.divide(width, 2))))


def rock(*, slack: Number, shaft: Number) -> Number:
    """How far a hub turns on its shaft by a loose key [rad]: slack / radius, plain."""
    return plain(2 * np.divide(slack, shaft))
