"""Threads and pitches against published tables."""

from __future__ import annotations

import pytest

from gudgeon.handbook import gear_pitches, pressure_angles, threads
from gudgeon.handbook.threads import all_threads

IN = 0.0254


def per_inch(series: str) -> dict[float, float]:
    return {round(thread.major / IN, 5): round(thread.per_inch, 6) for thread in all_threads() if thread.series == series}


# studylib.net 18133655, Whitworth table
def test_whitworth():
    table = {0.25: 20, 0.3125: 18, 0.375: 16, 0.4375: 14, 0.5: 12, 0.625: 11, 0.75: 10, 0.875: 9, 1.0: 8, 1.5: 6, 2.0: 4.5}
    found = per_inch("BSW")
    assert {size: found[size] for size in table} == table


# stuegli.com/screws.htm: NC and NF, and the machine-screw diameters; 7/16-20 and 1/2-20 by motormayhem.net
def test_united_states_series():
    coarse, fine = per_inch("USS / NC"), per_inch("SAE / NF")
    assert [coarse[size] for size in (0.25, 0.3125, 0.375, 0.4375, 0.5)] == [20, 18, 16, 14, 13]
    assert [fine[size] for size in (0.25, 0.3125, 0.375, 0.4375, 0.5)] == [28, 24, 24, 20, 20]
    assert per_inch("machine screw coarse") == {0.112: 40, 0.138: 32, 0.164: 32, 0.190: 24}


def test_old_machine_screws_follow_their_rule():
    # ASME machine screws: diameter .060 + .013 n
    for thread in all_threads():
        if thread.series == "old machine screw":
            number = int(thread.written.removeprefix("No. ").split("-")[0])
            assert thread.major / IN == pytest.approx(0.060 + 0.013 * number)


# ASME B1.20.1: E0 = D - (0.05 D + 1.1) p
@pytest.mark.parametrize(
    ("written", "pitch_diameter"),
    [("1/8 pipe", 0.36351), ("1/4 pipe", 0.47739), ("1/2 pipe", 0.75843), ("1 pipe", 1.21363), ("2 pipe", 2.26902)],
)
def test_pipe_threads(written, pitch_diameter):
    thread = next(each for each in all_threads() if each.written == written)
    assert (thread.major - (0.05 * thread.major / IN + 1.1) * thread.pitch) / IN == pytest.approx(pitch_diameter, abs=6e-6)
    assert thread.taper == 1 / 16


# BA: pitch 0.9^n mm, diameter 6 p^1.2, both to two figures (British Association 1884)
def test_british_association():
    for thread in all_threads():
        if thread.series == "BA":
            pitch = 0.9 ** int(thread.written.split()[0])
            assert thread.pitch * 1e3 == pytest.approx(pitch, abs=0.0051)
            assert thread.major * 1e3 == pytest.approx(6 * pitch**1.2, abs=0.051)


def test_half_inch_has_more_than_one_reading():
    found = {thread.written for thread in threads(low=0.498 * IN, high=0.502 * IN)}
    assert {"1/2-13", "1/2-12", "1/2-20", "1/2 BSW"} <= found


def test_tapping_drill_leaves_three_quarters_of_thread():
    # ASME B1.1, 60 degree form: depth share = (D - drill) / (1.299 p); drills as listed at stuegli.com
    for thread in all_threads():
        if thread.tapping_drill is not None:
            share = (thread.major - thread.tapping_drill) / (1.299 * thread.pitch)
            assert 0.68 < share < 0.84, thread.written


def test_pitches_easily_mistaken_for_each_other():
    # practicalmachinist/homeshopmachinist: 16 DP has a circular pitch of 4.987 mm, hard to tell from 5 mm
    sixteen = next(pitch for pitch in gear_pitches() if pitch.written == "16 DP")
    assert sixteen.module * 3.14159265 * 1e3 == pytest.approx(4.987, abs=5e-4)
    assert sixteen.module * 1e3 == pytest.approx(1.5875)
    assert sixteen.diametral_pitch == pytest.approx(16)
    assert pressure_angles()[14.5] > pressure_angles()[20.0]
