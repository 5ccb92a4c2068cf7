"""Screw threads: form, core, stress area, tapping drill, strength of the engaged thread.

Forms: "60" US Standard and its heirs, "55" Whitworth, "47.5" British Association; sizes [m].
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from gudgeon.mechanics.numbers import Number, plain

Form = Literal["60", "55", "47.5"]

# Depth of the screw's thread over the pitch. US Standard with flats of p/8: 0.649519; Whitworth 0.640327; BA 0.6 (from memory).
DEPTH: dict[Form, float] = {"60": 0.649519, "55": 0.640327, "47.5": 0.6}
ROUND: dict[Form, float] = {"60": 0.0, "55": 0.137329, "47.5": 2 / 11}
"""Radius of crest and root over the pitch; 0 where the standard cuts flats."""
SHARP = 0.8660254
"""Height of the sharp triangle of a 60 degree thread over its pitch, cos 30."""


def depth(*, pitch: Number, form: Form) -> Number:
    """Depth of the screw's thread [m]."""
    return plain(np.multiply(DEPTH[form], pitch))


def core_diameter(*, major: Number, pitch: Number, form: Form) -> Number:
    """Root diameter of the screw [m]: D - 2 depth."""
    return plain(np.asarray(major) - 2 * np.asarray(depth(pitch=pitch, form=form)))


def effective_diameter(*, major: Number, pitch: Number, form: Form) -> Number:
    """Pitch (effective) diameter [m]: D - depth; the sixty-degree form has its own .649519 p (ASME B1.1; BS 84)."""
    return plain(np.asarray(major) - depth(pitch=pitch, form=form))


def stress_area(*, major: Number, pitch: Number) -> Number:
    """Tensile stress area [m2] of a sixty-degree thread: pi/4 (D - 0.9743/n)^2 (ASME B1.1), n threads to the length.

    Taken for Whitworth too, whose core is a hair larger, it errs to the safe side.
    """
    return plain(np.pi / 4 * np.square(np.asarray(major) - np.multiply(0.9743, pitch)))


def drill_for(*, major: Number, pitch: Number, share: Number, form: Form = "60") -> Number:
    """Tapping drill [m] for a share of the full thread.

    Sixty degree: D - share 2 x 0.649519 p, the common "per cent of thread" (75 % is usual); the others on their own depth.
    """
    return plain(np.asarray(major) - 2 * np.multiply(share, depth(pitch=pitch, form=form)))


def share_of_thread(*, major: Number, pitch: Number, hole: Number, form: Form = "60") -> Number:
    """Share of the full thread that a hole leaves: (D - hole) / (2 depth)."""
    return plain(np.subtract(major, hole) / (2 * np.asarray(depth(pitch=pitch, form=form))))


def pipe_end_diameter(*, outside: Number, pitch: Number) -> Number:
    """Pitch diameter at the small end of a taper pipe thread [m]: E0 = D - (0.05 D + 1.1) p, D in inch (ASME B1.20.1)."""
    inch = 0.0254
    return plain(np.asarray(outside) - (0.05 * np.asarray(outside) / inch + 1.1) * np.asarray(pitch))


def pipe_effective_length(*, outside: Number, pitch: Number) -> Number:
    """Length of effective taper pipe thread [m]: L2 = (0.80 D + 6.8) p, D in inch (ASME B1.20.1)."""
    inch = 0.0254
    return plain((0.80 * np.asarray(outside) / inch + 6.8) * np.asarray(pitch))


def strip_area(*, diameter: Number, engaged: Number, share: Number = 1.0) -> Number:
    """Shear area of the nut's or hole's thread [m2]: about pi D L x 3/4, less where the thread is not full (Shigley 8-2).

    ``share`` is the share of full thread in contact; ``engaged`` the length in engagement [m]. A bound for sound metal.
    """
    return plain(0.75 * np.pi * np.multiply(diameter, engaged) * share)


def engagement_for(*, stress_area: Number, tensile: Number, diameter: Number, shear: Number, share: Number = 1.0) -> Number:
    """Length [m] at which the hole's thread is as strong as the screw in tension: A sigma / (3/4 pi D tau share)."""
    return plain(np.multiply(stress_area, tensile) / (0.75 * np.pi * np.multiply(diameter, shear) * share))
