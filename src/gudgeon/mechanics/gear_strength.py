"""Stress in spur gear teeth at the torque that they carry: Lewis with Barth's factor, and AGMA's bending and contact formulas.

All in SI; the module is pitch diameter per tooth [m], angles in radian. The load is taken by one tooth at its tip (Lewis), so
that a good pair bears more than this says.
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from gudgeon.mechanics.numbers import Array, Number, plain

Form = Literal["20 full depth", "14.5 full depth", "20 stub"]
Made = Literal["cast", "cut"]

FOOT_PER_MINUTE = 0.3048 / 60

_RACK = 1e9
# Lewis form factor Y, load at the tip. 20 degree: Shigley Table 14-2, from memory, within 2 % of the library gearpy 1.3.1.
# 14.5 degree: handbooks, from memory; a generated root gives figures up to 10 % lower.
_Y: dict[str, tuple[tuple[float, ...], tuple[float, ...]]] = {
    "20 full depth": (
        (12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 24, 26, 28, 30, 34, 38, 43, 50, 60, 75, 100, 150, 300, 400, _RACK),
        (
            0.245, 0.261, 0.277, 0.290, 0.296, 0.303, 0.309, 0.314, 0.322, 0.328, 0.331, 0.337, 0.346, 0.353, 0.359, 0.371,
            0.384, 0.397, 0.409, 0.422, 0.435, 0.447, 0.460, 0.472, 0.480, 0.485,
        ),
    ),
    "14.5 full depth": (
        (12, 14, 16, 18, 20, 24, 30, 40, 50, 100, _RACK),
        (0.210, 0.236, 0.255, 0.270, 0.283, 0.302, 0.318, 0.336, 0.346, 0.365, 0.390),
    ),
}  # fmt: skip


def lewis_factor(*, teeth: Number, form: Form) -> Number:
    """Lewis form factor Y on diametral pitch (W = sigma F m Y), read from the tables straight in 1/N; for 12 teeth and more.

    Stub teeth by Lewis's closed form, pi (0.175 - 0.841 / N) (from memory). NaN below 12 teeth.
    """
    count = np.asarray(teeth, dtype=np.float64)
    if form == "20 stub":
        found: Array = np.asarray(np.pi * (0.175 - 0.841 / count))
    else:
        numbers, factors = _Y[form]
        found = np.interp(-1 / count, -1 / np.asarray(numbers, dtype=np.float64), factors)
    return plain(np.where(count >= 12, found, np.nan))


def lewis_closed_form(*, teeth: Number, form: Form) -> Number:
    """Lewis's own closed forms times pi (Lewis 1892; from memory): .124 - .684/N, .154 - .912/N, .175 - .841/N."""
    first, second = {"14.5 full depth": (0.124, 0.684), "20 full depth": (0.154, 0.912), "20 stub": (0.175, 0.841)}[form]
    return plain(np.pi * (first - second / np.asarray(teeth, dtype=np.float64)))


def pitch_line_speed(*, diameter: Number, speed: Number) -> Number:
    """pi d n / 60 [m/s]; speed in rev/min."""
    return plain(np.pi * np.multiply(diameter, speed) / 60)


def tangential_force(*, torque: Number, diameter: Number) -> Number:
    """2 T / d [N], on the pitch circle."""
    return plain(2 * np.divide(torque, diameter))


def barth_factor(*, velocity: Number, made: Made) -> Number:
    """Barth's factor on the load, not less than 1: (600 + V)/600 for cast, (1200 + V)/1200 for cut teeth, V in ft/min."""
    base = {"cast": 600.0, "cut": 1200.0}[made]
    return plain(1 + np.asarray(velocity, dtype=np.float64) / FOOT_PER_MINUTE / base)


def lewis_stress(*, force: Number, face: Number, module: Number, factor: Number, velocity_factor: Number = 1.0) -> Number:
    """Bending stress at the root [Pa]: Kv W / (F m Y) (Lewis 1892, with Barth's factor). ``face`` is the width in contact."""
    return plain(np.multiply(velocity_factor, force) / (np.multiply(face, module) * factor))


def thinned_stress_factor(*, thickness: Number, thinned: Number) -> Number:
    """How much more a thinned tooth is stressed at its root: (s / (s - w))^2, a beam whose depth is less by the wear.

    An upper bound: teeth wear more on the face and flank than at the root, which the mate never touches.
    """
    left = np.maximum(np.subtract(thickness, thinned), 1e-9)
    return plain(np.square(np.asarray(thickness) / left))


def dynamic_factor(*, velocity: Number, quality: Number) -> Number:
    """AGMA's Kv = ((A + sqrt V) / A)^B, B = .25 (12 - Q)^(2/3), A = 50 + 56 (1 - B), V in ft/min (Shigley 14-27).

    ``quality`` is AGMA's Qv, 3 to 11; teeth cut with a form cutter are about 5 or 6 (from memory).
    """
    b = 0.25 * np.power(12 - np.asarray(quality, dtype=np.float64), 2 / 3)
    a = 50 + 56 * (1 - b)
    return plain(np.power((a + np.sqrt(np.asarray(velocity) / FOOT_PER_MINUTE)) / a, b))


def bending_stress(
    *,
    force: Number,
    face: Number,
    module: Number,
    geometry: Number,
    dynamic: Number = 1.0,
    size: Number = 1.0,
    spread: Number = 1.0,
) -> Number:
    """AGMA bending stress [Pa]: W Kv Ks Km / (F m J) (Shigley 14-15, overload and rim factors 1)."""
    return plain(np.multiply(force, dynamic) * size * spread / (np.multiply(face, module) * geometry))


def contact_geometry(*, angle: Number, ratio: Number) -> Number:
    """AGMA's I of an external spur pair: cos a sin a / 2 x mG / (mG + 1) (Shigley 14-23); mG gear over pinion teeth."""
    return plain(np.cos(angle) * np.sin(angle) / 2 * np.divide(ratio, np.add(ratio, 1)))


def elastic_coefficient(*, modulus: Number, poisson: Number, mate_modulus: Number, mate_poisson: Number) -> Number:
    """AGMA's Cp [sqrt(Pa)]: sqrt(1 / (pi [(1 - v1^2)/E1 + (1 - v2^2)/E2])) (Shigley 14-13)."""
    give = (1 - np.square(poisson)) / modulus + (1 - np.square(mate_poisson)) / mate_modulus
    return plain(np.sqrt(1 / (np.pi * give)))


def contact_stress(
    *,
    force: Number,
    face: Number,
    pinion_diameter: Number,
    geometry: Number,
    elastic: Number,
    dynamic: Number = 1.0,
    size: Number = 1.0,
    spread: Number = 1.0,
) -> Number:
    """AGMA contact stress [Pa]: Cp sqrt(W Kv Ks Km / (d F I)) (Shigley 14-16, overload and surface factors 1)."""
    load = np.multiply(force, dynamic) * size * spread
    return plain(np.asarray(elastic) * np.sqrt(load / (np.multiply(pinion_diameter, face) * geometry)))
