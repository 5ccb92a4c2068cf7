"""Geometry of worn bores, rings and running clearances: floats or arrays in, the same out; lengths [m], degree C."""

from __future__ import annotations

import math

from gudgeon.systems.cylinders.spots import Draws

REFERENCE = 20.0


def clean_up_on_old_centre(*, original: Draws, wear: Draws, share: Draws, pit: Draws, allowance: Draws) -> Draws:
    """Diameter at which a bore cleans up when it is bored on its original centre.

    The deepest place lies ``original / 2 + share x wear`` from that centre, and a pit deeper still; plain geometry.
    """
    return original + 2.0 * share * wear + 2.0 * pit + allowance


def clean_up_on_worn_centre(*, worst: Draws, pit: Draws, allowance: Draws) -> Draws:
    """Diameter at which a bore cleans up when the bar is set to the worn hole: the worn diameter, and pits on both sides."""
    return worst + 2.0 * pit + allowance


def centre_shift(*, wear: Draws, share: Draws) -> Draws:
    """How far the bore's centre moves when the bar follows the wear: half the difference between the two sides' wear."""
    return (share - 0.5) * wear


def gap_elsewhere(*, gap: Draws, diameter_here: Draws, diameter_there: Draws) -> Draws:
    """A ring's end gap where the bore has another diameter: it opens by pi times the growth."""
    return gap + math.pi * (diameter_there - diameter_here)


def hot_gap(
    *,
    gap: Draws,
    bore: Draws,
    ring_expansion: Draws,
    bore_expansion: Draws,
    ring_temperature: Draws,
    bore_temperature: Draws,
) -> Draws:
    """End gap at working heat: the ring's way round grows against that of the bore. Below nought the ends butt."""
    ring, wall = ring_expansion * (ring_temperature - REFERENCE), bore_expansion * (bore_temperature - REFERENCE)
    return gap - math.pi * bore * (ring - wall)


def hot_clearance(
    *,
    bore: Draws,
    shaft: Draws,
    bore_expansion: Draws,
    shaft_expansion: Draws,
    bore_temperature: Draws,
    shaft_temperature: Draws,
) -> Draws:
    """Clearance at working heat, both parts grown from 20 degree C."""
    grown = bore * (1.0 + bore_expansion * (bore_temperature - REFERENCE))
    return grown - shaft * (1.0 + shaft_expansion * (shaft_temperature - REFERENCE))
