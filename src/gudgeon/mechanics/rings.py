"""Piston rings: gap and bore, gap hot, wall pressure, stress, and the leak at the joint."""

from __future__ import annotations

from typing import Literal

import numpy as np

from gudgeon.mechanics.numbers import Number, plain

Joint = Literal["butt", "mitre", "step"]


def gap_change(*, bore_change: Number) -> Number:
    """Change of a ring's end gap [m] where the bore is larger by ``bore_change`` [m]: pi times it.

    The ring's own length stays; TM 5-3805-261-34 rounds it to three thou of gap for one thou of bore.
    """
    return plain(np.multiply(np.pi, bore_change))


def gap_in(*, gap: Number, tried_in: Number, bore: Number) -> Number:
    """End gap [m] in one bore [m] of a ring whose gap was read in another, ``tried_in`` [m]."""
    return plain(gap + np.pi * np.subtract(bore, tried_in))


def hot_gap(
    *, cold_gap: Number, bore: Number, expansion_ring: Number, rise_ring: Number, expansion_bore: Number, rise_bore: Number
) -> Number:
    """End gap at work [m]: cold gap + pi D (a_bore dT_bore - a_ring dT_ring); at or below zero the ends butt.

    Parameters
    ----------
    bore : [m]. expansion_* : [1/K]. rise_* : above the temperature at which the cold gap was read [K].
    """
    grown = np.multiply(expansion_bore, rise_bore) - np.multiply(expansion_ring, rise_ring)
    return plain(cold_gap + np.pi * np.multiply(bore, grown))


def _stiffness(thickness: Number, mean_radius: Number, curved: bool) -> Number:
    """Second moment of the section over its width [m3]; for a curved bar A e R over the width (Winkler-Bach)."""
    if not curved:
        return plain(np.power(thickness, 3) / 12)
    half = np.divide(thickness, 2)
    neutral = thickness / np.log((mean_radius + half) / (mean_radius - half))
    return plain(thickness * (mean_radius - neutral) * mean_radius)


def radial_pressure(*, bore: Number, thickness: Number, free_gap: Number, modulus: Number, curved: bool = False) -> Number:
    """Wall pressure [Pa] of a ring that was cut from a free gap to press evenly all round.

    Thin curved beam under a uniform load w per length of mean arc: gap = 3 pi w Rm^4 / (E I). With the load p acting on the
    mean radius this is p = E G t^3 / (36 pi Rm^4), the textbooks' 0.1415 E G t^3 / (D - t)^4.

    Parameters
    ----------
    bore : D [m]. thickness : radial, t [m]. free_gap : loose gap less fitted gap, G [m]. modulus : E [Pa].
    curved : use the section's stiffness as a curved bar (Winkler-Bach, A e R) and let p act on the outer radius; 4 % less
        at t = D/25, which is well inside what a ring's free gap is known to.

    Valid for t < D/10. A ring worn unevenly or hammered to a pear shape presses unevenly; the mean is what is given here.
    """
    mean = np.subtract(bore, thickness) / 2
    load = modulus * free_gap * _stiffness(thickness, mean, curved) / (3 * np.pi * mean**4)
    return plain(load * mean / (np.divide(bore, 2)) if curved else load)


def tension(*, pressure: Number, bore: Number, width: Number) -> Number:
    """Tangential pull [N] at the ends that holds a ring closed: p b D / 2, for axial width b [m] and wall pressure [Pa]."""
    return plain(np.multiply(pressure, width) * bore / 2)


def stress_closed(*, bore: Number, thickness: Number, free_gap: Number, modulus: Number) -> Number:
    """Greatest bending stress [Pa] of the ring at work, opposite the joint: E G t / (3 pi Rm^2).

    From the moment 2 w Rm^2 of the evenly pressing ring; the textbooks' 0.4244 E G t / (D - t)^2.
    """
    mean = np.subtract(bore, thickness) / 2
    return plain(np.multiply(modulus, free_gap) * thickness / (3 * np.pi * mean**2))


def gap_over_piston(*, thickness: Number, fitted_gap: Number = 0.0) -> Number:
    """Gap [m] to which a ring must be opened for its inside to pass over the piston, staying round: 2 pi t + fitted gap.

    Textbooks round it to 8 t, since a ring sprung by its ends does not stay round.
    """
    return plain(2 * np.pi * thickness + fitted_gap)


def stress_opened(*, bore: Number, thickness: Number, free_gap: Number, opened_gap: Number, modulus: Number) -> Number:
    """Greatest bending stress [Pa] while the ring is sprung by its ends from its free gap to ``opened_gap`` [m].

    The gap of a ring pulled at its ends is 3 pi Q Rm^3 / (E I), its greatest moment 2 Q Rm, hence
    E (opened - free) t / (3 pi Rm^2).
    """
    mean = np.subtract(bore, thickness) / 2
    return plain(np.multiply(modulus, np.subtract(opened_gap, free_gap)) * thickness / (3 * np.pi * mean**2))


def joint_leak_area(
    *,
    joint: Joint,
    gap: Number,
    land_clearance: Number,
    angle: float = np.pi / 4,
    step_clearance: Number = 0.0,
    thickness: Number = 0.0,
) -> Number:
    """Least free area at a ring's joint [m2], for a ring that seals everywhere else.

    butt: gap x radial clearance between land and bore. mitre: the same x sine of the cut's ``angle`` to the ring's plane
    [rad]. step: the smaller of the butt area and the slit between the overlapping tongues, ``step_clearance`` x radial
    ``thickness``. Plane geometry; the discharge coefficient is the gas flow's affair.

    Parameters
    ----------
    gap : end gap [m]. land_clearance : on the radius, between piston land and bore [m].
    step_clearance : axial play between the tongues of a step joint [m].
    """
    straight = np.multiply(gap, land_clearance)
    if joint == "butt":
        return plain(straight)
    if joint == "mitre":
        return plain(straight * np.sin(angle))
    return plain(np.minimum(straight, np.multiply(step_clearance, thickness)))
