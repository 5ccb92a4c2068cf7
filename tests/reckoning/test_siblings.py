"""The sum over siblings on simple shapes whose answer is known without it."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.reckoning.habits import resizing
from gudgeon.reckoning.lattice import INCH, THOU, lattice
from gudgeon.reckoning.siblings import Reconstructed, Siblings, groundwork, interval, reconstruct
from gudgeon.reckoning.wear import Spot

TENTH = 1e-4 * INCH


def solved(
    *instances: list[tuple[float, str]],
    sign: int = 1,
    family: str = "bore",
    own: float = 2 * TENTH,
    offset: float = 0.0,
    spread: float = 3 * TENTH,
    allowed: bool = True,
) -> Reconstructed:
    """Instances as (inch, place) spots."""
    siblings = Siblings(
        instances=tuple(tuple(Spot(sign * size * INCH, own, place) for size, place in spots) for spots in instances),
        sign=sign,
        offset=offset,
        spread=spread,
        usual_wear=2 * THOU,
    )
    work = groundwork(siblings)
    ends = sorted((sign * work.grid[0], sign * work.grid[-1]))
    sizes = lattice(family, int(ends[0] / THOU) - 130, int(ends[1] / THOU) + 130)
    return reconstruct(work, sizes, resizing(family, allowed))


def likeliest(answer: Reconstructed) -> tuple[float, float]:
    best = int(np.argmax(answer.chances))
    return round(float(answer.nominal[best]) / INCH, 4), round(float(answer.rework[best]) / INCH, 4)


def chance_near(answer: Reconstructed, inch: float) -> float:
    return float(answer.chances[np.abs(answer.nominal / INCH - inch) < 0.00051].sum())


def held(answer: Reconstructed, number: int, inch: float) -> bool:
    low, high = interval(answer.grid, answer.density[number])
    return bool(low <= inch * INCH <= high)


UNWORN = [(4.1251, "unworn"), (4.1249, "unworn"), (4.1290, "most")]


def test_chances_and_densities_add_up_to_one() -> None:
    answer = solved(UNWORN, UNWORN)
    assert answer.chances.sum() == pytest.approx(1.0)
    assert answer.density.sum(axis=1) == pytest.approx(np.ones(2))
    assert answer.raised.sum(axis=1) == pytest.approx(np.ones(2))


def test_an_unworn_place_tells_the_size_when_new() -> None:
    answer = solved(UNWORN)
    assert likeliest(answer) == (4.125, 0.0)
    assert held(answer, 0, 4.1250)
    low, high = interval(answer.grid, answer.density[0])
    assert high - low < 1.0 * THOU


def test_a_shaft_is_a_hole_seen_in_a_mirror() -> None:
    """The same departures from 2 in, wear taking instead of adding, give the same chances mirrored about 2 in where the sizes
    of the lattice are symmetrical (whole, unworn, no re-sizing)."""
    hole = solved([(2.0002, "unworn"), (2.0020, "most")], family="length", allowed=False)
    shaft = solved([(1.9998, "unworn"), (1.9980, "most")], family="length", allowed=False, sign=-1)
    assert likeliest(hole) == likeliest(shaft) == (2.0, 0.0)
    for away in (0.0, 0.001, 0.002):
        assert chance_near(hole, 2 + away) == pytest.approx(chance_near(shaft, 2 - away), abs=0.02)


def test_wear_is_never_negative() -> None:
    """A hole that reads 4.1251 in where it is worn most was never cut to 4.127."""
    answer = solved([(4.1251, "most"), (4.1249, "some")])
    assert chance_near(answer, 4.127) < 0.002


def test_all_from_worn_places_is_wide() -> None:
    worn = solved([(4.1290, "most"), (4.1280, "most")])
    unworn = solved(UNWORN)
    widths = [np.ptp(interval(each.grid, each.density[0])) for each in (worn, unworn)]
    assert widths[0] > 3 * widths[1]
    assert worn.chances.max() < unworn.chances.max() - 0.1


def test_one_reading_is_never_sure() -> None:
    assert solved([(4.1312, "unknown")]).chances.max() < 0.6


def test_siblings_make_surer() -> None:
    """A size off the fraction is believed when four alike stand on it."""
    spots = [(3.8761, "unworn"), (3.8759, "unworn")]
    one, four = solved(spots), solved(spots, spots, spots, spots)
    assert chance_near(four, 3.876) >= chance_near(one, 3.876)
    assert likeliest(four) == (3.876, 0.0)


def test_each_instance_keeps_its_own_size() -> None:
    answer = solved([(4.1243, "unworn")], [(4.1250, "unworn")], [(4.1257, "unworn")])
    means = [float(answer.grid @ row) / INCH for row in answer.density]
    assert means == sorted(means)
    assert means[2] - means[0] > 0.0006


def test_a_bore_bored_over_keeps_its_nominal() -> None:
    """Four alike at 4.1450: 4 1/8 bored over by the usual .020, though 4.145 itself is a size too."""
    spots = [(4.1451, "unworn"), (4.1449, "unworn")]
    answer = solved(spots, spots, spots, spots)
    assert likeliest(answer) == (4.125, 0.02)
    assert held(answer, 0, 4.1450)


def test_a_crankpin_ground_under_keeps_its_nominal() -> None:
    answer = solved([(1.4701, "unworn")], [(1.4699, "unworn")], sign=-1, family="journal")
    assert likeliest(answer) == (1.5, -0.03)


def test_pistons_are_made_over_not_under() -> None:
    answer = solved([(4.1398, "unworn")], [(4.1402, "unworn")], sign=-1, family="piston")
    over, under = (float(answer.chances[sign * answer.rework > 1e-6].sum()) for sign in (1, -1))
    assert over > 0.05
    assert under == 0.0


def test_a_gauges_doubtful_zero_widens_the_size_but_not_what_shares_it() -> None:
    sharp, doubtful = solved(UNWORN), solved(UNWORN, offset=6 * TENTH)
    width = {name: np.ptp(interval(each.grid, each.density[0])) for name, each in (("sharp", sharp), ("doubtful", doubtful))}
    raised = np.ptp(interval(doubtful.grid, doubtful.raised[0]))
    assert width["doubtful"] > 1.5 * width["sharp"]
    assert raised < width["doubtful"]


def test_one_stray_spot_does_not_carry_the_instance_away() -> None:
    answer = solved([(4.1250, "unworn"), (4.1251, "unworn"), (4.1249, "unworn"), (4.1100, "unworn")])
    assert likeliest(answer)[0] == 4.125


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 15), st.floats(-0.0002, 0.0002))
def test_a_shift_of_a_whole_inch_shifts_the_answer(sixteenths: int, error: float) -> None:
    size = 3 + sixteenths / 16
    spots = [(size + error, "unworn"), (size + error, "unworn")]
    further = [(each + 1, place) for each, place in spots]
    assert likeliest(solved(further))[0] == pytest.approx(likeliest(solved(spots))[0] + 1, abs=0.00051)
