"""Involute spur gears: form, thickness and the ways to measure it, centres, backlash, contact.

The module is pitch diameter per tooth [m], whatever system it is written in; angles are in radian; sizes "in modules" are
divided by it. Method throughout: Machinery's Handbook, and SDP/SI, Elements of Metric Gear Technology, sections 4 to 10.
"""

from __future__ import annotations

import numpy as np

from gudgeon.mechanics.numbers import Number, plain


def involute(angle: Number) -> Number:
    """inv a = tan a - a (Machinery's Handbook); a in radian, below a quarter turn."""
    return plain(np.tan(angle) - np.asarray(angle))


def inverse_involute(value: Number) -> Number:
    """The angle [rad] whose involute function is a value, by Newton's method; NaN below nought. Holds to 1e-14 up to 1.1."""
    wanted = np.asarray(value, dtype=np.float64)
    safe = np.maximum(wanted, 1e-12)
    angle = np.minimum(np.cbrt(3 * safe), 1.45)
    for _ in range(25):
        slope = np.square(np.tan(angle))
        angle = angle - (np.tan(angle) - angle - safe) / slope
    return plain(np.where(wanted < 0, np.nan, np.where(wanted <= 1e-12, 0.0, angle)))


def pitch_diameter(*, teeth: Number, module: Number) -> Number:
    """N m [m]."""
    return plain(np.multiply(teeth, module))


def base_diameter(*, teeth: Number, module: Number, angle: Number) -> Number:
    """N m cos a [m]."""
    return plain(np.multiply(teeth, module) * np.cos(angle))


def base_pitch(*, module: Number, angle: Number) -> Number:
    """pi m cos a [m]: distance of neighbouring flanks along the line of action, whatever has worn off both alike."""
    return plain(np.pi * np.multiply(module, np.cos(angle)))


def outside_diameter(*, teeth: Number, module: Number, addendum: Number = 1.0, shift: Number = 0.0) -> Number:
    """(N + 2 (addendum + shift)) m [m]; addendum and shift in modules."""
    return plain((np.asarray(teeth) + 2 * (np.asarray(addendum) + shift)) * module)


def root_diameter(*, teeth: Number, module: Number, dedendum: Number = 1.157, shift: Number = 0.0) -> Number:
    """(N - 2 (dedendum - shift)) m [m]; 1.157 is Brown & Sharpe's, whole depth .6866 of the circular pitch (tpub.com 14345)."""
    return plain((np.asarray(teeth) - 2 * (np.asarray(dedendum) - shift)) * module)


def tooth_thickness(*, module: Number, angle: Number, shift: Number = 0.0) -> Number:
    """Arc thickness at the pitch circle without backlash [m]: m (pi/2 + 2 x tan a) (SDP/SI, Table 10-1)."""
    return plain(np.multiply(module, np.pi / 2 + 2 * np.multiply(shift, np.tan(angle))))


def thickness_at(*, diameter: Number, thickness: Number, teeth: Number, module: Number, angle: Number) -> Number:
    """Arc thickness [m] at another diameter [m]: d (s/(N m) + inv a - inv a_d), cos a_d = N m cos a / d.

    NaN below the base circle, where there is no involute.
    """
    at = np.asarray(diameter, dtype=np.float64)
    pitch = np.multiply(teeth, module)
    ratio = np.asarray(pitch * np.cos(angle) / at)
    there = np.arccos(np.where(ratio <= 1 + 1e-12, np.minimum(ratio, 1.0), np.nan))
    return plain(at * (np.asarray(thickness) / pitch + involute(angle) - involute(plain(there))))


def teeth_to_span(*, teeth: Number, angle: Number) -> Number:
    """How many teeth to span so that the jaws touch near the pitch line: N a / pi + 1/2, to the nearest (SDP/SI 10.2)."""
    return plain(np.maximum(np.floor(np.multiply(teeth, angle) / np.pi + 1 + 1e-9), 2.0))


def span(
    *, teeth: Number, spanned: Number, module: Number, angle: Number, shift: Number = 0.0, thinned: Number = 0.0
) -> Number:
    """Span over k teeth [m]: m cos a [(k - 1/2) pi + N inv a] + 2 x m sin a - thinned cos a (SDP/SI 10.2).

    ``thinned`` is by how much each tooth is thinner on the pitch line than pi m / 2 [m], both flanks together.
    """
    plain_span = np.cos(angle) * ((np.asarray(spanned) - 0.5) * np.pi + np.multiply(teeth, involute(angle)))
    shifted = 2 * np.multiply(shift, np.sin(angle))
    return plain(np.multiply(module, plain_span + shifted) - np.multiply(thinned, np.cos(angle)))


def thinned_by_span(
    *, measured: Number, teeth: Number, spanned: Number, module: Number, angle: Number, shift: Number = 0.0
) -> Number:
    """By how much the teeth are thinner on the pitch line than without backlash [m]; the other way round of ``span``."""
    whole = span(teeth=teeth, spanned=spanned, module=module, angle=angle, shift=shift)
    return plain((whole - np.asarray(measured)) / np.cos(angle))


def over_pins(*, teeth: Number, module: Number, angle: Number, pin: Number, thickness: Number) -> Number:
    """Measurement over two pins [m] in opposite (or nearly opposite, odd count) spaces.

    inv p = s/(N m) + inv a + d/(N m cos a) - pi/N;  M = N m cos a / cos p + d, with a factor cos(90 deg / N) on the first term
    for an odd count (Machinery's Handbook). ``pin`` is its diameter, ``thickness`` the arc thickness on the pitch line [m].
    """
    count = np.asarray(teeth, dtype=np.float64)
    pitch = count * module
    base = pitch * np.cos(angle)
    at = inverse_involute(plain(np.asarray(thickness) / pitch + involute(angle) + np.asarray(pin) / base - np.pi / count))
    factor = np.where(np.mod(count, 2) == 0, 1.0, np.cos(np.pi / (2 * count)))
    return plain(base / np.cos(at) * factor + pin)


def thickness_by_pins(*, measured: Number, teeth: Number, module: Number, angle: Number, pin: Number) -> Number:
    """Arc thickness on the pitch line [m] from a measurement over pins; the other way round of ``over_pins``."""
    count = np.asarray(teeth, dtype=np.float64)
    pitch = count * module
    base = pitch * np.cos(angle)
    factor = np.where(np.mod(count, 2) == 0, 1.0, np.cos(np.pi / (2 * count)))
    ratio = base * factor / (np.asarray(measured) - pin)
    at = plain(np.arccos(np.clip(ratio, -1.0, 1.0)))
    return plain(pitch * (np.asarray(involute(at)) - involute(angle) - np.asarray(pin) / base + np.pi / count))


def chordal_thickness(*, thickness: Number, diameter: Number) -> Number:
    """Straight across a tooth [m] that is ``thickness`` along the arc of ``diameter``: d sin(s/d) (SDP/SI, Table 10-1)."""
    return plain(np.multiply(diameter, np.sin(np.divide(thickness, diameter))))


def arc_of_chord(*, chord: Number, diameter: Number) -> Number:
    """The arc thickness [m] of a chord read with the gear-tooth calliper: d asin(c/d)."""
    return plain(np.multiply(diameter, np.arcsin(np.divide(chord, diameter))))


def chordal_addendum(*, outside: Number, diameter: Number, thickness: Number) -> Number:
    """Depth to set on the gear-tooth calliper [m]: (Do - d)/2 + d/2 (1 - cos(s/d)) (SDP/SI, Table 10-1)."""
    drop = np.divide(diameter, 2) * (1 - np.cos(np.divide(thickness, diameter)))
    return plain(np.subtract(outside, diameter) / 2 + drop)


def centre_distance(
    *, teeth: Number, mate_teeth: Number, module: Number, angle: Number = 0.0, shift_sum: Number = 0.0
) -> Number:
    """Centre distance without backlash [m].

    (N1 + N2) m / 2 where the shifts cancel; else with the working angle from
    inv aw = inv a + 2 tan a (x1 + x2) / (N1 + N2) and C = (N1 + N2) m cos a / (2 cos aw) (SDP/SI, Table 4-4).
    """
    both = np.add(teeth, mate_teeth)
    standard = both * np.asarray(module) / 2
    if not np.any(np.asarray(shift_sum)):
        return plain(standard)
    there = inverse_involute(plain(np.asarray(involute(angle)) + 2 * np.tan(angle) * np.asarray(shift_sum) / both))
    return plain(standard * np.cos(angle) / np.cos(there))


def working_angle(*, teeth: Number, mate_teeth: Number, module: Number, angle: Number, centres: Number) -> Number:
    """Pressure angle at which a pair really works [rad]: cos aw = (N1 + N2) m cos a / (2 C); NaN where they cannot mesh."""
    ratio = np.add(teeth, mate_teeth) * np.asarray(module) * np.cos(angle) / (2 * np.asarray(centres))
    return plain(np.arccos(np.where(ratio <= 1, ratio, np.nan)))


def backlash(
    *,
    thickness: Number,
    mate_thickness: Number,
    teeth: Number,
    mate_teeth: Number,
    module: Number,
    angle: Number,
    centres: Number,
) -> Number:
    """Play on the working pitch circle [m]: working circular pitch less both teeth's arc there.

    Thicknesses are those on the cutting pitch circles N m. With standard centres it is pi m - s1 - s2; a centre distance too
    great by e adds very nearly 2 e tan a.
    """
    both = np.add(teeth, mate_teeth)
    whole = 2 * np.pi * np.asarray(centres) / both
    rolled = np.asarray(
        thickness_at(
            diameter=plain(2 * np.multiply(centres, teeth) / both),
            thickness=thickness,
            teeth=teeth,
            module=module,
            angle=angle,
        )
    )
    mate = np.asarray(
        thickness_at(
            diameter=plain(2 * np.multiply(centres, mate_teeth) / both),
            thickness=mate_thickness,
            teeth=mate_teeth,
            module=module,
            angle=angle,
        )
    )
    return plain(whole - rolled - mate)


def contact_ratio(
    *,
    teeth: Number,
    mate_teeth: Number,
    module: Number,
    angle: Number,
    outside: Number,
    mate_outside: Number,
    centres: Number,
) -> Number:
    """Mean number of pairs of teeth in contact.

    [sqrt(ra1^2 - rb1^2) + sqrt(ra2^2 - rb2^2) - C sin aw] / (pi m cos a), aw the working angle (Shigley 13-6; SDP/SI 9.1).
    Outside diameters are those that still touch [m]: rounded or worn tips take from it. Undercut is not counted.
    """
    base_1 = np.asarray(base_diameter(teeth=teeth, module=module, angle=angle)) / 2
    base_2 = np.asarray(base_diameter(teeth=mate_teeth, module=module, angle=angle)) / 2
    there = working_angle(teeth=teeth, mate_teeth=mate_teeth, module=module, angle=angle, centres=centres)
    out_1 = np.sqrt(np.maximum(np.square(np.divide(outside, 2)) - np.square(base_1), 0.0))
    out_2 = np.sqrt(np.maximum(np.square(np.divide(mate_outside, 2)) - np.square(base_2), 0.0))
    path = out_1 + out_2 - np.multiply(centres, np.sin(there))
    return plain(path / base_pitch(module=module, angle=angle))


def least_teeth(*, angle: Number, addendum: Number = 1.0) -> Number:
    """Fewest teeth without undercut by a rack: 2 a / sin^2 of the angle (Shigley 13-7): 31.9 at 14.5, 17.1 at 20 degree."""
    return plain(2 * np.asarray(addendum) / np.square(np.sin(angle)))


def least_shift(*, teeth: Number, angle: Number, addendum: Number = 1.0) -> Number:
    """Least profile shift, in modules, that keeps a tooth free of undercut: a - N sin^2(angle) / 2; none below nought."""
    return plain(np.maximum(np.asarray(addendum) - np.multiply(teeth, np.square(np.sin(angle))) / 2, 0.0))
