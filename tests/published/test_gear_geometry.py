"""Involute gears against published tables and examples."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.mechanics import gear_geometry as g

A14, A20 = math.radians(14.5), math.radians(20)


# Machinery's Handbook, table of involute functions (the function is exact)
@pytest.mark.parametrize(("degree", "value"), [(14.5, 0.005544843), (20, 0.014904384), (25, 0.029975345), (30, 0.053751493)])
def test_involute_function(degree: float, value: float) -> None:
    assert g.involute(math.radians(degree)) == pytest.approx(value, abs=1e-9)
    assert g.inverse_involute(value) == pytest.approx(math.radians(degree), abs=1e-7)


# Span and over-wire values for 1 DP, wire 1.728: Machinery's Handbook method (its tables carry the same formulas), worked apart
# from this program in double precision. N, M 20, M 14.5, span 20 and the teeth spanned, span 14.5 over 2 and 3.
TABLE = [
    (12, 14.3578, 14.3590, 4.5963, 2, 4.6267, 7.6682),
    (17, 19.3053, 19.3182, 4.6663, 2, 4.6535, 7.6951),
    (18, 20.3840, 20.3989, 7.6324, 3, 4.6589, 7.7004),
    (20, 22.3900, 22.4087, 7.6604, 3, 4.6697, 7.7112),
    (25, 27.3511, 27.3774, 7.7305, 3, 4.6965, 7.7380),
    (30, 32.4102, 32.4429, 10.7526, 4, 4.7233, 7.7649),
    (50, 52.4292, 52.4781, 16.9370, 6, 4.8307, 7.8722),
    (100, 102.4456, 102.5118, None, None, 5.0991, 8.1406),
]


@pytest.mark.parametrize(("n", "m20", "m14", "w20", "k20", "w2", "w3"), TABLE)
def test_spans_and_over_wires(n, m20, m14, w20, k20, w2, w3) -> None:
    half = math.pi / 2
    assert g.over_pins(teeth=n, module=1.0, angle=A20, pin=1.728, thickness=half) == pytest.approx(m20, abs=6e-5)
    assert g.over_pins(teeth=n, module=1.0, angle=A14, pin=1.728, thickness=half) == pytest.approx(m14, abs=6e-5)
    assert g.span(teeth=n, spanned=2, module=1.0, angle=A14) == pytest.approx(w2, abs=6e-5)
    assert g.span(teeth=n, spanned=3, module=1.0, angle=A14) == pytest.approx(w3, abs=6e-5)
    if w20 is not None:
        assert g.span(teeth=n, spanned=k20, module=1.0, angle=A20) == pytest.approx(w20, abs=6e-5)
        assert g.teeth_to_span(teeth=n, angle=A20) == k20


# practicalmachinist.com, telling the pressure angle of a 10 DP gear: over one tooth more is .304 at 14.5, .295 at 20 degree
def test_base_pitch_tells_the_angle() -> None:
    inch = 1 / 10
    assert g.base_pitch(module=inch, angle=A14) == pytest.approx(0.304, abs=5e-4)
    assert g.base_pitch(module=inch, angle=A20) == pytest.approx(0.295, abs=5e-4)


# SDP/SI, Elements of Metric Gear Technology, Table 10-1: m 10, 20 degree, z 12, x +0.3, ha 13
def test_chordal_thickness_and_addendum() -> None:
    s = g.tooth_thickness(module=10.0, angle=A20, shift=0.3)
    assert s == pytest.approx(17.8918, abs=5e-5)
    assert math.degrees(s / 120.0) == pytest.approx(8.54270, abs=5e-6)
    assert g.chordal_thickness(thickness=s, diameter=120.0) == pytest.approx(17.8256, abs=5e-5)
    outside = g.outside_diameter(teeth=12, module=10.0, shift=0.3)
    assert outside == pytest.approx(146.0)
    assert g.chordal_addendum(outside=outside, diameter=120.0, thickness=s) == pytest.approx(13.6657, abs=5e-5)


# Table 10-2 of the same: a rack of m 3 has 4.7124 straight across, at 3.0000 below its tip
def test_a_very_large_gear_is_a_rack() -> None:
    d = 3.0 * 1e6
    assert g.chordal_thickness(thickness=g.tooth_thickness(module=3.0, angle=A20), diameter=d) == pytest.approx(
        4.7124, abs=5e-5
    )


# 17/52 also by the library py-gearworks 0.0.24: 1.638106; the rest by the formula of Shigley 13-6 worked apart
@pytest.mark.parametrize(
    ("n", "mate", "angle", "ratio"),
    [
        (17, 52, A20, 1.6381), (16, 40, A20, 1.6061), (20, 40, A20, 1.6352), (24, 24, A20, 1.6019), (30, 30, A20, 1.6535),
        (14, 28, A14, 1.7816), (20, 60, A14, 1.9868), (24, 48, A14, 1.9875),
    ],
)  # fmt: skip
def test_contact_ratio(n: int, mate: int, angle: float, ratio: float) -> None:
    found = g.contact_ratio(
        teeth=n, mate_teeth=mate, module=1.0, angle=angle, outside=n + 2, mate_outside=mate + 2, centres=(n + mate) / 2
    )
    assert found == pytest.approx(ratio, abs=6e-5)


def test_tips_off_and_centres_apart_take_from_the_contact() -> None:
    def ratio(**more):
        size = {"outside": 26.0, "mate_outside": 50.0, "centres": 36.0, **more}
        return g.contact_ratio(teeth=24, mate_teeth=48, module=1.0, angle=A14, **size)

    assert ratio(outside=25.9) < ratio()
    assert ratio(centres=36.05) < ratio()


# SDP/SI, Table 4-4 and its example: z 12 and 24, m 3, 20 degree, x 0.6 and 0.36: working angle 26.0886 degree, centres 56.4999
def test_shifted_pair_of_the_handbook() -> None:
    centres = g.centre_distance(teeth=12, mate_teeth=24, module=3.0, angle=A20, shift_sum=0.96)
    assert centres == pytest.approx(56.4999, abs=2e-4)
    assert math.degrees(
        g.working_angle(teeth=12, mate_teeth=24, module=3.0, angle=A20, centres=centres)
    ) == pytest.approx(26.0886, abs=2e-4)  # fmt: skip


# Shigley 13-7: least pinion without interference on a rack, 17.1 at 20 degree, and 31.9 at 14.5
def test_least_teeth() -> None:
    assert g.least_teeth(angle=A20) == pytest.approx(17.1, abs=0.05)
    assert g.least_teeth(angle=A14) == pytest.approx(31.9, abs=0.05)


# US Navy Machinery Repairman 14345, App. III: whole depth is .6866 of the circular pitch
def test_whole_depth() -> None:
    whole = (g.outside_diameter(teeth=30, module=1.0) - g.root_diameter(teeth=30, module=1.0)) / 2
    assert whole == pytest.approx(0.6866 * math.pi, abs=1e-4)


def test_backlash_of_plain_centres_and_of_centres_set_apart() -> None:
    s1, s2, m = math.pi / 2 - 0.002, math.pi / 2 - 0.003, 1.0
    size = {"thickness": s1, "mate_thickness": s2, "teeth": 24, "mate_teeth": 48, "module": m, "angle": A14}
    assert g.backlash(**size, centres=36.0) == pytest.approx(0.005, abs=1e-12)
    # twice the tangent of the pressure angle per unit of centre distance: Machinery's Handbook, backlash
    more = g.backlash(**size, centres=36.01) - g.backlash(**size, centres=36.0)
    assert more == pytest.approx(2 * 0.01 * math.tan(A14), rel=0.01)


@given(teeth=st.integers(12, 120), angle=st.sampled_from([A14, A20]), thinned=st.floats(0, 0.15), shift=st.floats(-0.3, 0.5))
def test_there_and_back(teeth: int, angle: float, thinned: float, shift: float) -> None:
    thickness = g.tooth_thickness(module=1.0, angle=angle, shift=shift) - thinned
    k = int(g.teeth_to_span(teeth=teeth, angle=angle))
    read = g.span(teeth=teeth, spanned=k, module=1.0, angle=angle, shift=shift, thinned=thinned)
    back = g.thinned_by_span(measured=read, teeth=teeth, spanned=k, module=1.0, angle=angle, shift=shift)
    assert back == pytest.approx(thinned, abs=1e-9)
    over = g.over_pins(teeth=teeth, module=1.0, angle=angle, pin=1.9, thickness=thickness)
    assert g.thickness_by_pins(measured=over, teeth=teeth, module=1.0, angle=angle, pin=1.9) == pytest.approx(
        thickness, abs=1e-9
    )
    chord = g.chordal_thickness(thickness=thickness, diameter=float(teeth))
    assert g.arc_of_chord(chord=chord, diameter=float(teeth)) == pytest.approx(thickness, abs=1e-9)


def test_formulas_broadcast() -> None:
    teeth = np.array([12.0, 20.0, 30.0])
    spans = g.span(teeth=teeth, spanned=2, module=1.0, angle=A14)
    assert np.allclose(spans, [4.6267, 4.6697, 4.7233], atol=6e-5)
    assert isinstance(g.involute(A20), float)
