"""Candidate sizes: which come, how they are written, how they weigh."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gudgeon.handbook import families, named_sizes, oversizes, sizes

IN = 0.0254


def written(name: str, low: float, high: float, **more) -> dict[str, float]:
    return {size.written: size.weight for size in sizes(name, low=low * IN, high=high * IN, **more)}


# Ford Service Bulletin, Model A clearances and limits (1928-31): bore 3.876, crankpin 1.499, main 1.624, cam 1.560,
# and stem .311 (motormayhem.net): makers' real sizes, each a thou or two off a fraction.
@pytest.mark.parametrize(
    ("family", "inch", "as_written"),
    [
        ("bore", 3.876, "3 7/8 +.001"),
        ("journal", 1.499, "1 1/2 −.001"),
        ("journal", 1.624, "1 5/8 −.001"),
        ("shaft", 1.560, "1 9/16 −.0025"),
        ("stem", 0.311, "5/16 −.0015"),
        ("pin", 1.000, "1"),
    ],
)
def test_sizes_that_makers_really_used_are_offered(family, inch, as_written):
    found = sizes(family, low=(inch - 0.003) * IN, high=(inch + 0.003) * IN)
    near = [size for size in found if abs(size.nominal - inch * IN) < 1e-9]
    assert [size.written for size in near] == [as_written]
    assert near[0].weight > 10 * min(size.weight for size in found)


def test_coarser_fractions_weigh_more():
    found = written("bore", 3.99, 4.51, standards=("inch fraction",))
    assert found["4"] > found["4 1/2"] > found["4 1/4"] > found["4 1/8"] > found["4 1/16"] > found["4 1/32"] > found["4 1/64"]


def test_a_size_is_listed_once_and_in_order():
    for name in families():
        found = [size.nominal for size in sizes(name, low=0.0099, high=0.0128)]
        assert found == sorted(found)
        assert min((b - a for a, b in itertools.pairwise(found)), default=1.0) > 0.5e-9


def test_metric_and_drill_sizes_come_too():
    assert "98 mm" in written("bore", 3.85, 3.86)
    assert "drill F" in written("hole", 0.256, 0.258)
    assert "No. 7" in written("hole", 0.2005, 0.2015)


def test_a_nonsense_range_is_refused_in_words():
    with pytest.raises(ValueError, match="the low end must come first"):
        sizes("bore", low=0.2, high=0.1)
    with pytest.raises(ValueError, match="two inches"):
        sizes("bore", low=0.0, high=0.1)


@given(st.integers(2, 8 * 16))
def test_every_sixteenth_is_a_candidate_bore(sixteenths):
    size = sixteenths / 16 * IN
    assert any(abs(each.nominal - size) < 1e-9 for each in sizes("bore", low=size - 1e-5, high=size + 1e-5))


# powertoolstoday.com and slashgear.com drill tables
def test_number_drills():
    table = {size.written: round(size.nominal / IN, 4) for size in named_sizes("number drills")}
    seen = {
        "No. 1": 0.2280,
        "No. 4": 0.2090,
        "No. 7": 0.2010,
        "No. 10": 0.1935,
        "No. 21": 0.1590,
        "No. 25": 0.1495,
        "No. 80": 0.0135,
    }
    assert {name: table[name] for name in seen} == seen
    inches = [table[f"No. {n}"] for n in range(1, 81)]
    assert inches == sorted(inches, reverse=True)


def test_letter_drills():
    table = {size.written: round(size.nominal / IN, 3) for size in named_sizes("letter drills")}
    assert (table["drill A"], table["drill E"], table["drill Q"], table["drill Z"]) == (0.234, 0.250, 0.332, 0.413)


# SAE standard of 1917, Pagé, Aviation Engines (1917), ch. XI
def test_oversizes_of_1917():
    rows = {row.written for row in oversizes("cylinder") if "1917" in row.source}
    assert rows == {"+.010", "+.020", "+.030", "+.040"}
