"""Poured linings: how much metal, how it shrinks, what bore to leave for the tool."""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain


def lining_volume(*, shell: Number, bore: Number, length: Number) -> Number:
    """Metal between a shell and the bore as poured [m3]: pi/4 (D^2 - d^2) L."""
    return plain(np.pi / 4.0 * (np.square(shell) - np.square(bore)) * length)


def metal_to_melt(
    *, shell: Number, bore: Number, length: Number, density: Number, head: Number = 0.5, loss: Number = 0.1
) -> Number:
    """Babbitt to have molten in the ladle [kg].

    Formula: lining volume x density x (1 + head + loss): ``head`` is the riser and what stands above the shell, ``loss`` the
    dross; one half and a tenth : common practice. A pour that stops for want of metal is lost.
    """
    volume = lining_volume(shell=shell, bore=bore, length=length)
    return plain(np.multiply(volume, density) * (1.0 + np.add(head, loss)))


def shrinkage(*, expansion: Number, solid_at: Number, cold: Number = 20.0) -> Number:
    """Free linear shrinkage of a lining from where it is all solid to the cold [1]: alpha (T - T0).

    The shell lets a bonded lining shrink only across its wall; an unbonded one draws away from the shell by this much of its
    radius, which is how a bad bond shows.
    """
    return plain(np.multiply(expansion, np.subtract(solid_at, cold)))


def gap_behind(
    *, shell: Number, lining_shrinkage: Number, shell_expansion: Number, shell_hot: Number, cold: Number = 20.0
) -> Number:
    """Gap on the diameter that an unbonded lining leaves behind it when cold [m]: it shrinks more than the shell."""
    shell_shrinks = np.multiply(shell_expansion, np.subtract(shell_hot, cold))
    return plain(np.asarray(shell) * np.maximum(np.subtract(lining_shrinkage, shell_shrinks), 0.0))


def bore_to_leave(*, finished: Number, cut: Number) -> Number:
    """Bore to pour to [m], on the diameter: finished bore less what boring and scraping take."""
    return plain(np.subtract(finished, cut))


def mandrel(*, bore: Number, expansion: Number, mandrel_hot: Number, cold: Number = 20.0) -> Number:
    """Diameter to turn the mandrel to, measured cold [m]: it is hot when the metal sets round it."""
    return plain(np.asarray(bore) / (1.0 + np.multiply(expansion, np.subtract(mandrel_hot, cold))))


def lining_thickness(*, shell: Number, bore: Number) -> Number:
    """Thickness of a lining [m]: (D - d) / 2."""
    return plain(np.subtract(shell, bore) / 2.0)
