"""Threads worn and measured on paper, by a generator of its own, and named again."""

from __future__ import annotations

import math
import random

import pytest

from gudgeon.metrology.thread_identity import identify_thread, same_cut, what_would_tell

INCH, THOU = 0.0254, 0.0254e-3

# diameter [in], threads per inch, flank angle, series; ASME B1.1 and a Whitworth table (studylib.net 18133655)
MADE = [
    *((d, n, 60.0, "USS / NC") for d, n in ((0.25, 20), (0.3125, 18), (0.375, 16), (0.4375, 14), (0.5, 13), (0.5625, 12))),
    *((d, n, 60.0, "USS / NC") for d, n in ((0.625, 11), (0.75, 10), (0.875, 9), (1.0, 8))),
    *((d, n, 60.0, "SAE / NF") for d, n in ((0.25, 28), (0.3125, 24), (0.375, 24), (0.4375, 20), (0.5, 20), (0.5625, 18))),
    *((d, n, 60.0, "SAE / NF") for d, n in ((0.625, 18), (0.75, 16), (0.875, 14), (0.875, 18))),
    *((d, n, 55.0, "BSW") for d, n in ((0.25, 20), (0.375, 16), (0.5, 12), (0.625, 11), (0.75, 10))),
    *((d, n, 60.0, "machine screw coarse") for d, n in ((0.164, 32), (0.190, 24))),
    *((d / 25.4, 25.4 / p, 60.0, "metric coarse") for d, p in ((6.0, 1.0), (8.0, 1.25), (10.0, 1.5))),
    (18.0 / 25.4, 25.4 / 1.5, 60.0, "metric fine"),
]


def one(chance: random.Random) -> str:
    diameter, per_inch, flank, series = chance.choice(MADE)
    outside = diameter * INCH - abs(chance.gauss(3.0, 2.0)) * THOU
    pitches = min(10, int(per_inch * 0.6))
    length = pitches / per_inch * INCH * (1 + chance.gauss(0, 0.0015))
    step = THOU
    outside, length = round(outside / step) * step, round((length + chance.gauss(0, 1.0) * THOU) / step) * step
    tried = chance.random() < 0.5
    candidates = identify_thread(
        outside=outside,
        outside_uncertainty=0.7 * THOU,
        pitch=length / pitches,
        pitch_uncertainty=1.2 * THOU / pitches,
        flank=flank if tried else None,
    )

    def true(each) -> bool:
        thread = each.thread
        return abs(thread.major - diameter * INCH) < 1e-5 and abs(thread.per_inch / per_inch - 1) < 1e-3

    if not candidates:
        return "wrong"
    alike = same_cut(candidates)
    cut = math.fsum(each.probability for each in alike)
    named = [each for each in candidates if each.probability > 0.02]
    if true(candidates[0]) and cut > 0.5:
        forms = {each.thread.flank_angle for each in alike if each.probability > 0.03}
        if flank in forms and (len(forms) == 1 or what_would_tell(candidates, pitch_read=True, flank_read=tried)):
            return "right" if len(forms) == 1 and series in {each.thread.series for each in alike} else "ambiguous"
        return "wrong"
    told = what_would_tell(candidates, pitch_read=True, flank_read=tried)
    return "ambiguous" if cut <= 0.95 and any(true(each) for each in named) and told else "wrong"


@pytest.mark.parametrize("seed", [1, 2, 3, 4])
def test_worn_threads_are_named_or_rightly_left_open(seed: int) -> None:
    chance = random.Random(seed)
    found = [one(chance) for _ in range(100)]
    assert found.count("wrong") <= 3
    assert found.count("right") >= 60


def test_an_old_half_inch_of_twelve_is_open_until_its_flank_is_tried() -> None:
    # 1/2-12 was cut to sixty degree by some early shops, and is Whitworth's
    read = {"outside": 0.497 * INCH, "outside_uncertainty": 0.7 * THOU, "pitch": INCH / 12, "pitch_uncertainty": 0.1 * THOU}
    candidates = identify_thread(**read)
    assert {each.thread.series for each in same_cut(candidates)} >= {"BSW", "early USS"}
    assert "flank" in what_would_tell(candidates, pitch_read=True, flank_read=False)
    assert same_cut(identify_thread(**read, flank=55.0))[0].thread.series == "BSW"
